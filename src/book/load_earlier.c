/* load_earlier.c - all other jobs at what may be the same address and unit are looked up; what
 * they take from this one journal/earlier.h knows. */
#include "book/load_earlier.h"

#include "base/fail.h"
#include "base/mem.h"
#include "book/index.h"
#include "book/job_lines.h"
#include "journal/earlier.h"

static mf_status add_job(mf_earliers *out, mf_book *book, const char *id, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, book, id, mf_earlier_wants, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        status = mf_earlier_add(out, fold, err);
    mf_job_fold_free(fold);
    return status;
}

static mf_status add_all(mf_earliers *out, mf_book *book, const char *key, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, &book->db,
        "SELECT DISTINCT job FROM place WHERE key = ?1 AND job <> ?2 ORDER BY job", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, key);
    mf_stmt_text(&stmt, 2, out->to->job.id);
    while (mf_stmt_next(&stmt, &status, err))
        status = add_job(out, book, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_load_earlier(mf_book *book, mf_job_fold *fold, mf_err *err)
{
    char key[MF_ADDRESS_KEY];
    mf_earliers all = {.to = fold};
    if (fold->job.n_house == 0)
        return MF_OK;
    mf_address_key(fold->job.house[0].address, key);
    mf_status status = add_all(&all, book, key, err);
    return mf_earlier_end(&all, status, err);
}
