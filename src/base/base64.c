#include "base/base64.h"

#include <stdlib.h>
#include <string.h>

static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

static void put_three(char four[4], const unsigned char *three, size_t n)
{
    unsigned bits = (unsigned)three[0] << 16 | (n > 1 ? (unsigned)three[1] << 8 : 0) |
                    (n > 2 ? (unsigned)three[2] : 0);
    for (int i = 0; i < 4; i++)
        four[i] = letters[bits >> (18 - 6 * i) & 63];
    if (n < 3)
        four[3] = '=';
    if (n < 2)
        four[2] = '=';
}

void mf_base64_put(mf_buf *out, const unsigned char *bytes, size_t len)
{
    char four[4];
    for (size_t at = 0; at < len; at += 3) {
        put_three(four, bytes + at, len - at < 3 ? len - at : 3);
        mf_buf_add(out, four, sizeof four);
    }
}

/* The place of a letter, -1 = it is none. */
static int value_of(char letter)
{
    const char *at = letter == '\0' ? NULL : strchr(letters, letter);
    return at == NULL ? -1 : (int)(at - letters);
}

/* Four letters of which the last pad are signs of equality. The bits that stand for nothing
 * are zero, so that bytes have one text. */
static bool get_three(unsigned char *out, const char *four, size_t pad)
{
    unsigned bits = 0;
    for (size_t i = 0; i < 4; i++) {
        int value = i < 4 - pad ? value_of(four[i]) : four[i] == '=' ? 0 : -1;
        if (value < 0)
            return false;
        bits = bits << 6 | (unsigned)value;
    }
    for (size_t i = 0; i < 3 - pad; i++)
        out[i] = (unsigned char)(bits >> (16 - 8 * i));
    return (bits & (pad == 0 ? 0U : pad == 1 ? 0xFFU : 0xFFFFU)) == 0;
}

bool mf_base64_get(mf_bytes *out, const char *text)
{
    size_t len = strlen(text), pad = 0;
    *out = (mf_bytes){0};
    if (len == 0 || len % 4 != 0)
        return false;
    while (pad < 2 && text[len - 1 - pad] == '=')
        pad++;
    unsigned char *data = malloc(len / 4 * 3 + 1);
    bool good = data != NULL;
    for (size_t at = 0; good && at < len; at += 4)
        good = get_three(data + at / 4 * 3, text + at, at + 4 == len ? pad : 0);
    if (!good) {
        free(data);
        return false;
    }
    *out = (mf_bytes){data, len / 4 * 3 - pad};
    return true;
}
