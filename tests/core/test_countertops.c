/* Whether the countertops of a room are asked for. 40 CFR 745.85(b)(1)(ii)(B); which rooms have
 * one, and what one is called, is common practice, no source. */
#include "core/given.h"

#include "core/surfaces.h"

#include <mistfold/area.h>
#include <string.h>

static void rooms_that_have_one(void **state)
{
    (void)state;
    static const struct {
        const char *place;
        bool asked;
    } rows[] = {
        {"Kitchen 2", true},      {"galley", true},       {"half bath", true},
        {"BATHRM", true},         {"lavatory", true},     {"toilet", true},
        {"WC, 2nd floor", true},  {"water closet", true}, {"aseo", true},
        {"cuarto de bano", true}, {"living room", false}, {"toy closet", false},
        {"galleys", false},       {"bedroom", false},     {"servicio", true},
        {"Küche", true},          {"wet bar", true},      {"en suite", true},
        {"En-suite", true},       {"barn", false},        {"ensuite 2", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_area area = {.id = "A1", .side = MF_SIDE_INTERIOR, .place = rows[i].place};
        const mf_job job = {.area = &area, .n_area = 1};
        const char *lacks = mf_countertops_lack(&job, &area);
        CHECK_ROW((lacks != NULL) == rows[i].asked, rows[i].place);
        if (lacks != NULL)
            assert_string_equal(lacks, "countertop-unsaid");
    }
}

/* What is on the list of parts counts against the word that there is none. */
static void one_on_the_list(void **state)
{
    (void)state;
    static const struct {
        const char *name, *label, *id, *room;
        mf_component_type type;
        mf_tri said;
        const char *lacks; /* NULL = nothing */
    } rows[] = {
        {"said not to be there", "Counter top", "p1", "den", MF_COMP_OTHER, MF_NOT,
         "countertop-on-list"},
        {"by its id", NULL, "counter-1", "den", MF_COMP_OTHER, MF_NOT, "countertop-on-list"},
        {"in Spanish", "Encimera de roble", "p1", "Den", MF_COMP_OTHER, MF_NOT,
         "countertop-on-list"},
        {"not said", "mostrador", "p1", "den", MF_COMP_OTHER, MF_UNKNOWN, "countertop-missing"},
        {"said to be there", "countertop", "p1", "den", MF_COMP_OTHER, MF_YES,
         "countertop-missing"},
        {"of another room", "countertop", "p1", "attic", MF_COMP_OTHER, MF_NOT, NULL},
        {"something else", "cabinet", "p1", "den", MF_COMP_OTHER, MF_NOT, NULL},
        {"a wall", "counter", "p1", "den", MF_COMP_WALL, MF_NOT, NULL},
        {"another word", "encounter", "p1", "den", MF_COMP_OTHER, MF_NOT, NULL},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_area area = {
            .id = "A1", .side = MF_SIDE_INTERIOR, .place = "den", .countertops = rows[i].said};
        const mf_component part = {.id = rows[i].id,
                                   .type = rows[i].type,
                                   .label = rows[i].label,
                                   .side = MF_SIDE_INTERIOR,
                                   .room = rows[i].room};
        const mf_job job = {.area = &area, .n_area = 1, .component = &part, .n_component = 1};
        const char *lacks = mf_countertops_lack(&job, &area);
        const char *wanted = rows[i].lacks == NULL ? "" : rows[i].lacks;
        CHECK_ROW(strcmp(lacks == NULL ? "" : lacks, wanted) == 0, rows[i].name);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rooms_that_have_one),
        cmocka_unit_test(one_on_the_list),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
