/* The rooms of a work area, and which of them words name. Constructed; the lists end before what
 * stands behind them, which is of no job. */
#include "core/area_rooms.h"
#include "core/given.h"

static const mf_area area = {
    .id = "A1", .place = "pantry", .side = MF_SIDE_INTERIOR, .openings = "W01,W02"};
static const mf_opening openings[] = {{.id = "W01", .room = "Kitchen"},
                                      {.id = "W03", .room = "attic"},
                                      {.id = "W09", .room = "cellar"}};
static const mf_component components[] = {
    {.id = "pantry.wall", .opening = "", .room = "pantry", .side = MF_SIDE_INTERIOR},
    {.id = "W01.sash", .opening = "W01", .room = "", .side = MF_SIDE_INTERIOR},
    {.id = "W01.sill", .opening = "W01", .room = "nook", .side = MF_SIDE_INTERIOR},
    {.id = "W02.sash", .opening = "W02", .room = "hall", .side = MF_SIDE_INTERIOR}};
static const mf_job job = {.area = &area,
                           .n_area = 1,
                           .opening = openings,
                           .n_opening = 2,
                           .component = components,
                           .n_component = 3};

static void each_once(void **state)
{
    (void)state;
    static const char *const rooms[] = {"Kitchen", "pantry", "nook"};
    size_t at = 0;
    for (size_t i = 0; i < sizeof rooms / sizeof rooms[0]; i++)
        assert_string_equal(mf_next_room(&job, &area, &at), rooms[i]);
    assert_null(mf_next_room(&job, &area, &at));
    assert_null(mf_next_room(&job, &area, &at));
}

static void named(void **state)
{
    (void)state;
    static const struct {
        const char *words, *room;
        size_t n;
    } rows[] = {
        {"kitchen floor", "Kitchen", 1},      {"W01 sill", "Kitchen", 1},
        {"w01, and the nook", "nook", 2},     {"pantry, pantry, Pantry", "pantry", 1},
        {"nook/pantry/KITCHEN", "pantry", 3},
    };
    static const char *const none[] = {"", "attic", "W03 sill", "W09 sill", "hall", "kitchens"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_ROW(mf_room_named(&job, &area, rows[i].words, rows[i].room), rows[i].words);
        CHECK_ROW(mf_rooms_named(&job, &area, rows[i].words) == rows[i].n, rows[i].words);
    }
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        CHECK_ROW(mf_rooms_named(&job, &area, none[i]) == 0, none[i]);
}

/* What has a room in another area, or in none, is no room of this one, whose name it holds. */
static void by_the_longest_of_the_job(void **state)
{
    (void)state;
    CHECK_ROW(mf_rooms_named(&job, &area, "kitchen attic") == 1, "kitchen");
    static const mf_opening both[] = {{.id = "W01", .room = "bath"},
                                      {.id = "W02", .room = "bath 2"}};
    static const mf_area one = {
        .id = "A1", .place = "bath", .side = MF_SIDE_INTERIOR, .openings = "W01"};
    static const mf_job two = {.area = &one, .n_area = 1, .opening = both, .n_opening = 2};
    CHECK_ROW(mf_room_named(&two, &one, "bath floor", "bath"), "bath");
    CHECK_ROW(!mf_room_named(&two, &one, "bath 2 floor", "bath"), "bath 2");
    CHECK_ROW(mf_room_named(&two, NULL, "bath 2 floor", "Bath 2"), "bath 2 of the job");
    CHECK_ROW(mf_rooms_named(&two, NULL, "bath, bath 2, W01, BATH") == 2, "both");
    CHECK_ROW(mf_rooms_named(&two, &one, "bath, bath 2, W01, BATH") == 1, "one");
}

static void words_of_a_phrase(void **state)
{
    (void)state;
    CHECK_ROW(mf_words_hold("the North hall", "north hall"), "in it");
    CHECK_ROW(mf_words_hold("hall", "hall"), "all of it");
    CHECK_ROW(!mf_words_hold("hallway", "hall"), "a longer word");
    CHECK_ROW(!mf_words_hold("unhall", "hall"), "behind a word");
    CHECK_ROW(!mf_words_hold("hall", "north hall"), "less");
    CHECK_ROW(!mf_words_hold("hall", ""), "no phrase");
    CHECK_ROW(!mf_words_hold("", "hall"), "no words");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_once),
        cmocka_unit_test(named),
        cmocka_unit_test(by_the_longest_of_the_job),
        cmocka_unit_test(words_of_a_phrase),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
