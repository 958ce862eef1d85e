/* pg_script.h - shell scripts that begin with the firm of kit.sh and meet at a server of their
 * own. */
#ifndef TESTS_SYNC_PG_SCRIPT_H
#define TESTS_SYNC_PG_SCRIPT_H

#include "support/shell_kit.h"

#include <stdio.h>
#include <unistd.h>

static char pg_folder[100];

/* Runs text behind the kits, in a new folder and with a new database; it must end well. */
static inline void pg_script(const char *text)
{
    char path[200];
    run("rm -rf w && mkdir w");
    snprintf(path, sizeof path, "%s/w/s", folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
    run("cd w && export SAMPLE=" MF_SAMPLE " && { cat " MF_TESTS "/sync/kit.sh " MF_TESTS
        "/sync/pg_kit.sh; echo fresh; cat s; } > all && sh -eu all");
    if (r.status != 0) { /* a message of cmocka is cut */
        printf("%d:\n%s\n%s%s\n", r.status, text, r.out, r.err);
        fail();
    }
}

/* Starts the server. Without its package the tests fail and say which it is. */
static inline int pg_start(void **state)
{
    char command[200];
    (void)state;
    run_folder(folder);
    run("python3 -c 'import socket; s = socket.socket(); s.bind((\"127.0.0.1\", 0)); "
        "print(s.getsockname()[1])'");
    r.out[strcspn(r.out, "\n")] = '\0';
    setenv("PGPORT", r.out, 1); /* the socket is named by it, too */
    setenv("PG_PORT", r.out, 1);
    snprintf(command, sizeof command, "sh " MF_TESTS "/support/pg.sh start %ld $PGPORT",
             (long)getpid());
    run(command);
    if (r.status != 0) {
        printf("%s", r.err);
        return 1;
    }
    snprintf(pg_folder, sizeof pg_folder, "%.*s", (int)strcspn(r.out, "\n"), r.out);
    setenv("PG", pg_folder, 1);
    run("sh " MF_TESTS "/support/pg.sh bin");
    r.out[strcspn(r.out, "\n")] = '\0';
    setenv("PG_BIN", r.out, 1);
    run("cat " MF_TESTS "/sync/kit.sh " MF_TESTS
        "/sync/pg_kit.sh > s; echo prepare >> s; sh -eu s");
    if (r.status != 0)
        printf("%s%s", r.out, r.err);
    return r.status;
}

static inline int pg_stop(void **state)
{
    char command[200];
    (void)state;
    snprintf(command, sizeof command, "sh " MF_TESTS "/support/pg.sh stop %s", pg_folder);
    run(command);
    run_remove(folder);
    return 0;
}

#endif
