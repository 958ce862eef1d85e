/* Calibration checks. T3: the table of the testing digest, limits 0.8 to 1.2
 * inclusive, compared by the exact mean (HUD Guidelines ch. 7 IV.D; a performance
 * sheet). Four hours: secondary. Readings constructed. */
#include "core/given.h"

#include <mistfold/paint.h>
#include <string.h>

enum { MOST = 16 };

static const mf_instrument gun = {.serial = "X-1",
                                  .film_ug_cm2 = 1040,
                                  .cal_low_ug_cm2 = 800,
                                  .cal_high_ug_cm2 = 1200,
                                  .inconclusive_low_ug_cm2 = MF_NUM_NONE,
                                  .inconclusive_high_ug_cm2 = MF_NUM_NONE};

typedef struct shots {
    mf_reading all[MOST];
    size_t n;
    mf_job job;
} shots;

static void begin(shots *s)
{
    memset(s, 0, sizeof *s);
    s->job.instrument = &gun;
    s->job.n_instrument = 1;
    s->job.reading = s->all;
}

static mf_reading *shot(shots *s, mf_purpose purpose, const char *on, const char *at, int64_t ug)
{
    assert_true(s->n < MOST);
    mf_reading *it = &s->all[s->n++];
    s->job.n_reading = s->n;
    *it = (mf_reading){.src = {.entry = "d/1"},
                       .number = (int64_t)s->n,
                       .instrument = "X-1",
                       .operator_id = "ines",
                       .purpose = purpose,
                       .component = purpose == MF_READ_PAINT ? "C1" : "",
                       .loading_ug_cm2 = ug,
                       .film_ug_cm2 = MF_NUM_NONE,
                       .on = day(on),
                       .at_minute = *at == '\0' ? MF_MINUTE_NONE : minute(at)};
    return it;
}

static void film(shots *s, const char *at, int64_t a, int64_t b, int64_t c)
{
    shot(s, MF_READ_CALIBRATION, "2026-09-14", at, a);
    shot(s, MF_READ_CALIBRATION, "2026-09-14", at, b);
    shot(s, MF_READ_CALIBRATION, "2026-09-14", at, c);
}

/* The tolerance is of the film that belongs to the instrument (constructed). */
static void on_another_film(void **state)
{
    (void)state;
    static const int64_t films[] = {MF_NUM_NONE, 1040, 3500, 300, 0};
    for (size_t i = 0; i < COUNT(films); i++) {
        shots s;
        mf_calibration check;
        begin(&s);
        film(&s, "08:00", 1000, 1000, 1000);
        s.all[1].film_ug_cm2 = films[i];
        assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
        assert_int_equal(check.good, i < 2);
    }
}

/* Nor does a tolerance about another value than the film's show anything (constructed). */
static void tolerance_about_another_value(void **state)
{
    (void)state;
    static const struct {
        int64_t film, low, high;
        bool good;
    } rows[] = {
        {1040, 800, 1200, true},  {800, 800, 1200, true},   {1200, 800, 1200, true},
        {799, 800, 1200, false},  {1201, 800, 1200, false}, {0, -100, 1200, false},
        {1000, 1200, 800, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        shots s;
        mf_calibration check;
        mf_instrument it = gun;
        begin(&s);
        it.film_ug_cm2 = rows[i].film;
        it.cal_low_ug_cm2 = rows[i].low;
        it.cal_high_ug_cm2 = rows[i].high;
        s.job.instrument = &it;
        film(&s, "08:00", 1000, 1000, 1000);
        assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
        assert_int_equal(check.good, rows[i].good);
    }
}

static void means_of_t3(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int64_t ug[3];
        bool good;
    } rows[] = {
        {"1.0 1.1 0.9", {1000, 1100, 900}, true},
        {"1.2 1.2 1.2", {1200, 1200, 1200}, true},
        {"0.8 0.8 0.8", {800, 800, 800}, true},
        {"1.3 1.2 1.1", {1300, 1200, 1100}, true},
        {"0.6 1.2 1.2", {600, 1200, 1200}, true},
        {"1.22 1.19 1.19", {1220, 1190, 1190}, true},
        {"1.21 1.20 1.20", {1210, 1200, 1200}, false},
        {"1.2 1.3 1.2", {1200, 1300, 1200}, false},
        {"0.7 0.8 0.8", {700, 800, 800}, false},
        {"1.201 1.2 1.2", {1201, 1200, 1200}, false}, /* one thousandth over, not rounded */
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        shots s;
        mf_calibration check;
        begin(&s);
        film(&s, "08:00", rows[i].ug[0], rows[i].ug[1], rows[i].ug[2]);
        assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
        assert_int_equal(check.n, 3);
        assert_int_equal(check.sum_ug_cm2, rows[i].ug[0] + rows[i].ug[1] + rows[i].ug[2]);
        CHECK_ROW(check.good == rows[i].good, rows[i].name);
        assert_string_equal(check.instrument, "X-1");
        assert_string_equal(check.operator_id, "ines");
        assert_string_equal(check.evidence, "d/1");
    }
}

static void two_readings_are_no_check(void **state)
{
    (void)state;
    shots s;
    mf_calibration check;
    begin(&s);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:00", 1000);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:01", 1000);
    assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
    assert_false(check.good);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:02", 1000);
    assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
    assert_true(check.good);
    assert_int_equal(check.first_minute, 480);
    assert_int_equal(check.last_minute, 482);
    s.all[2].qualifier = MF_QUAL_OVER; /* a saturated display cannot be averaged */
    mf_calibrations(&s.job, &check, 1);
    assert_false(check.good);
    s.all[2].qualifier = MF_QUAL_EXACT;
    s.all[2].loading_ug_cm2 = MF_NUM_NONE;
    mf_calibrations(&s.job, &check, 1);
    assert_false(check.good);
}

static void an_unknown_instrument_is_not_good(void **state)
{
    (void)state;
    shots s;
    mf_calibration check;
    begin(&s);
    film(&s, "08:00", 1000, 1000, 1000);
    s.job.n_instrument = 0;
    assert_int_equal(mf_calibrations(&s.job, &check, 1), 1);
    assert_false(check.good);
}

/* paint.h: consecutive, one instrument, one day, within ten minutes. */
static void checks_are_cut_apart(void **state)
{
    (void)state;
    shots s;
    mf_calibration checks[8];
    begin(&s);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:00", 1000);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:10", 1000); /* 10 minutes: same check */
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:21", 1000); /* 11 minutes: another */
    shot(&s, MF_READ_PAINT, "2026-09-14", "08:22", 300);
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:23", 1000); /* paint between: another */
    shot(&s, MF_READ_CALIBRATION, "2026-09-15", "08:24", 1000); /* next day: another */
    shot(&s, MF_READ_CALIBRATION, "2026-09-14", "08:05", 1000)->instrument = "X-2";
    assert_int_equal(mf_calibrations(&s.job, checks, 8), 5);
    assert_int_equal(checks[0].n, 2);
    assert_int_equal(checks[0].last_minute, 490);
    assert_string_equal(checks[1].instrument, "X-2");
    assert_int_equal(checks[2].first_minute, 501);
    assert_int_equal(checks[3].first_minute, 503);
    assert_int_equal(checks[4].on, day("2026-09-15"));
}

static void the_order_of_entries_does_not_matter(void **state)
{
    (void)state;
    shots s;
    mf_calibration checks[2];
    begin(&s);
    film(&s, "12:00", 1000, 1000, 1000);
    film(&s, "08:00", 900, 900, 900);
    assert_int_equal(mf_calibrations(&s.job, checks, 2), 2);
    assert_int_equal(checks[0].first_minute, 480);
    assert_int_equal(checks[1].first_minute, 720);
    memset(checks, 0, sizeof checks);
    assert_int_equal(mf_calibrations(&s.job, checks, 1), 2); /* keeps the earliest */
    assert_int_equal(checks[0].first_minute, 480);
    assert_null(checks[1].instrument);
    assert_int_equal(mf_calibrations(&s.job, NULL, 0), 2);
    film(&s, "08:00", 1100, 1100, 1100); /* of one minute: as entered */
    for (size_t i = 6; i < s.n; i++)
        s.all[i].instrument = "X-2";
    assert_int_equal(mf_calibrations(&s.job, checks, 2), 3);
    assert_string_equal(checks[0].instrument, "X-1");
    assert_string_equal(checks[1].instrument, "X-2");
}

/* The reading stands at 10:00; each row is one or two checks around it. CA5: a check at
 * the start, at the end and at least every 4 hours, so that no more use than that lies
 * between two of them. */
static void enclosed_between_two_good_checks(void **state)
{
    (void)state;
    static const struct {
        const char *name, *before, *after;
        int64_t mean_before, mean_after;
        bool enclosed;
    } rows[] = {
        {"near", "09:00", "11:00", 1000, 1000, true},
        {"4 h in all", "07:00", "11:00", 1000, 1000, true},
        {"3 h 59 in all", "07:00", "10:59", 1000, 1000, true},
        {"4 h 01 in all", "07:00", "11:01", 1000, 1000, false},
        {"4 h on either side", "06:00", "14:00", 1000, 1000, false},
        {"4 h before alone", "06:00", "10:01", 1000, 1000, false},
        {"4 h after alone", "09:59", "14:00", 1000, 1000, false},
        {"failed before", "09:00", "11:00", 1300, 1000, false},
        {"failed after", "09:00", "11:00", 1000, 1300, false},
        {"same minute", "10:00", "10:00", 1000, 1000, false}, /* both entered before it */
        {"none before", "", "11:00", 1000, 1000, false},
        {"none after", "09:00", "", 1000, 1000, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        shots s;
        begin(&s);
        if (*rows[i].before != '\0')
            film(&s, rows[i].before, rows[i].mean_before, rows[i].mean_before, rows[i].mean_before);
        if (*rows[i].after != '\0')
            film(&s, rows[i].after, rows[i].mean_after, rows[i].mean_after, rows[i].mean_after);
        mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
        CHECK_ROW(mf_reading_enclosed(&s.job, paint) == rows[i].enclosed, rows[i].name);
    }
}

/* CA7: readings since the last good check do not stand when the next one fails,
 * though a later one is good again. */
static void a_failed_check_in_between(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "08:00", 1000, 1000, 1000);
    mf_reading *early = shot(&s, MF_READ_PAINT, "2026-09-14", "08:30", 300);
    film(&s, "09:00", 1300, 1300, 1300);
    mf_reading *between = shot(&s, MF_READ_PAINT, "2026-09-14", "09:15", 300);
    film(&s, "09:30", 1000, 1000, 1000);
    mf_reading *late = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
    film(&s, "10:30", 1000, 1000, 1000);
    assert_false(mf_reading_enclosed(&s.job, early));
    assert_false(mf_reading_enclosed(&s.job, between));
    assert_true(mf_reading_enclosed(&s.job, late));
}

static void only_the_own_instrument_counts(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "09:00", 1000, 1000, 1000);
    mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
    film(&s, "11:00", 1000, 1000, 1000);
    assert_true(mf_reading_enclosed(&s.job, paint));
    paint->instrument = "X-2";
    assert_false(mf_reading_enclosed(&s.job, paint));
}

static void unknown_times_are_not_enclosed(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "09:00", 1000, 1000, 1000);
    mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
    film(&s, "11:00", 1000, 1000, 1000);
    paint->at_minute = MF_MINUTE_NONE;
    assert_false(mf_reading_enclosed(&s.job, paint));
    paint->at_minute = minute("10:00");
    for (size_t i = 4; i < 7; i++)
        s.all[i].at_minute = MF_MINUTE_NONE;
    assert_false(mf_reading_enclosed(&s.job, paint));
    paint->on = MF_DAY_NONE;
    assert_false(mf_reading_enclosed(&s.job, paint));
}

/* Use lies between the last reading of one check and the first of the next: 07:50 to
 * 08:00 and 12:00 to 12:10 are 4 hours apart. */
static void a_check_takes_time(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "07:50", 1000, 1000, 1000);
    film(&s, "08:00", 1000, 1000, 1000);
    film(&s, "12:00", 1000, 1000, 1000);
    film(&s, "12:10", 1000, 1000, 1000);
    mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
    assert_true(mf_reading_enclosed(&s.job, paint));
}

/* Minutes run on over midnight. */
static void over_midnight(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "23:00", 1000, 1000, 1000);
    mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "23:50", 300);
    for (int i = 0; i < 3; i++)
        shot(&s, MF_READ_CALIBRATION, "2026-09-15", "00:30", 1000);
    assert_true(mf_reading_enclosed(&s.job, paint));
}

/* Checks of the same instrument and operator; a failed check by somebody else
 * still tells that the instrument was not good. */
static void by_the_same_operator(void **state)
{
    (void)state;
    shots s;
    begin(&s);
    film(&s, "08:00", 1000, 1000, 1000);
    film(&s, "11:00", 1000, 1000, 1000);
    mf_reading *paint = shot(&s, MF_READ_PAINT, "2026-09-14", "10:00", 300);
    assert_true(mf_reading_enclosed(&s.job, paint));
    paint->operator_id = "other";
    assert_false(mf_reading_enclosed(&s.job, paint));
    paint->operator_id = s.all[0].operator_id;
    for (int i = 0; i < 3; i++)
        shot(&s, MF_READ_CALIBRATION, "2026-09-14", "09:00", 1500)->operator_id = "other";
    assert_false(mf_reading_enclosed(&s.job, paint));
}

/* TC10: the stricter of sheet and instrument governs, on the check's backing. */
static void the_sheet_narrows_the_tolerance(void **state)
{
    (void)state;
    shots s;
    mf_calibration check;
    mf_profile_row row = {.instrument = "X-1",
                          .substrate = MF_SUB_WOOD,
                          .cal_low_ug_cm2 = 900,
                          .cal_high_ug_cm2 = 1100};
    begin(&s);
    film(&s, "08:00", 1200, 1200, 1200);
    for (int i = 0; i < 3; i++)
        s.all[i].substrate = MF_SUB_WOOD;
    mf_calibrations(&s.job, &check, 1);
    assert_true(check.good);
    s.job.profile_row = &row;
    s.job.n_profile_row = 1;
    mf_calibrations(&s.job, &check, 1);
    assert_false(check.good);
    row.cal_high_ug_cm2 = 1200;
    mf_calibrations(&s.job, &check, 1);
    assert_true(check.good);
    static const struct {
        int64_t low, mean;
        bool good;
    } rows[] = {{900, 899, false},
                {900, 900, true},
                {MF_NUM_NONE, 800, true},
                {INT64_MIN + 1, 900, false}}; /* nobody logged that */
    for (size_t i = 0; i < COUNT(rows); i++) {
        row.cal_low_ug_cm2 = rows[i].low;
        for (int n = 0; n < 3; n++)
            s.all[n].loading_ug_cm2 = rows[i].mean;
        mf_calibrations(&s.job, &check, 1);
        assert_int_equal(check.good, rows[i].good);
    }
}

/* A million mg/cm2 either way is averaged, more is no number: whoever typed it slipped.
 * The sums stay exact. Constructed. */
static void no_number(void **state)
{
    (void)state;
    static const struct {
        int64_t ug;
        bool good;
    } rows[] = {{1000000000, true}, {1000000001, false}, {-1000000000, true}, {-1000000001, false}};
    shots s;
    mf_calibration check;
    mf_instrument wide = gun;
    wide.cal_low_ug_cm2 = -1000000000;
    wide.cal_high_ug_cm2 = 1000000000;
    for (size_t i = 0; i < COUNT(rows); i++) {
        begin(&s);
        s.job.instrument = &wide;
        film(&s, "08:00", rows[i].ug, 0, 0);
        mf_calibrations(&s.job, &check, 1);
        assert_int_equal(check.good, rows[i].good);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(means_of_t3),
        cmocka_unit_test(on_another_film),
        cmocka_unit_test(tolerance_about_another_value),
        cmocka_unit_test(two_readings_are_no_check),
        cmocka_unit_test(an_unknown_instrument_is_not_good),
        cmocka_unit_test(checks_are_cut_apart),
        cmocka_unit_test(the_order_of_entries_does_not_matter),
        cmocka_unit_test(enclosed_between_two_good_checks),
        cmocka_unit_test(a_failed_check_in_between),
        cmocka_unit_test(only_the_own_instrument_counts),
        cmocka_unit_test(unknown_times_are_not_enclosed),
        cmocka_unit_test(a_check_takes_time),
        cmocka_unit_test(over_midnight),
        cmocka_unit_test(by_the_same_operator),
        cmocka_unit_test(the_sheet_narrows_the_tolerance),
        cmocka_unit_test(no_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
