/* The rooms that a clearance sample is of, by the words of its place: a wipe is of one room, a
 * composite of at most as many as it has wipes. 40 CFR 745.227(e)(8)(v), (vii). */
#include "core/dust_rooms.h"

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
