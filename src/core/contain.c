/* Which steps a work area needs and where each of them stands. */
#include <mistfold/contain.h>

#include <mistfold/assisted.h>
#include <mistfold/person.h>
#include <mistfold/place.h>

#include "core/area_openings.h"
#include "core/ground_room.h"
#include "core/kind_rows.h"
#include "core/short.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

const mf_step *mf_step_named(const char *id)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (size_t i = 0; i < count; i++) {
        if (mf_same(steps[i].id, id))
            return &steps[i];
    }
    return NULL;
}

/* ---- the firm's own ------------------------------------------------------------ */

const mf_own_step *mf_own_step_named(const mf_job *job, const char *id)
{
    for (size_t i = 0; job != NULL && i < job->n_own_step; i++)
        if (mf_same(job->own_step[i].id, id))
            return &job->own_step[i];
    return NULL;
}

static bool own_in_force(const mf_job *job, const mf_own_step *own)
{
    mf_day start = job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    return start == MF_DAY_NONE ||
           (own->from <= start && (own->until == MF_DAY_NONE || start <= own->until));
}

/* A certified renovator need not be there, nothing of it is measured, and the firm that asks
 * for it takes its people's word for why it is left out. */
static mf_step step_of_own(const mf_own_step *own)
{
    static const unsigned sides[] = {MF_ON_INTERIOR, MF_ON_EXTERIOR,
                                     MF_ON_INTERIOR | MF_ON_EXTERIOR};
    return (mf_step){.id = own->id,
                     .phase = own->phase,
                     .sides = sides[own->side],
                     .when = MF_WHEN_ALWAYS,
                     .extent = -1,
                     .number = -1,
                     .citation = "firm's own step",
                     .record = "",
                     .status = MF_VERIFIED,
                     .renovator_present = false,
                     .ground = {{MF_GROUND_OWN_WORDS, "firm's own step", MF_VERIFIED}}};
}

bool mf_step_at(const mf_job *job, size_t number, mf_step *out)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (int phase = MF_PHASE_CONTAIN; phase <= MF_PHASE_CLEAN; phase++) {
        for (size_t i = 0; i < count; i++)
            if ((int)steps[i].phase == phase && number-- == 0) {
                *out = steps[i];
                return true;
            }
        for (size_t i = 0; job != NULL && i < job->n_own_step; i++)
            if ((int)job->own_step[i].phase == phase && own_in_force(job, &job->own_step[i]) &&
                number-- == 0) {
                *out = step_of_own(&job->own_step[i]);
                return true;
            }
    }
    return false;
}

/* ---- which steps ------------------------------------------------------------- */

static bool not_denied(mf_tri fact)
{
    return fact != MF_NOT;
}

/* The plan shows it, whatever the area says. */
static bool drawn(const mf_job *job, const mf_area *area, mf_fixture_what what)
{
    return job != NULL && mf_drawn_in(job, area, what, NULL) != NULL;
}

static bool duct_there(const mf_job *job, const mf_area *area)
{
    return drawn(job, area, MF_FIXTURE_DUCT) || (job != NULL && mf_room_duct(job, area) != NULL);
}

/* A distance that nobody gave may be any: the line counts as near. */
static bool near_line(const mf_job *job, const mf_area *area)
{
    mf_day day = job == NULL || job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    return area->line_ft_100 == MF_NUM_NONE ||
           mf_limit_holds(mf_limit_for(job, MF_LIMIT_PROPERTY_LINE, day), area->line_ft_100);
}

/* Where one of its openings lies on an upper story there is a floor below. */
static bool above_ground(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; job != NULL && i < job->n_opening; i++)
        if (job->opening[i].storey > 1 && mf_area_has_opening(job, area, &job->opening[i]))
            return true;
    return false;
}

bool mf_step_wanted(const mf_job *job, const mf_step *step, const mf_area *area)
{
    unsigned side = area->side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
    if ((step->sides & side) == 0)
        return false;
    switch (step->when) {
    case MF_WHEN_ALWAYS:
        return true;
    case MF_WHEN_OBJECTS:
        return not_denied(area->objects);
    case MF_WHEN_DUCTS:
        return not_denied(area->ducts) || duct_there(job, area);
    case MF_WHEN_DOORS_USED:
        return not_denied(area->doors_used) || drawn(job, area, MF_FIXTURE_FLAP);
    case MF_WHEN_CARPET:
        return not_denied(area->carpet);
    case MF_WHEN_NEAR_LINE:
        return near_line(job, area);
    case MF_WHEN_STOREYS:
        return area->storeys == MF_NUM_NONE || area->storeys > 1 || above_ground(job, area);
    case MF_WHEN_ASSISTED:
        return job != NULL && mf_assisted_holds(job);
    case MF_WHEN_CHOSEN:
        return false;
    }
    return true;
}

/* ---- where a step stands ------------------------------------------------------- */

/* Ticks of the same minute, or without a time, keep the order of entry. */
static bool not_before(const mf_tick *tick, const mf_tick *other)
{
    if (tick->on != other->on || tick->at_minute == MF_MINUTE_NONE ||
        other->at_minute == MF_MINUTE_NONE)
        return tick->on >= other->on;
    return tick->at_minute >= other->at_minute;
}

static const mf_tick *last_tick(const mf_job *job, const mf_area *area, const mf_step *step,
                                mf_day by)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (mf_same(tick->step, step->id) && mf_same(tick->area, area->id) &&
            (by == MF_DAY_NONE || tick->on <= by) && (last == NULL || not_before(tick, last)))
            last = tick;
    }
    return last;
}

/* A renovator who ticks the step with his or her own hands is there as well. */
static bool renovator_there(const mf_job *job, const mf_tick *tick)
{
    return mf_certified(job, tick->renovator, MF_DISC_RENOVATOR, tick->on, NULL) != NULL ||
           mf_certified(job, tick->person, MF_DISC_RENOVATOR, tick->on, NULL) != NULL;
}

const mf_limit *mf_step_stricter(const mf_job *job, const mf_step *step, mf_day day)
{
    if (step->number < 0)
        return NULL;
    const mf_limit *ours = mf_limit_for(job, (mf_limit_id)step->number, day);
    const mf_limit *rule = mf_limit_for(NULL, (mf_limit_id)step->number, day);
    return ours == NULL || rule == NULL || ours->value == rule->value ? NULL : ours;
}

/* By the end of a day, or MF_DAY_NONE. */
static bool step_done(const mf_job *job, const mf_area *area, const char *id, mf_day by)
{
    const mf_step *step = mf_step_named(id);
    return step != NULL && mf_step_judge_by(job, area, step, by, NULL) == MF_STEP_DONE;
}

static bool is_sheet(const mf_step *step)
{
    return step->extent == MF_LIMIT_FLOOR_SHEET || step->extent == MF_LIMIT_GROUND_SHEET;
}

static bool ends_at_line(const mf_area *area, int64_t measured)
{
    return area->side != MF_SIDE_INTERIOR && area->line_ft_100 != MF_NUM_NONE &&
           measured >= area->line_ft_100;
}

/* Sheeting may end at a sealed barrier, and outside at the property line. The
 * margin of cleaning may not: it reaches beyond a barrier. */
static bool may_end_early(const mf_job *job, const mf_area *area, const mf_step *step,
                          int64_t measured, mf_day by)
{
    return is_sheet(step) &&
           (step_done(job, area, "vertical-barrier", by) || ends_at_line(area, measured));
}

bool mf_sheet_short(const mf_job *job, const mf_area *area, const mf_step *step,
                    const mf_tick *tick, mf_day day)
{
    int64_t measured = tick->measured_ft_100;
    return is_sheet(step) && tick->state == MF_TICK_DONE && measured != MF_NUM_NONE &&
           !mf_limit_holds(mf_limit_for(job, (mf_limit_id)step->extent, day), measured) &&
           !ends_at_line(area, measured);
}

mf_step_state mf_sheet_to_barrier(const mf_job *job, const mf_tick *sheet, const mf_tick *barrier)
{
    if (!renovator_there(job, barrier))
        return MF_STEP_SHORT;
    return renovator_there(job, sheet) ? MF_STEP_DONE : MF_STEP_NO_RENOVATOR;
}

static mf_step_state judge_done(const mf_job *job, const mf_area *area, const mf_step *step,
                                const mf_tick *tick, mf_day by)
{
    if (step->extent >= 0) {
        int64_t measured = tick->measured_ft_100;
        if (measured == MF_NUM_NONE)
            return MF_STEP_UNMEASURED;
        mf_day day = by == MF_DAY_NONE ? tick->on : by; /* a limit may change while it lies there */
        if (!mf_limit_holds(mf_limit_for(job, (mf_limit_id)step->extent, day), measured) &&
            !may_end_early(job, area, step, measured, by))
            return MF_STEP_SHORT;
    }
    if (step->renovator_present && !renovator_there(job, tick))
        return MF_STEP_NO_RENOVATOR;
    return MF_STEP_DONE;
}

mf_step_state mf_step_judge(const mf_job *job, const mf_area *area, const mf_step *step,
                            const mf_tick **tick)
{
    return mf_step_judge_by(job, area, step, MF_DAY_NONE, tick);
}

mf_step_state mf_step_judge_today(const mf_job *job, const mf_area *area, const mf_step *step,
                                  mf_day today, bool working, const mf_tick **tick)
{
    const mf_tick *last = NULL;
    mf_step_state state = mf_step_judge(job, area, step, &last);
    if (tick != NULL)
        *tick = last;
    const mf_tick *up =
        mf_same(step->id, "waste-daily") ? mf_done_last(job, area->id, MF_TAKES_UP) : NULL;
    bool over = last != NULL && last->on < today && working && mf_step_every_day(step);
    bool early = last != NULL && mf_waste_too_early(job, last) != NULL;
    bool again = over || early || (last != NULL && up != NULL && last->on < up->on);
    return again ? MF_STEP_OPEN : state;
}

mf_step_state mf_step_judge_by(const mf_job *job, const mf_area *area, const mf_step *step,
                               mf_day day, const mf_tick **tick)
{
    const mf_tick *last = last_tick(job, area, step, day);
    if (tick != NULL)
        *tick = last;
    if (last == NULL || last->state == MF_TICK_UNDONE)
        return MF_STEP_OPEN;
    return last->state == MF_TICK_NOT_NEEDED ? mf_step_judge_skipped(job, area, step, last)
                                             : judge_done(job, area, step, last, day);
}

const char *mf_step_state_name(mf_step_state state)
{
    static const char *const names[] = {"open",       "done",         "not-needed", "short",
                                        "unmeasured", "no-renovator", "no-reason",  "own-words",
                                        "no-ground",  "contradicted"};
    return (size_t)state < sizeof names / sizeof names[0] ? names[state] : "";
}

bool mf_step_settled(mf_step_state state)
{
    return state == MF_STEP_DONE || state == MF_STEP_NOT_NEEDED || state == MF_STEP_OWN_WORDS;
}

/* ---- leaving a step out ----------------------------------------------------------- */

const char *mf_ground_name(mf_ground ground)
{
    return mf_choices_ground[ground];
}

bool mf_ground_wants_words(mf_ground ground)
{
    return ground == MF_GROUND_OWN_WORDS || ground == MF_GROUND_IMPOSSIBLE;
}

bool mf_step_every_day(const mf_step *step)
{
    return mf_id_in_list("barriers-whole,waste-daily", step->id);
}

bool mf_step_may_skip(const mf_step *step)
{
    return step->ground[0].citation != NULL;
}

const mf_step_ground *mf_step_ground_of(const mf_step *step, mf_ground ground)
{
    for (size_t i = 0; i < MF_STEP_GROUNDS && step->ground[i].citation != NULL; i++)
        if (step->ground[i].ground == ground)
            return &step->ground[i];
    return NULL;
}

bool mf_step_takes_words(const mf_step *step)
{
    return mf_step_may_skip(step) && mf_step_ground_of(step, MF_GROUND_IMPOSSIBLE) == NULL;
}

size_t mf_step_grounds(const mf_step *step, mf_ground out[MF_STEP_GROUNDS + 1])
{
    size_t n = 0;
    for (; n < MF_STEP_GROUNDS && step->ground[n].citation != NULL; n++)
        out[n] = step->ground[n].ground;
    if (mf_step_takes_words(step) && mf_step_ground_of(step, MF_GROUND_OWN_WORDS) == NULL)
        out[n++] = MF_GROUND_OWN_WORDS;
    return n;
}

mf_step_state mf_step_judge_skipped(const mf_job *job, const mf_area *area, const mf_step *step,
                                    const mf_tick *tick)
{
    bool listed = mf_step_ground_of(step, tick->ground) != NULL;
    bool own = tick->ground == MF_GROUND_OWN_WORDS && mf_step_takes_words(step);
    if (!listed && !own)
        return MF_STEP_NO_GROUND;
    if (mf_step_contradicted(job, area, step, tick->ground, NULL))
        return MF_STEP_CONTRADICTED;
    if (mf_ground_wants_words(tick->ground) && !mf_given(tick->reason))
        return MF_STEP_NO_REASON;
    return listed ? MF_STEP_NOT_NEEDED : MF_STEP_OWN_WORDS;
}

/* ---- methods --------------------------------------------------------------------- */

bool mf_practice_refused(const mf_job *job, const mf_practice *practice)
{
    switch (practice->method) {
    case MF_METHOD_HAND:
    case MF_METHOD_DRY_SCRAPE: /* not prohibited here: 73 FR 21692; assisted housing has its own */
    case MF_METHOD_DRY_SAND:
    case MF_METHOD_STRIPPER:
    case MF_METHOD_DEMOLITION:
        return false;
    case MF_METHOD_OPEN_FLAME:
        return true;
    case MF_METHOD_MACHINE:
    case MF_METHOD_BLASTING:
        return practice->shroud_and_hepa != MF_YES;
    case MF_METHOD_HEAT_GUN:
        return practice->temp_f == MF_NUM_NONE ||
               !mf_limit_holds(mf_limit_for(job, MF_LIMIT_HEAT_GUN, practice->on),
                               practice->temp_f);
    }
    return true;
}

bool mf_step_listed(const mf_job *job, const mf_area *area, const mf_step *step, bool off)
{
    const mf_tick *tick = NULL;
    if (!mf_step_wanted(job, step, area))
        return false;
    mf_step_judge(job, area, step, &tick);
    return tick != NULL || !off;
}
