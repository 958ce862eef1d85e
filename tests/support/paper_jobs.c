/* The invented jobs themselves. Days are written as dates; amounts in the units
 * of job.h. */
#include "support/paper_job.h"

#include <mistfold/contain.h>
#include <stdlib.h>
#include <string.h>

static mf_day day(const char *text)
{
    return mf_day_parse(text, NULL);
}

static void add_person(paper_job *made, const char *id, const char *name, mf_discipline discipline,
                       const char *number)
{
    mf_person *person = paper_job_add(made, "person");
    person->id = id;
    person->name = name;
    if (*number == '\0')
        return;
    mf_certificate *held = paper_job_add(made, "certificate");
    held->holder = id;
    held->discipline = discipline;
    held->number = number;
    held->issuer = "Invented Training Center";
    held->issued = day("2023-03-04");
    held->expires = day("2028-03-04");
    held->hands_on = MF_YES;
}

static void add_firm(paper_job *made)
{
    mf_firm *firm = paper_job_add(made, "firm");
    firm->name = "Invented Sash and Door Works";
    firm->address = "2 Sample Yard, Exampleton";
    firm->phone = "000-555-0100";
    mf_certificate *held = paper_job_add(made, "certificate");
    held->holder = "firm";
    held->discipline = MF_DISC_FIRM;
    held->number = "INV-F-0042";
    held->issuer = "US EPA (invented number)";
    held->issued = day("2024-05-01");
    held->expires = day("2029-05-01");
    add_person(made, "rosa", "Rosa Peña Ñíguez", MF_DISC_RENOVATOR, "INV-R-1007");
    add_person(made, "tran", "Trần Văn Ấn", MF_DISC_INSPECTOR, "INV-I-2001");
    add_person(made, "soren", "Søren Mẫu", MF_DISC_RENOVATOR, "");
}

static void add_house(paper_job *made)
{
    mf_house *house = paper_job_add(made, "house");
    house->id = made->job.id;
    house->address = "14 Example Lane, Exampleton";
    house->year_built = 1926;
    house->building = MF_BUILDING_DWELLING;
    house->owner_occupied = MF_YES;
    house->for_compensation = MF_YES;
    house->child_under_6 = MF_YES;
    house->work = "window-replacement";
    house->description = "Replace two sash windows and the back door";
    house->start = day("2026-09-14");
    house->end = day("2026-09-18");
    house->language = "en";
    mf_party *owner = paper_job_add(made, "party");
    owner->id = "owner";
    owner->role = MF_ROLE_OWNER;
    owner->name = "Núria Øster";
    owner->address = "14 Example Lane, Exampleton";
    mf_notice *notice = paper_job_add(made, "notice");
    notice->party = "owner";
    notice->method = MF_DELIVERY_ACKNOWLEDGED;
    notice->on = day("2026-08-20");
    notice->signed_on = day("2026-08-20");
    notice->signer = "Núria Øster";
    notice->language = "en";
    mf_party *tenant = paper_job_add(made, "party");
    tenant->id = "tenant";
    tenant->role = MF_ROLE_OCCUPANT;
    tenant->name = "Ada Example";
}

static void add_crew(paper_job *made)
{
    mf_assignment *lead = paper_job_add(made, "assignment");
    lead->person = "rosa";
    lead->duty = MF_DUTY_RENOVATOR;
    lead->on = day("2026-09-14");
    mf_assignment *worker = paper_job_add(made, "assignment");
    worker->person = "soren";
    worker->duty = MF_DUTY_WORKER;
    worker->on = day("2026-09-14");
    mf_training *training = paper_job_add(made, "training");
    training->worker = "soren";
    training->trainer = "rosa";
    training->topics = "signs and sheeting; working wet; misting and folding; cleaning";
    training->on = day("2026-09-14");
}

static void add_component(paper_job *made, const char *opening, const char *suffix,
                          mf_component_type type, mf_side side)
{
    mf_component *part = paper_job_add(made, "component");
    part->id = paper_job_text(made, "%s.%s", opening, suffix);
    part->opening = opening;
    part->type = type;
    part->side = side;
    part->substrate = MF_SUB_WOOD;
    part->painted = MF_YES;
    part->affected = MF_YES;
    part->disturbed_sqft_100 = 450;
}

static void add_opening(paper_job *made, const char *id, mf_opening_kind kind, const char *room)
{
    mf_opening *opening = paper_job_add(made, "opening");
    opening->id = id;
    opening->kind = kind;
    opening->room = room;
    opening->elevation = "north";
    opening->storey = 1;
    opening->width_in = 36;
    opening->height_in = 60;
    if (kind == MF_OPENING_DOOR) {
        add_component(made, id, "slab", MF_COMP_DOOR_SLAB, MF_SIDE_INTERIOR);
        add_component(made, id, "casing", MF_COMP_INTERIOR_CASING, MF_SIDE_INTERIOR);
        return;
    }
    add_component(made, id, "sash", MF_COMP_SASH, MF_SIDE_INTERIOR);
    add_component(made, id, "sill", MF_COMP_INTERIOR_SILL, MF_SIDE_INTERIOR);
    add_component(made, id, "casing", MF_COMP_INTERIOR_CASING, MF_SIDE_INTERIOR);
    add_component(made, id, "trough", MF_COMP_TROUGH, MF_SIDE_EXTERIOR);
    add_component(made, id, "brickmould", MF_COMP_EXTERIOR_CASING, MF_SIDE_EXTERIOR);
}

static void add_reading(paper_job *made, const char *component, mf_qualifier qualifier,
                        int64_t ug_cm2, int32_t minute)
{
    mf_reading *shot = paper_job_add(made, "reading");
    shot->number = (int64_t)made->job.n_reading;
    shot->instrument = "INV-XRF-1";
    shot->operator_id = "tran";
    shot->purpose = *component == '\0' ? MF_READ_CALIBRATION : MF_READ_PAINT;
    shot->component = component;
    shot->substrate = MF_SUB_WOOD;
    shot->colour = *component == '\0' ? "" : "white";
    shot->qualifier = qualifier;
    shot->loading_ug_cm2 = ug_cm2;
    shot->on = day("2026-09-02");
    shot->at_minute = minute;
}

static void add_film(paper_job *made, int32_t minute)
{
    add_reading(made, "", MF_QUAL_EXACT, 1000, minute);
    add_reading(made, "", MF_QUAL_EXACT, 1100, minute + 1);
    add_reading(made, "", MF_QUAL_EXACT, 1000, minute + 2);
}

static void add_instrument(paper_job *made)
{
    mf_instrument *gun = paper_job_add(made, "instrument");
    gun->serial = "INV-XRF-1";
    gun->film_ug_cm2 = 1000;
    gun->cal_low_ug_cm2 = 800;
    gun->cal_high_ug_cm2 = 1200;
    gun->inconclusive_low_ug_cm2 = 900;
    gun->inconclusive_high_ug_cm2 = 1100;
    gun->note = "invented";
}

static void add_tests(paper_job *made)
{
    add_instrument(made);
    add_film(made, 480);
    add_reading(made, "W01.sash", MF_QUAL_OVER, 9900, 490);
    add_reading(made, "W01.sill", MF_QUAL_EXACT, 1000, 492);
    add_reading(made, "W01.casing", MF_QUAL_EXACT, -100, 494);
    add_reading(made, "W01.trough", MF_QUAL_EXACT, 4300, 496);
    add_reading(made, "W02.sash", MF_QUAL_EXACT, 200, 498);
    add_reading(made, "W02.sill", MF_QUAL_UNDER, 100, 500);
    add_reading(made, "D01.slab", MF_QUAL_EXACT, 400, 502);
    add_film(made, 530);
    mf_determination *free_of = paper_job_add(made, "determination");
    free_of->assessor = "tran";
    free_of->report = "Invented inspection report 7";
    free_of->method = "every affected component";
    free_of->firm_has_copy = MF_YES;
    free_of->on = day("2026-09-03");
    mf_kit_test *kit = paper_job_add(made, "kit_test");
    kit->component = "W02.casing";
    kit->tester = "rosa";
    kit->maker = "invented maker";
    kit->model = "invented model";
    kit->epa_recognized = MF_YES;
    kit->result = MF_RES_NEGATIVE;
    kit->on = day("2026-09-10");
    mf_chip *chip = paper_job_add(made, "chip");
    chip->component = "D01.casing";
    chip->sampler = "rosa";
    chip->laboratory = "Invented Laboratory";
    chip->lab_address = "9 Sample Road, Exampleton";
    chip->nllap = MF_YES;
    chip->weight_ppm = 5000;
    chip->on = day("2026-09-10");
}

static void tick_area(paper_job *made, const char *area, mf_side side, bool all)
{
    size_t n = 0;
    const mf_step *steps = mf_steps(&n);
    const unsigned bit = side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
    for (size_t i = 0; i < n; i++) {
        if (steps[i].when == MF_WHEN_ASSISTED || (steps[i].sides & bit) == 0 ||
            (!all && steps[i].phase != MF_PHASE_CONTAIN))
            continue;
        mf_tick *tick = paper_job_add(made, "tick");
        tick->area = area;
        tick->step = steps[i].id;
        tick->state = strcmp(steps[i].id, "ducts") == 0 ? MF_TICK_NOT_NEEDED : MF_TICK_DONE;
        tick->reason = tick->state == MF_TICK_NOT_NEEDED ? "looked behind the radiator" : "";
        tick->ground =
            tick->state == MF_TICK_NOT_NEEDED ? MF_GROUND_NONE_PRESENT : MF_GROUND_OWN_WORDS;
        tick->person = "soren";
        tick->renovator = "rosa";
        tick->on = day("2026-09-14");
        tick->at_minute = 450 + (int32_t)i * 3;
        if (steps[i].extent >= 0)
            tick->measured_ft_100 = all ? 1000 : 550;
    }
}

static void add_areas(paper_job *made)
{
    mf_area *inside = paper_job_add(made, "area");
    inside->id = "A1";
    inside->side = MF_SIDE_INTERIOR;
    inside->place = "dining room";
    inside->openings = "W01,W02";
    inside->length_ft_100 = 1400;
    inside->width_ft_100 = 1200;
    mf_area *outside = paper_job_add(made, "area");
    outside->id = "A2";
    outside->side = MF_SIDE_EXTERIOR;
    outside->place = "north";
    outside->openings = "W01,W02";
    outside->length_ft_100 = 2400;
    outside->storeys = 2;
    outside->line_ft_100 = 800;
    tick_area(made, "A1", MF_SIDE_INTERIOR, true);
    tick_area(made, "A2", MF_SIDE_EXTERIOR, false);
    mf_practice *hand = paper_job_add(made, "practice");
    hand->area = "A1";
    hand->method = MF_METHOD_HAND;
    hand->person = "soren";
    hand->note = "wet scraping, misted";
    hand->on = day("2026-09-14");
    mf_practice *hot = paper_job_add(made, "practice");
    hot->area = "A2";
    hot->method = MF_METHOD_HEAT_GUN;
    hot->temp_f = 1100;
    hot->person = "soren";
    hot->on = day("2026-09-15");
}

static void add_event(paper_job *made, const char *surface, mf_wipe_event event, mf_cloth cloth,
                      int32_t minute)
{
    mf_verification *seen = paper_job_add(made, "verification");
    seen->area = "A1";
    seen->surface = surface;
    seen->section = *surface == '\0' ? 0 : 1;
    seen->event = event;
    seen->cloth = cloth;
    seen->person = "rosa";
    seen->on = day("2026-09-16");
    seen->at_minute = minute;
}

static void add_verification(paper_job *made)
{
    mf_surface *sill = paper_job_add(made, "surface");
    sill->id = "S1";
    sill->area = "A1";
    sill->kind = MF_SURFACE_SILL;
    sill->place = "W01";
    sill->size_sqft_100 = 120;
    mf_surface *floor = paper_job_add(made, "surface");
    floor->id = "F1";
    floor->area = "A1";
    floor->kind = MF_SURFACE_FLOOR;
    floor->place = "dining room";
    floor->size_sqft_100 = 8000;
    add_event(made, "", MF_VER_LOOK_CLEAN, MF_CLOTH_NONE, 600);
    add_event(made, "S1", MF_VER_WET_MATCH, MF_CLOTH_NEW, 605);
    add_event(made, "F1", MF_VER_WET_DARKER, MF_CLOTH_NEW, 610);
    add_event(made, "F1", MF_VER_WET_MATCH, MF_CLOTH_NEW, 615);
    add_event(made, "F1", MF_VER_RECLEANED, MF_CLOTH_NONE, 640);
    add_event(made, "F1", MF_VER_WET_MATCH, MF_CLOTH_NEW, 645);
    mf_dust_sample *dust = paper_job_add(made, "dust_sample");
    dust->area = "A1";
    dust->place = "under W01";
    dust->surface = MF_DUST_FLOOR;
    dust->sampler = "tran";
    dust->laboratory = "Invented Laboratory";
    dust->nllap = MF_YES;
    dust->loading_ng_ft2 = 4900;
    dust->on = day("2026-09-17");
}

static void add_close(paper_job *made)
{
    mf_completion *completion = paper_job_add(made, "completion");
    completion->on = day("2026-09-18");
    mf_handover *handover = paper_job_add(made, "handover");
    handover->party = "owner";
    handover->what = "record";
    handover->how = "by hand";
    handover->on = day("2026-09-25");
    mf_certification *statement = paper_job_add(made, "certification");
    statement->person = "rosa";
    statement->on = day("2026-09-18");
    mf_reading *wrong = (mf_reading *)(size_t)&made->job.reading[3];
    wrong->src.correction = "tablet/900";
    struct {
        mf_correction fix; /* first: freed by its address */
        mf_reading was;
    } *all = calloc(1, sizeof *all);
    if (all == NULL)
        abort();
    all->was = *wrong;
    all->was.loading_ug_cm2 = 990;
    all->fix = (mf_correction){.src = {"tablet/900", "2026-09-03T08:00:00Z", "tran", ""},
                               .target = wrong->src.entry,
                               .replaces = wrong->src.entry,
                               .settles = "",
                               .kind = "reading",
                               .reason = "one digit was left out",
                               .before = "{\"component\":\"W01.sash\",\"loading_ug_cm2\":990}",
                               .after = "{\"component\":\"W01.sash\",\"loading_ug_cm2\":9900}",
                               .was = &all->was,
                               .now = wrong};
    made->job.correction = &all->fix;
    made->job.n_correction = 1;
}

void paper_job_small(paper_job *made)
{
    paper_job_start(made, "J-1926");
    add_firm(made);
    add_house(made);
    add_crew(made);
    add_opening(made, "W01", MF_OPENING_WINDOW, "dining room");
    add_opening(made, "W02", MF_OPENING_WINDOW, "dining room");
    add_opening(made, "D01", MF_OPENING_DOOR, "kitchen");
    add_tests(made);
    add_areas(made);
    add_verification(made);
    add_close(made);
}

/* A name of 120 characters with one word that is too wide for any column. */
static const char *long_name(paper_job *made, int k)
{
    return paper_job_text(made, "Name%03d %s %s", k,
                          "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
                          "de la Muy Larga y Ñoña Familia de los Inventados aa");
}

void paper_job_big(paper_job *made)
{
    paper_job_start(made, "J-LONG-ID-0123456789-0123456789-0123");
    add_firm(made);
    add_house(made);
    add_crew(made);
    add_instrument(made);
    mf_house *house = (mf_house *)(size_t)made->job.house;
    house->address = long_name(made, 999);
    for (size_t i = 0; i < made->job.n_person; i++)
        ((mf_person *)(size_t)&made->job.person[i])->name = long_name(made, (int)i);
    add_film(made, 480);
    for (int i = 1; i <= 60; i++) {
        const char *id = paper_job_text(made, "W%02d", i);
        add_opening(made, id, MF_OPENING_WINDOW, long_name(made, i));
    }
    for (int i = 0; i < 394; i++) {
        const mf_component *part = &made->job.component[(size_t)i % made->job.n_component];
        add_reading(made, part->id, i % 17 == 0 ? MF_QUAL_OVER : MF_QUAL_EXACT,
                    i % 17 == 0 ? 9900 : (int64_t)(i * 37 % 1700) - 200, 490 + i % 200);
    }
    add_film(made, 700);
    add_areas(made);
    add_verification(made);
    add_close(made);
}
