/* check_against.c - the book against heads that were noted at an earlier time, on a
 * printed record or in another place. Whoever rebuilds a chain makes every hash
 * right but these. */
#include "base/fail.h"
#include "base/hex.h"
#include "book/check.h"
#include "book/replay.h"
#include <stdio.h>
#include <string.h>

#define LINE_MAX_LEN 200
#define HEADS_MAX    64
#define WORDS_MAX    ((size_t)10) /* device, seq and a hash in eight groups */

typedef struct noted {
    mf_wanted head[HEADS_MAX];
    size_t n;
} noted;

static mf_status refuse(size_t line, const char *what, mf_err *err)
{
    char where[40];
    snprintf(where, sizeof where, "line %zu of the heads", line);
    return mf_fail(err, MF_INPUT, where, what,
                   "a line is a head of 64 hex digits, or \"device seq hash\"",
                   "write what \"book head\" printed");
}

/* ---- "device seq hash" ---------------------------------------------------------------- */

static mf_status check_entry(mf_checker *c, const char *id, const char *hash, size_t number,
                             mf_err *err)
{
    char device[MF_DEVICE_MAX + 1], where[64];
    int64_t seq = 0;
    bool found = false;
    mf_arena arena = {0};
    mf_line line;
    if (!mf_entry_id_split(id, device, &seq))
        return refuse(number, "the device or the number is none", err);
    mf_status status = mf_journal_find(&line, &arena, &c->book->db, device, seq, &found, err);
    snprintf(where, sizeof where, "entry %.40s", id);
    if (status == MF_OK && !found)
        mf_fault(c, true, where, "it was there when its hash was noted, and is missing");
    else if (status == MF_OK && strcmp(line.hash, hash) != 0)
        mf_fault(c, true, where,
                 "its hash was noted as %.16s... and is %.16s...: the chain was made anew", hash,
                 line.hash);
    mf_arena_free(&arena);
    return status;
}

/* ---- reading the text -------------------------------------------------------------------- */

/* The words of a line up to a comment; none more than WORDS_MAX are kept. */
static size_t split(char *text, const char *word[WORDS_MAX])
{
    char *rest = NULL;
    size_t n = 0;
    for (char *at = strtok_r(text, " \t\r", &rest); at != NULL && at[0] != '#';
         at = strtok_r(NULL, " \t\r", &rest), n++)
        if (n < WORDS_MAX)
            word[n] = at;
    return n;
}

/* The hash at the end of a line, whole or in groups of eight as "book head --by-hand" prints
 * it; returns how many words stand before it, n when there is none. */
static size_t take_hash(const char *const *word, size_t n, char out[MF_HASH_HEX])
{
    size_t len = 0, at = n;
    while (at > 0 && len + strlen(word[at - 1]) < MF_HASH_HEX)
        len += strlen(word[--at]);
    out[0] = '\0';
    for (size_t i = at, used = 0; i < n; i++) /* they fit together, by the loop above */
        used += (size_t)snprintf(out + used, MF_HASH_HEX - used, "%s", word[i]);
    for (char *c = out; *c != '\0'; c++)
        *c = *c >= 'A' && *c <= 'F' ? (char)(*c + ('a' - 'A')) : *c;
    return mf_hex_is(out, MF_HASH_HEX - 1) ? at : n;
}

static mf_status take_line(mf_checker *c, noted *all, char *text, size_t number, mf_err *err)
{
    char id[MF_ENTRY_ID], hash[MF_HASH_HEX];
    const char *word[WORDS_MAX] = {NULL};
    size_t n = split(text, word);
    if (n == 0)
        return MF_OK;
    if (n > WORDS_MAX)
        return refuse(number, "there is too much in it", err);
    size_t before = take_hash(word, n, hash);
    if (before == n || before == 1)
        return refuse(number, "it holds no head", err);
    if (before > 2)
        return refuse(number, "there is too much in it", err);
    if (before == 2) {
        snprintf(id, sizeof id, "%.16s/%.16s", word[0], word[1]);
        return check_entry(c, id, hash, number, err);
    }
    if (all->n == HEADS_MAX)
        return refuse(number, "there are too many heads", err);
    mf_hash_copy(all->head[all->n++].head, hash);
    return MF_OK;
}

static mf_status take_text(mf_checker *c, noted *all, const char *text, size_t *lines, mf_err *err)
{
    char line[LINE_MAX_LEN];
    mf_status status = MF_OK;
    while (status == MF_OK && *text != '\0') {
        size_t len = strcspn(text, "\n");
        ++*lines;
        if (len >= sizeof line)
            return refuse(*lines, "it is too long", err);
        snprintf(line, sizeof line, "%.*s", (int)len, text);
        status = take_line(c, all, line, *lines, err);
        text += len + (text[len] == '\n');
    }
    return status;
}

mf_status mf_check_against(mf_checker *c, const char *against, mf_err *err)
{
    size_t lines = 0;
    noted all = {0};
    mf_status status = take_text(c, &all, against, &lines, err);
    if (status == MF_OK && all.n > 0)
        status = mf_replay(&c->book->db, all.head, all.n, err);
    for (size_t i = 0; status == MF_OK && i < all.n; i++)
        if (all.head[i].had == 0)
            mf_fault(c, true, "head",
                     "%.16s... is no head that this book ever had: the journal was made anew, or "
                     "the head is of another copy",
                     all.head[i].head);
    return status;
}
