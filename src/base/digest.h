/* digest.h - SHA-256 (FIPS 180-4) in lower-case hex. */
#ifndef MF_BASE_DIGEST_H
#define MF_BASE_DIGEST_H

#include <stdbool.h>
#include <stddef.h>

#define MF_DIGEST_HEX 65

/* False when the digest could not be made (out of memory). */
bool mf_digest_hex(const void *bytes, size_t len, char out[MF_DIGEST_HEX]);

/* The same in pieces. begin returns NULL when memory ran out; end frees it, with
 * out NULL without an answer. */
typedef struct mf_digest mf_digest;
mf_digest *mf_digest_begin(void);
bool mf_digest_add(mf_digest *digest, const void *bytes, size_t len);
bool mf_digest_end(mf_digest *digest, char out[MF_DIGEST_HEX]);
/* One text after another by the same context: SHA-256 is looked up once. digest is a mf_digest,
 * void so that it can be called back. */
bool mf_digest_of(void *digest, const void *bytes, size_t len, char out[MF_DIGEST_HEX]);

#endif
