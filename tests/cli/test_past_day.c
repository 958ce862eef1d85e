/* Questions about a past day, asked of the sample job by the program. All of it is logged in
 * one go, long after the days it names: what counts is an entry's own day. */
#include "support/shell_kit.h"

#include <stdlib.h>
#include <string.h>

/* The areas were cleaned and verified on 2026-09-16 (demo.sh). Constructed. */
static void gates(void **state)
{
    (void)state;
    run("$MISTFOLD gate J-1926 signs --on 2026-09-16");
    assert_int_equal(r.status, 0);
    run("$MISTFOLD gate J-1926 signs --on 2026-09-15");
    assert_int_equal(r.status, 1);
    notes("entries left out because they are dated after 2026-09-15: ");
    says_not("next: mistfold cleaning"); /* that is done by now */
    run("$MISTFOLD gate J-1926 demo --on 2026-09-13 --json");
    assert_int_equal(r.status, 1);
    says("\"left_out\":");
    says_not("\"left_out\": 0");
    run("$MISTFOLD audit J-1926 --on 2026-09-15");
    assert_int_equal(r.status, 1);
    says("No completion is logged.");
}

/* Handed over on 2026-09-21, due 30 days after 09-16: 10-16 (745.86(c)(1)). The invoice of
 * 09-25 was not yet delivered then. */
static void what_was_due(void **state)
{
    (void)state;
    run("$MISTFOLD due --on 2026-09-20");
    says("2026-10-16  J-1926");
    run("$MISTFOLD due --on 2026-09-21");
    says_not("J-1926");
    run("$MISTFOLD gate J-1926 handover --on 2026-09-21");
    assert_int_equal(r.status, 0);
}

/* They print the whole job. */
static void papers_and_exports_tell(void **state)
{
    (void)state;
    run("$MISTFOLD export J-1926 --format csv --on 2026-09-15 > /dev/null");
    notes("J-1926: entries dated after 2026-09-15, shown and counted all the same: ");
    run("$MISTFOLD paper record J-1926 --on 2026-09-15 --out past.pdf");
    notes("J-1926: entries dated after 2026-09-15, shown and counted all the same: ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gates),
        cmocka_unit_test(what_was_due),
        cmocka_unit_test(papers_and_exports_tell),
    };
    return cmocka_run_group_tests(tests, shell_demo, shell_stop);
}
