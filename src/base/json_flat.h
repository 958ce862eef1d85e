/* json_flat.h - reading the plain case of canonical JSON (RFC 8785) in one pass and
 * without memory of its own: an object whose values are texts, whole numbers, true
 * and false, with nothing in a text that must be escaped or is not ASCII. Most
 * bodies of the journal are of this form. */
#ifndef MF_BASE_JSON_FLAT_H
#define MF_BASE_JSON_FLAT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define MF_FLAT_MAX 64

typedef enum mf_flat_type { MF_FLAT_TEXT, MF_FLAT_INT, MF_FLAT_BOOL } mf_flat_type;

/* Key and text point into what was read and are ended by their length alone. */
typedef struct mf_flat_member {
    const char *key, *text;
    size_t key_len, len;
    int64_t number; /* of a bool 0 or 1 */
    mf_flat_type type;
} mf_flat_member;

typedef struct mf_flat {
    mf_flat_member at[MF_FLAT_MAX];
    size_t n;
} mf_flat;

/* True when text, all of it, is canonical and of this form; false says nothing about
 * it: json.h reads any text. */
bool mf_json_flat(mf_flat *out, const char *text);

/* The member of this key, or NULL. */
const mf_flat_member *mf_flat_get(const mf_flat *flat, const char *key);

#endif
