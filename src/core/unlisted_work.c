/* Work beside the list of components. 40 CFR 745.82(a)(1)-(3) free a renovation when each component
 * that it affects was shown free, and 745.83 counts what is disturbed in each room: of a part that
 * is on no list nobody knows either. That there is such a part is told by a method that was used, a
 * work area, a kind of work or a change of the work for which no component is listed. */
#include "core/unlisted_work.h"

#include "core/area_openings.h"
#include "core/area_rooms.h"
#include "core/kind_rows.h"
#include "core/minor.h"
#include "core/opening_parts.h"
#include "core/reach.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/paint.h>
#include <mistfold/stage.h>

/* ---- where ---------------------------------------------------------------------------- */

/* Whether the place of a work area may be of the room: "west half of the kitchen". */
static bool place_speaks_of(const mf_area *area, const char *room)
{
    return mf_given(room) && mf_words_hold(mf_or_empty(area->place), room);
}

/* The bytes of what joins one room to the next, or to what is said of it; 0 = it is none. */
static size_t joint(const char *at)
{
    static const char *const words[] = {"and ", "y "};
    size_t blanks = strspn(at, " ");
    at += blanks;
    if (*at != '\0' && strchr(",;/&+()", *at) != NULL)
        return blanks + 1 + strspn(at + 1, " ");
    for (size_t i = 0; blanks > 0 && i < sizeof words / sizeof words[0]; i++)
        if (strncmp(at, words[i], strlen(words[i])) == 0)
            return blanks + strlen(words[i]) + strspn(at + strlen(words[i]), " ");
    return 0;
}

/* Whether the place is the room, alone or among others: "kitchen and dining room", "kitchen, west
 * end". The bedroom is not in "bedroom 2". */
static bool place_is(const mf_area *area, const char *room)
{
    bool begins = true;
    if (mf_given(room) && mf_same_room(area->place, room))
        return true;
    for (const char *at = mf_or_empty(area->place); mf_given(room) && *at != '\0';) {
        const char *end = at + (begins ? mf_goes_on(at, room) : 0);
        if (end > at && (end[strspn(end, " ")] == '\0' || joint(end) > 0))
            return true;
        begins = joint(at) > 0;
        at += begins ? joint(at) : 1;
    }
    return false;
}

/* By its opening, which another device may have withdrawn: the area lists it all the same. */
static bool reaches_through(const mf_job *job, const mf_area *area, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(job, component->opening);
    return mf_id_in_list(area->openings, component->opening) ||
           (opening != NULL && mf_area_has_opening(job, area, opening));
}

/* What has no known room may be anywhere on its side, and shows no area to be listed. */
bool mf_listed_in(const mf_job *job, const mf_area *area, const mf_component *component)
{
    return area->side == component->side &&
           (reaches_through(job, area, component) || place_is(area, mf_room_of(job, component)));
}

static bool paint_listed(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_listed_in(job, area, &job->component[i]) &&
            mf_paint_disturbed(job, &job->component[i]))
            return true;
    return false;
}

/* An area may hold a side of an opening that has no painted part there: the other side will do. */
static bool something_listed(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool holds = reaches_through(job, area, it) || mf_listed_in(job, area, it);
        if (mf_component_disturbed(it) && holds)
            return true;
    }
    return false;
}

static bool says(mf_unlisted_work *out, const char *why, const char *what, const mf_src *src)
{
    *out = (mf_unlisted_work){why, mf_or_empty(what), mf_or_empty(src->entry)};
    return true;
}

/* Where the work was called off nothing is disturbed (745.83). A job that is judged for a day holds
 * no such word of a later one; what speaks against it leaves the area as any other. */
static bool given_up(const mf_job *job, const char *area)
{
    return mf_area_off(job, area, INT32_MAX);
}

/* A plan to disturb paint tells of it as well as work that was done. */
static bool practice_beside(const mf_job *job, mf_unlisted_work *out)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        const mf_area *area = mf_job_area(job, it->area);
        if ((area == NULL || !paint_listed(job, area)) && !given_up(job, it->area))
            return says(out, "worked-beside-list", it->area, &it->src);
    }
    return false;
}

/* A work area is where a renovation makes dust (745.83). */
static bool area_beside(const mf_job *job, mf_unlisted_work *out)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (!something_listed(job, &job->area[i]) && !given_up(job, job->area[i].id))
            return says(out, "area-beside-list", job->area[i].id, &job->area[i].src);
    return false;
}

/* ---- kinds of work -------------------------------------------------------------------------- */

/* Parts of what is replaced are there for the replacement. */
static bool of_replacement(const mf_job *job, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(job, component->opening);
    if (opening == NULL || !mf_opening_replaced(job, opening))
        return false;
    return mf_house_does(&job->house[0], opening->kind == MF_OPENING_WINDOW
                                             ? MF_WORK_WINDOW_REPLACEMENT
                                             : MF_WORK_DOOR_REPLACEMENT);
}

static bool listed_for(const mf_job *job, mf_work_kind work)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool stays = work == MF_WORK_DEMOLITION && it->removed == MF_NOT;
        if (mf_component_disturbed(it) && !stays && !of_replacement(job, it))
            return true;
    }
    return false;
}

static bool kind_beside(const mf_job *job, mf_unlisted_work *out)
{
    static const mf_work_kind kinds[] = {MF_WORK_DEMOLITION, MF_WORK_REPAIR, MF_WORK_OTHER};
    for (size_t i = 0; job->n_house > 0 && i < sizeof kinds / sizeof kinds[0]; i++)
        if (mf_house_does(&job->house[0], kinds[i]) && !listed_for(job, kinds[i]))
            return says(out, "kind-beside-list", mf_choices_work[kinds[i]], &job->house[0].src);
    return false;
}

/* Work that goes beyond what was told may go beyond the list. */
static bool change_beside(const mf_job *job, mf_unlisted_work *out)
{
    for (size_t i = 0; i < job->n_scope_change; i++)
        if (job->scope_change[i].listed != MF_YES)
            return says(out, "change-beside-list", job->scope_change[i].what,
                        &job->scope_change[i].src);
    return false;
}

/* What the job is said to be, and no window is listed. */
static bool window_beside(const mf_job *job, mf_unlisted_work *out)
{
    return mf_window_described(job) &&
           says(out, "window-beside-list", job->house[0].id, &job->house[0].src);
}

bool mf_work_unlisted(const mf_job *job, mf_unlisted_work *out)
{
    *out = (mf_unlisted_work){NULL, "", ""};
    return practice_beside(job, out) || kind_beside(job, out) || change_beside(job, out) ||
           area_beside(job, out) || window_beside(job, out);
}

/* ---- how much --------------------------------------------------------------------------- */

static bool in_room(const mf_job *job, const mf_practice *it, mf_side side, const char *room)
{
    const mf_area *area = mf_job_area(job, it->area);
    if (area == NULL)
        return true; /* it may be anywhere */
    return area->side == side &&
           (side == MF_SIDE_EXTERIOR || !mf_given(room) || place_speaks_of(area, room));
}

/* Spots of one room are added up: that two entries mean the same one is said by nobody. What was
 * planned is not disturbed once more by the work itself. */
int64_t mf_worked_dry(const mf_job *job, mf_side side, const char *room)
{
    int64_t done = 0, planned = 0;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        int64_t *sum = it->planned == MF_YES ? &planned : &done;
        if (it->spot_sqft_100 > 0 && in_room(job, it, side, room))
            *sum = mf_add_area(*sum, it->spot_sqft_100);
    }
    return done > planned ? done : planned;
}

int64_t mf_more_disturbed(const mf_job *job, mf_side side, const char *room, int64_t listed)
{
    int64_t dry = mf_worked_dry(job, side, room);
    return listed != MF_NUM_NONE && dry > listed ? dry : listed;
}
