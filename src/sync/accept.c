/* accept.c - who accepts a device says so once: its head is noted in this device's own chain,
 * and whoever takes over that chain knows the device from then on. */
#include "base/fail.h"
#include "sync/room.h"

#include <mistfold/heads.h>
#include <stdio.h>
#include <string.h>

static bool find(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_sync_run *r = data;
    mf_buf *to = &r->accepted;
    if (mf_device_is_listed(r->ask->accept, device))
        mf_buf_printf(to, "%s/%lld %s\n", device, (long long)seq, hash);
    return true;
}

static mf_status note(mf_sync_run *r, const char *head, mf_err *err)
{
    char device[17], id[MF_ENTRY_ID];
    size_t awaited = 0;
    bool noted = false;
    snprintf(device, sizeof device, "%.*s", (int)strcspn(head, "/"), head);
    const mf_witness_ask ask = {
        .from = device, .head = "", .heads = head, .note = "accepted by sync"};
    mf_status status = mf_book_is_noted(r->ask->book, device, &noted, err);
    return status == MF_OK && !noted
               ? mf_book_witness(r->ask->book, &ask, r->ask->now, id, &awaited, err)
               : status;
}

mf_status mf_sync_accept(mf_sync_run *r, mf_err *err)
{
    char *rest = NULL;
    if (r->ask->accept == NULL || r->ask->accept[0] == '\0')
        return MF_OK;
    if (mf_sync_is_contradicted(r, mf_book_device(r->ask->book)))
        return MF_OK; /* what is logged now would be under a number that is taken */
    mf_status status = mf_book_heads(r->ask->book, find, r, err);
    if (status == MF_OK && r->accepted.failed)
        status = mf_fail_memory(err);
    char *head =
        status == MF_OK && r->accepted.len > 0 ? strtok_r(r->accepted.data, "\n", &rest) : NULL;
    for (; status == MF_OK && head != NULL; head = strtok_r(NULL, "\n", &rest))
        status = note(r, head, err);
    mf_buf_free(&r->accepted);
    return status;
}
