/* The steps of contain_rows.c as requirements: each is wanted in each work area
 * that calls for it. 40 CFR 745.85(a)(1), (2), (4), (5). */
#include "core/audit_rows.h"

#include "core/ground_room.h"
#include "core/surfaces.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>

const char *mf_if_step(const mf_asked *asked, const mf_subject *subject)
{
    const mf_step *step = mf_step_named(subject->row->step);
    if (step->when == MF_WHEN_ASSISTED) /* 24 CFR 35.1350(d): not within the de minimis areas */
        return mf_if_assisted_over(asked, subject);
    return mf_step_wanted(asked->job, step, subject->area) ? NULL : "step-not-called-for";
}

/* The extent that was measured against the one that is asked for, by the limit of the day by which
 * it was judged (MF_DAY_NONE = its own). */
static void say_extent(const mf_job *job, const mf_step *step, const mf_tick *tick, mf_day by,
                       mf_finding *out)
{
    if (step->extent < 0 || tick == NULL)
        return;
    mf_say_limit(out, job, (mf_limit_id)step->extent, by == MF_DAY_NONE ? tick->on : by);
    mf_say_numbers(out, MF_UNIT_FT_100, tick->measured_ft_100,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
}

/* What calls for vertical containment is a distance. */
static void say_line(const mf_asked *asked, const mf_step *step, const mf_area *area,
                     mf_finding *out)
{
    if (step->when != MF_WHEN_NEAR_LINE)
        return;
    mf_say_limit(out, asked->job, MF_LIMIT_PROPERTY_LINE, asked->house->start);
    mf_say_numbers(out, MF_UNIT_FT_100, area->line_ft_100,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
}

/* Never ticked; what calls for vertical containment may be that nobody gave the distance, and for
 * covered vents that one is on the list, whatever the area says. */
static void say_never(const mf_job *job, const mf_step *step, const mf_area *area, mf_finding *out)
{
    bool unsaid = step->when == MF_WHEN_NEAR_LINE && area->line_ft_100 == MF_NUM_NONE;
    bool denied = step->when == MF_WHEN_DUCTS && area->ducts == MF_NOT;
    const mf_component *duct = denied ? mf_room_duct(job, area) : NULL;
    mf_say(out, MF_LACKING,
           unsaid         ? "step-line-unsaid"
           : duct != NULL ? "step-duct-listed"
                          : "step-open");
    if (unsaid)
        out->evidence = mf_or_empty(area->src.entry);
    if (duct == NULL)
        return;
    out->told = mf_or_empty(duct->id);
    out->evidence = mf_or_empty(duct->src.entry);
}

static const char *done_name(const mf_finding *out, const mf_step *step)
{
    if (step->extent < 0)
        return "step-done";
    return mf_limit_holds(out->limit, out->n1) ? "step-done-measured" : "step-done-to-barrier";
}

/* On which ground it was left out. Words of somebody's own prove nothing, and what was left
 * out as impossible should be seen by the reader. */
static void say_skipped(const mf_tick *tick, mf_finding *out)
{
    static const char *const names[] = {
        [MF_GROUND_OWN_WORDS] = "step-own-words",   [MF_GROUND_NONE_PRESENT] = "step-none-present",
        [MF_GROUND_NOT_USED] = "step-not-used",     [MF_GROUND_ONE_STORY] = "step-one-story",
        [MF_GROUND_ALL_CARPET] = "step-all-carpet", [MF_GROUND_IMPOSSIBLE] = "step-excused"};
    mf_say(out, mf_ground_wants_words(tick->ground) ? MF_WARNING : MF_MET, names[tick->ground]);
    out->told = mf_or_empty(tick->reason);
}

/* The entry that says otherwise is the evidence. */
static void say_against(const mf_job *job, const mf_area *area, const mf_step *step,
                        const mf_tick *tick, mf_finding *out)
{
    mf_against against = {"", "", "", MF_NUM_NONE};
    mf_step_contradicted(job, area, step, tick->ground, &against);
    mf_say(out, MF_LACKING, against.why);
    mf_say_numbers(out, MF_UNIT_COUNT, against.n, MF_NUM_NONE);
    out->told = against.what;
    out->evidence = against.entry;
}

static void say_state(const mf_step *step, mf_step_state state, const mf_tick *tick,
                      mf_finding *out)
{
    switch (state) {
    case MF_STEP_DONE:
        mf_say(out, MF_MET, done_name(out, step));
        return;
    case MF_STEP_SHORT:
        mf_say(out, MF_LACKING, "step-short");
        return;
    case MF_STEP_UNMEASURED:
        mf_say(out, MF_LACKING, "step-unmeasured");
        return;
    case MF_STEP_NO_RENOVATOR:
        mf_say(out, MF_LACKING,
               mf_given(tick->renovator) ? "step-renovator-lapsed" : "step-no-renovator");
        return;
    case MF_STEP_NO_REASON:
        mf_say(out, MF_LACKING, "step-no-reason");
        return;
    case MF_STEP_NO_GROUND:
        mf_say(out, MF_LACKING, "step-no-ground");
        return;
    case MF_STEP_NOT_NEEDED: /* say_skipped, say_against */
    case MF_STEP_OWN_WORDS:
    case MF_STEP_CONTRADICTED:
    case MF_STEP_OPEN:
        break;
    }
    mf_say(out, MF_LACKING, "step-open");
}

/* Whether the last word of the verification came before the tick, or in the same minute. */
static bool verified_before(const mf_asked *asked, const mf_area *area, const mf_tick *tick)
{
    mf_ver_area found;
    const mf_subject place = {.area = area, .id = area->id};
    mf_finding looked = {0};
    mf_verification_area(asked->job, area, &found);
    mf_show_looked_after(asked, &place, &looked); /* dust that was seen was cleaned */
    for (size_t i = 0; i < asked->job->n_verification; i++) {
        const mf_verification *it = &asked->job->verification[i];
        bool timed = it->at_minute != MF_MINUTE_NONE && tick->at_minute != MF_MINUTE_NONE;
        if (mf_same(it->area, area->id) &&
            (it->on > tick->on ||
             (it->on == tick->on && (!timed || it->at_minute > tick->at_minute))))
            return false;
    }
    bool whole = area->side == MF_SIDE_EXTERIOR || mf_surfaces_lack(asked->job, area) == NULL;
    return found.verified && whole && !found.worked_since && looked.verdict != MF_LACKING;
}

/* The first cleaning in the area that surely came after all work there, or NULL. */
static const mf_tick *cleaning_began(const mf_job *job, const mf_area *area)
{
    const mf_tick *first = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_is_cleaning(it) && mf_same(it->area, area->id) &&
            mf_worked_since(job, area->id, it->on, it->at_minute) == NULL &&
            (first == NULL || mf_surely_before(it->on, it->at_minute, first->on, first->at_minute)))
            first = it;
    }
    return first;
}

bool mf_step_of(const mf_step *step, unsigned which)
{
    if (which == MF_OF_PART_35)
        return mf_id_in_list("signs-assisted,isolate,floor-sheet,ground-sheet,ducts,doors-closed,"
                             "barriers-whole",
                             step->id);
    bool sign = mf_id_in_list("signs,signs-language,signs-assisted", step->id);
    return (which & (sign ? MF_OF_SIGNS : MF_OF_CONTAINMENT)) != 0;
}

/* Signs stay until the area is shown to be clean, 745.85(a)(1); the rest comes down when the
 * sheeting does, (a)(5)(i)(B), and then the area is no longer contained: contained-still. */
static bool comes_down_for_cleaning(const mf_step *step)
{
    return (step->phase == MF_PHASE_CONTAIN && mf_step_of(step, MF_OF_CONTAINMENT)) ||
           mf_same(step->id, "barriers-whole");
}

static bool done_before(const mf_job *job, const mf_tick *undone)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->step, undone->step) &&
            mf_same(it->area, undone->area) &&
            !mf_surely_before(undone->on, undone->at_minute, it->on, it->at_minute))
            return true;
    }
    return false;
}

/* Once all work there was surely over: what fell while paint was disturbed did not come down for
 * the cleaning, and of what fell on a day of work at no time nobody knows. */
static bool down_for_cleaning(const mf_asked *asked, const mf_area *area, const mf_tick *tick)
{
    const mf_job *job = asked->job;
    const mf_step *step = mf_step_named(tick->step), *sheeting = mf_step_named("sheeting");
    const mf_tick *began = cleaning_began(job, area);
    if (step == NULL || sheeting == NULL || began == NULL || !comes_down_for_cleaning(step) ||
        mf_worked_first(job, area->id) == MF_DAY_NONE)
        return false;
    const mf_tick *folded = mf_standing_tick(job, area, sheeting, MF_PHASE_CLEAN);
    return folded != NULL && folded->on >= began->on &&
           mf_worked_since(job, area->id, tick->on, tick->at_minute) == NULL &&
           !mf_surely_before(tick->on, tick->at_minute, began->on, began->at_minute);
}

/* Waste is kept in until it is off the site: it has not done its duty when the area is clean. */
static bool is_of_waste(const mf_tick *tick)
{
    return mf_id_in_list("waste-contained,waste-chute,waste-daily,waste-transport", tick->step);
}

bool mf_taken_down(const mf_asked *asked, const mf_area *area, const mf_tick *tick)
{
    if (tick == NULL || tick->state != MF_TICK_UNDONE || is_of_waste(tick) ||
        !done_before(asked->job, tick)) /* what never stood was not taken down */
        return false;
    if (down_for_cleaning(asked, area, tick))
        return true;
    return mf_on_clearance(asked->job, area->id)
               ? mf_samples_clear(asked, area, tick->on, tick->at_minute)
               : verified_before(asked, area, tick);
}

/* While paint may still be disturbed there, the sheeting must reach as far as is asked today. */
static mf_day stands_until(const mf_asked *asked, const mf_area *area, const mf_step *step)
{
    const mf_tick *tick = NULL;
    mf_step_judge(asked->job, area, step, &tick);
    bool open = asked->completed == MF_DAY_NONE && cleaning_began(asked->job, area) == NULL;
    return open && tick != NULL && step->phase == MF_PHASE_CONTAIN
               ? mf_later(asked->today, tick->on)
               : MF_DAY_NONE;
}

/* What was down on a day of work of a job that is over cannot be put up for it any more; waste can
 * still be closed away. */
static bool too_late_for(const mf_asked *asked, const mf_step *step, const mf_tick *undone)
{
    return asked->completed != MF_DAY_NONE && step->phase != MF_PHASE_CLEAN &&
           !is_of_waste(undone) && undone->on <= mf_worked_last(asked->job, undone->area);
}

/* Nobody says at what hour, and later on that day it would have come down as it should. */
static bool hour_decides(const mf_asked *asked, const mf_area *area, const mf_tick *undone)
{
    enum { LAST_MINUTE = 24 * 60 - 1 };
    mf_tick late = *undone;
    late.at_minute = LAST_MINUTE;
    return undone->at_minute == MF_MINUTE_NONE && mf_taken_down(asked, area, &late);
}

/* Waste is kept in, and carried away, when there is some: a list ticked through in the morning
 * shows neither. waste-daily is asked of each day, waste-each-day. */
static void say_too_early(const mf_job *job, const mf_tick *tick, mf_finding *out)
{
    const mf_practice *work = tick == NULL ? NULL : mf_waste_too_early(job, tick);
    if (work == NULL)
        return;
    mf_say(out, MF_LACKING, "step-waste-early");
    mf_say_days(out, tick->on, work->on);
    out->other = mf_or_empty(work->src.entry);
}

void mf_show_step(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_step *step = mf_step_named(subject->row->step);
    const mf_tick *tick;
    mf_day by = stands_until(asked, subject->area, step);
    mf_step_state state = mf_step_stood(asked, subject->area, step, by, &tick);
    out->evidence = tick == NULL ? "" : mf_or_empty(tick->src.entry);
    mf_say_days(out, tick == NULL ? MF_DAY_NONE : tick->on, MF_DAY_NONE);
    say_extent(asked->job, step, tick, by, out);
    say_line(asked, step, subject->area, out);
    if (tick == NULL)
        say_never(asked->job, step, subject->area, out);
    else if (state == MF_STEP_OPEN && step->phase != MF_PHASE_CLEAN &&
             mf_taken_down(asked, subject->area, tick))
        mf_say(out, MF_MET,
               down_for_cleaning(asked, subject->area, tick) ? "step-down-for-cleaning"
                                                             : "step-taken-down");
    else if (state == MF_STEP_NOT_NEEDED || state == MF_STEP_OWN_WORDS)
        say_skipped(tick, out);
    else if (state == MF_STEP_CONTRADICTED)
        say_against(asked->job, subject->area, step, tick, out);
    else if (tick->state == MF_TICK_UNDONE)
        mf_say(out, MF_LACKING,
               step->phase != MF_PHASE_CLEAN && hour_decides(asked, subject->area, tick)
                   ? "step-undone-untimed"
               : too_late_for(asked, step, tick) ? "step-undone-over"
                                                 : "step-undone");
    else
        say_state(step, state, tick, out);
    if (out->verdict == MF_MET && mf_id_in_list("waste-contained,waste-transport", step->id))
        say_too_early(asked->job, tick, out);
}
