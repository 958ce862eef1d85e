/* check_row.c - the derived row of one entry against what the journal gives. */
#include "base/fail.h"
#include "base/utf8.h"
#include "book/check.h"
#include "book/fold.h"
#include "book/row.h"
#include "book/tables.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What a column should hold: nothing, a number or a text. */
typedef struct wanted {
    const char *column;
    const char *text; /* NULL = not a text; ended by its length alone */
    size_t len;
    int64_t number;
    bool is_number;
} wanted;

static wanted text_wanted(const char *column, const char *text)
{
    return (wanted){.column = column, .text = text, .len = text == NULL ? 0 : strlen(text)};
}

/* ---- what the body says of a field, as mf_row_bind (row.c) writes it ------------------ */

typedef enum shape { SHAPE_NUMBER, SHAPE_YESNO, SHAPE_TEXT } shape;

static shape shape_of(const mf_field *field)
{
    if (field->type == MF_F_YESNO)
        return SHAPE_YESNO;
    return mf_field_is_number(field->type) ? SHAPE_NUMBER : SHAPE_TEXT;
}

static wanted wanted_of_flat(const mf_field *field, const mf_flat *flat)
{
    static const mf_flat_type types[] = {
        [SHAPE_NUMBER] = MF_FLAT_INT, [SHAPE_YESNO] = MF_FLAT_BOOL, [SHAPE_TEXT] = MF_FLAT_TEXT};
    const mf_flat_member *member = mf_flat_get(flat, field->name);
    shape is = shape_of(field);
    wanted want = {.column = field->name};
    if (member == NULL || member->type != types[is])
        return want;
    want.is_number = is != SHAPE_TEXT;
    if (want.is_number) {
        want.number = member->number;
    } else {
        want.text = member->text;
        want.len = member->len;
    }
    return want;
}

static wanted wanted_of_tree(const mf_field *field, const json_t *tree)
{
    const json_t *value = json_object_get(tree, field->name);
    shape is = shape_of(field);
    if (is == SHAPE_TEXT)
        return text_wanted(field->name, json_string_value(value));
    bool there = is == SHAPE_YESNO ? json_is_boolean(value) : json_is_integer(value);
    int64_t number = is == SHAPE_YESNO ? json_is_true(value) : json_integer_value(value);
    return (wanted){.column = field->name, .is_number = there, .number = number};
}

static wanted field_wanted(const mf_field *field, const mf_body *body)
{
    return body->is_flat ? wanted_of_flat(field, &body->flat) : wanted_of_tree(field, body->tree);
}

/* ---- comparing ------------------------------------------------------------------------ */

static bool same(mf_stmt *stmt, int at, const wanted *want)
{
    int type = sqlite3_column_type(stmt->handle, at);
    if (want->is_number)
        return type == SQLITE_INTEGER && mf_stmt_number(stmt, at) == want->number;
    if (want->text == NULL)
        return type == SQLITE_NULL;
    return type == SQLITE_TEXT && (size_t)sqlite3_column_bytes(stmt->handle, at) == want->len &&
           memcmp(mf_stmt_column(stmt, at), want->text, want->len) == 0;
}

static void show(char *out, size_t size, const char *text, size_t len)
{
    char piece[64];
    snprintf(piece, sizeof piece, "%.*s", len < sizeof piece ? (int)len : (int)sizeof piece, text);
    mf_utf8_show(out, size, piece);
}

static void tell(mf_checker *c, const char *id, const char *table, mf_stmt *stmt, int at,
                 const wanted *want)
{
    char where[64], is[60] = "nothing", should[60] = "nothing";
    if (!mf_stmt_is_null(stmt, at))
        mf_utf8_show(is, sizeof is, mf_stmt_column(stmt, at));
    if (want->is_number)
        snprintf(should, sizeof should, "%lld", (long long)want->number);
    else if (want->text != NULL)
        show(should, sizeof should, want->text, want->len);
    snprintf(where, sizeof where, "entry %.40s", id);
    mf_fault_detail(c, id, " (column %s of table %s says %s, the journal %s)", want->column, table,
                    is, should);
    mf_fault(c, false, where, "column %s of table %s says %s, the journal %s", want->column, table,
             is, should);
}

/* ---- finding the row ------------------------------------------------------------------ */

static const char correction_columns[] =
    "entry, job, logged_at, who, target, replaces, \"kind\", reason, before, after";

/* kind NULL: of corrections. The number of the entry and the rowid stand behind the columns. */
static void add_select(mf_buf *sql, const mf_kind *kind, const char *where)
{
    mf_buf_printf(sql, "SELECT %s",
                  kind == NULL ? correction_columns : "entry, job, logged_at, who, correction");
    for (size_t i = 0; kind != NULL && i < kind->n_fields; i++) {
        mf_buf_text(sql, ", ");
        mf_sql_name(sql, kind->fields[i].name);
    }
    mf_buf_text(sql, kind == NULL ? ", " MF_SEQ_OF_ENTRY : ", seq");
    mf_buf_text(sql, ", rowid FROM ");
    mf_sql_name(sql, kind == NULL ? MF_KIND_CORRECTION : kind->name);
    mf_buf_text(sql, where);
}

/* Somebody may have taken the table or a column away: a fault, told once. */
static mf_status open_seen(mf_checker *c, mf_seen *seen, const mf_kind *kind, const char *table,
                           mf_err *err)
{
    mf_err cannot = {0};
    mf_buf one = {0}, behind = {0};
    seen->open = true;
    add_select(&one, kind, kind == NULL ? " WHERE entry = ?1" : MF_WHERE_ENTRY);
    add_select(&behind, kind, " WHERE rowid > ?1 ORDER BY rowid");
    if (one.failed || behind.failed) {
        mf_buf_free(&one);
        mf_buf_free(&behind);
        return mf_fail_memory(err);
    }
    mf_status status = mf_stmt_take(&seen->row, &c->book->db, &one, &cannot);
    if (status == MF_OK)
        status = mf_stmt_take(&seen->next, &c->book->db, &behind, &cannot);
    mf_buf_free(&behind);
    if (status == MF_OK)
        return MF_OK;
    seen->unreadable = true;
    if (!mf_db_lacks(&c->book->db)) {
        if (err != NULL)
            *err = cannot;
        return status;
    }
    mf_fault(c, false, table, "the table cannot be read: %.200s", cannot.what);
    return MF_OK;
}

static bool stands_on(mf_stmt *stmt, const char *id)
{
    size_t len = strlen(id);
    const char *slash = strrchr(id, '/');
    int seq = sqlite3_column_count(stmt->handle) - 2;
    if (slash == NULL || sqlite3_column_type(stmt->handle, seq) != SQLITE_INTEGER ||
        mf_stmt_number(stmt, seq) != strtoll(slash + 1, NULL, 10))
        return false;
    return sqlite3_column_type(stmt->handle, 0) == SQLITE_TEXT &&
           (size_t)sqlite3_column_bytes(stmt->handle, 0) == len &&
           memcmp(mf_stmt_column(stmt, 0), id, len) == 0;
}

/* The next row of the table, when it is that of the entry. One that was not asked for
 * stays: its entry may come. */
static mf_status follow(mf_seen *seen, const char *id, mf_err *err)
{
    mf_status status = MF_OK;
    if (seen->following && seen->compared)
        status = mf_stmt_step(&seen->next, &seen->following, err);
    seen->compared = false;
    if (status == MF_OK && seen->following && stands_on(&seen->next, id)) {
        seen->compared = true;
        seen->at = &seen->next;
    }
    return status;
}

/* Two that were looked up and stand one behind the other: the next may follow. */
static void look_behind(mf_seen *seen, int64_t rowid)
{
    if (rowid == seen->last + 1) {
        mf_stmt_again(&seen->next);
        mf_stmt_int(&seen->next, 1, rowid);
        seen->following = seen->compared = true;
    }
    seen->last = rowid;
}

static int64_t rowid_of(mf_stmt *stmt)
{
    return mf_stmt_number(stmt, sqlite3_column_count(stmt->handle) - 1);
}

static mf_status look_up(mf_seen *seen, const char *id, mf_err *err)
{
    bool row = false;
    mf_stmt_again(&seen->row);
    mf_stmt_text(&seen->row, 1, id);
    mf_status status = mf_stmt_step(&seen->row, &row, err);
    if (status != MF_OK || !row || !stands_on(&seen->row, id))
        return status;
    seen->at = &seen->row;
    look_behind(seen, rowid_of(&seen->row));
    return MF_OK;
}

/* seen->at is NULL when there is none. */
static mf_status find(const mf_checker *c, mf_seen *seen, const char *id, mf_err *err)
{
    seen->at = NULL;
    mf_status status = follow(seen, id, err);
    if (status == MF_OK && seen->at == NULL)
        status = look_up(seen, id, err);
    if (status == MF_OK && seen->at != NULL) {
        seen->found++;
        seen->rows += mf_row_mark(c, rowid_of(seen->at));
    }
    return status;
}

static void missing(mf_checker *c, const char *id, const char *table)
{
    char where[64];
    snprintf(where, sizeof where, "entry %.40s", id);
    mf_fault(c, false, where, "its row in table %s is missing", table);
}

/* ---- a row of a kind -------------------------------------------------------------------- */

static void compare(mf_checker *c, const mf_seen *seen, const mf_kind *kind, const mf_row_head *h,
                    const mf_body *body)
{
    mf_stmt *stmt = seen->at;
    const wanted head[] = {text_wanted("job", h->job), text_wanted("logged_at", h->at),
                           text_wanted("who", h->who), text_wanted("correction", h->correction)};
    int n = MF_COL_FIRST_FIELD - 1;
    for (int i = 0; i < n + (int)kind->n_fields; i++) {
        wanted want = i < n ? head[i] : field_wanted(&kind->fields[i - n], body);
        if (same(stmt, i + 1, &want))
            continue;
        tell(c, h->entry, kind->name, stmt, i + 1, &want);
        return;
    }
}

static mf_status check_kind_row(mf_checker *c, mf_seen *seen, const mf_kind *kind,
                                const mf_row_head *head, const mf_body *body, bool withdrawn,
                                mf_err *err)
{
    char where[64];
    mf_status status = find(c, seen, head->entry, err);
    if (status != MF_OK)
        return status;
    bool row = seen->at != NULL;
    if (row && withdrawn) {
        snprintf(where, sizeof where, "entry %.40s", head->entry);
        mf_fault(c, false, where, "table %s has a row for it that the journal does not give",
                 kind->name);
    } else if (!row && !withdrawn) {
        missing(c, head->entry, kind->name);
    } else if (row) {
        compare(c, seen, kind, head, body);
    }
    return MF_OK;
}

static mf_status check_corrected(mf_checker *c, mf_seen *seen, const mf_kind *kind,
                                 const mf_row_head *head, const char *text, mf_err *err)
{
    mf_body body = {.text = text};
    mf_status status = mf_body_tree(&body, err);
    if (status == MF_OK)
        status = check_kind_row(c, seen, kind, head, &body, text[0] == '\0', err);
    mf_body_free(&body);
    return status;
}

/* The body in force, which may be a correction's. */
static mf_status check_typed(mf_checker *c, mf_seen *seen, const mf_kind *kind, const mf_line *line,
                             const char *id, mf_body *body, mf_err *err)
{
    mf_arena arena = {0};
    mf_in_force force = {"", ""};
    mf_status status =
        c->corrected ? mf_fold_in_force(&force, &arena, &c->book->db, id, line->job, err) : MF_OK;
    mf_row_head head = {id, line->job, line->at, line->who, force.entry};
    if (status == MF_OK && force.entry[0] != '\0')
        status = check_corrected(c, seen, kind, &head, force.body, err);
    else if (status == MF_OK)
        status = check_kind_row(c, seen, kind, &head, body, false, err);
    mf_arena_free(&arena);
    return status;
}

/* ---- the row of a correction ---------------------------------------------------------------- */

static void compare_correction(mf_checker *c, const mf_line *line, const char *id,
                               const json_t *body, const char *before, const char *after)
{
    const wanted want[] = {text_wanted("job", line->job),
                           text_wanted("logged_at", line->at),
                           text_wanted("who", line->who),
                           text_wanted("target", mf_json_string_of(body, "target")),
                           text_wanted("replaces", mf_json_string_of(body, "replaces")),
                           text_wanted("kind", mf_json_string_of(body, "kind")),
                           text_wanted("reason", mf_json_string_of(body, "reason")),
                           text_wanted("before", before),
                           text_wanted("after", after)};
    mf_stmt *stmt = c->corrections.at;
    for (int i = 0; i < (int)(sizeof want / sizeof want[0]); i++) {
        if (same(stmt, i + 1, &want[i]))
            continue;
        tell(c, id, MF_KIND_CORRECTION, stmt, i + 1, &want[i]);
        return;
    }
}

/* A correction is looked for by what it corrects: an index that lacks it would put what
 * was corrected in force again. */
static mf_status check_reached(mf_checker *c, const char *id, const json_t *body, mf_err *err)
{
    static const char sql[] = "SELECT 1 FROM correction AS a INDEXED BY correction_target,"
                              " correction AS b INDEXED BY correction_replaces WHERE a.target = ?1"
                              " AND a.rowid = ?3 AND b.replaces = ?2 AND b.rowid = ?3";
    char where[64];
    bool row = false;
    mf_stmt stmt = {0};
    mf_err cannot = {0};
    mf_status status = mf_stmt_get(&stmt, &c->book->db, sql, &cannot);
    if (status == MF_OK) {
        mf_stmt_text(&stmt, 1, mf_json_string_of(body, "target"));
        mf_stmt_text(&stmt, 2, mf_json_string_of(body, "replaces"));
        mf_stmt_int(&stmt, 3, rowid_of(c->corrections.at));
        status = mf_stmt_step(&stmt, &row, &cannot);
    }
    mf_stmt_done(&stmt);
    if (status != MF_OK && mf_db_lacks(&c->book->db))
        return MF_OK; /* told by the check of the schema */
    if (status != MF_OK && err != NULL)
        *err = cannot;
    snprintf(where, sizeof where, "entry %.40s", id);
    if (status == MF_OK && !row)
        mf_fault(c, false, where, "an index of table correction does not lead to it");
    return status;
}

static mf_status check_correction(mf_checker *c, const mf_line *line, const char *id,
                                  const json_t *body, mf_err *err)
{
    mf_arena arena = {0};
    mf_buf before = {0}, after = {0};
    mf_fold fold = {&c->book->db, &c->book->db, false, false};
    mf_status status =
        mf_fold_said(&before, &arena, &fold, mf_json_string_of(body, "replaces"), err);
    const json_t *put = json_object_get(body, "body");
    if (put != NULL)
        mf_json_canonical(&after, put);
    if (status == MF_OK && after.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = find(c, &c->corrections, id, err);
    if (status == MF_OK && c->corrections.at == NULL)
        missing(c, id, MF_KIND_CORRECTION);
    else if (status == MF_OK)
        compare_correction(c, line, id, body, mf_buf_str(&before), mf_buf_str(&after));
    if (status == MF_OK && c->out->faults == 0)
        status = check_reached(c, id, body, err);
    mf_buf_free(&before);
    mf_buf_free(&after);
    mf_arena_free(&arena);
    return status;
}

/* ---- any entry --------------------------------------------------------------------------------
 */

mf_status mf_check_row(mf_checker *c, const mf_line *line, const char *where, mf_body *body,
                       mf_err *err)
{
    const char *id = where + MF_WHERE_ID;
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count), *kind = mf_kind_named(line->kind);
    bool correction = strcmp(line->kind, MF_KIND_CORRECTION) == 0;
    if (!correction && (kind == NULL || kind - kinds >= MF_KINDS_MAX))
        return MF_OK;
    mf_seen *seen = correction ? &c->corrections : &c->seen[kind - kinds];
    mf_status status = MF_OK;
    if (!seen->open)
        status = open_seen(c, seen, correction ? NULL : kind, line->kind, err);
    if (status != MF_OK || seen->unreadable)
        return status;
    if (!correction)
        return check_typed(c, seen, kind, line, id, body, err);
    status = mf_body_tree(body, err);
    return status == MF_OK ? check_correction(c, line, id, body->tree, err) : status;
}
