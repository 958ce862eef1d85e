/* facility.h - what is known of the visits of children. */
#ifndef MF_CORE_FACILITY_H
#define MF_CORE_FACILITY_H

#include <mistfold/job.h>

/* Whether it is known how children come: none regularly and no visit is logged, or somebody says
 * that the visits logged are all. */
bool mf_visits_known(const mf_job *job);

#endif
