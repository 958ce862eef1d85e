/* The house rules (src/gen/house.sh), each broken once: a rule that lets its breach pass
 * is none. And the runner of the tests, which must not be content with nothing. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

typedef struct breach {
    const char *file, *text, *told;
} breach;

static const breach breaches[] = {
    {"src/core/x.c", "#include <mistfold/book.h>", "core may not see mistfold/book.h"},
    {"src/core/x.c", "#include <mistfold/paper.h>", "core may not see mistfold/paper.h"},
    {"src/core/x.c", "#include <mistfold/seal.h>", "core may not see mistfold/seal.h"},
    {"src/core/x.c", "#include \"cli/cli.h\"", "core may not see cli/cli.h"},
    {"src/core/x.c", "#include \"journal/line.h\"", "core may not see journal/line.h"},
    {"src/core/x.c", "#include \"book/db.h\"", "core may not see book/db.h"},
    {"src/core/x.c", "#include \"base/mem.h\"", "core allocates"},
    {"src/core/x.c", "int *a = malloc(4);", "core allocates"},
    {"src/core/x.c", "    snprintf(a, 4, b);", "core allocates, formats"},
    {"src/core/x.c", "double limit = 1.0;", "core knows whole numbers only"},
    {"src/book/x.c", "#include <mistfold/paper.h>", "book may not see mistfold/paper.h"},
    {"src/book/x.c", "#include \"seal/cms.h\"", "book may not see seal/cms.h"},
    {"src/book/x.c", "long now = time(NULL);", "the clock outside its place"},
    {"src/paper/x.c", "#include <mistfold/book.h>", "paper may not see mistfold/book.h"},
    {"src/book/x.c", "#include \"words/refused.h\"", "book may not see words/refused.h"},
    {"src/journal/x.c", "#include <mistfold/words.h>", "journal may not see mistfold/words.h"},
    {"src/seal/x.c", "#include <mistfold/job.h>", "seal may not see mistfold/job.h"},
    {"src/base/x.c", "#include <mistfold/entries.h>", "base may not see mistfold/entries.h"},
    {"include/mistfold/x.h", "#include <mistfold/book.h>", "core may not see mistfold/book.h"},
    {"src/cli/x.c", "#include \"paper/rec.h\"", "cli may not see paper/rec.h"},
    {"src/paper/x.c", "#include <hpdf.h>", "the PDF library outside its place"},
    {"src/paper/x.c", "#include <sqlite3.h>", "SQLite outside its place"},
    {"src/seal/x.c", "#include <openssl/cms.h>", "OpenSSL CMS outside its place"},
    {"src/seal/x.c", "#include <mistfold/book.h>", "seal may not see mistfold/book.h"},
    {"src/base/x.c", "#include <mistfold/job.h>", "base may not see mistfold/job.h"},
    {"src/words/x.c", "#include \"paper/rec.h\"", "words may not see paper/rec.h"},
    {"src/cli/x.c", "#include <zip.h>", "the zip library outside its place"},
    {"src/cli/x.c", "#include <xlsxwriter.h>", "the spreadsheet library outside its place"},
    {"src/cli/x.c", "#include <sqlite3.h>", "SQLite outside its place"},
    {"src/cli/x.c", "    f = fopen(path, \"wb\");", "a file written outside its place"},
    {"src/book/x.c", "    rename(a, b);", "a file written outside its place"},
    {"src/cli/x.c", "    strcpy(a, b);", "a banned function"},
    {"src/cli/x.c", "    sprintf(a, b);", "a banned function"},
    {"src/cli/x.c", "    strcat(a, b);", "a banned function"},
    {"src/cli/x.c", "    n = atoi(a);", "a banned function"},
    {"src/cli/x.c", "    p = strtok(a, b);", "a banned function"},
    {"src/cli/x.c", "    t = gmtime(&a);", "a banned function"},
    {"src/cli/x.c", "    sscanf(a, b);", "a banned function"},
    {"src/cli/x.c", "    system(a);", "a banned function"},
    {"include/mistfold/x.h", "size_t lonely(void);", "does not compile alone"},
    {"include/mistfold/x.h", "int class(int new);", "does not compile as C++"},
};

/* "src/core/x.c" of breach 7 is src/core/x7.c; clean gives it another text. */
static void put(const char *folder, size_t i, const char *text)
{
    char path[160];
    const char *dot = strrchr(breaches[i].file, '.');
    snprintf(path, sizeof path, "%s/%.*s%zu%s", folder, (int)(dot - breaches[i].file),
             breaches[i].file, i, dot);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, "%s\n", text);
    assert_int_equal(fclose(file), 0);
}

/* All at once, as the rules start a great many programs. */
static void house(run_result *r, bool clean)
{
    char folder[64];
    run_folder(folder);
    run_shell(r, folder,
              "mkdir -p include/mistfold src/core src/book src/paper src/seal src/base src/words "
              "src/cli src/journal");
    for (size_t i = 0; i < sizeof breaches / sizeof breaches[0]; i++)
        put(folder, i, clean ? "int fine(int a);" : breaches[i].text);
    run_shell(r, folder, "sh " MF_TESTS "/../src/gen/house.sh $(find include src -type f) 2>&1");
    run_remove(folder);
}

/* Whether the file is named in the told line, or before it in the lines that led to it. */
static void is_told(const char *said, size_t i)
{
    char name[80];
    const char *dot = strrchr(breaches[i].file, '.');
    snprintf(name, sizeof name, "%.*s%zu%s", (int)(dot - breaches[i].file), breaches[i].file, i,
             dot);
    if (strstr(said, name) == NULL || strstr(said, breaches[i].told) == NULL)
        fail_msg("%s with %s is let pass: %s", name, breaches[i].text, said);
}

static void each_breach_is_told(void **state)
{
    static run_result r;
    (void)state;
    house(&r, false);
    assert_int_equal(r.status, 1);
    for (size_t i = 0; i < sizeof breaches / sizeof breaches[0]; i++)
        is_told(r.out, i);
}

/* The same files with nothing wrong in them. */
static void the_rest_passes(void **state)
{
    static run_result r;
    (void)state;
    house(&r, true);
    assert_string_equal(r.out, "");
    assert_int_equal(r.status, 0);
}

/* Three headers that include each other, and two that include one in peace. */
static void circles(void **state)
{
    run_result r;
    char folder[64];
    (void)state;
    run_folder(folder);
    run_shell(&r, folder,
              "mkdir -p src/core; cd src/core; echo '#include \"core/b.h\"' > a.h; "
              "echo '#include \"core/c.h\"' > b.h; echo '#include \"core/a.h\"' > c.h; "
              "echo 'int d;' > d.h; echo '#include \"core/d.h\"' > e.h; "
              "{ echo '#include \"core/d.h\"'; echo '#include \"core/e.h\"'; } > f.h; cd ../..; "
              "awk -f " MF_TESTS "/../src/gen/includes.awk src/core/[def].h; echo $?; "
              "awk -f " MF_TESTS "/../src/gen/includes.awk src/core/[abc].h | "
              "grep -c 'headers in a circle: core/[abc].h core/[abc].h core/[abc].h core/[abc].h'; "
              "sh " MF_TESTS "/../src/gen/house.sh src/core/[abc].h >out 2>&1; echo $?");
    assert_string_equal(r.out, "0\n1\n1\n");
    run_remove(folder);
}

/* 501 lines, and a function of 61. */
static void sizes(void **state)
{
    run_result r;
    char folder[64];
    (void)state;
    run_folder(folder);
    run_shell(&r, folder,
              "mkdir -p src/cli; cd src/cli; yes 'int a;' | head -n 500 > fits.c; "
              "yes 'int a;' | head -n 501 > long.c; "
              "{ echo 'void f(void)'; echo '{'; yes '    g();' | head -n 60; echo '}'; } > wide.c; "
              "cd ../..; for f in fits long wide; do sh " MF_TESTS
              "/../src/gen/house.sh src/cli/$f.c; echo $f $?; done");
    assert_string_equal(r.out, "fits 0\nsrc/cli/long.c: 501 lines, at most 500\nlong 1\n"
                               "src/cli/wide.c:2: 61 lines, at most 60\nwide 1\n");
    run_remove(folder);
}

/* A program that runs no test, one that crashes, one that fails, none at all. */
static void the_runner_wants_tests(void **state)
{
    run_result r;
    char folder[64];
    (void)state;
    run_folder(folder);
    run_shell(
        &r, folder,
        "p() { printf '#!/bin/sh\\n%s\\n' \"$2\" > $1; chmod +x $1; }; "
        "p good 'echo \"[       OK ] x\"'; p none true; p bad 'echo \"[  FAILED  ] x\"; exit 1'; "
        "p dead 'echo \"[       OK ] x\"; kill -9 $$'; "
        "for f in ./good ./none ./bad ./dead ''; do sh " MF_TESTS
        "/run.sh $f > said; echo \"$f $? $(tail -n 1 said)\"; done");
    assert_string_equal(r.out, "./good 0 1 passed, 0 failed\n./none 1 0 passed, 1 failed\n"
                               "./bad 1 0 passed, 1 failed\n./dead 1 1 passed, 1 failed\n"
                               " 1 0 passed, 0 failed\n");
    run_remove(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_breach_is_told),
        cmocka_unit_test(the_rest_passes),
        cmocka_unit_test(circles),
        cmocka_unit_test(sizes),
        cmocka_unit_test(the_runner_wants_tests),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
