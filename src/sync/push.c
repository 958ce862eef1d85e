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
    const mf_sync_end *end = mf_sync_reads_all(r) ? NULL : mf_sync_end_of(r, device);
    int64_t to = end != NULL && end->agreed ? end->is.seq : 0;
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
        mf_fail_memory(&r->why);
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

static void content_name(const mf_sync_run *r, const char *sha256, char out[MF_SYNC_NAME])
{
    snprintf(out, MF_SYNC_NAME, "%s/%.64s.bytes", mf_book_device(r->ask->book), sha256);
}

static mf_status hand_out_bytes(mf_sync_run *r, const char *sha256, mf_err *err)
{
    char name[MF_SYNC_NAME];
    mf_bytes bytes = {0};
    content_name(r, sha256, name);
    mf_status status = mf_book_attached(r->ask->book, sha256, &bytes, err);
    if (status == MF_OK && r->ask->way == MF_SYNC_DO)
        status = r->ask->store->write(r->ask->store->data, name, bytes.data, bytes.len, err);
    mf_bytes_free(&bytes);
    r->out->contents_sent += status == MF_OK;
    return status;
}

static void say_why(mf_sync_item *it, const mf_err *why)
{
    snprintf(it->what, sizeof it->what, "%s", why->what);
    snprintf(it->why, sizeof it->why, "%s", why->why);
    snprintf(it->mend, sizeof it->mend, "%s", why->mend);
}

/* One that the store refuses is told, and the others follow. */
static mf_status hand_out_or_tell(mf_sync_run *r, const char *sha256, mf_err *err)
{
    char name[MF_SYNC_NAME];
    mf_err why = {0};
    mf_status status = hand_out_bytes(r, sha256, &why);
    if (status != MF_NO) {
        if (status != MF_OK && err != NULL)
            *err = why;
        return status;
    }
    content_name(r, sha256, name);
    mf_sync_item *it = mf_sync_note(r, MF_SYNC_REFUSED, name);
    if (it == NULL)
        return mf_fail_memory(err);
    say_why(it, &why);
    return MF_OK;
}

static bool hand_out_content(const char *sha256, void *data)
{
    mf_sync_run *r = data;
    return mf_sync_is_there(r, sha256) || hand_out_or_tell(r, sha256, &r->why) == MF_OK;
}

static bool lists_contents(const mf_sync_run *r)
{
    return !mf_sync_keeps_entries(r) || mf_sync_reads_all(r);
}

/* ---- segments -----------------------------------------------------------------------------------
 */

/* A chain of which the store has another history, or more than the book, is not gone on with
 * there by the one whose it is, until somebody found out which is right. What somebody else wrote
 * under its name is no history of it. */
bool mf_sync_is_contradicted(const mf_sync_run *r, const char *device)
{
    const mf_sync_end *end = mf_sync_end_of(r, device);
    if (end != NULL && !end->agreed) /* such a store has one history of a chain, whosever it is */
        return true;
    for (size_t i = 0; mf_sync_is_own(r, device) && i < r->n_seg; i++) {
        const mf_sync_item *it = &r->seg[i].item;
        bool here = it->state != MF_SYNC_FORKED && it->state != MF_SYNC_REFUSED &&
                    it->state != MF_SYNC_WAITS;
        if (!here && !r->seg[i].foreign && strcmp(it->device, device) == 0)
            return true;
    }
    return false;
}

/* A store that lists no attachments is asked for those of these entries. */
static mf_status hand_out_contents_of(mf_sync_run *r, const char *name, const mf_bytes *bytes,
                                      mf_err *err)
{
    mf_segment s = {.from = 0};
    bool *there = NULL;
    mf_status status = mf_segment_read(name, bytes->data, bytes->len, &s, err);
    if (status == MF_OK && (there = calloc(s.n_contents + 1, sizeof *there)) == NULL)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = mf_sync_contents_there(r, (const char(*)[MF_HASH_HEX])s.contents, s.n_contents,
                                        there, err);
    for (size_t i = 0; status == MF_OK && there != NULL && i < s.n_contents; i++)
        if (!there[i])
            status = hand_out_bytes(r, s.contents[i], err);
    free(there);
    mf_segment_free(&s);
    return status;
}

/* What the store refuses is told, and the others follow. */
static mf_status note_sent(mf_sync_run *r, const char *name, const mf_sync_chain *chain,
                           mf_status done, const mf_err *why, mf_err *err)
{
    mf_sync_item *it = mf_sync_note(r, done == MF_OK ? MF_SYNC_SENT : MF_SYNC_REFUSED, name);
    if (it == NULL)
        return mf_fail_memory(err);
    snprintf(it->device, sizeof it->device, "%s", chain->device);
    it->from = chain->there + 1;
    it->to = chain->here;
    if (done == MF_OK) {
        r->out->sent += chain->here - chain->there;
        return MF_OK;
    }
    say_why(it, why);
    return MF_OK;
}

static mf_status hand_out(mf_sync_run *r, mf_sync_chain *chain, mf_err *err)
{
    char sha256[MF_DIGEST_HEX], name[MF_SYNC_NAME];
    mf_bytes bytes = {0};
    mf_err why = {0};
    const int64_t from = chain->there + 1;
    mf_status status =
        mf_book_segment(r->ask->book, chain->device, from, r->ask->now->at, &bytes, err);
    if (status == MF_OK && !mf_digest_hex(bytes.data, bytes.len, sha256))
        status = mf_fail_memory(err);
    if (status != MF_OK)
        return status;
    snprintf(name, sizeof name, "%s/%s.%lld-%lld.%s.entries", mf_book_device(r->ask->book),
             chain->device, (long long)from, (long long)chain->here, sha256);
    if (mf_sync_keeps_entries(r))
        status = hand_out_contents_of(r, name, &bytes, &why);
    if (status == MF_OK && r->ask->way == MF_SYNC_DO)
        status = r->ask->store->write(r->ask->store->data, name, bytes.data, bytes.len, &why);
    mf_bytes_free(&bytes);
    if (status != MF_OK && status != MF_NO) {
        if (err != NULL)
            *err = why;
        return status;
    }
    mf_status told = note_sent(r, name, chain, status, &why, err);
    if (status == MF_OK && told == MF_OK && r->ask->way == MF_SYNC_DO)
        chain->there = chain->here;
    return told;
}

static mf_status may_hand_out(mf_sync_run *r, const char *device, bool *may, mf_err *err)
{
    const mf_store *store = r->ask->store;
    *may = !mf_sync_is_contradicted(r, device);
    return *may && store->may_write != NULL ? store->may_write(store->data, device, may, err)
                                            : MF_OK;
}

static mf_status hand_out_all(mf_sync_run *r, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->out->n_chains; i++) {
        mf_sync_chain *it = &r->out->chains[i];
        bool may = false;
        if (it->there < it->here)
            status = may_hand_out(r, it->device, &may, err);
        if (status == MF_OK && may)
            status = hand_out(r, it, err);
    }
    return status;
}

/* ---- what is torn ---------------------------------------------------------------------------- */

static const mf_sync_chain *chain_of(const mf_sync_run *r, const char *device)
{
    static const mf_sync_chain none = {.here = 0};
    for (size_t i = 0; i < r->out->n_chains; i++)
        if (strcmp(r->out->chains[i].device, device) == 0)
            return &r->out->chains[i];
    return &none;
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
    bool may = mine && !again && r->ask->way == MF_SYNC_DO && r->ask->store->drop != NULL;
    return may ? r->ask->store->drop(r->ask->store->data, name, err) : MF_OK;
}

static void say_needless(mf_sync_item *it)
{
    it->state = MF_SYNC_NEEDLESS;
    snprintf(it->why, sizeof it->why, "all of it is here, and stands whole beside it");
    it->mend[0] = '\0';
}

/* As after a cut of the power: nobody did anything to it, and nothing of it is lost. */
static void say_unfinished(mf_sync_item *it)
{
    it->state = MF_SYNC_UNFINISHED;
    snprintf(it->what, sizeof it->what, "a file of this device is incomplete");
    snprintf(it->why, sizeof it->why, "all of it is in this book");
    snprintf(it->mend, sizeof it->mend, "the next sync writes it anew");
}

static mf_status clear_segment(mf_sync_run *r, mf_sync_segment *s, mf_err *err)
{
    mf_sync_item *it = &s->item;
    const mf_sync_chain *chain = chain_of(r, it->device);
    if (chain->there >= it->to) {
        say_needless(it);
        return clear(r, it->name, s->mine, err);
    }
    if (s->mine && r->ask->way != MF_SYNC_DO && chain->here >= it->to &&
        !mf_sync_is_contradicted(r, it->device))
        say_unfinished(it);
    return MF_OK;
}

static mf_status clear_all(mf_sync_run *r, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++)
        if (r->seg[i].item.state == MF_SYNC_DAMAGED)
            status = clear_segment(r, &r->seg[i], err);
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
    mf_status status = mf_sync_called(r, mf_book_heads(r->ask->book, note_chain, r, err), err);
    if (status == MF_OK && lists_contents(r))
        status = mf_sync_called(r, mf_book_contents(r->ask->book, hand_out_content, r, err), err);
    if (status == MF_OK)
        status = hand_out_all(r, err);
    return status == MF_OK ? clear_all(r, err) : status;
}
