/* What whoever has a login of the server, or administers it, may do to what devices meet over, and
 * how it shows: each is done for real, with psql, by a script in server/. docs/threats.md names
 * them. */
#include "sync/pg_script.h"

#define SCRIPT(name, file)                                                                         \
    static void name(void **state)                                                                 \
    {                                                                                              \
        (void)state;                                                                               \
        pg_script(". " MF_TESTS "/sync/server/" file ".sh");                                       \
    }

SCRIPT(what_a_login_may_do, "what-a-login-may-do")
SCRIPT(what_is_never_changed, "what-is-never-changed")
SCRIPT(another_firm, "another-firm")
SCRIPT(a_stolen_login, "a-stolen-login")
SCRIPT(a_device_that_was_made_up, "a-device-that-was-made-up")
SCRIPT(rows_that_are_none, "rows-that-are-none")
SCRIPT(an_entry_is_altered, "an-entry-is-altered")
SCRIPT(all_hashes_are_made_anew, "all-hashes-are-made-anew")
SCRIPT(something_is_kept_back, "something-is-kept-back")
SCRIPT(old_rows_again, "old-rows-again")
SCRIPT(what_the_check_sees, "what-the-check-sees")
SCRIPT(lists_for_the_office, "lists-for-the-office")
SCRIPT(the_shape_is_up_to_date, "the-shape-is-up-to-date")

static int start(void **state)
{
    setenv("FORGED", MF_TESTS "/forged/books", 1);
    setenv("PUT", MF_TESTS "/sync/pg_put.py", 1);
    setenv("SYNC", MF_TESTS "/../src/sync", 1);
    return pg_start(state);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_login_may_do),
        cmocka_unit_test(what_is_never_changed),
        cmocka_unit_test(another_firm),
        cmocka_unit_test(a_stolen_login),
        cmocka_unit_test(a_device_that_was_made_up),
        cmocka_unit_test(rows_that_are_none),
        cmocka_unit_test(an_entry_is_altered),
        cmocka_unit_test(all_hashes_are_made_anew),
        cmocka_unit_test(something_is_kept_back),
        cmocka_unit_test(old_rows_again),
        cmocka_unit_test(what_the_check_sees),
        cmocka_unit_test(lists_for_the_office),
        cmocka_unit_test(the_shape_is_up_to_date),
    };
    return cmocka_run_group_tests(tests, start, pg_stop);
}
