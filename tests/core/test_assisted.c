/* Assisted housing: 24 CFR 35.1350(d), 35.140, 35.1340, with section 8
 * and 11 of the digest of the rule. Houses and work are constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/assisted.h>
#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <string.h>

static fixture fx;

static int start(void **state)
{
    (void)state;
    fx_assisted_repair(&fx);
    return 0;
}

static mf_assisted_answer judge(void)
{
    mf_assisted_answer out;
    mf_assisted_judge(&fx.job, &out);
    return out;
}

/* ---- 35.1350(d): de minimis ------------------------------------------------------------ */

static void interior(void **state)
{
    static const struct {
        int64_t kitchen, kitchen_too, bedroom;
        bool over;
    } rows[] = {{200, 0, 0, false},       {201, 0, 0, true}, {100, 100, 200, false},
                {100, 101, 0, true},      {0, 0, 201, true}, {150, 50, 200, false},
                {MF_NUM_NONE, 0, 0, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.component[0].disturbed_sqft_100 = rows[i].kitchen;
        fx.component[3].disturbed_sqft_100 = rows[i].kitchen_too;
        fx.component[2].disturbed_sqft_100 = rows[i].bedroom;
        assert_true(judge().holds);
        assert_int_equal(judge().over, rows[i].over);
    }
}

static void exterior(void **state)
{
    (void)state;
    fx.component[1].disturbed_sqft_100 = 2000;
    assert_false(judge().over);
    fx.component[1].disturbed_sqft_100 = 2001;
    assert_true(judge().over);
    assert_int_equal(judge().n, 2001);
    assert_int_equal(judge().limit->id, MF_LIMIT_ASSISTED_EXTERIOR);
}

/* 10.0 % of a type of small component passes, 10.1 % does not. The type's surface is
 * that of all of its parts, disturbed or not. */
static void small_parts(void **state)
{
    static const struct {
        mf_component_type type;
        int64_t disturbed, whole, other_whole;
        bool over;
    } rows[] = {
        {MF_COMP_BASEBOARD, 100, 1000, 0, false},      {MF_COMP_BASEBOARD, 101, 1000, 0, true},
        {MF_COMP_BASEBOARD, 101, 1000, 10, false},     {MF_COMP_INTERIOR_SILL, 20, 200, 0, false},
        {MF_COMP_INTERIOR_SILL, 21, 200, 0, true},     {MF_COMP_INTERIOR_SILL, 1, 9, 0, true},
        {MF_COMP_BASEBOARD, 10, MF_NUM_NONE, 0, true}, /* not known */
        {MF_COMP_WALL, 101, 1000, 0, false},           /* no small component */
        {MF_COMP_DOOR_SLAB, 101, 1000, 0, true},       /* like trim, no large component */
        {MF_COMP_BASEBOARD, 0, 1, 0, false},           /* nothing of the least there may be */
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.component[0].type = fx.component[2].type = rows[i].type;
        fx.component[0].disturbed_sqft_100 = rows[i].disturbed;
        fx.component[0].whole_sqft_100 = rows[i].whole;
        fx.component[2].whole_sqft_100 = rows[i].other_whole;
        if (judge().over != rows[i].over)
            fail_msg("small part, row %zu", i);
    }
}

/* Paint shown free is not lead-based paint: 24 CFR 35.86, 35.115. */
static void free_paint(void **state)
{
    (void)state;
    fx.component[2].disturbed_sqft_100 = 900;
    assert_true(judge().over);
    fx.job.n_chip = 1; /* the bedroom sash, free by a recognized laboratory */
    assert_false(judge().over);
}

/* What is told of areas that are all within: the largest, and of two alike the first. */
static void the_largest_is_told(void **state)
{
    static const struct {
        int64_t kitchen, bedroom, told;
        const char *room;
    } rows[] = {{100, 150, 150, "bedroom"}, {150, 100, 150, "kitchen"}, {100, 100, 100, "kitchen"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.component[0].disturbed_sqft_100 = rows[i].kitchen;
        fx.component[2].disturbed_sqft_100 = rows[i].bedroom;
        fx.component[3].affected = MF_NOT; /* the kitchen would be looked at once more */
        assert_false(judge().over);
        assert_int_equal(judge().n, rows[i].told);
        assert_string_equal(judge().spot, rows[i].room);
    }
}

/* 24 CFR 35.115(a)(2): without a bedroom, whoever lives there; (3): elderly without a child. */
static void exempt_dwellings(void **state)
{
    static const struct {
        mf_tri elder, zero_bedroom, child;
        bool holds;
    } rows[] = {
        {MF_NOT, MF_NOT, MF_NOT, true},      {MF_NOT, MF_YES, MF_NOT, false},
        {MF_YES, MF_NOT, MF_NOT, false},     {MF_NOT, MF_YES, MF_YES, false},
        {MF_NOT, MF_YES, MF_UNKNOWN, false}, {MF_YES, MF_NOT, MF_YES, true},
        {MF_YES, MF_NOT, MF_UNKNOWN, true},  {MF_UNKNOWN, MF_UNKNOWN, MF_NOT, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.opening[1].room = fx.area[2].place = "alcove"; /* no bedroom */
        fx.house.elder_or_disabled = rows[i].elder;
        fx.house.zero_bedroom = rows[i].zero_bedroom;
        fx.house.child_under_6 = rows[i].child;
        if (judge().holds != rows[i].holds)
            fail_msg("exempt dwelling, row %zu", i);
    }
}

static void holds(void **state)
{
    (void)state;
    fx.house.assisted = MF_UNKNOWN; /* off by default */
    assert_false(judge().holds);
    fx.house.assisted = MF_YES;
    fx.house.year_built = 1978;
    assert_false(judge().holds);
    fx.house.year_built = MF_NUM_NONE;
    assert_true(judge().holds);
    fx.house.elder_or_disabled = MF_YES;
    fx.house.child_under_6 = MF_NOT;
    assert_false(judge().holds);
    fx.house.child_under_6 = MF_UNKNOWN;
    assert_true(judge().holds);
}

/* H-DEMIN-RRP: over 2 and up to 6 sq ft is minor for 745.83 and work for part 35. */
static void both_are_judged(void **state)
{
    (void)state;
    mf_cover_answer cover;
    fx_assisted_minor(&fx);
    mf_cover_judge(&fx.job, &cover);
    assert_int_equal(cover.why, MF_COVER_MINOR);
    assert_true(judge().over);
}

/* ---- 35.140: methods -------------------------------------------------------------------- */

static void methods(void **state)
{
    static const struct {
        const char *name;
        mf_practice it;
        mf_assisted_method verdict;
    } rows[] = {
        {"flame", {.method = MF_METHOD_OPEN_FLAME}, MF_ASSISTED_FLAME},
        {"machine", {.method = MF_METHOD_MACHINE}, MF_ASSISTED_MACHINE},
        {"machine with HEPA",
         {.method = MF_METHOD_MACHINE, .shroud_and_hepa = MF_YES},
         MF_ASSISTED_ALLOWED},
        {"blasting", {.method = MF_METHOD_BLASTING}, MF_ASSISTED_MACHINE},
        {"heat gun 1099", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1099}, MF_ASSISTED_ALLOWED},
        {"heat gun 1100", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1100}, MF_ASSISTED_ALLOWED},
        {"heat gun 1101", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1101}, MF_ASSISTED_HEAT},
        {"heat gun", {.method = MF_METHOD_HEAT_GUN, .temp_f = MF_NUM_NONE}, MF_ASSISTED_HEAT},
        {"dry 2.00", {.method = MF_METHOD_DRY_SCRAPE, .spot_sqft_100 = 200}, MF_ASSISTED_ALLOWED},
        {"dry 2.01", {.method = MF_METHOD_DRY_SCRAPE, .spot_sqft_100 = 201}, MF_ASSISTED_DRY},
        {"sanded 2.00", {.method = MF_METHOD_DRY_SAND, .spot_sqft_100 = 200}, MF_ASSISTED_SANDED},
        {"sanded 2.01", {.method = MF_METHOD_DRY_SAND, .spot_sqft_100 = 201}, MF_ASSISTED_DRY},
        {"unsaid", {.method = MF_METHOD_DRY_SAND, .spot_sqft_100 = MF_NUM_NONE}, MF_ASSISTED_DRY},
        {"dry, at an outlet",
         {.method = MF_METHOD_DRY_SCRAPE, .spot_sqft_100 = 900, .near_outlet = MF_YES},
         MF_ASSISTED_ALLOWED},
        {"stripper", {.method = MF_METHOD_STRIPPER}, MF_ASSISTED_STRIPPER},
        {"stripper, ventilated",
         {.method = MF_METHOD_STRIPPER, .ventilated = MF_YES},
         MF_ASSISTED_ALLOWED},
        {"by hand", {.method = MF_METHOD_HAND}, MF_ASSISTED_UNSAID},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.practice[0] = rows[i].it;
        fx.practice[0].area = "A1";
        fx.practice[0].on = fx.house.start;
        CHECK_ROW(mf_assisted_method_of(&fx.job, &fx.practice[0]) == rows[i].verdict, rows[i].name);
    }
}

/* Spots of one room add up; outside 20 sq ft. */
static void dry_spots(void **state)
{
    (void)state;
    const mf_practice spot = {
        .method = MF_METHOD_DRY_SCRAPE, .area = "A1", .spot_sqft_100 = 150, .on = fx.house.start};
    fx.practice[0] = fx.practice[1] = spot;
    fx.job.n_practice = 2;
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[0]), MF_ASSISTED_DRY);
    fx.practice[1].area = "A3"; /* the bedroom */
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[0]), MF_ASSISTED_ALLOWED);
    fx.practice[1].area = "A2"; /* outside */
    fx.practice[1].spot_sqft_100 = 2000;
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[1]), MF_ASSISTED_ALLOWED);
    fx.practice[1].spot_sqft_100 = 2001;
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[1]), MF_ASSISTED_DRY);
}

/* What was done in no area that is logged is no part of one that is. */
static void dry_spots_in_no_area(void **state)
{
    (void)state;
    const mf_practice spot = {
        .method = MF_METHOD_DRY_SCRAPE, .area = "A1", .spot_sqft_100 = 150, .on = fx.house.start};
    fx.practice[0] = fx.practice[1] = spot;
    fx.practice[1].area = "A9";
    fx.job.n_practice = 2;
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[0]), MF_ASSISTED_ALLOWED);
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[1]), MF_ASSISTED_ALLOWED);
    fx.practice[0].area = "A9";
    assert_int_equal(mf_assisted_method_of(&fx.job, &fx.practice[0]), MF_ASSISTED_DRY);
}

/* A job of which not even the house is logged. */
static void no_house(void **state)
{
    (void)state;
    const mf_job nothing = {.n_house = 0};
    mf_assisted_answer out;
    mf_assisted_judge(&nothing, &out);
    assert_false(out.holds || out.over);
}

/* ---- both rules side by side -------------------------------------------------------------------
 */

enum { MAX_FINDINGS = 400 };
static mf_finding found[MAX_FINDINGS];

static mf_verdict verdict_of(const char *id)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    for (size_t i = 0; i < n && n <= MAX_FINDINGS; i++)
        if (strcmp(found[i].requirement->id, id) == 0)
            return found[i].verdict;
    fail_msg("no finding %s", id);
    return MF_NOT_DUE;
}

/* A heat gun at 1,100 F: EPA allows only below (745.85(a)(3)(iii)), HUD forbids only
 * above (24 CFR 35.140(d)); both are shown and the answer is no. */
static void heat_gun_at_1100(void **state)
{
    (void)state;
    fx_assisted(&fx);
    fx.practice[0].method = MF_METHOD_HEAT_GUN;
    fx.practice[0].temp_f = 1100;
    assert_int_equal(verdict_of("method-allowed"), MF_LACKING);
    assert_int_equal(verdict_of("assisted-method"), MF_MET);
}

/* Off: nothing of part 35 is asked. */
static void off_by_default(void **state)
{
    (void)state;
    static const char *const ids[] = {"assisted-scope",
                                      "assisted-method",
                                      "assisted-prepared",
                                      "assisted-site",
                                      "assisted-occupants-out",
                                      "assisted-relocation",
                                      "assisted-clearance",
                                      "assisted-examiner",
                                      "assisted-blood-lead",
                                      "assisted-visual",
                                      "assisted-approved",
                                      "assisted-emergency",
                                      "signs-assisted",
                                      "assisted-today",
                                      "assisted-recleaned",
                                      "assisted-contained-first",
                                      "assisted-contained-all-along",
                                      "assisted-methods-logged",
                                      "assisted-crew",
                                      "assisted-cleaners"};
    fx_good(&fx);
    for (size_t i = 0; i < COUNT(ids); i++)
        CHECK_ROW(verdict_of(ids[i]) == MF_NOT_DUE, ids[i]);
}

/* 90 FR 5975: 3.5 ug/dL from 2025-01-17, 5 before. */
static void blood_lead(void **state)
{
    (void)state;
    static const struct {
        const char *on;
        int64_t level;
        mf_verdict verdict;
    } rows[] = {
        {"2025-01-16", 500, MF_MET}, {"2025-01-16", 490, MF_LACKING},
        {"2025-01-17", 350, MF_MET}, {"2025-01-17", 340, MF_LACKING},
        {"2026-09-14", 360, MF_MET}, {"2026-09-14", MF_NUM_NONE, MF_WARNING},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_assisted(&fx);
        fx_add_emergency(&fx, MF_CAUSE_BLOOD_LEAD, "pamphlet", "a child of the household");
        fx.emergency[0].on = day(rows[i].on);
        fx.emergency[0].blood_lead_100 = rows[i].level;
        CHECK_ROW(verdict_of("assisted-blood-lead") == rows[i].verdict, rows[i].on);
    }
}

#define TEST(name) cmocka_unit_test_setup(name, start)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(interior),
        TEST(exterior),
        TEST(small_parts),
        TEST(free_paint),
        TEST(holds),
        TEST(both_are_judged),
        TEST(methods),
        TEST(dry_spots),
        TEST(dry_spots_in_no_area),
        TEST(no_house),
        TEST(the_largest_is_told),
        TEST(exempt_dwellings),
        TEST(heat_gun_at_1100),
        TEST(off_by_default),
        TEST(blood_lead),
    };
    return cmocka_run_group_tests_name("assisted", tests, NULL, NULL);
}
