/* wait.c - what a segment builds on. Its writer knew entries of other devices, and may have
 * corrected, sealed or noted them: it comes in when those are here, the very same ones. */
#include "base/fail.h"
#include "journal/fork.h"
#include "sync/room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool mf_sync_is_own(const mf_sync_run *r, const char *device)
{
    return strcmp(device, mf_book_device(r->ask->book)) == 0;
}

static void say(mf_sync_item *it, mf_sync_state state, const char *why, const char *mend)
{
    it->state = state;
    snprintf(it->why, sizeof it->why, "%s", why);
    snprintf(it->mend, sizeof it->mend, "%s", mend);
}

static void say_waits(const mf_sync_run *r, mf_sync_item *it, const mf_segment_head *need)
{
    snprintf(it->what, sizeof it->what, "entry %s/%lld has not arrived", need->device,
             (long long)need->seq);
    if (mf_sync_is_own(r, need->device)) /* its writer had one of ours that we do not have */
        say(it, MF_SYNC_WAITS,
            "this device made it: the book was put back to an earlier state, or somebody forged it",
            "log nothing here until that is found out; the book that has the entry is merged by "
            "\"book merge FILE --adopt REASON\"");
    else
        say(it, MF_SYNC_WAITS, "it was known to whoever wrote this", "sync again when it has");
}

static void say_forked(mf_sync_item *it, const mf_segment_head *need, const char *ours)
{
    snprintf(it->what, sizeof it->what,
             "entry %s/%lld says something else here: its hash is %.16s..., and there %.16s...",
             need->device, (long long)need->seq, ours, need->hash);
    say(it, MF_SYNC_FORKED, "one device has two histories", MF_FORK_WAY_OUT);
}

/* Whether the segment of its own chain up to there was refused, or is behind one that was. */
static bool is_behind(const mf_sync_run *r, const mf_sync_segment *it, const mf_segment_head *need)
{
    for (size_t i = 0; strcmp(it->item.device, need->device) == 0 && i < r->n_seg; i++) {
        const mf_sync_segment *s = &r->seg[i];
        if ((s->behind || s->item.state == MF_SYNC_REFUSED) && s->item.to == need->seq &&
            strcmp(s->item.device, need->device) == 0 && strcmp(s->s.hash, need->hash) == 0)
            return true;
    }
    return false;
}

static void say_behind(mf_sync_item *it, const mf_segment_head *need)
{
    snprintf(it->what, sizeof it->what, "entry %s/%lld of it was refused", need->device,
             (long long)need->seq);
    say(it, MF_SYNC_WAITS, "it goes on from there", "see why the first of it was refused");
}

/* Whether the book has just that entry; else says so. */
static mf_status has(mf_sync_run *r, mf_sync_segment *it, const mf_segment_head *need, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_status status = mf_sync_hash(r->ask->book, need->device, need->seq, ours, err);
    if (status != MF_OK || strcmp(ours, need->hash) == 0)
        return status;
    it->behind = is_behind(r, it, need);
    if (it->behind)
        say_behind(&it->item, need);
    else if (ours[0] == '\0')
        say_waits(r, &it->item, need);
    else
        say_forked(&it->item, need, ours);
    return MF_OK;
}

/* ---- a device that is new ---------------------------------------------------------------- */

/* Whether a device that the book knows by its key signed the segment as it handed it on: what
 * stands in it, it took over before by the same checks. */
static mf_status is_trusted(mf_sync_run *r, const mf_segment *s, bool *trusted, mf_err *err)
{
    char key[MF_HASH_HEX];
    *trusted = false;
    if (s->writer_key[0] == '\0')
        return MF_OK;
    mf_status status = mf_book_chain_key(r->ask->book, s->writer, key, err);
    *trusted = status == MF_OK && strcmp(key, s->writer_key) == 0;
    return status;
}

static bool names_end(const mf_segment *by, const mf_segment *s)
{
    for (size_t i = 0; i < by->n_needs; i++)
        if (by->needs[i].seq == s->to && strcmp(by->needs[i].device, s->device) == 0 &&
            strcmp(by->needs[i].hash, s->hash) == 0)
            return true;
    return false;
}

/* Whether a segment of such a device says that it knew just this end of a chain. */
static mf_status end_is_known(mf_sync_run *r, const mf_segment *s, bool *known, mf_err *err)
{
    mf_status status = MF_OK;
    *known = false;
    for (size_t i = 0; status == MF_OK && i < r->n_seg && !*known; i++)
        if (names_end(&r->seg[i].s, s))
            status = is_trusted(r, &r->seg[i].s, known, err);
    return status;
}

static const mf_segment *next_of(const mf_sync_run *r, const mf_segment *s)
{
    for (size_t i = 0; i < r->n_seg; i++) {
        const mf_segment *it = &r->seg[i].s;
        if (it->from == s->to + 1 && strcmp(it->device, s->device) == 0 &&
            strcmp(it->prev, s->hash) == 0)
            return it;
    }
    return NULL;
}

/* It, or one that goes on from it: the hash of an entry covers all before it. */
static mf_status is_vouched(mf_sync_run *r, const mf_segment *s, bool *vouched, mf_err *err)
{
    mf_status status = is_trusted(r, s, vouched, err);
    for (; status == MF_OK && !*vouched && s != NULL; s = next_of(r, s))
        status = end_is_known(r, s, vouched, err);
    return status;
}

static void say_new(mf_sync_item *it, bool known)
{
    if (known) {
        snprintf(it->what, sizeof it->what, "the chain of %s is not signed", it->device);
        say(it, MF_SYNC_NEW, "whoever can write to the place could have gone on with it",
            "ask who has it; if it is right: --accept its name, each time, or once after it made a "
            "key: book key");
        return;
    }
    snprintf(it->what, sizeof it->what, "this book knows no device %s", it->device);
    say(it, MF_SYNC_NEW, "whoever can write to the place can make up a device",
        "ask who has it; if it is one of yours: --accept its name, once, at any device");
}

static bool names_key(const mf_segment *s)
{
    return s->from == 1 && s->writer_key[0] != '\0' && strcmp(s->writer, s->device) == 0;
}

/* A chain that the book knows to be signed speaks for itself: a merge looks at its signature.
 * So does one that begins and of which a head was noted. */
static mf_status is_new(mf_sync_run *r, mf_sync_segment *seg, mf_err *err)
{
    char first[MF_HASH_HEX] = "", key[MF_HASH_HEX] = "";
    mf_sync_item *it = &seg->item;
    bool good = false;
    mf_status status = mf_sync_hash(r->ask->book, it->device, 1, first, err);
    if (status == MF_OK)
        status = mf_book_chain_key(r->ask->book, it->device, key, err);
    if (status != MF_OK || key[0] != '\0' || mf_device_is_listed(r->ask->accept, it->device) ||
        mf_sync_is_own(r, it->device))
        return status;
    status = is_vouched(r, &seg->s, &good, err);
    if (status == MF_OK && !good && first[0] == '\0' && names_key(&seg->s))
        status = mf_book_is_noted(r->ask->book, it->device, &good, err);
    if (status == MF_OK && !good)
        say_new(it, first[0] != '\0');
    return status;
}

static mf_status look_whose(mf_sync_run *r, mf_sync_segment *it, mf_err *err)
{
    char key[MF_HASH_HEX] = "";
    bool trusted = true;
    mf_status status = MF_OK;
    if (mf_sync_is_own(r, it->item.device))
        status = mf_book_chain_key(r->ask->book, it->item.device, key, err);
    if (status == MF_OK && key[0] != '\0')
        status = is_trusted(r, &it->s, &trusted, err);
    it->foreign = status == MF_OK && !trusted;
    return status;
}

void mf_sync_say_foreign(mf_sync_item *it)
{
    say(it, it->state,
        "it is not signed by the key of this device: somebody else wrote it there, or this book "
        "was put back to before it had that key",
        "take the file away; after a book was put back: --adopt \"the reason\"");
}

mf_status mf_sync_wait(mf_sync_run *r, mf_sync_segment *it, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_segment_head before = {.seq = it->item.from - 1};
    mf_status status = mf_sync_hash(r->ask->book, it->item.device, it->item.to, ours, err);
    it->item.state = MF_SYNC_HERE;
    it->bytes_lacking = false;
    if (status == MF_OK && strcmp(ours, it->s.hash) == 0) {
        it->settled = true;
        return MF_OK;
    }
    if (status == MF_OK)
        status = look_whose(r, it, err);
    if (status == MF_OK)
        status = is_new(r, it, err);
    if (status == MF_OK && it->item.state == MF_SYNC_HERE && before.seq > 0) {
        snprintf(before.device, sizeof before.device, "%s", it->item.device);
        snprintf(before.hash, sizeof before.hash, "%s", it->s.prev);
        status = has(r, it, &before, err);
    }
    for (size_t i = 0; status == MF_OK && i < it->s.n_needs && it->item.state == MF_SYNC_HERE; i++)
        status = has(r, it, &it->s.needs[i], err);
    return status;
}

/* ---- our own, which only the store has ----------------------------------------------------- */

static int64_t own_need(const mf_sync_run *r, const mf_segment *s)
{
    for (size_t i = 0; i < s->n_needs; i++)
        if (mf_sync_is_own(r, s->needs[i].device))
            return s->needs[i].seq;
    return 0;
}

/* How far our chain went: by what stands in the store of it, though it be damaged, and by what
 * devices that the book knows had of it. */
static mf_status own_told(mf_sync_run *r, int64_t *to, mf_err *err)
{
    mf_status status = MF_OK;
    const mf_sync_end *end = mf_sync_end_of(r, mf_book_device(r->ask->book));
    *to = end == NULL ? 0 : end->is.seq;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++) {
        const mf_sync_segment *it = &r->seg[i];
        bool trusted = false, waits = it->item.state == MF_SYNC_WAITS;
        bool stands = waits || it->item.state == MF_SYNC_DAMAGED;
        int64_t need = waits ? own_need(r, &it->s) : 0;
        if (stands && mf_sync_is_own(r, it->item.device) && it->item.to > *to)
            *to = it->item.to;
        if (need > *to)
            status = is_trusted(r, &it->s, &trusted, err);
        if (trusted)
            *to = need;
    }
    return status;
}

mf_status mf_sync_own_whole(mf_sync_run *r, mf_sync_segment *const *set, size_t n, bool *whole,
                            mf_err *err)
{
    char ours[MF_HASH_HEX];
    int64_t to = 0;
    mf_status status = own_told(r, &to, err);
    *whole = status == MF_OK && to == 0;
    for (size_t i = 0; i < n && !*whole; i++)
        *whole = mf_sync_is_own(r, set[i]->item.device) && set[i]->item.to >= to;
    if (status != MF_OK || *whole)
        return status;
    status = mf_sync_hash(r->ask->book, mf_book_device(r->ask->book), to, ours, err);
    *whole = ours[0] != '\0';
    return status;
}

/* Of an end that a damaged file alone names nobody can tell whether it ever was. */
static bool is_damaged(const mf_sync_run *r, const mf_segment_head *end)
{
    for (size_t i = 0; i < r->n_seg; i++) {
        const mf_sync_item *it = &r->seg[i].item;
        if (it->state == MF_SYNC_DAMAGED && it->to == end->seq &&
            strcmp(it->device, end->device) == 0)
            return true;
    }
    return false;
}

mf_status mf_sync_hold(mf_sync_run *r, mf_sync_segment *it, mf_err *err)
{
    mf_segment_head last = {.seq = 0};
    mf_status status = own_told(r, &last.seq, err);
    snprintf(last.device, sizeof last.device, "%s", it->item.device);
    say_waits(r, &it->item, &last);
    if (is_damaged(r, &last))
        say(&it->item, MF_SYNC_WAITS, "the file that names it is damaged",
            "wait until it is whole; if no device and no other copy has it any more, take that "
            "file away and sync again");
    return status;
}

/* ---- whether our chain went on elsewhere ----------------------------------------------------- */

/* The entry that goes furthest; one that this device signed goes before what others say. */
static void further(mf_segment_head *best, int64_t seq, const char *hash)
{
    bool known = hash[0] != '\0', was = best->hash[0] != '\0';
    if (seq == 0 || (was && !known) || (was == known && best->seq >= seq))
        return;
    best->seq = seq;
    snprintf(best->hash, sizeof best->hash, "%s", hash);
}

static bool is_over(mf_sync_state state)
{
    return state == MF_SYNC_HERE || state == MF_SYNC_CAME || state == MF_SYNC_NEEDLESS;
}

static mf_status look_further(mf_sync_run *r, const mf_sync_segment *it, mf_segment_head *best,
                              mf_err *err)
{
    bool trusted = false;
    const bool own = mf_sync_is_own(r, it->item.device);
    const bool by_us = mf_sync_is_own(r, it->s.writer);
    if (is_over(it->item.state))
        return MF_OK;
    mf_status status = is_trusted(r, &it->s, &trusted, err);
    if (status != MF_OK)
        return status;
    if (own)
        further(best, it->item.to, trusted && by_us ? it->s.hash : "");
    for (size_t i = 0; trusted && i < it->s.n_needs; i++)
        if (mf_sync_is_own(r, it->s.needs[i].device))
            further(best, it->s.needs[i].seq, "");
    return MF_OK;
}

/* Whether the meeting left nothing that might tell more of our chain. */
static bool leaves_nothing(const mf_sync_run *r)
{
    for (size_t i = 0; i < r->out->n_items; i++) {
        mf_sync_state state = r->out->items[i].state;
        if (!is_over(state) && state != MF_SYNC_SENT && state != MF_SYNC_STRANGE)
            return false;
    }
    return true;
}

mf_status mf_sync_note_ahead(mf_sync_run *r, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_segment_head best = {.seq = 0};
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++)
        status = look_further(r, &r->seg[i], &best, err);
    if (status == MF_OK && best.seq == 0 && leaves_nothing(r))
        return mf_book_not_ahead(r->ask->book, err);
    if (status != MF_OK || best.seq == 0)
        return status;
    status = mf_sync_hash(r->ask->book, mf_book_device(r->ask->book), best.seq, ours, err);
    bool here = best.hash[0] == '\0' ? ours[0] != '\0' : strcmp(ours, best.hash) == 0;
    return status == MF_OK && !here ? mf_book_note_ahead(r->ask->book, best.seq, best.hash, err)
                                    : status;
}

/* ---- those that wait for each other -------------------------------------------------------- */

static bool stands_in(mf_sync_segment *const *set, size_t n, const char *device, int64_t seq,
                      const char *hash)
{
    for (size_t i = 0; i < n; i++) {
        const mf_segment *s = &set[i]->s;
        if (strcmp(s->device, device) == 0 && s->from <= seq && seq <= s->to &&
            (seq < s->to || strcmp(s->hash, hash) == 0))
            return true;
    }
    return false;
}

static mf_status is_met(mf_sync_run *r, mf_sync_segment *const *set, size_t n, const char *device,
                        int64_t seq, const char *hash, bool *met, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_status status = mf_sync_hash(r->ask->book, device, seq, ours, err);
    *met = status == MF_OK &&
           (strcmp(ours, hash) == 0 || (ours[0] == '\0' && stands_in(set, n, device, seq, hash)));
    return status;
}

static mf_status all_met(mf_sync_run *r, mf_sync_segment *const *set, size_t n, const mf_segment *s,
                         bool *met, mf_err *err)
{
    mf_status status = MF_OK;
    *met = true;
    if (s->from > 1)
        status = is_met(r, set, n, s->device, s->from - 1, s->prev, met, err);
    if (status == MF_OK && *met && r->ask->adopt != NULL && mf_sync_is_own(r, s->device))
        status = mf_sync_own_whole(r, set, n, met, err);
    for (size_t i = 0; status == MF_OK && *met && i < s->n_needs; i++)
        status = is_met(r, set, n, s->needs[i].device, s->needs[i].seq, s->needs[i].hash, met, err);
    return status;
}

/* Takes out whatever waits for something that is not among them, until none does. */
mf_status mf_sync_circle(mf_sync_run *r, bool own, const mf_sync_segment *with,
                         mf_sync_segment ***out, size_t *n, mf_err *err)
{
    mf_sync_segment **set = calloc(r->n_seg + 1, sizeof *set);
    mf_status status = set == NULL ? mf_fail_memory(err) : MF_OK;
    bool less = true;
    *n = 0;
    *out = set;
    for (size_t i = 0; set != NULL && i < r->n_seg; i++) {
        mf_sync_segment *it = &r->seg[i];
        bool waits = it->item.state == MF_SYNC_WAITS && !it->settled && !it->bytes_lacking;
        if (it == with || (waits && (!own || mf_sync_is_own(r, it->item.device))))
            set[(*n)++] = it;
    }
    while (status == MF_OK && less && *n > 0) {
        size_t kept = 0;
        for (size_t i = 0; status == MF_OK && i < *n; i++) {
            bool met = false;
            status = all_met(r, set, *n, &set[i]->s, &met, err);
            if (met)
                set[kept++] = set[i];
        }
        less = kept < *n;
        *n = kept;
    }
    return status;
}
