/* The rooms of a work area, by its openings and components, and which of them somebody means who
 * writes down where a sample was wiped. */
#include "core/area_rooms.h"

#include "core/area_openings.h"
#include "core/minor.h"
#include "core/text.h"

/* What has a room: the openings of the area, then its components. NULL = not in the area, or no
 * room is said. */
static const char *room_at(const mf_job *job, const mf_area *area, size_t index)
{
    const char *room = "";
    if (index < job->n_opening) {
        const mf_opening *opening = &job->opening[index];
        room = mf_area_has_opening(job, area, opening) ? opening->room : "";
    } else {
        const mf_component *it = &job->component[index - job->n_opening];
        const mf_area *of = mf_job_area_of(job, it);
        room = of != NULL && mf_same(of->id, area->id) ? mf_room_of(job, it) : "";
    }
    return mf_given(room) ? room : NULL;
}

static bool is_first(const mf_job *job, const mf_area *area, size_t index, const char *room)
{
    for (size_t i = 0; i < index; i++) {
        const char *other = room_at(job, area, i);
        if (other != NULL && mf_same_room(other, room))
            return false;
    }
    return true;
}

const char *mf_area_room(const mf_job *job, const mf_area *area, size_t index)
{
    for (size_t i = 0; i < job->n_opening + job->n_component; i++) {
        const char *room = room_at(job, area, i);
        if (room != NULL && is_first(job, area, i, room) && index-- == 0)
            return room;
    }
    return NULL;
}

/* ---- in words ---------------------------------------------------------------------------- */

/* A letter or digit; of other scripts each byte is one. */
static bool in_word(char c)
{
    unsigned char byte = (unsigned char)c;
    return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') ||
           (byte >= 'a' && byte <= 'z') || byte >= 0x80;
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* The length of name where the words go on with it and it ends there; else 0. */
static size_t goes_on(const char *words, const char *name)
{
    size_t len = 0;
    while (name[len] != '\0' && lower(words[len]) == lower(name[len]))
        len++;
    return name[len] == '\0' && !in_word(words[len]) ? len : 0;
}

/* The room that the words go on with, by its own name or the id of its opening: of several the
 * longest, so that "bedroom 2" is not the bedroom. */
static size_t longest(const mf_job *job, const mf_area *area, const char *words, const char **room)
{
    size_t most = 0;
    for (size_t i = 0; i < job->n_opening + job->n_component; i++) {
        const char *own = room_at(job, area, i);
        if (own == NULL)
            continue;
        size_t len = goes_on(words, own);
        size_t by_id = i < job->n_opening ? goes_on(words, mf_or_empty(job->opening[i].id)) : 0;
        len = by_id > len ? by_id : len;
        if (len > most) {
            most = len;
            *room = own;
        }
    }
    return most;
}

bool mf_room_named(const mf_job *job, const mf_area *area, const char *words, const char *room)
{
    for (size_t i = 0; words[i] != '\0';) {
        const char *named = "";
        bool begins = i == 0 || !in_word(words[i - 1]);
        size_t len = begins ? longest(job, area, words + i, &named) : 0;
        if (len > 0 && mf_same_room(named, room))
            return true;
        i += len > 0 ? len : 1;
    }
    return false;
}

size_t mf_rooms_named(const mf_job *job, const mf_area *area, const char *words)
{
    size_t n = 0;
    const char *room;
    for (size_t i = 0; (room = mf_area_room(job, area, i)) != NULL; i++)
        n += mf_room_named(job, area, words, room);
    return n;
}
