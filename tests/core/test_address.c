/* Addresses and units as people write them. Written by hand; the abbreviations are those of
 * USPS Publication 28, appendices B, C1 and C2. Streets are invented. */
#include "core/given.h"

#include "core/address.h"
#include <stdio.h>
#include <string.h>

static void addresses(void **state)
{
    static const struct {
        const char *a, *b;
        bool same;
    } rows[] = {
        {"12 Sample Ln", "12 Sample Lane", true},
        {"12 sample LANE", "12, Sample  Ln.", true},
        {"14 Oak St", "14 Oak Street", true},
        {"14 N Oak St", "14 North Oak Street", true},
        {"14 N.W. Oak Ave", "14 Northwest Oak Av", true},
        {"14 North West Oak Ave", "14 NW Oak Avenue", true},
        {"No. 12 Sample Lane", "12 Sample Ln", true},
        {"# 12 Sample Lane", "12 Sample Ln", true},
        {"12 Sample Ln", "12 Sample Lane, Exampleton", true},
        {"12 Sample", "12 Sample Ln", true},
        {"12 Sample Ln Apt 2B", "12 Sample Lane #2B", true},
        {"14 First Ave", "14 1st Avenue", true},
        {"14 St Ida Road", "14 Saint Ida Rd", true},
        {"14 O'Hara Ct", "14 OHara Court", true},
        {"14 Peña Blvd", "14 Peña Boulevard", true},
        {"14 Peña St", "14 PEÑA ST", true},
        {"14 Peña St", "14 Pena Street", true},
        {"14 Pen\u0303a St", "14 peña st", true}, /* the accent by itself */
        {"14 Ñu Road", "14 Nu Rd", true},
        {"14 Ågot Str", "14 ÅGOT Str", true},
        {"14 Straße Row", "14 STRASSE Row", true},
        {"14\u00a0Oak\u2013Elm St", "14 Oak-Elm Street", true}, /* a blank that does not break */
        {"14 O\u2019Hara Ct", "14 O'HARA Court", true},
        {"14 Cafe\u0301", "14 CAFÉ, Exampleton", true},
        {"14 Straß Row", "14 Stras Row", false},
        {"14 Peña St", "14 Pera St", false},
        {"14 \u043a St", "14 \u043d St", false},
        {"Apt 2B, 12 Sample Lane", "12 Sample Ln", true},
        {"Unit 3, 12 Sample Lane", "12 Sample Ln, Unit 3", true},
        {"c/o Ida, 12 Sample Lane", "12 Sample Ln", true},
        {"The Old House, 12 Sample Lane, Exampleton", "12 Sample Ln", true},
        {"0012 Sample Lane", "12 Sample Ln", true},
        {"2nd floor, 12 Sample Lane", "12 Sample Ln", true},
        {"3rd Fl. rear, 12 Sample Lane", "12 Sample Ln", true},
        {"No. 12 Sample Lane, 3 Exampleton", "12 Sample Ln", true},
        {"Sample Farm, 12 Miles Road", "12 Sample Ln", false},
        {"0, 12 Sample Ln", "12 Sample Ln", true},
        {"12 Sample Ln", "12 Sample Street", false},
        {"12 Sample Ln", "12 N Sample Ln", false},
        {"12 Sample Ln", "121 Sample Ln", false},
        {"12 Sample Lan", "12 Sample Landing", false},
        {"12 Sample Str", "12 Sample Streetcar Row", false},
        {"12 Sample Ln", "12 Samp", false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char a[MF_ADDRESS_KEY], b[MF_ADDRESS_KEY];
        CHECK_ROW(mf_may_be_one_place(rows[i].a, "", rows[i].b, "") == rows[i].same, rows[i].b);
        CHECK_ROW(mf_may_be_one_place(rows[i].b, "", rows[i].a, "") == rows[i].same, rows[i].b);
        mf_address_key(rows[i].a, a);
        mf_address_key(rows[i].b, b);
        if (rows[i].same)
            CHECK_ROW(strcmp(a, b) == 0, rows[i].a);
    }
}

static void units(void **state)
{
    static const struct {
        const char *a, *b;
        bool same, may_be;
    } rows[] = {
        {"2B", "2b", true, true},         {"2B", "2-B", true, true},
        {"Apt. 2B", "2B", true, true},    {"Unit 2B", "#2b", true, true},
        {"2E", "2-E", true, true},        {"2 E", "2 East", true, true},
        {"Fl. 2", "floor 2", true, true}, {"", "", true, true},
        {"2B", "2C", false, false},       {"2", "2B", false, false},
        {"2B", "12B", false, false},      {"2B", "", false, true},
        {"Apt", "", false, true},         {"Apt", "2B", false, false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *a = rows[i].a, *b = rows[i].b, *at = "12 Sample Ln";
        CHECK_ROW(mf_same_unit(a, b) == rows[i].same, a);
        CHECK_ROW(mf_same_unit(b, a) == rows[i].same, a);
        CHECK_ROW(mf_may_be_one_place(at, a, at, b) == rows[i].may_be, a);
        CHECK_ROW(mf_may_be_one_place(at, b, at, a) == rows[i].may_be, a);
    }
}

/* What a signed paper says of its place. */
static void papers(void **state)
{
    static const struct {
        const char *paper, *address;
        bool other;
        size_t units;
    } rows[] = {
        {"12 Sample Ln", "12 Sample Lane, Exampleton", false, 0},
        {"Apt 2B, 12 Sample Ln", "12 Sample Lane", false, 1},
        {"12 Sample Ln 2B", "12 Sample Lane", false, 1},
        {"12 Sample Ln, 2B, Exampleton", "12 Sample Lane", false, 1},
        {"12 Sample Ln, Exampleton, OH 43000", "12 Sample Lane", false, 0},
        {"12 Sample Ln, 43000 Exampleton", "12 Sample Lane", false, 0},
        {"12 Sample Ln, 43000", "12 Sample Lane", false, 0},
        {"c/o 9 Other Road, 12 Sample Lane", "12 Sample Lane", false, 0},
        {"14 Sample Ln", "12 Sample Lane", true, 0},
        {"9 Other Road", "12 Sample Lane", true, 0},
        {"9 Other Road, Apt 3", "12 Sample Lane", true, 1},
        {"2nd floor", "12 Sample Lane", false, 0},
        {"rear building", "12 Sample Lane", false, 0},
        {"3C", "12 Sample Lane", false, 1},
        {"2B, 3C", "12 Sample Lane", false, 2},
        {"12 Sample Lane, 2B, 3C", "12 Sample Lane", false, 2},
        {"units 1A to 4B", "12 Sample Lane", false, 0},
        {"all units", "12 Sample Lane", false, 0},
        {"9 Other Road", "Sample Farm", false, 0},
        {"9 Other Road", "", false, 0},
        {"", "12 Sample Lane", false, 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_ROW(mf_other_street(rows[i].paper, rows[i].address) == rows[i].other, rows[i].paper);
        CHECK_ROW(mf_units_named(rows[i].paper, rows[i].address) == rows[i].units, rows[i].paper);
    }
}

static void keys(void **state)
{
    char key[MF_ADDRESS_KEY];
    (void)state;
    mf_address_key("No. 12 Sample Lane", key);
    assert_string_equal(key, "12s");
    mf_address_key("Sample Farm", key);
    assert_string_equal(key, "s");
    mf_address_key("", key);
    assert_string_equal(key, "");
    mf_address_key("7 Ñu Road", key);
    assert_string_equal(key, "7n");
    mf_address_key("7 \u043a Road", key); /* half a letter is no text */
    assert_string_equal(key, "7~");
    mf_address_key("123456789012345678901234567890", key);
    assert_string_equal(key, "12345678901234567890123");
}

/* Each abbreviation is found among the others, so none stands out of order or is too long. */
static void each_abbreviation_counts(void **state)
{
    static const struct {
        const char *typed, *counts_as;
    } words[] = {
#include "core/address_words.inc"
    };
    (void)state;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        char typed[60], counts[60];
        snprintf(typed, sizeof typed, "7 %s", words[i].typed);
        snprintf(counts, sizeof counts, "7 %s", words[i].counts_as);
        CHECK_ROW(mf_same_unit(typed, counts), words[i].typed);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(addresses), cmocka_unit_test(each_abbreviation_counts),
        cmocka_unit_test(units),     cmocka_unit_test(papers),
        cmocka_unit_test(keys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
