/* logged.h - when and on which device an entry was made, beside what it says of the day. */
#ifndef MF_CORE_LOGGED_H
#define MF_CORE_LOGGED_H

#include <mistfold/job.h>

/* Minutes since 1970 of a time in UTC as mf_src has it; MF_NUM_NONE = it is none. */
int64_t mf_logged_minute(const char *at);

/* Minutes between the making of two entries of two devices, which none of them corrected since;
 * MF_NUM_NONE = they are of one device, where one clock has both, of a time nobody knows, or one
 * was made more than a day after the time it says (first_said, then_said; mf_when): as one writes
 * up later what stands on paper, where the making tells nothing. */
int64_t mf_logged_apart(const mf_src *first, int64_t first_said, const mf_src *then,
                        int64_t then_said);

#endif
