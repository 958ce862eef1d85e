/* What in the book contradicts a ground on which a step was left out: the work area, its
 * openings, surfaces and plan say what is there. 40 CFR 745.85(a)(2), (a)(5). */
#include <mistfold/contain.h>

#include "core/area_openings.h"
#include "core/ground_room.h"
#include "core/sides.h"
#include "core/text.h"
#include "core/worked.h"
#include <mistfold/emergency.h>

/* ---- what an area has ------------------------------------------------------------- */

static bool placed(const mf_job *job, const mf_area *area, mf_fixture_what what,
                   const char *opening, mf_against *out)
{
    const mf_fixture *drawn = mf_drawn_in(job, area, what, opening);
    if (drawn != NULL)
        out->entry = mf_or_empty(drawn->src.entry);
    return drawn != NULL;
}

/* It stands in the list of the area, or on its plan. */
static bool is_own(const mf_job *job, const mf_area *area, const mf_opening *opening,
                   mf_against *out)
{
    return mf_id_in_list(area->openings, opening->id) ||
           placed(job, area, MF_FIXTURE_OPENING, opening->id, out);
}

static void name(const mf_opening *opening, mf_against *out)
{
    out->what = mf_or_empty(opening->id);
    out->entry = mf_or_empty(opening->src.entry);
}

/* In a room of the area, by whichever list of the job. */
static bool room_has(const mf_job *job, const mf_area *area, mf_opening_kind kind, mf_against *out)
{
    const mf_opening *opening = mf_room_opening(job, area, kind);
    const mf_component *part = opening == NULL ? mf_room_part(job, area, kind) : NULL;
    if (opening != NULL)
        name(opening, out);
    if (part == NULL)
        return opening != NULL;
    out->why = kind == MF_OPENING_WINDOW ? "step-against-window-part" : "step-against-door-part";
    out->what = mf_or_empty(part->id);
    out->entry = mf_or_empty(part->src.entry);
    return true;
}

static bool has_kind(const mf_job *job, const mf_area *area, mf_opening_kind kind, mf_against *out)
{
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (it->kind != kind || !is_own(job, area, it, out))
            continue;
        name(it, out);
        return true;
    }
    return room_has(job, area, kind, out);
}

/* On a side of the house that the work is on: the area's place names it, or one of the area's
 * openings is there too. How far apart they are is nowhere said, so they count as near. */
static bool on_the_side(const mf_job *job, const mf_area *area, const mf_opening *opening,
                        mf_against *out)
{
    if (!mf_given(opening->elevation))
        return false;
    if (mf_may_be_one_side(opening->elevation, area->place))
        return true;
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_may_be_one_side(opening->elevation, job->opening[i].elevation) &&
            is_own(job, area, &job->opening[i], out))
            return true;
    return false;
}

static bool near_kind(const mf_job *job, const mf_area *area, mf_opening_kind kind, mf_against *out)
{
    if (has_kind(job, area, kind, out))
        return true;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (it->kind != kind || !on_the_side(job, area, it, out))
            continue;
        name(it, out);
        return true;
    }
    return false;
}

/* The highest story of the work: that of the area's openings, or the building's when no
 * story of them is said. */
static int64_t top_storey(const mf_job *job, const mf_area *area, mf_against *out)
{
    int64_t top = MF_NUM_NONE;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        bool higher = it->storey != MF_NUM_NONE && (top == MF_NUM_NONE || it->storey > top);
        if (higher && is_own(job, area, it, out))
            top = it->storey;
    }
    return top == MF_NUM_NONE ? area->storeys : top;
}

/* ---- what is seen of each ground ---------------------------------------------------- */

/* Whether it is there all the same; then *out names it. */
typedef bool sees_fn(const mf_job *job, const mf_area *area, mf_against *out);

static bool objects_stay(const mf_job *job, const mf_area *area, mf_against *out)
{
    (void)job;
    (void)out;
    return area->objects == MF_YES;
}

/* What the area itself does not say, its plan may: that is mended elsewhere. */
static bool on_plan(const mf_job *job, const mf_area *area, mf_fixture_what what, const char *why,
                    mf_against *out)
{
    if (!placed(job, area, what, NULL, out))
        return false;
    out->why = why;
    out->what = mf_or_empty(area->id);
    return true;
}

static bool duct_opens(const mf_job *job, const mf_area *area, mf_against *out)
{
    return area->ducts == MF_YES ||
           on_plan(job, area, MF_FIXTURE_DUCT, "step-against-duct-drawn", out);
}

/* One of the list, in the room. */
static bool duct_listed(const mf_job *job, const mf_area *area, mf_against *out)
{
    const mf_component *duct = mf_room_duct(job, area);
    if (duct == NULL)
        return false;
    out->what = mf_or_empty(duct->id);
    out->entry = mf_or_empty(duct->src.entry);
    return true;
}

/* By another work area of the same room. */
static bool room_duct_opens(const mf_job *job, const mf_area *area, mf_against *out)
{
    size_t at = 0;
    for (const mf_area *it; (it = mf_room_area(job, area, &at)) != NULL;) {
        out->what = mf_or_empty(it->id);
        out->entry = mf_or_empty(it->src.entry);
        if (duct_opens(job, it, out))
            return true;
    }
    return false;
}

static bool window_there(const mf_job *job, const mf_area *area, mf_against *out)
{
    return has_kind(job, area, MF_OPENING_WINDOW, out);
}

static bool door_there(const mf_job *job, const mf_area *area, mf_against *out)
{
    return has_kind(job, area, MF_OPENING_DOOR, out);
}

static bool door_used(const mf_job *job, const mf_area *area, mf_against *out)
{
    (void)job;
    (void)out;
    return area->doors_used == MF_YES;
}

static bool room_door_used(const mf_job *job, const mf_area *area, mf_against *out)
{
    size_t at = 0;
    for (const mf_area *it; (it = mf_room_area(job, area, &at)) != NULL;) {
        out->what = mf_or_empty(it->id);
        out->entry = mf_or_empty(it->src.entry);
        if (it->doors_used == MF_YES)
            return true;
    }
    return false;
}

/* A flap on the plan is the way in that is used: (a)(2)(i)(C), (ii)(B). */
static bool way_used(const mf_job *job, const mf_area *area, mf_against *out)
{
    return area->doors_used == MF_YES ||
           on_plan(job, area, MF_FIXTURE_FLAP, "step-against-flap-drawn", out);
}

static bool window_near(const mf_job *job, const mf_area *area, mf_against *out)
{
    return near_kind(job, area, MF_OPENING_WINDOW, out);
}

static bool door_near(const mf_job *job, const mf_area *area, mf_against *out)
{
    return near_kind(job, area, MF_OPENING_DOOR, out);
}

static bool storeys_said(const mf_job *job, const mf_area *area, mf_against *out)
{
    int64_t top = top_storey(job, area, out);
    out->n = top != MF_NUM_NONE && top > area->storeys ? top : area->storeys;
    return out->n != MF_NUM_NONE && out->n > 1;
}

/* One that does not say its story is taken to be on the ground floor, unless it is one of
 * those that are worked on. */
static bool opening_below(const mf_job *job, const mf_area *area, mf_against *out)
{
    int64_t top = top_storey(job, area, out);
    for (size_t i = 0; top != MF_NUM_NONE && i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        bool unsaid = it->storey == MF_NUM_NONE;
        if ((unsaid ? 1 : it->storey) >= top || (unsaid && is_own(job, area, it, out)) ||
            !(is_own(job, area, it, out) || on_the_side(job, area, it, out)))
            continue;
        name(it, out);
        return true;
    }
    return false;
}

static bool carpet_there(const mf_job *job, const mf_area *area, mf_against *out)
{
    (void)job;
    (void)out;
    return area->carpet == MF_YES;
}

static bool carpet_nowhere(const mf_job *job, const mf_area *area, mf_against *out)
{
    (void)job;
    (void)out;
    return area->carpet == MF_NOT;
}

/* The floors that are listed are the uncarpeted ones (job.h). */
static bool bare_floor(const mf_job *job, const mf_area *area, mf_against *out)
{
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *it = &job->surface[i];
        if (it->kind != MF_SURFACE_FLOOR || !mf_same(it->area, area->id))
            continue;
        out->what = mf_or_empty(it->id);
        out->entry = mf_or_empty(it->src.entry);
        return true;
    }
    return false;
}

/* By whoever it was ticked, or drawn on the plan: that it is there is what counts here. */
static bool barrier_up(const mf_job *job, const mf_area *area, mf_against *out)
{
    const mf_tick *tick = NULL;
    mf_step_judge(job, area, mf_step_named("vertical-barrier"), &tick);
    if (tick == NULL || tick->state != MF_TICK_DONE)
        return placed(job, area, MF_FIXTURE_BARRIER, NULL, out);
    out->entry = mf_or_empty(tick->src.entry);
    return true;
}

/* Plastic of any kind that was ticked as put up there, or as folded. */
static bool sheet_laid(const mf_job *job, const mf_area *area, mf_against *out)
{
    static const char plastic[] = "ducts,doors-closed,doors-used,doors-used-outside,floor-sheet,"
                                  "ground-sheet,vertical-barrier,line-containment,sheeting,divider";
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state != MF_TICK_DONE || !mf_id_in_list(plastic, it->step) ||
            !mf_same(it->area, area->id))
            continue;
        out->what = mf_or_empty(it->step);
        out->entry = mf_or_empty(it->src.entry);
        return true;
    }
    return false;
}

/* No emergency freed the work there, or all that is planned, of containment. */
static bool sheet_owed(const mf_job *job, const mf_area *area, mf_against *out)
{
    mf_day day = mf_worked_last(job, area->id);
    (void)out;
    if (day == MF_DAY_NONE && job->n_house > 0)
        day = job->house[0].start;
    return mf_emergency_waives(job, MF_WAIVE_CONTAINMENT, day) == NULL;
}

/* ---- the table ------------------------------------------------------------------------ */

static const struct {
    const char *step;
    mf_ground ground;
    const char *why;
    sees_fn *sees;
} rows[] = {
    {"objects", MF_GROUND_NONE_PRESENT, "step-against-objects", objects_stay},
    {"ducts", MF_GROUND_NONE_PRESENT, "step-against-ducts", duct_opens},
    {"ducts", MF_GROUND_NONE_PRESENT, "step-against-ducts-room", room_duct_opens},
    {"ducts", MF_GROUND_NONE_PRESENT, "step-against-duct-listed", duct_listed},
    {"windows-closed", MF_GROUND_NONE_PRESENT, "step-against-window", window_there},
    {"doors-closed", MF_GROUND_NONE_PRESENT, "step-against-door", door_there},
    {"doors-closed", MF_GROUND_NONE_PRESENT, "step-against-door-used", door_used},
    {"doors-closed", MF_GROUND_NONE_PRESENT, "step-against-door-used-room", room_door_used},
    {"doors-used", MF_GROUND_NOT_USED, "step-against-door-used", way_used},
    {"windows-outside", MF_GROUND_NONE_PRESENT, "step-against-window-near", window_near},
    {"doors-outside", MF_GROUND_NONE_PRESENT, "step-against-door-near", door_near},
    {"doors-outside", MF_GROUND_NONE_PRESENT, "step-against-door-used", door_used},
    {"openings-below", MF_GROUND_ONE_STORY, "step-against-storeys", storeys_said},
    {"openings-below", MF_GROUND_ONE_STORY, "step-against-below", opening_below},
    {"openings-below", MF_GROUND_NONE_PRESENT, "step-against-below", opening_below},
    {"doors-used-outside", MF_GROUND_NOT_USED, "step-against-door-used", way_used},
    {"sheeting", MF_GROUND_NONE_PRESENT, "step-against-sheet", sheet_laid},
    {"sheeting", MF_GROUND_NONE_PRESENT, "step-against-sheet-owed", sheet_owed},
    {"carpet", MF_GROUND_NONE_PRESENT, "step-against-carpet", carpet_there},
    {"mop", MF_GROUND_ALL_CARPET, "step-against-floor", bare_floor},
    {"mop", MF_GROUND_ALL_CARPET, "step-against-no-carpet", carpet_nowhere},
    {"divider", MF_GROUND_NONE_PRESENT, "step-against-barrier", barrier_up},
};

static bool ground_contradicted(const mf_job *job, const mf_area *area, const mf_step *step,
                                mf_ground ground, mf_against *out)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        *out = (mf_against){rows[i].why, "", mf_or_empty(area->src.entry), MF_NUM_NONE};
        if (rows[i].ground == ground && mf_same(rows[i].step, step->id) &&
            rows[i].sees(job, area, out))
            return true;
    }
    return false;
}

/* Whatever the words say: where no ground of the step is left, they cannot be right. */
static bool words_contradicted(const mf_job *job, const mf_area *area, const mf_step *step,
                               mf_against *out)
{
    mf_against other;
    size_t n = 0;
    for (; n < MF_STEP_GROUNDS && step->ground[n].citation != NULL; n++)
        if (!ground_contradicted(job, area, step, step->ground[n].ground, n == 0 ? out : &other))
            return false;
    return n > 0;
}

bool mf_step_contradicted(const mf_job *job, const mf_area *area, const mf_step *step,
                          mf_ground ground, mf_against *out)
{
    mf_against unwanted = {0}, *to = out == NULL ? &unwanted : out;
    return ground == MF_GROUND_OWN_WORDS ? words_contradicted(job, area, step, to)
                                         : ground_contradicted(job, area, step, ground, to);
}
