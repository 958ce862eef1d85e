/* check_tables.c - the derived tables and the schema against fresh ones. */
#include "base/fail.h"
#include "base/utf8.h"
#include "book/check.h"
#include "book/pair.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* ---- rows ------------------------------------------------------------------------------ */

static void show(char *out, size_t size, mf_stmt *stmt, int at)
{
    if (mf_stmt_is_null(stmt, at))
        snprintf(out, size, "nothing");
    else
        mf_utf8_show(out, size, mf_stmt_column(stmt, at));
}

static void compare_row(mf_checker *c, mf_pair *pair, const char *table)
{
    char where[64], is[60], should[60];
    const char *entry = mf_stmt_column(pair->has_left ? &pair->left : &pair->right, 0);
    snprintf(where, sizeof where, "entry %.40s", entry);
    if (!pair->has_right) {
        mf_fault(c, false, where, "table %s has a row for it that the journal does not give",
                 table);
        return;
    }
    if (!pair->has_left) {
        mf_fault(c, false, where, "its row in table %s is missing", table);
        return;
    }
    int n = sqlite3_column_count(pair->left.handle);
    for (int i = 1; i < n; i++) {
        if (mf_pair_same(pair, i))
            continue;
        const char *column = sqlite3_column_name(pair->left.handle, i);
        show(is, sizeof is, &pair->left, i);
        show(should, sizeof should, &pair->right, i);
        mf_fault_detail(c, entry, " (column %s of table %s says %s, the journal %s)", column, table,
                        is, should);
        mf_fault(c, false, where, "column %s of table %s says %s, the journal %s", column, table,
                 is, should);
        return;
    }
}

static mf_status compare_table(mf_checker *c, const char *table, const char *sql, mf_err *err)
{
    mf_pair pair;
    bool row = true;
    mf_err cannot = {0};
    mf_status status = mf_pair_begin(&pair, &c->book->db, &c->fresh, sql, 1, &cannot);
    if (status != MF_OK) { /* somebody took the table or a column away */
        mf_fault(c, false, table, "the table cannot be read: %.200s", cannot.what);
        mf_pair_end(&pair);
        return MF_OK;
    }
    while (status == MF_OK && row) {
        status = mf_pair_next(&pair, &row, err);
        if (status == MF_OK && row)
            compare_row(c, &pair, table);
    }
    mf_pair_end(&pair);
    return status;
}

static mf_status compare_kind(mf_checker *c, const mf_kind *kind, mf_err *err)
{
    mf_buf sql = {0};
    mf_buf_text(&sql, "SELECT entry, job, logged_at, who, correction");
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_buf_text(&sql, ", ");
        mf_sql_name(&sql, kind->fields[i].name);
    }
    mf_buf_text(&sql, " FROM ");
    mf_sql_name(&sql, kind->name);
    mf_buf_text(&sql, " ORDER BY entry");
    mf_status status =
        sql.failed ? mf_fail_memory(err) : compare_table(c, kind->name, sql.data, err);
    mf_buf_free(&sql);
    return status;
}

mf_status mf_check_tables(mf_checker *c, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < count; i++)
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) != 0)
            status = compare_kind(c, &kinds[i], err);
    if (status == MF_OK)
        status = compare_table(c, MF_KIND_CORRECTION,
                               "SELECT entry, job, logged_at, who, target, replaces, \"kind\","
                               " reason, before, after FROM correction ORDER BY entry",
                               err);
    return status;
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
