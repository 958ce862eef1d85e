/* The list of what is wiped in an interior work area (sills, countertops, floors without
 * carpet), and what it lacks. 40 CFR 745.85(b)(1)(ii)(A)-(B). */
#include "core/surfaces.h"

#include "core/area_openings.h"
#include "core/area_rooms.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/place.h>

/* ---- sections of a floor or countertop --------------------------------------------------------
 */

/* As few parts as each may be large: "less than 40" or, in some place, "up to 30". */
enum { SECTIONS_MAX = 100000 }; /* what a section's number can be */

static int64_t parts(const mf_limit *part, int64_t size)
{
    int64_t most = part->value < 1 ? 1 : part->value;
    int64_t n = part->cmp == MF_LT ? size / most + 1 : (size + most - 1) / most;
    if (n < 2)
        n = 2; /* it is divided */
    return n > SECTIONS_MAX ? SECTIONS_MAX : n;
}

int64_t mf_sections_for(const mf_job *job, int64_t size_sqft_100)
{
    mf_day day = job == NULL || job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    const mf_limit *undivided = mf_limit_for(job, MF_LIMIT_SECTION_UNDIVIDED, day);
    const mf_limit *part = mf_limit_for(job, MF_LIMIT_SECTION_PART, day);
    if (size_sqft_100 <= 0 || part == NULL || mf_limit_holds(undivided, size_sqft_100))
        return 1;
    return parts(part, size_sqft_100);
}

int64_t mf_sections_of(const mf_job *job, const mf_surface *surface)
{
    return surface->kind == MF_SURFACE_SILL ? 1 : mf_sections_for(job, surface->size_sqft_100);
}

static int64_t count_floors(const mf_job *job, const char *area)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_surface; i++)
        n += job->surface[i].kind == MF_SURFACE_FLOOR && mf_same(job->surface[i].area, area);
    return n;
}

static bool is_of_room(const char *place, const char *room)
{
    return mf_may_be_one_room(place, room) || mf_words_hold(mf_or_empty(place), room);
}

/* Whether the place of a sill is a room in which the area has no window, or a window of elsewhere:
 * that one is wiped beside those of the area, and not for one of them (745.85(b)(1)(ii)(A)). */
static bool is_sill_of_elsewhere(const mf_job *job, const mf_area *area, const char *place)
{
    const mf_opening *window = mf_job_opening(job, place);
    if (window != NULL)
        return !mf_area_has_opening(job, area, window) && !mf_window_beside(job, area, window);
    bool any = false;
    for (size_t i = 0; i < job->n_opening && mf_tells_a_room(place); i++) {
        const mf_opening *it = &job->opening[i];
        if (it->kind != MF_OPENING_WINDOW ||
            (!mf_area_has_opening(job, area, it) && !mf_window_beside(job, area, it)))
            continue;
        if (!mf_given(it->room) || is_of_room(place, it->room) || mf_words_hold(place, it->id))
            return false;
        any = true;
    }
    return any;
}

/* Two surfaces of one window of the schedule are one sill; a room may have several. */
int64_t mf_sills_listed(const mf_job *job, const mf_area *area)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *it = &job->surface[i];
        if (it->kind != MF_SURFACE_SILL || !mf_same(it->area, area->id) ||
            is_sill_of_elsewhere(job, area, it->place))
            continue;
        bool again = false;
        for (size_t k = 0; k < i && !again && mf_job_opening(job, it->place) != NULL; k++)
            again = job->surface[k].kind == MF_SURFACE_SILL &&
                    mf_same(job->surface[k].area, area->id) &&
                    mf_same(job->surface[k].place, it->place);
        n += !again;
    }
    return n;
}

/* Whether there is a window nobody listed: closed ones there are, and of others somebody must
 * say that there is none. */
static const char *window_unlisted(const mf_job *job, const mf_area *area)
{
    const mf_tick *tick = NULL;
    const mf_step *step = mf_step_named("windows-closed");
    mf_step_state state = step == NULL ? MF_STEP_OPEN : mf_step_judge(job, area, step, &tick);
    if (state == MF_STEP_NOT_NEEDED)
        return NULL;
    bool closed = tick != NULL && tick->state == MF_TICK_DONE;
    return closed ? "sill-of-closed-window" : "sill-unsaid";
}

/* Where somebody mopped there is a floor without carpet. */
static bool mopped(const mf_job *job, const mf_area *area)
{
    const mf_step *mop = mf_step_named("mop");
    return mop != NULL && mf_step_judge(job, area, mop, NULL) == MF_STEP_DONE;
}

/* A floor of that room; of one with a note somebody said what takes up the rest. */
static bool has_floor(const mf_job *job, const mf_area *area, const char *room)
{
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *it = &job->surface[i];
        if (it->kind == MF_SURFACE_FLOOR && mf_same(it->area, area->id) &&
            (mf_given(it->note) || is_of_room(it->place, room)))
            return true;
    }
    return false;
}

const char *mf_room_without_floor(const mf_job *job, const mf_area *area)
{
    const char *room;
    size_t at = 0;
    while ((room = mf_next_room(job, area, &at)) != NULL)
        if (!is_of_room(area->place, room) && !has_floor(job, area, room))
            return room;
    return NULL;
}

const char *mf_surfaces_lack(const mf_job *job, const mf_area *area)
{
    int64_t sills = mf_sills_listed(job, area);
    if (sills < mf_area_sills(job, area))
        return "sills-missing";
    if (sills == 0 && mf_area_windows(job, area) == 0 && window_unlisted(job, area) != NULL)
        return window_unlisted(job, area);
    bool carpeted = area->carpet == MF_YES && !mopped(job, area);
    if (count_floors(job, area->id) == 0 && !carpeted)
        return "floor-missing";
    if (area->carpet != MF_YES && mf_room_without_floor(job, area) != NULL)
        return "floor-of-room-missing";
    return mf_countertops_lack(job, area);
}
