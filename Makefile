# panewright: build, test, run. A stranger needs only `make demo` and `make test`.
CC      ?= cc
HOSTCC  ?= $(CC)
CFLAGS  ?= -O3 -g
LDFLAGS ?=
PREFIX  ?= /usr/local
DESTDIR ?=
BUILD   ?= build
JOBS    ?= $(shell nproc 2>/dev/null || echo 2)
VERSION := $(shell sed -n 's,^\#define PW_VERSION "\(.*\)",\1,p' include/panewright/version.h)
Q       := $(if $(V),,@)# make V=1 shows each command

# ---------------------------------------------------------------- rules below
# What a hostile file meets. Sanitizers watch the same calls themselves, and without optimizing there is
# no _FORTIFY_SOURCE.
ifeq (,$(findstring -fsanitize,$(CFLAGS))$(findstring -O0,$(CFLAGS)))
HARDEN    = -fstack-protector-strong -D_FORTIFY_SOURCE=2
HARDEN_LD = -pie -Wl,-z,relro,-z,now,-z,pack-relative-relocs
endif
WARN = -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes \
       -Wvla -Werror
ALL_CFLAGS = -std=c11 -D_POSIX_C_SOURCE=200809L -MMD -MP -Iinclude -Isrc -I$(BUILD) -fPIC -fno-math-errno \
             -ffp-contract=off -isystem /usr/include/suitesparse $(WARN) $(HARDEN) $(CFLAGS)
# Put into the program where there is an archive: a shared library costs time at every start (GSL and its BLAS 0.5 ms).
# GSL stays shared: its archive would add 0.75 MB.
within   = $(if $(findstring /,$(shell $(CC) -print-file-name=lib$(1).a)),-l:lib$(1).a,-l$(1))
LIB_LIBS = -lgsl -lgslcblas -lcholmod -lm
TOP_LIBS := $(foreach l,csv jansson unistring z expat,$(call within,$l)) -lpthread

lib_src  := $(sort $(wildcard $(addsuffix /*.c,$(addprefix src/,base glass sound frame climate window house money meter study))))
top_src  := $(sort $(wildcard src/job/*.c src/out/*.c src/check/*.c))
cli_src  := $(sort $(wildcard src/cli/*.c))
test_src := $(sort $(wildcard tests/test_*.c))
data     := $(sort $(shell find reference examples plots -name '*.csv' -o -name '*.gp' -o -name '*.css' -o -name '*.py' 2>/dev/null))
lib_data := $(filter-out reference/checks/%,$(filter reference/%.csv,$(data)))
pack_data := $(filter-out %/schema.csv,$(lib_data))
top_data := $(filter plots/%,$(data)) $(filter examples/%.csv,$(data))
lib_obj  := $(lib_src:%.c=$(BUILD)/%.o) $(BUILD)/gen/reference.o
top_obj  := $(top_src:%.c=$(BUILD)/%.o) $(BUILD)/gen/texts.o $(BUILD)/gen/packed.o
cli_obj  := $(cli_src:%.c=$(BUILD)/%.o)
tests    := $(test_src:%.c=$(BUILD)/%)
LIB      := $(BUILD)/libpanewright.a
SO       := $(BUILD)/libpanewright.so.0
TOP      := $(BUILD)/libpanewright_top.a
BIN      := $(BUILD)/panewright

.PHONY: all deps readme test-cluster prove-meter test test-page-model bench demo check install format lint sanitize coverage test-faults fuzz dist clean help
.DELETE_ON_ERROR:
.SECONDARY:

all: deps ## build the library and the program
	@$(MAKE) --no-print-directory -j$(JOBS) $(LIB) $(SO) $(BIN) $(BUILD)/panewright.pc

deps: ## install the Debian packages that are missing
	@sh .ci/deps.sh

$(LIB): $(lib_obj)
	@rm -f $@
	$(Q)$(AR) rcs $@ $^
# Only names that begin with pw_ leave the library.
$(SO): $(lib_obj)
	@echo '{ global: pw_*; local: *; };' > $@.map
	$(Q)$(CC) -shared -Wl,-soname,libpanewright.so.0 -Wl,--version-script,$@.map -Wl,-z,relro,-z,now $(LDFLAGS) -o $@ $^ $(LIB_LIBS)
$(BUILD)/install/libpanewright.a: $(LIB)
	@mkdir -p $(@D)
	@nm -g --defined-only $< | awk 'NF == 3 && $$3 !~ /^pw_/ {print $$3, "pw_own_" $$3}' > $@.map
	$(Q)objcopy --redefine-syms=$@.map $< $@
$(TOP): $(top_obj)
	@rm -f $@
	$(Q)$(AR) rcs $@ $^
# CHOLMOD is opened on demand (src/cli/cholmod_later.c).
$(BIN): $(cli_obj) $(TOP) $(LIB)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(filter-out -lcholmod,$(LIB_LIBS)) -ldl

$(BUILD)/%.o: %.c Makefile
	@mkdir -p $(@D)
	@echo '  cc $<'
	$(Q)$(CC) $(ALL_CFLAGS) $(CPPFLAGS) -c -o $@ $<
$(BUILD)/embed: $(sort $(wildcard src/embed/*.c)) src/embed/embed.h Makefile
	@mkdir -p $(@D)
	$(Q)$(HOSTCC) -std=c11 -D_POSIX_C_SOURCE=200809L -O1 -Isrc $(WARN) -o $@ $(filter %.c,$^) -lz
# Typed tables: every object may include gen/reference.h, so it stands before the first of them.
$(BUILD)/gen/reference.h: $(BUILD)/embed $(lib_data)
	@mkdir -p $(@D)
	$(Q)$(BUILD)/embed header $(lib_data) > $@.new
	@if cmp -s $@.new $@; then rm $@.new; else mv $@.new $@; fi
$(lib_obj) $(top_obj) $(cli_obj) $(tests:=.o): | $(BUILD)/gen/reference.h
$(BUILD)/gen/reference.c: $(BUILD)/embed $(lib_data) | $(BUILD)/gen/reference.h
	$(Q)$(BUILD)/embed table $(lib_data) > $@
$(BUILD)/gen/packed.c: $(BUILD)/embed $(pack_data)
	@mkdir -p $(@D)
	$(Q)$(BUILD)/embed pack $(pack_data) > $@
$(BUILD)/gen/texts.c: $(BUILD)/embed $(top_data)
	@mkdir -p $(@D)
	$(Q)$(BUILD)/embed text $(top_data) > $@
# Another tongue: the catalogues of src/out/po, a file a paper (es_crew.po), put together and compiled to bytes.
$(BUILD)/gen/tongue_es.h: $(sort $(wildcard src/out/po/es_*.po))
	@mkdir -p $(@D)
	$(Q)msgcat --use-first $^ -o $(BUILD)/gen/es.po
	$(Q)msgfmt --check-format --check-domain -o $(BUILD)/gen/es.mo $(BUILD)/gen/es.po
	$(Q){ echo 'static const unsigned char pw_tongue_es_words[] = {'; od -An -v -tu1 $(BUILD)/gen/es.mo | sed 's/ *\([0-9][0-9]*\)/\1,/g'; echo '};'; } > $@
$(BUILD)/src/out/tongue.o: $(BUILD)/gen/tongue_es.h
$(BUILD)/gen/%.o: $(BUILD)/gen/%.c
	$(Q)$(CC) -std=c11 -Iinclude -Isrc -I$(BUILD) -fPIC -w -O1 -c -o $@ $<
# Written each time: PREFIX may have changed since.
.PHONY: $(BUILD)/panewright.pc
$(BUILD)/panewright.pc:
	@mkdir -p $(@D)
	@printf 'prefix=%s\nlibdir=$${prefix}/lib\nincludedir=$${prefix}/include\n\nName: panewright\nDescription: Window replacement: heat, light, energy and money of an opening\nVersion: %s\nRequires.private: gsl\nLibs: -L$${libdir} -lpanewright\nLibs.private: -lcholmod -lm\nCflags: -I$${includedir}\n' '$(PREFIX)' '$(VERSION)' > $@

$(BUILD)/tests/test_%: $(BUILD)/tests/test_%.o $(BUILD)/tests/support.o $(BUILD)/tests/paper_read.o $(TOP) $(LIB)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ -lcmocka $(TOP_LIBS) $(LIB_LIBS)

# The page's model: no browser, no engine; the program's own CSV reader is asked through a small helper.
$(BUILD)/tests/page/cells: $(BUILD)/tests/page/cells.o $(TOP) $(LIB)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(LIB_LIBS)
test-page-model: page-browser $(BIN) $(BUILD)/tests/page/cells ## the page's files, undo, zip and store, held against the program
	@sh src/page/tools/modules.sh build/page
	@BUILD=$(BUILD) node --import ./tests/page/modules.mjs --test tests/page/model_*.test.mjs

test: deps ## every test: values against their published source, properties, refusals, the command
	@$(MAKE) --no-print-directory -j$(JOBS) $(tests) $(BIN)
	@BUILD=$(BUILD) JOBS=$(JOBS) sh tests/run.sh $(tests)

demo: all ## the main job on the example house, with pictures in build/demo
	@sh examples/demo.sh $(BIN) $(BUILD)/demo

check: all ## recompute every published case and print value, ours, difference, source
	$(BIN) check

bench: all $(BUILD)/tests/bench ## speed of each part, with what it is held against
	$(BUILD)/tests/bench
$(BUILD)/tests/bench: $(patsubst %.c,$(BUILD)/%.o,$(sort $(wildcard tests/bench*.c))) $(TOP) $(LIB)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(LIB_LIBS)

prove-meter: all $(BUILD)/tests/prove_meter ## 300 invented houses: does a range weighed by bills hold what they save (25 min of a core)
	$(BUILD)/tests/prove_meter $(PROVE)
$(BUILD)/tests/prove_meter: $(BUILD)/tests/prove_meter.o $(TOP) $(LIB)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(LIB_LIBS)

sanitize: ## the same tests under address and undefined-behaviour sanitizers
	@$(MAKE) --no-print-directory BUILD=build/san CFLAGS='-O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -Wno-error' LDFLAGS='-fsanitize=address,undefined' test

test-faults: all ## the standing attack: full disks, limits, signals, hostile names, hung helpers, locales
	@JOBS=$(JOBS) sh tests/faults.sh $(BIN)

test-cluster: all ## the cluster recipes of DEVELOPERS.md run by Slurm on this machine (root; installs slurm-wlm and munge)
	@sh tests/cluster.sh $(BIN)

FUZZ_SECONDS ?= 60
fuzz: ## feed each reader with random bytes (clang), FUZZ_SECONDS=60 each
	@$(MAKE) --no-print-directory -j$(JOBS) BUILD=build/fuzz CC=clang CFLAGS='-O1 -g -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -Wno-error' $(patsubst tests/%.c,build/fuzz/%,$(sort $(wildcard tests/fuzz_*.c)))
	@for t in $(patsubst tests/%.c,build/fuzz/%,$(sort $(wildcard tests/fuzz_*.c))); do \
	  mkdir -p $$t.corpus && echo "== $$t" && $$t -max_total_time=$(FUZZ_SECONDS) -max_len=4096 -print_final_stats=0 -verbosity=0 -artifact_prefix=$$t. $$t.corpus $(wildcard examples/*/) || exit 1; done
$(BUILD)/fuzz_%: $(BUILD)/tests/fuzz_%.o $(TOP) $(LIB)
	$(Q)$(CC) -fsanitize=fuzzer,address,undefined $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(LIB_LIBS)

coverage: ## line coverage of the tests, by file
	@$(MAKE) --no-print-directory BUILD=build/cov CFLAGS='-O0 -g --coverage -Wno-error' LDFLAGS='--coverage' test
	@find build/cov/src -name '*.gcda' | xargs gcov -n 2>/dev/null | awk '/^File .src/{f=$$2} /^Lines/&&f{print f, $$0; f=""}' | sort

format: ## lay out the C code as .clang-format says
	clang-format -i $$(git ls-files -co --exclude-standard '*.c' '*.h' || find src include tests -name '*.[ch]')

lint: all ## layout, headers alone, includes that point upward, writable data, cppcheck
	@sh .ci/lint.sh $(BUILD)

readme: all ## run README's session again and write what it prints now
	@python3 .ci/readme.py $(BIN)

install: all $(BUILD)/install/libpanewright.a ## library, headers, pkg-config file and program under PREFIX
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/lib/pkgconfig $(DESTDIR)$(PREFIX)/include/panewright
	install -m 755 $(BIN) $(DESTDIR)$(PREFIX)/bin/
	install -m 644 $(BUILD)/install/libpanewright.a $(DESTDIR)$(PREFIX)/lib/
	install -m 755 $(SO) $(DESTDIR)$(PREFIX)/lib/
	ln -sf libpanewright.so.0 $(DESTDIR)$(PREFIX)/lib/libpanewright.so
	install -m 644 $(BUILD)/panewright.pc $(DESTDIR)$(PREFIX)/lib/pkgconfig/
	install -m 644 include/panewright/*.h $(DESTDIR)$(PREFIX)/include/panewright/
	install -d $(DESTDIR)$(PREFIX)/share/panewright/checks/hourly
	install -m 644 reference/checks/README.md $(DESTDIR)$(PREFIX)/share/panewright/checks/
	install -m 644 reference/checks/hourly/* $(DESTDIR)$(PREFIX)/share/panewright/checks/hourly/
	install -d $(DESTDIR)$(PREFIX)/share/panewright/checks/bills
	install -m 644 reference/checks/bills/* $(DESTDIR)$(PREFIX)/share/panewright/checks/bills/
	install -d $(DESTDIR)$(PREFIX)/share/panewright/checks/examples/harrow_bend
	install -m 644 examples/harrow_bend/*.csv $(DESTDIR)$(PREFIX)/share/panewright/checks/examples/harrow_bend/

dist: ## a source archive of what is committed
	@mkdir -p build
	git archive --prefix=panewright-$(VERSION)/ -o build/panewright-$(VERSION).tar.gz HEAD
	@echo build/panewright-$(VERSION).tar.gz

clean: ## remove what was built
	rm -rf build

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' Makefile src/page/page.mk

include src/page/page.mk

-include $(lib_obj:.o=.d) $(top_obj:.o=.d) $(cli_obj:.o=.d) $(tests:=.d)
