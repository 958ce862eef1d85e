/* Whether the rule covers the job. What the house or the contract says is asked
 * before what the tests say, so that the answer rests on as little as it can:
 *
 *   1. explicitly not for compensation                    745.82(a), 745.80
 *   2. built in 1978 or later                              745.103, 745.83
 *   3. for the elderly or the disabled, or no bedroom, and explicitly no child
 *      under 6; never a child-occupied facility            745.103
 *   4. nothing painted is disturbed                        745.83 renovation
 *   5. every painted component disturbed is shown free     745.82(a)(1)-(3)
 *   6. minor repair and maintenance                        745.83
 *
 * An emergency is reported and stays covered: 745.82(b) relieves of single
 * duties only. Other jobs in the same room within 30 days are not known to one
 * job and are left to the person (745.83). */
#include <mistfold/house.h>

#include "core/text.h"
#include <mistfold/limit.h>
#include <mistfold/paint.h>

/* ---- the house ---------------------------------------------------------------- */

static bool built_later(const mf_house *house)
{
    return house->year_built != MF_NUM_NONE &&
           !mf_limit_holds(mf_limit_on(MF_LIMIT_YEAR_BUILT, house->start), house->year_built);
}

static bool without_children(const mf_house *house)
{
    return house->building != MF_BUILDING_FACILITY && house->child_under_6 == MF_NOT;
}

static bool house_exempt(const mf_house *house, mf_cover_why *why)
{
    if (house->for_compensation == MF_NOT)
        *why = MF_COVER_NOT_FOR_PAY;
    else if (built_later(house))
        *why = MF_COVER_BUILT_LATER;
    else if (house->elder_or_disabled == MF_YES && without_children(house))
        *why = MF_COVER_ELDER_HOUSING;
    else if (house->zero_bedroom == MF_YES && without_children(house))
        *why = MF_COVER_ZERO_BEDROOM;
    else
        return false;
    return true;
}

/* ---- the paint the work disturbs ------------------------------------------------- */

static bool disturbed(const mf_component *component)
{
    return component->affected != MF_NOT;
}

static bool paint_disturbed(const mf_component *component)
{
    return disturbed(component) && component->painted != MF_NOT;
}

static size_t count_disturbed(const mf_job *job)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_component; i++)
        n += disturbed(&job->component[i]);
    return n;
}

static void count_paint(const mf_job *job, mf_cover_answer *out)
{
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        if (!paint_disturbed(&job->component[i]))
            continue;
        out->n_affected++;
        mf_paint_judge(job, &job->component[i], &finding);
        out->n_free += finding.verdict == MF_PAINT_FREE;
    }
}

/* An empty list exempts nothing: somebody must have said what is disturbed. */
static bool paint_exempt(const mf_job *job, const mf_cover_answer *answer, mf_cover_why *why)
{
    if (answer->n_affected == 0 && count_disturbed(job) > 0)
        *why = MF_COVER_NOTHING_PAINTED;
    else if (answer->n_affected > 0 && answer->n_free == answer->n_affected)
        *why = MF_COVER_ALL_FREE;
    else
        return false;
    return true;
}

/* ---- minor repair and maintenance --------------------------------------------------- */

static int lower(char c)
{
    return c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c;
}

/* "kitchen" and "Kitchen" are one room: taking them for two would halve the sum. */
static bool same_room(const char *a, const char *b)
{
    size_t i = 0;
    while (a[i] != '\0' && lower(a[i]) == lower(b[i]))
        i++;
    return lower(a[i]) == lower(b[i]);
}

static const char *room_of(const mf_job *job, const mf_component *component)
{
    if (mf_given(component->room))
        return component->room;
    const mf_opening *opening = mf_job_opening(job, component->opening);
    return mf_given(component->opening) && opening != NULL ? mf_or_empty(opening->room) : "";
}

static bool area_known(const mf_component *component)
{
    return component->disturbed_sqft_100 >= 0; /* MF_NUM_NONE is negative */
}

/* A component whose room is not known counts in every room. */
static bool counts_in(const mf_job *job, const mf_component *component, mf_side side,
                      const char *room)
{
    if (!paint_disturbed(component) || component->side != side)
        return false;
    const char *own = room_of(job, component);
    return side == MF_SIDE_EXTERIOR || !mf_given(own) || same_room(own, room);
}

/* Whether what is disturbed in the room, or outside, stays within the limit. */
static bool within(const mf_job *job, mf_side side, const char *room)
{
    const mf_limit *limit =
        mf_limit_on(side == MF_SIDE_EXTERIOR ? MF_LIMIT_MINOR_EXTERIOR : MF_LIMIT_MINOR_INTERIOR,
                    job->house[0].start);
    int64_t sum = 0;
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *component = &job->component[i];
        if (!counts_in(job, component, side, room))
            continue;
        /* Each part first, so that the sum cannot overflow. */
        if (!mf_limit_holds(limit, component->disturbed_sqft_100))
            return false;
        sum += component->disturbed_sqft_100;
        if (!mf_limit_holds(limit, sum))
            return false;
    }
    return true;
}

/* Window replacement and demolition are never minor, nor is a job that used a
 * method that 745.85(a)(3) prohibits or restricts. */
static bool may_be_minor(const mf_job *job)
{
    mf_work_kind work = job->house[0].work;
    if (work == MF_WORK_WINDOW_REPLACEMENT || work == MF_WORK_DEMOLITION)
        return false;
    for (size_t i = 0; i < job->n_practice; i++) {
        if (job->practice[i].method != MF_METHOD_HAND)
            return false;
    }
    return true;
}

static bool all_areas_known(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++) {
        if (paint_disturbed(&job->component[i]) && !area_known(&job->component[i]))
            return false;
    }
    return true;
}

/* *place is set to the room that is over the limit; outside has no room. */
static bool minor(const mf_job *job, const char **place)
{
    if (!may_be_minor(job) || !all_areas_known(job))
        return false;
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *component = &job->component[i];
        const char *room = room_of(job, component);
        if (!paint_disturbed(component) || within(job, component->side, room))
            continue;
        if (component->side == MF_SIDE_INTERIOR)
            *place = room;
        return false;
    }
    return true;
}

void mf_cover_judge(const mf_job *job, mf_cover_answer *out)
{
    *out = (mf_cover_answer){.cover = MF_COVER_YES, .why = MF_COVER_YEAR_UNKNOWN, .place = ""};
    count_paint(job, out);
    if (job->n_house == 0)
        return;
    const mf_house *house = &job->house[0];
    out->emergency = house->emergency == MF_YES;
    if (house->year_built != MF_NUM_NONE)
        out->why = MF_COVER_BUILT_BEFORE;
    if (house_exempt(house, &out->why) || paint_exempt(job, out, &out->why)) {
        out->cover = MF_COVER_NO;
    } else if (out->n_affected > 0 && minor(job, &out->place)) {
        out->cover = MF_COVER_NO;
        out->why = MF_COVER_MINOR;
    }
}
