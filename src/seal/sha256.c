/* SHA-256 as text, for whoever only has the seal room's header. */
#include "base/digest.h"
#include <assert.h>
#include <mistfold/seal.h>

static_assert(MF_FINGERPRINT_HEX == MF_DIGEST_HEX, "one form of a hash in hex");

void mf_sha256_hex(const unsigned char *data, size_t len, char out[MF_FINGERPRINT_HEX])
{
    /* It fails only when OpenSSL has no SHA-256 at all or no memory; then there is
     * no hash, and "" equals none. */
    if (!mf_digest_hex(data, len, out))
        out[0] = '\0';
}
