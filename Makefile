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

WERROR  ?=# the tests and CI: -Werror

# ---------------------------------------------------------------- rules below
# What a hostile file meets. Sanitizers watch the same calls themselves, and without optimizing there is
# no _FORTIFY_SOURCE.
ifeq (,$(findstring -fsanitize,$(CFLAGS))$(findstring -O0,$(CFLAGS)))
HARDEN    = -fstack-protector-strong -D_FORTIFY_SOURCE=2
HARDEN_LD = -pie -Wl,-z,relro,-z,now,-z,pack-relative-relocs
endif
WARN = -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes \
       -Wvla $(WERROR)
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

.PHONY: all deps uninstall reference deb tree readme test-cluster prove-meter test test-long test-page-model bench demo check install format lint sanitize coverage test-faults sanitize-thread thread-tests traps analyze fuzz dist clean help
.DELETE_ON_ERROR:
.SECONDARY:

all: ## build the library and the program; asks for nothing
	@$(MAKE) --no-print-directory -j$(JOBS) $(LIB) $(SO) $(BIN) $(BUILD)/panewright.pc

deps: ## install the Debian packages that are missing
	@sh .ci/deps.sh

$(LIB): $(lib_obj)
	@rm -f $@
	$(Q)$(AR) rcs $@ $^
# Only what a public header declares leaves the library: functions of the archive that panewright.h names.
$(BUILD)/exports: $(LIB) $(wildcard include/*.h include/panewright/*.h)
	@$(CC) -E -P -Iinclude include/panewright.h | grep -oE '\bpw_[a-z0-9_]+' | LC_ALL=C sort -u > $@.named
	@nm -g --defined-only $(LIB) | awk 'NF == 3 {print $$3}' | LC_ALL=C sort -u | LC_ALL=C comm -12 - $@.named > $@.new && mv $@.new $@
$(SO): $(lib_obj) $(BUILD)/exports
	@{ echo '{ global:'; sed 's/$$/;/' $(BUILD)/exports; echo 'local: *; };'; } > $@.map
	$(Q)$(CC) -shared -Wl,-soname,libpanewright.so.0 -Wl,--version-script,$@.map -Wl,-z,relro,-z,now $(LDFLAGS) -o $@ $(lib_obj) $(LIB_LIBS)
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

test: deps ## values against their published source, properties, refusals, the command, the library in a host: a minute of two cores
	@$(MAKE) --no-print-directory -j$(JOBS) WERROR=-Werror $(tests) $(BIN)
	@$(MAKE) --no-print-directory WERROR=-Werror tree
	@BUILD=$(BUILD) JOBS=$(JOBS) PART=$${PART-quick} sh tests/run.sh $(tests)
test-long: ## the tests that take longer: ranges, streets, sets of papers (tests/long): four minutes
	@PART=long $(MAKE) --no-print-directory test

demo: deps ## the main job on the example house, with pictures in build/demo
	@$(MAKE) --no-print-directory all
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
	@$(MAKE) --no-print-directory BUILD=build/san CFLAGS='-O1 -g1 -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -Wno-error' LDFLAGS='-fsanitize=address,undefined' test

# What runs by several threads. (test_batch_run measures memory, of which the thread sanitizer takes its own.)
thread_tests = $(addprefix $(BUILD)/tests/test_,range_run rank rank_sound street_house)
thread_cases = $(patsubst %,tests/cli/%.case,batch_parallel batch_resume batch_shards batch_threads range_lanes rank_interrupted rank_text street_threads)
sanitize-thread: ## range, rank, batch and street by several threads under the thread sanitizer
	@$(MAKE) --no-print-directory BUILD=build/tsan CFLAGS='-O1 -g1 -fsanitize=thread -Wno-error' LDFLAGS='-fsanitize=thread' thread-tests
thread-tests:
	@$(MAKE) --no-print-directory -j$(JOBS) $(thread_tests) $(BIN)
	@rm -f $(BUILD)/said.*
	@TSAN_OPTIONS=log_path=$(abspath $(BUILD))/said BUILD=$(BUILD) JOBS=$(JOBS) CASES='$(thread_cases)' sh tests/run.sh $(thread_tests)
	@! cat $(BUILD)/said.* 2>/dev/null

traps: all ## the tests and the commands with floating-point traps on: no division by zero, nothing invalid, no overflow
	@$(MAKE) --no-print-directory -j$(JOBS) $(tests)
	@$(MAKE) --no-print-directory tree
	@JOBS=$(JOBS) sh tests/traps.sh $(BUILD) $(tests)

analyze: all ## gcc -fanalyzer and clang-tidy over src; exceptions in .clang-tidy and .ci/analyze.sh
	@JOBS=$(JOBS) sh .ci/analyze.sh $(BUILD)

test-faults: all ## the standing attack: full disks, limits, signals, hostile names, hung helpers, locales
	@JOBS=$(JOBS) sh tests/faults.sh $(BIN)

test-cluster: all ## the cluster recipes of DEVELOPERS.md run by Slurm on this machine (root; installs slurm-wlm and munge)
	@sh tests/cluster.sh $(BIN)

# A second build tells which test enters which function; the hot loops of a year's hours count with what calls them.
REACH := -O1 -g1 -falign-functions=16 -finstrument-functions -finstrument-functions-exclude-file-list=house/lane,house/film.h -Wno-error
MUTANTS ?= 200
SEED ?= 1
.PHONY: mutate mutate-objects
mutate: all $(tests) ## MUTANTS=200 small faults in src by SEED=1: do the tests notice? (half an hour of a core)
	@$(MAKE) --no-print-directory -j$(JOBS) BUILD=$(BUILD)/reach CFLAGS='$(REACH)' mutate-objects
	@nice python3 tests/mutate.py $(BUILD) --count $(MUTANTS) --seed $(SEED) $(MUTATE)
mutate-objects: $(lib_obj) $(top_obj) $(cli_obj) $(BUILD)/tests/mutate_reach.o

# FAST=1: optimized and without sanitizers, for counts.
FUZZ_SECONDS ?= 60
FUZZ_BUILD    = build/fuzz$(if $(FAST),_fast)
FUZZ_WATCH   ?= $(if $(FAST),,address,undefined)
fuzz_obj     := $(patsubst %.c,$(BUILD)/%.o,$(sort $(wildcard tests/fuzz/*.c)))
comma        := ,
fuzz: ## feed every reader and whole jobs with changed bytes (clang), FUZZ_SECONDS=60 each, or FUZZ_RUNS=N over all; FUZZ='bills job'
	@$(MAKE) --no-print-directory -j$(JOBS) BUILD=$(FUZZ_BUILD) CC=$(if $(filter cc,$(CC)),clang,'$(CC)') LDFLAGS='$(if $(FUZZ_WATCH),-fsanitize=$(FUZZ_WATCH))' CFLAGS='$(if $(FAST),-O2,-O1) -g1 -fsanitize=fuzzer-no-link$(if $(FUZZ_WATCH),$(comma)$(FUZZ_WATCH) -fno-sanitize-recover=all) -Wno-error' $(FUZZ_BUILD)/fuzz/all
	@FUZZ_SECONDS=$(FUZZ_SECONDS) FUZZ_RUNS=$(FUZZ_RUNS) sh tests/fuzz.sh $(FUZZ_BUILD)/fuzz $(FUZZ)
$(BUILD)/fuzz/all: $(fuzz_obj) $(filter-out %/main.o,$(cli_obj)) $(TOP) $(LIB)
	@mkdir -p $(@D)
	$(Q)$(CC) -fsanitize=fuzzer $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(filter-out -lcholmod,$(LIB_LIBS)) -ldl
$(fuzz_obj): | $(BUILD)/gen/reference.h

# Without optimizing, so that each branch stands as written; the standing attack counts too, with more points of its sweep.
COVER = BUILD=build/cov CFLAGS='-O0 -g1 --coverage -Wno-error' LDFLAGS='--coverage'
coverage: ## lines and branches of floors 0 to 4 that the tests reach, and those they do not (an hour of a core)
	@$(MAKE) --no-print-directory $(COVER) all
	@find build/cov -name '*.gcda' -delete
	@-$(MAKE) --no-print-directory $(COVER) PART=all test
	@-POINTS=60 JOBS=$(JOBS) sh tests/faults.sh build/cov/panewright memory helpers paths
	@python3 tests/coverage.py build/cov --lines --branches

format: ## lay out the C code as .clang-format says
	clang-format -i $$(git ls-files -co --exclude-standard '*.c' '*.h' || find src include tests -name '*.[ch]')

lint: all ## layout, headers alone, includes that point upward, writable data, cppcheck
	@sh .ci/lint.sh $(BUILD)

readme: all ## run README's session again and write what it prints now
	@python3 .ci/readme.py $(BIN)

# Pages of the manual and completions, made of the tables that --help prints: build/manual/.
$(BUILD)/manual/made: $(BUILD)/manual/make
	@$< $(@D) $(VERSION) && touch $@
$(BUILD)/manual/make: $(BUILD)/src/manual/manual.o $(filter-out %/main.o,$(cli_obj)) $(TOP) $(LIB)
	@mkdir -p $(@D)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ $(TOP_LIBS) $(filter-out -lcholmod,$(LIB_LIBS)) -ldl

# The program with every library shared, as a distribution wants it.
$(BUILD)/shared/panewright: $(cli_obj) $(TOP) $(LIB)
	@mkdir -p $(@D)
	$(Q)$(CC) $(HARDEN_LD) $(LDFLAGS) -o $@ $^ -lcsv -ljansson -lunistring -lz -lexpat -lpthread $(filter-out -lcholmod,$(LIB_LIBS)) -ldl

# What install writes, a line a file: mode, from, to under PREFIX. uninstall takes away the same.
PUT = $(DESTDIR)$(PREFIX)
checks = $(wildcard reference/checks/hourly/* reference/checks/bills/* reference/checks/README.md \
  $(foreach e,csv md,reference/checks/field/*.$e reference/checks/field/*/*.$e))
put_list = $(if $(SHARED),$(BUILD)/shared/panewright,$(BIN)):bin/panewright:755 $(BUILD)/install/libpanewright.a:lib/libpanewright.a:644 $(SO):lib/libpanewright.so.0:755 \
  $(BUILD)/panewright.pc:lib/pkgconfig/panewright.pc:644 include/panewright.h:include/panewright.h:644 \
  $(foreach h,$(wildcard include/panewright/*.h),$h:$h:644) \
  $(foreach c,$(checks),$c:share/panewright/$(patsubst reference/%,%,$c):644) \
  $(foreach c,$(wildcard examples/harrow_bend/*.csv),$c:share/panewright/checks/$c:644) \
  $(foreach c,$(wildcard examples/c/*.c),$c:share/doc/panewright/$c:644) \
  $(foreach m,panewright $(commands:%=panewright-%),$(BUILD)/manual/$m.1:share/man/man1/$m.1:644) \
  $(BUILD)/manual/panewright.bash:share/bash-completion/completions/panewright:644 \
  $(BUILD)/manual/_panewright:share/zsh/site-functions/_panewright:644 \
  $(BUILD)/manual/panewright.fish:share/fish/vendor_completions.d/panewright.fish:644
commands := $(shell sed -n 's/^COMMAND(\(.*\))/\1/p' src/cli/commands.def)
install: all ## library, headers, program, manual, completions under PREFIX
	@$(MAKE) --no-print-directory $(BUILD)/install/libpanewright.a $(BUILD)/manual/made $(if $(SHARED),$(BUILD)/shared/panewright)
	@printf '%s\n' $(put_list) | while IFS=: read -r from to mode; do \
	  install -D -m $$mode "$$from" "$(PUT)/$$to" || exit 1; done
	@ln -sf libpanewright.so.0 $(PUT)/lib/libpanewright.so
uninstall: ## take away what install wrote
	@printf '%s\n' $(put_list) | while IFS=: read -r from to mode; do rm -f "$(PUT)/$$to"; done
	@rm -f $(PUT)/lib/libpanewright.so
	@for d in include/panewright share/panewright share/doc/panewright; do \
	  [ ! -d $(PUT)/$$d ] || find $(PUT)/$$d -depth -type d -empty -delete; done

# Where the tests look at what install wrote.
tree: ## what install writes, under build/tests/tree
	@$(MAKE) --no-print-directory install DESTDIR=$(BUILD)/tests/tree PREFIX=/usr

reference: ## the library's public headers as pages: build/reference/html (installs doxygen)
	@sh .ci/deps.sh doxygen
	@rm -rf $(BUILD)/reference && mkdir -p $(BUILD)/reference
	@BUILD=$(BUILD) VERSION=$(VERSION) doxygen src/doc/Doxyfile && echo $(BUILD)/reference/html/index.html

deb: ## a Debian package in build/deb, looked at by lintian (installs debhelper, lintian)
	@sh .ci/deps.sh dpkg-dev debhelper lintian
	@sh src/deb/build.sh $(BUILD) $(VERSION)

dist: ## a source archive of what is committed
	@mkdir -p build
	git archive --prefix=panewright-$(VERSION)/ -o build/panewright-$(VERSION).tar.gz HEAD
	@echo build/panewright-$(VERSION).tar.gz

clean: ## remove what was built
	rm -rf build

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' Makefile src/page/page.mk

include src/page/page.mk

-include $(lib_obj:.o=.d) $(top_obj:.o=.d) $(cli_obj:.o=.d) $(BUILD)/src/manual/manual.d $(tests:=.d) $(BUILD)/tests/prove_meter.d \
         $(patsubst %.c,$(BUILD)/%.d,$(wildcard tests/bench*.c)) $(fuzz_obj:.o=.d)
