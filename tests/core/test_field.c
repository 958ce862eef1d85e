/* What a person types, and the slips that are caught. Loadings and their slips of
 * unit: 1 mg/cm2 = 1,000 ug/cm2 = 0.001 g/cm2, 0.5 % = 5,000 ppm by arithmetic;
 * the rows marked T9 are the table of unit slips of the project's testing digest.
 * All values are constructed. */
#include "core/given.h"

#include "core/decimal.h"
#include <mistfold/kind.h>

typedef struct number_case {
    const char *text;
    mf_slip slip;
    int64_t number;
    mf_qualifier qualifier;
} number_case;

#define NO(slip)   MF_SLIP_##slip, 0, MF_QUAL_EXACT
#define IS(number) MF_SLIP_NONE, number, MF_QUAL_EXACT

static void check_numbers(const mf_field *field, const char *unit, const number_case *rows,
                          size_t count)
{
    for (size_t i = 0; i < count; i++) {
        mf_parsed out = {-77, MF_QUAL_EXACT};
        mf_slip slip = mf_field_parse(field, rows[i].text, unit, MF_DAY_NONE, &out);
        if (slip != rows[i].slip)
            fail_msg("\"%s\": slip %s, not %s", rows[i].text, mf_slip_name(slip),
                     mf_slip_name(rows[i].slip));
        CHECK_ROW(out.number == (slip == MF_SLIP_NONE ? rows[i].number : -77), rows[i].text);
        CHECK_ROW(out.qualifier == rows[i].qualifier, rows[i].text);
    }
}

static const mf_field xrf = {
    .type = MF_F_LOADING, .flags = MF_F_QUALIFIED, .min = -10000, .max = 100000};
static const mf_field lab_loading = {.type = MF_F_LOADING, .min = 0, .max = 100000};

static void loading_in_mg(void **state)
{
    (void)state;
    static const number_case rows[] = {
        {"0.4", IS(400)},
        {"1.0", IS(1000)},
        {"0.99", IS(990)},
        {"0.999", IS(999)},
        {"1", IS(1000)},
        {".979", IS(979)},
        {"+0.4", IS(400)},
        {"0", IS(0)},
        {"0.000", IS(0)},
        {"-0.0", IS(0)},
        {"-0.1", IS(-100)}, /* T9: noise around zero is legitimate */
        {"-0.001", IS(-1)},
        {"0.01", IS(10)},
        {"0.010", IS(10)},
        {"0.00", IS(0)},
        {"99.999", IS(99999)},
        {"100", IS(100000)},                        /* the highest that is not asked about */
        {">9.9", MF_SLIP_NONE, 9900, MF_QUAL_OVER}, /* T9: censored */
        {"<0.3", MF_SLIP_NONE, 300, MF_QUAL_UNDER},
        {"< 0.3", MF_SLIP_NONE, 300, MF_QUAL_UNDER},
        {"0.001", NO(UNIT_G)}, /* T9 */
        {"0.009", NO(UNIT_G)},
        {"0.0004", NO(UNIT_G)}, /* looks like g/cm2 before it has too many decimals */
        {"0.0123", NO(DECIMALS)},
        {"1.0000", NO(DECIMALS)},
        {"100.001", NO(UNIT_UG)},
        {"200", NO(UNIT_UG)},
        {"1000", NO(UNIT_UG)}, /* T9 */
        {"-10.001", NO(RANGE)},
        {"99999999999999999999", NO(RANGE)},
        {"1,0", NO(DECIMAL_COMMA)}, /* T9 */
        {"-0,1", NO(DECIMAL_COMMA)},
        {"1,000.5", NO(DECIMAL_COMMA)},
        {"+1,0", NO(DECIMAL_COMMA)},
        {"x1,0", NO(NUMBER)},
        {"a,b", NO(NUMBER)},
        {",", NO(NUMBER)},
        {"1e3", NO(NUMBER)},
        {"0x10", NO(NUMBER)},
        {"nan", NO(NUMBER)},
        {"--1", NO(NUMBER)},
        {"-", NO(NUMBER)},
        {".", NO(NUMBER)},
        {"1.", NO(NUMBER)},
        {"1.2.3", NO(NUMBER)},
        {" 1.0", NO(NUMBER)},
        {"1.0 ", NO(NUMBER)},
        {"0.5%", NO(NUMBER)},
        {"", NO(EMPTY)},
    };
    check_numbers(&xrf, NULL, rows, COUNT(rows));
    check_numbers(&xrf, "", rows, COUNT(rows));
    check_numbers(&xrf, "mg/cm2", rows, COUNT(rows));
    check_numbers(&xrf, "mg/cm\xC2\xB2", rows, COUNT(rows));
}

/* What stands behind the length that was told is not read. */
static void no_further_than_told(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t len;
        mf_slip slip;
        size_t n_whole, n_decimals;
    } rows[] = {
        {"1234", 2, MF_SLIP_NONE, 2, 0},  {"12.34", 2, MF_SLIP_NONE, 2, 0},
        {"12.34", 4, MF_SLIP_NONE, 2, 1}, {"12.34", 3, MF_SLIP_NUMBER, 2, 0},
        {"-5", 1, MF_SLIP_NUMBER, 0, 0},  {"-5", 0, MF_SLIP_NUMBER, 0, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_decimal got;
        CHECK_ROW(mf_decimal_read(rows[i].text, rows[i].len, &got) == rows[i].slip, rows[i].text);
        CHECK_ROW(got.n_whole == rows[i].n_whole, rows[i].text);
        CHECK_ROW(got.n_decimals == rows[i].n_decimals, rows[i].text);
    }
}

/* A qualifier alone is no number; the qualifier is then not told. */
static void qualifier_alone(void **state)
{
    (void)state;
    mf_parsed out = {5, MF_QUAL_EXACT};
    assert_int_equal(mf_field_parse(&xrf, ">", NULL, 0, &out), MF_SLIP_NUMBER);
    assert_int_equal(mf_field_parse(&xrf, "<<1", NULL, 0, &out), MF_SLIP_NUMBER);
    assert_int_equal(mf_field_parse(&xrf, ">1,0", NULL, 0, &out), MF_SLIP_DECIMAL_COMMA);
    assert_int_equal(mf_field_parse(&xrf, ">1000", NULL, 0, &out), MF_SLIP_UNIT_UG);
    assert_int_equal(out.number, 5);
    assert_int_equal(out.qualifier, MF_QUAL_EXACT);
}

static void loading_in_ug(void **state)
{
    (void)state;
    static const number_case rows[] = {
        {"400", IS(400)},
        {"1000", IS(1000)},
        {"-100", IS(-100)},
        {"100000", IS(100000)},
        {"100001", NO(RANGE)},
        {"0.4", NO(DECIMALS)},
        {"1,000", NO(DECIMAL_COMMA)},
        {"x", NO(NUMBER)},
        {">9900", MF_SLIP_NONE, 9900, MF_QUAL_OVER},
    };
    static const char *const spellings[] = {"ug/cm2", "\xC2\xB5g/cm2", "\xC2\xB5g/cm\xC2\xB2",
                                            "\xCE\xBCg/cm2", "\xCE\xBCg/cm\xC2\xB2"};
    for (size_t i = 0; i < COUNT(spellings); i++)
        check_numbers(&xrf, spellings[i], rows, COUNT(rows));
    /* 100 mg/cm2 is the most that is not asked about, whatever the field allows */
    static const mf_field any = {.type = MF_F_LOADING};
    static const number_case most[] = {{"100000", IS(100000)}, {"100001", NO(RANGE)}};
    check_numbers(&any, "ug/cm2", most, COUNT(most));
}

static void loading_in_other_units(void **state)
{
    (void)state;
    static const number_case grams[] = {{"0.001", NO(UNIT_G)}, {"1.0", NO(UNIT_G)}};
    static const number_case unknown[] = {{"1.0", NO(UNIT_UNKNOWN)}};
    check_numbers(&xrf, "g/cm2", grams, COUNT(grams));
    check_numbers(&xrf, "mg/ft2", unknown, COUNT(unknown));
    check_numbers(&xrf, "MG/CM2", unknown, COUNT(unknown));
    check_numbers(&xrf, "%", unknown, COUNT(unknown));
}

static void loading_from_a_laboratory(void **state)
{
    (void)state;
    static const number_case rows[] = {
        {"0.12", IS(120)},
        {"-0.1", NO(RANGE)}, /* T9: a laboratory reports no negative loading */
        {"<0.3", NO(QUALIFIER)},
        {">9.9", NO(QUALIFIER)},
    };
    check_numbers(&lab_loading, NULL, rows, COUNT(rows));
}

static void weight(void **state)
{
    (void)state;
    static const mf_field field = {.type = MF_F_PPM, .min = 0, .max = 1000000};
    static const mf_field unbounded = {.type = MF_F_PPM};
    static const number_case rows[] = {
        {"5000", IS(5000)},
        {"4999", IS(4999)},
        {"0.5%", IS(5000)},
        {"0.49%", IS(4900)},
        {"0.4999%", IS(4999)},
        {"0.5 %", IS(5000)},
        {"100%", IS(1000000)},
        {"1000000", IS(1000000)},
        {"10", IS(10)},
        {"600", IS(600)},
        {"0.06%", IS(600)},
        {"0", IS(0)},
        {"0%", IS(0)},
        {"0.5", NO(PPM)},
        /* T9 */ {"9", NO(PPM)},
        {"9.99", NO(PPM)},
        {"10.5", NO(DECIMALS)},
        {"0.49999%", NO(DECIMALS)},
        {"5000%", NO(PERCENT)}, /* T9 */
        {"100.0001%", NO(PERCENT)},
        {"1000001", NO(RANGE)},
        {"99999999999999999999%", NO(PERCENT)},
        {"-0.1%", NO(RANGE)}, /* T9 */
        {"-100", NO(RANGE)},
        {"0,5%", NO(DECIMAL_COMMA)},
        {"0,5", NO(DECIMAL_COMMA)},
        {"%", NO(NUMBER)},
        {" %", NO(NUMBER)},
        {"5  %", NO(NUMBER)},
        {"5000 ppm", NO(NUMBER)},
        {"0.5%%", NO(NUMBER)},
        {"<100", NO(QUALIFIER)},
    };
    check_numbers(&field, NULL, rows, COUNT(rows));
    check_numbers(&unbounded, NULL, rows, COUNT(rows));
}

static void dust(void **state)
{
    (void)state;
    static const mf_field field = {.type = MF_F_DUST, .flags = MF_F_QUALIFIED};
    static const number_case rows[] = {
        {"0", IS(0)},
        {"4.9", IS(4900)},
        {"5", IS(5000)},
        {"0.001", IS(1)},
        {"39.999", IS(39999)},
        {"929030.4", IS(929030400)},
        {"<5", MF_SLIP_NONE, 5000, MF_QUAL_UNDER},
        {">400", MF_SLIP_NONE, 400000, MF_QUAL_OVER},
        {"4.9999", NO(DECIMALS)},
        {"-1", NO(RANGE)},
        {"4,9", NO(DECIMAL_COMMA)},
    };
    check_numbers(&field, NULL, rows, COUNT(rows));
}

static void areas_and_counts(void **state)
{
    (void)state;
    static const mf_field area = {.type = MF_F_HUNDREDTHS, .min = 0, .max = 100000};
    static const mf_field any_count = {.type = MF_F_INT};
    static const mf_field year = {.type = MF_F_INT, .min = 1600, .max = 2200};
    static const number_case areas[] = {
        {"6.25", IS(625)},       {"6", IS(600)},
        {"6.01", IS(601)},       {"0.1", IS(10)},
        {"-1", NO(RANGE)},       {"1000.01", NO(RANGE)},
        {"6.001", NO(DECIMALS)}, {"6,25", NO(DECIMAL_COMMA)},
        {"<6", NO(QUALIFIER)},
    };
    static const number_case counts[] = {
        {"17", IS(17)},
        {"-3", IS(-3)},
        {"17.0", NO(DECIMALS)},
        {"1,000", NO(DECIMAL_COMMA)},
        {"9223372036854775807", IS(INT64_MAX)},
        {"9223372036854775808", NO(RANGE)},
        {"seventeen", NO(NUMBER)},
    };
    static const number_case years[] = {
        {"1977", IS(1977)}, {"1600", IS(1600)}, {"1599", NO(RANGE)}, {"2201", NO(RANGE)}};
    check_numbers(&area, NULL, areas, COUNT(areas));
    check_numbers(&any_count, NULL, counts, COUNT(counts));
    check_numbers(&year, NULL, years, COUNT(years));
}

/* 1/1600 inch: 11 5/8 = 11.625 x 1600 = 18600 and so on, by hand. */
static void inches_of_a_rule(void **state)
{
    (void)state;
    static const mf_field side = {.type = MF_F_INCHES, .min = 100, .max = 320000};
    static const number_case rows[] = {
        {"12", IS(19200)},
        {"11 5/8", IS(18600)},
        {"11.625", IS(18600)},
        {"5/8", IS(1000)},
        {"1/64", NO(RANGE)},
        {"4 1/64", IS(6425)},
        {"11.01", IS(17616)},
        {"11 1/3", NO(DECIMALS)},
        {"11.0001", NO(DECIMALS)},
        {"11 8/8", NO(NUMBER)},
        {"11  5/8", NO(NUMBER)},
        {"11 5/0", NO(NUMBER)},
        {"11,5", NO(DECIMAL_COMMA)},
        {"a foot", NO(NUMBER)},
        {"-3", NO(RANGE)},
        {"201", NO(RANGE)},
        {"99999999999 1/2", NO(NUMBER)},
        {"1000000 1/2", NO(NUMBER)},
        {"1/1000000", NO(NUMBER)},
        {"/8", NO(NUMBER)},
        {"11 /8", NO(NUMBER)},
        {" 5/8", NO(NUMBER)},
    };
    static const mf_field any = {.type = MF_F_INCHES};
    static const number_case ends[] = {{"0", IS(0)},
                                       {"-0.01", NO(RANGE)},
                                       {"100000", IS(160000000)},
                                       {"100000.01", NO(RANGE)},
                                       {"1/64", IS(25)}};
    check_numbers(&side, NULL, rows, COUNT(rows));
    check_numbers(&any, NULL, ends, COUNT(ends));
}

/* ---- texts, dates, words ------------------------------------------------------------ */

static mf_slip slip_of(const mf_field *field, const char *text)
{
    mf_parsed out = {0, MF_QUAL_EXACT};
    return mf_field_parse(field, text, NULL, day("2026-09-14"), &out);
}

static void texts(void **state)
{
    (void)state;
    static const mf_field field = {.type = MF_F_TEXT};
    static const struct {
        const char *text;
        mf_slip slip;
    } rows[] = {
        {"wet scraping, sash by sash", MF_SLIP_NONE},
        {"pintura vieja, a\xC3\xB1o 1926", MF_SLIP_NONE},
        {"\xE2\x80\x9Cquoted\xE2\x80\x9D", MF_SLIP_NONE}, /* U+201C is no line separator */
        {"", MF_SLIP_EMPTY},
        {"   ", MF_SLIP_EMPTY},
        {"a\nb", MF_SLIP_CONTROL},
        {"a\tb", MF_SLIP_CONTROL},
        {"a\x7F", MF_SLIP_CONTROL},
        {"\x1B[31m", MF_SLIP_CONTROL},
        {"a\xC2\x85"
         "b",
         MF_SLIP_CONTROL},              /* U+0085 next line */
        {"a\xC2\x80", MF_SLIP_CONTROL}, /* U+0080 to U+009F */
        {"a\xC2\x9F", MF_SLIP_CONTROL},
        {"a\xE2\x80\xA8"
         "b",
         MF_SLIP_CONTROL}, /* U+2028 line separator */
        {"a\xC2\xA0"
         "b",
         MF_SLIP_NONE},         /* U+00A0 no-break space */
        {"\xC2", MF_SLIP_NONE}, /* cut UTF-8 is the caller's to refuse, and not read past */
        {"\xE2\x80", MF_SLIP_NONE},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        CHECK_ROW(slip_of(&field, rows[i].text) == rows[i].slip, rows[i].text);
    assert_int_equal(slip_of(&field, NULL), MF_SLIP_EMPTY);
}

#define FORTY "aaaaaaaaaabbbbbbbbbbccccccccccdddddddddd"

static void ids(void **state)
{
    (void)state;
    static const mf_field one = {.type = MF_F_ID}, many = {.type = MF_F_IDS};
    static const struct {
        const char *text;
        mf_slip one, many;
    } rows[] = {
        {"J-1926", MF_SLIP_NONE, MF_SLIP_NONE}, {"W01.sash_2", MF_SLIP_NONE, MF_SLIP_NONE},
        {FORTY, MF_SLIP_NONE, MF_SLIP_NONE},    {FORTY "e", MF_SLIP_ID, MF_SLIP_ID},
        {"W01,W02", MF_SLIP_ID, MF_SLIP_NONE},  {FORTY "," FORTY, MF_SLIP_ID, MF_SLIP_NONE},
        {"W01, W02", MF_SLIP_ID, MF_SLIP_ID},   {"W01,", MF_SLIP_ID, MF_SLIP_ID},
        {",W01", MF_SLIP_ID, MF_SLIP_ID},       {"W01,,W02", MF_SLIP_ID, MF_SLIP_ID},
        {"AZaz09", MF_SLIP_NONE, MF_SLIP_NONE}, {"W 1", MF_SLIP_ID, MF_SLIP_ID},
        {"a/b", MF_SLIP_ID, MF_SLIP_ID},        {"\xC3\xB1", MF_SLIP_ID, MF_SLIP_ID},
        {"", MF_SLIP_EMPTY, MF_SLIP_EMPTY},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        CHECK_ROW(slip_of(&one, rows[i].text) == rows[i].one, rows[i].text);
        CHECK_ROW(slip_of(&many, rows[i].text) == rows[i].many, rows[i].text);
    }
}

/* ISO 3166-2 after "US-"; other ids are for whoever writes a row. */
static void places(void **state)
{
    (void)state;
    static const mf_field one = {.type = MF_F_ID, .flags = MF_F_PLACE};
    static const mf_field many = {.type = MF_F_IDS, .flags = MF_F_PLACE};
    static const struct {
        const char *text;
        mf_slip one, many;
    } rows[] = {
        {"US-IA", MF_SLIP_NONE, MF_SLIP_NONE},      {"us-ny-nyc", MF_SLIP_NONE, MF_SLIP_NONE},
        {"US", MF_SLIP_NONE, MF_SLIP_NONE},         {"Tribe-1", MF_SLIP_NONE, MF_SLIP_NONE},
        {"US-IO", MF_SLIP_PLACE, MF_SLIP_PLACE},    {"us-zz-town", MF_SLIP_PLACE, MF_SLIP_PLACE},
        {"US-", MF_SLIP_PLACE, MF_SLIP_PLACE},      {"US-IA-", MF_SLIP_PLACE, MF_SLIP_PLACE},
        {"US-IA,US-IO", MF_SLIP_ID, MF_SLIP_PLACE},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        CHECK_ROW(slip_of(&one, rows[i].text) == rows[i].one, rows[i].text);
        CHECK_ROW(slip_of(&many, rows[i].text) == rows[i].many, rows[i].text);
    }
}

static void dates(void **state)
{
    (void)state;
    static const mf_field past = {.type = MF_F_DATE, .flags = MF_F_PAST};
    static const mf_field any = {.type = MF_F_DATE};
    mf_parsed out = {0, MF_QUAL_EXACT};
    mf_day today = day("2026-09-14");
    assert_int_equal(mf_field_parse(&past, "2026-09-14", NULL, today, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, today);
    assert_int_equal(mf_field_parse(&past, "2026-09-15", NULL, today, &out), MF_SLIP_DATE_FUTURE);
    assert_int_equal(mf_field_parse(&any, "2026-09-15", NULL, today, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, today + 1);
    assert_int_equal(mf_field_parse(&any, "1900-01-01", NULL, today, &out), MF_SLIP_NONE);
    assert_int_equal(mf_field_parse(&any, "2200-12-31", NULL, today, &out), MF_SLIP_NONE);
    assert_int_equal(mf_field_parse(&any, "1899-12-31", NULL, today, &out), MF_SLIP_DATE_FAR);
    assert_int_equal(mf_field_parse(&any, "2201-01-01", NULL, today, &out), MF_SLIP_DATE_FAR);
    assert_int_equal(mf_field_parse(&past, "0206-09-14", NULL, today, &out), MF_SLIP_DATE_FAR);
    assert_int_equal(mf_field_parse(&past, "2026-02-30", NULL, today, &out), MF_SLIP_DATE_MISSING);
    assert_int_equal(mf_field_parse(&past, "14.9.2026", NULL, today, &out), MF_SLIP_DATE_FORM);
    assert_int_equal(mf_field_parse(&past, "2026-9-14", NULL, today, &out), MF_SLIP_DATE_FORM);
}

static void times(void **state)
{
    (void)state;
    static const mf_field field = {.type = MF_F_TIME};
    mf_parsed out = {0, MF_QUAL_EXACT};
    assert_int_equal(mf_field_parse(&field, "08:30", NULL, 0, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, 510);
    assert_int_equal(slip_of(&field, "24:00"), MF_SLIP_TIME);
    assert_int_equal(slip_of(&field, "8.30"), MF_SLIP_TIME);
}

static void words(void **state)
{
    (void)state;
    static const char *const sides[] = {"interior", "exterior", NULL};
    static const mf_field choice = {.type = MF_F_CHOICE, .choices = sides};
    static const mf_field yes_no = {.type = MF_F_YESNO};
    mf_parsed out = {9, MF_QUAL_EXACT};
    assert_int_equal(mf_field_parse(&choice, "exterior", NULL, 0, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, 1);
    assert_int_equal(mf_field_parse(&yes_no, "yes", NULL, 0, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, MF_YES);
    assert_int_equal(mf_field_parse(&yes_no, "no", NULL, 0, &out), MF_SLIP_NONE);
    assert_int_equal(out.number, MF_NOT);
    assert_int_equal(slip_of(&choice, "Exterior"), MF_SLIP_CHOICE);
    assert_int_equal(slip_of(&choice, "outside"), MF_SLIP_CHOICE);
    assert_int_equal(slip_of(&yes_no, "maybe"), MF_SLIP_YESNO);
    assert_int_equal(slip_of(&yes_no, "true"), MF_SLIP_YESNO);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(loading_in_mg),
        cmocka_unit_test(no_further_than_told),
        cmocka_unit_test(qualifier_alone),
        cmocka_unit_test(loading_in_ug),
        cmocka_unit_test(loading_in_other_units),
        cmocka_unit_test(loading_from_a_laboratory),
        cmocka_unit_test(weight),
        cmocka_unit_test(dust),
        cmocka_unit_test(areas_and_counts),
        cmocka_unit_test(inches_of_a_rule),
        cmocka_unit_test(texts),
        cmocka_unit_test(ids),
        cmocka_unit_test(places),
        cmocka_unit_test(dates),
        cmocka_unit_test(times),
        cmocka_unit_test(words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
