/* Civil dates against date(1) and a hand-written table of leap cases. */
#include "core/given.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- against date(1), GNU coreutils ---------------------------------------------- */

enum { FIRST = -719162, LAST = 2932896, SECONDS = 86400 };

/* Every 397th day of all years, and each day of the years around odd leaps. */
static void write_days(FILE *file)
{
    static const int from[] = {-25600, 10900, 18200, 46000}; /* about 1899, 1999, 2019, 2095 */
    for (long d = FIRST; d <= LAST; d += 397)
        fprintf(file, "@%ld\n", d * SECONDS);
    fprintf(file, "@%ld\n", (long)LAST * SECONDS);
    for (size_t i = 0; i < COUNT(from); i++) {
        for (long d = from[i]; d < from[i] + 3 * 366; d++)
            fprintf(file, "@%ld\n", d * SECONDS);
    }
}

static void check_line(char *line)
{
    char text[MF_DAY_TEXT];
    char *rest = NULL;
    long seconds = strtol(line, &rest, 10);
    long weekday = strtol(rest, &rest, 10);
    long year = strtol(rest, &rest, 10);
    long month = strtol(rest, &rest, 10);
    long dom = strtol(rest, &rest, 10);
    mf_day expected = (mf_day)(seconds / SECONDS);
    int y, m, d;
    assert_int_equal(mf_day_from((int)year, (int)month, (int)dom), expected);
    assert_int_equal(mf_day_weekday(expected), weekday);
    mf_day_parts(expected, &y, &m, &d);
    assert_int_equal(y, year);
    assert_int_equal(m, month);
    assert_int_equal(d, dom);
    mf_day_text(expected, text);
    assert_int_equal(mf_day_parse(text, NULL), expected);
}

static void agrees_with_date(void **state)
{
    (void)state;
    char path[] = "/tmp/mistfold-days-XXXXXX", command[128], line[128];
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *file = fdopen(fd, "w");
    assert_non_null(file);
    write_days(file);
    assert_int_equal(fclose(file), 0);
    int n =
        snprintf(command, sizeof command, "LC_ALL=C date -u -f %s '+%%s %%w %%Y %%m %%d'", path);
    assert_true(n > 0 && (size_t)n < sizeof command);
    FILE *date = popen(command, "r"); /* NOLINT(cert-env33-c): a fixed command */
    assert_non_null(date);
    size_t lines = 0;
    for (; fgets(line, sizeof line, date) != NULL; lines++)
        check_line(line);
    assert_int_equal(pclose(date), 0);
    unlink(path);
    assert_true(lines > 13000);
}

/* ---- leap years and the ends of the calendar --------------------------------------- */

static void dates_that_exist(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        bool form, exists;
    } rows[] = {
        {"2024-02-29", true, true},    {"2023-02-29", true, false},   {"1900-02-29", true, false},
        {"2000-02-29", true, true},    {"2100-02-29", true, false},   {"2400-02-29", true, true},
        {"2026-02-30", true, false},   {"2026-04-31", true, false},   {"2026-12-31", true, true},
        {"2026-13-01", true, false},   {"2026-00-10", true, false},   {"2026-01-00", true, false},
        {"0001-01-01", true, true},    {"0000-12-31", true, false},   {"9999-12-31", true, true},
        {"2026-1-01", false, false},   {"26-01-01", false, false},    {"2026/01/01", false, false},
        {"2026-01-01 ", false, false}, {" 2026-01-01", false, false}, {"", false, false},
        {"+026-01-01", false, false},  {"2026-01-1x", false, false},  {"20260101", false, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bool form = !rows[i].form;
        mf_day parsed = mf_day_parse(rows[i].text, &form);
        CHECK_ROW(form == rows[i].form, rows[i].text);
        CHECK_ROW((parsed != MF_DAY_NONE) == rows[i].exists, rows[i].text);
    }
    assert_int_equal(mf_day_parse(NULL, NULL), MF_DAY_NONE);
}

static void days_that_are_known(void **state)
{
    (void)state;
    assert_int_equal(day("1970-01-01"), 0); /* the epoch of POSIX */
    assert_int_equal(day("1969-12-31"), -1);
    assert_int_equal(day("2000-01-01"), 10957);                  /* 30 years with 7 leap days */
    assert_int_equal(mf_day_weekday(day("1970-01-01")), 4);      /* Thursday */
    assert_int_equal(mf_day_weekday(day("1969-12-28")), 0);      /* Sunday */
    assert_int_equal(day("2026-06-30") - day("2026-05-01"), 60); /* facts section 11, pamphlet */
    assert_int_equal(day("2024-03-01") - day("2024-02-28"), 2);
    assert_int_equal(day("2100-03-01") - day("2100-02-28"), 1);
}

static void years_are_added(void **state)
{
    (void)state;
    static const struct {
        const char *from;
        int years;
        const char *to;
    } rows[] = {
        {"2021-05-10", 5, "2026-05-10"}, /* facts section 11, renovator */
        {"2026-03-01", 3, "2029-03-01"}, /* facts section 11, retention */
        {"2024-02-29", 3, "2027-03-01"}, /* 29 Feb -> 1 Mar */
        {"2024-02-29", 4, "2028-02-29"},     {"2096-02-29", 4, "2100-03-01"},
        {"2024-02-29", -1, "2023-03-01"},    {"2024-02-29", -4, "2020-02-29"},
        {"2023-02-28", 1, "2024-02-28"},     {"2026-12-31", 0, "2026-12-31"},
        {"9998-01-01", 1, "9999-01-01"},     {"0001-01-01", 1, "0002-01-01"},
        {"0001-01-01", 9998, "9999-01-01"},  {"9999-12-31", 0, "9999-12-31"},
        {"9999-12-31", -9998, "0001-12-31"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[MF_DAY_TEXT];
        mf_day_text(mf_day_add_years(day(rows[i].from), rows[i].years), text);
        assert_string_equal(text, rows[i].to);
    }
    assert_int_equal(mf_day_add_years(day("9999-01-01"), 1), MF_DAY_NONE);
    assert_int_equal(mf_day_add_years(day("0001-01-01"), -1), MF_DAY_NONE);
    assert_int_equal(mf_day_add_years(MF_DAY_NONE, 1), MF_DAY_NONE);
    assert_int_equal(mf_day_add_years(0, INT32_MAX), MF_DAY_NONE);
}

static void text_of_no_day(void **state)
{
    (void)state;
    char text[MF_DAY_TEXT] = "x";
    mf_day_text(MF_DAY_NONE, text);
    assert_string_equal(text, "");
    mf_day_text(INT32_MAX, text);
    assert_string_equal(text, "");
    mf_day_text(day("0001-01-01"), text);
    assert_string_equal(text, "0001-01-01");
    mf_day_text(day("9999-12-31"), text);
    assert_string_equal(text, "9999-12-31");
}

static void times_of_day(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int32_t minutes;
    } rows[] = {
        {"00:00", 0},   {"00:01", 1}, {"08:30", 510}, {"23:59", 1439}, {"24:00", -1},
        {"12:60", -1},  {"8:30", -1}, {"0830", -1},   {"08:3", -1},    {"08-30", -1},
        {"08:300", -1}, {"", -1},     {"ab:cd", -1},  {"-1:30", -1},   {"12:3 ", -1},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[MF_MINUTE_TEXT];
        CHECK_ROW(mf_minute_parse(rows[i].text) == rows[i].minutes, rows[i].text);
        mf_minute_text(rows[i].minutes, text);
        assert_string_equal(text, rows[i].minutes < 0 ? "" : rows[i].text);
    }
    char text[MF_MINUTE_TEXT] = "x";
    mf_minute_text(24 * 60, text); /* a day has none such */
    assert_string_equal(text, "");
    assert_int_equal(mf_minute_parse(NULL), MF_MINUTE_NONE);
}

static void within(void **state)
{
    (void)state;
    static const struct {
        const char *from, *until, *day;
        bool inside;
    } rows[] = {
        {"2021-03-08", "2026-01-11", "2021-03-08", true},
        {"2021-03-08", "2026-01-11", "2021-03-07", false},
        {"2021-03-08", "2026-01-11", "2026-01-11", true},
        {"2021-03-08", "2026-01-11", "2026-01-12", false},
        {"", "2026-01-11", "1900-01-01", true},
        {"", "2026-01-11", "2026-01-12", false},
        {"2021-03-08", "", "2099-01-01", true},
        {"2021-03-08", "", "2021-03-07", false},
        {"", "", "2026-09-14", true},
        {"", "", "", true},
        {"2021-03-08", "", "", true},
        {"2021-03-08", "2026-01-11", "", false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_day from = mf_day_parse(rows[i].from, NULL), until = mf_day_parse(rows[i].until, NULL);
        CHECK_ROW(mf_day_within(from, until, mf_day_parse(rows[i].day, NULL)) == rows[i].inside,
                  rows[i].day);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_date),
        cmocka_unit_test(dates_that_exist),
        cmocka_unit_test(days_that_are_known),
        cmocka_unit_test(years_are_added),
        cmocka_unit_test(text_of_no_day),
        cmocka_unit_test(times_of_day),
        cmocka_unit_test(within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
