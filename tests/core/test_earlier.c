/* What a job adds to the others of its house. Source: 40 CFR 745.83, minor repair and maintenance:
 * "jobs ... performed in the same room within the same 30 days must be considered the same job";
 * window replacement, demolition and prohibited practices are never minor. By hand. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/address.h>
#include <mistfold/house.h>
#include <string.h>

static fixture fx;
static mf_earlier rows[32];

static void wall_only(void)
{
    fx.job.n_area = 1; /* the kitchen */
    fx.house.work = "repair";
    fx.component[0] = fx.component[3];
    fx.component[0].removed = MF_NOT;
    fx.job.n_component = 1;
    fx.job.n_opening = fx.job.n_practice = 0;
    fx.job.n_reading = fx.job.n_kit_test = fx.job.n_chip = 0;
}

static void window_of_kitchen(void)
{
    wall_only();
    fx.opening[0].replaced = MF_YES;
    fx.job.n_opening = 1;
}

static void some_window(void)
{
    wall_only();
    fx.house.work = "window-replacement";
}

static void nothing_listed(void)
{
    wall_only();
    fx.job.n_component = 0;
}

static void demolition(void)
{
    wall_only();
    fx.house.work = "demolition";
}

static void flame_in_the_kitchen(void)
{
    wall_only();
    fx.job.n_practice = 1;
    fx.practice[0].method = MF_METHOD_OPEN_FLAME;
    fx.practice[0].area = "A1";
}

static void flame_somewhere(void)
{
    flame_in_the_kitchen();
    fx.practice[0].area = "";
}

static void by_hand(void)
{
    flame_in_the_kitchen();
    fx.practice[0].method = MF_METHOD_HAND;
}

static void nothing_but_bare_wood(void)
{
    wall_only();
    fx.component[0].painted = MF_NOT;
}

static const struct {
    const char *name;
    void (*set)(void);
    size_t sized, never; /* rows with a size, and without one */
    const char *room;    /* of the first without one */
} cases[] = {
    {"a wall", wall_only, 1, 0, ""},
    {"a window, its sash not listed", window_of_kitchen, 1, 4, "kitchen"},
    {"windows, none of them listed", some_window, 1, 4, ""},
    {"nothing listed", nothing_listed, 0, 2, ""},
    {"demolition", demolition, 1, 2, ""},
    {"a flame in the kitchen", flame_in_the_kitchen, 1, 2, "kitchen"},
    {"a flame somewhere", flame_somewhere, 1, 4, ""},
    {"by hand", by_hand, 1, 0, ""},
    {"bare wood", nothing_but_bare_wood, 0, 0, ""},
};

/* What may come off has the size of the whole, and a part of a window none. */
static void may_come_off(void **state)
{
    (void)state;
    fx_good(&fx);
    wall_only();
    fx.component[0].removed = MF_UNKNOWN;
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 1);
    assert_int_equal(rows[0].disturbed_sqft_100, MF_NUM_NONE);
    fx.component[0].whole_sqft_100 = 1300;
    mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows));
    assert_int_equal(rows[0].disturbed_sqft_100, 1300);
    fx.component[0].type = MF_COMP_SASH;
    mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows));
    assert_int_equal(rows[0].disturbed_sqft_100, MF_NUM_NONE);
}

static void each_job(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        fx_good(&fx);
        cases[i].set();
        size_t n = mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), sized = 0;
        const mf_earlier *never = NULL;
        for (size_t k = n; k > 0; k--) {
            sized += rows[k - 1].disturbed_sqft_100 >= 0;
            if (rows[k - 1].disturbed_sqft_100 < 0)
                never = &rows[k - 1];
            CHECK_ROW(rows[k - 1].on == fx.house.start, cases[i].name);
            CHECK_ROW(rows[k - 1].until == fx.completion.on, cases[i].name);
        }
        CHECK_ROW(sized == cases[i].sized && n - sized == cases[i].never, cases[i].name);
        if (never == NULL)
            continue;
        CHECK_ROW(strcmp(never->room, cases[i].room) == 0, cases[i].name);
        CHECK_ROW(never[0].side == MF_SIDE_INTERIOR && never[1].side == MF_SIDE_EXTERIOR,
                  cases[i].name);
    }
}

/* Called off before any work it adds nothing; work that is logged is believed. */
static void called_off(void **state)
{
    (void)state;
    fx_good(&fx);
    wall_only();
    fx.house.called_off = fx_day("2026-09-10");
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 1); /* worked in */
    fx.job.n_practice = fx.job.n_tick = fx.job.n_verification = fx.job.n_dust_sample = 0;
    fx.job.n_completion = fx.job.n_certification = fx.job.n_invoice = 0;
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 0);
    fx.house.called_off = MF_DAY_NONE;
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 1);
}

/* A plan has a last day, or nobody said one. */
static void last_day(void **state)
{
    (void)state;
    fx_good(&fx);
    wall_only();
    fx.job.n_completion = 0;
    fx.house.end = fx_day("2026-09-20");
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 1);
    assert_int_equal(rows[0].until, fx_day("2026-09-20"));
    fx.house.end = MF_DAY_NONE;
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, COUNT(rows)), 1);
    assert_int_equal(rows[0].until,
                     MF_DAY_NONE); /* it was worked in and looked at, and may go on */
}

/* Two units of one building have one outside, and a hall that both jobs say is common. */
static void of_no_unit(void **state)
{
    (void)state;
    mf_area own = {.side = MF_SIDE_INTERIOR, .place = "stair hall", .common = MF_YES}, other = own;
    mf_job one = {.area = &own, .n_area = 1}, two = {.area = &other, .n_area = 1};
    mf_earlier row = {.side = MF_SIDE_EXTERIOR, .room = "north"};
    assert_true(mf_earlier_of_no_unit(&one, &two, &row));
    row = (mf_earlier){.side = MF_SIDE_INTERIOR, .room = "stair hall"};
    assert_true(mf_earlier_of_no_unit(&one, &two, &row));
    other.common = MF_UNKNOWN;
    assert_false(mf_earlier_of_no_unit(&one, &two, &row));
    other.common = MF_YES;
    row.room = "kitchen";
    assert_false(mf_earlier_of_no_unit(&one, &two, &row));
    assert_true(mf_may_be_one_building("86 M Road, Unit 21", "86 M Road, Unit 22"));
    assert_true(mf_may_be_one_building("86 M Road", "86 M Rd., Exampleton"));
    assert_false(mf_may_be_one_building("86 M Road, Exampleton", "86 M Road, Sampleton"));
    assert_false(mf_may_be_one_building("86 M Road, Unit 21", "88 M Road, Unit 21"));
}

static void counted_before_written(void **state)
{
    (void)state;
    fx_good(&fx);
    size_t n = mf_earlier_of_job(&fx.job, &fx.house, NULL, 0);
    assert_true(n > 4);
    memset(rows, 0, sizeof rows);
    assert_int_equal(mf_earlier_of_job(&fx.job, &fx.house, rows, 1), n);
    assert_non_null(rows[0].job);
    assert_null(rows[1].job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_job),   cmocka_unit_test(last_day),
        cmocka_unit_test(called_off), cmocka_unit_test(may_come_off),
        cmocka_unit_test(of_no_unit), cmocka_unit_test(counted_before_written)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
