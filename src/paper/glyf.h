/* glyf.h - which glyphs of a TrueType font the PDF library would draw wrongly.
 *
 * libharu 2.3.0 keeps the parts of a composite glyph one level deep only: a glyph
 * made of composites loses its marks without a word. Such glyphs are found here,
 * from the font file itself, and refused. */
#ifndef MF_PAPER_GLYF_H
#define MF_PAPER_GLYF_H

#include <stdbool.h>
#include <stddef.h>

typedef struct mf_glyf {
    unsigned char *nested; /* one byte a glyph: 1 = composite of composites */
    size_t n;
} mf_glyf;

/* Reads the font at path. False when it cannot be read, is damaged or memory ran
 * out. Free with mf_glyf_free in any case. */
bool mf_glyf_read(mf_glyf *out, const char *path);
void mf_glyf_free(mf_glyf *glyf);

/* Whether the glyph is safe to draw. */
bool mf_glyf_safe(const mf_glyf *glyf, size_t glyph);

#endif
