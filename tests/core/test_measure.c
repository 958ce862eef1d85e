/* Areas and conversions. P: the six wipe areas completed in attachment 3-B of the
 * EPA/HUD model Lead Dust Sampling Technician course (T1). K: constructed from the
 * definitions 1 in = 2.54 cm, 1 sq ft = 144 sq in (T1, T5). */
#include "core/given.h"

#include <mistfold/measure.h>

static const struct {
    const char *text;
    int64_t num, den; /* sq ft, exact */
    int64_t thousandths;
} areas[] = {
    {"11 5/8 x 12 1/8", 3007, 3072, 979},
    {"23 15/16 x 2 7/8", 8809, 18432, 478},
    {"11 13/16 x 12 1/2", 525, 512, 1025},
    {"24 1/8 x 3 1/4", 2509, 4608, 544},
    {"11 3/4 x 11 3/8", 4277, 4608, 928},
    {"23 9/16 x 3", 377, 768, 491},
    {"12 x 12", 1, 1, 1000},
    {"4 x 4", 1, 9, 111},
    {"11.625X12.125", 3007, 3072, 979},
    {" 12 in x 12 in ", 1, 1, 1000},
    {"30.48 x 30.48 cm", 1, 1, 1000},
    {"30.48cm \xC3\x97 30.48cm", 1, 1, 1000},
    {"5/8 x 12", 5, 96, 52},
    /* constructed: the ends of what is taken */
    {"1 1/64 x 1", 65, 9216, 7},
    {"1 0/8 x 1", 1, 144, 7},
    {"1000 x 1000", 62500, 9, 6944444},
};

static void areas_of_t1(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(areas); i++) {
        mf_fraction in = {0, 0};
        CHECK_ROW(mf_area_parse(areas[i].text, &in) == MF_SLIP_NONE, areas[i].text);
        mf_fraction ft = mf_sq_in_to_sq_ft(in);
        CHECK_ROW(ft.num == areas[i].num && ft.den == areas[i].den, areas[i].text);
        CHECK_ROW(mf_fraction_round(ft, 3) == areas[i].thousandths, areas[i].text);
    }
}

static void slips(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        mf_slip slip;
    } rows[] = {
        {"", MF_SLIP_EMPTY},
        {"12", MF_SLIP_NUMBER},
        {"12 x", MF_SLIP_NUMBER},
        {"x 12", MF_SLIP_NUMBER},
        {"1,5 x 2", MF_SLIP_DECIMAL_COMMA},
        {"12 9/8 x 2", MF_SLIP_NUMBER},
        {"12 1/0 x 2", MF_SLIP_NUMBER},
        {"12 8/8 x 2", MF_SLIP_NUMBER},
        {"12 1/65 x 2", MF_SLIP_NUMBER},
        {"1 / 8 x 2", MF_SLIP_NUMBER},
        {"1. x 2", MF_SLIP_NUMBER},
        {"12 5 x 2", MF_SLIP_NUMBER},
        {"12 1/128 x 2", MF_SLIP_NUMBER},
        {"0 x 2", MF_SLIP_RANGE},
        {"1.23456 x 2", MF_SLIP_DECIMALS},
        {"12 in x 30 cm", MF_SLIP_UNIT_UNKNOWN},
        {"12 x 12 ft", MF_SLIP_UNIT_UNKNOWN},
        {"1001 x 2", MF_SLIP_NUMBER},
        {"-1 x 2", MF_SLIP_NUMBER},
        {"99999999999999999999 x 2", MF_SLIP_NUMBER},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_fraction in = {7, 7};
        CHECK_ROW(mf_area_parse(rows[i].text, &in) == rows[i].slip, rows[i].text);
        CHECK_ROW(in.num == 7, rows[i].text);
    }
}

/* PC4: 2 x 2 in is 25.8064 sq cm. */
static void square_centimetres(void **state)
{
    (void)state;
    mf_fraction in;
    assert_int_equal(mf_area_parse("2 x 2", &in), MF_SLIP_NONE);
    assert_int_equal(mf_fraction_round(mf_sq_in_to_sq_cm(in), 4), 258064);
    /* a half is rounded up, what is below it down */
    assert_int_equal(mf_fraction_round((mf_fraction){9, 2000}, 3), 5);
    assert_int_equal(mf_fraction_round((mf_fraction){89, 20000}, 3), 4);
}

/* T5: 25.0 sq cm, 0.500 g, 3,000 ug is 0.12 mg/cm2 and 0.6 %; 2,500 ug is 0.10 and
 * 0.5 % exactly; 25.8064 sq cm, 25,806.4 ug would be 1.000 mg/cm2 (25,806 is just
 * below). U10: 1 % = 10,000 ppm. */
static void chips(void **state)
{
    (void)state;
    mf_fraction in;
    assert_int_equal(mf_area_parse("5 x 5 cm", &in), MF_SLIP_NONE);
    mf_fraction loading = mf_chip_loading(3000, in);
    assert_true(loading.num == 120 && loading.den == 1);
    mf_fraction weight = mf_chip_weight(3000, 500);
    assert_true(weight.num == 6000 && weight.den == 1);
    loading = mf_chip_loading(2500, in);
    assert_true(loading.num == 100 && loading.den == 1);
    weight = mf_chip_weight(2500, 500);
    assert_true(weight.num == 5000 && weight.den == 1);
    assert_int_equal(mf_area_parse("2 x 2", &in), MF_SLIP_NONE);
    loading = mf_chip_loading(25806, in);
    assert_true(loading.num < 1000 * loading.den);
    loading = mf_chip_loading(25807, in);
    assert_true(loading.num > 1000 * loading.den);
    assert_int_equal(mf_chip_weight(1, 0).den, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(areas_of_t1),
        cmocka_unit_test(slips),
        cmocka_unit_test(square_centimetres),
        cmocka_unit_test(chips),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
