/* What a walk does with an answer that cannot be taken, in both languages, and with more
 * than fits on a screen: nobody types anything twice. */
#include "support/cmocka_all.h"
#include "support/walk_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void prepare(const char *commands)
{
    run_shell(&r, walk_folder, commands);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

/* There is no W09: the walk goes back to that question, and Enter keeps the others. */
static void a_refused_answer_keeps_the_others(void **state)
{
    (void)state;
    walk("3 A9 <enter> 1 pantry <enter> W09 <enter> 10 <enter> 12 <enter> n n n n n "
         "<ctrl-u> W01 <enter> <enter> <enter> <enter> <enter> <enter> <enter> <enter> q",
         "job walk --job J");
    says("Not kept: There is no W09 here. Did you mean W01? There are: W01.");
    says("Enter alone: 12");
    says("Kept: A9: A work area");
    book_says("SELECT id, side, place, openings, length_ft_100, width_ft_100, objects, carpet "
              "FROM area WHERE id = 'A9'",
              "A9|interior|pantry|W01|1000|1200|0|0\n");
}

/* The job's id is taken: the walk asks for another and does not end. */
static void a_taken_id_is_asked_again(void **state)
{
    (void)state;
    walk("7_Sample_Court <enter> 1950 <enter> 1 y n <enter> 2 2099-10-01 <enter> <enter> "
         "J-7 <enter> <esc> q",
         "job walk --id J");
    says("Not kept: The id J is taken by entry");
    says("next: mistfold party add J-7");
    book_says("SELECT job, address, year_built, for_compensation, description FROM house "
              "WHERE job = 'J-7'",
              "J-7|7 Sample Court|1950|1|doors are replaced\n");
}

/* Escape goes back to what was answered; a key or a line replaces it, - unsays it. */
static void going_back_keeps_what_was_answered(void **state)
{
    (void)state;
    walk("2 W77 <enter> 1 hall <enter> <esc> <esc> 2 <enter> east <enter> <enter> q",
         "job walk --job J");
    book_says("SELECT kind, room, elevation FROM opening WHERE id = 'W77'", "door|hall|east\n");
    walk("3 A8 <enter> 1 attic <enter> <enter> 5 <enter> 5 <enter> y n <esc> <esc> - <enter> n n n "
         "q",
         "job walk --job J");
    says("Enter alone: yes | - not said");
    book_says("SELECT objects IS NULL, ducts, carpet FROM area WHERE id = 'A8'", "1|0|0\n");
}

/* s is "sí"; in English it skips in every list, and no question is answered yes by it. */
static void another_languages_key_is_no_answer(void **state)
{
    (void)state;
    walk("8_Sample_Court <enter> 1950 <enter> 1 s n s n <enter> 2 2099-10-01 <enter> <enter> <esc> "
         "q",
         "job walk --id J-8");
    book_says("SELECT owner_occupied, assisted, for_compensation FROM house WHERE job = 'J-8'",
              "0|0|1\n");
}

/* What is wrong is said in the language of the walk, with what was typed. */
static void refusals_in_spanish(void **state)
{
    (void)state;
    walk("2 1 s s s s s s d 5,5 <enter> q", "--lang es containment walk J --area A1");
    says("No se guardó: \"5,5\" lleva coma decimal; escriba un punto");
    walk("3 A7 <enter> 1 sala <enter> W09 <enter> diez <enter> <ctrl-u> 10 <enter> 10 <enter> n n "
         "n n <ctrl-c> q",
         "--lang es job walk --job J");
    says("\"diez\" no es un número; escriba cifras");
    says("Aquí no hay W09. ¿Quiso decir W01? Hay: W01");
    says("Adentro o afuera                   adentro");
    walk("5 pedro <enter> 1 <enter> <ctrl-c> q", "--lang es job walk --job J");
    says("Aquí no hay pedro. Hay: rosa, teo.");
    walk("Calle <enter> 1950 <enter> 1 s n <enter> 3 obra <enter> 2026-02-30 <enter> <ctrl-u> "
         "2099-10-01 <enter> <enter> <ctrl-c>",
         "--lang es job walk --id J");
    says("\"2026-02-30\" no existe en el calendario; escriba");
    says("El nombre corto J ya es del asiento");
    walk("Calle <enter> 1950 <enter> 2 <enter> n n <enter> 3 obra <enter> 2099-10-01 <enter> "
         "2099-09-30 <enter> <enter> <ctrl-u> 2099-10-03 <enter> <enter> <esc> q",
         "--lang es job walk --id J-9");
    says("2099-09-30 es antes de 2099-10-01, el primer día");
    book_says("SELECT start, \"end\" FROM house WHERE job = 'J-9'", "2099-10-01|2099-10-03\n");
}

/* A certificate that cannot be taken is asked for again; the book is made either way. */
static void the_first_hour_asks_again(void **state)
{
    (void)state;
    walk("rosa <enter> Rosa_Muestra <enter> <ctrl-c> F-1 <enter> Agencia <enter> 5_de_mayo <enter> "
         "<ctrl-u> 2024-01-02 <enter> 2099-01-02 <enter> <ctrl-c>",
         "--lang es --book erste.book --by '' book new --no-key");
    says("se hizo el libro erste.book, solo usted puede leerlo");
    says("\"5 de mayo\" no es una fecha; escríbala como 2026-09-14.");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly erste.book 'SELECT number, issued FROM certificate'");
    assert_string_equal(r.out, "F-1|2024-01-02\n");
}

/* Before the first question of a round there is nothing to go back to: Escape skips nothing. */
static void going_back_skips_nothing(void **state)
{
    (void)state;
    walk("rosa <enter> Rosa_Muestra <enter> Firm <enter> 1_Sample_St <enter> <enter> <esc> F-1 "
         "<enter> "
         "EPA <enter> 2024-01-02 <enter> 2099-01-02 <enter> <ctrl-c>",
         "--book escape.book --by '' book new --no-key");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly escape.book 'SELECT holder, number FROM certificate'");
    assert_string_equal(r.out, "firm|F-1\n");
}

/* Windows and doors in one job: one key says both, and of each opening the kind is asked. A state
 * is its two letters. */
static void windows_and_doors_in_one_job(void **state)
{
    (void)state;
    walk("9_Sample_Court <enter> 1950 <enter> 1 y n oh <enter> 6 2099-10-01 <enter> <enter> Ida "
         "<enter> W01 <enter> 1 hall <enter> north <enter> <enter> f y D01 <enter> 2 hall <enter> "
         "east <enter> <enter> f n <esc> q",
         "job walk --id J-19");
    says("Is there another window or door");
    book_says("SELECT place, work, description FROM house WHERE job = 'J-19'",
              "US-OH|window-replacement,door-replacement|windows and doors are replaced\n");
    book_says("SELECT id, kind FROM opening WHERE job = 'J-19' ORDER BY id",
              "D01|door\nW01|window\n");
}

/* Of "11 x 9ft" the second side is no number: it is told at that very question, with what was
 * typed. */
static void both_sides_are_checked_at_once(void **state)
{
    (void)state;
    walk(
        "3 A7 <enter> 1 attic <enter> <enter> 11_x_9ft <enter> <ctrl-u> 11_x_9.5 <enter> n n n n q",
        "job walk --job J");
    says("\"9ft\" is not a number");
    says("  > 11 x 9ft");
    book_says("SELECT length_ft_100, width_ft_100, objects FROM area WHERE id = 'A7'",
              "1100|950|0\n");
}

/* A place whose rule is stricter (constructed: 90 minutes, sections under 20 square feet):
 * the walk waits as long and asks for as many sections as its rows say. */
static void a_stricter_place_is_walked(void **state)
{
    (void)state;
    prepare(
        "set -e; m=\"$MISTFOLD --book p.book\"; cp b.book p.book; at() { date -d \"$1\" +%H:%M; };"
        "printf 'limit,value,place,citation,status\\ndry-wait,90,Exampleton,constructed,verified\\n"
        "section-part,20,Exampleton,constructed,verified\\n' > p.csv; $m limit import p.csv;"
        "e=$($m entry list J | awk '/house/ { print $1; exit }');"
        "$m entry correct $e --set place=Exampleton --reason 'the place was left out';"
        "log() { $m verification log J --area A1 --person rosa --on $(date -d \"$1\" +%F) "
        "  --time $(date -d \"$1\" +%H:%M) --event $2 $3; };"
        "log '-100 min' look-clean; log '-95 min' wet-darker '--surface W01-sill --cloth new';"
        "log '-90 min' recleaned '--surface W01-sill';"
        "log '-73 min' wet-darker '--surface W01-sill --cloth new';"
        "log '-65 min' seen-dry '--surface W01-sill'");
    walk("1 s q", "--book p.book verification walk J --area A1");
    says("floor 1/5"); /* 90 square feet in parts of less than 20 */
    says(" (1");       /* 17 minutes, or as many less as the machine took since */
    says_not("one new dry cloth");
}

/* A firm with many steps of its own walks all of them. */
static void all_own_steps_are_walked(void **state)
{
    (void)state;
    prepare("set -e; cp b.book s.book; { echo id,phase,side,text,from; i=1;"
            "while [ $i -le 60 ]; do echo own-$i,contain,both,Own step $i.,2026-01-01;"
            "i=$((i + 1)); done; } > s.csv; $MISTFOLD --book s.book step import s.csv");
    walk("2 1 b b b b s s s s s s s d q", "--book s.book containment walk J --area A1");
    says("Step 8/67, left: 67");
    says("Kept: Own step 1.");
    says("Step 9/67, left: 66");
}

/* A firm of twelve: the tenth is on the second page of the menu. */
static void a_menu_has_pages(void **state)
{
    (void)state;
    prepare("set -e; cp b.book m.book; for i in 01 02 03 04 05 06 07 08 09 10; do"
            " $MISTFOLD --book m.book person add --id w$i --name \"Worker $i\"; done");
    walk("+ 3 1 d q", "--book m.book cleaning walk J --area A1");
    says("+  more (1/2)");
    says("+  more (2/2)");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly m.book \"SELECT person FROM tick WHERE person LIKE 'w%'\"");
    assert_string_equal(r.out, "w10\n");
}

/* Several work areas: the walk asks which, by its id and place. */
static void an_area_is_chosen(void **state)
{
    (void)state;
    walk("2 2 1 d q", "cleaning walk J");
    says("Which work area?");
    says("  2  A9  pantry");
    book_says("SELECT area, person FROM tick WHERE area = 'A9'", "A9|teo\n");
    walk("q", "cleaning walk J");
    says("Entries of this walk: 0");
}

/* Somebody turns the tablet, or makes the window small: the screen is laid out anew by itself,
 * and what was typed of a line stays. */
static void another_size_draws_anew(void **state)
{
    (void)state;
    walk("1 <50x20> <80x24> d q", "containment walk J --area A1 --by rosa");
    says("Entries of this walk: ");
    says_not("That key does nothing here");
    walk("12 <50x20> _Turned <80x24> _Lane <enter> <ctrl-c>", "job walk");
    says("  > 12 Turned Lane\n");
    says("------------------------------------------------\n");
    says("Address of the renovation          12 Turned Lane");
}

/* Both sections of a floor wait: no key for the dry cloth of one before the other is dry, too.
 * 745.85(b)(1)(ii)(B)(2): the entire surface. */
static void the_whole_floor_is_dry_first(void **state)
{
    (void)state;
    run_shell(
        &r, walk_folder,
        "set -e; cp b.book v.book;"
        "$MISTFOLD --book v.book area add J --id A1c --side interior --place hall --length 10 "
        "--width 5; $MISTFOLD --book v.book surface add J --id F --area A1c --kind floor "
        "--place hall --size 50; log() { $MISTFOLD --book v.book verification log J --area "
        "A1c --person rosa --on 2026-09-16 --event \"$@\"; };"
        "log look-clean --time 08:00; for s in 1 2; do f=\"--surface F --section $s\";"
        "log wet-darker $f --cloth new --time 08:1$s; done; for s in 1 2; do f=\"--surface F "
        "--section $s\"; log recleaned $f --time 08:2$s; log wet-darker $f --cloth new "
        "--time 08:3$s; done");
    if (r.status != 0)
        fail_msg("%s", r.err);
    walk("1 c y c y c c q", "--book v.book verification walk J --area A1c");
    says("clean 2/2");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly v.book \"SELECT event, section FROM verification WHERE surface = "
              "'F' ORDER BY CAST(substr(entry, 3) AS INTEGER)\" | tail -n 4");
    assert_string_equal(r.out, "seen-dry|1\nseen-dry|2\ndry-wipe|2\ndry-wipe|1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_whole_floor_is_dry_first),
        cmocka_unit_test(a_refused_answer_keeps_the_others),
        cmocka_unit_test(a_taken_id_is_asked_again),
        cmocka_unit_test(going_back_keeps_what_was_answered),
        cmocka_unit_test(another_languages_key_is_no_answer),
        cmocka_unit_test(refusals_in_spanish),
        cmocka_unit_test(the_first_hour_asks_again),
        cmocka_unit_test(going_back_skips_nothing),
        cmocka_unit_test(windows_and_doors_in_one_job),
        cmocka_unit_test(both_sides_are_checked_at_once),
        cmocka_unit_test(a_stricter_place_is_walked),
        cmocka_unit_test(all_own_steps_are_walked),
        cmocka_unit_test(a_menu_has_pages),
        cmocka_unit_test(an_area_is_chosen),
        cmocka_unit_test(another_size_draws_anew),
    };
    return cmocka_run_group_tests(tests, walk_start, walk_stop);
}
