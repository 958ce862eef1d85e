/* utf8.h - strict UTF-8, and no characters that would make a line lie. */
#ifndef MF_BASE_UTF8_H
#define MF_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum mf_utf8 {
    MF_UTF8_GOOD,
    MF_UTF8_INVALID, /* overlong, cut short, a surrogate, above U+10FFFF, no UTF-8 at all */
    MF_UTF8_CONTROL  /* a control character, a line break, a change of writing direction */
} mf_utf8;

/* Checks len bytes. On a fault *at (may be NULL) is the offset of its first byte. */
mf_utf8 mf_utf8_check(const char *text, size_t len, size_t *at);

/* As mf_utf8_check, letting controls pass: for whole files with their line ends. */
bool mf_utf8_valid(const char *text, size_t len, size_t *at);

/* How many bytes at text are the byte order mark, which some editors begin a file with: 3, or 0
 * where there is none. */
size_t mf_utf8_mark(const char *text, size_t len);

/* The character at text and how many bytes it takes; 0 when there is none. Overlong forms,
 * surrogates and numbers above U+10FFFF are none (RFC 3629). */
size_t mf_utf8_next(const char *text, size_t len, int32_t *c);

/* What may not stand in a field: MF_UTF8_CONTROL. */
bool mf_utf8_is_control(int32_t c);

/* What is seen where it is printed. The others may stand in a field, as some writings
 * join letters by them, but a terminal shows nothing for them, or other words: marks of no
 * width, of direction, fillers. Wherever a text of somebody else is shown they become '?',
 * as the controls do. */
bool mf_utf8_is_seen(int32_t c);

/* Copies text for a message: what is no UTF-8 that is seen becomes '?', what is
 * longer than size is cut at a character and ends in "...". size at least 8. */
void mf_utf8_show(char *out, size_t size, const char *text);

#endif
