/* pull.c - taking over what others handed out, in the order in which one builds on the other. */
#include "base/fail.h"
#include "sync/room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool take_hash(const mf_entry *entry, void *data)
{
    snprintf(data, MF_HASH_HEX, "%s", entry->hash);
    return false;
}

mf_status mf_sync_hash(mf_book *book, const char *device, int64_t seq, char out[MF_HASH_HEX],
                       mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_err why = {0};
    out[0] = '\0';
    snprintf(id, sizeof id, "%.16s/%lld", device, (long long)seq);
    mf_status status = mf_book_entry(book, id, take_hash, out, &why);
    if (status != MF_OK && status != MF_INPUT && err != NULL)
        *err = why;
    return status == MF_INPUT ? MF_OK : status;
}

/* ---- one merge ------------------------------------------------------------------------------- */

/* From whichever copy is good; that there is one was looked at before. */
static mf_status content(void *data, const char *sha256, mf_bytes *out, mf_err *err)
{
    mf_sync_run *r = data;
    mf_status status = MF_OK;
    bool good = false;
    for (size_t i = 0; status == MF_OK && !good && i < r->n_con; i++) {
        mf_sync_content *it = &r->con[i];
        if (it->damaged || strcmp(it->sha256, sha256) != 0)
            continue;
        mf_bytes_free(out);
        status = mf_sync_text(r, it->name, sha256, out, &good, err);
        it->damaged = status == MF_OK && !good;
    }
    if (status == MF_OK && !good)
        return mf_failf(err, MF_INPUT, r->ask->store->name, "they were altered there",
                        "whoever administers the place puts back what was changed",
                        "the bytes of attachment %.16s... are not those of its hash", sha256);
    return status;
}

static mf_status read_again(const mf_sync_run *r, const mf_sync_segment *it, mf_bytes *out,
                            mf_err *err)
{
    bool good = false;
    mf_status status = mf_sync_text(r, it->item.name, it->sha256, out, &good, err);
    return status == MF_OK && !good
               ? mf_fail(err, MF_INPUT, it->item.name, "it was changed while it was being read", "",
                         "sync again")
               : status;
}

static mf_status read_texts(mf_sync_run *r, mf_sync_segment *const *set, size_t n,
                            mf_segment_text *texts, mf_bytes *bytes, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < n; i++) {
        const bool kept = set[i]->text.data != NULL;
        const mf_bytes *text = kept ? &set[i]->text : &bytes[i];
        if (!kept)
            status = read_again(r, set[i], &bytes[i], err);
        texts[i] = (mf_segment_text){set[i]->item.name, text->data, text->len};
    }
    return status;
}

static void add_up(mf_merge_report *all, const mf_merge_report *one)
{
    all->read += one->read;
    all->added += one->added;
    all->contents += one->contents;
    all->contradictions += one->contradictions;
    all->doubles += one->doubles;
    all->own += one->own;
    if (one->own > 0 || (one->adoption[0] != '\0' && all->own == 0)) /* ours is what own tells of */
        snprintf(all->adoption, sizeof all->adoption, "%s", one->adoption);
}

static void settle(mf_sync_segment *const *set, size_t n, mf_sync_state state, const mf_err *why)
{
    for (size_t i = 0; i < n; i++) {
        mf_sync_item *it = &set[i]->item;
        set[i]->settled = true;
        it->state = state;
        snprintf(it->what, sizeof it->what, "%s", why->what);
        snprintf(it->why, sizeof it->why, "%s", why->why);
        snprintf(it->mend, sizeof it->mend, "%s", why->mend);
    }
}

/* It comes in as it was logged, and its times are not those of the house. */
static void look_at_clock(const mf_sync_run *r, mf_sync_segment *it)
{
    char day[11];
    snprintf(day, sizeof day, "%.10s", it->s.latest);
    if (strncmp(day, r->ask->now->at, sizeof day - 1) <= 0)
        return;
    snprintf(it->item.what, sizeof it->item.what,
             "an entry in it was logged on %s, which is still to come", day);
    snprintf(it->item.why, sizeof it->item.why,
             "the clock of that device is wrong, or this one's is");
    snprintf(it->item.mend, sizeof it->item.mend,
             "set the clock right; correct the entries whose day or time it gave");
}

/* What a check refuses is left, and told unless it was told before; that the book or the store
 * fails ends it all. */
static mf_status merge(mf_sync_run *r, mf_sync_segment *const *set, size_t n, bool told,
                       mf_err *err)
{
    mf_merge_report report;
    mf_err why = {0};
    mf_segment_text *texts = calloc(n, sizeof *texts);
    mf_bytes *bytes = calloc(n, sizeof *bytes);
    bool may_adopt = false;
    mf_status status = texts == NULL || bytes == NULL ? mf_fail_memory(&why)
                                                      : read_texts(r, set, n, texts, bytes, &why);
    if (status == MF_OK && r->ask->adopt != NULL)
        status = mf_sync_own_whole(r, set, n, &may_adopt, &why);
    const mf_segments_ask ask = {texts,        n, content, r, may_adopt ? r->ask->adopt : NULL,
                                 r->ask->watch};
    if (status == MF_OK)
        status = mf_book_merge_segments(r->ask->book, &ask, &report, &why);
    if (status == MF_OK)
        add_up(&r->out->merged, &report);
    if (status == MF_OK || (status == MF_INPUT && !told))
        settle(set, n, status == MF_OK ? MF_SYNC_CAME : MF_SYNC_REFUSED, &why);
    else if (status != MF_INPUT && err != NULL)
        *err = why;
    for (size_t i = 0; status == MF_OK && i < n; i++)
        look_at_clock(r, set[i]);
    for (size_t i = 0; bytes != NULL && i < n; i++)
        mf_bytes_free(&bytes[i]);
    free(bytes);
    free(texts);
    return status == MF_INPUT ? MF_OK : status;
}

/* ---- all of them ----------------------------------------------------------------------------- */

/* Bytes that have not arrived hold back the entry that names them, and what follows. */
static void wait_for_bytes(mf_sync_run *r, mf_sync_segment *it)
{
    for (size_t i = 0; i < it->s.n_contents && it->item.state == MF_SYNC_HERE; i++) {
        mf_bytes ours = {0};
        bool there = mf_sync_is_there(r, it->s.contents[i]) ||
                     mf_book_attached(r->ask->book, it->s.contents[i], &ours, NULL) == MF_OK;
        mf_bytes_free(&ours);
        if (there)
            continue;
        it->item.state = MF_SYNC_WAITS;
        it->bytes_lacking = true;
        snprintf(it->item.what, sizeof it->item.what,
                 "the bytes of attachment %.16s... have not arrived", it->s.contents[i]);
        snprintf(it->item.mend, sizeof it->item.mend, "sync again when they have");
    }
}

static mf_status try_one(mf_sync_run *r, mf_sync_segment *it, bool *moved, mf_err *err)
{
    mf_status status = mf_sync_wait(r, it, err);
    if (status == MF_OK && !it->settled && it->item.state == MF_SYNC_HERE)
        wait_for_bytes(r, it);
    if (status != MF_OK || it->settled || it->item.state != MF_SYNC_HERE)
        return status;
    if (r->ask->adopt != NULL && mf_sync_is_own(r, it->item.device))
        return mf_sync_hold(r, it, err);
    status = merge(r, &it, 1, false, err);
    *moved = *moved || it->item.state == MF_SYNC_CAME;
    return status;
}

/* Each of our own, or of the others. */
static mf_status one_round(mf_sync_run *r, bool own, bool *moved, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++) {
        mf_sync_segment *it = &r->seg[i];
        bool damaged = it->item.state == MF_SYNC_DAMAGED;
        if (!it->settled && !damaged && mf_sync_is_own(r, it->item.device) == own)
            status = try_one(r, it, moved, err);
    }
    return status;
}

/* Two devices may each have learnt of the other before either handed out anything. */
static mf_status try_circle(mf_sync_run *r, bool own, bool *moved, mf_err *err)
{
    mf_sync_segment **set = NULL;
    size_t n = 0;
    mf_status status = mf_sync_circle(r, own, NULL, &set, &n, err);
    if (status == MF_OK && n > 0) {
        status = merge(r, set, n, false, err);
        *moved = *moved || set[0]->item.state == MF_SYNC_CAME;
    }
    free(set);
    return status;
}

/* What goes on from one that was refused may mend it: a head that was noted wrongly is withdrawn by
 * a later entry of that chain. */
static mf_status try_with_rest(mf_sync_run *r, mf_sync_segment *it, bool *moved, mf_err *err)
{
    mf_sync_segment **set = NULL;
    size_t n = 0;
    mf_status status = mf_sync_circle(r, false, it, &set, &n, err);
    if (status == MF_OK && n > 1)
        status = merge(r, set, n, true, err);
    *moved = *moved || it->item.state == MF_SYNC_CAME;
    free(set);
    return status;
}

static mf_status try_refused(mf_sync_run *r, bool *moved, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && !*moved && i < r->n_seg; i++)
        if (r->seg[i].item.state == MF_SYNC_REFUSED && !mf_sync_is_own(r, r->seg[i].item.device))
            status = try_with_rest(r, &r->seg[i], moved, err);
    return status;
}

/* Our own, which are adopted all at once, before anything else is logged. */
static mf_status take_over_own(mf_sync_run *r, bool *moved, mf_err *err)
{
    mf_status status = one_round(r, true, moved, err);
    return status == MF_OK && r->ask->adopt != NULL ? try_circle(r, true, moved, err) : status;
}

mf_status mf_sync_take_over(mf_sync_run *r, mf_err *err)
{
    bool moved = true;
    mf_status status = MF_OK;
    while (status == MF_OK && moved) {
        moved = false;
        status = take_over_own(r, &moved, err);
        if (status == MF_OK)
            status = one_round(r, false, &moved, err);
        if (status == MF_OK && !moved)
            status = try_circle(r, false, &moved, err);
        if (status == MF_OK && !moved)
            status = try_refused(r, &moved, err);
    }
    return status;
}
