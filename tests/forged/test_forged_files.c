/* Files forged for real, and what the program must say to each: the scripts of this folder
 * with the answer at the end of each (kit.sh). */
#include "support/cmocka_all.h"
#include "support/run.h"
#include <stdio.h>
#include <stdlib.h>

static char made[64];

/* A book, a key and papers, once for all. */
static int make(void **state)
{
    run_result result;
    (void)state;
    run_folder(made);
    run_shell(&result, made, "sh '" MF_TESTS "/forged/make.sh'");
    if (result.status != 0)
        print_error("%s", result.err);
    return result.status;
}

static int unmake(void **state)
{
    (void)state;
    run_remove(made);
    return 0;
}

static void forged(void **state)
{
    run_result result;
    char folder[64], command[400];
    run_folder(folder);
    snprintf(command, sizeof command, "sh '%s/forged/kit.sh' '%s' '%s/forged/%s.sh'", MF_TESTS,
             made, MF_TESTS, (const char *)*state);
    run_shell(&result, folder, command);
    run_remove(folder);
    if (result.status == 77) {
        print_message("%s", result.err);
        skip();
    }
    if (result.status != 0)
        fail_msg("%s says (>) what it must not, or not (<) what it must:\n%s%s",
                 (const char *)*state, result.out, result.err);
}

#define SCRIPT(name)                                                                               \
    {                                                                                              \
        name, forged, NULL, NULL, (void *)(uintptr_t)name                                          \
    }

int main(void)
{
    const struct CMUnitTest tests[] = {
        SCRIPT("over-book"),   SCRIPT("over-links"),    SCRIPT("over-log"),
        SCRIPT("over-key"),    SCRIPT("over-sealed"),   SCRIPT("other-kind"),
        SCRIPT("read-only"),   SCRIPT("read-only-log"), SCRIPT("read-only-disk"),
        SCRIPT("full-disk"),   SCRIPT("readable"),      SCRIPT("passphrase"),
        SCRIPT("killed-copy"), SCRIPT("names"),
    };
    return cmocka_run_group_tests(tests, make, unmake);
}
