/* Which components the work disturbs, their paint, and how much of it. */
#include <mistfold/paint.h>

#include "core/minor.h"
#include "core/text.h"

bool mf_component_disturbed(const mf_component *component)
{
    return component->affected != MF_NOT || component->removed == MF_YES;
}

bool mf_paint_disturbed(const mf_job *job, const mf_component *component)
{
    mf_paint_finding paint;
    if (!mf_component_disturbed(component) || component->painted != MF_NOT)
        return mf_component_disturbed(component);
    mf_paint_judge(job, component, &paint);
    return paint.verdict != MF_PAINT_UNPAINTED;
}

/* Of an opening that is replaced everything comes off that is not said to stay. */
static bool comes_off(const mf_job *job, const mf_component *component)
{
    if (component->removed != MF_UNKNOWN || !mf_given(component->opening))
        return component->removed == MF_YES;
    const mf_opening *opening = mf_job_opening(job, component->opening);
    return opening != NULL && mf_opening_replaced(job, opening);
}

int64_t mf_disturbed_area(const mf_job *job, const mf_component *component)
{
    int64_t disturbed = component->disturbed_sqft_100, whole = component->whole_sqft_100;
    if (comes_off(job, component))
        return whole < 0 ? MF_NUM_NONE : whole > disturbed ? whole : disturbed;
    return disturbed < 0 ? MF_NUM_NONE : disturbed;
}

bool mf_removal_unsaid(const mf_job *job, const mf_component *component)
{
    return component->removed == MF_UNKNOWN && component->affected != MF_NOT &&
           !comes_off(job, component);
}

/* What may come off may count whole. */
int64_t mf_minor_area(const mf_job *job, const mf_component *component)
{
    int64_t disturbed = component->disturbed_sqft_100, whole = component->whole_sqft_100;
    if (!mf_removal_unsaid(job, component))
        return mf_disturbed_area(job, component);
    return disturbed < 0 || whole < 0 ? MF_NUM_NONE : whole > disturbed ? whole : disturbed;
}

/* The first part of the opening from that place on, round once; n_component = there is none.
 * Parts are mostly listed opening by opening: looked for from the last find on, all of them
 * are found in one walk. */
static size_t part_from(const mf_job *job, const char *opening, size_t from)
{
    for (size_t k = 0; k < job->n_component; k++) {
        size_t i = (from + k) % job->n_component;
        if (mf_same(job->component[i].opening, opening))
            return i;
    }
    return job->n_component;
}

bool mf_opening_listed(const mf_job *job, const char *opening)
{
    return part_from(job, opening, 0) != job->n_component;
}

const mf_opening *mf_opening_unlisted(const mf_job *job)
{
    size_t at = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        at = part_from(job, job->opening[i].id, at);
        if (at == job->n_component)
            return &job->opening[i];
    }
    return NULL;
}
