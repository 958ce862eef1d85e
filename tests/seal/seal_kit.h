/* seal_kit.h - what the seal tests share: invented papers, one key, a scratch
 * folder, and running other people's tools over the result. */
#ifndef MF_TESTS_SEAL_KIT_H
#define MF_TESTS_SEAL_KIT_H

/* cmocka.h wants these four first. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "seal/cert.h"
#include <hpdf.h>
#include <mistfold/seal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define KIT_PASSPHRASE "blue ladder, quiet dust"
#define KIT_TIME       1767225600 /* 2026-01-01 00:00:00 UTC */

/* Writes text over bytes, without a NUL. */
static inline void kit_put(void *to, const char *text, size_t len)
{
    memcpy(to, text, len);
}

/* A paper of so many pages, as libharu writes it. */
static inline mf_bytes kit_paper(int pages)
{
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    assert_non_null(doc);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_SetInfoAttr(doc, HPDF_INFO_TITLE, "Invented paper");
    HPDF_Font font = HPDF_GetFont(doc, "Helvetica", NULL);
    for (int i = 0; i < pages; i++) {
        HPDF_Page page = HPDF_AddPage(doc);
        HPDF_Page_SetFontAndSize(page, font, 14);
        HPDF_Page_BeginText(page);
        HPDF_Page_TextOut(page, 72, 700, "Kitchen, north wall: cleaning verification passed");
        HPDF_Page_EndText(page);
    }
    assert_int_equal(HPDF_SaveToStream(doc), HPDF_OK);
    HPDF_UINT32 size = HPDF_GetStreamSize(doc);
    mf_bytes out = {malloc(size), size};
    assert_non_null(out.data);
    HPDF_ResetStream(doc);
    HPDF_ReadFromStream(doc, out.data, &size);
    assert_int_equal(size, out.len);
    HPDF_Free(doc);
    return out;
}

/* A fresh key for an invented holder, made and opened quickly. */
static inline mf_key *kit_key(void)
{
    mf_bytes p12 = {0};
    mf_key *key = NULL;
    mf_key_holder holder = {"Ottoline Fernbrake", "Fernbrake Invented Renovation",
                            "certified renovator", 400};
    assert_int_equal(mf_key_make_rounds(&p12, &holder, KIT_PASSPHRASE, 1000, NULL), MF_OK);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, KIT_PASSPHRASE, NULL), MF_OK);
    mf_bytes_free(&p12);
    return key;
}

static inline mf_seal_ask kit_ask(const mf_key *key)
{
    return (mf_seal_ask){.key = key,
                         .reason = "Renovation record (final)",
                         .location = "Saint-H\xc3\xa9lier",
                         .signed_at = KIT_TIME,
                         .place = {1, 72, 72, 200, 40}};
}

/* The paper with one seal more; frees the one given. */
static inline mf_bytes kit_seal(mf_bytes pdf, const mf_key *key)
{
    mf_bytes out = {0};
    mf_err err = {0};
    mf_seal_ask ask = kit_ask(key);
    if (mf_seal_sign(&out, pdf.data, pdf.len, &ask, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    mf_bytes_free(&pdf);
    return out;
}

/* Where text first stands in bytes at or after from; fails the test when nowhere. */
static inline size_t kit_find(mf_bytes in, const char *text, size_t from)
{
    size_t len = strlen(text);
    for (size_t at = from; at + len <= in.len; at++) {
        if (memcmp(in.data + at, text, len) == 0)
            return at;
    }
    fail_msg("not found: %s", text);
    return 0;
}

static inline mf_bytes kit_copy(mf_bytes in)
{
    mf_bytes out = {malloc(in.len + 1), in.len};
    assert_non_null(out.data);
    memcpy(out.data, in.data, in.len);
    return out;
}

/* The bytes with more behind them; frees the ones given. */
static inline mf_bytes kit_append(mf_bytes in, const char *more)
{
    size_t len = strlen(more);
    unsigned char *grown = realloc(in.data, in.len + len + 1);
    assert_non_null(grown);
    memcpy(grown + in.len, more, len);
    return (mf_bytes){grown, in.len + len};
}

static inline mf_status kit_verify(mf_seal_check *check, mf_bytes pdf)
{
    return mf_seal_verify(check, pdf.data, pdf.len, NULL);
}

/* A PDF of these objects, numbered from 1 and written as given, with a classic
 * table. In the trailer's entries "@" stands for where the table begins. */
static inline mf_bytes kit_objects(const char *const *object, int n, const char *trailer)
{
    mf_bytes out = kit_append((mf_bytes){0}, "%PDF-1.4\n");
    size_t *offset = calloc((size_t)n + 1, sizeof *offset);
    char line[64];
    assert_non_null(offset);
    for (int i = 0; i < n; i++) {
        offset[i] = out.len;
        snprintf(line, sizeof line, "%d 0 obj\n", i + 1);
        out = kit_append(kit_append(kit_append(out, line), object[i]), "\nendobj\n");
    }
    size_t xref_at = out.len;
    snprintf(line, sizeof line, "xref\n0 %d\n0000000000 65535 f \n", n + 1);
    out = kit_append(out, line);
    for (int i = 0; i < n; i++) {
        snprintf(line, sizeof line, "%010zu 00000 n \n", offset[i]);
        out = kit_append(out, line);
    }
    free(offset);
    out = kit_append(out, "trailer\n<<");
    for (; *trailer != '\0'; trailer++) {
        if (*trailer == '@')
            snprintf(line, sizeof line, "%zu", xref_at);
        else
            snprintf(line, sizeof line, "%c", *trailer);
        out = kit_append(out, line);
    }
    snprintf(line, sizeof line, ">>\nstartxref\n%zu\n%%%%EOF\n", xref_at);
    return kit_append(out, line);
}

/* --- files and tools ---------------------------------------------------------- */

static inline void kit_write(const char *dir, const char *name, const void *data, size_t len)
{
    char path[256];
    snprintf(path, sizeof path, "%s/%s", dir, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(data, 1, len, file), len);
    assert_int_equal(fclose(file), 0);
}

/* What a command line prints, both streams, cut to size. Runs in dir. */
static inline int kit_run(const char *dir, const char *command, char *out, size_t size)
{
    char line[1024];
    int n = snprintf(line, sizeof line, "cd '%s' && { %s; } 2>&1", dir, command);
    assert_true(n > 0 && (size_t)n < sizeof line);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    size_t len = fread(out, 1, size - 1, pipe);
    out[len] = '\0';
    return pclose(pipe);
}

static inline bool kit_has_tool(const char *tool)
{
    char command[128], out[256];
    snprintf(command, sizeof command, "command -v %s", tool);
    return kit_run("/", command, out, sizeof out) == 0;
}

#endif
