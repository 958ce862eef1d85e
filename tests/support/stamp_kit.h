/* stamp_kit.h - a book, a key and a time-stamping authority of our own on 127.0.0.1
 * (tests/cli/tsa.py), for tests that run the program. */
#ifndef TESTS_SUPPORT_STAMP_KIT_H
#define TESTS_SUPPORT_STAMP_KIT_H

#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>

#define M     "\"$MISTFOLD\" "
#define ROOTS " --tsa-roots tsa/root.pem "
#define PASS  " --passphrase-fd 3 3<right "
#define KEY   " --key k.p12 " PASS

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    setenv("XDG_CONFIG_HOME", "/nonexistent", 1);
    setenv("MISTFOLD_TSA_WAIT", "5", 1);
    setenv("no_proxy", "*", 1);
    run("python3 " MF_TESTS "/cli/tsa.py . > tsa.log 2>&1 & echo $! > tsa.pid; "
        "for i in $(seq 300); do [ -f tsa/url ] && break; sleep 0.1; done; [ -f tsa/url ] && " M
        "book new --no-key --device t && " M "person add --id rosa --name 'Rosa Muestra' && " M
        "job open --id J --address A --building dwelling --owner-occupied yes --work "
        "window-replacement --description d --start 2026-09-14 && echo right > right && " M
        "key new k.p12 --name 'Rosa Muestra'" PASS);
    if (r.status != 0)
        return fprintf(stderr, "%s%s", r.out, r.err);
    run("cat tsa/url");
    setenv("U", r.out, 1); /* its address */
    return r.status;
}

static int tear_down(void **state)
{
    run("kill $(cat tsa.pid)");
    return shell_stop(state);
}

#endif
