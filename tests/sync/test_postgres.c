/* Devices that meet at a server of PostgreSQL, which the test starts itself. What is expected
 * follows from mistfold/sync.h, all constructed. */
#include "sync/pg_script.h"

static void all_have_all(void **state)
{
    (void)state;
    pg_script("firm; opening truck W1; opening paul W2; opening office W3; photo truck\n"
              "answer 0 'handed out   truck/' meet truck\n"
              "answer 0 'came in      truck/' meet paul\n"
              "answer 0 'came in      paul/' meet office\n"
              "quietly meet truck; quietly meet paul; same office truck paul\n"
              "answer 0 'handed out   entries: 0, attachments: 0' meet office\n"
              "answer 0 'W2' M truck opening list J-7\n"
              "[ \"$(admin 'SELECT count(*) FROM mistfold.content')\" = 1 ]\n"
              "M office sync \"$(place office)\" --status >said; grep -q 'truck  *3  *3' said\n"
              "M office sync \"$(place office)\" --check\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_have_all),
    };
    return cmocka_run_group_tests(tests, pg_start, pg_stop);
}
