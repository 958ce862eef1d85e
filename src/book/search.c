/* search.c - finding jobs by words: ids, addresses, the work, notes, the people
 * told and the people assigned. The index (FTS5) lives in memory for one search
 * and is made from the derived tables, so that it can never be behind them. */
#include "base/fail.h"
#include "book/room.h"

#include <string.h>

static const char make[] = "PRAGMA temp_store = MEMORY;"
                           "CREATE VIRTUAL TABLE temp.find USING fts5(job UNINDEXED, words, "
                           "tokenize = 'unicode61 remove_diacritics 2')";

/* One row a job; a job is a hit when all words are found in its row. */
static const char fill[] =
    "INSERT INTO temp.find(job, words) SELECT h.job, h.job || ' ' || h.address || ' ' || "
    "ifnull(h.unit, '') || ' ' || h.description || ' ' || ifnull(h.note, '') || ' ' || "
    "ifnull((SELECT group_concat(p.id || ' ' || p.name || ' ' || ifnull(p.address, ''), ' ') "
    "FROM party p WHERE p.job = h.job), '') || ' ' || "
    "ifnull((SELECT group_concat(a.person || ' ' || n.name, ' ') FROM assignment a "
    "JOIN person n ON n.id = a.person WHERE a.job = h.job), '') FROM house h";

static const char query[] =
    "SELECT h.job, h.address, h.start FROM temp.find f JOIN house h ON h.job = f.job "
    "WHERE f.words MATCH ?1 ORDER BY h.job";

/* Every word in quotes with a star: beginnings of words, and nothing a person
 * types is taken for a sign of the query language. */
static void query_words(mf_buf *out, const char *text)
{
    while (*text != '\0') {
        size_t blank = strspn(text, " \t");
        size_t len = strcspn(text += blank, " \t");
        if (len > 0)
            mf_buf_text(out, out->len > 0 ? " \"" : "\"");
        for (size_t i = 0; i < len; i++)
            mf_buf_add(out, text[i] == '"' ? " " : text + i, 1);
        if (len > 0)
            mf_buf_text(out, "\"*");
        text += len;
    }
}

static mf_status each_hit(mf_book *book, const char *words, mf_job_fn *fn, void *data, mf_err *err)
{
    mf_stmt stmt = {0};
    bool row = true;
    mf_status status = mf_stmt_get(&stmt, &book->db, query, err);
    if (status == MF_OK)
        mf_stmt_text(&stmt, 1, words);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            row = fn(mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1),
                     mf_day_parse(mf_stmt_column(&stmt, 2), NULL), data);
    }
    mf_stmt_done(&stmt);
    return status;
}

MF_API mf_status mf_book_find(mf_book *book, const char *text, mf_job_fn *fn, void *data,
                              mf_err *err)
{
    mf_buf words = {0};
    query_words(&words, text);
    if (words.failed) {
        mf_buf_free(&words);
        return mf_fail_memory(err);
    }
    if (words.len == 0) {
        mf_buf_free(&words);
        return mf_fail(err, MF_USAGE, "--find", "there is no word to look for", "",
                       "give a part of an address or a name");
    }
    mf_status status = mf_db_exec(&book->db, make, err);
    if (status == MF_OK) {
        status = mf_db_exec(&book->db, fill, err);
        if (status == MF_OK)
            status = each_hit(book, words.data, fn, data, err);
        mf_err dropped = {0};
        mf_status done = mf_db_exec(&book->db, "DROP TABLE temp.find", &dropped);
        if (status == MF_OK && done != MF_OK && err != NULL)
            *err = dropped;
        status = status == MF_OK ? done : status;
    }
    mf_buf_free(&words);
    return status;
}
