#include <mistfold/seal.h>
#include <openssl/evp.h>
#include <string.h>

void mf_sha256_hex(const unsigned char *data, size_t len, char out[MF_FINGERPRINT_HEX])
{
    const char digits[] = "0123456789abcdef";
    unsigned char digest[32];
    size_t n = 0;
    /* It fails only when OpenSSL has no SHA-256 at all; then there is no hash,
     * and "" equals none. */
    if (EVP_Q_digest(NULL, "SHA256", NULL, data, len, digest, &n) != 1 || n != sizeof digest)
        n = 0;
    for (size_t i = 0; i < n; i++) {
        out[2 * i] = digits[digest[i] >> 4];
        out[2 * i + 1] = digits[digest[i] & 15];
    }
    out[2 * n] = '\0';
}
