/* reach.h - numbers that can be added up. A book or a record from elsewhere may hold any:
 * a length beyond what can be logged counts as that long, less than nothing as nothing; a
 * loading so far off is not averaged. */
#ifndef MF_CORE_REACH_H
#define MF_CORE_REACH_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

/* Hundredths of a foot; the most of every length in kind_area.inc. */
enum { MF_REACH_MAX = 100000000 };

int64_t mf_reach(int64_t length);

/* A length that was logged, or what is taken for one that was not. */
int64_t mf_reach_or(int64_t length, int64_t otherwise);

/* The length that a limit asks for on the first day of the job. */
int64_t mf_reach_of(const mf_job *job, mf_limit_id id);

/* Saturating, so that no sum of areas can turn small. */
int64_t mf_add_area(int64_t sum, int64_t area);

/* Micrograms per cm2: the sum of however many of these is far from overflow. */
bool mf_loading_usable(int64_t ug_cm2);

#endif
