/* job_entries.h - a job of the tests as a .entries file, its items as entries of one device in
 * the order of the kinds. What names an entry by its id is renamed with it; corrections are left
 * out. */
#ifndef MF_TESTS_JOB_ENTRIES_H
#define MF_TESTS_JOB_ENTRIES_H

#include "base/mem.h"
#include <mistfold/job.h>

/* job is called id in the file; false when it could not be written. */
bool job_entries(mf_buf *out, const mf_job *job, const char *id);

#endif
