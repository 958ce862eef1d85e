# mistfold: one Makefile, no recursion. `make help` lists the targets.
CC      ?= cc
CFLAGS  ?= -O2 -g
PREFIX  ?= /usr/local
LIBDIR  ?= $(PREFIX)/lib
DOCDIR  ?= $(PREFIX)/share/doc/mistfold
ZSHDIR  ?= $(PREFIX)/share/zsh/site-functions
DESTDIR ?=
INSTALL ?= install
VARIANT ?= release
# Empty for somebody who packages it for compilers that are not made yet.
WERROR  ?= -Werror

# One place for each: the public header, and the head of docs/changelog.md.
VERSION  := $(shell sed -n 's/^.define MISTFOLD_VERSION "\(.*\)"/\1/p' include/mistfold.h)
RELEASED := $(shell sed -n 's/^\#\# $(VERSION), \(.*\)/\1/p' docs/changelog.md)
# While the first number is 0 each second one is an interface of its own (docs/library.md).
SOVERSION := $(shell echo $(VERSION) | cut -d. -f1-2)

B        := build/$(VARIANT)
G        := build/gen
FONT_DIR ?= /usr/share/fonts/truetype/liberation2

# Our own flags stay apart from the ones a packager overrides.
MF_WARN  := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes $(WERROR)
MF_CPP   := -Iinclude -Isrc -I$(G) -D_POSIX_C_SOURCE=200809L \
            -DMF_VERSION='"$(VERSION)"' -DMF_FONT_DIR='"$(FONT_DIR)"'
# Debian keeps libpq's header apart.
PQ_INC   := $(shell pkg-config --cflags-only-I libpq 2>/dev/null)
MF_C     := -std=c11 -fPIC -fvisibility=hidden $(MF_WARN)
LIBS     := -lsqlite3 -lhpdf -lpng -ljpeg -lqrencode -lz -lcrypto -ljansson -lutf8proc -lpq -lm -pthread
# Of the program alone, not of the library.
CLI_LIBS := -lxlsxwriter -lzip -lcurl -lmicrohttpd

ROOMS    := base core journal book paper seal serve sync words field
LIB_SRC  := $(sort $(foreach r,$(ROOMS),$(wildcard src/$(r)/*.c)))
CLI_SRC  := $(sort $(wildcard src/cli/*.c))
GEN_SRC  := $(G)/words_data.c $(G)/field_page.c $(G)/store_sql.c
WORDS    := $(sort $(wildcard forms/*.words))
LIB_OBJ  := $(LIB_SRC:src/%.c=$(B)/%.o) $(B)/gen/words_data.o $(B)/gen/store_sql.o
CLI_OBJ  := $(CLI_SRC:src/%.c=$(B)/%.o) $(B)/gen/field_page.o
SO       := libmistfold.so.$(SOVERSION)

TEST_SRC  := $(sort $(wildcard tests/*/test_*.c))
TEST_BIN  := $(TEST_SRC:tests/%.c=$(B)/tests/%)
BENCH_SRC := $(sort $(wildcard tests/bench/bench_*.c))
BENCH_BIN := $(BENCH_SRC:tests/%.c=$(B)/tests/%)
HELP_SRC  := $(sort $(wildcard tests/support/*.c))
HELP_OBJ  := $(HELP_SRC:tests/%.c=$(B)/tests/%.o)

# What the build, the demo and the tests need beyond a bare Debian.
DEPS_BUILD := gcc make pkg-config libsqlite3-dev libhpdf-dev libpng-dev libjpeg-dev libqrencode-dev zlib1g-dev libssl-dev \
              libjansson-dev libutf8proc-dev libxlsxwriter-dev libzip-dev libcurl4-openssl-dev libmicrohttpd-dev libpq-dev fonts-liberation2 \
              clang lld wasi-libc libclang-rt-14-dev-wasm32
DEPS_TEST  := libcmocka-dev git ca-certificates libgsl-dev sqlite3 openssl curl poppler-utils qpdf zbar-tools tesseract-ocr python3 mandoc libharfbuzz-bin unzip fonts-liberation locales g++ fish zsh dpkg-dev nodejs chromium chromium-driver postgresql
DEPS_FUZZ  := clang libclang-rt-14-dev
DEPS_SEEN  := mupdf-tools ghostscript
DEPS_COVER := gcovr
DEPS_BENCH := python3-reportlab
DEPS_DEB   := build-essential debhelper lintian
DEPS_LINT  := clang clang-format clang-tidy cppcheck valgrind git

.PHONY: all man dist deb deb-try symbols version pictures check demo deps deps-test deps-lint install uninstall clean lint sanitize asan FORCE \
        valgrind help format check-run torture torture-run bench bench-run bench-paper fuzz fuzz-run deps-fuzz coverage coverage-run \
        map mutate check-locale locale-run later-seen later-seen-run oracle oracle-run
# V=1 shows the commands.
ifndef V
Q := @
endif

.DELETE_ON_ERROR:
# Kept although only patterns name them. Not .SECONDARY: with it make takes a library
# that is newer than a new source for one that has it.
.PRECIOUS: $(W)/%.o $(W)/gen/%.o $(B)/%.o $(B)/gen/%.o $(B)/tests/%.o $(B)/tests/%

all: deps
	@$(MAKE) --no-print-directory $(B)/mistfold $(B)/libmistfold.a $(B)/$(SO)

help:
	@echo "make            build the program and the library (installs what is missing)"
	@echo "make demo       build and run the invented sample job, papers in build/demo/"
	@echo "make check      build and run all tests"
	@echo "make sanitize   all tests under AddressSanitizer and UBSan"
	@echo "make valgrind   all tests under valgrind"
	@echo "make fuzz       made-up bytes at every way in; FUZZ_SECONDS=60 for each"
	@echo "make later-seen made-up papers under a further seal, drawn by three readers"
	@echo "make check-locale  tests under a decimal comma"
	@echo "make coverage   how much of core, journal, book and sync the tests run through, with a bound"
	@echo "make mutate     every comparison of core turned round: which does no test notice?"
	@echo "make oracle     the rule a second time, compared on made-up jobs; ORACLE_JOBS, ORACLE_SEED"
	@echo "make torture    tests that take long: kills, changes, faults by the thousand"
	@echo "make bench      speed and memory against references, in one table"
	@echo "make bench-paper  the papers' rows of it alone"
	@echo "make lint       clang-format check, clang-tidy, cppcheck, the house rules"
	@echo "make format     clang-format over the source"
	@echo "make map        which file holds what; WORD=745.85 for a paragraph or a word"
	@echo "make install    PREFIX=/usr/local DESTDIR= ; make uninstall takes it away"
	@echo "make dist       the source archive in build/dist/, the same bytes each time"
	@echo "make deb        Debian packages in build/deb/"
	@echo "make deb-try    the packages installed and tried in a bare Debian, as root"
	@echo "make symbols    the list of the library's names anew, for the packages"
	@echo "make man        the manual pages in build/man/"
	@echo "make pictures   the README's pictures anew, from a run of the program"
	@echo "make deps       install the missing Debian packages (says which)"
	@echo "make clean      remove build/"

deps:
	@sh src/gen/deps.sh $(DEPS_BUILD)
deps-test: deps
	@sh src/gen/deps.sh $(DEPS_TEST)
deps-fuzz: deps-test
	@sh src/gen/deps.sh $(DEPS_FUZZ)
deps-lint: deps-test
	@sh src/gen/deps.sh $(DEPS_LINT)

# --- building -----------------------------------------------------------
# What is built with other flags is built anew: each object hangs on a file of the flags,
# which is written when they change. A cache before the compiler changes nothing.
quoted = '$(subst ','\'',$(filter-out ccache,$(1)))'
keep_flags = @mkdir -p $(@D); printf '%s\n' $(call quoted,$(1)) | cmp -s - $@ || printf '%s\n' $(call quoted,$(1)) > $@
$(B)/.flags: FORCE
	$(call keep_flags,$(CC) $(CPPFLAGS) $(MF_CPP) $(MF_C) $(CFLAGS) $(LDFLAGS))
build/wasm/.flags: FORCE
	$(call keep_flags,$(WASM_CC) $(MF_CPP) $(WASM_C))
FORCE:

$(G)/words_data.c: src/gen/words.awk $(WORDS)
	@mkdir -p $(@D)
	@echo "  WORDS $@"
	$(Q)LC_ALL=C awk -f src/gen/words.awk $(WORDS) > $@

$(B)/gen/%.o: $(G)/%.c $(B)/.flags
	@mkdir -p $(@D)
	@echo "  CC $<"
	$(Q)$(CC) $(CPPFLAGS) $(MF_CPP) $(MF_C) $(CFLAGS) -MMD -MP -c $< -o $@

$(B)/%.o: src/%.c $(B)/.flags
	@mkdir -p $(@D)
	@echo "  CC $<"
	$(Q)$(CC) $(CPPFLAGS) $(MF_CPP) $(MF_C) $(CFLAGS) -MMD -MP -c $< -o $@

$(B)/libmistfold.a: $(LIB_OBJ)
	@echo "  AR $@"
	$(Q)rm -f $@ && $(AR) rcs $@ $^

$(B)/$(SO): $(LIB_OBJ)
	@echo "  LD $@"
	$(Q)$(CC) $(CFLAGS) -shared -Wl,-soname,$(SO) -Wl,-z,defs $(LDFLAGS) -o $@ $^ $(LIBS)

$(B)/mistfold: $(CLI_OBJ) $(B)/libmistfold.a
	@echo "  LD $@"
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS) $(CLI_LIBS)

# --- the field page: core, journal, words and field for a browser ----------------
# Without libraries: what base needs of them stands in src/field/port. The stack comes first
# in memory, so that more of it than there is ends in a trap: left to itself the linker puts it
# behind the data, and an audit that goes too deep would change the rule's own numbers.
W        := build/wasm
WASM_CC  := clang --target=wasm32-wasi
WASM_SRC := $(foreach f,mem fail json json_number json_flat utf8 letters base64 hex,src/base/$(f).c) \
            $(sort $(foreach r,core journal words field field/port,$(wildcard src/$(r)/*.c)))
WASM_OBJ := $(WASM_SRC:src/%.c=$(W)/%.o) $(W)/gen/words_field.o
WASM_C   := -std=c11 -Oz -fvisibility=hidden -Isrc/field/port
WASM_LD  := -mexec-model=reactor -nostartfiles -Wl,--no-entry -Wl,--gc-sections -Wl,--strip-all \
            -Wl,--stack-first -Wl,-z,stack-size=1048576
# The wording of papers and of the program's own commands stays at home.
WASM_WORDS := $(filter-out $(foreach f,paper forms summary plan record,forms/$(f).words),$(WORDS))
$(G)/words_field.c: src/gen/words.awk $(WASM_WORDS)
	@mkdir -p $(@D)
	@echo "  WORDS $@"
	$(Q)LC_ALL=C awk -f src/gen/words.awk $(WASM_WORDS) > $@
$(W)/gen/%.o: $(G)/%.c $(W)/.flags
	@mkdir -p $(@D)
	@echo "  WASM $<"
	$(Q)$(WASM_CC) $(MF_CPP) $(WASM_C) -MMD -MP -c $< -o $@
$(W)/%.o: src/%.c $(W)/.flags
	@mkdir -p $(@D)
	@echo "  WASM $<"
	$(Q)$(WASM_CC) $(MF_CPP) $(WASM_C) -MMD -MP -c $< -o $@
$(W)/field.wasm: $(WASM_OBJ)
	@echo "  WASM $@"
	$(Q)$(WASM_CC) $(WASM_LD) -o $@ $^

# The page with its program in it, as a part of ours.
$(G)/field_page.c: src/gen/page.sh $(wildcard src/field/page/*) $(W)/field.wasm
	@mkdir -p $(@D)
	@echo "  PAGE $@"
	$(Q)LC_ALL=C sh src/gen/page.sh $(W)/field.wasm > $@

$(G)/store_sql.c: src/gen/texts.sh $(wildcard src/sync/sql/*)
	@mkdir -p $(@D)
	@echo "  TEXTS $@"
	$(Q)LC_ALL=C sh src/gen/texts.sh > $@
$(B)/sync/pg_%.o $(B)/sync/postgres.o: CPPFLAGS += $(PQ_INC)

# --- manual pages: written by the program from the tables it parses by ----------
MAN := build/man/.made
man: $(MAN)
$(MAN): $(B)/mistfold
	@mkdir -p build/man && rm -f build/man/*.1
	@echo "  MAN build/man/"
	$(Q)set -e; for page in $$($(B)/mistfold --man names); do \
	    $(B)/mistfold --man $$page > build/man/$$page.1; done
	$(Q)sed -i "s/^\.Dd .*/.Dd $$(LC_ALL=C date -u -d $(RELEASED) '+%B %-d, %Y')/" build/man/*.1
	@touch $@

# The pictures of the README, made by a run; look at them before they are kept.
pictures: $(B)/mistfold
	@sh src/gen/pictures.sh $(CURDIR)/$(B)/mistfold

# --- tests ----------------------------------------------------------------
$(B)/tests/%.o: tests/%.c $(B)/.flags
	@mkdir -p $(@D)
	@echo "  CC $<"
	$(Q)$(CC) $(CPPFLAGS) $(MF_CPP) -Itests -DMF_TESTS='"$(CURDIR)/tests"' -DMF_SAMPLE='"$(CURDIR)/sample-data"' \
	    $(MF_C) $(CFLAGS) -MMD -MP -c $< -o $@

$(B)/tests/%: $(B)/tests/%.o $(HELP_OBJ) $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lcmocka $(TEST_LIBS) $(LIBS)

# The targets of "make fuzz", and the test that hands them the kept cases. Settings
# are read by the program, not by the library.
FUZZ_OBJ := $(patsubst tests/%.c,$(B)/tests/%.o,$(wildcard tests/fuzz/fuzz*.c)) \
            $(filter-out $(B)/cli/main.o,$(CLI_OBJ))
$(B)/tests/fuzz/test_seeds: $(B)/tests/fuzz/test_seeds.o $(FUZZ_OBJ) $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lcmocka $(LIBS) $(CLI_LIBS)
$(B)/tests/fuzz/fuzz: $(B)/tests/fuzz/libfuzzer.o $(FUZZ_OBJ) $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) -fsanitize=fuzzer $(LDFLAGS) -o $@ $^ $(LIBS) $(CLI_LIBS)

# The independent reference for the hypergeometric distribution.
$(B)/tests/core/test_units: TEST_LIBS := -lgsl -lgslcblas

# Its calls into SQLite and for memory go through the test, which makes them fail.
EACH := malloc calloc realloc $(addprefix sqlite3_,prepare_v3 step exec bind_text bind_text64 bind_int64 bind_blob64 \
          create_function_v2 backup_init backup_step errcode extended_errcode)
$(B)/tests/book/test_each_call: TEST_LIBS := $(EACH:%=-Wl,--wrap=%)

# ... and those to a server.
EACH_SERVER := $(addprefix PQ,conninfoParse connectdbParams exec execParams putCopyData putCopyEnd getCopyData)
$(B)/tests/sync/test_pg_calls.o: CPPFLAGS += $(PQ_INC)
$(B)/tests/sync/test_pg_calls: TEST_LIBS := $(EACH:%=-Wl,--wrap=%) $(EACH_SERVER:%=-Wl,--wrap=%)

# ... and those to a disk, of a folder where devices meet.
EACH_DISK := opendir readdir fdopendir openat fstatat open fstat read mkdir unlink
$(B)/tests/sync/test_disk: TEST_LIBS := $(EACH:%=-Wl,--wrap=%) $(EACH_DISK:%=-Wl,--wrap=%)

# A file of a folder that cannot be looked at.
$(B)/tests/sync/test_reads: TEST_LIBS := -Wl,--wrap=fstatat

# Makes one allocation or system call of the program fail (LD_PRELOAD).
FAULT := $(B)/tests/preload/fault.so
$(FAULT): tests/preload/fault.c $(B)/tests/preload/clock.so
	@mkdir -p $(@D)
	@echo "  CC $<"
	$(Q)$(CC) -std=c11 -O1 -fPIC -shared -o $@ $< -ldl
# Has the program's clock go ahead.
$(B)/tests/preload/clock.so: tests/preload/clock.c
	@mkdir -p $(@D)
	@echo "  CC $<"
	$(Q)$(CC) -std=c11 -O1 -fPIC -shared -o $@ $<

check: deps-test
	@$(MAKE) --no-print-directory check-run

check-run: $(B)/mistfold $(B)/$(SO) $(FAULT) $(TEST_BIN)
	@MISTFOLD=$(CURDIR)/$(B)/mistfold MISTFOLD_SO=$(CURDIR)/$(B)/$(SO) MF_BUILD=$(CURDIR)/$(B) \
	    sh tests/run.sh $(TEST_BIN)

# What runs over again what other tests run is left to make check, and tests/support/sampled.h
# says of what one in so many is tried here: the whole of .ci/run is to take 50 minutes at most.
sanitize asan: deps-test
	@$(MAKE) --no-print-directory VARIANT=asan \
	    CFLAGS="-O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all" \
	    TEST_BIN="$(patsubst $(B)/%,build/asan/%,$(filter-out %/sync/test_week %/sync/test_week_server %/cli/test_documents %/cli/test_complete $(B)/tests/gen/%,$(TEST_BIN)))" check-run

# "Possibly lost" is not counted: SQLite's pages are held by pointers into their midst, and
# a child that ends itself while its parent's book is open seems to lose them. The test that
# has an allocator of its own cannot have valgrind's.
valgrind: deps-lint
	@$(MAKE) --no-print-directory VARIANT=release check-run \
	    RUN_UNDER="valgrind -q --error-exitcode=99 --leak-check=full --show-leak-kinds=definite \
	    --errors-for-leak-kinds=definite --child-silent-after-fork=yes" \
	    TEST_BIN="$(filter-out %/paper/test_memory,$(TEST_BIN))"

# Made-up bytes at every way in, under clang's libFuzzer with AddressSanitizer and
# UBSan, FUZZ_SECONDS for each target, two targets at a time. What is found is left
# in build/fuzz/ and belongs, once mended, into tests/fuzz/seeds/.
FUZZ_SECONDS ?= 60
FUZZ_TARGETS ?=
fuzz: deps-fuzz
	@$(MAKE) --no-print-directory VARIANT=fuzz CC=clang fuzz-run \
	    CFLAGS="-O1 -g -fno-omit-frame-pointer -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all"
fuzz-run: $(B)/tests/fuzz/fuzz
	@sh tests/fuzz/fuzz.sh $< $(FUZZ_SECONDS) $(FUZZ_TARGETS)

# Papers under a further seal that "paper check" finds good, made up, and drawn by three readers.
later-seen: deps-test
	@sh src/gen/deps.sh $(DEPS_SEEN)
	@$(MAKE) --no-print-directory later-seen-run
later-seen-run: $(B)/tests/fuzz/later_files
	@python3 tests/fuzz/later_seen.py $< $(or $(FUZZ_SEED),1) 2000
$(B)/tests/fuzz/later_files: $(B)/tests/fuzz/later_files.o $(FUZZ_OBJ) $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS) $(CLI_LIBS)

# The tests whose outcome a decimal comma could change, in a program that speaks German.
LOCALE_TESTS := $(filter $(B)/tests/base/% $(B)/tests/words/% $(B)/tests/paper/test_record $(B)/tests/paper/test_text \
                  $(B)/tests/paper/test_layout $(B)/tests/seal/test_seal $(B)/tests/seal/test_several \
                  $(B)/tests/book/test_book $(B)/tests/book/test_chain $(B)/tests/book/test_import $(B)/tests/core/test_field \
                  $(B)/tests/book/test_record_json $(B)/tests/cli/test_demo $(B)/tests/cli/test_testing,$(TEST_BIN))
COMMA := build/locale/de_DE.UTF-8
$(COMMA):
	@mkdir -p build/locale
	@localedef -i de_DE -f UTF-8 $(CURDIR)/$@
$(B)/tests/preload/locale.so: tests/preload/locale.c
	@mkdir -p $(@D)
	$(Q)$(CC) -std=c11 -O1 -fPIC -shared -o $@ $<
check-locale: deps-test
	@$(MAKE) --no-print-directory locale-run
locale-run: $(B)/mistfold $(B)/tests/preload/locale.so $(COMMA) $(LOCALE_TESTS)
	@LOCPATH=$(CURDIR)/build/locale LC_ALL=de_DE.UTF-8 LD_PRELOAD=$(CURDIR)/$(B)/tests/preload/locale.so \
	    MISTFOLD=$(CURDIR)/$(B)/mistfold MF_BUILD=$(CURDIR)/$(B) sh tests/run.sh $(LOCALE_TESTS)

# How much of the judgment, the book and the sync the tests run through, with the bounds of
# tests/coverage.sh. The report is build/coverage.txt, by file.
COVER_TESTS := $(filter-out %/sync/test_week %/sync/test_week_server,$(filter $(B)/tests/core/% $(B)/tests/journal/% \
                 $(B)/tests/book/% $(B)/tests/words/% $(B)/tests/fuzz/% $(B)/tests/sync/% \
                 $(addprefix $(B)/tests/cli/test_,testing office bundle heads import_forms opened_twice),$(TEST_BIN)))
coverage: deps-test
	@sh src/gen/deps.sh $(DEPS_COVER)
	@$(MAKE) --no-print-directory VARIANT=cov CFLAGS="-O0 -g --coverage -fprofile-update=atomic -Wno-format-truncation" coverage-run
coverage-run: $(B)/mistfold $(B)/$(SO) $(FAULT) $(COVER_TESTS)
	@find $(B) -name '*.gcda' -delete
	@MF_COVERAGE=1 MISTFOLD=$(CURDIR)/$(B)/mistfold MISTFOLD_SO=$(CURDIR)/$(B)/$(SO) MF_BUILD=$(CURDIR)/$(B) \
	    sh tests/run.sh $(COVER_TESTS)
	@sh tests/coverage.sh $(B)

map:
	@sh src/gen/map.sh $(WORD)

# Every comparison of the judgment turned round, one at a time: a test must notice.
mutate: deps-test
	@python3 tests/mutate/mutate.py $(MUTATE)

# The tests that try the same thing very often: a thousand kills, ten thousand
# changes, every allocation and system call, two times ten thousand entries.
TORTURE := merge crash hands tamper faults cut
TORTURE_SYNC := $(addprefix $(B)/tests/sync/test_,sync_faults week week_server postgres)
torture: deps-test
	@$(MAKE) --no-print-directory torture-run
	@$(MAKE) --no-print-directory oracle-run
torture-run: $(B)/mistfold $(FAULT) $(TORTURE:%=$(B)/tests/book/test_%) $(TORTURE_SYNC)
	@MF_TORTURE=1 MISTFOLD=$(CURDIR)/$(B)/mistfold MF_BUILD=$(CURDIR)/$(B) \
	    sh tests/run.sh $(TORTURE:%=$(B)/tests/book/test_%) $(TORTURE_SYNC)

# One table: ours against a reference in the same run, with the goals. The books of
# BENCH_JOBS jobs are made once and kept in build/bench.
BENCH_JOBS ?= 100000
BENCH_ROWS ?= 1000000
bench: deps-test
	@sh src/gen/deps.sh $(DEPS_BENCH)
	@$(MAKE) --no-print-directory bench-run
bench-run: $(B)/mistfold $(BENCH_BIN) $(B)/tests/bench/bench $(B)/tests/bench/paper_speed
	@mkdir -p build/bench
	@python3 tests/bench/table.py $(B) $(BENCH_JOBS) $(BENCH_ROWS)

# Speed of the papers against bare libharu and python3-reportlab; goals in the script.
bench-paper: $(B)/tests/bench/paper_speed
	@sh tests/bench/paper.sh $<

$(B)/tests/bench/bench: $(B)/tests/bench/bench.o $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

# The rule a second time, in Python, against the program on made-up whole jobs.
ORACLE_JOBS ?= 100000
ORACLE_SEED ?= 1
oracle: deps-test
	@$(MAKE) --no-print-directory oracle-run
oracle-run: $(B)/tests/oracle/answer
	@python3 -B tests/oracle/compare.py --answer $< --jobs $(ORACLE_JOBS) --seed $(ORACLE_SEED)
	@python3 -B tests/oracle/compare.py --answer $< --jobs $$(($(ORACLE_JOBS) / 50)) --seed $(ORACLE_SEED) --properties

$(B)/tests/oracle/answer: $(B)/tests/oracle/answer.o $(HELP_OBJ) $(B)/libmistfold.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lcmocka $(LIBS)
# The tests run them.
$(B)/tests/oracle/test_oracle: | $(B)/tests/oracle/answer
$(B)/tests/field/test_door: | $(B)/tests/oracle/answer $(W)/field.wasm
$(B)/tests/field/test_page $(B)/tests/field/test_served: | $(B)/mistfold

# --- the demo ---------------------------------------------------------------
demo: all
	@MISTFOLD=$(CURDIR)/$(B)/mistfold sh sample-data/demo.sh build/demo

# --- checks of the source -----------------------------------------------------
lint: deps-lint $(GEN_SRC)
	@sh src/gen/lint.sh

format:
	clang-format -i $$(git ls-files -co --exclude-standard '*.c' '*.h' 'src/*.inc')

# --- installing -----------------------------------------------------------------
SHARE  = $(DESTDIR)$(PREFIX)/share
SHELLS = $(SHARE)/bash-completion/completions/mistfold $(SHARE)/fish/vendor_completions.d/mistfold.fish \
         $(DESTDIR)$(ZSHDIR)/_mistfold
install: all
	@$(MAKE) --no-print-directory man >/dev/null
	$(INSTALL) -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(LIBDIR)/pkgconfig $(DESTDIR)$(PREFIX)/include/mistfold
	$(INSTALL) -d $(SHARE)/man/man1 $(SHARE)/mistfold/places $(sort $(dir $(SHELLS)))
	$(INSTALL) -m 755 $(B)/mistfold $(DESTDIR)$(PREFIX)/bin/
	$(INSTALL) -m 644 $(B)/libmistfold.a $(DESTDIR)$(LIBDIR)/
	$(INSTALL) -m 644 $(B)/$(SO) $(DESTDIR)$(LIBDIR)/libmistfold.so.$(VERSION)
	ln -sf libmistfold.so.$(VERSION) $(DESTDIR)$(LIBDIR)/$(SO)
	ln -sf $(SO) $(DESTDIR)$(LIBDIR)/libmistfold.so
	sed -e 's|@PREFIX@|$(PREFIX)|' -e 's|@LIBDIR@|$(LIBDIR)|' -e 's|@VERSION@|$(VERSION)|' src/gen/mistfold.pc.in \
	    > $(DESTDIR)$(LIBDIR)/pkgconfig/mistfold.pc
	$(INSTALL) -m 644 include/mistfold.h $(DESTDIR)$(PREFIX)/include/
	$(INSTALL) -m 644 include/mistfold/*.h $(DESTDIR)$(PREFIX)/include/mistfold/
	$(INSTALL) -m 644 build/man/*.1 $(SHARE)/man/man1/
	$(INSTALL) -m 644 src/gen/mistfold.bash $(word 1,$(SHELLS))
	$(INSTALL) -m 644 src/gen/mistfold.fish $(word 2,$(SHELLS))
	$(INSTALL) -m 644 src/gen/mistfold.zsh $(word 3,$(SHELLS))
	$(INSTALL) -m 644 forms/places/*.csv $(SHARE)/mistfold/places/
	@# As they stand in the checkout: the guides link to one another and to the sample job.
	$(INSTALL) -d $(DESTDIR)$(DOCDIR)/docs $(DESTDIR)$(DOCDIR)/sample-data
	$(INSTALL) -m 644 README.md DEVELOPERS.md LICENSE $(DESTDIR)$(DOCDIR)/
	$(INSTALL) -m 644 docs/* $(DESTDIR)$(DOCDIR)/docs/
	$(INSTALL) -m 644 sample-data/* $(DESTDIR)$(DOCDIR)/sample-data/

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/mistfold $(DESTDIR)$(LIBDIR)/libmistfold.a \
	    $(DESTDIR)$(LIBDIR)/libmistfold.so $(DESTDIR)$(LIBDIR)/$(SO) $(DESTDIR)$(LIBDIR)/libmistfold.so.$(VERSION) \
	    $(DESTDIR)$(LIBDIR)/pkgconfig/mistfold.pc $(DESTDIR)$(PREFIX)/include/mistfold.h
	rm -rf $(DESTDIR)$(PREFIX)/include/mistfold $(SHARE)/mistfold $(DESTDIR)$(DOCDIR)
	rm -f $(SHARE)/man/man1/mistfold.1 $(SHARE)/man/man1/mistfold-*.1 $(SHELLS)

# --- packages ---------------------------------------------------------------------
version:
	@echo $(VERSION)
ARCHIVE := build/dist/mistfold-$(VERSION).tar.gz
dist:
	@sh src/gen/deps.sh $(if $(wildcard .git),git)
	@sh src/gen/dist.sh $(VERSION) $(RELEASED) $(ARCHIVE)
	@sha256sum $(ARCHIVE)

# debian/ is written in the unpacked archive, from src/gen/debian.
deb: deps
	@sh src/gen/deps.sh $(DEPS_DEB)
	@$(MAKE) --no-print-directory dist
	@sh src/gen/deb.sh $(ARCHIVE) $(VERSION) $(SOVERSION) build/deb $(DEPS_BUILD)

# The packages in a bare Debian, as root.
deb-try: deb
	@sh src/gen/deps.sh debootstrap
	@sh tests/gen/deb_try.sh build/deb build/deb-root

# What the library gives to others: a name that is missing here, or here too much, is told
# by a test. Look at the difference: a name that goes away asks for another second number.
symbols: $(B)/$(SO)
	@touch src/gen/debian/libmistfold.symbols
	@sh src/gen/symbols.sh $(B)/$(SO) $(VERSION) src/gen/debian/libmistfold.symbols > build/symbols
	@mv build/symbols src/gen/debian/libmistfold.symbols

clean:
	rm -rf build

-include $(WASM_OBJ:.o=.d) $(FUZZ_OBJ:.o=.d) $(LIB_OBJ:.o=.d) $(CLI_OBJ:.o=.d) $(TEST_BIN:=.d) $(B)/tests/oracle/answer.d $(BENCH_BIN:=.d) $(HELP_OBJ:.o=.d)
