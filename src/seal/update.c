#include "seal/update.h"

#include "base/fail.h"
#include "seal/pdfpage.h"
#include "seal/text.h"
#include "seal/when.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Enough for a key's certificate with room to spare; a self-made one takes 1 KiB. */
#define RESERVED ((size_t)16384)
/* Width of each number in /ByteRange: files are at most 1 GiB. */
#define RANGE_WIDTH 10
#define COORD_MAX   14400.0F /* the largest page, ISO 32000-1, Annex C */
#define OBJECTS     5

/* One object of the update and where it was written. */
typedef struct placed {
    int64_t num, gen;
    size_t offset;
} placed;

typedef struct writer {
    mf_buf *out;
    mf_pdf *pdf;
    const mf_seal_ask *ask;
    mf_tok page; /* the reference */
    placed obj[OBJECTS];
    int n;
    int64_t field, look, sig; /* object numbers */
    int earlier;
    size_t range_at; /* where the numbers of /ByteRange go */
    size_t gap_at, gap_end;
} writer;

static mf_status not_followed(mf_err *err, const char *what)
{
    return mf_fail(err, MF_INPUT, "the PDF", what, "the seal is hung into the paper's own objects",
                   "take the PDF as mistfold wrote it");
}

/* --- pieces ----------------------------------------------------------------------- */

static void begin_object(writer *w, int64_t num, int64_t gen)
{
    w->obj[w->n++] = (placed){num, gen, w->out->len};
    mf_buf_printf(w->out, "%" PRId64 " %" PRId64 " obj\n", num, gen);
}

static void end_object(writer *w)
{
    mf_buf_text(w->out, "\nendobj\n");
}

static void put_span(writer *w, size_t at, size_t end)
{
    mf_buf_add(w->out, w->pdf->src.data + at, end - at);
}

/* Copies the entries of a dictionary, but for the keys that are written anew. */
static void copy_entries(writer *w, mf_tok dict, const char *skip, const char *skip_too)
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
        put_span(w, key.at, key.end);
        mf_buf_text(w->out, " ");
        put_span(w, val.at, val.end);
        mf_buf_text(w->out, "\n");
    }
}

/* The old elements of an array and one reference more. */
static void put_grown_array(writer *w, mf_tok array, int64_t num)
{
    mf_buf_text(w->out, "[");
    if (array.kind == MF_TOK_ARRAY)
        put_span(w, array.at + 1, array.end - 1);
    mf_buf_printf(w->out, "\n%" PRId64 " 0 R]", num);
}

/* Hundredths of a point. Not through printf, which follows the locale's comma. */
static void put_number(mf_buf *out, float number)
{
    long hundredths = lroundf(number * 100.0F);
    mf_buf_printf(out, "%s%ld.%02ld ", hundredths < 0 ? "-" : "", labs(hundredths) / 100,
                  labs(hundredths) % 100);
}

static void put_box(mf_buf *out, float x, float y, float w, float h)
{
    mf_buf_text(out, "[");
    put_number(out, x);
    put_number(out, y);
    put_number(out, x + w);
    put_number(out, y + h);
    mf_buf_text(out, "]");
}

/* --- the objects -------------------------------------------------------------------- */

/* An absent or a null entry is no array; anything else that is none is refused. */
static bool is_array_or_none(mf_pdf *pdf, mf_tok val)
{
    return val.kind == MF_TOK_ARRAY || val.kind == MF_TOK_END ||
           mf_tok_is_word(&pdf->src, val, "null");
}

static mf_status put_catalog(writer *w, mf_err *err)
{
    mf_pdf *pdf = w->pdf;
    mf_tok catalog = mf_pdf_object(pdf, pdf->root);
    mf_tok form = mf_pdf_get(pdf, catalog, "AcroForm");
    mf_tok fields = mf_pdf_get(pdf, form, "Fields");
    bool no_form = form.kind == MF_TOK_END || mf_tok_is_word(&pdf->src, form, "null");
    if ((form.kind != MF_TOK_DICT && !no_form) || !is_array_or_none(pdf, fields))
        return not_followed(err, "its form fields cannot be read");
    begin_object(w, pdf->root.number, pdf->root.gen);
    mf_buf_text(w->out, "<<\n");
    copy_entries(w, catalog, "AcroForm", "AcroForm");
    mf_buf_text(w->out, "/AcroForm <<\n");
    copy_entries(w, form, "Fields", "SigFlags");
    mf_buf_text(w->out, "/Fields ");
    put_grown_array(w, fields, w->field);
    mf_buf_text(w->out, "\n/SigFlags 3\n>>\n>>");
    end_object(w);
    return MF_OK;
}

static mf_status put_page(writer *w, mf_err *err)
{
    mf_pdf *pdf = w->pdf;
    mf_tok page = mf_pdf_object(pdf, w->page);
    mf_tok annots = mf_pdf_get(pdf, page, "Annots");
    if (page.kind != MF_TOK_DICT || !is_array_or_none(pdf, annots))
        return not_followed(err, "the annotations of the page cannot be read");
    begin_object(w, w->page.number, w->page.gen);
    mf_buf_text(w->out, "<<\n");
    copy_entries(w, page, "Annots", "Annots");
    mf_buf_text(w->out, "/Annots ");
    put_grown_array(w, annots, w->field);
    mf_buf_text(w->out, "\n>>");
    end_object(w);
    return MF_OK;
}

/* The field and its widget in one. Its name must differ from all others in the
 * paper; no two revisions of a paper have the same hash. Flags: print, locked. */
static void put_field(writer *w)
{
    char hash[MF_FINGERPRINT_HEX];
    mf_seal_place place = w->ask->place;
    if (place.page == 0)
        place = (mf_seal_place){0};
    mf_sha256_hex(w->pdf->src.data, w->pdf->src.len, hash);
    begin_object(w, w->field, 0);
    mf_buf_printf(w->out, "<<\n/Type /Annot\n/Subtype /Widget\n/FT /Sig\n/T (Seal%d-%.16s)\n",
                  w->earlier + 1, hash);
    mf_buf_text(w->out, "/F 132\n/Rect ");
    put_box(w->out, place.x, place.y, place.w, place.h);
    mf_buf_printf(w->out, "\n/P %" PRId64 " %" PRId64 " R\n/V %" PRId64 " 0 R\n", w->page.number,
                  w->page.gen, w->sig);
    mf_buf_printf(w->out, "/AP << /N %" PRId64 " 0 R >>\n>>", w->look);
    end_object(w);
    /* The look is empty: the words are on the page already, and a look of its own
     * would need a font. */
    begin_object(w, w->look, 0);
    mf_buf_text(w->out, "<<\n/Type /XObject\n/Subtype /Form\n/BBox ");
    put_box(w->out, 0, 0, place.w, place.h);
    mf_buf_text(w->out, "\n/Resources << >>\n/Length 0\n>>\nstream\n\nendstream");
    end_object(w);
}

static void put_text(writer *w, const char *key, const char *text)
{
    if (text == NULL || text[0] == '\0')
        return;
    mf_buf_printf(w->out, "/%s ", key);
    mf_text_pdf(w->out, text);
    mf_buf_text(w->out, "\n");
}

static void put_signature(writer *w, const char *date)
{
    begin_object(w, w->sig, 0);
    mf_buf_text(w->out, "<<\n/Type /Sig\n/Filter /Adobe.PPKLite\n"
                        "/SubFilter /ETSI.CAdES.detached\n/ByteRange [0 ");
    w->range_at = w->out->len;
    mf_buf_printf(w->out, "%*d %*d %*d]\n/Contents ", RANGE_WIDTH, 0, RANGE_WIDTH, 0, RANGE_WIDTH,
                  0);
    w->gap_at = w->out->len;
    mf_buf_text(w->out, "<");
    for (size_t i = 0; i < RESERVED / 32; i++)
        mf_buf_text(w->out, "0000000000000000000000000000000000000000000000000000000000000000");
    mf_buf_text(w->out, ">");
    w->gap_end = w->out->len;
    mf_buf_printf(w->out, "\n/M (%s)\n", date);
    put_text(w, "Name", mf_key_common_name(w->ask->key));
    put_text(w, "Reason", w->ask->reason);
    put_text(w, "Location", w->ask->location);
    mf_buf_text(w->out, ">>");
    end_object(w);
}

/* --- the end of the file ------------------------------------------------------------ */

static int compare_placed(const void *left, const void *right)
{
    const placed *a = left, *b = right;
    return a->num < b->num ? -1 : a->num > b->num;
}

static void put_xref(writer *w)
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
static void put_id(writer *w, const char *revision)
{
    mf_tok id = mf_pdf_get(w->pdf, w->pdf->trailer, "ID"), first;
    size_t at = 0;
    mf_buf_text(w->out, "/ID [");
    if (id.kind == MF_TOK_ARRAY && mf_array_next(&w->pdf->src, id, &at, &first) &&
        (first.kind == MF_TOK_HEX || first.kind == MF_TOK_STRING)) {
        put_span(w, first.at, first.end);
    } else {
        char hash[MF_FINGERPRINT_HEX];
        mf_sha256_hex(w->pdf->src.data, w->pdf->src.len, hash);
        mf_buf_printf(w->out, "<%.32s>", hash);
    }
    mf_buf_printf(w->out, " <%.32s>]\n", revision);
}

static void put_trailer(writer *w, size_t xref_at)
{
    mf_pdf *pdf = w->pdf;
    char revision[MF_FINGERPRINT_HEX];
    mf_tok info = mf_dict_get(&pdf->src, pdf->trailer, "Info");
    mf_sha256_hex((const unsigned char *)mf_buf_str(w->out), w->out->len, revision);
    mf_buf_printf(w->out, "trailer\n<<\n/Size %" PRId64 "\n/Root %" PRId64 " %" PRId64 " R\n",
                  w->sig + 1, pdf->root.number, pdf->root.gen);
    if (info.kind == MF_TOK_REF)
        mf_buf_printf(w->out, "/Info %" PRId64 " %" PRId64 " R\n", info.number, info.gen);
    mf_buf_printf(w->out, "/Prev %zu\n", pdf->startxref);
    put_id(w, revision);
    mf_buf_printf(w->out, ">>\nstartxref\n%zu\n%%%%EOF\n", xref_at);
}

/* --- all together ---------------------------------------------------------------------- */

static bool place_is_sound(const mf_seal_place *place)
{
    const float number[] = {place->x, place->y, place->w, place->h};
    for (int i = 0; i < 4; i++) {
        if (!isfinite(number[i]) || fabsf(number[i]) > COORD_MAX)
            return false;
    }
    return place->w >= 0 && place->h >= 0;
}

static mf_status check_ask(const mf_seal_ask *ask, char date[MF_WHEN_SIZE], mf_err *err)
{
    if (ask->place.page < 0 || (ask->place.page > 0 && !place_is_sound(&ask->place)))
        return mf_fail(err, MF_USAGE, "the seal", "its place is not on any page",
                       "points from the lower left corner, at most 14400", "give another place");
    if ((ask->reason != NULL && mf_text_count(ask->reason) < 0) ||
        (ask->location != NULL && mf_text_count(ask->location) < 0))
        return mf_fail(err, MF_USAGE, "the seal", "the reason or the location is no plain text",
                       "it must be UTF-8 without control characters", "type it again");
    if (!mf_when_print(date, ask->signed_at))
        return mf_fail(err, MF_USAGE, "the seal", "its time is not between 1970 and 9999", "",
                       "set the clock");
    return MF_OK;
}

static mf_status find_page(writer *w, mf_err *err)
{
    int n = w->ask->place.page == 0 ? 1 : w->ask->place.page;
    w->page = mf_pdf_page(w->pdf, n);
    if (w->page.kind == MF_TOK_REF)
        return MF_OK;
    if (w->page.kind == MF_TOK_END && n > 1)
        return mf_failf(err, MF_USAGE, "the seal", "a seal lies on a page of the paper",
                        "give another page", "the paper has no page %d", n);
    return not_followed(err, "its pages cannot be found");
}

/* Everything after the old bytes. */
static mf_status put_update(writer *w, const char *date, mf_err *err)
{
    const unsigned char *data = w->pdf->src.data;
    size_t len = w->pdf->src.len;
    mf_buf_add(w->out, data, len);
    if (data[len - 1] != '\n' && data[len - 1] != '\r')
        mf_buf_text(w->out, "\n");
    mf_status status = put_catalog(w, err);
    if (status == MF_OK)
        status = put_page(w, err);
    if (status != MF_OK)
        return status;
    put_field(w);
    put_signature(w, date);
    size_t xref_at = w->out->len;
    put_xref(w);
    put_trailer(w, xref_at);
    return w->out->failed ? mf_fail_memory(err) : MF_OK;
}

/* Writes the numbers of /ByteRange over their zeros, in the same width. */
static void fill_range(writer *w)
{
    char number[3 * (RANGE_WIDTH + 1) + 1];
    size_t value[] = {w->gap_at, w->gap_end, w->out->len - w->gap_end};
    for (size_t i = 0; i < 3; i++) {
        char *to = number + i * (RANGE_WIDTH + 1);
        memset(to, ' ', RANGE_WIDTH + 1);
        for (int digit = RANGE_WIDTH - 1; digit >= 0; digit--) {
            to[digit] = (char)('0' + value[i] % 10);
            value[i] /= 10;
            if (value[i] == 0)
                break;
        }
    }
    memcpy(w->out->data + w->range_at, number, 3 * (RANGE_WIDTH + 1) - 1);
}

mf_status mf_update_build(mf_update *out, mf_pdf *pdf, const mf_seal_ask *ask, int earlier,
                          mf_err *err)
{
    char date[MF_WHEN_SIZE];
    *out = (mf_update){0};
    writer w = {.out = &out->file, .pdf = pdf, .ask = ask, .earlier = earlier};
    w.field = pdf->next_num;
    w.look = w.field + 1;
    w.sig = w.field + 2;
    mf_status status = check_ask(ask, date, err);
    if (status == MF_OK)
        status = find_page(&w, err);
    if (status == MF_OK)
        status = put_update(&w, date, err);
    if (status == MF_OK) {
        fill_range(&w);
        out->range = (mf_sig_range){w.gap_at, w.gap_end, w.out->len};
    }
    return status;
}

mf_status mf_update_fill(mf_update *update, const mf_bytes *cms, mf_err *err)
{
    const char digits[] = "0123456789abcdef";
    if (cms->len > RESERVED)
        return mf_fail(err, MF_SYSTEM, "the seal", "the signature is too long",
                       "16 KiB are kept for it", "take a key with a smaller certificate");
    char *to = update->file.data + update->range.gap_at + 1;
    for (size_t i = 0; i < cms->len; i++) {
        *to++ = digits[cms->data[i] >> 4];
        *to++ = digits[cms->data[i] & 15];
    }
    return MF_OK;
}
