/* spelling.h - names of rooms and streets in the words of people, however these spell them: "BAÑO",
 * "Bano" and "baño" are one name, and so are "bath 2" and "bath-2". */
#ifndef MF_CORE_SPELLING_H
#define MF_CORE_SPELLING_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One character of a text: an accent written behind its letter and what nobody sees are marks,
 * blanks and signs are gaps between words. */
typedef enum mf_letter_kind {
    MF_LETTER_END,
    MF_LETTER,
    MF_LETTER_MARK,
    MF_LETTER_GAP
} mf_letter_kind;
typedef struct mf_letter {
    size_t len; /* in bytes */
    mf_letter_kind is;
    uint32_t c;       /* as it counts: small, and of Latin letters without the accent */
    const char *more; /* what follows c where one letter counts as two ("ss"), else "" */
} mf_letter;
mf_letter mf_letter_at(const char *text);

static inline bool mf_is_numeral(uint32_t c)
{
    return c >= '0' && c <= '9';
}

/* How many bytes of the words the name takes where they go on with it and it ends there; 0 = they
 * do not, or it has no letters. */
size_t mf_goes_on(const char *words, const char *name);

/* room_words.c: whether a room written in two ways may be one: "kitchen, west end" is of the
 * kitchen, "bedroom, 2nd floor" is the second floor bedroom, and the hallway is the hall. That
 * "bedroom 2" is another than the bedroom nobody said. */
bool mf_may_be_one_room(const char *room, const char *other);
/* The same, and what may be the same room by another word: the WC may be the bath, the foyer the
 * entry, and what is "upstairs" in bedroom 2. Only for what is added up: what is listed of the one
 * shows nothing of the other. */
bool mf_may_count_as_one_room(const char *room, const char *other);
/* Whether the room may be a piece of the whole, or the whole: the "hall upstairs" of the hall,
 * "bath, north" of the bathroom, and bedroom 2 of "upstairs" or "all bedrooms". */
bool mf_room_within(const char *room, const char *whole);
/* Whether the words have one that tells a room from others: "hall by the door", not "guest room".
 */
bool mf_tells_a_room(const char *place);
/* Whether both are of the same words, but for "room", and so no two rooms: "bath 2" and "bathroom
 * two", but not the bath. */
bool mf_same_room_words(const char *room, const char *other);

/* Whether a text tells nothing: no letter, or what people type where something has to be, "n/a". */
bool mf_says_nothing(const char *text);

/* Whether a word may begin there: at is in words. */
bool mf_word_begins(const char *words, size_t at);

#endif
