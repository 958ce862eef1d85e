/* The Makefile and its scripts: what is built with other flags is built anew, and a
 * busy package manager is waited for. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>

/* The checkout with a build folder of its own, and a make that nobody above speaks to. */
#define CHECKOUT                                                                                   \
    "unset MAKEFLAGS MAKELEVEL MFLAGS VARIANT CFLAGS CPPFLAGS LDFLAGS CC; "                        \
    "for f in " MF_TESTS "/../*; do case $f in */build) ;; *) ln -s $f .;; esac; done; "

static void say(run_result *r, const char *line)
{
    char folder[64];
    run_folder(folder);
    run_shell(r, folder, line);
    run_remove(folder);
    assert_string_equal(r->err, "");
    assert_int_equal(r->status, 0);
}

static void other_flags_build_anew(void **state)
{
    run_result r;
    (void)state;
    say(&r, CHECKOUT "o=build/release/base/hex.o; made() { echo \"$1: $(make \"$@\" $o | grep -c "
                     "'CC src')\"; }; "
                     "made CFLAGS=-O1; made CFLAGS=-O1; made CFLAGS=-O2; made CFLAGS=-O2; "
                     "made CFLAGS=-O2 CPPFLAGS=-DX=\"'y z'\"; made CFLAGS=-O2 CPPFLAGS=-DX=\"'y "
                     "z'\"; made CFLAGS=-O2; made CFLAGS=-O2 LDFLAGS=-s; "
                     "made CFLAGS=-O2 LDFLAGS=-s 'CC=ccache cc'");
    assert_string_equal(r.out, "CFLAGS=-O1: 1\nCFLAGS=-O1: 0\nCFLAGS=-O2: 1\nCFLAGS=-O2: 0\n"
                               "CFLAGS=-O2: 1\nCFLAGS=-O2: 0\nCFLAGS=-O2: 1\nCFLAGS=-O2: 1\n"
                               "CFLAGS=-O2: 0\n");
}

/* An apt-get that says three times what the real one says beside another. */
#define APT                                                                                        \
    "mkdir bin; printf '#!/bin/sh\\nexit 1\\n' > bin/dpkg-query; printf '%s\\n' '#!/bin/sh' "      \
    "'echo \"$@\" >> said' 'n=$(wc -l < said)' '[ $n -gt $BUSY ] && exit 0' "                      \
    "'echo \"$ERROR\" >&2; exit 100' > bin/apt-get; printf '#!/bin/sh\\necho 0\\n' > bin/id; "     \
    "chmod +x bin/*; export PATH=$PWD/bin:$PATH BUSY ERROR; "                                      \
    "LOCK='E: Could not get lock /var/lib/apt/lists/lock. It is held by process 7 (apt-get)'; "

static void a_busy_package_manager_is_waited_for(void **state)
{
    run_result r;
    (void)state;
    say(&r, APT "BUSY=2 ERROR=$LOCK; sh " MF_TESTS "/../src/gen/deps.sh left right; cat said");
    assert_string_equal(r.out,
                        "deps: installing the missing Debian packages: left right\n"
                        "deps: another program is installing packages: waiting for it\n"
                        "-q -o DPkg::Lock::Timeout=600 update\n-q -o DPkg::Lock::Timeout=600 "
                        "update\n-q -o DPkg::Lock::Timeout=600 update\n"
                        "-q -o DPkg::Lock::Timeout=600 install -y --no-install-recommends left "
                        "right\n");
}

static void but_not_for_ever_nor_for_another_fault(void **state)
{
    run_result r;
    (void)state;
    say(&r, APT "d() { rm -f said; sh " MF_TESTS "/../src/gen/deps.sh left 2>&1 | tail -n 1; wc "
                "-l < said; }; BUSY=9 ERROR=$LOCK; export DEPS_WAIT=1; d; "
                "ERROR='E: no such mirror'; d; DEPS=no sh " MF_TESTS "/../src/gen/deps.sh left; "
                "wc -l < said");
    assert_string_equal(r.out, "E: Could not get lock /var/lib/apt/lists/lock. It is held by "
                               "process 7 (apt-get)\n2\nE: no such mirror\n1\n1\n");
}

/* Other times and other modes of the files, and from the unpacked archive: the same bytes. */
static void the_archive_is_the_same_each_time(void **state)
{
    run_result r;
    (void)state;
    say(&r,
        "unset MAKEFLAGS MAKELEVEL MFLAGS; here=$PWD; cd " MF_TESTS "/..; "
        "[ -e .git ] && git ls-files > $here/list || find . -path ./build -prune -o ! -type d "
        "-print > $here/list; tar -cf - -T $here/list | (mkdir -p $here/t; cd $here/t && tar "
        "-xf -); cd $here/t; "
        "pack() { make -s dist | cut -d ' ' -f 1; }; one=$(pack); tar -xzf build/dist/*.gz -C "
        ".. ; find . -type f -exec touch {} +; chmod -R go= .; [ $one = $(pack) ] && echo same; "
        "cd ../mistfold-*; [ $one = $(pack) ] && echo same; ls -A");
    assert_string_equal(r.out, "same\nsame\n.ci\n.clang-format\n.clang-tidy\n.gitignore\n"
                               "DEVELOPERS.md\nLICENSE\nMakefile\nREADME.md\nbuild\ndocs\n"
                               "forms\ninclude\nsample-data\nsrc\ntests\n");
}

/* debian/ is made from what the checkout says; dpkg's own reader takes it. */
static void the_packages_say_what_the_checkout_says(void **state)
{
    run_result r;
    (void)state;
    say(&r,
        CHECKOUT "sh src/gen/deb_folder.sh 0.2 gcc make one-dev two-dev; "
                 "grep -h '^Build-Depends\\|^Package' debian/control; "
                 "dpkg-parsechangelog -S version > v; make -s version | diff - v; "
                 "dpkg-parsechangelog --all > v; "
                 "[ $(grep -c '^- ' docs/changelog.md) = $(grep -c '^   \\* ' v) ] && echo all; "
                 "grep -c '@' debian/libmistfold0.2.symbols | awk '$1 > 200 {print \"names\"}';"
                 "grep -rl '@[A-Z_]*@' debian; awk '/^  / && length > 80' debian/changelog; "
                 "tail -n 1 debian/copyright");
    assert_string_equal(r.out, "Build-Depends: debhelper-compat (= 13), one-dev, two-dev\n"
                               "Package: mistfold\nPackage: libmistfold0.2\n"
                               "Package: libmistfold-dev\nPackage: mistfold-doc\nall\nnames\n"
                               " SOFTWARE.\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(other_flags_build_anew),
        cmocka_unit_test(a_busy_package_manager_is_waited_for),
        cmocka_unit_test(but_not_for_ever_nor_for_another_fault),
        cmocka_unit_test(the_archive_is_the_same_each_time),
        cmocka_unit_test(the_packages_say_what_the_checkout_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
