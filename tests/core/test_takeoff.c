/* Materials of a work area, worked out by hand from its plan: extents as in test_plan.c,
 * sections by 745.85(b)(1)(ii)(B). Rooms are constructed. */
#include "core/given.h"

#include <mistfold/contain.h>

#define IN   MF_SIDE_INTERIOR
#define OUT  MF_SIDE_EXTERIOR
#define NONE MF_NUM_NONE

static const mf_opening openings[] = {
    {.id = "W01",
     .kind = MF_OPENING_WINDOW,
     .elevation = "north",
     .storey = MF_NUM_NONE,
     .width_in = 36,
     .height_in = 60},
    {.id = "W02",
     .kind = MF_OPENING_WINDOW,
     .elevation = "east",
     .storey = MF_NUM_NONE,
     .width_in = 30,
     .height_in = 60},
    {.id = "W03",
     .kind = MF_OPENING_WINDOW,
     .elevation = "north",
     .storey = MF_NUM_NONE,
     .width_in = MF_NUM_NONE,
     .height_in = MF_NUM_NONE},
    {.id = "W04",
     .kind = MF_OPENING_WINDOW,
     .elevation = "north",
     .storey = MF_NUM_NONE,
     .width_in = 31,
     .height_in = 60},
    {.id = "D01",
     .kind = MF_OPENING_DOOR,
     .elevation = "north",
     .storey = MF_NUM_NONE,
     .width_in = 36,
     .height_in = 80},
    {.id = "D02",
     .kind = MF_OPENING_DOOR,
     .elevation = "north",
     .storey = MF_NUM_NONE,
     .width_in = 36,
     .height_in = 80},
};

static const mf_surface surfaces[] = {
    {.id = "s1", .area = "A1", .kind = MF_SURFACE_SILL, .size_sqft_100 = 5000},
    {.id = "f1", .area = "A1", .kind = MF_SURFACE_FLOOR, .size_sqft_100 = 12000},
    {.id = "f2", .area = "A2", .kind = MF_SURFACE_FLOOR, .size_sqft_100 = 9900},
};

typedef struct takeoff_case {
    const char *name;
    mf_side side;
    const char *openings;
    int64_t length, width, line;
    mf_takeoff expected;
} takeoff_case;

/* 1 sill + floor of 120 sq ft in 4 sections = 5 sections inside (R-VER-SECT). */
static const takeoff_case takeoff_cases[] = {
    /* window 3 ft + 6 ft on both sides = 15 ft by 6 ft = 90 sq ft; edges 2 x 21 ft */
    {"one window", IN, "W01", 2000, 1500, NONE, {9000, 4200, 1, 5, 9000, 2, 10, 5, 0, false}},
    /* the room is only 12 ft long: 12 x 6 = 72 sq ft; edges 2 x 18 */
    {"one window in a small room",
     IN,
     "W01",
     1200,
     1000,
     NONE,
     {7200, 3600, 1, 5, 7200, 2, 10, 5, 0, false}},
    /* north 12 x 6, east 6 x 10, less the corner of 6 x 6: 96 sq ft; edges 2 x 22; strips of
     * 72 + 60 = 132 are more than the floor of 120 */
    {"two windows of a small room",
     IN,
     "W01,W02",
     1200,
     1000,
     NONE,
     {9600, 4400, 1, 5, 12000, 3, 10, 5, 0, false}},
    /* north 15 x 6, east 6 x 12, corner 36: 126 sq ft; edges 2 x 27; strips of 90 + 72 */
    {"two windows that share a corner",
     IN,
     "W01,W02",
     1500,
     1200,
     NONE,
     {12600, 5400, 1, 5, 16200, 3, 10, 5, 0, false}},
    /* 31 in is 2.59 ft rounded up; 14.59 ft by 5.55 ft = 80.9745, rounded up */
    {"rounded up", IN, "W04", 2000, 555, NONE, {8098, 4028, 1, 5, 8098, 2, 10, 5, 0, false}},
    /* two runs of 10 ft meet along 20 ft and overlap by 1 ft: 320; 2 bags and 1 */
    {"no width known", IN, "W03", 2000, 1500, NONE, {30000, 7000, 1, 5, 32000, 3, 10, 5, 0, false}},
    {"no opening", IN, "", 1200, 1000, NONE, {12000, 4400, 1, 5, 12000, 1, 10, 5, 0, false}},
    {"two doors, two signs",
     IN,
     "D01,D02",
     5000,
     2000,
     NONE,
     {18000, 8400, 2, 5, 18000, 3, 10, 5, 0, false}},
    /* outside: run 20 ft + 10 ft at both ends = 40 ft by 10 ft; nothing is wiped; a barrier along
     * it where nobody said how far the line is */
    {"outside", OUT, "W01", 2000, 800, 1001, {40000, 10000, 1, 0, 40000, 3, 0, 0, 0, false}},
    {"outside, no line said",
     OUT,
     "W01",
     2000,
     800,
     NONE,
     {40000, 10000, 1, 0, 40000, 3, 0, 0, 4000, false}},
    /* the line is 7 ft away: 40 x 7 */
    {"outside, near the line",
     OUT,
     "W01",
     2000,
     800,
     700,
     {28000, 9400, 1, 0, 28000, 3, 0, 0, 4000, false}},
};

static void test_takeoff(void **state)
{
    (void)state;
    mf_job job = {.opening = openings, .n_opening = COUNT(openings)};
    job.surface = surfaces;
    job.n_surface = COUNT(surfaces);
    for (size_t i = 0; i < COUNT(takeoff_cases); i++) {
        const takeoff_case *it = &takeoff_cases[i];
        mf_area area = area_of(it->side);
        area.openings = it->openings;
        area.length_ft_100 = it->length;
        area.width_ft_100 = it->width;
        area.line_ft_100 = it->line;
        mf_takeoff got;
        mf_takeoff_of(&job, &area, &got);
        CHECK_ROW(got.sheet_sqft_100 == it->expected.sheet_sqft_100, it->name);
        CHECK_ROW(got.tape_ft_100 == it->expected.tape_ft_100, it->name);
        CHECK_ROW(got.signs == it->expected.signs, it->name);
        CHECK_ROW(got.sections == it->expected.sections, it->name);
        CHECK_ROW(got.cut_sqft_100 == it->expected.cut_sqft_100, it->name);
        CHECK_ROW(got.bags == it->expected.bags, it->name);
        CHECK_ROW(got.wet_cloths == it->expected.wet_cloths, it->name);
        CHECK_ROW(got.dry_cloths == it->expected.dry_cloths, it->name);
        CHECK_ROW(got.barrier_ft_100 == it->expected.barrier_ft_100, it->name);
        CHECK_ROW(got.sections_assumed == it->expected.sections_assumed, it->name);
    }
}

/* No surface is listed: two sills, and 20 ft x 15 ft = 300 sq ft of floor in parts of less
 * than 40, 745.85(b)(1)(ii)(B): 8. Carpet is not wiped. */
static void cloths_without_surfaces(void **state)
{
    (void)state;
    mf_job job = {.opening = openings, .n_opening = COUNT(openings)};
    mf_area area = area_of(IN);
    mf_takeoff got;
    area.openings = "W01,W02,D01";
    area.length_ft_100 = 2000;
    area.width_ft_100 = 1500;
    area.carpet = MF_UNKNOWN;
    mf_takeoff_of(&job, &area, &got);
    assert_true(got.sections_assumed);
    assert_int_equal(got.wet_cloths, 20);
    assert_int_equal(got.dry_cloths, 10);
    area.carpet = MF_YES;
    mf_takeoff_of(&job, &area, &got);
    assert_int_equal(got.wet_cloths, 4);
}

/* W01 on the first story and W02 on the second: two floors of 15 x 12, 90 + 72 sq ft. What
 * was placed as vertical containment counts by its length. */
static void storeys_and_barriers(void **state)
{
    (void)state;
    mf_opening two[] = {openings[0], openings[1]};
    const mf_fixture barrier = {.area = "A1",
                                .what = MF_FIXTURE_BARRIER,
                                .opening = "",
                                .wall = MF_WALL_SOUTH,
                                .at_ft_100 = 0,
                                .from_wall_ft_100 = 100,
                                .length_ft_100 = 1450};
    mf_job job = {.opening = two, .n_opening = 2, .fixture = &barrier, .n_fixture = 1};
    mf_area area = area_of(IN);
    mf_takeoff got;
    two[0].storey = 1;
    two[1].storey = 2;
    area.openings = "W01,W02";
    area.length_ft_100 = 1500;
    area.width_ft_100 = 1200;
    mf_takeoff_of(&job, &area, &got);
    assert_int_equal(got.sheet_sqft_100, 16200);
    assert_int_equal(got.barrier_ft_100, 1450);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_takeoff),
        cmocka_unit_test(cloths_without_surfaces),
        cmocka_unit_test(storeys_and_barriers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
