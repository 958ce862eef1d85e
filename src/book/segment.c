/* segment.c - writing a piece of a chain and reading it back (mistfold/segment.h). */
#include "base/digest.h"
#include "base/fail.h"
#include "base/hex.h"
#include "book/attach.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include "book/make.h"
#include "book/signed.h"
#include "journal/entries_file.h"
#include <mistfold/segment.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define AGAIN "have it written anew by a device that has these entries; nothing was taken over"

/* ---- what a writer signs -------------------------------------------------------------------- */

enum { SIGNED_TEXT = 100 };

static void add_need(mf_buf *out, const char *device, int64_t seq, const char *hash)
{
    mf_buf_printf(out, "%s %lld %s\n", device, (long long)seq, hash);
}

/* What it knew of other devices, and all lines behind the first. */
static mf_status text_of(const mf_buf *needs, const char *lines, size_t len, char out[SIGNED_TEXT],
                         mf_err *err)
{
    char sha256[MF_DIGEST_HEX];
    mf_digest *digest = needs->failed ? NULL : mf_digest_begin();
    bool good = digest != NULL && mf_digest_add(digest, mf_buf_str(needs), needs->len) &&
                mf_digest_add(digest, lines, len);
    good = digest != NULL && mf_digest_end(digest, sha256) && good;
    if (!good)
        return mf_fail_memory(err);
    snprintf(out, SIGNED_TEXT, "mistfold segment\n%s\n", sha256);
    return MF_OK;
}

/* ---- writing --------------------------------------------------------------------------- */

typedef struct giving {
    mf_book *book;
    const char *device;
    int64_t from;
    mf_entries_heads needs, ends;
    const char **by; /* signatures of the device, in arena */
    size_t n_by, cap_by;
    mf_arena arena;
    mf_buf lines, out;
} giving;

static bool note_head(const char *device, int64_t seq, const char *hash, void *data)
{
    giving *g = data;
    mf_line line = {.device = device, .seq = seq, .hash = hash};
    g->out.failed = g->out.failed ||
                    (strcmp(device, g->device) != 0 && !mf_entries_head_note(&g->needs, &line));
    return !g->out.failed;
}

static mf_status read_signed(giving *g, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &g->book->db,
                                   "SELECT key || ' ' || value FROM meta WHERE"
                                   " key >= 'signed ' || ?1 || ' ' AND key < 'signed ' || ?1 || '!'"
                                   " ORDER BY key",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, g->device);
    while (mf_stmt_next(&stmt, &status, err)) {
        const char **grown = mf_grown(g->by, g->n_by, &g->cap_by, sizeof *grown);
        if (grown != NULL)
            g->by = grown;
        if (grown == NULL ||
            (grown[g->n_by++] = mf_arena_text(&g->arena, mf_stmt_column(&stmt, 0))) == NULL)
            status = mf_fail_memory(err);
    }
    mf_stmt_done(&stmt);
    return status;
}

static mf_status put_one(giving *g, mf_stmt *stmt, mf_err *err)
{
    mf_line line = mf_line_of_row(stmt);
    mf_status status = mf_line_as_logged(g->book, stmt, &line, err);
    if (status != MF_OK)
        return status;
    mf_entries_put_line(&g->lines, &line);
    return mf_entries_head_note(&g->ends, &line) ? MF_OK : mf_fail_memory(err);
}

static mf_status put_lines(giving *g, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, &g->book->db, MF_LINE_SELECT " WHERE device = ?1 AND seq >= ?2 ORDER BY seq", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, g->device);
    mf_stmt_int(&stmt, 2, g->from);
    while (mf_stmt_next(&stmt, &status, err))
        status = put_one(g, &stmt, err);
    mf_stmt_done(&stmt);
    if (status == MF_OK && g->ends.n == 0)
        return mf_failf(err, MF_INPUT, g->book->db.name, "", "look at: mistfold book head",
                        "there is no entry %.16s/%lld", g->device, (long long)g->from);
    if (status == MF_OK)
        mf_entries_put_last(&g->lines, g->ends.at, g->ends.n);
    return status;
}

/* By the key of this device, if its own chain names one. */
static mf_status sign(giving *g, char key[MF_SIGN_KEY_HEX], char by[MF_SIGN_HEX], mf_err *err)
{
    char text[SIGNED_TEXT];
    mf_buf needs = {0};
    mf_book *book = g->book;
    mf_status status = mf_last_key(&book->db, book->device, key, err);
    if (status != MF_OK || key[0] == '\0')
        return status;
    for (size_t i = 0; i < g->needs.n; i++)
        add_need(&needs, g->needs.at[i].device, g->needs.at[i].seq, g->needs.at[i].hash);
    status = mf_device_key_open(book, key, err);
    if (status == MF_OK)
        status = text_of(&needs, mf_buf_str(&g->lines), g->lines.len, text, err);
    mf_buf_free(&needs);
    return status == MF_OK && !mf_sign(book->signer, text, by) ? mf_fail_memory(err) : status;
}

static mf_status put_all(giving *g, const char *at, mf_err *err)
{
    char head[MF_HASH_HEX], key[MF_SIGN_KEY_HEX], by[MF_SIGN_HEX];
    mf_status status = mf_book_head(g->book, head, err);
    if (status == MF_OK)
        status = mf_book_heads(g->book, note_head, g, err);
    if (status == MF_OK)
        status = read_signed(g, err);
    if (status == MF_OK)
        status = put_lines(g, err);
    if (status == MF_OK && (g->lines.failed || g->out.failed))
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = sign(g, key, by, err);
    if (status != MF_OK)
        return status;
    mf_entries_first first = {at, head, g->needs.at, g->needs.n, g->by, g->n_by, {NULL}};
    if (key[0] != '\0') {
        first.writer[0] = g->book->device;
        first.writer[1] = key;
        first.writer[2] = by;
    }
    mf_entries_put_segment(&g->out, &first);
    mf_buf_add(&g->out, mf_buf_str(&g->lines), g->lines.len);
    return g->out.failed ? mf_fail_memory(err) : MF_OK;
}

MF_API mf_status mf_book_segment(mf_book *book, const char *device, int64_t from, const char *at,
                                 mf_bytes *out, mf_err *err)
{
    bool own = false;
    giving g = {.book = book, .device = device, .from = from};
    mf_status status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = put_all(&g, at, err);
    mf_snapshot_end(own, book);
    if (status == MF_OK && g.out.len > MF_ENTRIES_FILE_MAX)
        status = mf_fail(err, MF_INPUT, device, "its chain is too long for one segment",
                         "256 MiB are read", "take the book there by \"book copy\"");
    if (status == MF_OK)
        mf_buf_take(&g.out, out);
    mf_buf_free(&g.lines);
    mf_buf_free(&g.out);
    free(g.needs.at);
    free(g.ends.at);
    free(g.by);
    mf_arena_free(&g.arena);
    return status;
}

/* ---- reading --------------------------------------------------------------------------- */

static mf_status refuse(const char *name, const char *what, mf_err *err)
{
    return mf_fail(err, MF_INPUT, name, what, "a segment is never changed", AGAIN);
}

static bool read_need(const json_t *json, mf_segment_head *out)
{
    const char *device = mf_json_string_of(json, "device"), *hash = mf_json_string_of(json, "hash");
    out->seq = json_integer_value(json_object_get(json, "seq"));
    snprintf(out->device, sizeof out->device, "%s", device);
    mf_hash_copy(out->hash, hash);
    return mf_is_device(device) && mf_hex_is(hash, MF_HASH_HEX - 1) && out->seq > 0;
}

static mf_status read_needs(mf_segment *s, const char *name, const json_t *first, mf_err *err)
{
    const json_t *list = json_object_get(first, "needs");
    size_t n = json_array_size(list);
    if (!json_is_array(list) || !json_is_array(json_object_get(first, "signed")))
        return refuse(name, "its first line does not say what its writer knew", err);
    s->needs = calloc(n + 1, sizeof *s->needs);
    if (s->needs == NULL)
        return mf_fail_memory(err);
    for (; s->n_needs < n; s->n_needs++)
        if (!read_need(json_array_get(list, s->n_needs), &s->needs[s->n_needs]))
            return refuse(name, "its first line names an entry that is none", err);
    return MF_OK;
}

/* The first line says who signed the lines behind it; what does not hold is not believed. */
static mf_status read_writer(mf_segment *s, const mf_entries_reader *r, mf_err *err)
{
    char text[SIGNED_TEXT];
    mf_buf needs = {0};
    const json_t *list = json_object_get(r->first, "writer");
    const char *device = json_string_value(json_array_get(list, 0));
    const char *key = json_string_value(json_array_get(list, 1));
    const char *by = json_string_value(json_array_get(list, 2));
    if (device == NULL || key == NULL || by == NULL || !mf_is_device(device))
        return MF_OK;
    for (size_t i = 0; i < s->n_needs; i++)
        add_need(&needs, s->needs[i].device, s->needs[i].seq, s->needs[i].hash);
    mf_status status = text_of(&needs, r->text + r->at, r->len - r->at, text, err);
    mf_buf_free(&needs);
    if (status == MF_OK && mf_sign_holds(key, text, by)) {
        snprintf(s->writer, sizeof s->writer, "%s", device);
        snprintf(s->writer_key, sizeof s->writer_key, "%s", key);
    }
    return status;
}

static mf_status note_content(mf_segment *s, size_t *cap, const mf_line *line, mf_err *err)
{
    mf_body body = {.text = line->body};
    if (strcmp(line->kind, MF_KIND_ATTACHMENT) != 0)
        return MF_OK;
    mf_status status = mf_body_tree(&body, err);
    void *grown = status == MF_OK ? mf_grown(s->contents, s->n_contents, cap, MF_HASH_HEX) : NULL;
    if (grown != NULL) {
        s->contents = grown;
        snprintf(s->contents[s->n_contents++], MF_HASH_HEX, "%s",
                 mf_json_string_of(body.tree, "sha256"));
    }
    mf_body_free(&body);
    return status == MF_OK && grown == NULL ? mf_fail_memory(err) : status;
}

/* All of one chain, none left out. */
static mf_status note_line(mf_segment *s, const char *name, const mf_line *line, mf_err *err)
{
    if (s->to == 0) {
        snprintf(s->device, sizeof s->device, "%s", line->device);
        s->from = line->seq;
        mf_hash_copy(s->prev, line->prev);
    } else if (strcmp(s->device, line->device) != 0 || line->seq != s->to + 1) {
        return refuse(name, "its entries are not of one chain, one after another", err);
    }
    s->to = line->seq;
    mf_hash_copy(s->hash, line->hash);
    if (strcmp(line->at, s->latest) > 0)
        snprintf(s->latest, sizeof s->latest, "%s", line->at);
    return MF_OK;
}

static mf_status read_all(mf_entries_reader *r, mf_segment *s, mf_err *err)
{
    size_t cap = 0;
    mf_entries_part part = MF_PART_LINE;
    mf_status status = r->job != NULL && r->job[0] == '\0'
                           ? read_needs(s, r->name, r->first, err)
                           : refuse(r->name, "it is not a segment of a chain", err);
    if (status == MF_OK)
        status = read_writer(s, r, err);
    while (status == MF_OK && part != MF_PART_END) {
        status = mf_entries_file_next(r, &part, err);
        if (status == MF_OK && part == MF_PART_CONTENT)
            status = refuse(r->name, "bytes of an attachment stand in it", err);
        if (status == MF_OK && part == MF_PART_LINE)
            status = note_line(s, r->name, &r->line, err);
        if (status == MF_OK && part == MF_PART_LINE)
            status = note_content(s, &cap, &r->line, err);
    }
    if (status == MF_OK && (r->cut || s->to == 0))
        status = refuse(r->name, "it was cut off", err);
    return status;
}

MF_API mf_status mf_segment_read(const char *name, const void *bytes, size_t len, mf_segment *out,
                                 mf_err *err)
{
    mf_digest *sha256 = mf_digest_begin();
    const mf_sha256 by = {mf_digest_of, sha256};
    mf_entries_reader r = {0};
    *out = (mf_segment){.from = 0};
    mf_status status = sha256 == NULL ? mf_fail_memory(err)
                                      : mf_entries_file_begin(&r, name, bytes, len, &by, err);
    if (status == MF_OK)
        status = read_all(&r, out, err);
    mf_entries_file_free(&r);
    mf_digest_end(sha256, NULL);
    return status;
}

MF_API void mf_segment_free(mf_segment *segment)
{
    free(segment->needs);
    free(segment->contents);
    *segment = (mf_segment){.from = 0};
}
