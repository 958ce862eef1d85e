#include "book/held.h"

const char mf_held_sql[] =
    "CREATE TABLE held ( -- how many entries the journal has of each job: an index of it that\n"
    "                    -- hides one shows by this\n"
    "  job TEXT PRIMARY KEY NOT NULL -- '' for the firm\n"
    "  , entries INTEGER NOT NULL\n"
    ") STRICT;\n";

mf_status mf_held(mf_book *book, const char *job, int64_t *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status =
        mf_stmt_get(&stmt, &book->db, "SELECT entries FROM held WHERE job = ?1", err);
    *out = 0;
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK && row)
        *out = mf_stmt_number(&stmt, 0);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_held_add(mf_db *db, const char *job, int64_t n, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db,
                    "INSERT INTO held (job, entries) VALUES (?1, ?2) ON CONFLICT (job)"
                    " DO UPDATE SET entries = entries + excluded.entries",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    mf_stmt_int(&stmt, 2, n);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_held_fill(mf_db *db, mf_err *err)
{
    return mf_db_exec(
        db, "INSERT INTO held SELECT job, count(*) FROM entry NOT INDEXED GROUP BY job", err);
}
