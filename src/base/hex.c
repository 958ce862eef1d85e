#include "base/hex.h"

#include <string.h>

static const char digits_of[] = "0123456789abcdef";

void mf_hex_digits(const void *bytes, size_t len, char *out)
{
    const unsigned char *from = bytes;
    for (size_t i = 0; i < len; i++) {
        *out++ = digits_of[from[i] >> 4];
        *out++ = digits_of[from[i] & 15];
    }
}

void mf_hex(const void *bytes, size_t len, char *out)
{
    mf_hex_digits(bytes, len, out);
    out[2 * len] = '\0';
}

static unsigned digit(char c)
{
    return (unsigned)(c <= '9' ? c - '0' : c - 'a' + 10);
}

bool mf_hex_bytes(const char *text, void *out, size_t len)
{
    unsigned char *to = out;
    if (!mf_hex_is(text, 2 * len))
        return false;
    for (size_t i = 0; i < len; i++)
        to[i] = (unsigned char)(digit(text[2 * i]) << 4 | digit(text[2 * i + 1]));
    return true;
}

bool mf_hex_is(const char *text, size_t digits)
{
    return strlen(text) == digits && strspn(text, digits_of) == digits;
}
