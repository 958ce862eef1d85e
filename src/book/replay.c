/* replay.c - a head is one hash over the ends of all chains; an earlier head is found by
 * going through the journal in the order in which its entries came in. */
#include "book/replay.h"

#include "base/digest.h"
#include "base/fail.h"
#include "book/journal.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- the ends of the chains ------------------------------------------------------------ */

static bool grow(mf_ends *s)
{
    size_t cap = s->cap == 0 ? 8 : s->cap * 2;
    void *device = realloc(s->device, cap * sizeof *s->device);
    if (device == NULL)
        return false;
    s->device = device;
    void *hash = realloc(s->hash, cap * sizeof *s->hash);
    if (hash == NULL)
        return false;
    s->hash = hash;
    s->cap = cap;
    return true;
}

/* Sorted by device, as mf_book_head has it. */
bool mf_ends_put(mf_ends *s, const char *device, const char *hash)
{
    size_t at = 0;
    while (at < s->n && strcmp(s->device[at], device) < 0)
        at++;
    if (at == s->n || strcmp(s->device[at], device) != 0) {
        if (s->n == s->cap && !grow(s)) {
            s->failed = true;
            return false;
        }
        memmove(s->device + at + 1, s->device + at, (s->n - at) * sizeof *s->device);
        memmove(s->hash + at + 1, s->hash + at, (s->n - at) * sizeof *s->hash);
        s->n++;
        snprintf(s->device[at], sizeof s->device[at], "%s", device);
    }
    snprintf(s->hash[at], sizeof s->hash[at], "%s", hash);
    return true;
}

bool mf_ends_head(const mf_ends *s, char out[MF_HASH_HEX])
{
    mf_buf text = {0};
    for (size_t i = 0; i < s->n; i++)
        mf_buf_printf(&text, "%s %s\n", s->device[i], s->hash[i]);
    bool good = !s->failed && !text.failed && mf_digest_hex(mf_buf_str(&text), text.len, out);
    mf_buf_free(&text);
    return good;
}

void mf_ends_free(mf_ends *s)
{
    free(s->device);
    free(s->hash);
}

/* ---- one after the other ---------------------------------------------------------------- */

static int by_head(const void *a, const void *b)
{
    return strcmp(((const mf_wanted *)a)->head, ((const mf_wanted *)b)->head);
}

static bool mark_found(mf_wanted *list, size_t n, const mf_ends *ends, int64_t rowid)
{
    mf_wanted key = {.had = 0};
    if (!mf_ends_head(ends, key.head))
        return false;
    mf_wanted *at = bsearch(&key, list, n, sizeof *list, by_head);
    while (at != NULL && at > list && by_head(at - 1, &key) == 0)
        at--;
    for (; at != NULL && at < list + n && by_head(at, &key) == 0; at++)
        at->had = at->had == 0 ? rowid : at->had;
    return true;
}

mf_status mf_replay(mf_db *db, mf_wanted *list, size_t n, mf_err *err)
{
    mf_stmt stmt;
    bool row = n > 0;
    mf_ends ends = {0};
    mf_status status =
        mf_stmt_get(&stmt, db, "SELECT device, hash, rowid FROM entry ORDER BY rowid", err);
    if (n > 0)
        qsort(list, n, sizeof *list, by_head);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row &&
            (!mf_ends_put(&ends, mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1)) ||
             !mark_found(list, n, &ends, mf_stmt_number(&stmt, 2))))
            status = mf_fail_memory(err);
    }
    mf_stmt_done(&stmt);
    mf_ends_free(&ends);
    return status;
}

/* ---- over named entries ------------------------------------------------------------------- */

static mf_status put_named(mf_db *db, const char *id, mf_ends *ends, mf_status *found, mf_err *err)
{
    bool here = false;
    mf_line line;
    mf_arena arena = {0};
    mf_status status = mf_journal_entry(&line, &arena, db, id, &here, err);
    if (status == MF_OK && !here)
        *found = MF_NO;
    else if (status == MF_OK && !mf_ends_put(ends, line.device, line.hash))
        status = mf_fail_memory(err);
    mf_arena_free(&arena);
    return status;
}

mf_status mf_chains_head(mf_db *db, const char *text, char out[MF_HASH_HEX], mf_status *found,
                         char missing[MF_ENTRY_ID], mf_err *err)
{
    char id[MF_ENTRY_ID], device[MF_DEVICE_MAX + 1];
    int64_t seq;
    size_t n = 0;
    mf_ends ends = {0};
    mf_status status = MF_OK;
    *found = MF_OK;
    for (; status == MF_OK && *found == MF_OK && *text != '\0'; n++) {
        size_t len = strcspn(text, " ");
        snprintf(id, sizeof id, "%.*s", len < sizeof id ? (int)len : 0, text);
        text += len + (text[len] == ' ');
        if (!mf_entry_id_split(id, device, &seq))
            *found = MF_INPUT;
        else
            status = put_named(db, id, &ends, found, err);
        if (*found == MF_NO)
            snprintf(missing, MF_ENTRY_ID, "%s", id);
    }
    if (*found == MF_OK && ends.n != n) /* a device twice */
        *found = MF_INPUT;
    if (status == MF_OK && !mf_ends_head(&ends, out))
        status = mf_fail_memory(err);
    mf_ends_free(&ends);
    return status;
}
