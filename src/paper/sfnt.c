#include "paper/sfnt.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FONT_MAX = 32 * 1024 * 1024 }; /* more is no font of ours */

unsigned mf_sfnt_u16(mf_span from, size_t at)
{
    if (from.len < 2 || at > from.len - 2)
        return 0;
    return (unsigned)from.data[at] << 8 | from.data[at + 1];
}

uint32_t mf_sfnt_u32(mf_span from, size_t at)
{
    return (uint32_t)mf_sfnt_u16(from, at) << 16 | mf_sfnt_u16(from, at + 2);
}

static size_t offset_of(mf_span loca, bool wide, size_t glyph)
{
    return wide ? mf_sfnt_u32(loca, glyph * 4) : mf_sfnt_u16(loca, glyph * 2) * 2U;
}

mf_span mf_sfnt_glyph(mf_span loca, mf_span glyf, bool wide, size_t glyph)
{
    size_t from = offset_of(loca, wide, glyph), to = offset_of(loca, wide, glyph + 1);
    if (from >= to || to > glyf.len)
        return (mf_span){NULL, 0};
    return (mf_span){glyf.data + from, to - from};
}

bool mf_sfnt_table(mf_span file, const char *tag, mf_span *out)
{
    unsigned n = mf_sfnt_u16(file, 4);
    for (unsigned i = 0; i < n; i++) {
        size_t row = 12 + (size_t)i * 16;
        if (file.len < 16 || row > file.len - 16)
            return false;
        if (memcmp(file.data + row, tag, 4) != 0)
            continue;
        size_t at = mf_sfnt_u32(file, row + 8);
        size_t len = mf_sfnt_u32(file, row + 12);
        if (at > file.len || len > file.len - at)
            return false;
        *out = (mf_span){file.data + at, len};
        return true;
    }
    return false;
}

unsigned char *mf_sfnt_read(const char *path, size_t *len)
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
