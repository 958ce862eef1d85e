/* browser_kit.h - a part of a script that drives the page in a browser, in a folder of its own. */
#ifndef TESTS_FIELD_BROWSER_KIT_H
#define TESTS_FIELD_BROWSER_KIT_H

#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>

/* script with its first argument; it must end well. */
static inline void in_browser(const char *script, const char *part)
{
    char folder[64], command[400];
    run_result r;
    run_folder(folder);
    snprintf(command, sizeof command,
             "SAMPLE='" MF_SAMPLE "' TZ=UTC python3 -B " MF_TESTS "/field/%s %s '%s'", script, part,
             folder);
    run_shell(&r, "", command);
    run_remove(folder);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

#endif
