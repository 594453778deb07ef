# shoal: build, check, install. `make help` lists the targets.
#
#   B=folder      where everything built goes (default: build)
#   SANITIZE=yes  build with the address and undefined behaviour sanitizers
#   WERROR=-Werror
# and the usual CC, CFLAGS, CPPFLAGS, LDFLAGS, PKG_CONFIG, PREFIX, DESTDIR.

B          ?= build
PREFIX     ?= /usr/local
PKG_CONFIG ?= pkg-config
# Small, not fast: starting and saving cost far more than computing.
CFLAGS     ?= -Os -g
WERROR     ?=

SOURCES := $(sort $(wildcard src/*/*.c))
TESTS   := $(sort $(wildcard tests/*/test_*.c))
FORMAT  := $(sort $(wildcard src/*/*.[ch] tests/*/*.[ch]))
TEXTS   := policy station plan wording_en wording_fr wording_es wording_sw \
	wording_ar slip_html training_html report_html \
	reply_css forms_css register_html handslip_html tallysheet_html \
	replysheet_html gradingcard_html

# --- flags ------------------------------------------------------------------

# The small libraries are linked into the program: at every start the system
# would take longer to load them than a decision takes. SQLite is loaded when
# the register is opened and utf8proc when a name is not ASCII (see
# src/keep/store.c and src/base/unicode.c); tests link SQLite as usual.
# Debian 12 has no .pc file for iniparser and libcsv; where nothing is
# installed yet (make deps) pkg-config itself is missing as well.
library = $(shell $(PKG_CONFIG) $(1) $(2) 2>/dev/null || echo $(3))
LIBS   := -Wl,-Bstatic -liniparser -lcsv -lz -Wl,-Bdynamic -lm
HEADERS := $(call library,--cflags,sqlite3 zlib libutf8proc)

# A part of the processor's protection that not every machine has.
CONTROL_FLOW := $(shell $(CC) -fcf-protection -x c -S -o /dev/null \
	/dev/null 2>/dev/null && echo -fcf-protection)

WARNINGS  = -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wformat=2 \
	-Wstrict-prototypes -Wmissing-prototypes -Wwrite-strings -Wvla -Wundef
HARDENING = -fstack-protector-strong -D_FORTIFY_SOURCE=2 $(CONTROL_FLOW)
# Nothing unwinds the stack of a C program; a debugger has .debug_frame.
SMALLER = -fno-asynchronous-unwind-tables -fno-unwind-tables
ifdef SANITIZE
HARDENING =
SMALLER =
override CFLAGS = -O1 -g1 -fno-omit-frame-pointer -fsanitize=address,undefined \
	-fno-sanitize-recover=all
# What the tests ask is checked as the program is, but by calls: unrolled into
# every comparison the checks take longer to compile than to run.
TEST_CFLAGS = -Og --param asan-instrumentation-with-call-threshold=0
endif
ifdef COVERAGE
HARDENING =
SMALLER =
override CFLAGS = -O0 -g1 --coverage
endif
# What makes a process with the sanitizers cheaper, and nothing weaker.
LEAKS := $(if $(SANITIZE),$(B)/tests/house/leaks.o)

DEFINES = -Isrc -D_XOPEN_SOURCE=700 -D_DEFAULT_SOURCE $(HEADERS)
COMPILE = $(CC) -std=c17 -fno-math-errno $(DEFINES) $(WARNINGS) $(WERROR) $(HARDENING) $(SMALLER) \
	-fPIE 	-ffile-prefix-map=$(CURDIR)=. $(CPPFLAGS) $(CFLAGS)
LINKED  = -pie -Wl,-z,relro,-z,now -Wl,--as-needed -Wl,-O1 \
	-Wl,-z,pack-relative-relocs \
	$(LDFLAGS)
LINK    = $(CC) $(CFLAGS) $(LINKED)

# --- the program ------------------------------------------------------------

OBJECTS      := $(SOURCES:%.c=$(B)/%.o) $(TEXTS:%=$(B)/texts/%.o)
TEST_OBJECTS := $(TESTS:%.c=$(B)/%.o)

.DELETE_ON_ERROR:
.PHONY: all deps demo check bench crosscheck faults fuzz fuzzers units coverage analyze tidy cppcheck format \
	format-check install \
	clean help FORCE

all: $(B)/shoal  ## build the program (the default)

$(B)/shoal: $(OBJECTS) $(LEAKS)
	$(LINK) -o $@ $^ $(LIBS)

# The tests, a program per floor; the main function is Criterion's. Each test is
# a process of its own, which the sanitizers first tell of every variable and
# text that is linked in: the fewer of other floors, the less there is to do.
# With fixed addresses there is less as well.
FLOORS := $(sort $(patsubst tests/%/,%,$(dir $(TESTS))))
units: $(FLOORS:%=$(B)/unit-%)

# Tests look for Criterion's library of differences beside themselves first
# (tests/house/differences.c).
library_file = $(shell $(CC) -print-file-name=$(1))
DIFFERENCES := $(shell readelf -d '$(call library_file,libcriterion.so)' \
	2>/dev/null | sed -n 's/.*\[\(libgit2\.[^]]*\)\].*/\1/p')
BESIDE := $(DIFFERENCES:%=$(B)/tests/house/%)
$(BESIDE): tests/house/differences.c
	@mkdir -p $(@D)
	$(CC) -std=c17 -D_DEFAULT_SOURCE $(WARNINGS) $(WERROR) -O1 -g1 -fPIC \
		-shared -Wl,-soname,$(DIFFERENCES) \
		-DDIFFERENCES='"$(call library_file,$(DIFFERENCES))"' -o $@ $<

LINK_TESTS = $(LINK) -no-pie -Wl,-rpath,'$$ORIGIN/tests/house' -o $@ \
	$(filter-out $(BESIDE),$^) $(LIBS) -lcriterion -lsqlite3 \
	-Wl,--no-as-needed $(BESIDE)

define unit
$(B)/unit-$(1): $(filter $(B)/tests/$(1)/%,$(TEST_OBJECTS)) \
		$(B)/tests/house/leaks.o $(B)/shoal.a $(BESIDE)
	$$(LINK_TESTS)
endef
$(foreach floor,$(FLOORS),$(eval $(call unit,$(floor))))

# All of them in one, to choose from by hand and for the coverage.
$(B)/unit: $(TEST_OBJECTS) $(B)/tests/house/leaks.o $(B)/shoal.a $(BESIDE)
	$(LINK_TESTS)

# Whole but for main. Appended (q): names that come twice replace nothing.
$(B)/shoal.a: $(filter-out %/src/desk/main.o,$(OBJECTS))
	@rm -f $@
	ar qcs $@ $^

$(B)/%.o: %.c $(B)/flags
	@mkdir -p $(@D)
	$(COMPILE) -MMD -MP -c -o $@ $<

$(TEST_OBJECTS): $(B)/%.o: %.c $(B)/flags
	@mkdir -p $(@D)
	$(COMPILE) $(TEST_CFLAGS) -MMD -MP -c -o $@ $<

$(B)/texts/%.o: $(B)/texts/%.c $(B)/flags
	$(COMPILE) -MMD -MP -c -o $@ $<

# Written anew only when the flags change; then everything is built anew.
$(B)/flags: FORCE
	@mkdir -p $(@D)
	@echo '$(COMPILE) $(TEST_CFLAGS)' | cmp -s - $@ || \
		echo '$(COMPILE) $(TEST_CFLAGS)' > $@

# The texts compiled in, declared in src/base/embedded.h.
$(B)/texts/policy.c:     config/policy.ini
$(B)/texts/station.c:    config/station.ini
$(B)/texts/plan.c:       config/plan.ini
$(B)/texts/wording_en.c: config/wording-en.ini
$(B)/texts/wording_fr.c: config/wording-fr.ini
$(B)/texts/wording_es.c: config/wording-es.ini
$(B)/texts/wording_sw.c: config/wording-sw.ini
$(B)/texts/wording_ar.c: config/wording-ar.ini
$(B)/texts/slip_html.c:  fieldforms/slip.html
$(B)/texts/training_html.c: fieldforms/training.html
$(B)/texts/report_html.c: fieldforms/report.html
$(B)/texts/reply_css.c:  fieldforms/reply.css
$(B)/texts/forms_css.c:  fieldforms/forms.css
$(B)/texts/register_html.c: fieldforms/register.html
$(B)/texts/handslip_html.c: fieldforms/handslip.html
$(B)/texts/tallysheet_html.c: fieldforms/tallysheet.html
$(B)/texts/replysheet_html.c: fieldforms/replysheet.html
$(B)/texts/gradingcard_html.c: fieldforms/gradingcard.html

$(TEXTS:%=$(B)/texts/%.c):
	@mkdir -p $(@D)
	{ echo '/* Made from $<. */'; \
	  echo '#include "base/embedded.h"'; \
	  echo 'const unsigned char embedded_$(basename $(@F))[] = {'; \
	  od -An -v -tu1 $< | sed 's/[0-9][0-9]*/&,/g'; \
	  echo '0 };'; \
	  echo 'const size_t embedded_$(basename $(@F))_size ='; \
	  echo '	sizeof embedded_$(basename $(@F)) - 1;'; } > $@

# --- for users --------------------------------------------------------------

deps:  ## install the Debian packages that are missing
	sh tests/house/deps.sh build check

# The second make sees what the first installed.
demo:  ## install what is missing, build, and show a short example
	sh tests/house/deps.sh build
	$(MAKE) all
	SHOAL='$(abspath $(B)/shoal)' sh tests/scenes/demo/run.sh

$(B)/shoal.1: $(B)/shoal
	$(B)/shoal help --man > $@

$(B)/shoal.bash: $(B)/shoal
	$(B)/shoal help --completion > $@

SHARE = $(DESTDIR)$(PREFIX)/share
install: $(B)/shoal $(B)/shoal.1 $(B)/shoal.bash  ## install under PREFIX
	install -d $(DESTDIR)$(PREFIX)/bin $(SHARE)/man/man1 \
		$(SHARE)/bash-completion/completions $(SHARE)/doc/shoal
	install -m 755 $(B)/shoal $(DESTDIR)$(PREFIX)/bin/shoal
	install -m 644 $(B)/shoal.1 $(SHARE)/man/man1/shoal.1
	install -m 644 $(B)/shoal.bash $(SHARE)/bash-completion/completions/shoal
	install -m 644 LICENSE config/tally.sql config/tally.csv-metadata.json \
		$(SHARE)/doc/shoal

# --- for developers ---------------------------------------------------------

check:  ## run every check and test; the last line counts them
	@sh tests/house/deps.sh build check
	@B='$(B)' MAKE='$(MAKE)' sh tests/house/check.sh

bench: $(B)/shoal  ## measure speed
	@one=0; SHOAL='$(abspath $(B)/shoal)' sh tests/bench/run.sh || one=1; \
	SHOAL='$(abspath $(B)/shoal)' sh tests/bench/collate.sh && exit $$one

# Not part of check: R is large.
crosscheck: $(B)/crosscheck  ## compare the arithmetic with R on random inputs
	@sh tests/crosscheck/run.sh '$(abspath $(B)/crosscheck)'

$(B)/crosscheck: $(B)/tests/crosscheck/figures.o \
		$(filter-out $(B)/src/desk/main.o,$(OBJECTS))
	$(LINK) -o $@ $^ $(LIBS)

# Every call, byte and request for memory in turn; check runs a short version.
faults: $(B)/shoal  ## let everything go wrong, and count what is lost
	@B='$(B)' SHOAL_PLAIN='$(abspath $(B)/shoal)' bash tests/faults/run.sh

# libFuzzer with the sanitizers over the whole program but main: the program's
# sources are compiled once, into an archive that every target is linked with.
FUZZERS := $(patsubst tests/fuzz/%.c,$(B)/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
FUZZ_OBJECTS := $(OBJECTS:$(B)/%=$(B)/fuzz/%) $(FUZZERS:$(B)/%=$(B)/fuzz/tests/%.o)
FUZZED  = clang -std=c17 -fno-math-errno -fPIE -ffile-prefix-map=$(CURDIR)=. \
	-Itests/fuzz $(DEFINES) $(WARNINGS) $(WERROR) -O1 -g1 \
	-fno-omit-frame-pointer -fno-sanitize-recover=all
MINUTES ?= 10

fuzz:  ## feed broken bytes to the readers: make fuzz MINUTES=30
	@$(MAKE) -s fuzzers
	@B='$(B)' SECONDS_EACH=$$(($(MINUTES) * 60)) sh tests/fuzz/run.sh

fuzzers: $(FUZZERS)

$(FUZZERS): $(B)/fuzz/%: $(B)/fuzz/tests/fuzz/%.o $(B)/fuzz/shoal.a
	$(FUZZED) -fsanitize=fuzzer,address,undefined -o $@ $^ $(LIBS)

# The same objects are clang's word on all sources: its warnings come before
# code is made, whatever code that is. check builds no others with clang.
$(B)/fuzz/shoal: $(B)/fuzz/src/desk/main.o $(B)/fuzz/shoal.a
	$(FUZZED) $(LINKED) -fsanitize=address,undefined -o $@ $^ $(LIBS)

$(B)/fuzz/shoal.a: $(filter-out %/src/desk/main.o,$(OBJECTS:$(B)/%=$(B)/fuzz/%))
	@rm -f $@
	ar qcs $@ $^

$(B)/fuzz/texts/%.o: $(B)/texts/%.c $(B)/fuzz/flags
	@mkdir -p $(@D)
	$(FUZZED) -fsanitize=fuzzer-no-link,address,undefined -MMD -MP -c -o $@ $<

$(B)/fuzz/%.o: %.c $(B)/fuzz/flags
	@mkdir -p $(@D)
	$(FUZZED) -fsanitize=fuzzer-no-link,address,undefined -MMD -MP -c -o $@ $<

$(B)/fuzz/flags: FORCE
	@mkdir -p $(@D)
	@echo '$(FUZZED)' | cmp -s - $@ || echo '$(FUZZED)' > $@

# Not part of check: it builds and runs everything once more.
coverage:  ## which lines and branches the tests reach, per room
	@B='$(B)' MAKE='$(MAKE)' sh tests/house/coverage.sh

analyze: $(SOURCES:%.c=$(B)/analyze/%.ok)  ## read the sources with gcc -fanalyzer

$(B)/analyze/%.ok: %.c tests/house/analyze.sh
	@mkdir -p $(@D)
	@$(CC) $(DEFINES) -MM -MP -MT $@ -MF $(@:.ok=.d) $<
	@sh tests/house/analyze.sh $< -std=c17 $(DEFINES)
	@touch $@

format:  ## lay out the sources as .clang-format says
	clang-format -i $(FORMAT)

# The first line is quick; the second shows what is laid out otherwise.
format-check:
	@clang-format --dry-run -Werror $(FORMAT) 2>/dev/null || { \
		for file in $(FORMAT); do \
			clang-format --style=file "$$file" | diff -u \
				--label "$$file" --label 'laid out' "$$file" -; \
		done; false; }

# One stamp per source, so that only what changed is read again.
# How far the analyzer follows a function, in steps: 225000 is its own limit,
# with which a few functions of many branches take most of the time. As
# `make -B tidy STEPS=225000` it is tried before a release.
STEPS = 60000
tidy: $(SOURCES:%.c=$(B)/tidy/%.ok)  ## read the sources with clang-tidy

$(B)/tidy/%.ok: %.c .clang-tidy
	@mkdir -p $(@D)
	@$(CC) $(DEFINES) -MM -MP -MT $@ -MF $(@:.ok=.d) $<
	clang-tidy --quiet $< -- -std=c17 $(DEFINES) \
		-Xclang -analyzer-config -Xclang max-nodes=$(STEPS)
	@touch $@

cppcheck:  ## read the sources with cppcheck
	@mkdir -p $(B)/cppcheck
	cppcheck --quiet --std=c11 --language=c --library=posix -Isrc \
		--enable=warning,style,performance,portability \
		--inline-suppr --suppressions-list=tests/house/cppcheck.txt \
		--error-exitcode=1 --cppcheck-build-dir=$(B)/cppcheck \
		-j "$$(nproc)" src

clean:  ## remove what was built
	rm -rf $(B)

help:  ## list the targets
	@awk -F '## ' '/^[a-z]+:.*## / { sub(/:.*/, "", $$1); \
		printf "  %-10s %s\n", $$1, $$2 }' Makefile

-include $(OBJECTS:.o=.d) $(TEST_OBJECTS:.o=.d) $(FUZZ_OBJECTS:.o=.d) \
	$(SOURCES:%.c=$(B)/tidy/%.d) $(SOURCES:%.c=$(B)/analyze/%.d)
