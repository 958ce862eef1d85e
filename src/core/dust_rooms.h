/* dust_rooms.h - the rooms that a clearance sample is of. */
#ifndef MF_CORE_DUST_ROOMS_H
#define MF_CORE_DUST_ROOMS_H

#include <mistfold/job.h>

/* The wipes in it: 1 unless it is said to be a composite. */
int64_t mf_wipes_of(const mf_dust_sample *sample);

/* Whether it stands for the room, of that area or of any (NULL): its place names the room, and not
 * more of them than it has wipes. */
bool mf_sample_in_room(const mf_job *job, const mf_dust_sample *sample, const mf_area *area,
                       const char *room);

/* What its level is divided for: where its wipes are not said, what its place names, so that an
 * unsaid composite is held to its own level; at least 1. */
int64_t mf_dust_wipes(const mf_job *job, const mf_dust_sample *sample);

/* What a failed sample stood for, and must be sampled again. */
typedef struct mf_stood_for {
    const char *room;    /* NULL = the place is one, by its words */
    const char *opening; /* the id of one of that room; NULL = the room */
    const mf_area *in;   /* the area other than its own of which it is, NULL = no certain one */
} mf_stood_for;

/* One after the other. *at is the caller's and begins with 0; false = no more, *what is then empty.
 * One may come twice. */
bool mf_next_again(const mf_job *job, const mf_dust_sample *sample, size_t *at, mf_stood_for *what);
/* Whether these are several. */
bool mf_of_several(const mf_job *job, const mf_dust_sample *sample);

/* Whether a sample is of that, in that area or any (NULL): its place names it, and not more than
 * it has wipes. A room that is named by itself is named with all of its openings. */
bool mf_sample_of(const mf_job *job, const mf_dust_sample *sample, const mf_area *area,
                  const mf_stood_for *what);
/* Whether it lies in the area, as far as is listed. */
bool mf_lies_in(const mf_job *job, const mf_area *area, const mf_stood_for *what);
/* Whether its area is one room inside, and its place names no room of the job. */
bool mf_names_no_room_of_one(const mf_job *job, const mf_dust_sample *sample);

/* The room of another interior work area of the job that its place names, where that room is none
 * of its own area, and its own is not named beside it in a composite of enough wipes; else NULL.
 * Of what lies outside its area, or in an exterior one, nothing is asked. */
const char *mf_sampled_elsewhere(const mf_job *job, const mf_dust_sample *sample);
/* Whether its place names a room of its area, or that by its place. */
bool mf_names_own_room(const mf_job *job, const mf_dust_sample *sample, const mf_area *area);
/* Whether no two rooms of the area are known. */
bool mf_is_one_room(const mf_job *job, const mf_area *area);

/* Whether the words name that opening, of which its parts alone tell: it has no entry, and so no
 * room. */
bool mf_names_unlisted(const mf_job *job, const char *words, const char *opening);

#endif
