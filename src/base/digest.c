#include "base/digest.h"

#include <openssl/evp.h>

bool mf_digest_hex(const void *bytes, size_t len, char out[MF_DIGEST_HEX])
{
    static const char hex[] = "0123456789abcdef";
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned int n = 0;
    out[0] = '\0';
    if (EVP_Digest(bytes, len, digest, &n, EVP_sha256(), NULL) != 1 || n != 32)
        return false;
    for (size_t i = 0; i < n; i++) {
        out[2 * i] = hex[digest[i] >> 4];
        out[2 * i + 1] = hex[digest[i] & 15];
    }
    out[MF_DIGEST_HEX - 1] = '\0';
    return true;
}
