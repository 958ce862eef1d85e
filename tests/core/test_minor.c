/* Minor repair and maintenance by exact area: 40 CFR 745.83, with section 11 of the
 * digest of the rule. Rooms, parts and jobs are constructed. */
#include "core/given.h"

#include <mistfold/house.h>
#include <mistfold/place.h>

enum { FEW = 4 };

static mf_house house;
static mf_component parts[FEW];
static mf_earlier others[FEW];
static mf_emergency emergency;
static mf_local_limit local;
static mf_practice practice;
static const mf_area hall = {.id = "A1", .side = MF_SIDE_INTERIOR, .place = "hall"};
static mf_job job;

static int start(void **state)
{
    (void)state;
    house = (mf_house){.id = "J-1",
                       .year_built = 1926,
                       .building = MF_BUILDING_DWELLING,
                       .work = "repair",
                       .place = "",
                       .start = day("2026-09-14")};
    job = (mf_job){.house = &house,
                   .n_house = 1,
                   .component = parts,
                   .earlier = others,
                   .emergency = &emergency,
                   .local_limit = &local,
                   .practice = &practice,
                   .area = &hall};
    emergency = (mf_emergency){.nature = "flood", .waived = ""};
    return 0;
}

static mf_component *part(mf_side side, const char *room, int64_t disturbed)
{
    assert_true(job.n_component < FEW);
    parts[job.n_component] = (mf_component){.id = "C",
                                            .opening = "",
                                            .type = MF_COMP_WALL,
                                            .side = side,
                                            .room = room,
                                            .removed = MF_NOT,
                                            .disturbed_sqft_100 = disturbed,
                                            .whole_sqft_100 = MF_NUM_NONE};
    return &parts[job.n_component++];
}

static mf_earlier *other(mf_side side, const char *room, const char *on, int64_t disturbed)
{
    assert_true(job.n_earlier < FEW);
    others[job.n_earlier] = (mf_earlier){
        .job = "J-2", .room = room, .side = side, .on = day(on), .disturbed_sqft_100 = disturbed};
    return &others[job.n_earlier++];
}

static bool minor(void)
{
    mf_cover_answer out;
    mf_cover_judge(&job, &out);
    assert_int_equal(out.why == MF_COVER_MINOR, out.cover == MF_COVER_NO);
    return out.why == MF_COVER_MINOR;
}

#define IN  MF_SIDE_INTERIOR
#define OUT MF_SIDE_EXTERIOR

/* Of the parts of an opening that are not listed nobody knows how much is disturbed; nor
 * are they shown to have no paint. */
static void an_opening_without_parts(void **state)
{
    static const mf_opening openings[] = {{.id = "W1"}, {.id = "W2"}};
    (void)state;
    job.opening = openings;
    job.n_opening = 2;
    part(IN, "kitchen", 100)->opening = "W1";
    assert_false(minor());
    part(IN, "kitchen", 100)->opening = "W2";
    assert_true(minor());
    parts[0].painted = parts[1].painted = MF_NOT;
    mf_cover_answer out;
    mf_cover_judge(&job, &out);
    assert_int_equal(out.why, MF_COVER_NOTHING_PAINTED);
    parts[1].opening = "W1";
    mf_cover_judge(&job, &out);
    assert_int_equal(out.cover, MF_COVER_YES);
}

/* 6 sq ft a room, 20 outside, exactly. */
static void limits(void **state)
{
    static const struct {
        mf_side side;
        int64_t area;
        bool minor;
    } rows[] = {{IN, 599, true},   {IN, 600, true},   {IN, 601, false},
                {OUT, 1999, true}, {OUT, 2000, true}, {OUT, 2001, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        part(rows[i].side, "hall", rows[i].area);
        assert_int_equal(minor(), rows[i].minor);
    }
}

/* Each room by itself; outside all together; unknown areas are not minor. */
static void rooms(void **state)
{
    (void)state;
    part(IN, "hall", 600);
    part(IN, "bath", 600);
    part(OUT, "north", 1000);
    part(OUT, "south", 1000);
    assert_true(minor());
    parts[3].disturbed_sqft_100 = 1001;
    assert_false(minor());
    parts[3].disturbed_sqft_100 = MF_NUM_NONE;
    assert_false(minor());
}

/* What is "upstairs" may be in a room of another job. */
static void a_place_that_tells_no_room(void **state)
{
    (void)state;
    part(IN, "upstairs", 400);
    other(IN, "bedroom 3", "2026-09-10", 200);
    part(IN, "bedroom 3", 1);
    assert_false(minor());
}

/* A part in a room that nobody said may be in the room of another job, or in any one of them. */
static void no_room_said(void **state)
{
    (void)state;
    part(IN, "", 400);
    other(IN, "kitchen", "2026-09-10", 200);
    other(IN, "bath", "2026-09-10", 200);
    assert_true(minor()); /* in one of them, and not in both */
    others[1].disturbed_sqft_100 = 201;
    assert_false(minor());
    others[1].disturbed_sqft_100 = MF_NUM_NONE;
    assert_false(minor());
    others[1].on = others[1].until = day("2026-07-01");
    assert_true(minor());
}

/* "Window, whole" is a window, whatever its type; a type that says what it is of is believed. */
static void a_window_by_name(void **state)
{
    (void)state;
    mf_component *it = part(IN, "hall", 100);
    it->type = MF_COMP_OTHER;
    it->label = "mantel";
    it->removed = MF_YES;
    it->whole_sqft_100 = 100;
    assert_true(minor());
    it->label = "Window, whole";
    assert_false(minor());
    it->removed = MF_NOT;
    assert_true(minor());
    it->removed = MF_UNKNOWN;
    assert_false(minor());
    it->removed = MF_YES;
    it->label = "";
    it->id = "hall.ventana";
    assert_false(minor());
    it->type = MF_COMP_WALL;
    assert_true(minor());
}

/* What the job is said to be, and no window of it is listed. */
static void a_window_described(void **state)
{
    static const mf_opening window = {.id = "W1", .room = "hall", .replaced = MF_NOT};
    (void)state;
    part(IN, "hall", 100);
    house.description = "paint the hall window";
    assert_true(minor());
    house.description = "Replace the hall window";
    assert_false(minor());
    house.description = "cambiar la ventana del pasillo";
    assert_false(minor());
    job.opening = &window;
    job.n_opening = 1;
    parts[0].opening = "W1";
    assert_true(minor());
}

/* R-MIN-WHOLE: 1 x 6 ft taken off is 6, 1 x 7 is 7, though only its ends are damaged. */
static void whole_parts(void **state)
{
    (void)state;
    mf_component *board = part(IN, "hall", 20);
    board->removed = MF_YES;
    board->whole_sqft_100 = 600;
    assert_true(minor());
    board->whole_sqft_100 = 700;
    assert_false(minor());
    board->removed = MF_NOT; /* it stays on: the damage counts */
    assert_true(minor());
    board->removed = MF_YES;
    board->whole_sqft_100 = MF_NUM_NONE; /* how large it is nobody said */
    assert_false(minor());
    board->disturbed_sqft_100 = 650;
    board->whole_sqft_100 = 100; /* a slip: the larger counts */
    assert_false(minor());
}

/* Whether it comes off nobody said: it may count whole. */
static void removal_unsaid(void **state)
{
    (void)state;
    static const mf_opening opening = {.id = "D1", .kind = MF_OPENING_DOOR};
    mf_cover_answer out;
    mf_component *board = part(IN, "hall", 20);
    board->removed = MF_UNKNOWN;
    assert_false(minor());
    mf_cover_judge(&job, &out);
    assert_ptr_equal(out.minor_unsaid, board);
    board->whole_sqft_100 = 600;
    assert_true(minor());
    board->whole_sqft_100 = 601;
    assert_false(minor());
    board->whole_sqft_100 = 600;
    board->disturbed_sqft_100 = 601; /* over, whether it comes off or not */
    mf_cover_judge(&job, &out);
    assert_null(out.minor_unsaid);
    assert_string_equal(out.place, "hall");
    board->disturbed_sqft_100 = 20;
    board->type = MF_COMP_TROUGH; /* of a window no size is minor */
    assert_false(minor());
    job.opening = &opening;
    job.n_opening = 1;
    board->opening = "D1"; /* of a door it is */
    assert_true(minor());
    board->affected = MF_NOT;
    board->opening = "";
    part(IN, "hall", 20);
    parts[1].opening = "D1";
    assert_true(minor()); /* what is not worked on does not come off */
}

/* A surface of 0 that was measured is a number; one that was not measured is none. */
static void measured_nothing(void **state)
{
    (void)state;
    mf_component *board = part(IN, "hall", 0);
    assert_true(minor());
    board->removed = MF_YES;
    board->disturbed_sqft_100 = MF_NUM_NONE;
    assert_false(minor());
    board->whole_sqft_100 = 0;
    assert_true(minor());
}

/* R-MIN-INT: what is one room adds up, in whatever letters it is written. */
static void letters_of_a_room(void **state)
{
    static const struct {
        const char *here, *there;
        bool one;
    } rows[] = {{"Attic", "attic", true}, {"bath Z", "Bath z", true}, {"A[", "a{", true},
                {"@1", "`1", true},       {"attic", "attics", false}, {"attics", "Attic", false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        part(IN, rows[i].here, 400);
        part(IN, rows[i].there, 300);
        CHECK_ROW(minor() == !rows[i].one, rows[i].here);
    }
}

/* The room that disturbs most is told, the first of several; the outside has no room. */
static void what_is_told(void **state)
{
    static const struct {
        mf_side side;
        int64_t here, there;
        const char *room;
        int64_t told;
    } rows[] = {
        {IN, 500, 100, "hall", 500},
        {IN, 100, 500, "bath", 500},
        {IN, 300, 300, "hall", 300},
        {OUT, 300, 500, "", 800},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_cover_answer out;
        start(state);
        part(rows[i].side, "hall", rows[i].here);
        part(rows[i].side, "bath", rows[i].there);
        mf_cover_judge(&job, &out);
        assert_int_equal(out.why, MF_COVER_MINOR);
        assert_string_equal(out.minor_room, rows[i].room);
        assert_int_equal(out.minor_sqft_100, rows[i].told);
    }
}

/* R-MIN-30: 4 + 2 is minor, 4 + 2.5 is not; 30 days apart together, 31 apart not. */
static void jobs_of_one_room(void **state)
{
    static const struct {
        const char *name, *on, *room;
        mf_side side;
        int64_t area;
        bool minor;
    } rows[] = {
        {"4 + 2", "2026-09-01", "hall", IN, 200, true},
        {"4 + 2.01", "2026-09-01", "hall", IN, 201, false},
        {"4 + 2.5, 30 days before", "2026-08-15", "hall", IN, 250, false},
        {"4 + 2.5, 31 days before", "2026-08-14", "hall", IN, 250, true},
        {"4 + 2.5, 30 days after", "2026-10-14", "hall", IN, 250, false},
        {"4 + 2.5, 31 days after", "2026-10-15", "hall", IN, 250, true},
        {"the same room written otherwise", "2026-09-01", "Hall", IN, 250, false},
        {"another room", "2026-09-01", "bath", IN, 250, true},
        {"a room nobody named", "2026-09-01", "", IN, 250, false},
        {"outside", "2026-09-01", "hall", OUT, 250, true},
        {"not measured", "2026-09-01", "hall", IN, MF_NUM_NONE, false},
        {"not measured, 31 days before", "2026-08-14", "hall", IN, MF_NUM_NONE, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        part(IN, "hall", 400);
        other(rows[i].side, rows[i].room, rows[i].on, rows[i].area);
        CHECK_ROW(minor() == rows[i].minor, rows[i].name);
    }
}

/* 745.83: performed within the same 30 days, so from the last day of the one job to
 * the first of the other; of which no last day is said may go on. Constructed days; 2026-08-15 is
 * 30 days before 09-14. */
static void long_jobs_in_the_same_room(void **state)
{
    static const struct {
        const char *name, *on, *until, *end;
        bool minor;
    } rows[] = {
        {"began in July, ended 30 days before", "2026-07-01", "2026-08-15", NULL, false},
        {"ended 31 days before", "2026-07-01", "2026-08-14", NULL, true},
        {"begins 30 days after the end of this one", "2026-10-30", NULL, "2026-09-30", false},
        {"begins 31 days after it", "2026-10-31", NULL, "2026-09-30", true},
        {"runs all the time", "2026-07-01", "2026-12-01", NULL, false},
        {"began in January, no last day is said", "2026-01-05", NULL, "2026-09-30", false},
        {"begins in a year, and this one has no last day", "2027-09-14", "2027-09-15", NULL, false},
        {"ended in January, and this one has no last day", "2026-01-05", "2026-01-06", NULL, true},
        {"its end is before its start", "2026-08-14", "2026-08-01", NULL, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        part(IN, "hall", 400);
        other(IN, "hall", rows[i].on, 250);
        others[0].until = rows[i].until == NULL ? MF_DAY_NONE : day(rows[i].until);
        house.end = rows[i].end == NULL ? MF_DAY_NONE : day(rows[i].end);
        CHECK_ROW(minor() == rows[i].minor, rows[i].name);
    }
}

/* R-MIN-30-EXT: outside there are no rooms. */
static void jobs_outside(void **state)
{
    (void)state;
    part(OUT, "north", 1500);
    other(OUT, "south", "2026-09-01", 500);
    assert_true(minor());
    others[0].disturbed_sqft_100 = 501;
    assert_false(minor());
    mf_cover_answer out;
    mf_cover_judge(&job, &out);
    assert_int_equal(out.minor_sqft_100, 2001);
    assert_int_equal(out.n_earlier, 1);
    assert_int_equal(out.minor_limit->id, MF_LIMIT_MINOR_EXTERIOR);
}

/* 745.83: "other than emergency renovations". */
static void emergencies_stand_alone(void **state)
{
    (void)state;
    part(IN, "hall", 400);
    other(IN, "hall", "2026-09-01", 250);
    assert_false(minor());
    job.n_emergency = 1;
    assert_true(minor());
    house.emergency = MF_NOT; /* the job says that it is none */
    assert_false(minor());
    house.emergency = MF_YES;
    assert_true(minor());
    emergency.on = house.start + 1; /* what was planned before it does not result from it */
    assert_false(minor());
    emergency.on = house.start;
    emergency.nature = ""; /* nobody wrote down what happened */
    assert_false(minor());
}

/* Never: window replacement, demolition, a prohibited or restricted method. */
static void never_minor(void **state)
{
    static const struct {
        const char *name;
        const char *work;
        mf_method method;
        bool minor;
    } rows[] = {
        {"repair", "repair", MF_METHOD_HAND, true},
        {"door on no schedule", "door-replacement", MF_METHOD_HAND, false},
        {"window of 0.1 sq ft", "window-replacement", MF_METHOD_HAND, false},
        {"demolition", "demolition", MF_METHOD_HAND, false},
        {"demolition by hand", "repair", MF_METHOD_DEMOLITION, false},
        {"flame", "repair", MF_METHOD_OPEN_FLAME, false},
        {"machine", "repair", MF_METHOD_MACHINE, false},
        {"blasting", "repair", MF_METHOD_BLASTING, false},
        {"heat gun", "repair", MF_METHOD_HEAT_GUN, false},
        {"dry scraping", "repair", MF_METHOD_DRY_SCRAPE, true}, /* R-PROH-DRY */
        {"stripper", "repair", MF_METHOD_STRIPPER, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        part(IN, "hall", 10);
        house.work = rows[i].work;
        practice.method = rows[i].method;
        practice.area = "A1";
        job.n_practice = job.n_area = 1;
        CHECK_ROW(minor() == rows[i].minor, rows[i].name);
    }
}

/* Iowa: less than 1 sq ft. Maryland, before 1950: up to 3. Not outside. */
static void places(void **state)
{
    static const struct {
        const char *name, *value;
        mf_local_cmp comparison;
        int64_t built_before;
        mf_side side;
        int64_t area;
        bool minor;
    } rows[] = {
        {"0.99 of less than 1", "1", MF_BELOW, MF_NUM_NONE, IN, 99, true},
        {"1.00 of less than 1", "1", MF_BELOW, MF_NUM_NONE, IN, 100, false},
        {"1.01 of less than 1", "1", MF_BELOW, MF_NUM_NONE, IN, 101, false},
        {"outside", "1", MF_BELOW, MF_NUM_NONE, OUT, 2000, true},
        {"3.00 of 3, built 1926", "3", MF_UP_TO, 1950, IN, 300, true},
        {"3.01 of 3, built 1926", "3", MF_UP_TO, 1950, IN, 301, false},
        {"3.01 of 3, built before 1920 only", "3", MF_UP_TO, 1920, IN, 301, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        house.place = "US-XX";
        part(rows[i].side, "hall", rows[i].area);
        local = (mf_local_limit){.row = {.id = MF_LIMIT_MINOR_INTERIOR,
                                         .from = MF_DAY_NONE,
                                         .until = MF_DAY_NONE,
                                         .place = "US-XX"},
                                 .comparison = rows[i].comparison,
                                 .value = rows[i].value,
                                 .built_before = rows[i].built_before};
        mf_local_limit_fill(&local);
        job.n_local_limit = 1;
        CHECK_ROW(minor() == rows[i].minor, rows[i].name);
    }
}

/* No sum of areas turns small by being too large. */
static void huge(void **state)
{
    (void)state;
    part(IN, "hall", INT64_MAX);
    part(IN, "hall", INT64_MAX);
    assert_false(minor());
}

#define TEST(name) cmocka_unit_test_setup(name, start)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(limits),
        TEST(an_opening_without_parts),
        TEST(rooms),
        TEST(a_place_that_tells_no_room),
        TEST(no_room_said),
        TEST(a_window_by_name),
        TEST(a_window_described),
        TEST(whole_parts),
        TEST(removal_unsaid),
        TEST(jobs_of_one_room),
        TEST(long_jobs_in_the_same_room),
        TEST(jobs_outside),
        TEST(emergencies_stand_alone),
        TEST(never_minor),
        TEST(places),
        TEST(huge),
        TEST(measured_nothing),
        TEST(letters_of_a_room),
        TEST(what_is_told),
    };
    return cmocka_run_group_tests_name("minor", tests, NULL, NULL);
}
