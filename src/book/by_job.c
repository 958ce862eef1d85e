#include "book/by_job.h"

#include <string.h>

void mf_by_job_end(mf_by_job *by)
{
    mf_stmt_done(&by->stmt);
    by->open = by->more = false;
}

static mf_status next_of_one(mf_by_job *by, const char *job, bool *row, mf_err *err)
{
    mf_status status = MF_OK;
    if (!by->open) {
        status = mf_stmt_get(&by->stmt, by->db, by->sql->one, err);
        by->open = status == MF_OK;
        if (status == MF_OK)
            mf_stmt_text(&by->stmt, 1, job);
    }
    if (status == MF_OK)
        status = mf_stmt_step(&by->stmt, row, err);
    if (!*row)
        mf_by_job_end(by);
    return status;
}

static mf_status advance(mf_by_job *by, mf_err *err)
{
    by->taken = false;
    return mf_stmt_step(&by->stmt, &by->more, err);
}

mf_status mf_by_job_peek(mf_by_job *by, const char **job, mf_err *err)
{
    mf_status status = MF_OK;
    *job = NULL;
    if (!by->open) {
        status = mf_stmt_get(&by->stmt, by->db, by->sql->all, err);
        by->open = by->more = by->taken = status == MF_OK;
    }
    if (status == MF_OK && by->more && by->taken)
        status = advance(by, err);
    if (status == MF_OK && by->more)
        *job = mf_stmt_column(&by->stmt, 0);
    return status;
}

/* Whether the row stands before those of the job. One whose job goes on behind a NUL is
 * no job's, though it reads like one. */
static bool is_before(mf_by_job *by, const char *at, const char *job)
{
    int order = strcmp(at, job);
    bool odd = order == 0 && (size_t)sqlite3_column_bytes(by->stmt.handle, 0) != strlen(at);
    by->odd = by->odd || odd;
    return order < 0 || odd;
}

static mf_status next_of_all(mf_by_job *by, const char *job, bool *row, mf_err *err)
{
    const char *at = NULL;
    mf_status status = mf_by_job_peek(by, &at, err);
    while (status == MF_OK && at != NULL && is_before(by, at, job)) {
        by->taken = true;
        status = mf_by_job_peek(by, &at, err);
    }
    *row = by->taken = status == MF_OK && at != NULL && strcmp(at, job) == 0;
    return status;
}

mf_status mf_by_job_next(mf_by_job *by, const char *job, bool *row, mf_err *err)
{
    *row = false;
    return by->all ? next_of_all(by, job, row, err) : next_of_one(by, job, row, err);
}
