/* list.h - the lists of a job: what mf_job holds of each kind. */
#ifndef MF_JOURNAL_LIST_H
#define MF_JOURNAL_LIST_H

#include "base/mem.h"
#include <mistfold/job.h>
#include <mistfold/kind.h>

/* The list at offset of mf_job: the pointer, and the count right behind it. */
void mf_list_set(mf_job *job, size_t offset, const void *items, size_t count);
/* The list of a kind, its items completed by what follows from their fields. */
void mf_list_put(mf_job *job, const mf_kind *kind, void *items, size_t count);
/* Puts its readings in order (paint.h), in memory of the arena. When all lists stand. */
mf_status mf_list_order_readings(mf_job *job, mf_arena *arena, mf_err *err);

#endif
