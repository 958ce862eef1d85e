/* A job that two devices opened, each without knowing of the other: whatever goes through all
 * jobs has it once. Constructed. */
#include "support/shell_kit.h"

static int opened_twice(void **state)
{
    if (shell_office(state) != 0)
        return r.status;
    run("set -e; $MISTFOLD book copy t.book --device truck --no-key >/dev/null\n"
        "o() { \"$@\" >/dev/null; }; s='job open --id S-2 --year-built 1940 --building dwelling "
        "--work repair --description d'\n"
        "o $MISTFOLD $s --address '9 Sample Row' --owner-occupied no --start 2026-12-01 --end "
        "2026-12-02\n"
        "o $MISTFOLD --book t.book $s --address '9 Sample Rd' --owner-occupied yes --start "
        "2026-11-30\n"
        "$MISTFOLD book merge t.book || [ $? -eq 1 ]");
    return r.status;
}

static void a_row_a_job(void **state)
{
    (void)state;
    run("$MISTFOLD export --format csv --on 2026-11-29 | cut -d, -f1,2 | tr -d '\\r'");
    assert_string_equal(r.out, "job,address\nJ-1926,\"12 Sample Lane\nJ-2000,3 Calle Número\n"
                               "S-2,9 Sample Row\n");
    run("$MISTFOLD export --format csv --kind findings --on 2026-11-29 | grep ^S-2 | sort | uniq "
        "-d");
    assert_string_equal(r.out, "");
    run("$MISTFOLD export --format csv --kind house | grep -c ^S-2"); /* its entries are two */
    assert_string_equal(r.out, "2\n");
    run("$MISTFOLD export --format ics > all.ics; grep ^UID all.ics | sort | uniq -d; grep -c "
        "S-2.work all.ics");
    assert_string_equal(r.out, "1\n");
}

/* Found by the days of each opening. */
static void a_bundle_a_job(void **state)
{
    (void)state;
    run("set -e; $MISTFOLD job bundle --out visit; sh visit/verify.sh; $MISTFOLD job bundle "
        "--until 2026-11-30 --since 2026-11-30 --out day --json; cat visit/index.txt");
    answers(0, "wrote visit: 3 jobs");
    says("\n3 bundles\n");
    says("{\"jobs\": 2, \"records\": 0}\n"); /* and J-2000, which goes on */
    says("S-2  9 Sample Row\n    2026-11-30 to 2026-12-02, ");
    says("All jobs.\n");
    /* planned for one day and not completed: the days are not those since then */
    says("J-2000  3 Calle Número\n    2026-11-02, preparing\n");
    run("mkdir papers; $MISTFOLD paper records papers; ls papers");
    answers(0, "J-1926.pdf\nJ-2000.pdf\nS-2.pdf\n");
    says("3");
    run("$MISTFOLD --complete job show S | grep -c ^S-2");
    assert_string_equal(r.out, "1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_a_job),
        cmocka_unit_test(a_bundle_a_job),
    };
    return cmocka_run_group_tests(tests, opened_twice, shell_stop);
}
