/* The private key of a device beside its book (mistfold/device.h). */
#include "book_kit.h"

#include <mistfold/device.h>

static bool stands(const kit *k, const char *behind)
{
    char path[200];
    snprintf(path, sizeof path, "%.150s%s", k->path, behind);
    return access(path, F_OK) == 0;
}

static mf_status make(kit *k, const char *reason)
{
    k->err = (mf_err){0};
    return mf_book_key_make(k->book, reason, &k->now, k->id, &k->err);
}

/* Nothing is logged, and the book can be written by the key it has. */
static void refused(kit *k, const char *reason, const char *what)
{
    int64_t n = kit_count(k);
    assert_int_equal(make(k, reason), MF_INPUT);
    assert_non_null(strstr(k->err.what, what));
    assert_int_equal(kit_count(k), n);
    assert_true(stands(k, ".office.key"));
    kit_log(k, "reading", "J-1", "number", "9", "instrument", "X-100", "operator", "rosa",
            "purpose", "paint", "component", "W01.sash", "substrate", "wood", "result", "0.9", "on",
            "2026-09-14");
}

static void one_that_is_refused_leaves_the_old_one(void **state)
{
    char reason[5000];
    kit *k = *state;
    memset(reason, 'a', sizeof reason - 1);
    reason[sizeof reason - 1] = '\0';
    assert_int_equal(make(k, ""), MF_OK);
    refused(k, reason, "the text is too long");
    assert_false(stands(k, ".office.key.old"));
}

/* The old one is kept beside it, and is not lost to a second one. */
static void one_in_place_of_another(void **state)
{
    kit *k = *state;
    assert_int_equal(make(k, ""), MF_OK);
    assert_int_equal(make(k, "the disk was lost"), MF_OK);
    assert_true(stands(k, ".office.key.old"));
    refused(k, "the disk was lost again", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(one_that_is_refused_leaves_the_old_one, kit_with_house,
                                        kit_done),
        cmocka_unit_test_setup_teardown(one_in_place_of_another, kit_with_house, kit_done),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
