/* Every version of the book has its hash: without it opening is slow, and with a wrong
 * one as well; no outcome differs. */
#include "book/schema.h"
#include "book/shape.h"
#include "support/cmocka_all.h"

static void every_version_is_known(void **state)
{
    (void)state;
    for (int version = 1; version <= mf_schema_version(); version++) {
        mf_db db = {0};
        bool known = false;
        assert_int_equal(mf_db_open(&db, ":memory:", "fresh", NULL), MF_OK);
        assert_int_equal(mf_schema_make(&db, version, NULL), MF_OK);
        assert_int_equal(mf_shape_known(&known, &db, version, NULL), MF_OK);
        assert_true(known);
        assert_int_equal(mf_shape_check(&db, version, NULL), MF_OK);
        assert_int_equal(mf_db_exec(&db, "CREATE INDEX odd ON meta (value)", NULL), MF_OK);
        assert_int_equal(mf_shape_known(&known, &db, version, NULL), MF_OK);
        assert_false(known);
        assert_int_equal(mf_shape_check(&db, version, NULL), MF_INPUT);
        mf_db_close(&db);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_version_is_known)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
