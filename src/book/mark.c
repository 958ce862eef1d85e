#include "book/mark.h"

#include "base/fail.h"
#include "book/journal.h"
#include <stdio.h>
#include <stdlib.h>

static const char devices_sql[] =
    MF_WITH_DEVICES " SELECT d.device, v.seq, v.hash FROM d LEFT JOIN verified AS v USING (device)"
                    "  WHERE d.device IS NOT NULL"
                    " UNION ALL SELECT device, seq, hash FROM verified"
                    "  WHERE NOT EXISTS (SELECT 1 FROM entry WHERE entry.device = verified.device)";

static mf_status add(mf_marks *out, mf_stmt *stmt, mf_err *err)
{
    mf_mark *at = mf_grown(out->at, out->n, &out->cap, sizeof *at);
    if (at == NULL)
        return mf_fail_memory(err);
    out->at = at;
    mf_mark *mark = &at[out->n++];
    bool none = mf_stmt_is_null(stmt, 1);
    *mark = (mf_mark){.seq = mf_stmt_number(stmt, 1)};
    snprintf(mark->device, sizeof mark->device, "%s", mf_stmt_column(stmt, 0));
    snprintf(mark->hash, sizeof mark->hash, "%s", none ? mf_zero_hash : mf_stmt_column(stmt, 2));
    return MF_OK;
}

mf_status mf_marks_load(mf_marks *out, mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    *out = (mf_marks){0};
    mf_status status = mf_stmt_get(&stmt, db, devices_sql, err);
    while (mf_stmt_next(&stmt, &status, err))
        status = add(out, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status put(mf_db *db, const mf_mark *mark, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db,
                    "INSERT INTO verified (device, seq, hash) VALUES (?1, ?2, ?3)"
                    " ON CONFLICT (device) DO UPDATE SET seq = excluded.seq, hash = excluded.hash"
                    " WHERE excluded.seq > seq",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, mark->device);
    mf_stmt_int(&stmt, 2, mark->seq);
    mf_stmt_text(&stmt, 3, mark->hash);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

void mf_marks_save(const mf_marks *marks, mf_book *book)
{
    bool any = false;
    for (size_t i = 0; i < marks->n; i++)
        any = any || marks->at[i].moved;
    if (!any || mf_db_begin(&book->db, NULL) != MF_OK)
        return;
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < marks->n; i++)
        if (marks->at[i].moved)
            status = put(&book->db, &marks->at[i], NULL);
    if (status != MF_OK || mf_db_commit(&book->db, NULL) != MF_OK)
        mf_db_rollback(&book->db);
}

void mf_marks_free(mf_marks *marks)
{
    free(marks->at);
    *marks = (mf_marks){0};
}

mf_status mf_mark_written(mf_db *db, const mf_run *run, mf_err *err)
{
    static const char first[] = "INSERT OR IGNORE INTO verified (device, seq, hash)"
                                " VALUES (?1, ?2, ?3)";
    static const char later[] = "UPDATE verified SET seq = ?2, hash = ?3"
                                " WHERE device = ?1 AND seq = ?4 AND hash = ?5";
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, run->first == 1 ? first : later, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, run->device);
    mf_stmt_int(&stmt, 2, run->last);
    mf_stmt_text(&stmt, 3, run->hash);
    if (run->first > 1) {
        mf_stmt_int(&stmt, 4, run->first - 1);
        mf_stmt_text(&stmt, 5, run->prev);
    }
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}
