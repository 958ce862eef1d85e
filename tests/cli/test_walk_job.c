/* job walk: what follows from what is known is offered, a small honest job is short, nothing
 * that was answered is lost, and nothing becomes a yes that nobody said. */
#include "support/cmocka_all.h"
#include "support/walk_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Two windows of one room, one outside side, an owner who lives there; the keys of the person.
 * The day of the start is a week ahead, that of the signature Enter alone: today. */
#define SMALL_JOB                                                                                  \
    "5_Sample_Road <enter> 1950 <enter> 1 y n US-IA <enter> 1 $(date -d +7days +%F) <enter> en "   \
    "<enter> Ida_Sample <enter> kitchen <enter> north <enter> 2 <enter> f n 12x10 <enter> n y y "  \
    "n n "                                                                                         \
    "14x9 <enter> 1 <enter> <enter> 2.5x0.5 <enter> <enter> 1 <enter> <enter> y q"

static void with_dates(const char *keys, const char *command)
{
    char line[1500];
    snprintf(line, sizeof line,
             "cp b.book s.book; python3 " MF_TESTS
             "/cli/drive.py \"%s\" $MISTFOLD --book s.book %s",
             keys, command);
    run_shell(&r, walk_folder, line);
    if (r.status != 0 || strstr(r.out, "TOO BIG") != NULL)
        fail_msg("%s%s", r.out, r.err);
}

static void small_says(const char *sql, const char *expected)
{
    char line[600];
    snprintf(line, sizeof line, "sqlite3 -readonly s.book \"%s\"", sql);
    run_shell(&r, walk_folder, line);
    assert_string_equal(r.out, expected);
}

/* At most 30 answers, q to leave among them, and then only steps of the crew are left. */
static void a_small_job_is_thirty_answers(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "$MISTFOLD firm add --name F --address A; $MISTFOLD certificate add --holder firm "
              "--discipline firm --number F-1 --issuer X --issued 2024-01-05 --expires 2099-01-05");
    with_dates(SMALL_JOB, "job walk");
    const char *count = strstr(r.out, " answers ");
    assert_non_null(count);
    assert_true(strtol(count + strlen(" answers "), NULL, 10) <= 30);
    small_says("SELECT kind, count(*) FROM entry WHERE job = 'J-t-1' GROUP BY kind ORDER BY kind",
               "area|2\nassignment|1\ncomponent|18\nhouse|1\nnotice|1\nopening|2\nparty|1\n"
               "surface|3\n");
    run_shell(&r, walk_folder,
              "$MISTFOLD --book s.book --json gate J-t-1 demo --on $(date -d +7days +%F) |"
              " python3 " MF_TESTS "/cli/left_over.py");
    assert_string_equal(r.out, "");
    small_says("SELECT id, size_sqft_100 FROM surface WHERE job = 'J-t-1'",
               "W01-sill|125\nW02-sill|125\nA1-floor|12000\n");
    small_says("SELECT openings, length_ft_100, width_ft_100, objects, carpet FROM area WHERE job "
               "= 'J-t-1'",
               "W01,W02|1200|1000|0|0\nW01,W02|1400|900||\n");
    small_says("SELECT day = signed_on, signer, states_receipt, unit, language FROM notice",
               "1|Ida Sample|1|5 Sample Road|en\n");
}

/* The parts are listed and nothing is said of their paint. */
static void listed_is_not_tested(void **state)
{
    (void)state;
    with_dates(SMALL_JOB, "job walk");
    says("Listed is not tested: lead-based paint is presumed.");
    run_shell(&r, walk_folder,
              "$MISTFOLD --book s.book --quiet test list J-t-1 | grep -c presumed");
    assert_string_equal(r.out, "18\n");
    small_says(
        "SELECT count(*) FROM component WHERE painted IS NOT NULL OR affected IS NOT NULL OR "
        "refinished IS NOT NULL",
        "0\n");
}

/* Enter alone at every question that may be left: nothing is free, vacant, unpaid or without
 * children by that, and the answers of the rule are those of the unknown. */
static void enter_alone_says_nothing(void **state)
{
    (void)state;
    with_dates(
        "5_Sample_Road <enter> <enter> 1 y <enter> <enter> <enter> 1 2099-01-01 <enter> "
        "<enter> Ida <enter> kitchen <enter> north <enter> <enter> f <enter> 12x10 <enter> "
        "<enter> <enter> <enter> <enter> <enter> 14x9 <enter> <enter> <enter> 1 <enter> <enter> 1 "
        "<enter> <enter> <enter> <enter> <enter> <enter> q",
        "job walk");
    small_says("SELECT year_built IS NULL, for_compensation IS NULL, elder_or_disabled IS NULL, "
               "zero_bedroom IS NULL, child_under_6 IS NULL, assisted IS NULL, place IS NULL, "
               "language IS NULL FROM house WHERE job = 'J-t-1'",
               "1|1|1|1|1|1|1|1\n");
    small_says("SELECT count(*) FROM vacancy; SELECT objects IS NULL, ducts IS NULL, doors_used IS "
               "NULL, carpet IS NULL FROM area WHERE job = 'J-t-1' AND side = 'interior'",
               "0\n1|1|1|1\n");
    small_says("SELECT states_receipt IS NULL FROM notice", "1\n");
    run_shell(&r, walk_folder, "$MISTFOLD --book s.book gate J-t-1 rule");
    says("the year it was built is unknown");
}

/* What the paper lacks is told on the next screen. */
static void the_lacks_of_a_pamphlet_are_named_at_once(void **state)
{
    (void)state;
    run_shell(&r, walk_folder, "cp b.book n.book");
    run_shell(
        &r, walk_folder,
        "$MISTFOLD --book n.book party add J --id owner --role owner --name Ida;"
        "for p in sash stop; do $MISTFOLD --book n.book component add J --id W01.$p --opening "
        "W01 --type $p --side interior --substrate wood; done;"
        "$MISTFOLD --book n.book area add J --id A2 --side exterior --place north --openings "
        "W01 --length 9 --width 9");
    walk("<enter> 1 <ctrl-u> 2026-09-20 <enter> <enter> n n <enter> <enter> q",
         "--book n.book job walk --job J");
    says("Next: The pamphlet for: Ida");
    says("Kept: A pamphlet that somebody");
    says("came before");
}

/* A part that is not there is taken out by its number: the opening says so, with a reason. */
static void a_part_that_is_not_there(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 y n <enter> 1 2099-01-01 <enter> <enter> Ida "
               "<enter> kitchen <enter> north <enter> <enter> 6 4 4 f <esc> q",
               "job walk");
    says("6 [ ] apron");
    small_says("SELECT absent FROM opening WHERE job = 'J-t-1'", "apron\n");
    small_says("SELECT count(*) FROM component WHERE id = 'W01.apron'", "0\n");
    small_says("SELECT count(*) FROM component WHERE job = 'J-t-1'", "8\n");
    small_says("SELECT body ->> '$.reason' FROM entry WHERE kind = 'correction'",
               "looked at in the walk: these usual parts are not there\n");
}

/* What was said to be absent stands as it was said: with the side inside go its sill, apron and
 * casing, not the sash; and of another opening it says nothing. */
static void what_was_said_absent_stands(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book a.book; m=\"$MISTFOLD --book a.book\"; $m party add J --id owner --role "
              "owner --name Ida; $m component add J --id W01.sash --opening W01 --type sash --side "
              "interior --substrate wood; for a in W02:interior W03:stop; do $m opening add J --id "
              "${a%:*} --kind window --room hall --elevation south --absent ${a#*:}; done");
    walk("<enter> <enter> f n <esc> q", "--book a.book job walk --job J");
    says("1 [x] sash");
    says("5 [ ] interior sill");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly a.book \"SELECT id, absent FROM opening WHERE room = 'hall'; "
              "SELECT group_concat(substr(id, 5)) FROM component WHERE opening = 'W02'; SELECT "
              "count(*) FROM component WHERE opening = 'W03'\"");
    assert_string_equal(r.out, "W02|interior\nW03|stop\nsash,stop,jamb,trough,sill-out,casing-out\n"
                               "0\n");
}

/* Ctrl-C in the middle of a round: with enough for an entry it is one, with less the command
 * that goes on is told. */
static void ctrl_c_loses_nothing(void **state)
{
    (void)state;
    run_shell(&r, walk_folder, "cp b.book k.book");
    walk("3 A9 <enter> 1 pantry <enter> W01 <enter> 9x8 <enter> n <ctrl-c> <ctrl-c>",
         "--book k.book job walk --job J");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly k.book \"SELECT length_ft_100, width_ft_100, objects, ducts IS "
              "NULL FROM area WHERE id = 'A9'\"");
    assert_string_equal(r.out, "900|800|0|1\n");
    with_dates("2 W07 <enter> 1 Ida's_room <enter> <ctrl-c> <ctrl-c>", "job walk --job J");
    says("mistfold opening add J --id W07 --kind window --room 'Ida'\\''s room'\n");
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 n n US-IA <enter> 1 2099-01-01 <enter> en "
               "<enter> Ida <enter> n Ida <enter> <ctrl-c> <ctrl-c>",
               "job walk");
    says("mistfold party vacant J-t-1 --said-by Ida\n");
}

/* Taken back: the last by u, any other from the list; parts go as they came, together. */
static void taking_back(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 y n <enter> 1 2099-01-01 <enter> <enter> Ida "
               "<enter> kitchen <enter> north <enter> <enter> f <esc> u wrong_house <enter> l 2 "
               "<enter> u <esc> q",
               "job walk");
    says("What was logged, the last first");
    says("Kept: taken back:");
    small_says("SELECT count(*) FROM component WHERE job = 'J-t-1'; SELECT count(*) FROM opening "
               "WHERE job = 'J-t-1'; SELECT count(*) FROM party WHERE job = 'J-t-1'",
               "0\n1\n0\n");
    small_says("SELECT count(*), body ->> '$.reason' FROM entry WHERE kind = 'correction' GROUP BY "
               "2 ORDER BY 2",
               "1|logged by mistake\n9|wrong house\n");
}

/* The same in Spanish on a narrow, low screen: every screen fits (drive.py). */
static void narrow_and_in_spanish(void **state)
{
    (void)state;
    setenv("SIZE", "50x20", 1);
    with_dates("Calle_5 <enter> 1950 <enter> 1 s s s s s s s US-IA <enter> 1 2099-01-01 <enter> es "
               "<enter> Ida <enter> cocina <enter> norte <enter> 2 <enter> f n 12x10 <enter> n s s "
               "n 14x9 <enter> 1 <enter> <enter> 2.5x0.5 <enter> <enter> 1 <enter> <enter> s l + 0 "
               "q",
               "--lang es job walk");
    unsetenv("SIZE");
    says("Partes, ninguna probada: 18");
    says("¿Vive ahí un niño menor de 6 años");
    small_says("SELECT child_under_6, assisted FROM house WHERE job = 'J-t-1'", "1|1\n");
}

/* A house of after 1977 is asked for nothing that could free it (40 CFR 745.103). */
static void a_newer_house_is_asked_less(void **state)
{
    (void)state;
    with_dates(
        "5_Sample_Road <enter> 1978 <enter> 1 y <enter> 1 2099-01-01 <enter> <enter> <esc> q",
        "job walk");
    says_not("Nobody pays for the work");
    with_dates("5_Sample_Road <enter> 1977 <enter> 1 y <ctrl-c>", "job walk");
    says("Nobody pays for the work");
}

/* What followed from an answer that was taken back is not what Enter stands for. */
static void a_blanket_answer_is_taken_back(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 y n <esc> y <enter> <enter> <enter> <enter> "
               "<ctrl-c>",
               "job walk");
    says("--year-built 1950");
    says_not("--assisted no");
    says_not("--zero-bedroom no");
    says_not("--elder-or-disabled no");
}

/* Esc, and what is typed then is the answer; nothing is glued to the old one. */
static void another_answer_takes_the_place(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> <esc> 1979 <enter> <ctrl-c>", "job walk");
    says("--year-built 1979");
}

/* A state that nobody knows is asked for again, and kept as ISO 3166-2 has it. */
static void a_state_is_asked_back(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 y n iowa <enter> 1 2099-01-01 <enter> en "
               "<enter> us-ia <enter> <enter> <enter> <enter> <enter> <ctrl-c> q",
               "job walk");
    says("\"iowa\" is not a place that is known here");
    small_says("SELECT place FROM house WHERE job = 'J-t-1'", "US-IA\n");
}

/* An answer that was refused is none: Enter is not said to stand for it, whoever leaves then keeps
 * what else was answered, and whoever goes back finds there what was there before. */
static void a_refused_answer_is_none(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 2 <enter> n n <enter> 1 2099-01-01 <enter> "
               "2099-02-30 <enter> <ctrl-c>",
               "job walk");
    says("\"2099-02-30\" does not exist in the calendar");
    says_not("Enter alone: 2099-02-30");
    small_says("SELECT start, \"end\" FROM house WHERE job = 'J-t-1'", "2099-01-01|\n");
    with_dates("5_Sample_Road <enter> 1950 <enter> <esc> soon <enter> <esc> <enter> <ctrl-c>",
               "job walk");
    says("--year-built 1950");
}

/* A job is open at this address: it is named, and only a yes opens another one. */
static void another_job_at_an_address(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book n.book; $MISTFOLD --book n.book job open --id J-5 --address \"5 Sample "
              "Road, Town\" --building dwelling --owner-occupied yes --work repair --description d "
              "--start 2099-01-01");
    walk("5_Sample_Road <enter> 1950 <enter> 1 y n <enter> 1 2099-01-01 <enter> <enter> n 1 q q",
         "--book n.book job walk");
    says("J-5 is open at this address");
    says("No job was opened; the walk goes on in J-5");
    says("Somebody who must be told: owner, occupant\nJ-5 -----");
    says("mistfold job walk --job J-5");
    says("opens it:\n    mistfold job walk --address '5 Sample Road' --year-built 1950");
    walk("5_Sample_Road <enter> 1950 <enter> 1 y n <enter> 1 2099-01-01 <enter> <enter> y <ctrl-c> "
         "q",
         "--book n.book job walk");
    run_shell(&r, walk_folder, "sqlite3 -readonly n.book 'SELECT job FROM house ORDER BY job'");
    assert_string_equal(r.out, "J\nJ-5\nJ-t-1\n");
}

/* Neither Enter nor - answers for whoever does not know which job it is: the screen stays, and
 * who leaves it gets back what was typed. Nothing is logged in the one that is open. */
static void which_job_is_never_guessed(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book n.book; $MISTFOLD --book n.book job open --id J-5 --address \"5 Sample "
              "Road, Town\" --building dwelling --owner-occupied yes --work repair --description d "
              "--start 2099-01-01");
    walk("5_Sample_Road <enter> 1950 <enter> 1 y n <enter> 1 2099-01-01 <enter> <enter> <enter> - "
         "<enter> q",
         "--book n.book job walk");
    says("that key does nothing here");
    says("This goes on with it:\n    mistfold job walk --address '5 Sample Road'");
    says_not("job walk --job J-5");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly n.book 'SELECT count(*), (SELECT count(*) FROM "
              "entry WHERE job = \"J-5\") FROM house'");
    assert_string_equal(r.out, "2|1\n");
}

/* 40 CFR 745.103: nobody is asked on for a house that the rule does not cover. */
static void a_newer_house_is_told_to_be_outside(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1978 <enter> 1 y <enter> 1 2099-01-01 <enter> <enter> q",
               "job walk");
    says("Not under the rule: built in 1978 or later");
    says_not("Full name");
}

/* A day that cannot lie in the future is not offered as one. */
static void a_vacancy_begins_today(void **state)
{
    (void)state;
    with_dates("5_Sample_Road <enter> 1950 <enter> 1 n n <enter> 1 2099-01-01 <enter> <enter> Ida "
               "<enter> n Ida <enter> <enter> <ctrl-c> q",
               "job walk");
    small_says("SELECT day = date('now', 'localtime') FROM vacancy", "1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_job_is_thirty_answers),
        cmocka_unit_test(listed_is_not_tested),
        cmocka_unit_test(a_blanket_answer_is_taken_back),
        cmocka_unit_test(another_answer_takes_the_place),
        cmocka_unit_test(a_state_is_asked_back),
        cmocka_unit_test(a_refused_answer_is_none),
        cmocka_unit_test(another_job_at_an_address),
        cmocka_unit_test(which_job_is_never_guessed),
        cmocka_unit_test(a_newer_house_is_told_to_be_outside),
        cmocka_unit_test(a_vacancy_begins_today),
        cmocka_unit_test(enter_alone_says_nothing),
        cmocka_unit_test(the_lacks_of_a_pamphlet_are_named_at_once),
        cmocka_unit_test(a_part_that_is_not_there),
        cmocka_unit_test(what_was_said_absent_stands),
        cmocka_unit_test(ctrl_c_loses_nothing),
        cmocka_unit_test(taking_back),
        cmocka_unit_test(narrow_and_in_spanish),
        cmocka_unit_test(a_newer_house_is_asked_less),
    };
    return cmocka_run_group_tests(tests, walk_start, walk_stop);
}
