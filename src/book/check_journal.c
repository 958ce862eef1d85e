/* check_journal.c - every hash and every chain of the journal. */
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
    snprintf(before->hash, sizeof before->hash, "%s", line->hash);
}

/* The parsed body; NULL, and a fault, when it is not canonical. */
static json_t *check_body(mf_checker *c, const mf_line *line, const char *where)
{
    mf_buf text = {0};
    json_t *body = mf_json_parse(line->body, strlen(line->body), NULL);
    if (!json_is_object(body) || !mf_json_canonical(&text, body) ||
        strcmp(mf_buf_str(&text), line->body) != 0)
        mf_fault(c, true, where, "its body is no canonical JSON object");
    mf_buf_free(&text);
    return body;
}

mf_status mf_check_line(mf_checker *c, const mf_line *line, const char *where, json_t **body,
                        mf_err *err)
{
    char hash[MF_HASH_HEX];
    *body = NULL;
    c->out->entries++;
    mf_status status = mf_line_hash(line, hash, err);
    if (status != MF_OK)
        return status;
    if (strcmp(hash, line->hash) != 0)
        mf_fault(c, true, where, "it was altered: its text does not give its hash");
    *body = check_body(c, line, where);
    if (mf_kind_named(line->kind) == NULL && strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        c->out->unknown++;
    return MF_OK;
}

static mf_status check_entry(mf_checker *c, mf_chain *before, mf_stmt *stmt, mf_err *err)
{
    char where[64];
    json_t *body = NULL;
    mf_line line = mf_line_of_row(stmt);
    snprintf(where, sizeof where, "entry %.30s/%lld", line.device, (long long)line.seq);
    start_device(c, before, &line);
    mf_status status = mf_check_line(c, &line, where, &body, err);
    mf_check_link(c, before, &line, mf_stmt_number(stmt, 9), where);
    if (status == MF_OK)
        status = mf_check_row(c, &line, body, err);
    json_decref(body);
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
