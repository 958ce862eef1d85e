/* text.h - comparing the texts of a job. A text that was not given is "", and a
 * value put together by hand may hold NULL for it: both read as empty. */
#ifndef MF_CORE_TEXT_H
#define MF_CORE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

static inline const char *mf_or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

static inline bool mf_same(const char *a, const char *b)
{
    const char *one = mf_or_empty(a), *other = mf_or_empty(b);
    return one[0] == other[0] && strcmp(one, other) == 0; /* most differ at once */
}

/* The small one of an ASCII capital; every other byte as it is. */
static inline char mf_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static inline bool mf_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* A letter or digit; of other scripts each byte is one. */
static inline bool mf_in_word(char c)
{
    char small = mf_lower(c);
    return (small >= 'a' && small <= 'z') || mf_digit(c) || ((unsigned char)c & 0x80U) != 0;
}

/* Capitals aside, of ASCII alone. */
static inline bool mf_same_but_case(const char *a, const char *b)
{
    size_t i = 0;
    a = mf_or_empty(a);
    b = mf_or_empty(b);
    while (a[i] != '\0' && mf_lower(a[i]) == mf_lower(b[i]))
        i++;
    return mf_lower(a[i]) == mf_lower(b[i]);
}

static inline bool mf_given(const char *text)
{
    return text != NULL && text[0] != '\0';
}

#endif
