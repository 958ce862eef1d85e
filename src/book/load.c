/* load.c - the job as a value, from its entries and those of the firm. */
#include "book/job_lines.h"
#include "book/load_earlier.h"
#include "book/refs.h"
#include "book/touched.h"
#include <string.h>

/* Asked of what is in force, whose house says the job's name. */
static mf_status is_there(const mf_job *job, mf_err *err)
{
    bool there = job->id[0] == '\0';
    for (size_t i = 0; i < job->n_house; i++)
        there = there || strcmp(job->house[i].id, job->id) == 0;
    return there ? MF_OK : mf_no_such_job(job->id, "", err);
}

static mf_status load_all(mf_book *book, const char *job, mf_job_fold **out, mf_err *err)
{
    mf_status status = mf_job_fold_of(out, book, job, NULL, MF_WITH_FIRM, err);
    if (status == MF_OK)
        status = mf_job_fold_finish(*out, err);
    if (status == MF_OK)
        status = is_there(&(*out)->job, err);
    return status == MF_OK ? mf_load_earlier(book, *out, err) : status;
}

MF_API mf_status mf_book_job(mf_book *book, const char *job, mf_job **out, mf_err *err)
{
    bool own = false;
    mf_job_fold *fold = NULL;
    *out = NULL;
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = load_all(book, job, &fold, err);
    mf_snapshot_end(own, book);
    if (status == MF_OK)
        *out = &fold->job;
    else
        mf_job_fold_free(fold);
    return status;
}

/* What the firm lacks every job does. */
MF_API mf_status mf_book_unread(mf_book *book, const mf_err *why, mf_err *err)
{
    mf_job *firm = NULL;
    if (strcmp(why->name, MF_ERR_UNREAD) != 0) {
        if (err != NULL)
            *err = *why;
        return why->status;
    }
    mf_status status = mf_book_job(book, "", &firm, err);
    mf_book_job_free(firm);
    return status;
}

MF_API mf_status mf_book_job_until(mf_job *job, mf_day day, size_t *left_out, mf_err *err)
{
    return mf_job_fold_until((mf_job_fold *)job, day, left_out, err);
}

MF_API void mf_book_job_free(mf_job *job)
{
    mf_job_fold_free((mf_job_fold *)job);
}
