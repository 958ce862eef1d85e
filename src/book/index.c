#include "book/index.h"

#include "book/index_want.h"
#include <mistfold/address.h>
#include <string.h>

const char mf_index_sql[] =
    "CREATE TABLE place ( -- the address of each job, to find others at the same one\n"
    "  job TEXT PRIMARY KEY NOT NULL\n"
    "  , key TEXT NOT NULL -- its number and the first letter behind it, in lower case\n"
    ") STRICT;\n"
    "CREATE INDEX place_key ON place (key);\n"
    "CREATE TABLE due ( -- what is to be done by which day\n"
    "  job TEXT NOT NULL -- '' for the firm\n"
    "  , what TEXT NOT NULL -- start: work begins; handover: the record is due to owner and\n"
    "                       -- occupants; keep: records are kept through this day;\n"
    "                       -- certificate: it expires\n"
    "  , day TEXT NOT NULL\n"
    "  , who TEXT NOT NULL -- holder of the certificate, else ''\n"
    "  , entry TEXT NOT NULL -- the entry that sets the day\n"
    "  , PRIMARY KEY (job, what, entry)\n"
    ") STRICT;\n"
    "CREATE INDEX due_day ON due (what, day);\n";

bool mf_index_wants(const char *kind)
{
    static const char *const kinds[] = {"house",       "completion", "invoice",   "handover",
                                        "certificate", "party",      "assignment"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

void mf_place_key(mf_buf *out, const char *address)
{
    char key[MF_ADDRESS_KEY];
    mf_address_key(address, key);
    mf_buf_text(out, key);
}

/* ---- making them ----------------------------------------------------------------------------- */

static mf_status insert(mf_db *db, const char *job, const mf_wants *w, mf_err *err)
{
    const char *const place[] = {job, mf_buf_str(&w->key)};
    mf_status status = MF_OK;
    if (w->house)
        status = mf_db_run(db, "INSERT INTO place (job, key) VALUES (?1, ?2)", place, 2, err);
    for (size_t i = 0; status == MF_OK && i < w->n; i++) {
        const char *const row[] = {job, w->due[i].what, w->due[i].day, "", w->due[i].entry};
        status = mf_db_run(db,
                           "INSERT INTO due (job, what, day, who, entry)"
                           " VALUES (?1, ?2, ?3, ?4, ?5)",
                           row, 5, err);
    }
    return status;
}

mf_status mf_index_refresh(mf_db *db, const char *job, mf_err *err)
{
    mf_wants w = {.house = false};
    mf_want_from from;
    mf_want_begin(&from, db, false);
    mf_status status = mf_db_run(db, "DELETE FROM due WHERE job = ?1", &job, 1, err);
    if (status == MF_OK && job[0] == '\0')
        return mf_db_run(db, "INSERT INTO due (job, what, day, who, entry) " MF_FIRM_ROWS, NULL, 0,
                         err);
    if (status == MF_OK)
        status = mf_db_run(db, "DELETE FROM place WHERE job = ?1", &job, 1, err);
    if (status == MF_OK)
        status = mf_want_job(&w, &from, job, err);
    if (status == MF_OK)
        status = insert(db, job, &w, err);
    if (status == MF_OK)
        status = mf_settled_refresh(db, job, mf_buf_str(&w.key), w.house, err);
    mf_buf_free(&w.key);
    mf_want_end(&from);
    return status;
}

mf_status mf_index_fill(mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_index_refresh(db, "", err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, db, "SELECT DISTINCT job FROM house ORDER BY job", err);
    if (status != MF_OK)
        return status;
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = mf_index_refresh(db, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}
