# The page: build/page/panewright.html, site/ and run.mjs. Included by the Makefile.
PAGE := $(BUILD)/page
PAGE_LIBS = zlib libcsv jansson expat libunistring suitesparse gsl
page_lib = $(PAGE_LIBS:%=$(PAGE)/deps/lib/lib%.a)
page_tools := src/page/tools
PAGE_DEB = emscripten clang nodejs dpkg-dev ca-certificates libdeflate-tools
EMCC_ENV = NODE_PATH=/usr/share/nodejs PATH=/usr/bin:$$PATH

.PHONY: page page-deps page-browser page-objects page-engine page-modules page-gnuplot page-program bench-page-engine bench-page \
  page-tested test-page test-page-engine test-page-papers test-page-view test-page-jobs

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
	@sh $(page_tools)/sources.sh $(PAGE)/src $(PAGE_LIBS) gnuplot
	@$(EMCC_ENV) $(MAKE) --no-print-directory -j$(JOBS) page-gnuplot page-modules page-program
	@$(EMCC_ENV) sh $(page_tools)/engine.sh $(PAGE)
page-modules:
	@sh $(page_tools)/modules.sh $(PAGE)
page-gnuplot:
	@sh $(page_tools)/gnuplot.sh $(PAGE)
page-program: $(page_lib)
	@$(MAKE) --no-print-directory WASM=1 BUILD=$(PAGE)/wasm HOSTCC='$(CC)' AR=emar HARDEN= HARDEN_LD= \
	  CC="$$(command -v ccache) clang $$(emcc --cflags)" CFLAGS='-O3 -msimd128 -fno-PIC -w -I$(PAGE)/deps/include' page-objects

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

# The suites (tests/page/suite.sh), the longest first; as many at once as there are cores.
PAGE_SUITES ?= papers views webkit newcomer trouble paper-axe firefox chance-0 engine chance-1 texts
page_suites = @printf '%s\n' $(1) | PAGE=$(PAGE) BUILD=$(BUILD) PANEWRIGHT=$(BIN) xargs -P $(JOBS) -I SUITE sh tests/page/suite.sh SUITE
page-tested: page-browser all page $(BUILD)/tests/page/write_jobs
test-page: page-tested ## the page: engine, papers and views, held against the command in real browsers (PAGE_SUITES='views papers': those)
	$(call page_suites,$(PAGE_SUITES))
test-page-engine: page-tested ## the page's engine alone, held against the command
	$(call page_suites,chance-0 engine chance-1 texts)
test-page-papers: page-tested ## axe-core over every paper, in both languages
	$(call page_suites,paper-axe)
test-page-view: page-tested ## the page's views alone, in real browsers
	$(call page_suites,papers views webkit newcomer trouble firefox texts)
# The 200 jobs of chance that the issue asks for take ten minutes of two cores.
test-page-jobs: page-browser all page-engine $(BUILD)/tests/page/write_jobs ## the page's engine held against the command on 200 jobs of chance
	@seq 0 $$(($(JOBS) - 1)) | xargs -P $(JOBS) -I K node tests/page/engine.mjs 200 $(BUILD) K/$(JOBS)
bench-page-engine: page-engine all ## speed of the page's engine beside the command's
	@node tests/page/engine_bench.mjs $(BUILD)
bench-page: bench-page-engine page page-browser ## speed of the page in Chromium, and of its engine beside the command
	@node --import ./tests/page/modules.mjs tests/page/bench.mjs $(BUILD)
# Jobs of chance.
$(BUILD)/tests/page/write_jobs: $(BUILD)/tests/page/write_jobs.o
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ -lcmocka -lm
