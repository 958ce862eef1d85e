/* Text as the outlines of its letters. The tables are those of the OpenType
 * specification: cmap format 4, hmtx, loca, glyf. */
#include "base/fail.h"
#include "base/mem.h"
#include "paper/haru.h"
#include "paper/sfnt.h"

#include <mistfold/paper.h>

#include <math.h>
#include <stdlib.h>
#include <utf8proc.h>

enum {
    POINTS = 512, /* of one glyph, at most */
    /* Flags of a point. */
    ON = 1,
    X_SHORT = 2,
    Y_SHORT = 4,
    REPEAT = 8,
    X_SAME = 16,
    Y_SAME = 32,
    /* Flags of a part of a composite glyph. */
    WORDS = 1,
    XY = 2,
    SCALED = 8 | 64 | 128,
    MORE = 32
};

typedef struct face {
    unsigned char *bytes;
    mf_span cmap, hmtx, loca, glyf;
    unsigned em, advances;
    bool wide;
} face;

struct mf_paper_outlines {
    face faces[2]; /* regular, bold */
};

/* Where a glyph is drawn: into ops, moved by that many font units. */
typedef struct pen {
    mf_buf *ops;
    double x, y;
} pen;

typedef struct point {
    double x, y;
    bool on;
} point;

static int signed16(mf_span from, size_t at)
{
    unsigned value = mf_sfnt_u16(from, at);
    return value < 0x8000 ? (int)value : (int)value - 0x10000;
}

/* ---- the face ---------------------------------------------------------------------- */

/* The subtable of the Unicode characters up to U+FFFF. */
static bool find_cmap(face *out, mf_span cmap)
{
    unsigned n = mf_sfnt_u16(cmap, 2);
    for (unsigned i = 0; i < n; i++) {
        size_t at = mf_sfnt_u32(cmap, 8 + i * 8U);
        if (at >= cmap.len || mf_sfnt_u16(cmap, at) != 4)
            continue;
        out->cmap = (mf_span){cmap.data + at, cmap.len - at};
        return true;
    }
    return false;
}

static bool open_face(face *out, const char *dirs, mf_face which)
{
    char path[1024];
    mf_span head, hhea, cmap;
    size_t len = 0;
    if (!mf_haru_face_file(path, sizeof path, dirs, which))
        return false;
    out->bytes = mf_sfnt_read(path, &len);
    const mf_span file = {out->bytes, len};
    if (out->bytes == NULL || !mf_sfnt_table(file, "head", &head) ||
        !mf_sfnt_table(file, "hhea", &hhea) || !mf_sfnt_table(file, "cmap", &cmap) ||
        !mf_sfnt_table(file, "hmtx", &out->hmtx) || !mf_sfnt_table(file, "loca", &out->loca) ||
        !mf_sfnt_table(file, "glyf", &out->glyf) || !find_cmap(out, cmap))
        return false;
    out->em = mf_sfnt_u16(head, 18);
    out->wide = mf_sfnt_u16(head, 50) != 0;
    out->advances = mf_sfnt_u16(hhea, 34);
    return out->em > 0 && out->advances > 0;
}

static unsigned glyph_of(const face *in, int32_t code)
{
    const size_t twice = mf_sfnt_u16(in->cmap, 6); /* number of segments, doubled */
    for (size_t i = 0; i < twice && code <= 0xFFFF; i += 2) {
        if (mf_sfnt_u16(in->cmap, 14 + i) < (unsigned)code)
            continue;
        unsigned start = mf_sfnt_u16(in->cmap, 16 + twice + i);
        unsigned delta = mf_sfnt_u16(in->cmap, 16 + 2 * twice + i);
        size_t range_at = 16 + 3 * twice + i;
        unsigned range = mf_sfnt_u16(in->cmap, range_at);
        if (start > (unsigned)code)
            return 0;
        if (range == 0)
            return ((unsigned)code + delta) & 0xFFFF;
        unsigned glyph =
            mf_sfnt_u16(in->cmap, range_at + range + 2 * (size_t)((unsigned)code - start));
        return glyph == 0 ? 0 : (glyph + delta) & 0xFFFF;
    }
    return 0;
}

static unsigned advance_of(const face *in, unsigned glyph)
{
    return mf_sfnt_u16(in->hmtx, 4 * (size_t)(glyph < in->advances ? glyph : in->advances - 1));
}

static mf_span body_of(const face *in, size_t glyph)
{
    return mf_sfnt_glyph(in->loca, in->glyf, in->wide, glyph);
}

/* ---- drawing ------------------------------------------------------------------------- */

/* Tenths of a font unit; not through printf, which follows the locale's comma. */
static void put_xy(mf_buf *out, double x, double y)
{
    const double both[2] = {x, y};
    for (int i = 0; i < 2; i++) {
        long tenths = lround(both[i] * 10);
        mf_buf_printf(out, "%s%ld.%ld ", tenths < 0 ? "-" : "", labs(tenths) / 10,
                      labs(tenths) % 10);
    }
}

static point between(point a, point b)
{
    return (point){(a.x + b.x) / 2, (a.y + b.y) / 2, true};
}

/* A quadratic curve as the cubic one that PDF has. */
static void curve(const pen *to, point from, point by, point end)
{
    put_xy(to->ops, to->x + from.x + (by.x - from.x) * 2 / 3,
           to->y + from.y + (by.y - from.y) * 2 / 3);
    put_xy(to->ops, to->x + end.x + (by.x - end.x) * 2 / 3, to->y + end.y + (by.y - end.y) * 2 / 3);
    put_xy(to->ops, to->x + end.x, to->y + end.y);
    mf_buf_text(to->ops, "c\n");
}

static void contour(const pen *to, const point *points, size_t n)
{
    if (n < 2)
        return;
    point start = points[0].on ? points[0] : between(points[0], points[n - 1]);
    point at = start;
    put_xy(to->ops, to->x + start.x, to->y + start.y);
    mf_buf_text(to->ops, "m\n");
    for (size_t i = points[0].on ? 1 : 0; i < n; i++) {
        point next = i + 1 < n ? points[i + 1] : start;
        if (points[i].on) {
            put_xy(to->ops, to->x + points[i].x, to->y + points[i].y);
            mf_buf_text(to->ops, "l\n");
            at = points[i];
            continue;
        }
        point end = next.on ? next : between(points[i], next);
        curve(to, at, points[i], end);
        at = end;
        i += next.on && i + 1 < n;
    }
    mf_buf_text(to->ops, "h\n");
}

/* The flags of n points; returns where the coordinates begin. */
static size_t read_flags(mf_span body, size_t at, unsigned char *flags, size_t n)
{
    for (size_t i = 0; i < n;) {
        unsigned char flag = at < body.len ? body.data[at] : 0;
        unsigned times = 1;
        at++;
        if ((flag & REPEAT) != 0)
            times += at < body.len ? body.data[at++] : 0;
        for (; times > 0 && i < n; times--)
            flags[i++] = flag;
    }
    return at;
}

static size_t read_axis(mf_span body, size_t at, const unsigned char *flags, point *points,
                        size_t n, bool x)
{
    const unsigned small = x ? X_SHORT : Y_SHORT, same = x ? X_SAME : Y_SAME;
    int value = 0;
    for (size_t i = 0; i < n; i++) {
        if ((flags[i] & small) != 0) {
            int step = at < body.len ? body.data[at] : 0;
            value += (flags[i] & same) != 0 ? step : -step;
            at++;
        } else if ((flags[i] & same) == 0) {
            value += signed16(body, at);
            at += 2;
        }
        *(x ? &points[i].x : &points[i].y) = value;
    }
    return at;
}

static bool simple(const pen *to, mf_span body)
{
    unsigned char flags[POINTS] = {0};
    point points[POINTS] = {{0}};
    const size_t contours = (size_t)signed16(body, 0);
    const size_t n = contours == 0 ? 0 : mf_sfnt_u16(body, 8 + 2 * contours) + 1U;
    if (n > POINTS)
        return false;
    size_t at = 10 + 2 * contours;
    at = read_flags(body, at + 2 + mf_sfnt_u16(body, at), flags, n);
    at = read_axis(body, at, flags, points, n, true);
    read_axis(body, at, flags, points, n, false);
    for (size_t i = 0; i < n; i++)
        points[i].on = (flags[i] & ON) != 0;
    size_t from = 0;
    for (size_t i = 0; i < contours; i++) {
        size_t end = mf_sfnt_u16(body, 10 + 2 * i) + 1U;
        if (end < from || end > n)
            return false;
        contour(to, points + from, end - from);
        from = end;
    }
    return true;
}

/* A letter and its accent, each moved to its place. Parts that are scaled, set by
 * points or made of parts themselves are not in our fonts. */
static bool composite(const face *in, const pen *to, mf_span body)
{
    unsigned flags = MORE;
    for (size_t at = 10; (flags & MORE) != 0 && at + 6 <= body.len;) {
        flags = mf_sfnt_u16(body, at);
        mf_span part = body_of(in, mf_sfnt_u16(body, at + 2));
        if ((flags & XY) == 0 || (flags & SCALED) != 0 || signed16(part, 0) < 0)
            return false;
        bool words = (flags & WORDS) != 0;
        int dx = words ? signed16(body, at + 4) : (signed char)body.data[at + 4];
        int dy = words ? signed16(body, at + 6) : (signed char)body.data[at + 5];
        const pen moved = {to->ops, to->x + dx, to->y + dy};
        if (part.len > 0 && !simple(&moved, part))
            return false;
        at += words ? 8 : 6;
    }
    return true;
}

static bool draw_glyph(const face *in, const pen *to, unsigned glyph)
{
    mf_span body = body_of(in, glyph);
    if (body.len < 10)
        return true; /* a blank */
    return signed16(body, 0) < 0 ? composite(in, to, body) : simple(to, body);
}

/* ---- text ------------------------------------------------------------------------------ */

/* A character the face lacks is a question mark, never an empty box. */
static bool draw_text(const face *in, pen *to, const utf8proc_uint8_t *text)
{
    utf8proc_int32_t code = 0;
    for (utf8proc_ssize_t n = 0; *text != '\0'; text += n) {
        n = utf8proc_iterate(text, -1, &code);
        if (n <= 0)
            return false;
        unsigned glyph = glyph_of(in, code);
        if (glyph == 0)
            glyph = glyph_of(in, '?');
        if (!draw_glyph(in, to, glyph))
            return false;
        to->x += advance_of(in, glyph);
    }
    return true;
}

bool mf_paper_outline(void *outlines, bool bold, const char *text, mf_bytes *ops, float *width)
{
    const face *in = &((mf_paper_outlines *)outlines)->faces[bold];
    mf_buf buf = {0};
    pen to = {&buf, 0, 0};
    utf8proc_uint8_t *composed = utf8proc_NFC((const utf8proc_uint8_t *)text);
    mf_buf_printf(&buf, "0.%09lu 0 0 0.%09lu 0 0 cm\n", 1000000000UL / in->em,
                  1000000000UL / in->em);
    bool done = composed != NULL && draw_text(in, &to, composed) && !buf.failed;
    free(composed);
    mf_buf_text(&buf, "f\n");
    *width = (float)(to.x / in->em);
    if (done)
        mf_buf_take(&buf, ops);
    mf_buf_free(&buf);
    return done;
}

mf_status mf_paper_outlines_open(mf_paper_outlines **out, const char *font_dir, mf_err *err)
{
    const char *dirs = font_dir == NULL ? MF_FONT_DIR : font_dir;
    *out = calloc(1, sizeof **out);
    if (*out == NULL)
        return mf_fail_memory(err);
    if (open_face(&(*out)->faces[0], dirs, MF_FACE_REGULAR) &&
        open_face(&(*out)->faces[1], dirs, MF_FACE_BOLD))
        return MF_OK;
    mf_paper_outlines_free(*out);
    *out = NULL;
    return mf_fail(err, MF_SYSTEM, dirs, "a font of the papers cannot be read",
                   "the words of a seal are drawn with it",
                   "install the Debian package fonts-liberation2");
}

void mf_paper_outlines_free(mf_paper_outlines *outlines)
{
    if (outlines == NULL)
        return;
    for (int i = 0; i < 2; i++)
        free(outlines->faces[i].bytes);
    free(outlines);
}
