/* The summary for owner and occupant says only what the record shows: what 40 CFR 745.86(c) hands
 * over and was not done must not read as if it had been. In fixture_job.h all of it was done. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

static fixture fx;

/* All blanks and line ends as one space. */
static void unwrap(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0'; at++) {
        if (strchr("\n \f", *at) == NULL)
            *to++ = *at;
        else if (to > text && to[-1] != ' ')
            *to++ = ' ';
    }
    *to = '\0';
}

static char *summary(const paper_world *w, mf_lang lang)
{
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(&fx.job);
    ask.lang = lang;
    if (mf_paper_summary(&pdf, &ask, &err) != MF_OK)
        fail_msg("%s, %s", err.where, err.what);
    paper_write(w->folder, "summary.pdf", &pdf);
    mf_bytes_free(&pdf);
    paper_shell(w->folder, "pdftotext summary.pdf summary.txt");
    char *text = paper_slurp(w->folder, "summary.txt");
    unwrap(text);
    return text;
}

/* What it says, and what it must not say; in both languages. NULL = nothing. */
typedef struct sentences {
    const char *says, *says_es, *never, *never_es;
} sentences;

static void holds(const paper_world *w, const sentences *all, size_t n)
{
    for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
        char *text = summary(w, (mf_lang)lang);
        for (size_t i = 0; i < n; i++) {
            const char *says = lang == MF_LANG_EN ? all[i].says : all[i].says_es;
            const char *never = lang == MF_LANG_EN ? all[i].never : all[i].never_es;
            if (says != NULL && strstr(text, says) == NULL)
                fail_msg("it does not say \"%s\": %s", says, text);
            if (never != NULL && strstr(text, never) != NULL)
                fail_msg("it says \"%s\": %s", never, text);
        }
        free(text);
    }
}

#define HOLDS(w, list) holds(w, list, sizeof(list) / sizeof((list)[0]))

#define TAUGHT      "Everyone on the crew was taught"
#define TAUGHT_ES   "A toda la cuadrilla se le ense"
#define SIGNS       "Signs told people"
#define SIGNS_ES    "Los letreros dec"
#define PLASTIC     "Plastic closed off"
#define PLASTIC_ES  "stico cerr"
#define NO_FLAME    "No one burned"
#define NO_FLAME_ES "Nadie quem"
#define TRASH       "Trash was bagged"
#define TRASH_ES    "La basura se puso en bolsas"

static void all_of_it_was_done(void **state)
{
    static const sentences all[] = {
        {TAUGHT, TAUGHT_ES, "does not show", "no muestra"},
        {SIGNS, SIGNS_ES, "The firm says", "La empresa dice"},
        {PLASTIC, PLASTIC_ES, "Ask the firm", "Pregunte a la empresa"},
        {NO_FLAME, NO_FLAME_ES, NULL, NULL},
        {TRASH, TRASH_ES, NULL, NULL},
        {"Inside, the crew cleaned from the top down", "Adentro, la cuadrilla limpi", NULL, NULL},
        {"Outside, the crew cleaned up till", "Afuera, la cuadrilla limpi", NULL, NULL},
        {"A1, kitchen: clean by the rule on September 16, 2026.", "A1, kitchen: quedó limpia", NULL,
         NULL},
        {"A2, north: clean on September 16, 2026.", "A2, north: quedó limpia", NULL, NULL},
        {"Completed on September 16, 2026.", "Terminada el 16", NULL, NULL},
    };
    fx_good(&fx);
    HOLDS(*state, all);
}

/* 745.85(a)(3)(i): open-flame burning or torching is prohibited. */
static void a_torch_is_told(void **state)
{
    static const sentences all[] = {
        {"a way that is not allowed: open flame burning or torching, A1, September 14, 2026",
         "que no est", NO_FLAME, NO_FLAME_ES}};
    fx_good(&fx);
    fx.practice[0].method = MF_METHOD_OPEN_FLAME;
    HOLDS(*state, all);
}

/* (a)(3)(iii): a heat gun below 1100 F; one whose heat is not said shows nothing. */
static void a_heat_gun_of_unknown_heat(void **state)
{
    static const sentences unsaid[] = {
        {"does not show that this was done in a way that is allowed: heat gun", "no muestra",
         NO_FLAME, NO_FLAME_ES}};
    static const sentences hot[] = {
        {"a way that is not allowed: heat gun, 1100", "que no est", NO_FLAME, NO_FLAME_ES}};
    fx_good(&fx);
    fx.practice[0].method = MF_METHOD_HEAT_GUN;
    HOLDS(*state, unsaid);
    fx.practice[0].temp_f = 1100;
    HOLDS(*state, hot);
}

/* (a)(3): of an area with no way of work logged nothing is known. */
static void an_area_without_methods(void **state)
{
    static const sentences all[] = {{"does not show that no one burned",
                                     "no muestra que nadie quemara", NO_FLAME, NO_FLAME_ES}};
    fx_good(&fx);
    fx.job.n_practice = 1;
    HOLDS(*state, all);
}

/* 745.90(b)(2), 745.86(b)(6)(i). */
static void nobody_was_taught(void **state)
{
    static const sentences all[] = {{"does not show that everyone on the crew was taught",
                                     "no muestra que a toda la cuadrilla", TAUGHT, TAUGHT_ES}};
    fx_good(&fx);
    fx.job.n_training = 0;
    HOLDS(*state, all);
    fx_good(&fx); /* taught by somebody who is no certified renovator: 745.90(b)(2) */
    fx.training[0].trainer = "lee";
    HOLDS(*state, all);
}

/* 745.85(a)(1), 745.86(b)(6)(ii); posted after the paint was disturbed is not "before
 * beginning". */
static void signs_were_not_posted(void **state)
{
    static const sentences all[] = {{"does not show that signs told people",
                                     "no muestra que a tiempo hubiera", SIGNS, SIGNS_ES}};
    fx_good(&fx);
    fx_tick(&fx, "A1", "signs")->state = MF_TICK_UNDONE;
    HOLDS(*state, all);
    fx_good(&fx);
    fx_tick(&fx, "A1", "signs")->on = fx_day("2026-09-15");
    HOLDS(*state, all);
}

/* 745.82(b), 745.86(b)(6): what an emergency kept the firm from is told with its reason. */
static void what_an_emergency_waived(void **state)
{
    static const sentences all[] = {
        {"not fully closed off and covered with plastic. The reason it gave: water was coming in",
         "del todo con pl", PLASTIC, PLASTIC_ES},
        {SIGNS, SIGNS_ES, "does not show", "no muestra"}};
    fx_good(&fx);
    fx.house.emergency = MF_YES;
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "containment", "water was coming in");
    fx_tick(&fx, "A1", "floor-sheet")->state = MF_TICK_UNDONE;
    HOLDS(*state, all);
}

/* 745.85(a)(2)(i)(D): the floor is covered; where it was not, impossible or not, the summary
 * says so with the reason. */
static void the_floor_was_not_covered(void **state)
{
    static const sentences impossible[] = {
        {"A1, kitchen: the record says that the floor was not covered with plastic. The reason "
         "given: the stairs are too steep.",
         "el piso no se cubri", PLASTIC, PLASTIC_ES}};
    static const sentences no[] = {{"the floor was not covered with plastic. The reason given: no.",
                                    "el piso no se cubri", PLASTIC, PLASTIC_ES}};
    fx_good(&fx);
    mf_tick *tick = fx_tick(&fx, "A1", "floor-sheet");
    tick->state = MF_TICK_NOT_NEEDED;
    tick->ground = MF_GROUND_IMPOSSIBLE;
    tick->reason = "the stairs are too steep";
    HOLDS(*state, impossible);
    tick->ground = MF_GROUND_OWN_WORDS;
    tick->reason = "no";
    HOLDS(*state, no);
}

/* 745.85(a)(4), 745.86(b)(6)(vi). */
static void waste_lay_open(void **state)
{
    static const sentences all[] = {{"does not show that all trash was bagged",
                                     "no muestra que toda la basura", TRASH, TRASH_ES}};
    fx_good(&fx);
    fx_tick(&fx, "A2", "waste-contained")->state = MF_TICK_UNDONE;
    HOLDS(*state, all);
}

/* 745.85(a)(5): inside from the top down, outside till nothing is left; each is said of itself. */
static void one_side_was_cleaned(void **state)
{
    static const sentences all[] = {
        {"Inside, the crew cleaned", "Adentro, la cuadrilla limpi", NULL, NULL},
        {"does not show that the crew cleaned up outside", "limpiara afuera", "Outside, the crew",
         "Afuera, la cuadrilla"}};
    fx_good(&fx);
    fx_tick(&fx, "A2", "clean-outside")->state = MF_TICK_UNDONE;
    HOLDS(*state, all);
}

/* 745.85(b)(2): the last look outside found dust. */
static void dust_was_left_outside(void **state)
{
    static const sentences all[] = {{"does not show that the crew cleaned up outside",
                                     "limpiara afuera", "Outside, the crew",
                                     "Afuera, la cuadrilla"}};
    fx_good(&fx);
    fx_look(&fx, "A2")->event = MF_VER_LOOK_DIRTY;
    HOLDS(*state, all);
}

/* 745.85(b)(1): wiped without having been cleaned shows nothing; nobody is told that it is clean
 * where the signs may not come down. */
static void wiped_and_not_cleaned(void **state)
{
    static const sentences all[] = {
        {"A1, kitchen: the record does not show yet that it was checked and is clean. Keep out",
         "A1, kitchen: el registro a", "A1, kitchen: clean", "A1, kitchen: qued"},
        {"A2, north: clean on", "A2, north: qued", NULL, NULL}};
    fx_good(&fx);
    fx_tick(&fx, "A1", "chips")->state = MF_TICK_UNDONE;
    HOLDS(*state, all);
}

/* 745.86(c)(1): the 30 days are the law's, fewer are of who says so. */
static void fewer_days_are_not_the_law(void **state)
{
    static const sentences all[] = {{"within 30 days (5 days by the limits of this job) after",
                                     "(5 días por los límites de este trabajo)", "within 5 days",
                                     "dentro de 5 d"}};
    fx_good(&fx);
    fx_add_local(&fx, MF_LIMIT_HANDOVER_DAYS, MF_AS_FEDERAL, "5");
    HOLDS(*state, all);
}

/* 745.86(c)(1)(i): where a kit frees all paint, its record is due. */
static void free_by_a_kit_is_handed_over(void **state)
{
    static const sentences all[] = {
        {"The law says you must get this", "La ley dice", "No law asks", "Ninguna ley"}};
    fx_good(&fx);
    for (size_t i = 0; i < fx.job.n_component; i++)
        fx.component[i].affected = i == 1 ? MF_YES : MF_NOT; /* the one the kit was used on */
    fx.kit_test[0].result = MF_RES_NEGATIVE;
    HOLDS(*state, all);
}

/* 745.83: a child-occupied facility is no home, nor is another building that is presumed one. */
static void a_facility_is_no_home(void **state)
{
    static const sentences all[] = {
        {"What was done in this building", "hizo en este edificio", "this home", "esta casa"},
        {"Old paint in this building", "La pintura vieja de este edificio", NULL, NULL}};
    for (int i = 0; i < 2; i++) {
        fx_good(&fx);
        fx.house.building = i == 0 ? MF_BUILDING_FACILITY : MF_BUILDING_OTHER;
        HOLDS(*state, all);
    }
}

/* Whoever led without a certificate is not shown like one who has it. */
static void led_without_a_certificate(void **state)
{
    static const sentences all[] = {
        {"no certificate shown for that day", "sin certificado vigente ese", NULL, NULL}};
    fx_good(&fx);
    fx.certificate[1].holder = "lee";
    HOLDS(*state, all);
}

static mf_component *another(const char *id, mf_component_type type, const char *label)
{
    mf_component *part = &fx.component[fx.job.n_component++];
    *part = fx.component[3]; /* the wall of the kitchen */
    part->id = id;
    part->type = type;
    part->label = label;
    return part;
}

/* Two walls of one room are two parts, each by its own name; of two without one by the id. */
static void two_parts_of_a_room(void **state)
{
    static const sentences labels[] = {{"baseboard (north wall", "(north wall", NULL, NULL},
                                       {"other (pantry shelf)", "(pantry shelf)", NULL, NULL},
                                       {"on the baseboard (north wall), kitchen",
                                        "(north wall), kitchen", "baseboard, kitchen",
                                        "zócalo, kitchen"}};
    static const sentences ids[] = {{"baseboard (K.n", "(K.n", NULL, NULL}};
    fx_good(&fx);
    mf_component *north = another("K.n", MF_COMP_BASEBOARD, "north wall");
    mf_component *south = another("K.s", MF_COMP_BASEBOARD, "south wall");
    another("K.o", MF_COMP_OTHER, "pantry shelf");
    fx.kit_test[0].component = "K.n";
    HOLDS(*state, labels);
    north->label = "";
    south->label = "";
    HOLDS(*state, ids);
}

/* A wall of the kitchen may be that of either unit, the window is in the list of one. */
static void a_room_of_two_units(void **state)
{
    static const sentences all[] = {
        {"kitchen, unit 2B / 3A", "kitchen, unidad 2B / 3A", "2B / 3A W01", "2B / 3A W01"}};
    fx_good(&fx);
    fx.area[0].unit = "2B";
    fx.area[fx.job.n_area] = fx.area[0];
    fx.area[fx.job.n_area].id = "A9";
    fx.area[fx.job.n_area].openings = "";
    fx.area[fx.job.n_area++].unit = "3A";
    HOLDS(*state, all);
}

/* 745.82(a): where the rule does not hold nothing of it was owed. */
static void outside_the_rule(void **state)
{
    static const sentences all[] = {
        {"Not under the rule: built in 1978 or later", "Fuera de la regla", "Keep out till",
         "No entre hasta"},
        {NULL, NULL, "does not show that", "no muestra que"},
        {"No law asks for this paper", "Ninguna ley pide este papel", "The law says",
         "La ley dice"},
        {NULL, NULL, "You must get the lab report", "Usted debe recibir el informe"},
        {NULL, NULL, "Old paint in this home may", "puede tener plomo. El polvo"},
        {NULL, NULL, "The firm keeps it for", "La empresa lo guarda"}};
    fx_good(&fx);
    fx.house.year_built = 1990;
    HOLDS(*state, all);
}

/* 24 CFR part 35 has small amounts of its own: 2 sq ft inside, and not 6 (35.1350(d)). */
static void outside_the_rule_and_assisted(void **state)
{
    static const sentences all[] = {
        {"The renovation rule does not ask for this paper", "La regla de renovaci", "No law asks",
         "Ninguna ley pide"},
        {"24 CFR part 35 has rules of its own", "24 CFR parte 35 tiene sus propias", NULL, NULL}};
    fx_assisted_minor(&fx);
    for (size_t i = 0; i < fx.job.n_practice; i++)
        fx.practice[i].method = MF_METHOD_HAND;
    for (size_t i = 0; i < fx.job.n_opening; i++)
        fx.opening[i].replaced = MF_NOT;
    HOLDS(*state, all);
}

/* 745.86(c): before the work is done or billed there is no day yet. */
static void no_day_yet(void **state)
{
    static const sentences all[] = {{"shows no end of the work and no bill yet",
                                     "no muestra el fin del trabajo", "Here that is", "es el not"}};
    fx_good(&fx);
    fx.job.n_completion = fx.job.n_invoice = 0;
    HOLDS(*state, all);
}

/* Room by room, with the parts by their names and no name that only the book knows; each part
 * of a window is said once what it is. */
static void by_room_and_by_name(void **state)
{
    static const sentences all[] = {
        {"Room", "Cuarto", "W02.sash", "W02.sash"},
        {"sash: the frame with the glass", "hoja: el bastidor con el vidrio", NULL, NULL},
        {"A chip of paint from the sash at W02", "la pintura (hoja en W02) fue a", NULL, NULL},
        {"September 14, 2026", "14 de septiembre de 2026", "2026-09-1", "2026-09-1"}};
    fx_good(&fx);
    HOLDS(*state, all);
}

/* 745.82(a)(1): a determination frees paint only when the assessor was certified. */
static void a_report_by_nobody_certified(void **state)
{
    static const sentences all[] = {{"so it frees no paint", "no libra ninguna pintura",
                                     "wrote down which paint is free", "libre de plomo: R"}};
    fx_good(&fx);
    fx.determination[0].assessor = "lee";
    HOLDS(*state, all);
}

/* ---- the check ---------------------------------------------------------------------- */

/* 745.85(c): clearance samples in place of (b); A3 has its surfaces listed as well. */
static void cleared_by_samples(void **state)
{
    static const sentences all[] = {
        {"A3, bedroom: cleared by dust samples of September 16, 2026.", "A3, bedroom: aprobada por",
         "A3, bedroom: the record does not show", "A3, bedroom: el registro"}};
    static const sentences high[] = {{"A3, bedroom: the record does not show yet",
                                      "A3, bedroom: el registro a", "A3, bedroom: cleared",
                                      "A3, bedroom: aprobada"}};
    fx_good(&fx);
    fx.surface[fx.job.n_surface] = fx.surface[0];
    fx.surface[fx.job.n_surface].id = "W02-sill";
    fx.surface[fx.job.n_surface++].area = "A3";
    HOLDS(*state, all);
    fx.dust_sample[0].loading_ng_ft2 = 5000; /* at the floor's level of 745.227(e)(8) */
    HOLDS(*state, high);
}

/* 745.227(e)(8)(i), (vii): below 5 on floors; a composite is held against the level divided by
 * half of its wipes, which is 2.5 for four. */
static void a_result_stands_beside_its_limit(void **state)
{
    static const sentences alone[] = {
        {"5 µg/sq ft (limit: below 5 µg/sq ft), fails", "(límite: menos de 5 ", NULL, NULL}};
    static const sentences four[] = {
        {"3 µg/sq ft (limit: below 2.5 µg/sq ft), fails", "(límite: menos de 2", NULL, NULL}};
    fx_good(&fx);
    fx.dust_sample[0].loading_ng_ft2 = 5000;
    HOLDS(*state, alone);
    fx.dust_sample[0].loading_ng_ft2 = 3000;
    fx.dust_sample[0].wipes = 4;
    HOLDS(*state, four);
}

static mf_verification again(mf_wipe_event event, int minute)
{
    mf_verification it = fx.verification[2]; /* the floor of A1 */
    it.event = event;
    it.cloth = event == MF_VER_RECLEANED || event == MF_VER_SEEN_DRY ? MF_CLOTH_NONE : MF_CLOTH_NEW;
    it.at_minute = minute;
    return it;
}

/* 745.85(b)(1)(ii)(B)(2)-(3): two wet cloths darker than the card, an hour, one dry cloth:
 * that section is done, and nothing compares the dry cloth with the card. */
static void a_dry_cloth_ends_it(void **state)
{
    static const sentences all[] = {{"On kitchen (floor), two wet white cloths came up too dark.",
                                     "En kitchen (piso), dos", "until they stayed clean",
                                     "quedaron limpios"},
                                    {"no one holds a dry cloth against the test card. On all else",
                                     "En todo lo dem", "On each sill", "En cada alf"}};
    fx_good(&fx);
    fx.verification[2] = again(MF_VER_WET_DARKER, 620);
    fx_add_verification(&fx, again(MF_VER_RECLEANED, 625));
    fx_add_verification(&fx, again(MF_VER_WET_DARKER, 630));
    fx_add_verification(&fx, again(MF_VER_SEEN_DRY, 695));
    fx_add_verification(&fx, again(MF_VER_DRY_WIPE, 700));
    HOLDS(*state, all);
}

/* 745.85(b), 745.90(b)(1): the check is the certified renovator's. */
static void checked_by_somebody_else(void **state)
{
    static const sentences all[] = {{"A1, kitchen: the record does not show yet",
                                     "A1, kitchen: el registro", "A1, kitchen: clean",
                                     "A1, kitchen: quedó limpia"}};
    fx_good(&fx);
    for (size_t i = 0; i < 3; i++)
        fx.verification[i].person = "lee";
    HOLDS(*state, all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_of_it_was_done),
        cmocka_unit_test(a_torch_is_told),
        cmocka_unit_test(a_heat_gun_of_unknown_heat),
        cmocka_unit_test(an_area_without_methods),
        cmocka_unit_test(nobody_was_taught),
        cmocka_unit_test(signs_were_not_posted),
        cmocka_unit_test(what_an_emergency_waived),
        cmocka_unit_test(the_floor_was_not_covered),
        cmocka_unit_test(waste_lay_open),
        cmocka_unit_test(one_side_was_cleaned),
        cmocka_unit_test(dust_was_left_outside),
        cmocka_unit_test(wiped_and_not_cleaned),
        cmocka_unit_test(fewer_days_are_not_the_law),
        cmocka_unit_test(a_facility_is_no_home),
        cmocka_unit_test(led_without_a_certificate),
        cmocka_unit_test(two_parts_of_a_room),
        cmocka_unit_test(a_room_of_two_units),
        cmocka_unit_test(free_by_a_kit_is_handed_over),
        cmocka_unit_test(outside_the_rule),
        cmocka_unit_test(outside_the_rule_and_assisted),
        cmocka_unit_test(no_day_yet),
        cmocka_unit_test(by_room_and_by_name),
        cmocka_unit_test(a_report_by_nobody_certified),
        cmocka_unit_test(cleared_by_samples),
        cmocka_unit_test(a_result_stands_beside_its_limit),
        cmocka_unit_test(a_dry_cloth_ends_it),
        cmocka_unit_test(checked_by_somebody_else),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
