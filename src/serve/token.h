/* token.h - the secret of an invitation: 32 random bytes as 43 letters (base64url, RFC 4648, 5).
 * It is shown once; its SHA-256 is what is kept. */
#ifndef MF_SERVE_TOKEN_H
#define MF_SERVE_TOKEN_H

#include "base/digest.h"
#include <mistfold/err.h>

enum { MF_TOKEN = 44 };

mf_status mf_token_new(char out[MF_TOKEN], char sha256[MF_DIGEST_HEX], mf_err *err);

#endif
