#include "book/known.h"

#include "base/fail.h"
#include "base/letters.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

#define SHOWN 8 /* ids listed in a mend */
#define NEAR  2 /* letters apart that still look like a slip of the finger */

/* SELECT <key> FROM <kind> WHERE job = ?1 <rest> */
static mf_status select_keys(mf_stmt *out, mf_book *book, const mf_kind *kind, const char *job,
                             bool one, mf_err *err)
{
    mf_buf sql = {0};
    const char *key = mf_kind_key(kind)->name;
    *out = (mf_stmt){0};
    mf_buf_text(&sql, "SELECT ");
    mf_sql_name(&sql, key);
    mf_buf_text(&sql, " FROM ");
    mf_sql_name(&sql, kind->name);
    mf_buf_text(&sql, " WHERE job = ?1");
    if (one) {
        mf_buf_text(&sql, " AND ");
        mf_sql_name(&sql, key);
        mf_buf_text(&sql, " = ?2");
    } else {
        mf_buf_text(&sql, " ORDER BY 1");
    }
    mf_status status = mf_stmt_take(out, &book->db, &sql, err);
    if (status == MF_OK)
        mf_stmt_text(out, 1, kind->of_firm ? "" : job);
    return status;
}

mf_status mf_known(mf_book *book, const mf_kind *kind, const char *job, const char *id, bool *known,
                   mf_err *err)
{
    mf_stmt stmt;
    *known = false;
    mf_status status = select_keys(&stmt, book, kind, job, true, err);
    if (status == MF_OK) {
        mf_stmt_text(&stmt, 2, id);
        status = mf_stmt_step(&stmt, known, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* ---- which one was meant ---------------------------------------------------------------- */

static void consider(mf_known_ids *ids, const char *id, const char *wanted)
{
    int apart = mf_letters_apart(id, wanted);
    if (apart < ids->apart) {
        ids->apart = apart;
        snprintf(ids->nearest, sizeof ids->nearest, "%s", id);
    }
    if (ids->count < SHOWN)
        mf_buf_printf(&ids->list, "%s%s", ids->count == 0 ? "" : ", ", id);
    else if (ids->count == SHOWN)
        mf_buf_text(&ids->list, " ...");
    ids->count++;
}

mf_status mf_known_ids_of(mf_known_ids *out, mf_book *book, const mf_kind *kind, const char *job,
                          const char *id, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    *out = (mf_known_ids){.apart = MF_FAR_APART};
    mf_status status = select_keys(&stmt, book, kind, job, false, err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            consider(out, mf_stmt_column(&stmt, 0), id);
    }
    mf_stmt_done(&stmt);
    if (out->apart > NEAR || (size_t)out->apart >= strlen(id))
        out->nearest[0] = '\0';
    return status == MF_OK && out->list.failed ? mf_fail_memory(err) : status;
}

void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind)
{
    if (ids->count == 0)
        mf_buf_printf(out, "log the %s first", kind->name);
    else if (ids->nearest[0] != '\0')
        mf_buf_printf(out, "did you mean %s? There are: %s", ids->nearest, mf_buf_str(&ids->list));
    else
        mf_buf_printf(out, "there are: %s", mf_buf_str(&ids->list));
}

mf_status mf_known_mend(mf_buf *out, mf_book *book, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err)
{
    mf_known_ids ids;
    mf_status status = mf_known_ids_of(&ids, book, kind, job, id, err);
    mf_known_ids_mend(out, &ids, kind);
    if (status == MF_OK && out->failed)
        status = mf_fail_memory(err);
    mf_buf_free(&ids.list);
    return status;
}
