/* Where the occupants of assisted housing may be: 24 CFR 35.1345(a)(2). Houses and work are
 * constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/assisted.h>

static fixture fx;

static int start(void **state)
{
    (void)state;
    fx_assisted_repair(&fx);
    return 0;
}

static mf_occupancy stay(mf_stay kind, const char *from, const char *until)
{
    return (mf_occupancy){.stay = kind,
                          .from = day(from),
                          .until = day(until),
                          .minutes = MF_NUM_NONE,
                          .margin_ft_100 = MF_NUM_NONE};
}

static void relocated(void **state)
{
    (void)state;
    fx.component[0].disturbed_sqft_100 = 900;
    mf_occupancy it = stay(MF_STAY_RELOCATED, "2026-09-14", "2026-10-14");
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

/* (i), (ii) */
static void nothing_inside(void **state)
{
    (void)state;
    mf_occupancy it = stay(MF_STAY_NO_HAZARD, "2026-09-14", "2026-10-14");
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_HAZARD);
    it.stay = MF_STAY_EXTERIOR;
    it.sealed = it.free_entry = MF_YES;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_INSIDE);
    for (size_t i = 0; i < fx.job.n_component; i++)
        if (fx.component[i].side == MF_SIDE_INTERIOR)
            fx.component[i].affected = MF_NOT;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    it.free_entry = MF_UNKNOWN;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_UNSEALED);
    it.stay = MF_STAY_NO_HAZARD;
    fx.component[1].affected = MF_NOT;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

/* (iii): 8 daytime hours of one day; 8 h 01 and two days do not do. */
static void one_day(void **state)
{
    (void)state;
    static const struct {
        const char *until;
        int64_t minutes;
        mf_tri hazard;
        mf_stay_fault fault;
    } rows[] = {
        {"2026-09-14", 480, MF_NOT, MF_STAY_GOOD},
        {"2026-09-14", 479, MF_NOT, MF_STAY_GOOD},
        {"2026-09-14", 481, MF_NOT, MF_STAY_TOO_LONG},
        {"2026-09-15", 481, MF_NOT, MF_STAY_TOO_LONG},
        {"2026-09-15", 480, MF_NOT, MF_STAY_TOO_LONG},
        {"2026-09-14", MF_NUM_NONE, MF_NOT, MF_STAY_TOO_LONG},
        {"2026-09-14", 480, MF_UNKNOWN, MF_STAY_HAZARD},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_occupancy it = stay(MF_STAY_ONE_DAY, "2026-09-14", rows[i].until);
        it.minutes = rows[i].minutes;
        it.other_hazard = rows[i].hazard;
        if (mf_stay_judge(&fx.job, &it, NULL, NULL) != rows[i].fault)
            fail_msg("one day, row %zu", i);
    }
}

/* (iv): 5 calendar days, 10 ft each evening, rooms reachable. */
static void few_days(void **state)
{
    (void)state;
    static const struct {
        const char *until;
        int64_t margin;
        mf_tri reachable, hazard;
        mf_stay_fault fault;
    } rows[] = {
        {"2026-09-14", 1000, MF_YES, MF_NOT, MF_STAY_GOOD}, /* 1 */
        {"2026-09-18", 1000, MF_YES, MF_NOT, MF_STAY_GOOD}, /* Monday to Friday: 5 */
        {"2026-09-19", 1000, MF_YES, MF_NOT, MF_STAY_TOO_LONG},
        {"2026-09-13", 1000, MF_YES, MF_NOT, MF_STAY_TOO_LONG}, /* ends before it starts */
        {"2026-09-18", 999, MF_YES, MF_NOT, MF_STAY_NOT_CLEANED},
        {"2026-09-18", MF_NUM_NONE, MF_YES, MF_NOT, MF_STAY_NOT_CLEANED},
        {"2026-09-18", 1000, MF_UNKNOWN, MF_NOT, MF_STAY_UNREACHABLE},
        {"2026-09-18", 1000, MF_YES, MF_YES, MF_STAY_HAZARD},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_occupancy it = stay(MF_STAY_FEW_DAYS, "2026-09-14", rows[i].until);
        it.margin_ft_100 = rows[i].margin;
        it.reachable = rows[i].reachable;
        it.other_hazard = rows[i].hazard;
        if (mf_stay_judge(&fx.job, &it, NULL, NULL) != rows[i].fault)
            fail_msg("few days, row %zu", i);
    }
}

static mf_occupancy three_days(void)
{
    mf_occupancy it = stay(MF_STAY_FEW_DAYS, "2026-09-14", "2026-09-16");
    it.margin_ft_100 = 1000;
    it.reachable = MF_YES;
    it.other_hazard = MF_NOT;
    return it;
}

/* (iii), (iv) speak of the days of the work inside; work outside is of (ii). */
static void other_days(void **state)
{
    (void)state;
    static const struct {
        const char *name, *area, *on;
        mf_tri planned;
        mf_stay_fault fault;
    } rows[] = {
        {"first day", "A1", "2026-09-14", MF_NOT, MF_STAY_GOOD},
        {"last day", "A1", "2026-09-16", MF_NOT, MF_STAY_GOOD},
        {"the day before", "A1", "2026-09-13", MF_NOT, MF_STAY_OTHER_DAYS},
        {"the day after", "A1", "2026-09-17", MF_NOT, MF_STAY_OTHER_DAYS},
        {"only planned", "A1", "2026-09-17", MF_YES, MF_STAY_GOOD},
        {"outside", "A2", "2026-09-17", MF_NOT, MF_STAY_OTHER_DAYS},
        {"in no area", "A9", "2026-09-17", MF_NOT, MF_STAY_OTHER_DAYS},
    };
    const mf_occupancy it = three_days();
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx.job.n_practice = 1;
        fx.practice[0].area = rows[i].area;
        fx.practice[0].on = day(rows[i].on);
        fx.practice[0].planned = rows[i].planned;
        CHECK_ROW(mf_stay_judge(&fx.job, &it, NULL, NULL) == rows[i].fault, rows[i].name);
    }
    fx.practice[0].planned = MF_NOT;
    fx.practice[0].on = MF_DAY_NONE;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

/* (ii): what lets them be there while the exterior is treated, on the day after the others. */
static void outside_on_another_day(void **state)
{
    (void)state;
    static const struct {
        const char *name, *area;
        mf_stay stay;
        mf_tri sealed, free_entry;
        mf_stay_fault fault;
    } rows[] = {
        {"few days, both", "A2", MF_STAY_FEW_DAYS, MF_YES, MF_YES, MF_STAY_GOOD},
        {"relocated, both", "A2", MF_STAY_RELOCATED, MF_YES, MF_YES, MF_STAY_GOOD},
        {"relocated", "A2", MF_STAY_RELOCATED, MF_UNKNOWN, MF_UNKNOWN, MF_STAY_OTHER_DAYS},
        {"no way in", "A2", MF_STAY_RELOCATED, MF_YES, MF_UNKNOWN, MF_STAY_OTHER_DAYS},
        {"open windows", "A2", MF_STAY_RELOCATED, MF_NOT, MF_YES, MF_STAY_OTHER_DAYS},
        {"inside", "A1", MF_STAY_RELOCATED, MF_YES, MF_YES, MF_STAY_OTHER_DAYS},
        {"in no area", "A9", MF_STAY_RELOCATED, MF_YES, MF_YES, MF_STAY_OTHER_DAYS},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_occupancy it = three_days();
        it.stay = rows[i].stay;
        it.sealed = rows[i].sealed;
        it.free_entry = rows[i].free_entry;
        fx.job.n_practice = 1;
        fx.practice[0].area = rows[i].area;
        fx.practice[0].on = day("2026-09-17");
        CHECK_ROW(mf_stay_judge(&fx.job, &it, NULL, NULL) == rows[i].fault, rows[i].name);
    }
}

/* (iii)-(iv): treatment "will be completed within" the days, and the place is hazardous until it is
 * clean; of the ground outside nobody asks. */
static void cleaned_on_other_days(void **state)
{
    (void)state;
    static const struct {
        const char *name, *area, *step, *on;
        mf_tick_state said;
        mf_stay_fault fault;
    } rows[] = {
        {"the last day", "A1", "mop", "2026-09-16", MF_TICK_DONE, MF_STAY_GOOD},
        {"the day after", "A1", "mop", "2026-09-17", MF_TICK_DONE, MF_STAY_OTHER_DAYS},
        {"plastic taken up", "A1", "sheeting", "2026-09-17", MF_TICK_DONE, MF_STAY_OTHER_DAYS},
        {"the day before", "A1", "walls", "2026-09-13", MF_TICK_DONE, MF_STAY_OTHER_DAYS},
        {"in no area", "A9", "mop", "2026-09-17", MF_TICK_DONE, MF_STAY_OTHER_DAYS},
        {"outside", "A2", "clean-outside", "2026-09-17", MF_TICK_DONE, MF_STAY_GOOD},
        {"not needed", "A1", "mop", "2026-09-17", MF_TICK_NOT_NEEDED, MF_STAY_GOOD},
        {"waste taken away", "A1", "waste-transport", "2026-09-17", MF_TICK_DONE, MF_STAY_GOOD},
        {"no day", "A1", "mop", "", MF_TICK_DONE, MF_STAY_GOOD},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_occupancy it = three_days();
        fx.job.n_tick = 1;
        fx.tick[0].area = rows[i].area;
        fx.tick[0].step = rows[i].step;
        fx.tick[0].state = rows[i].said;
        fx.tick[0].on = rows[i].on[0] == '\0' ? MF_DAY_NONE : day(rows[i].on);
        CHECK_ROW(mf_stay_judge(&fx.job, &it, NULL, NULL) == rows[i].fault, rows[i].name);
        it.stay = MF_STAY_RELOCATED;
        CHECK_ROW(mf_stay_judge(&fx.job, &it, NULL, NULL) == rows[i].fault, rows[i].name);
    }
}

/* Dust that was seen is cleaned once more: that belongs to it; to look and to sample does not. */
static void cleaned_again_on_another_day(void **state)
{
    (void)state;
    static const struct {
        const char *name, *area;
        mf_wipe_event event;
        mf_stay_fault fault;
    } rows[] = {
        {"cleaned again", "A1", MF_VER_RECLEANED, MF_STAY_OTHER_DAYS},
        {"looked at", "A1", MF_VER_LOOK_CLEAN, MF_STAY_GOOD},
        {"outside", "A2", MF_VER_RECLEANED, MF_STAY_GOOD},
    };
    const mf_occupancy it = three_days();
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx.job.n_verification = 1;
        fx.verification[0].area = rows[i].area;
        fx.verification[0].event = rows[i].event;
        fx.verification[0].on = day("2026-09-17");
        CHECK_ROW(mf_stay_judge(&fx.job, &it, NULL, NULL) == rows[i].fault, rows[i].name);
    }
}

/* A stricter row counts from its day on, by the start of the work. */
static void days_of_a_place(void **state)
{
    (void)state;
    const mf_occupancy it = three_days();
    fx_add_local(&fx, MF_LIMIT_STAY_DAYS, MF_AS_FEDERAL, "2")->row.from = day("2026-09-01");
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_TOO_LONG);
    fx.house.start = day("2026-08-31");
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

#define TEST(name) cmocka_unit_test_setup(name, start)

static mf_occupancy one_day_of(int32_t began, int32_t ended)
{
    mf_occupancy it = stay(MF_STAY_ONE_DAY, "2026-09-14", "2026-09-14");
    it.minutes = 400;
    it.other_hazard = MF_NOT;
    fx.job.n_practice = 2;
    for (size_t i = 0; i < 2; i++) {
        fx.practice[i].area = "A1";
        fx.practice[i].on = day("2026-09-14");
        fx.practice[i].planned = MF_NOT;
        fx.practice[i].began_minute = i == 0 ? began : ended - 60;
        fx.practice[i].at_minute = i == 0 ? began + 60 : ended;
    }
    return it;
}

/* (iii): "within one period of 8 daytime hours", by the times that are logged. */
static void hours_of_the_day(void **state)
{
    (void)state;
    mf_occupancy it = one_day_of(540, 1020);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD); /* 9:00 to 17:00 */
    fx.practice[0].began_minute = 539;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_TOO_LONG);
    fx.practice[0].began_minute = MF_MINUTE_NONE;
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    fx.practice[0].began_minute = 510;
    fx.practice[0].area = "A2"; /* outside */
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

/* Which hours are daytime: from 6 to 21 o'clock, common practice, no source. */
static void daytime(void **state)
{
    (void)state;
    mf_occupancy it = one_day_of(360, 600);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    it = one_day_of(359, 600);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_AT_NIGHT);
    it = one_day_of(1080, 1260);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    it = one_day_of(1080, 1261);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_AT_NIGHT);
    fx.practice[0].area = fx.practice[1].area = "A2"; /* outside */
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(relocated),
        TEST(nothing_inside),
        TEST(one_day),
        TEST(few_days),
        TEST(other_days),
        TEST(outside_on_another_day),
        TEST(cleaned_on_other_days),
        TEST(cleaned_again_on_another_day),
        TEST(days_of_a_place),
        TEST(hours_of_the_day),
        TEST(daytime),
    };
    return cmocka_run_group_tests_name("stay", tests, NULL, NULL);
}
