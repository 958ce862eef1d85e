/* utf8proc.h - the two calls of that library that base makes, for a machine it is not packaged
 * for (WebAssembly). The room that includes <utf8proc.h> does not know which one it gets; a
 * test holds both against each other for every code point. */
#ifndef MF_FIELD_PORT_UTF8PROC_H
#define MF_FIELD_PORT_UTF8PROC_H

#include <stddef.h>
#include <stdint.h>

typedef uint8_t utf8proc_uint8_t;
typedef int32_t utf8proc_int32_t;
typedef ptrdiff_t utf8proc_ssize_t;

/* Of the categories of Unicode only Cf (format) is told from the others. */
typedef enum { UTF8PROC_CATEGORY_CN = 0, UTF8PROC_CATEGORY_CF = 27 } utf8proc_category_t;

/* How many bytes the first code point takes (strlen < 0: up to a NUL); negative and -1 in *to
 * where there is none. */
utf8proc_ssize_t utf8proc_iterate(const utf8proc_uint8_t *text, utf8proc_ssize_t len,
                                  utf8proc_int32_t *to);
utf8proc_category_t utf8proc_category(utf8proc_int32_t code);

#endif
