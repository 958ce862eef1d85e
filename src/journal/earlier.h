/* earlier.h - paint that other jobs at the same address disturb: 40 CFR 745.83 counts jobs of
 * the same room within 30 days as one, emergencies excepted. Which of them are near enough in
 * time core decides. */
#ifndef MF_JOURNAL_EARLIER_H
#define MF_JOURNAL_EARLIER_H

#include "journal/fold.h"

/* Zero but for to, to start. */
typedef struct mf_earliers {
    mf_job_fold *to; /* of the job that is loaded */
    mf_earlier *at;  /* outlives the other jobs */
    size_t n, cap;
} mf_earliers;

/* Whether another job at the address is taken anything from entries of the kind. */
bool mf_earlier_bears(const char *kind);
/* The same as a wanted of a fold. */
bool mf_earlier_wants(const mf_kind *kind);
/* Finishes the fold of another job and adds what it disturbs at this place; one that was altered
 * breaks the integrity of the job. */
mf_status mf_earlier_add(mf_earliers *all, mf_job_fold *other, mf_err *err);
/* Sets the list earlier of the job if status is MF_OK, and frees; returns what it came to. */
mf_status mf_earlier_end(mf_earliers *all, mf_status status, mf_err *err);

#endif
