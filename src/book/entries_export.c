/* entries_export.c - a job's entries as a file. Each is hashed as it is read: what is handed
 * out is what was logged. */
#include "base/fail.h"
#include "book/attach.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include "book/refs.h"
#include "book/signed.h"
#include "book/touched.h"
#include "journal/earlier.h"
#include "journal/entries_file.h"
#include <mistfold/entries.h>
#include <stdlib.h>
#include <string.h>

typedef struct giving {
    mf_book *book;
    const char *job;
    bool for_page;
    mf_buf out;
    mf_entries_heads heads;
    mf_buf told; /* the SHA-256 of bytes that stand in out, each ended by a blank */
} giving;

/* The bytes stand in front of the first entry that names them. */
static mf_status put_bytes(giving *e, const mf_line *line, mf_err *err)
{
    mf_body body = {.text = line->body};
    mf_bytes bytes = {0};
    mf_status status = mf_body_tree(&body, err);
    const char *sha256 = mf_json_string_of(body.tree, "sha256");
    if (status == MF_OK && strstr(mf_buf_str(&e->told), sha256) == NULL) {
        status = mf_book_attached(e->book, sha256, &bytes, err);
        if (status == MF_OK)
            mf_entries_put_content(&e->out, sha256, bytes.data, bytes.len);
        mf_buf_printf(&e->told, "%s ", sha256);
    }
    mf_bytes_free(&bytes);
    mf_body_free(&body);
    return status;
}

/* Of another job only what it disturbs, as it bears on this one. */
static bool is_left_out(const giving *e, const mf_line *line)
{
    return line->job[0] != '\0' && strcmp(line->job, e->job) != 0 &&
           strcmp(line->kind, MF_KIND_CORRECTION) != 0 && !mf_earlier_bears(line->kind);
}

static mf_status put_one(giving *e, mf_stmt *stmt, mf_err *err)
{
    mf_line line = mf_line_of_row(stmt);
    mf_status status = mf_line_as_logged(e->book, stmt, &line, err);
    if (status != MF_OK || is_left_out(e, &line))
        return status;
    if (!e->for_page && strcmp(line.kind, MF_KIND_ATTACHMENT) == 0)
        status = put_bytes(e, &line, err);
    mf_entries_put_line(&e->out, &line);
    if (status == MF_OK && !mf_entries_head_note(&e->heads, &line))
        status = mf_fail_memory(err);
    return status;
}

/* A page answers without its book: other jobs at what may be the same place go along. */
#define OF_JOB   " WHERE job IN ('', ?1)"
#define IN_ORDER " ORDER BY device, seq"
static const char of_page[] =
    MF_LINE_SELECT OF_JOB " OR job IN (SELECT b.job FROM place AS a JOIN place AS b ON b.key = "
                          "a.key WHERE a.job = ?1)" IN_ORDER;

static mf_status put_all(giving *e, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &e->book->db,
                                   e->for_page ? of_page : MF_LINE_SELECT OF_JOB IN_ORDER, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, e->job);
    while (mf_stmt_next(&stmt, &status, err))
        status = put_one(e, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* Who reads the file cannot tell: it has no signatures of the chains. */
static mf_status check_chains(mf_book *book, mf_err *err)
{
    mf_book_report found = {0};
    mf_checker c = {.book = book, .out = &found};
    mf_status status = mf_check_signed(&c, err);
    if (status == MF_OK)
        status = mf_checker_verdict(&c, err);
    return status == MF_NO ? (err->status = MF_SYSTEM) : status;
}

static mf_status put_file(giving *e, const char *at, mf_err *err)
{
    char head[MF_HASH_HEX];
    mf_status status = mf_job_check(e->book, e->job, "", err);
    if (status == MF_OK)
        status = check_chains(e->book, err);
    if (status == MF_OK)
        status = mf_book_head(e->book, head, err);
    if (status != MF_OK)
        return status;
    mf_entries_put_first(&e->out, at, head, e->job);
    status = put_all(e, err);
    if (status == MF_OK)
        mf_entries_put_last(&e->out, e->heads.at, e->heads.n);
    return status;
}

static mf_status give_file(giving e, const char *at, mf_bytes *out, mf_err *err)
{
    mf_book *book = e.book;
    bool own = false;
    mf_status status = e.job[0] == '\0' ? mf_no_such_job(e.job, "", err) : MF_OK;
    if (status == MF_OK && e.for_page)
        status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = put_file(&e, at, err);
    mf_snapshot_end(own, book);
    if (status == MF_OK && (e.out.failed || e.told.failed))
        status = mf_fail_memory(err);
    if (status == MF_OK)
        mf_buf_take(&e.out, out);
    mf_buf_free(&e.out);
    mf_buf_free(&e.told);
    free(e.heads.at);
    return status;
}

MF_API mf_status mf_book_export_entries(mf_book *book, const char *job, const char *at,
                                        mf_bytes *out, mf_err *err)
{
    return give_file((giving){.book = book, .job = job}, at, out, err);
}

MF_API mf_status mf_book_export_page(mf_book *book, const char *job, const char *at, mf_bytes *out,
                                     mf_err *err)
{
    return give_file((giving){.book = book, .job = job, .for_page = true}, at, out, err);
}
