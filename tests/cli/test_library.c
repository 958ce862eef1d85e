/* The library as another program sees it: exported names, installation,
 * pkg-config, a program that is compiled against it. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void only_mf_names_are_exported(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "nm -D --defined-only $MISTFOLD_SO | awk '{print $3}' | grep -v '^mf_'");
    assert_string_equal(r.out, "");
    run_shell(&r, "", "nm -D --defined-only $MISTFOLD_SO | grep -c ' mf_'");
    assert_true(strtol(r.out, NULL, 10) > 40);
}

/* The list that the packages carry; "make symbols" writes it anew. */
static void the_names_are_those_of_the_list(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "",
              "cd " MF_TESTS "/..; list=src/gen/debian/libmistfold.symbols; "
              "sh src/gen/symbols.sh $MISTFOLD_SO 0 $list | diff $list - | grep '^[<>]'");
    if (r.out[0] != '\0')
        fail_msg("names that go (<) or are new (>): look, then \"make symbols\":\n%s", r.out);
    run_shell(&r, "", "objdump -p $MISTFOLD_SO | sed -n 's/ *SONAME *//p'");
    assert_string_equal(r.out, "libmistfold.so.0.2\n");
}

/* make install into a folder, then a small program over pkg-config, linked with
 * the shared and with the static library. */
static void an_installed_library_can_be_used(void **state)
{
    run_result r;
    char folder[64];
    const char *build = getenv("MF_BUILD");
    (void)state;
    if (build == NULL || strstr(build, "release") == NULL)
        skip(); /* an instrumented library needs an instrumented program */
    run_folder(folder);
    run_shell(
        &r, folder,
        "set -e; here=$PWD; unset MAKEFLAGS MAKELEVEL MFLAGS VARIANT CFLAGS; cd " MF_TESTS "/..; "
        "make -s install DESTDIR=$here/root PREFIX=/opt/m > /dev/null; cd $here; "
        "printf '#include <mistfold.h>\\n#include <stdio.h>\\nint main(void){char t[MF_DAY_TEXT];"
        "mf_day_text(mf_day_add_years(mf_day_from(2024,2,29),3),t);puts(t);return 0;}\\n' > p.c; "
        "export PKG_CONFIG_PATH=$here/root/opt/m/lib/pkgconfig PKG_CONFIG_SYSROOT_DIR=$here/root; "
        "cc -std=c11 -Wall -Wextra -Werror p.c $(pkg-config --cflags --libs mistfold) -o p; "
        "LD_LIBRARY_PATH=root/opt/m/lib ./p; "
        "cc p.c $(pkg-config --cflags mistfold) root/opt/m/lib/libmistfold.a "
        "$(PKG_CONFIG_SYSROOT_DIR= pkg-config --static --libs-only-l mistfold | sed "
        "'s/-lmistfold//') -o q; ./q; "
        "root/opt/m/bin/mistfold --version; "
        /* What the guides link to is there too. */
        "cd root/opt/m/share/doc/mistfold; for f in *.md docs/*.md; do "
        "grep -o '](\\([^)#:]*\\))' $f | tr -d ']()' | while read -r l; do "
        "[ -e $(dirname $f)/$l ] || echo $f: $l; done; done; cd $here; "
        "ls root/opt/m/share/*/mistfold* root/opt/m/share/*/*/*mistfold* -d | sed 's/.*share.//' | "
        "grep -v man1 | LC_ALL=C sort; find root/opt/m/lib -type l | sort; "
        "cd " MF_TESTS "/..; make -s uninstall DESTDIR=$here/root PREFIX=/opt/m; find $here/root ! "
        "-type d");
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
    assert_string_equal(r.out,
                        "2027-03-01\n2027-03-01\nmistfold 0.2.0\n"
                        "bash-completion/completions/mistfold\ndoc/mistfold\n"
                        "fish/vendor_completions.d/mistfold.fish\n"
                        "zsh/site-functions/_mistfold\n"
                        "root/opt/m/lib/libmistfold.so\nroot/opt/m/lib/libmistfold.so.0.2\n");
    run_remove(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_mf_names_are_exported),
        cmocka_unit_test(the_names_are_those_of_the_list),
        cmocka_unit_test(an_installed_library_can_be_used),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
