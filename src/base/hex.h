/* hex.h - bytes as small hex digits, two each. */
#ifndef MF_BASE_HEX_H
#define MF_BASE_HEX_H

#include <stdbool.h>
#include <stddef.h>

/* Writes 2 * len digits, and no NUL. */
void mf_hex_digits(const void *bytes, size_t len, char *out);
/* The same with a NUL: out has room for 2 * len + 1. */
void mf_hex(const void *bytes, size_t len, char *out);
/* Reads len bytes from 2 * len digits; false when text is not just those. */
bool mf_hex_bytes(const char *text, void *out, size_t len);
/* Whether text is just so many small hex digits. */
bool mf_hex_is(const char *text, size_t digits);

#endif
