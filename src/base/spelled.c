#include "base/spelled.h"

#include "base/letters.h"
#include "base/utf8.h"

#include <string.h>
#include <utf8proc.h>

enum { ROOM = 18, NO_LETTER = 0x110000 };

/* Reads a text by the letters that count: small, and without their accents. */
typedef struct letters {
    const char *at;     /* behind the character read last */
    int32_t like[ROOM]; /* the letters it counts as: none, where it is an accent alone */
    size_t n, used;
} letters;

static size_t next_at(const char *at, int32_t *c)
{
    size_t len = mf_utf8_next(at, strnlen(at, 4), c);
    if (len == 0)
        *c = NO_LETTER + (unsigned char)*at;
    return len == 0 ? 1 : len;
}

/* Small letters that Unicode takes apart no further, as they are typed without them; the signs that
 * stand for an apostrophe. */
static const struct {
    int32_t letter;
    const char *as;
} plain[] = {
    {0x00E6, "ae"}, {0x00F0, "d"}, {0x00F8, "o"},  {0x00FE, "th"}, {0x0111, "d"}, {0x0127, "h"},
    {0x0131, "i"},  {0x0142, "l"}, {0x0153, "oe"}, {0x0167, "t"},  {0x0060, "'"}, {0x00B4, "'"},
    {0x02BC, "'"},  {0x2018, "'"}, {0x2019, "'"},  {0x2032, "'"},
};

/* Reads one character, unless the text is at its end. */
static void read_one(letters *l)
{
    int32_t c = 0;
    int bound = 0;
    l->used = 0;
    l->at += next_at(l->at, &c);
    l->like[0] = c < 0x80 ? mf_lower((char)c) : c;
    l->n = 1;
    if (c < 0x80 || c >= NO_LETTER)
        return;
    utf8proc_ssize_t n = utf8proc_decompose_char(
        c, l->like, ROOM,
        UTF8PROC_DECOMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK | UTF8PROC_IGNORE, &bound);
    l->n = n < 0 || n > ROOM ? 1 : (size_t)n;
    for (size_t i = 0; l->n > 0 && i < sizeof plain / sizeof plain[0]; i++) {
        if (l->like[0] != plain[i].letter)
            continue;
        l->n = strlen(plain[i].as);
        for (size_t k = 0; k < l->n; k++)
            l->like[k] = (unsigned char)plain[i].as[k];
    }
}

/* The next letter; 0 at the end. */
static int32_t next_letter(letters *l)
{
    while (l->used == l->n) {
        if (*l->at == '\0')
            return 0;
        read_one(l);
    }
    return l->like[l->used++];
}

/* Accents behind a letter belong to it, and so does what nobody sees. */
static const char *behind_accents(const char *at)
{
    letters l = {.at = at};
    while (*l.at != '\0') {
        at = l.at;
        read_one(&l);
        if (l.n > 0)
            return at;
    }
    return l.at;
}

/* A letter, an accent or a digit: what two words cannot touch each other by. */
static bool in_word(const char *at)
{
    int32_t c = 0;
    next_at(at, &c);
    utf8proc_category_t is = c >= NO_LETTER ? UTF8PROC_CATEGORY_CN : utf8proc_category(c);
    return is >= UTF8PROC_CATEGORY_LU && is <= UTF8PROC_CATEGORY_NO;
}

/* The character before this one; there is one. */
static const char *before(const char *text, const char *at)
{
    do
        at--;
    while (at > text && ((unsigned char)*at & 0xC0) == 0x80);
    return at;
}

/* How many bytes of blanks and signs between words stand here. */
static size_t gap_at(const char *at)
{
    const char *end = at;
    int32_t c;
    while (*end != '\0' && !in_word(end))
        end += next_at(end, &c);
    return (size_t)(end - at);
}

static bool between_letters(letters *l)
{
    if (l->used < l->n)
        return false;
    l->at = behind_accents(l->at);
    return true;
}

typedef enum gap { NO_GAP, GAP_ALIKE, GAP_OF_NAME } gap;

/* Goes behind the blanks and signs between two words of the name, and those that the text has in
 * their place, which may be others: GAP_OF_NAME = it has none there. */
static gap pass_gap(const char *name, letters *want, letters *is)
{
    if (want->at == name || !between_letters(want))
        return NO_GAP;
    size_t len = gap_at(want->at), run = between_letters(is) ? gap_at(is->at) : 0;
    if (len == 0 || want->at[len] == '\0')
        return NO_GAP;
    want->at += len;
    is->at += run;
    return run > 0 ? GAP_ALIKE : GAP_OF_NAME;
}

size_t mf_spelled_at(const char *name, const char *text, const char *at)
{
    letters want = {.at = name}, is = {.at = at};
    if (at > text && in_word(before(text, at)) && in_word(name))
        return 0;
    for (int32_t c = ' '; c != 0;) {
        gap between = pass_gap(name, &want, &is);
        if (between == NO_GAP)
            c = next_letter(&want);
        if (between == GAP_OF_NAME || (between == NO_GAP && c != 0 && next_letter(&is) != c))
            return 0;
    }
    if (is.at == at || is.used < is.n) /* nothing, or half of a letter that counts as two */
        return 0;
    const char *end = behind_accents(is.at);
    bool goes_on = in_word(end) && in_word(before(name, name + strlen(name)));
    return goes_on ? 0 : (size_t)(end - at);
}

size_t mf_spelled_keys(const char *at, bool name, uint32_t keys[MF_SPELLED_KEYS])
{
    const uint32_t prime = 16777619; /* FNV-1a, a letter at a time */
    uint32_t key = 2166136261U;
    letters l = {.at = at};
    size_t n = 0;
    for (int32_t c = next_letter(&l); c != 0 && n < MF_SPELLED_KEYS; c = next_letter(&l)) {
        key = (key ^ (uint32_t)c) * prime;
        keys[n++] = key;
        if (name && between_letters(&l) && !in_word(l.at))
            break;
    }
    return n;
}

bool mf_spelled_in(const char *name, const char *text)
{
    for (const char *at = text; *at != '\0'; at++)
        if (mf_spelled_at(name, text, at) > 0)
            return true;
    return false;
}
