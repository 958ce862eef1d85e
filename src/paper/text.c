#include "paper/text.h"

#include "base/fail.h"

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

/* Shapes that need joining or turning round would be drawn wrongly without a
 * word, so they are spelled out as well. */
static bool turns(const utf8proc_property_t *property)
{
    switch (property->bidi_class) {
    case UTF8PROC_BIDI_CLASS_R:
    case UTF8PROC_BIDI_CLASS_AL:
    case UTF8PROC_BIDI_CLASS_AN:
        return true;
    default:
        return false;
    }
}

/* Nobody sees a sign that is there to be ignored, or one that ends a line of its own. */
static bool unseen(const utf8proc_property_t *property)
{
    switch (property->category) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_CO:
    case UTF8PROC_CATEGORY_CN:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
        return true;
    default:
        return property->ignorable != 0;
    }
}

static bool drawable(const mf_haru *haru, mf_face face, utf8proc_int32_t code)
{
    const utf8proc_property_t *property = utf8proc_get_property(code);
    return code == '\n' || (!unseen(property) && !turns(property) && mf_haru_has(haru, face, code));
}

static bool mark_on(utf8proc_int32_t code)
{
    utf8proc_category_t category = utf8proc_category(code);
    return category == UTF8PROC_CATEGORY_MN || category == UTF8PROC_CATEGORY_MC ||
           category == UTF8PROC_CATEGORY_ME;
}

static void refuse_bytes(mf_haru *haru, const char *where)
{
    mf_err err = {0};
    mf_fail(&err, MF_INPUT, where, "a text is not UTF-8", "papers are drawn from UTF-8 text",
            "correct the entry");
    mf_haru_fail(haru, &err);
}

/* Whether a character is spelled out: also the mark on one that is, and the bracket of what
 * was typed like a number, so that each bracket on a paper has one meaning. */
static bool spell(const mf_haru *haru, mf_face face, utf8proc_int32_t code, const char *rest,
                  bool after)
{
    if (code == '[')
        return strncmp(rest, "U+", 2) == 0;
    return !drawable(haru, face, code) || (after && mark_on(code));
}

/* The text with "[U+1F600]" for each character that cannot be drawn rightly: nothing that was
 * typed keeps a paper from being drawn, and nothing of it is left out. */
static bool spell_out(mf_haru *haru, mf_face face, const char *text, const char *where, mf_buf *out,
                      bool *spelled)
{
    bool after = false;
    while (*text != '\0') {
        utf8proc_int32_t code = 0;
        utf8proc_ssize_t n = utf8proc_iterate((const utf8proc_uint8_t *)text, -1, &code);
        if (n <= 0) {
            refuse_bytes(haru, where);
            return false;
        }
        after = spell(haru, face, code, text + n, after);
        if (after)
            mf_buf_printf(out, "[U+%04X]", (unsigned)code);
        else
            mf_buf_add(out, text, (size_t)n);
        *spelled = *spelled || after;
        text += n;
    }
    return true;
}

static void lacks_memory(mf_haru *haru)
{
    mf_err err = {0};
    mf_fail_memory(&err);
    mf_haru_fail(haru, &err);
}

/* In composed form, the caller's to free; NULL when the haru has failed. */
static char *composed(mf_haru *haru, const char *text, const char *where)
{
    /* utf8proc_NFC() does not say why it fails. */
    utf8proc_uint8_t *nfc = NULL;
    utf8proc_ssize_t n = utf8proc_map((const utf8proc_uint8_t *)text, 0, &nfc,
                                      UTF8PROC_NULLTERM | UTF8PROC_STABLE | UTF8PROC_COMPOSE);
    if (n == UTF8PROC_ERROR_NOMEM)
        lacks_memory(haru);
    else if (n < 0)
        refuse_bytes(haru, where);
    return n < 0 ? NULL : (char *)nfc;
}

static bool plain(const char *text)
{
    for (const unsigned char *at = (const unsigned char *)text; *at != 0; at++)
        if (*at >= 0x7F || (*at < ' ' && *at != '\n') || *at == '[')
            return false;
    return true;
}

const char *mf_text_ready(mf_haru *haru, mf_arena *arena, mf_face face, const char *text,
                          const char *where, bool *spelled)
{
    if (text == NULL || *text == '\0' || mf_haru_failed(haru))
        return "";
    const char *ready = NULL;
    if (plain(text)) {
        ready = mf_arena_text(arena, text);
    } else {
        mf_buf buf = {0};
        char *nfc = composed(haru, text, where);
        if (nfc == NULL)
            return "";
        const bool all = spell_out(haru, face, nfc, where, &buf, spelled);
        ready = buf.failed ? NULL : mf_arena_text(arena, all ? mf_buf_str(&buf) : "");
        free(nfc);
        mf_buf_free(&buf);
    }
    if (ready == NULL)
        lacks_memory(haru);
    return ready == NULL ? "" : ready;
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
