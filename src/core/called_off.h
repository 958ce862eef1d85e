/* called_off.h - what tells that a job was begun all the same, though its house says that it was
 * called off before any work. */
#ifndef MF_CORE_CALLED_OFF_H
#define MF_CORE_CALLED_OFF_H

#include <mistfold/job.h>

/* The entry that tells of it, or NULL: paint was disturbed, or what comes after that was done or
 * said. */
const char *mf_begun_by(const mf_job *job);

/* The entry by which containment stands, or NULL. It disturbs nothing, but somebody must take it
 * down. */
const char *mf_contained_by(const mf_job *job);

/* The same in one work area; "" = in any. */
const char *mf_area_contained_by(const mf_job *job, const char *area);

/* The entry that ticks a step of the work or of the cleaning in the area, "" = in any; or NULL. */
const char *mf_ticked_work(const mf_job *job, const char *area);

#endif
