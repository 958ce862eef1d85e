/* sfnt.h - the tables of a TrueType font file. No offset in it is trusted: what lies
 * outside is read as 0. Source: the OpenType specification. */
#ifndef MF_PAPER_SFNT_H
#define MF_PAPER_SFNT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct mf_span {
    const unsigned char *data;
    size_t len;
} mf_span;

unsigned mf_sfnt_u16(mf_span from, size_t at);
uint32_t mf_sfnt_u32(mf_span from, size_t at);
/* The bytes of one glyph; empty when it has none or its offsets lie. wide: loca holds
 * 32-bit offsets. */
mf_span mf_sfnt_glyph(mf_span loca, mf_span glyf, bool wide, size_t glyph);
/* The table of that tag; false when there is none that lies in the file. */
bool mf_sfnt_table(mf_span file, const char *tag, mf_span *out);
/* The whole file, at most 32 MiB; NULL when it cannot be read. The caller frees it. */
unsigned char *mf_sfnt_read(const char *path, size_t *len);

#endif
