/* sha256.h - SHA-256 (FIPS 180-4) without a library, for where there is none: in a browser the
 * one it has gives its answer later, and an entry is hashed before it is shown. */
#ifndef MF_FIELD_SHA256_H
#define MF_FIELD_SHA256_H

#include "journal/line.h"

/* Writes the 32 bytes in lower-case hex. */
void mf_field_sha256(const void *bytes, size_t len, char out[MF_HASH_HEX]);
/* For the journal (line.h). */
extern const mf_sha256 mf_field_hash;

#endif
