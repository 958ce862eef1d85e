/* Words as people mistype them. The distances are those of the textbook's examples
 * (Levenshtein 1966; "kitten" and "sitting" are 3 apart), the others counted by hand. */
#include "base/json.h"
#include "base/letters.h"
#include "support/cmocka_all.h"

static void but_case(void **state)
{
    (void)state;
    assert_true(mf_same_but_case("Date", "dATE"));
    assert_true(mf_same_but_case("", ""));
    assert_false(mf_same_but_case("Date", "Dates"));
    assert_false(mf_same_but_case("Dates", "Date"));
    assert_false(mf_same_but_case("[", "{")); /* one bit apart, as letters of two cases are */
}

static void apart(void **state)
{
    static const struct {
        const char *a, *b;
        int apart;
    } rows[] = {
        {"kitten", "sitting", 3},
        {"saturday", "sunday", 3},
        {"", "abc", 3},
        {"record", "rekord", 1},
        {"W01.sash", "w01.SASH", 0}, /* capitals aside */
        {"gate", "gaet", 2},
        {"", "", 0},
        {"abcdefghijkl", "", 9}, /* farther than anybody mistypes */
        {"12345678901234567890123456789012345678901", "1", 9},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(mf_letters_apart(rows[i].a, rows[i].b), rows[i].apart);
        assert_int_equal(mf_letters_apart(rows[i].b, rows[i].a), rows[i].apart);
    }
}

static void lower(void **state)
{
    (void)state;
    assert_int_equal(mf_lower('A'), 'a');
    assert_int_equal(mf_lower('Z'), 'z');
    assert_int_equal(mf_lower('@'), '@');
    assert_int_equal(mf_lower('['), '[');
    assert_int_equal(mf_lower('\xC9'), '\xC9'); /* a byte of UTF-8 */
}

static void text_of_an_object(void **state)
{
    (void)state;
    json_t *object = mf_json_parse("{\"a\":\"b\",\"n\":1}", 15, NULL);
    assert_string_equal(mf_json_string_of(object, "a"), "b");
    assert_string_equal(mf_json_string_of(object, "n"), "");
    assert_string_equal(mf_json_string_of(object, "z"), "");
    assert_string_equal(mf_json_string_of(NULL, "a"), "");
    json_decref(object);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(but_case),
        cmocka_unit_test(apart),
        cmocka_unit_test(lower),
        cmocka_unit_test(text_of_an_object),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
