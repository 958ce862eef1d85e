/* surfaces.h - what is wiped in an interior work area. */
#ifndef MF_CORE_SURFACES_H
#define MF_CORE_SURFACES_H

#include <mistfold/job.h>

/* Two surfaces of one window of the schedule are one sill; a room may have several. */
int64_t mf_sills_listed(const mf_job *job, const mf_area *area);

/* The first part of the area that is by its name a countertop; NULL = none is listed. */
const mf_component *mf_countertop_part(const mf_job *job, const mf_area *area);

/* The reason name of what it lacks of countertops; NULL = nothing. */
const char *mf_countertops_lack(const mf_job *job, const mf_area *area);

/* The first room of the area, by what is listed there, that its place does not name and no floor
 * of the list is of; NULL = none. */
const char *mf_room_without_floor(const mf_job *job, const mf_area *area);

/* The reason name of what the list lacks: every sill, each floor unless it is carpeted, and
 * countertops; NULL = nothing, and where nothing is listed there is nothing to wipe. */
const char *mf_surfaces_lack(const mf_job *job, const mf_area *area);

#endif
