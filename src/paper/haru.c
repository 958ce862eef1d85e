/* haru.c - the drawing, by libharu, whose hpdf.h it and haru_nav.c alone see.
 *
 * What it guards against in libharu 2.3.0: errors are numbers and sticky; the
 * ToUnicode map it writes is malformed; a character without a glyph is drawn as
 * an empty box without a word; saving to a file does not notice a full disk; without
 * memory it crashes (haru_memory.h). */
#include "paper/haru_own.h"

#include "base/fail.h"
#include "paper/haru_errors.h"
#include "paper/pdf_meta.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

enum { FONT_PATH = 512 };

static const float ink_rgb[MF_INK_COUNT][3] = {
    [MF_INK_BLACK] = {0, 0, 0},
    [MF_INK_ACCENT] = {0.05F, 0.27F, 0.36F},
    [MF_INK_RULE] = {0.55F, 0.55F, 0.55F},
    [MF_INK_BAND] = {0.965F, 0.965F, 0.965F},
    [MF_INK_WHITE] = {1, 1, 1},
};

/* Called at every failing call; only the first says what really happened. */
static void remember(HPDF_STATUS code, HPDF_STATUS detail, void *user)
{
    mf_haru *haru = user;
    if (haru->code == HPDF_OK) {
        haru->code = code;
        haru->detail = detail;
    }
}

void mf_haru_check(mf_haru *haru, HPDF_STATUS code)
{
    if (code != HPDF_OK)
        remember(code, 0, haru);
}

bool mf_haru_failed(const mf_haru *haru)
{
    return haru->failed || haru->memory.low || haru->code != HPDF_OK;
}

bool mf_haru_goes_on(mf_haru *haru)
{
    mf_haru_memory_use(&haru->memory);
    return !mf_haru_failed(haru);
}

void mf_haru_fail(mf_haru *haru, const mf_err *err)
{
    if (!mf_haru_failed(haru)) {
        haru->failed = true;
        haru->err = *err;
    }
}

static mf_status report(const mf_haru *haru, const char *where, mf_err *err)
{
    if (haru->failed) {
        if (err != NULL)
            *err = haru->err;
        return haru->err.status;
    }
    if (haru->memory.low || mf_haru_lacks_memory(haru->code, haru->detail))
        return mf_fail_memory(err);
    return mf_failf(err, MF_SYSTEM, where, mf_haru_error_words(haru->code),
                    "try again; if it happens again, report this line with the numbers in it",
                    "the paper could not be drawn (error 0x%04lX, detail %lu)", haru->code,
                    haru->detail);
}

/* ---- fonts ---------------------------------------------------------------- */

/* libharu writes its own map with an operator that readers do not know. The
 * codes are UCS-2, so the true map is the identity, a row for each high byte. */
static void mend_unicode_map(mf_haru *haru, HPDF_Font font)
{
    HPDF_Dict map = HPDF_DictStream_New(haru->doc->mmgr, haru->doc->xref);
    if (map == NULL)
        return;
    char line[64];
    mf_haru_check(
        haru, HPDF_Stream_WriteStr(map->stream,
                                   "/CIDInit /ProcSet findresource begin\n12 dict begin\n"
                                   "begincmap\n/CIDSystemInfo << /Registry (Adobe) /Ordering "
                                   "(UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS "
                                   "def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\n"
                                   "endcodespacerange\n"));
    for (unsigned high = 0; high < 256; high++) {
        if (high % 64 == 0) /* a block holds at most 100 rows */
            mf_haru_check(haru, HPDF_Stream_WriteStr(map->stream, "64 beginbfrange\n"));
        snprintf(line, sizeof line, "<%02X00> <%02XFF> <%02X00>\n", high, high, high);
        mf_haru_check(haru, HPDF_Stream_WriteStr(map->stream, line));
        if (high % 64 == 63)
            mf_haru_check(haru, HPDF_Stream_WriteStr(map->stream, "endbfrange\n"));
    }
    mf_haru_check(haru, HPDF_Stream_WriteStr(
                            map->stream, "endcmap\nCMapName currentdict /CMap defineresource pop\n"
                                         "end\nend\n"));
    map->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    mf_haru_check(haru, HPDF_Dict_Add(font, "ToUnicode", map));
}

/* The library looks a glyph up by walking the font's tables, for every letter of
 * every line that is measured. Each answer is kept: what it was asked, in a bit. */
enum { CODES = 0x10000, WIDTH = 0x1FFF, KNOWN = 0x2000, ASKED = 0x4000, FIT = 0x8000 };

static mf_status load_face(mf_haru *haru, const char *dirs, mf_face face, mf_err *err)
{
    char path[FONT_PATH] = "";
    errno = 0; /* tells a lack of memory from a fault of the file */
    if (!mf_haru_face_file(path, sizeof path, dirs, face))
        return mf_haru_face_fail(err, path, false);
    if (!mf_glyf_read(&haru->outlines[face], path))
        return mf_haru_face_fail(err, path, true);
    const char *name = HPDF_LoadTTFontFromFile(haru->doc, path, HPDF_TRUE);
    HPDF_Font font = name == NULL ? NULL : HPDF_GetFont(haru->doc, name, "UTF-8");
    if (font == NULL)
        return report(haru, path, err);
    haru->known[face] = calloc(CODES, sizeof *haru->known[face]);
    if (haru->known[face] == NULL)
        return mf_fail_memory(err);
    haru->font[face] = font;
    haru->glyphs[face] = ((HPDF_FontAttr)font->attr)->fontdef;
    mend_unicode_map(haru, font);
    return MF_OK;
}

static unsigned width_of(const mf_haru *haru, mf_face face, uint16_t code)
{
    uint16_t *kept = &haru->known[face][code];
    if ((*kept & KNOWN) == 0) {
        int width = HPDF_TTFontDef_GetCharWidth(haru->glyphs[face], code);
        *kept |= (uint16_t)(KNOWN | (width < 0 ? 0 : width > WIDTH ? WIDTH : width));
    }
    return *kept & WIDTH;
}

bool mf_haru_has(const mf_haru *haru, mf_face face, int32_t code)
{
    if (code <= 0 || code >= CODES)
        return false;
    uint16_t *kept = &haru->known[face][code];
    if ((*kept & ASKED) == 0) {
        HPDF_UINT16 glyph = HPDF_TTFontDef_GetGlyphid(haru->glyphs[face], (HPDF_UINT16)code);
        bool fit = glyph != 0 && mf_glyf_safe(&haru->outlines[face], glyph);
        *kept |= (uint16_t)(ASKED | (fit ? FIT : 0));
    }
    return (*kept & FIT) != 0;
}

float mf_haru_width(const mf_haru *haru, mf_font font, const char *text, size_t len)
{
    int64_t thousandths = 0;
    const utf8proc_uint8_t *at = (const utf8proc_uint8_t *)text;
    utf8proc_ssize_t left = (utf8proc_ssize_t)len;
    while (left > 0) {
        utf8proc_int32_t code = *at;
        utf8proc_ssize_t n = code < 0x80 ? 1 : utf8proc_iterate(at, left, &code);
        if (n <= 0)
            break;
        thousandths += width_of(haru, font.face, (uint16_t)code);
        at += n;
        left -= n;
    }
    return (float)thousandths * font.size / 1000.0F;
}

/* ---- the document ---------------------------------------------------------- */

/* The codes of a text, two bytes each, high byte first: what the library's own function
 * makes, which writes at NULL when there is no memory. */
static char *encode(HPDF_Encoder encoder, const char *text, HPDF_UINT len, HPDF_UINT *encoded)
{
    (void)encoder;
    utf8proc_int32_t code = 0;
    char *out = mf_haru_own((size_t)len * 2);
    *encoded = 0;
    for (HPDF_UINT at = 0; out != NULL && at < len;) {
        utf8proc_ssize_t used = utf8proc_iterate((const utf8proc_uint8_t *)text + at,
                                                 (utf8proc_ssize_t)(len - at), &code);
        if (used < 1 || code > 0xFFFF)
            break; /* a text is cleaned before it is drawn */
        at += (HPDF_UINT)used;
        out[(*encoded)++] = (char)(code >> 8);
        out[(*encoded)++] = (char)(code & 0xFF);
    }
    return out;
}

static void set_up(mf_haru *haru, const char *title)
{
    mf_haru_check(haru, HPDF_SetCompressionMode(haru->doc, HPDF_COMP_ALL));
    mf_haru_check(haru, HPDF_UseUTFEncodings(haru->doc));
    mf_haru_check(haru, HPDF_SetCurrentEncoder(haru->doc, "UTF-8"));
    HPDF_Encoder utf8 = HPDF_GetEncoder(haru->doc, "UTF-8");
    if (utf8 != NULL)
        utf8->encode_text_fn = encode;
    mf_haru_check(haru, HPDF_SetInfoAttr(haru->doc, HPDF_INFO_TITLE, title));
    mf_haru_check(haru, HPDF_SetInfoAttr(haru->doc, HPDF_INFO_PRODUCER, "mistfold " MF_VERSION));
}

mf_status mf_haru_open(mf_haru **out, const char *font_dir, const char *title, mf_err *err)
{
    *out = NULL;
    mf_haru *haru = calloc(1, sizeof *haru);
    if (haru == NULL)
        return mf_fail_memory(err);
    mf_status status = MF_OK;
    haru->size = (mf_point){MF_PAPER_W, MF_PAPER_H};
    haru->mark = MF_NO_ELEMENT;
    haru->title = title;
    if (mf_haru_memory_begin(&haru->memory))
        haru->doc = HPDF_NewEx(remember, mf_haru_alloc, mf_haru_free, 0, haru);
    if (haru->doc == NULL) {
        status = mf_fail_memory(err);
        goto done;
    }
    set_up(haru, title);
    const char *dirs = font_dir == NULL ? MF_FONT_DIR : font_dir;
    for (int face = 0; face < MF_FACE_COUNT && status == MF_OK; face++)
        status = load_face(haru, dirs, (mf_face)face, err);
    if (status == MF_OK && mf_haru_failed(haru))
        status = report(haru, "paper", err);
done:
    if (status == MF_OK)
        *out = haru;
    else
        mf_haru_close(haru);
    return status;
}

void mf_haru_close(mf_haru *haru)
{
    if (haru == NULL)
        return;
    mf_haru_memory_use(&haru->memory);
    if (haru->doc != NULL)
        HPDF_Free(haru->doc);
    mf_haru_memory_end(&haru->memory);
    mf_tags_free(&haru->tags);
    for (int face = 0; face < MF_FACE_COUNT; face++)
        free(haru->known[face]);
    for (int face = 0; face < MF_FACE_COUNT; face++)
        mf_glyf_free(&haru->outlines[face]);
    free(haru->pages);
    free(haru);
}

void mf_haru_paper(mf_haru *haru, mf_point size)
{
    haru->size = size;
}

mf_point mf_haru_size(const mf_haru *haru)
{
    return haru->size;
}

int mf_haru_add_page(mf_haru *haru)
{
    HPDF_Page *grown = realloc(haru->pages, (haru->n_pages + 1) * sizeof(HPDF_Page));
    if (grown == NULL) {
        mf_haru_check(haru, HPDF_FAILD_TO_ALLOC_MEM);
        return (int)haru->n_pages;
    }
    haru->pages = grown;
    haru->page = mf_haru_goes_on(haru) ? HPDF_AddPage(haru->doc) : NULL;
    haru->pages[haru->n_pages++] = haru->page;
    if (haru->page != NULL)
        mf_haru_check(haru, HPDF_Page_SetWidth(haru->page, haru->size.x));
    if (haru->page != NULL)
        mf_haru_check(haru, HPDF_Page_SetHeight(haru->page, haru->size.y));
    if (haru->page != NULL) /* by it the map of the structure finds the page */
        mf_haru_check(haru, HPDF_Dict_AddNumber(haru->page, "StructParents",
                                                (HPDF_INT32)(haru->n_pages - 1)));
    return (int)haru->n_pages;
}

void mf_haru_go(mf_haru *haru, int page)
{
    if (page >= 1 && (size_t)page <= haru->n_pages)
        haru->page = haru->pages[page - 1];
}

/* The object of each page; the caller's to free, NULL when memory ran out. */
static long *page_numbers(const mf_haru *haru)
{
    long *list = calloc(haru->n_pages + 1, sizeof *list);
    for (size_t i = 0; list != NULL && i < haru->n_pages; i++)
        list[i] = (long)(haru->pages[i]->header.obj_id & 0x00FFFFFF);
    return list;
}

mf_status mf_haru_save(mf_haru *haru, mf_bytes *out, mf_err *err)
{
    mf_haru_mark_end(haru);
    if (mf_haru_goes_on(haru))
        mf_haru_check(haru, HPDF_SaveToStream(haru->doc));
    if (mf_haru_failed(haru))
        return report(haru, "paper", err);
    HPDF_UINT32 size = HPDF_GetStreamSize(haru->doc);
    unsigned char *data = malloc(size == 0 ? 1 : size);
    if (data == NULL)
        return mf_fail_memory(err);
    HPDF_UINT32 got = size;
    HPDF_STATUS code = HPDF_ReadFromStream(haru->doc, data, &got);
    if ((code != HPDF_OK && code != HPDF_STREAM_EOF) || got != size) {
        free(data);
        mf_haru_check(haru, code == HPDF_OK ? HPDF_STREAM_EOF : code);
        return report(haru, "paper", err);
    }
    long *page_no = page_numbers(haru);
    const mf_pdf_meta meta = {haru->title, haru->language == NULL ? "" : haru->language,
                              &haru->tags, page_no};
    out->data = data;
    out->len = size;
    mf_status status = page_no == NULL ? mf_fail_memory(err) : mf_pdf_meta_add(out, &meta, err);
    free(page_no);
    if (status != MF_OK)
        mf_bytes_free(out);
    return status;
}

/* ---- drawing ----------------------------------------------------------------- */

static bool ready(mf_haru *haru)
{
    return mf_haru_goes_on(haru) && haru->page != NULL;
}

static void set_fill(mf_haru *haru, mf_ink ink)
{
    if (haru->fill_page == haru->page && haru->fill == ink)
        return;
    haru->fill_page = haru->page;
    haru->fill = ink;
    const float *rgb = ink_rgb[ink];
    mf_haru_check(haru, HPDF_Page_SetRGBFill(haru->page, rgb[0], rgb[1], rgb[2]));
}

static void set_edge(mf_haru *haru, mf_ink ink, float thick)
{
    const float *rgb = ink_rgb[ink];
    mf_haru_check(haru, HPDF_Page_SetRGBStroke(haru->page, rgb[0], rgb[1], rgb[2]));
    mf_haru_check(haru, HPDF_Page_SetLineWidth(haru->page, thick));
}

static void choose(mf_haru *haru, mf_ink fill, mf_ink edge, float thick)
{
    mf_haru_mark_lines(haru);
    if (fill != MF_INK_NONE)
        set_fill(haru, fill);
    if (edge != MF_INK_NONE)
        set_edge(haru, edge, thick);
}

static void paint(mf_haru *haru, mf_ink fill, mf_ink edge)
{
    if (fill != MF_INK_NONE && edge != MF_INK_NONE)
        mf_haru_check(haru, HPDF_Page_FillStroke(haru->page));
    else if (fill != MF_INK_NONE)
        mf_haru_check(haru, HPDF_Page_Fill(haru->page));
    else if (edge != MF_INK_NONE)
        mf_haru_check(haru, HPDF_Page_Stroke(haru->page));
    else
        mf_haru_check(haru, HPDF_Page_EndPath(haru->page));
}

void mf_haru_text(mf_haru *haru, mf_font font, mf_ink ink, mf_point at, const char *text,
                  size_t len)
{
    if (!ready(haru) || len == 0)
        return;
    char *line = malloc(len + 1);
    if (line == NULL) {
        mf_haru_check(haru, HPDF_FAILD_TO_ALLOC_MEM);
        return;
    }
    memcpy(line, text, len);
    line[len] = '\0';
    mf_haru_mark_text(haru);
    set_fill(haru, ink);
    mf_haru_check(haru, HPDF_Page_BeginText(haru->page));
    mf_haru_check(haru, HPDF_Page_SetFontAndSize(haru->page, haru->font[font.face], font.size));
    mf_haru_check(haru, HPDF_Page_TextOut(haru->page, at.x, haru->size.y - at.y, line));
    mf_haru_check(haru, HPDF_Page_EndText(haru->page));
    free(line);
}

void mf_haru_line(mf_haru *haru, mf_ink ink, float thick, mf_point from, mf_point to)
{
    const mf_point ends[2] = {from, to};
    mf_haru_path(haru, MF_INK_NONE, ink, thick, ends, 2);
}

void mf_haru_rect(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, mf_point at, mf_point size)
{
    if (!ready(haru))
        return;
    choose(haru, fill, edge, thick);
    mf_haru_check(
        haru, HPDF_Page_Rectangle(haru->page, at.x, haru->size.y - at.y - size.y, size.x, size.y));
    paint(haru, fill, edge);
}

void mf_haru_disc(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, mf_point center,
                  float radius)
{
    if (!ready(haru))
        return;
    choose(haru, fill, edge, thick);
    mf_haru_check(haru, HPDF_Page_Circle(haru->page, center.x, haru->size.y - center.y, radius));
    paint(haru, fill, edge);
}

void mf_haru_path(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, const mf_point *points,
                  size_t n)
{
    if (!ready(haru) || n < 2)
        return;
    choose(haru, fill, edge, thick);
    mf_haru_check(haru, HPDF_Page_MoveTo(haru->page, points[0].x, haru->size.y - points[0].y));
    for (size_t i = 1; i < n; i++)
        mf_haru_check(haru, HPDF_Page_LineTo(haru->page, points[i].x, haru->size.y - points[i].y));
    if (fill != MF_INK_NONE)
        mf_haru_check(haru, HPDF_Page_ClosePath(haru->page));
    paint(haru, fill, edge);
}

void mf_haru_jpeg(mf_haru *haru, const mf_bytes *jpeg, mf_point at, mf_point size)
{
    if (!ready(haru))
        return;
    mf_haru_mark_lines(haru);
    HPDF_Image image = HPDF_LoadJpegImageFromMem(haru->doc, jpeg->data, (HPDF_UINT)jpeg->len);
    if (image != NULL)
        mf_haru_check(haru, HPDF_Page_DrawImage(haru->page, image, at.x,
                                                haru->size.y - at.y - size.y, size.x, size.y));
}

void mf_haru_dash(mf_haru *haru, unsigned on, unsigned off)
{
    const HPDF_UINT16 pattern[2] = {(HPDF_UINT16)on, (HPDF_UINT16)off};
    if (ready(haru))
        mf_haru_check(haru,
                      HPDF_Page_SetDash(haru->page, on == 0 ? NULL : pattern, on == 0 ? 0 : 2, 0));
}
