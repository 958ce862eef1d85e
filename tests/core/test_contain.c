/* Steps of a work area, their state, and methods. Expected values from
 * 40 CFR 745.85(a) as in sections 3 and 11 of the project's digest of the rule,
 * written by hand. Areas and ticks are constructed. */
#include "core/given.h"

#include <mistfold/contain.h>

#define IN  MF_SIDE_INTERIOR
#define OUT MF_SIDE_EXTERIOR

/* ---- which steps ------------------------------------------------------------------- */

typedef struct applies_case {
    const char *name, *step;
    mf_side side;
    void (*set)(mf_area *area);
    bool applies;
} applies_case;

static void objects_unsaid(mf_area *area)
{
    area->objects = MF_UNKNOWN;
}
static void objects_there(mf_area *area)
{
    area->objects = MF_YES;
}
static void ducts_unsaid(mf_area *area)
{
    area->ducts = MF_UNKNOWN;
}
static void door_used(mf_area *area)
{
    area->doors_used = MF_YES;
}
static void carpet_there(mf_area *area)
{
    area->carpet = MF_YES;
}
static void line_10_00(mf_area *area)
{
    area->line_ft_100 = 1000;
}
static void line_10_01(mf_area *area)
{
    area->line_ft_100 = 1001;
}
static void line_0(mf_area *area)
{
    area->line_ft_100 = 0;
}
static void storeys_2(mf_area *area)
{
    area->storeys = 2;
}
static void storeys_unsaid(mf_area *area)
{
    area->storeys = MF_NUM_NONE;
}

static const applies_case applies_cases[] = {
    {"signs inside", "signs", IN, NULL, true},   /* 745.85(a)(1) */
    {"signs outside", "signs", OUT, NULL, true}, /* 745.85(a)(1) */
    {"no objects", "objects", IN, NULL, false},  /* 745.85(a)(2)(i)(A) */
    {"objects", "objects", IN, objects_there, true},
    {"objects not said", "objects", IN, objects_unsaid, true},
    {"objects outside", "objects", OUT, objects_there, false},
    {"no ducts", "ducts", IN, NULL, false}, /* (i)(B) */
    {"ducts not said", "ducts", IN, ducts_unsaid, true},
    {"door used", "doors-used", IN, door_used, true}, /* (i)(C) */
    {"no door used", "doors-used", IN, NULL, false},
    {"door used outside", "doors-used-outside", OUT, door_used, true}, /* (ii)(B) */
    {"no door used outside", "doors-used-outside", OUT, NULL, false},
    {"floor sheet inside", "floor-sheet", IN, NULL, true}, /* (i)(D) */
    {"floor sheet outside", "floor-sheet", OUT, NULL, false},
    {"ground sheet outside", "ground-sheet", OUT, NULL, true}, /* (ii)(C) */
    {"ground sheet inside", "ground-sheet", IN, NULL, false},
    {"one storey", "openings-below", OUT, NULL, false}, /* (ii)(A) */
    {"two storeys", "openings-below", OUT, storeys_2, true},
    {"storeys not said", "openings-below", OUT, storeys_unsaid, true},
    {"line at 10.00 ft", "line-containment", OUT, line_10_00, true}, /* (ii)(D), within: <= 10 */
    {"line at 10.01 ft", "line-containment", OUT, line_10_01, false},
    {"line at the wall", "line-containment", OUT, line_0, true},
    {"line not said", "line-containment", OUT, NULL, true}, /* it may be within */
    {"line inside", "line-containment", IN, line_0, false},
    {"carpet", "carpet", IN, carpet_there, true}, /* (a)(5)(ii)(B) */
    {"no carpet", "carpet", IN, NULL, false},
    {"walls outside", "walls", OUT, NULL, false}, /* (a)(5)(ii)(A) */
    {"clean outside", "clean-outside", OUT, NULL, true},
    {"clean outside, inside", "clean-outside", IN, NULL, false},
    {"no assisted housing", "signs-assisted", IN, NULL, false}, /* 24 CFR 35.1345(b)(2) */
    {"a barrier is never asked for", "vertical-barrier", IN, NULL, false},
};

static void test_applies(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(applies_cases); i++) {
        const applies_case *it = &applies_cases[i];
        mf_area area = area_of(it->side);
        if (it->set != NULL)
            it->set(&area);
        const mf_step *step = mf_step_named(it->step);
        CHECK_ROW(step != NULL, it->name);
        CHECK_ROW(mf_step_wanted(NULL, step, &area) == it->applies, it->name);
    }
}

/* ---- the state of a step -------------------------------------------------------------- */

#define RENOVATOR "rosa"
#define WORKER    "lee"

typedef struct state_case {
    const char *name, *step;
    mf_side side;
    int64_t line; /* hundredths of ft */
    mf_tick tick;
    bool barrier; /* a sealed barrier is ticked too */
    mf_step_state expected;
} state_case;

#define DONE(ft, who)                                                                              \
    {                                                                                              \
        .state = MF_TICK_DONE, .measured_ft_100 = ft, .renovator = who                             \
    }
#define SKIP(why)                                                                                  \
    {                                                                                              \
        .state = MF_TICK_NOT_NEEDED, .measured_ft_100 = MF_NUM_NONE, .reason = why                 \
    }
#define NONE MF_NUM_NONE

static const state_case state_cases[] = {
    /* 745.85(a)(2)(i)(D): 6 ft, or to a sealed barrier */
    {"floor 6.00", "floor-sheet", IN, NONE, DONE(600, RENOVATOR), false, MF_STEP_DONE},
    {"floor 6.01", "floor-sheet", IN, NONE, DONE(601, RENOVATOR), false, MF_STEP_DONE},
    {"floor 5.99", "floor-sheet", IN, NONE, DONE(599, RENOVATOR), false, MF_STEP_SHORT},
    {"floor 4.00 at a barrier", "floor-sheet", IN, NONE, DONE(400, RENOVATOR), true, MF_STEP_DONE},
    {"floor not measured", "floor-sheet", IN, NONE, DONE(NONE, RENOVATOR), false,
     MF_STEP_UNMEASURED},
    {"floor not measured at a barrier", "floor-sheet", IN, NONE, DONE(NONE, RENOVATOR), true,
     MF_STEP_UNMEASURED},
    /* 745.85(a)(2)(ii)(C): 10 ft, or to a barrier or the property line */
    {"ground 10.00", "ground-sheet", OUT, NONE, DONE(1000, RENOVATOR), false, MF_STEP_DONE},
    {"ground 9.99", "ground-sheet", OUT, NONE, DONE(999, RENOVATOR), false, MF_STEP_SHORT},
    {"ground 7.00 to the line at 7.00", "ground-sheet", OUT, 700, DONE(700, RENOVATOR), false,
     MF_STEP_DONE},
    {"ground 6.99, the line at 7.00", "ground-sheet", OUT, 700, DONE(699, RENOVATOR), false,
     MF_STEP_SHORT},
    {"ground 5.00 at a barrier", "ground-sheet", OUT, NONE, DONE(500, RENOVATOR), true,
     MF_STEP_DONE},
    /* 745.85(a)(5)(ii): 2 ft, beyond a barrier as well */
    {"margin 2.00", "margin", IN, NONE, DONE(200, RENOVATOR), false, MF_STEP_DONE},
    {"margin 1.99", "margin", IN, NONE, DONE(199, RENOVATOR), false, MF_STEP_SHORT},
    {"margin 1.00 at a barrier", "margin", IN, NONE, DONE(100, RENOVATOR), true, MF_STEP_SHORT},
    /* 745.90(b)(3) */
    {"signs with nobody named", "signs", IN, NONE, DONE(NONE, ""), false, MF_STEP_NO_RENOVATOR},
    {"signs with a worker named", "signs", IN, NONE, DONE(NONE, WORKER), false,
     MF_STEP_NO_RENOVATOR},
    {"waste needs no renovator there", "waste-daily", IN, NONE, DONE(NONE, ""), false,
     MF_STEP_DONE},
    /* not needed: the grounds are in test_ground.c */
    {"ducts not needed", "ducts", IN, NONE, SKIP("no vents in this room"), false,
     MF_STEP_OWN_WORDS},
    {"ducts not needed, no reason", "ducts", IN, NONE, SKIP(""), false, MF_STEP_NO_REASON},
    {"signs can always be posted", "signs", IN, NONE, SKIP("one day only"), false,
     MF_STEP_NO_GROUND},
    {"undone", "signs", IN, NONE, {.state = MF_TICK_UNDONE}, false, MF_STEP_OPEN},
};

static mf_tick complete(mf_tick tick, const char *step)
{
    tick.src = (mf_src){"t/1", "", "", ""};
    tick.area = "A1";
    tick.step = step;
    tick.person = WORKER;
    tick.renovator = tick.renovator == NULL ? "" : tick.renovator;
    tick.reason = tick.reason == NULL ? "" : tick.reason;
    tick.on = day("2026-09-14");
    tick.at_minute = 480;
    return tick;
}

static const mf_certificate *rosas_certificate(void)
{
    static mf_certificate own;
    own = (mf_certificate){.src = {"c/1", "", "", ""},
                           .holder = RENOVATOR,
                           .discipline = MF_DISC_RENOVATOR,
                           .number = "X-1",
                           .issuer = "",
                           .issued = day("2024-05-10"),
                           .expires = day("2029-05-10"),
                           .hands_on = MF_YES};
    return &own;
}

static void test_states(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(state_cases); i++) {
        const state_case *it = &state_cases[i];
        mf_area area = area_of(it->side);
        area.line_ft_100 = it->line;
        mf_tick barrier = DONE(NONE, RENOVATOR);
        mf_tick ticks[] = {complete(it->tick, it->step), complete(barrier, "vertical-barrier")};
        mf_job job = {.certificate = rosas_certificate(), .n_certificate = 1};
        job.tick = ticks;
        job.n_tick = it->barrier ? 2 : 1;
        const mf_tick *found;
        mf_step_state got = mf_step_judge(&job, &area, mf_step_named(it->step), &found);
        CHECK_ROW(got == it->expected, it->name);
        CHECK_ROW(found == &ticks[0], it->name);
    }
}

/* A barrier that nobody certified stood by does not excuse a short sheet. */
static void test_barrier_must_be_good(void **state)
{
    (void)state;
    mf_area area = area_of(IN);
    mf_tick ticks[] = {complete((mf_tick)DONE(400, RENOVATOR), "floor-sheet"),
                       complete((mf_tick)DONE(NONE, ""), "vertical-barrier")};
    mf_job job = {.certificate = rosas_certificate(), .n_certificate = 1};
    job.tick = ticks;
    job.n_tick = 2;
    assert_int_equal(mf_step_judge(&job, &area, mf_step_named("floor-sheet"), NULL), MF_STEP_SHORT);
}

/* The last tick by the clock counts, whatever order it was entered in. */
static void test_last_tick(void **state)
{
    (void)state;
    mf_area area = area_of(IN);
    mf_tick ticks[] = {complete((mf_tick)DONE(NONE, RENOVATOR), "signs"),
                       complete((mf_tick){.state = MF_TICK_UNDONE}, "signs")};
    mf_job job = {.certificate = rosas_certificate(), .n_certificate = 1};
    job.tick = ticks;
    job.n_tick = 2;
    const mf_step *signs = mf_step_named("signs");
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_OPEN); /* same minute */
    ticks[1].at_minute = MF_MINUTE_NONE; /* without a time: as entered */
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_OPEN);
    ticks[1].at_minute = 479;
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_DONE);
    ticks[1].on = day("2026-09-15");
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_OPEN);
    ticks[1].area = "A2";
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_DONE);
    job.n_tick = 0;
    assert_int_equal(mf_step_judge(&job, &area, signs, NULL), MF_STEP_OPEN);
}

/* 745.90(b)(3): certified on the day of the step. */
static void test_renovator_of_the_day(void **state)
{
    (void)state;
    mf_area area = area_of(IN);
    mf_tick tick = complete((mf_tick)DONE(NONE, RENOVATOR), "signs");
    mf_job job = {.certificate = rosas_certificate(), .n_certificate = 1, .n_tick = 1};
    job.tick = &tick;
    tick.on = day("2029-05-10"); /* last day */
    assert_int_equal(mf_step_judge(&job, &area, mf_step_named("signs"), NULL), MF_STEP_DONE);
    tick.on = day("2029-05-11");
    assert_int_equal(mf_step_judge(&job, &area, mf_step_named("signs"), NULL),
                     MF_STEP_NO_RENOVATOR);
    tick.on = day("2026-09-14");
    tick.renovator = "";
    tick.person = RENOVATOR; /* who does it is there */
    assert_int_equal(mf_step_judge(&job, &area, mf_step_named("signs"), NULL), MF_STEP_DONE);
}

/* ---- methods, 745.85(a)(3) ---------------------------------------------------------------- */

typedef struct method_case {
    const char *name;
    mf_practice practice;
    bool prohibited;
} method_case;

static const method_case method_cases[] = {
    {"dry scraping by hand", {.method = MF_METHOD_HAND}, false}, /* 73 FR 21692 */
    {"torch", {.method = MF_METHOD_OPEN_FLAME}, true},
    {"sander with shroud and HEPA",
     {.method = MF_METHOD_MACHINE, .shroud_and_hepa = MF_YES},
     false},
    {"sander without", {.method = MF_METHOD_MACHINE, .shroud_and_hepa = MF_NOT}, true},
    {"sander, not said", {.method = MF_METHOD_MACHINE, .shroud_and_hepa = MF_UNKNOWN}, true},
    {"heat gun 1,099", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1099}, false},
    {"heat gun 1,100", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1100}, true},
    {"heat gun 1,101", {.method = MF_METHOD_HEAT_GUN, .temp_f = 1101}, true},
    {"heat gun, not said", {.method = MF_METHOD_HEAT_GUN, .temp_f = MF_NUM_NONE}, true},
};

static void test_methods(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(method_cases); i++)
        CHECK_ROW(mf_practice_refused(NULL, &method_cases[i].practice) ==
                      method_cases[i].prohibited,
                  method_cases[i].name);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_applies),
        cmocka_unit_test(test_states),
        cmocka_unit_test(test_barrier_must_be_good),
        cmocka_unit_test(test_last_tick),
        cmocka_unit_test(test_renovator_of_the_day),
        cmocka_unit_test(test_methods),
    };
    return cmocka_run_group_tests_name("contain", tests, NULL, NULL);
}
