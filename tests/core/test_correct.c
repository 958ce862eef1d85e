/* Substrate correction and the performance profile. Expected values are those of
 * T4 and T5 of the project's testing digest: constructed there from HUD Guidelines
 * ch. 7 s. IV.E and IV.F (from memory), no published examples. */
#include "core/given.h"

#include <mistfold/paint.h>

enum { MOST = 16 };

typedef struct bench {
    mf_instrument gun;
    mf_profile_row row[3];
    mf_reading reading[MOST];
    mf_job job;
} bench;

static mf_profile_row row_of(mf_substrate substrate)
{
    return (mf_profile_row){.instrument = "X-1",
                            .substrate = substrate,
                            .mode = "",
                            .threshold_ug_cm2 = 1000,
                            .low_ug_cm2 = MF_NUM_NONE,
                            .high_ug_cm2 = MF_NUM_NONE,
                            .cal_low_ug_cm2 = MF_NUM_NONE,
                            .cal_high_ug_cm2 = MF_NUM_NONE,
                            .correct = MF_YES};
}

static void begin(bench *b, int64_t film)
{
    *b = (bench){.gun = {.serial = "X-1",
                         .film_ug_cm2 = film,
                         .cal_low_ug_cm2 = 800,
                         .cal_high_ug_cm2 = 1200,
                         .inconclusive_low_ug_cm2 = MF_NUM_NONE,
                         .inconclusive_high_ug_cm2 = MF_NUM_NONE}};
    b->row[0] = row_of(MF_SUB_METAL);
    b->job = (mf_job){.instrument = &b->gun,
                      .n_instrument = 1,
                      .profile_row = b->row,
                      .n_profile_row = 1,
                      .reading = b->reading};
}

static mf_reading *put(bench *b, mf_purpose purpose, int64_t ug)
{
    mf_reading *it = &b->reading[b->job.n_reading++];
    *it = (mf_reading){.purpose = purpose,
                       .instrument = "X-1",
                       .substrate = MF_SUB_METAL,
                       .component = "C1",
                       .mode = "",
                       .loading_ug_cm2 = ug,
                       .film_ug_cm2 = MF_NUM_NONE,
                       .on = day("2026-08-12")};
    return it;
}

static void bare(bench *b, const int64_t six[6])
{
    for (int i = 0; i < 6; i++)
        put(b, MF_READ_SUBSTRATE, six[i]);
}

static mf_reading_result judged(bench *b, mf_qualifier qualifier, int64_t ug)
{
    mf_reading_result result;
    size_t before = b->job.n_reading;
    mf_reading *it = put(b, MF_READ_PAINT, ug);
    it->qualifier = qualifier;
    mf_reading_judge(&b->job, it, &result);
    b->job.n_reading = before;
    return result;
}

#define NEG MF_CLASS_NEGATIVE
#define INC MF_CLASS_INCONCLUSIVE
#define POS MF_CLASS_POSITIVE

/* T4, every row. corrected_6 is six times the corrected value. */
static void corrections_of_t4(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int64_t six[6], film, reading, corrected_6;
        mf_paint_class raw, found;
    } rows[] = {
        {"+0.28, 1.20", {1300, 1200, 1400, 1300, 1200, 1400}, 1020, 1200, 5520, POS, NEG},
        {"+0.28, 1.28", {1300, 1200, 1400, 1300, 1200, 1400}, 1020, 1280, 6000, POS, POS},
        {"+0.28, 1.27", {1300, 1200, 1400, 1300, 1200, 1400}, 1020, 1270, 5940, POS, NEG},
        {"-0.10, 0.95", {900, 900, 950, 950, 900, 920}, 1020, 950, 6300, NEG, POS},
        {"-0.10, 0.90", {900, 900, 950, 950, 900, 920}, 1020, 900, 6000, NEG, POS},
        {"-0.10, 0.89", {900, 900, 950, 950, 900, 920}, 1020, 890, 5940, NEG, NEG},
        {"-0.27, 0.7", {600, 800, 700, 700, 900, 800}, 1020, 700, 5820, NEG, NEG},
        {"+0.23, 1.2", {1100, 1300, 1200, 1400, 1300, 1200}, 1020, 1200, 5820, POS, NEG},
        {"film 1.04", {1100, 1300, 1200, 1400, 1300, 1200}, 1040, 1210, 6000, POS, POS},
        {"wrong film", {1100, 1300, 1200, 1400, 1300, 1200}, 1020, 1210, 5880, POS, NEG},
        {"0.00, 1.0", {1020, 1020, 1020, 1020, 1020, 1020}, 1020, 1000, 6000, POS, POS},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bench b;
        begin(&b, rows[i].film);
        bare(&b, rows[i].six);
        mf_reading_result got = judged(&b, MF_QUAL_EXACT, rows[i].reading);
        CHECK_ROW(got.correction == MF_CORRECTION_DONE, rows[i].name);
        CHECK_ROW(got.den == 6 && got.num == rows[i].corrected_6, rows[i].name);
        CHECK_ROW(got.raw == rows[i].raw, rows[i].name);
        CHECK_ROW(got.found == rows[i].found, rows[i].name);
    }
}

/* D4: 0.97 prints as 1.0; the reader is told, the unrounded value decides. */
static void rounding_is_told(void **state)
{
    (void)state;
    static const int64_t six[6] = {600, 800, 700, 700, 900, 800};
    bench b;
    begin(&b, 1020);
    bare(&b, six);
    assert_true(judged(&b, MF_QUAL_EXACT, 700).rounding_matters);
    assert_false(judged(&b, MF_QUAL_EXACT, 300).rounding_matters);
}

/* SC6: 4.0 or more, and a saturated display, are positive without correction. */
static void not_at_four(void **state)
{
    (void)state;
    static const int64_t six[6] = {4900, 4900, 4900, 4900, 4900, 4900};
    bench b;
    begin(&b, 1020);
    bare(&b, six); /* would take 3.88 off */
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 3999).found, NEG);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 4000).found, POS);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 4000).correction, MF_CORRECTION_TOO_HIGH);
    assert_int_equal(judged(&b, MF_QUAL_OVER, 2000).found, POS);
    assert_int_equal(judged(&b, MF_QUAL_UNDER, 5000).found, INC);
}

/* SC3: the film that was read goes before the instrument's own. */
static void film_actually_used(void **state)
{
    (void)state;
    static const int64_t six[6] = {1100, 1300, 1200, 1400, 1300, 1200};
    bench b;
    begin(&b, 1020);
    bare(&b, six);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1210).found, NEG);
    for (int i = 0; i < 6; i++)
        b.reading[i].film_ug_cm2 = 1040;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1210).found, POS);
    for (int i = 0; i < 6; i++) /* 0 is no film's value: it would take off what the film shows */
        b.reading[i].film_ug_cm2 = 0;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1210).num, 1210 * 6 - (7500 - 6 * 1020));
}

/* A correction that is due but cannot be made proves no negative. */
static void missing_correction(void **state)
{
    (void)state;
    static const int64_t six[6] = {1020, 1020, 1020, 1020, 1020, 1020};
    bench b;
    begin(&b, 1020);
    bare(&b, six);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).found, NEG);
    b.job.n_reading = 5;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).found, INC);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).correction, MF_CORRECTION_MISSING);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).n_bare, 5);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1000).found, POS);
    b.job.n_reading = 6;
    b.reading[2].qualifier = MF_QUAL_OVER; /* U16: never averaged */
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).found, INC);
    b.reading[2].qualifier = MF_QUAL_EXACT;
    b.reading[2].substrate = MF_SUB_WOOD;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).found, INC);
    b.row[0].correct = MF_NOT;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 300).found, NEG);
}

/* T5 through a line of the profile. */
static void classes_of_t5_by_row(void **state)
{
    (void)state;
    static const struct {
        int64_t ug;
        mf_paint_class threshold, inside, outside;
    } rows[] = {
        {-300, NEG, NEG, NEG}, {800, NEG, NEG, NEG},  {900, NEG, INC, NEG},  {990, NEG, INC, INC},
        {1000, POS, INC, INC}, {1200, POS, INC, POS}, {1300, POS, POS, POS},
    };
    bench b;
    begin(&b, 1020);
    b.row[0].correct = MF_NOT;
    for (size_t i = 0; i < COUNT(rows); i++) {
        b.row[0].threshold_ug_cm2 = 1000;
        b.row[0].low_ug_cm2 = b.row[0].high_ug_cm2 = MF_NUM_NONE;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].threshold);
        b.row[0].low_ug_cm2 = 900;
        b.row[0].high_ug_cm2 = 1200;
        b.row[0].bounds_inside = MF_YES;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].inside);
        b.row[0].bounds_inside = MF_NOT;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].outside);
        b.row[0].bounds_inside = MF_UNKNOWN; /* D2: whichever is inconclusive */
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].inside);
        bool bound = rows[i].ug == 900 || rows[i].ug == 1200;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).bounds_unknown, bound);
    }
    assert_int_equal(judged(&b, MF_QUAL_OVER, 9900).found, POS);
}

/* The same without a profile, by the instrument's own range. */
static void the_instruments_own_range(void **state)
{
    (void)state;
    static const mf_tri said[] = {MF_UNKNOWN, MF_YES, MF_NOT};
    bench b;
    begin(&b, 1020);
    b.job.n_profile_row = 0;
    b.gun.inconclusive_low_ug_cm2 = 900;
    b.gun.inconclusive_high_ug_cm2 = 1200;
    for (size_t i = 0; i < COUNT(said); i++) {
        b.gun.bounds_inside = said[i];
        bool unsaid = said[i] == MF_UNKNOWN;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, 900).bounds_unknown, unsaid);
        assert_int_equal(judged(&b, MF_QUAL_EXACT, 1200).bounds_unknown, unsaid);
        assert_false(judged(&b, MF_QUAL_EXACT, 1000).bounds_unknown);
    }
}

/* A million mg/cm2 either way is a number, more is none: nothing is shown by it. Constructed. */
static void no_number(void **state)
{
    (void)state;
    bench b;
    begin(&b, 1020);
    b.row[0].correct = MF_NOT;
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1000000000).found, POS);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 1000000001).found, INC);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1000).found, NEG);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1001).found, INC); /* below any paint */
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1000000000).den, 1);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1000000000).found, INC);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1000000001).den, 0);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, -1000000001).found, INC);
}

/* A display without a number is corrected to none, lies on no bound and shows nothing. */
static void nothing_read(void **state)
{
    (void)state;
    static const int64_t six[6] = {1300, 1200, 1400, 1300, 1200, 1400};
    bench b;
    begin(&b, 1020);
    bare(&b, six);
    b.row[0].low_ug_cm2 = 900;
    b.row[0].high_ug_cm2 = 1200;
    mf_reading_result got = judged(&b, MF_QUAL_EXACT, MF_NUM_NONE);
    assert_int_equal(got.found, INC);
    assert_int_equal(got.correction, MF_CORRECTION_NONE);
    assert_int_equal(got.den, 0);
    assert_false(got.bounds_unknown);
}

/* Of a range with one bound given the action level, 1.0 by 745.82(a), is the other. */
static void half_a_range(void **state)
{
    (void)state;
    static const struct {
        int64_t low, high, ug;
        mf_paint_class found;
    } rows[] = {
        {900, MF_NUM_NONE, 899, NEG},   {900, MF_NUM_NONE, 900, INC},
        {900, MF_NUM_NONE, 1000, INC},  {900, MF_NUM_NONE, 1001, POS},
        {MF_NUM_NONE, 1200, 999, NEG},  {MF_NUM_NONE, 1200, 1000, INC},
        {MF_NUM_NONE, 1200, 1200, INC}, {MF_NUM_NONE, 1200, 1201, POS},
    };
    bench b;
    begin(&b, 1020);
    for (size_t i = 0; i < COUNT(rows); i++) {
        b.gun.bounds_inside = b.row[0].bounds_inside = MF_YES;
        b.gun.inconclusive_low_ug_cm2 = b.row[0].low_ug_cm2 = rows[i].low;
        b.gun.inconclusive_high_ug_cm2 = b.row[0].high_ug_cm2 = rows[i].high;
        b.row[0].correct = MF_NOT;
        b.job.n_profile_row = 0;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].found);
        b.job.n_profile_row = 1;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, rows[i].ug).found, rows[i].found);
    }
}

/* Two lines of other modes that find the same: the first of them is told. */
static void the_first_of_two_lines(void **state)
{
    (void)state;
    bench b;
    begin(&b, 1020);
    b.row[1] = b.row[0];
    b.row[0].correct = b.row[1].correct = MF_NOT;
    b.row[0].mode = "short";
    b.row[1].mode = "long";
    b.job.n_profile_row = 2;
    mf_reading_result got = judged(&b, MF_QUAL_EXACT, 300);
    assert_int_equal(got.found, NEG);
    assert_true(got.mode_unknown);
    assert_ptr_equal(got.row, &b.row[0]);
    b.row[1].threshold_ug_cm2 = 300; /* the stricter of two that differ */
    got = judged(&b, MF_QUAL_EXACT, 300);
    assert_int_equal(got.found, POS);
    assert_ptr_equal(got.row, &b.row[1]);
}

/* CL4: older 0.9-1.3 and newer 1.0-1.2 agree on every one-decimal reading. */
static void old_and_new_sheets_agree(void **state)
{
    (void)state;
    bench b;
    begin(&b, 1020);
    b.row[0].correct = MF_NOT;
    for (int64_t ug = 0; ug <= 3000; ug += 100) {
        b.row[0].low_ug_cm2 = 900;
        b.row[0].high_ug_cm2 = 1300;
        b.row[0].bounds_inside = MF_NOT;
        mf_paint_class older = judged(&b, MF_QUAL_EXACT, ug).found;
        b.row[0].low_ug_cm2 = 1000;
        b.row[0].high_ug_cm2 = 1200;
        b.row[0].bounds_inside = MF_YES;
        assert_int_equal(judged(&b, MF_QUAL_EXACT, ug).found, older);
    }
}

static void which_row(void **state)
{
    (void)state;
    bench b;
    begin(&b, 1020);
    b.row[0].correct = MF_NOT;
    b.row[1] = row_of(MF_SUB_METAL); /* a later line replaces the first */
    b.row[1].correct = MF_NOT;
    b.row[1].threshold_ug_cm2 = 700;
    b.job.n_profile_row = 2;
    assert_ptr_equal(judged(&b, MF_QUAL_EXACT, 800).row, &b.row[1]);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 800).found, POS);
    assert_false(judged(&b, MF_QUAL_EXACT, 800).mode_unknown);
    b.row[0].mode = "slow"; /* now both may apply: the strictest decides */
    b.row[1].mode = "fast";
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 800).found, POS);
    assert_true(judged(&b, MF_QUAL_EXACT, 800).mode_unknown);
    b.row[0].substrate = b.row[1].substrate = MF_SUB_WOOD; /* the instrument's own fields */
    assert_null(judged(&b, MF_QUAL_EXACT, 800).row);
    assert_int_equal(judged(&b, MF_QUAL_EXACT, 800).found, NEG);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(corrections_of_t4),
        cmocka_unit_test(rounding_is_told),
        cmocka_unit_test(not_at_four),
        cmocka_unit_test(film_actually_used),
        cmocka_unit_test(missing_correction),
        cmocka_unit_test(classes_of_t5_by_row),
        cmocka_unit_test(the_instruments_own_range),
        cmocka_unit_test(the_first_of_two_lines),
        cmocka_unit_test(nothing_read),
        cmocka_unit_test(half_a_range),
        cmocka_unit_test(no_number),
        cmocka_unit_test(old_and_new_sheets_agree),
        cmocka_unit_test(which_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
