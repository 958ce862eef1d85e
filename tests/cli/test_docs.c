/* docs/book.md: its examples are run with the stock sqlite3 against the book of the
 * sample job, and every table and column of the book is in it. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <mistfold/kind.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char folder[64], page[65536];

static int run_demo(void **state)
{
    run_result r;
    (void)state;
    run_folder(folder);
    run_shell(&r, folder,
              "sh " MF_SAMPLE
              "/demo.sh out > demo.log 2>&1 && cp out/demo.book out/demo.book.office.key . &&"
              " $MISTFOLD --book demo.book --by rosa attach add J-1926"
              " out/containment-interior.pdf");
    if (r.status != 0)
        return 1;
    FILE *file = fopen(MF_TESTS "/../docs/book.md", "r");
    if (file == NULL)
        return 1;
    page[fread(page, 1, sizeof page - 1, file)] = '\0';
    return fclose(file);
}

static int drop(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

static void every_example_runs(void **state)
{
    static const char mark[] = "\n    sqlite3 ";
    run_result r;
    int n = 0;
    (void)state;
    for (const char *at = page; (at = strstr(at, mark)) != NULL; n++) {
        char line[1000];
        at += 5;
        snprintf(line, sizeof line, "%.*s", (int)strcspn(at, "\n"), at);
        run_shell(&r, folder, line);
        if (r.status != 0 || r.out[0] == '\0' || r.err[0] != '\0')
            fail_msg("%s\n%s%s", line, r.out, r.err);
    }
    assert_true(n >= 18);
}

/* Two of them say the same by different ways. */
static void answers_are_right(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder,
              "[ \"$(sqlite3 demo.book \"SELECT line FROM entry_line WHERE entry='office/1'\" |"
              " tr -d '\\n' | sha256sum | cut -c1-64)\" ="
              " $(sqlite3 demo.book \"SELECT hash FROM entry WHERE seq=1\") ] &&"
              " [ \"$(sqlite3 -separator ' ' demo.book \"SELECT device, hash FROM entry AS e WHERE"
              " seq=(SELECT max(seq) FROM entry WHERE device=e.device) ORDER BY device\" |"
              " sha256sum | cut -c1-64)\" = $($MISTFOLD --book demo.book book head | head -1) ]");
    assert_int_equal(r.status, 0);
}

static void every_table_is_told(void **state)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    char row[80];
    (void)state;
    for (size_t i = 0; i < count; i++) {
        snprintf(row, sizeof row, "\n| %s | ", kinds[i].name);
        const char *at = strstr(page, row);
        if (at == NULL)
            fail_msg("the table %s is not in docs/book.md", kinds[i].name);
        at = at == NULL ? "\n" : at;
        for (size_t f = 0; f < kinds[i].n_fields; f++) {
            char column[60], line[1200];
            snprintf(line, sizeof line, "%.*s", (int)strcspn(at + 1, "\n"), at + 1);
            snprintf(column, sizeof column, "`%s`", kinds[i].fields[f].name);
            if (strstr(line, column) == NULL)
                fail_msg("column %s of table %s is not in docs/book.md", column, kinds[i].name);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_example_runs),
        cmocka_unit_test(answers_are_right),
        cmocka_unit_test(every_table_is_told),
    };
    return cmocka_run_group_tests(tests, run_demo, drop);
}
