#include "book/shape.h"

#include "base/fail.h"
#include "book/pair.h"
#include "book/schema.h"
#include <string.h>

#define BUILT                                                                                      \
    "SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL AND type <> 'trigger'"        \
    " AND (lower(tbl_name) IN ('entry', 'meta', 'content') OR"                                     \
    " lower(name) IN ('entry', 'meta', 'content')) ORDER BY type, name"

static mf_status refuse(const mf_db *db, const char *type, const char *name, const char *what,
                        mf_err *err)
{
    return mf_failf(err, MF_INPUT, db->name,
                    "its tables were changed outside this program, so nothing in it is believed",
                    "keep this file as it is and go on with the last good copy", "%.10s %.40s %s",
                    type, name, what);
}

static mf_status compare(const mf_db *db, mf_pair *pair, mf_err *err)
{
    mf_stmt *side = pair->has_left ? &pair->left : &pair->right;
    const char *type = mf_stmt_column(side, 0), *name = mf_stmt_column(side, 1);
    if (!pair->has_left)
        return refuse(db, type, name, "is missing", err);
    if (!pair->has_right)
        return refuse(db, type, name, "does not belong in a book", err);
    return mf_pair_same(pair) ? MF_OK : refuse(db, type, name, "is not as in a book", err);
}

static mf_status compare_all(mf_db *db, mf_db *fresh, mf_err *err)
{
    mf_pair pair;
    bool row = true;
    mf_status status = mf_pair_begin(&pair, db, fresh, BUILT, err);
    while (status == MF_OK && row) {
        status = mf_pair_next(&pair, &row, err);
        if (status == MF_OK && row)
            status = compare(db, &pair, err);
    }
    mf_pair_end(&pair);
    return status;
}

/* Their code would run on what somebody else put into their hidden tables. Our own, the
 * index of words, is derived: an older version may have made it otherwise. */
static mf_status no_virtual_table(mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, db,
                                   "SELECT name FROM sqlite_schema WHERE lower(type) = 'table'"
                                   " AND coalesce(rootpage, 0) = 0 AND NOT (name = 'find'"
                                   " AND sql LIKE 'CREATE VIRTUAL TABLE find USING fts5(%')",
                                   err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK && row)
        status = refuse(db, "table", mf_stmt_column(&stmt, 0), "is a virtual one", err);
    mf_stmt_done(&stmt);
    return status;
}

/* The next part that a book of this version has, or NULL. */
static const mf_schema_part *next_part(size_t *at, int64_t version)
{
    size_t count = 0;
    const mf_schema_part *parts = mf_schema_parts(&count);
    while (*at < count && parts[*at].since > version)
        ++*at;
    return *at < count ? &parts[(*at)++] : NULL;
}

static bool is_part(mf_stmt *stmt, const mf_schema_part *part)
{
    return strcmp(mf_stmt_column(stmt, 0), part->type) == 0 &&
           strcmp(mf_stmt_column(stmt, 1), part->name) == 0 &&
           strcmp(mf_stmt_column(stmt, 2), part->sql) == 0;
}

mf_status mf_shape_known(bool *known, mf_db *db, int64_t version, mf_err *err)
{
    mf_stmt stmt;
    bool row = true, same = true;
    size_t at = 0;
    *known = false;
    mf_status status = mf_stmt_get(&stmt, db, BUILT, err);
    while (status == MF_OK && row && same) {
        status = mf_stmt_step(&stmt, &row, err);
        const mf_schema_part *part = next_part(&at, version);
        same = row ? part != NULL && is_part(&stmt, part) : part == NULL;
    }
    mf_stmt_done(&stmt);
    *known = status == MF_OK && same;
    return status;
}

mf_status mf_shape_check(mf_db *db, int64_t version, mf_err *err)
{
    bool known = false;
    mf_db fresh = {0};
    mf_status status = no_virtual_table(db, err);
    if (status == MF_OK)
        status = mf_shape_known(&known, db, version, err);
    if (status != MF_OK || known)
        return status;
    status = mf_db_open(&fresh, ":memory:", "the check", err);
    if (status == MF_OK)
        status = mf_schema_make(&fresh, (int)version, err);
    if (status == MF_OK)
        status = compare_all(db, &fresh, err);
    mf_db_close(&fresh);
    return status;
}
