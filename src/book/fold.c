#include "book/fold.h"

#include "base/fail.h"
#include "base/json.h"
#include "book/index.h"
#include "book/journal.h"
#include "book/row.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* ---- corrections ------------------------------------------------------------------- */

/* Keeps the row the statement stands on when it is the last made so far. */
static mf_status take_later(mf_in_force *out, const char **at, mf_arena *arena, mf_stmt *stmt,
                            mf_err *err)
{
    const char *entry = mf_stmt_column(stmt, 0), *logged = mf_stmt_column(stmt, 2);
    if (out->entry[0] != '\0' && !mf_made_after(logged, entry, *at, out->entry))
        return MF_OK;
    *at = mf_arena_text(arena, logged);
    out->entry = mf_arena_text(arena, entry);
    out->body = mf_arena_text(arena, mf_stmt_column(stmt, 1));
    return *at == NULL || out->entry == NULL || out->body == NULL ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_fold_in_force(mf_in_force *out, mf_arena *arena, mf_db *tables, const char *target,
                           const char *job, mf_err *err)
{
    /* Without ORDER BY: nearly every entry has none, and a sorter has its price. i and j
     * lead to the rows c and d: SQLite takes what stands in an index for what stands in
     * the row, and an index may lie. */
    static const char sql[] =
        "SELECT c.entry, c.after, c.logged_at FROM correction AS i"
        " CROSS JOIN correction AS c NOT INDEXED ON c.rowid = i.rowid"
        " WHERE i.target = ?1 AND c.target = ?1 AND c.job = ?2 AND NOT EXISTS"
        " (SELECT 1 FROM correction AS j CROSS JOIN correction AS d NOT INDEXED"
        "   ON d.rowid = j.rowid WHERE j.replaces = c.entry AND d.replaces = c.entry"
        "   AND d.target = ?1 AND d.job = ?2 AND d.entry <> c.entry)";
    mf_stmt stmt;
    bool row = true;
    const char *at = "";
    *out = (mf_in_force){"", ""};
    mf_status status = mf_stmt_get(&stmt, tables, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, target);
    mf_stmt_text(&stmt, 2, job);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = take_later(out, &at, arena, &stmt, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* *out is NULL when text is no JSON, which is no failure; no memory for it is one. */
static mf_status read_json(json_t **out, const char *text, mf_err *err)
{
    mf_err why = {0};
    *out = mf_json_parse(text, strlen(text), &why);
    return why.status == MF_SYSTEM ? mf_fail_memory(err) : MF_OK;
}

/* Appends the canonical body that a correction puts in force; nothing when it
 * withdraws. */
static void add_after(mf_buf *out, const json_t *correction)
{
    const json_t *body = json_object_get(correction, "body");
    if (body != NULL)
        mf_json_canonical(out, body);
}

/* What an entry said: its body, or what it put in force as a correction. */
static mf_status add_body_of_line(mf_buf *out, const mf_line *line, mf_err *err)
{
    if (strcmp(line->kind, MF_KIND_CORRECTION) != 0) {
        mf_buf_text(out, line->body);
    } else {
        json_t *body = NULL;
        if (read_json(&body, line->body, err) != MF_OK)
            return MF_SYSTEM;
        add_after(out, body);
        json_decref(body);
    }
    return out->failed ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_fold_said(mf_buf *out, mf_arena *arena, const mf_fold *fold, const char *id,
                       mf_err *err)
{
    mf_line line;
    bool found = false;
    mf_status status = mf_journal_entry(&line, arena, fold->journal, id, &found, err);
    return status != MF_OK || !found ? status : add_body_of_line(out, &line, err);
}

static mf_status insert_correction(mf_db *db, const mf_line *line, const json_t *body,
                                   const char *before, const char *after, mf_err *err)
{
    static const char sql[] =
        "INSERT OR REPLACE INTO correction (entry, job, logged_at, who, target, replaces,"
        " \"kind\", reason, before, after) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";
    char id[MF_ENTRY_ID];
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    snprintf(id, sizeof id, "%s/%lld", line->device, (long long)line->seq);
    mf_stmt_text(&stmt, 1, id);
    mf_stmt_text(&stmt, 2, line->job);
    mf_stmt_text(&stmt, 3, line->at);
    mf_stmt_text(&stmt, 4, line->who);
    mf_stmt_text(&stmt, 5, mf_json_string_of(body, "target"));
    mf_stmt_text(&stmt, 6, mf_json_string_of(body, "replaces"));
    mf_stmt_text(&stmt, 7, mf_json_string_of(body, "kind"));
    mf_stmt_text(&stmt, 8, mf_json_string_of(body, "reason"));
    mf_stmt_text(&stmt, 9, before);
    mf_stmt_text(&stmt, 10, after);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- rows -------------------------------------------------------------------------------- */

/* Puts the row of a typed entry in place of the one that is there, if any. */
static mf_status fold_typed(const mf_fold *fold, mf_arena *arena, const mf_line *line, mf_err *err)
{
    const mf_kind *kind = mf_kind_named(line->kind);
    if (kind == NULL)
        return MF_OK;
    char id[MF_ENTRY_ID];
    snprintf(id, sizeof id, "%s/%lld", line->device, (long long)line->seq);
    mf_in_force force;
    mf_status status = mf_fold_in_force(&force, arena, fold->tables, id, line->job, err);
    if (status == MF_OK)
        status = mf_row_delete(fold->tables, kind, id, err);
    bool corrected = status == MF_OK && force.entry[0] != '\0';
    if (status != MF_OK || (corrected && force.body[0] == '\0'))
        return status;
    const char *text = corrected ? force.body : line->body;
    json_t *body = NULL;
    mf_row_head head = {id, line->job, line->at, line->who, corrected ? force.entry : ""};
    status = read_json(&body, text, err);
    if (status == MF_OK)
        status = mf_row_insert(fold->tables, kind, &head, body, err);
    json_decref(body);
    return status;
}

/* The target may not be here yet (another device's): then its row takes the
 * correction in when it comes. */
static mf_status fold_target(const mf_fold *fold, mf_arena *arena, const char *target, mf_err *err)
{
    mf_line line;
    bool found = false;
    mf_status status = mf_journal_entry(&line, arena, fold->journal, target, &found, err);
    return status == MF_OK && found ? fold_typed(fold, arena, &line, err) : status;
}

static mf_status fold_correction(const mf_fold *fold, mf_arena *arena, const mf_line *line,
                                 mf_err *err)
{
    mf_buf before = {0}, after = {0};
    json_t *body = NULL;
    mf_status status = read_json(&body, line->body, err);
    if (status == MF_OK)
        status = mf_fold_said(&before, arena, fold, mf_json_string_of(body, "replaces"), err);
    add_after(&after, body);
    if (before.failed || after.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = insert_correction(fold->tables, line, body, mf_buf_str(&before),
                                   mf_buf_str(&after), err);
    if (status == MF_OK && !fold->targets_later)
        status = fold_target(fold, arena, mf_json_string_of(body, "target"), err);
    json_decref(body);
    mf_buf_free(&before);
    mf_buf_free(&after);
    return status;
}

/* A correction may have come in before what it replaces: then it could not say
 * yet what was there before. */
static mf_status fill_before(const mf_fold *fold, const char *id, const char *body, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, fold->tables,
                                   "UPDATE correction SET before = ?2"
                                   " WHERE replaces = ?1 AND before = '' AND ?2 <> ''",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, id);
    mf_stmt_text(&stmt, 2, body);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* What was judged is forgotten at the address of before and at that of now. */
static mf_status index_kind(mf_db *db, const char *job, const char *kind, mf_err *err)
{
    mf_status status = mf_settled_forget(db, job, kind, err);
    if (status != MF_OK || !mf_index_wants(kind))
        return status;
    status = mf_index_refresh(db, job, err);
    return status == MF_OK ? mf_settled_forget(db, job, kind, err) : status;
}

/* Brings the tables of index.h up to date when the entry, or what it corrects, bears
 * on them. */
static mf_status index_line(const mf_fold *fold, const mf_line *line, mf_err *err)
{
    if (strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        return index_kind(fold->tables, line->job, line->kind, err);
    json_t *body = NULL;
    mf_line target = {.kind = NULL};
    mf_arena arena = {0};
    bool found = false;
    mf_status status = read_json(&body, line->body, err);
    if (status == MF_OK) /* the kind that it says may not be that of the target */
        status = mf_journal_entry(&target, &arena, fold->journal, mf_json_string_of(body, "target"),
                                  &found, err);
    if (status == MF_OK && found && fold->targets_later)
        status = mf_settled_forget(fold->tables, line->job, target.kind, err);
    else if (status == MF_OK && found)
        status = index_kind(fold->tables, line->job, target.kind, err);
    json_decref(body);
    mf_arena_free(&arena);
    return status;
}

static mf_status fold_line(const mf_fold *fold, mf_arena *arena, const mf_line *line, mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_buf body = {0};
    bool correction = strcmp(line->kind, MF_KIND_CORRECTION) == 0;
    mf_status status =
        correction ? fold_correction(fold, arena, line, err) : fold_typed(fold, arena, line, err);
    snprintf(id, sizeof id, "%s/%lld", line->device, (long long)line->seq);
    if (status == MF_OK)
        status = add_body_of_line(&body, line, err);
    if (status == MF_OK)
        status = fill_before(fold, id, mf_buf_str(&body), err);
    mf_buf_free(&body);
    return status == MF_OK && !fold->index_later ? index_line(fold, line, err) : status;
}

mf_status mf_fold_entry(const mf_fold *fold, const char *device, int64_t seq, mf_err *err)
{
    mf_arena arena = {0};
    mf_line line;
    bool found = false;
    mf_status status = mf_journal_find(&line, &arena, fold->journal, device, seq, &found, err);
    if (status == MF_OK && found)
        status = fold_line(fold, &arena, &line, err);
    mf_arena_free(&arena);
    return status;
}

mf_status mf_fold_line(const mf_fold *fold, const mf_line *line, mf_err *err)
{
    mf_arena arena = {0};
    mf_status status = fold_line(fold, &arena, line, err);
    mf_arena_free(&arena);
    return status;
}

static mf_status fold_one_target(const mf_fold *fold, const char *id, mf_err *err)
{
    mf_arena arena = {0};
    mf_line line;
    bool found = false;
    mf_status status = mf_journal_entry(&line, &arena, fold->journal, id, &found, err);
    if (status == MF_OK && found)
        status = fold_typed(fold, &arena, &line, err);
    if (status == MF_OK && found && !fold->index_later)
        status = index_kind(fold->tables, line.job, line.kind, err);
    mf_arena_free(&arena);
    return status;
}

mf_status mf_fold_targets(const mf_fold *fold, int64_t from, mf_err *err)
{
    static const char sql[] = "SELECT DISTINCT c.target FROM entry AS e JOIN correction AS c"
                              " ON c.entry = e.device || '/' || e.seq"
                              " WHERE e.rowid > ?1 AND e.kind = 'correction'";
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(&stmt, fold->journal, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, from);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = fold_one_target(fold, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_fold_all(const mf_fold *into, mf_err *err)
{
    mf_fold fold = {into->journal, into->tables, true, true};
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(
        &stmt, fold.journal, "SELECT " MF_LINE_COLUMNS " FROM entry ORDER BY device, seq", err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        mf_line line = mf_line_of_row(&stmt);
        status = mf_fold_line(&fold, &line, err);
    }
    mf_stmt_done(&stmt);
    if (status == MF_OK)
        status = mf_fold_targets(&fold, 0, err);
    return status == MF_OK ? mf_index_fill(fold.tables, err) : status;
}
