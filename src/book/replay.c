/* replay.c - heads that were noted, against the journal: the one way in which papers, stamps,
 * witnesses and what somebody wrote down are held against it.
 *
 * A head is one hash over the ends of all chains. Where it says which entries these were they
 * are looked up; else it is found by going through the journal in the order in which its
 * entries came in. */
#include "book/replay.h"

#include "base/digest.h"
#include "base/fail.h"
#include "base/hex.h"
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

/* ---- a list of heads ----------------------------------------------------------------------- */

mf_status mf_heads_seen_add(mf_heads_seen *heads, const mf_head_seen *seen, mf_err *err)
{
    mf_head_seen *at = mf_grown(heads->at, heads->n, &heads->cap, sizeof *at);
    if (at == NULL)
        return mf_fail_memory(err);
    heads->at = at;
    at[heads->n] = (mf_head_seen){.head = mf_arena_text(&heads->arena, seen->head),
                                  .heads = mf_arena_text(&heads->arena, seen->heads),
                                  .awaited = mf_arena_text(&heads->arena, seen->awaited),
                                  .by = mf_arena_text(&heads->arena, seen->by),
                                  .of = seen->of};
    const mf_head_seen *it = &at[heads->n++];
    return it->head == NULL || it->heads == NULL || it->awaited == NULL || it->by == NULL
               ? mf_fail_memory(err)
               : MF_OK;
}

void mf_heads_seen_free(mf_heads_seen *heads)
{
    free(heads->at);
    mf_arena_free(&heads->arena);
    *heads = (mf_heads_seen){0};
}

const char *mf_links_text(mf_arena *arena, const mf_link *chains, size_t n)
{
    mf_buf text = {0};
    for (size_t i = 0; i < n; i++)
        mf_buf_printf(&text, "%s%s %s", i > 0 ? ", " : "", chains[i].entry, chains[i].hash);
    const char *out = text.failed ? NULL : mf_arena_text(arena, mf_buf_str(&text));
    mf_buf_free(&text);
    return out;
}

/* ---- entry by entry ------------------------------------------------------------------------ */

static const char *token(const char **text, char *out, size_t cap)
{
    *text += strspn(*text, " ,\n");
    size_t len = strcspn(*text, " ,\n");
    snprintf(out, cap, "%.*s", len < cap ? (int)len : 0, *text);
    *text += len;
    return out;
}

bool mf_piece_next(mf_piece *p, const char **text)
{
    if (!mf_entry_id_split(token(text, p->id, sizeof p->id), p->device, &p->seq))
        return false;
    const char *behind = *text;
    if (!mf_hex_is(token(&behind, p->hash, sizeof p->hash), MF_HASH_HEX - 1))
        p->hash[0] = '\0';
    else
        *text = behind;
    *text += strspn(*text, " ,\n");
    return true;
}

static bool may_come(const mf_book *book, const mf_head_seen *it, const mf_piece *p)
{
    char id[MF_ENTRY_ID];
    const char *rest = it->awaited;
    if (strcmp(rest, "*") == 0)
        return true;
    if (strcmp(rest, MF_AWAITS_OTHERS) == 0)
        return strcmp(p->device, book->device) != 0;
    while (*rest != '\0' && strcmp(p->device, book->device) != 0)
        if (strcmp(token(&rest, id, sizeof id), p->id) == 0)
            return true;
    return false;
}

/* What is awaited counts only as long as nothing is wrong; of that the first is told. */
static void found(mf_head_seen *it, mf_head_state state, const mf_piece *p, const char *is)
{
    if (state <= it->state || it->state > MF_HEAD_AWAITED)
        return;
    it->state = state;
    snprintf(it->entry, sizeof it->entry, "%s", p->id);
    snprintf(it->was, sizeof it->was, "%s", p->hash);
    snprintf(it->is, sizeof it->is, "%s", is);
}

static mf_status look_up(mf_head_seen *it, mf_book *book, mf_piece *p, mf_err *err)
{
    char day[MF_DAY_TEXT];
    bool here = false;
    mf_line line;
    mf_arena arena = {0};
    mf_status status = mf_journal_entry(&line, &arena, &book->db, p->id, &here, err);
    if (status == MF_OK && !here) {
        found(it, may_come(book, it, p) ? MF_HEAD_AWAITED : MF_HEAD_GONE, p, "");
    } else if (status == MF_OK) {
        snprintf(day, sizeof day, "%.10s", line.at);
        mf_day on = mf_day_parse(day, NULL);
        it->newest = on > it->newest ? on : it->newest;
        if (p->hash[0] == '\0')
            snprintf(p->hash, sizeof p->hash, "%s", line.hash);
        else if (strcmp(p->hash, line.hash) != 0)
            found(it, MF_HEAD_REWRITTEN, p, line.hash);
    }
    mf_arena_free(&arena);
    return status;
}

/* Whether it is the head of the entries that it names, when every hash of them is known. */
static mf_status fits(mf_head_seen *it, const mf_ends *ends, mf_err *err)
{
    static const mf_piece none = {.id = ""};
    char over[MF_HASH_HEX];
    if (!mf_ends_head(ends, over))
        return mf_fail_memory(err);
    if (strcmp(over, it->head) != 0)
        found(it, MF_HEAD_UNFIT, &none, "");
    return MF_OK;
}

static mf_status follow(mf_head_seen *it, mf_book *book, mf_err *err)
{
    const char *rest = it->heads;
    mf_ends ends = {0};
    mf_status status = MF_OK;
    bool whole = it->head[0] != '\0', good = true;
    size_t n = 0;
    for (; status == MF_OK && good && *rest != '\0'; n++) {
        mf_piece p;
        good = mf_piece_next(&p, &rest);
        if (good)
            status = look_up(it, book, &p, err);
        whole = whole && good && p.hash[0] != '\0';
        if (status == MF_OK && good && !mf_ends_put(&ends, p.device, p.hash))
            status = mf_fail_memory(err);
    }
    if (status == MF_OK && (!good || ends.n != n))
        it->state = MF_HEAD_UNREADABLE;
    else if (status == MF_OK && whole)
        status = fits(it, &ends, err);
    mf_ends_free(&ends);
    return status;
}

/* ---- one after the other ---------------------------------------------------------------- */

/* Of the heads that name no entries, in the order of their hashes. */
typedef struct sought {
    mf_head_seen **at;
    size_t n;
} sought;

static int by_head(const void *a, const void *b)
{
    return strcmp((*(mf_head_seen *const *)a)->head, (*(mf_head_seen *const *)b)->head);
}

static bool mark_found(const sought *s, const mf_ends *ends, int64_t rowid)
{
    char head[MF_HASH_HEX];
    if (!mf_ends_head(ends, head))
        return false;
    mf_head_seen wanted = {.head = head}, *key = &wanted;
    mf_head_seen **at = bsearch(&key, s->at, s->n, sizeof(mf_head_seen *), by_head);
    while (at != NULL && at > s->at && by_head(at - 1, &key) == 0)
        at--;
    for (; at != NULL && at < s->at + s->n && by_head(at, &key) == 0; at++) {
        (*at)->row = (*at)->row == 0 ? rowid : (*at)->row;
        (*at)->state = MF_HEAD_HELD;
    }
    return true;
}

static mf_status go_through(const sought *s, mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    mf_ends ends = {0};
    mf_status status =
        mf_stmt_get(&stmt, db, "SELECT device, hash, rowid FROM entry ORDER BY rowid", err);
    qsort(s->at, s->n, sizeof(mf_head_seen *), by_head);
    while (mf_stmt_next(&stmt, &status, err)) {
        if (!mf_ends_put(&ends, mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1)) ||
            !mark_found(s, &ends, mf_stmt_number(&stmt, 2)))
            status = mf_fail_memory(err);
    }
    mf_stmt_done(&stmt);
    /* Of several devices one may be ahead, or their entries came in in another order there. */
    for (size_t i = 0; i < s->n && ends.n > 1; i++)
        if (s->at[i]->state == MF_HEAD_NEVER_HAD &&
            strcmp(s->at[i]->awaited, MF_AWAITS_OTHERS) == 0)
            s->at[i]->state = MF_HEAD_AWAITED;
    mf_ends_free(&ends);
    return status;
}

/* "book head" prints the head of the book, and behind it those of its devices: where it is over
 * just these and none is wrong, it stands as they do, also in a book that took entries in in
 * another order. */
static mf_status stand_as_devices(mf_head_seen *it, const mf_head_seen *rest, size_t n, mf_err *err)
{
    mf_ends ends = {0};
    char over[MF_HASH_HEX] = "";
    const mf_head_seen *worst = NULL;
    for (size_t i = 0; i < n && rest[i].head[0] == '\0'; i++) {
        mf_piece p;
        const char *text = rest[i].heads;
        if (!mf_piece_next(&p, &text) || *text != '\0' || p.hash[0] == '\0')
            break;
        mf_ends_put(&ends, p.device, p.hash);
        worst = worst == NULL || rest[i].state > worst->state ? &rest[i] : worst;
    }
    bool good = worst == NULL || mf_ends_head(&ends, over);
    mf_ends_free(&ends);
    if (worst != NULL && worst->state <= MF_HEAD_AWAITED && strcmp(over, it->head) == 0) {
        it->state = worst->state;
        mf_hash_copy(it->was, worst->was);
        mf_hash_copy(it->is, worst->is);
        snprintf(it->entry, sizeof it->entry, "%s", worst->entry);
    }
    return good ? MF_OK : mf_fail_memory(err);
}

MF_API mf_status mf_book_replay(mf_book *book, mf_head_seen *list, size_t n, mf_err *err)
{
    sought s = {.at = calloc(n + 1, sizeof(mf_head_seen *))};
    mf_status status = MF_OK;
    if (s.at == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < n && status == MF_OK; i++) {
        mf_head_seen *it = &list[i];
        bool alone = it->heads[0] == '\0';
        it->state = alone ? MF_HEAD_NEVER_HAD : MF_HEAD_HELD;
        it->entry[0] = it->was[0] = it->is[0] = '\0';
        it->newest = MF_DAY_NONE;
        it->row = 0;
        if (alone)
            s.at[s.n++] = it;
        else
            status = follow(it, book, err);
    }
    if (status == MF_OK && s.n > 0)
        status = go_through(&s, &book->db, err);
    for (size_t i = 0; i < n && status == MF_OK; i++)
        if (list[i].heads[0] == '\0' && list[i].state != MF_HEAD_HELD)
            status = stand_as_devices(&list[i], &list[i + 1], n - i - 1, err);
    free(s.at);
    return status;
}
