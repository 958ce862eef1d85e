/* Whether the rule covers a job. 40 CFR 745.82(a), 745.83, 745.103 and section 11 of
 * the rule digest. Houses, rooms and areas are constructed. */
#include "core/given.h"

#include <mistfold/house.h>
#include <string.h>

/* ---- the house ------------------------------------------------------------------- */

/* A covered house: one painted sash is replaced, nothing is known of its paint. */
static mf_house covered_house(void)
{
    return (mf_house){.id = "J-1",
                      .year_built = 1926,
                      .building = MF_BUILDING_DWELLING,
                      .for_compensation = MF_YES,
                      .work = "window-replacement",
                      .start = day("2026-09-14")};
}

static mf_cover_answer judge_house(const mf_house *house)
{
    mf_cover_answer out;
    const mf_component sash = {.id = "C1",
                               .painted = MF_YES,
                               .affected = MF_YES,
                               .room = "kitchen",
                               .disturbed_sqft_100 = 10};
    const mf_job job = {.house = house, .n_house = 1, .component = &sash, .n_component = 1};
    mf_cover_judge(&job, &out);
    assert_int_equal(out.n_affected, 1);
    assert_int_equal(out.n_free, 0);
    assert_string_equal(out.place, "");
    return out;
}

/* R-TH-YEAR: 1977 covered, 1978 not, unknown presumed. */
static void year_built(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int64_t year;
        mf_cover cover;
        mf_cover_why why;
    } rows[] = {
        {"1926", 1926, MF_COVER_YES, MF_COVER_BUILT_BEFORE},
        {"1977", 1977, MF_COVER_YES, MF_COVER_BUILT_BEFORE},
        {"1978", 1978, MF_COVER_NO, MF_COVER_BUILT_LATER},
        {"1979", 1979, MF_COVER_NO, MF_COVER_BUILT_LATER},
        {"unknown", MF_NUM_NONE, MF_COVER_YES, MF_COVER_YEAR_UNKNOWN},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_house house = covered_house();
        house.year_built = rows[i].year;
        mf_cover_answer out = judge_house(&house);
        CHECK_ROW(out.cover == rows[i].cover && out.why == rows[i].why, rows[i].name);
    }
}

/* R-SCOPE-COMP: only what is said not to be paid for is outside. */
static void compensation(void **state)
{
    (void)state;
    mf_house house = covered_house();
    house.for_compensation = MF_UNKNOWN;
    assert_int_equal(judge_house(&house).cover, MF_COVER_YES);
    house.for_compensation = MF_NOT;
    house.owner_occupied = MF_YES;
    assert_int_equal(judge_house(&house).cover, MF_COVER_NO);
    assert_int_equal(judge_house(&house).why, MF_COVER_NOT_FOR_PAY);
    house.owner_occupied = MF_UNKNOWN; /* a landlord: rent is compensation */
    assert_int_equal(judge_house(&house).cover, MF_COVER_YES);
    house.owner_occupied = MF_NOT;
    assert_int_equal(judge_house(&house).cover, MF_COVER_YES);
    house.owner_occupied = MF_YES;
    assert_int_equal(judge_house(&house).why, MF_COVER_NOT_FOR_PAY);
}

/* R-TH-ELDER, R-TH-ZERO-CHILD: unless a child under 6 resides or is expected; not
 * known is read as yes. R-COF-DEF: a facility is covered all the same. */
static void elder_and_zero_bedroom(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        mf_tri elder, zero, child;
        mf_building building;
        mf_cover_why why;
    } rows[] = {
        {"elder, no child", MF_YES, MF_NOT, MF_NOT, MF_BUILDING_DWELLING, MF_COVER_ELDER_HOUSING},
        {"elder, flats", MF_YES, MF_NOT, MF_NOT, MF_BUILDING_MULTI, MF_COVER_ELDER_HOUSING},
        {"elder, child", MF_YES, MF_NOT, MF_YES, MF_BUILDING_DWELLING, MF_COVER_BUILT_BEFORE},
        {"elder, unknown", MF_YES, MF_NOT, MF_UNKNOWN, MF_BUILDING_DWELLING, MF_COVER_BUILT_BEFORE},
        {"zero, no child", MF_NOT, MF_YES, MF_NOT, MF_BUILDING_DWELLING, MF_COVER_ZERO_BEDROOM},
        {"zero, child", MF_NOT, MF_YES, MF_YES, MF_BUILDING_DWELLING, MF_COVER_BUILT_BEFORE},
        {"zero, unknown", MF_NOT, MF_YES, MF_UNKNOWN, MF_BUILDING_DWELLING, MF_COVER_BUILT_BEFORE},
        {"no child alone", MF_NOT, MF_NOT, MF_NOT, MF_BUILDING_DWELLING, MF_COVER_BUILT_BEFORE},
        {"elder unknown", MF_UNKNOWN, MF_UNKNOWN, MF_NOT, MF_BUILDING_DWELLING,
         MF_COVER_BUILT_BEFORE},
        {"facility", MF_YES, MF_YES, MF_NOT, MF_BUILDING_FACILITY, MF_COVER_BUILT_BEFORE},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_house house = covered_house();
        house.elder_or_disabled = rows[i].elder;
        house.zero_bedroom = rows[i].zero;
        house.child_under_6 = rows[i].child;
        house.building = rows[i].building;
        mf_cover_answer out = judge_house(&house);
        CHECK_ROW(out.why == rows[i].why, rows[i].name);
        CHECK_ROW((out.cover == MF_COVER_YES) == (rows[i].why == MF_COVER_BUILT_BEFORE),
                  rows[i].name);
    }
}

/* 745.82(b) relieves of single duties; the job stays covered. */
static void emergencies_stay_covered(void **state)
{
    (void)state;
    mf_house house = covered_house();
    assert_false(judge_house(&house).emergency);
    house.emergency = MF_YES;
    assert_true(judge_house(&house).emergency);
    assert_int_equal(judge_house(&house).cover, MF_COVER_YES);
}

static void no_house_is_presumed_covered(void **state)
{
    (void)state;
    mf_cover_answer out;
    const mf_job job = {.id = "J-1"};
    mf_cover_judge(&job, &out);
    assert_int_equal(out.cover, MF_COVER_YES);
    assert_int_equal(out.why, MF_COVER_YEAR_UNKNOWN);
    assert_string_equal(out.place, "");
}

/* ---- what is disturbed -------------------------------------------------------------- */

enum { MOST = 5 };

/* A component of the table: paint, affected, and whether a lawful kit freed it. */
typedef struct part {
    const char *room;
    mf_side side;
    int64_t area;
    mf_tri painted, affected;
    bool free;
} part;

/* One row: parts end at the first without a room name. */
typedef struct work_case {
    const char *name;
    const char *work;
    part parts[MOST];
    mf_cover_why why;
    size_t n_affected, n_free;
    const char *place;
} work_case;

static const char *const ids[MOST] = {"C1", "C2", "C3", "C4", "C5"};

static void judge_work(const work_case *c, mf_cover_answer *out)
{
    mf_house house = covered_house();
    mf_component components[MOST];
    mf_kit_test kits[MOST];
    const mf_certificate rosa = {.holder = "rosa",
                                 .discipline = MF_DISC_RENOVATOR,
                                 .issued = day("2024-01-01"),
                                 .expires = day("2029-01-01"),
                                 .hands_on = MF_YES};
    mf_job job = {.house = &house,
                  .n_house = 1,
                  .component = components,
                  .kit_test = kits,
                  .certificate = &rosa,
                  .n_certificate = 1};
    house.work = c->work;
    for (size_t i = 0; i < MOST && c->parts[i].room != NULL; i++) {
        const part *p = &c->parts[i];
        components[job.n_component++] = (mf_component){.id = ids[i],
                                                       .room = p->room,
                                                       .side = p->side,
                                                       .painted = p->painted,
                                                       .affected = p->affected,
                                                       .removed = MF_NOT,
                                                       .disturbed_sqft_100 = p->area};
        if (p->free)
            kits[job.n_kit_test++] = (mf_kit_test){.component = ids[i],
                                                   .at_minute = MF_MINUTE_NONE,
                                                   .tester = "rosa",
                                                   .epa_recognized = MF_YES,
                                                   .result = MF_RES_NEGATIVE,
                                                   .substrates = "brick", /* the first of them */
                                                   .on = day("2026-09-01")};
    }
    mf_cover_judge(&job, out);
}

static void check_works(const work_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        mf_cover_answer out;
        const work_case *c = &cases[i];
        judge_work(c, &out);
        if (out.why != c->why)
            fail_msg("row \"%s\": why %d", c->name, (int)out.why);
        CHECK_ROW((out.cover == MF_COVER_YES) == (c->why == MF_COVER_BUILT_BEFORE), c->name);
        CHECK_ROW(out.n_affected == c->n_affected && out.n_free == c->n_free, c->name);
        CHECK_ROW(strcmp(out.place, c->place) == 0, c->name);
    }
}

#define IN      MF_SIDE_INTERIOR
#define OUT     MF_SIDE_EXTERIOR
#define COVERED MF_COVER_BUILT_BEFORE

/* R-REN-NOPAINT, R-FREE-ALL. */
static const work_case paint_cases[] = {
    {"nothing painted",
     "repair",
     {{"kitchen", IN, 10, MF_NOT, MF_YES, false}, {"kitchen", OUT, 10, MF_NOT, MF_UNKNOWN, false}},
     MF_COVER_NOTHING_PAINTED,
     0,
     0,
     ""},
    {"nothing logged", "window-replacement", {{.room = NULL}}, COVERED, 0, 0, ""},
    {"nothing affected",
     "window-replacement",
     {{"kitchen", IN, 10, MF_YES, MF_NOT, false}},
     COVERED,
     0,
     0,
     ""},
    {"nothing logged, repair", "repair", {{.room = NULL}}, COVERED, 0, 0, ""},
    {"paint not said",
     "window-replacement",
     {{"kitchen", IN, 10, MF_UNKNOWN, MF_YES, false}},
     COVERED,
     1,
     0,
     ""},
    {"one free of one",
     "repair",
     {{"kitchen", IN, 1000, MF_YES, MF_YES, true}},
     MF_COVER_ALL_FREE,
     1,
     1,
     ""},
    {"5 of 5 free",
     "repair",
     {{"a", IN, 1000, MF_YES, MF_YES, true},
      {"b", IN, 1000, MF_YES, MF_YES, true},
      {"c", IN, 10, MF_YES, MF_UNKNOWN, true},
      {"d", OUT, 10, MF_UNKNOWN, MF_YES, true},
      {"e", OUT, 10, MF_YES, MF_YES, true}},
     MF_COVER_ALL_FREE,
     5,
     5,
     ""},
    {"4 of 5 free, 1 untested",
     "window-replacement",
     {{"a", IN, 1000, MF_YES, MF_YES, true},
      {"b", IN, 1000, MF_YES, MF_YES, true},
      {"c", IN, 1000, MF_YES, MF_YES, true},
      {"d", OUT, 10, MF_YES, MF_YES, true},
      {"e", OUT, 10, MF_YES, MF_YES, false}},
     COVERED,
     5,
     4,
     ""},
    {"untested one is not affected",
     "repair",
     {{"a", IN, 1000, MF_YES, MF_YES, true}, {"b", IN, 10, MF_YES, MF_NOT, false}},
     MF_COVER_ALL_FREE,
     1,
     1,
     ""},
    {"untested one is bare",
     "repair",
     {{"a", IN, 1000, MF_YES, MF_YES, true}, {"b", IN, 10, MF_NOT, MF_YES, false}},
     MF_COVER_ALL_FREE,
     1,
     1,
     ""},
    {"untested one may be affected",
     "window-replacement",
     {{"a", IN, 1000, MF_YES, MF_YES, true}, {"b", IN, 10, MF_YES, MF_UNKNOWN, false}},
     COVERED,
     2,
     1,
     ""},
};

static void paint_exemptions(void **state)
{
    (void)state;
    check_works(paint_cases, COUNT(paint_cases));
}

#define PART(room, side, area)                                                                     \
    {                                                                                              \
        room, side, area, MF_YES, MF_YES, false                                                    \
    }

/* R-MIN-INT, R-MIN-EXT, R-MIN-WIN, R-MIN-WHOLE. */
static const work_case minor_cases[] = {
    {"6.00 in one room", "repair", {PART("kitchen", IN, 600)}, MF_COVER_MINOR, 1, 0, ""},
    {"6.01 in one room", "repair", {PART("kitchen", IN, 601)}, COVERED, 1, 0, "kitchen"},
    {"4 + 2", "repair", {PART("hall", IN, 400), PART("hall", IN, 200)}, MF_COVER_MINOR, 2, 0, ""},
    {"4 + 2.5", "repair", {PART("hall", IN, 400), PART("hall", IN, 250)}, COVERED, 2, 0, "hall"},
    {"one spelling or two",
     "repair",
     {PART("Hall", IN, 400), PART("hall", IN, 250)},
     COVERED,
     2,
     0,
     "Hall"},
    {"6 in each of two rooms",
     "repair",
     {PART("hall", IN, 600), PART("Hobby", IN, 600)},
     MF_COVER_MINOR,
     2,
     0,
     ""},
    {"second room over",
     "repair",
     {PART("hall", IN, 600), PART("bath", IN, 601)},
     COVERED,
     2,
     0,
     "bath"},
    {"room not known counts in each",
     "repair",
     {PART("hall", IN, 400), PART("", IN, 250)},
     COVERED,
     2,
     0,
     "hall"},
    {"20.00 outside",
     "repair",
     {PART("north", OUT, 1500), PART("south", OUT, 500)},
     MF_COVER_MINOR,
     2,
     0,
     ""},
    {"20.01 outside",
     "repair",
     {PART("north", OUT, 1500), PART("south", OUT, 501)},
     COVERED,
     2,
     0,
     ""},
    {"6 inside and 20 outside",
     "repair",
     {PART("hall", IN, 600), PART("north", OUT, 2000)},
     MF_COVER_MINOR,
     2,
     0,
     ""},
    {"area not known", "repair", {PART("hall", IN, MF_NUM_NONE)}, COVERED, 1, 0, ""},
    {"one area not known",
     "repair",
     {PART("hall", IN, 100), PART("bath", IN, MF_NUM_NONE)},
     COVERED,
     2,
     0,
     ""},
    {"bare area not known",
     "repair",
     {PART("hall", IN, 100), {"bath", IN, MF_NUM_NONE, MF_NOT, MF_YES, false}},
     MF_COVER_MINOR,
     1,
     0,
     ""},
    {"bare parts do not add up",
     "repair",
     {PART("hall", IN, 600), {"hall", IN, 5000, MF_NOT, MF_YES, false}},
     MF_COVER_MINOR,
     1,
     0,
     ""},
    {"parts not affected do not add up",
     "repair",
     {PART("hall", IN, 600), {"hall", IN, 5000, MF_YES, MF_NOT, false}},
     MF_COVER_MINOR,
     1,
     0,
     ""},
    {"unsaid counts as painted and affected",
     "repair",
     {PART("hall", IN, 600), {"hall", IN, 1, MF_UNKNOWN, MF_UNKNOWN, false}},
     COVERED,
     2,
     0,
     "hall"},
    {"0.1 sq ft window replaced", "window-replacement", {PART("hall", IN, 10)}, COVERED, 1, 0, ""},
    {"demolition", "demolition", {PART("hall", IN, 10)}, COVERED, 1, 0, ""},
    {"a door on no schedule", "door-replacement", {PART("hall", IN, 600)}, COVERED, 1, 0, ""},
    {"other work", "other", {PART("hall", IN, 600)}, MF_COVER_MINOR, 1, 0, ""},
    {"board of 1 x 7 ft taken off", "repair", {PART("hall", IN, 700)}, COVERED, 1, 0, "hall"},
    {"areas too large to add",
     "repair",
     {PART("hall", IN, INT64_MAX), PART("hall", IN, INT64_MAX)},
     COVERED,
     2,
     0,
     "hall"},
};

static void minor_work(void **state)
{
    (void)state;
    check_works(minor_cases, COUNT(minor_cases));
}

/* A component without a room of its own is in the room of its opening. */
static void room_of_the_opening(void **state)
{
    (void)state;
    mf_cover_answer out;
    mf_house house = covered_house();
    mf_opening openings[] = {{.id = "D1", .room = "hall"}, {.id = "D2", .room = "bath"}};
    mf_component components[] = {
        {.id = "C1", .opening = "D1", .side = IN, .removed = MF_NOT, .disturbed_sqft_100 = 400},
        {.id = "C2", .opening = "D2", .side = IN, .removed = MF_NOT, .disturbed_sqft_100 = 400}};
    const mf_job job = {.house = &house,
                        .n_house = 1,
                        .opening = openings,
                        .n_opening = 2,
                        .component = components,
                        .n_component = 2};
    house.work = "repair";
    mf_cover_judge(&job, &out);
    assert_int_equal(out.why, MF_COVER_MINOR);
    openings[1].room = "hall";
    mf_cover_judge(&job, &out);
    assert_int_equal(out.why, COVERED);
    assert_string_equal(out.place, "hall");
}

/* 745.83: minor only when no method prohibited or restricted by 745.85(a)(3) is used. */
static void restricted_methods_are_not_minor(void **state)
{
    (void)state;
    static const mf_method methods[] = {MF_METHOD_HAND, MF_METHOD_OPEN_FLAME, MF_METHOD_MACHINE,
                                        MF_METHOD_HEAT_GUN};
    for (size_t i = 0; i < COUNT(methods); i++) {
        mf_cover_answer out;
        mf_house house = covered_house();
        const mf_component wall = {
            .id = "C1", .room = "hall", .removed = MF_NOT, .disturbed_sqft_100 = 100};
        const mf_practice practice = {.area = "A1", .method = methods[i]};
        const mf_area hall = {.id = "A1", .place = "hall", .side = wall.side};
        const mf_job job = {.house = &house,
                            .n_house = 1,
                            .component = &wall,
                            .n_component = 1,
                            .practice = &practice,
                            .n_practice = 1,
                            .area = &hall,
                            .n_area = 1};
        house.work = "repair";
        mf_cover_judge(&job, &out);
        assert_int_equal(out.why, methods[i] == MF_METHOD_HAND ? MF_COVER_MINOR : COVERED);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(year_built),
        cmocka_unit_test(compensation),
        cmocka_unit_test(elder_and_zero_bedroom),
        cmocka_unit_test(emergencies_stay_covered),
        cmocka_unit_test(no_house_is_presumed_covered),
        cmocka_unit_test(paint_exemptions),
        cmocka_unit_test(minor_work),
        cmocka_unit_test(room_of_the_opening),
        cmocka_unit_test(restricted_methods_are_not_minor),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
