/* Was the job called off before any work? Nothing is torn out in it then, and nothing is due. What
 * was logged of work is believed, and not the word that there was none. */
#include "core/called_off.h"

#include "core/contradict.h"
#include "core/text.h"
#include "core/when.h"
#include <mistfold/contain.h>
#include <mistfold/stage.h>

/* Taken back of that step later, or of the same time in a later entry. */
static bool taken_down(const mf_job *job, size_t at)
{
    const mf_tick *up = &job->tick[at];
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        bool later = mf_surely_before(up->on, up->at_minute, it->on, it->at_minute) ||
                     (i > at && !mf_surely_before(it->on, it->at_minute, up->on, up->at_minute));
        if (it->state == MF_TICK_UNDONE && later && mf_same(it->area, up->area) &&
            mf_same(it->step, up->step))
            return true;
    }
    return false;
}

static const mf_step *done(const mf_tick *tick)
{
    return tick->state == MF_TICK_DONE ? mf_step_named(tick->step) : NULL;
}

/* That it is whole may be looked at as soon as it is up. */
static bool of_containment(const mf_step *step)
{
    return step->phase == MF_PHASE_CONTAIN || mf_same(step->id, "barriers-whole");
}

static bool lies_in(const mf_tick *tick, const char *area)
{
    return !mf_given(area) || mf_same(tick->area, area);
}

const char *mf_area_contained_by(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_step *step = lies_in(&job->tick[i], area) ? done(&job->tick[i]) : NULL;
        if (step != NULL && of_containment(step) && !taken_down(job, i))
            return mf_or_empty(job->tick[i].src.entry);
    }
    return NULL;
}

const char *mf_contained_by(const mf_job *job)
{
    return mf_area_contained_by(job, "");
}

/* The other steps are done during the work and when it is over. */
const char *mf_ticked_work(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_step *step = lies_in(&job->tick[i], area) ? done(&job->tick[i]) : NULL;
        if (step != NULL && !of_containment(step))
            return mf_or_empty(job->tick[i].src.entry);
    }
    return NULL;
}

/* 745.85(c): samples that contract or law requires are taken when the work is over. */
static const char *cleared(const mf_job *job)
{
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (job->dust_sample[i].required == MF_YES && job->dust_sample[i].blank != MF_YES)
            return mf_or_empty(job->dust_sample[i].src.entry);
    return NULL;
}

/* 745.86(b)(6), (c)(1): that the work was done is certified, completed and billed. */
static const char *closed(const mf_job *job)
{
    if (job->n_completion > 0)
        return mf_or_empty(job->completion[0].src.entry);
    if (job->n_certification > 0)
        return mf_or_empty(job->certification[0].src.entry);
    return job->n_invoice > 0 ? mf_or_empty(job->invoice[0].src.entry) : NULL;
}

const char *mf_begun_by(const mf_job *job)
{
    for (size_t i = 0; i < job->n_practice; i++)
        if (job->practice[i].planned != MF_YES)
            return mf_or_empty(job->practice[i].src.entry);
    if (job->n_verification > 0)
        return mf_or_empty(job->verification[0].src.entry);
    const char *entry = mf_ticked_work(job, "");
    entry = entry == NULL ? cleared(job) : entry;
    return entry == NULL ? closed(job) : entry;
}

/* Of two houses, or of two corrections, nobody knows which is true. */
bool mf_off_before_work(const mf_job *job, mf_day today)
{
    for (size_t i = 0; i < job->n_house; i++)
        if (job->house[i].called_off == MF_DAY_NONE || job->house[i].called_off > today)
            return false;
    return job->n_house > 0 && mf_begun_by(job) == NULL && !mf_corrections_contradict(job);
}

bool mf_called_off(const mf_job *job, mf_day today)
{
    return mf_off_before_work(job, today) && mf_contained_by(job) == NULL;
}
