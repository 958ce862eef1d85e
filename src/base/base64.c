#include "base/base64.h"

#include <openssl/evp.h>
#include <stdlib.h>
#include <string.h>

void mf_base64_put(mf_buf *out, const unsigned char *bytes, size_t len)
{
    unsigned char four[5];
    for (size_t at = 0; at < len; at += 3) {
        int n = EVP_EncodeBlock(four, bytes + at, len - at < 3 ? (int)(len - at) : 3);
        mf_buf_add(out, four, (size_t)n);
    }
}

bool mf_base64_get(mf_bytes *out, const char *text)
{
    size_t len = strlen(text), pad = 0;
    *out = (mf_bytes){0};
    if (len == 0 || len % 4 != 0 || len > INT32_MAX)
        return false;
    while (pad < 2 && text[len - 1 - pad] == '=')
        pad++;
    unsigned char *data = malloc(len / 4 * 3 + 1);
    if (data == NULL || EVP_DecodeBlock(data, (const unsigned char *)text, (int)len) < 0) {
        free(data);
        return false;
    }
    *out = (mf_bytes){data, len / 4 * 3 - pad};
    return true;
}
