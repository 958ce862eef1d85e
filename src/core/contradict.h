/* contradict.h - one entry that two devices corrected in two ways. */
#ifndef MF_CORE_CONTRADICT_H
#define MF_CORE_CONTRADICT_H

#include <mistfold/job.h>

/* Whether another correction of the same entry goes on from this one, or settles it. */
bool mf_correction_replaced(const mf_job *job, const mf_correction *it);

/* Whether a correction that stands ends in other words than another one of the same entry. */
bool mf_correction_contradicted(const mf_job *job, const mf_correction *it);

/* Whether the job rests on the entry that is corrected: its own, and those of the firm about
 * whom and what it names. */
bool mf_correction_concerns(const mf_job *job, const mf_correction *it);

/* Whether there is a contradiction that concerns the job: then nobody knows what it is. */
bool mf_corrections_contradict(const mf_job *job);

/* The value of a member of a flat object of canonical JSON, "" where it has none. */
const char *mf_member_of(const char *json, const char *quoted_name, size_t *len);

#endif
