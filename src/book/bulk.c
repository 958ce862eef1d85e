/* bulk.c - a statement a row costs SQLite a note of every page that it touches, and
 * each entry would be read again to make its row. Here the rows of ROWS entries go in
 * by one statement each for the journal and the derived table.
 *
 * What the triggers would hold, which do not run on our connection (db.c), is held
 * before the commit: (device, seq) is a primary key, and what was written is read back
 * with its hash and the hash of the entry before it (mf_journal_read_back). */
#include "book/bulk.h"

#include "base/digest.h"
#include "base/fail.h"
#include "base/json.h"
#include "book/attach.h"
#include "book/index.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/row.h"
#include "book/settled.h"
#include "book/tables.h"
#include "book/write.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    ROWS = 64,
    READ_BACK = 1024,    /* entries between two readings back */
    STORE = ROWS * 1024, /* the lines of that many entries */
    FIXED = 256          /* hashes, numbers and brackets of a line, at most */
};

/* An entry that waits to be written. Its texts lie in the store. */
typedef struct waiting {
    char id[MF_ENTRY_ID], hash[MF_HASH_HEX];
    int64_t seq;
    const char *body, *prev;
    size_t body_len;
    mf_value value[MF_BULK_FIELDS];
} waiting;

struct mf_bulk {
    mf_book *book;
    const mf_kind *kind;
    const char *job, *at, *who;
    mf_buf head, middle, tail;    /* of every line */
    mf_buf name[MF_BULK_FIELDS];  /* "name": */
    size_t order[MF_BULK_FIELDS]; /* the fields as RFC 8785 sorts them */
    mf_digest *digest;
    mf_stmt entries, rows, entry, row; /* of ROWS, and of one */
    waiting *wait;
    size_t n, unread;
    char *store;
    size_t used;
    int64_t seq; /* the end of our chain, with what waits */
    char hash[MF_HASH_HEX];
    bool known; /* seq and hash are */
};

/* ---- opening ---------------------------------------------------------------------------- */

/* A correction by another device may have come before what it corrects. */
static mf_status nothing_waits(mf_book *book, bool *good, mf_err *err)
{
    static const char sql[] =
        "SELECT 1 FROM correction, (SELECT ?1 || '/' AS ours,"
        "   (SELECT max(seq) FROM entry WHERE device = ?1) AS last)"
        " WHERE (substr(target, 1, length(ours)) = ours"
        "        AND CAST(substr(target, length(ours) + 1) AS INTEGER) > ifnull(last, 0))"
        "    OR (substr(replaces, 1, length(ours)) = ours"
        "        AND CAST(substr(replaces, length(ours) + 1) AS INTEGER) > ifnull(last, 0))"
        " LIMIT 1";
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &book->db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, book->device);
    status = mf_stmt_step(&stmt, &row, err);
    *good = status == MF_OK && !row;
    mf_stmt_done(&stmt);
    return status;
}

/* Kinds of which an entry asks for more than its own two rows. */
static bool plain_kind(const mf_kind *kind)
{
    return kind != NULL && !kind->once && !kind->of_firm && mf_kind_key(kind) == NULL &&
           kind->n_fields <= MF_BULK_FIELDS && !mf_index_wants(kind->name) &&
           strcmp(kind->name, MF_KIND_CORRECTION) != 0 &&
           strcmp(kind->name, MF_KIND_ATTACHMENT) != 0;
}

/* Names of fields are ASCII: their bytes sort as their UTF-16 does. */
static void sort_fields(mf_bulk *bulk)
{
    const mf_field *fields = bulk->kind->fields;
    for (size_t i = 0; i < bulk->kind->n_fields; i++) {
        size_t at = i;
        for (; at > 0 && strcmp(fields[bulk->order[at - 1]].name, fields[i].name) > 0; at--)
            bulk->order[at] = bulk->order[at - 1];
        bulk->order[at] = i;
    }
}

static bool make_pieces(mf_bulk *bulk, const mf_now *now)
{
    const mf_line line = {.device = bulk->book->device,
                          .at = now->at,
                          .who = now->who,
                          .kind = bulk->kind->name,
                          .job = bulk->job};
    bool failed = false;
    mf_line_add_head(&bulk->head, &line);
    mf_line_add_middle(&bulk->middle, &line);
    mf_line_add_tail(&bulk->tail, &line);
    for (size_t i = 0; i < bulk->kind->n_fields; i++) {
        const char *name = bulk->kind->fields[i].name;
        mf_json_quote(&bulk->name[i], name, strlen(name));
        mf_buf_text(&bulk->name[i], ":");
        failed = failed || bulk->name[i].failed;
    }
    return !failed && !bulk->head.failed && !bulk->middle.failed && !bulk->tail.failed;
}

/* Parameters: 1 device, 2 at, 3 who, 4 kind, 5 job, then four for each entry. */
enum { ENTRY_FIXED = 5, ENTRY_EACH = 4, ROW_FIXED = 3 };

static mf_status get_entries(mf_stmt *out, mf_bulk *bulk, int n, mf_err *err)
{
    mf_buf sql = {0};
    mf_buf_text(&sql, "INSERT INTO entry (" MF_LINE_COLUMNS ") VALUES ");
    for (int i = 0; i < n; i++) {
        int at = ENTRY_FIXED + i * ENTRY_EACH;
        mf_buf_printf(&sql, "%s(?1, ?%d, ?2, ?3, ?4, ?5, ?%d, ?%d, ?%d)", i == 0 ? "" : ", ",
                      at + 1, at + 2, at + 3, at + 4);
    }
    return mf_stmt_take(out, &bulk->book->db, &sql, err);
}

/* Parameters: 1 job, 2 at, 3 who, then the id, the fields and the number of each row. */
static mf_status get_rows(mf_stmt *out, mf_bulk *bulk, int n, mf_err *err)
{
    mf_buf sql = {0};
    int fields = (int)bulk->kind->n_fields, at = ROW_FIXED;
    mf_row_insert_head(&sql, bulk->kind);
    for (int i = 0; i < n; i++) {
        mf_buf_printf(&sql, "%s(?%d, ?1, ?2, ?3, ''", i == 0 ? "" : ", ", ++at);
        for (int k = 0; k < fields; k++)
            mf_buf_printf(&sql, ", ?%d", ++at);
        mf_buf_printf(&sql, ", ?%d)", ++at);
    }
    return mf_stmt_take(out, &bulk->book->db, &sql, err);
}

static mf_status get_statements(mf_bulk *bulk, mf_err *err)
{
    mf_status status = get_entries(&bulk->entries, bulk, ROWS, err);
    if (status == MF_OK)
        status = get_entries(&bulk->entry, bulk, 1, err);
    if (status == MF_OK)
        status = get_rows(&bulk->rows, bulk, ROWS, err);
    return status == MF_OK ? get_rows(&bulk->row, bulk, 1, err) : status;
}

static mf_status make(mf_bulk **out, mf_book *book, const mf_kind *kind, const char *job,
                      const mf_now *now, mf_err *err)
{
    mf_bulk *bulk = calloc(1, sizeof *bulk);
    *out = bulk;
    if (bulk == NULL)
        return mf_fail_memory(err);
    bulk->book = book;
    bulk->kind = kind;
    bulk->job = job;
    bulk->at = now->at;
    bulk->who = now->who;
    bulk->digest = mf_digest_begin();
    bulk->wait = calloc(ROWS, sizeof *bulk->wait);
    bulk->store = malloc(STORE);
    sort_fields(bulk);
    if (bulk->digest == NULL || bulk->wait == NULL || bulk->store == NULL ||
        !make_pieces(bulk, now))
        return mf_fail_memory(err);
    return get_statements(bulk, err);
}

mf_status mf_bulk_open(mf_bulk **out, mf_book *book, const mf_kind *kind, const char *job,
                       const mf_now *now, mf_err *err)
{
    bool good = false;
    *out = NULL;
    if (!plain_kind(kind) || job[0] == '\0' || mf_now_check(now, NULL) != MF_OK)
        return MF_OK;
    mf_status status = nothing_waits(book, &good, err);
    if (status != MF_OK || !good)
        return status;
    status = mf_settled_forget(&book->db, job, kind->name, err);
    if (status == MF_OK)
        status = make(out, book, kind, job, now, err);
    if (status != MF_OK) {
        mf_bulk_free(*out);
        *out = NULL;
    }
    return status;
}

void mf_bulk_free(mf_bulk *bulk)
{
    if (bulk == NULL)
        return;
    mf_stmt_done(&bulk->entries);
    mf_stmt_done(&bulk->entry);
    mf_stmt_done(&bulk->rows);
    mf_stmt_done(&bulk->row);
    mf_buf_free(&bulk->head);
    mf_buf_free(&bulk->middle);
    mf_buf_free(&bulk->tail);
    for (size_t i = 0; i < MF_BULK_FIELDS; i++)
        mf_buf_free(&bulk->name[i]);
    mf_digest_end(bulk->digest, NULL);
    free(bulk->wait);
    free(bulk->store);
    free(bulk);
}

/* ---- one entry ------------------------------------------------------------------------------ */

static char *put(char *to, const char *text, size_t len)
{
    memcpy(to, text, len);
    return to + len;
}

static char *put_buf(char *to, const mf_buf *text)
{
    return text->len == 0 ? to : put(to, text->data, text->len);
}

static char *put_number(char *to, int64_t number)
{
    char digits[24];
    size_t at = sizeof digits;
    for (; number > 0; number /= 10)
        digits[--at] = (char)('0' + number % 10);
    return put(to, digits + at, sizeof digits - at);
}

static size_t length(const mf_bulk *bulk, const mf_value *values)
{
    size_t len = FIXED + bulk->head.len + bulk->middle.len + bulk->tail.len;
    for (size_t i = 0; i < bulk->kind->n_fields; i++)
        if (values[i].json != NULL)
            len += values[i].len + bulk->name[i].len + 1;
    return len;
}

static char *put_body(const mf_bulk *bulk, waiting *w, char *to, const mf_value *values)
{
    bool first = true;
    *to++ = '{';
    for (size_t k = 0; k < bulk->kind->n_fields; k++) {
        size_t i = bulk->order[k];
        w->value[i] = values[i];
        if (values[i].json == NULL)
            continue;
        if (!first)
            *to++ = ',';
        first = false;
        to = put_buf(to, &bulk->name[i]);
        w->value[i].json = to;
        to = put(to, values[i].json, values[i].len);
    }
    *to++ = '}';
    return to;
}

/* The canonical line, laid out as add_line (journal.c) does; every commit reads it
 * back and compares. */
static char *put_line(const mf_bulk *bulk, waiting *w, char *to, const mf_value *values)
{
    to = put_buf(to, &bulk->head);
    w->body = to;
    to = put_body(bulk, w, to, values);
    w->body_len = (size_t)(to - w->body);
    to = put_buf(to, &bulk->middle);
    *to++ = '"';
    w->prev = to;
    to = put(to, bulk->hash, MF_HASH_HEX - 1);
    to = put(to, "\",\"seq\":", 8);
    to = put_number(to, w->seq);
    return put_buf(to, &bulk->tail);
}

static void put_id(const mf_bulk *bulk, waiting *w)
{
    char *end = put(w->id, bulk->book->device, strlen(bulk->book->device));
    *end++ = '/';
    end = put_number(end, w->seq);
    *end = '\0';
}

mf_status mf_bulk_add(mf_bulk *bulk, const mf_value *values, int64_t *seq, bool *taken, mf_err *err)
{
    size_t len = length(bulk, values);
    mf_status status = MF_OK;
    *taken = len <= STORE;
    if (!*taken)
        return MF_OK;
    if (bulk->n == ROWS || bulk->used + len > STORE)
        status = mf_bulk_flush(bulk, err);
    if (status == MF_OK && !bulk->known)
        status = mf_journal_last(bulk->book, &bulk->seq, bulk->hash, err);
    if (status != MF_OK)
        return status;
    bulk->known = true;
    waiting *w = &bulk->wait[bulk->n];
    w->seq = ++bulk->seq;
    char *line = bulk->store + bulk->used, *end = put_line(bulk, w, line, values);
    if (!mf_digest_of(bulk->digest, line, (size_t)(end - line), w->hash))
        return mf_fail_memory(err);
    put_id(bulk, w);
    mf_hash_copy(bulk->hash, w->hash);
    bulk->used += (size_t)(end - line);
    bulk->n++;
    *seq = w->seq;
    return MF_OK;
}

void mf_bulk_moved(mf_bulk *bulk)
{
    bulk->known = false;
}

/* ---- writing ------------------------------------------------------------------------------------
 */

static void bind_entry(mf_stmt *stmt, const waiting *w, int at)
{
    mf_stmt_int(stmt, at + 1, w->seq);
    mf_stmt_piece(stmt, at + 2, w->body, w->body_len);
    mf_stmt_piece(stmt, at + 3, w->prev, MF_HASH_HEX - 1);
    mf_stmt_piece(stmt, at + 4, w->hash, MF_HASH_HEX - 1);
}

static mf_status run_entries(mf_bulk *bulk, mf_stmt *stmt, size_t from, size_t n, mf_err *err)
{
    mf_stmt_text(stmt, 1, bulk->book->device);
    mf_stmt_text(stmt, 2, bulk->at);
    mf_stmt_text(stmt, 3, bulk->who);
    mf_stmt_text(stmt, 4, bulk->kind->name);
    mf_stmt_text(stmt, 5, bulk->job);
    for (size_t i = 0; i < n; i++)
        bind_entry(stmt, &bulk->wait[from + i], ENTRY_FIXED + (int)i * ENTRY_EACH);
    return mf_stmt_run(stmt, err);
}

/* Text goes in without its quotes. */
static void bind_value(mf_stmt *stmt, int at, const mf_value *value)
{
    if (value->json != NULL && value->is_number)
        mf_stmt_int(stmt, at, value->number);
    else if (value->json != NULL)
        mf_stmt_piece(stmt, at, value->json + 1, value->len - 2);
}

static mf_status run_rows(mf_bulk *bulk, mf_stmt *stmt, size_t from, size_t n, mf_err *err)
{
    int at = ROW_FIXED;
    mf_stmt_again(stmt); /* what is not given is NULL */
    mf_stmt_text(stmt, 1, bulk->job);
    mf_stmt_text(stmt, 2, bulk->at);
    mf_stmt_text(stmt, 3, bulk->who);
    for (size_t i = 0; i < n; i++) {
        const waiting *w = &bulk->wait[from + i];
        mf_stmt_text(stmt, ++at, w->id);
        for (size_t k = 0; k < bulk->kind->n_fields; k++)
            bind_value(stmt, ++at, &w->value[k]);
        mf_stmt_int(stmt, ++at, w->seq);
    }
    return mf_stmt_run(stmt, err);
}

mf_status mf_bulk_flush(mf_bulk *bulk, mf_err *err)
{
    mf_status status = MF_OK;
    bool full = bulk->n == ROWS;
    size_t n = full ? ROWS : 1;
    for (size_t i = 0; status == MF_OK && i < bulk->n; i += n) {
        status = run_entries(bulk, full ? &bulk->entries : &bulk->entry, i, n, err);
        if (status == MF_OK)
            status = run_rows(bulk, full ? &bulk->rows : &bulk->row, i, n, err);
    }
    bulk->unread += bulk->n;
    bulk->n = 0;
    bulk->used = 0;
    if (status != MF_OK || bulk->unread < READ_BACK)
        return status;
    bulk->unread = 0;
    return mf_journal_read_back(bulk->book, err);
}
