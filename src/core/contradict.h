/* contradict.h - one entry that two devices corrected in two ways. */
#ifndef MF_CORE_CONTRADICT_H
#define MF_CORE_CONTRADICT_H

#include <mistfold/job.h>

/* Whether a later correction replaces what an entry or a correction says. */
bool mf_correction_replaced(const mf_job *job, const char *entry);

/* Whether a correction that stands ends in other words than another one of the same entry. */
bool mf_correction_contradicted(const mf_job *job, const mf_correction *correction);

/* Whether there is such a one: then nobody knows what the job is. */
bool mf_corrections_contradict(const mf_job *job);

#endif
