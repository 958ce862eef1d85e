/* The page as a served book gives it, in a browser (served.py): the address of an invitation, the
 * office away and there again, a page without a network, an invitation that was withdrawn. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>

static void whole(void **state)
{
    char folder[64], command[400];
    run_result r;
    (void)state;
    run_folder(folder);
    snprintf(command, sizeof command,
             "SAMPLE='" MF_SAMPLE "' TZ=UTC python3 -B " MF_TESTS "/field/served.py '%s'", folder);
    run_shell(&r, "", command);
    run_remove(folder);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(whole)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
