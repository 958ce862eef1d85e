/* entries_kit.h - a phone's file of entries, as a phone writes it and as somebody forges it. */
#ifndef MF_TESTS_ENTRIES_KIT_H
#define MF_TESTS_ENTRIES_KIT_H

#include "journal/entries_file.h"
#include "merge_kit.h"
#include <mistfold/entries.h>

#define PNG                                                                                        \
    "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\b\0\0\0\0invented\0\0\0\0IEND\xAE\x42\x60\x82"

static inline bool kit_sha256(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    (void)data;
    return mf_digest_hex(bytes, len, out);
}

/* A chain being made; what does not stand in it is as the kit has it. */
typedef struct forged {
    mf_buf text;
    mf_entries_heads heads;
    char prev[MF_HASH_HEX];
    int64_t seq;
    const char *device, *at, *who, *job;
} forged;

static inline forged forge(const char *job)
{
    forged f = {.device = "phone", .at = "2026-09-15T14:00:00Z", .who = "rosa", .job = "J-1"};
    mf_hash_copy(f.prev, mf_zero_hash);
    mf_entries_put_first(&f.text, f.at, "", job);
    return f;
}

static inline void forge_add(forged *f, const char *kind, const char *body)
{
    char hash[MF_HASH_HEX];
    mf_buf text = {0};
    const mf_sha256 by = {kit_sha256, NULL};
    mf_line line = {f->device, ++f->seq, f->at, f->who, kind, f->job, body, f->prev, hash};
    assert_int_equal(mf_line_hash(&line, &by, &text, hash, NULL), MF_OK);
    mf_entries_put_line(&f->text, &line);
    assert_true(mf_entries_head_note(&f->heads, &line));
    mf_hash_copy(f->prev, hash);
    mf_buf_free(&text);
}

static inline void forge_end(forged *f)
{
    mf_entries_put_last(&f->text, f->heads.at, f->heads.n);
}

static inline void forge_free(forged *f)
{
    mf_buf_free(&f->text);
    free(f->heads.at);
}

static inline mf_status take(kit *k, const void *bytes, size_t len, mf_entries_report *out)
{
    const mf_entries_ask ask = {.name = "a.entries", .bytes = bytes, .len = len, .now = &k->now};
    k->err = (mf_err){0};
    return mf_book_import_entries(k->book, &ask, out, &k->err);
}

static inline int64_t kit_entries(kit *k)
{
    mf_book_report report;
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    return report.entries;
}

/* The file that a device's book hands over. */
static inline mf_bytes handed(kit *k)
{
    mf_bytes out = {0};
    assert_int_equal(mf_book_export_entries(k->book, "J-1", k->now.at, &out, &k->err), MF_OK);
    return out;
}

#endif
