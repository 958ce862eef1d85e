/* In which units and common areas of a building the work is, and who lives there. */
#include "core/occupied_units.h"

#include "core/house_says.h"
#include "core/text.h"
#include <mistfold/address.h>

static mf_building building(const mf_job *job)
{
    return job->n_house == 0 ? MF_BUILDING_DWELLING : job->house[0].building;
}

/* The unit that the job itself names; "" = none. */
static const char *jobs_unit(const mf_job *job)
{
    return job->n_house == 0 ? "" : mf_or_empty(job->house[0].unit);
}

/* ---- work areas ---------------------------------------------------------------------- */

const char *mf_area_unit(const mf_job *job, const mf_area *area)
{
    return mf_given(area->unit) ? area->unit : jobs_unit(job);
}

/* An exterior area is common unless somebody says that it is part of a unit (EPA's answer
 * on whom exterior work affects): more are told, not fewer. */
mf_within mf_area_within(const mf_job *job, const mf_area *area)
{
    if (area->common == MF_YES)
        return mf_given(area->unit) ? MF_WITHIN_BOTH : MF_WITHIN_COMMON;
    if (area->side == MF_SIDE_EXTERIOR && !mf_given(area->unit) && area->common != MF_NOT)
        return MF_WITHIN_COMMON_PRESUMED;
    return mf_given(mf_area_unit(job, area)) ? MF_WITHIN_UNIT : MF_WITHIN_UNSAID;
}

/* ---- units worked in ------------------------------------------------------------------- */

size_t mf_units_most(const mf_job *job)
{
    return job->n_area + 1;
}

static bool unit_of_area(const mf_job *job, const mf_area *area, const char **unit)
{
    mf_within within = mf_area_within(job, area);
    *unit = within == MF_WITHIN_UNSAID ? NULL : mf_area_unit(job, area);
    return within != MF_WITHIN_COMMON && within != MF_WITHIN_COMMON_PRESUMED;
}

/* 0 is the job as a whole: the dwelling, or as long as no area is laid out its unit; then
 * come the areas. */
static bool unit_of_place(const mf_job *job, size_t i, const char **unit)
{
    *unit = "";
    if (building(job) == MF_BUILDING_DWELLING)
        return i == 0;
    if (building(job) != MF_BUILDING_MULTI)
        return false;
    if (i > 0)
        return unit_of_area(job, &job->area[i - 1], unit);
    *unit = jobs_unit(job);
    return job->n_area == 0 && mf_given(*unit);
}

static bool same_unit(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : mf_same_unit(a, b);
}

bool mf_area_of_unit(const mf_job *job, const mf_area *area, const char *unit)
{
    const char *own;
    return unit_of_area(job, area, &own) && same_unit(own, unit);
}

bool mf_unit_at(const mf_job *job, size_t i, const char **unit)
{
    const char *earlier;
    if (!unit_of_place(job, i, unit))
        return false;
    for (size_t k = 0; k < i; k++) {
        if (unit_of_place(job, k, &earlier) && same_unit(earlier, *unit))
            return false;
    }
    return true;
}

bool mf_unit_worked(const mf_job *job, const char *unit)
{
    const char *it;
    for (size_t i = 0; i < mf_units_most(job); i++) {
        if (unit_of_place(job, i, &it) && same_unit(it, unit))
            return true;
    }
    return false;
}

bool mf_area_in_common(const mf_job *job, const mf_area *area)
{
    return mf_area_within(job, area) != MF_WITHIN_UNIT;
}

bool mf_common_worked(const mf_job *job)
{
    if (building(job) != MF_BUILDING_MULTI)
        return false;
    for (size_t i = 0; i < job->n_area; i++) {
        if (mf_area_in_common(job, &job->area[i]))
            return true;
    }
    return job->n_area == 0 && !mf_given(jobs_unit(job));
}

/* ---- who lives there --------------------------------------------------------------------- */

const char *mf_unit_of(const mf_job *job, const mf_party *occupant)
{
    if (building(job) != MF_BUILDING_MULTI)
        return "";
    const char *unit = mf_given(occupant->unit) ? occupant->unit : jobs_unit(job);
    return mf_given(unit) ? unit : NULL;
}

const char *mf_vacant_unit(const mf_job *job, const mf_vacancy *vacancy)
{
    bool own = mf_given(vacancy->unit) && !mf_same_unit(vacancy->unit, jobs_unit(job));
    if (building(job) != MF_BUILDING_MULTI)
        return own ? NULL : ""; /* of another unit than the one it is */
    const char *unit = own ? vacancy->unit : jobs_unit(job);
    return mf_given(unit) ? unit : NULL;
}

bool mf_lives_in(const mf_job *job, const mf_party *party, const char *unit)
{
    return unit != NULL && party->role == MF_ROLE_OCCUPANT &&
           same_unit(mf_unit_of(job, party), unit);
}

const mf_party *mf_first_occupant(const mf_job *job, const char *unit)
{
    for (size_t i = 0; i < job->n_party; i++) {
        if (mf_lives_in(job, &job->party[i], unit))
            return &job->party[i];
    }
    return NULL;
}

/* The earliest of several. */
const mf_vacancy *mf_vacancy_of(const mf_job *job, const char *unit)
{
    const mf_vacancy *first = NULL;
    for (size_t i = 0; i < job->n_vacancy; i++) {
        const mf_vacancy *it = &job->vacancy[i];
        if (unit != NULL && it->on != MF_DAY_NONE && same_unit(mf_vacant_unit(job, it), unit) &&
            (first == NULL || it->on < first->on))
            first = it;
    }
    return first;
}

bool mf_vacant(const mf_job *job, const char *unit, mf_day begins)
{
    const mf_vacancy *it = mf_vacancy_of(job, unit);
    return it != NULL && it->on <= begins && mf_first_occupant(job, unit) == NULL;
}

bool mf_owner_in(const mf_job *job, const char *unit)
{
    mf_house_says other;
    bool there = job->n_house > 0 && job->house[0].owner_occupied == MF_YES;
    if (!there || unit == NULL || mf_owner_doubted(job, &other))
        return false;
    return building(job) == MF_BUILDING_DWELLING ||
           (mf_given(unit) && mf_same_unit(jobs_unit(job), unit));
}
