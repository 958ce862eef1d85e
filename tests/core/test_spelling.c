/* One name as different people write it. Constructed. */
#include "core/given.h"
#include "core/spelling.h"

static void one_room(void **state)
{
    (void)state;
    static const char *const same[][2] = {
        {"kitchen", "Kitchen"},
        {"ba\u00f1o", "BA\u00d1O"},
        {"ba\u00f1o", "bano"},
        {"ban\u0303o", "ba\u00f1o"}, /* the accent by itself */
        {"cafe\u0301", "cafe"},
        {"caf\u00e9", "CAF\u00c9"},
        {"bath 2", "bath-2"},
        {"bath 2", " Bath   2 "},
        {"bath\u20132", "bath\u00a02"}, /* a dash, a blank that does not break */
        {"bath #2", "bath_2"},
        {"bath2", "bath 2"},
        {"bed room", "Bedroom"},
        {"", " "},
        {"A[", "a{"},
        {"Ida's room", "IDA\u2019S ROOM"},
        {"stra\u00dfe", "STRASSE"},
        {"", "-"},
    };
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        CHECK_ROW(mf_same_room(same[i][0], same[i][1]), same[i][0]);
        CHECK_ROW(mf_same_room(same[i][1], same[i][0]), same[i][1]);
    }
    CHECK_ROW(mf_same_room(NULL, ""), "");
}

static void another_room(void **state)
{
    (void)state;
    static const char *const other[][2] = {
        {"bath 2", "bath"},     {"bath 2", "bath 22"}, {"bath 1 2", "bath 12"}, {"ba\u00f1o", "ba"},
        {"bath 12", "bath1 2"}, {"\xF1", "\xF2"},      {"\xF1", "n"},           {"\xE2\x80", "-"},
        {"", "attic"},          {"\u043a", "\u043d"},  {"stra\u00df", "stras"},
    };
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++) {
        CHECK_ROW(!mf_same_room(other[i][0], other[i][1]), other[i][0]);
        CHECK_ROW(!mf_same_room(other[i][1], other[i][0]), other[i][1]);
    }
}

static void among_words(void **state)
{
    (void)state;
    static const struct {
        const char *words, *name;
        size_t len;
    } rows[] = {
        {"BA\u00d1O floor", "ba\u00f1o", 5},
        {"ban\u0303o", "bano", 6},
        {"cafe\u0301, floor", "caf\u00e9", 6},
        {"bath-2\u2014floor", "bath 2", 6},
        {"bath", "bath-", 4},
        {"bath 22", "bath 2", 0},
        {"bed room, floor", "bedroom", 8},
        {"Bedroom floor", "bed room", 7},
        {"bedrooms", "bed room", 0},
        {"bath 2 2", "bath 22", 0},
        {"bath", "bath 2", 0},
        {"stra\u00df", "stras", 0},
        {"bath", "", 0},
        {"bath", "-", 0},
        {"", "bath", 0},
        {"ba\u00f1os", "bano", 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        CHECK_ROW(mf_goes_on(rows[i].words, rows[i].name) == rows[i].len, rows[i].words);
    assert_true(mf_word_begins("a b", 0));
    assert_true(mf_word_begins("a b", 2));
    assert_false(mf_word_begins("ab", 1));
    assert_false(mf_word_begins("\u00f1o", 2));
    assert_true(mf_word_begins("a\u2014o", 4));
}

/* Each word of the one among the other's, in whatever order and whichever way it is written in. */
static void one_room_in_two_ways(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        bool may_be;
    } rows[] = {
        {"kitchen, west end", "kitchen", true},
        {"2nd floor bedroom", "Bedroom, 2nd floor", true},
        {"ba\u00f1o (norte)", "BANO", true},
        {"bath 22", "bath 2", false},
        {"unbath", "bath", false},
        {"kitchen", "", false},
        {"kitchen", "- /", false},
        {"bathroom", "bath", true},
        {"BATH", "Bath room", true},
        {"hall", "hallway", true},
        {"bedroom", "bed room", true},
        {"living room", "livingroom", true},
        {"stairs", "stairway", true},
        {"stair", "stairs", true},
        {"closets", "closet", true},
        {"entry hall", "entryway", true},
        {"bed2", "bedroom two", true},
        {"2nd floor hall", "second floor hallway", true},
        {"NE bedroom", "northeast bedroom", true},
        {"north-east bedroom", "bedroom NE", true},
        {"bedroom 1", "bedroom one", true},
        {"bed1", "bed 1", true},
        {"2nd bedroom", "bedroom 2", true},
        {"bedroom II", "second bedroom", true},
        {"1st bath", "bathroom one", true},
        {"cocina", "kitchen", true},
        {"dormitorio 2", "2nd bedroom", true},
        {"segundo dormitorio", "bedroom 2", true},
        {"dormitorio, segundo piso", "bedroom 2", false},
        {"hall", "corridor", true},
        {"bathroom", "WC", false}, /* a floor of the one is none of the other */
        {"master bedroom", "primary bedroom", true},
        {"recamara principal", "master bedroom", true},
        {"basement", "cellar", true},
        {"bedroom III", "bedroom 2", false},
        {"bedroom 1", "bedroom two", false},
        {"bed1", "bed 2", false},
        {"NE bedroom", "NW bedroom", false},
        {"2nd floor bedroom", "bedroom 2", false}, /* a number, and not the floor */
        {"living room", "lounge", false},
        {"hall", "den", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_ROW(mf_may_be_one_room(rows[i].a, rows[i].b) == rows[i].may_be, rows[i].a);
        CHECK_ROW(mf_may_be_one_room(rows[i].b, rows[i].a) == rows[i].may_be, rows[i].b);
    }
}

/* Where what is disturbed is added up: a house that has the one may not have the other. */
static void may_count_as_one(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        bool may;
    } rows[] = {
        {"bathroom", "WC", true},        {"bath", "toilet", true},
        {"restroom", "lavatory", true},  {"entry", "foyer", true},
        {"vestibule", "entryway", true}, {"hall", "corridor", true},
        {"toilet", "kitchen", false},    {"WC 1", "bath 2", false},
        {"upstairs", "bedroom 2", true}, {"all bedrooms", "bedroom 2", true},
        {"unknown", "kitchen", true},    {"?", "kitchen", true},
        {"n/a", "kitchen", true},        {"Apt 2B", "kitchen", true},
        {"all bedrooms", "bath", false}, {"upstairs bath", "downstairs bath", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_ROW(mf_may_count_as_one_room(rows[i].a, rows[i].b) == rows[i].may, rows[i].a);
        CHECK_ROW(mf_may_count_as_one_room(rows[i].b, rows[i].a) == rows[i].may, rows[i].b);
    }
}

/* Two rooms or one: "bedroom 2" has a word more, and is another. */
static void the_same_words(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        bool same;
    } rows[] = {
        {"bedroom", "BED ROOM", true},
        {"bedroom 2", "bedroom two", true},
        {"2nd floor bath", "bathroom, second floor", true},
        {"room", "bath", false},
        {"bathroom, 2nd floor", "second floor bathroom", true},
        {"bedroom", "bedroom 2", false},
        {"kitchen, west end", "kitchen", false},
        {"hall", "hallway", true},
        {"hall", "corridor", true},
        {"basement", "cellar", true},
        {"bathroom", "WC", false}, /* where there are both, each is sampled */
        {"entry", "foyer", false},
        {"", "hall", false},
        {"- /", "hall", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_ROW(mf_same_room_words(rows[i].a, rows[i].b) == rows[i].same, rows[i].a);
        CHECK_ROW(mf_same_room_words(rows[i].b, rows[i].a) == rows[i].same, rows[i].b);
    }
}

/* What is no one room holds every room that may lie there. */
static void within_a_wide_place(void **state)
{
    (void)state;
    static const struct {
        const char *room, *whole;
        bool within;
    } rows[] = {
        {"bedroom 2", "upstairs", true},        {"bedroom 2", "all bedrooms", true},
        {"bedroom 2", "bedrooms", true},        {"bedroom 2", "both bedrooms upstairs", true},
        {"kitchen", "all bedrooms", false},     {"kitchen", "whole house", true},
        {"cocina", "toda la casa", true},       {"kitchen", "main floor", true},
        {"bedroom 2", "main bedroom", false},   {"upstairs bath", "2nd floor", true},
        {"3rd floor bath", "2nd floor", false}, {"upstairs bath", "downstairs", false},
        {"bano, planta alta", "arriba", true},  {"bedroom 2", "kitchen", false},
        {"bedroom 2", "bedroom 3", false},      {"bedroom 2", "", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        CHECK_ROW(mf_room_within(rows[i].room, rows[i].whole) == rows[i].within, rows[i].whole);
}

static void tells_a_room(void **state)
{
    (void)state;
    static const char *const rooms[] = {"kitchen, west end", "Hallway",     "recamara 2", "WC",
                                        "en suite",          "half bathrm", "Aseo",       "den"};
    static const char *const none[] = {"upstairs", "guest room",    "see plan",
                                       "Apt 2B",   "various rooms", "Zone 3",
                                       "",         "room 2",        "primary suite"};
    for (size_t i = 0; i < sizeof rooms / sizeof rooms[0]; i++)
        CHECK_ROW(mf_tells_a_room(rooms[i]), rooms[i]);
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        CHECK_ROW(!mf_tells_a_room(none[i]), none[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(within_a_wide_place),
        cmocka_unit_test(tells_a_room),
        cmocka_unit_test(one_room),
        cmocka_unit_test(another_room),
        cmocka_unit_test(among_words),
        cmocka_unit_test(one_room_in_two_ways),
        cmocka_unit_test(the_same_words),
        cmocka_unit_test(may_count_as_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
