/* The tables are those of the OpenType specification: head, maxp, loca, glyf. No
 * offset in the file is trusted. */
#include "paper/glyf.h"

#include "paper/sfnt.h"

#include <stdlib.h>

enum {
    /* Flags of a composite glyph's component. */
    WORDS = 0x0001,
    SCALE = 0x0008,
    MORE = 0x0020,
    XY_SCALE = 0x0040,
    TWO_BY_TWO = 0x0080
};

typedef struct font {
    mf_span loca, glyf;
    size_t n;
    bool wide; /* loca holds 32-bit offsets */
} font;

static mf_span glyph_of(const font *in, size_t glyph)
{
    return mf_sfnt_glyph(in->loca, in->glyf, in->wide, glyph);
}

static bool composite(const font *in, size_t glyph)
{
    mf_span body = glyph < in->n ? glyph_of(in, glyph) : (mf_span){NULL, 0};
    return body.len >= 10 && (body.data[0] & 0x80) != 0; /* a negative count of contours */
}

static size_t component_len(unsigned flags)
{
    size_t len = flags & WORDS ? 8 : 6;
    if (flags & SCALE)
        return len + 2;
    if (flags & XY_SCALE)
        return len + 4;
    return flags & TWO_BY_TWO ? len + 8 : len;
}

static bool nested(const font *in, size_t glyph)
{
    if (!composite(in, glyph))
        return false;
    mf_span body = glyph_of(in, glyph);
    size_t at = 10;
    while (at + 4 <= body.len) {
        unsigned flags = mf_sfnt_u16(body, at);
        if (composite(in, mf_sfnt_u16(body, at + 2)))
            return true;
        if ((flags & MORE) == 0)
            return false;
        at += component_len(flags);
    }
    return false;
}

static bool open_font(font *out, mf_span file)
{
    mf_span head;
    mf_span maxp;
    if (!mf_sfnt_table(file, "head", &head) || !mf_sfnt_table(file, "maxp", &maxp) ||
        !mf_sfnt_table(file, "loca", &out->loca) || !mf_sfnt_table(file, "glyf", &out->glyf))
        return false;
    out->wide = mf_sfnt_u16(head, 50) != 0;
    out->n = mf_sfnt_u16(maxp, 4);
    return out->n > 0 && out->loca.len >= (out->n + 1) * (out->wide ? 4U : 2U);
}

bool mf_glyf_read(mf_glyf *out, const char *path)
{
    *out = (mf_glyf){NULL, 0};
    font in = {.n = 0};
    size_t len = 0;
    unsigned char *data = mf_sfnt_read(path, &len);
    if (data != NULL && open_font(&in, (mf_span){data, len}))
        out->nested = calloc(in.n, 1);
    if (out->nested != NULL) {
        out->n = in.n;
        for (size_t i = 0; i < in.n; i++)
            out->nested[i] = nested(&in, i);
    }
    free(data);
    return out->nested != NULL;
}

void mf_glyf_free(mf_glyf *glyf)
{
    free(glyf->nested);
    *glyf = (mf_glyf){NULL, 0};
}

bool mf_glyf_safe(const mf_glyf *glyf, size_t glyph)
{
    return glyph < glyf->n && glyf->nested[glyph] == 0;
}
