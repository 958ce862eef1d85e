/* A device whose clock is hours ahead: what a merge brings of it stays, and answers no until it is
 * corrected, also on the paper. All is invented. */
#include "support/shell_kit.h"

#include <stdlib.h>

/* At noon here, and three hours later by the truck. */
#define HERE  "h=$(date -u +%H); h=${h#0}; export TZ=XXX$((h - 12)); d=$(date +%F); "
#define TRUCK "TZ=XXX$((h - 15)) "

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    run_shell(&r, folder,
              "set -e; m=$MISTFOLD; " HERE "$m book new --no-key --device office;"
              "$m person add --id rosa --name 'Rosa Muestra';"
              "$m job open --id J --address A --year-built 1926 --building dwelling "
              "  --owner-occupied yes --work other --description d --start $d;"
              "$m area add J --id A1 --side interior --place kitchen --length 9 "
              "  --width 9;"
              "$m book copy t.book --no-key --device truck;" TRUCK
              "$m --book t.book verification log J --area A1 --event look-clean --person rosa "
              "  --on $d --time $(" TRUCK "date +%H:%M); $m book merge t.book");
    return r.status;
}

static void a_time_still_to_come(void **state)
{
    (void)state;
    run(HERE "$MISTFOLD gate J signs | tr -s ' \n' ' '");
    says("truck/1 of ");
    says("says a time that by the clock and time zone of this device is still to come: this "
         "device, or the one that logged it, has another clock or zone than the house.");
    says("do: mistfold entry correct truck/1 --set time=... --reason ...");
    run(HERE "$MISTFOLD gate J signs --lang es | tr -s ' \n' ' '");
    says("de este aparato aún no llega");
    run("export TZ=XXX$(($(date -u +%H | sed s/^0//) - 15)); $MISTFOLD gate J signs"); /* there */
    says_not("truck/1 of ");
    run(HERE "$MISTFOLD entry correct truck/1 --set time=$(date +%H:%M) --reason 'zone was wrong';"
             "$MISTFOLD gate J signs | tr -s ' \n' ' '");
    says_not("truck/1 of ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_time_still_to_come)};
    return cmocka_run_group_tests(tests, start, shell_stop);
}
