#include "seal/appearance.h"

#include "seal/pdfbox.h"

static bool is_gap(const mf_pdf_src *src, size_t from, size_t to)
{
    while (from < to && (src->data[from] == '\r' || src->data[from] == '\n'))
        from++;
    return from == to;
}

/* By its length and by its bytes: readers that doubt a length look for the end of the
 * stream. A drawing in a file of its own has none here. */
static bool draws_nothing(mf_pdf *pdf, mf_tok dict, mf_tok stream)
{
    mf_tok length = mf_pdf_get(pdf, dict, "Length"), end = mf_tok_next(&pdf->src, stream.end);
    return length.kind == MF_TOK_INT && length.number == 0 &&
           mf_dict_get(&pdf->src, dict, "F").kind == MF_TOK_END &&
           mf_tok_is_word(&pdf->src, end, "endstream") && is_gap(&pdf->src, stream.end, end.at);
}

static bool is_cut(mf_pdf *pdf, mf_tok dict)
{
    mf_seal_place box = {0};
    return mf_pdf_box(&pdf->src, mf_dict_get(&pdf->src, dict, "BBox"), &box) && box.w > 0 &&
           box.h > 0;
}

/* A drawing, or those of several states by their names. */
static bool one_stays(mf_pdf *pdf, mf_tok val, bool empty, int depth)
{
    mf_tok it = mf_pdf_resolve(pdf, val), key, inner;
    if (it.kind != MF_TOK_DICT)
        return false;
    mf_tok stream = mf_tok_stream(&pdf->src, it);
    if (stream.kind == MF_TOK_WORD)
        return depth > 0 && (empty ? draws_nothing(pdf, it, stream) : is_cut(pdf, it));
    if (depth == 2)
        return false;
    for (size_t at = 0; mf_dict_next(&pdf->src, it, &at, &key, &inner);)
        if (inner.kind == MF_TOK_BAD || !one_stays(pdf, inner, empty, depth + 1))
            return false;
    return true;
}

bool mf_appearance_stays(mf_pdf *pdf, mf_tok widget, bool empty)
{
    mf_tok ap = mf_dict_get(&pdf->src, widget, "AP");
    return ap.kind == MF_TOK_END || one_stays(pdf, ap, empty, 0);
}
