/* What one question has worked out so far. */
#include "core/reading_index.h"

#include <string.h>

void mf_index_begin(mf_reading_index *index, const mf_job *job)
{
    index->job = job;
    index->keeps_readings = job->n_reading <= MF_INDEX_READINGS;
    index->keeps_components = job->n_component <= MF_INDEX_COMPONENTS;
    memset(index->check_at, 0xFF, sizeof index->check_at);
    if (index->keeps_readings) {
        memset(index->class_of, 0, job->n_reading);
        memset(index->enclosed, 0, job->n_reading);
    }
    if (index->keeps_components)
        memset(index->judged, 0, job->n_component);
}

mf_reading_index *mf_index_of(const mf_job *job)
{
    mf_reading_index *index = job->index;
    bool own = index != NULL && index->job->reading == job->reading &&
               index->job->n_reading == job->n_reading && index->job->component == job->component &&
               index->job->n_component == job->n_component;
    return own ? index : NULL;
}

mf_paint_finding *mf_index_finding(mf_reading_index *index, const mf_component *component,
                                   bool *known)
{
    const mf_job *job = index->job;
    uintptr_t first = (uintptr_t)job->component, at = (uintptr_t)component;
    size_t i = (at - first) / sizeof *component;
    if (!index->keeps_components || at < first || (at - first) % sizeof *component != 0 ||
        i >= job->n_component)
        return NULL;
    *known = index->judged[i] != 0;
    index->judged[i] = 1;
    return &index->finding[i];
}
