/* read.c - the journal as it stands there, the list of jobs, the head. */
#include "base/fail.h"
#include "base/mem.h"
#include "base/utf8.h"
#include "book/journal.h"
#include "book/touched.h"
#include <stdio.h>
#include <string.h>

static mf_status each_entry(mf_stmt *stmt, mf_entry_fn *fn, void *data, size_t *count, mf_err *err)
{
    bool row = true;
    for (;;) {
        mf_status status = mf_stmt_step(stmt, &row, err);
        if (status != MF_OK || !row)
            return status;
        char id[MF_ENTRY_ID];
        mf_line line = mf_line_of_row(stmt);
        snprintf(id, sizeof id, "%s/%lld", line.device, (long long)line.seq);
        mf_entry entry = {id,       line.at,   line.who,  line.kind,
                          line.job, line.body, line.prev, line.hash};
        ++*count;
        if (!fn(&entry, data))
            return MF_OK;
    }
}

MF_API mf_status mf_book_entries(mf_book *book, const char *job, mf_entry_fn *fn, void *data,
                                 mf_err *err)
{
    static const char all[] = "SELECT " MF_LINE_COLUMNS " FROM entry ORDER BY rowid";
    static const char of_job[] =
        "SELECT " MF_LINE_COLUMNS " FROM entry WHERE job = ?1 ORDER BY rowid";
    mf_stmt stmt;
    size_t count = 0;
    mf_status status = mf_stmt_get(&stmt, &book->db, job == NULL ? all : of_job, err);
    if (status == MF_OK && job != NULL)
        mf_stmt_text(&stmt, 1, job);
    if (status == MF_OK)
        status = each_entry(&stmt, fn, data, &count, err);
    mf_stmt_done(&stmt);
    return status;
}

MF_API mf_status mf_book_entry(mf_book *book, const char *id, mf_entry_fn *fn, void *data,
                               mf_err *err)
{
    char device[MF_DEVICE_MAX + 1], shown[60];
    int64_t seq = 0;
    mf_stmt stmt = {0};
    size_t count = 0;
    mf_status status = MF_OK;
    if (mf_entry_id_split(id, device, &seq)) {
        status = mf_stmt_get(&stmt, &book->db,
                             "SELECT " MF_LINE_COLUMNS " FROM entry WHERE device = ?1 AND seq = ?2",
                             err);
        if (status != MF_OK)
            return status;
        mf_stmt_text(&stmt, 1, device);
        mf_stmt_int(&stmt, 2, seq);
        status = each_entry(&stmt, fn, data, &count, err);
    }
    mf_stmt_done(&stmt);
    if (status != MF_OK || count > 0)
        return status;
    mf_utf8_show(shown, sizeof shown, id);
    return mf_failf(err, MF_INPUT, book->db.name, "an entry is named like office/12",
                    "look it up in the list of entries", "there is no entry %s", shown);
}

/* SQLite gives rows of a damaged index as they lie there. fn may end a transaction, after
 * which the row is looked for anew: where the order is wrong that may be before the last
 * one, time and again. */
static mf_status in_order(const mf_book *book, mf_buf *last, const char *job, mf_err *err)
{
    if (last->len > 0 && strcmp(job, mf_buf_str(last)) < 0)
        return mf_fail(err, MF_SYSTEM, book->db.name, "its jobs are out of order",
                       "the file is damaged", "see what is damaged: mistfold book check");
    last->len = 0;
    mf_buf_text(last, job);
    return last->failed ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_each_job(mf_book *book, mf_stmt *stmt, mf_job_fn *fn, void *data, mf_err *err)
{
    mf_buf last = {0};
    mf_status status = MF_OK;
    bool more = true;
    while (more && mf_stmt_next(stmt, &status, err)) {
        status = in_order(book, &last, mf_stmt_column(stmt, 0), err);
        if (status == MF_OK)
            more = fn(mf_stmt_column(stmt, 0), mf_stmt_column(stmt, 1),
                      mf_day_parse(mf_stmt_column(stmt, 2), NULL), data);
    }
    mf_buf_free(&last);
    return status;
}

MF_API mf_status mf_book_jobs(mf_book *book, mf_job_fn *fn, void *data, mf_err *err)
{
    mf_stmt stmt = {0};
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, &book->db,
                             "SELECT job, address, \"start\" FROM place ORDER BY job, nth", err);
    if (status == MF_OK)
        status = mf_each_job(book, &stmt, fn, data, err);
    mf_stmt_done(&stmt);
    return status;
}

MF_API mf_status mf_book_heads(mf_book *book, mf_head_fn *fn, void *data, mf_err *err)
{
    static const char sql[] = MF_WITH_DEVICES
        " SELECT e.device, e.seq, e.hash FROM d JOIN entry AS e ON e.device = d.device"
        "  AND e.seq = (SELECT max(seq) FROM entry WHERE device = d.device) ORDER BY e.device";
    mf_stmt stmt;
    bool more = true;
    mf_status status = mf_stmt_get(&stmt, &book->db, sql, err);
    while (more && mf_stmt_next(&stmt, &status, err))
        more =
            fn(mf_stmt_column(&stmt, 0), mf_stmt_number(&stmt, 1), mf_stmt_column(&stmt, 2), data);
    mf_stmt_done(&stmt);
    return status;
}

static bool add_head(const char *device, int64_t seq, const char *hash, void *data)
{
    (void)seq;
    return mf_ends_put(data, device, hash);
}

MF_API mf_status mf_book_head(mf_book *book, char out[MF_HASH_HEX], mf_err *err)
{
    mf_ends ends = {0};
    mf_status status = mf_book_heads(book, add_head, &ends, err);
    if (status == MF_OK && !mf_ends_head(&ends, out))
        status = mf_fail_memory(err);
    mf_ends_free(&ends);
    return status;
}
