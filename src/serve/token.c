#include "serve/token.h"

#include "base/base64.h"
#include "base/fail.h"

#include <openssl/rand.h>
#include <string.h>

enum { BYTES = 32 };

static void url_safe(char *text)
{
    for (; *text != '\0'; text++)
        *text = *text == '+' ? '-' : *text == '/' ? '_' : *text;
}

mf_status mf_token_new(char out[MF_TOKEN], char sha256[MF_DIGEST_HEX], mf_err *err)
{
    unsigned char bytes[BYTES];
    mf_buf text = {0};
    if (RAND_bytes(bytes, sizeof bytes) != 1)
        return mf_fail(err, MF_SYSTEM, "", "the system gives no random numbers", "",
                       "try again; nothing was written");
    mf_base64_put(&text, bytes, sizeof bytes);
    bool good = !text.failed && text.len == MF_TOKEN; /* with one sign of padding */
    if (good) {
        memcpy(out, text.data, MF_TOKEN - 1);
        out[MF_TOKEN - 1] = '\0';
        url_safe(out);
        good = mf_digest_hex(out, MF_TOKEN - 1, sha256);
        memset(text.data, 0, text.len);
    }
    mf_buf_free(&text);
    return good ? MF_OK : mf_fail_memory(err);
}
