/* versions.h - one job as each of its contradicting entries has it. Of some kinds a job has
 * one entry (kind.h: once), and a device refuses a second; two devices that did not know of
 * each other may have made one each. Until one of them is corrected or withdrawn nobody knows
 * which is true, so each is judged, and what is worse counts. */
#ifndef MF_CORE_VERSIONS_H
#define MF_CORE_VERSIONS_H

#include <mistfold/job.h>

enum { MF_VERSIONS = 8 };

/* Writes the versions, at most MF_VERSIONS, and returns how many there are: one of each
 * combination of differing entries. Each has one house, completion, invoice, occupancy at
 * most; all else they share with the job. */
size_t mf_versions_of(const mf_job *job, mf_job out[MF_VERSIONS]);

#endif
