/* ends.c - of a store that keeps entries: how far it says it has each chain. What the book agrees
 * with is not asked for again; a store that is behind what it said before was put back. */
#include "base/fail.h"
#include "base/hex.h"
#include "sync/names.h"
#include "sync/room.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define END "head/"

bool mf_sync_keeps_entries(const mf_sync_run *r)
{
    return r->ask->store->contents != NULL;
}

const mf_sync_end *mf_sync_end_of(const mf_sync_run *r, const char *device)
{
    for (size_t i = 0; i < r->n_end; i++)
        if (strcmp(r->end[i].is.device, device) == 0)
            return &r->end[i];
    return NULL;
}

/* ---- what it says -------------------------------------------------------------------------- */

static bool is_end(const char *device, int64_t seq, const char *hash)
{
    return mf_is_device(device) && seq > 0 && mf_hex_is(hash, MF_HASH_HEX - 1);
}

static mf_sync_end *add(mf_sync_run *r, const char *device, int64_t seq, const char *hash)
{
    mf_sync_end *grown = mf_grown(r->end, r->n_end, &r->cap_end, sizeof *grown);
    if (grown == NULL)
        return NULL;
    r->end = grown;
    mf_sync_end *it = &grown[r->n_end++];
    *it = (mf_sync_end){.is = {.seq = seq}};
    snprintf(it->is.device, sizeof it->is.device, "%s", device);
    snprintf(it->is.hash, sizeof it->is.hash, "%s", hash);
    return it;
}

static bool find_last(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_segment_head *of = data;
    (void)hash;
    if (strcmp(device, of->device) == 0)
        of->seq = seq;
    return true;
}

/* Whether the book has just that entry; ours is its hash there, or "". */
static mf_status compare(const mf_sync_run *r, mf_sync_end *end, char ours[MF_HASH_HEX],
                         mf_err *err)
{
    mf_status status = mf_sync_hash(r->ask->book, end->is.device, end->is.seq, ours, err);
    end->agreed = status == MF_OK && strcmp(ours, end->is.hash) == 0;
    return status;
}

/* Of a chain with which the book agrees nothing is asked for; of one that goes on here what is
 * behind our last entry; of another history its end, which tells. */
static mf_status needless(mf_sync_run *r, mf_sync_end *end, int64_t *through, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_segment_head last = {.seq = 0};
    mf_status status = compare(r, end, ours, err);
    snprintf(last.device, sizeof last.device, "%s", end->is.device);
    *through = end->agreed ? end->is.seq : end->is.seq - 1;
    if (status == MF_OK && ours[0] == '\0') {
        status = mf_book_heads(r->ask->book, find_last, &last, err);
        *through = last.seq;
    }
    if (mf_sync_reads_all(r))
        *through = 0;
    return status;
}

int64_t mf_sync_end_told(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_sync_run *r = data;
    int64_t through = 0;
    mf_sync_end *end = NULL;
    if (!is_end(device, seq, hash)) {
        if (mf_sync_note(r, MF_SYNC_STRANGE, device) != NULL)
            return seq;
        mf_fail_memory(&r->why);
        return -1;
    }
    end = add(r, device, seq, hash);
    mf_status status = end == NULL ? mf_fail_memory(&r->why) : needless(r, end, &through, &r->why);
    return status == MF_OK ? through : -1;
}

mf_status mf_sync_ends_agree(mf_sync_run *r, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_end; i++) {
        char ours[MF_HASH_HEX];
        status = compare(r, &r->end[i], ours, err);
    }
    return status;
}

/* ---- what it keeps back ------------------------------------------------------------------------
 */

static bool is_listed(const mf_sync_run *r, const mf_segment_head *end)
{
    for (size_t i = 0; i < r->n_seg; i++)
        if (r->seg[i].item.to >= end->seq && strcmp(r->seg[i].item.device, end->device) == 0)
            return true;
    return false;
}

mf_status mf_sync_ends_withheld(mf_sync_run *r, mf_err *err)
{
    char name[MF_SYNC_NAME];
    for (size_t i = 0; i < r->n_end; i++) {
        const mf_sync_end *it = &r->end[i];
        if (it->agreed || is_listed(r, &it->is))
            continue;
        snprintf(name, sizeof name, "%s/%" PRId64, it->is.device, it->is.seq);
        mf_sync_item *said = mf_sync_note(r, MF_SYNC_WAITS, name);
        if (said == NULL)
            return mf_fail_memory(err);
        snprintf(said->device, sizeof said->device, "%s", it->is.device);
        said->from = said->to = it->is.seq;
        snprintf(said->what, sizeof said->what,
                 "the store says that it has this entry, and does not hand it out");
        snprintf(said->why, sizeof said->why, "somebody keeps it back, or took it away");
        snprintf(
            said->mend, sizeof said->mend,
            "ask the device that logged it to sync; ask the administrator: sync PLACE --check");
    }
    return MF_OK;
}

/* ---- for the next time --------------------------------------------------------------------- */

mf_status mf_sync_end_recall(mf_sync_run *r, const mf_sync_memory *m, bool *is, bool *stands,
                             mf_err *err)
{
    char name[MF_SYNC_NAME];
    *is = strncmp(m->name, END, strlen(END)) == 0 && strchr(m->name, '.') == NULL;
    if (!*is)
        return MF_OK;
    const char *device = m->name + strlen(END);
    const mf_sync_end *end = mf_sync_end_of(r, device);
    *stands = end != NULL;
    if (end != NULL && end->is.seq >= m->size)
        return MF_OK;
    snprintf(name, sizeof name, "%.16s/%" PRId64, device, m->size);
    mf_sync_item *it = mf_sync_note(r, MF_SYNC_GONE, name);
    if (it == NULL)
        return mf_fail_memory(err);
    snprintf(it->device, sizeof it->device, "%.16s", device);
    it->from = end == NULL ? 1 : end->is.seq + 1;
    it->to = m->size;
    mf_sync_say_gone(it);
    return MF_OK;
}

static void put(mf_buf *out, const char *device, int64_t seq, const char *hash)
{
    mf_buf_printf(out, END "%s %" PRId64 " 0 %s\n", device, seq, hash);
}

static bool is_ours(const mf_sync_run *r, const char *device)
{
    for (size_t i = 0; i < r->out->n_chains; i++)
        if (r->out->chains[i].there > 0 && strcmp(r->out->chains[i].device, device) == 0)
            return true;
    return false;
}

/* How far each chain is there by now, and what the store said of those that are not here. */
mf_status mf_sync_ends_remember(const mf_sync_run *r, mf_buf *out, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->out->n_chains; i++) {
        char hash[MF_HASH_HEX];
        const mf_sync_chain *it = &r->out->chains[i];
        if (it->there == 0)
            continue;
        status = mf_sync_hash(r->ask->book, it->device, it->there, hash, err);
        put(out, it->device, it->there, hash);
    }
    for (size_t i = 0; i < r->n_end; i++)
        if (!is_ours(r, r->end[i].is.device))
            put(out, r->end[i].is.device, r->end[i].is.seq, r->end[i].is.hash);
    return status;
}

/* ---- attachments -------------------------------------------------------------------------------
 */

typedef struct marking {
    const char (*sha256)[MF_HASH_HEX];
    size_t n;
    bool *there;
} marking;

static bool mark(const mf_store_item *item, void *data)
{
    const marking *m = data;
    mf_sync_named named;
    bool ours = mf_sync_name_split(item->name, &named);
    for (size_t i = 0; ours && i < m->n; i++)
        if (strcmp(m->sha256[i], named.sha256) == 0)
            m->there[i] = true;
    return true;
}

mf_status mf_sync_contents_there(const mf_sync_run *r, const char (*sha256)[MF_HASH_HEX], size_t n,
                                 bool *there, mf_err *err)
{
    const mf_store *store = r->ask->store;
    marking m = {sha256, n, there};
    return n == 0 ? MF_OK : store->contents(store->data, sha256, n, mark, &m, err);
}
