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

bool mf_hex_is(const char *text, size_t digits)
{
    return strlen(text) == digits && strspn(text, digits_of) == digits;
}
