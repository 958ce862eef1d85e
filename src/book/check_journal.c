/* check_journal.c - every hash and every chain of the journal. */
#include "base/json.h"
#include "book/check.h"
#include "book/journal.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* The entry before on the same device. */
typedef struct chain {
    char device[64];
    int64_t seq;
    char hash[MF_HASH_HEX];
} chain;

static void start_device(mf_checker *c, chain *before, const mf_line *line)
{
    if (c->out->devices > 0 && strcmp(before->device, line->device) == 0)
        return;
    snprintf(before->device, sizeof before->device, "%s", line->device);
    before->seq = 0;
    memcpy(before->hash, mf_zero_hash, sizeof before->hash);
    c->out->devices++;
}

static void check_chain(mf_checker *c, const chain *before, const mf_line *line, const char *where)
{
    if (line->seq == before->seq + 2)
        mf_fault(c, true, where, "entry %s/%lld before it is missing", line->device,
                 (long long)line->seq - 1);
    else if (line->seq != before->seq + 1)
        mf_fault(c, true, where, "entries %s/%lld to %lld before it are missing", line->device,
                 (long long)before->seq + 1, (long long)line->seq - 1);
    else if (strcmp(line->prev, before->hash) != 0)
        mf_fault(c, true, where, "it does not name the hash of the entry before it");
}

static void check_body(mf_checker *c, const mf_line *line, const char *where)
{
    mf_buf text = {0};
    json_t *body = mf_json_parse(line->body, strlen(line->body), NULL);
    if (!json_is_object(body) || !mf_json_canonical(&text, body) ||
        strcmp(mf_buf_str(&text), line->body) != 0)
        mf_fault(c, true, where, "its body is no canonical JSON object");
    json_decref(body);
    mf_buf_free(&text);
}

static mf_status check_line(mf_checker *c, chain *before, const mf_line *line, mf_err *err)
{
    char hash[MF_HASH_HEX], where[64];
    snprintf(where, sizeof where, "entry %.30s/%lld", line->device, (long long)line->seq);
    c->out->entries++;
    start_device(c, before, line);
    mf_status status = mf_line_hash(line, hash, err);
    if (status != MF_OK)
        return status;
    if (strcmp(hash, line->hash) != 0)
        mf_fault(c, true, where, "it was altered: its text does not give its hash");
    check_chain(c, before, line, where);
    check_body(c, line, where);
    if (mf_kind_named(line->kind) == NULL && strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        c->out->unknown++;
    before->seq = line->seq;
    snprintf(before->hash, sizeof before->hash, "%s", line->hash);
    return MF_OK;
}

mf_status mf_check_journal(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    chain before = {0};
    mf_status status = mf_stmt_get(
        &stmt, &c->book->db, "SELECT " MF_LINE_COLUMNS " FROM entry ORDER BY device, seq", err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        mf_line line = mf_line_of_row(&stmt);
        status = check_line(c, &before, &line, err);
    }
    mf_stmt_done(&stmt);
    return status;
}
