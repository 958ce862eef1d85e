/* What each opening holds and needs. */
#include <mistfold/schedule.h>

#include "core/text.h"
#include <mistfold/paint.h>

static bool within_frame(mf_component_type type)
{
    switch (type) {
    case MF_COMP_SASH:
    case MF_COMP_STOP:
    case MF_COMP_TROUGH:
    case MF_COMP_DOOR_SLAB:
    case MF_COMP_THRESHOLD:
    case MF_COMP_OTHER:
        return true;
    case MF_COMP_INTERIOR_SILL:
    case MF_COMP_APRON:
    case MF_COMP_INTERIOR_CASING:
    case MF_COMP_JAMB:
    case MF_COMP_EXTERIOR_SILL:
    case MF_COMP_EXTERIOR_CASING:
    case MF_COMP_BASEBOARD:
    case MF_COMP_WALL:
        break;
    }
    return false;
}

/* A component logged as affected or removed is disturbed by any removal. "other" is
 * taken to be disturbed. */
static bool disturbed(const mf_component *component, mf_removal removal)
{
    if (removal == MF_REMOVAL_AS_LOGGED)
        return mf_component_disturbed(component);
    if (component->affected == MF_YES || component->removed == MF_YES)
        return true;
    if (!mf_given(component->opening))
        return false;
    return removal == MF_REMOVAL_FULL_FRAME || within_frame(component->type);
}

const char *mf_place_of(const mf_job *job, const mf_component *component)
{
    if (mf_given(component->room))
        return component->room;
    const mf_opening *opening = mf_job_opening(job, component->opening);
    if (opening == NULL)
        return "";
    return mf_or_empty(component->side == MF_SIDE_INTERIOR ? opening->room : opening->elevation);
}

static bool worse(const mf_paint_finding *a, const mf_paint_finding *b)
{
    return b->component == NULL || a->verdict < b->verdict; /* lead comes first */
}

void mf_opening_needs(const mf_job *job, const char *opening, mf_side side, mf_removal removal,
                      mf_opening_need *out)
{
    mf_opening_needs_judged(job, NULL, opening, side, removal, out);
}

void mf_opening_needs_judged(const mf_job *job, const mf_paint_finding *judged, const char *opening,
                             mf_side side, mf_removal removal, mf_opening_need *out)
{
    *out = (mf_opening_need){.need = MF_NEED_NOTHING};
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        mf_paint_finding found;
        if (it->side != side || !mf_same(it->opening, opening) || !disturbed(it, removal))
            continue;
        if (judged == NULL)
            mf_paint_judge(job, it, &found);
        else
            found = judged[i];
        if (found.verdict == MF_PAINT_UNPAINTED)
            continue;
        out->disturbed++;
        if (worse(&found, &out->decided))
            out->decided = found;
    }
    if (out->disturbed > 0)
        out->need = out->decided.verdict == MF_PAINT_FREE ? MF_NEED_NONE : MF_NEED_CONTAINMENT;
    const mf_opening *whole = mf_given(opening) ? mf_job_opening(job, opening) : NULL;
    bool unlisted = mf_given(opening) && !mf_opening_listed(job, opening);
    if (unlisted || (whole != NULL && mf_side_unlisted(job, whole, side)))
        out->need = MF_NEED_CONTAINMENT;
}

static bool in_cell(const mf_job *job, const mf_component *it, const char *opening,
                    const char *room, mf_component_type type, mf_side side)
{
    if (it->type != type || it->side != side || !mf_same(it->opening, opening))
        return false;
    return mf_given(opening) || mf_same_room(mf_place_of(job, it), room);
}

static bool higher(const mf_job *job, const mf_reading *a, const mf_reading *b)
{
    if (a == NULL || b == NULL)
        return a != NULL;
    mf_paint_class of_a = mf_reading_class_in(job, a), of_b = mf_reading_class_in(job, b);
    return of_a != of_b ? of_a > of_b : a->loading_ug_cm2 > b->loading_ug_cm2;
}

void mf_schedule_cell_of(const mf_job *job, const char *opening, const char *room,
                         mf_component_type type, mf_side side, mf_removal removal,
                         mf_schedule_cell *out)
{
    *out = (mf_schedule_cell){0};
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        mf_paint_finding found;
        if (!in_cell(job, it, opening, room, type, side))
            continue;
        mf_paint_judge(job, it, &found);
        out->components++;
        out->disturbed = out->disturbed || disturbed(it, removal);
        if (higher(job, found.worst, out->highest))
            out->highest = found.worst;
        if (worse(&found, &out->worst))
            out->worst = found;
    }
}
