#include "paper/text.h"

#include "base/fail.h"

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

/* Shapes that need joining or turning round would be drawn wrongly without a
 * word, so they are refused as well. */
static bool turns(utf8proc_int32_t code)
{
    const utf8proc_property_t *property = utf8proc_get_property(code);
    switch (property->bidi_class) {
    case UTF8PROC_BIDI_CLASS_R:
    case UTF8PROC_BIDI_CLASS_AL:
    case UTF8PROC_BIDI_CLASS_AN:
        return true;
    default:
        return false;
    }
}

static bool drawable(const mf_haru *haru, mf_face face, utf8proc_int32_t code)
{
    if (code == '\n')
        return true;
    switch (utf8proc_category(code)) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_CO:
    case UTF8PROC_CATEGORY_CN:
        return false;
    default:
        return !turns(code) && mf_haru_has(haru, face, code);
    }
}

/* Room for what the message quotes: whole characters only. */
static int quote_len(const char *text)
{
    size_t len = strlen(text);
    if (len <= 60)
        return (int)len;
    len = 60;
    while (len > 0 && ((unsigned char)text[len] & 0xC0) == 0x80)
        len--;
    return (int)len;
}

static void refuse(mf_haru *haru, utf8proc_int32_t code, const char *text, const char *where)
{
    mf_err err = {0};
    mf_failf(&err, MF_INPUT, where, "the fonts of the papers cannot show it rightly",
             "correct the entry and write it in Latin, Greek or Cyrillic letters and common signs",
             "the character U+%04X in \"%.*s\" cannot be printed", (unsigned)code, quote_len(text),
             text);
    mf_haru_fail(haru, &err);
}

static void refuse_bytes(mf_haru *haru, const char *where)
{
    mf_err err = {0};
    mf_fail(&err, MF_INPUT, where, "a text is not UTF-8", "papers are drawn from UTF-8 text",
            "correct the entry");
    mf_haru_fail(haru, &err);
}

static bool check_all(mf_haru *haru, mf_face face, const char *text, const char *where)
{
    const utf8proc_uint8_t *at = (const utf8proc_uint8_t *)text;
    while (*at != 0) {
        utf8proc_int32_t code = 0;
        utf8proc_ssize_t n = utf8proc_iterate(at, -1, &code);
        if (n <= 0) {
            refuse_bytes(haru, where);
            return false;
        }
        if (!drawable(haru, face, code)) {
            refuse(haru, code, text, where);
            return false;
        }
        at += n;
    }
    return true;
}

static bool ascii(const char *text)
{
    for (const unsigned char *at = (const unsigned char *)text; *at != 0; at++)
        if (*at >= 0x80)
            return false;
    return true;
}

const char *mf_text_ready(mf_haru *haru, mf_arena *arena, mf_face face, const char *text,
                          const char *where)
{
    if (text == NULL || *text == '\0' || mf_haru_failed(haru))
        return "";
    char *composed = NULL;
    if (ascii(text)) {
        composed = mf_arena_text(arena, text);
    } else {
        /* utf8proc_NFC() does not say why it fails. */
        utf8proc_uint8_t *nfc = NULL;
        utf8proc_ssize_t n = utf8proc_map((const utf8proc_uint8_t *)text, 0, &nfc,
                                          UTF8PROC_NULLTERM | UTF8PROC_STABLE | UTF8PROC_COMPOSE);
        if (n < 0 && n != UTF8PROC_ERROR_NOMEM) {
            refuse_bytes(haru, where);
            return "";
        }
        composed = n < 0 ? NULL : mf_arena_text(arena, (const char *)nfc);
        free(nfc);
    }
    if (composed == NULL) {
        mf_err err = {0};
        mf_fail_memory(&err);
        mf_haru_fail(haru, &err);
        return "";
    }
    return check_all(haru, face, composed, where) ? composed : "";
}

/* ---- wrapping ------------------------------------------------------------------ */

/* Bytes of the first character with the marks that stand on it. */
static size_t cluster(const char *text)
{
    const utf8proc_uint8_t *at = (const utf8proc_uint8_t *)text;
    utf8proc_int32_t code = 0;
    utf8proc_ssize_t n = utf8proc_iterate(at, -1, &code);
    size_t len = n > 0 ? (size_t)n : 1;
    for (;;) {
        n = utf8proc_iterate(at + len, -1, &code);
        if (n <= 0 || code == 0 || utf8proc_category(code) != UTF8PROC_CATEGORY_MN)
            return len;
        len += (size_t)n;
    }
}

/* The last place in the first len bytes where a person would part a number or an id: after
 * a sign between letters, not right at its start. 0 = none. */
static size_t seam(const char *word, size_t len)
{
    for (size_t at = len; at > len / 3 && at > 1; at--)
        if (strchr("-/.,;:_", word[at - 1]) != NULL)
            return at;
    return 0;
}

/* As much of an over-wide word as fits, parted at a sign in it if it has one; at least one
 * character. */
static size_t piece(const mf_haru *haru, mf_font font, const char *word, size_t len, float width)
{
    size_t fits = cluster(word);
    while (fits < len) {
        size_t more = fits + cluster(word + fits);
        if (more > len || mf_haru_width(haru, font, word, more) > width)
            break;
        fits = more;
    }
    size_t parted = fits < len ? seam(word, fits) : 0;
    return parted > 0 ? parted : fits;
}

/* Length of the line that begins at text. */
static size_t take_line(const mf_haru *haru, mf_font font, const char *text, float width)
{
    size_t taken = 0;
    for (;;) {
        size_t next = taken;
        while (text[next] == ' ')
            next++;
        size_t end = next + strcspn(text + next, " \n");
        if (end == next)
            return taken;
        if (mf_haru_width(haru, font, text, end) > width) {
            if (taken > 0)
                return taken;
            return next + piece(haru, font, text + next, end - next, width);
        }
        taken = end;
        if (text[taken] == '\0' || text[taken] == '\n')
            return taken;
    }
}

size_t mf_text_wrap(const mf_haru *haru, mf_font font, const char *text, float width,
                    mf_line *lines, size_t cap)
{
    size_t n = 0;
    while (*text != '\0') {
        while (*text == ' ')
            text++;
        if (*text == '\0')
            break;
        size_t len = take_line(haru, font, text, width);
        if (n < cap)
            lines[n] = (mf_line){text, len};
        n++;
        text += len;
        while (*text == ' ')
            text++;
        if (*text == '\n')
            text++;
    }
    return n;
}
