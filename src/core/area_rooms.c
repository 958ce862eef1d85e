/* The rooms of a work area, by its openings and components, and which of them somebody means who
 * writes down where a sample was wiped. */
#include "core/area_rooms.h"

#include "core/area_openings.h"
#include "core/minor.h"
#include "core/spelling.h"
#include "core/text.h"

/* What has a room: the openings of the job, its components, then its areas. */
static size_t count(const mf_job *job)
{
    return job->n_opening + job->n_component + job->n_area;
}

/* NULL = it is an opening or a component. */
static const mf_area *area_at(const mf_job *job, size_t index)
{
    size_t listed = job->n_opening + job->n_component;
    return index < listed ? NULL : &job->area[index - listed];
}

/* "" = none is said. */
static const char *room_at(const mf_job *job, size_t index)
{
    if (index < job->n_opening)
        return mf_or_empty(job->opening[index].room);
    const mf_area *area = area_at(job, index);
    return area != NULL ? mf_or_empty(area->place)
                        : mf_room_of(job, &job->component[index - job->n_opening]);
}

/* Asked last: the lists and the plan of the area are searched for it. NULL = anywhere. */
static bool in_area(const mf_job *job, const mf_area *area, size_t index)
{
    if (area == NULL)
        return true;
    if (index < job->n_opening)
        return mf_area_has_opening(job, area, &job->opening[index]);
    if (area_at(job, index) != NULL)
        return mf_same(area_at(job, index)->id, area->id);
    const mf_component *it = &job->component[index - job->n_opening];
    const mf_area *of = mf_job_area_of(job, it);
    bool by_place =
        !mf_given(it->opening) && it->side == area->side; /* of two areas in a room both */
    return (of != NULL && mf_same(of->id, area->id)) ||
           (by_place && mf_given(it->room) && mf_same_room_words(it->room, area->place));
}

/* A wall outside is on a side of the house, whatever that is called, and in no room. */
static bool is_outside(const mf_job *job, size_t index)
{
    if (index < job->n_opening)
        return false;
    if (area_at(job, index) != NULL)
        return area_at(job, index)->side == MF_SIDE_EXTERIOR;
    const mf_component *it = &job->component[index - job->n_opening];
    return it->side == MF_SIDE_EXTERIOR && !mf_given(it->opening);
}

/* Whether what stands there has a room: an area is one by its place where it is inside and nothing
 * that has a room is listed in it. */
static bool has_room(const mf_job *job, size_t index)
{
    const mf_area *area = area_at(job, index);
    bool has = mf_given(room_at(job, index)) && !is_outside(job, index);
    for (size_t i = 0; has && area != NULL && i < job->n_opening + job->n_component; i++)
        has = !mf_given(room_at(job, i)) || !in_area(job, area, i);
    return has;
}

static bool is_first(const mf_job *job, const mf_area *area, size_t index, const char *room)
{
    for (size_t i = 0; i < index; i++)
        if (mf_same_room(room_at(job, i), room) && in_area(job, area, i) && has_room(job, i))
            return false;
    return true;
}

const char *mf_next_room(const mf_job *job, const mf_area *area, size_t *at)
{
    while (*at < count(job)) {
        size_t index = (*at)++;
        const char *room = room_at(job, index);
        if (in_area(job, area, index) && has_room(job, index) && is_first(job, area, index, room))
            return room;
    }
    return NULL;
}

/* ---- in words ---------------------------------------------------------------------------- */

bool mf_words_hold(const char *words, const char *phrase)
{
    for (size_t i = 0; words[i] != '\0'; i++)
        if (mf_word_begins(words, i) && mf_goes_on(words + i, phrase) > 0)
            return true;
    return false;
}

bool mf_words_hold_one(const char *words, const char *const *phrases, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (mf_words_hold(mf_or_empty(words), phrases[i]))
            return true;
    return false;
}

/* How far the words go on with what names the room there: the room, or the id of its opening. */
static size_t names(const mf_job *job, size_t index, const char *words)
{
    const char *room = room_at(job, index);
    size_t own = mf_goes_on(words, room);
    size_t by_id = index < job->n_opening ? mf_goes_on(words, job->opening[index].id) : 0;
    size_t len = own > by_id ? own : by_id;
    return len > 0 && has_room(job, index) ? len : 0;
}

/* A component that has no room but its opening's, which is named by itself. */
static bool of_opening(const mf_job *job, size_t index)
{
    if (index < job->n_opening || area_at(job, index) != NULL)
        return false;
    const mf_component *it = &job->component[index - job->n_opening];
    return mf_given(it->opening) && !mf_given(it->room);
}

/* How far the words go on with what names a room of the job: of several the longest, so that
 * "bedroom 2" is not the bedroom, whichever area it lies in. */
static size_t longest(const mf_job *job, const char *words)
{
    size_t most = 0;
    for (size_t i = 0; i < count(job); i++) {
        size_t len = of_opening(job, i) ? 0 : names(job, i, words);
        most = len > most ? len : most;
    }
    return most;
}

/* The next place from *at on where the words name something that has a room; *len is 0 when there
 * is no more. *at is then behind it. */
static const char *next_name(const mf_job *job, const char *words, size_t *at, size_t *len)
{
    *len = 0;
    while (words[*at] != '\0') {
        const char *here = words + *at;
        *len = mf_word_begins(words, *at) ? longest(job, here) : 0;
        *at += *len > 0 ? *len : 1;
        if (*len > 0)
            return here;
    }
    return words + *at;
}

/* What has a room of the area and is named there: that room, or any (NULL); or count(). */
static size_t named_by(const mf_job *job, const mf_area *area, const char *here, size_t len,
                       const char *room)
{
    size_t i = 0;
    while (i < count(job) &&
           (names(job, i, here) != len || (room != NULL && !mf_same_room(room_at(job, i), room)) ||
            !in_area(job, area, i)))
        i++;
    return i;
}

const char *mf_next_named(const mf_job *job, const mf_area *area, const char *words, size_t *at,
                          const char **opening)
{
    size_t len = 1, index = count(job);
    const char *here = words;
    while (index == count(job) && len > 0) {
        here = next_name(job, words, at, &len);
        index = len == 0 ? index : named_by(job, area, here, len, NULL);
    }
    bool by_id =
        index < job->n_opening && mf_goes_on(here, mf_or_empty(job->opening[index].id)) == len;
    *opening = by_id ? job->opening[index].id : NULL;
    return index == count(job) ? NULL : room_at(job, index);
}

const char *mf_next_named_room(const mf_job *job, const mf_area *area, const char *words,
                               size_t *at)
{
    const char *opening;
    return mf_next_named(job, area, words, at, &opening);
}

bool mf_room_named(const mf_job *job, const mf_area *area, const char *words, const char *room)
{
    size_t at = 0, len = 1;
    while (len > 0) {
        const char *here = next_name(job, words, &at, &len);
        if (len > 0 && named_by(job, area, here, len, room) < count(job))
            return true;
    }
    return false;
}

bool mf_names_opening_of(const mf_job *job, const char *words, const char *room)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_same_room(job->opening[i].room, room) && mf_words_hold(words, job->opening[i].id))
            return true;
    return false;
}

/* How many different ones: of openings each, and the room of one is no other. */
static size_t count_named(const mf_job *job, const mf_area *area, const char *words,
                          bool each_opening)
{
    size_t n = 0, at = 0;
    const char *room, *own, *other;
    while ((room = mf_next_named(job, area, words, &at, &own)) != NULL) {
        size_t before = 0, stop = at;
        if (each_opening && own == NULL && mf_names_opening_of(job, words, room))
            continue;
        const char *seen = mf_next_named(job, area, words, &before, &other);
        while (before < stop &&
               !(mf_same_room(seen, room) && (!each_opening || mf_same(own, other))))
            seen = mf_next_named(job, area, words, &before, &other);
        n += before == stop;
    }
    return n;
}

size_t mf_rooms_named(const mf_job *job, const mf_area *area, const char *words)
{
    return count_named(job, area, words, false);
}

size_t mf_components_named(const mf_job *job, const char *words)
{
    return count_named(job, NULL, words, true);
}
