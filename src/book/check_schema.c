/* check_schema.c - the schema of the file against the one this program makes. */
#include "book/check.h"
#include "book/pair.h"
#include "book/schema.h"
#include "book/schema_text.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

#define STATISTICS "sqlite_stat" /* 1 to 4: what ANALYZE found */

static mf_status check_own_index(mf_checker *c, mf_db *fresh, const char *where, const char *table,
                                 mf_err *err)
{
    mf_stmt stmt;
    bool ours = false;
    mf_status status = mf_stmt_get(&stmt, fresh,
                                   "SELECT 1 FROM sqlite_schema WHERE type = 'table'"
                                   " AND name = ?1 COLLATE NOCASE",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, table);
    status = mf_stmt_step(&stmt, &ours, err);
    mf_stmt_done(&stmt);
    if (status == MF_OK && ours)
        mf_fault(c, false, where, "it is not one of this program's");
    return status;
}

static mf_status compare_object(mf_checker *c, mf_db *fresh, mf_pair *pair, mf_err *err)
{
    mf_stmt *side = pair->has_left ? &pair->left : &pair->right;
    const char *type = mf_stmt_column(side, 0), *name = mf_stmt_column(side, 1);
    char where[64];
    snprintf(where, sizeof where, "%.10s %.40s", type, name);
    /* A table or view of somebody's own changes nothing of ours. A trigger would, and an
     * index of one of our tables may answer in the place of ours; statistics say in place
     * of which. SQLite takes the type in capitals, too. */
    if (!pair->has_right && sqlite3_stricmp(type, "trigger") == 0)
        mf_fault(c, true, where, "it is not one of this program's");
    else if (!pair->has_right && sqlite3_strnicmp(name, STATISTICS, strlen(STATISTICS)) == 0)
        mf_fault(
            c, false, where,
            "it is not one of this program's: somebody ran ANALYZE, and answers may follow it");
    else if (!pair->has_right && sqlite3_stricmp(type, "index") == 0)
        return check_own_index(c, fresh, where, mf_stmt_column(side, 3), err);
    else if (!pair->has_left)
        mf_fault(c, true, where, "it was taken away");
    else if (pair->has_right && !mf_pair_same(pair))
        mf_fault(c, true, where, "it was changed");
    return MF_OK;
}

static mf_status compare_objects(mf_checker *c, mf_db *fresh, mf_err *err)
{
    mf_pair pair;
    bool row = true;
    mf_status status =
        mf_pair_begin(&pair, &c->book->db, fresh,
                      "SELECT type, name, sql, tbl_name FROM sqlite_schema WHERE sql IS NOT NULL"
                      " ORDER BY type, name",
                      err);
    while (status == MF_OK && row) {
        status = mf_pair_next(&pair, &row, err);
        if (status == MF_OK && row)
            status = compare_object(c, fresh, &pair, err);
    }
    mf_pair_end(&pair);
    return status;
}

/* Making one takes as long as all the rest of the check of a job: almost every book is
 * the same to the byte, and needs none. */
mf_status mf_check_schema(mf_checker *c, mf_err *err)
{
    bool same = false;
    mf_db fresh = {0};
    mf_status status = mf_schema_same(&c->book->db, &same, err);
    if (status != MF_OK || same)
        return status;
    status = mf_db_open(&fresh, ":memory:", "the check", err);
    if (status == MF_OK)
        status = mf_schema_migrate(&fresh, 0, err);
    if (status == MF_OK)
        status = mf_tables_make(&fresh, err);
    if (status == MF_OK)
        status = compare_objects(c, &fresh, err);
    mf_db_close(&fresh);
    return status;
}
