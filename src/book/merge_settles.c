/* merge_settles.c - the corrections that came in with a merge: what each of them settles. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/merge.h"

static mf_status check_one(mf_merge *m, const mf_job_fold *fold, const mf_fold_correction *it,
                           mf_err *err)
{
    char what[MF_SETTLES_WHAT];
    bool is_new = false;
    mf_status status = mf_settles_fault(what, m->book, fold, it, err);
    if (status == MF_OK && what[0] != '\0')
        status = mf_merge_is_new(m, it->said.src.entry, &is_new, err);
    if (status != MF_OK || !is_new)
        return status;
    return mf_failf(err, MF_INPUT, m->name, "no program of ours writes such an entry",
                    "find out who made it; nothing was taken over", "entry %.40s: %s",
                    it->said.src.entry, what);
}

static mf_status check_job(mf_merge *m, const char *job, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status =
        mf_job_fold_of(&fold, m->book, job, mf_corrections_alone, MF_WITHOUT_FIRM, err);
    for (size_t i = 0; status == MF_OK && i < fold->n_corrections; i++)
        status = check_one(m, fold, &fold->corrections[i], err);
    mf_job_fold_free(fold);
    return status;
}

mf_status mf_merge_corrections(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &m->book->db,
                                   "SELECT DISTINCT job FROM entry NOT INDEXED WHERE rowid > ?1"
                                   " AND kind = 'correction' ORDER BY job",
                                   err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, m->book->group_from);
    while (m->out->added > 0 && mf_stmt_next(&stmt, &status, err))
        status = check_job(m, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}
