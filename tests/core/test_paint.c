/* What evidence says of paint. Who may prove what: 40 CFR 745.82(a)(1)-(3) and
 * section 11 of the rule digest, row "evidence, tester"; CL6 to CL10 of the testing
 * digest. People, certificates and results are constructed. */
#include "core/given.h"

#include <mistfold/paint.h>
#include <string.h>

/* ---- evidence -------------------------------------------------------------------- */

/* One piece of evidence on component C1, on 2026-09-14. */
typedef enum piece_kind { END, XRF, KIT, CHIP, PAPER } piece_kind;

typedef struct piece {
    piece_kind kind;
    const char *who;
    int64_t value;      /* XRF: ug/cm2; KIT: mf_result; CHIP: ppm */
    mf_tri good;        /* KIT: recognized; CHIP: NLLAP; PAPER: firm has copy */
    const char *at;     /* XRF: time when not 10:00 */
    const char *on;     /* PAPER: day when not 2026-09-20 */
    const char *names;  /* PAPER: component, or NULL */
    const char *method; /* PAPER */
} piece;

#define SHOT(person, ug)                                                                           \
    {                                                                                              \
        .kind = XRF, .who = (person), .value = (ug)                                                \
    }
#define SHOT_AT(person, ug, time)                                                                  \
    {                                                                                              \
        .kind = XRF, .who = (person), .value = (ug), .at = (time)                                  \
    }
#define SWAB(person, result, recognized)                                                           \
    {                                                                                              \
        .kind = KIT, .who = (person), .value = (result), .good = (recognized)                      \
    }
#define FLAKE(person, ppm, nllap_lab)                                                              \
    {                                                                                              \
        .kind = CHIP, .who = (person), .value = (ppm), .good = (nllap_lab)                         \
    }
#define BY_METHOD(person, copy)                                                                    \
    {                                                                                              \
        .kind = PAPER, .who = (person), .good = (copy), .names = "C1",                             \
        .method = "HUD Guidelines ch. 7"                                                           \
    }

enum { PIECES = 4, READINGS = PIECES + 6 };

typedef struct scene {
    mf_certificate certificates[8];
    mf_instrument gun;
    mf_reading readings[READINGS];
    mf_kit_test kits[PIECES];
    mf_chip chips[PIECES];
    mf_determination papers[PIECES];
    mf_job job;
} scene;

static void certify(scene *s, const char *holder, mf_discipline discipline, const char *from,
                    const char *to)
{
    s->certificates[s->job.n_certificate++] = (mf_certificate){.holder = holder,
                                                               .discipline = discipline,
                                                               .issued = day(from),
                                                               .expires = day(to),
                                                               .hands_on = MF_YES};
}

/* ines inspects and omar assesses risks; rosa is a renovator; the certificates of
 * iris (inspector) and rudi (renovator) ended the day before the tests; will, the
 * worker, holds none. */
static void put_people(scene *s)
{
    s->job.certificate = s->certificates;
    certify(s, "ines", MF_DISC_INSPECTOR, "2024-09-14", "2026-12-31");
    certify(s, "omar", MF_DISC_RISK_ASSESSOR, "2024-09-14", "2026-12-31");
    certify(s, "rosa", MF_DISC_RENOVATOR, "2024-09-14", "2029-09-14");
    certify(s, "iris", MF_DISC_INSPECTOR, "2023-09-14", "2026-09-13");
    certify(s, "rudi", MF_DISC_RENOVATOR, "2021-09-13", "2026-09-13");
    certify(s, "tess", MF_DISC_DUST_TECHNICIAN, "2024-09-14", "2029-09-14");
}

static void put_reading(scene *s, mf_purpose purpose, const piece *p)
{
    s->readings[s->job.n_reading++] =
        (mf_reading){.src = {.entry = "xrf"},
                     .number = (int64_t)s->job.n_reading,
                     .instrument = "X-1",
                     .operator_id = p->who,
                     .purpose = purpose,
                     .component = purpose == MF_READ_PAINT ? "C1" : "",
                     .loading_ug_cm2 = p->value,
                     .film_ug_cm2 = MF_NUM_NONE,
                     .on = day("2026-09-14"),
                     .at_minute = minute(p->at == NULL ? "10:00" : p->at)};
}

static void put_piece(scene *s, const piece *p)
{
    mf_day on = day("2026-09-14");
    if (p->kind == XRF)
        put_reading(s, MF_READ_PAINT, p);
    else if (p->kind == KIT)
        s->kits[s->job.n_kit_test++] = (mf_kit_test){.src = {.entry = "kit"},
                                                     .at_minute = MF_MINUTE_NONE,
                                                     .component = "C1",
                                                     .tester = p->who,
                                                     .epa_recognized = p->good,
                                                     .result = (mf_result)p->value,
                                                     .substrates = "brick,drywall,plaster,wood",
                                                     .on = on};
    else if (p->kind == CHIP)
        s->chips[s->job.n_chip++] = (mf_chip){.src = {.entry = "chip"},
                                              .at_minute = MF_MINUTE_NONE,
                                              .component = "C1",
                                              .sampler = p->who,
                                              .nllap = p->good,
                                              .weight_ppm = p->value,
                                              .loading_ug_cm2 = MF_NUM_NONE,
                                              .on = on};
    else if (p->kind == PAPER)
        s->papers[s->job.n_determination++] =
            (mf_determination){.src = {.entry = "paper"},
                               .at_minute = MF_MINUTE_NONE,
                               .component = p->names == NULL ? "" : p->names,
                               .assessor = p->who,
                               .method = p->method == NULL ? "" : p->method,
                               .firm_has_copy = p->good,
                               .on = day(p->on == NULL ? "2026-09-20" : p->on)};
}

static void set_scene(scene *s, const piece *pieces)
{
    /* Who reads paint checks the instrument as well. */
    const char *checker = pieces[0].kind == XRF ? pieces[0].who : "ines";
    memset(s, 0, sizeof *s);
    put_people(s);
    s->gun = (mf_instrument){.serial = "X-1",
                             .film_ug_cm2 = 1000,
                             .cal_low_ug_cm2 = 800,
                             .cal_high_ug_cm2 = 1200,
                             .inconclusive_low_ug_cm2 = 900,
                             .inconclusive_high_ug_cm2 = 1200,
                             .bounds_inside = MF_YES};
    s->job.instrument = &s->gun;
    s->job.n_instrument = 1;
    s->job.reading = s->readings;
    s->job.kit_test = s->kits;
    s->job.chip = s->chips;
    s->job.determination = s->papers;
    for (int i = 0; i < 6; i++)
        put_reading(
            s, MF_READ_CALIBRATION,
            &(piece){.kind = XRF, .who = checker, .value = 1000, .at = i < 3 ? "08:00" : "11:00"});
    for (int i = 0; i < PIECES && pieces[i].kind != END; i++)
        put_piece(s, &pieces[i]);
}

typedef struct evidence_case {
    const char *name;
    piece pieces[PIECES];
    mf_paint_verdict verdict;
    mf_paint_basis basis;
    mf_paint_doubt doubt;
    const char *evidence, *by;
} evidence_case;

static void check_case(const evidence_case *c)
{
    scene s;
    mf_paint_finding found;
    const mf_component component = {.id = "C1", .painted = MF_UNKNOWN};
    set_scene(&s, c->pieces);
    s.job.component = &component;
    s.job.n_component = 1;
    mf_paint_judge(&s.job, &component, &found);
    if (found.verdict != c->verdict || found.basis != c->basis || found.doubt != c->doubt)
        fail_msg("row \"%s\": verdict %d, basis %d, doubt %d", c->name, (int)found.verdict,
                 (int)found.basis, (int)found.doubt);
    CHECK_ROW(found.component == &component, c->name);
    CHECK_ROW(strcmp(found.evidence, c->evidence) == 0, c->name);
    CHECK_ROW(strcmp(found.by, c->by) == 0, c->name);
    CHECK_ROW((found.on == MF_DAY_NONE) == (*c->evidence == '\0'), c->name);
}

static void check_cases(const evidence_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++)
        check_case(&cases[i]);
}

#define FREE_BY(basis, evidence, by) MF_PAINT_FREE, MF_BASIS_##basis, MF_DOUBT_NONE, evidence, by
#define DOUBT(doubt, basis, evidence, by)                                                          \
    MF_PAINT_PRESUMED, MF_BASIS_##basis, MF_DOUBT_##doubt, evidence, by
#define BOTH_BY(basis, evidence, by)                                                               \
    MF_PAINT_LEAD, MF_BASIS_##basis, MF_DOUBT_CONTRADICTION, evidence, by
#define LEAD_BY(basis, evidence, by) MF_PAINT_LEAD, MF_BASIS_##basis, MF_DOUBT_NONE, evidence, by
#define NEG_KIT                      MF_RES_NEGATIVE

/* 745.82(a)(1): a certified inspector's or risk assessor's determination, and the
 * firm holds a copy. */
static void by_reading_and_determination(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"inspector, report, copy",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         FREE_BY(XRF, "xrf", "ines")},
        {"risk assessor, report, copy",
         {SHOT("omar", 300), {.kind = PAPER, .who = "omar", .good = MF_YES}},
         FREE_BY(XRF, "xrf", "omar")},
        {"0.89 is below the range",
         {SHOT("ines", 890), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         FREE_BY(XRF, "xrf", "ines")},
        {"report names the component",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES, .names = "C1"}},
         FREE_BY(XRF, "xrf", "ines")},
        {"signed the same day",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES, .on = "2026-09-14"}},
         FREE_BY(XRF, "xrf", "ines")},
        {"renovator's XRF", {SHOT("rosa", 300)}, DOUBT(XRF_BY_RENOVATOR, XRF, "xrf", "rosa")},
        {"renovator's XRF and own report",
         {SHOT("rosa", 300), {.kind = PAPER, .who = "rosa", .good = MF_YES}},
         DOUBT(XRF_BY_RENOVATOR, XRF, "xrf", "rosa")},
        {"renovator's XRF, inspector's report",
         {SHOT("rosa", 300), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         DOUBT(XRF_BY_RENOVATOR, XRF, "xrf", "rosa")},
        {"inspector expired the day before",
         {SHOT("iris", 300), {.kind = PAPER, .who = "iris", .good = MF_YES}},
         DOUBT(CERTIFICATE, XRF, "xrf", "iris")},
        {"no report", {SHOT("ines", 300)}, DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"another assessor's report",
         {SHOT("ines", 300), {.kind = PAPER, .who = "omar", .good = MF_YES}},
         DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"report on another component",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES, .names = "C2"}},
         DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"report older than the reading",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES, .on = "2026-09-13"}},
         DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"signed after the certificate ended",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES, .on = "2027-01-01"}},
         DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"firm lacks a copy",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_NOT}},
         DOUBT(NO_COPY, XRF, "xrf", "ines")},
        {"copy not said",
         {SHOT("ines", 300), {.kind = PAPER, .who = "ines"}},
         DOUBT(NO_COPY, XRF, "xrf", "ines")},
        {"no check after it",
         {SHOT_AT("ines", 300, "12:00"), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         DOUBT(CALIBRATION, XRF, "xrf", "ines")},
        {"one of two readings is enclosed",
         {SHOT_AT("ines", 300, "12:00"),
          SHOT("ines", 200),
          {.kind = PAPER, .who = "ines", .good = MF_YES}},
         FREE_BY(XRF, "xrf", "ines")},
    };
    check_cases(cases, COUNT(cases));
}

/* The same paragraph: a determination that names the component and its method. */
static void by_named_determination(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"named, method, copy",
         {BY_METHOD("ines", MF_YES)},
         FREE_BY(DETERMINATION, "paper", "ines")},
        {"named, no method",
         {{.kind = PAPER, .who = "ines", .good = MF_YES, .names = "C1"}},
         DOUBT(NO_METHOD, DETERMINATION, "paper", "ines")},
        {"not named",
         {{.kind = PAPER, .who = "ines", .good = MF_YES, .method = "HUD Guidelines ch. 7"}},
         DOUBT(UNTESTED, NONE, "", "")},
        {"no copy", {BY_METHOD("ines", MF_NOT)}, DOUBT(NO_COPY, DETERMINATION, "paper", "ines")},
        {"by a renovator",
         {BY_METHOD("rosa", MF_YES)},
         DOUBT(CERTIFICATE, DETERMINATION, "paper", "rosa")},
        {"expired on the day of signing",
         {BY_METHOD("iris", MF_YES)},
         DOUBT(CERTIFICATE, DETERMINATION, "paper", "iris")},
    };
    check_cases(cases, COUNT(cases));
}

/* 745.82(a)(2): a certified renovator with an EPA-recognized kit. */
static void by_kit(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"renovator", {SWAB("rosa", NEG_KIT, MF_YES)}, FREE_BY(KIT, "kit", "rosa")},
        {"worker", {SWAB("will", NEG_KIT, MF_YES)}, DOUBT(KIT_TESTER, KIT, "kit", "will")},
        {"inspector", {SWAB("ines", NEG_KIT, MF_YES)}, DOUBT(KIT_TESTER, KIT, "kit", "ines")},
        {"dust technician", {SWAB("tess", NEG_KIT, MF_YES)}, DOUBT(KIT_TESTER, KIT, "kit", "tess")},
        {"expired", {SWAB("rudi", NEG_KIT, MF_YES)}, DOUBT(CERTIFICATE, KIT, "kit", "rudi")},
        {"not recognized",
         {SWAB("rosa", NEG_KIT, MF_NOT)},
         DOUBT(KIT_UNRECOGNIZED, KIT, "kit", "rosa")},
        {"recognition not said",
         {SWAB("rosa", NEG_KIT, MF_UNKNOWN)},
         DOUBT(KIT_UNRECOGNIZED, KIT, "kit", "rosa")},
        {"inconclusive",
         {SWAB("rosa", MF_RES_INCONCLUSIVE, MF_YES)},
         DOUBT(INCONCLUSIVE, KIT, "kit", "rosa")},
        {"repeated after an inconclusive one", /* another kit settles nothing: a laboratory does */
         {SWAB("rosa", MF_RES_INCONCLUSIVE, MF_YES), SWAB("rosa", NEG_KIT, MF_YES)},
         DOUBT(INCONCLUSIVE, KIT, "kit", "rosa")},
        {"settled by a laboratory",
         {SWAB("rosa", MF_RES_INCONCLUSIVE, MF_YES), SWAB("rosa", NEG_KIT, MF_YES),
          FLAKE("rosa", 4999, MF_YES)},
         FREE_BY(CHIP, "chip", "rosa")},
    };
    check_cases(cases, COUNT(cases));
}

/* 745.82(a)(3): a certified renovator's chip and an NLLAP laboratory. */
static void by_chip(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"renovator, NLLAP", {FLAKE("rosa", 4999, MF_YES)}, FREE_BY(CHIP, "chip", "rosa")},
        {"other laboratory",
         {FLAKE("rosa", 4999, MF_NOT)},
         DOUBT(LABORATORY, CHIP, "chip", "rosa")},
        {"laboratory not said",
         {FLAKE("rosa", 4999, MF_UNKNOWN)},
         DOUBT(LABORATORY, CHIP, "chip", "rosa")},
        {"worker", {FLAKE("will", 4999, MF_YES)}, DOUBT(CHIP_SAMPLER, CHIP, "chip", "will")},
        {"renovator expired",
         {FLAKE("rudi", 4999, MF_YES)},
         DOUBT(CERTIFICATE, CHIP, "chip", "rudi")},
        {"inspector expired",
         {FLAKE("iris", 4999, MF_YES)},
         DOUBT(CERTIFICATE, CHIP, "chip", "iris")},
        {"inspector without a report",
         {FLAKE("ines", 4999, MF_YES)},
         DOUBT(NO_DETERMINATION, CHIP, "chip", "ines")},
        {"inspector with a report",
         {FLAKE("ines", 4999, MF_YES), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         FREE_BY(CHIP, "chip", "ines")},
        {"inspector with a report, no copy",
         {FLAKE("ines", 4999, MF_YES), {.kind = PAPER, .who = "ines", .good = MF_NOT}},
         DOUBT(NO_COPY, CHIP, "chip", "ines")},
        {"inspector with a report, other laboratory",
         {FLAKE("ines", 4999, MF_NOT), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         DOUBT(LABORATORY, CHIP, "chip", "ines")},
        {"no result",
         {FLAKE("rosa", MF_NUM_NONE, MF_YES)},
         DOUBT(INCONCLUSIVE, CHIP, "chip", "rosa")},
    };
    check_cases(cases, COUNT(cases));
}

/* CL10: a positive from anyone counts. */
static void positives(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"worker's XRF", {SHOT_AT("will", 1300, "16:00")}, LEAD_BY(XRF, "xrf", "will")},
        {"worker's kit, not recognized",
         {SWAB("will", MF_RES_POSITIVE, MF_NOT)},
         LEAD_BY(KIT, "kit", "will")},
        {"worker's chip, other laboratory",
         {FLAKE("will", 5000, MF_NOT)},
         LEAD_BY(CHIP, "chip", "will")},
        {"positive beside a worker's negative kit: it shows nothing, and says the contrary",
         {SHOT("ines", 1300), SWAB("will", NEG_KIT, MF_YES)},
         BOTH_BY(XRF, "xrf", "ines")},
        {"positive beside a chip to a laboratory of which nobody said that it is recognized",
         {SHOT("ines", 1300), FLAKE("rosa", 100, MF_UNKNOWN)},
         BOTH_BY(XRF, "xrf", "ines")},
        {"positive beside a negative reading that no determination counts",
         {SHOT("ines", 1300), SHOT_AT("will", 300, "16:00")},
         LEAD_BY(XRF, "xrf", "ines")},
        {"positive beside a lawful kit",
         {SHOT("will", 1300), SWAB("rosa", NEG_KIT, MF_YES)},
         BOTH_BY(XRF, "xrf", "will")},
        {"a lawful chip does not undo a positive reading",
         {SHOT("ines", 1300), FLAKE("rosa", 100, MF_YES)},
         BOTH_BY(XRF, "xrf", "ines")},
        {"positive kit beside a lawful determination",
         {SWAB("will", MF_RES_POSITIVE, MF_NOT),
          SHOT("ines", 300),
          {.kind = PAPER, .who = "ines", .good = MF_YES}},
         BOTH_BY(KIT, "kit", "will")},
        {"two chips that differ",
         {FLAKE("rosa", 4999, MF_YES), FLAKE("rosa", 5000, MF_YES)},
         BOTH_BY(CHIP, "chip", "rosa")},
    };
    check_cases(cases, COUNT(cases));
}

/* CL6-CL8: a laboratory chip settles an inconclusive reading, nothing else does. */
static void inconclusive_readings(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"inspector's 0.9, report",
         {SHOT("ines", 900), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
        {"0.99", {SHOT("ines", 990)}, DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
        {"1.0 in the range", {SHOT("ines", 1000)}, DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
        {"settled by a lawful chip",
         {SHOT("ines", 1100), FLAKE("rosa", 4999, MF_YES)},
         FREE_BY(CHIP, "chip", "rosa")},
        {"chip to another laboratory",
         {SHOT("ines", 1100), FLAKE("rosa", 4999, MF_NOT)},
         DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
        {"chip positive",
         {SHOT("ines", 1100), FLAKE("rosa", 5000, MF_YES)},
         LEAD_BY(CHIP, "chip", "rosa")},
        {"a lawful kit does not settle it",
         {SHOT("ines", 1100), SWAB("rosa", NEG_KIT, MF_YES)},
         DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
        {"nor does another reading",
         {SHOT("ines", 1100), SHOT("ines", 300), {.kind = PAPER, .who = "ines", .good = MF_YES}},
         DOUBT(INCONCLUSIVE, XRF, "xrf", "ines")},
    };
    check_cases(cases, COUNT(cases));
}

/* Of several pieces of unlawful evidence the one nearest to lawful is told. */
static void the_most_useful_doubt(void **state)
{
    (void)state;
    static const evidence_case cases[] = {
        {"nothing", {{.kind = END}}, DOUBT(UNTESTED, NONE, "", "")},
        {"worker's kit, inspector without report",
         {SWAB("will", NEG_KIT, MF_YES), SHOT("ines", 300)},
         DOUBT(NO_DETERMINATION, XRF, "xrf", "ines")},
        {"renovator's XRF, chip to another laboratory",
         {SHOT("rosa", 300), FLAKE("rosa", 100, MF_NOT)},
         DOUBT(LABORATORY, CHIP, "chip", "rosa")},
        {"of two lawful ways the chip is told",
         {SWAB("rosa", NEG_KIT, MF_YES), FLAKE("rosa", 100, MF_YES)},
         FREE_BY(CHIP, "chip", "rosa")},
        {"a lawful kit beats them all",
         {SHOT("rosa", 300), FLAKE("rosa", 100, MF_NOT), SWAB("rosa", NEG_KIT, MF_YES)},
         FREE_BY(KIT, "kit", "rosa")},
    };
    check_cases(cases, COUNT(cases));
}

static void other_components_do_not_count(void **state)
{
    (void)state;
    scene s;
    mf_paint_finding found;
    const mf_component other = {.id = "C2", .painted = MF_YES};
    set_scene(&s, (const piece[PIECES]){SWAB("rosa", NEG_KIT, MF_YES), FLAKE("rosa", 5000, MF_YES),
                                        SHOT("ines", 1300)});
    mf_paint_judge(&s.job, &other, &found);
    assert_int_equal(found.verdict, MF_PAINT_PRESUMED);
    assert_int_equal(found.doubt, MF_DOUBT_UNTESTED);
    assert_null(found.worst);
}

/* An instrument nobody entered has no tolerance to be checked against. */
static void an_unknown_instrument(void **state)
{
    (void)state;
    scene s;
    mf_paint_finding found;
    const mf_component component = {.id = "C1", .painted = MF_YES};
    set_scene(&s, (const piece[PIECES]){SHOT("ines", 300),
                                        {.kind = PAPER, .who = "ines", .good = MF_YES}});
    s.job.n_instrument = 0;
    mf_paint_judge(&s.job, &component, &found);
    assert_int_equal(found.verdict, MF_PAINT_PRESUMED);
    assert_int_equal(found.doubt, MF_DOUBT_CALIBRATION);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_reading_and_determination),
        cmocka_unit_test(by_named_determination),
        cmocka_unit_test(by_kit),
        cmocka_unit_test(by_chip),
        cmocka_unit_test(positives),
        cmocka_unit_test(inconclusive_readings),
        cmocka_unit_test(the_most_useful_doubt),
        cmocka_unit_test(other_components_do_not_count),
        cmocka_unit_test(an_unknown_instrument),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
