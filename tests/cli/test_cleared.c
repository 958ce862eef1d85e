/* verification list of an area that clearance samples cleared, with its surfaces listed as
 * well. All is invented. */
#include "support/shell_kit.h"

#include <stdlib.h>

#define SAMPLE                                                                                     \
    "--place kitchen --sampler ines --laboratory L --nllap yes --required yes --on 2026-09-15 "    \
    "--time 12:00"

/* All that is done in a work area on the 14th and the 15th before it is looked at. */
#define WORKED(area)                                                                               \
    "tick() { list=$1 step=$2; shift 2; $MISTFOLD $list tick J --area " area " --step $step "      \
    "  --person lea --renovator lea --on 2026-09-15 \"$@\"; };"                                    \
    "t=0; for s in barriers-whole leave-clean waste-contained waste-daily; do t=$((t + 1));"       \
    "  tick containment $s --state done --time 08:0$t; done;"                                      \
    "tick containment waste-chute --state not-needed --ground not-used --reason none;"             \
    "for s in chips sheeting walls surfaces mop margin; do t=$((t + 1)); case $s in"               \
    "  margin) m='--measured 2' ;; *) m= ;; esac;"                                                 \
    "  tick cleaning $s --state done --time 09:$((t + 10)) $m; done;"                              \
    "tick cleaning divider --state done --time 09:40;"                                             \
    "tick cleaning carpet --state not-needed --ground none-present --reason 'bare floor';"

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
              "$m person add --id lea --name 'Lea Modelo';"
              "$m certificate add --holder lea --discipline renovator --number R-2 --issuer X "
              "  --issued 2024-03-04 --expires 2029-03-04 --hands-on yes;"
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

/* 745.85(c): who is asked for the list of what is wiped, or for a wipe, may have samples instead.
 */
static void says_samples_may_stand(void)
{
    run("$MISTFOLD gate J signs | tr '\n' ' ' | tr -s ' '");
    says(
        "carpet is stated in the work area. Where the contract or the law requires dust clearance, "
        "its samples stand in place of the wipes (745.85(c)): log each with dust add, --required "
        "yes.");
    says("Wipe the section with a wet cloth and compare it. Where the contract or the law requires "
         "dust clearance, its samples stand");
    run("$MISTFOLD gate J signs --lang es | tr '\n' ' ' | tr -s ' '");
    says("el área. Si el contrato o la ley exige muestras de polvo al final, estas sustituyen los "
         "paños (745.85(c)): anote");
    says("compárelo. Si el contrato o la ley exige muestras de polvo al final, estas sustituyen");
}

/* 745.85(c): where clearance is sampled, no cloth is asked for; a result at the level clears
 * nothing (745.227(e)(8)), nor does a sill without the floor. */
static void samples_clear_it(void **state)
{
    (void)state;
    run("$MISTFOLD verification list J");
    says("A1  kitchen  not verified");
    says("to be wiped");
    says_samples_may_stand();
    run("set -e; " WORKED("A1"));
    run("$MISTFOLD dust add J --area A1 --surface sill --result 3.2 " SAMPLE);
    run("$MISTFOLD verification list J"); /* its floor was neither wiped nor sampled */
    says("A1  kitchen  not verified");
    run("$MISTFOLD dust add J --area A1 --surface floor --result 3.2 " SAMPLE);
    run("$MISTFOLD verification list J"); /* nor a floor outside it: 745.227(e)(8)(v)(A) */
    says("A1  kitchen  not verified");
    run("$MISTFOLD dust add J --area A1 --surface floor --outside 3 --result 3.2 " SAMPLE);
    run("$MISTFOLD verification list J");
    says("A1  kitchen  CLEARED by dust samples");
    says("no cloth needed: dust samples");
    says_not("not verified");
    says_not("to be wiped");
    run("$MISTFOLD verification list J --lang es");
    says("APROBADA por muestras de polvo");
    run("$MISTFOLD dust add J --area A1 --surface sill --result 40 " SAMPLE);
    run("$MISTFOLD verification list J");
    says("A1  kitchen  not verified");
    says_not("CLEARED");
}

#define AGAIN(outside)                                                                             \
    "    do: mistfold dust add J --area A1 --place kitchen --surface ... --sampler ... "           \
    "--laboratory ... --nllap ... --required ... --result ... --on ... --time ..." outside "\n"

/* 745.227(e)(8)(iv): what was sampled before the last cleaning, too soon after it, or before the
 * last work is sampled again, and a floor outside the area outside it. A true time is no mistake.
 */
static void what_came_too_early_is_sampled_again(void **state)
{
    (void)state;
    run("cp b.book early.book; $MISTFOLD --book early.book cleaning tick J --area A1 --step mop "
        "--state done --person lea --renovator lea --on 2026-09-15 --time 13:00; "
        "$MISTFOLD --book early.book gate J signs");
    says("before its area was last cleaned");
    says(AGAIN(""));
    says(AGAIN(" --outside ..."));
    says_not("--set time=");
    run("cp b.book early.book; $MISTFOLD --book early.book cleaning tick J --area A1 --step mop "
        "--state done --person lea --renovator lea --on 2026-09-15 --time 11:30; "
        "$MISTFOLD --book early.book gate J signs");
    says("was sampled 30 minutes after");
    says("next: Sample it again, 60 minutes or more after the final cleaning ended.");
    says(AGAIN(""));
    says_not("--set time=");
    run("cp b.book early.book; $MISTFOLD --book early.book practice add J --area A1 --method hand "
        "--person lea --on 2026-09-16 --began 09:00 --time 10:00; "
        "$MISTFOLD --book early.book gate J signs");
    says("next: Clean after the work, and sample it again.");
    says(AGAIN(""));
    says(AGAIN(" --outside ..."));
    says_not("--set required=");
}

/* 745.85(b), 745.90(b)(1): what somebody without a certificate wiped is not verified, however
 * light the cloths are; a floor that is mopped again is to be looked at again. */
static void cloths_alone_verify_nothing(void **state)
{
    (void)state;
    run("$MISTFOLD area add J --id A2 --side interior --place hall --length 4 --width 4;" WORKED(
        "A2") "$MISTFOLD surface add J --id f2 --area A2 --kind floor --place hall --size 16;"
              "$MISTFOLD surface add J --id s2 --area A2 --kind sill --place hall --size 1;"
              "$MISTFOLD verification log J --area A2 --event look-clean --person rosa --on "
              "2026-09-15 "
              "  --time 10:00;"
              "$MISTFOLD verification log J --area A2 --surface s2 --section 1 --event wet-match "
              "  --cloth new --person rosa --on 2026-09-15 --time 10:10;"
              "$MISTFOLD verification log J --area A2 --surface f2 --section 1 --event wet-match "
              "  --cloth new --person rosa --on 2026-09-15 --time 10:20");
    run("$MISTFOLD verification list J");
    says("A2  hall  not verified");
    says("s2                      clean");
    says("rosa\n  did part of it on 2026-09-15 and was not a certified renovator that day.");
    run("$MISTFOLD certificate add --holder rosa --discipline renovator --number R-1 --issuer X "
        "--issued 2024-03-04 --expires 2029-03-04 --hands-on yes; $MISTFOLD verification list J");
    says("A2  hall  VERIFIED");
    run("$MISTFOLD cleaning tick J --area A2 --step mop --state done --person rosa --on 2026-09-15 "
        "--time 12:00; $MISTFOLD verification list J");
    says("A2  hall  not verified");
    says("was found clean on\n  2026-09-15, before the last cleaning of 2026-09-15.");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(samples_clear_it),
                                       cmocka_unit_test(what_came_too_early_is_sampled_again),
                                       cmocka_unit_test(cloths_alone_verify_nothing)};
    return cmocka_run_group_tests(tests, start, shell_stop);
}
