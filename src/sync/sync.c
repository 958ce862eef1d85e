/* sync.c - one meeting: look, take over, hand out. */
#include "base/fail.h"
#include "sync/room.h"

#include <stdlib.h>
#include <string.h>

/* What came and went, then what is wrong, the gravest first: what waits often waits for that. */
static int place_of(mf_sync_state state)
{
    static const int places[] = {
        [MF_SYNC_REFUSED] = 1,  [MF_SYNC_FORKED] = 2,  [MF_SYNC_DAMAGED] = 3,
        [MF_SYNC_NEW] = 4,      [MF_SYNC_WAITS] = 5,   [MF_SYNC_GONE] = 6,
        [MF_SYNC_NEEDLESS] = 7, [MF_SYNC_STRANGE] = 8, [MF_SYNC_UNFINISHED] = 3};
    return places[state];
}

static int by_state(const void *a, const void *b)
{
    const mf_sync_item *x = a, *y = b;
    int order = place_of(x->state) - place_of(y->state);
    if (order == 0)
        order = (int)x->state - (int)y->state;
    if (order == 0)
        order = strcmp(x->device, y->device);
    return order != 0 ? order : (x->from > y->from) - (x->from < y->from);
}

/* What was here before is no news. */
static mf_status tell_segments(mf_sync_run *r, mf_err *err)
{
    for (size_t i = 0; i < r->n_seg; i++) {
        mf_sync_item *it = &r->seg[i].item;
        if (it->state == MF_SYNC_HERE)
            continue;
        if (r->seg[i].foreign && !r->seg[i].behind &&
            (it->state == MF_SYNC_REFUSED || it->state == MF_SYNC_FORKED ||
             it->state == MF_SYNC_WAITS))
            mf_sync_say_foreign(it);
        mf_sync_item *said = mf_sync_note(r, it->state, it->name);
        if (said == NULL)
            return mf_fail_memory(err);
        *said = *it;
    }
    if (r->out->n_items > 0)
        qsort(r->out->items, r->out->n_items, sizeof *r->out->items, by_state);
    return MF_OK;
}

static mf_status meet(mf_sync_run *r, mf_err *err)
{
    mf_status status = mf_sync_find(r, err);
    if (status == MF_OK)
        status = mf_sync_take_over(r, err);
    if (status == MF_OK)
        status = mf_sync_ends_agree(r, err);
    if (status == MF_OK)
        status = mf_sync_accept(r, err);
    if (status == MF_OK)
        status = mf_sync_hand_out(r, err);
    return status == MF_OK ? tell_segments(r, err) : status;
}

/* A try is the same in a group that is taken back. */
static mf_status meet_to_try(mf_sync_run *r, mf_err *err)
{
    mf_status status = mf_book_begin(r->ask->book, err);
    if (status != MF_OK)
        return status;
    status = meet(r, err);
    mf_book_rollback(r->ask->book);
    return status;
}

MF_API mf_status mf_sync(const mf_sync_ask *ask, mf_sync_report *out, mf_bytes *seen, mf_err *err)
{
    mf_sync_run r = {.ask = ask, .out = out};
    *out = (mf_sync_report){.items = NULL};
    *seen = (mf_bytes){0};
    if (ask->way == MF_SYNC_DO && ask->store->sweep != NULL)
        ask->store->sweep(ask->store->data, mf_book_device(ask->book));
    mf_status status = ask->way == MF_SYNC_DO ? meet(&r, err) : meet_to_try(&r, err);
    if (status == MF_OK && ask->way == MF_SYNC_DO)
        status = mf_sync_note_ahead(&r, err);
    if (status == MF_OK && ask->way == MF_SYNC_DO)
        status = mf_sync_remember(&r, seen, err);
    for (size_t i = 0; i < r.n_seg; i++) {
        mf_segment_free(&r.seg[i].s);
        mf_bytes_free(&r.seg[i].text);
    }
    free(r.seg);
    free(r.con);
    free(r.end);
    return status;
}

MF_API void mf_sync_report_free(mf_sync_report *report)
{
    free(report->items);
    free(report->chains);
    *report = (mf_sync_report){.items = NULL};
}

MF_API mf_status mf_sync_answer(const mf_sync_report *report)
{
    static const mf_status answers[] = {
        [MF_SYNC_WAITS] = MF_NO,     [MF_SYNC_NEW] = MF_NO,        [MF_SYNC_GONE] = MF_NO,
        [MF_SYNC_FORKED] = MF_INPUT, [MF_SYNC_REFUSED] = MF_INPUT, [MF_SYNC_DAMAGED] = MF_INPUT,
        [MF_SYNC_STRANGE] = MF_OK,   [MF_SYNC_UNFINISHED] = MF_NO,
    };
    const mf_merge_report *in = &report->merged;
    mf_status answer = in->contradictions + in->doubles > 0 ? MF_NO : MF_OK;
    for (size_t i = 0; i < report->n_items; i++) {
        const mf_sync_item *it = &report->items[i];
        bool clock = it->state == MF_SYNC_CAME && it->what[0] != '\0';
        mf_status one = clock ? MF_NO : answers[it->state];
        answer = one > answer ? one : answer;
    }
    return answer;
}
