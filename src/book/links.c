/* links.c - by what a paper can be held against the book later. */
#include "base/fail.h"
#include "book/journal.h"
#include "book/replay.h"

#include <mistfold/record.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct list {
    mf_link *at;
    size_t n, cap;
} list;

/* The links and the memory of their texts; the links come first. */
typedef struct held {
    mf_links links;
    list chains, entries, others;
    mf_ends ends;
    mf_arena arena;
    bool failed;
} held;

static void add(held *h, list *to, const char *id, const char *hash)
{
    mf_link *grown = h->failed ? NULL : mf_grown(to->at, to->n, &to->cap, sizeof *grown);
    h->failed = grown == NULL;
    if (h->failed)
        return;
    to->at = grown;
    to->at[to->n] = (mf_link){mf_arena_text(&h->arena, id), mf_arena_text(&h->arena, hash)};
    h->failed = to->at[to->n].entry == NULL || to->at[to->n].hash == NULL;
    to->n += !h->failed;
}

static bool add_end(const char *device, int64_t seq, const char *hash, void *data)
{
    held *h = data;
    char id[MF_ENTRY_ID];
    snprintf(id, sizeof id, "%s/%lld", device, (long long)seq);
    add(h, &h->chains, id, hash);
    return mf_ends_put(&h->ends, device, hash) && !h->failed;
}

static bool add_entry(const mf_entry *entry, void *data)
{
    held *h = data;
    add(h, &h->entries, entry->id, entry->hash);
    return !h->failed;
}

/* What other jobs disturb in the same house decides here, too. */
static mf_status add_others(held *h, mf_book *book, const mf_job *job, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; i < job->n_earlier && status == MF_OK && !h->failed; i++) {
        bool found = false;
        mf_line line;
        status =
            mf_journal_entry(&line, &h->arena, &book->db, job->earlier[i].src.entry, &found, err);
        if (status == MF_OK && found)
            add(h, &h->others, job->earlier[i].src.entry, line.hash);
    }
    return status;
}

static int by_id(const void *a, const void *b)
{
    return strcmp(((const mf_link *)a)->entry, ((const mf_link *)b)->entry);
}

/* Sorted, each once. */
static void settle(list *l, const mf_link **out, size_t *n)
{
    size_t kept = 0;
    if (l->n > 0)
        qsort(l->at, l->n, sizeof *l->at, by_id);
    for (size_t i = 0; i < l->n; i++)
        if (kept == 0 || strcmp(l->at[kept - 1].entry, l->at[i].entry) != 0)
            l->at[kept++] = l->at[i];
    *out = l->at;
    *n = kept;
}

static mf_status read_all(held *h, mf_book *book, const char *id, mf_job **job, mf_err *err)
{
    bool own = false;
    mf_status status = mf_snapshot_begin(&own, book, err);
    if (status != MF_OK)
        return status;
    status = mf_book_job(book, id, job, err);
    if (status == MF_OK)
        status = mf_book_heads(book, add_end, h, err);
    if (status == MF_OK && !h->failed)
        status = mf_book_entries(book, "", add_entry, h, err);
    if (status == MF_OK && !h->failed)
        status = mf_book_entries(book, id, add_entry, h, err);
    if (status == MF_OK && !h->failed)
        status = add_others(h, book, *job, err);
    mf_snapshot_end(own, book);
    return status;
}

mf_status mf_book_links(mf_book *book, const char *id, mf_job **job, mf_links **out, mf_err *err)
{
    *out = NULL;
    *job = NULL;
    held *h = calloc(1, sizeof *h);
    if (h == NULL)
        return mf_fail_memory(err);
    mf_status status = read_all(h, book, id, job, err);
    settle(&h->chains, &h->links.chains, &h->links.n_chains);
    settle(&h->entries, &h->links.entries, &h->links.n_entries);
    settle(&h->others, &h->links.others, &h->links.n_others);
    h->links.heads = mf_links_text(&h->arena, h->links.chains, h->links.n_chains);
    if (status == MF_OK &&
        (h->failed || h->links.heads == NULL || !mf_ends_head(&h->ends, h->links.head)))
        status = mf_fail_memory(err);
    if (status == MF_OK) {
        *out = &h->links;
    } else {
        mf_book_links_free(&h->links);
        mf_book_job_free(*job);
        *job = NULL;
    }
    return status;
}

void mf_book_links_free(mf_links *links)
{
    if (links == NULL)
        return;
    held *h = (held *)links;
    free(h->chains.at);
    free(h->entries.at);
    free(h->others.at);
    mf_ends_free(&h->ends);
    mf_arena_free(&h->arena);
    free(h);
}
