/* On which days paint was disturbed. A plan disturbs nothing. */
#include "core/worked.h"

#include "core/text.h"
#include "core/when.h"
#include <mistfold/contain.h>

static bool worked(const mf_practice *it, const char *area)
{
    return it->planned != MF_YES && it->on != MF_DAY_NONE &&
           (!mf_given(area) || mf_same(it->area, area));
}

mf_day mf_completed_on(const mf_job *job)
{
    return job->n_completion == 0 ? MF_DAY_NONE : job->completion[job->n_completion - 1].on;
}

mf_day mf_invoiced_on(const mf_job *job)
{
    return job->n_invoice == 0 ? MF_DAY_NONE : job->invoice[job->n_invoice - 1].on;
}

mf_day mf_worked_by(const mf_job *job, const char *area, mf_day day)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (worked(it, area) && it->on <= day && it->on > last)
            last = it->on;
    }
    return last;
}

mf_day mf_worked_last(const mf_job *job, const char *area)
{
    return mf_worked_by(job, area, INT32_MAX);
}

mf_day mf_worked_first(const mf_job *job, const char *area)
{
    mf_day first = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (worked(it, area) && (first == MF_DAY_NONE || it->on < first))
            first = it->on;
    }
    return first;
}

/* ---- by the time of day ---------------------------------------------------------------- */

int32_t mf_work_last_said(const mf_practice *work)
{
    return work->at_minute > work->began_minute ? work->at_minute : work->began_minute;
}

/* When it was over; an end before its beginning tells nothing. */
static int32_t over_at(const mf_practice *it)
{
    return it->at_minute < it->began_minute ? MF_MINUTE_NONE : it->at_minute;
}

static int32_t began_at(const mf_practice *it)
{
    bool ended_first = it->at_minute != MF_MINUTE_NONE && it->at_minute < it->began_minute;
    return ended_first ? MF_MINUTE_NONE : it->began_minute;
}

int32_t mf_work_first_said(const mf_practice *work)
{
    bool over_only = work->began_minute == MF_MINUTE_NONE ||
                     (work->at_minute != MF_MINUTE_NONE && work->at_minute < work->began_minute);
    return over_only ? work->at_minute : work->began_minute;
}

static bool over_before(const mf_practice *it, mf_day on, int32_t at)
{
    return mf_surely_before(it->on, over_at(it), on, at);
}

static bool went_on_after(const mf_practice *it, mf_day on, int32_t at)
{
    return mf_surely_before(on, at, it->on, mf_work_last_said(it));
}

const mf_practice *mf_worked_since(const mf_job *job, const char *area, mf_day on, int32_t at)
{
    const mf_practice *later = NULL, *unsaid = NULL;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (!worked(it, area) || over_before(it, on, at))
            continue;
        if (mf_worked_unsaid(it, on, at))
            unsaid = it;
        else if (later == NULL || it->on > later->on)
            later = it;
    }
    return later != NULL ? later : unsaid;
}

bool mf_worked_unsaid(const mf_practice *work, mf_day on, int32_t at)
{
    return work->on == on && !over_before(work, on, at) && !went_on_after(work, on, at);
}

bool mf_worked_after(const mf_job *job, const char *area, mf_day on, int32_t at)
{
    const mf_practice *it = mf_worked_since(job, area, on, at);
    return it != NULL && !mf_worked_unsaid(it, on, at);
}

const mf_practice *mf_worked_later_that_day(const mf_job *job, const char *area, mf_day on,
                                            int32_t at)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (worked(it, area) && it->on == on && went_on_after(it, on, at))
            return it;
    }
    return NULL;
}

/* The first work in an area, where all of it surely came after a moment, or NULL. */
static const mf_practice *none_yet(const mf_job *job, const char *area, mf_day on, int32_t at)
{
    const mf_practice *first = NULL;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (!worked(it, area))
            continue;
        if (!mf_surely_before(on, at, it->on, mf_work_first_said(it)))
            return NULL;
        if (first == NULL || it->on < first->on)
            first = it;
    }
    return first;
}

const mf_practice *mf_waste_too_early(const mf_job *job, const mf_tick *tick)
{
    bool kept = mf_id_in_list("waste-daily,waste-contained", tick->step);
    bool once = mf_id_in_list("waste-contained,waste-transport", tick->step);
    const mf_practice *found = NULL;
    if (tick->state != MF_TICK_DONE)
        return NULL;
    if (kept)
        found = mf_worked_later_that_day(job, tick->area, tick->on, tick->at_minute);
    if (found == NULL && once)
        found = none_yet(job, tick->area, tick->on, tick->at_minute);
    return found;
}

bool mf_worked_between(const mf_job *job, const mf_verification *from, const mf_verification *to)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        bool over = over_before(it, from->on, from->at_minute);
        bool later = went_on_after(it, to->on, to->at_minute);
        bool told =
            went_on_after(it, from->on, from->at_minute) || over_before(it, to->on, to->at_minute);
        if (worked(it, to->area) && told && !over && !later)
            return true;
    }
    return false;
}

mf_tri mf_before_work(const mf_job *job, mf_day on, int32_t at)
{
    mf_tri before = MF_YES;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (!worked(it, "") || mf_surely_before(on, at, it->on, began_at(it)))
            continue;
        if (mf_surely_before(it->on, mf_work_first_said(it), on, at))
            return MF_NOT;
        before = MF_UNKNOWN;
    }
    return before;
}

bool mf_is_look(const mf_verification *event)
{
    return event->event == MF_VER_LOOK_CLEAN || event->event == MF_VER_LOOK_DIRTY;
}

bool mf_is_cleaning(const mf_tick *tick)
{
    const mf_step *step = tick->state == MF_TICK_DONE ? mf_step_named(tick->step) : NULL;
    return step != NULL && step->phase == MF_PHASE_CLEAN;
}

/* Entries of one moment as entered. */
const mf_tick *mf_done_last(const mf_job *job, const char *area, const char *steps)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_id_in_list(steps, it->step) &&
            mf_same(it->area, area) &&
            (last == NULL || !mf_surely_before(it->on, it->at_minute, last->on, last->at_minute)))
            last = it;
    }
    return last;
}

bool mf_is_own_step(const mf_job *job, const mf_tick *tick)
{
    return mf_step_named(tick->step) == NULL && mf_own_step_named(job, tick->step) != NULL;
}

mf_day mf_shown_last(const mf_job *job)
{
    mf_day last = mf_worked_last(job, "");
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_is_cleaning(&job->tick[i]))
            last = mf_later(last, job->tick[i].on);
    for (size_t i = 0; i < job->n_verification; i++)
        last = mf_later(last, job->verification[i].on);
    for (size_t i = 0; i < job->n_dust_sample; i++)
        last = mf_later(last, job->dust_sample[i].on);
    return last;
}
