/* json.h - canonical JSON (RFC 8785, "JCS") over jansson values.
 *
 * One value has one text, byte for byte, whatever the locale: keys sorted by
 * UTF-16 code units, no blanks, numbers as ECMAScript prints them. */
#ifndef MF_BASE_JSON_H
#define MF_BASE_JSON_H

#include "base/mem.h"
#include <jansson.h>

#define MF_JSON_MAX_DEPTH 32
#define MF_JSON_MAX_SIZE  ((size_t)4 * 1024 * 1024)
/* The largest integer that I-JSON lets pass (RFC 7493 2.2). */
#define MF_JSON_MAX_INT INT64_C(9007199254740991)

/* Appends the canonical text of value. False when it has none: a number that is
 * not finite, an integer beyond MF_JSON_MAX_INT, deeper than MF_JSON_MAX_DEPTH,
 * or out of memory (then out->failed is set as well). */
bool mf_json_canonical(mf_buf *out, const json_t *value);

/* Appends text as a JSON string with its quotes. text is valid UTF-8. */
void mf_json_quote(mf_buf *out, const char *text, size_t len);

/* Appends a key as it stands in its object, "{\"at\":" or ",\"job\":", and a text as its value. */
void mf_json_key(mf_buf *out, const char *key, const char *text);

/* Appends a finite number as ECMAScript's Number::toString would. */
void mf_json_number(mf_buf *out, double number);

/* The string of that name in an object; "" when there is none, or no object. */
const char *mf_json_string_of(const json_t *object, const char *name);

/* Reads one JSON value and nothing after it; refuses duplicate keys, too much
 * depth or size. NULL and err (MF_INPUT; MF_SYSTEM when memory ran out) on failure.
 * The caller decrefs. */
json_t *mf_json_parse(const char *text, size_t len, mf_err *err);

#endif
