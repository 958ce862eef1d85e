#include "seal/update.h"

#include "base/fail.h"
#include "base/hex.h"
#include "seal/look.h"
#include "seal/pdfpage.h"
#include "seal/text.h"
#include "seal/when.h"
#include "seal/write.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Enough for a key's certificate with room to spare; a self-made one takes 1 KiB. A time
 * stamp brings the authority's certificates. */
#define RESERVED       ((size_t)16384)
#define RESERVED_STAMP MF_STAMP_REPLY_MAX
/* Width of each number in /ByteRange: files are at most 1 GiB. */
#define RANGE_WIDTH 10
#define COORD_MAX   14400.0F /* the largest page, ISO 32000-1, Annex C */

typedef struct writer {
    mf_writer base;
    mf_buf *out;
    mf_pdf *pdf;
    const mf_seal_ask *ask;
    mf_tok page;                       /* the reference */
    int64_t field, look, sig, drawing; /* object numbers */
    int earlier;
    size_t range_at; /* where the numbers of /ByteRange go */
    size_t gap_at, gap_end;
} writer;

/* --- pieces ----------------------------------------------------------------------- */

static void put_box(mf_buf *out, float x, float y, float w, float h)
{
    mf_buf_text(out, "[");
    mf_write_number(out, x);
    mf_write_number(out, y);
    mf_write_number(out, x + w);
    mf_write_number(out, y + h);
    mf_buf_text(out, "]");
}

/* --- the objects -------------------------------------------------------------------- */

static mf_status put_catalog(writer *w, mf_err *err)
{
    mf_pdf *pdf = w->pdf;
    mf_tok catalog = mf_pdf_object(pdf, pdf->root);
    mf_tok form = mf_pdf_get(pdf, catalog, "AcroForm");
    mf_tok fields = mf_pdf_get(pdf, form, "Fields");
    bool no_form = form.kind == MF_TOK_END || mf_tok_is_word(&pdf->src, form, "null");
    if ((form.kind != MF_TOK_DICT && !no_form) || !mf_write_array_or_none(pdf, fields))
        return mf_write_not_followed(err, "its form fields cannot be read");
    mf_write_begin(&w->base, pdf->root.number, pdf->root.gen);
    mf_buf_text(w->out, "<<\n");
    mf_write_entries(&w->base, catalog, "AcroForm", "AcroForm");
    mf_buf_text(w->out, "/AcroForm <<\n");
    mf_write_entries(&w->base, form, "Fields", "SigFlags");
    mf_buf_text(w->out, "/Fields ");
    mf_write_grown(&w->base, fields, w->field);
    mf_buf_text(w->out, "\n/SigFlags 3\n>>\n>>");
    mf_write_end(&w->base);
    return MF_OK;
}

static mf_status put_page(writer *w, mf_err *err)
{
    mf_pdf *pdf = w->pdf;
    mf_tok page = mf_pdf_object(pdf, w->page);
    mf_tok annots = mf_pdf_get(pdf, page, "Annots");
    if (page.kind != MF_TOK_DICT || !mf_write_array_or_none(pdf, annots))
        return mf_write_not_followed(err, "the annotations of the page cannot be read");
    mf_write_begin(&w->base, w->page.number, w->page.gen);
    mf_buf_text(w->out, "<<\n");
    mf_write_entries(&w->base, page, "Annots", "Annots");
    mf_buf_text(w->out, "/Annots ");
    mf_write_grown(&w->base, annots, w->field);
    mf_buf_text(w->out, "\n>>");
    mf_write_end(&w->base);
    return MF_OK;
}

static void put_text(writer *w, const char *key, const char *text)
{
    if (text == NULL || text[0] == '\0')
        return;
    mf_buf_printf(w->out, "/%s ", key);
    mf_text_pdf(w->out, text);
    mf_buf_text(w->out, "\n");
}

/* A document time stamp: nobody's seal. */
static bool is_stamp(const writer *w)
{
    return w->ask->key == NULL;
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
    mf_write_begin(&w->base, w->field, 0);
    mf_buf_printf(w->out, "<<\n/Type /Annot\n/Subtype /Widget\n/FT /Sig\n/T (%s%d-%.16s)\n",
                  is_stamp(w) ? "Time" : "Seal", w->earlier + 1, hash);
    if (!is_stamp(w))
        put_text(w, "TU", mf_key_common_name(w->ask->key)); /* read aloud */
    mf_buf_text(w->out, "/F 132\n/Rect ");
    put_box(w->out, place.x, place.y, place.w, place.h);
    mf_buf_printf(w->out, "\n/P %" PRId64 " %" PRId64 " R\n/V %" PRId64 " 0 R\n", w->page.number,
                  w->page.gen, w->sig);
    mf_buf_printf(w->out, "/AP << /N %" PRId64 " 0 R >>\n>>", w->look);
    mf_write_end(&w->base);
    /* As a rule the look is empty: the paper has the words in its own fonts. */
    mf_write_begin(&w->base, w->look, 0);
    mf_buf_text(w->out, "<<\n/Type /XObject\n/Subtype /Form\n/BBox ");
    put_box(w->out, 0, 0, place.w, place.h);
    mf_look_put(w->out, w->ask, &place, w->drawing);
    mf_write_end(&w->base);
}

static void put_signature(writer *w, const char *date)
{
    mf_write_begin(&w->base, w->sig, 0);
    mf_buf_text(w->out, is_stamp(w) ? "<<\n/Type /DocTimeStamp\n/Filter /Adobe.PPKLite\n"
                                      "/SubFilter /ETSI.RFC3161\n/ByteRange [0 "
                                    : "<<\n/Type /Sig\n/Filter /Adobe.PPKLite\n"
                                      "/SubFilter /ETSI.CAdES.detached\n/ByteRange [0 ");
    w->range_at = w->out->len;
    mf_buf_printf(w->out, "%*d %*d %*d]\n/Contents ", RANGE_WIDTH, 0, RANGE_WIDTH, 0, RANGE_WIDTH,
                  0);
    w->gap_at = w->out->len;
    mf_buf_text(w->out, "<");
    const size_t room = RESERVED + (w->ask->stamp == NULL ? 0 : RESERVED_STAMP);
    for (size_t i = 0; i < room / 32; i++)
        mf_buf_text(w->out, "0000000000000000000000000000000000000000000000000000000000000000");
    mf_buf_text(w->out, ">");
    w->gap_end = w->out->len;
    mf_buf_text(w->out, "\n");
    if (!is_stamp(w)) {
        mf_buf_printf(w->out, "/M (%s)\n", date);
        put_text(w, "Name", mf_key_common_name(w->ask->key));
    }
    put_text(w, "Reason", w->ask->reason);
    put_text(w, "Location", w->ask->location);
    mf_buf_text(w->out, ">>");
    mf_write_end(&w->base);
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

static bool drawing_is_sound(const mf_seal_ask *ask)
{
    const mf_seal_drawing *it = ask->drawing;
    return it == NULL || (it->whose != NULL && it->witness != NULL &&
                          mf_text_count(it->whose) > 0 && mf_text_count(it->witness) > 0 &&
                          ask->draw && it->w >= 1 && it->h >= 1 && it->w <= MF_SEAL_DRAWING_SIDE &&
                          it->h <= MF_SEAL_DRAWING_SIDE && mf_look_has_room(ask, &ask->place));
}

static mf_status check_ask(const mf_seal_ask *ask, char date[MF_WHEN_SIZE], mf_err *err)
{
    if (ask->place.page < 0 || (ask->place.page > 0 && !place_is_sound(&ask->place)))
        return mf_fail(err, MF_USAGE, "the seal", "its place is not on any page",
                       "points from the lower left corner, at most 14400", "give another place");
    if ((ask->reason != NULL && mf_text_count(ask->reason) < 0) ||
        (ask->location != NULL && mf_text_count(ask->location) < 0))
        return mf_fail(err, MF_USAGE, "the seal", "the reason or the location is not plain text",
                       "it must be UTF-8 without control characters", "type it again");
    if (!drawing_is_sound(ask))
        return mf_fail(err, MF_USAGE, "the seal", "there is no place for a drawing on this paper",
                       "it stands beside the seal's words, on a page", "seal without it");
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
    return mf_write_not_followed(err, "its pages cannot be found");
}

/* Everything after the old bytes. */
static mf_status put_update(writer *w, const char *date, mf_err *err)
{
    mf_write_old(&w->base);
    mf_status status = put_catalog(w, err);
    if (status == MF_OK)
        status = put_page(w, err);
    if (status != MF_OK)
        return status;
    put_field(w);
    put_signature(w, date);
    if (w->ask->drawing != NULL) {
        mf_write_begin(&w->base, w->drawing, 0);
        mf_look_drawing(w->out, w->ask->drawing);
        mf_write_end(&w->base);
    }
    mf_write_tail(&w->base, w->ask->drawing == NULL ? w->drawing : w->drawing + 1);
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
    writer w = {.base = {.out = &out->file, .pdf = pdf},
                .out = &out->file,
                .pdf = pdf,
                .ask = ask,
                .earlier = earlier};
    w.field = pdf->next_num;
    w.look = w.field + 1;
    w.sig = w.field + 2;
    w.drawing = w.field + 3;
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
    if (cms->len > (update->range.gap_end - update->range.gap_at - 2) / 2)
        return mf_fail(err, MF_SYSTEM, "the seal", "the signature is too long",
                       "16 KiB are kept for it, and 32 more for a time stamp",
                       "take a key with a smaller certificate");
    mf_hex_digits(cms->data, cms->len, update->file.data + update->range.gap_at + 1);
    return MF_OK;
}
