/* test walk: readings one after the other, by few keys, and none twice by a slip. */
#include "support/cmocka_all.h"
#include "support/walk_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int prepare(void **state)
{
    int failed = walk_start(state);
    run_shell(&r, walk_folder,
              "set -e; m=$MISTFOLD; $m instrument add --serial X-100 --film 1.02 --cal-low 0.8 "
              "--cal-high 1.2; for p in sash stop jamb; do $m component add J --id W01.$p "
              "--opening W01 --type $p --side interior --substrate wood; done");
    return failed != 0 ? failed : r.status;
}

/* A fresh copy of the book for each walk. */
static void walk_test(const char *keys)
{
    char command[80];
    run_shell(&r, walk_folder, "cp b.book t.book");
    snprintf(command, sizeof command, "--book t.book test walk J");
    walk(keys, command);
}

static void readings_are(const char *expected)
{
    run_shell(&r, walk_folder,
              "sqlite3 -readonly t.book \"SELECT number, component, loading_ug_cm2, qualifier, "
              "substrate, operator, purpose FROM reading ORDER BY rowid\"");
    assert_string_equal(r.out, expected);
}

/* Three parts, three results: four keys a reading, five where it is saturated. The walk ends
 * with q; before it the operator was chosen. */
static void a_reading_is_a_number_and_enter(void **state)
{
    (void)state;
    walk_test("1 0.4 <enter> >9.9 <enter> -0.1 <enter> q");
    says("W01.sash");
    says("not read yet: 3 | number 1 | X-100 | rosa");
    says("Every listed part that the work disturbs was read");
    says("keys 16 answers 5");
    readings_are("1|W01.sash|400|exact|wood|rosa|paint\n2|W01.stop|9900|over|wood|rosa|paint\n"
                 "3|W01.jamb|-100|exact|wood|rosa|paint\n");
}

/* What was settled stays: the next walk asks for nobody. s and b choose another part, a slip of
 * typing is told and nothing is kept. */
static void the_next_walk_goes_on(void **state)
{
    (void)state;
    walk_test("1 0.4 <enter> q");
    walk("s 1.1 <enter> b 0..5 <enter> 0.6 <enter> q", "--book t.book test walk J");
    says("is not a number");
    readings_are("1|W01.sash|400|exact|wood|rosa|paint\n2|W01.jamb|1100|exact|wood|rosa|paint\n"
                 "3|W01.stop|600|exact|wood|rosa|paint\n");
}

/* u takes the last one back with a reason; its part is offered again. */
static void the_last_one_is_taken_back(void **state)
{
    (void)state;
    walk_test("1 0.4 <enter> 4.4 <enter> u slipped <enter> 0.5 <enter> q");
    readings_are("1|W01.sash|400|exact|wood|rosa|paint\n2|W01.stop|500|exact|wood|rosa|paint\n");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly t.book \"SELECT body ->> '$.reason' FROM entry WHERE kind = "
              "'correction'\"");
    assert_string_equal(r.out, "slipped\n");
}

/* An l for a 1 is no key, and ".4" behind it is not what the instrument showed. */
static void a_letter_spoils_the_number(void **state)
{
    (void)state;
    walk_test("1 l .4 <enter> 1.4 <enter> q");
    says("the number was not taken");
    readings_are("1|W01.sash|1400|exact|wood|rosa|paint\n");
}

/* By whom it was read decides whether it counts (40 CFR 745.82(a)): it is asked of whoever goes on
 * with another's readings. */
static void another_person_is_asked(void **state)
{
    (void)state;
    walk_test("1 0.4 <enter> q");
    walk("1 0.5 <enter> q", "--by teo --book t.book test walk J");
    readings_are("1|W01.sash|400|exact|wood|rosa|paint\n2|W01.stop|500|exact|wood|teo|paint\n");
}

/* A number that stands there today with another part is asked about; no is nothing kept. */
static void a_number_twice_is_asked_about(void **state)
{
    (void)state;
    walk_test("1 0.4 <enter> n 1 <enter> 0.7 <enter> n n 1 <enter> 0.7 <enter> y q");
    says("Logged today already under the number 1: W01.sash 0.40");
    says("nothing was kept");
    readings_are("1|W01.sash|400|exact|wood|rosa|paint\n1|W01.stop|700|exact|wood|rosa|paint\n");
}

/* Three on the film by keys of their own; before them the check is called to mind. */
static void the_film_and_its_reminder(void **state)
{
    (void)state;
    walk_test("1 c 6 1.0 <enter> 1.0 <enter> 1.1 <enter> c 0.4 <enter> q");
    says("No good calibration check of this instrument");
    readings_are("1||1000|exact|wood|rosa|calibration\n2||1000|exact|wood|rosa|calibration\n"
                 "3||1100|exact|wood|rosa|calibration\n4|W01.sash|400|exact|wood|rosa|paint\n");
    walk("s q", "--book t.book test walk J");
    says_not("No good calibration check");
    says_not("due soon");
}

/* 240 minutes are allowed between two checks (HUD Guidelines ch. 7, as in limit_rows.c): half an
 * hour before the walk says so, behind it that it is over. Only where the day is old enough. */
static void four_hours_are_near(void **state)
{
    (void)state;
    run_shell(
        &r, walk_folder,
        "[ $(date +%H) -ge 5 ] || exit 9; for b in 215:n.book 250:o.book; do cp b.book "
        "${b#*:}; i=1; while [ $i -le 3 ]; do $MISTFOLD --book ${b#*:} test log J --purpose "
        "calibration --instrument X-100 --operator rosa --substrate wood --number $i --result "
        "1.0 --on $(date +%F) --time $(date -d \"-${b%:*} min\" +%H:%M); i=$((i + 1)); done; "
        "done");
    if (r.status == 9)
        skip();
    walk("q", "--book n.book test walk J");
    says("A calibration check is due soon");
    walk("q", "--book o.book test walk J");
    says("A calibration check is overdue");
}

static void narrow_and_in_spanish(void **state)
{
    (void)state;
    setenv("SIZE", "50x20", 1);
    run_shell(&r, walk_folder, "cp b.book t.book");
    walk("1 0.4 <enter> c 6 1.0 <enter> c n 2 <enter> 0.6 <enter> s i 1 1 u <enter> q",
         "--lang es --book t.book test walk J");
    unsetenv("SIZE");
    says("sin leer: 3");
    says("Ya se registró hoy con el número 2: película");
}

/* By command: what is not typed is repeated, the day too; a number twice is refused. */
static void the_command_repeats_the_day(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book t.book; m=\"$MISTFOLD --book t.book\"; $m test log J --component W01.sash "
              "--instrument X-100 --operator rosa --result 0.4 --on 2026-08-12 --time 08:00; "
              "$m test log J --component stop --result 0.5;"
              "sqlite3 -readonly t.book 'SELECT day, number FROM reading ORDER BY rowid'");
    says("2026-08-12|1\n2026-08-12|2\n");
    run_shell(&r, walk_folder,
              "$MISTFOLD --book t.book test log J --component jamb --result 0.6 --number 2");
    assert_int_equal(r.status, 3);
    if (strstr(r.err, "number 2 of X-100 is logged that day: W01.stop 0.50, entry t/") == NULL)
        fail_msg("%s", r.err);
    run_shell(
        &r, walk_folder,
        "$MISTFOLD --book t.book test log J --component jamb --result 0.6 --number 2 --again");
    assert_int_equal(r.status, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_reading_is_a_number_and_enter),
        cmocka_unit_test(the_next_walk_goes_on),
        cmocka_unit_test(the_last_one_is_taken_back),
        cmocka_unit_test(a_letter_spoils_the_number),
        cmocka_unit_test(another_person_is_asked),
        cmocka_unit_test(a_number_twice_is_asked_about),
        cmocka_unit_test(the_film_and_its_reminder),
        cmocka_unit_test(four_hours_are_near),
        cmocka_unit_test(narrow_and_in_spanish),
        cmocka_unit_test(the_command_repeats_the_day),
    };
    return cmocka_run_group_tests(tests, prepare, walk_stop);
}
