/* script.h - shell scripts that begin with the firm of kit.sh. */
#ifndef TESTS_SYNC_SCRIPT_H
#define TESTS_SYNC_SCRIPT_H

#include "support/shell_kit.h"

#include <stdio.h>

/* Runs text behind what the command line kits prints, in a new folder; it must end well. */
static inline void script_behind(const char *kits, const char *text)
{
    char path[200], command[1000];
    run("rm -rf w && mkdir w");
    snprintf(path, sizeof path, "%s/w/s", folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
    snprintf(command, sizeof command,
             "cd w && export SAMPLE=" MF_SAMPLE " && { %s; cat s; } > all && sh -eu all", kits);
    run(command);
    if (r.status != 0) { /* a message of cmocka is cut */
        printf("%d:\n%s\n%s%s\n", r.status, text, r.out, r.err);
        fail();
    }
}

static inline void script(const char *text)
{
    script_behind("cat " MF_TESTS "/sync/kit.sh", text);
}

static inline int script_start(void **state)
{
    (void)state;
    run_folder(folder);
    return 0;
}

#endif
