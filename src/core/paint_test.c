/* What single tests found, and of which parts of a whole they tell. 745.82(a)(2)-(3). */
#include "core/paint_test.h"

#include "core/minor.h"
#include "core/reading_index.h"
#include "core/text.h"

bool mf_of_paint(const mf_reading *reading)
{
    /* Read again it is a reading like any other: a positive counts. */
    return reading->purpose == MF_READ_PAINT || reading->purpose == MF_READ_RETEST;
}

mf_paint_class mf_class_kept(const mf_job *job, const mf_reading *reading)
{
    mf_reading_index *index = mf_index_of(job);
    bool keeps = index != NULL && index->keeps_readings;
    size_t at = keeps ? mf_reading_place(job, reading) : SIZE_MAX;
    if (at == SIZE_MAX)
        return mf_reading_class_in(job, reading);
    if (index->class_of[at] == 0)
        index->class_of[at] = (uint8_t)(1 + mf_reading_class_in(job, reading));
    return (mf_paint_class)(index->class_of[at] - 1);
}

const mf_reading *mf_substrate_against(const mf_job *job, const mf_component *component)
{
    const char *id = component->id;
    for (size_t i = mf_reading_first(job, id); i != SIZE_MAX; i = mf_reading_next(job, id, i))
        if (mf_of_paint(&job->reading[i]) && job->reading[i].substrate != component->substrate)
            return &job->reading[i];
    return NULL;
}

/* ---- parts of one whole ------------------------------------------------------------- */

bool mf_speaks_for(const char *tested, const mf_component *component)
{
    if (mf_same(tested, component->id))
        return true;
    return component->painted != MF_NOT && component->refinished == MF_NOT &&
           mf_given(component->part_of) && mf_same(tested, component->part_of);
}

static bool read_as_lead(const mf_job *job, const char *id)
{
    for (size_t i = mf_reading_first(job, id); i != SIZE_MAX; i = mf_reading_next(job, id, i))
        if (mf_of_paint(&job->reading[i]) &&
            mf_class_kept(job, &job->reading[i]) == MF_CLASS_POSITIVE)
            return true;
    return false;
}

static bool tested_as_lead(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_kit_test; i++)
        if (mf_same(job->kit_test[i].component, id) && job->kit_test[i].result == MF_RES_POSITIVE)
            return true;
    for (size_t i = 0; i < job->n_chip; i++)
        if (mf_same(job->chip[i].component, id) &&
            mf_chip_class_for(job, &job->chip[i]) == MF_CLASS_POSITIVE)
            return true;
    return read_as_lead(job, id);
}

/* Whether lead was found on any part of a whole that was not repainted by itself. */
static bool lead_in_whole(const mf_job *job, const char *whole)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool within = mf_same(it->id, whole) || mf_same(it->part_of, whole);
        if (within && it->refinished != MF_YES && tested_as_lead(job, it->id))
            return true;
    }
    return false;
}

/* Parts of one integrated whole are of one side of one opening, or stand on one side of one room,
 * of one kind and of one substrate, about which nothing disagrees (745.82(a)(2)-(3): "such as
 * the individual stair treads and risers"): a jamb is no part of the sash, which may have been
 * painted long before it. */
static bool one_whole(const mf_job *job, const mf_component *a, const mf_component *b)
{
    bool opening = mf_given(a->opening) || mf_given(b->opening);
    bool place = opening ? mf_same(a->opening, b->opening)
                         : mf_same_room(mf_room_of(job, a), mf_room_of(job, b));
    return place && a->type == b->type && a->side == b->side && a->substrate == b->substrate &&
           mf_substrate_against(job, a) == NULL && mf_substrate_against(job, b) == NULL;
}

bool mf_frees(const mf_job *job, const char *tested, const mf_component *component)
{
    if (mf_same(tested, component->id) || !mf_speaks_for(tested, component))
        return mf_same(tested, component->id);
    const mf_component *it = mf_job_component(job, tested);
    return it != NULL && one_whole(job, it, component) && it->painted != MF_NOT &&
           it->refinished != MF_YES && !lead_in_whole(job, tested);
}

/* ---- the word that it is free --------------------------------------------------------- */

bool mf_determined(const mf_determination *it, const char *component)
{
    return mf_same(it->component, component) || mf_id_in_list(it->components, component);
}

bool mf_determined_by_readings(const mf_determination *it)
{
    return !mf_given(it->component) && !mf_given(it->components);
}

static bool read_as_free(const mf_job *job, const char *id, const char *assessor)
{
    for (size_t i = mf_reading_first(job, id); i != SIZE_MAX; i = mf_reading_next(job, id, i))
        if (mf_of_paint(&job->reading[i]) && mf_same(job->reading[i].operator_id, assessor) &&
            mf_class_kept(job, &job->reading[i]) == MF_CLASS_NEGATIVE)
            return true;
    return false;
}

static bool determined_free(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_determination; i++) {
        const mf_determination *it = &job->determination[i];
        if (mf_determined(it, id) ||
            (mf_determined_by_readings(it) && read_as_free(job, id, it->assessor)))
            return true;
    }
    return false;
}

bool mf_called_free(const mf_job *job, const mf_component *component)
{
    const char *id = component->id;
    for (size_t i = 0; i < job->n_kit_test; i++)
        if (mf_same(job->kit_test[i].component, id) && job->kit_test[i].result == MF_RES_NEGATIVE)
            return true;
    for (size_t i = 0; i < job->n_chip; i++)
        if (mf_same(job->chip[i].component, id) &&
            mf_chip_class_for(job, &job->chip[i]) == MF_CLASS_NEGATIVE)
            return true;
    return determined_free(job, id);
}
