/* pg_script.h - shell scripts that begin with the firm of kit.sh and meet at a server of their
 * own. */
#ifndef TESTS_SYNC_PG_SCRIPT_H
#define TESTS_SYNC_PG_SCRIPT_H

#include "sync/script.h"

#include <unistd.h>

static char pg_folder[100];

#define PG_KITS "cat " MF_TESTS "/sync/kit.sh " MF_TESTS "/sync/pg_kit.sh"

/* The same with a new database. */
static inline void pg_script(const char *text)
{
    script_behind(PG_KITS "; echo fresh", text);
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
    run(PG_KITS " > s; echo prepare >> s; sh -eu s");
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
