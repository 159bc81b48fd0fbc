# The page: build/page/panewright.html, site/ and run.mjs. Included by the Makefile.
PAGE := $(BUILD)/page
PAGE_LIBS = zlib libcsv jansson expat libunistring suitesparse gsl
page_lib = $(PAGE_LIBS:%=$(PAGE)/deps/lib/lib%.a)
page_tools := src/page/tools
PAGE_DEB = emscripten clang nodejs dpkg-dev ca-certificates libdeflate-tools
EMCC_ENV = NODE_PATH=/usr/share/nodejs PATH=/usr/bin:$$PATH

.PHONY: page test-page page-deps page-browser page-objects page-engine test-page-engine test-page-jobs bench-page-engine bench-page

page-deps: deps
	@sh .ci/deps.sh $(PAGE_DEB) $$(command -v npm >/dev/null || echo npm) # some builds of nodejs bring npm along
# For the tests. Firefox needs no driver.
page-browser: page-deps
	@sh .ci/deps.sh chromium chromium-driver webkit2gtk-driver xvfb xauth firefox-esr python3 poppler-utils

$(PAGE)/deps/lib/lib%.a: $(page_tools)/library.sh
	@mkdir -p $(@D)
	@sh $(page_tools)/sources.sh $(PAGE)/src $*
	@echo '  library $*'
	$(Q)$(EMCC_ENV) sh $(page_tools)/library.sh $* $(PAGE)/src $(PAGE)/deps

page: deps page-engine ## the page: build/page/panewright.html, one file, and build/page/site/ for any plain web host
	@node $(page_tools)/assemble.mjs $(PAGE)

# What runs in the page is built by the rules of the command, with another compiler and in a folder of its own.
page-engine: page-deps ## the program as the page's engine, and run.mjs
	@sh $(page_tools)/modules.sh $(PAGE)
	@$(MAKE) --no-print-directory $(page_lib)
	@sh $(page_tools)/sources.sh $(PAGE)/src gnuplot
	@$(EMCC_ENV) sh $(page_tools)/gnuplot.sh $(PAGE)
	@$(EMCC_ENV) $(MAKE) --no-print-directory -j$(JOBS) WASM=1 BUILD=$(PAGE)/wasm HOSTCC='$(CC)' AR=emar HARDEN= HARDEN_LD= \
	  CC="$$(command -v ccache) clang $$($(EMCC_ENV) emcc --cflags)" \
	  CFLAGS='-O3 -msimd128 -fno-PIC -w -I$(PAGE)/deps/include' page-objects
	@$(EMCC_ENV) sh $(page_tools)/engine.sh $(PAGE)

# The page's engine has its own progress and helpers (seam.c), CHOLMOD within, no published cases and of the tables'
# sources, which are for a person to read, not the long ones of the climate. Speed matters below the writers only.
page_cli = $(filter-out %/progress.o %/cholmod_later.o %/check.o,$(cli_obj))
page-objects: $(LIB) $(TOP) $(page_cli) $(BUILD)/src/page/engine/seam.o
ifdef WASM
$(BUILD)/src/cli/%.o $(BUILD)/src/out/%.o $(BUILD)/src/job/%.o: CFLAGS += -Os
$(BUILD)/src/cli/main.o: CPPFLAGS += -iquote $(BUILD)/only
$(BUILD)/src/cli/main.o: $(BUILD)/only/cli/commands.def
$(BUILD)/only/cli/commands.def: src/cli/commands.def
	@mkdir -p $(@D)
	@grep -v '(check)' $< > $@
pack_data := $(filter-out reference/climate/% reference/climate2/%,$(pack_data))
endif

test-page: deps test-page-engine ## the page: engine, papers and views, held against the command in real browsers
# The engine held against the command, then in the browsers that are here.
# The 200 jobs of chance that the issue asks for take ten minutes of two cores: make test-page-jobs.
PAGE_JOBS ?= 4
test-page-engine: page-browser all page-engine $(BUILD)/tests/page/write_jobs ## the page's engine alone, held against the command
	@BUILD=$(BUILD) node --test tests/page/engine_lay.test.mjs tests/page/engine_base85.test.mjs tests/page/engine_warm.test.mjs
	@seq 0 $$(($(JOBS) - 1)) | xargs -P $(JOBS) -I K node tests/page/engine.mjs $(PAGE_JOBS) $(BUILD) K/$(JOBS)
	@node --import ./tests/page/modules.mjs --test tests/page/engine_browser.test.mjs
test-page-jobs: page-browser all page-engine $(BUILD)/tests/page/write_jobs ## the page's engine held against the command on 200 jobs of chance
	@seq 0 $$(($(JOBS) - 1)) | xargs -P $(JOBS) -I K node tests/page/engine.mjs 200 $(BUILD) K/$(JOBS)
bench-page-engine: page-engine all ## speed of the page's engine beside the command's
	@node tests/page/engine_bench.mjs $(BUILD)
bench-page: bench-page-engine page page-browser ## speed of the page in Chromium, and of its engine beside the command
	@node --import ./tests/page/modules.mjs tests/page/bench.mjs $(BUILD)
# Jobs of chance.
$(BUILD)/tests/page/write_jobs: $(BUILD)/tests/page/write_jobs.o
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ -lcmocka -lm
# The papers that the page shows and the browser prints.
test-page: test-page-papers
.PHONY: test-page-papers
test-page-papers: all page-browser ## axe-core over every paper, in both languages
	@sh $(page_tools)/modules.sh $(PAGE)
	@sh tests/page/papers_axe.sh $(BIN)
# The views: their texts without a browser, then the whole worked in one.
test-page: test-page-view
.PHONY: test-page-view
test-page-view: all page-browser page ## the page's views alone, in real browsers
	@PANEWRIGHT=$(BIN) node --test tests/page/view_*.test.mjs
	@PAGE=$(PAGE) PANEWRIGHT=$(BIN) node --test tests/page/browser.mjs
	@PAGE=$(PAGE) PANEWRIGHT=$(BIN) node --import ./tests/page/modules.mjs --test tests/page/browser_others.mjs
