/* The tables are those of the OpenType specification: head, maxp, loca, glyf. No
 * offset in the file is trusted. */
#include "paper/glyf.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    FONT_MAX = 32 * 1024 * 1024, /* more is no font of ours */
    /* Flags of a composite glyph's component. */
    WORDS = 0x0001,
    SCALE = 0x0008,
    MORE = 0x0020,
    XY_SCALE = 0x0040,
    TWO_BY_TWO = 0x0080
};

typedef struct span {
    const unsigned char *data;
    size_t len;
} span;

typedef struct font {
    span loca, glyf;
    size_t n;
    bool wide; /* loca holds 32-bit offsets */
} font;

static unsigned u16(span from, size_t at)
{
    if (from.len < 2 || at > from.len - 2)
        return 0;
    return (unsigned)from.data[at] << 8 | from.data[at + 1];
}

static uint32_t u32(span from, size_t at)
{
    return (uint32_t)u16(from, at) << 16 | u16(from, at + 2);
}

static bool find_table(span file, const char *tag, span *out)
{
    unsigned n = u16(file, 4);
    for (unsigned i = 0; i < n; i++) {
        size_t row = 12 + (size_t)i * 16;
        if (file.len < 16 || row > file.len - 16)
            return false;
        if (memcmp(file.data + row, tag, 4) != 0)
            continue;
        size_t at = u32(file, row + 8);
        size_t len = u32(file, row + 12);
        if (at > file.len || len > file.len - at)
            return false;
        *out = (span){file.data + at, len};
        return true;
    }
    return false;
}

/* The bytes of one glyph; empty when it has none or its offsets lie. */
static span glyph_of(const font *in, size_t glyph)
{
    size_t from = in->wide ? u32(in->loca, glyph * 4) : u16(in->loca, glyph * 2) * 2U;
    size_t to = in->wide ? u32(in->loca, glyph * 4 + 4) : u16(in->loca, glyph * 2 + 2) * 2U;
    if (from >= to || to > in->glyf.len)
        return (span){NULL, 0};
    return (span){in->glyf.data + from, to - from};
}

static bool composite(const font *in, size_t glyph)
{
    span body = glyph < in->n ? glyph_of(in, glyph) : (span){NULL, 0};
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
    span body = glyph_of(in, glyph);
    size_t at = 10;
    while (at + 4 <= body.len) {
        unsigned flags = u16(body, at);
        if (composite(in, u16(body, at + 2)))
            return true;
        if ((flags & MORE) == 0)
            return false;
        at += component_len(flags);
    }
    return false;
}

static bool open_font(font *out, span file)
{
    span head;
    span maxp;
    if (!find_table(file, "head", &head) || !find_table(file, "maxp", &maxp) ||
        !find_table(file, "loca", &out->loca) || !find_table(file, "glyf", &out->glyf))
        return false;
    out->wide = u16(head, 50) != 0;
    out->n = u16(maxp, 4);
    return out->n > 0 && out->loca.len >= (out->n + 1) * (out->wide ? 4U : 2U);
}

static unsigned char *read_file(const char *path, size_t *len)
{
    unsigned char *data = NULL;
    FILE *file = fopen(path, "rb");
    if (file == NULL)
        return NULL;
    long size = fseek(file, 0, SEEK_END) == 0 ? ftell(file) : -1;
    if (size > 0 && size <= FONT_MAX && fseek(file, 0, SEEK_SET) == 0)
        data = malloc((size_t)size);
    if (data != NULL && fread(data, 1, (size_t)size, file) != (size_t)size) {
        free(data);
        data = NULL;
    }
    fclose(file);
    *len = data == NULL ? 0 : (size_t)size;
    return data;
}

bool mf_glyf_read(mf_glyf *out, const char *path)
{
    *out = (mf_glyf){NULL, 0};
    font in = {.n = 0};
    size_t len = 0;
    unsigned char *data = read_file(path, &len);
    if (data != NULL && open_font(&in, (span){data, len}))
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
