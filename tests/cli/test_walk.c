/* The walks at a pseudo-terminal, as a person with single keys (walk_kit.h). */
#include "support/cmocka_all.h"
#include "support/walk_kit.h"

#include <stdio.h>
#include <string.h>

/* Each answer is an entry at once; leaving and coming back goes on at the next step. */
static void steps_are_entries_at_once(void **state)
{
    (void)state;
    walk("2 1 d d q", "containment walk J --area A1");
    says("Kept: Post a warning sign at every way into");
    says("May demo start?");
    says("exit 0");
    book_says("SELECT step, state, person, renovator, time IS NOT NULL FROM tick",
              "signs|done|teo|rosa|1\nsigns-language|done|teo|rosa|1\n");
    walk("2 1 w q", "containment walk J --area A1");
    says("Step 3/7");
    says("Lead dust that leaves the area"); /* the reason, on demand */
    says("40 CFR 745.85(a)(2)");
}

/* Before, during and after the work: each is counted, and while one is open no screen says that
 * every step is answered. */
static void what_is_open_elsewhere_is_counted(void **state)
{
    (void)state;
    run_shell(
        &r, walk_folder,
        "cp b.book d.book; $MISTFOLD --book d.book area add J --id A5 --side interior --place "
        "hall --length 9 --width 9 --objects no --ducts no --doors-used no --carpet no");
    walk("2 1 d d d d d n 1 d 6 <enter> q", "--book d.book containment walk J --area A5");
    says("left: 7 | before demo 7 | during");
    says("after 7");
    says("left: 0 | before demo 0");
    says("The steps of this list are answered. Others of this work area are open");
    says_not("Every step of this list is answered");
}

/* A step that must be done has no way to be not needed; one that may be wants its ground, by
 * one key, and the words where nothing else says it. */
static void not_needed_wants_its_ground(void **state)
{
    (void)state;
    walk("2 1 n q", "containment walk J --area A1");
    book_says("SELECT count(*) FROM tick WHERE step = 'isolate'", "0\n");
    walk("2 1 d d n 2 <enter> q", "containment walk J --area A1");
    says("1  there is none here");
    says("2  another reason, in my own words");
    says("0  back: it is needed");
    says("nothing was kept");
    walk("2 1 n 0 n q", "containment walk J --area A1");
    book_says("SELECT count(*) FROM tick WHERE step = 'windows-closed'", "0\n");
}

/* 745.85(a)(2)(i)(C): W01 is a window of A1, whatever is said of it. D01 is no door of it. */
static void what_the_book_contradicts_is_not_kept(void **state)
{
    (void)state;
    walk("2 1 n 1 q", "containment walk J --area A1");
    says("Not kept: marked not needed in A1 on");
    says("but W01 is a window");
    walk("2 1 n 2 too_hot_inside <enter> q", "containment walk J --area A1");
    says("but W01 is a window");
    book_says("SELECT count(*) FROM tick WHERE step = 'windows-closed'", "0\n");
    walk("2 1 d n 1 q", "containment walk J --area A1");
    book_says("SELECT state, ground, reason IS NULL FROM tick WHERE step = 'doors-closed'",
              "not-needed|none-present|1\n");
}

/* EPA FAQ 23002-19908: what is impossible is excused, with its circumstances; in Spanish. */
static void impossible_in_spanish(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book c.book; export MISTFOLD_BOOK=c.book; $MISTFOLD area add J --id X --side "
              "exterior --place south --length 20 --width 9 --stories 2");
    walk("2 1 s s s s s s n 0 n 1 q", "--book c.book --lang es containment walk J --area X");
    says("1  no hay piso debajo del trabajo");
    says("2  aquí no hay");
    says("3  otro motivo, en mis palabras");
    says("pisos de ese lado");
    walk("2 1 s s s s s s s s n 1 el_piso_se_quita <enter> q",
         "--book c.book --lang es containment walk J --area X");
    says("1  no se puede hacer en este trabajo");
    says("¿Por qué no se puede hacer aquí?");
    walk("2 1 s s s s s s s n 2 nadie_pasa <enter> q",
         "--book c.book --lang es containment walk J --area X");
    walk("2 1 s s s s s s s q", "--book c.book --lang es containment walk J --area X");
    says("no hace falta, en palabras propias");
    says("nadie pasa");
}

/* 15 ft to the property line is far by 40 CFR 745.85(a)(2)(ii)(D), which says 10; a contract
 * that says 20 (constructed) makes it near, for the walk as for the list and the gate. */
static void a_stricter_limit_adds_a_step(void **state)
{
    (void)state;
    run_shell(
        &r, walk_folder,
        "m=$MISTFOLD; cp b.book c.book; export MISTFOLD_BOOK=c.book; $m area add J --id X --side "
        "exterior --place north --length 20 --width 10 --line 15 --stories 1");
    walk("2 1 w s w s w s w s w s w s w s w q", "--book c.book containment walk J --area X");
    says_not("(line-containment)");
    run_shell(
        &r, walk_folder,
        "$MISTFOLD --book c.book limit add --limit property-line --value 20 --place J --status "
        "verified --citation 'contract, 7'");
    walk("2 1 w s w s w s w s w s w s w s w s w q", "--book c.book containment walk J --area X");
    says("(line-containment)");
}

/* Sheeting of 5.99 ft falls short of 6 ft (40 CFR 745.85(a)(2)(i)(D)): it is kept,
 * the walk stays there and offers the barrier, which the list did not ask for. */
static void short_sheeting_stays_open(void **state)
{
    (void)state;
    walk("2 1 d 5.99 <enter> q", "containment walk J --area A1");
    says("it falls short");
    walk("2 1 b w q", "containment walk J --area A1");
    says("(vertical-barrier)");
    walk("2 1 d 6 <enter> q", "containment walk J --area A1");
    book_says("SELECT measured_ft_100 FROM tick WHERE step = 'floor-sheet' ORDER BY logged_at, "
              "CAST(substr(entry, 3) AS INTEGER)",
              "599\n600\n");
}

/* A step ticked without a certified renovator there is kept and does not count. */
static void nobody_certified_is_no_yes(void **state)
{
    (void)state;
    run_shell(&r, walk_folder, "cp b.book c.book");
    walk("2 0 d q", "--book c.book cleaning walk J --area A1");
    says("no certified renovator was present");
    says("left: 7");
}

/* The photo's digest is what sha256sum says. */
static void a_photo_is_kept_by_its_digest(void **state)
{
    char expected[200];
    (void)state;
    run_shell(&r, walk_folder, "printf pixels > p.jpg; sha256sum < p.jpg | cut -c1-64");
    snprintf(expected, sizeof expected, "p.jpg sha256:%.64s\n", r.out);
    walk("2 1 p p.jpg <enter> d q", "cleaning walk J --area A1");
    book_says("SELECT photo FROM tick WHERE step = 'chips'", expected);
    walk("2 1 p nowhere.jpg <enter> q", "cleaning walk J --area A1");
    says("No photo can be read there; check the name and the folder: nowhere.jpg");
    book_says("SELECT count(*) FROM tick WHERE step = 'sheeting'", "0\n");
}

/* 40 CFR 745.85(b)(1)(ii): look, wet, clean again, wet, wait. 90 sq ft are 3 sections. */
static void verification_in_its_order(void **state)
{
    (void)state;
    walk("1 c m d q", "verification walk J --area A1");
    says("clean 1/4");
    says("floor 1/3");
    says("Clean it again");
    walk("1 c d s q", "verification walk J --area A1");
    says("wait until");
    says("(60 min)");
    book_says("SELECT surface, section, event, cloth FROM verification WHERE surface IS NOT NULL "
              "ORDER BY CAST(substr(entry, 3) AS INTEGER)",
              "W01-sill|1|wet-match|new\nfloor|1|wet-darker|new\nfloor|1|recleaned|\n"
              "floor|1|wet-darker|new\n");
    /* A dry cloth before its time has no key. */
    walk("1 m m c c q", "verification walk J --area A1");
    book_says("SELECT count(*) FROM verification WHERE event = 'dry-wipe'", "0\n");
}

/* The second darker cloth was long ago (constructed): dry, then one dry cloth. */
static void the_wait_ends(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "set -e; cp b.book w.book;"
              "$MISTFOLD --book w.book area add J --id A1b --side interior --place hall --length 5 "
              "--width 5; $MISTFOLD --book w.book surface add J --id S --area A1b --kind sill "
              "--place k --size 1; log() { $MISTFOLD --book w.book verification log J --area A1b "
              "--person rosa --on 2026-09-16 --event \"$@\"; };"
              "log look-clean --time 08:00; log wet-darker --surface S --cloth new --time 08:10;"
              "log recleaned --surface S --time 08:20;"
              "log wet-darker --surface S --cloth fresh-fold --time 08:30");
    if (r.status != 0)
        fail_msg("%s", r.err);
    walk("1 c y c q", "--book w.book verification walk J --area A1b");
    says("one new dry cloth");
    says("clean 1/1");
    says("x dust seen | w why | i who | q leave"); /* what the end of it takes */
    run_shell(
        &r, walk_folder,
        "sqlite3 -readonly w.book \"SELECT event, cloth FROM verification WHERE surface = 'S' "
        "ORDER BY CAST(substr(entry, 3) AS INTEGER)\"");
    assert_string_equal(r.out, "wet-darker|new\nrecleaned|\nwet-darker|fresh-fold\nseen-dry|\n"
                               "dry-wipe|new\n");
}

/* A house whose containment stands today, in y.book: demo may start in its one work area. */
static void contained_today(void)
{
    run_shell(
        &r, walk_folder,
        "set -e; cp b.book y.book; d=$(date +%F); y=$(date -d yesterday +%F); m=\"$MISTFOLD "
        "--quiet --book y.book\";"
        "$m certificate add --holder firm --discipline firm --number F-1 --issuer Example "
        "  --issued 2024-01-01 --expires 2099-01-01 >/dev/null;"
        "printf '%s\\n' '[job Y]' 'address = 3 Yes Lane' 'year-built = 1940' 'building = dwelling' "
        "  'owner-occupied = yes' 'work = window-replacement' 'description = one window' \"start = "
        "$d\" "
        "  '[party owner]' 'role = owner' 'name = Ida Sample' "
        "  '[opening W01]' 'kind = window' 'room = hall' 'elevation = north' 'usual-parts = wood' "
        "  'absent = exterior-sill, exterior-casing' "
        "  '[area A1]' 'side = interior' 'place = hall' 'openings = W01' 'size = 9 x 9' "
        "  'objects = no' 'ducts = no' 'doors-used = no' 'carpet = yes' "
        "  '[surface W01-sill]' 'area = A1' 'kind = sill' 'place = hall' 'size = 1.5' "
        "  '[crew rosa]' 'duty = renovator' \"on = $d\" "
        "  '[notice owner]' 'method = acknowledged' \"on = $y\" \"signed-on = $y\" "
        "  'signer = Ida Sample' 'unit = 3 Yes Lane' 'states-receipt = yes' > y.txt;"
        "$m job open --from y.txt >/dev/null;"
        "by=\"--area A1 --state done --person rosa --renovator rosa --on $d --time 00:00\";"
        "$m containment tick Y $by "
        "  --step signs,signs-language,isolate,egress,windows-closed,doors-closed >/dev/null;"
        "$m containment tick Y $by --step floor-sheet --measured 6 >/dev/null;"
        "$m gate Y demo");
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

/* Once demo may start the first screen is the first step of the days of work: no key is needed
 * that does nothing there. */
static void steps_of_the_work_come_up_at_once(void **state)
{
    (void)state;
    contained_today();
    walk("1 w q", "--book y.book containment walk Y");
    says("May demo start?  YES");
    says("Step 8/13, left: 6 | before demo 0 | during 6");
    says_not("The steps of this list are answered");
    says_not("That key does nothing here");
}

/* The barriers are looked at and the waste is shut away on each day of work: what was done on the
 * day before is open again, with its day beside it. */
static void each_day_has_its_steps(void **state)
{
    (void)state;
    run_shell(
        &r, walk_folder,
        "$MISTFOLD --book y.book containment tick Y --area A1 --step barriers-whole,waste-daily "
        "--state done --person rosa --renovator rosa --on $(date -d yesterday +%F)");
    walk("1 d q", "--book y.book containment walk Y");
    says("Step 8/13, left: 6 | before demo 0 | during 6");
    says("[ ] open   rosa ");
    says("Step 9/13, left: 5 | before demo 0 | during 5"); /* done on this day */
}

/* A walk is of one work area: so is the answer at its end, and it says so. */
static void the_answer_at_the_end_names_its_area(void **state)
{
    (void)state;
    walk("1 q", "--book y.book containment walk Y");
    says("\nA1: May demo start?  YES\n");
    walk("1 q", "--book y.book verification walk Y");
    says("\nA1: May the signs come down?  NO\n");
}

/* Nothing is wiped outside: no screen says that a sill or a section was. */
static void outside_is_looked_at(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "$MISTFOLD --book y.book area add Y --id A2 --side exterior --place north "
              "--length 9 --width 9");
    walk("1 c q", "--book y.book verification walk Y --area A2");
    says("Nothing is wiped here, and the look was clean, but the signs must stay up");
    says_not("Every sill");
}

/* After a correction the job's own next step is told; and of a no the next step is not to ask
 * again, but what mends its first reason. */
static void a_no_names_what_mends_it(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "e=$(sqlite3 -readonly y.book \"SELECT entry FROM notice WHERE job = 'Y'\");"
              "$MISTFOLD --book y.book entry correct $e --set states-receipt=no --reason misread;"
              "$MISTFOLD --book y.book gate Y demo | sed \"s|$e|ENTRY|\"");
    says("next: mistfold gate Y demo\n");
    says("\nnext: mistfold entry correct ENTRY --set states-receipt=... --reason ...\n");
}

static void dust_seen_starts_again(void **state)
{
    (void)state;
    walk("1 x n q", "verification walk J --area A1"); /* a slip of the finger does no harm */
    book_says("SELECT count(*) FROM verification WHERE event = 'look-dirty'", "0\n");
    walk("1 x y q", "verification walk J --area A1");
    says("Look over the whole work area");
    book_says("SELECT count(*) FROM verification WHERE event = 'look-dirty'", "1\n");
}

/* Spanish, every screen within 80x24 as well (walk() checks). */
static void in_spanish(void **state)
{
    (void)state;
    walk("1 c w m q", "--lang es verification walk J --area A1");
    says("¿Se pueden quitar los letreros?");
    walk("2 1 w s w s w s w s w s q", "--lang es cleaning walk J --area A1");
    says("Paso 2/7");
}

/* Ctrl-C and SIGTERM give the terminal back and lose nothing. */
static void left_by_a_signal(void **state)
{
    (void)state;
    walk("2 1 <ctrl-c>", "containment walk J --area A1");
    says("exit 0");
    walk("2 1 <term>", "containment walk J --area A1");
    says("=====\n\n=====\nexit 143"); /* the other screen was left first */
}

/* The id is the next free one; what is answered before there is enough for an entry is told as
 * the command that goes on with it, and that command asks only for the rest. */
static void a_job_by_asking(void **state)
{
    (void)state;
    walk("5_Sample_Road <enter> 17x <enter> <ctrl-u> 1950 <enter> 1 <ctrl-c>", "job walk");
    says("is not a number");
    says("mistfold job walk --address '5 Sample Road' --year-built 1950 --building dwelling\n");
    book_says("SELECT count(*) FROM house WHERE job = 'J-t-1'", "0\n");
    walk("y y y n n n US-IA <enter> 1 2099-10-01 <enter> en <enter> "
         "Ida_Sample <enter> hall <enter> north <enter> <ctrl-c> q",
         "job walk --address '5 Sample Road' --year-built 1950 --building dwelling");
    says("Under the rule");
    book_says("SELECT address, year_built, building, owner_occupied, language, place, description "
              "FROM house WHERE job = 'J-t-1'",
              "5 Sample Road|1950|dwelling|1|en|US-IA|windows are replaced\n");
    book_says("SELECT for_compensation, elder_or_disabled, zero_bedroom, child_under_6 IS NULL, "
              "assisted FROM house WHERE job = 'J-t-1'",
              "1|0|0|1|0\n");
    book_says("SELECT id, role, name FROM party", "owner|owner|Ida Sample\n");
    book_says("SELECT id, kind, room, storey IS NULL FROM opening WHERE job = 'J-t-1'",
              "W01|window|hall|1\n");
}

/* Enter alone names a party by its role; the second one of a role has a number. */
static void a_party_is_named_by_its_role(void **state)
{
    (void)state;
    walk("1 2 <enter> Ludek_Sample <enter> <enter> 1 2 <enter> Ana_Sample <enter> <enter> "
         "1 1 <enter> Ida_Sample <enter> <enter> q",
         "job walk --job J");
    says("Enter alone: tenant");
    book_says("SELECT id, role FROM party WHERE job = 'J' ORDER BY rowid",
              "tenant|occupant\ntenant-2|occupant\nowner|owner\n");
}

/* In a building with several units an occupant and a work area are asked for theirs; who is
 * no occupant, and what is common, is not. */
static void units_are_asked_for_where_there_are_several(void **state)
{
    (void)state;
    run_shell(&r, walk_folder,
              "cp b.book u.book; $MISTFOLD --book u.book job open --id M --address '8 Sample Row' "
              "--year-built 1948 --building multi-unit --owner-occupied no --work repair "
              "--description x --start 2026-11-09");
    walk("1 2 <enter> Ana_Sample <enter> 2B <enter> <enter> 1 1 <enter> Ida_Sample <enter> <enter> "
         "q",
         "--book u.book job walk --job M");
    says("In which unit does the occupant live?");
    run_shell(&r, walk_folder,
              "$MISTFOLD --book u.book party list M --json | grep -c '\"unit\": \"2B\"'");
    assert_int_equal(r.status, 0);
}

/* More words than digits: the tenth has the key a. The day by Enter alone; the language
 * is that of the contract, and nobody said it. */
static void a_component_and_a_notice(void **state)
{
    (void)state;
    walk("6 K.wall <enter> <enter> d 1 kitchen <enter> 5 n 12.5 <enter> "
         "7 <ctrl-u> owner <enter> 2 <enter> y <enter> <enter> q",
         "job walk --job J");
    assert_null(strstr(r.out, "Who signed")); /* nobody signs for the post */
    says("mistfold job walk --job J\n");
    says("    5  stop");
    says("    a  door slab");
    says("    2  certificate of mailing");
    book_says("SELECT id, type, side, room, substrate, removed, disturbed_sqft_100 "
              "FROM component WHERE id = 'K.wall'",
              "K.wall|wall|interior|kitchen|plaster|0|1250\n");
    book_says("SELECT party, method, day = date('now', 'localtime'), language, receipt, "
              "states_receipt FROM notice",
              "owner|mailed|1||1|\n");
}

/* A key that does nothing says so, in every walk and its menus. */
static void a_wrong_key_is_told(void **state)
{
    (void)state;
    walk("2 1 z q", "containment walk J --area A1");
    says("That key does nothing here");
    walk("9 q", "containment walk J --area A1");
    says("That key does nothing here");
    walk("1 z q", "verification walk J --area A1");
    says("That key does nothing here");
    walk("z q", "job walk --job J");
    says("That key does nothing here");
    walk("1 z <ctrl-c> q", "job walk --job J");
    says("that key does nothing here");
    walk("2 1 w b s q", "containment walk J --area A1");
    assert_null(strstr(r.out, "That key does nothing here"));
}

/* Nobody said who is writing: the walk asks. */
static void who_is_asked(void **state)
{
    (void)state;
    walk("2 1 1 d q", "--by '' cleaning walk J --area A1");
    says("Who are you?");
    book_says("SELECT who, kind FROM entry ORDER BY seq DESC LIMIT 1", "teo|tick\n");
}

static void the_first_hour(void **state)
{
    (void)state;
    walk("rosa <enter> Rosa_Muestra <enter> Muster <enter> 1_Sample_St <enter> <enter> F-1 <enter> "
         "Agency <enter> 2024-01-02 <enter> 2099-01-02 <enter> <ctrl-c>",
         "--book first.book --by '' book new --no-key");
    says("export MISTFOLD_BY=rosa");
    says("next: mistfold job walk");
    run_shell(&r, walk_folder,
              "sqlite3 -readonly first.book 'SELECT kind FROM entry ORDER BY seq'");
    assert_string_equal(r.out, "person\nfirm\ncertificate\n");
}

/* Through a pipe: exit 2, one line that names the command to use, nothing written. */
static void refused_through_a_pipe(void **state)
{
    static const char *const cases[][2] = {
        {"containment walk J", "mistfold containment tick"},
        {"cleaning walk J", "mistfold cleaning tick"},
        {"verification walk J", "mistfold verification log"},
        {"job walk", "mistfold job open"},
    };
    char line[200];
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(line, sizeof line, "echo d | $MISTFOLD %s", cases[i][0]);
        run_shell(&r, walk_folder, line);
        assert_int_equal(r.status, 2);
        assert_string_equal(r.out, "");
        assert_non_null(strstr(r.err, cases[i][1]));
        assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refused_through_a_pipe),
        cmocka_unit_test(steps_are_entries_at_once),
        cmocka_unit_test(what_is_open_elsewhere_is_counted),
        cmocka_unit_test(a_wrong_key_is_told),
        cmocka_unit_test(not_needed_wants_its_ground),
        cmocka_unit_test(what_the_book_contradicts_is_not_kept),
        cmocka_unit_test(impossible_in_spanish),
        cmocka_unit_test(a_stricter_limit_adds_a_step),
        cmocka_unit_test(short_sheeting_stays_open),
        cmocka_unit_test(nobody_certified_is_no_yes),
        cmocka_unit_test(a_photo_is_kept_by_its_digest),
        cmocka_unit_test(verification_in_its_order),
        cmocka_unit_test(the_wait_ends),
        cmocka_unit_test(steps_of_the_work_come_up_at_once),
        cmocka_unit_test(each_day_has_its_steps),
        cmocka_unit_test(the_answer_at_the_end_names_its_area),
        cmocka_unit_test(a_no_names_what_mends_it),
        cmocka_unit_test(outside_is_looked_at),
        cmocka_unit_test(dust_seen_starts_again),
        cmocka_unit_test(in_spanish),
        cmocka_unit_test(left_by_a_signal),
        cmocka_unit_test(a_job_by_asking),
        cmocka_unit_test(a_party_is_named_by_its_role),
        cmocka_unit_test(units_are_asked_for_where_there_are_several),
        cmocka_unit_test(a_component_and_a_notice),
        cmocka_unit_test(who_is_asked),
        cmocka_unit_test(the_first_hour),
    };
    return cmocka_run_group_tests(tests, walk_start, walk_stop);
}
