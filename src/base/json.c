#include "base/json.h"

#include "base/fail.h"
#include <errno.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

void mf_json_quote(mf_buf *out, const char *text, size_t len)
{
    static const char short_for[] = "btn?fr"; /* U+0008 to U+000D, 0x0B has none */
    mf_buf_add(out, "\"", 1);
    for (size_t i = 0; i < len; i++) {
        size_t plain = i; /* most of a text is: it is added at once */
        while (plain < len && (unsigned char)text[plain] >= 0x20 && text[plain] != '"' &&
               text[plain] != '\\')
            plain++;
        mf_buf_add(out, text + i, plain - i);
        i = plain;
        if (i == len)
            break;
        unsigned char c = (unsigned char)text[i];
        if (c == '"' || c == '\\')
            mf_buf_printf(out, "\\%c", c);
        else if (c >= 0x08 && c <= 0x0D && c != 0x0B)
            mf_buf_printf(out, "\\%c", short_for[c - 0x08]);
        else
            mf_buf_printf(out, "\\u%04x", c);
    }
    mf_buf_add(out, "\"", 1);
}

void mf_json_key(mf_buf *out, const char *key, const char *text)
{
    mf_buf_text(out, key);
    mf_json_quote(out, text, strlen(text));
}

/* ---- keys by UTF-16 code unit ---------------------------------------------- */

/* One code point of valid UTF-8; *text moves on. */
static uint32_t decode(const unsigned char **text)
{
    const unsigned char *t = *text;
    uint32_t c = t[0];
    size_t more = c < 0x80 ? 0 : c < 0xE0 ? 1 : c < 0xF0 ? 2 : 3;
    if (more > 0)
        c &= 0x3Fu >> more;
    for (size_t i = 1; i <= more; i++)
        c = c << 6 | (t[i] & 0x3Fu);
    *text = t + 1 + more;
    return c;
}

/* The first code unit: above U+FFFF it is a surrogate, which sorts below
 * U+E000. That is all in which UTF-16 order differs from code point order. */
static uint32_t first_unit(uint32_t c)
{
    return c < 0x10000 ? c : 0xD800u + ((c - 0x10000) >> 10);
}

static int compare_utf16(const char *left, const char *right)
{
    const unsigned char *l = (const unsigned char *)left, *r = (const unsigned char *)right;
    while (*l == *r && *l < 0x80 && *l != '\0') { /* most keys are ASCII */
        l++;
        r++;
    }
    while (*l != '\0' && *r != '\0') {
        uint32_t a = decode(&l), b = decode(&r);
        if (first_unit(a) != first_unit(b))
            return first_unit(a) < first_unit(b) ? -1 : 1;
        if (a != b)
            return a < b ? -1 : 1;
    }
    return (*l != '\0') - (*r != '\0');
}

static int compare_keys(const void *left, const void *right)
{
    return compare_utf16(*(const char *const *)left, *(const char *const *)right);
}

/* ---- values --------------------------------------------------------------------- */

static bool put(mf_buf *out, const json_t *value, int depth);

static const char **sorted_keys(const json_t *object)
{
    size_t n = json_object_size(object), i = 0;
    const char **keys = calloc(n + 1, sizeof *keys);
    if (keys == NULL)
        return NULL;
    json_t *shared = (json_t *)(uintptr_t)object; /* jansson's iterator is not const */
    for (void *at = json_object_iter(shared); at != NULL && i < n;
         at = json_object_iter_next(shared, at))
        keys[i++] = json_object_iter_key(at);
    qsort(keys, i, sizeof *keys, compare_keys);
    return keys;
}

static bool put_object(mf_buf *out, const json_t *object, int depth)
{
    const char **keys = sorted_keys(object);
    bool good = keys != NULL;
    out->failed = out->failed || !good;
    mf_buf_add(out, "{", 1);
    for (size_t i = 0; good && keys[i] != NULL; i++) {
        if (i > 0)
            mf_buf_add(out, ",", 1);
        mf_json_quote(out, keys[i], strlen(keys[i]));
        mf_buf_add(out, ":", 1);
        good = put(out, json_object_get(object, keys[i]), depth);
    }
    mf_buf_add(out, "}", 1);
    free(keys);
    return good;
}

static bool put_array(mf_buf *out, const json_t *array, int depth)
{
    bool good = true;
    mf_buf_add(out, "[", 1);
    for (size_t i = 0; good && i < json_array_size(array); i++) {
        if (i > 0)
            mf_buf_add(out, ",", 1);
        good = put(out, json_array_get(array, i), depth);
    }
    mf_buf_add(out, "]", 1);
    return good;
}

static bool put_integer(mf_buf *out, json_int_t number)
{
    if (number > MF_JSON_MAX_INT || number < -MF_JSON_MAX_INT)
        return false;
    mf_buf_number(out, number);
    return true;
}

static bool put_real(mf_buf *out, double number)
{
    if (!isfinite(number))
        return false;
    mf_json_number(out, number);
    return true;
}

static bool put(mf_buf *out, const json_t *value, int depth)
{
    if (depth >= MF_JSON_MAX_DEPTH || value == NULL)
        return false;
    switch (json_typeof(value)) {
    case JSON_OBJECT:
        return put_object(out, value, depth + 1);
    case JSON_ARRAY:
        return put_array(out, value, depth + 1);
    case JSON_STRING:
        mf_json_quote(out, json_string_value(value), json_string_length(value));
        return true;
    case JSON_INTEGER:
        return put_integer(out, json_integer_value(value));
    case JSON_REAL:
        return put_real(out, json_real_value(value));
    case JSON_TRUE:
        mf_buf_text(out, "true");
        return true;
    case JSON_FALSE:
        mf_buf_text(out, "false");
        return true;
    case JSON_NULL:
        mf_buf_text(out, "null");
        return true;
    }
    return false;
}

bool mf_json_canonical(mf_buf *out, const json_t *value)
{
    return put(out, value, 0) && !out->failed;
}

/* ---- reading ---------------------------------------------------------------------- */

static bool too_deep(const json_t *value, int depth)
{
    if (depth >= MF_JSON_MAX_DEPTH)
        return true;
    size_t i;
    json_t *part;
    if (json_is_array(value)) {
        json_array_foreach(value, i, part)
        {
            if (too_deep(part, depth + 1))
                return true;
        }
    }
    if (json_is_object(value)) {
        const char *key;
        json_t *object = (json_t *)(uintptr_t)value; /* as above */
        json_object_foreach(object, key, part)
        {
            if (too_deep(part, depth + 1))
                return true;
        }
    }
    return false;
}

json_t *mf_json_parse(const char *text, size_t len, mf_err *err)
{
    if (len > MF_JSON_MAX_SIZE) {
        mf_fail(err, MF_INPUT, "", "the JSON text is too long", "", "");
        return NULL;
    }
    json_error_t error;
    errno = 0;
    json_t *value = json_loadb(text, len, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY, &error);
    /* jansson has no words for a lack of memory, or takes a text it could not keep for a wrong one;
     * the allocator's own word is surer. */
    if (value == NULL && (error.text[0] == '\0' || errno == ENOMEM)) {
        mf_fail_memory(err);
    } else if (value == NULL) {
        mf_failf(err, MF_INPUT, "", "", "", "no valid JSON at line %d, column %d: %s", error.line,
                 error.column, error.text);
    } else if (too_deep(value, 0)) {
        mf_fail(err, MF_INPUT, "", "the JSON text is nested too deeply", "", "");
        json_decref(value);
        value = NULL;
    }
    return value;
}

const char *mf_json_string_of(const json_t *object, const char *name)
{
    const char *text = json_string_value(json_object_get(object, name));
    return text == NULL ? "" : text;
}
