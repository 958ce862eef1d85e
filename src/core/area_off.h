/* area_off.h - a work area that was called off before any work in it, and what tells that work is
 * to be done there, or was, all the same. */
#ifndef MF_CORE_AREA_OFF_H
#define MF_CORE_AREA_OFF_H

#include <mistfold/stage.h>

/* Every work area was: the job has none in which anything is done. */
bool mf_areas_all_off(const mf_job *job, mf_day today);

/* The entry that tells of work done in the area, or NULL. */
const char *mf_area_done_by(const mf_job *job, const char *area);

/* The entry that tells of work in the area, done or still to be done, or NULL; *why becomes the
 * reason, "area-off-begun", "area-off-parts", "area-off-planned" or "area-off-room". */
const char *mf_area_worked_by(const mf_job *job, const char *area, mf_day today, const char **why);

#endif
