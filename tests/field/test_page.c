/* The field page in a browser (page.py): the sample job from the first tick to the file that
 * goes back, a kill, a reload, Spanish, a changed file, no room, two windows, a narrow and a dark
 * screen, a keyboard alone, a slow processor. None of it asks a network for anything. */
#include "browser_kit.h"

#define PART(name)                                                                                 \
    static void name(void **state)                                                                 \
    {                                                                                              \
        (void)state;                                                                               \
        in_browser("page.py", #name);                                                              \
    }

PART(whole_job)
PART(killed)
PART(spanish)
PART(tampered)
PART(cut_short)
PART(no_room)
PART(two_windows)
PART(narrow)
PART(keys_alone)
PART(slow)
PART(earlier_jobs)
PART(testing)
PART(wording)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_job),   cmocka_unit_test(killed),       cmocka_unit_test(spanish),
        cmocka_unit_test(tampered),    cmocka_unit_test(cut_short),    cmocka_unit_test(no_room),
        cmocka_unit_test(two_windows), cmocka_unit_test(narrow),       cmocka_unit_test(keys_alone),
        cmocka_unit_test(slow),        cmocka_unit_test(earlier_jobs), cmocka_unit_test(testing),
        cmocka_unit_test(wording),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
