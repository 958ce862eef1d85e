/* load.c - from the derived tables to the job as a value: one function for every
 * kind, driven by the kind table. */
#include "base/fail.h"
#include "base/mem.h"
#include "book/fold.h"
#include "book/load_earlier.h"
#include "book/refs.h"
#include "book/tables.h"
#include "journal/list.h"
#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static_assert(sizeof(mf_tri) == sizeof(int) && sizeof(mf_component_type) == sizeof(int),
              "an enum of job.h is written as an int");
static_assert(offsetof(mf_reading, src) == 0, "mf_src comes first in every struct");

/* The job and the memory of its texts; the job comes first, so that a pointer to
 * it is a pointer to this. */
typedef struct loaded {
    mf_job job;
    mf_arena arena;
    unsigned char *rows; /* of the kind that is being read; room for cap bytes */
    size_t cap;
} loaded;

/* ---- one row ------------------------------------------------------------------------ */

static const char *text(mf_arena *arena, mf_stmt *stmt, int at)
{
    const char *column = mf_stmt_column(stmt, at);
    return column[0] == '\0' ? "" : mf_arena_text(arena, column);
}

static mf_status unknown_word(mf_stmt *stmt, const mf_field *field, int at, mf_err *err)
{
    char where[60];
    snprintf(where, sizeof where, "entry %.40s", mf_stmt_column(stmt, MF_COL_ENTRY));
    mf_failf(err, MF_SYSTEM, where, "it was written by a newer version, or altered",
             "use a newer version of this program, or check the book",
             "%s is \"%.40s\", which is not known here", field->name, mf_stmt_column(stmt, at));
    mf_fail_name(err, MF_ERR_UNREAD, NULL, NULL, NULL);
    return MF_SYSTEM;
}

static mf_status put_choice(void *member, const mf_field *field, mf_stmt *stmt, int at, mf_err *err)
{
    int index = mf_stmt_is_null(stmt, at) ? 0 : mf_choice(field->choices, mf_stmt_column(stmt, at));
    if (index < 0)
        return unknown_word(stmt, field, at, err);
    memcpy(member, &index, sizeof index);
    return MF_OK;
}

static void put_yesno(void *member, mf_stmt *stmt, int at)
{
    int tri = mf_stmt_is_null(stmt, at)       ? MF_UNKNOWN
              : mf_stmt_number(stmt, at) != 0 ? MF_YES
                                              : MF_NOT;
    memcpy(member, &tri, sizeof tri);
}

static void put_number(void *member, mf_stmt *stmt, int at)
{
    int64_t number = mf_stmt_is_null(stmt, at) ? MF_NUM_NONE : mf_stmt_number(stmt, at);
    memcpy(member, &number, sizeof number);
}

static void put_day(void *member, mf_stmt *stmt, int at)
{
    mf_day day = mf_day_parse(mf_stmt_column(stmt, at), NULL);
    memcpy(member, &day, sizeof day);
}

static void put_minute(void *member, mf_stmt *stmt, int at)
{
    int32_t minute = mf_minute_parse(mf_stmt_column(stmt, at));
    memcpy(member, &minute, sizeof minute);
}

static mf_status put_field(unsigned char *item, const mf_field *field, mf_arena *arena,
                           mf_stmt *stmt, int at, mf_err *err)
{
    void *member = item + field->offset;
    const char *copy;
    switch (field->type) {
    case MF_F_DATE:
        put_day(member, stmt, at);
        return MF_OK;
    case MF_F_TIME:
        put_minute(member, stmt, at);
        return MF_OK;
    case MF_F_CHOICE:
        return put_choice(member, field, stmt, at, err);
    case MF_F_YESNO:
        put_yesno(member, stmt, at);
        return MF_OK;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        put_number(member, stmt, at);
        return MF_OK;
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        break;
    }
    copy = text(arena, stmt, at);
    memcpy(member, &copy, sizeof copy);
    return copy == NULL ? mf_fail_memory(err) : MF_OK;
}

static mf_status put_item(unsigned char *item, const mf_kind *kind, mf_arena *arena, mf_stmt *stmt,
                          mf_err *err)
{
    mf_src src = {text(arena, stmt, MF_COL_ENTRY), text(arena, stmt, MF_COL_AT),
                  text(arena, stmt, MF_COL_WHO), text(arena, stmt, MF_COL_CORRECTION)};
    if (src.entry == NULL || src.at == NULL || src.by == NULL || src.correction == NULL)
        return mf_fail_memory(err);
    memcpy(item, &src, sizeof src);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < kind->n_fields; i++)
        status = put_field(item, &kind->fields[i], arena, stmt, MF_COL_FIRST_FIELD + (int)i, err);
    return status;
}

/* ---- one kind -------------------------------------------------------------------------- */

static void add_select(mf_buf *sql, const mf_kind *kind)
{
    mf_buf_text(sql, "SELECT entry, job, logged_at, who, correction");
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_buf_text(sql, ", ");
        mf_sql_name(sql, kind->fields[i].name);
    }
    mf_buf_text(sql, " FROM ");
    mf_sql_name(sql, kind->name);
    mf_buf_text(sql, " WHERE job = ?1");
}

/* Which kinds have rows of the job: asked in one statement, as a statement for each of
 * the many kinds of which there are none would cost more than all the rows. */
static mf_status ask_kinds(mf_book *book, const char *job, bool *has, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    bool row = false;
    mf_buf_text(&sql, "SELECT");
    for (size_t i = 0; i < count; i++) {
        mf_buf_text(&sql, i == 0 ? " EXISTS (SELECT 1 FROM " : ", EXISTS (SELECT 1 FROM ");
        mf_sql_name(&sql, kinds[i].name);
        mf_buf_text(&sql, kinds[i].of_firm ? " WHERE job = '')" : " WHERE job = ?1)");
    }
    mf_status status = mf_stmt_take(&stmt, &book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = mf_stmt_step(&stmt, &row, err);
    for (size_t i = 0; status == MF_OK && row && i < count; i++)
        has[i] = mf_stmt_number(&stmt, (int)i) != 0;
    mf_stmt_done(&stmt);
    return status;
}

/* The rows are put together here, for how many there are is known at the end only. */
static unsigned char *grow(loaded *out, size_t need)
{
    size_t cap = out->cap == 0 ? 16384 : out->cap;
    while (cap < need)
        cap *= 2;
    unsigned char *rows = cap == out->cap ? out->rows : realloc(out->rows, cap);
    if (rows == NULL)
        return NULL;
    out->rows = rows;
    out->cap = cap;
    return rows;
}

static mf_status put_rows(const mf_kind *kind, loaded *out, mf_stmt *stmt, size_t *n, mf_err *err)
{
    bool row = true;
    mf_status status = MF_OK;
    for (*n = 0; status == MF_OK; ++*n) {
        status = mf_stmt_step(stmt, &row, err);
        if (status != MF_OK || !row)
            return status;
        if (grow(out, (*n + 1) * kind->size) == NULL)
            return mf_fail_memory(err);
        unsigned char *item = out->rows + *n * kind->size;
        memset(item, 0, kind->size);
        status = put_item(item, kind, &out->arena, stmt, err);
    }
    return status;
}

static int by_made(const void *a, const void *b)
{
    mf_src one, other;
    memcpy(&one, a, sizeof one);
    memcpy(&other, b, sizeof other);
    return mf_made_after(one.at, one.entry, other.at, other.entry)   ? 1
           : mf_made_after(other.at, other.entry, one.at, one.entry) ? -1
                                                                     : 0;
}

/* In the order in which they were made, in which they mostly come: to ask SQLite for it
 * costs more than the rows. An mf_src comes first in each. */
static void put_in_order(unsigned char *items, size_t n, size_t size)
{
    for (size_t i = 1; i < n; i++)
        if (by_made(items + (i - 1) * size, items + i * size) > 0) {
            qsort(items, n, size, by_made);
            return;
        }
}

static mf_status load_kind(mf_book *book, const mf_kind *kind, const char *job, loaded *out,
                           mf_err *err)
{
    size_t n = 0;
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    add_select(&sql, kind);
    mf_status status = mf_stmt_take(&stmt, &book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = put_rows(kind, out, &stmt, &n, err);
    mf_stmt_done(&stmt);
    unsigned char *items = status == MF_OK ? mf_arena_alloc(&out->arena, n * kind->size) : NULL;
    if (items == NULL)
        return status == MF_OK ? mf_fail_memory(err) : status;
    if (n > 0)
        memcpy(items, out->rows, n * kind->size);
    put_in_order(items, n, kind->size);
    mf_list_put(&out->job, kind, items, n);
    return MF_OK;
}

/* ---- corrections ------------------------------------------------------------------------- */

static mf_status put_correction(mf_correction *item, mf_arena *arena, mf_stmt *stmt, mf_err *err)
{
    const char *column[9];
    for (int i = 0; i < 9; i++) {
        column[i] = text(arena, stmt, i);
        if (column[i] == NULL)
            return mf_fail_memory(err);
    }
    *item = (mf_correction){{column[0], column[1], column[2], ""},
                            column[3],
                            column[4],
                            column[5],
                            column[6],
                            column[7],
                            column[8]};
    return MF_OK;
}

/* Of the job, and of the firm: its certificates are shown with every job. */
static mf_status load_corrections(mf_book *book, const char *job, loaded *out, mf_err *err)
{
    static const char count_sql[] = "SELECT count(*) FROM correction WHERE job IN ('', ?1)";
    static const char sql[] = "SELECT entry, logged_at, who, target, replaces, \"kind\", reason,"
                              " before, after FROM correction WHERE job IN ('', ?1)";
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &book->db, count_sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = mf_stmt_step(&stmt, &row, err);
    size_t count = row ? (size_t)mf_stmt_number(&stmt, 0) : 0, n = 0;
    mf_stmt_done(&stmt);
    if (status != MF_OK || count == 0)
        return status;
    mf_correction *items = mf_arena_alloc(&out->arena, count * sizeof *items);
    if (items == NULL)
        return mf_fail_memory(err);
    status = mf_stmt_get(&stmt, &book->db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    for (; status == MF_OK && n < count; n++) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        status = put_correction(&items[n], &out->arena, &stmt, err);
    }
    mf_stmt_done(&stmt);
    put_in_order((unsigned char *)items, n, sizeof *items);
    mf_list_set(&out->job, offsetof(mf_job, correction), items, n);
    return status;
}

/* ---- the job --------------------------------------------------------------------------------- */

static mf_status load_all(mf_book *book, const char *job, loaded *out, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    bool *has = mf_arena_alloc(&out->arena, count * sizeof *has);
    if (has == NULL)
        return mf_fail_memory(err);
    mf_status status = mf_job_check(book, job, "", err);
    if (status == MF_OK)
        status = ask_kinds(book, job, has, err);
    for (size_t i = 0; status == MF_OK && i < count; i++)
        if (has[i] && (kinds[i].of_firm || job[0] != '\0'))
            status = load_kind(book, &kinds[i], kinds[i].of_firm ? "" : job, out, err);
    if (status == MF_OK)
        status = load_corrections(book, job, out, err);
    if (status == MF_OK)
        status = mf_load_earlier(book, &out->job, &out->arena, err);
    return status == MF_OK ? mf_list_order_readings(&out->job, &out->arena, err) : status;
}

MF_API mf_status mf_book_job(mf_book *book, const char *job, mf_job **out, mf_err *err)
{
    *out = NULL;
    bool own = false;
    loaded *all = calloc(1, sizeof *all);
    if (all == NULL)
        return mf_fail_memory(err);
    all->job.id = mf_arena_text(&all->arena, job);
    mf_status status =
        all->job.id == NULL ? mf_fail_memory(err) : mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = load_all(book, job, all, err);
    free(all->rows);
    all->rows = NULL;
    mf_snapshot_end(own, book);
    if (status == MF_OK)
        *out = &all->job;
    else
        mf_book_job_free(&all->job);
    return status;
}

/* What the firm lacks every job does. */
MF_API mf_status mf_book_unread(mf_book *book, const mf_err *why, mf_err *err)
{
    mf_job *firm = NULL;
    if (strcmp(why->name, MF_ERR_UNREAD) != 0) {
        if (err != NULL)
            *err = *why;
        return why->status;
    }
    mf_status status = mf_book_job(book, "", &firm, err);
    mf_book_job_free(firm);
    return status;
}

/* ---- as it stood on a day ---------------------------------------------------------------------
 */

static void list_until(mf_job *job, const mf_kind *kind, mf_day day)
{
    unsigned char *items; /* memory of the job's own arena */
    size_t count = 0, kept = 0;
    const unsigned char *list = (const unsigned char *)job + kind->list_offset;
    memcpy(&items, list, sizeof items);
    mf_kind_items(job, kind, &count);
    for (size_t i = 0; i < count; i++) {
        unsigned char *item = items + i * kind->size;
        if (mf_item_day(kind, item) > day)
            continue;
        if (kept < i)
            memcpy(items + kept * kind->size, item, kind->size);
        kept++;
    }
    mf_list_set(job, kind->list_offset, items, kept);
}

MF_API mf_status mf_book_job_until(mf_job *job, mf_day day, size_t *left_out, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    loaded *all = (loaded *)job;
    *left_out = mf_job_after(job, day);
    if (*left_out == 0)
        return MF_OK;
    for (size_t i = 0; i < count; i++)
        list_until(job, &kinds[i], day);
    return mf_list_order_readings(job, &all->arena, err);
}

MF_API void mf_book_job_free(mf_job *job)
{
    if (job == NULL)
        return;
    loaded *all = (loaded *)job;
    mf_arena_free(&all->arena);
    free(all);
}
