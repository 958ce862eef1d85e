/* opening_parts.h - whether the parts that the work disturbs are listed. */
#ifndef MF_CORE_OPENING_PARTS_H
#define MF_CORE_OPENING_PARTS_H

#include <mistfold/job.h>

/* Whether the list holds what the work disturbs, as far as the job says: each opening, the usual
 * parts of what is replaced, each part on which lead was found, and a part wherever work is told
 * of. Of what is on no list nobody knows how much is disturbed, nor whether it is free. */
bool mf_all_listed(const mf_job *job);

/* Whether a part of that type is there only where a window, or a door, is. */
bool mf_only_window_has(mf_component_type type);
bool mf_only_door_has(mf_component_type type);
/* Whether it is a part of a window: by its opening, or where that is on no list by its type. */
bool mf_of_window(const mf_job *job, const mf_component *component);
/* window_names.c: whether its label or id calls a part of no opening a window, or of one, where its
 * type does not say what it belongs to; and whether one comes off that only its name tells of. */
bool mf_named_window(const mf_component *component);
bool mf_window_by_name(const mf_job *job);
/* Whether the description of the job speaks of a window that is replaced, and none is listed. */
bool mf_window_described(const mf_job *job);

#endif
