/* Two devices may correct one entry without knowing of each other. That is a contradiction
 * until both lines end in the same words. */
#include "core/contradict.h"

#include "core/text.h"

bool mf_correction_replaced(const mf_job *job, const char *entry)
{
    for (size_t i = 0; i < job->n_correction; i++)
        if (mf_same(job->correction[i].replaces, entry))
            return true;
    return false;
}

bool mf_correction_contradicted(const mf_job *job, const mf_correction *correction)
{
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *it = &job->correction[i];
        if (it != correction && mf_same(it->target, correction->target) &&
            !mf_same(it->after, correction->after) && !mf_correction_replaced(job, it->src.entry))
            return true;
    }
    return false;
}

bool mf_corrections_contradict(const mf_job *job)
{
    for (size_t i = 0; i < job->n_correction; i++)
        if (!mf_correction_replaced(job, job->correction[i].src.entry) &&
            mf_correction_contradicted(job, &job->correction[i]))
            return true;
    return false;
}
