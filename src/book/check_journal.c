/* check_journal.c - every hash and every chain of the journal. */
#include "base/fail.h"
#include "book/attach.h"
#include "book/check.h"
#include "book/job_lines.h"
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
void mf_line_where(const mf_line *line, char out[MF_ENTRY_WHERE])
{
    char digits[24];
    size_t n = 0, len = strnlen(line->device, 30), used = MF_ENTRY_WHERE_ID;
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
        mf_fault(c, true, where, "its body is not a canonical JSON object");
    mf_buf_free(&text);
    return status;
}

/* ---- one entry ------------------------------------------------------------------------ */

mf_status mf_check_line(mf_checker *c, mf_stmt *stmt, const mf_line *line, const char *where,
                        mf_body *body, mf_err *err)
{
    body->text = line->body;
    body->tree = NULL;
    c->out->entries++;
    const char *fault = NULL;
    mf_status status = mf_line_fault(c->book, stmt, line, &fault, err);
    if (fault != NULL)
        mf_fault(c, true, where, "%s", fault);
    if (status == MF_OK)
        status = check_body(c, body, where, err);
    const char *odd = status == MF_OK && c->out->faults == 0 ? mf_line_oddity(line, body) : NULL;
    if (odd != NULL)
        mf_fault(c, true, where, "%s", odd);
    if (mf_kind_named(line->kind) == NULL && strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        c->out->unknown++;
    return status;
}

static mf_status check_entry(mf_checker *c, mf_chain *before, mf_stmt *stmt, mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_body body;
    mf_line line = mf_line_of_row(stmt);
    mf_line_where(&line, where);
    start_device(c, before, &line);
    mf_status status = mf_check_line(c, stmt, &line, where, &body, err);
    mf_check_link(c, before, &line, mf_stmt_number(stmt, MF_LINE_N_COLUMNS), where);
    c->attached += strcmp(line.kind, MF_KIND_ATTACHMENT) == 0;
    mf_body_free(&body);
    if (c->watch->progress != NULL && c->out->entries % STRIDE == 0)
        c->watch->progress("entries", c->out->entries, c->total, c->watch->data);
    return status;
}

mf_status mf_check_journal(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    mf_chain before = {0};
    mf_status status =
        mf_stmt_get(&stmt, &c->book->db, MF_LINE_SELECT " ORDER BY device, seq", err);
    while (mf_stmt_next(&stmt, &status, err))
        status = check_entry(c, &before, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}
