/* base64.h - bytes as text and back (RFC 4648, 4). */
#ifndef MF_BASE_BASE64_H
#define MF_BASE_BASE64_H

#include "base/mem.h"

void mf_base64_put(mf_buf *out, const unsigned char *bytes, size_t len);
/* False when text is none, or there was no memory; the caller frees *out. */
bool mf_base64_get(mf_bytes *out, const char *text);

#endif
