/* Questions about a past day, asked of the sample job by the program. All of it is logged in
 * one go, long after the days it names: what counts is an entry's own day. */
#include "support/shell_kit.h"

#include <stdio.h>
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
    notes("entries left out, whole or in part, because they are dated after 2026-09-15: ");
    says_not("next: mistfold cleaning"); /* that is done by now */
    run("$MISTFOLD gate J-1926 demo --on 2026-09-13 --json");
    assert_int_equal(r.status, 1);
    says("\"left_out\":");
    says_not("\"left_out\": 0");
    run("$MISTFOLD audit J-1926 --on 2026-09-15");
    assert_int_equal(r.status, 1);
    says("No completion is logged.");
}

/* What lacks nothing and is a no for the time alone is counted where it is listed. */
static void a_no_for_the_time_is_counted(void **state)
{
    (void)state;
    run("$MISTFOLD gate J-1926 demo");
    assert_int_equal(r.status, 1);
    says("not at this time: 1, lacking: 0, ");
    run("$MISTFOLD gate J-1926 demo --lang es");
    says("no en este momento: 1, falta: 0, ");
    run("$MISTFOLD gate J-1926 demo --on 2026-09-13 > no; grep -c '^NO' no; echo $(($(sed -n "
        "'s/^not at this time: \\([0-9]*\\), lacking: \\([0-9]*\\), .*/\\1+\\2/p' no)))");
    char *second = strchr(r.out, '\n') + 1;
    if (strtol(r.out, NULL, 10) < 2 || strtol(r.out, NULL, 10) != strtol(second, NULL, 10))
        fail_msg("listed and counted: %s", r.out);
    run("$MISTFOLD gate J-1926 signs");
    says_not("not at this time: ");
    run("$MISTFOLD audit J-1926");
    says("\nnot at this time: 1, lacking: 0\n");
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

/* The sheet of a day says what the gate says of that day. */
static void exports_and_gates_agree(void **state)
{
    static const char *const days[] = {"2026-09-01", "2026-09-13", "2026-09-14", "2026-09-15",
                                       "2026-09-16", "2026-09-25", "2026-11-29"};
    (void)state;
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        char line[900];
        snprintf(line, sizeof line,
                 "d=%s; for g in rule demo signs handover inspection; do $MISTFOLD gate J-1926 $g "
                 "--on $d --json 2>/dev/null | sed -n 's/.*\"answer\": \"\\(.*\\)\".*/\\1/p'; done "
                 "| paste -sd, > gates; $MISTFOLD export J-1926 --format csv --kind jobs --on $d "
                 "2>/dev/null | tail -1 | tr -d '\\r' | sed 's/\".*\"//' | cut -d, -f8-12 > one; "
                 "$MISTFOLD export --format csv --on $d 2>/dev/null | tail -1 | tr -d '\\r' | sed "
                 "'s/\".*\"//' | cut -d, -f8-12 > all; cat gates; cmp gates one && cmp gates all",
                 days[i]);
        run(line);
        if (r.status != 0 || strlen(r.out) < 12)
            fail_msg("%s: %s%s", days[i], r.out, r.err);
    }
    run("n=$($MISTFOLD export J-1926 --format csv --on 2026-09-14 | grep -c ,lacking,); [ $n -gt 0 "
        "] "
        "&& $MISTFOLD audit J-1926 --on 2026-09-14 --json | grep -c 'verdict.*lacking' | grep -qx "
        "$n");
    assert_int_equal(r.status, 0);
}

/* What a book that was altered says is answered by neither; its entries are handed on, and the
 * exit status says it. */
static void nothing_is_judged_of_an_altered_book(void **state)
{
    (void)state;
    run("cp out/demo.book a.book; sqlite3 a.book \"DROP TRIGGER entry_no_update; UPDATE entry SET "
        "body = replace(body, 'Sample', 'Simple') WHERE seq = 11\"; export MISTFOLD_BOOK=a.book; "
        "$MISTFOLD gate J-1926 demo; echo $?; for f in 'csv' 'xlsx --out x.xlsx' 'ics'; do "
        "$MISTFOLD "
        "export J-1926 --format $f; echo $?; done; ls x.xlsx; $MISTFOLD export --format csv; echo "
        "$?; $MISTFOLD export --format jsonl > all; echo $? $(wc -l < all); $MISTFOLD export "
        "--format ics | grep -c J-1926.work");
    says("4\n4\n4\n4\njob,address");
    says("altered,altered,altered,altered,altered,");
    says("\n4\n4 4");
    says("\n0\n");
}

/* They print the whole job, and answer for no day before the end of it. */
static void papers_of_a_past_day_are_refused(void **state)
{
    (void)state;
    run("$MISTFOLD paper record J-1926 --on 2026-09-15 --out past.pdf; echo $?; mkdir pasts; "
        "$MISTFOLD paper records pasts --on 2026-09-15; echo $?; ls past.pdf pasts | grep -c pdf");
    says("3\nwrote 0 records into pasts, not sealed: mistfold paper seal\n4\n0\n");
    notes("mistfold: J-1926: entries dated after 2026-09-15: ");
    assert_null(strstr(r.err, "J-1926, J-1926")); /* one of many is named once */
}

/* A time of today that is still to come is refused as a day to come is, in a correction, too; what
 * is only planned may begin later. The zone is chosen so that it is just past midnight here. */
static void a_time_to_come(void **state)
{
    (void)state;
    run("export TZ=XXX$(date -u +%H) d=$(TZ=XXX$(date -u +%H) date +%F); "
        "cp $MISTFOLD_BOOK t.book; M=\"$MISTFOLD --book t.book --by rosa\"; "
        "tick() { $M containment tick J-1926 --area A1 --step $3 --state done --person teo "
        "--renovator rosa --on $1 --time $2 2>&1 | grep -c -E \"$4\"; }; ahead='still to come'; "
        "tick $d 23:59 signs,egress \"$ahead\"; tick $d 00:00 signs '^logged'; "
        "tick 2026-09-14 23:59 signs '^logged'; "
        "$M verification log J-1926 --area A1 --event look-clean --person rosa --on $d --time "
        "23:59; "
        "echo $?; id=$($M verification log J-1926 --area A1 --event look-clean --person rosa --on "
        "$d "
        "--time 00:00 | sed -n 's/^logged verification //p'); $M entry correct $id --set "
        "time=23:59 --reason x; echo $?; "
        "p() { $M practice add J-1926 --area A1 --method hand --person rosa --on $d $*; }; "
        "p --began 23:58; echo $?; p --began 23:58 --planned yes | cut -c1-15");
    says("1\n1\n1\n3\n3\n3\nlogged practice\n");
    notes(
        "--time: \"23:59\" of today is still to come (what is logged here has happened); check the "
        "time, and the clock of this computer");
    notes("--began: \"23:58\" of today is still to come");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gates),
        cmocka_unit_test(a_no_for_the_time_is_counted),
        cmocka_unit_test(what_was_due),
        cmocka_unit_test(exports_and_gates_agree),
        cmocka_unit_test(nothing_is_judged_of_an_altered_book),
        cmocka_unit_test(papers_of_a_past_day_are_refused),
        cmocka_unit_test(a_time_to_come),
    };
    return cmocka_run_group_tests(tests, shell_demo, shell_stop);
}
