/* A book with a job, and a person at a pseudo-terminal (drive.py); see walk_kit.h. */
#include "support/walk_kit.h"

#include "support/cmocka_all.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char walk_folder[64];
run_result r;

int walk_start(void **state)
{
    (void)state;
    run_folder(walk_folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    setenv("MISTFOLD_LANG", "en", 1);
    run_shell(&r, walk_folder,
              "set -e; m=$MISTFOLD; $m book new --no-key --device t;"
              "$m person add --id rosa --name 'Rosa Muestra';"
              "$m person add --id teo --name 'Teo Modelo';"
              "$m certificate add --holder rosa --discipline renovator --number R-1 --issuer X "
              "  --issued 2024-01-05 --expires 2099-01-05 --hands-on yes;"
              "$m job open --id J --address A --building dwelling --owner-occupied yes "
              "  --work window-replacement --description d --start 2026-09-14;"
              "$m opening add J --id W01 --kind window --room kitchen --elevation north;"
              "$m crew assign J --person rosa --duty renovator --on 2026-09-14;"
              "$m area add J --id A1 --side interior --place kitchen --openings W01 --length 10 "
              "  --width 10 --objects no --ducts no --doors-used no --carpet no --countertops no;"
              "$m surface add J --id W01-sill --area A1 --kind sill --place kitchen --size 1;"
              "$m surface add J --id floor --area A1 --kind floor --place kitchen --size 90");
    if (r.status != 0)
        fprintf(stderr, "%s%s", r.out, r.err);
    return r.status;
}

int walk_stop(void **state)
{
    (void)state;
    run_remove(walk_folder);
    return 0;
}

void walk(const char *keys, const char *command)
{
    char line[600];
    snprintf(line, sizeof line, "python3 " MF_TESTS "/cli/drive.py '%s' $MISTFOLD %s", keys,
             command);
    run_shell(&r, walk_folder, line);
    if (r.status != 0 || strstr(r.out, "TOO BIG") != NULL)
        fail_msg("%s%s", r.out, r.err);
}

void says(const char *part)
{
    if (strstr(r.out, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s", part, r.out);
}

void says_not(const char *part)
{
    if (strstr(r.out, part) != NULL)
        fail_msg("\"%s\" is in:\n%s", part, r.out);
}

void book_says(const char *sql, const char *expected)
{
    char line[600];
    snprintf(line, sizeof line, "sqlite3 -readonly b.book \"%s\"", sql);
    run_shell(&r, walk_folder, line);
    assert_string_equal(r.out, expected);
}
