/* search.c - finding jobs by words: ids, addresses, the work, notes, the people
 * told and the people assigned. Table find (FTS5) has a row a job. People assigned
 * stand there by a token of their own, so that a name is looked up among the
 * people and need not be written anew into every job when it changes. */
#include "base/fail.h"
#include "book/known.h"
#include "book/settled.h"
#include "book/touched.h"

#include <string.h>

const char mf_find_sql[] = "CREATE VIRTUAL TABLE find USING fts5(words, people, "
                           "tokenize = 'unicode61 remove_diacritics 2');\n";

/* ---- the question -----------------------------------------------------------------------------
 */

/* A sign alone, as the dash of "12 - Main", begins no word of any job. */
static bool has_letter(const char *word, size_t len)
{
    for (size_t i = 0; i < len; i++)
        if ((unsigned char)word[i] >= 0x80 || (word[i] >= '0' && word[i] <= '9') ||
            ((word[i] | 0x20) >= 'a' && (word[i] | 0x20) <= 'z'))
            return true;
    return false;
}

/* The next word of *text and its length, *text past it; 0 = there is none left. */
static size_t next_word(const char **text, const char **word)
{
    size_t len = 0;
    do {
        *word = *text + strspn(*text, " \t");
        len = strcspn(*word, " \t");
        *text = *word + len;
    } while (len > 0 && !has_letter(*word, len));
    return len;
}

/* One word in quotes with a star: beginnings of words, and nothing a person types
 * is taken for a sign of the query language. */
static void add_word(mf_buf *out, const char *word, size_t len)
{
    mf_buf_text(out, "\"");
    for (size_t i = 0; i < len; i++)
        mf_buf_add(out, word[i] == '"' ? " " : word + i, 1);
    mf_buf_text(out, "\"*");
}

/* The people one of whose words begins with this one, as tokens. */
static mf_status add_people(mf_buf *out, mf_db *db, const char *word, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db, "SELECT token FROM temp.people WHERE words MATCH ?1", err);
    if (status == MF_OK)
        mf_stmt_text(&stmt, 1, word);
    while (mf_stmt_next(&stmt, &status, err))
        mf_buf_printf(out, " OR people : %s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

/* (words : "sam"* OR people : p726f7361) AND ... */
static mf_status make_query(mf_buf *out, mf_db *db, const char *text, mf_err *err)
{
    mf_status status = MF_OK;
    const char *typed;
    size_t len;
    while (status == MF_OK && (len = next_word(&text, &typed)) > 0) {
        mf_buf word = {0};
        add_word(&word, typed, len);
        mf_buf_printf(out, "%s(words : %s", out->len > 0 ? " AND " : "", mf_buf_str(&word));
        status = word.failed ? mf_fail_memory(err) : add_people(out, db, mf_buf_str(&word), err);
        mf_buf_text(out, ")");
        mf_buf_free(&word);
    }
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

/* The people are few: their index lives in memory for one search. */
static const char make_people[] =
    "CREATE VIRTUAL TABLE temp.people USING fts5(token UNINDEXED, words, "
    "tokenize = 'unicode61 remove_diacritics 2')";

static mf_status fill_people(mf_book *book, mf_err *err)
{
    const mf_kind *kind = mf_kind_named("person");
    const mf_job_fold *firm = NULL;
    mf_status status = mf_known_fold(&firm, book, "", err);
    size_t n = status == MF_OK ? mf_job_fold_count(firm, kind) : 0;
    for (size_t i = 0; status == MF_OK && i < n; i++) {
        const mf_person *person = mf_job_fold_item(firm, kind, i);
        if (person == NULL)
            continue;
        mf_buf token = {0};
        mf_find_token(&token, person->id);
        const char *const row[] = {mf_buf_str(&token), person->id, person->name};
        status = token.failed ? mf_fail_memory(err)
                              : mf_db_run(&book->db,
                                          "INSERT INTO temp.people (token, words)"
                                          " VALUES (?1, ?2 || ' ' || ?3)",
                                          row, 3, err);
        mf_buf_free(&token);
    }
    return status;
}

static const char query[] =
    "SELECT h.job, h.address, h.start FROM find AS f JOIN settled AS s ON s.id = f.rowid"
    " JOIN place AS h ON h.job = s.job WHERE f.find MATCH ?1"
    " ORDER BY h.job, h.nth";

static mf_status each_hit(mf_book *book, const char *words, mf_job_fn *fn, void *data, mf_err *err)
{
    mf_stmt stmt = {0};
    mf_status status = mf_stmt_get(&stmt, &book->db, query, err);
    if (status == MF_OK) {
        mf_stmt_text(&stmt, 1, words);
        status = mf_each_job(book, &stmt, fn, data, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

MF_API mf_status mf_book_find(mf_book *book, const char *text, mf_job_fn *fn, void *data,
                              mf_err *err)
{
    mf_buf words = {0};
    const char *rest = text, *word;
    if (next_word(&rest, &word) == 0)
        return mf_fail(err, MF_INPUT, "--find", "there is no word to look for", "",
                       "give a part of an address or a name");
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_db_exec(&book->db, make_people, err);
    if (status == MF_OK) {
        status = fill_people(book, err);
        if (status == MF_OK)
            status = make_query(&words, &book->db, text, err);
        if (status == MF_OK)
            status = each_hit(book, mf_buf_str(&words), fn, data, err);
        mf_err dropped = {0};
        mf_status done = mf_db_exec(&book->db, "DROP TABLE temp.people", &dropped);
        if (status == MF_OK && done != MF_OK && err != NULL)
            *err = dropped;
        status = status == MF_OK ? done : status;
    }
    mf_buf_free(&words);
    return status;
}
