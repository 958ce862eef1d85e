/* Whether two names may be of one room: word by word, in whatever order, and whichever of the ways
 * that people write a word in. */
#include "core/sides.h"
#include "core/spelling.h"

#include "core/text.h"
#include <mistfold/job.h>

enum { WORDS = 24, LETTERS = 24 };

/* A name as words that count; of one with more, or longer ones, what did not fit is left out, so
 * that it may be more rooms and not fewer. */
typedef struct words {
    size_t n;
    struct {
        size_t len;
        uint32_t letter[LETTERS];
    } word[WORDS];
} words;

typedef struct way {
    const char *written, *counts_as;
} way;
static const way ways[] = {
#include "core/room_words.inc"
};
static const way may_be[] = {
#include "core/room_words_may.inc"
};

static void empty(words *to)
{
    to->n = to->word[0].len = 0;
}

/* "bed1" is "bed 1", but "A1" and "2nd" are one word each. */
static bool breaks(const words *to, uint32_t c)
{
    size_t len = to->word[to->n].len;
    return mf_is_numeral(c) && len >= 2 && !mf_is_numeral(to->word[to->n].letter[len - 1]);
}

static void end_word(words *to)
{
    if (to->n + 1 < WORDS && to->word[to->n].len > 0) {
        to->n++;
        to->word[to->n].len = 0;
    }
}

static void add_letter(words *to, uint32_t c)
{
    if (breaks(to, c))
        end_word(to);
    if (to->word[to->n].len < LETTERS)
        to->word[to->n].letter[to->word[to->n].len++] = c;
}

static void add_character(words *to, const mf_letter *it)
{
    if (it->is == MF_LETTER_GAP)
        end_word(to);
    if (it->is != MF_LETTER)
        return;
    add_letter(to, it->c);
    for (const char *more = it->more; *more != '\0'; more++)
        add_letter(to, (unsigned char)*more);
}

/* The words as written. */
static void read_words(words *to, const char *name)
{
    for (mf_letter it; (it = mf_letter_at(name)).is != MF_LETTER_END; name += it.len)
        add_character(to, &it);
    end_word(to);
}

static const char *among_ways(const way *list, size_t n, const words *of, size_t i)
{
    for (size_t w = 0; w < n; w++) {
        size_t k = 0, len = of->word[i].len;
        while (k < len && (unsigned char)list[w].written[k] == of->word[i].letter[k])
            k++;
        if (k == len && list[w].written[k] == '\0')
            return list[w].counts_as;
    }
    return NULL;
}

/* loosely: also as what may be the same room. */
static const char *counts_as(const words *of, size_t i, bool loosely)
{
    const char *sure = among_ways(ways, sizeof ways / sizeof ways[0], of, i);
    if (sure != NULL || !loosely)
        return sure;
    return among_ways(may_be, sizeof may_be / sizeof may_be[0], of, i);
}

static bool is_word(const words *of, size_t i, const char *word)
{
    size_t k = 0, len = i < of->n ? of->word[i].len : 0;
    while (k < len && word[k] != '\0' && of->word[i].letter[k] == (unsigned char)word[k])
        k++;
    return len > 0 && k == len && word[k] == '\0';
}

static const char *const ordinals[] = {"1st", "2nd", "3rd", "4th", "5th", "6th"};

/* The "2nd bedroom" is bedroom 2; the "2nd floor bedroom" is not. */
static void count_off(words *of)
{
    for (size_t i = 0; i < of->n; i++)
        for (size_t n = 0; n < sizeof ordinals / sizeof ordinals[0]; n++)
            if (is_word(of, i, ordinals[n]) && !is_word(of, i + 1, "floor")) {
                of->word[i].len = 1;
                of->word[i].letter[0] = (uint32_t)('1' + n);
            }
}

static void read_name(words *to, const char *name, bool loosely)
{
    words written;
    empty(&written);
    read_words(&written, name);
    for (size_t i = 0; i < written.n; i++) {
        const char *other = counts_as(&written, i, loosely);
        if (other != NULL) {
            read_words(to, other);
            continue;
        }
        for (size_t k = 0; k < written.word[i].len; k++)
            if (to->word[to->n].len < LETTERS)
                to->word[to->n].letter[to->word[to->n].len++] = written.word[i].letter[k];
        end_word(to);
    }
    count_off(to);
}

static bool among(const words *all, const words *of, size_t i)
{
    size_t k = 0, size = of->word[i].len * sizeof of->word[i].letter[0];
    while (k < all->n && (all->word[k].len != of->word[i].len ||
                          memcmp(all->word[k].letter, of->word[i].letter, size) != 0))
        k++;
    return k < all->n;
}

/* but_room: "room" makes "bathroom" of the bath and no second room. */
static bool all_among(const words *all, const words *of, bool but_room)
{
    size_t i = 0;
    while (i < of->n && (among(all, of, i) || (but_room && is_word(of, i, "room"))))
        i++;
    return i == of->n && of->n > 0;
}

static void read_both(const char *room, const char *other, bool loosely, words *a, words *b)
{
    empty(a);
    empty(b);
    read_name(a, mf_or_empty(room), loosely);
    read_name(b, mf_or_empty(other), loosely);
}

/* A word that tells rooms apart: neither "room" nor a number. */
static bool tells(const words *of, size_t i)
{
    return !is_word(of, i, "room") && !mf_is_numeral(of->word[i].letter[0]);
}

/* Words of a place that is no one room: "upstairs", "all bedrooms", "the whole second floor".
 * Common practice, no source. */
static const char *const wide[] = {
    "various",      "several",   "misc",       "miscellaneous", "everywhere",  "anywhere", "unsaid",
    "multiple",     "different", "some",       "any",           "apartment",   "apt",      "unit",
    "flat",         "common",    "areas",      "addition",      "desconocido", "varios",   "varias",
    "departamento", "all",       "to",         "through",       "and",         "y",        "every",
    "each",         "both",      "whole",      "entire",        "throughout",  "the",      "of",
    "in",           "on",        "house",      "home",          "rooms",       "level",    "floor",
    "story",        "storey",    "inside",     "upper",         "lower",       "rest",     "other",
    "interior",     "upstairs",  "downstairs", "todo",          "toda",        "todos",    "todas",
    "cada",         "el",        "la",         "los",           "las",         "de",       "del",
    "en",           "casa",      "planta",     "alta",          "baja",        "arriba",   "abajo",
    "1st",          "2nd",       "3rd",        "4th",           "5th",         "6th"};

static bool is_one_of(const words *of, size_t i, const char *const *list, size_t n)
{
    size_t k = 0;
    while (k < n && !is_word(of, i, list[k]))
        k++;
    return k < n;
}

/* On which floor a place says to lie: 1 to 6, above or below, or nothing. */
typedef enum level { LEVEL_UNSAID = 0, LEVEL_UP = 7, LEVEL_DOWN = 8 } level;

static int level_of(const words *of)
{
    static const char *const up[] = {"upstairs", "upper", "arriba", "alta"};
    static const char *const down[] = {"downstairs", "lower", "abajo", "baja"};
    for (size_t i = 0; i < of->n; i++) {
        if (is_one_of(of, i, up, sizeof up / sizeof up[0]))
            return LEVEL_UP;
        if (is_one_of(of, i, down, sizeof down / sizeof down[0]))
            return LEVEL_DOWN;
        for (size_t n = 0; n < sizeof ordinals / sizeof ordinals[0]; n++)
            if (is_word(of, i, ordinals[n]))
                return (int)n + 1;
    }
    return LEVEL_UNSAID;
}

/* Of the second floor and upstairs nobody knows whether they are two. */
static bool levels_apart(const words *a, const words *b)
{
    int one = level_of(a), other = level_of(b);
    return one != other && one != LEVEL_UNSAID && other != LEVEL_UNSAID &&
           (one < LEVEL_UP) == (other < LEVEL_UP);
}

static bool is_wide_word(const words *of, size_t i)
{
    static const char *const floors[] = {"floor", "level", "story", "storey"};
    bool of_floor = is_word(of, i, "main") || is_word(of, i, "ground");
    return is_one_of(of, i, wide, sizeof wide / sizeof wide[0]) ||
           (of_floor && is_one_of(of, i + 1, floors, sizeof floors / sizeof floors[0]));
}

/* Which part of the house: it tells the front bedroom from the back one, and beside no other word
 * it tells no room, as in "front" or "north side". */
static bool is_part_of_house(const words *of, size_t i)
{
    static const char *const parts[] = {
        "front", "n",      "s",     "e",     "w",    "rear",      "back",    "left",
        "right", "middle", "north", "south", "east", "west",      "side",    "area",
        "zone",  "wing",   "end",   "half",  "work", "frente",    "atras",   "norte",
        "sur",   "este",   "oeste", "lado",  "zona", "izquierda", "derecha", "trasera"};
    return is_one_of(of, i, parts, sizeof parts / sizeof parts[0]);
}

static bool names_a_room(const words *of)
{
    size_t i = 0;
    while (i < of->n && (!tells(of, i) || is_wide_word(of, i) || is_part_of_house(of, i)))
        i++;
    return i < of->n;
}

static bool is_number(const words *of, size_t i)
{
    size_t k = 0;
    while (k < of->word[i].len && mf_is_numeral(of->word[i].letter[k]))
        k++;
    return k > 0 && k == of->word[i].len;
}

/* Whether every word of a wide place ("upstairs", "bedrooms 1-3") that tells a room apart is one of
 * the room's, and nothing says that the two lie apart. "?" is any. */
static bool within_wide(const words *a, const char *room, const words *b, const char *place)
{
    size_t numbers = 0;
    bool is_wide = false, a_room = names_a_room(b);
    if (mf_given(room) && mf_given(place) && mf_says_nothing(place))
        return true;
    for (size_t i = 0; i < b->n; i++) {
        numbers += is_number(b, i);
        bool general = is_wide_word(b, i) || (!a_room && is_part_of_house(b, i));
        if (!general && tells(b, i) && !among(a, b, i))
            return false;
        is_wide = is_wide || general;
    }
    return (is_wide || numbers > 1) && !levels_apart(a, b) && mf_may_be_one_side(room, place);
}

static bool one_holds_other(const char *room, const char *other, bool loosely)
{
    words a, b;
    if (mf_same_room(room, other))
        return true;
    read_both(room, other, loosely, &a, &b);
    if (loosely && (within_wide(&a, room, &b, other) || within_wide(&b, other, &a, room)))
        return true;
    return all_among(&a, &b, false) || all_among(&b, &a, false);
}

bool mf_may_be_one_room(const char *room, const char *other)
{
    return one_holds_other(room, other, false);
}

bool mf_may_count_as_one_room(const char *room, const char *other)
{
    return one_holds_other(room, other, true);
}

bool mf_tells_a_room(const char *place)
{
    static const char *const nouns[] = {
#include "core/room_nouns.inc"
    };
    words of;
    empty(&of);
    read_name(&of, mf_or_empty(place), true);
    for (size_t i = 0; i < of.n; i++)
        if (is_one_of(&of, i, nouns, sizeof nouns / sizeof nouns[0]) ||
            (is_word(&of, i, "en") && is_word(&of, i + 1, "suite")))
            return true;
    return false;
}

bool mf_room_within(const char *room, const char *whole)
{
    words a, b;
    size_t i = 0;
    read_both(room, whole, false, &a, &b);
    while (i < b.n && !tells(&b, i))
        i++;
    return mf_same_room(room, whole) || (i < b.n && all_among(&a, &b, true)) ||
           within_wide(&a, room, &b, whole);
}

bool mf_same_room_words(const char *room, const char *other)
{
    words a, b;
    if (mf_same_room(room, other))
        return true;
    read_both(room, other, false, &a, &b);
    return all_among(&a, &b, true) && all_among(&b, &a, true);
}
