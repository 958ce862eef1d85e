#include "seal/plain.h"

#include <string.h>

#define OBJECTS_MAX 256 /* that an update for a seal has; ours has six at most */
#define ENTRY_SIZE  20  /* ISO 32000-1, 7.5.4 */

/* The update: bytes [from, src->len) of the newer revision. */
typedef struct span {
    mf_pdf *pdf;
    size_t from;
    const mf_xref_entry *object[OBJECTS_MAX];
    size_t n;
} span;

/* ---- exact bytes ----------------------------------------------------------------------- */

static bool word_at(const mf_pdf_src *src, size_t at, const char *word)
{
    size_t len = strlen(word);
    return at <= src->len && src->len - at >= len && memcmp(src->data + at, word, len) == 0;
}

static unsigned char byte_at(const mf_pdf_src *src, size_t at)
{
    return at < src->len ? src->data[at] : 0;
}

static bool is_digit(unsigned char c)
{
    return c >= '0' && c <= '9';
}

/* Steps over so many digits at most; false when there is none. */
static bool digits(const mf_pdf_src *src, size_t *at, size_t most)
{
    size_t from = *at;
    while (*at - from < most && is_digit(byte_at(src, *at)))
        ++*at;
    return *at > from;
}

static bool line_end(const mf_pdf_src *src, size_t *at)
{
    size_t from = *at;
    if (byte_at(src, *at) == '\r')
        ++*at;
    if (byte_at(src, *at) == '\n')
        ++*at;
    return *at > from;
}

/* ---- the table and the end ---------------------------------------------------------------- */

/* Twenty bytes. An object of the update lies in the update: one that lies elsewhere, or
 * nowhere, sends some readers looking for it. Nothing is freed but number 0. */
static bool plain_entry(const span *s, size_t at, int64_t num)
{
    const mf_pdf_src *src = &s->pdf->src;
    const unsigned char *p = src->data + at;
    size_t offset = 0;
    if (at > src->len || src->len - at < ENTRY_SIZE)
        return false;
    for (size_t i = 0; i < 16; i++)
        if (i == 10 ? p[i] != ' ' : !is_digit(p[i]))
            return false;
    for (size_t i = 0; i < 10; i++)
        offset = offset * 10 + (size_t)(p[i] - '0');
    bool ends =
        (p[18] == ' ' && (p[19] == '\r' || p[19] == '\n')) || (p[18] == '\r' && p[19] == '\n');
    return p[16] == ' ' && ends &&
           (p[17] == 'n' ? offset >= s->from && offset < src->len : p[17] == 'f' && num == 0);
}

/* The table at *at, of which the tokens were read before; *at goes to its trailer. */
static bool plain_table(const span *s, size_t *at)
{
    mf_pdf_src *src = &s->pdf->src;
    *at += strlen("xref");
    if (!line_end(src, at))
        return false;
    while (!word_at(src, *at, "trailer")) {
        mf_tok first = mf_tok_next(src, *at), count = mf_tok_next(src, first.end);
        if (!digits(src, at, 10) || byte_at(src, (*at)++) != ' ' || !digits(src, at, 10) ||
            *at != count.end)
            return false;
        if (byte_at(src, *at) == ' ')
            ++*at;
        if (!line_end(src, at))
            return false;
        for (int64_t i = 0; i < count.number; i++, *at += ENTRY_SIZE)
            if (!plain_entry(s, *at, first.number + i))
                return false;
    }
    return true;
}

/* One section, and before it the one that the older revision begins with. */
static bool plain_section(const span *s, const mf_pdf *older)
{
    size_t at = s->pdf->startxref;
    mf_tok prev = mf_dict_get(&s->pdf->src, s->pdf->trailer, "Prev");
    return at >= s->from && prev.kind == MF_TOK_INT && prev.number >= 0 &&
           (size_t)prev.number == older->startxref && plain_table(s, &at);
}

/* The last three lines: startxref, the number, %%EOF. */
static bool plain_end(const span *s)
{
    const mf_pdf_src *src = &s->pdf->src;
    size_t at = src->len;
    while (at > s->from && !word_at(src, at, "startxref"))
        at--;
    bool on_line = byte_at(src, at - 1) == '\n' || byte_at(src, at - 1) == '\r';
    at += strlen("startxref");
    if (!on_line || !line_end(src, &at) || !digits(src, &at, 15) || !line_end(src, &at) ||
        !word_at(src, at, "%%EOF"))
        return false;
    at += strlen("%%EOF");
    line_end(src, &at);
    return at == src->len;
}

/* ---- the trailer ---------------------------------------------------------------------------- */

static bool same_entry(mf_pdf *older, mf_pdf *newer, const char *key)
{
    mf_tok a = mf_dict_get(&older->src, older->trailer, key);
    mf_tok b = mf_dict_get(&newer->src, newer->trailer, key);
    if (a.kind == MF_TOK_END || a.kind == MF_TOK_BAD)
        return b.kind == a.kind && a.kind == MF_TOK_END;
    return a.kind == b.kind && a.kind == MF_TOK_REF && a.number == b.number && a.gen == b.gen;
}

/* Encryption would make other words of the sealed ones, another /Info gives another
 * title; objects from /Size on are missing for a reader that does as it should. */
static bool plain_trailer(mf_pdf *older, mf_pdf *newer)
{
    mf_tok size = mf_dict_get(&newer->src, newer->trailer, "Size");
    return same_entry(older, newer, "Encrypt") && same_entry(older, newer, "Info") &&
           size.kind == MF_TOK_INT && size.number > newer->entry[newer->n - 1].num;
}

/* ---- objects that no table names --------------------------------------------------------------
 */

/* A stream that holds objects, or a table, for a reader that looks for them; or an object
 * of another number than the table says, which sends a reader looking. */
static bool is_odd(span *s, const mf_xref_entry *entry)
{
    mf_pdf_src *src = &s->pdf->src;
    mf_tok ref = {.kind = MF_TOK_REF, .number = entry->num, .gen = entry->gen};
    mf_tok val = mf_pdf_object(s->pdf, ref);
    mf_tok kind = mf_dict_get(src, val, "Type");
    return val.kind == MF_TOK_BAD || kind.kind == MF_TOK_BAD ||
           mf_tok_is_name(src, kind, "ObjStm") || mf_tok_is_name(src, kind, "XRef");
}

static bool collect(span *s)
{
    for (size_t i = 0; i < s->pdf->n; i++) {
        const mf_xref_entry *entry = &s->pdf->entry[i];
        if (!entry->used || entry->offset < s->from)
            continue;
        if (s->n == OBJECTS_MAX || is_odd(s, entry))
            return false;
        s->object[s->n++] = entry;
    }
    return true;
}

/* Whether the word obj at this place is that of an object in the table. */
static bool is_named(const span *s, size_t at)
{
    const mf_pdf_src *src = &s->pdf->src;
    for (size_t i = 0; i < s->n; i++) {
        size_t p = s->object[i]->offset;
        if (p < at && at - p < 32 && digits(src, &p, 15) && byte_at(src, p++) == ' ' &&
            digits(src, &p, 5) && byte_at(src, p++) == ' ' && p == at)
            return true;
    }
    return false;
}

static bool is_word_end(unsigned char c)
{
    return mf_pdf_is_space(c) || strchr("()<>[]{}/%", c) != NULL;
}

/* "12 0 obj" with anything between that some reader takes for a space. In a text the
 * letters may well stand: "no objections". */
static bool begins_object(const mf_pdf_src *src, size_t at)
{
    size_t before = at - 1;
    while (before > 0 && mf_pdf_is_space(src->data[before]))
        before--;
    return is_digit(src->data[before]) ||
           (before < at - 1 && is_word_end(byte_at(src, at + strlen("obj"))));
}

static bool begins_trailer(const mf_pdf_src *src, size_t at)
{
    at += strlen("trailer");
    while (at < src->len && mf_pdf_is_space(src->data[at]))
        at++;
    return byte_at(src, at) == '<' || byte_at(src, at) == '%';
}

/* In streams and strings as well: a reader that looks for objects reads over their
 * ends. */
static bool nothing_hidden(const span *s)
{
    const mf_pdf_src *src = &s->pdf->src;
    size_t trailers = 0;
    for (size_t at = s->from; at < src->len; at++) {
        if (src->data[at] == 'o' && word_at(src, at, "obj") && begins_object(src, at) &&
            !is_named(s, at))
            return false;
        if (src->data[at] == 't' && word_at(src, at, "trailer") && begins_trailer(src, at))
            trailers++;
    }
    return trailers == 1;
}

bool mf_plain_update(mf_pdf *older, mf_pdf *newer)
{
    span s = {.pdf = newer, .from = older->src.len};
    return plain_end(&s) && plain_section(&s, older) && plain_trailer(older, newer) &&
           collect(&s) && nothing_hidden(&s);
}
