/* The plan's boxes. Extents: 40 CFR 745.85(a)(2)(i)(D) 6 ft inside, (a)(2)(ii)(C)
 * 10 ft outside, (a)(2)(ii)(A) 20 ft, (a)(5)(ii) 2 ft, (a)(2)(ii)(D) line within
 * 10 ft. Every number below was worked out by hand; rooms are constructed. */
#include "core/given.h"

#include "core/plan.h"
#include <string.h>

#define NONE MF_NUM_NONE

static const mf_opening openings[] = {
    {.id = "W01", .storey = NONE, .elevation = "north", .width_in = 36, .height_in = 54},
    {.id = "W02", .storey = NONE, .elevation = "east", .width_in = 36, .height_in = 54},
    {.id = "W03", .storey = NONE, .elevation = "sur", .width_in = NONE, .height_in = NONE},
};

static const mf_component components[] = {
    {.id = "W01.sash", .opening = "W01", .side = MF_SIDE_INTERIOR, .affected = MF_YES},
    {.id = "W02.sash", .opening = "W02", .side = MF_SIDE_INTERIOR, .affected = MF_NOT}};

static mf_job job_of(const mf_fixture *fixtures, size_t n)
{
    mf_job job = {.opening = openings, .n_opening = COUNT(openings), .fixture = fixtures};
    job.component = components;
    job.n_component = COUNT(components);
    job.n_fixture = n;
    return job;
}

static mf_area room(const char *list, int64_t length, int64_t width)
{
    return (mf_area){.id = "A1",
                     .side = MF_SIDE_INTERIOR,
                     .openings = list,
                     .length_ft_100 = length,
                     .width_ft_100 = width,
                     .line_ft_100 = NONE};
}

static const mf_plan_item *item(const mf_plan *plan, mf_plan_part part, size_t nth)
{
    for (size_t i = 0; i < plan->n; i++)
        if (plan->item[i].part == part && nth-- == 0)
            return &plan->item[i];
    return NULL;
}

static void check_box(const mf_plan_item *got, mf_box want)
{
    assert_non_null(got);
    assert_int_equal(got->box.x, want.x);
    assert_int_equal(got->box.y, want.y);
    assert_int_equal(got->box.w, want.w);
    assert_int_equal(got->box.h, want.h);
}

/* 30 ft x 20 ft, one window of 3 ft placed 10 ft from the west end of the north
 * wall: sheet from 4 to 19 ft, 6 ft deep = 90 sq ft; band from 2 to 21, 8 deep. */
static void a_placed_window(void **state)
{
    (void)state;
    const mf_fixture at = {.area = "A1",
                           .what = MF_FIXTURE_OPENING,
                           .opening = "W01",
                           .wall = MF_WALL_NORTH,
                           .at_ft_100 = 1000,
                           .from_wall_ft_100 = NONE,
                           .length_ft_100 = NONE};
    mf_job job = job_of(&at, 1);
    mf_area area = room("W01", 3000, 2000);
    mf_plan plan;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_WORKED, 0), (mf_box){1000, -30, 300, 30});
    assert_false(item(&plan, MF_PLAN_WORKED, 0)->assumed);
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){400, 0, 1500, 600});
    check_box(item(&plan, MF_PLAN_BAND, 0), (mf_box){200, 0, 1900, 800});
    assert_int_equal(plan.sheet_sqft_100, 9000);
    assert_false(plan.barrier_due);
}

/* Nobody placed it: in the middle of the north wall, (30 - 3) / 2 = 13.5 ft. */
static void an_unplaced_window_is_assumed(void **state)
{
    (void)state;
    mf_job job = job_of(NULL, 0);
    mf_area area = room("W01", 3000, 2000);
    mf_plan plan;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_WORKED, 0), (mf_box){1350, -30, 300, 30});
    assert_true(item(&plan, MF_PLAN_WORKED, 0)->assumed);
}

/* North and east windows in 15 ft x 12 ft. North: at 6 ft, sheet 0 to 15, 6 deep =
 * 90. East: at 4.5 ft, sheet y from 0 to 12 (4.5 - 6 < 0; 4.5 + 3 + 6 > 12), x from
 * 9 to 15 = 72. They share 6 x 6 = 36: 126 sq ft of ground. */
static void two_walls_share_a_corner(void **state)
{
    (void)state;
    mf_job job = job_of(NULL, 0);
    mf_area area = room("W01,W02", 1500, 1200);
    mf_plan plan;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){0, 0, 1500, 600});
    check_box(item(&plan, MF_PLAN_SHEET, 1), (mf_box){900, 0, 600, 1200});
    check_box(item(&plan, MF_PLAN_OPENING, 0), (mf_box){1500, 450, 30, 300});
    assert_int_equal(plan.sheet_sqft_100, 12600);
}

/* "sur" is south; a width nobody measured is drawn as 3 ft in the middle, and the whole floor
 * is covered, as nobody knows how far the sheeting must reach. */
static void a_wall_named_in_spanish(void **state)
{
    (void)state;
    mf_job job = job_of(NULL, 0);
    mf_area area = room("W03", 3000, 2000);
    mf_plan plan;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){0, 0, 3000, 2000});
    /* of W03 no part is listed */
    check_box(item(&plan, MF_PLAN_WORKED, 0), (mf_box){1350, 2000, 300, 30});
}

/* A barrier 4 ft from the wall across the whole strip ends the sheeting there; one
 * that covers only a part of it does not. */
static void a_barrier_ends_the_sheet(void **state)
{
    (void)state;
    mf_fixture barrier = {.area = "A1",
                          .what = MF_FIXTURE_BARRIER,
                          .opening = "",
                          .wall = MF_WALL_NORTH,
                          .at_ft_100 = 0,
                          .from_wall_ft_100 = 400,
                          .length_ft_100 = 3000};
    mf_area area = room("W01", 3000, 2000);
    mf_plan plan;
    mf_job job = job_of(&barrier, 1);
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){750, 0, 1500, 400});
    barrier.length_ft_100 = 2000;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){750, 0, 1500, 600});
}

static mf_fixture by(mf_fixture_what what, mf_wall wall, int64_t at, int64_t from_wall,
                     int64_t length)
{
    return (mf_fixture){.area = "A1",
                        .what = what,
                        .opening = what == MF_FIXTURE_OPENING ? "W01" : "",
                        .wall = wall,
                        .at_ft_100 = at,
                        .from_wall_ft_100 = from_wall,
                        .length_ft_100 = length};
}

/* 20 ft x 20 ft, the window of 3 ft at 8.5 ft of each wall in turn: the strip runs from 2.5
 * to 17.5 ft. A barrier over just that ends it; one that stops 0.01 ft before does not. */
static void a_barrier_by_each_wall(void **state)
{
    (void)state;
    static const struct {
        mf_wall wall;
        int64_t at, length;
        mf_box sheet;
    } rows[] = {
        {MF_WALL_NORTH, 250, 1500, {250, 0, 1500, 400}},
        {MF_WALL_EAST, 250, 1500, {1600, 250, 400, 1500}},
        {MF_WALL_SOUTH, 250, 1500, {250, 1600, 1500, 400}},
        {MF_WALL_WEST, 250, 1500, {0, 250, 400, 1500}},
        {MF_WALL_NORTH, 251, 1499, {250, 0, 1500, 600}},
        {MF_WALL_NORTH, 250, 1499, {250, 0, 1500, 600}},
        {MF_WALL_WEST, 251, 1499, {0, 250, 600, 1500}},
        {MF_WALL_WEST, 250, 1499, {0, 250, 600, 1500}},
    };
    mf_area area = room("W01", 2000, 2000);
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_fixture fixtures[] = {
            by(MF_FIXTURE_OPENING, rows[i].wall, 850, NONE, NONE),
            by(MF_FIXTURE_BARRIER, rows[i].wall, rows[i].at, 400, rows[i].length)};
        mf_job job = job_of(fixtures, COUNT(fixtures));
        mf_plan plan;
        assert_true(mf_plan_of(&job, &area, &plan));
        check_box(item(&plan, MF_PLAN_SHEET, 0), rows[i].sheet);
    }
}

/* 30 ft with two windows of 3 ft that nobody placed: three gaps of 8 ft. */
static void two_windows_of_one_wall(void **state)
{
    (void)state;
    mf_opening pair[] = {openings[0], openings[1]};
    pair[1].elevation = "north";
    mf_job job = job_of(NULL, 0);
    job.opening = pair;
    job.n_opening = COUNT(pair);
    mf_area area = room("W01,W02", 3000, 2000);
    mf_plan plan;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_WORKED, 0), (mf_box){800, -30, 300, 30});
    check_box(item(&plan, MF_PLAN_OPENING, 0), (mf_box){1900, -30, 300, 30});
}

/* A barrier has no depth, a sign is drawn 1 ft long and deep; there is room for so many
 * and no more. */
static void what_was_placed(void **state)
{
    (void)state;
    static mf_fixture fixtures[MF_PLAN_MAX + 1];
    static struct {
        mf_plan plan;
        mf_plan_item beyond;
    } got;
    fixtures[0] = by(MF_FIXTURE_BARRIER, MF_WALL_NORTH, 0, 400, 3000);
    for (size_t i = 1; i < COUNT(fixtures); i++)
        fixtures[i] = by(MF_FIXTURE_SIGN, MF_WALL_NORTH, 500, NONE, NONE);
    mf_area area = room("", 3000, 2000);
    mf_job job = job_of(fixtures, 2);
    assert_true(mf_plan_of(&job, &area, &got.plan));
    check_box(item(&got.plan, MF_PLAN_BARRIER, 0), (mf_box){0, 400, 3000, 0});
    check_box(item(&got.plan, MF_PLAN_SIGN, 0), (mf_box){500, 0, 100, 100});
    job.n_fixture = COUNT(fixtures);
    assert_true(mf_plan_of(&job, &area, &got.plan));
    assert_int_equal(got.plan.n, MF_PLAN_MAX);
    assert_null(got.beyond.name);
}

/* Run of 20 ft: sheet from -10 to 30, 10 deep = 400 sq ft; doors and windows from
 * -20 to 40. A line at 10 ft is within, at 10.01 ft it is not. At 7 ft the sheet
 * ends at the line: 40 x 7. */
static void outside(void **state)
{
    (void)state;
    mf_job job = job_of(NULL, 0);
    mf_area area = room("W01", 2000, NONE);
    mf_plan plan;
    area.side = MF_SIDE_EXTERIOR;
    assert_true(mf_plan_of(&job, &area, &plan));
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){-1000, 0, 4000, 1000});
    check_box(item(&plan, MF_PLAN_ZONE, 0), (mf_box){-2000, 0, 6000, 0});
    assert_null(item(&plan, MF_PLAN_LINE, 0));
    assert_int_equal(plan.sheet_sqft_100, 40000);
    assert_true(plan.barrier_due); /* nobody said how far the line is: it may be within */
    area.line_ft_100 = 1000;
    mf_plan_of(&job, &area, &plan);
    assert_true(plan.barrier_due);
    area.line_ft_100 = 1001;
    mf_plan_of(&job, &area, &plan);
    assert_false(plan.barrier_due);
    area.line_ft_100 = 700;
    mf_plan_of(&job, &area, &plan);
    check_box(item(&plan, MF_PLAN_SHEET, 0), (mf_box){-1000, 0, 4000, 700});
    check_box(item(&plan, MF_PLAN_LINE, 0), (mf_box){-2000, 700, 6000, 0});
    assert_int_equal(plan.sheet_sqft_100, 28000);
}

static void no_measures_no_plan(void **state)
{
    (void)state;
    mf_job job = job_of(NULL, 0);
    mf_area area = room("W01", NONE, 1200);
    mf_plan plan;
    assert_false(mf_plan_of(&job, &area, &plan));
    area = room("W01", 1200, NONE);
    assert_false(mf_plan_of(&job, &area, &plan));
}

typedef struct cover_case {
    const char *name;
    size_t n;
    mf_box boxes[3];
    int64_t sqft_100;
} cover_case;

static const cover_case covers[] = {
    {"none", 0, {{0, 0, 0, 0}}, 0},
    {"one", 1, {{0, 0, 1000, 600}}, 6000},
    {"the same twice", 2, {{0, 0, 1000, 600}, {0, 0, 1000, 600}}, 6000},
    {"apart", 2, {{0, 0, 100, 100}, {500, 500, 100, 100}}, 200},
    {"a corner shared", 2, {{0, 0, 200, 200}, {100, 100, 200, 200}}, 700},
    {"one inside two", 3, {{0, 0, 300, 100}, {0, 0, 100, 300}, {0, 0, 50, 50}}, 500},
    {"rounded up", 1, {{0, 0, 101, 101}}, 103}, /* 1.0201 sq ft */
};

static void covers_the_ground_once(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(covers); i++)
        CHECK_ROW(mf_plan_covered(covers[i].boxes, covers[i].n) == covers[i].sqft_100,
                  covers[i].name);
}

/* Two boxes make one when they touch along a whole side, or one lies in the other. */
static void boxes_that_make_one(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        mf_box a, b;
        size_t left;
        mf_box first;
    } rows[] = {
        {"side by side", {0, 0, 100, 50}, {100, 0, 90, 50}, 1, {0, 0, 190, 50}},
        {"overlapping", {60, 0, 100, 50}, {0, 0, 100, 50}, 1, {0, 0, 160, 50}},
        {"a gap", {0, 0, 100, 50}, {101, 0, 100, 50}, 2, {0, 0, 100, 50}},
        {"set off", {0, 0, 100, 50}, {100, 1, 100, 50}, 2, {0, 0, 100, 50}},
        {"not as high", {0, 0, 100, 50}, {100, 0, 100, 51}, 2, {0, 0, 100, 50}},
        {"one below the other", {0, 0, 50, 100}, {0, 100, 50, 90}, 1, {0, 0, 50, 190}},
        {"a gap below", {0, 0, 50, 100}, {0, 101, 50, 100}, 2, {0, 0, 50, 100}},
        {"set off below", {0, 0, 50, 100}, {1, 100, 50, 100}, 2, {0, 0, 50, 100}},
        {"not as wide", {0, 0, 50, 100}, {0, 100, 51, 100}, 2, {0, 0, 50, 100}},
        {"the second in the first", {0, 0, 100, 100}, {10, 10, 20, 20}, 1, {0, 0, 100, 100}},
        {"the first in the second", {10, 10, 20, 20}, {0, 0, 100, 100}, 1, {0, 0, 100, 100}},
        {"sticking out below", {0, 0, 100, 100}, {10, 50, 20, 100}, 2, {0, 0, 100, 100}},
        {"stuck out of", {10, 50, 20, 100}, {0, 0, 100, 100}, 2, {10, 50, 20, 100}},
        {"within its height, apart", {0, 0, 100, 100}, {150, 10, 20, 20}, 2, {0, 0, 100, 100}},
        {"within the other's height", {150, 10, 20, 20}, {0, 0, 100, 100}, 2, {150, 10, 20, 20}},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_box boxes[] = {rows[i].a, rows[i].b};
        CHECK_ROW(mf_plan_joined(boxes, 2) == rows[i].left, rows[i].name);
        CHECK_ROW(memcmp(&boxes[0], &rows[i].first, sizeof boxes[0]) == 0, rows[i].name);
    }
}

/* Stories lowest first; a plan of one shows its openings alone, and those without a story
 * with the lowest. Outside each story has a row: both in the middle of 30 ft. */
static void by_storey(void **state)
{
    (void)state;
    mf_opening three[] = {openings[0], openings[1], openings[0]};
    int64_t storeys[MF_PLAN_STOREYS];
    mf_plan plan;
    mf_job job = job_of(NULL, 0);
    job.opening = three;
    three[0].storey = 2;
    three[1].storey = 1;
    three[1].elevation = "north";
    three[2].id = "W09";
    mf_area area = room("W01,W02,W09", 3000, 2000);
    assert_int_equal(mf_plan_storeys(&job, &area, storeys), 2);
    assert_int_equal(storeys[0], 1);
    assert_int_equal(storeys[1], 2);
    assert_true(mf_plan_of_storey(&job, &area, 2, &plan));
    assert_non_null(item(&plan, MF_PLAN_WORKED, 0));
    assert_null(item(&plan, MF_PLAN_OPENING, 0));
    assert_true(mf_plan_of_storey(&job, &area, 1, &plan));
    assert_string_equal(item(&plan, MF_PLAN_OPENING, 0)->name, "W02");
    assert_string_equal(item(&plan, MF_PLAN_WORKED, 0)->name, "W09");
    area.openings = "W01,W02";
    area.side = MF_SIDE_EXTERIOR;
    assert_true(mf_plan_of(&job, &area, &plan));
    assert_int_equal(item(&plan, MF_PLAN_OPENING, 0)->box.x, 1350);
    assert_int_equal(item(&plan, MF_PLAN_OPENING, 1)->box.x, 1350);
}

static void add_up(void *user, const mf_box *edge)
{
    *(int64_t *)user += edge->w + edge->h;
}

/* Two boxes of 3 x 1 and 1 x 3 from one corner: the outline of the L is 12, not 16. */
static void the_outline_of_a_union(void **state)
{
    (void)state;
    const mf_box boxes[] = {{0, 0, 300, 100}, {0, 0, 100, 300}, {0, 0, 50, 50}};
    int64_t sum = 0;
    mf_plan_outline(boxes, COUNT(boxes), add_up, &sum);
    assert_int_equal(sum, 1200);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_storey),
        cmocka_unit_test(the_outline_of_a_union),
        cmocka_unit_test(a_placed_window),
        cmocka_unit_test(an_unplaced_window_is_assumed),
        cmocka_unit_test(two_walls_share_a_corner),
        cmocka_unit_test(a_wall_named_in_spanish),
        cmocka_unit_test(a_barrier_ends_the_sheet),
        cmocka_unit_test(outside),
        cmocka_unit_test(no_measures_no_plan),
        cmocka_unit_test(covers_the_ground_once),
        cmocka_unit_test(a_barrier_by_each_wall),
        cmocka_unit_test(two_windows_of_one_wall),
        cmocka_unit_test(what_was_placed),
        cmocka_unit_test(boxes_that_make_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
