/* corrected.h - what a withdrawal took away that an answer may rest on; what a correction changed
 * is asked by kind.h. */
#ifndef MF_CORE_CORRECTED_H
#define MF_CORE_CORRECTED_H

#include <mistfold/job.h>

/* Whether a withdrawal took away an entry that an answer may rest on. */
bool mf_corrected_away(const mf_correction *last);

#endif
