#include "seal/sigfield.h"

#include "seal/appearance.h"
#include "seal/pdfbox.h"
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

/* ---- the pages ---------------------------------------------------------------------------- */

typedef struct hunt {
    mf_seal_place *out;
    int page; /* the one looked at */
    bool clear, bound;
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
                   mf_pdf_box(&pdf->src, mf_dict_get(&pdf->src, widget, "Rect"), h->out);
        h->out->page = h->page;
        h->bound = h->clear && mf_appearance_stays(pdf, widget, h->out->w <= 0 || h->out->h <= 0);
    }
    return !h->clear;
}

bool mf_field_place(mf_seal_place *out, bool *bound, mf_pdf *pdf)
{
    hunt h = {.out = out, .clear = true, .bound = true};
    *out = (mf_seal_place){0};
    mf_tok end = mf_pdf_page_find(pdf, look_at, &h);
    *bound = h.bound;
    if (h.bound && (out->w <= 0 || out->h <= 0))
        *out = (mf_seal_place){0};
    return h.clear && end.kind == MF_TOK_END && pdf->src.fuel > 0;
}
