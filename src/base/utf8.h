/* utf8.h - strict UTF-8, and no characters that would make a line lie. */
#ifndef MF_BASE_UTF8_H
#define MF_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

typedef enum mf_utf8 {
    MF_UTF8_GOOD,
    MF_UTF8_INVALID, /* overlong, cut short, a surrogate, above U+10FFFF, no UTF-8 at all */
    MF_UTF8_CONTROL  /* a control character, a line break, a change of writing direction */
} mf_utf8;

/* Checks len bytes. On a fault *at (may be NULL) is the offset of its first byte. */
mf_utf8 mf_utf8_check(const char *text, size_t len, size_t *at);

/* As mf_utf8_check, letting controls pass: for whole files with their line ends. */
bool mf_utf8_valid(const char *text, size_t len, size_t *at);

/* Copies text for a message: what is no printable UTF-8 becomes '?', what is
 * longer than size is cut at a character and ends in "...". size at least 8. */
void mf_utf8_show(char *out, size_t size, const char *text);

/* Whether two texts are the same but for the case of ASCII letters. */
bool mf_same_but_case(const char *a, const char *b);

#endif
