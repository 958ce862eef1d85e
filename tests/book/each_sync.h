/* each_sync.h - a sync at a folder where the truck was before, for each_ops.h. */
#ifndef TESTS_EACH_SYNC_H
#define TESTS_EACH_SYNC_H

#include "base/fail.h"
#include "book_kit.h"
#include <mistfold/sync.h>
#include <sys/stat.h>
#include <unistd.h>

static mf_store share;
static char share_path[96];
static char known[4000]; /* what the truck saw there, and one that is gone */

#define GONE                                                                                       \
    "truck/truck.99-99.0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef.entries"

static mf_status meet(const mf_sync_ask *ask, mf_bytes *seen, mf_err *err)
{
    mf_sync_report report;
    mf_status status = mf_sync(ask, &report, seen, err);
    mf_sync_report_free(&report);
    return status;
}

static void truck_meets(const kit *k, mf_book *truck)
{
    mf_bytes seen;
    const mf_sync_ask ask = {.book = truck, .store = &share, .now = &k->now, .accept = ""};
    snprintf(share_path, sizeof share_path, "%s/share", k->folder);
    assert_int_equal(mkdir(share_path, 0777), 0);
    assert_int_equal(mf_store_folder(&share, share_path, NULL), MF_OK);
    assert_int_equal(meet(&ask, &seen, NULL), MF_OK);
    snprintf(known, sizeof known, "%.*s" GONE " 1 1 -\n", (int)seen.len, (const char *)seen.data);
    mf_bytes_free(&seen);
    share.close(share.data);
}

/* What is handed out is taken away again: the next run finds the folder as this one did. */
static mf_status hand_out(void *data, const char *name, const void *bytes, size_t len, mf_err *err)
{
    char path[300];
    mf_status status = share.write(data, name, bytes, len, err);
    snprintf(path, sizeof path, "%s/%s", share_path, name);
    unlink(path);
    return status;
}

static mf_status sync_there(const kit *k, mf_sync_way way, mf_err *err)
{
    mf_bytes seen = {0};
    mf_status status = mf_store_folder(&share, share_path, err);
    if (status != MF_OK)
        return status;
    mf_store store = share;
    store.write = hand_out;
    const mf_sync_ask ask = {.book = k->book,
                             .store = &store,
                             .way = way,
                             .now = &k->now,
                             .accept = "truck,van",
                             .seen = known};
    status = meet(&ask, &seen, err);
    mf_bytes_free(&seen);
    share.close(share.data);
    return status;
}

static mf_status op_sync(kit *k, mf_err *err)
{
    return sync_there(k, MF_SYNC_DO, err);
}

static mf_status op_sync_state(kit *k, mf_err *err)
{
    return sync_there(k, MF_SYNC_STATE, err);
}

/* Nobody asks why. */
static mf_status op_sync_untold(kit *k, mf_err *err)
{
    mf_status status = sync_there(k, MF_SYNC_DO, NULL);
    return status == MF_SYSTEM ? mf_fail_memory(err) : status;
}

#endif
