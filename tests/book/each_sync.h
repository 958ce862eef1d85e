/* each_sync.h - a sync at a folder where the truck was before, for each_ops.h. */
#ifndef TESTS_EACH_SYNC_H
#define TESTS_EACH_SYNC_H

#include "book_kit.h"
#include <mistfold/sync.h>
#include <sys/stat.h>
#include <unistd.h>

static mf_store share;
static char share_path[96];

static mf_status meet(mf_book *book, const mf_store *store, const mf_now *now, const char *accept,
                      mf_err *err)
{
    mf_sync_report report;
    mf_bytes seen;
    const mf_sync_ask ask = {.book = book, .store = store, .now = now, .accept = accept};
    mf_status status = mf_sync(&ask, &report, &seen, err);
    mf_sync_report_free(&report);
    mf_bytes_free(&seen);
    return status;
}

static void truck_meets(const kit *k, mf_book *truck)
{
    snprintf(share_path, sizeof share_path, "%s/share", k->folder);
    assert_int_equal(mkdir(share_path, 0777), 0);
    assert_int_equal(mf_store_folder(&share, share_path, NULL), MF_OK);
    assert_int_equal(meet(truck, &share, &k->now, "", NULL), MF_OK);
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

static mf_status op_sync(kit *k, mf_err *err)
{
    mf_status status = mf_store_folder(&share, share_path, err);
    if (status != MF_OK)
        return status;
    mf_store store = share;
    store.write = hand_out;
    status = meet(k->book, &store, &k->now, "truck,van", err);
    share.close(share.data);
    return status;
}

#endif
