#include "seal/sigfield.h"

#include "seal/pdfpage.h"
#include "seal/sigrange.h"

/* ISO 32000-1, Table 165: NoZoom, NoRotate, ToggleNoView. Such a widget does not stay in
 * its rectangle, or shows and hides under the pointer. */
#define FLAGS_MOVING (1 << 3 | 1 << 4 | 1 << 8)

mf_tok mf_field_get(mf_pdf *pdf, mf_tok field, const char *key)
{
    mf_tok val = mf_pdf_get(pdf, field, key);
    mf_tok parent = mf_pdf_get(pdf, field, "Parent");
    return val.kind == MF_TOK_END && parent.kind == MF_TOK_DICT ? mf_pdf_get(pdf, parent, key)
                                                                : val;
}

bool mf_field_is_last(mf_pdf *pdf, mf_tok field)
{
    mf_sig_range range;
    return mf_sig_range_read(&pdf->src, mf_field_get(pdf, field, "V"), &range) &&
           range.end == pdf->src.len;
}

/* ---- the rectangle ----------------------------------------------------------------------- */

/* In thousandths. A point and digits, without the C library's locale; what is too long
 * to be on a page is as far away as this can say. */
static bool read_number(const mf_pdf_src *src, mf_tok tok, float *out)
{
    int64_t value = 0, scale = 0;
    if (tok.kind != MF_TOK_INT && tok.kind != MF_TOK_REAL)
        return false;
    for (size_t at = tok.at; at < tok.end && scale < 1000; at++) {
        unsigned char c = src->data[at];
        if (c == '.') {
            scale = 1;
        } else if (c >= '0' && c <= '9' && value < INT64_C(1000000000000)) {
            value = value * 10 + (c - '0');
            scale *= 10;
        }
    }
    *out = (float)value / (float)(scale == 0 ? 1 : scale);
    if (src->data[tok.at] == '-')
        *out = -*out;
    return true;
}

static bool read_box(mf_pdf_src *src, mf_tok array, mf_seal_place *out)
{
    mf_tok val;
    size_t n = 0;
    float at[4];
    if (array.kind != MF_TOK_ARRAY)
        return false;
    for (size_t pos = 0; mf_array_next(src, array, &pos, &val); n++)
        if (n == 4 || !read_number(src, val, &at[n]))
            return false;
    if (n != 4)
        return false;
    out->x = at[0] < at[2] ? at[0] : at[2];
    out->y = at[1] < at[3] ? at[1] : at[3];
    out->w = at[0] < at[2] ? at[2] - at[0] : at[0] - at[2];
    out->h = at[1] < at[3] ? at[3] - at[1] : at[1] - at[3];
    return true;
}

/* ---- the pages ---------------------------------------------------------------------------- */

typedef struct hunt {
    mf_seal_place *out;
    int page; /* the one looked at */
    bool clear;
} hunt;

static bool stays_in_place(mf_pdf *pdf, mf_tok widget)
{
    mf_tok flags = mf_dict_get(&pdf->src, widget, "F");
    return flags.kind == MF_TOK_END ||
           (flags.kind == MF_TOK_INT && flags.number >= 0 && (flags.number & FLAGS_MOVING) == 0);
}

/* True stops the walk: the place is not clear. */
static bool look_at(void *user, mf_pdf *pdf, mf_tok page)
{
    hunt *h = user;
    mf_tok list = mf_pdf_get(pdf, page, "Annots"), item;
    h->page++;
    if (list.kind != MF_TOK_ARRAY)
        return false;
    for (size_t at = 0; mf_array_next(&pdf->src, list, &at, &item);) {
        mf_tok widget = mf_pdf_resolve(pdf, item);
        if (item.kind == MF_TOK_BAD) {
            h->clear = false;
            return true;
        }
        if (widget.kind != MF_TOK_DICT || !mf_field_is_last(pdf, widget))
            continue;
        h->clear = h->clear && h->out->page == 0 && stays_in_place(pdf, widget) &&
                   read_box(&pdf->src, mf_dict_get(&pdf->src, widget, "Rect"), h->out);
        h->out->page = h->page;
    }
    return !h->clear;
}

bool mf_field_place(mf_seal_place *out, mf_pdf *pdf)
{
    hunt h = {.out = out, .clear = true};
    *out = (mf_seal_place){0};
    mf_tok end = mf_pdf_page_find(pdf, look_at, &h);
    if (out->w <= 0 || out->h <= 0)
        *out = (mf_seal_place){0};
    return h.clear && end.kind == MF_TOK_END && pdf->src.fuel > 0;
}
