/* check_tables.c - derived rows that no entry gives, and the schema. */
#include "base/fail.h"
#include "book/check.h"
#include "book/pair.h"
#include "book/schema.h"
#include "book/schema_text.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* ---- rows without an entry ---------------------------------------------------------------- */

/* Whether the journal has this entry of this kind (in one of these jobs,
 * when some are asked about). */
static mf_status gives(mf_checker *c, const char *id, const char *table, const mf_asked *jobs,
                       bool *given, mf_err *err)
{
    mf_arena arena = {0};
    mf_line line;
    mf_status status = mf_journal_entry(&line, &arena, &c->book->db, id, given, err);
    if (status == MF_OK && *given)
        *given = strcmp(line.kind, table) == 0 &&
                 (jobs == NULL || line.job[0] == '\0' || mf_asked_has(jobs, line.job));
    mf_arena_free(&arena);
    return status;
}

static mf_status find_extra(mf_checker *c, mf_stmt *stmt, const char *table, const mf_asked *jobs,
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
        status = gives(c, id, table, jobs, &given, err);
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
                         const mf_asked *jobs, mf_err *err)
{
    mf_buf sql = {0};
    mf_buf_printf(&sql, "SELECT %s FROM ", what);
    mf_sql_name(&sql, table);
    if (jobs != NULL) {
        mf_buf_text(&sql, " WHERE job");
        mf_asked_sql(&sql, jobs);
    }
    mf_status status = mf_stmt_take(out, &c->book->db, &sql, err);
    if (status == MF_OK && jobs != NULL)
        mf_asked_bind(out, jobs);
    return status;
}

static mf_status count_rows(mf_checker *c, int64_t *count, const char *table, const mf_asked *jobs,
                            mf_err *err)
{
    mf_stmt stmt = {0};
    bool row = false;
    mf_status status = rows_of(c, &stmt, "count(*)", table, jobs, err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    *count = row ? mf_stmt_number(&stmt, 0) : 0;
    mf_stmt_done(&stmt);
    return status;
}

static mf_status find_more(mf_checker *c, const char *table, const mf_asked *jobs, mf_err *err)
{
    /* The second column: whether the row may stand for that entry. */
    static const char of_kind[] = "entry, seq = " MF_SEQ_OF_ENTRY;
    mf_stmt stmt = {0};
    bool kind = strcmp(table, MF_KIND_CORRECTION) != 0;
    mf_status status = rows_of(c, &stmt, kind ? of_kind : "entry, 1", table, jobs, err);
    if (status == MF_OK)
        status = find_extra(c, &stmt, table, jobs, err);
    mf_stmt_done(&stmt);
    return status;
}

/* An index of a table: the ending of its name, and its columns behind job. */
typedef struct way {
    const char *ending;
    const char *columns[2];
} way;

/* SQLite takes what stands in an index (i) for what stands in the row (t). */
static void add_rows_sql(mf_buf *sql, const char *table, const way *by, const mf_asked *jobs)
{
    mf_buf name = {0};
    mf_buf_printf(&name, "%s%s", table, by->ending);
    mf_buf_text(sql, "SELECT i.rowid FROM ");
    mf_sql_name(sql, table);
    mf_buf_text(sql, " AS i INDEXED BY ");
    mf_sql_name(sql, mf_buf_str(&name));
    mf_buf_text(sql, " CROSS JOIN ");
    mf_sql_name(sql, table);
    mf_buf_text(sql, " AS t NOT INDEXED ON t.rowid = i.rowid WHERE i.job");
    mf_asked_sql(sql, jobs);
    mf_buf_text(sql, " AND t.job = i.job");
    for (size_t i = 0; i < 2 && by->columns[i] != NULL; i++) {
        mf_buf_text(sql, " AND t.");
        mf_sql_name(sql, by->columns[i]);
        mf_buf_text(sql, " IS i.");
        mf_sql_name(sql, by->columns[i]);
    }
    sql->failed = sql->failed || name.failed;
    mf_buf_free(&name);
}

/* The rows that an index gives as they are, and the sum of their marks. */
static mf_status rows_by_index(mf_checker *c, mf_seen *out, const char *table, const way *by,
                               const mf_asked *jobs, mf_err *err)
{
    mf_stmt stmt = {0};
    mf_buf sql = {0};
    bool row = true;
    add_rows_sql(&sql, table, by, jobs);
    mf_status status = mf_stmt_take(&stmt, &c->book->db, &sql, err);
    if (status == MF_OK)
        mf_asked_bind(&stmt, jobs);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        out->found++;
        out->rows += mf_row_mark(c, mf_stmt_number(&stmt, 0));
    }
    mf_stmt_done(&stmt);
    return status;
}

/* Answers come by way of an index: one that lacks a row, leads to one twice, says
 * something else of it or has one that is not in the table makes them false although
 * every row is right. */
static mf_status check_index(mf_checker *c, const mf_seen *seen, const char *table, const way *by,
                             const mf_asked *jobs, mf_err *err)
{
    char where[64];
    mf_seen given = {.found = 0};
    mf_err cannot = {0};
    mf_status status = rows_by_index(c, &given, table, by, jobs, &cannot);
    if (status != MF_OK && mf_db_lacks(&c->book->db))
        return MF_OK; /* told by the check of the schema */
    if (status != MF_OK && err != NULL)
        *err = cannot;
    snprintf(where, sizeof where, "table %.40s", table);
    if (status == MF_OK && given.found != seen->found)
        mf_fault(c, false, where, "its index %s%s gives %lld rows, the journal %lld", table,
                 by->ending, (long long)given.found, (long long)seen->found);
    else if (status == MF_OK && given.rows != seen->rows)
        mf_fault(c, false, where, "its index %s%s leads to other rows than the journal gives",
                 table, by->ending);
    return status;
}

static mf_status check_indexes(mf_checker *c, const mf_seen *seen, const char *table,
                               const mf_asked *jobs, mf_err *err)
{
    mf_table_ways ways = mf_ways_of_table(table);
    const way key = {"_key", {ways.key == NULL ? NULL : ways.key->name, NULL}},
              number = {"_number", {"number", "instrument"}}, alone = {"_job", {NULL, NULL}};
    mf_status status = MF_OK;
    if (ways.key != NULL)
        status = check_index(c, seen, table, &key, jobs, err);
    if (status == MF_OK && ways.number)
        status = check_index(c, seen, table, &number, jobs, err);
    if (status == MF_OK && ways.job)
        status = check_index(c, seen, table, &alone, jobs, err);
    return status;
}

/* All rows that entries give were found one by one: more of them in the table are
 * of somebody else's making. */
static mf_status check_count(mf_checker *c, const mf_seen *seen, const char *table,
                             const mf_asked *jobs, mf_err *err)
{
    int64_t count = 0;
    mf_err cannot = {0};
    if (seen->unreadable)
        return MF_OK;
    mf_status status = count_rows(c, &count, table, jobs, &cannot);
    if (status != MF_OK && !mf_db_lacks(&c->book->db)) {
        if (err != NULL)
            *err = cannot;
        return status;
    }
    if (status != MF_OK) {
        mf_fault(c, false, table, "the table cannot be read: %.200s", cannot.what);
        return MF_OK;
    }
    if (count != seen->found)
        status = find_more(c, table, jobs, err);
    /* Of the whole book SQLite compares the indexes. What is wrong with a row is said
     * already, and shows in them, too. */
    bool wanted = status == MF_OK && jobs != NULL && c->out->faults == 0;
    return wanted ? check_indexes(c, seen, table, jobs, err) : status;
}

mf_status mf_check_extra(mf_checker *c, const mf_asked *jobs, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < count && i < MF_KINDS_MAX; i++)
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) != 0)
            status = check_count(c, &c->seen[i], kinds[i].name, jobs, err);
    return status == MF_OK ? check_count(c, &c->corrections, MF_KIND_CORRECTION, jobs, err)
                           : status;
}

/* ---- schema ---------------------------------------------------------------------------- */

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
        mf_fault(c, false, where, "it is none of this program's");
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
        mf_fault(c, true, where, "it is none of this program's");
    else if (!pair->has_right && sqlite3_strnicmp(name, STATISTICS, strlen(STATISTICS)) == 0)
        mf_fault(c, false, where,
                 "it is none of this program's: somebody ran ANALYZE, and answers may follow it");
    else if (!pair->has_right && sqlite3_stricmp(type, "index") == 0)
        return check_own_index(c, fresh, where, mf_stmt_column(side, 3), err);
    else if (!pair->has_left)
        mf_fault(c, true, where, "it was taken away");
    else if (pair->has_right && !mf_pair_same(pair, 2))
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
                      2, err);
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
