#include "base/digest.h"

#include "base/hex.h"

#include <openssl/crypto.h>
#include <openssl/evp.h>

/* OpenSSL 3.0 goes on with a lock it does not have when there was no memory for its
 * own beginning; asked for its context it says so. */
static bool usable(void)
{
    return OSSL_LIB_CTX_get0_global_default() != NULL;
}

bool mf_digest_hex(const void *bytes, size_t len, char out[MF_DIGEST_HEX])
{
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned int n = 0;
    out[0] = '\0';
    if (!usable() || EVP_Digest(bytes, len, digest, &n, EVP_sha256(), NULL) != 1 || n != 32)
        return false;
    mf_hex(digest, n, out);
    return true;
}

/* An mf_digest is OpenSSL's context by another name. */
mf_digest *mf_digest_begin(void)
{
    EVP_MD_CTX *context = usable() ? EVP_MD_CTX_new() : NULL;
    if (context != NULL && EVP_DigestInit_ex(context, EVP_sha256(), NULL) != 1) {
        EVP_MD_CTX_free(context);
        context = NULL;
    }
    return (mf_digest *)context;
}

bool mf_digest_add(mf_digest *digest, const void *bytes, size_t len)
{
    return EVP_DigestUpdate((EVP_MD_CTX *)digest, bytes, len) == 1;
}

bool mf_digest_of(void *digest, const void *bytes, size_t len, char out[MF_DIGEST_HEX])
{
    unsigned char hash[EVP_MAX_MD_SIZE];
    unsigned int n = 0;
    EVP_MD_CTX *context = digest;
    bool good = EVP_DigestInit_ex(context, NULL, NULL) == 1 &&
                EVP_DigestUpdate(context, bytes, len) == 1 &&
                EVP_DigestFinal_ex(context, hash, &n) == 1 && n == 32;
    out[0] = '\0';
    if (good)
        mf_hex(hash, n, out);
    return good;
}

bool mf_digest_end(mf_digest *digest, char out[MF_DIGEST_HEX])
{
    unsigned char bytes[EVP_MAX_MD_SIZE];
    unsigned int n = 0;
    EVP_MD_CTX *context = (EVP_MD_CTX *)digest;
    bool good =
        context != NULL && out != NULL && EVP_DigestFinal_ex(context, bytes, &n) == 1 && n == 32;
    if (good)
        mf_hex(bytes, n, out);
    EVP_MD_CTX_free(context);
    return good;
}
