/* Cleaning from high to low, and looking only afterwards: by the times of the
 * ticks. 40 CFR 745.85(a)(5)(ii), (b)(1)(i), (b)(2). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>

/* The last tick of a step that says done, or NULL when the last says otherwise. */
static const mf_tick *done_tick(const mf_job *job, const mf_area *area, const mf_step *step)
{
    const mf_tick *tick = NULL;
    mf_step_judge(job, area, step, &tick);
    return tick != NULL && tick->state == MF_TICK_DONE ? tick : NULL;
}

const mf_tick *mf_standing_tick(const mf_job *job, const mf_area *area, const mf_step *step,
                                mf_phase phase)
{
    bool asked = step->phase == phase && mf_step_wanted(job, step, area);
    return asked ? done_tick(job, area, step) : NULL;
}

static const mf_tick *done(const mf_job *job, const mf_area *area, const char *id)
{
    const mf_step *step = mf_step_named(id);
    return step == NULL ? NULL : done_tick(job, area, step);
}

static bool before(const mf_tick *a, const mf_tick *b)
{
    return mf_surely_before(a->on, a->at_minute, b->on, b->at_minute);
}

/* ---- the order of cleaning ---------------------------------------------------------------- */

/* From the ceiling down to the floor, of which carpet and bare floor are parts. */
static const struct {
    const char *step;
    int down;
} high_to_low[] = {{"walls", 0}, {"surfaces", 1}, {"carpet", 2}, {"mop", 2}};
enum { N_HEIGHTS = sizeof high_to_low / sizeof high_to_low[0] };

const char *mf_if_cleaned(const mf_asked *asked, const mf_subject *subject)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++)
        if (mf_standing_tick(asked->job, subject->area, &steps[i], MF_PHASE_CLEAN) != NULL)
            return NULL;
    return "cleaning-not-ticked";
}

/* Cleaning comes after the work: a step that was last ticked before a later day of
 * work is to be done again. */
static bool cleaned_before_work(const mf_asked *asked, const mf_area *area, mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    mf_day worked = mf_worked_last(asked->job, area->id);
    for (size_t i = 0; i < n; i++) {
        const mf_tick *tick = mf_standing_tick(asked->job, area, &steps[i], MF_PHASE_CLEAN);
        if (tick == NULL || tick->on >= worked)
            continue;
        mf_say(out, MF_LACKING, "cleaned-before-work");
        mf_say_days(out, tick->on, worked);
        out->evidence = mf_or_empty(tick->src.entry);
        return true;
    }
    return false;
}

void mf_show_cleaning_order(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_tick *at[N_HEIGHTS];
    if (cleaned_before_work(asked, subject->area, out))
        return;
    mf_say(out, MF_MET, "cleaned-high-to-low");
    out->evidence = "";
    for (size_t i = 0; i < N_HEIGHTS; i++) {
        at[i] = done(asked->job, subject->area, high_to_low[i].step);
        for (size_t k = 0; k < i && at[i] != NULL; k++) {
            if (at[k] == NULL || high_to_low[k].down == high_to_low[i].down ||
                !before(at[i], at[k]))
                continue;
            mf_say(out, MF_LACKING, "cleaned-low-first");
            mf_say_days(out, at[i]->on, MF_DAY_NONE);
            out->evidence = mf_or_empty(at[i]->src.entry);
            return;
        }
    }
}

/* ---- looking after cleaning --------------------------------------------------------------- */

static const mf_tick *last_cleaning(const mf_job *job, const mf_area *area)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (tick->state != MF_TICK_DONE || !mf_same(tick->area, area->id))
            continue;
        const mf_step *step = mf_step_named(tick->step);
        bool cleaning = step != NULL && step->phase == MF_PHASE_CLEAN;
        if (cleaning && (last == NULL || before(last, tick)))
            last = tick;
    }
    return last;
}

static bool looked_after(const mf_verification *look, const mf_tick *tick)
{
    if (look->on != tick->on)
        return look->on > tick->on;
    return look->at_minute == MF_MINUTE_NONE || tick->at_minute == MF_MINUTE_NONE ||
           look->at_minute >= tick->at_minute;
}

/* The inspection that found the area clean must follow the cleaning it judges. */
void mf_show_looked_after(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_tick *cleaned = last_cleaning(job, subject->area);
    const mf_verification *look = NULL;
    mf_say(out, MF_MET, "looked-after-cleaning");
    out->evidence = "";
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event == MF_VER_LOOK_CLEAN && !mf_given(it->surface) &&
            mf_same(it->area, subject->id) &&
            (look == NULL || mf_when(it->on, it->at_minute) >= mf_when(look->on, look->at_minute)))
            look = it;
    }
    if (cleaned == NULL || look == NULL || looked_after(look, cleaned))
        return;
    mf_say(out, MF_LACKING, "looked-before-cleaning");
    mf_say_days(out, look->on, cleaned->on);
    out->evidence = mf_or_empty(look->src.entry);
}
