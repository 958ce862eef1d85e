/* shell_kit.h - the program in a folder of the test's own: run a command line, look at
 * what it said. For tests of one file each; folder is made by run_folder. */
#ifndef TESTS_SUPPORT_SHELL_KIT_H
#define TESTS_SUPPORT_SHELL_KIT_H

#include "support/cmocka_all.h"
#include "support/run.h"
#include <string.h>

static char folder[64];
static run_result r;

static inline int shell_stop(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

static inline void run(const char *command)
{
    run_shell(&r, folder, command);
}

static inline void says(const char *part)
{
    if (strstr(r.out, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s%s", part, r.out, r.err);
}

static inline void says_not(const char *part)
{
    if (strstr(r.out, part) != NULL)
        fail_msg("\"%s\" is in:\n%s", part, r.out);
}

/* On standard error. */
static inline void notes(const char *part)
{
    if (strstr(r.err, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s", part, r.err);
}

#endif
