#include "seal/pdfbox.h"

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

bool mf_pdf_box(mf_pdf_src *src, mf_tok array, mf_seal_place *out)
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
