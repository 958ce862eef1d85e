/* Testing combinations and the rule for walls: T5 of the testing digest ("Walls"),
 * K: constructed there from TC13 to TC15, which are from memory. And what an opening
 * needs: constructed. */
#include "core/given.h"

#include <mistfold/schedule.h>

enum { MOST = 16 };

typedef struct scene {
    mf_opening opening;
    mf_component component[MOST];
    mf_reading reading[MOST];
    mf_chip chip[4];
    mf_certificate certificate;
    mf_job job;
    char id[MOST][4];
} scene;

static void begin(scene *s)
{
    *s = (scene){.opening = {.id = "W1", .room = "kitchen", .elevation = "north"},
                 .certificate = {.holder = "rosa",
                                 .discipline = MF_DISC_RENOVATOR,
                                 .number = "R-1",
                                 .issued = day("2025-01-01"),
                                 .expires = day("2030-01-01"),
                                 .hands_on = MF_YES}};
    s->job = (mf_job){.opening = &s->opening,
                      .n_opening = 1,
                      .component = s->component,
                      .reading = s->reading,
                      .chip = s->chip,
                      .certificate = &s->certificate,
                      .n_certificate = 1};
}

static mf_component *add(scene *s, mf_component_type type, mf_side side, const char *opening)
{
    size_t n = s->job.n_component++;
    s->id[n][0] = 'C';
    s->id[n][1] = (char)('a' + (int)n);
    s->component[n] = (mf_component){.id = s->id[n],
                                     .type = type,
                                     .side = side,
                                     .opening = opening,
                                     .room = opening[0] == '\0' ? "kitchen" : "",
                                     .substrate = MF_SUB_PLASTER};
    return &s->component[n];
}

static void read_it(scene *s, const mf_component *of, int64_t ug)
{
    s->reading[s->job.n_reading++] = (mf_reading){.purpose = MF_READ_PAINT,
                                                  .component = of->id,
                                                  .substrate = of->substrate,
                                                  .instrument = "X-1",
                                                  .loading_ug_cm2 = ug,
                                                  .on = day("2026-08-12")};
}

/* walls in all, of which those with a value are read */
static mf_combination walls(scene *s, int all, const int64_t *values, int read)
{
    mf_combination got;
    begin(s);
    for (int i = 0; i < all; i++) {
        mf_component *wall = add(s, MF_COMP_WALL, MF_SIDE_INTERIOR, "");
        if (i < read)
            read_it(s, wall, values[i]);
    }
    assert_int_equal(mf_combinations(&s->job, &got, 1), 1);
    return got;
}

static void walls_of_t5(void **state)
{
    (void)state;
    scene s;
    static const int64_t apart[] = {900, 1000, 900, 900};
    mf_combination got = walls(&s, 6, apart, 4);
    assert_true(got.walls && !got.agree); /* TC15: each remaining wall is tested */
    assert_int_equal(got.positive, 1);
    assert_int_equal(got.negative, 3);
    assert_true(got.mean_ug_cm2 == MF_NUM_NONE);
    static const int64_t high[] = {1100, 1200, 1000, 1100};
    got = walls(&s, 6, high, 4);
    assert_true(got.walls && got.agree);
    assert_int_equal(got.mean_ug_cm2, 1100);
    assert_int_equal(got.untested, MF_CLASS_POSITIVE);
    static const int64_t low[] = {200, 300, 100, 200};
    got = walls(&s, 5, low, 4);
    assert_int_equal(got.mean_ug_cm2, 200);
    assert_int_equal(got.untested, MF_CLASS_NEGATIVE);
    got = walls(&s, 5, low, 3); /* three are too few */
    assert_false(got.walls);
    assert_true(got.mean_ug_cm2 == MF_NUM_NONE);
}

/* U16: a saturated display is never averaged. Decimals as shown. Constructed. */
static void means(void **state)
{
    (void)state;
    scene s;
    static const int64_t high[] = {1100, 1200, 9900, 1100};
    walls(&s, 5, high, 4);
    s.reading[2].qualifier = MF_QUAL_OVER;
    mf_combination got;
    mf_combinations(&s.job, &got, 1);
    assert_int_equal(got.positive, 4);
    assert_true(got.mean_ug_cm2 == MF_NUM_NONE);
    assert_int_equal(got.untested, MF_CLASS_INCONCLUSIVE);
    static const int64_t fine[] = {110, 120, 130, 115};
    got = walls(&s, 5, fine, 4);
    assert_int_equal(got.mean_ug_cm2, 119); /* 118.75 to a thousandth */
    static const int64_t far[] = {1000000000, 1000000000, 1000000000, 1000000000};
    assert_int_equal(walls(&s, 5, far, 4).mean_ug_cm2, 1000000000);
    static const int64_t too_far[] = {1000000000, 1000000001, 1000000000, 1000000000};
    assert_true(walls(&s, 5, too_far, 4).mean_ug_cm2 == MF_NUM_NONE); /* nobody logged that */
}

/* TC1: room, type, substrate; color does not split. */
static void what_is_one_combination(void **state)
{
    (void)state;
    scene s;
    mf_combination got[4];
    begin(&s);
    read_it(&s, add(&s, MF_COMP_SASH, MF_SIDE_INTERIOR, "W1"), 300);
    read_it(&s, add(&s, MF_COMP_SASH, MF_SIDE_INTERIOR, "W1"), 400);
    s.reading[0].colour = "white";
    s.reading[1].colour = "green";
    add(&s, MF_COMP_SASH, MF_SIDE_EXTERIOR, "W1");
    add(&s, MF_COMP_SASH, MF_SIDE_INTERIOR, "W1")->substrate = MF_SUB_METAL;
    assert_int_equal(mf_combinations(&s.job, got, 4), 3);
    assert_int_equal(got[0].components, 2);
    assert_int_equal(got[0].readings, 2);
    assert_string_equal(got[0].room, "kitchen");
    assert_string_equal(got[1].room, "north");
}

/* What was read of each class is counted; what nobody read agrees in nothing. CL3: within
 * the sheet's range 0.9 to 1.2 a reading is inconclusive. Constructed. */
static void counts(void **state)
{
    (void)state;
    scene s;
    mf_combination got;
    static const int64_t values[] = {300, 1200, 1300, 1400};
    const mf_instrument gun = {.serial = "X-1",
                               .inconclusive_low_ug_cm2 = 900,
                               .inconclusive_high_ug_cm2 = 1200,
                               .bounds_inside = MF_YES};
    walls(&s, 5, values, 4);
    s.job.instrument = &gun;
    s.job.n_instrument = 1;
    assert_int_equal(mf_combinations(&s.job, &got, 1), 1);
    assert_int_equal(got.negative, 1);
    assert_int_equal(got.inconclusive, 1);
    assert_int_equal(got.positive, 2);
    got = walls(&s, 5, values, 0);
    assert_int_equal(got.components, 5);
    assert_int_equal(got.tested, 0);
    assert_false(got.agree);
}

/* No more are written than there is room for, and all are counted. */
static void room_for_one(void **state)
{
    (void)state;
    scene s;
    mf_combination got[2] = {{.components = -1}, {.components = -1}};
    begin(&s);
    add(&s, MF_COMP_SASH, MF_SIDE_INTERIOR, "W1");
    add(&s, MF_COMP_SASH, MF_SIDE_EXTERIOR, "W1");
    assert_int_equal(mf_combinations(&s.job, got, 1), 2);
    assert_int_equal(got[0].components, 1);
    assert_int_equal(got[1].components, -1);
}

static void needs(void **state)
{
    (void)state;
    scene s;
    mf_opening_need need;
    begin(&s);
    mf_opening_needs(&s.job, "W1", MF_SIDE_EXTERIOR, MF_REMOVAL_AS_LOGGED, &need);
    assert_int_equal(need.need, MF_NEED_CONTAINMENT); /* no part of it is listed */
    assert_int_equal(need.disturbed, 0);
    assert_null(need.decided.component);
    mf_opening_needs(&s.job, "", MF_SIDE_EXTERIOR, MF_REMOVAL_AS_LOGGED, &need);
    assert_int_equal(need.need, MF_NEED_NOTHING); /* that is no opening */
    mf_component *sash = add(&s, MF_COMP_SASH, MF_SIDE_INTERIOR, "W1");
    mf_component *casing = add(&s, MF_COMP_INTERIOR_CASING, MF_SIDE_INTERIOR, "W1");
    sash->affected = casing->affected = MF_NOT;
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_AS_LOGGED, &need);
    assert_int_equal(need.need, MF_NEED_NOTHING);
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_WITHIN_FRAME, &need);
    assert_int_equal(need.need, MF_NEED_CONTAINMENT); /* untested is presumed */
    assert_int_equal(need.disturbed, 1);
    casing->removed = MF_YES; /* comes off, though logged as not affected */
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_WITHIN_FRAME, &need);
    assert_int_equal(need.disturbed, 2);
    casing->removed = MF_NOT;
    s.chip[0] = (mf_chip){.src = {.entry = "chip"},
                          .at_minute = MF_MINUTE_NONE,
                          .component = sash->id,
                          .sampler = "rosa",
                          .nllap = MF_YES,
                          .weight_ppm = 200,
                          .loading_ug_cm2 = MF_NUM_NONE,
                          .on = day("2026-08-12")};
    s.job.n_chip = 1;
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_WITHIN_FRAME, &need);
    assert_int_equal(need.need, MF_NEED_NONE);
    assert_string_equal(need.decided.evidence, "chip");
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_FULL_FRAME, &need);
    assert_int_equal(need.need, MF_NEED_CONTAINMENT); /* the casing comes off as well */
    assert_int_equal(need.disturbed, 2);
    casing->painted = MF_NOT;
    mf_opening_needs(&s.job, "W1", MF_SIDE_INTERIOR, MF_REMOVAL_FULL_FRAME, &need);
    assert_int_equal(need.need, MF_NEED_NONE);
    mf_opening_needs(&s.job, "W1", MF_SIDE_EXTERIOR, MF_REMOVAL_FULL_FRAME, &need);
    assert_int_equal(need.need, MF_NEED_NOTHING);
}

static void cells(void **state)
{
    (void)state;
    scene s;
    mf_schedule_cell cell;
    begin(&s);
    read_it(&s, add(&s, MF_COMP_STOP, MF_SIDE_INTERIOR, "W1"), 300);
    read_it(&s, add(&s, MF_COMP_STOP, MF_SIDE_INTERIOR, "W1"), 1300);
    mf_schedule_cell_of(&s.job, "W1", "", MF_COMP_STOP, MF_SIDE_INTERIOR, MF_REMOVAL_AS_LOGGED,
                        &cell);
    assert_int_equal(cell.components, 2);
    assert_int_equal(cell.worst.verdict, MF_PAINT_LEAD);
    assert_int_equal(cell.highest->loading_ug_cm2, 1300);
    mf_schedule_cell_of(&s.job, "W1", "", MF_COMP_STOP, MF_SIDE_EXTERIOR, MF_REMOVAL_AS_LOGGED,
                        &cell);
    assert_int_equal(cell.components, 0);
}

/* Of the parts of one cell the highest reading is told: the worse class, then the higher
 * number, then the first; an unread part tells none. ">0.5" is positive. Constructed. */
static void the_highest_of_a_cell(void **state)
{
    (void)state;
    enum { UNREAD = -1 };
    static const struct {
        const char *name;
        int64_t first, second;
        mf_qualifier of_first;
        size_t highest;
    } rows[] = {
        {"higher first", 1400, 1300, MF_QUAL_EXACT, 0},
        {"higher second", 1300, 1400, MF_QUAL_EXACT, 1},
        {"two alike", 1300, 1300, MF_QUAL_EXACT, 0},
        {"saturated first", 500, 900, MF_QUAL_OVER, 0},
        {"second unread", 300, UNREAD, MF_QUAL_EXACT, 0},
        {"negatives", 300, 200, MF_QUAL_EXACT, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        scene s;
        mf_schedule_cell cell;
        begin(&s);
        read_it(&s, add(&s, MF_COMP_STOP, MF_SIDE_INTERIOR, "W1"), rows[i].first);
        s.reading[0].qualifier = rows[i].of_first;
        const mf_component *second = add(&s, MF_COMP_STOP, MF_SIDE_INTERIOR, "W1");
        if (rows[i].second != UNREAD)
            read_it(&s, second, rows[i].second);
        mf_schedule_cell_of(&s.job, "W1", "", MF_COMP_STOP, MF_SIDE_INTERIOR, MF_REMOVAL_AS_LOGGED,
                            &cell);
        CHECK_ROW(cell.highest == &s.reading[rows[i].highest], rows[i].name);
        bool alike = rows[i].first == rows[i].second;
        CHECK_ROW(!alike || cell.worst.component == &s.component[0], rows[i].name);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(walls_of_t5),
        cmocka_unit_test(means),
        cmocka_unit_test(what_is_one_combination),
        cmocka_unit_test(counts),
        cmocka_unit_test(room_for_one),
        cmocka_unit_test(needs),
        cmocka_unit_test(cells),
        cmocka_unit_test(the_highest_of_a_cell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
