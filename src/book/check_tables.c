/* check_tables.c - derived rows that no entry gives, and the schema. */
#include "base/fail.h"
#include "book/check.h"
#include "book/pair.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* ---- rows without an entry ---------------------------------------------------------------- */

/* Whether the journal has this entry of this kind (in this job, when one is
 * asked about). */
static mf_status gives(mf_checker *c, const char *id, const char *table, const char *job,
                       bool *given, mf_err *err)
{
    char device[MF_DEVICE_MAX + 1];
    int64_t seq = 0;
    mf_arena arena = {0};
    mf_line line;
    *given = false;
    if (!mf_entry_id_split(id, device, &seq))
        return MF_OK;
    mf_status status = mf_journal_find(&line, &arena, &c->book->db, device, seq, given, err);
    if (status == MF_OK && *given)
        *given = strcmp(line.kind, table) == 0 &&
                 (job == NULL || line.job[0] == '\0' || strcmp(line.job, job) == 0);
    mf_arena_free(&arena);
    return status;
}

static mf_status find_extra(mf_checker *c, mf_stmt *stmt, const char *table, const char *job,
                            mf_err *err)
{
    char where[64];
    bool row = true, given = false;
    mf_status status = MF_OK;
    while (status == MF_OK && row) {
        status = mf_stmt_step(stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        const char *id = mf_stmt_column(stmt, 0);
        status = gives(c, id, table, job, &given, err);
        given = given && mf_stmt_number(stmt, 1) != 0;
        if (status != MF_OK || given)
            continue;
        snprintf(where, sizeof where, "entry %.40s", id);
        mf_fault(c, false, where, "table %s has a row for it that the journal does not give",
                 table);
    }
    return status;
}

static mf_status rows_of(mf_checker *c, mf_stmt *out, const char *what, const char *table,
                         const char *job, const char *order, mf_err *err)
{
    mf_buf sql = {0};
    mf_buf_printf(&sql, "SELECT %s FROM ", what);
    mf_sql_name(&sql, table);
    if (job != NULL)
        mf_buf_text(&sql, " WHERE job IN ('', ?1)");
    mf_buf_text(&sql, order);
    mf_status status = mf_stmt_take(out, &c->book->db, &sql, err);
    if (status == MF_OK && job != NULL)
        mf_stmt_text(out, 1, job);
    return status;
}

/* All rows that entries give were found one by one: more of them in the table are
 * of somebody else's making. */
static mf_status check_count(mf_checker *c, const mf_seen *seen, const char *table, const char *job,
                             mf_err *err)
{
    /* The second column: whether the row may stand for that entry. */
    static const char of_kind[] = "entry, seq = " MF_SEQ_OF_ENTRY;
    mf_stmt stmt = {0};
    bool row = false;
    mf_err cannot = {0};
    if (seen->unreadable)
        return MF_OK;
    mf_status status = rows_of(c, &stmt, "count(*)", table, job, "", &cannot);
    if (status != MF_OK && !mf_db_lacks(&c->book->db)) {
        if (err != NULL)
            *err = cannot;
        return status;
    }
    if (status != MF_OK) {
        mf_fault(c, false, table, "the table cannot be read: %.200s", cannot.what);
        return MF_OK;
    }
    status = mf_stmt_step(&stmt, &row, err);
    int64_t count = row ? mf_stmt_number(&stmt, 0) : 0;
    mf_stmt_done(&stmt);
    if (status != MF_OK || count == seen->found)
        return status;
    status = rows_of(c, &stmt, strcmp(table, MF_KIND_CORRECTION) == 0 ? "entry, 1" : of_kind, table,
                     job, " ORDER BY entry", err);
    if (status == MF_OK)
        status = find_extra(c, &stmt, table, job, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_check_extra(mf_checker *c, const char *job, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < count && i < MF_KINDS_MAX; i++)
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) != 0)
            status = check_count(c, &c->seen[i], kinds[i].name, job, err);
    return status == MF_OK ? check_count(c, &c->corrections, MF_KIND_CORRECTION, job, err) : status;
}

/* ---- schema ---------------------------------------------------------------------------- */

static void compare_object(mf_checker *c, mf_pair *pair)
{
    mf_stmt *side = pair->has_left ? &pair->left : &pair->right;
    const char *type = mf_stmt_column(side, 0);
    char where[64];
    snprintf(where, sizeof where, "%.10s %.40s", type, mf_stmt_column(side, 1));
    /* A table, view or index of somebody's own changes nothing of ours. */
    if (!pair->has_right && strcmp(type, "trigger") == 0)
        mf_fault(c, true, where, "it is none of this program's");
    else if (!pair->has_left)
        mf_fault(c, true, where, "it was taken away");
    else if (pair->has_right && !mf_pair_same(pair, 2))
        mf_fault(c, true, where, "it was changed");
}

mf_status mf_check_schema(mf_checker *c, mf_err *err)
{
    mf_pair pair;
    bool row = true;
    mf_status status =
        mf_pair_begin(&pair, &c->book->db, &c->fresh,
                      "SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL"
                      " ORDER BY type, name",
                      2, err);
    while (status == MF_OK && row) {
        status = mf_pair_next(&pair, &row, err);
        if (status == MF_OK && row)
            compare_object(c, &pair);
    }
    mf_pair_end(&pair);
    return status;
}
