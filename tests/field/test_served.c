/* The page as a served book gives it, in a browser (served.py): the address of an invitation, the
 * office away and there again, a page without a network, an invitation that was withdrawn. */
#include "browser_kit.h"

static void whole(void **state)
{
    (void)state;
    in_browser("served.py", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(whole)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
