#include "book/job_lines.h"

#include "base/digest.h"
#include "base/fail.h"
#include "book/held.h"
#include "book/journal.h"
#include <string.h>

/* ---- one entry ----------------------------------------------------------------------- */

/* A NUL would end a text for us and not for another reader. */
static bool has_nul(mf_stmt *stmt)
{
    for (int i = 0; i < MF_LINE_N_COLUMNS; i++) {
        const void *text = sqlite3_column_type(stmt->handle, i) == SQLITE_TEXT
                               ? sqlite3_column_text(stmt->handle, i)
                               : NULL;
        if (text != NULL &&
            memchr(text, '\0', (size_t)sqlite3_column_bytes(stmt->handle, i)) != NULL)
            return true;
    }
    return false;
}

mf_status mf_line_fault(mf_book *book, mf_stmt *stmt, const mf_line *line, const char **fault,
                        mf_err *err)
{
    char hash[MF_HASH_HEX];
    *fault = NULL;
    mf_status status = mf_entry_hash(book, line, hash, err);
    if (status == MF_OK && strcmp(hash, line->hash) != 0)
        *fault = "it was altered: its text does not give its hash";
    else if (status == MF_OK && has_nul(stmt))
        *fault = "it was altered: there is a NUL in its text";
    return status;
}

mf_status mf_line_as_logged(mf_book *book, mf_stmt *stmt, const mf_line *line, mf_err *err)
{
    const char *fault = NULL;
    mf_status status = mf_line_fault(book, stmt, line, &fault, err);
    if (status != MF_OK || fault == NULL)
        return status;
    return mf_failf(err, MF_SYSTEM, book->db.name, fault,
                    "see what is altered: mistfold book check",
                    "entry %s/%lld is not what was logged", line->device, (long long)line->seq);
}

/* ---- those of a job ------------------------------------------------------------------ */

static mf_status take(mf_job_fold *fold, mf_book *book, mf_stmt *stmt, mf_job_read *read,
                      mf_err *err)
{
    const char *fault = NULL;
    mf_line line = mf_line_of_row(stmt);
    int64_t rowid = mf_stmt_number(stmt, MF_LINE_N_COLUMNS);
    bool wanted = mf_job_fold_wants(fold, &line);
    mf_status status = wanted ? mf_line_fault(book, stmt, &line, &fault, err) : MF_OK;
    read->n++;
    read->unread += fault != NULL || rowid <= read->last;
    read->last = rowid;
    return status == MF_OK && wanted ? mf_job_fold_add(fold, &line, err) : status;
}

mf_status mf_job_lines(mf_job_fold *fold, mf_book *book, const char *job, mf_job_read *read,
                       mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, &book->db, MF_LINE_SELECT " WHERE job = ?1 AND rowid > ?2 ORDER BY rowid", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    mf_stmt_int(&stmt, 2, read->last);
    while (mf_stmt_next(&stmt, &status, err))
        status = take(fold, book, &stmt, read, err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status add_job(mf_job_fold *fold, mf_book *book, const char *job, mf_err *err)
{
    mf_job_read read = {0};
    int64_t held = 0;
    mf_status status = mf_job_lines(fold, book, job, &read, err);
    if (status == MF_OK)
        status = mf_held(book, job, &held, err);
    if (read.unread > 0 || held != read.n)
        fold->job.integrity = MF_INTEGRITY_BROKEN;
    return status;
}

mf_status mf_job_fold_of(mf_job_fold **out, mf_book *book, const char *job,
                         bool (*wanted)(const mf_kind *kind), int firm, mf_err *err)
{
    mf_job_fold *fold = mf_job_fold_new(job, wanted);
    if (fold == NULL)
        return mf_fail_memory(err);
    mf_status status = MF_OK;
    if (firm == MF_WITH_FIRM && job[0] != '\0')
        status = add_job(fold, book, "", err);
    if (status == MF_OK)
        status = add_job(fold, book, job, err);
    if (status == MF_OK)
        status = mf_job_fold_correct(fold, err);
    if (status == MF_OK)
        *out = fold;
    else
        mf_job_fold_free(fold);
    return status;
}

bool mf_corrections_alone(const mf_kind *kind)
{
    (void)kind;
    return false;
}
