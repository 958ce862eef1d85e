/* Every ground on which a step may be left out, and what in the book contradicts it. Paragraphs:
 * contain_rows.c (test_steps.c); areas, openings and surfaces are constructed. */
#include "core/given.h"

#include <mistfold/contain.h>
#include <string.h>

#define IN  MF_SIDE_INTERIOR
#define OUT MF_SIDE_EXTERIOR

/* ---- a small job ---------------------------------------------------------------------- */

static mf_area area, area_beside, areas[2];
static mf_component component;
static mf_opening openings[3];
static mf_surface surfaces[2];
static mf_fixture fixtures[2];
static mf_tick ticks[2];
static mf_house stormy;
static mf_emergency storms;
static mf_job job;

static mf_opening opening_of(const char *id, mf_opening_kind kind, const char *elevation,
                             int64_t storey)
{
    return (mf_opening){.src = {"o/1", "", "", ""},
                        .id = id,
                        .kind = kind,
                        .room = kind == MF_OPENING_WINDOW ? "bedroom" : "hall",
                        .elevation = elevation,
                        .storey = storey};
}

/* One area of which nothing is said, with a window of another room on another side. */
static void small_job(mf_side side)
{
    area = (mf_area){.src = {"a/1", "", "", ""},
                     .id = "A1",
                     .side = side,
                     .place = side == IN ? "kitchen" : "north",
                     .openings = "",
                     .storeys = MF_NUM_NONE,
                     .line_ft_100 = MF_NUM_NONE};
    openings[0] = opening_of("W09", MF_OPENING_WINDOW, "south", 1);
    openings[1] = opening_of("D09", MF_OPENING_DOOR, "south", 1);
    area_beside = area;
    area_beside.id = "A2";
    job = (mf_job){.area = &area, .n_area = 1, .opening = openings, .n_opening = 2};
    job.surface = surfaces, job.fixture = fixtures, job.tick = ticks;
}

/* ---- facts of the book ------------------------------------------------------------------ */

static void nothing(void)
{
}
static void objects(void)
{
    area.objects = MF_YES;
}
static void no_objects(void)
{
    area.objects = MF_NOT;
}
static void ducts(void)
{
    area.ducts = MF_YES;
}
static void place(mf_fixture_what what, const char *where, const char *opening)
{
    fixtures[job.n_fixture++] =
        (mf_fixture){.src = {"fi/1", "", "", ""}, .area = where, .what = what, .opening = opening};
}
static void duct_on_plan(void)
{
    place(MF_FIXTURE_DUCT, "A1", "");
}
static void duct_elsewhere(void)
{
    place(MF_FIXTURE_DUCT, "A2", "");
    place(MF_FIXTURE_SIGN, "A1", "");
}
static void door_used(void)
{
    area.doors_used = MF_YES;
}
static void no_door_used(void)
{
    area.doors_used = MF_NOT;
}
static void window_of_it(void)
{
    area.openings = "D09,W09";
}
static void door_of_it(void)
{
    area.openings = "D09";
}
static void only_a_window(void)
{
    area.openings = "W09";
}
static void window_on_plan(void)
{
    place(MF_FIXTURE_OPENING, "A1", "W09");
}
static void door_on_plan(void)
{
    place(MF_FIXTURE_OPENING, "A1", "D09");
}
static void window_on_another_plan(void)
{
    place(MF_FIXTURE_OPENING, "A2", "W09");
    place(MF_FIXTURE_BARRIER, "A2", "W09");
}
#include "core/ground_room.inc"

static void other(mf_opening_kind kind, const char *elevation, int64_t storey)
{
    const char *id = kind == MF_OPENING_DOOR ? "D10" : "W10";
    openings[job.n_opening++] = opening_of(id, kind, elevation, storey);
}
static void window_north(void)
{
    other(MF_OPENING_WINDOW, "north", 1);
}
static void door_north(void)
{
    other(MF_OPENING_DOOR, "north", 1);
}
static void no_side_said(void)
{
    area.place = "";
    other(MF_OPENING_WINDOW, "", 1);
}
/* The work is at W09 of the south side, where W10 or D10 is, too. */
static void window_beside(void)
{
    area.openings = "D09";
    openings[0].elevation = "west";
    other(MF_OPENING_WINDOW, "south", 1);
}
static void door_beside(void)
{
    area.openings = "W09";
    openings[1].elevation = "west";
    other(MF_OPENING_DOOR, "south", 1);
}
static void storeys_1(void)
{
    area.storeys = 1;
}
static void storeys_2(void)
{
    area.storeys = 2;
}
static void at_storey(int64_t own, int64_t of_other)
{
    area.openings = "W09";
    openings[0].storey = own;
    openings[1].elevation = "west";
    other(MF_OPENING_DOOR, "south", of_other);
}
static void below(void)
{
    at_storey(2, 1);
}
static void same_floor(void)
{
    at_storey(2, 2);
}
static void above(void)
{
    at_storey(1, 2);
}
static void basement(void)
{
    at_storey(1, 0);
}
static void below_unsaid(void)
{
    at_storey(2, MF_NUM_NONE);
}
static void ground_floor_unsaid(void)
{
    at_storey(1, MF_NUM_NONE);
}
static void below_of_another_side(void)
{
    at_storey(2, 2);
    openings[1].storey = 1;
}
static void own_lower(void) /* both are worked on, one below the other */
{
    at_storey(2, 1);
    area.openings = "W09,D10";
}
static void own_unsaid(void)
{
    at_storey(2, MF_NUM_NONE);
    area.openings = "W09,D10";
}
static void wall_of_two_storeys(void) /* no opening of it says how high the work goes */
{
    area.storeys = 2;
    other(MF_OPENING_WINDOW, "north", 1);
}
static void carpet(void)
{
    area.carpet = MF_YES;
}
static void no_carpet(void)
{
    area.carpet = MF_NOT;
}
static void surface(const char *id, const char *where, mf_surface_kind kind)
{
    surfaces[job.n_surface++] =
        (mf_surface){.src = {"s/1", "", "", ""}, .id = id, .area = where, .kind = kind};
}
static void floor_listed(void)
{
    surface("floor", "A1", MF_SURFACE_FLOOR);
}
static void other_surfaces(void)
{
    surface("sill", "A1", MF_SURFACE_SILL);
    surface("floor", "A2", MF_SURFACE_FLOOR);
}
static void barrier(mf_tick_state state, const char *where)
{
    ticks[job.n_tick++] = (mf_tick){.src = {"t/1", "", "", ""},
                                    .area = where,
                                    .step = "vertical-barrier",
                                    .state = state,
                                    .person = "",
                                    .renovator = "",
                                    .measured_ft_100 = MF_NUM_NONE,
                                    .reason = "",
                                    .on = day("2026-09-14"),
                                    .at_minute = MF_MINUTE_NONE};
}
static void barrier_done(void)
{
    barrier(MF_TICK_DONE, "A1");
}
static void barrier_undone(void)
{
    barrier(MF_TICK_DONE, "A1");
    barrier(MF_TICK_UNDONE, "A1");
}
static void barrier_skipped(void)
{
    barrier(MF_TICK_NOT_NEEDED, "A1");
    barrier(MF_TICK_DONE, "A2");
}
static void storm_of(const char *waived)
{
    stormy = (mf_house){.start = day("2026-09-14"), .emergency = MF_YES};
    storms = (mf_emergency){.src = {"e/1", "", "", ""},
                            .nature = "storm",
                            .reason = "open to the rain",
                            .waived = waived,
                            .cause = MF_CAUSE_SUDDEN_EVENT,
                            .on = day("2026-09-14"),
                            .until = MF_DAY_NONE};
    job.house = &stormy, job.n_house = 1;
    job.emergency = &storms, job.n_emergency = 1;
}
static void storm(void)
{
    storm_of("signs,containment");
}
static void storm_of_signs(void)
{
    storm_of("signs");
}
static void storm_and_barrier(void)
{
    storm();
    barrier(MF_TICK_DONE, "A1");
}
static void storm_barrier_elsewhere(void)
{
    storm();
    barrier(MF_TICK_DONE, "A2");
}
static void barrier_on_plan(void)
{
    place(MF_FIXTURE_BARRIER, "A1", "");
}
static void everything(void)
{
    objects();
    ducts();
    door_used();
    carpet();
    window_of_it();
    floor_listed();
    storeys_2();
}

/* ---- each ground and what contradicts it --------------------------------------------------- */

typedef struct against_case {
    const char *name, *step;
    mf_side side;
    mf_ground ground;
    void (*set)(void);
    const char *why, *what; /* why NULL = the ground holds */
} against_case;

static const against_case against_cases[] = {
#include "core/ground_cases.inc"
};

/* By its own ground and by somebody's words, which are no better than it. */
static mf_step_state state_of(const against_case *it, mf_ground ground, const char *reason)
{
    const mf_step *step = mf_step_named(it->step);
    small_job(it->side);
    it->set();
    mf_tick tick = {.area = "A1",
                    .step = it->step,
                    .state = MF_TICK_NOT_NEEDED,
                    .person = "teo",
                    .renovator = "",
                    .measured_ft_100 = MF_NUM_NONE,
                    .reason = reason,
                    .ground = ground,
                    .on = day("2026-09-14"),
                    .at_minute = MF_MINUTE_NONE};
    CHECK_ROW(step != NULL, it->name);
    return mf_step_judge_skipped(&job, &area, step, &tick);
}

static void test_each_ground(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(against_cases); i++) {
        const against_case *it = &against_cases[i];
        mf_against against = {"", "", "", 0};
        mf_step_state expected = it->why == NULL ? MF_STEP_NOT_NEEDED : MF_STEP_CONTRADICTED;
        CHECK_ROW(state_of(it, it->ground, "the circumstances") == expected, it->name);
        bool found =
            mf_step_contradicted(&job, &area, mf_step_named(it->step), it->ground, &against);
        CHECK_ROW(found == (it->why != NULL), it->name);
        if (!found)
            continue;
        CHECK_ROW(strcmp(against.why, it->why) == 0, it->name);
        CHECK_ROW(strcmp(against.what, it->what) == 0, it->name);
        CHECK_ROW(against.entry[0] != '\0', it->name);
    }
}

/* "Too hot inside" where the book shows a window: no words make it go away. Of openings-below
 * either ground may be the true one, so only what speaks against both speaks against words. */
static void test_own_words(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(against_cases); i++) {
        const against_case *it = &against_cases[i];
        bool lawful = it->ground == MF_GROUND_OWN_WORDS;
        bool known = it->why != NULL, is_below = it->set == below || it->set == basement;
        bool either = strcmp(it->step, "openings-below") == 0 && !is_below;
        bool against = known && (!either || strcmp(it->why, "step-against-below") == 0);
        bool sheet = !mf_step_takes_words(mf_step_named(it->step));
        mf_step_state expected = sheet     ? MF_STEP_NO_GROUND
                                 : against ? MF_STEP_CONTRADICTED
                                 : lawful  ? MF_STEP_NOT_NEEDED
                                           : MF_STEP_OWN_WORDS;
        CHECK_ROW(state_of(it, MF_GROUND_OWN_WORDS, "too hot inside") == expected, it->name);
        if (expected != MF_STEP_NO_GROUND)
            expected = against ? MF_STEP_CONTRADICTED : MF_STEP_NO_REASON;
        CHECK_ROW(state_of(it, MF_GROUND_OWN_WORDS, "") == expected, it->name);
    }
}

/* ---- every step with every ground ------------------------------------------------------------ */

static void test_no_other_ground(void **state)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    (void)state;
    for (size_t i = 0; i < count; i++)
        for (int ground = 0; ground <= MF_GROUND_IMPOSSIBLE; ground++) {
            const against_case it = {.name = steps[i].id,
                                     .step = steps[i].id,
                                     .side = (steps[i].sides & MF_ON_INTERIOR) != 0 ? IN : OUT,
                                     .set = storm}; /* which frees of plastic as well */
            bool listed = mf_step_ground_of(&steps[i], (mf_ground)ground) != NULL;
            bool words = ground == MF_GROUND_OWN_WORDS && mf_step_takes_words(&steps[i]);
            mf_step_state expected = listed  ? MF_STEP_NOT_NEEDED
                                     : words ? MF_STEP_OWN_WORDS
                                             : MF_STEP_NO_GROUND;
            CHECK_ROW(state_of(&it, (mf_ground)ground, "because") == expected, it.name);
            bool wants = ground == MF_GROUND_OWN_WORDS || ground == MF_GROUND_IMPOSSIBLE;
            if (wants && expected != MF_STEP_NO_GROUND)
                expected = MF_STEP_NO_REASON; /* R-IMPOSS: write down the circumstances */
            CHECK_ROW(state_of(&it, (mf_ground)ground, "") == expected, it.name);
        }
}

/* ---- what counts as settled, and names ------------------------------------------------------- */

static void test_names(void **state)
{
    static const struct {
        mf_step_state state;
        const char *name;
        bool settled;
    } of[] = {{MF_STEP_OPEN, "open", false},
              {MF_STEP_DONE, "done", true},
              {MF_STEP_NOT_NEEDED, "not-needed", true},
              {MF_STEP_SHORT, "short", false},
              {MF_STEP_UNMEASURED, "unmeasured", false},
              {MF_STEP_NO_RENOVATOR, "no-renovator", false},
              {MF_STEP_NO_REASON, "no-reason", false},
              {MF_STEP_OWN_WORDS, "own-words", true},
              {MF_STEP_NO_GROUND, "no-ground", false},
              {MF_STEP_CONTRADICTED, "contradicted", false}};
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        CHECK_ROW(strcmp(mf_step_state_name(of[i].state), of[i].name) == 0, of[i].name);
        CHECK_ROW(mf_step_settled(of[i].state) == of[i].settled, of[i].name);
    }
    assert_string_equal(mf_step_state_name((mf_step_state)COUNT(of)), "");
    assert_string_equal(mf_ground_name(MF_GROUND_NONE_PRESENT), "none-present");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_ground), cmocka_unit_test(test_own_words),
        cmocka_unit_test(test_no_other_ground), cmocka_unit_test(test_names)};
    return cmocka_run_group_tests_name("ground", tests, NULL, NULL);
}
