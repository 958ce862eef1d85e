/* found.c - what stands in the store. A file is read once; after that it is known by its size
 * and its time, which a service or a disk may lie about: MF_SYNC_STATE reads all. */
#include "base/digest.h"
#include "base/fail.h"
#include "base/utf8.h"
#include "sync/names.h"
#include "sync/room.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_LINE "mistfold sync 1\n"

enum { KEPT_MAX = 4 * 1024 * 1024 }; /* of texts in memory until they come in */

/* ---- listing ------------------------------------------------------------------------------- */

mf_sync_item *mf_sync_note(mf_sync_run *r, mf_sync_state state, const char *name)
{
    mf_sync_report *out = r->out;
    mf_sync_item *grown = mf_grown(out->items, out->n_items, &r->cap_items, sizeof *grown);
    if (grown == NULL)
        return NULL;
    out->items = grown;
    mf_sync_item *it = &grown[out->n_items++];
    *it = (mf_sync_item){.state = state};
    mf_utf8_show(it->name, sizeof it->name, name);
    return it;
}

static void name_item(mf_sync_item *it, const mf_sync_named *named)
{
    snprintf(it->device, sizeof it->device, "%s", named->device);
    it->from = named->from;
    it->to = named->to;
}

static bool add_segment(mf_sync_run *r, const mf_store_item *found, const mf_sync_named *named)
{
    mf_sync_segment *grown = mf_grown(r->seg, r->n_seg, &r->cap_seg, sizeof *grown);
    if (grown == NULL)
        return false;
    r->seg = grown;
    mf_sync_segment *it = &grown[r->n_seg++];
    *it = (mf_sync_segment){.item = {.state = MF_SYNC_WAITS},
                            .size = found->size,
                            .stamp = found->stamp,
                            .mine = mf_sync_is_own(r, named->writer)};
    name_item(&it->item, named);
    snprintf(it->item.name, sizeof it->item.name, "%s", found->name);
    mf_hash_copy(it->sha256, named->sha256);
    return true;
}

static bool add_content(mf_sync_run *r, const mf_store_item *found, const mf_sync_named *named)
{
    mf_sync_content *grown = mf_grown(r->con, r->n_con, &r->cap_con, sizeof *grown);
    if (grown == NULL)
        return false;
    r->con = grown;
    mf_sync_content *it = &grown[r->n_con++];
    *it = (mf_sync_content){.size = found->size, .stamp = found->stamp};
    snprintf(it->name, sizeof it->name, "%s", found->name);
    mf_hash_copy(it->sha256, named->sha256);
    return true;
}

static bool add(const mf_store_item *found, void *data)
{
    mf_sync_run *r = data;
    mf_sync_named named;
    bool good;
    if (found->size < 0 || !mf_sync_name_split(found->name, &named))
        good = mf_sync_note(r, MF_SYNC_STRANGE, found->name) != NULL;
    else if (named.device[0] != '\0')
        good = add_segment(r, found, &named);
    else
        good = add_content(r, found, &named);
    if (!good)
        mf_fail_memory(&r->why);
    return good;
}

static int segment_by_name(const void *a, const void *b)
{
    return strcmp(((const mf_sync_segment *)a)->item.name, ((const mf_sync_segment *)b)->item.name);
}

static int content_by_name(const void *a, const void *b)
{
    return strcmp(((const mf_sync_content *)a)->name, ((const mf_sync_content *)b)->name);
}

static int segment_by_chain(const void *a, const void *b)
{
    const mf_sync_item *x = &((const mf_sync_segment *)a)->item;
    const mf_sync_item *y = &((const mf_sync_segment *)b)->item;
    int order = strcmp(x->device, y->device);
    if (order == 0)
        order = (x->from > y->from) - (x->from < y->from);
    if (order == 0)
        order = (x->to > y->to) - (x->to < y->to);
    return order != 0 ? order : strcmp(x->name, y->name);
}

static int content_by_hash(const void *a, const void *b)
{
    int order = strcmp(((const mf_sync_content *)a)->sha256, ((const mf_sync_content *)b)->sha256);
    return order != 0 ? order : content_by_name(a, b);
}

static void sort(void *list, size_t n, size_t size, int (*by)(const void *, const void *))
{
    if (n > 0)
        qsort(list, n, size, by);
}

/* ---- what was seen before ---------------------------------------------------------------- */

/* "NAME SIZE STAMP HASH", - for HASH of what is no segment. */
static bool read_memory(const char *line, size_t len, mf_sync_memory *out)
{
    char text[2 * MF_SYNC_NAME + 80], *rest = NULL;
    if (len >= sizeof text)
        return false;
    snprintf(text, sizeof text, "%.*s", (int)len, line);
    const char *name = strtok_r(text, " ", &rest), *size = strtok_r(NULL, " ", &rest);
    const char *stamp = strtok_r(NULL, " ", &rest), *hash = strtok_r(NULL, " ", &rest);
    if (hash == NULL || strlen(name) >= MF_SYNC_NAME)
        return false;
    snprintf(out->name, sizeof out->name, "%s", name);
    snprintf(out->hash, sizeof out->hash, "%s", hash);
    out->size = strtoll(size, NULL, 10);
    out->stamp = strtoll(stamp, NULL, 10);
    return true;
}

/* Whether it stands there yet, and is settled by that: it was whole when it was read, and has
 * the same size and time. */
static bool apply_memory(mf_sync_run *r, const mf_sync_memory *m)
{
    mf_sync_segment seg = {.size = 0};
    mf_sync_content con = {.size = 0};
    bool read_all = mf_sync_reads_all(r);
    snprintf(seg.item.name, sizeof seg.item.name, "%s", m->name);
    snprintf(con.name, sizeof con.name, "%s", m->name);
    mf_sync_segment *s =
        r->n_seg == 0 ? NULL : bsearch(&seg, r->seg, r->n_seg, sizeof seg, segment_by_name);
    mf_sync_content *c =
        r->n_con == 0 ? NULL : bsearch(&con, r->con, r->n_con, sizeof con, content_by_name);
    if (s != NULL && !read_all && s->size == m->size && s->stamp == m->stamp)
        snprintf(s->s.hash, sizeof s->s.hash, "%s", m->hash);
    if (c != NULL && !read_all && c->size == m->size && c->stamp == m->stamp)
        c->known = true;
    return s != NULL || c != NULL;
}

void mf_sync_say_gone(mf_sync_item *it)
{
    snprintf(it->what, sizeof it->what, "it stood here at an earlier time and is gone");
    snprintf(it->why, sizeof it->why,
             "the store was put back to an earlier state, or somebody took it away");
    snprintf(it->mend, sizeof it->mend,
             "whichever device has it writes it there again when it meets here");
}

static mf_status say_gone(mf_sync_run *r, const mf_sync_memory *m, mf_err *err)
{
    mf_sync_named named;
    mf_sync_item *it = mf_sync_note(r, MF_SYNC_GONE, m->name);
    if (it == NULL)
        return mf_fail_memory(err);
    if (mf_sync_name_split(m->name, &named))
        name_item(it, &named);
    mf_sync_say_gone(it);
    return MF_OK;
}

/* A chain that is shorter stands there yet, and is told; a file stands or is gone. */
static mf_status recall_one(mf_sync_run *r, const mf_sync_memory *m, bool *stands, mf_err *err)
{
    bool is_end = false;
    mf_status status = mf_sync_end_recall(r, m, &is_end, stands, err);
    if (status != MF_OK || is_end)
        return status;
    *stands = apply_memory(r, m);
    return *stands ? MF_OK : say_gone(r, m, err);
}

static mf_status recall(mf_sync_run *r, mf_err *err)
{
    const char *line = r->ask->seen;
    size_t gone = 0, there = 0;
    mf_status status = MF_OK;
    if (line == NULL || strncmp(line, FIRST_LINE, strlen(FIRST_LINE)) != 0)
        return MF_OK; /* nothing is known, and all is read */
    for (line += strlen(FIRST_LINE); status == MF_OK && *line != '\0';) {
        size_t len = strcspn(line, "\n");
        mf_sync_memory m;
        bool good = read_memory(line, len, &m);
        line += len + (line[len] == '\n');
        if (!good)
            continue;
        bool stands = false;
        status = recall_one(r, &m, &stands, err);
        there += stands;
        gone += !stands;
    }
    if (status == MF_OK && gone > 0 && there == 0 && !r->ask->refill)
        return mf_failf(err, MF_INPUT, r->ask->store->name,
                        "a stick or a share that is not there looks the same; nothing was done",
                        "see that it is; to fill an empty one anew: --refill",
                        "of %zu files or chains that stood here the last time none does", gone);
    return status;
}

static void remember_files(const mf_sync_run *r, mf_buf *text)
{
    for (size_t i = 0; i < r->n_seg; i++) {
        const mf_sync_segment *s = &r->seg[i];
        if (s->item.state != MF_SYNC_DAMAGED && s->item.state != MF_SYNC_NEEDLESS)
            mf_buf_printf(text, "%s %" PRId64 " %" PRId64 " %s\n", s->item.name, s->size, s->stamp,
                          s->s.hash);
    }
    for (size_t i = 0; i < r->out->n_items; i++) /* to be read the next time, and missed */
        if (r->out->items[i].state == MF_SYNC_SENT)
            mf_buf_printf(text, "%s 0 0 -\n", r->out->items[i].name);
    for (size_t i = 0; i < r->n_con; i++)
        if (!r->con[i].damaged)
            mf_buf_printf(text, "%s %" PRId64 " %" PRId64 " -\n", r->con[i].name, r->con[i].size,
                          r->con[i].stamp);
}

mf_status mf_sync_remember(const mf_sync_run *r, mf_bytes *out, mf_err *err)
{
    mf_buf text = {0};
    mf_status status = MF_OK;
    mf_buf_text(&text, FIRST_LINE);
    if (mf_sync_keeps_entries(r))
        status = mf_sync_ends_remember(r, &text, err);
    else
        remember_files(r, &text);
    if (status == MF_OK && text.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        mf_buf_take(&text, out);
    mf_buf_free(&text);
    return status;
}

/* ---- reading them -----------------------------------------------------------------------------
 */

mf_status mf_sync_text(const mf_sync_run *r, const char *name, const char *sha256, mf_bytes *out,
                       bool *good, mf_err *err)
{
    char is[MF_DIGEST_HEX];
    mf_err why = {0};
    *good = false;
    mf_status status = r->ask->store->read(r->ask->store->data, name, out, &why);
    if (status == MF_INPUT)
        return MF_OK; /* it went, or is no plain file any more */
    if (status == MF_OK && !mf_digest_hex(out->data, out->len, is))
        return mf_fail_memory(err);
    if (status != MF_OK && err != NULL)
        *err = why;
    *good = status == MF_OK && strcmp(is, sha256) == 0;
    return status;
}

static void damage(const mf_sync_run *r, mf_sync_item *it, const mf_err *why)
{
    it->state = MF_SYNC_DAMAGED;
    snprintf(it->what, sizeof it->what, "%s",
             why->what[0] != '\0' ? why->what : "its bytes are not those that its name says");
    snprintf(it->why, sizeof it->why,
             "it was torn, altered, or has not arrived whole: it is left as it is");
    snprintf(it->mend, sizeof it->mend, "%s",
             mf_sync_keeps_entries(r)
                 ? "the administrator puts back what was changed there: docs/server.md"
                 : "wait until it is whole; else whoever has these entries writes them anew with "
                   "the next sync");
}

static bool as_named(const mf_sync_segment *it)
{
    return strcmp(it->s.device, it->item.device) == 0 && it->s.from == it->item.from &&
           it->s.to == it->item.to;
}

/* A store may have more than there is memory for. */
static void keep_text(mf_sync_run *r, mf_sync_segment *it, mf_bytes *text)
{
    if (r->kept + text->len > KEPT_MAX)
        return;
    it->text = *text;
    r->kept += text->len;
    *text = (mf_bytes){0};
}

static mf_status read_segment(mf_sync_run *r, mf_sync_segment *it, mf_err *err)
{
    mf_bytes bytes = {0};
    mf_err why = {0};
    bool good = false;
    mf_status status = mf_sync_text(r, it->item.name, it->sha256, &bytes, &good, err);
    if (status == MF_OK && good) {
        mf_segment_free(&it->s);
        status = mf_segment_read(it->item.name, bytes.data, bytes.len, &it->s, &why);
        good = status == MF_OK && as_named(it);
        status = status == MF_INPUT ? MF_OK : status;
        if (status != MF_OK && err != NULL)
            *err = why;
    }
    if (good)
        keep_text(r, it, &bytes);
    mf_bytes_free(&bytes);
    if (status == MF_OK && !good)
        damage(r, &it->item, &why);
    return status;
}

/* One whose end is here needs no reading: all of it is here. */
static mf_status look_at(mf_sync_run *r, mf_sync_segment *it, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_status status = MF_OK;
    if (it->s.hash[0] == '\0')
        return read_segment(r, it, err);
    status = mf_sync_hash(r->ask->book, it->item.device, it->item.to, ours, err);
    return status == MF_OK && strcmp(ours, it->s.hash) != 0 ? read_segment(r, it, err) : status;
}

static mf_status look_at_content(mf_sync_run *r, mf_sync_content *it, mf_err *err)
{
    mf_bytes bytes = {0};
    mf_err why = {0};
    bool good = true;
    mf_status status =
        it->known ? MF_OK : mf_sync_text(r, it->name, it->sha256, &bytes, &good, err);
    mf_bytes_free(&bytes);
    it->damaged = !good;
    if (status == MF_OK && !good) {
        mf_sync_item *item = mf_sync_note(r, MF_SYNC_DAMAGED, it->name);
        if (item == NULL)
            return mf_fail_memory(err);
        damage(r, item, &why);
    }
    return status;
}

bool mf_sync_is_there(const mf_sync_run *r, const char *sha256)
{
    size_t low = 0, high = r->n_con;
    while (low < high) {
        size_t mid = low + (high - low) / 2;
        if (strcmp(r->con[mid].sha256, sha256) < 0)
            low = mid + 1;
        else
            high = mid;
    }
    for (; low < r->n_con && strcmp(r->con[low].sha256, sha256) == 0; low++)
        if (!r->con[low].damaged)
            return true;
    return false;
}

static void tell(const mf_sync_run *r, size_t done)
{
    const mf_watch *watch = r->ask->watch;
    if (watch != NULL && watch->progress != NULL && done % 64 == 0)
        watch->progress("files", (int64_t)done, (int64_t)(r->n_seg + r->n_con), watch->data);
}

bool mf_sync_reads_all(const mf_sync_run *r)
{
    return r->ask->way == MF_SYNC_STATE || r->ask->refill;
}

mf_status mf_sync_called(mf_sync_run *r, mf_status status, mf_err *err)
{
    const mf_err why = r->why;
    r->why = (mf_err){0};
    if (status != MF_OK || why.status == MF_OK)
        return status;
    if (err != NULL)
        *err = why;
    return why.status;
}

static mf_status list(mf_sync_run *r, mf_err *err)
{
    const mf_store *store = r->ask->store;
    const mf_store_listener to = {add, mf_sync_end_told, mf_sync_reads_all(r), r};
    return mf_sync_called(r, store->list(store->data, &to, err), err);
}

/* Of a store that lists no attachments: those that the new segments name. They are held against
 * their hash when they come in. */
static mf_status ask_for_contents(mf_sync_run *r, mf_err *err)
{
    const mf_store *store = r->ask->store;
    mf_status status = MF_OK;
    if (store->contents == NULL || mf_sync_reads_all(r))
        return MF_OK;
    for (size_t i = 0; status == MF_OK && i < r->n_seg; i++) {
        const mf_segment *s = &r->seg[i].s;
        if (s->n_contents > 0)
            status = store->contents(store->data, (const char(*)[MF_HASH_HEX])s->contents,
                                     s->n_contents, add, r, err);
    }
    for (size_t i = 0; i < r->n_con; i++)
        r->con[i].known = true;
    return mf_sync_called(r, status, err);
}

mf_status mf_sync_find(mf_sync_run *r, mf_err *err)
{
    mf_status status = list(r, err);
    sort(r->seg, r->n_seg, sizeof *r->seg, segment_by_name);
    sort(r->con, r->n_con, sizeof *r->con, content_by_name);
    if (status == MF_OK)
        status = recall(r, err);
    sort(r->seg, r->n_seg, sizeof *r->seg, segment_by_chain);
    for (size_t i = 0; status == MF_OK && i < r->n_seg; tell(r, i++))
        status = look_at(r, &r->seg[i], err);
    if (status == MF_OK)
        status = ask_for_contents(r, err);
    sort(r->con, r->n_con, sizeof *r->con, content_by_hash);
    for (size_t i = 0; status == MF_OK && i < r->n_con; tell(r, r->n_seg + i++))
        status = look_at_content(r, &r->con[i], err);
    return status == MF_OK ? mf_sync_ends_withheld(r, err) : status;
}
