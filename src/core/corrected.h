/* corrected.h - what a correction changed that an answer may rest on. */
#ifndef MF_CORE_CORRECTED_H
#define MF_CORE_CORRECTED_H

#include <mistfold/job.h>

/* What the entry said before, in any of its versions, where the last correction of it says
 * otherwise in something that decides: the oldest such version, an item of its kind. NULL = there
 * is none. */
const void *mf_corrected_from(const mf_job *job, const mf_correction *last);

/* Whether a withdrawal took away an entry that an answer may rest on. */
bool mf_corrected_away(const mf_correction *last);

#endif
