#include "seal/pdftok.h"

#include <string.h>

/* A value nested deeper than this is refused; real papers stay below ten. */
#define NEST_MAX 64

/* How often the whole file may be read over, and what a small file gets. */
#define FUEL_TURNS 64
#define FUEL_LEAST ((size_t)16 << 20)

mf_pdf_src mf_pdf_src_of(const unsigned char *data, size_t len)
{
    size_t fuel = len > (SIZE_MAX - FUEL_LEAST) / FUEL_TURNS ? SIZE_MAX : len * FUEL_TURNS;
    return (mf_pdf_src){data, len, fuel == SIZE_MAX ? fuel : fuel + FUEL_LEAST};
}

bool mf_pdf_is_space(unsigned char c)
{
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == '\0';
}

static bool is_delimiter(unsigned char c)
{
    return c != '\0' && strchr("()<>[]{}/%", c) != NULL;
}

static bool is_regular(unsigned char c)
{
    return !mf_pdf_is_space(c) && !is_delimiter(c);
}

static int hex_digit(unsigned char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    return -1;
}

static size_t skip_space(const mf_pdf_src *src, size_t at)
{
    while (at < src->len) {
        if (src->data[at] == '%') {
            while (at < src->len && src->data[at] != '\n' && src->data[at] != '\r')
                at++;
        } else if (mf_pdf_is_space(src->data[at])) {
            at++;
        } else {
            break;
        }
    }
    return at;
}

/* A literal string, with its nested parentheses. tok->at is on the first "(". */
static void read_string(const mf_pdf_src *src, mf_tok *tok)
{
    size_t depth = 0;
    for (size_t i = tok->at; i < src->len; i++) {
        unsigned char c = src->data[i];
        if (c == '\\') {
            i++;
        } else if (c == '(') {
            depth++;
        } else if (c == ')' && --depth == 0) {
            tok->kind = MF_TOK_STRING;
            tok->end = i + 1;
            return;
        }
    }
    tok->end = src->len;
}

static void read_hex(const mf_pdf_src *src, mf_tok *tok)
{
    size_t i = tok->at + 1;
    while (i < src->len && (hex_digit(src->data[i]) >= 0 || mf_pdf_is_space(src->data[i])))
        i++;
    if (i < src->len && src->data[i] == '>') {
        tok->kind = MF_TOK_HEX;
        i++;
    }
    tok->end = i;
}

/* Digits with an optional sign. Numbers of more than 15 digits are MF_TOK_BAD:
 * nothing in a file that fits in memory needs them. */
static void read_number(const mf_pdf_src *src, mf_tok *tok)
{
    size_t i = tok->at, digits = 0, dots = 0;
    bool minus = src->data[i] == '-';
    int64_t number = 0;
    if (minus || src->data[i] == '+')
        i++;
    for (; i < tok->end; i++) {
        unsigned char c = src->data[i];
        if (c == '.') {
            dots++;
        } else if (c >= '0' && c <= '9') {
            digits++;
            if (dots == 0 && digits <= 15)
                number = number * 10 + (c - '0');
        } else {
            return;
        }
    }
    if (digits == 0 || dots > 1 || (dots == 0 && digits > 15))
        return;
    tok->kind = dots == 1 ? MF_TOK_REAL : MF_TOK_INT;
    tok->number = minus ? -number : number;
}

static void read_regular(const mf_pdf_src *src, mf_tok *tok)
{
    unsigned char first = src->data[tok->at];
    size_t i = tok->at + 1;
    while (i < src->len && is_regular(src->data[i]))
        i++;
    tok->end = i;
    if (first == '/')
        tok->kind = MF_TOK_NAME;
    else if ((first >= '0' && first <= '9') || first == '+' || first == '-' || first == '.')
        read_number(src, tok);
    else
        tok->kind = MF_TOK_WORD;
}

static bool starts(const mf_pdf_src *src, size_t at, const char *text)
{
    size_t len = strlen(text);
    return src->len - at >= len && memcmp(src->data + at, text, len) == 0;
}

static void read_token(const mf_pdf_src *src, mf_tok *tok)
{
    unsigned char c = src->data[tok->at];
    tok->end = tok->at + 1;
    if (starts(src, tok->at, "<<") || starts(src, tok->at, ">>")) {
        tok->kind = c == '<' ? MF_TOK_DICT : MF_TOK_DICT_END;
        tok->end++;
    } else if (c == '[' || c == ']') {
        tok->kind = c == '[' ? MF_TOK_ARRAY : MF_TOK_ARRAY_END;
    } else if (c == '(') {
        read_string(src, tok);
    } else if (c == '<') {
        read_hex(src, tok);
    } else if (c == '/' || is_regular(c)) {
        read_regular(src, tok);
    }
}

mf_tok mf_tok_next(mf_pdf_src *src, size_t at)
{
    mf_tok tok = {.kind = MF_TOK_BAD, .at = src->len, .end = src->len};
    if (src->fuel == 0 || at > src->len)
        return tok;
    tok.at = skip_space(src, at);
    tok.end = tok.at;
    if (tok.at == src->len)
        tok.kind = MF_TOK_END;
    else
        read_token(src, &tok);
    size_t burned = tok.end - at + 1;
    src->fuel = burned < src->fuel ? src->fuel - burned : 0;
    return tok;
}

/* Reads on to the bracket that closes the one already read. Which kind each open
 * bracket has is one bit of a stack. */
static mf_tok read_nested(mf_pdf_src *src, mf_tok open)
{
    uint64_t stack = open.kind == MF_TOK_DICT;
    int depth = 1;
    mf_tok tok = open;
    while (depth > 0) {
        tok = mf_tok_next(src, tok.end);
        if (tok.kind == MF_TOK_DICT || tok.kind == MF_TOK_ARRAY) {
            if (depth == NEST_MAX)
                tok.kind = MF_TOK_BAD;
            stack = stack << 1 | (tok.kind == MF_TOK_DICT);
            depth++;
        } else if (tok.kind == MF_TOK_DICT_END || tok.kind == MF_TOK_ARRAY_END) {
            if ((stack & 1) != (tok.kind == MF_TOK_DICT_END))
                tok.kind = MF_TOK_BAD;
            stack >>= 1;
            depth--;
        }
        if (tok.kind == MF_TOK_BAD || tok.kind == MF_TOK_END) {
            open.kind = MF_TOK_BAD;
            break;
        }
    }
    open.end = tok.end;
    return open;
}

/* "12 0 R" is three tokens and one value. */
static mf_tok try_reference(mf_pdf_src *src, mf_tok num)
{
    mf_tok gen = mf_tok_next(src, num.end);
    if (gen.kind != MF_TOK_INT || gen.number < 0 || num.number < 0)
        return num;
    mf_tok r = mf_tok_next(src, gen.end);
    if (!mf_tok_is_word(src, r, "R"))
        return num;
    return (mf_tok){MF_TOK_REF, num.at, r.end, num.number, gen.number};
}

mf_tok mf_val_next(mf_pdf_src *src, size_t at)
{
    mf_tok tok = mf_tok_next(src, at);
    if (tok.kind == MF_TOK_DICT || tok.kind == MF_TOK_ARRAY)
        return read_nested(src, tok);
    if (tok.kind == MF_TOK_INT)
        return try_reference(src, tok);
    return tok;
}

bool mf_tok_is_word(const mf_pdf_src *src, mf_tok tok, const char *word)
{
    size_t len = strlen(word);
    return tok.kind == MF_TOK_WORD && tok.end - tok.at == len &&
           memcmp(src->data + tok.at, word, len) == 0;
}

bool mf_tok_is_name(const mf_pdf_src *src, mf_tok tok, const char *name)
{
    if (tok.kind != MF_TOK_NAME)
        return false;
    size_t i = tok.at + 1;
    for (; i < tok.end && *name != '\0'; name++) {
        int c = src->data[i++];
        if (c == '#' && tok.end - i >= 2) {
            int high = hex_digit(src->data[i]), low = hex_digit(src->data[i + 1]);
            if (high >= 0 && low >= 0) {
                c = high * 16 + low;
                i += 2;
            }
        }
        if (c != (unsigned char)*name)
            return false;
    }
    return i == tok.end && *name == '\0';
}

bool mf_dict_next(mf_pdf_src *src, mf_tok dict, size_t *at, mf_tok *key, mf_tok *val)
{
    *key = mf_tok_next(src, *at == 0 ? dict.at + 2 : *at);
    if (key->kind == MF_TOK_DICT_END)
        return false;
    *val = (mf_tok){.kind = MF_TOK_BAD};
    if (key->kind == MF_TOK_NAME)
        *val = mf_val_next(src, key->end);
    if (val->kind == MF_TOK_DICT_END || val->kind == MF_TOK_ARRAY_END || val->kind == MF_TOK_END)
        val->kind = MF_TOK_BAD;
    *at = val->end;
    return true;
}

bool mf_array_next(mf_pdf_src *src, mf_tok array, size_t *at, mf_tok *val)
{
    *val = mf_val_next(src, *at == 0 ? array.at + 1 : *at);
    if (val->kind == MF_TOK_ARRAY_END)
        return false;
    if (val->kind == MF_TOK_DICT_END || val->kind == MF_TOK_END)
        val->kind = MF_TOK_BAD;
    *at = val->end;
    return true;
}

mf_tok mf_dict_get(mf_pdf_src *src, mf_tok dict, const char *name)
{
    mf_tok found = {.kind = MF_TOK_END}, key, val;
    if (dict.kind != MF_TOK_DICT)
        return found;
    for (size_t at = 0; mf_dict_next(src, dict, &at, &key, &val);) {
        if (val.kind == MF_TOK_BAD)
            return val;
        if (!mf_tok_is_name(src, key, name))
            continue;
        if (found.kind != MF_TOK_END)
            val.kind = MF_TOK_BAD;
        found = val;
        if (val.kind == MF_TOK_BAD)
            break;
    }
    return found;
}

mf_tok mf_tok_stream(mf_pdf_src *src, mf_tok dict)
{
    mf_tok word = mf_tok_next(src, dict.end);
    return mf_tok_is_word(src, word, "stream") ? word : (mf_tok){.kind = MF_TOK_END};
}
