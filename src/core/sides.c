/* On which sides of the house a place outside lies, by its words: "north elevation", "lado norte",
 * "siding on the north". What does not say it may be on any side. */
#include "core/sides.h"

#include "core/area_rooms.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/job.h>

/* Two ways to tell the sides apart, by the compass and by where one stands; a side of the one is
 * not known in the other. */
enum {
    NORTH = 1,
    EAST = 2,
    SOUTH = 4,
    WEST = 8,
    COMPASS = NORTH | EAST | SOUTH | WEST,
    FRONT = 16,
    BACK = 32,
    LEFT = 64,
    RIGHT = 128,
    STANDING = FRONT | BACK | LEFT | RIGHT,
    SIDE_A = 256, /* as inspectors letter them */
    SIDE_B = 512,
    SIDE_C = 1024,
    SIDE_D = 2048,
    LETTERED = SIDE_A | SIDE_B | SIDE_C | SIDE_D,
    ANY = COMPASS | STANDING | LETTERED
};

/* Common practice, no source. */
static const struct {
    const char *words;
    unsigned sides;
} called[] = {
    {"north", NORTH},
    {"norte", NORTH},
    {"northern", NORTH},
    {"northside", NORTH},
    {"east", EAST},
    {"este", EAST},
    {"eastern", EAST},
    {"eastside", EAST},
    {"south", SOUTH},
    {"sur", SOUTH},
    {"southern", SOUTH},
    {"southside", SOUTH},
    {"west", WEST},
    {"oeste", WEST},
    {"western", WEST},
    {"westside", WEST},
    {"northeast", NORTH | EAST},
    {"ne", NORTH | EAST},
    {"noreste", NORTH | EAST},
    {"northwest", NORTH | WEST},
    {"nw", NORTH | WEST},
    {"noroeste", NORTH | WEST},
    {"southeast", SOUTH | EAST},
    {"se", SOUTH | EAST},
    {"sureste", SOUTH | EAST},
    {"sudeste", SOUTH | EAST},
    {"southwest", SOUTH | WEST},
    {"sw", SOUTH | WEST},
    {"suroeste", SOUTH | WEST},
    {"sudoeste", SOUTH | WEST},
    {"front", FRONT},
    {"frente", FRONT},
    {"rear", BACK},
    {"back", BACK},
    {"atras", BACK},
    {"trasera", BACK},
    {"trasero", BACK},
    {"left", LEFT},
    {"izquierda", LEFT},
    {"izquierdo", LEFT},
    {"right", RIGHT},
    {"derecha", RIGHT},
    {"derecho", RIGHT},
    {"all", ANY},
    {"every", ANY},
    {"each", ANY},
    {"both", ANY},
    {"other", ANY},
    {"others", ANY},
    {"rest", ANY},
    {"whole", ANY},
    {"entire", ANY},
    {"around", ANY},
    {"not", ANY},
    {"no", ANY},
    {"but", ANY},
    {"except", ANY},
    {"without", ANY},
    {"todo", ANY},
    {"todos", ANY},
    {"toda", ANY},
    {"todas", ANY},
    {"ambos", ANY},
    {"resto", ANY},
    {"otro", ANY},
    {"otros", ANY},
    {"excepto", ANY},
    {"salvo", ANY},
    {"menos", ANY},
    {"sin", ANY},
};

/* Letters count where nothing else is said but what a side is called: the "e" of other words is no
 * east, and the "s" of "owner's side" no south. */
static const struct {
    const char *letter;
    unsigned side;
} letters[] = {{"n", NORTH},  {"s", SOUTH},  {"e", EAST},   {"w", WEST},
               {"a", SIDE_A}, {"b", SIDE_B}, {"c", SIDE_C}, {"d", SIDE_D}};

static const char *const around[] = {"side",      "elevation", "wall",   "face",
                                     "lado",      "fachada",   "pared",  "muro",
                                     "elevacion", "elevación", "facade", "façade"};

static unsigned side_of_letter(const char *word)
{
    for (size_t i = 0; i < sizeof letters / sizeof letters[0]; i++)
        if (mf_same_room(word, letters[i].letter))
            return letters[i].side;
    return 0;
}

/* "N", "N side", "lado N": one word beside the letter, or none; and "N/S/E". 0 = the text is
 * something else. */
static unsigned by_letters(const char *text)
{
    enum { WORD = 32 };
    unsigned sides = 0;
    size_t n = 0, beside = 0;
    while (*text != '\0') {
        char word[WORD];
        size_t len = 0;
        while (mf_in_word(text[len]))
            len++;
        if (len >= WORD)
            return 0;
        memcpy(word, text, len);
        word[len] = '\0';
        unsigned side = len == 0 ? 0 : side_of_letter(word);
        if (len > 0 && side == 0 &&
            !mf_words_hold_one(word, around, sizeof around / sizeof around[0]))
            return 0;
        sides |= side;
        n += side != 0;
        beside += len > 0 && side == 0;
        text += len == 0 ? 1 : len;
    }
    return beside <= (n == 1) ? sides : 0;
}

static unsigned sides_of(const char *text)
{
    unsigned sides = by_letters(text);
    if (sides != 0)
        return sides;
    for (size_t i = 0; i < sizeof called / sizeof called[0]; i++)
        if (mf_words_hold(text, called[i].words))
            sides |= called[i].sides;
    return sides;
}

/* In one way of telling sides apart both say theirs, and these are others. */
static bool differ(unsigned a, unsigned b, unsigned way)
{
    return (a & way) != 0 && (b & way) != 0 && (a & b & way) == 0;
}

bool mf_may_be_one_side(const char *side, const char *place)
{
    unsigned a = sides_of(mf_or_empty(side)), b = sides_of(mf_or_empty(place));
    return mf_same_room(side, place) ||
           !(differ(a, b, COMPASS) || differ(a, b, STANDING) || differ(a, b, LETTERED));
}
