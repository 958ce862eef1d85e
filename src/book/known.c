#include "book/known.h"

#include "base/fail.h"
#include "book/job_lines.h"
#include <stdlib.h>
#include <string.h>

/* The firm is at 0, the job at 1. */
enum { FIRM, JOB, BOTH };

struct mf_known {
    mf_job_fold *fold[BOTH];
    mf_job_read read[BOTH];
    bool fresh[BOTH]; /* nobody but the open group can have added an entry since */
};

static bool all_but_readings(const mf_kind *kind)
{
    return strcmp(kind->name, "reading") != 0;
}

/* ---- keeping them -------------------------------------------------------------------- */

void mf_known_stale(mf_book *book)
{
    if (book->known != NULL)
        book->known->fresh[FIRM] = book->known->fresh[JOB] = false;
}

static void forget_one(struct mf_known *known, int at)
{
    mf_job_fold_free(known->fold[at]);
    known->fold[at] = NULL;
    known->read[at] = (mf_job_read){0};
    known->fresh[at] = false;
}

void mf_known_forget(mf_book *book)
{
    if (book->known == NULL)
        return;
    forget_one(book->known, FIRM);
    forget_one(book->known, JOB);
    free(book->known);
    book->known = NULL;
}

static mf_status read_on(mf_book *book, int at, mf_err *err)
{
    struct mf_known *known = book->known;
    const char *job = known->fold[at]->job.id;
    mf_status status = mf_job_lines(known->fold[at], book, job, &known->read[at], err);
    if (status == MF_OK)
        status = mf_job_fold_correct(known->fold[at], err);
    known->fresh[at] = status == MF_OK && book->in_group;
    return status;
}

mf_status mf_known_fold(const mf_job_fold **out, mf_book *book, const char *job, mf_err *err)
{
    int at = job[0] == '\0' ? FIRM : JOB;
    if (book->known == NULL)
        book->known = calloc(1, sizeof *book->known);
    if (book->known == NULL)
        return mf_fail_memory(err);
    struct mf_known *known = book->known;
    if (known->fold[at] != NULL && strcmp(known->fold[at]->job.id, job) != 0)
        forget_one(known, at);
    if (known->fold[at] == NULL)
        known->fold[at] = mf_job_fold_new(job, all_but_readings);
    if (known->fold[at] == NULL)
        return mf_fail_memory(err);
    mf_status status = known->fresh[at] ? MF_OK : read_on(book, at, err);
    *out = known->fold[at];
    if (status != MF_OK)
        forget_one(known, at);
    return status;
}

mf_status mf_known_learn(mf_book *book, const mf_line *line, int64_t rowid, mf_err *err)
{
    int at = line->job[0] == '\0' ? FIRM : JOB;
    struct mf_known *known = book->known;
    if (known == NULL || !known->fresh[at] || strcmp(known->fold[at]->job.id, line->job) != 0)
        return MF_OK;
    mf_status status = mf_job_fold_add(known->fold[at], line, err);
    if (status == MF_OK && strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        status = mf_job_fold_correct(known->fold[at], err);
    known->read[at].last = rowid;
    if (status != MF_OK)
        forget_one(known, at);
    return status;
}

static mf_status give(const mf_job_fold **out, void *data, const char *job, mf_err *err)
{
    return mf_known_fold(out, data, job, err);
}

mf_folds mf_book_folds(mf_book *book)
{
    return (mf_folds){give, book};
}
