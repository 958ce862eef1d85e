/* Assisted housing: which components are small, 24 CFR 35.1350(d)(3), and how long a day of work
 * is, 35.1345(a)(2)(iii). Houses and work are constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/assisted.h>

static fixture fx;

/* A repair: two parts in the kitchen, one in the bedroom, one outside, nothing
 * disturbed and none of it shown free. */
static int start(void **state)
{
    (void)state;
    fx_assisted(&fx);
    fx.house.work = "repair";
    fx.job.n_chip = fx.job.n_determination = fx.job.n_reading = fx.job.n_kit_test = 0;
    for (size_t i = 0; i < fx.job.n_component; i++) {
        fx.component[i].type = MF_COMP_WALL;
        fx.component[i].disturbed_sqft_100 = 0;
        fx.component[i].whole_sqft_100 = MF_NUM_NONE;
    }
    return 0;
}

static mf_assisted_answer judge(void)
{
    mf_assisted_answer out;
    mf_assisted_judge(&fx.job, &out);
    return out;
}

/* 35.1350(d)(3) by what the part is, whatever type it was logged as. A fifth of it is disturbed. */
static void small_by_label(void **state)
{
    static const struct {
        mf_component_type type;
        const char *label;
        bool small;
    } rows[] = {
        {MF_COMP_SASH, "", true},
        {MF_COMP_OTHER, "", true}, /* presumed: nobody says what it is */
        {MF_COMP_OTHER, "window sill", true},
        {MF_COMP_OTHER, "picture rail trim", true},
        {MF_COMP_OTHER, "wall trim", true},
        {MF_COMP_OTHER, "cornice, 2nd floor", true},
        {MF_COMP_OTHER, "mantel", true},
        {MF_COMP_OTHER, "ceiling", false},
        {MF_COMP_OTHER, "North wall", false},
        {MF_COMP_OTHER, "wood siding", false},
        {MF_COMP_OTHER, "the north", true}, /* which, but not what */
        {MF_COMP_OTHER, "Techo", false},
        {MF_COMP_WALL, "behind the stove", false},
        {MF_COMP_WALL, "baseboard of the wall", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.component[0].type = rows[i].type;
        fx.component[0].label = rows[i].label;
        fx.component[0].disturbed_sqft_100 = 100;
        fx.component[0].whole_sqft_100 = 500;
        if (judge().over != rows[i].small)
            fail_msg("label, row %zu", i);
    }
}

static mf_occupancy stay(mf_stay kind, const char *from, const char *until)
{
    return (mf_occupancy){.stay = kind,
                          .from = day(from),
                          .until = day(until),
                          .minutes = MF_NUM_NONE,
                          .margin_ft_100 = MF_NUM_NONE};
}

static mf_occupancy one_day(int32_t began, int32_t ended)
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
    mf_occupancy it = one_day(540, 1020);
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
    mf_occupancy it = one_day(360, 600);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    it = one_day(359, 600);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_AT_NIGHT);
    it = one_day(1080, 1260);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
    it = one_day(1080, 1261);
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_AT_NIGHT);
    fx.practice[0].area = fx.practice[1].area = "A2"; /* outside */
    assert_int_equal(mf_stay_judge(&fx.job, &it, NULL, NULL), MF_STAY_GOOD);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(small_by_label, start),
        cmocka_unit_test_setup(hours_of_the_day, start),
        cmocka_unit_test_setup(daytime, start),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
