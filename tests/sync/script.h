/* script.h - shell scripts that begin with the firm of kit.sh. */
#ifndef TESTS_SYNC_SCRIPT_H
#define TESTS_SYNC_SCRIPT_H

#include "support/shell_kit.h"

#include <stdio.h>

/* Runs text behind kit.sh, in a new folder; it must end well. */
static inline void script(const char *text)
{
    char path[200];
    run("rm -rf w && mkdir w");
    snprintf(path, sizeof path, "%s/w/s", folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
    run("cd w && export SAMPLE=" MF_SAMPLE " && cat " MF_TESTS
        "/sync/kit.sh s > all && sh -eu all");
    if (r.status != 0)
        fail_msg("%d:\n%s\n%s%s", r.status, text, r.out, r.err);
}

static inline int script_start(void **state)
{
    (void)state;
    run_folder(folder);
    return 0;
}

#endif
