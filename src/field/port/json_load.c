/* json_load.c - reading a text (RFC 8259) into values of port/jansson.h. */
#include "base/utf8.h"
#include "field/port/jansson.h"

#include <errno.h>
#include <limits.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 64, NUMBER = 400 };

typedef struct reader {
    const char *at, *end;
    bool no_memory;
    int depth;
} reader;

static json_t *read_value(reader *in);

static void skip_blanks(reader *in)
{
    while (in->at < in->end && strchr(" \t\r\n", *in->at) != NULL && *in->at != '\0')
        in->at++;
}

/* Takes one character, blanks in front of it left out. */
static bool take(reader *in, char c)
{
    skip_blanks(in);
    bool is = in->at < in->end && *in->at == c;
    in->at += is;
    return is;
}

static bool take_word(reader *in, const char *word)
{
    size_t len = strlen(word);
    bool is = (size_t)(in->end - in->at) >= len && memcmp(in->at, word, len) == 0;
    in->at += is ? len : 0;
    return is;
}

static json_t *kept(reader *in, json_t *value)
{
    in->no_memory = in->no_memory || value == NULL;
    return value;
}

/* ---- texts -------------------------------------------------------------------------- */

static int32_t read_hex(reader *in)
{
    int32_t code = 0;
    for (int i = 0; i < 4; i++, in->at++) {
        char c = in->at < in->end ? *in->at : '\0';
        int digit = c >= '0' && c <= '9'   ? c - '0'
                    : c >= 'a' && c <= 'f' ? c - 'a' + 10
                    : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                           : -1;
        if (digit < 0)
            return -1;
        code = code * 16 + digit;
    }
    return code;
}

static size_t put_utf8(char *out, int32_t c)
{
    if (c < 0x80) {
        out[0] = (char)c;
        return 1;
    }
    size_t n = c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
    for (size_t i = n; i > 1; i--, c >>= 6)
        out[i - 1] = (char)(0x80 | (c & 0x3F));
    out[0] = (char)((0xF00 >> n & 0xF0) | c);
    return n;
}

/* Behind "\u". A half of a pair alone is no text, and U+0000 would end one. */
static size_t read_code(reader *in, char *out)
{
    int32_t code = read_hex(in);
    if (code >= 0xD800 && code < 0xDC00) {
        int32_t low = take_word(in, "\\u") ? read_hex(in) : -1;
        code =
            low >= 0xDC00 && low < 0xE000 ? 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00) : -1;
    } else if (code >= 0xDC00 && code < 0xE000) {
        code = -1;
    }
    return code <= 0 ? 0 : put_utf8(out, code);
}

static size_t read_escape(reader *in, char *out)
{
    static const char from[] = "\"\\/bfnrt", to[] = "\"\\/\b\f\n\r\t";
    char c = in->at < in->end ? *in->at++ : '\0';
    const char *which = c == '\0' ? NULL : strchr(from, c);
    if (c == 'u')
        return read_code(in, out);
    if (which == NULL)
        return 0;
    *out = to[which - from];
    return 1;
}

/* Behind the opening quote; what stands in it is never longer when it is read. */
static char *read_text(reader *in)
{
    const char *close = in->at;
    while (close < in->end && *close != '"')
        close += *close == '\\' ? 2 : 1;
    char *text = close < in->end ? malloc((size_t)(close - in->at) + 1) : NULL;
    size_t len = 0;
    bool good = text != NULL;
    in->no_memory = in->no_memory || (close < in->end && text == NULL);
    while (good && in->at < close) {
        size_t n = 1;
        if (*in->at == '\\') {
            in->at++;
            n = read_escape(in, text + len);
            good = n > 0;
        } else {
            text[len] = *in->at++;
            good = (unsigned char)text[len] >= 0x20;
        }
        len += n;
    }
    in->at = close + 1;
    if (good && mf_utf8_valid(text, len, NULL)) {
        text[len] = '\0';
        return text;
    }
    free(text);
    return NULL;
}

static json_t *read_string(reader *in)
{
    char *text = read_text(in);
    json_t *value = text == NULL ? NULL : kept(in, json_string_nocheck(text));
    free(text);
    return value;
}

/* ---- numbers ------------------------------------------------------------------------ */

static size_t digits(const char *text)
{
    return strspn(text, "0123456789");
}

/* How long the number is that text begins with; 0 = it is none. */
static size_t number_length(const char *text, bool *real)
{
    const char *at = text + (*text == '-');
    size_t n = digits(at);
    *real = false;
    if (n == 0 || (n > 1 && *at == '0'))
        return 0;
    at += n;
    if (*at == '.') {
        *real = true;
        n = digits(at + 1);
        if (n == 0)
            return 0;
        at += n + 1;
    }
    if (*at == 'e' || *at == 'E') {
        *real = true;
        at++;
        at += *at == '+' || *at == '-';
        n = digits(at);
        if (n == 0)
            return 0;
        at += n;
    }
    return (size_t)(at - text);
}

static json_t *read_number(reader *in)
{
    char text[NUMBER];
    bool real;
    size_t left = (size_t)(in->end - in->at);
    snprintf(text, sizeof text, "%.*s", (int)(left < NUMBER - 1 ? left : NUMBER - 1), in->at);
    size_t len = number_length(text, &real);
    if (len == 0 || len == NUMBER - 1)
        return NULL;
    text[len] = '\0';
    in->at += len;
    errno = 0;
    if (!real) {
        long long whole = strtoll(text, NULL, 10);
        return errno != 0 ? NULL : kept(in, json_integer(whole));
    }
    double number = strtod(text, NULL);
    return isfinite(number) ? kept(in, json_real(number)) : NULL;
}

/* ---- what holds others ------------------------------------------------------------------ */

static bool read_member(reader *in, json_t *object)
{
    char *key = take(in, '"') ? read_text(in) : NULL;
    bool good = key != NULL && json_object_get(object, key) == NULL && take(in, ':');
    json_t *value = good ? read_value(in) : NULL;
    good = value != NULL && json_object_set_new_nocheck(object, key, value) == 0;
    free(key);
    return good;
}

static bool read_item(reader *in, json_t *array)
{
    json_t *value = read_value(in);
    return value != NULL && json_array_append_new(array, value) == 0;
}

static json_t *read_many(reader *in, json_t *all, char close)
{
    bool good = kept(in, all) != NULL && ++in->depth < DEEPEST;
    if (good && take(in, close)) {
        in->depth--;
        return all;
    }
    while (good) {
        good = json_is_object(all) ? read_member(in, all) : read_item(in, all);
        if (good && take(in, close)) {
            in->depth--;
            return all;
        }
        good = good && take(in, ',');
    }
    json_decref(all);
    return NULL;
}

static json_t *read_value(reader *in)
{
    skip_blanks(in);
    char c = in->at < in->end ? *in->at : '\0';
    if (c == '{' || c == '[' || c == '"')
        in->at++;
    switch (c) {
    case '{':
        return read_many(in, json_object(), '}');
    case '[':
        return read_many(in, json_array(), ']');
    case '"':
        return read_string(in);
    case 't':
        return take_word(in, "true") ? kept(in, json_boolean(true)) : NULL;
    case 'f':
        return take_word(in, "false") ? kept(in, json_boolean(false)) : NULL;
    case 'n':
        return take_word(in, "null") ? kept(in, json_null()) : NULL;
    default:
        return read_number(in);
    }
}

/* Refuses a key that stands twice, and takes any value: as if both flags were set. */
json_t *json_loadb(const char *text, size_t len, size_t flags, json_error_t *error)
{
    reader in = {text, text + len, false, 0};
    (void)flags;
    *error = (json_error_t){.line = 1};
    json_t *value = read_value(&in);
    skip_blanks(&in);
    if (value != NULL && in.at == in.end)
        return value;
    json_decref(value);
    error->column = (int)(in.at - text);
    if (!in.no_memory) /* no words = there was no memory, as base/json.c reads it */
        snprintf(error->text, sizeof error->text, "this is no JSON");
    return NULL;
}
