/* area_rooms.h - the rooms of a work area, and which of them a place in words lies in. */
#ifndef MF_CORE_AREA_ROOMS_H
#define MF_CORE_AREA_ROOMS_H

#include <mistfold/job.h>

/* Of each of these area may be NULL: all rooms of the job. *at is the caller's and begins with 0;
 * NULL = there are no more. */

/* One room after the other, each once: those of the openings of an interior area and of what was
 * listed in it without one; where these have none, the area is one by its place. */
const char *mf_next_room(const mf_job *job, const mf_area *area, size_t *at);

/* One room of the area after the other as the words name it, as "kitchen floor" or "W01 sill"
 * does; named twice it comes twice. */
const char *mf_next_named_room(const mf_job *job, const mf_area *area, const char *words,
                               size_t *at);
/* The same; *opening is the id by which it is named, or NULL: it is by its own name. */
const char *mf_next_named(const mf_job *job, const mf_area *area, const char *words, size_t *at,
                          const char **opening);
/* How many different ones there are, and whether a room is among them. */
size_t mf_rooms_named(const mf_job *job, const mf_area *area, const char *words);
bool mf_room_named(const mf_job *job, const mf_area *area, const char *words, const char *room);

/* Each opening that the words name, and each room that they name by its own name alone. */
size_t mf_components_named(const mf_job *job, const char *words);
/* Whether they name an opening of the room by its id. */
bool mf_names_opening_of(const mf_job *job, const char *words, const char *room);

/* Whether the words of phrase stand in words one after the other, however they are spelled. */
bool mf_words_hold(const char *words, const char *phrase);
/* Whether they hold one of n phrases; words may be NULL. */
bool mf_words_hold_one(const char *words, const char *const *phrases, size_t n);

#endif
