/* push.c - writing what the store lacks of the book, attachments before the entries that name
 * them. Whatever this device has it hands out, of other devices too: a phone has no book, and a
 * store may have lost what somebody wrote. */
#include "base/digest.h"
#include "base/fail.h"
#include "sync/room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- how far a chain is there -------------------------------------------------------------- */

/* Segments stand by chain and number. One that waits, was refused or forked is no help to
 * anybody who has what we have. */
static int64_t covered(const mf_sync_run *r, const char *device)
{
    int64_t to = 0;
    for (size_t i = 0; i < r->n_seg; i++) {
        const mf_sync_item *it = &r->seg[i].item;
        bool whole = it->state == MF_SYNC_HERE || it->state == MF_SYNC_CAME;
        if (whole && strcmp(it->device, device) == 0 && it->from <= to + 1 && it->to > to)
            to = it->to;
    }
    return to;
}

static bool note_chain(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_sync_run *r = data;
    mf_sync_report *out = r->out;
    mf_sync_chain *grown = mf_grown(out->chains, out->n_chains, &r->cap_chains, sizeof *grown);
    (void)hash;
    if (grown == NULL) {
        mf_fail_memory(r->err);
        return false;
    }
    out->chains = grown;
    mf_sync_chain *it = &grown[out->n_chains++];
    *it = (mf_sync_chain){.here = seq, .there = covered(r, device)};
    snprintf(it->device, sizeof it->device, "%s", device);
    return true;
}

/* ---- attachments ------------------------------------------------------------------------------
 */

static bool hand_out_content(const char *sha256, void *data)
{
    mf_sync_run *r = data;
    char name[MF_SYNC_NAME];
    mf_bytes bytes = {0};
    if (mf_sync_is_there(r, sha256))
        return true;
    snprintf(name, sizeof name, "%s/%.64s.bytes", mf_book_device(r->ask->book), sha256);
    mf_status status = mf_book_attached(r->ask->book, sha256, &bytes, r->err);
    if (status == MF_OK && r->ask->way == MF_SYNC_DO)
        status = r->ask->store->write(r->ask->store->data, name, bytes.data, bytes.len, r->err);
    mf_bytes_free(&bytes);
    r->out->contents_sent += status == MF_OK;
    return status == MF_OK;
}

/* ---- segments -----------------------------------------------------------------------------------
 */

/* A chain of which the store has another history, or more than the book, is not gone on with
 * there by the one whose it is, until somebody found out which is right. What somebody else wrote
 * under its name is no history of it. */
bool mf_sync_is_contradicted(const mf_sync_run *r, const char *device)
{
    for (size_t i = 0; mf_sync_is_own(r, device) && i < r->n_seg; i++) {
        const mf_sync_item *it = &r->seg[i].item;
        bool here = it->state != MF_SYNC_FORKED && it->state != MF_SYNC_REFUSED &&
                    it->state != MF_SYNC_WAITS;
        if (!here && !r->seg[i].foreign && strcmp(it->device, device) == 0)
            return true;
    }
    return false;
}

static mf_status hand_out(mf_sync_run *r, const mf_sync_chain *chain, mf_err *err)
{
    char sha256[MF_DIGEST_HEX], name[MF_SYNC_NAME];
    mf_bytes bytes = {0};
    const int64_t from = chain->there + 1;
    mf_status status =
        mf_book_segment(r->ask->book, chain->device, from, r->ask->now->at, &bytes, err);
    if (status == MF_OK && !mf_digest_hex(bytes.data, bytes.len, sha256))
        status = mf_fail_memory(err);
    if (status != MF_OK)
        return status;
    snprintf(name, sizeof name, "%s/%s.%lld-%lld.%s.entries", mf_book_device(r->ask->book),
             chain->device, (long long)from, (long long)chain->here, sha256);
    if (r->ask->way == MF_SYNC_DO)
        status = r->ask->store->write(r->ask->store->data, name, bytes.data, bytes.len, err);
    mf_bytes_free(&bytes);
    mf_sync_item *it = status == MF_OK ? mf_sync_note(r, MF_SYNC_SENT, name) : NULL;
    if (it == NULL)
        return status == MF_OK ? mf_fail_memory(err) : status;
    snprintf(it->device, sizeof it->device, "%s", chain->device);
    it->from = from;
    it->to = chain->here;
    r->out->sent += chain->here - chain->there;
    return MF_OK;
}

static mf_status hand_out_all(mf_sync_run *r, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->out->n_chains; i++) {
        mf_sync_chain *it = &r->out->chains[i];
        if (it->there >= it->here || mf_sync_is_contradicted(r, it->device))
            continue;
        status = hand_out(r, it, err);
        if (status == MF_OK && r->ask->way == MF_SYNC_DO)
            it->there = it->here;
    }
    return status;
}

/* ---- what is torn ---------------------------------------------------------------------------- */

static int64_t there_of(const mf_sync_run *r, const char *device)
{
    for (size_t i = 0; i < r->out->n_chains; i++)
        if (strcmp(r->out->chains[i].device, device) == 0)
            return r->out->chains[i].there;
    return 0;
}

static mf_sync_item *item_of(mf_sync_run *r, const char *name)
{
    for (size_t i = 0; i < r->out->n_items; i++)
        if (strcmp(r->out->items[i].name, name) == 0)
            return &r->out->items[i];
    return NULL;
}

/* A torn file of our own goes once a whole one is beside it; others' are theirs to clear. One that
 * was written anew in the same second has the same bytes and stands in its place. */
static mf_status clear(mf_sync_run *r, const char *name, bool mine, mf_err *err)
{
    const mf_sync_item *said = item_of(r, name);
    bool again = said != NULL && said->state == MF_SYNC_SENT;
    bool may = mine && !again && r->ask->way == MF_SYNC_DO;
    return may ? r->ask->store->drop(r->ask->store->data, name, err) : MF_OK;
}

static void say_needless(mf_sync_item *it)
{
    it->state = MF_SYNC_NEEDLESS;
    snprintf(it->why, sizeof it->why, "all of it is here, and stands whole beside it");
    it->mend[0] = '\0';
}

static mf_status clear_all(mf_sync_run *r, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++) {
        mf_sync_item *it = &r->seg[i].item;
        if (it->state != MF_SYNC_DAMAGED || there_of(r, it->device) < it->to)
            continue;
        say_needless(it);
        status = clear(r, it->name, r->seg[i].mine, err);
    }
    for (size_t i = 0; status == MF_OK && i < r->n_con; i++) {
        mf_bytes ours = {0};
        mf_sync_content *it = &r->con[i];
        mf_sync_item *said = it->damaged ? item_of(r, it->name) : NULL;
        if (!it->damaged || mf_book_attached(r->ask->book, it->sha256, &ours, NULL) != MF_OK)
            continue;
        mf_bytes_free(&ours);
        if (said != NULL)
            say_needless(said);
        /* Ours was written again under the same name. */
    }
    return status;
}

mf_status mf_sync_hand_out(mf_sync_run *r, mf_err *err)
{
    mf_err why = {0};
    r->err = &why;
    mf_status status = mf_book_heads(r->ask->book, note_chain, r, err);
    if (status == MF_OK && why.status == MF_OK)
        status = mf_book_contents(r->ask->book, hand_out_content, r, err);
    if (status == MF_OK && why.status != MF_OK) {
        status = why.status;
        if (err != NULL)
            *err = why;
    }
    r->err = NULL;
    if (status == MF_OK)
        status = hand_out_all(r, err);
    return status == MF_OK ? clear_all(r, err) : status;
}
