/* The rooms that a clearance sample is of, by the words of its place: a wipe is of one room, a
 * composite of at most as many as it has wipes. 40 CFR 745.227(e)(8)(v), (vii). */
#include "core/dust_rooms.h"

#include "core/area_openings.h"
#include "core/area_rooms.h"
#include "core/audit_rows.h"
#include "core/minor.h"
#include "core/text.h"

int64_t mf_wipes_of(const mf_dust_sample *sample)
{
    return sample->wipes < 1 ? 1 : sample->wipes; /* MF_NUM_NONE is below 0 */
}

bool mf_sample_in_room(const mf_job *job, const mf_dust_sample *sample, const mf_area *area,
                       const char *room)
{
    const char *words = mf_or_empty(sample->place);
    return mf_room_named(job, area, words, room) &&
           (int64_t)mf_rooms_named(job, NULL, words) <= mf_wipes_of(sample);
}

/* A wipe of a floor is of its room, others of what was wiped: the openings that are named. */
static int64_t components(const mf_job *job, const mf_dust_sample *sample)
{
    const char *words = mf_or_empty(sample->place);
    bool floor = sample->surface == MF_DUST_FLOOR;
    return (int64_t)(floor ? mf_rooms_named(job, NULL, words) : mf_components_named(job, words));
}

int64_t mf_dust_wipes(const mf_job *job, const mf_dust_sample *sample)
{
    int64_t wipes = sample->wipes < 1 ? components(job, sample) : sample->wipes;
    return wipes < 1 ? 1 : wipes;
}

bool mf_sample_of(const mf_job *job, const mf_dust_sample *sample, const mf_area *area,
                  const mf_stood_for *what)
{
    const char *words = mf_or_empty(sample->place);
    bool itself = what->opening == NULL || mf_words_hold(words, what->opening) ||
                  !mf_names_opening_of(job, words, what->room);
    return itself && mf_room_named(job, area, words, what->room) &&
           components(job, sample) <= mf_wipes_of(sample);
}

bool mf_names_unlisted(const mf_job *job, const char *words, const char *opening)
{
    return mf_given(opening) && mf_job_opening(job, opening) == NULL &&
           mf_words_hold(mf_or_empty(words), opening);
}

static bool names_any_unlisted(const mf_job *job, const char *words)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_names_unlisted(job, words, job->component[i].opening))
            return true;
    return false;
}

static const mf_area *area_inside(const mf_job *job, const mf_dust_sample *sample)
{
    return mf_sampled_outside(sample) ? NULL : mf_job_area(job, sample->area);
}

static void next_named(const mf_job *job, const mf_area *area, const mf_dust_sample *sample,
                       size_t *at, mf_stood_for *what)
{
    what->room = mf_next_named(job, area, mf_or_empty(sample->place), at, &what->opening);
    if (sample->surface == MF_DUST_FLOOR)
        what->opening = NULL;
}

/* "All the components represented by the failed composite": what its words name, or, where they
 * name nothing, any room of its area; of the one room of an area they may be any window of it, and
 * the same words alone tell of it, as they do of a window without a room. Of which of two rooms a
 * single wipe was nobody knows. */
bool mf_next_again(const mf_job *job, const mf_dust_sample *sample, size_t *at, mf_stood_for *what)
{
    const char *words = mf_or_empty(sample->place);
    const mf_area *area = area_inside(job, sample);
    bool composite = mf_dust_wipes(job, sample) > 1;
    *what = (mf_stood_for){NULL, NULL, NULL};
    if (composite && mf_rooms_named(job, NULL, words) > 0)
        next_named(job, NULL, sample, at, what);
    else if (area != NULL && composite)
        what->room = mf_is_one_room(job, area) || names_any_unlisted(job, words)
                         ? NULL
                         : mf_next_room(job, area, at);
    else if (area != NULL && mf_rooms_named(job, area, words) > 1)
        next_named(job, area, sample, at, what);
    return what->room != NULL;
}

bool mf_of_several(const mf_job *job, const mf_dust_sample *sample)
{
    size_t at = 0;
    mf_stood_for first, next;
    bool more = mf_next_again(job, sample, &at, &first);
    while (more && (more = mf_next_again(job, sample, &at, &next)))
        if (!mf_same_room(next.room, first.room) || !mf_same(next.opening, first.opening))
            return true;
    return false;
}

/* ---- of which area ---------------------------------------------------------------------- */

bool mf_names_no_room_of_one(const mf_job *job, const mf_dust_sample *sample)
{
    const mf_area *area = area_inside(job, sample);
    return area != NULL && mf_is_one_room(job, area) &&
           mf_rooms_named(job, NULL, mf_or_empty(sample->place)) == 0;
}

bool mf_is_one_room(const mf_job *job, const mf_area *area)
{
    size_t at = 0;
    const char *first = mf_next_room(job, area, &at), *second = mf_next_room(job, area, &at);
    return first == NULL || second == NULL;
}

/* By what is listed in the area, or by the words of its place. */
static bool is_of(const mf_job *job, const mf_area *area, const char *words, const char *room)
{
    return mf_room_named(job, area, words, room) ||
           (mf_words_hold(words, room) && mf_room_named(job, NULL, mf_or_empty(area->place), room));
}

bool mf_lies_in(const mf_job *job, const mf_area *area, const mf_stood_for *what)
{
    return what->opening != NULL
               ? mf_area_has_opening(job, area, mf_job_opening(job, what->opening))
               : is_of(job, area, what->room, what->room);
}

static bool names_listed(const mf_job *job, const mf_area *area, const char *words)
{
    const char *room;
    size_t at = 0;
    while ((room = mf_next_named_room(job, NULL, words, &at)) != NULL)
        if (is_of(job, area, words, room))
            return true;
    for (size_t i = 0; i < job->n_opening; i++) /* also one that has no room */
        if (mf_words_hold(words, job->opening[i].id) &&
            mf_area_has_opening(job, area, &job->opening[i]))
            return true;
    return false;
}

/* An opening that no area lists is in the room that it has. */
bool mf_names_own_room(const mf_job *job, const mf_dust_sample *sample, const mf_area *area)
{
    const char *words = mf_or_empty(sample->place), *room;
    size_t at = 0;
    while ((room = mf_next_named_room(job, NULL, words, &at)) != NULL)
        if (mf_room_named(job, NULL, mf_or_empty(area->place), room))
            return true;
    return names_listed(job, area, words) || mf_words_hold(words, area->place);
}

/* Whether own has the room, or is it: the list outside has a window by its outside alone. */
static bool has_too(const mf_job *job, const mf_area *own, const mf_area *it, const char *words,
                    const char *room)
{
    return is_of(job, own, words, room) ||
           (it->side == MF_SIDE_EXTERIOR &&
            mf_room_named(job, NULL, mf_or_empty(own->place), room));
}

/* The first room of the area it that the words name and that own has not. */
static const char *room_only_of(const mf_job *job, const mf_area *it, const mf_area *own,
                                const char *words)
{
    const char *room;
    size_t at = 0;
    while ((room = mf_next_named_room(job, it, words, &at)) != NULL &&
           has_too(job, own, it, words, room))
        continue;
    return room;
}

const char *mf_sampled_elsewhere(const mf_job *job, const mf_dust_sample *sample)
{
    const mf_area *own = area_inside(job, sample);
    const char *words = mf_or_empty(sample->place), *room = NULL;
    if (own == NULL || own->side == MF_SIDE_EXTERIOR || sample->blank == MF_YES)
        return NULL;
    for (size_t i = 0; i < job->n_area && room == NULL; i++)
        if (!mf_same(job->area[i].id, own->id))
            room = room_only_of(job, &job->area[i], own, words);
    bool more = (int64_t)mf_rooms_named(job, NULL, words) > mf_wipes_of(sample);
    return more || !names_listed(job, own, words) ? room : NULL;
}
