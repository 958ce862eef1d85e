/* Rooms as people write them: capitals and accents aside, and whatever stands between the words
 * is a blank, or in two names that are compared nothing ("bed room" is the "bedroom"). Accents of
 * Latin letters only: of other scripts each character counts as it is. */
#include "core/spelling.h"

#include "core/text.h"
#include <mistfold/job.h>

#include <stdint.h>

static const struct {
    uint32_t typed;
    char counts_as[3];
} latin[] = {
#include "core/spelling_letters.inc"
};

/* ---- characters ---------------------------------------------------------------------------- */

/* Of a byte that begins no character of two or three, the byte. */
static uint32_t character_at(const char *text, size_t *len)
{
    const unsigned char *c = (const unsigned char *)text;
    bool two = (c[0] & 0xE0U) == 0xC0U && (c[1] & 0xC0U) == 0x80U;
    bool three = (c[0] & 0xF0U) == 0xE0U && (c[1] & 0xC0U) == 0x80U && (c[2] & 0xC0U) == 0x80U;
    *len = three ? 3 : two ? 2 : 1;
    if (three)
        return (c[0] & 0x0FU) << 12 | (c[1] & 0x3FU) << 6 | (c[2] & 0x3FU);
    return two ? (c[0] & 0x1FU) << 6 | (c[1] & 0x3FU) : c[0];
}

/* What a letter of accented Latin counts as; NULL = it is none. */
static const char *latin_like(uint32_t c)
{
    size_t low = 0, high = sizeof latin / sizeof latin[0];
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (latin[middle].typed == c)
            return latin[middle].counts_as;
        if (latin[middle].typed < c)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

/* An accent that is written behind its letter, and what nobody sees. */
static bool is_mark(uint32_t c)
{
    return (c >= 0x300 && c <= 0x36F) || c == 0xAD || (c >= 0x200B && c <= 0x200D) || c == 0xFEFF;
}

/* Blanks, dashes and other signs between words that are no ASCII; a stray byte is none. */
static bool is_gap(uint32_t c, size_t len)
{
    if (len == 1)
        return false;
    bool fraction = c >= 0xBC && c <= 0xBE;
    bool sign = c < 0xC0 || (c >= 0x2000 && c <= 0x206F) || c == 0x2212 || c == 0x3000;
    return sign && !fraction && c != 0xB5 && latin_like(c) == NULL;
}

static mf_letter ascii(char c)
{
    mf_letter_kind is = c == '\0' ? MF_LETTER_END : mf_in_word(c) ? MF_LETTER : MF_LETTER_GAP;
    return (mf_letter){.len = 1, .is = is, .c = (unsigned char)mf_lower(c), .more = ""};
}

mf_letter mf_letter_at(const char *text)
{
    if (((unsigned char)text[0] & 0x80U) == 0)
        return ascii(text[0]);
    mf_letter it = {.more = ""};
    uint32_t c = character_at(text, &it.len);
    it.is = is_mark(c) ? MF_LETTER_MARK : is_gap(c, it.len) ? MF_LETTER_GAP : MF_LETTER;
    const char *like = it.len == 1 ? NULL : latin_like(c);
    if (like != NULL) {
        it.c = (unsigned char)like[0];
        it.more = like + 1;
    } else {
        it.c = it.len > 1 ? c : UINT32_MAX - c;
    }
    return it;
}

static bool in_word(const char *text)
{
    mf_letter_kind is = mf_letter_at(text).is;
    return is == MF_LETTER || is == MF_LETTER_MARK;
}

/* ---- letter by letter ---------------------------------------------------------------------- */

/* Reads the letters that count. */
typedef struct letters {
    const char *at;   /* behind what was read */
    const char *more; /* what is left of a character that counts as two; NULL = nothing */
    bool any;         /* letters were read */
} letters;

/* The next letter, small, ' ' between two words; 0 at the end. */
static uint32_t next_letter(letters *l)
{
    bool gap = false;
    if (l->more != NULL && *l->more != '\0')
        return (unsigned char)*l->more++;
    const char *at = l->at;
    mf_letter it = mf_letter_at(at);
    for (; it.is == MF_LETTER_MARK || it.is == MF_LETTER_GAP; it = mf_letter_at(at)) {
        gap = gap || it.is == MF_LETTER_GAP;
        at += it.len;
    }
    if (it.is == MF_LETTER_END)
        return 0;
    l->at = at;
    if (gap && l->any)
        return ' ';
    l->any = true;
    l->at += it.len;
    l->more = it.more;
    return it.c;
}

/* The next letter after that one: a blank counts between two numbers only. */
static uint32_t next_joined(letters *l, uint32_t before)
{
    uint32_t c = next_letter(l);
    letters behind = *l;
    uint32_t after = c == ' ' ? next_letter(&behind) : 0;
    if (c != ' ' || (mf_is_numeral(before) && mf_is_numeral(after)))
        return c;
    *l = behind;
    return after;
}

bool mf_same_room(const char *a, const char *b)
{
    letters of_a = {.at = mf_or_empty(a)}, of_b = {.at = mf_or_empty(b)};
    uint32_t c = next_joined(&of_a, 0), before = 0;
    while (c != 0 && next_joined(&of_b, before) == c) {
        before = c;
        c = next_joined(&of_a, before);
    }
    return c == 0 && next_joined(&of_b, before) == 0;
}

/* ---- among words --------------------------------------------------------------------------- */

static const char *behind_marks(const char *at)
{
    for (mf_letter it; (it = mf_letter_at(at)).is == MF_LETTER_MARK;)
        at += it.len;
    return at;
}

size_t mf_goes_on(const char *words, const char *name)
{
    letters want = {.at = mf_or_empty(name)}, is = {.at = words};
    for (uint32_t c, before = 0; (c = next_joined(&want, before)) != 0; before = c)
        if (next_joined(&is, before) != c)
            return 0;
    bool half = is.more != NULL && *is.more != '\0'; /* of a letter that counts as two */
    const char *end = behind_marks(is.at);
    return !is.any || half || in_word(end) ? 0 : (size_t)(end - words);
}

bool mf_word_begins(const char *words, size_t at)
{
    size_t back = at > 0;
    while (back > 0 && back < 3 && back < at && ((unsigned char)words[at - back] & 0xC0U) == 0x80U)
        back++;
    return back == 0 || !in_word(words + at - back);
}

bool mf_says_nothing(const char *text)
{
    static const char *const nothing[] = {"n/a",     "none",      "tbd",      "unknown",
                                          "ninguno", "no reason", "no aplica"};
    letters of = {.at = mf_or_empty(text)};
    bool none = next_letter(&of) == 0;
    for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++)
        none = none || mf_same_room(text, nothing[i]);
    return none;
}
