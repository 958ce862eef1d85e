/* stamp_kit.h - a book, a key and a time-stamping authority of our own on 127.0.0.1
 * (tests/cli/tsa.py), for tests that run the program. */
#ifndef TESTS_SUPPORT_STAMP_KIT_H
#define TESTS_SUPPORT_STAMP_KIT_H

#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define M     "\"$MISTFOLD\" "
#define ROOTS " --tsa-roots tsa/root.pem "
#define PASS  " --passphrase-fd 3 3<right "
#define KEY   " --key k.p12 " PASS

static char folder[64];
static run_result r;

static void run(const char *command)
{
    char line[4096];
    int n = snprintf(line, sizeof line,
                     "export MISTFOLD_BOOK=b.book MISTFOLD_BY=rosa XDG_CONFIG_HOME=/nonexistent "
                     "MISTFOLD_TSA_WAIT=5 no_proxy='*' U=$(cat tsa/url 2>/dev/null); %s",
                     command);
    assert_true(n > 0 && (size_t)n < sizeof line);
    run_shell(&r, folder, line);
}

static void says(int status, const char *part)
{
    if (r.status != status || strstr(r.out, part) == NULL)
        fail_msg("wanted %d and \"%s\", got %d:\n%s%s", status, part, r.status, r.out, r.err);
}

static void refuses(int status, const char *part)
{
    const char *line = strchr(r.err, '\n');
    if (r.status != status || strstr(r.err, part) == NULL || line == NULL || line[1] != '\0' ||
        strncmp(r.err, "mistfold: ", 10) != 0)
        fail_msg("wanted %d and one line \"%s\", got %d:\n%s%s", status, part, r.status, r.out,
                 r.err);
}

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("python3 " MF_TESTS "/cli/tsa.py . > tsa.log 2>&1 & echo $! > tsa.pid; "
        "for i in $(seq 300); do [ -f tsa/url ] && break; sleep 0.1; done; [ -f tsa/url ] && " M
        "book new --no-key --device t && " M "person add --id rosa --name 'Rosa Muestra' && " M
        "job open --id J --address A --building dwelling --owner-occupied yes --work "
        "window-replacement --description d --start 2026-09-14 && echo right > right && " M
        "key new k.p12 --name 'Rosa Muestra'" PASS);
    if (r.status != 0)
        fprintf(stderr, "%s%s", r.out, r.err);
    return r.status;
}

static int tear_down(void **state)
{
    (void)state;
    run("kill $(cat tsa.pid)");
    run_remove(folder);
    return 0;
}

#endif
