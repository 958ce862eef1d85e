/* Addresses and units as people write them: "12 Sample Ln" is 12 Sample Lane. */
#include "core/address.h"

#include "core/spelling.h"
#include "core/text.h"

#include <stdlib.h>

static const struct instead {
    const char *typed, *counts_as;
} words[] = {
#include "core/address_words.inc"
};

/* ---- letter by letter -------------------------------------------------------------------- */

/* Reads the letters that count, of which capitals and accents are no part (spelling.h). */
typedef struct letters {
    const char *at;    /* the next byte of the text */
    const char *stead; /* what is left of the word that counts instead of the one read */
    const char *more;  /* what is left of a letter that counts as two */
    size_t left;       /* of the word itself, in bytes */
} letters;

static letters letters_of(const char *text)
{
    return (letters){.at = mf_or_empty(text), .stead = "", .more = ""};
}

static bool between_words(const letters *l)
{
    return l->left == 0 && l->stead[0] == '\0' && l->more[0] == '\0';
}

static bool in_word(const char *at)
{
    mf_letter_kind is = mf_letter_at(at).is;
    return is == MF_LETTER || is == MF_LETTER_MARK;
}

/* Of the straight and of the curly one. */
static size_t apostrophe(const char *at)
{
    return at[0] == '\'' ? 1 : strncmp(at, "\u2019", 3) == 0 ? 3 : 0;
}

/* O'Hara is one word. */
static size_t word_length(const char *at)
{
    for (size_t n = 0;;) {
        size_t sign = apostrophe(at + n);
        if (!in_word(at + n + sign))
            return n;
        n += sign + mf_letter_at(at + n + sign).len;
    }
}

static const char *behind_gap(const char *at)
{
    for (mf_letter it; (it = mf_letter_at(at)).is == MF_LETTER_GAP;)
        at += it.len;
    return at;
}

/* The next letter within a word of left bytes, 0 at its end. */
static uint32_t letter_of_word(letters *l)
{
    if (l->more[0] != '\0')
        return (unsigned char)*l->more++;
    while (l->left > 0) {
        mf_letter it = mf_letter_at(l->at);
        l->at += it.len;
        l->left -= it.len;
        l->more = it.is == MF_LETTER ? it.more : "";
        if (it.is == MF_LETTER)
            return it.c;
    }
    return 0;
}

/* Leaves what is behind the last letter of the word. */
static void skip_marks(letters *l)
{
    for (mf_letter it; l->left > 0 && (it = mf_letter_at(l->at)).is != MF_LETTER;) {
        l->at += it.len;
        l->left -= it.len;
    }
}

static bool is_word(const char *at, size_t len, const char *word)
{
    letters l = {.at = at, .stead = "", .more = "", .left = len};
    uint32_t c;
    while ((c = letter_of_word(&l)) != 0 && c == (unsigned char)*word)
        word++;
    return c == 0 && *word == '\0';
}

static int by_typed(const void *word, const void *row)
{
    return strcmp(word, ((const struct instead *)row)->typed);
}

/* What the word counts as; NULL = as itself. */
static const char *counts_as(const char *at, size_t len)
{
    enum { LONGEST = 15 }; /* of those typed, without accents */
    letters l = {.at = at, .stead = "", .more = "", .left = len};
    char word[LONGEST + 1];
    size_t n = 0;
    for (uint32_t c; (c = letter_of_word(&l)) != 0;) {
        if (n == LONGEST || c >= 0x80U)
            return NULL;
        word[n++] = (char)c;
    }
    word[n] = '\0';
    const struct instead *found =
        bsearch(word, words, sizeof words / sizeof words[0], sizeof words[0], by_typed);
    return found == NULL ? NULL : found->counts_as;
}

static void begin_word(letters *l)
{
    size_t len = word_length(l->at);
    const char *stead = counts_as(l->at, len);
    l->left = len;
    if (stead == NULL) {
        skip_marks(l);
        return;
    }
    l->stead = stead;
    l->at += len;
    l->left = 0;
}

/* The next letter that counts; 0 at the end. */
static uint32_t next_letter(letters *l)
{
    while (between_words(l)) {
        l->at = behind_gap(l->at);
        if (l->at[0] == '\0')
            return 0;
        begin_word(l);
    }
    if (l->stead[0] != '\0')
        return (unsigned char)*l->stead++;
    uint32_t c = letter_of_word(l);
    skip_marks(l);
    return c;
}

/* ---- word by word -------------------------------------------------------------------------- */

const char *mf_after(const char *text, const char *start)
{
    letters all = letters_of(text), first = letters_of(start);
    uint32_t c = next_letter(&first);
    if (c == 0)
        return NULL;
    for (; c != 0; c = next_letter(&first)) {
        if (next_letter(&all) != c)
            return NULL;
    }
    return between_words(&all) ? all.at : NULL;
}

bool mf_has_words(const char *text)
{
    letters all = letters_of(text);
    return next_letter(&all) != 0;
}

bool mf_has_part(const char *text, const char *part)
{
    const char *at = mf_or_empty(text);
    while (*at != '\0') {
        if (mf_after(at, part) != NULL)
            return true;
        at = behind_gap(at + word_length(at));
    }
    return false;
}

static bool same_words(const char *a, const char *b)
{
    const char *rest = mf_after(a, b);
    return rest == NULL ? !mf_has_words(a) && !mf_has_words(b) : !mf_has_words(rest);
}

/* ---- places ------------------------------------------------------------------------------ */

static bool says_nothing(const char *at, size_t len)
{
    const char *stead = counts_as(at, len);
    return stead != NULL && stead[0] == '\0';
}

/* "2nd" is the number of no house. */
static bool is_ordinal(const char *at, size_t len)
{
    static const char *const ends[] = {"st", "nd", "rd", "th"};
    for (size_t i = 0; len > 2 && i < sizeof ends / sizeof ends[0]; i++)
        if (is_word(at + len - 2, 2, ends[i]))
            return true;
    return false;
}

/* Whether what stands before the next comma is a number and more: "2B" and "2nd floor" are none,
 * "12 Sample" is. */
static bool is_street(const char *at)
{
    int n = 0;
    while (*at != '\0' && *at != ',') {
        size_t len = word_length(at);
        bool first = len > 0 && !says_nothing(at, len) && n++ == 0;
        if (first && (!mf_digit(*at) || is_ordinal(at, len)))
            return false;
        at += len > 0 ? len : mf_letter_at(at).len;
    }
    return n > 1;
}

/* "Apt 2B, 12 Sample Lane" and "c/o Ida, 0012 Sample Lane" are 12 Sample Lane. */
static const char *street_of(const char *address)
{
    const char *start = mf_or_empty(address), *at = start;
    while (*at != '\0' && !is_street(at)) {
        while (*at != '\0' && *at != ',')
            at++;
        at += *at == ',';
    }
    at = *at == '\0' ? start : at;
    at = behind_gap(at);
    while (at[0] == '0' && mf_digit(at[1]))
        at++;
    return at;
}

bool mf_same_unit(const char *a, const char *b)
{
    return mf_given(a) == mf_given(b) && same_words(a, b);
}

/* "12 Sample Lane" may be "12 Sample Lane, Exampleton". */
static bool may_be_same(const char *one, const char *other)
{
    const char *a = street_of(one), *b = street_of(other);
    return same_words(a, b) || mf_after(a, b) != NULL || mf_after(b, a) != NULL;
}

bool mf_may_be_one_place(const char *address, const char *unit, const char *other_address,
                         const char *other_unit)
{
    bool same = !mf_given(unit) || !mf_given(other_unit) || mf_same_unit(unit, other_unit);
    return same && may_be_same(address, other_address);
}

void mf_address_key(const char *address, char out[MF_ADDRESS_KEY])
{
    letters all = letters_of(street_of(address));
    size_t n = 0;
    bool number = true;
    for (uint32_t c = next_letter(&all); c != 0 && number && n + 1 < MF_ADDRESS_KEY;
         c = next_letter(&all)) {
        number = c < 0x80U && mf_digit((char)c);
        out[n++] = (char)(c < 0x80U ? c : '~'); /* no half letter */
    }
    out[n] = '\0';
}

/* ---- what a paper names ------------------------------------------------------------------ */

enum { PART = 200 };

/* The next part between commas, cut where it is too long; false at the end. */
static bool next_part(const char **at, char part[PART])
{
    if (*at == NULL)
        return false;
    size_t len = strcspn(*at, ",");
    size_t kept = len < PART ? len : PART - 1;
    memcpy(part, *at, kept);
    part[kept] = '\0';
    *at = (*at)[len] == ',' ? *at + len + 1 : NULL;
    return true;
}

/* The first part that is a street. */
static bool first_street(const char *address, char street[PART])
{
    const char *at = mf_or_empty(address);
    while (next_part(&at, street))
        if (is_street(street))
            return true;
    return false;
}

bool mf_other_street(const char *text, const char *address)
{
    char own[PART], part[PART];
    const char *at = mf_or_empty(text);
    bool any = false;
    if (!first_street(address, own))
        return false;
    while (next_part(&at, part)) {
        bool street = is_street(part);
        if (street && may_be_same(part, own))
            return false;
        any = any || street;
    }
    return any;
}

/* How many units are named there: words with a digit that are no postal code, or anything behind
 * "Apt"; 0 = it is no unit. */
static size_t units_in(const char *at)
{
    enum { CODE = 5 };
    size_t n = 0, said = 0, short_ = 0;
    while (*at != '\0') {
        size_t len = word_length(at);
        said += len > 0 && says_nothing(at, len);
        n += len > 0 && !says_nothing(at, len);
        short_ += len > 0 && len < CODE && strcspn(at, "0123456789") < len;
        at += len > 0 ? len : mf_letter_at(at).len;
    }
    return said > 0 || (n == 1 && short_ == 1) ? n : 0;
}

size_t mf_units_named(const char *text, const char *address)
{
    char own[PART], part[PART];
    const char *at = mf_or_empty(text);
    bool known = first_street(address, own);
    size_t n = 0;
    while (next_part(&at, part)) {
        const char *rest = known ? mf_after(part, own) : NULL;
        if (rest != NULL || !is_street(part))
            n += units_in(rest != NULL ? rest : part);
    }
    return n;
}

/* What follows a comma may be a unit, or the town: of a street that is the same up to there nobody
 * knows that it is another building. */
bool mf_may_be_one_building(const char *address, const char *other)
{
    char a[PART], b[PART];
    if (may_be_same(address, other))
        return true;
    return first_street(address, a) && first_street(other, b) && may_be_same(a, b) &&
           (mf_units_named(address, a) > 0 || mf_units_named(other, b) > 0);
}
