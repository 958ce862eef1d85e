/* A name in a text, whatever the case of its letters. The cases of letters are Unicode's
 * (CaseFolding.txt: small sharp s is ss); the names are constructed. */
#include "base/spelled.h"
#include "support/cmocka_all.h"

static const struct {
    const char *name, *text;
    int takes; /* bytes of the text, 0 = it is not there */
} rows[] = {
    {"Ola Quux", "key at Ola Quux", 8},
    {"Ola Quux", "OLA QUUX has the key", 8},
    {"OLA QUUX", "ola quux's key", 8},
    {"Ola Quux", "Ola Quuxx", 0},
    {"Ola Quux", "Viola Quux", 0},
    {"Ola Quux", "(ola quux)", 8},
    {"Ola Quux", "\xE2\x80\x9COla Quux\xE2\x80\x9D", 8}, /* in quotation marks */
    {"Ola Quux", "Ola", 0},
    {"Ola Quux", "", 0},
    {"", "Ola", 0},
    {"N\xC3\xBA\xC3\xB1"
     "ez",
     "N\xC3\x9A\xC3\x91"
     "EZ",
     7}, /* of Latin-1 */
    {"N\xC3\xBA\xC3\xB1"
     "ez",
     "Nunez", 5}, /* typed without accents */
    {"Nunez",
     "Nu\xCC\x81n\xCC\x83"
     "ez.",
     9}, /* the accents as signs of their own */
    {"Jos\xC3\xA9", "Jose\xCC\x81", 6},
    {"Jos\xC3\xA9", "Joses", 0},
    {"Gro\xC3\x9F", "GROSS", 5},
    {"Gros", "Gro\xC3\x9F", 0}, /* half of a letter */
    {"Ola", "Ola\xC3\xA9", 0},  /* a word that goes on */
    {"Ola", "\xFFOla\xFF", 3},  /* no UTF-8 */
    {"\xFF", "\xFE", 0},
    {"#7", "at x#7", 2}, /* which begins by no letter */
    {"#7", "at 7", 0},
    {"7#", "7 ", 0},
    {"Ola Quux", "OLA-QUUX", 8},
    {"Ola Quux", "ola  quux", 9},
    {"Ola Quux", "ola\nquux", 8},
    {"Ola Quux", "Ola\xC2\xA0Quux", 9}, /* a blank that does not break */
    {"Ola Quux", "Ola, (Quux)", 10},
    {"Ola-Quux", "Ola Quux", 8},
    {"Ola  Quux", "Ola Quux", 8},
    {"Ola Quux", "OlaQuux", 0},
    {"Ola Quux", "Ola  Quuxx", 0},
    {"Ola Quux", "Ola  ", 0},
    {"Jos\xC3\xA9 Quux", "Jose\xCC\x81-Quux", 11},
    {"Ola Quux", "O\xC2\xADla Quux", 10}, /* a hyphen that nobody sees */
    {"O'Quux", "O\xE2\x80\x99Quux", 8},
    {"\xC5\x81ucja", "Lucja", 5}, /* with strokes, which Unicode takes apart no further */
    {"\xC3\x98st", "ost", 3},
    {"Ma\xC5\x82y", "maly", 4},
    {"\xC3\x86sir", "Aesir", 5},
    {"O'Qux", "O\xE2\x80\x99Qux", 7}, /* the apostrophe of a printer */
};

static void in_a_text(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t takes = 0;
        for (const char *at = rows[i].text; *at != '\0' && takes == 0; at++)
            takes = mf_spelled_at(rows[i].name, rows[i].text, at);
        if ((int)takes != rows[i].takes)
            fail_msg("\"%s\" in \"%s\": %zu", rows[i].name, rows[i].text, takes);
        assert_int_equal(mf_spelled_in(rows[i].name, rows[i].text), takes > 0);
    }
}

/* Of each place where a name stands the numbers hold the name's, so that it is not passed by. */
static void numbers_of_first_letters(void **state)
{
    uint32_t want[MF_SPELLED_KEYS], is[MF_SPELLED_KEYS];
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (const char *at = rows[i].text; *at != '\0'; at++) {
            if (mf_spelled_at(rows[i].name, rows[i].text, at) == 0)
                continue;
            size_t n = mf_spelled_keys(rows[i].name, true, want);
            assert_in_range(n, 1, MF_SPELLED_KEYS);
            if (mf_spelled_keys(at, false, is) < n || is[n - 1] != want[n - 1])
                fail_msg("\"%s\" in \"%s\" is passed by", rows[i].name, rows[i].text);
        }
    assert_int_equal(mf_spelled_keys("Al Qux", true, want), 2); /* its first word */
    assert_int_equal(mf_spelled_keys("al-qux", false, is), MF_SPELLED_KEYS);
    assert_int_equal(want[1], is[1]);
    assert_int_not_equal(want[0], is[1]);
    assert_int_equal(mf_spelled_keys("", true, want), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(in_a_text),
                                       cmocka_unit_test(numbers_of_first_letters)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
