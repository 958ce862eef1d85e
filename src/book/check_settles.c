/* check_settles.c - a correction settles those that its device saw beside the one it goes on
 * from. One that names something else would take away what nobody looked at. An entry that it
 * names and that is not here may be in another book: then it takes nothing away here. */
#include "book/check.h"
#include "journal/settles.h"
#include <stdio.h>

static bool settles(const mf_fold_correction *it)
{
    return it->said.settles[0] != '\0';
}

/* Whether an entry of this book has that name and is no correction of the same one. */
static mf_status is_stranger(bool *is, mf_book *book, const mf_job_fold *fold,
                             const mf_fold_correction *it, const char *id, mf_err *err)
{
    int64_t rowid = 0;
    mf_status status =
        mf_job_fold_beside(fold, it, id) ? MF_OK : mf_journal_rowid(book, id, &rowid, err);
    *is = status == MF_OK && rowid > 0;
    return status;
}

/* The first of what it goes on from and settles that is one. */
static mf_status find_stranger(char out[MF_ENTRY_ID], mf_book *book, const mf_job_fold *fold,
                               const mf_fold_correction *it, mf_err *err)
{
    const char *list = it->said.settles;
    bool is = false;
    mf_status status = is_stranger(&is, book, fold, it, it->said.replaces, err);
    snprintf(out, MF_ENTRY_ID, "%s", is ? it->said.replaces : "");
    while (status == MF_OK && !is && mf_settles_next(&list, out))
        status = is_stranger(&is, book, fold, it, out, err);
    out[0] = is ? out[0] : '\0';
    return status;
}

mf_status mf_settles_fault(char what[MF_SETTLES_WHAT], mf_book *book, const mf_job_fold *fold,
                           const mf_fold_correction *it, mf_err *err)
{
    char id[MF_ENTRY_ID];
    bool side_by_side = true;
    what[0] = '\0';
    if (!settles(it))
        return MF_OK;
    mf_status status = find_stranger(id, book, fold, it, err);
    if (status == MF_OK)
        status = mf_job_fold_side_by_side(fold, it, &side_by_side, err);
    if (status != MF_OK)
        return status;
    if (id[0] != '\0')
        snprintf(what, MF_SETTLES_WHAT, "it settles %s, which is not a correction of %.40s", id,
                 it->said.target);
    else if (!side_by_side)
        snprintf(what, MF_SETTLES_WHAT,
                 "it settles corrections of %.40s that never stood side by "
                 "side",
                 it->said.target);
    return MF_OK;
}

mf_status mf_check_settles(mf_checker *c, const mf_job_fold *fold, mf_err *err)
{
    char where[64], what[MF_SETTLES_WHAT];
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < fold->n_corrections; i++) {
        status = mf_settles_fault(what, c->book, fold, &fold->corrections[i], err);
        snprintf(where, sizeof where, "entry %.40s", fold->corrections[i].said.src.entry);
        if (status == MF_OK && what[0] != '\0')
            mf_fault(c, true, where, "%s", what);
    }
    return status;
}
