/* Was a work area called off before any work in it? Then nothing is modified there (40 CFR 745.83),
 * and of its signs, containment and cleaning nothing is owed. What was logged of work there is
 * believed, and not the word that there was none; and a part that the work is said to disturb is
 * to be disturbed. */
#include "core/area_off.h"

#include "core/area_openings.h"
#include "core/called_off.h"
#include "core/contradict.h"
#include "core/occupied_units.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/address.h>
#include <mistfold/paint.h>

/* ---- what was done ------------------------------------------------------------------------- */

const char *mf_area_done_by(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_practice; i++)
        if (job->practice[i].planned != MF_YES && mf_same(job->practice[i].area, area))
            return mf_or_empty(job->practice[i].src.entry);
    for (size_t i = 0; i < job->n_verification; i++)
        if (mf_same(job->verification[i].area, area))
            return mf_or_empty(job->verification[i].src.entry);
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (mf_same(it->area, area) && it->required != MF_NOT && it->blank != MF_YES)
            return mf_or_empty(it->src.entry);
    }
    return mf_ticked_work(job, area);
}

/* ---- what is to be done -------------------------------------------------------------------- */

static bool could_hold(const mf_job *job, const char *area, const mf_component *part)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_same(job->area[i].id, area) && mf_area_holds(&job->area[i], part))
            return true;
    return false;
}

/* What is listed of one entry of the area, or drawn in it, may be torn out there. */
static bool could_open(const mf_job *job, const char *area, const mf_opening *opening)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_same(job->area[i].id, area) && mf_area_has_opening(job, &job->area[i], opening))
            return true;
    return false;
}

/* Of an opening without parts nobody has said what is disturbed; one that is replaced opens into
 * the area, from whichever side. */
static bool still_to_do(const mf_job *job, const mf_opening *opening)
{
    return mf_opening_replaced(job, opening) || !mf_opening_listed(job, opening->id);
}

static const char *to_do_by(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *part = &job->component[i];
        if ((mf_paint_disturbed(job, part) || part->removed == MF_YES) &&
            could_hold(job, area, part))
            return mf_or_empty(part->src.entry);
    }
    for (size_t i = 0; i < job->n_opening; i++)
        if (could_open(job, area, &job->opening[i]) && still_to_do(job, &job->opening[i]))
            return mf_or_empty(job->opening[i].src.entry);
    return NULL;
}

/* Whether the plan is no older than what an entry of its area says of its being called off. */
static bool planned_since(const mf_job *job, const mf_practice *plan)
{
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (mf_same(it->id, plan->area) && it->called_off != MF_DAY_NONE &&
            (plan->on == MF_DAY_NONE || plan->on >= it->called_off))
            return true;
    }
    return false;
}

/* An older plan was given up with the area; one of the day on which that was said, or of a later
 * one, is to work there all the same. */
static const char *planned_by(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned == MF_YES && mf_same(it->area, area) && planned_since(job, it))
            return mf_or_empty(it->src.entry);
    }
    return NULL;
}

/* ---- what is done beside it ------------------------------------------------------------------ */

static bool one_room(const char *room, const char *other)
{
    return mf_given(room) && mf_given(other) && mf_may_count_as_one_room(room, other);
}

/* Whether a window or a door of the one is of the room that the other is, or has one of. */
static bool opens_into(const mf_job *job, const mf_area *of, const mf_area *into)
{
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (!mf_area_has_opening(job, of, it))
            continue;
        if (one_room(it->room, into->place))
            return true;
        for (size_t k = 0; k < job->n_opening; k++)
            if (one_room(it->room, job->opening[k].room) &&
                mf_area_has_opening(job, into, &job->opening[k]))
                return true;
    }
    return false;
}

static bool share_a_room(const mf_job *job, const mf_area *a, const mf_area *b)
{
    const char *unit = mf_area_unit(job, a), *other = mf_area_unit(job, b);
    if (mf_given(unit) && mf_given(other) && !mf_same_unit(unit, other))
        return false;
    return one_room(a->place, b->place) || opens_into(job, a, b) || opens_into(job, b, a);
}

/* Two devices may have drawn one area: each entry of it says so. */
static bool said_off(const mf_job *job, const char *area, mf_day today)
{
    bool any = false;
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (!mf_same(it->id, area))
            continue;
        if (it->called_off == MF_DAY_NONE || it->called_off > today)
            return false;
        any = true;
    }
    return any;
}

/* Whether work goes on in another area: it was not called off, or that word counts for nothing. */
static bool goes_on(const mf_job *job, const char *area, mf_day today)
{
    return !said_off(job, area, today) || mf_area_done_by(job, area) != NULL ||
           to_do_by(job, area) != NULL || planned_by(job, area) != NULL;
}

/* Another area inside, of the same room, in which work goes on: what dust that makes does not end
 * at a line that nobody drew, and the windows of both are of one room. */
static const char *room_worked_by(const mf_job *job, const char *area, mf_day today)
{
    for (size_t i = 0; i < job->n_area; i++)
        for (size_t k = 0; k < job->n_area; k++) {
            const mf_area *off = &job->area[i], *it = &job->area[k];
            if (mf_same(off->id, area) && !mf_same(it->id, area) && off->side != MF_SIDE_EXTERIOR &&
                it->side != MF_SIDE_EXTERIOR && share_a_room(job, off, it) &&
                goes_on(job, it->id, today))
                return mf_or_empty(it->src.entry);
        }
    return NULL;
}

const char *mf_area_worked_by(const mf_job *job, const char *area, mf_day today, const char **why)
{
    const char *entry = mf_area_done_by(job, area);
    *why = "area-off-begun";
    if (entry != NULL)
        return entry;
    *why = "area-off-parts";
    entry = to_do_by(job, area);
    if (entry != NULL)
        return entry;
    *why = "area-off-planned";
    entry = planned_by(job, area);
    if (entry != NULL)
        return entry;
    *why = "area-off-room";
    return room_worked_by(job, area, today);
}

/* ---- the answer ------------------------------------------------------------------------------ */

bool mf_area_off(const mf_job *job, const char *area, mf_day today)
{
    const char *why;
    return mf_given(area) && said_off(job, area, today) && !mf_corrections_contradict(job) &&
           mf_area_worked_by(job, area, today, &why) == NULL;
}

bool mf_areas_all_off(const mf_job *job, mf_day today)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (!mf_area_off(job, job->area[i].id, today))
            return false;
    return job->n_area > 0;
}
