/* The reader in place against RFC 8785: what it takes is canonical, and it gives what
 * the reader of any JSON gives. What it does not take says nothing. Texts are
 * constructed; which of them are canonical is written by hand from RFC 8785 3.2. */
#include "base/json.h"
#include "base/json_flat.h"
#include "support/cmocka_all.h"
#include "support/torture.h"
#include <string.h>

typedef struct sample {
    const char *text;
    bool taken;
} sample;

static const sample samples[] = {
    {"{}", true},
    {"{\"a\":1}", true},
    {"{\"a\":\"x\",\"b\":true,\"c\":false,\"d\":-7,\"e\":0}", true},
    {"{\"a\":\"\",\"ab\":\"\",\"b\":\"\"}", true},
    {"{\"a\":999999999999999}", true},
    {"{\"\":1}", true},
    /* canonical, but for the other reader */
    {"{\"a\":null}", false},
    {"{\"a\":1.5}", false},
    {"{\"a\":{}}", false},
    {"{\"a\":[]}", false},
    {"{\"a\":\"\\n\"}", false},
    {"{\"a\":\"\xC3\xA9\"}", false},
    {"{\"a\":9007199254740991}", false},
    /* not canonical, or no JSON */
    {"", false},
    {"{", false},
    {"[]", false},
    {"{\"a\":1} ", false},
    {" {\"a\":1}", false},
    {"{\"a\": 1}", false},
    {"{\"a\":1,}", false},
    {"{,\"a\":1}", false},
    {"{\"b\":1,\"a\":1}", false},
    {"{\"a\":1,\"a\":1}", false},
    {"{\"ab\":1,\"a\":1}", false},
    {"{\"a\":01}", false},
    {"{\"a\":-0}", false},
    {"{\"a\":+1}", false},
    {"{\"a\":-}", false},
    {"{\"a\":1e3}", false},
    {"{\"a\":1E3}", false},
    {"{\"a\":tru}", false},
    {"{\"a\":truex}", false},
    {"{\"a\":\"x}", false},
    {"{\"a\":\"\t\"}", false},
    {"{\"a\"1}", false},
    {"{\"a\":}", false},
    {"{a:1}", false},
    {"{\"a\":1}{}", false},
};

static void by_hand(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof samples / sizeof samples[0]; i++) {
        mf_flat flat;
        if (mf_json_flat(&flat, samples[i].text) != samples[i].taken)
            fail_msg("%s", samples[i].text);
    }
}

static void members_are_given(void **state)
{
    static const char text[] = "{\"a\":\"xyz\",\"ab\":true,\"b\":-42}";
    mf_flat flat;
    (void)state;
    assert_true(mf_json_flat(&flat, text));
    assert_int_equal(flat.n, 3);
    const mf_flat_member *a = mf_flat_get(&flat, "a"), *b = mf_flat_get(&flat, "b");
    assert_int_equal(a->type, MF_FLAT_TEXT);
    assert_int_equal(a->len, 3);
    assert_memory_equal(a->text, "xyz", 3);
    assert_int_equal(mf_flat_get(&flat, "ab")->number, 1);
    assert_int_equal(b->number, -42);
    assert_null(mf_flat_get(&flat, "abc"));
}

/* One more member than there is room for. */
static void too_many_members(void **state)
{
    mf_buf text = {0};
    mf_flat flat;
    (void)state;
    for (int i = 0; i <= MF_FLAT_MAX; i++) {
        if (i == MF_FLAT_MAX) {
            mf_buf_text(&text, "}");
            assert_true(mf_json_flat(&flat, mf_buf_str(&text)));
            text.len--;
        }
        mf_buf_printf(&text, "%s\"%03d\":1", i == 0 ? "{" : ",", i);
    }
    mf_buf_text(&text, "}");
    assert_false(mf_json_flat(&flat, mf_buf_str(&text)));
    mf_buf_free(&text);
}

/* ---- against the reader of any JSON --------------------------------------------------- */

static void same_member(const mf_flat_member *member, const json_t *value)
{
    switch (member->type) {
    case MF_FLAT_TEXT:
        assert_true(json_is_string(value));
        assert_int_equal(json_string_length(value), member->len);
        assert_memory_equal(json_string_value(value), member->text, member->len);
        break;
    case MF_FLAT_INT:
        assert_true(json_is_integer(value));
        assert_int_equal(json_integer_value(value), member->number);
        break;
    case MF_FLAT_BOOL:
        assert_true(json_is_boolean(value));
        assert_int_equal(json_is_true(value), member->number);
        break;
    }
}

static void must_be_canonical(const char *text, const mf_flat *flat)
{
    mf_buf canonical = {0};
    json_t *tree = mf_json_parse(text, strlen(text), NULL);
    if (!json_is_object(tree) || !mf_json_canonical(&canonical, tree) ||
        strcmp(mf_buf_str(&canonical), text) != 0)
        fail_msg("taken and not canonical: %s", text);
    assert_int_equal(json_object_size(tree), flat->n);
    for (size_t i = 0; i < flat->n; i++) {
        char key[64];
        snprintf(key, sizeof key, "%.*s", (int)flat->at[i].key_len, flat->at[i].key);
        same_member(&flat->at[i], json_object_get(tree, key));
    }
    mf_buf_free(&canonical);
    json_decref(tree);
}

/* Good texts with a few signs changed: whatever is still taken must be canonical. */
static void changed_at_random(void **state)
{
    static const char good[] = "{\"a\":\"x y\",\"ab\":true,\"b\":-42,\"c\":false,\"d\":107}";
    static const char signs[] = "{}[]\",:-+.0123456789eEabtrufls \\\t\x7F\xC3\xA9";
    uint64_t seed = 31;
    int taken = 0;
    (void)state;
    for (int i = 0; i < torture(40000, 4000000); i++) {
        char text[sizeof good];
        mf_flat flat;
        memcpy(text, good, sizeof good);
        for (size_t n = torture_below(&seed, 4); n > 0; n--)
            text[torture_below(&seed, sizeof good - 1)] =
                signs[torture_below(&seed, sizeof signs - 1)];
        if (!mf_json_flat(&flat, text))
            continue;
        taken++;
        must_be_canonical(text, &flat);
    }
    assert_true(taken > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_hand),
        cmocka_unit_test(members_are_given),
        cmocka_unit_test(too_many_members),
        cmocka_unit_test(changed_at_random),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
