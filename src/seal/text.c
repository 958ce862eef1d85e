#include "seal/text.h"

#include "base/utf8.h"
#include <stdbool.h>
#include <string.h>

int mf_text_count(const char *text)
{
    size_t len = strlen(text), step = 0;
    int n = 0;
    for (size_t at = 0; at < len; at += step, n++) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        if (step == 0 || mf_utf8_is_control(c))
            return -1;
    }
    return n;
}

void mf_text_tame(char *out, size_t size, const unsigned char *text, size_t len)
{
    size_t n = 0, step = 0;
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        const char *from = (const char *)text + at;
        step = mf_utf8_next(from, len - at, &c);
        bool tame = step > 0 && mf_utf8_is_seen(c);
        size_t bytes = tame ? step : 1;
        if (n + bytes >= size)
            break;
        memcpy(out + n, tame ? from : "?", bytes);
        n += bytes;
        step = step == 0 ? 1 : step;
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
    size_t len = strlen(text), step = 0;
    bool ascii = true;
    for (size_t i = 0; i < len; i++)
        ascii = ascii && text[i] >= 0x20 && text[i] < 0x7f;
    if (ascii) {
        put_ascii(out, text);
        return;
    }
    mf_buf_text(out, "<FEFF");
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        put_utf16(out, step == 0 ? 0xfffd : c);
        step = step == 0 ? 1 : step;
    }
    mf_buf_text(out, ">");
}
