/* keys.c - whose seals a book stands by: keys that somebody said are known, and keys whose
 * seals it has logged itself. */
#include "base/fail.h"
#include "book/room.h"

#include <stdio.h>
#include <string.h>

#define KEYS                                                                                       \
    "(SELECT entry, person, capacity, fingerprint FROM known_key UNION ALL"                        \
    " SELECT entry, person, capacity, fingerprint FROM sealed)"

/* Whether word is among words with commas between them. */
static bool holds_word(const char *words, const char *word)
{
    size_t len = strlen(word);
    for (const char *at = words; *at != '\0'; at += *at == ',') {
        size_t n = strcspn(at, ",");
        if (n == len && strncmp(at, word, n) == 0)
            return true;
        at += n;
    }
    return false;
}

static void take_key(mf_stmt *stmt, const char *capacity, mf_key_known *out)
{
    const char *words = mf_stmt_column(stmt, 2);
    bool fits = *capacity == '\0' || holds_word(words, capacity);
    if (out->fits || (out->known && !fits))
        return;
    out->known = true;
    out->fits = fits;
    snprintf(out->entry, sizeof out->entry, "%s", mf_stmt_column(stmt, 0));
    snprintf(out->person, sizeof out->person, "%s", mf_stmt_column(stmt, 1));
    snprintf(out->capacity, sizeof out->capacity, "%s", words);
}

mf_status mf_book_key(mf_book *book, const char *fingerprint, const char *capacity,
                      mf_key_known *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    *out = (mf_key_known){.known = false};
    mf_status status = mf_stmt_get(
        &stmt, &book->db,
        "SELECT entry, person, coalesce(capacity, '') FROM " KEYS " WHERE fingerprint = ?1", err);
    if (status == MF_OK)
        mf_stmt_text(&stmt, 1, fingerprint);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            take_key(&stmt, capacity, out);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_book_key_of_name(mf_book *book, const char *name, const char *but,
                              char out[MF_HASH_HEX], mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    out[0] = '\0';
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT k.fingerprint FROM " KEYS " AS k JOIN person AS p ON p.id = k.person"
                    " WHERE p.name = ?1 COLLATE NOCASE AND k.fingerprint <> ?2 LIMIT 1",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, name);
    mf_stmt_text(&stmt, 2, but);
    status = mf_stmt_step(&stmt, &row, err);
    if (row)
        snprintf(out, MF_HASH_HEX, "%s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}
