/* entries_read.c - reading the lines of entries_file.h. Nothing in them is believed: a line
 * is what gives its hash when it is written anew. */
#include "base/base64.h"
#include "base/fail.h"
#include "base/hex.h"
#include "journal/entries_file.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define AGAIN "take it from where it was made once more; nothing was taken over"

static mf_status refuse(const mf_entries_reader *r, const char *what, mf_err *err)
{
    char where[160];
    snprintf(where, sizeof where, "%.120s:%lld", r->name, (long long)r->n);
    return mf_fail(err, MF_INPUT, where, what, "a file of entries is never edited", AGAIN);
}

/* ---- a line of the text ------------------------------------------------------------------ */

typedef struct piece {
    const char *text;
    size_t len;
} piece;

/* The next line without its end; false when there is no whole one left. */
static bool next_line(mf_entries_reader *r, piece *out)
{
    const char *from = r->text + r->at;
    const char *end = r->at < r->len ? memchr(from, '\n', r->len - r->at) : NULL;
    if (end == NULL)
        return false;
    *out = (piece){from, (size_t)(end - from)};
    r->at += out->len + 1;
    r->n++;
    return true;
}

/* Takes a fixed text off the front or the end. */
static bool take_front(piece *p, const char *text)
{
    size_t len = strlen(text);
    if (p->len < len || memcmp(p->text, text, len) != 0)
        return false;
    p->text += len;
    p->len -= len;
    return true;
}

static bool take_end(piece *p, const char *text)
{
    size_t len = strlen(text);
    if (p->len < len || memcmp(p->text + p->len - len, text, len) != 0)
        return false;
    p->len -= len;
    return true;
}

/* 64 hexadecimal digits. */
static bool take_hash(piece *p, char out[MF_HASH_HEX])
{
    if (p->len < MF_HASH_HEX - 1)
        return false;
    memcpy(out, p->text, MF_HASH_HEX - 1);
    out[MF_HASH_HEX - 1] = '\0';
    p->text += MF_HASH_HEX - 1;
    p->len -= MF_HASH_HEX - 1;
    return mf_hex_is(out, MF_HASH_HEX - 1);
}

static mf_status parse(json_t **out, const piece *p, mf_err *err)
{
    mf_err why = {0};
    *out = mf_json_parse(p->text, p->len, &why);
    return why.status == MF_SYSTEM ? mf_fail_memory(err) : MF_OK;
}

/* ---- the first line ----------------------------------------------------------------------- */

static mf_status no_first(const mf_entries_reader *r, mf_err *err)
{
    return mf_fail(err, MF_INPUT, r->name, "it is not a file of entries",
                   "its first line says so and names a job",
                   "give a file that \"entry export\" or the field page wrote");
}

static mf_status newer(const mf_entries_reader *r, json_int_t format, mf_err *err)
{
    return mf_failf(err, MF_INPUT, r->name, "a newer version of this program wrote it",
                    "use that version", "it is a file of entries in form %lld, which is not known",
                    (long long)format);
}

static mf_status read_first(mf_entries_reader *r, const json_t *tree, mf_err *err)
{
    const char *at = json_string_value(json_object_get(tree, "at"));
    const char *head = json_string_value(json_object_get(tree, "head"));
    const char *job = json_string_value(json_object_get(tree, "job"));
    const json_t *format = json_object_get(tree, "entries");
    if (!json_is_integer(format) || at == NULL || head == NULL || job == NULL)
        return no_first(r, err);
    if (json_integer_value(format) != MF_ENTRIES_FORMAT)
        return newer(r, json_integer_value(format), err);
    r->made = mf_arena_text(&r->arena, at);
    r->from = mf_arena_text(&r->arena, head);
    r->job = mf_arena_text(&r->arena, job);
    return r->made != NULL && r->from != NULL && r->job != NULL ? MF_OK : mf_fail_memory(err);
}

mf_status mf_entries_file_begin(mf_entries_reader *r, const char *name, const char *text,
                                size_t len, const mf_sha256 *by, mf_err *err)
{
    piece first;
    json_t *tree = NULL;
    *r = (mf_entries_reader){.name = name, .by = by, .text = text, .len = len};
    if (!next_line(r, &first))
        return no_first(r, err);
    mf_status status = parse(&tree, &first, err);
    if (status == MF_OK)
        status = read_first(r, tree, err);
    r->first = tree;
    return status;
}

void mf_entries_file_free(mf_entries_reader *r)
{
    json_decref(r->tree);
    json_decref(r->first);
    mf_bytes_free(&r->bytes);
    mf_buf_free(&r->body);
    mf_buf_free(&r->canonical);
    mf_arena_free(&r->arena);
    free(r->heads.at);
    *r = (mf_entries_reader){0};
}

/* ---- an entry -------------------------------------------------------------------------------- */

/* Its members, NULL what is none; the body as canonical text. */
static bool fill(mf_entries_reader *r)
{
    const json_t *tree = r->tree, *body = json_object_get(tree, "body");
    const json_t *seq = json_object_get(tree, "seq");
    mf_buf_clear(&r->body);
    if (json_object_size(tree) != 8 || !json_is_object(body) || !json_is_integer(seq) ||
        json_integer_value(seq) < 1 || !mf_json_canonical(&r->body, body))
        return false;
    r->line = (mf_line){.device = json_string_value(json_object_get(tree, "device")),
                        .seq = json_integer_value(seq),
                        .at = json_string_value(json_object_get(tree, "at")),
                        .who = json_string_value(json_object_get(tree, "who")),
                        .kind = json_string_value(json_object_get(tree, "kind")),
                        .job = json_string_value(json_object_get(tree, "job")),
                        .body = mf_buf_str(&r->body),
                        .prev = json_string_value(json_object_get(tree, "prev")),
                        .hash = r->hash};
    const mf_line *l = &r->line;
    return l->device != NULL && strlen(l->device) <= MF_DEVICE_MAX && l->at != NULL &&
           l->who != NULL && l->kind != NULL && l->job != NULL && l->prev != NULL &&
           mf_hex_is(l->prev, MF_HASH_HEX - 1);
}

/* Its place behind the one of the device before it. */
static mf_status follow(mf_entries_reader *r, mf_err *err)
{
    const mf_line *l = &r->line;
    const mf_entries_head *last = mf_entries_head_of(&r->heads, l->device);
    if (last != NULL && l->seq <= last->seq)
        return refuse(r, "the entries of a device do not stand in their order", err);
    if (l->seq == 1 ? strcmp(l->prev, mf_zero_hash) != 0
                    : last != NULL && l->seq == last->seq + 1 && strcmp(l->prev, last->hash) != 0)
        return refuse(r, "this entry does not name the hash of the one before it", err);
    return mf_entries_head_note(&r->heads, l) ? MF_OK : mf_fail_memory(err);
}

static mf_status read_entry(mf_entries_reader *r, piece p, mf_err *err)
{
    char hash[MF_HASH_HEX];
    bool form = take_hash(&p, r->hash) && take_front(&p, "\",\"line\":") && take_end(&p, "}");
    json_decref(r->tree);
    r->tree = NULL;
    mf_status status = form ? parse(&r->tree, &p, err) : MF_OK;
    if (status != MF_OK)
        return status;
    if (!form || !fill(r))
        return r->body.failed ? mf_fail_memory(err)
                              : refuse(r, "this line is not an entry and its hash", err);
    status = mf_line_hash(&r->line, r->by, &r->canonical, hash, err);
    if (status != MF_OK)
        return status;
    if (strcmp(hash, r->hash) != 0 || r->canonical.len != p.len ||
        memcmp(r->canonical.data, p.text, p.len) != 0)
        return refuse(r, "this entry was altered: its text does not give its hash", err);
    return follow(r, err);
}

/* ---- the bytes of an attachment ----------------------------------------------------------- */

static mf_status decode(mf_entries_reader *r, const piece *p, mf_err *err)
{
    char hash[MF_HASH_HEX];
    mf_buf text = {0};
    mf_buf_add(&text, p->text, p->len);
    bool good = !text.failed && memchr(p->text, '\0', p->len) == NULL &&
                mf_base64_get(&r->bytes, mf_buf_str(&text));
    bool failed = text.failed;
    mf_buf_free(&text);
    if (failed || (good && !r->by->hash(r->by->data, r->bytes.data, r->bytes.len, hash)))
        return mf_fail_memory(err);
    if (!good || strcmp(hash, r->sha256) != 0)
        return refuse(r, "this attachment was altered: its bytes do not give its SHA-256", err);
    return MF_OK;
}

static mf_status read_content(mf_entries_reader *r, piece p, mf_err *err)
{
    if (!take_hash(&p, r->sha256) || !take_front(&p, "\",\"base64\":\"") || !take_end(&p, "\"}"))
        return refuse(r, "this line is not an attachment and its SHA-256", err);
    return r->without_bytes ? MF_OK : decode(r, &p, err);
}

/* ---- the last line ------------------------------------------------------------------------ */

/* It says of every device what its last entry here is: it is compared as it would be written. */
static mf_status read_last(mf_entries_reader *r, const piece *p, mf_err *err)
{
    mf_buf text = {0};
    mf_entries_put_last(&text, r->heads.at, r->heads.n);
    mf_status status = text.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK && (text.len != p->len + 1 || memcmp(text.data, p->text, p->len) != 0))
        status = refuse(r, "its last line does not name the last entries in front of it", err);
    else if (status == MF_OK && r->at < r->len)
        status = refuse(r, "something stands behind its last line", err);
    mf_buf_free(&text);
    r->ended = status == MF_OK;
    return status;
}

mf_status mf_entries_file_next(mf_entries_reader *r, mf_entries_part *part, mf_err *err)
{
    piece p, whole;
    *part = MF_PART_END;
    mf_bytes_free(&r->bytes);
    if (r->ended || !next_line(r, &p)) {
        r->cut = !r->ended;
        return MF_OK;
    }
    whole = p;
    if (take_front(&p, "{\"hash\":\"")) {
        *part = MF_PART_LINE;
        return read_entry(r, p, err);
    }
    if (take_front(&p, "{\"attachment\":\"")) {
        *part = MF_PART_CONTENT;
        return read_content(r, p, err);
    }
    if (take_front(&p, "{\"heads\":"))
        return read_last(r, &whole, err);
    return refuse(r, "this line is nothing that a file of entries has", err);
}
