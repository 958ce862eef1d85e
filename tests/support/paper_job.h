/* paper_job.h - invented jobs for the tests of the papers. No house, person,
 * firm or test in them is real. */
#ifndef MF_TESTS_PAPER_JOB_H
#define MF_TESTS_PAPER_JOB_H

#include <mistfold/job.h>

/* A job being made: add kinds to it, then read the job. */
typedef struct paper_job {
    mf_job job;
    char **texts;
    size_t n_texts;
    int64_t seq;
} paper_job;

void paper_job_start(paper_job *made, const char *id);
/* A new element of that kind, everything in it not given. Pointers to earlier
 * elements of the kind are void after it. */
void *paper_job_add(paper_job *made, const char *kind);
/* A text that lives as long as the job. */
const char *paper_job_text(paper_job *made, const char *format, ...) MF_PRINTF(2, 3);
void paper_job_free(paper_job *made);

/* Two windows and a door: readings of every kind, an interior and an exterior
 * work area, a correction, a dust sample. */
void paper_job_small(paper_job *made);
/* 60 openings, 400 readings, names of 120 characters. */
void paper_job_big(paper_job *made);

#endif
