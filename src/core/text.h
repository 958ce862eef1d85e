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
    return strcmp(mf_or_empty(a), mf_or_empty(b)) == 0;
}

/* Capitals aside, of ASCII alone. */
static inline bool mf_same_but_case(const char *a, const char *b)
{
    size_t i = 0;
    a = mf_or_empty(a);
    b = mf_or_empty(b);
    for (;; i++) {
        int of_a = a[i] >= 'A' && a[i] <= 'Z' ? a[i] - 'A' + 'a' : a[i];
        int of_b = b[i] >= 'A' && b[i] <= 'Z' ? b[i] - 'A' + 'a' : b[i];
        if (of_a != of_b || of_a == '\0')
            return of_a == of_b;
    }
}

static inline bool mf_digit(char c)
{
    return c >= '0' && c <= '9';
}

static inline bool mf_given(const char *text)
{
    return text != NULL && text[0] != '\0';
}

#endif
