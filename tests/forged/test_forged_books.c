/* Forgeries that were made for real: each script in books/ changes the invented sample
 * book, a paper or a bundle with stock tools, and its last command must give the answer that
 * its head says: "#= STATUS", and "#> TEXT" for what it must say, @ for anything. */
#include "support/shell_kit.h"

#include <glob.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("DEMO_NO_KEY=1 sh " MF_SAMPLE "/demo.sh out > log 2>&1");
    return r.status;
}

/* Whether text holds the pieces of wanted, which '@' parts, one behind the other in a line. */
static bool holds(const char *text, const char *wanted)
{
    size_t len = strcspn(wanted, "@");
    char piece[200];
    snprintf(piece, sizeof piece, "%.*s", (int)len, wanted);
    for (const char *at = text; (at = strstr(at, piece)) != NULL; at++) {
        const char *rest = at + strlen(piece), *more = wanted + len;
        char line[4000];
        if (*more == '\0')
            return true;
        snprintf(line, sizeof line, "%.*s", (int)strcspn(rest, "\n"), rest);
        if (holds(line, more + 1))
            return true;
    }
    return false;
}

/* False, and said, when it is another than wanted. */
static bool answer(const char *path)
{
    char line[400], command[1200];
    int wanted = -1;
    bool good = true;
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    snprintf(command, sizeof command,
             "rm -rf f && mkdir f && cd f && cp ../out/*.pdf ../out/demo.book ../out/rosa.p12 . && "
             "export FORGED=" MF_TESTS "/forged/books SAMPLE=" MF_SAMPLE " MISTFOLD_QUIET=1 && "
             "cat $FORGED/kit.sh %s > script && sh -e script",
             path);
    run(command);
    while (fgets(line, sizeof line, file) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        if (strncmp(line, "#= ", 3) == 0)
            wanted = (int)strtol(line + 3, NULL, 10);
        if (strncmp(line, "#> ", 3) == 0 && !holds(r.out, line + 3) && !holds(r.err, line + 3))
            good = false;
        if (!good && strncmp(line, "#> ", 3) == 0) {
            print_error("%s: \"%s\" is not in:\n%s%s", path, line + 3, r.out, r.err);
            break;
        }
    }
    fclose(file);
    if (r.status != wanted)
        print_error("%s: it answers %d, not %d:\n%s%s", path, r.status, wanted, r.out, r.err);
    return good && r.status == wanted;
}

static void each_forgery_is_answered(void **state)
{
    glob_t scripts;
    size_t n = 0, bad = 0;
    (void)state;
    assert_int_equal(glob(MF_TESTS "/forged/books/*.sh", 0, NULL, &scripts), 0);
    for (size_t i = 0; i < scripts.gl_pathc; i++)
        if (strstr(scripts.gl_pathv[i], "/kit.sh") == NULL) {
            bad += !answer(scripts.gl_pathv[i]);
            n++;
        }
    globfree(&scripts);
    assert_int_equal(bad, 0);
    assert_true(n > 20);
}

/* docs/threats.md names beside each sentence the test that tries to break it. */
static void the_named_tests_are_there(void **state)
{
    (void)state;
    run("t=" MF_TESTS
        "; grep -oE '`[a-z]+/[a-z/_-]+[.]((c|py): [a-z_]+|c|sh)`' $t/../docs/threats.md | "
        "tr -d '`:' | sort -u > named; n=$(wc -l < named); [ $n -gt 40 ] || echo only $n; "
        "while read -r file test; do grep -q \"${test:-.}\" $t/$file || echo $file $test; "
        "done < named; grep -E '^[|]' $t/../docs/threats.md | grep -vE "
        "'`[a-z]+/[a-z/_-]+[.](c|sh|py)|"
        "no test can|^[|] (---|it proves|who, and)'; for f in $t/forged/books/*.sh; do "
        "f=${f##*/}; [ $f = kit.sh ] || grep -q forged/books/$f named || echo $f is in no "
        "sentence; "
        "done");
    assert_string_equal(r.out, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_forgery_is_answered),
                                       cmocka_unit_test(the_named_tests_are_there)};
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
