/* verification list of an area that clearance samples cleared, with its surfaces listed as
 * well. All is invented. */
#include "support/shell_kit.h"

#include <stdlib.h>

#define SAMPLE                                                                                     \
    "--place kitchen --sampler ines --laboratory L --nllap yes --required yes --on 2026-09-15"

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    run_shell(&r, folder,
              "set -e; m=$MISTFOLD; $m book new --no-key --device t;"
              "$m person add --id rosa --name 'Rosa Muestra';"
              "$m person add --id ines --name 'Ines Ejemplar';"
              "$m certificate add --holder ines --discipline inspector --number I-1 --issuer X "
              "  --issued 2025-01-05 --expires 2028-01-05;"
              "$m job open --id J --address A --year-built 1926 --building dwelling "
              "  --owner-occupied yes --work other --description d --start 2026-09-14;"
              "$m component add J --id wall --type wall --room kitchen --side interior "
              "  --substrate plaster;"
              "$m area add J --id A1 --side interior --place kitchen --length 10 --width 10;"
              "$m surface add J --id sill --area A1 --kind sill --place kitchen --size 1");
    return r.status;
}

static int finish(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

/* 745.85(c): where clearance is sampled, no cloth is asked for; a result at the level clears
 * nothing (745.227(e)(8)), nor does a sill without the floor. */
static void samples_clear_it(void **state)
{
    (void)state;
    run("$MISTFOLD verification list J");
    says("A1  kitchen  not verified");
    says("not wiped yet");
    run("$MISTFOLD dust add J --area A1 --surface sill --result 3.2 " SAMPLE);
    run("$MISTFOLD verification list J"); /* its floor was neither wiped nor sampled */
    says("A1  kitchen  not verified");
    run("$MISTFOLD dust add J --area A1 --surface floor --result 3.2 " SAMPLE);
    run("$MISTFOLD verification list J");
    says("A1  kitchen  CLEARED by dust samples");
    says("no cloth needed: dust samples");
    says_not("not verified");
    says_not("not wiped yet");
    run("$MISTFOLD verification list J --lang es");
    says("APROBADA por muestras de polvo");
    run("$MISTFOLD dust add J --area A1 --surface sill --result 40 " SAMPLE);
    run("$MISTFOLD verification list J");
    says("A1  kitchen  not verified");
    says_not("CLEARED");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(samples_clear_it)};
    return cmocka_run_group_tests(tests, start, finish);
}
