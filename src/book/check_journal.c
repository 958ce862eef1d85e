/* check_journal.c - every hash and every chain of the journal. */
#include "base/fail.h"
#include "book/check.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* Entries between two words of progress. */
#define STRIDE 8192

static void start_device(mf_checker *c, mf_chain *before, const mf_line *line)
{
    if (c->out->devices > 0 && strcmp(before->device, line->device) == 0)
        return;
    snprintf(before->device, sizeof before->device, "%s", line->device);
    before->seq = before->rowid = 0;
    memcpy(before->hash, mf_zero_hash, sizeof before->hash);
    c->out->devices++;
}

void mf_check_link(mf_checker *c, mf_chain *before, const mf_line *line, int64_t rowid,
                   const char *where)
{
    if (line->seq == before->seq + 2)
        mf_fault(c, true, where, "entry %s/%lld before it is missing", line->device,
                 (long long)line->seq - 1);
    else if (line->seq != before->seq + 1)
        mf_fault(c, true, where, "entries %s/%lld to %lld before it are missing", line->device,
                 (long long)before->seq + 1, (long long)line->seq - 1);
    else if (strcmp(line->prev, before->hash) != 0)
        mf_fault(c, true, where, "it does not name the hash of the entry before it");
    else if (rowid <= before->rowid)
        mf_fault(c, true, where, "it stands in the file before the entry that it follows");
    before->seq = line->seq;
    before->rowid = rowid;
    size_t len = strnlen(line->hash, sizeof before->hash - 1);
    memcpy(before->hash, line->hash, len);
    before->hash[len] = '\0';
}

/* Without snprintf: every entry is told where it is, few need it. */
void mf_line_where(const mf_line *line, char out[MF_WHERE])
{
    char digits[24];
    size_t n = 0, len = strnlen(line->device, 30), used = MF_WHERE_ID;
    uint64_t seq = line->seq < 0 ? 0 : (uint64_t)line->seq;
    do
        digits[n++] = (char)('0' + seq % 10);
    while ((seq /= 10) > 0);
    memcpy(out, "entry ", used);
    memcpy(out + used, line->device, len);
    used += len;
    out[used++] = '/';
    while (n > 0)
        out[used++] = digits[--n];
    out[used] = '\0';
}

/* ---- what an entry says --------------------------------------------------------------- */

static mf_status check_body(mf_checker *c, mf_body *body, const char *where, mf_err *err)
{
    mf_buf text = {0};
    mf_status status = mf_body_read(body, body->text, err);
    if (body->is_flat)
        return status;
    bool good = status == MF_OK && json_is_object(body->tree) &&
                mf_json_canonical(&text, body->tree) && strcmp(text.data, body->text) == 0;
    if (text.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK && !good)
        mf_fault(c, true, where, "its body is no canonical JSON object");
    mf_buf_free(&text);
    return status;
}

/* ---- one entry ------------------------------------------------------------------------ */

/* A NUL would end a text for us and not for another reader. */
static bool has_nul(mf_stmt *stmt)
{
    for (int i = 0; i < sqlite3_column_count(stmt->handle); i++) {
        const void *text = sqlite3_column_type(stmt->handle, i) == SQLITE_TEXT
                               ? sqlite3_column_text(stmt->handle, i)
                               : NULL;
        if (text != NULL &&
            memchr(text, '\0', (size_t)sqlite3_column_bytes(stmt->handle, i)) != NULL)
            return true;
    }
    return false;
}

static mf_status check_hash(mf_checker *c, mf_stmt *stmt, const mf_line *line, const char *where,
                            mf_err *err)
{
    char hash[MF_HASH_HEX];
    if (c->digest == NULL)
        c->digest = mf_digest_begin();
    mf_buf_clear(&c->text);
    mf_line_text(&c->text, line);
    if (c->digest == NULL || c->text.failed ||
        !mf_digest_of(c->digest, c->text.data, c->text.len, hash))
        return mf_fail_memory(err);
    if (strcmp(hash, line->hash) != 0)
        mf_fault(c, true, where, "it was altered: its text does not give its hash");
    else if (has_nul(stmt))
        mf_fault(c, true, where, "it was altered: there is a NUL in its text");
    return MF_OK;
}

mf_status mf_check_line(mf_checker *c, mf_stmt *stmt, const mf_line *line, const char *where,
                        mf_body *body, mf_err *err)
{
    body->text = line->body;
    body->tree = NULL;
    c->out->entries++;
    mf_status status = check_hash(c, stmt, line, where, err);
    if (status == MF_OK)
        status = check_body(c, body, where, err);
    if (mf_kind_named(line->kind) == NULL && strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        c->out->unknown++;
    return status;
}

static mf_status check_entry(mf_checker *c, mf_chain *before, mf_stmt *stmt, mf_err *err)
{
    char where[MF_WHERE];
    mf_body body;
    mf_line line = mf_line_of_row(stmt);
    mf_line_where(&line, where);
    start_device(c, before, &line);
    mf_status status = mf_check_line(c, stmt, &line, where, &body, err);
    mf_check_link(c, before, &line, mf_stmt_number(stmt, 9), where);
    if (status == MF_OK)
        status = mf_check_row(c, &line, where, &body, err);
    mf_body_free(&body);
    if (c->watch->progress != NULL && c->out->entries % STRIDE == 0)
        c->watch->progress("entries", c->out->entries, c->total, c->watch->data);
    return status;
}

mf_status mf_check_journal(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_chain before = {0};
    mf_status status =
        mf_stmt_get(&stmt, &c->book->db, MF_LINE_SELECT " ORDER BY device, seq", err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = check_entry(c, &before, &stmt, err);
    }
    mf_stmt_done(&stmt);
    return status;
}
