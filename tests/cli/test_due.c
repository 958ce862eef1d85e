/* What is due of a job that was said to be completed and handed over, and is not clean; and of
 * one that is clean and not said to be completed. The sample job with one thing changed in each;
 * all is invented. 40 CFR 745.85(a)(1), (b): the signs stay until the area is verified. */
#include "support/shell_kit.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

static int start(void **state)
{
    int status = shell_demo(state);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    return status;
}

/* The entry of the verification that holds these words, taken back. */
#define TAKE_BACK(kind, words)                                                                     \
    "for e in $($MISTFOLD export J-1926 --format csv --kind " kind " | grep -e '" words            \
    "' | cut -d, -f1); do $MISTFOLD entry withdraw $e --reason 'it was not so' > /dev/null; "      \
    "done; "

#define DUST                                                                                       \
    "$MISTFOLD dust add J-1926 --area A1 --place kitchen --surface floor --sampler ines "          \
    "--laboratory L --nllap yes --required yes --on 2026-09-17 --result 12 > /dev/null; "

/* The lines run on, as they were folded. */
static void told(const char *change, const char *ask)
{
    char line[1600];
    snprintf(line, sizeof line,
             "rm -f b.book*; cp out/demo.book b.book; %s $MISTFOLD %s | tr -s ' \\n' ' '", change,
             ask);
    run(line);
}

/* Whoever asks what is due learns who must act, that the signs stay, and what comes first. */
static void completed_but_not_clean(void **state)
{
    static const struct {
        const char *change, *then;
    } cases[] = {
        {TAKE_BACK("verification", "floor,1"), "Section 1 of 3 of floor"},
        {"$MISTFOLD verification log J-1926 --area A2 --event look-dirty --person rosa --on "
         "2026-09-16 --time 15:00 > /dev/null;",
         "Clean what is seen, have a certified renovator look again"},
        {DUST, "sample the same place again"},
        {"$MISTFOLD practice add J-1926 --area A1 --method hand --person teo --on 2026-09-17 > "
         "/dev/null;",
         "Work went on in A1 on 2026-09-17"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        told(cases[i].change, "due --on 2026-11-01");
        says("LATE 2026-09-16 J-1926 rosa said to be completed, but not shown clean: keep the "
             "signs up");
        says(cases[i].then);
        says_not("Nothing is due");
        told(cases[i].change, "job list");
        says("unverified: not shown clean");
        says_not("handed over");
        told(cases[i].change, "job list --state unverified");
        says("J-1926");
        told(cases[i].change, "gate J-1926 signs --on 2026-11-01");
        says("NO");
    }
    told(cases[2].change, "due --on 2026-11-01 --lang es");
    says("se dijo terminado, pero no se mostró limpio: deje puestos los letreros");
    told(cases[2].change, "due --on 2026-11-01 --json");
    says("\"what\": \"unverified\"");
    says("\"subject\": \"dust-level\"");
    says("\"then\": \"kitchen");
    says("\"who\": \"rosa\"");
}

/* Its containment came down, as it should: that takes nothing back. */
static void clean_but_not_completed(void **state)
{
    static const char change[] = TAKE_BACK("completion", "2026-09-16") TAKE_BACK("invoice", "2026")
        TAKE_BACK("handover", "2026") TAKE_BACK("certification", "2026");
    (void)state;
    told(change, "job list");
    says("verified clean");
    told(change, "due --on 2026-11-01");
    says("say that the job is completed");
    says_not("before demo starts");
    told(change, "job show J-1926");
    says("next: mistfold job complete J-1926 --on ...");
}

/* 745.86(c)(1): what came late lacks for good, and nobody can do anything about it any more. */
static void handed_over_late(void **state)
{
    static const char each[] = "for e in $($MISTFOLD export J-1926 --format csv --kind handover | "
                               "grep 2026 | cut -d, -f1); do $MISTFOLD entry ";
    char late[600], never[600];
    (void)state;
    snprintf(late, sizeof late,
             "%s correct $e --set on=2026-10-30 --reason seen > /dev/null; done; ", each);
    snprintf(never, sizeof never, "%s withdraw $e --reason 'it was not so' > /dev/null; done; ",
             each);
    told(late, "gate J-1926 handover --on 2026-11-01");
    says("NO");
    says("stays late");
    told(late, "due --on 2026-11-01");
    says("Nothing is due.");
    told(late, "job list --state late; $MISTFOLD "
               "--lang es job list --state tarde");
    says("late: handed over too late");
    says("tarde: entregado tarde");
    told(late, "job list --state completed");
    says_not("J-1926 2026");
    told(late, "job show J-1926");
    says("late: handed over too late");
    says("next: mistfold job bundle J-1926");
    told(never, "due --on 2026-11-01");
    says("records to owner and occupants");
}

/* Begun without the owner's paper: it is owed all the more. */
static void paper_lacks_at_work(void **state)
{
    static const char change[] =
        TAKE_BACK("completion", "2026-09-16") TAKE_BACK("notice", "owner") //
        TAKE_BACK("verification", "A1");
    (void)state;
    told(change, "job list");
    says("working");
    told(change, "due --on 2026-09-17");
    says("before demo starts: papers and people");
    says("cleaning and verification before the signs come down");
}

/* A name that is only mistyped must not read as nothing due. */
static void who_is_somebody(void **state)
{
    (void)state;
    told("", "due --who nobody 2>&1 >/dev/null");
    says("--who: there is no person nobody; \"person list\" shows everybody; office and firm act, "
         "too");
    run("$MISTFOLD due --who nobody");
    refuses(3, "there is no person nobody");
    run("$MISTFOLD due --who rosq");
    refuses(3, "there is no person rosq; did you mean rosa?");
    run("$MISTFOLD due --who office -q");
    answers(0, "Nothing is due. What a job's file still lacks: mistfold gate JOB inspection\n");
    run("$MISTFOLD due --who office -q --lang es");
    answers(
        0, "No hay nada pendiente. Lo que aún falta en un trabajo: mistfold gate JOB inspection\n");
    run("$MISTFOLD due --who firm --on 2028-02-03 -q");
    answers(0, "next   2028-05-02  -             firm      certificate runs out: F-0001");
    run("$MISTFOLD due --who ro -q 2>/dev/null");
    answers(0, "Nothing is due.");
}

/* The sample's firm and Rosa to 2028, Inés to 2027-05-20; each side of each day. */
static void the_firms_certificates(void **state)
{
    (void)state;
    told("", "certificate check --on 2027-02-18 --quiet");
    says("ok firm, firm F-0001: holds through 2028-05-02 ok rosa, renovator R-0417: holds through "
         "2028-03-06 ok ines, inspector I-0093: holds through 2027-05-20");
    run("$MISTFOLD certificate check --on 2027-02-18");
    assert_int_equal(r.status, 0);
    run("$MISTFOLD certificate check --on 2027-02-19");
    answers(
        0,
        "!   ines, inspector I-0093: runs out soon, holds through 2027-05-20 (days\n    left: 90)");
    run("$MISTFOLD certificate check --on 2027-05-20");
    answers(0, "left: 0)");
    run("$MISTFOLD certificate check --on 2027-05-21");
    answers(1, "NO  ines, inspector I-0093: is over, it held through 2027-05-20");
    run("$MISTFOLD certificate check --on 2028-05-03 --lang es");
    answers(1, "NO  la empresa: ningún certificado de la empresa vale ese día");
    says("NO  nadie: ningún certificado de renovador vale ese día");
    run("$MISTFOLD certificate check --on 2023-05-01 | tr -s ' \\n' ' '"); /* logged, not in force
                                                                            */
    says("NO the firm: no certificate of the firm holds on that day");
    says("next: mistfold certificate add --holder firm --discipline firm --number ...");
    run("$MISTFOLD certificate check --on 2027-05-21 | tr -s ' \\n' ' '");
    says("next: mistfold certificate add --holder ines --discipline inspector --number ...");
}

/* 745.89(b)(1)(i): a renewal postmarked 90 days before the last day holds the certificate until the
 * agency decides. That is said, with both days; one postmarked a day later holds nothing. */
static void a_renewal_under_way(void **state)
{
    static const char open[] =
        "rm -f n.book*; export MISTFOLD_BOOK=n.book; $MISTFOLD book new --no-key > log;"
        "$MISTFOLD person add --id rosa --name R >> log; $MISTFOLD certificate add --holder rosa "
        "--discipline renovator --number R --issuer A --issued 2024-01-02 --expires 2029-01-01 "
        "--hands-on yes >> log; $MISTFOLD certificate add --holder firm --discipline firm --number "
        "F1 "
        "--issuer A --issued 2022-01-31 --expires 2026-12-31 --renewal-sent 2026-10-%s >> log;"
        "$MISTFOLD %s certificate check --on %s | tr -s ' \\n' ' '";
    (void)state;
    char text[900];
    snprintf(text, sizeof text, open, "02", "", "2026-12-31");
    run(text);
    says("ok firm, firm F1: holds through 2026-12-31; after that day by its renewal alone, until "
         "the "
         "agency decides (40 CFR 745.89(b)(1)(i)); postmarked 2026-10-02");
    snprintf(text, sizeof text, open, "02", "", "2027-01-05");
    run(text);
    says("! firm, firm F1: holds through 2026-12-31; after that day by its renewal alone");
    snprintf(text, sizeof text, open, "02", "--json", "2027-01-05");
    run(text);
    says("\"until\": null, \"expires\": \"2026-12-31\", \"renewal_sent\": \"2026-10-02\", "
         "\"amend_by\": null, \"if_hands_on\": null, \"presumed\": false, \"state\": \"renewing\"");
    snprintf(text, sizeof text, open, "03", "", "2027-01-05");
    run(text);
    says("NO firm, firm F1: is over, it held through 2026-12-31");
}

/* 745.90(a)(4): three years until somebody says that the course had a hands-on part. */
static void a_course_of_which_nobody_said(void **state)
{
    (void)state;
    run("rm -f ho.book*; m=\"$MISTFOLD --quiet --book ho.book\"; export MISTFOLD_BY=rosa; $m book "
        "new "
        "--device t; $m person add --id rosa --name 'Rosa Muestra'; $m certificate add --holder "
        "rosa "
        "--discipline renovator --number R --issuer A --issued 2023-01-31 --expires 2028-01-31");
    told("", "--book ho.book certificate check --on 2026-01-31 --quiet");
    says("! rosa, renovator R: runs out soon, holds through 2026-01-31 (days left: 0) nobody said "
         "whether its course had a hands-on part");
    says("and it holds through 2028-01-31");
    told("", "--book ho.book certificate check --on 2026-02-01 --quiet");
    says("NO rosa, renovator R: is over, it held through 2026-01-31 nobody said");
    run("$MISTFOLD --quiet --book ho.book entry correct t/3 --set hands-on=yes --reason seen");
    told("", "--book ho.book certificate check --on 2026-02-01 --quiet");
    says("ok rosa, renovator R: holds through 2028-01-31");
    says_not("nobody said");
}

/* The day as printed is told as printed, the last on which it holds as judged, the same everywhere,
 * and that it is presumed. */
static void one_day_everywhere(void **state)
{
    (void)state;
    run("rm -f od.book*; m=\"$MISTFOLD --quiet --book od.book\"; export MISTFOLD_BY=rosa; $m book "
        "new --device t; $m person add --id rosa --name 'Rosa Muestra'; $m certificate add "
        "--holder "
        "rosa --discipline renovator --number R1 --issuer A --issued 2024-01-15 --expires "
        "2029-01-15");
    told("", "--book od.book certificate check --json --on 2026-12-01 --quiet");
    says("\"until\": \"2027-01-15\", \"expires\": \"2029-01-15\"");
    says("\"if_hands_on\": \"2029-01-15\", \"presumed\": true");
    told("", "--book od.book due --on 2026-12-01 --quiet");
    says(
        "next 2027-01-15 - rosa certificate runs out: R1; that is presumed, as nobody said whether "
        "its course had a hands-on part");
    told("", "--book od.book export --format ics --on 2026-12-01 --quiet");
    says("DTSTART;VALUE=DATE:20270115");
    says("that is presumed");
    run("sqlite3 od.book \"SELECT day, who FROM due WHERE what='certificate' ORDER BY day\"");
    says("2027-01-15|rosa");
    run("$MISTFOLD --quiet --book od.book entry correct t/3 --set hands-on=yes --reason seen; "
        "sqlite3 "
        "od.book \"SELECT day, who FROM due WHERE what='certificate' ORDER BY day\"");
    says("2029-01-15|rosa");
}

/* A course that serves for nothing never held: its printed day is told as printed, it is not over
 * later on, and it does not run out. 745.90(a)(4). */
static void what_never_held_does_not_end(void **state)
{
    (void)state;
    run("rm -f nh.book*; m=\"$MISTFOLD --quiet --book nh.book\"; export MISTFOLD_BY=rosa; $m book "
        "new --device t; $m person add --id rosa --name 'Rosa Muestra'; c() { $m certificate add "
        "--holder rosa --discipline renovator --issuer A \"$@\"; }; c --hands-on yes --number O0 "
        "--issued 2015-06-01 --expires 2020-06-01; c --hands-on no --number O1 --issued 2020-03-06 "
        "--expires 2023-03-06; c --hands-on no --number O2 --issued 2023-03-01 --expires "
        "2028-03-01");
    static const char *const days[] = {"2025-03-07", "2026-03-07", "2028-03-02"};
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        char line[120];
        snprintf(line, sizeof line, "--book nh.book certificate check --on %s --quiet", days[i]);
        told("", line);
        says("NO rosa, renovator O2: serves for nothing");
        says("printed through 2028-03-01");
    }
    told("", "--book nh.book certificate check --json --on 2025-03-07 --quiet");
    says("\"number\": \"O2\", \"until\": null, \"expires\": \"2028-03-01\"");
    told("", "--book nh.book due --on 2026-01-20 --quiet");
    says_not("O2");
    told("", "--book nh.book export --format ics --on 2026-01-20 --quiet");
    says_not("O2");
    run("sqlite3 nh.book \"SELECT day, entry FROM due WHERE what='certificate'\"");
    says("2023-03-06|t/4");
    says_not("t/5");
}

/* 745.90(a)(4): a course without a hands-on part after one of which nobody said it serves for
 * nothing until somebody says it of that one. */
static void a_course_after_one_of_which_nobody_said(void **state)
{
    (void)state;
    run("rm -f hu.book*; m=\"$MISTFOLD --quiet --book hu.book\"; export MISTFOLD_BY=rosa; $m book "
        "new --device t; $m person add --id rosa --name 'Rosa Muestra'; c() { $m certificate add "
        "--holder rosa --discipline renovator --issuer A \"$@\"; }; c --number R1 --issued "
        "2023-03-06 --expires 2028-03-06; c --number R2 --issued 2026-02-01 --expires 2031-02-01 "
        "--hands-on no");
    told("", "--book hu.book certificate check --on 2026-03-07");
    says("NO rosa, renovator R2: serves for nothing");
    says("that is presumed, as nobody said whether this course had a hands-on part (40 CFR "
         "745.90(a)(4)); if it had one, say --set hands-on=yes in its entry: R1");
    run("$MISTFOLD --quiet --book hu.book entry correct t/3 --set hands-on=yes --reason seen");
    told("", "--book hu.book certificate check --on 2026-03-07 --quiet");
    says("ok rosa, renovator R2: holds through 2029-02-01");
}

/* 745.89(c): a change of 2026-08-30; day 90 is 2026-11-28. */
static void an_amendment_has_its_day(void **state)
{
    (void)state;
    run("rm -f am.book*; m=\"$MISTFOLD --quiet --book am.book\"; export MISTFOLD_BY=rosa; $m book "
        "new "
        "--device t; $m person add --id rosa --name 'Rosa Muestra'; $m certificate add --holder "
        "rosa "
        "--discipline renovator --number R --issuer A --issued 2025-01-31 --expires 2030-01-31 "
        "--hands-on yes; $m certificate add --holder firm --discipline firm --number FX --issuer A "
        "--issued 2023-01-31 --expires 2028-01-31 --changed 2026-08-30");
    told("", "--book am.book certificate check --on 2026-11-28 --quiet");
    says("! firm, firm FX: what it says changed and is not amended yet; amend it, or no work (40 "
         "CFR "
         "745.89(c)) after 2026-11-28 (days left: 0)");
    told("", "--book am.book due --on 2026-11-28 --quiet");
    says("today 2026-11-28 - firm what the firm's certificate says changed; amend it, or no work "
         "after this day: FX");
    told("", "--book am.book due --on 2026-11-29 --quiet");
    says("LATE 2026-11-28");
    told("", "--book am.book due --on 2026-08-29 --quiet");
    says("Nothing is due.");
    told("", "--book am.book export --format ics --on 2026-11-01 --quiet");
    says("UID:firm.amend.t/4@mistfold.invalid");
    told("", "--book am.book certificate check --on 2026-11-29 --quiet");
    says("NO firm, firm FX: what it says changed and was not amended in time");
    told("", "--book am.book certificate check --on 2026-11-29"); /* a new one would not mend it */
    says("next: mistfold entry correct t/4 --set amended=... --reason ...");
    says_not("corrected");
    run("$MISTFOLD --quiet --book am.book entry correct t/4 --set changed=2026-11-01 --reason "
        "'moved again'"); /* which hides that it was late: told */
    told("", "--book am.book certificate check --on 2026-11-29 --quiet");
    says("An entry was corrected by rosa: certificate t/4, changed 2026-08-30 -> 2026-11-01 (moved "
         "again). Whoever relies on it should know why.");
}

/* A later one takes its place, unless it counts elsewhere or serves for nothing: a second course
 * without a hands-on part, 745.90(a)(4). The first one refreshes what the full course gave. */
static void a_later_certificate_replaces(void **state)
{
    static const struct {
        const char *rest;
        bool replaces;
    } cases[] = {
        {"--issued 2026-05-05 --expires 2031-05-05 --hands-on yes", true},
        {"--issued 2026-05-05 --expires 2031-05-05 --hands-on yes --programs US-WI", false},
        {"--issued 2024-09-05 --expires 2027-09-05 --hands-on no", false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char line[900];
        snprintf(line, sizeof line,
                 "rm -f b.book*; cp out/demo.book b.book; t() { $MISTFOLD certificate add --holder "
                 "teo --discipline renovator --issuer T \"$@\" > /dev/null; }; t --number T-0 "
                 "--issued 2019-01-12 --expires 2024-01-12 --hands-on yes && t --number T-1 "
                 "--issued 2024-01-10 --expires 2027-01-10 --hands-on no && t --number T-2 %s; "
                 "$MISTFOLD due --on 2026-12-01 --quiet; $MISTFOLD certificate check --on "
                 "2026-12-01 --quiet",
                 cases[i].rest);
        run(line);
        if ((strstr(r.out, "certificate runs out: T-1") == NULL) != cases[i].replaces ||
            (strstr(r.out, "teo, renovator T-1") == NULL) != cases[i].replaces)
            fail_msg("%s:\n%s%s", cases[i].rest, r.out, r.err);
    }
    says("NO  teo, renovator T-2: serves for nothing"); /* of the last */
    run("$MISTFOLD certificate check --on 2026-12-01 | tr -s ' \\n' ' '");
    says("next: mistfold certificate add --holder teo --discipline renovator --hands-on yes");
}

/* The firm is certified by its own certificate, a renovator by that of a person: one that was
 * logged as held by the other is none, as a gate has it. */
static void held_by_the_other_is_none(void **state)
{
    (void)state;
    run("set -e; rm -f h.book*; m=\"$MISTFOLD --quiet --by rosa --book h.book\"; $m book new "
        "--no-key "
        "--device t; $m person add --id rosa --name 'Rosa Muestra'; add() { $m certificate add "
        "--issuer X --issued 2026-01-05 --expires 2031-01-05 \"$@\"; }; "
        "add --holder rosa --discipline firm --number F-1; "
        "add --holder firm --discipline renovator --number R-1 --hands-on yes");
    assert_int_equal(r.status, 0);
    run("$MISTFOLD --quiet --book h.book certificate check --on 2026-12-01");
    answers(1, "NO  the firm: no certificate of the firm holds on that day");
    says("NO  nobody: no certificate of a renovator holds on that day");
    says("NO  rosa, firm F-1: counts for nothing: the firm holds");
    says("NO  firm, renovator R-1: counts for nothing");
    run("$MISTFOLD --book h.book certificate check --on 2026-12-01 | tr -s ' \\n' ' '");
    says("next: mistfold entry withdraw t/2 --reason ..."); /* the same again counts for nothing */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(completed_but_not_clean),
        cmocka_unit_test(clean_but_not_completed),
        cmocka_unit_test(paper_lacks_at_work),
        cmocka_unit_test(who_is_somebody),
        cmocka_unit_test(the_firms_certificates),
        cmocka_unit_test(a_later_certificate_replaces),
        cmocka_unit_test(held_by_the_other_is_none),
        cmocka_unit_test(a_renewal_under_way),
        cmocka_unit_test(an_amendment_has_its_day),
        cmocka_unit_test(handed_over_late),
        cmocka_unit_test(a_course_of_which_nobody_said),
        cmocka_unit_test(a_course_after_one_of_which_nobody_said),
        cmocka_unit_test(one_day_everywhere),
        cmocka_unit_test(what_never_held_does_not_end),
    };
    return cmocka_run_group_tests(tests, start, shell_stop);
}
