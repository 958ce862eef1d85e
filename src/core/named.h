/* named.h - whom and what a job names. */
#ifndef MF_CORE_NAMED_H
#define MF_CORE_NAMED_H

#include <mistfold/job.h>

/* Whether an entry of the job itself names the person or the instrument of that id, which is
 * ended by len alone: ref is "person" or "instrument". */
bool mf_job_names(const mf_job *job, const char *ref, const char *id, size_t len);

#endif
