/* area_openings.h - the openings of a work area: those of its list and those drawn on its plan. */
#ifndef MF_CORE_AREA_OPENINGS_H
#define MF_CORE_AREA_OPENINGS_H

#include <mistfold/job.h>

/* The first fixture of that sort drawn in the area, of one opening or of any (NULL); or NULL. */
const mf_fixture *mf_drawn_in(const mf_job *job, const mf_area *area, mf_fixture_what what,
                              const char *opening);
bool mf_area_has_opening(const mf_job *job, const mf_area *area, const mf_opening *opening);
int64_t mf_area_windows(const mf_job *job, const mf_area *area);
/* Whether it is known that two areas do not lie in one unit, nor both in what is common. */
bool mf_areas_apart(const mf_job *job, const mf_area *a, const mf_area *b);
/* Whether what is in that room may be in the area by the words of its place, and the room is not
 * the place of another area. It makes answers stricter, and frees of nothing. */
bool mf_may_be_in_room(const mf_job *job, const mf_area *area, const char *room);
/* Whether an area inside has the opening on its list or its plan. */
bool mf_listed_inside(const mf_job *job, const mf_opening *opening);
/* Whether it may be a window of the room that the area is by its place, and is on the list of no
 * area inside. An area that is less than the room says so by its place. */
bool mf_window_beside(const mf_job *job, const mf_area *area, const mf_opening *opening);
/* Windows of one room of the area (NULL = of all), on its list or beside it, of which the part is
 * not said to be absent. */
int64_t mf_room_window_parts(const mf_job *job, const mf_area *area, const char *room,
                             mf_component_type part);
/* Whether the part is said to be absent, and not listed all the same. */
bool mf_opening_without(const mf_job *job, const mf_opening *window, mf_component_type part);
/* Windows whose interior sill is not said to be absent: each is wiped, 745.85(b)(1)(ii)(A). */
int64_t mf_area_sills(const mf_job *job, const mf_area *area);
/* Where what one area opens is opened into the other too: a window that is replaced. By ids. */
bool mf_open_into_each_other(const mf_job *job, const char *one, const char *other);

#endif
