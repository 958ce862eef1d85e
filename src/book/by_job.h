/* by_job.h - the rows of one job out of a table: looked up, or from one pass over the
 * whole table when all jobs are gone through in their order. */
#ifndef MF_BOOK_BY_JOB_H
#define MF_BOOK_BY_JOB_H

#include "book/db.h"

/* Column 0 of both is the job: of ?1, of all in the order of their names. */
typedef struct mf_by_job_sql {
    const char *one, *all;
} mf_by_job_sql;

typedef struct mf_by_job {
    mf_db *db;
    const mf_by_job_sql *sql;
    bool all;
    mf_stmt stmt;
    bool open, more, taken; /* of all: it stands on a row; that row was handed out */
    bool odd;               /* of all: a row was passed whose job has a NUL in it */
} mf_by_job;

/* The next row of the job, on which stmt then stands. Of all, the rows of jobs before it
 * are passed over. */
mf_status mf_by_job_next(mf_by_job *by, const char *job, bool *row, mf_err *err);
/* The job of the next row, NULL behind the last; of all only. */
mf_status mf_by_job_peek(mf_by_job *by, const char **job, mf_err *err);
/* Accepts one that was never begun. */
void mf_by_job_end(mf_by_job *by);

#endif
