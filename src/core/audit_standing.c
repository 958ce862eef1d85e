/* May demo start at this moment: has the start come, is the job not over, and does the
 * containment of each work area stand? It stands from the last of its steps until the area was
 * cleaned up or found clean, and not while its barriers are torn. 40 CFR 745.85(a)(2). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/emergency.h>
#include <string.h>

/* ---- the job ---------------------------------------------------------------------------- */

/* Where neither this rule nor 24 CFR part 35 holds, nothing speaks of the time. */
const char *mf_if_demo_asked(const mf_asked *asked, const mf_subject *subject)
{
    if (asked->cover.cover == MF_COVER_YES)
        return NULL;
    return mf_if_assisted_over(asked, subject) == NULL ? NULL : "not-covered";
}

void mf_show_job_open(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool over = asked->completed != MF_DAY_NONE;
    (void)subject;
    mf_say(out, over ? MF_NOT_NOW : MF_MET, over ? "job-over" : "job-open");
    mf_say_days(out, asked->completed, MF_DAY_NONE);
    if (over)
        out->evidence = mf_or_empty(asked->job->completion[asked->job->n_completion - 1].src.entry);
}

/* People were told of this day, and the crew is assigned from it. */
void mf_show_start_reached(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool early = asked->today < asked->start;
    (void)subject;
    mf_say(out, early ? MF_NOT_NOW : MF_MET, early ? "start-not-reached" : "start-reached");
    mf_say_days(out, asked->start, asked->today);
    out->evidence = mf_or_empty(asked->house->src.entry);
}

/* ---- what ended the containment ----------------------------------------------------------- */

typedef struct moment {
    mf_day on;
    int32_t at;
    const char *why, *entry;
} moment;

/* What has no time may have happened at the end of its day. */
static void keep_later(moment *last, mf_day on, int32_t at, const char *why, const char *entry)
{
    if (on != MF_DAY_NONE && !mf_surely_before(on, at, last->on, last->at))
        *last = (moment){on, at, why, mf_or_empty(entry)};
}

static const mf_tick *standing(const mf_job *job, const mf_area *area, const char *id,
                               mf_phase phase)
{
    const mf_step *step = mf_step_named(id);
    return step == NULL ? NULL : mf_standing_tick(job, area, step, phase);
}

/* What the area was looked at, wiped or sampled for before a time of a day: it was not contained
 * then. */
static void keep_checks(moment *last, const mf_job *job, const mf_area *area, mf_day day,
                        int32_t at)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event != MF_VER_LOOK_DIRTY && mf_same(it->area, area->id) &&
            mf_surely_before(it->on, it->at_minute, day, at))
            keep_later(last, it->on, it->at_minute, "contained-verified", it->src.entry);
    }
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (it->required == MF_YES && it->blank != MF_YES && mf_same(it->area, area->id) &&
            mf_surely_before(it->on, it->at_minute, day, at))
            keep_later(last, it->on, it->at_minute, "contained-sampled", it->src.entry);
    }
}

/* When plastic was taken down, or the area was found clean, the last time before a time of a day:
 * what was ticked once more counts as well. MF_DAY_NONE = never. */
static moment ended_before(const mf_job *job, const mf_area *area, mf_day day, int32_t at)
{
    moment last = {MF_DAY_NONE, MF_MINUTE_NONE, "", ""};
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->area, area->id) &&
            mf_id_in_list("sheeting,divider", it->step) &&
            mf_surely_before(it->on, it->at_minute, day, at))
            keep_later(&last, it->on, it->at_minute, "contained-folded", it->src.entry);
    }
    keep_checks(&last, job, area, day, at);
    return last;
}

/* The last word on a step of the containment: done, or not needed. That nothing stood there, or a
 * door was not used, was said of the work that is over as well: it is said again of what comes
 * next. NULL = nothing was said, or it is undone. */
static const mf_tick *settled(const mf_job *job, const mf_area *area, const mf_step *step)
{
    const mf_tick *tick = NULL;
    if (step->phase != MF_PHASE_CONTAIN || !mf_step_wanted(job, step, area))
        return NULL;
    mf_step_judge(job, area, step, &tick);
    return tick != NULL && tick->state != MF_TICK_UNDONE ? tick : NULL;
}

/* Whether a step was done after a moment and by the end of a day. */
static bool done_between(const mf_job *job, const mf_area *area, const mf_step *step,
                         const moment *end, mf_day day)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state != MF_TICK_UNDONE && it->on <= day && mf_same(it->area, area->id) &&
            mf_same(it->step, step->id) &&
            mf_surely_before(end->on, end->at, it->on, it->at_minute))
            return true;
    }
    return false;
}

const mf_step *mf_not_contained_anew(const mf_job *job, const mf_area *area,
                                     const mf_practice *work, unsigned which, mf_day *ended_on)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    moment end = ended_before(job, area, work->on, mf_work_last_said(work));
    *ended_on = end.on;
    for (size_t i = 0; end.on != MF_DAY_NONE && i < n; i++)
        if (mf_step_of(&steps[i], which) && settled(job, area, &steps[i]) != NULL &&
            !done_between(job, area, &steps[i], &end, work->on))
            return &steps[i];
    return NULL;
}

/* When plastic was taken down, or the area was found clean; on MF_DAY_NONE = neither. */
static moment ended(const mf_job *job, const mf_area *area)
{
    moment last = {MF_DAY_NONE, MF_MINUTE_NONE, "", ""};
    static const char *const down[] = {"sheeting", "divider"};
    for (size_t i = 0; i < sizeof down / sizeof down[0]; i++) {
        const mf_tick *it = standing(job, area, down[i], MF_PHASE_CLEAN);
        if (it != NULL)
            keep_later(&last, it->on, it->at_minute, "contained-folded", it->src.entry);
    }
    keep_checks(&last, job, area, INT32_MAX, MF_MINUTE_NONE);
    return last;
}

/* The first step of the containment that was not done again since; *first the earliest of
 * those that were. */
static const mf_tick *not_again(const mf_job *job, const mf_area *area, const moment *end,
                                const mf_tick **first)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    *first = NULL;
    for (size_t i = 0; i < n; i++) {
        const mf_tick *tick = settled(job, area, &steps[i]);
        if (tick == NULL)
            continue;
        if (!mf_surely_before(end->on, end->at, tick->on, tick->at_minute))
            return tick;
        if (*first == NULL || tick->on < (*first)->on)
            *first = tick;
    }
    return NULL;
}

/* The last word on the barriers is that they are torn. */
static const mf_tick *torn(const mf_job *job, const mf_area *area)
{
    const mf_tick *tick = NULL;
    const mf_step *step = mf_step_named("barriers-whole");
    if (step != NULL)
        mf_step_judge(job, area, step, &tick);
    return tick != NULL && tick->state == MF_TICK_UNDONE ? tick : NULL;
}

/* ---- what was changed since it was ticked -------------------------------------------------- */

/* When the area was last corrected, "" = never. */
static const char *changed_at(const mf_job *job, const mf_area *area)
{
    if (!mf_given(area->src.correction))
        return "";
    for (size_t i = 0; i < job->n_correction; i++)
        if (mf_same(job->correction[i].src.entry, area->src.correction))
            return mf_or_empty(job->correction[i].src.at);
    return "";
}

static mf_day day_of(const char *stamp)
{
    char day[sizeof "2026-09-14"] = "";
    for (size_t i = 0; i + 1 < sizeof day && stamp[i] != '\0'; i++)
        day[i] = stamp[i];
    return mf_day_parse(day, NULL);
}

/* A step that was ticked of the area as it was before. */
static const mf_tick *ticked_of_another(const mf_job *job, const mf_area *area)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    const char *changed = changed_at(job, area);
    for (size_t i = 0; changed[0] != '\0' && i < n; i++) {
        const mf_tick *tick = mf_standing_tick(job, area, &steps[i], MF_PHASE_CONTAIN);
        if (tick != NULL && strcmp(mf_or_empty(tick->src.at), changed) < 0)
            return tick;
    }
    return NULL;
}

/* An emergency excused the containment while there was work, 745.82(b), and nobody isolated the
 * area since: what is begun after the emergency is contained first. */
static bool left_out(const mf_job *job, const mf_area *area)
{
    return mf_emergency_waives(job, MF_WAIVE_CONTAINMENT, mf_worked_last(job, area->id)) != NULL &&
           standing(job, area, "isolate", MF_PHASE_CONTAIN) == NULL;
}

const char *mf_if_may_have_ended(const mf_asked *asked, const mf_subject *subject)
{
    const mf_job *job = asked->job;
    const mf_area *area = subject->area;
    if (asked->completed != MF_DAY_NONE)
        return "work-over";
    if (mf_emergency_waives(job, MF_WAIVE_CONTAINMENT, asked->today) != NULL)
        return "emergency";
    bool due = torn(job, area) != NULL || ended(job, area).on != MF_DAY_NONE ||
               ticked_of_another(job, area) != NULL || left_out(job, area);
    return due ? NULL : "sheeting-lies";
}

/* Whether openings were added, or it was measured anew, is for whoever is there to say. */
static void show_changed(const mf_asked *asked, const mf_area *area, mf_finding *out)
{
    const mf_tick *tick = ticked_of_another(asked->job, area);
    if (tick == NULL)
        return;
    mf_say(out, MF_WARNING, "area-changed");
    mf_say_days(out, day_of(changed_at(asked->job, area)), tick->on);
    out->evidence = mf_or_empty(tick->src.entry);
}

/* What was contained, cleaned and folded away, or torn, is to be contained anew before paint
 * is disturbed there again. */
void mf_show_contained_still(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_area *area = subject->area;
    const mf_tick *tear = torn(asked->job, area), *first = NULL;
    moment end = ended(asked->job, area);
    const mf_tick *old = end.on == MF_DAY_NONE ? NULL : not_again(asked->job, area, &end, &first);
    if (tear != NULL) {
        mf_say(out, MF_LACKING, "barriers-torn");
        mf_say_days(out, tear->on, MF_DAY_NONE);
        out->evidence = mf_or_empty(tear->src.entry);
    } else if (old != NULL || (end.on != MF_DAY_NONE && first == NULL)) {
        mf_say(out, MF_LACKING, old == NULL ? "contained-never" : end.why);
        mf_say_days(out, end.on, MF_DAY_NONE);
        out->told = old == NULL ? "" : old->step;
        out->evidence = end.entry;
    } else if (left_out(asked->job, area)) {
        mf_say(out, MF_LACKING, "contained-left-out");
    } else {
        mf_say(out, MF_MET, "contained-anew");
        mf_say_days(out, end.on, first == NULL ? MF_DAY_NONE : first->on);
        out->evidence = first == NULL ? "" : mf_or_empty(first->src.entry);
        show_changed(asked, area, out);
    }
}
