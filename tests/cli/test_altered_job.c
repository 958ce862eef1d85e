/* One job altered in the book by another program: nowhere is it judged, and wherever jobs are gone
 * through that is told. Constructed: K-2 is made a house of 1990, which the rule does not cover.
 * K-3, whose entry stands before it, is doubted as well: its link leads there. */
#include "support/shell_kit.h"

static int altered(void **state)
{
    if (shell_office(state) != 0)
        return r.status;
    run("set -e; for k in 1-Elm 3-Oak 2-Row; do $MISTFOLD job open --id K-${k%-*} --address "
        "\"${k%-*} "
        "${k#*-}\" --year-built "
        "1940 --building dwelling --owner-occupied yes --work repair --description d --start "
        "2026-11-02 >/dev/null; done\n"
        "sqlite3 b.book \"SELECT sql || ';' FROM sqlite_schema WHERE name = 'entry_no_update'\" > "
        "t.sql\n"
        "sqlite3 b.book \"DROP TRIGGER entry_no_update; UPDATE entry SET body = replace(body, "
        "'1940', '1990') WHERE kind = 'house' AND job = 'K-2'\" '.read t.sql'");
    return r.status;
}

static void is_in_no_other_state(void **state)
{
    (void)state;
    run("$MISTFOLD export --format csv --on 2026-11-01 | grep ^K-2");
    says(",altered,altered,altered,altered,altered,no,");
    run("for s in outside preparing altered; do $MISTFOLD export --format csv --state $s "
        "2>/dev/null | cut -d, -f1 | paste -sd ' '; done");
    assert_string_equal(r.out, "job\njob J-2000 K-1\njob K-2 K-3\n");
    run("$MISTFOLD job list --state altered --quiet; $MISTFOLD job list --find 'row' --quiet; "
        "$MISTFOLD job list --state outside; $MISTFOLD --lang es job list --state alterado --json");
    says("K-2             2026-11-02  altered: nothing is judged    2 Row\n");
    says("K-3             2026-11-02  altered: nothing is judged    3 Oak\n");
    says("No job ");
    says("\"state\": \"altered\"");
}

static void is_told_by_what_is_due(void **state)
{
    (void)state;
    run("$MISTFOLD due");
    answers(4, "K-1");
    notes("mistfold: K-2, b.book: it was altered outside this program (nothing is judged by it); "
          "see what is altered: mistfold book check\n");
    says_not("K-2");
    notes("mistfold: K-3, b.book: it was altered");
    says_not("K-3");
    run("$MISTFOLD due --on 2026-11-01");
    answers(4, "K-1");
    notes("K-2, ");
    notes("K-3, ");
    says_not("K-3");
    run("$MISTFOLD due; $MISTFOLD due"); /* it is not noted as settled */
    answers(4, "K-1");
}

/* Whoever asks about a job is told the same of it by a gate, a list, an export and what is due. */
static void is_the_same_for_whoever_asks(void **state)
{
    (void)state;
    run("for k in K-1 K-2 K-3; do $MISTFOLD gate $k rule --on 2026-11-01 >/dev/null 2>&1; echo $k "
        "$?; $MISTFOLD job list | grep ^$k | cut -c29-36; $MISTFOLD job list --find $k | grep "
        "^$k | cut -c29-36; $MISTFOLD export --format csv --on 2026-11-01 2>/dev/null | grep ^$k | "
        "cut -d, -f7,8; $MISTFOLD export --format csv --kind due --on 2026-11-01 2>/dev/null | "
        "grep -c ^$k; done");
    assert_string_equal(r.out, "K-1 0\npreparin\npreparin\npreparing,yes\n1\n"
                               "K-2 4\naltered:\naltered:\naltered,altered\n0\n"
                               "K-3 4\naltered:\naltered:\naltered,altered\n0\n");
}

/* Of an altered book no question is answered; the states say which job it is. */
static void shows_in_the_index_of_bundles(void **state)
{
    (void)state;
    run("$MISTFOLD job bundle --out v >/dev/null 2>&1; echo $?; cat v/index.txt; $MISTFOLD job "
        "bundle --state altered --out w >/dev/null 2>&1; cat w/index.txt");
    answers(0, "4\n");
    says("K-2  2 Row\n    2026-11-02, altered: nothing is judged\n");
    says("K-1  1 Elm\n    2026-11-02, preparing\n    Is this house and this work under the rule?  "
         "not answered");
    says("; state: altered");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_in_no_other_state),
        cmocka_unit_test(is_told_by_what_is_due),
        cmocka_unit_test(is_the_same_for_whoever_asks),
        cmocka_unit_test(shows_in_the_index_of_bundles),
    };
    return cmocka_run_group_tests(tests, altered, shell_stop);
}
