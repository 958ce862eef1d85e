/* entries_write.c - writing the lines of entries_file.h. */
#include "base/base64.h"
#include "journal/entries_file.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void mf_entries_put_first(mf_buf *out, const char *at, const char *head, const char *job)
{
    mf_json_key(out, "{\"at\":", at);
    mf_buf_printf(out, ",\"entries\":%d", MF_ENTRIES_FORMAT);
    mf_json_key(out, ",\"head\":", head);
    mf_json_key(out, ",\"job\":", job);
    mf_buf_text(out, "}\n");
}

static void put_heads(mf_buf *out, const mf_entries_head *heads, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        mf_json_key(out, i == 0 ? "{\"device\":" : ",{\"device\":", heads[i].device);
        mf_json_key(out, ",\"hash\":", heads[i].hash);
        mf_buf_text(out, ",\"seq\":");
        mf_buf_number(out, heads[i].seq);
        mf_buf_text(out, "}");
    }
}

static void put_texts(mf_buf *out, const char *key, const char *const *texts, size_t n)
{
    mf_buf_text(out, key);
    for (size_t i = 0; i < n; i++)
        mf_json_key(out, i == 0 ? "" : ",", texts[i]);
}

void mf_entries_put_segment(mf_buf *out, const mf_entries_first *first)
{
    mf_json_key(out, "{\"at\":", first->at);
    mf_buf_printf(out, ",\"entries\":%d", MF_ENTRIES_FORMAT);
    mf_json_key(out, ",\"head\":", first->head);
    mf_buf_text(out, ",\"job\":\"\",\"needs\":[");
    put_heads(out, first->needs, first->n_needs);
    put_texts(out, "],\"signed\":[", first->by, first->n_by);
    put_texts(out, "],\"writer\":[", first->writer, first->writer[0] == NULL ? 0 : 3);
    mf_buf_text(out, "]}\n");
}

void mf_entries_put_line(mf_buf *out, const mf_line *line)
{
    mf_json_key(out, "{\"hash\":", line->hash);
    mf_buf_text(out, ",\"line\":");
    mf_line_text(out, line);
    mf_buf_text(out, "}\n");
}

void mf_entries_put_content(mf_buf *out, const char *sha256, const void *bytes, size_t len)
{
    mf_json_key(out, "{\"attachment\":", sha256);
    mf_buf_text(out, ",\"base64\":\"");
    mf_base64_put(out, bytes, len);
    mf_buf_text(out, "\"}\n");
}

static int by_device(const void *a, const void *b)
{
    return strcmp(((const mf_entries_head *)a)->device, ((const mf_entries_head *)b)->device);
}

void mf_entries_heads_sort(mf_entries_head *heads, size_t n)
{
    if (n > 0)
        qsort(heads, n, sizeof *heads, by_device);
}

void mf_entries_put_last(mf_buf *out, mf_entries_head *heads, size_t n)
{
    mf_entries_heads_sort(heads, n);
    mf_buf_text(out, "{\"heads\":[");
    put_heads(out, heads, n);
    mf_buf_text(out, "]}\n");
}

/* ---- the last entries ------------------------------------------------------------------- */

mf_entries_head *mf_entries_head_of(const mf_entries_heads *heads, const char *device)
{
    for (size_t i = 0; i < heads->n; i++)
        if (strcmp(heads->at[i].device, device) == 0)
            return &heads->at[i];
    return NULL;
}

bool mf_entries_head_note(mf_entries_heads *heads, const mf_line *line)
{
    mf_entries_head *it = mf_entries_head_of(heads, line->device);
    if (it == NULL) {
        mf_entries_head *grown = mf_grown(heads->at, heads->n, &heads->cap, sizeof *grown);
        if (grown == NULL)
            return false;
        heads->at = grown;
        it = &grown[heads->n++];
        snprintf(it->device, sizeof it->device, "%s", line->device);
    }
    it->seq = line->seq;
    mf_hash_copy(it->hash, line->hash);
    return true;
}
