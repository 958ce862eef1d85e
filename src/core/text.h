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

static inline bool mf_given(const char *text)
{
    return text != NULL && text[0] != '\0';
}

#endif
