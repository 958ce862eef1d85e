/* The class of one reading and of one chip. T5 and U9 of the testing digest; the
 * action levels are those of 40 CFR 745.82(a). Instruments and results constructed. */
#include "core/given.h"

#include <mistfold/paint.h>

static mf_instrument with_range(int64_t low, int64_t high, mf_tri inside)
{
    return (mf_instrument){.serial = "X-1",
                           .inconclusive_low_ug_cm2 = low,
                           .inconclusive_high_ug_cm2 = high,
                           .bounds_inside = inside};
}

static mf_paint_class class_of(const mf_instrument *gun, mf_qualifier qualifier, int64_t ug)
{
    const mf_reading reading = {
        .qualifier = qualifier, .loading_ug_cm2 = ug, .on = day("2026-09-14")};
    return mf_reading_class_for(NULL, &reading, gun);
}

#define NEG MF_CLASS_NEGATIVE
#define INC MF_CLASS_INCONCLUSIVE
#define POS MF_CLASS_POSITIVE

/* T5, columns "threshold 1.0", "0.9-1.2 bounds inside", "0.9-1.2 bounds outside". */
static void classes_of_t5(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        mf_qualifier qualifier;
        int64_t ug;
        mf_paint_class threshold, inside, outside;
    } rows[] = {
        {"-9", MF_QUAL_EXACT, -9000, INC, INC, INC}, /* no paint reads so: common practice */
        {"-1.001", MF_QUAL_EXACT, -1001, INC, INC, INC},
        {"<-2", MF_QUAL_UNDER, -2000, INC, INC, INC},
        {"-1.0", MF_QUAL_EXACT, -1000, NEG, NEG, NEG},
        {"-0.3", MF_QUAL_EXACT, -300, NEG, NEG, NEG},
        {"0.8", MF_QUAL_EXACT, 800, NEG, NEG, NEG},
        {"0.9", MF_QUAL_EXACT, 900, NEG, INC, NEG},
        {"0.99", MF_QUAL_EXACT, 990, NEG, INC, INC},
        {"0.999", MF_QUAL_EXACT, 999, NEG, INC, INC},
        {"1.0", MF_QUAL_EXACT, 1000, POS, INC, INC},
        {"1.2", MF_QUAL_EXACT, 1200, POS, INC, POS},
        {"1.3", MF_QUAL_EXACT, 1300, POS, POS, POS},
        {">9.9", MF_QUAL_OVER, 9900, POS, POS, POS},
        {"<0.9", MF_QUAL_UNDER, 900, NEG, NEG, NEG},
        {"<1.0", MF_QUAL_UNDER, 1000, NEG, INC, INC}, /* all that is less than 1.0 */
        {"<1.5", MF_QUAL_UNDER, 1500, INC, INC, INC}, /* shows neither */
        {"none", MF_QUAL_EXACT, MF_NUM_NONE, INC, INC, INC},
    };
    const mf_instrument threshold = with_range(MF_NUM_NONE, MF_NUM_NONE, MF_UNKNOWN);
    const mf_instrument inside = with_range(900, 1200, MF_YES);
    const mf_instrument unsaid = with_range(900, 1200, MF_UNKNOWN); /* D2: read as inside */
    const mf_instrument outside = with_range(900, 1200, MF_NOT);
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_qualifier q = rows[i].qualifier;
        CHECK_ROW(class_of(NULL, q, rows[i].ug) == rows[i].threshold, rows[i].name);
        CHECK_ROW(class_of(&threshold, q, rows[i].ug) == rows[i].threshold, rows[i].name);
        CHECK_ROW(class_of(&inside, q, rows[i].ug) == rows[i].inside, rows[i].name);
        CHECK_ROW(class_of(&unsaid, q, rows[i].ug) == rows[i].inside, rows[i].name);
        CHECK_ROW(class_of(&outside, q, rows[i].ug) == rows[i].outside, rows[i].name);
    }
}

/* CL4: an older sheet 0.9-1.3 and a newer 1.0-1.2 decide alike at one decimal. */
static void older_and_newer_sheets_agree(void **state)
{
    (void)state;
    const mf_instrument older = with_range(900, 1300, MF_NOT);
    const mf_instrument newer = with_range(1000, 1200, MF_YES);
    for (int64_t ug = 0; ug <= 3000; ug += 100)
        assert_int_equal(class_of(&older, MF_QUAL_EXACT, ug), class_of(&newer, MF_QUAL_EXACT, ug));
}

/* A range that lies above the action level never makes 1.0 or more negative. */
static void a_range_above_the_level(void **state)
{
    (void)state;
    const mf_instrument gun = with_range(1300, 1500, MF_YES);
    assert_int_equal(class_of(&gun, MF_QUAL_EXACT, 999), NEG);
    assert_int_equal(class_of(&gun, MF_QUAL_EXACT, 1000), INC);
    assert_int_equal(class_of(&gun, MF_QUAL_UNDER, 1100), INC);
}

/* U9: either measure decides; R-LBP: 1.0 mg/cm2 and 0.5 % are lead. */
static void chips(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int64_t ppm, ug;
        mf_paint_class class_of;
    } rows[] = {
        {"0.12 mg/cm2 and 0.6 %", 6000, 120, POS},
        {"0.10 mg/cm2 and 0.5 % exactly", 5000, 100, POS},
        {"4,999 ppm", 4999, MF_NUM_NONE, NEG},
        {"5,000 ppm", 5000, MF_NUM_NONE, POS},
        {"0.99 mg/cm2", MF_NUM_NONE, 990, NEG},
        {"1.000 mg/cm2", MF_NUM_NONE, 1000, POS},
        {"4,999 ppm and 1.0 mg/cm2", 4999, 1000, POS},
        {"4,999 ppm and 0.999 mg/cm2", 4999, 999, NEG},
        {"neither", MF_NUM_NONE, MF_NUM_NONE, INC},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_chip chip = {
            .weight_ppm = rows[i].ppm, .loading_ug_cm2 = rows[i].ug, .on = day("2026-09-14")};
        CHECK_ROW(mf_chip_class_for(NULL, &chip) == rows[i].class_of, rows[i].name);
    }
}

/* ---- a component and its readings -------------------------------------------------- */

static mf_reading shot(mf_qualifier qualifier, int64_t ug)
{
    return (mf_reading){.purpose = MF_READ_PAINT,
                        .component = "C1",
                        .qualifier = qualifier,
                        .loading_ug_cm2 = ug,
                        .on = day("2026-09-14")};
}

static void the_worst_reading(void **state)
{
    (void)state;
    mf_paint_finding found;
    const mf_component component = {.id = "C1", .painted = MF_YES};
    mf_reading all[] = {shot(MF_QUAL_EXACT, 300), shot(MF_QUAL_EXACT, 1400),
                        shot(MF_QUAL_EXACT, 1300), shot(MF_QUAL_EXACT, -100)};
    const mf_job job = {.reading = all, .n_reading = COUNT(all)};
    mf_paint_judge(&job, &component, &found);
    assert_ptr_equal(found.worst, &all[1]);
    all[3] = shot(MF_QUAL_OVER, 1400); /* the same number, saturated, is worse */
    mf_paint_judge(&job, &component, &found);
    assert_ptr_equal(found.worst, &all[3]);
    all[0] =
        shot(MF_QUAL_UNDER, 5000); /* "less than 5" may be anything: not worse than a positive */
    mf_paint_judge(&job, &component, &found);
    assert_ptr_equal(found.worst, &all[3]);
}

/* A reading on the film is none of the paint, even when a component was named. */
static void film_is_no_paint(void **state)
{
    (void)state;
    mf_paint_finding found;
    const mf_component component = {.id = "C1", .painted = MF_YES};
    mf_reading film = shot(MF_QUAL_EXACT, 1040);
    const mf_job job = {.reading = &film, .n_reading = 1};
    film.purpose = MF_READ_CALIBRATION;
    mf_paint_judge(&job, &component, &found);
    assert_null(found.worst);
    assert_int_equal(found.doubt, MF_DOUBT_UNTESTED);
}

static void nothing_painted(void **state)
{
    (void)state;
    mf_paint_finding found;
    const mf_component bare = {.id = "C1", .painted = MF_NOT};
    mf_reading metal = shot(MF_QUAL_EXACT, 1400);
    const mf_job job = {.reading = &metal, .n_reading = 1};
    metal.purpose = MF_READ_SUBSTRATE; /* the film over it, not the part */
    mf_paint_judge(&job, &bare, &found);
    assert_int_equal(found.verdict, MF_PAINT_UNPAINTED);
    assert_int_equal(found.doubt, MF_DOUBT_NONE);
}

/* Read as paint it is one of two mistakes, and the harmful one is excluded. */
static void no_paint_and_lead(void **state)
{
    (void)state;
    mf_paint_finding found;
    const mf_component part = {.id = "C1", .painted = MF_NOT, .part_of = "C2"};
    mf_reading paint = shot(MF_QUAL_EXACT, 1000);
    const mf_job job = {.reading = &paint, .n_reading = 1};
    mf_paint_judge(&job, &part, &found);
    assert_int_equal(found.verdict, MF_PAINT_LEAD);
    assert_int_equal(found.doubt, MF_DOUBT_UNPAINTED);
    assert_int_equal(found.basis, MF_BASIS_XRF);
    paint.loading_ug_cm2 = 900;
    mf_paint_judge(&job, &part, &found);
    assert_int_equal(found.verdict, MF_PAINT_UNPAINTED);
}

/* A kit's finding for the whole says nothing of a part that has no paint. */
static void unpainted_part(void **state)
{
    (void)state;
    mf_paint_finding found;
    const mf_component part = {
        .id = "C1", .painted = MF_NOT, .part_of = "C2", .refinished = MF_NOT};
    mf_kit_test kit = {.component = "C2", .result = MF_RES_POSITIVE};
    const mf_job job = {.kit_test = &kit, .n_kit_test = 1};
    mf_paint_judge(&job, &part, &found);
    assert_int_equal(found.verdict, MF_PAINT_UNPAINTED);
    kit.component = "C1";
    mf_paint_judge(&job, &part, &found);
    assert_int_equal(found.doubt, MF_DOUBT_UNPAINTED);
}

/* A composite of four at 1,249 ppm cannot hold a chip of 5,000; at 1,250 it can.
 * Constructed. */
static void composite_chips(void **state)
{
    (void)state;
    mf_chip chip = {
        .weight_ppm = 1249, .loading_ug_cm2 = MF_NUM_NONE, .composite = 4, .on = day("2026-09-14")};
    assert_int_equal(mf_chip_class_for(NULL, &chip), NEG);
    chip.weight_ppm = 1250;
    assert_int_equal(mf_chip_class_for(NULL, &chip), INC);
    chip.composite = MF_NUM_NONE;
    assert_int_equal(mf_chip_class_for(NULL, &chip), NEG);
    chip.composite = 1; /* one chip is no composite */
    chip.weight_ppm = 2500;
    assert_int_equal(mf_chip_class_for(NULL, &chip), NEG);
    chip.composite = 2; /* one of two may hold all of 5,000 */
    assert_int_equal(mf_chip_class_for(NULL, &chip), INC);
    chip.weight_ppm = 2499;
    assert_int_equal(mf_chip_class_for(NULL, &chip), NEG);
    chip.composite = INT64_MAX; /* of however many, none is shown to be free */
    assert_int_equal(mf_chip_class_for(NULL, &chip), INC);
    chip.composite = 4;
    chip.weight_ppm = 5000;
    assert_int_equal(mf_chip_class_for(NULL, &chip), POS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(classes_of_t5),           cmocka_unit_test(older_and_newer_sheets_agree),
        cmocka_unit_test(a_range_above_the_level), cmocka_unit_test(chips),
        cmocka_unit_test(the_worst_reading),       cmocka_unit_test(film_is_no_paint),
        cmocka_unit_test(nothing_painted),         cmocka_unit_test(no_paint_and_lead),
        cmocka_unit_test(unpainted_part),          cmocka_unit_test(composite_chips),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
