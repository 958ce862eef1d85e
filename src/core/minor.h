/* minor.h - minor repair and maintenance by area. 40 CFR 745.83. */
#ifndef MF_CORE_MINOR_H
#define MF_CORE_MINOR_H

#include <mistfold/house.h>

/* Whether the work disturbs the component; what is not said counts as yes, and what is
 * removed is disturbed. */
bool mf_component_disturbed(const mf_component *component);

/* The same of its paint. A component on which a test found lead has some, though it is
 * logged as not painted. */
bool mf_paint_disturbed(const mf_job *job, const mf_component *component);

/* The surface that counts: all of it where it comes off. MF_NUM_NONE = not known. */
int64_t mf_disturbed_area(const mf_component *component);

/* The component's room: its own, or that of its opening; "" = not known. */
const char *mf_room_of(const mf_job *job, const mf_component *component);

/* "kitchen" and "Kitchen" are one room. */
bool mf_same_room(const char *a, const char *b);

/* Saturating, so that no sum of areas can turn small. */
int64_t mf_add_area(int64_t sum, int64_t area);

/* Whether all is minor; fills place and minor_* of the answer. */
bool mf_minor(const mf_job *job, mf_cover_answer *out);

#endif
