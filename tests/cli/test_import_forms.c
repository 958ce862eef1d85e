/* test import of exports that write numbers and dates another way, and what it tells of columns
 * and of faults of one sort. */
#include "support/shell_kit.h"

#include <stdio.h>

#define HEADS "Nr,instrument,operator,date,time,opening,component,side,substrate,PbC (mg/cm2)\\n"
#define MAP   "--map 'Nr=number,PbC=result'"

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    setenv("MISTFOLD_LANG", "en", 1);
    run("set -e; m=\"$MISTFOLD --quiet\"; $m book new --no-key --device t;"
        "$m person add --id rosa --name 'Rosa Muestra';"
        "$m instrument add --serial X-1 --film 1.02 --cal-low 0.8 --cal-high 1.2;"
        "$m job open --from " MF_SAMPLE "/small-house.txt");
    return r.status;
}

static void import(const char *rows, const char *options)
{
    char line[1500];
    snprintf(line, sizeof line,
             "cp b.book t.book; printf '%s' > x.csv; $MISTFOLD --book t.book --quiet test import "
             "J-1950 x.csv %s",
             rows, options);
    run(line);
}

/* A comma is a point and 12/08/2026 the twelfth of August only where that was said. */
static void commas_and_days_first(void **state)
{
    (void)state;
    const char *rows = HEADS "1,X-1,rosa,12/08/2026,08:00,W01,sash,interior,wood,\"0,4\"\\n"
                             "2,X-1,rosa,1.9.2026,08:01,W01,stop,interior,wood,\">9,9\"\\n"
                             "3,X-1,rosa,2026-09-02,08:02,W01,jamb,interior,wood,-0.1\\n";
    import(rows, MAP " --decimal comma --dates dmy");
    assert_int_equal(r.status, 0);
    notes("taken for: Nr = number, PbC (mg/cm2) = result");
    run("sqlite3 -readonly t.book 'SELECT day, loading_ug_cm2, qualifier FROM reading ORDER BY "
        "number'");
    assert_string_equal(r.out,
                        "2026-08-12|400|exact\n2026-09-01|9900|over\n2026-09-02|-100|exact\n");
    import(rows, MAP);
    assert_int_equal(r.status, 3);
    notes("dates are year-month-day");
}

/* What is doubtful even so is refused: two commas, a point beside one, a day that does not
 * exist, a year of two digits. */
static void doubt_is_refused(void **state)
{
    static const char *const cells[][2] = {{"12/08/2026", "1,0,4"},
                                           {"12/08/2026", "1.000,4"},
                                           {"31/09/2026", "0,4"},
                                           {"12/08/26", "0,4"},
                                           {"08/13/2026", "0,4"}};
    char rows[600];
    (void)state;
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        snprintf(rows, sizeof rows, HEADS "1,X-1,rosa,%s,08:00,W01,sash,interior,wood,\"%s\"\\n",
                 cells[i][0], cells[i][1]);
        import(rows, MAP " --decimal comma --dates dmy");
        assert_int_equal(r.status, 3);
    }
    import(HEADS, MAP " --decimal comas");
    assert_int_equal(r.status, 3);
    notes("it is point or comma, not comas");
}

/* In a file cut at commas 0,9 without quotes is two cells; a last column that may be left out
 * would take the 9. A whole number there may be such a half. */
static void a_comma_that_cut_the_number(void **state)
{
    (void)state;
    import("Nr,instrument,operator,date,time,opening,component,side,substrate,PbC (mg/cm2),color"
           "\\n1,X-1,rosa,2026-08-12,08:00,W01,sash,interior,wood,0,9\\n",
           MAP " --decimal comma");
    assert_int_equal(r.status, 3);
    notes("x.csv:2, column PbC (mg/cm2): \"0\" may be half of a number that its comma cut");
    notes("put numbers with a comma into quotes");
    import("Nr;instrument;operator;date;time;opening;component;side;substrate;PbC (mg/cm2);color"
           "\\n1;X-1;rosa;2026-08-12;08:00;W01;sash;interior;wood;1;red\\n",
           MAP " --decimal comma");
    assert_int_equal(r.status, 0);
}

/* Where commas are decimal a point before three digits may stand between thousands. */
static void a_point_that_may_be_of_thousands(void **state)
{
    (void)state;
    import(HEADS "1,X-1,rosa,2026-08-12,08:00,W01,sash,interior,wood,1.000\\n",
           MAP " --decimal comma");
    assert_int_equal(r.status, 3);
    notes("\"1.000\" has a point that may stand between thousands");
    import(HEADS "1,X-1,rosa,2026-08-12,08:00,W01,sash,interior,wood,\"1.250,0\"\\n",
           MAP " --decimal comma");
    assert_int_equal(r.status, 3);
    notes("\"1.250,0\" has more than one sign");
    notes("write one comma before the decimals, and nothing between thousands");
}

/* All columns that are not known, at once. */
static void unknown_columns_at_once(void **state)
{
    (void)state;
    import("number,Mood,instrument,Battery,Temp\\n1,2,3,4,5\\n", "");
    assert_int_equal(r.status, 3);
    notes("x.csv:1, column Mood: there are no such columns: Mood, Battery, Temp");
}

/* Twelve rows with the same slip are one message and the lines of the others. */
static void equal_faults_are_grouped(void **state)
{
    char rows[1400] = HEADS;
    (void)state;
    for (int i = 1; i <= 12; i++) {
        size_t len = strlen(rows);
        snprintf(rows + len, sizeof rows - len,
                 "%d,X-1,rosa,2026-08-12,08:00,W01,sash,interior,wood,%s\\n", i,
                 i == 5    ? "0.4"
                 : i == 12 ? "-"
                           : "\"0,4\"");
    }
    import(rows, MAP);
    assert_int_equal(r.status, 3);
    notes("x.csv:2, column PbC (mg/cm2): \"0,4\" has a decimal comma");
    notes("the same in other lines, 9: 3, 4, 5, 7, 8, 9, 10, 11, 12");
    notes("x.csv:13, column PbC (mg/cm2): \"-\"");
    assert_null(strstr(r.err, "x.csv:7, "));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(commas_and_days_first),
        cmocka_unit_test(doubt_is_refused),
        cmocka_unit_test(a_comma_that_cut_the_number),
        cmocka_unit_test(a_point_that_may_be_of_thousands),
        cmocka_unit_test(unknown_columns_at_once),
        cmocka_unit_test(equal_faults_are_grouped),
    };
    return cmocka_run_group_tests(tests, start, shell_stop);
}
