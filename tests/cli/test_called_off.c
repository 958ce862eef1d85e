/* The owner cancels after the pamphlet was handed over: what the office sees of the job from then
 * on, until somebody says that the work is done after all. Constructed. */
#include "support/shell_kit.h"

static int opened(void **state)
{
    if (shell_office(state) != 0)
        return r.status;
    run("set -e; $MISTFOLD job open --id K-1 --address '1 Elm' --year-built 1940 --building "
        "dwelling "
        "--owner-occupied yes --work repair --description d --start 2026-11-02 >/dev/null; "
        "H=$($MISTFOLD entry list K-1 --quiet | cut -d' ' -f1); "
        "$MISTFOLD entry correct $H --set called-off=2026-10-30 --reason 'the owner canceled' "
        ">/dev/null; echo $H > h");
    return r.status;
}

static void nothing_is_due(void **state)
{
    (void)state;
    run("for i in 1 2; do $MISTFOLD due --quiet; $MISTFOLD job list --state called-off --quiet; "
        "$MISTFOLD --lang es job list --state cancelado --quiet; done");
    says_not("K-1           office");
    assert_string_equal(strstr(r.out, "K-1"), /* also where the book has noted that it is settled */
                        strstr(r.out, "K-1             2026-11-02  called-off: before any work   "
                                      "1 Elm\n"));
    says("K-1             2026-11-02  cancelado: antes de trabajar  1 Elm\n");
    run("$MISTFOLD due --quiet >/dev/null; $MISTFOLD job list --state called-off --json --quiet; "
        "$MISTFOLD job list --state outside --quiet; $MISTFOLD job list --state preparing --quiet");
    says("\"state\": \"called-off\"");
    run("$MISTFOLD job list --state preparing --quiet");
    says_not("K-1");
    run("$MISTFOLD due --on 2026-10-29 --quiet");
    says("K-1");
    run("$MISTFOLD job show K-1 --quiet");
    says("called-off");
    says_not("hand over ");
}

static void everybody_is_told(void **state)
{
    (void)state;
    run("$MISTFOLD gate K-1 demo --quiet");
    answers(1, "The job was called off on 2026-10-30, before any work: nothing may be torn");
    run("for q in signs handover inspection; do $MISTFOLD gate K-1 $q --quiet; done");
    answers(1, "It was called off on 2026-10-30, before any work: nothing was disturbed,");
    says_not("tick");
    says("not at this time: 1, lacking: 0, ");
    run("$MISTFOLD job bundle --since 2026-11-01 --until 2026-11-30 --out visit --quiet "
        ">/dev/null; "
        "grep -c 'NO. Called off before any work' visit/index.txt");
    assert_string_equal(r.out, "4\n");
    run("$MISTFOLD export --format ics --quiet | grep -c K-1");
    assert_string_equal(r.out, "0\n");
    run("for p in record summary; do $MISTFOLD paper $p K-1 --out $p.pdf --quiet >/dev/null; "
        "pdftotext -layout $p.pdf - | grep -c 'Called off on'; done");
    assert_string_equal(r.out, "1\n2\n"); /* beside the days, and as what was done */
    run("for k in acknowledgement self-certification containment training; do $MISTFOLD paper "
        "blank $k --job K-1 --out $k.pdf --quiet >/dev/null; pdftotext -layout $k.pdf $k.txt; "
        "grep -c 'Called off on 2026-10-30, before any work' $k.txt; done; "
        "cat acknowledgement.txt self-certification.txt | grep -c 2026-11-02");
    assert_string_equal(r.out, "1\n1\n2\n1\n0\n");
    run("$MISTFOLD paper blank sign --job K-1 --out sign.pdf --quiet >/dev/null; "
        "pdftotext -layout sign.pdf -");
    says("Called off on 2026-10-30, before any work.");
    says("Not to be put up: no sign is due.");
    says_not("KEEP OUT");
}

/* The work in one room alone is called off: its papers and lists say so, and nothing is open. */
static void one_room_is_given_up(void **state)
{
    (void)state;
    run("set -e; $MISTFOLD job open --id K-2 --address '2 Oak' --year-built 1940 --building "
        "dwelling --owner-occupied yes --work repair --description d --start 2026-11-02 --quiet; "
        "$MISTFOLD area add K-2 --id A1 --side interior --place hall --length 9 --width 4 --quiet; "
        "$MISTFOLD area add K-2 --id A3 --side interior --place den --length 9 --width 9 "
        "--called-off 2026-10-30 --quiet; "
        "for k in sign containment verification crew-plan; do $MISTFOLD paper blank $k --job K-2 "
        "--area A3 --out $k.pdf --quiet >/dev/null; pdftotext -layout $k.pdf $k.txt; "
        "tr -s ' \n' ' ' <$k.txt | grep -o 'A3, den: the work here was called off on 2026-10-30'; "
        "done; grep -c 'KEEP OUT' sign.txt || true; $MISTFOLD paper blank sign --job K-2 --area A3 "
        "--lang es --out es.pdf --quiet >/dev/null; pdftotext -layout es.pdf - | grep coloca");
    says("A3, den: the work here was called off on 2026-10-30\n"
         "A3, den: the work here was called off on 2026-10-30\n"
         "A3, den: the work here was called off on 2026-10-30\n"
         "A3, den: the work here was called off on 2026-10-30\n0\n");
    says("No se coloca: no hace falta letrero.");
    run("$MISTFOLD paper blank crew-plan --job K-2 --out plan.pdf --quiet >/dev/null; "
        "pdftotext -layout plan.pdf - | grep -c 'A3, den: the work here was called off'");
    assert_string_equal(r.out, "1\n");
    run("$MISTFOLD containment list K-2 --area A3 --quiet; $MISTFOLD containment list K-2 --area "
        "A3 --json --quiet");
    says("The work here was called off before it began: no paint is disturbed, and no");
    says("[]");
    says_not("[ ]");
    run("$MISTFOLD containment tick K-2 --area A3 --step isolate --state done --person rosa --on "
        "2026-11-01 --time 08:00 --quiet >/dev/null; $MISTFOLD containment list K-2 --area A3 "
        "--quiet; $MISTFOLD paper record K-2 --out rec.pdf --quiet >/dev/null; "
        "pdftotext -layout rec.pdf rec.txt; grep -c '^ *A3: Step' rec.txt; "
        "sed -n '/^ *A3: Step/,$p' rec.txt | sed '/^ *8 /,$d' | grep -c ' open ' || true");
    says("[x] isolate");
    says_not("[ ]");
    says("\n1\n0\n");
}

/* What hangs there is to come down, and nothing else is due. */
static void containment_comes_down(void **state)
{
    (void)state;
    run("set -e; $MISTFOLD area add K-1 --id A1 --side interior --place hall --length 9 --width 4 "
        "--quiet >/dev/null; "
        "$MISTFOLD containment tick K-1 --area A1 --step isolate --state done --person rosa "
        "--on 2026-11-01 --time 08:00 --quiet >/dev/null; $MISTFOLD due --quiet; "
        "$MISTFOLD gate K-1 inspection --quiet || true");
    says("called off, and containment still");
    says("not at this time: 1, lacking: 0, ");
    says("take it down and tick its steps undone");
    run("set -e; $MISTFOLD paper summary K-1 --out sum.pdf --quiet >/dev/null; "
        "pdftotext -layout sum.pdf - | tr -s ' \n' ' '");
    says("Called off on October 30, 2026, before any work.");
    says("no work was done");
    says_not("does not show");
    says_not("Keep out");
    run("$MISTFOLD containment tick K-1 --area A1 --step isolate --state undone --person rosa "
        "--on 2026-11-01 --time 09:00 --reason 'taken down' --quiet >/dev/null; "
        "$MISTFOLD due --quiet");
    says_not("K-1");
}

static void until_it_is_done_after_all(void **state)
{
    (void)state;
    run("$MISTFOLD due --quiet >/dev/null; $MISTFOLD entry correct $(cat h) --set called-off= "
        "--reason 'done after all' --quiet; $MISTFOLD due --quiet; "
        "$MISTFOLD job list --state preparing --quiet");
    says("LATE   2026-11-02  K-1 ");
    says("K-1             2026-11-02  preparing");
    run("$MISTFOLD gate K-1 demo --quiet | grep -c 'called off'");
    assert_string_equal(r.out, "0\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_due),
        cmocka_unit_test(everybody_is_told),
        cmocka_unit_test(containment_comes_down),
        cmocka_unit_test(one_room_is_given_up),
        cmocka_unit_test(until_it_is_done_after_all), /* the last: it ends the state */
    };
    return cmocka_run_group_tests(tests, opened, shell_stop);
}
