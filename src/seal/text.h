/* text.h - text that people wrote, on its way into and out of certificates and
 * PDF strings. */
#ifndef MF_SEAL_TEXT_H
#define MF_SEAL_TEXT_H

#include "base/mem.h"

#include <stddef.h>
#include <stdint.h>

/* The number of characters of UTF-8 text, or -1 when it is no UTF-8 or holds a
 * control character. */
int mf_text_count(const char *text);

/* Copies len bytes of UTF-8 to out of size bytes: what is not seen (utf8.h) and bytes
 * that are no UTF-8 become "?", text that is too long is cut between characters.
 * For what a stranger's certificate says: it may end up on a terminal. */
void mf_text_tame(char *out, size_t size, const unsigned char *text, size_t len);

/* Appends a PDF text string: (literal) when it is all ASCII, else UTF-16BE with a
 * byte order mark, in hex. Source: ISO 32000-1, 7.9.2.2. */
void mf_text_pdf(mf_buf *out, const char *text);

#endif
