#include "base/json_flat.h"

#include "base/json.h"
#include <string.h>

/* 15 digits are exact in any reader of JSON (RFC 8785, 3.2.2.3). */
#define DIGITS_MAX 15

/* The text after an opening quote up to the closing one. */
static bool read_text(const char **at, const char **text, size_t *len)
{
    const unsigned char *c = (const unsigned char *)*at;
    while (*c >= 0x20 && *c < 0x7F && *c != '"' && *c != '\\')
        c++;
    *text = *at;
    *len = (size_t)((const char *)c - *at);
    *at = (const char *)c + 1;
    return *c == '"';
}

/* No sign of plus, no leading zero, no -0: as RFC 8785 writes it. */
static bool read_int(const char **at, int64_t *number)
{
    bool minus = **at == '-';
    const char *digit = *at + minus, *from = digit;
    int64_t n = 0;
    for (; *digit >= '0' && *digit <= '9' && digit - from <= DIGITS_MAX; digit++)
        n = n * 10 + (*digit - '0');
    size_t len = (size_t)(digit - from);
    *at = digit;
    *number = minus ? -n : n;
    return len > 0 && len <= DIGITS_MAX && (*from != '0' || (len == 1 && !minus));
}

static bool read_word(const char **at, const char *word, size_t len)
{
    bool same = strncmp(*at, word, len) == 0;
    *at += same ? len : 0;
    return same;
}

static bool read_value(const char **at, mf_flat_member *out)
{
    if (**at == '"') {
        ++*at;
        out->type = MF_FLAT_TEXT;
        return read_text(at, &out->text, &out->len);
    }
    out->type = **at == 't' || **at == 'f' ? MF_FLAT_BOOL : MF_FLAT_INT;
    if (out->type == MF_FLAT_INT)
        return read_int(at, &out->number);
    out->number = **at == 't';
    return out->number != 0 ? read_word(at, "true", 4) : read_word(at, "false", 5);
}

/* Keys stand in the order of their code units, each once. */
static bool in_order(const mf_flat_member *before, const mf_flat_member *now)
{
    size_t shared = before->key_len < now->key_len ? before->key_len : now->key_len;
    int order = memcmp(before->key, now->key, shared);
    return order != 0 ? order < 0 : before->key_len < now->key_len;
}

static bool read_member(const char **at, mf_flat *out)
{
    mf_flat_member *member = &out->at[out->n];
    if (out->n == MF_FLAT_MAX || **at != '"')
        return false;
    ++*at;
    if (!read_text(at, &member->key, &member->key_len) || **at != ':')
        return false;
    ++*at;
    if (!read_value(at, member) || (out->n > 0 && !in_order(member - 1, member)))
        return false;
    out->n++;
    return true;
}

bool mf_json_flat(mf_flat *out, const char *text)
{
    const char *at = text + 1;
    out->n = 0;
    if (text[0] != '{')
        return false;
    if (*at == '}')
        return at[1] == '\0';
    while (read_member(&at, out)) {
        if (*at == '}')
            return at[1] == '\0' && at - text < (ptrdiff_t)MF_JSON_MAX_SIZE;
        if (*at++ != ',')
            return false;
    }
    return false;
}

const mf_flat_member *mf_flat_get(const mf_flat *flat, const char *key)
{
    size_t len = strlen(key);
    for (size_t i = 0; i < flat->n; i++)
        if (flat->at[i].key_len == len && memcmp(flat->at[i].key, key, len) == 0)
            return &flat->at[i];
    return NULL;
}
