/* ground_room.h - what is in the rooms of a work area, in whichever list of the job it stands. */
#ifndef MF_CORE_GROUND_ROOM_H
#define MF_CORE_GROUND_ROOM_H

#include <mistfold/job.h>

/* The first opening of that kind in a room of an interior area: the area is the room by its place,
 * or has another opening of it. One that only areas of another unit list is of another room. NULL =
 * there is none. */
const mf_opening *mf_room_opening(const mf_job *job, const mf_area *area, mf_opening_kind kind);

/* The first part that only such an opening has, on the side and in the place of the area, where
 * its opening is on no list; NULL = there is none. */
const mf_component *mf_room_part(const mf_job *job, const mf_area *area, mf_opening_kind kind);

/* The first component of sort "other" in a room of an interior area that is by its name a vent or
 * a duct; NULL = there is none. */
const mf_component *mf_room_duct(const mf_job *job, const mf_area *area);

/* The next area from *at on that is another piece of the room; NULL = there is no more. */
const mf_area *mf_room_area(const mf_job *job, const mf_area *area, size_t *at);

#endif
