/* Child-occupied facility by visits, zero bedrooms by date, the owner's record, other
 * buildings. 40 CFR 745.83, 745.103, 745.82(a)(1); values of section 11 of the digest
 * of the rule. Children, houses and reports are constructed. */
#include "core/given.h"

#include <mistfold/house.h>
#include <mistfold/paint.h>
#include <string.h>

enum { VISITS = 4 };

static mf_house house;
static mf_visit visits[VISITS];
static mf_component wall;
static mf_job job;
static mf_owner_record record;
static mf_kit_test kit;

static int start(void **state)
{
    (void)state;
    house = (mf_house){.id = "J-1",
                       .year_built = 1926,
                       .building = MF_BUILDING_DWELLING,
                       .work = "window-replacement",
                       .start = day("2026-09-14")};
    wall = (mf_component){.id = "C1", .room = "hall", .disturbed_sqft_100 = 1000};
    job = (mf_job){
        .house = &house, .n_house = 1, .visit = visits, .component = &wall, .n_component = 1};
    return 0;
}

static void visit(const char *child, const char *on, int64_t minutes, const char *weekly_until)
{
    assert_true(job.n_visit < VISITS);
    visits[job.n_visit++] =
        (mf_visit){.child = child,
                   .born = MF_DAY_NONE,
                   .on = day(on),
                   .minutes = minutes,
                   .weekly_until = weekly_until == NULL ? MF_DAY_NONE : day(weekly_until)};
}

static bool facility(void)
{
    mf_facility_answer out;
    mf_facility_judge(&job, &out);
    return out.facility;
}

/* ---- 745.83, child-occupied facility ------------------------------------------------ */

/* Two series of ten weeks; 2026-01-04 is a Sunday, 2026-01-10 a Saturday. */
typedef struct week_case {
    const char *name;
    const char *child_a, *on_a;
    int64_t minutes_a;
    const char *child_b, *on_b;
    int64_t minutes_b;
    bool facility;
} week_case;

static const week_case weeks[] = {
    {"two days of 3 h", "c1", "2026-01-05", 180, "c1", "2026-01-07", 180, true},
    {"Sunday and Saturday of one week", "c1", "2026-01-04", 180, "c1", "2026-01-10", 180, true},
    {"2 h 59 on one", "c1", "2026-01-05", 180, "c1", "2026-01-07", 179, false},
    {"2 h 59 on one, much on the other", "c1", "2026-01-05", 600, "c1", "2026-01-07", 179, false},
    {"two children", "c1", "2026-01-05", 180, "c2", "2026-01-07", 180, false},
    {"one day", "c1", "2026-01-05", 360, "c1", "2026-01-05", 360, false},
};

static void week(void **state)
{
    for (size_t i = 0; i < COUNT(weeks); i++) {
        start(state);
        visit(weeks[i].child_a, weeks[i].on_a, weeks[i].minutes_a, "2026-12-30");
        visit(weeks[i].child_b, weeks[i].on_b, weeks[i].minutes_b, "2026-12-30");
        CHECK_ROW(facility() == weeks[i].facility, weeks[i].name);
    }
}

/* Saturday and the Sunday after it lie in two weeks, in each only one day. */
static void saturday_and_sunday(void **state)
{
    (void)state;
    visit("c1", "2025-12-27", 1440, "2026-01-10"); /* Saturdays, enough for the year */
    visit("c1", "2026-01-11", 180, NULL);
    assert_false(facility());
    visit("c1", "2026-01-12", 180, NULL); /* Monday: the week from the 11th has two */
    assert_true(facility());
}

/* A day has 24 hours, whatever a file from elsewhere says. Constructed. */
static void no_day_is_longer(void **state)
{
    static const struct {
        int64_t minutes, week;
    } rows[] = {{1440, 2880}, {1441, 2880}, {INT64_MAX, 2880}, {-1, 0}};
    (void)state;
    visit("c1", "2026-01-11", 0, NULL);
    visit("c1", "2026-01-12", 0, NULL);
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_facility_answer out;
        visits[0].minutes = visits[1].minutes = rows[i].minutes;
        mf_facility_judge(&job, &out);
        assert_int_equal(out.week_minutes, rows[i].week);
    }
}

/* 60 h a year: 10 weeks of 6 h, one minute less is not. */
static void year(void **state)
{
    (void)state;
    visit("c1", "2026-01-05", 180, "2026-03-09"); /* 10 Mondays */
    visit("c1", "2026-01-07", 180, "2026-03-11"); /* 10 Wednesdays */
    assert_true(facility());
    mf_facility_answer out;
    mf_facility_judge(&job, &out);
    assert_int_equal(out.year_minutes, 3600);
    assert_int_equal(out.week_minutes, 360);
    assert_int_equal(out.week, day("2026-01-04"));
    assert_string_equal(out.child, "c1");
    visits[1].weekly_until = day("2026-03-10"); /* 9 Wednesdays: 57 h */
    assert_false(facility());
    visit("c1", "2026-06-01", 179, NULL); /* 59 h 59 */
    assert_false(facility());
    visits[2].minutes = 180;
    assert_true(facility());
    visits[2].on = day("2027-01-05"); /* a year and a day after the first */
    assert_false(facility());
    visits[2].on = day("2027-01-04"); /* the last day of that year */
    assert_true(facility());
}

/* The child is under 6: 5 y 364 d counts, the sixth birthday does not. */
static void age(void **state)
{
    (void)state;
    visit("c1", "2026-01-05", 400, NULL);
    visit("c1", "2026-01-07", 1440, NULL);
    visit("c1", "2025-11-03", 240, "2025-12-22"); /* 8 Mondays, for the year */
    assert_true(facility());
    visits[0].born = visits[1].born = day("2020-01-08"); /* 6 on 2026-01-08 */
    assert_true(facility());
    visits[0].born = visits[1].born = day("2020-01-07");
    assert_false(facility());
}

/* Two visits of one day are that day's visit (reading to the side of safety). */
static void one_day_adds_up(void **state)
{
    (void)state;
    visit("c1", "2026-01-05", 90, "2026-12-30");
    visit("c1", "2026-01-05", 90, "2026-12-30");
    visit("c1", "2026-01-07", 180, "2026-12-30");
    assert_true(facility());
}

/* One visit is no proof that no others come: said to come regularly, and not counted. 745.83. */
static void one_visit_is_not_all(void **state)
{
    (void)state;
    house.children_visit = MF_YES;
    assert_true(facility());
    visit("c1", "2026-01-05", 30, NULL);
    assert_true(facility());
    house.visits_all_by = "the sexton";
    assert_false(facility());
    visit("c1", "2026-01-05", 180, "2026-12-30");
    visit("c1", "2026-01-07", 180, "2026-12-30");
    assert_true(facility()); /* whatever is said of them */
}

/* A break of some months changes nothing: EPA FAQ 23002-19753. */
static void no_visits_no_facility(void **state)
{
    (void)state;
    assert_false(facility());
    visit("c1", "2026-01-05", 180, NULL);
    assert_false(facility());
}

/* Of children who make no facility the one who comes nearest is told: more days, then
 * more time, then the first. Constructed. */
static void the_nearest_is_told(void **state)
{
    static const struct {
        const char *name;
        int64_t first, other, other_again;
        const char *told;
    } rows[] = {
        {"two days go before one long one", 4000, 180, 180, "c2"},
        {"more time", 180, 181, 0, "c2"},
        {"less time", 181, 180, 0, "c1"},
        {"the same", 180, 180, 0, "c1"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_facility_answer out;
        start(state);
        visit("c1", "2026-01-05", rows[i].first, NULL);
        visit("c2", "2026-01-05", rows[i].other, NULL);
        visit("c2", "2026-01-07", rows[i].other_again, NULL);
        mf_facility_judge(&job, &out);
        CHECK_ROW(!out.facility && strcmp(out.child, rows[i].told) == 0, rows[i].name);
    }
}

/* ---- what it changes ------------------------------------------------------------------- */

static mf_cover_why why(void)
{
    mf_cover_answer out;
    mf_cover_judge(&job, &out);
    assert_int_equal(out.cover == MF_COVER_YES,
                     out.why == MF_COVER_BUILT_BEFORE || out.why == MF_COVER_YEAR_UNKNOWN);
    return out.why;
}

static void visited(void)
{
    visit("c1", "2026-01-05", 180, "2026-12-30");
    visit("c1", "2026-01-07", 180, "2026-12-30");
}

/* Housing for the elderly where a grandchild comes often is a facility. */
static void elder_housing(void **state)
{
    (void)state;
    house.elder_or_disabled = MF_YES;
    house.child_under_6 = MF_NOT;
    assert_int_equal(why(), MF_COVER_ELDER_HOUSING);
    visited();
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
}

/* A shop is under the rule only as a facility; not known is presumed. */
static void other_building(void **state)
{
    (void)state;
    house.building = MF_BUILDING_OTHER;
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    house.child_under_6 = MF_NOT; /* lives there: says nothing of who comes */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    house.children_visit = MF_NOT;
    assert_int_equal(why(), MF_COVER_NO_FACILITY);
    house.children_visit = MF_YES;
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    visit("c1", "2026-01-05", 180, "2026-12-30");   /* one day a week, of which nobody says */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE); /* that there are no more */
    house.children_visit = MF_NOT;                  /* and somebody comes */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    house.visits_all_by = "the sexton";
    assert_int_equal(why(), MF_COVER_NO_FACILITY);
    house.children_visit = MF_YES; /* counted, they are not so regular */
    assert_int_equal(why(), MF_COVER_NO_FACILITY);
    job.n_visit = 0; /* all of none is nothing said of any */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    job.n_visit = 1;
    visit("c1", "2026-01-07", 180, "2026-12-30");
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    house.year_built = 1978;
    assert_int_equal(why(), MF_COVER_BUILT_LATER);
}

/* 745.103 before and from 2025-01-13 (89 FR 89416): before, no child kept a
 * zero-bedroom dwelling under the rule; a facility was one all the same. */
static void zero_bedroom_by_date(void **state)
{
    (void)state;
    static const struct {
        const char *start;
        mf_tri child;
        mf_cover_why why;
    } rows[] = {
        {"2025-01-12", MF_YES, MF_COVER_ZERO_BEDROOM_BEFORE},
        {"2025-01-12", MF_UNKNOWN, MF_COVER_ZERO_BEDROOM_BEFORE},
        {"2025-01-12", MF_NOT, MF_COVER_ZERO_BEDROOM},
        {"2025-01-13", MF_YES, MF_COVER_BUILT_BEFORE},
        {"2025-01-13", MF_UNKNOWN, MF_COVER_BUILT_BEFORE},
        {"2025-01-13", MF_NOT, MF_COVER_ZERO_BEDROOM},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        house.zero_bedroom = MF_YES;
        house.start = day(rows[i].start);
        house.child_under_6 = rows[i].child;
        CHECK_ROW(why() == rows[i].why, rows[i].start);
    }
    house.start = day("2025-01-12");
    house.building = MF_BUILDING_FACILITY;
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
}

/* ---- 745.82(a)(1): the owner's record ------------------------------------------------------ */

static mf_owner_record whole_record(void)
{
    return (mf_owner_record){.src = {"ow/1", "", "", ""},
                             .report = "R-12 of 2019",
                             .assessor = "Ari Invented",
                             .number = "I-5",
                             .issuer = "invented",
                             .discipline = MF_DISC_RISK_ASSESSOR,
                             .on = day("2019-05-02"),
                             .expires = day("2019-05-02"),
                             .components = "C1",
                             .firm_has_copy = MF_YES};
}

static void owner_record(void **state)
{
    (void)state;
    house.work = "repair";
    record = whole_record();
    job.owner_record = &record;
    job.n_owner_record = 1;
    assert_int_equal(why(), MF_COVER_ALL_FREE);
    record.components = "C1,C2";
    assert_int_equal(why(), MF_COVER_ALL_FREE);
    record.components = "C2"; /* another component */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    record.components = ""; /* nobody said which: what is listed later may be none of them */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    static const struct {
        const char *name;
        size_t at;
    } texts[] = {{"report", offsetof(mf_owner_record, report)},
                 {"assessor", offsetof(mf_owner_record, assessor)},
                 {"number", offsetof(mf_owner_record, number)},
                 {"components", offsetof(mf_owner_record, components)}};
    for (size_t i = 0; i < COUNT(texts); i++) {
        const char *none = "";
        record = whole_record();
        memcpy((char *)&record + texts[i].at, &none, sizeof none);
        CHECK_ROW(!mf_owner_record_whole(&job, &record), texts[i].name);
    }
    record = whole_record();
    record.firm_has_copy = MF_UNKNOWN; /* and the firm holds a copy */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    record = whole_record();
    record.expires = day("2024-05-02"); /* 745.226(e): issued that day at the latest, 5 years */
    assert_int_equal(why(), MF_COVER_ALL_FREE);
    record.expires = day("2024-05-03");
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    record = whole_record();
    record.on = record.expires = day("1996-08-28"); /* 61 FR 45778: no program yet */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    record = whole_record();
    record.expires = day("2019-05-01"); /* lapsed the day before */
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
    record = whole_record();
    record.discipline = MF_DISC_RENOVATOR;
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
}

/* A positive test of this job wins over any record. */
static void a_positive_wins(void **state)
{
    (void)state;
    record = whole_record();
    kit = (mf_kit_test){.component = "C1", .result = MF_RES_POSITIVE, .on = day("2026-09-01")};
    mf_paint_finding paint;
    job.owner_record = &record;
    job.n_owner_record = 1;
    mf_paint_judge(&job, &wall, &paint);
    assert_int_equal(paint.verdict, MF_PAINT_FREE);
    assert_string_equal(paint.evidence, "ow/1");
    job.kit_test = &kit;
    job.n_kit_test = 1;
    mf_paint_judge(&job, &wall, &paint);
    assert_int_equal(paint.verdict, MF_PAINT_LEAD);
    assert_int_equal(why(), MF_COVER_BUILT_BEFORE);
}

#define TEST(name) cmocka_unit_test_setup(name, start)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(week),
        TEST(saturday_and_sunday),
        TEST(year),
        TEST(age),
        TEST(one_day_adds_up),
        TEST(no_visits_no_facility),
        TEST(one_visit_is_not_all),
        TEST(elder_housing),
        TEST(other_building),
        TEST(zero_bedroom_by_date),
        TEST(owner_record),
        TEST(a_positive_wins),
        TEST(the_nearest_is_told),
        TEST(no_day_is_longer),
    };
    return cmocka_run_group_tests_name("facility", tests, NULL, NULL);
}
