/* How much paint is disturbed in each room and outside, in this job and in others
 * of the same room within 30 days. 40 CFR 745.83, minor repair and maintenance. */
#include "core/minor.h"

#include "core/opening_parts.h"
#include "core/reach.h"
#include "core/spelling.h"
#include "core/text.h"
#include "core/unlisted_work.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/emergency.h>
#include <mistfold/paint.h>
#include <mistfold/place.h>

const char *mf_room_of(const mf_job *job, const mf_component *component)
{
    if (mf_given(component->room))
        return component->room;
    const mf_opening *opening = mf_job_opening(job, component->opening);
    return mf_given(component->opening) && opening != NULL ? mf_or_empty(opening->room) : "";
}

/* ---- one room, or the outside -------------------------------------------------- */

typedef struct spot {
    mf_side side;
    const char *room;
    int64_t sum;
    bool known; /* every area is */
    size_t n_earlier;
} spot;

/* What has no known room counts in every room, and what is "upstairs" in each that may lie there;
 * these are not added up for it. What is added up is never too much. */
static bool in_spot(const spot *at, mf_side side, const char *room)
{
    if (side != at->side)
        return false;
    if (side == MF_SIDE_EXTERIOR || !mf_given(room))
        return true;
    return mf_tells_a_room(room) && !mf_tells_a_room(at->room)
               ? mf_may_be_one_room(room, at->room)
               : mf_may_count_as_one_room(room, at->room);
}

static void add(spot *at, int64_t area)
{
    if (area < 0) /* MF_NUM_NONE is negative */
        at->known = false;
    else
        at->sum = mf_add_area(at->sum, area);
}

void mf_days_of_job(const mf_job *job, const mf_house *house, mf_day *first, mf_day *last)
{
    mf_day completed = mf_completed_on(job);
    mf_day end = completed == MF_DAY_NONE ? house->end : completed;
    *first = mf_earlier_of(house->start, mf_worked_first(job, ""));
    *last = end == MF_DAY_NONE ? MF_DAY_NONE : mf_later(mf_later(end, mf_shown_last(job)), *first);
}

/* A job of which nobody said the last day may go on. */
static mf_day goes_on_until(mf_day first, mf_day last)
{
    return last == MF_DAY_NONE ? INT32_MAX : mf_later(first, last);
}

static bool near_in_time(const mf_job *job, const mf_earlier *other)
{
    mf_day first, last;
    mf_days_of_job(job, &job->house[0], &first, &last);
    if (first == MF_DAY_NONE || other->on == MF_DAY_NONE)
        return true; /* not known: together */
    mf_day until = goes_on_until(other->on, other->until);
    int64_t apart =
        first > until ? (int64_t)first - until : (int64_t)other->on - goes_on_until(first, last);
    return mf_limit_holds(mf_limit_for(job, MF_LIMIT_MINOR_DAYS, first), apart < 0 ? 0 : apart);
}

/* "Other than emergency renovations" (745.83): the book leaves them out of earlier, and an
 * emergency adds up with nothing, once somebody has written down what happened and nothing that was
 * said speaks against it: as for the information, which each emergency does without. */
static void add_earlier(const mf_job *job, spot *at)
{
    if (mf_emergency_waives(job, MF_WAIVE_PAMPHLET, MF_DAY_NONE) != NULL)
        return;
    for (size_t i = 0; i < job->n_earlier; i++) {
        const mf_earlier *it = &job->earlier[i];
        if (!near_in_time(job, it) || !in_spot(at, it->side, mf_or_empty(it->room)))
            continue;
        add(at, it->disturbed_sqft_100);
        at->n_earlier++;
    }
}

/* What counts of it as far as is known, or (kind) as if nothing came off that nobody speaks of. */
static int64_t area_of(const mf_job *job, const mf_component *component, bool kind)
{
    return kind ? mf_disturbed_area(job, component) : mf_minor_area(job, component);
}

static spot measure(const mf_job *job, mf_side side, const char *room, bool kind)
{
    spot at = {.side = side, .room = room, .known = true};
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *component = &job->component[i];
        if (mf_paint_disturbed(job, component) &&
            in_spot(&at, component->side, mf_room_of(job, component)))
            add(&at, area_of(job, component, kind));
    }
    at.sum = mf_more_disturbed(job, side, room, at.sum);
    add_earlier(job, &at);
    return at;
}

/* The spot of a part. One in a room that nobody said, or "upstairs", may be in any room of another
 * job that may be there: of these the one that is not known, or has most, decides. */
static spot most_of(const mf_job *job, const mf_component *component, bool kind)
{
    const char *room = mf_room_of(job, component);
    spot most = measure(job, component->side, room, kind);
    if (component->side != MF_SIDE_INTERIOR || mf_tells_a_room(room))
        return most;
    for (size_t i = 0; i < job->n_earlier && most.known; i++) {
        const mf_earlier *it = &job->earlier[i];
        if (it->side != MF_SIDE_INTERIOR || !mf_given(it->room) ||
            (mf_given(room) && !mf_may_count_as_one_room(room, it->room)))
            continue;
        spot at = measure(job, MF_SIDE_INTERIOR, it->room, kind);
        if (!at.known || at.sum > most.sum)
            most = at;
    }
    return most;
}

/* ---- the job --------------------------------------------------------------------- */

bool mf_method_never_minor(mf_method method)
{
    switch (method) {
    case MF_METHOD_OPEN_FLAME:
    case MF_METHOD_MACHINE:
    case MF_METHOD_HEAT_GUN:
    case MF_METHOD_BLASTING:
    case MF_METHOD_DEMOLITION: /* no method of 745.85(a)(3), but demolition is never minor */
        return true;
    case MF_METHOD_HAND:
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
    case MF_METHOD_STRIPPER:
        break;
    }
    return false;
}

/* Window replacement and demolition are never minor, nor is a job that used a
 * method that 745.85(a)(3) prohibits or restricts. */
static bool may_be_minor(const mf_job *job)
{
    if (mf_window_replaced(job) || mf_house_does(&job->house[0], MF_WORK_DEMOLITION))
        return false;
    for (size_t i = 0; i < job->n_practice; i++) {
        if (mf_method_never_minor(job->practice[i].method))
            return false;
    }
    return mf_all_listed(job);
}

/* The spot that is over, or else the one that disturbs most, is told. */
static void tell(mf_cover_answer *out, const spot *at, const mf_limit *limit)
{
    out->minor_limit = limit;
    out->minor_sqft_100 = at->known ? at->sum : MF_NUM_NONE;
    out->minor_room = at->side == MF_SIDE_INTERIOR ? at->room : "";
    out->n_earlier = at->n_earlier;
}

static bool areas_known(const mf_job *job, bool kind)
{
    for (size_t i = 0; i < job->n_component; i++) {
        if (mf_paint_disturbed(job, &job->component[i]) &&
            area_of(job, &job->component[i], kind) < 0)
            return false;
    }
    return true;
}

/* An opening that two entries put into different rooms may belong to either: what is added up
 * by room shows nothing. */
bool mf_room_disputed(const mf_job *job)
{
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i], *last = mf_job_opening(job, it->id);
        if (!mf_same_room(it->room, last->room) || !mf_same_room(it->elevation, last->elevation))
            return true;
    }
    return false;
}

/* A part of a window that comes off makes the work window replacement: where nobody said whether
 * it does, the work may be that. */
static bool may_replace_window(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_removal_unsaid(job, &job->component[i]) && mf_of_window(job, &job->component[i]))
            return true;
    return false;
}

/* A place's limit that comes into force while the job goes on holds for it as well. */
static const mf_limit *limit_of_days(const mf_job *job, mf_limit_id id, int64_t sum)
{
    mf_day first, last, start = job->house[0].start;
    const mf_limit *limit = mf_limit_for(job, id, start);
    for (size_t i = 0; i < job->n_local_limit && mf_limit_holds(limit, sum); i++) {
        const mf_limit *row = &job->local_limit[i].row;
        if (row->id != id || row->from <= start)
            continue;
        mf_days_of_job(job, &job->house[0], &first, &last);
        if (row->from <= goes_on_until(first, last))
            limit = mf_limit_for(job, id, row->from);
    }
    return limit;
}

static bool within_all(const mf_job *job, mf_cover_answer *out, bool kind)
{
    if (!may_be_minor(job) || !areas_known(job, kind) || (!kind && may_replace_window(job)))
        return false;
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *component = &job->component[i];
        if (!mf_paint_disturbed(job, component))
            continue;
        bool inside = component->side == MF_SIDE_INTERIOR;
        spot at = most_of(job, component, kind);
        const mf_limit *limit =
            limit_of_days(job, inside ? MF_LIMIT_MINOR_INTERIOR : MF_LIMIT_MINOR_EXTERIOR, at.sum);
        bool within = at.known && mf_limit_holds(limit, at.sum);
        if (!within || out->minor_limit == NULL || at.sum > out->minor_sqft_100)
            tell(out, &at, limit);
        if (within)
            continue;
        if (inside)
            out->place = at.room;
        return false;
    }
    return out->minor_limit != NULL;
}

static const mf_component *first_unsaid(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool matters =
            mf_of_window(job, it) || mf_minor_area(job, it) != mf_disturbed_area(job, it);
        if (mf_removal_unsaid(job, it) && matters)
            return it;
    }
    return NULL;
}

bool mf_minor(const mf_job *job, mf_cover_answer *out)
{
    if (within_all(job, out, false))
        return true;
    const mf_component *unsaid = first_unsaid(job);
    mf_cover_answer if_it_stays = *out;
    if (unsaid != NULL && within_all(job, &if_it_stays, true))
        out->minor_unsaid = unsaid;
    else if (unsaid != NULL) /* too much, though nothing came off */
        *out = if_it_stays;
    return false;
}
