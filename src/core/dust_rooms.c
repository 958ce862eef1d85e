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

static const mf_area *area_inside(const mf_job *job, const mf_dust_sample *sample)
{
    return mf_sampled_outside(sample) ? NULL : mf_job_area(job, sample->area);
}

/* "All the components represented by the failed composite": the rooms that its words name, or,
 * where they name none, any of its area. Of which of two rooms a single wipe was nobody knows. */
const char *mf_next_room_again(const mf_job *job, const mf_dust_sample *sample, size_t *at)
{
    const char *words = mf_or_empty(sample->place);
    const mf_area *area = area_inside(job, sample);
    bool composite = mf_wipes_of(sample) > 1;
    if (composite && mf_rooms_named(job, NULL, words) > 0)
        return mf_next_named_room(job, NULL, words, at);
    if (area == NULL)
        return NULL;
    if (composite)
        return mf_next_room(job, area, at);
    return mf_rooms_named(job, area, words) < 2 ? NULL : mf_next_named_room(job, area, words, at);
}

bool mf_of_several_rooms(const mf_job *job, const mf_dust_sample *sample)
{
    size_t at = 0;
    const char *first = mf_next_room_again(job, sample, &at), *next = first;
    while (next != NULL && mf_same_room(next, first))
        next = mf_next_room_again(job, sample, &at);
    return next != NULL;
}

/* ---- of which area ---------------------------------------------------------------------- */

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

/* The first room of the area it that the words name and that own has not. */
static const char *room_only_of(const mf_job *job, const mf_area *it, const mf_area *own,
                                const char *words)
{
    const char *room;
    size_t at = 0;
    while ((room = mf_next_named_room(job, it, words, &at)) != NULL && is_of(job, own, words, room))
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
        if (job->area[i].side == MF_SIDE_INTERIOR && !mf_same(job->area[i].id, own->id))
            room = room_only_of(job, &job->area[i], own, words);
    bool more = (int64_t)mf_rooms_named(job, NULL, words) > mf_wipes_of(sample);
    return more || !names_listed(job, own, words) ? room : NULL;
}
