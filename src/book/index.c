#include "book/index.h"

#include "base/fail.h"
#include "book/job_lines.h"
#include <stdio.h>
#include <string.h>

const char mf_index_sql[] =
    "CREATE TABLE corrects ( -- which entry corrects which: the views find it by this\n"
    "  device TEXT NOT NULL -- of the correction\n"
    "  , seq INTEGER NOT NULL -- of the correction\n"
    "  , job TEXT NOT NULL\n"
    "  , target TEXT NOT NULL -- the entry first made\n"
    "  , replaces TEXT NOT NULL -- what it goes on from, or settles beside that\n"
    "  , PRIMARY KEY (device, seq, replaces)\n"
    ") STRICT;\n"
    "CREATE INDEX corrects_target ON corrects (job, target);\n"
    "CREATE TABLE place ( -- where each job is, to list them and to find others at the same place\n"
    "  job TEXT NOT NULL\n"
    "  , nth INTEGER NOT NULL -- 1, or more where two devices opened the same job\n"
    "  , key TEXT NOT NULL -- number of the address and the first letter behind it, no accent\n"
    "  , address TEXT NOT NULL\n"
    "  , unit TEXT NOT NULL\n"
    "  , start TEXT NOT NULL -- planned; '' = not given\n"
    "  , PRIMARY KEY (job, nth)\n"
    ") STRICT;\n"
    "CREATE INDEX place_key ON place (key);\n"
    "CREATE TABLE due ( -- what is to be done by which day\n"
    "  job TEXT NOT NULL -- '' for the firm\n"
    "  , what TEXT NOT NULL -- start: work begins; handover: the record is due to owner and\n"
    "                       -- occupants; keep: records are kept through this day;\n"
    "                       -- certificate: the last day on which it holds, as judged\n"
    "  , day TEXT NOT NULL\n"
    "  , who TEXT NOT NULL -- holder of the certificate, else ''\n"
    "  , entry TEXT NOT NULL -- the entry that sets the day\n"
    "  , PRIMARY KEY (job, what, entry)\n"
    ") STRICT;\n"
    "CREATE INDEX due_day ON due (what, day);\n";

/* ---- making them --------------------------------------------------------------------- */

static bool bears_on_index(const mf_kind *kind)
{
    return mf_index_wants(kind->name);
}

mf_status mf_index_job(mf_job_fold **out, mf_book *book, const char *job, mf_err *err)
{
    mf_status status = mf_job_fold_of(out, book, job, bears_on_index, MF_WITHOUT_FIRM, err);
    return status == MF_OK ? mf_job_fold_finish_known(*out, err) : status;
}

static mf_status insert_places(mf_db *db, const char *job, const mf_wants *w, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < w->n_place; i++) {
        char nth[24], key[MF_ADDRESS_KEY];
        const mf_want_place *it = &w->place[i];
        snprintf(nth, sizeof nth, "%zu", i + 1);
        mf_address_key(it->address, key);
        const char *const row[] = {job, nth, key, it->address, it->unit, it->start};
        status = mf_db_run(db,
                           "INSERT INTO place (job, nth, key, address, unit, start)"
                           " VALUES (?1, CAST(?2 AS INTEGER), ?3, ?4, ?5, ?6)",
                           row, 6, err);
    }
    return status;
}

static mf_status insert_due(mf_db *db, const char *job, const mf_wants *w, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < w->n_due; i++) {
        const mf_want_due *it = &w->due[i];
        const char *const row[] = {job, it->what, it->day, it->who, it->entry};
        status = mf_db_run(db,
                           "INSERT INTO due (job, what, day, who, entry)"
                           " VALUES (?1, ?2, ?3, ?4, ?5)",
                           row, 5, err);
    }
    return status;
}

static mf_status insert_named(mf_db *db, const char *job, const mf_fold_named *it, mf_err *err)
{
    char device[MF_DEVICE_MAX + 1] = "";
    int64_t seq = 0;
    mf_stmt stmt;
    mf_entry_id_split(it->by, device, &seq);
    mf_status status =
        mf_stmt_get(&stmt, db,
                    "INSERT OR IGNORE INTO corrects (device, seq, job, target, replaces)"
                    " VALUES (?1, ?2, ?3, ?4, ?5)",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, device);
    mf_stmt_int(&stmt, 2, seq);
    mf_stmt_text(&stmt, 3, job);
    mf_stmt_text(&stmt, 4, it->target);
    mf_stmt_text(&stmt, 5, it->named);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* A correction is never changed: those that are there already stay. Every fold has them all. */
static mf_status insert_all_named(mf_db *db, const char *job, const mf_job_fold *fold, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < fold->n_named; i++)
        status = insert_named(db, job, &fold->named[i], err);
    return status;
}

mf_status mf_index_corrections(mf_book *book, const char *job, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, book, job, mf_corrections_alone, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        status = insert_all_named(&book->db, job, fold, err);
    mf_job_fold_free(fold);
    return status;
}

static mf_status replace(mf_db *db, const char *job, const mf_wants *w, mf_err *err)
{
    mf_status status = mf_db_run(db, "DELETE FROM due WHERE job = ?1", &job, 1, err);
    if (status == MF_OK)
        status = mf_db_run(db, "DELETE FROM place WHERE job = ?1", &job, 1, err);
    if (status == MF_OK)
        status = insert_places(db, job, w, err);
    if (status == MF_OK)
        status = insert_due(db, job, w, err);
    return status == MF_OK && job[0] != '\0' ? mf_settled_refresh(db, job, w, err) : status;
}

mf_status mf_index_refresh(mf_book *book, const char *job, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_wants wants = {.n_place = 0};
    mf_status status = mf_index_job(&fold, book, job, err);
    if (status == MF_OK)
        status = insert_all_named(&book->db, job, fold, err);
    if (status == MF_OK)
        status = mf_want(&wants, &fold->job, err);
    if (status == MF_OK)
        status = replace(&book->db, job, &wants, err);
    mf_want_free(&wants);
    mf_job_fold_free(fold);
    return status;
}

mf_status mf_index_fill(mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &book->db, "SELECT job FROM held ORDER BY job", err);
    while (mf_stmt_next(&stmt, &status, err))
        status = mf_index_refresh(book, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}
