/* The constructed job of fixture_job.h. */
#include "support/fixture_job.h"

#include <mistfold/contain.h>
#include <stdlib.h>
#include <string.h>

#define SRC(id)                                                                                    \
    {                                                                                              \
        id, "", "rosa", ""                                                                         \
    }

/* Fixtures must hold: a wrong date or a full array ends the test program. */
static void must(bool holds)
{
    if (!holds)
        abort();
}

mf_day fx_day(const char *text)
{
    mf_day day = mf_day_parse(text, NULL);
    must(day != MF_DAY_NONE);
    return day;
}

#define PUT(list, ...)                                                                             \
    do {                                                                                           \
        must(fx->job.n_##list < FX_FEW);                                                           \
        fx->list[fx->job.n_##list++] = (mf_##list)__VA_ARGS__;                                     \
    } while (0)

static void point(fixture *fx)
{
    mf_job *job = &fx->job;
    job->firm = &fx->firm;
    job->person = fx->person;
    job->certificate = fx->certificate;
    job->instrument = &fx->instrument;
    job->house = &fx->house;
    job->party = fx->party;
    job->vacancy = fx->vacancy;
    job->opening = fx->opening;
    job->component = fx->component;
    job->reading = fx->reading;
    job->kit_test = fx->kit_test;
    job->chip = fx->chip;
    job->determination = fx->determination;
    job->notice = fx->notice;
    job->scope_change = fx->scope_change;
    job->assignment = fx->assignment;
    job->training = fx->training;
    job->area = fx->area;
    job->surface = fx->surface;
    job->tick = fx->tick;
    job->practice = fx->practice;
    job->verification = fx->verification;
    job->dust_sample = fx->dust_sample;
    job->completion = &fx->completion;
    job->invoice = &fx->invoice;
    job->handover = fx->handover;
    job->certification = fx->certification;
    job->sealed = fx->sealed;
    job->correction = fx->correction;
    job->local_limit = fx->local_limit;
    job->visit = fx->visit;
    job->owner_record = fx->owner_record;
    job->emergency = fx->emergency;
    job->occupancy = fx->occupancy;
    job->attachment = fx->attachment;
    job->earlier = fx->earlier;
}

/* ---- firm and people ------------------------------------------------------------- */

static mf_certificate certificate(const char *entry, const char *holder, mf_discipline discipline,
                                  const char *expires)
{
    return (mf_certificate){.src = SRC(entry),
                            .holder = holder,
                            .discipline = discipline,
                            .number = entry, /* each has its own */
                            .issuer = "invented",
                            .issued = fx_day("2024-05-10"),
                            .expires = fx_day(expires),
                            .hands_on = MF_YES,
                            .programs = "",
                            .renewal_sent = MF_DAY_NONE,
                            .renewal_decided = MF_DAY_NONE,
                            .changed = MF_DAY_NONE,
                            .amended = MF_DAY_NONE};
}

static void people(fixture *fx)
{
    fx->firm = (mf_firm){.src = SRC("f/1"), .name = "Invented Windows", .address = "1 Test Street"};
    fx->job.n_firm = 1;
    PUT(person, {.src = SRC("p/1"), .id = "rosa", .name = "Rosa Invented"});
    PUT(person, {.src = SRC("p/2"), .id = "omar", .name = "Omar Invented"});
    PUT(person, {.src = SRC("p/3"), .id = "lee", .name = "Lee Invented"});
    PUT(person, {.src = SRC("p/4"), .id = "ines", .name = "Ines Invented"});
    fx->certificate[0] = certificate("c/1", "firm", MF_DISC_FIRM, "2029-05-10");
    fx->certificate[1] = certificate("c/2", "rosa", MF_DISC_RENOVATOR, "2029-05-10");
    fx->certificate[2] = certificate("c/3", "omar", MF_DISC_RENOVATOR, "2029-05-10");
    fx->certificate[3] = certificate("c/4", "ines", MF_DISC_INSPECTOR, "2029-05-10");
    fx->job.n_certificate = 4;
    fx_copies(fx);
    mf_day start = fx_day("2026-09-14");
    PUT(assignment, {.src = SRC("as/1"), .person = "rosa", .duty = MF_DUTY_RENOVATOR, .on = start});
    PUT(assignment, {.src = SRC("as/2"), .person = "omar", .duty = MF_DUTY_RENOVATOR, .on = start});
    PUT(assignment, {.src = SRC("as/3"), .person = "lee", .duty = MF_DUTY_WORKER, .on = start});
    PUT(training, {.src = SRC("tr/1"),
                   .worker = "lee",
                   .trainer = "rosa",
                   .topics = "signs; containment; practices; waste; cleaning",
                   .on = fx_day("2026-09-12")});
}

/* ---- house, openings, tests --------------------------------------------------------- */

/* Beside the parts that are listed the windows have none. */
#define PUT_OPENING(entry, window, inside, side)                                                   \
    PUT(opening, {.src = SRC(entry),                                                               \
                  .id = window,                                                                    \
                  .kind = MF_OPENING_WINDOW,                                                       \
                  .room = inside,                                                                  \
                  .elevation = side,                                                               \
                  .storey = 1,                                                                     \
                  .width_in = 36,                                                                  \
                  .height_in = 60,                                                                 \
                  .absent = "apron,interior-casing,stop,jamb,exterior-sill,exterior-casing"})

static void house(fixture *fx)
{
    fx->house = (mf_house){.src = SRC("h/1"),
                           .id = "J-1926",
                           .address = "2 Test Street",
                           .unit = "",
                           .year_built = 1926,
                           .building = MF_BUILDING_DWELLING,
                           .owner_occupied = MF_NOT,
                           .for_compensation = MF_YES,
                           .elder_or_disabled = MF_NOT,
                           .zero_bedroom = MF_NOT,
                           .child_under_6 = MF_YES,
                           .work = "window-replacement",
                           .emergency = MF_NOT,
                           .description = "two windows",
                           .start = fx_day("2026-09-14"),
                           .end = fx_day("2026-09-16"),
                           .called_off = MF_DAY_NONE,
                           .language = "en",
                           .note = ""};
    fx->job.n_house = 1;
    PUT_OPENING("o/1", "W01", "kitchen", "north");
    PUT_OPENING("o/2", "W02", "bedroom", "south");
}

static mf_component component(const char *entry, const char *id, const char *opening, mf_side side)
{
    return (mf_component){.src = SRC(entry),
                          .id = id,
                          .opening = opening,
                          .type = MF_COMP_SASH,
                          .label = "",
                          .side = side,
                          .room = "",
                          .substrate = MF_SUB_WOOD,
                          .painted = MF_YES,
                          .affected = MF_YES,
                          .disturbed_sqft_100 = 1200,
                          .whole_sqft_100 = MF_NUM_NONE};
}

/* It stays as it is, and is wiped or sampled. */
static mf_component staying(const char *entry, const char *id, const char *opening,
                            mf_component_type type)
{
    mf_component made = component(entry, id, opening, MF_SIDE_INTERIOR);
    made.type = type;
    made.affected = MF_NOT;
    made.disturbed_sqft_100 = MF_NUM_NONE;
    return made;
}

static void components(fixture *fx)
{
    fx->component[0] = component("k/1", "W01.sash", "W01", MF_SIDE_INTERIOR);
    fx->component[1] = component("k/2", "W01.xsill", "W01", MF_SIDE_EXTERIOR);
    fx->component[2] = component("k/3", "W02.sash", "W02", MF_SIDE_INTERIOR);
    fx->component[3] = component("k/4", "kitchen.wall", "", MF_SIDE_INTERIOR);
    fx->component[3].type = MF_COMP_WALL;
    fx->component[3].room = "kitchen";
    fx->component[4] = staying("k/5", "W02.xsill", "W02", MF_COMP_SASH);
    fx->component[4].side = MF_SIDE_EXTERIOR;
    fx->component[5] = staying("k/6", "W01.sill", "W01", MF_COMP_INTERIOR_SILL);
    fx->component[6] = staying("k/7", "W02.sill", "W02", MF_COMP_INTERIOR_SILL);
    fx->component[7] = staying("k/8", "W01.trough", "W01", MF_COMP_TROUGH);
    fx->component[8] = staying("k/9", "W02.trough", "W02", MF_COMP_TROUGH);
    fx->job.n_component = 9;
}

static void shoot(fixture *fx, int number, const char *component_id, int minute, int64_t ug)
{
    PUT(reading, {.src = SRC("x/1"),
                  .film_ug_cm2 = MF_NUM_NONE,
                  .number = number,
                  .instrument = "SN-TEST",
                  .operator_id = "ines",
                  .purpose = *component_id == '\0' ? MF_READ_CALIBRATION : MF_READ_PAINT,
                  .component = component_id,
                  .substrate = MF_SUB_WOOD,
                  .colour = "",
                  .loading_ug_cm2 = ug,
                  .on = fx_day("2026-08-20"),
                  .at_minute = minute});
}

/* W01.sash lead by a reading, W01.xsill by a kit; free: W02.sash by a chip, kitchen.wall by R-7. */
static void tests(fixture *fx)
{
    const mf_day on = fx_day("2026-08-20");
    fx->instrument = (mf_instrument){.src = SRC("i/1"),
                                     .serial = "SN-TEST",
                                     .film_ug_cm2 = 1020,
                                     .cal_low_ug_cm2 = 800,
                                     .cal_high_ug_cm2 = 1200,
                                     .inconclusive_low_ug_cm2 = MF_NUM_NONE,
                                     .inconclusive_high_ug_cm2 = MF_NUM_NONE,
                                     .note = ""};
    fx->job.n_instrument = 1;
    static const int at[] = {480, 481, 482, 500, 540, 541, 542}; /* the sash between checks */
    for (int i = 0; i < 7; i++)
        shoot(fx, i + 1, i == 3 ? "W01.sash" : "", at[i], i == 3 ? 5000 : 1000);
    PUT(kit_test, {.src = SRC("kt/1"),
                   .component = "W01.xsill",
                   .tester = "rosa",
                   .maker = "Invented Kits",
                   .model = "T-0",
                   .lot = "7",
                   .epa_recognized = MF_YES,
                   .result = MF_RES_POSITIVE,
                   .on = on,
                   .substrates = "wood"});
    PUT(chip, {.src = SRC("ch/1"),
               .component = "W02.sash",
               .sampler = "rosa",
               .laboratory = "Invented Laboratory",
               .lab_address = "3 Test Street",
               .nllap = MF_YES,
               .weight_ppm = 90,
               .loading_ug_cm2 = MF_NUM_NONE,
               .on = on});
    PUT(determination, {.src = SRC("d/1"),
                        .component = "kitchen.wall",
                        .assessor = "ines",
                        .report = "R-7",
                        .method = "HUD Guidelines ch. 7",
                        .firm_has_copy = MF_YES,
                        .on = on});
}

/* ---- notices ---------------------------------------------------------------------------- */

static mf_notice acknowledged(const char *party)
{
    return (mf_notice){.src = SRC("n/1"),
                       .party = party,
                       .method = MF_DELIVERY_ACKNOWLEDGED,
                       .on = fx_day("2026-08-31"),
                       .signed_on = fx_day("2026-08-31"),
                       .signer = "invented",
                       .unit = "2 Test Street",
                       .language = "en",
                       .has_statement = MF_YES,
                       .states_receipt = MF_YES,
                       .receipt = MF_YES,
                       .tells_work = MF_YES,
                       .tells_dates = MF_YES,
                       .tells_pamphlet = MF_YES,
                       .tells_records = MF_YES,
                       .work_from = fx_day("2026-09-14"),
                       .work_until = fx_day("2026-09-16")};
}

static void add_party(fixture *fx, const char *id, mf_role role, mf_delivery method)
{
    PUT(party, {.src = SRC("pa/1"),
                .id = id,
                .role = role,
                .name = "invented",
                .address = "",
                .unit = ""});
    must(fx->job.n_notice < FX_FEW);
    fx->notice[fx->job.n_notice] = acknowledged(id);
    fx->notice[fx->job.n_notice++].method = method;
    if (role == MF_ROLE_PARENTS) /* 745.86(c): the record is not owed to them */
        return;
    PUT(handover, {.src = SRC("ho/1"),
                   .party = id,
                   .what = "record",
                   .how = "by hand",
                   .on = fx_day("2026-09-20"),
                   .dust_report = MF_YES});
}

/* ---- work areas ---------------------------------------------------------------------------- */

static mf_area area(const char *id, mf_side side, const char *place, const char *openings)
{
    return (mf_area){.src = SRC("a/1"),
                     .id = id,
                     .side = side,
                     .place = place,
                     .openings = openings,
                     .length_ft_100 = 1200,
                     .width_ft_100 = 1000,
                     .objects = MF_YES,
                     .ducts = MF_YES,
                     .doors_used = MF_YES,
                     .carpet = MF_YES,
                     .countertops = MF_NOT,
                     .storeys = 2,
                     .line_ft_100 = side == MF_SIDE_EXTERIOR ? 1000 : MF_NUM_NONE,
                     .called_off = MF_DAY_NONE,
                     .unit = ""};
}

static void tick_all(fixture *fx, const mf_area *where)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        if (!mf_step_wanted(NULL, &steps[i], where))
            continue;
        must(fx->job.n_tick < FX_TICKS);
        fx->tick[fx->job.n_tick++] =
            (mf_tick){.src = SRC("t/1"),
                      .area = where->id,
                      .step = steps[i].id,
                      .state = MF_TICK_DONE,
                      .person = "lee",
                      .renovator = "rosa",
                      .measured_ft_100 = steps[i].extent < 0 ? MF_NUM_NONE : 1000,
                      .reason = "",
                      .on = fx_day("2026-09-14")};
    }
}

static void areas(fixture *fx)
{
    fx->area[0] = area("A1", MF_SIDE_INTERIOR, "kitchen", "W01");
    fx->area[1] = area("A2", MF_SIDE_EXTERIOR, "north", "W01");
    fx->area[2] = area("A3", MF_SIDE_INTERIOR, "bedroom", "W02");
    fx->area[0].carpet = MF_NOT; /* the floor is wiped; the bedroom has the carpet */
    fx->area[0].length_ft_100 = 800, fx->area[0].width_ft_100 = 500;
    for (fx->job.n_area = 0; fx->job.n_area < 3; fx->job.n_area++)
        tick_all(fx, &fx->area[fx->job.n_area]);
    fx_tick(fx, "A3", "mop")->state = MF_TICK_NOT_NEEDED; /* carpet from wall to wall */
    fx_tick(fx, "A3", "mop")->ground = MF_GROUND_ALL_CARPET;
    for (size_t i = 0; i < fx->job.n_area; i++)
        PUT(practice, {.src = SRC("pr/1"),
                       .area = fx->area[i].id,
                       .method = MF_METHOD_HAND,
                       .temp_f = MF_NUM_NONE,
                       .person = "lee",
                       .note = "",
                       .on = fx_day("2026-09-14")});
    PUT(surface, {.src = SRC("s/1"),
                  .id = "W01-sill",
                  .area = "A1",
                  .kind = MF_SURFACE_SILL,
                  .place = "kitchen",
                  .size_sqft_100 = 200});
    PUT(surface, {.src = SRC("s/2"),
                  .id = "floor",
                  .area = "A1",
                  .kind = MF_SURFACE_FLOOR,
                  .place = "kitchen",
                  .size_sqft_100 = 4000});
}

static mf_verification verification(const char *where, const char *surface, mf_wipe_event event,
                                    int minute)
{
    return (mf_verification){.src = SRC("v/1"),
                             .area = where,
                             .surface = surface,
                             .section = surface[0] != '\0',
                             .event = event,
                             .cloth = surface[0] == '\0' ? MF_CLOTH_NONE : MF_CLOTH_NEW,
                             .person = "rosa",
                             .on = fx_day("2026-09-16"),
                             .at_minute = minute};
}

/* A wipe that passes, as the last one but of another place. */
static void wipe_also(fixture *fx, const char *entry, const char *place, mf_dust_surface surface)
{
    mf_dust_sample sample = fx->dust_sample[fx->job.n_dust_sample - 1];
    sample.src.entry = entry;
    sample.place = place;
    sample.surface = surface;
    sample.loading_ng_ft2 = 1000;
    fx_add_sample(fx, sample);
}

static void cleaning(fixture *fx)
{
    fx_add_verification(fx, verification("A1", "", MF_VER_LOOK_CLEAN, 600));
    fx_add_verification(fx, verification("A1", "W01-sill", MF_VER_WET_MATCH, 610));
    fx_add_verification(fx, verification("A1", "floor", MF_VER_WET_MATCH, 620));
    fx_add_verification(fx, verification("A2", "", MF_VER_LOOK_CLEAN, 630));
    fx_add_verification(fx, verification("A3", "", MF_VER_LOOK_CLEAN, 640));
    fx_add_sample(fx, (mf_dust_sample){.src = SRC("ds/1"),
                                       .area = "A3",
                                       .place = "bedroom floor",
                                       .surface = MF_DUST_FLOOR,
                                       .sampler = "ines",
                                       .laboratory = "Invented Laboratory",
                                       .nllap = MF_YES,
                                       .required = MF_YES,
                                       .loading_ng_ft2 = 4900,
                                       .on = fx_day("2026-09-16"),
                                       .mass_ng = MF_NUM_NONE,
                                       .length_in_1600 = MF_NUM_NONE,
                                       .width_in_1600 = MF_NUM_NONE,
                                       .wipes = MF_NUM_NONE,
                                       .at_minute = 720,
                                       .employer = MF_EMPLOYER_INDEPENDENT,
                                       .approved_by = "",
                                       .outside_ft_100 = MF_NUM_NONE});
    wipe_also(fx, "ds/2", "W02 sill", MF_DUST_SILL);
    wipe_also(fx, "ds/3", "W02 trough", MF_DUST_TROUGH);
    fx_sample_outside(fx, "A3", "hall by the bedroom");
}

static void closing(fixture *fx)
{
    fx->completion = (mf_completion){.src = SRC("co/1"), .on = fx_day("2026-09-16")};
    fx->invoice = (mf_invoice){.src = SRC("in/1"), .on = fx_day("2026-09-20")};
    fx->job.n_completion = fx->job.n_invoice = 1;
    PUT(certification, {.src = SRC("ce/1"), .person = "rosa", .on = fx_day("2026-09-16")});
    PUT(sealed, {.src = SRC("se/1"),
                 .paper = "record",
                 .sha256 = "",
                 .fingerprint = "",
                 .head = "",
                 .capacity = "renovator",
                 .person = "rosa",
                 .on = fx_day("2026-09-17")});
    fx->correction[0] = (mf_correction){.src = SRC("cr/1"),
                                        .target = "s/2",
                                        .replaces = "s/2",
                                        .kind = "surface",
                                        .reason = "measured again",
                                        .before = "{\"size\":3900}",
                                        .after = "{\"size\":4000}"};
    fx->job.n_correction = 1;
}

static void without_parties(fixture *fx)
{
    memset(fx, 0, sizeof *fx);
    point(fx);
    fx->job.id = "J-1926";
    fx->job.integrity = MF_INTEGRITY_GOOD;
    people(fx);
    house(fx);
    components(fx);
    tests(fx);
    areas(fx);
    fx_times(fx);
    cleaning(fx);
    closing(fx);
    add_party(fx, "owner", MF_ROLE_OWNER, MF_DELIVERY_ACKNOWLEDGED);
}

void fx_good(fixture *fx)
{
    without_parties(fx);
    add_party(fx, "tenant", MF_ROLE_OCCUPANT, MF_DELIVERY_ACKNOWLEDGED);
}

void fx_facility(fixture *fx)
{
    without_parties(fx);
    fx->house.building = MF_BUILDING_FACILITY;
    add_party(fx, "daycare", MF_ROLE_FACILITY, MF_DELIVERY_ACKNOWLEDGED);
    add_party(fx, "parents", MF_ROLE_PARENTS, MF_DELIVERY_POSTED);
}

void fx_multi_unit(fixture *fx)
{
    without_parties(fx);
    fx->house.building = MF_BUILDING_MULTI;
    for (size_t i = 0; i < fx->job.n_area; i++)
        fx->area[i].common = MF_YES;
    add_party(fx, "units", MF_ROLE_UNITS, MF_DELIVERY_UNIT_NOTICE);
}
