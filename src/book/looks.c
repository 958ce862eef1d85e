/* looks.c - many jobs, each checked before it is used; what is the same for all is looked at once.
 */
#include "base/fail.h"
#include "book/check.h"
#include "book/touched.h"

#include <stdlib.h>

struct mf_book_looks {
    mf_book *book;
    mf_jobs_check check;
    bool own, failed;
};

MF_API mf_status mf_book_looks_begin(mf_book_looks **out, mf_book *book, mf_err *err)
{
    mf_book_looks *it = calloc(1, sizeof *it);
    *out = it;
    if (it == NULL)
        return mf_fail_memory(err);
    it->book = book;
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&it->own, book, err);
    if (status == MF_OK)
        status = mf_jobs_check_begin(&it->check, book, err);
    it->failed = status != MF_OK;
    return status;
}

MF_API mf_status mf_book_looks_mark(mf_book_looks *looks, mf_job *job, mf_err *err)
{
    bool good = false;
    mf_status status = mf_jobs_check_one(&looks->check, job->id, &good, err);
    looks->failed = looks->failed || status != MF_OK;
    if (status == MF_OK && !good)
        job->integrity = MF_INTEGRITY_BROKEN;
    return status;
}

MF_API void mf_book_looks_end(mf_book_looks *looks)
{
    if (looks == NULL)
        return;
    mf_snapshot_end(looks->own, looks->book);
    mf_jobs_check_end(&looks->check, looks->own && !looks->failed);
    free(looks);
}
