/* When the work begins in a unit or in common areas: the paragraphs count their days to it, unit by
 * unit, and not to the day on which the job begins somewhere else. 40 CFR 745.84(a), (b). */
#include "core/begins.h"

#include "core/occupied_units.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

typedef struct place {
    bool common;
    const char *unit;
} place;

static bool lies_in(const mf_job *job, const mf_area *area, const place *at)
{
    return at->common ? mf_area_in_common(job, area) : mf_area_of_unit(job, area, at->unit);
}

/* Whether any entry of the area puts it there: two devices may have drawn it differently. Work in
 * an area that is not listed may have been anywhere. */
static bool id_lies_in(const mf_job *job, const char *area, const place *at)
{
    bool listed = false;
    for (size_t i = 0; i < job->n_area; i++) {
        if (!mf_same(job->area[i].id, area))
            continue;
        if (lies_in(job, &job->area[i], at))
            return true;
        listed = true;
    }
    return !listed;
}

static mf_day first_day(const mf_job *job, const place *at, bool planned)
{
    mf_day first = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if ((it->planned == MF_YES) == planned && id_lies_in(job, it->area, at))
            first = mf_earlier_of(first, it->on);
    }
    return first;
}

/* What comes after work was logged, though no work: on which day it began nobody said. */
static bool cleaned(const mf_job *job, const place *at)
{
    for (size_t i = 0; i < job->n_verification; i++)
        if (id_lies_in(job, job->verification[i].area, at))
            return true;
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_is_cleaning(&job->tick[i]) && id_lies_in(job, job->tick[i].area, at))
            return true;
    return false;
}

/* A plan does not hold for the area that is asked about: there work may begin at once. */
static mf_day planned_day(const mf_asked *asked, const place *at)
{
    bool elsewhere = mf_given(asked->area) && !id_lies_in(asked->job, asked->area, at);
    mf_day day = elsewhere ? first_day(asked->job, at, true) : MF_DAY_NONE;
    return day == MF_DAY_NONE ? asked->start : day;
}

static mf_day begins_at(const mf_asked *asked, const place *at)
{
    if (asked->house->building != MF_BUILDING_MULTI)
        return asked->begins;
    mf_day worked = first_day(asked->job, at, false);
    if (worked != MF_DAY_NONE)
        return worked;
    if (asked->completed != MF_DAY_NONE || cleaned(asked->job, at))
        return asked->begins;
    return mf_later(asked->today, planned_day(asked, at));
}

mf_day mf_begins_in_unit(const mf_asked *asked, const char *unit)
{
    const place at = {false, unit};
    return begins_at(asked, &at);
}

mf_day mf_begins_in_common(const mf_asked *asked)
{
    const place at = {true, ""};
    return begins_at(asked, &at);
}

mf_day mf_begins_for(const mf_asked *asked, mf_role role, const char *unit)
{
    if (role == MF_ROLE_OCCUPANT)
        return mf_begins_in_unit(asked, unit);
    return role == MF_ROLE_UNITS ? asked->begins_common : asked->begins;
}
