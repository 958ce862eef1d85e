#include "seal/write.h"

#include "base/fail.h"

#include <mistfold/seal.h>

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

mf_status mf_write_not_followed(mf_err *err, const char *what)
{
    return mf_fail(err, MF_INPUT, "the PDF", what, "the seal is hung into the paper's own objects",
                   "take the PDF as mistfold wrote it");
}

/* An absent or a null entry is no array; anything else that is none is refused. */
bool mf_write_array_or_none(mf_pdf *pdf, mf_tok val)
{
    return val.kind == MF_TOK_ARRAY || val.kind == MF_TOK_END ||
           mf_tok_is_word(&pdf->src, val, "null");
}

void mf_write_old(mf_writer *w)
{
    const unsigned char *data = w->pdf->src.data;
    size_t len = w->pdf->src.len;
    mf_buf_add(w->out, data, len);
    if (data[len - 1] != '\n' && data[len - 1] != '\r')
        mf_buf_text(w->out, "\n");
}

/* --- pieces ----------------------------------------------------------------------- */

void mf_write_begin(mf_writer *w, int64_t num, int64_t gen)
{
    w->obj[w->n++] = (mf_placed){num, gen, w->out->len};
    mf_buf_printf(w->out, "%" PRId64 " %" PRId64 " obj\n", num, gen);
}

void mf_write_end(mf_writer *w)
{
    mf_buf_text(w->out, "\nendobj\n");
}

/* Bytes [at, end) of the old file. */
static void write_span(mf_writer *w, size_t at, size_t end)
{
    mf_buf_add(w->out, w->pdf->src.data + at, end - at);
}

/* Copies the entries of a dictionary, but for the keys that are written anew. */
void mf_write_entries(mf_writer *w, mf_tok dict, const char *skip, const char *skip_too)
{
    mf_pdf_src *src = &w->pdf->src;
    mf_tok key, val;
    if (dict.kind != MF_TOK_DICT)
        return;
    for (size_t at = 0; mf_dict_next(src, dict, &at, &key, &val);) {
        if (val.kind == MF_TOK_BAD)
            return; /* mf_dict_get has refused such a dictionary before */
        if (mf_tok_is_name(src, key, skip) || mf_tok_is_name(src, key, skip_too))
            continue;
        write_span(w, key.at, key.end);
        mf_buf_text(w->out, " ");
        write_span(w, val.at, val.end);
        mf_buf_text(w->out, "\n");
    }
}

/* The old elements of an array and one reference more. */
void mf_write_grown(mf_writer *w, mf_tok array, int64_t num)
{
    mf_buf_text(w->out, "[");
    if (array.kind == MF_TOK_ARRAY)
        write_span(w, array.at + 1, array.end - 1);
    mf_buf_printf(w->out, "\n%" PRId64 " 0 R]", num);
}

/* Hundredths of a point. Not through printf, which follows the locale's comma. */
void mf_write_number(mf_buf *out, float number)
{
    long hundredths = lroundf(number * 100.0F);
    mf_buf_printf(out, "%s%ld.%02ld ", hundredths < 0 ? "-" : "", labs(hundredths) / 100,
                  labs(hundredths) % 100);
}

/* --- the end of the file ------------------------------------------------------------ */

static int compare_placed(const void *left, const void *right)
{
    const mf_placed *a = left, *b = right;
    return a->num < b->num ? -1 : a->num > b->num;
}

static void put_xref(mf_writer *w)
{
    mf_buf_text(w->out, "xref\n");
    qsort(w->obj, (size_t)w->n, sizeof w->obj[0], compare_placed);
    for (int i = 0; i < w->n;) {
        int run = 1;
        while (i + run < w->n && w->obj[i + run].num == w->obj[i].num + run)
            run++;
        mf_buf_printf(w->out, "%" PRId64 " %d\n", w->obj[i].num, run);
        for (; run > 0; run--, i++)
            mf_buf_printf(w->out, "%010zu %05" PRId64 " n\r\n", w->obj[i].offset, w->obj[i].gen);
    }
}

/* The first half of /ID names the paper and stays; the second names this revision.
 * Both come from hashes, so that the same bytes give the same paper. */
static void put_id(mf_writer *w, const char *revision)
{
    mf_tok id = mf_pdf_get(w->pdf, w->pdf->trailer, "ID"), first;
    size_t at = 0;
    mf_buf_text(w->out, "/ID [");
    if (id.kind == MF_TOK_ARRAY && mf_array_next(&w->pdf->src, id, &at, &first) &&
        (first.kind == MF_TOK_HEX || first.kind == MF_TOK_STRING)) {
        write_span(w, first.at, first.end);
    } else {
        char hash[MF_FINGERPRINT_HEX];
        mf_sha256_hex(w->pdf->src.data, w->pdf->src.len, hash);
        mf_buf_printf(w->out, "<%.32s>", hash);
    }
    mf_buf_printf(w->out, " <%.32s>]\n", revision);
}

static void put_trailer(mf_writer *w, int64_t size, size_t xref_at)
{
    mf_pdf *pdf = w->pdf;
    char revision[MF_FINGERPRINT_HEX];
    mf_tok info = mf_dict_get(&pdf->src, pdf->trailer, "Info");
    mf_sha256_hex((const unsigned char *)mf_buf_str(w->out), w->out->len, revision);
    mf_buf_printf(w->out, "trailer\n<<\n/Size %" PRId64 "\n/Root %" PRId64 " %" PRId64 " R\n", size,
                  pdf->root.number, pdf->root.gen);
    if (info.kind == MF_TOK_REF)
        mf_buf_printf(w->out, "/Info %" PRId64 " %" PRId64 " R\n", info.number, info.gen);
    mf_buf_printf(w->out, "/Prev %zu\n", pdf->startxref);
    put_id(w, revision);
    mf_buf_printf(w->out, ">>\nstartxref\n%zu\n%%%%EOF\n", xref_at);
}

void mf_write_tail(mf_writer *w, int64_t size)
{
    size_t xref_at = w->out->len;
    put_xref(w);
    put_trailer(w, size, xref_at);
}
