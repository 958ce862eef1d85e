/* Look-ups in a constructed job. */
#include "core/given.h"

static void last_of_an_id_wins(void **state)
{
    (void)state;
    const mf_person people[] = {
        {.id = "rosa", .name = "A"}, {.id = "ben"}, {.id = "rosa", .name = "B"}};
    const mf_party parties[] = {{.id = "owner"}};
    const mf_opening openings[] = {{.id = "W01"}, {.id = "W02"}};
    const mf_component components[] = {{.id = "W01.sash"}};
    const mf_area areas[] = {{.id = "A1"}};
    const mf_surface surfaces[] = {{.id = "S1"}};
    const mf_instrument instruments[] = {{.serial = "X-1"}};
    const mf_job job = {.person = people,
                        .n_person = 3,
                        .party = parties,
                        .n_party = 1,
                        .opening = openings,
                        .n_opening = 2,
                        .component = components,
                        .n_component = 1,
                        .area = areas,
                        .n_area = 1,
                        .surface = surfaces,
                        .n_surface = 1,
                        .instrument = instruments,
                        .n_instrument = 1};
    assert_ptr_equal(mf_job_person(&job, "rosa"), &people[2]);
    assert_ptr_equal(mf_job_person(&job, "ben"), &people[1]);
    assert_null(mf_job_person(&job, "ros"));
    assert_ptr_equal(mf_job_party(&job, "owner"), &parties[0]);
    assert_ptr_equal(mf_job_opening(&job, "W02"), &openings[1]);
    assert_ptr_equal(mf_job_component(&job, "W01.sash"), &components[0]);
    assert_ptr_equal(mf_job_area(&job, "A1"), &areas[0]);
    assert_ptr_equal(mf_job_surface(&job, "S1"), &surfaces[0]);
    assert_ptr_equal(mf_job_instrument(&job, "X-1"), &instruments[0]);
    assert_null(mf_job_instrument(&job, "X-2"));
}

static void nothing_in_an_empty_job(void **state)
{
    (void)state;
    const mf_job job = {.id = "J-1"};
    assert_null(mf_job_person(&job, "rosa"));
    assert_null(mf_job_area(&job, ""));
}

static void ids_in_lists(void **state)
{
    (void)state;
    static const struct {
        const char *list, *id;
        bool in;
    } rows[] = {
        {"W01,W02,W03", "W01", true}, {"W01,W02,W03", "W02", true}, {"W01,W02,W03", "W03", true},
        {"W01,W02", "W0", false},     {"W01,W02", "01", false},     {"W01,W02", "W022", false},
        {"W01", "W01", true},         {"", "W01", false},           {"W01", "", false},
        {"W01,,W02", "W02", true},    {",W01,", "W01", true},       {"W01,W02", "W01,W02", true},
        {"AW01,W01", "W01", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        CHECK_ROW(mf_id_in_list(rows[i].list, rows[i].id) == rows[i].in, rows[i].list);
    assert_false(mf_id_in_list(NULL, "W01"));
    assert_false(mf_id_in_list("W01", NULL));
}

static void areas_hold_components(void **state)
{
    (void)state;
    const mf_area areas[] = {
        {.id = "A1", .side = MF_SIDE_INTERIOR, .place = "kitchen", .openings = "W01,W02"},
        {.id = "A2", .side = MF_SIDE_EXTERIOR, .place = "north", .openings = "W01"},
    };
    const mf_job job = {.area = areas, .n_area = 2};
    const mf_component sash = {.opening = "W01", .side = MF_SIDE_INTERIOR};
    const mf_component casing = {.opening = "W01", .side = MF_SIDE_EXTERIOR};
    const mf_component other = {.opening = "W02", .side = MF_SIDE_EXTERIOR};
    const mf_component wall = {.opening = "", .side = MF_SIDE_INTERIOR, .room = "kitchen"};
    const mf_component bath = {.opening = "", .side = MF_SIDE_INTERIOR, .room = "bath"};
    const mf_component lost = {.opening = "", .side = MF_SIDE_INTERIOR, .room = ""};
    assert_ptr_equal(mf_job_area_of(&job, &sash), &areas[0]);
    assert_ptr_equal(mf_job_area_of(&job, &casing), &areas[1]);
    assert_null(mf_job_area_of(&job, &other));
    assert_ptr_equal(mf_job_area_of(&job, &wall), &areas[0]);
    assert_null(mf_job_area_of(&job, &bath));
    assert_null(mf_job_area_of(&job, &lost));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(last_of_an_id_wins),
        cmocka_unit_test(nothing_in_an_empty_job),
        cmocka_unit_test(ids_in_lists),
        cmocka_unit_test(areas_hold_components),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
