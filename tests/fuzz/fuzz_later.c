/* What somebody does to a sealed paper and then seals by a key of their own.
 *
 * The bytes are the objects of the update: the table, the trailer and a right signature
 * are put around them, so that what is made up gets as far as the comparison of the two
 * revisions. "@R" stands for the byte range, "@C" for the signature. Bytes that have a
 * table of their own ("xref") get the signature only.
 * The check promises: where it finds nothing wrong, no object of the sealed paper was
 * written anew but the catalog and the page. */
#include "base/mem.h"
#include "fuzz/fuzz.h"
#include "fuzz/later.h"
#include "seal/cms.h"

#include <ctype.h>
#include <mistfold/seal.h>
#include <stdio.h>
#include <string.h>

enum { OBJECTS = 64, LAST = 8, GAP = 4096, RANGE = 32 };

/* ---- the paper that is sealed already ------------------------------------------------------- */

static const char *const objects[] = {
    "<</Type/Catalog/Pages 2 0 R>>", "<</Type/Pages/Kids[3 0 R]/Count 1>>",
    "<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents 4 0 R>>",
    "<</Length 25>>stream\n0 0 1 rg 10 10 40 30 re f\nendstream", "<</Title(x)>>"};

static void put_objects(mf_buf *out)
{
    size_t at[6];
    mf_buf_text(out, "%PDF-1.4\n");
    for (size_t i = 0; i < 5; i++) {
        at[i] = out->len;
        mf_buf_printf(out, "%zu 0 obj\n%s\nendobj\n", i + 1, objects[i]);
    }
    at[5] = out->len;
    mf_buf_text(out, "xref\n0 6\n0000000000 65535 f \n");
    for (size_t i = 0; i < 5; i++)
        mf_buf_printf(out, "%010zu 00000 n \n", at[i]);
    mf_buf_printf(out, "trailer\n<</Size 6/Root 1 0 R/Info 5 0 R>>\nstartxref\n%zu\n%%%%EOF\n",
                  at[5]);
}

static bool has(const char *text, size_t len, const char *word)
{
    size_t n = strlen(word);
    for (size_t at = 0; at + n <= len; at++)
        if (memcmp(text + at, word, n) == 0)
            return true;
    return false;
}

/* ---- what is put around the bytes ------------------------------------------------------------ */

/* Places in the file; 0: there is none. */
typedef struct holes {
    size_t range_at, gap_at;
} holes;

static holes put_bytes(mf_buf *out, const uint8_t *data, size_t len)
{
    holes at = {0};
    for (size_t i = 0; i < len; i++) {
        bool mark = data[i] == '@' && i + 1 < len;
        if (mark && data[i + 1] == 'R' && at.range_at == 0) {
            at.range_at = out->len;
            mf_buf_printf(out, "[0 %*s]", RANGE, "");
            i++;
        } else if (mark && data[i + 1] == 'C' && at.gap_at == 0) {
            at.gap_at = out->len;
            mf_buf_printf(out, "<%0*d>", GAP, 0);
            i++;
        } else {
            mf_buf_add(out, (const char *)data + i, 1);
        }
    }
    return at;
}

/* The number of an object that begins on this line; 0 when none does. */
static long begins(const char *text)
{
    char *end;
    if (!isdigit((unsigned char)*text))
        return 0;
    long num = strtol(text, &end, 10);
    return strncmp(end, " 0 obj", 6) == 0 && num > 0 && num < 10000 ? num : 0;
}

/* One table of every object on a line of its own. */
static void put_table(mf_buf *out, size_t from, size_t startxref)
{
    long num[OBJECTS], largest = LAST;
    size_t at[OBJECTS], n = 0;
    mf_buf_add(out, "", 1); /* for strtol; taken off again */
    out->len--;
    for (size_t i = from; i < out->len && n < OBJECTS; i++) {
        num[n] = i == from || out->data[i - 1] == '\n' ? begins(out->data + i) : 0;
        if (num[n] == 0)
            continue;
        largest = num[n] > largest ? num[n] : largest;
        at[n++] = i;
    }
    size_t table = out->len;
    mf_buf_text(out, "xref\n");
    for (size_t i = 0; i < n; i++)
        mf_buf_printf(out, "%ld 1\n%010zu 00000 n \n", num[i], at[i]);
    mf_buf_printf(out, "trailer\n<</Size %ld/Root 1 0 R/Info 5 0 R/Prev %zu>>\nstartxref\n%zu\n",
                  largest + 1, startxref, table);
    mf_buf_text(out, "%%EOF\n");
}

static void sign(mf_buf *out, holes at)
{
    char numbers[80];
    mf_bytes cms = {0};
    size_t end = at.gap_at + GAP + 2;
    unsigned char *file = (unsigned char *)out->data;
    snprintf(numbers, sizeof numbers, "%-10zu %-10zu %-10zu", at.gap_at, end, out->len - end);
    memcpy(file + at.range_at + 3, numbers, RANGE);
    const mf_cms_spans spans = {file, file + end, at.gap_at, out->len - end};
    FUZZ_HOLDS(mf_cms_sign(&cms, fuzz_seed_key(), &spans, NULL) == MF_OK);
    FUZZ_HOLDS(cms.len * 2 <= GAP);
    for (size_t i = 0; i < cms.len; i++) {
        file[at.gap_at + 1 + 2 * i] = (unsigned char)"0123456789abcdef"[cms.data[i] >> 4];
        file[at.gap_at + 2 + 2 * i] = (unsigned char)"0123456789abcdef"[cms.data[i] & 15];
    }
    mf_bytes_free(&cms);
}

static size_t last_number(const mf_buf *pdf)
{
    size_t at = pdf->len;
    while (memcmp(pdf->data + at - 10, "startxref\n", 10) != 0)
        at--;
    return (size_t)strtoul(pdf->data + at, NULL, 10);
}

void fuzz_later_add(mf_buf *out, const uint8_t *data, size_t len)
{
    size_t from = out->len, startxref = last_number(out);
    holes at = put_bytes(out, data, len);
    if (!has((const char *)data, len, "xref"))
        put_table(out, from, startxref);
    if (at.range_at != 0 && at.gap_at != 0)
        sign(out, at);
}

static const char first[] =
    "1 0 obj\n<</Type/Catalog/Pages 2 0 R/AcroForm<</Fields [6 0 R]/SigFlags 3>>>>\nendobj\n"
    "3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents 4 0 R/Annots [6 0 R]>>\n"
    "endobj\n6 0 obj\n<</Type/Annot/Subtype/Widget/FT/Sig/T(Seal1)/F 132/Rect[60 60 80 80]/P 3 0 "
    "R/V 8 0 R/AP<</N 7 0 R>>>>\nendobj\n7 0 obj\n<</Type/XObject/Subtype/Form/BBox[0 0 20 20]"
    "/Length 23>>\nstream\n0 1 0 rg 0 0 20 20 re f\nendstream\nendobj\n8 0 obj\n<</Type/Sig/Filter"
    "/Adobe.PPKLite/SubFilter/ETSI.CAdES.detached/ByteRange @R/Contents @C>>\nendobj\n";

void fuzz_later_paper(mf_buf *out)
{
    put_objects(out);
    fuzz_later_add(out, (const uint8_t *)first, sizeof first - 1);
}

/* ---- what is promised -------------------------------------------------------------------------
 */

static bool is_space(char c)
{
    return c == '\0' || strchr(" \t\r\n\f", c) != NULL;
}

/* Whether "N G obj" stands before the word at this place, for a number that the sealed
 * paper has: not read as the check reads it, but from the back, by letters. */
static bool is_anew(const char *text, size_t from, size_t at, long allowed)
{
    for (int part = 0; part < 2; part++) {
        size_t spaces = at;
        while (at > from && is_space(text[at - 1]))
            at--;
        if (spaces == at)
            return false;
        size_t digits = at;
        while (at > from && isdigit((unsigned char)text[at - 1]))
            at--;
        if (digits == at)
            return false;
    }
    long num = strtol(text + at, NULL, 10);
    return num > 0 && num <= LAST && num != 1 && num != allowed;
}

/* Only what stands behind the sealed bytes. */
static void look_at(const mf_buf *file, size_t from)
{
    const char *text = file->data;
    for (size_t at = from; at + 3 <= file->len; at++)
        FUZZ_HOLDS(memcmp(text + at, "obj", 3) != 0 || !is_anew(text, from, at, 3));
}

static mf_buf paper;

static void drop_paper(void)
{
    mf_buf_free(&paper);
}

void fuzz_later(const uint8_t *data, size_t len)
{
    mf_buf file = {0};
    mf_seal_check check;
    mf_err err = {0};
    if (len > 16384)
        return;
    if (paper.data == NULL) {
        fuzz_later_paper(&paper);
        atexit(drop_paper);
    }
    mf_buf_add(&file, paper.data, paper.len);
    fuzz_later_add(&file, data, len);
    mf_status status = mf_seal_verify(&check, (const unsigned char *)file.data, file.len, &err);
    FUZZ_HOLDS(check.n >= 1 || status == MF_INPUT);
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    if (status == MF_OK && file.len > paper.len)
        look_at(&file, paper.len);
    mf_buf_free(&file);
}
