#include "seal/text.h"

#include <stdbool.h>
#include <string.h>

/* The character at *at and a step over it; -1 and no step when there is none.
 * Overlong forms, surrogates and numbers above U+10FFFF are none (RFC 3629). */
static int32_t next_char(const unsigned char **at, const unsigned char *stop)
{
    static const int32_t least[] = {0, 0x80, 0x800, 0x10000};
    const unsigned char *p = *at;
    int more = *p < 0x80 ? 0 : *p < 0xc2 ? -1 : *p < 0xe0 ? 1 : *p < 0xf0 ? 2 : *p < 0xf5 ? 3 : -1;
    if (more < 0 || stop - p <= more)
        return -1;
    int32_t c = more == 0 ? *p : *p & (0x3f >> more);
    for (int i = 1; i <= more; i++) {
        if ((p[i] & 0xc0) != 0x80)
            return -1;
        c = c << 6 | (p[i] & 0x3f);
    }
    if (c < least[more] || c > 0x10ffff || (c >= 0xd800 && c <= 0xdfff))
        return -1;
    *at = p + more + 1;
    return c;
}

/* Also the marks that turn the direction of writing: with them a name reads as
 * another one. */
static bool is_control(int32_t c)
{
    return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0x2028 || c == 0x2029 ||
           (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

int mf_text_count(const char *text)
{
    const unsigned char *at = (const unsigned char *)text, *stop = at + strlen(text);
    int n = 0;
    for (; at < stop; n++) {
        int32_t c = next_char(&at, stop);
        if (c < 0 || is_control(c))
            return -1;
    }
    return n;
}

void mf_text_tame(char *out, size_t size, const unsigned char *text, size_t len)
{
    const unsigned char *at = text, *stop = text + len;
    size_t n = 0;
    while (at < stop) {
        const unsigned char *from = at;
        int32_t c = next_char(&at, stop);
        bool tame = c >= 0 && !is_control(c);
        if (c < 0)
            at++;
        size_t bytes = tame ? (size_t)(at - from) : 1;
        if (n + bytes >= size)
            break;
        memcpy(out + n, tame ? (const char *)from : "?", bytes);
        n += bytes;
    }
    out[n] = '\0';
}

static void put_utf16(mf_buf *out, int32_t c)
{
    unsigned u = (unsigned)c;
    if (u >= 0x10000) {
        u -= 0x10000;
        mf_buf_printf(out, "%04X%04X", 0xd800U | u >> 10, 0xdc00U | (u & 0x3ff));
    } else {
        mf_buf_printf(out, "%04X", u);
    }
}

static void put_ascii(mf_buf *out, const char *text)
{
    mf_buf_text(out, "(");
    for (; *text != '\0'; text++) {
        if (*text == '(' || *text == ')' || *text == '\\')
            mf_buf_text(out, "\\");
        mf_buf_add(out, text, 1);
    }
    mf_buf_text(out, ")");
}

void mf_text_pdf(mf_buf *out, const char *text)
{
    const unsigned char *at = (const unsigned char *)text, *stop = at + strlen(text);
    bool ascii = true;
    for (const unsigned char *p = at; p < stop; p++)
        ascii = ascii && *p >= 0x20 && *p < 0x7f;
    if (ascii) {
        put_ascii(out, text);
        return;
    }
    mf_buf_text(out, "<FEFF");
    while (at < stop) {
        int32_t c = next_char(&at, stop);
        if (c < 0)
            at++;
        put_utf16(out, c < 0 ? 0xfffd : c);
    }
    mf_buf_text(out, ">");
}
