/* The office: due, job list, settings, ids abbreviated, the next step. */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- due, job list ---------------------------------------------------------------------- */

static void due_names_day_and_who(void **state)
{
    (void)state;
    run("$MISTFOLD due --on 2026-11-01");
    assert_int_equal(r.status, 0);
    says("next   2026-11-02  J-2000        office");
    says_not("J-1926"); /* handed over */
    run("$MISTFOLD due --on 2026-11-03");
    says("LATE   2026-11-02  J-2000");
    run("$MISTFOLD due --on 2026-11-02");
    says("today  2026-11-02  J-2000");
    run("$MISTFOLD due --on 2026-11-03 --who rosa");
    says("Nothing is due.");
    /* Inés's certificate of the sample runs out on 2027-05-20: 90 days before. */
    run("$MISTFOLD due --on 2027-02-18");
    says_not("I-0093");
    run("$MISTFOLD due --on 2027-02-19");
    says("certificate runs out: I-0093");
}

static void jobs_by_state_and_words(void **state)
{
    static const struct {
        const char *options, *ids;
    } cases[] = {
        {"", "J-1926\nJ-2000\n"},
        {"--state closed", "J-1926\n"},
        {"--state preparing", "J-2000\n"},
        {"--state verified", ""},
        {"--find numero", "J-2000\n"},               /* accents aside */
        {"--find 'UKAZ sample'", "J-1926\n"},        /* beginnings, capitals; occupant and street */
        {"--find '12 - sample & ukaz'", "J-1926\n"}, /* a sign alone is no word */
        {"--find 'teo'", "J-1926\n"},                /* assigned to it */
        {"--find 'stairs lane'", ""},                /* every word in one job */
        {"--find '\" NEAR(a'", ""},                  /* nothing is an operator */
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char line[300];
        snprintf(line, sizeof line,
                 "$MISTFOLD job list %s --json | python3 -c 'import json, sys\n"
                 "for job in json.load(sys.stdin): print(job[\"job\"])'",
                 cases[i].options);
        run(line);
        if (strcmp(r.out, cases[i].ids) != 0)
            fail_msg("%s: %s%s", cases[i].options, r.out, r.err);
    }
    run("$MISTFOLD job list --find '- .'");
    assert_non_null(strstr(r.err, "there is no word to look for"));
    run("$MISTFOLD job list --state done");
    assert_int_equal(r.status, 3);
    run("for s in closed 'closed, handed over' cerrado 'cerrado, entregado'; do $MISTFOLD job list "
        "-q "
        "--state \"$s\"; done");
    says("J-1926          2026-09-14  closed, handed over           12 Sample Lane, Exampleton\n"
         "J-1926 ");
    says_not("J-2000");
}

/* A contract that lets a heat gun be used below 900 degrees only and calls paint lead-based
 * from 0.25 % (constructed) decides what is planned and what the owner is told, too. */
static void stricter_limits_everywhere(void **state)
{
    (void)state;
    run("cp b.book s.book; export MISTFOLD_BOOK=s.book; m=$MISTFOLD; l='--place J-1926 --status "
        "verified --citation x'; chip() { $m paper summary J-1926 --out s.pdf && pdftotext s.pdf - "
        "| "
        "grep 'Lab Example'; }; $m test chip J-1926 --component W01.sash --sampler rosa "
        "--laboratory "
        "'Lab Example' --lab-address x --nllap yes --weight 0.3% --on 2026-08-12 && chip; "
        "$m limit add --limit paint-weight --value 0.25% $l && chip");
    says("went to a lab: negative, August 12, 2026, Lab Example");
    says("went to a lab: positive, August 12, 2026, Lab Example");
    run("export MISTFOLD_BOOK=s.book; gun() { $MISTFOLD practice add J-1926 --area A1 --method "
        "heat-gun "
        "--temp $1 --person teo --on 2026-09-14 --planned yes; echo $1: $?; }; gun 900; "
        "$MISTFOLD limit add --limit heat-gun --value 900 --place J-1926 --status verified "
        "--citation x; gun 900; gun 899");
    says("\n900: 0\n");
    says("\n900: 3\n");
    says("\n899: 0\n");
}

/* What is printed names the number that was judged by: a contract (constructed) that keeps
 * records 5 years and wants a wall within 20 ft of the property line, which is at 18. */
static void papers_name_the_stricter_number(void **state)
{
    (void)state;
    run("cp b.book s.book; export MISTFOLD_BOOK=s.book; m=$MISTFOLD; l='--place J-1926 --status "
        "verified --citation x'; said() { $m paper summary J-1926 --out s.pdf && $m paper blank "
        "crew-plan --job J-1926 --out p.pdf && for f in s p; do pdftotext $f.pdf - | tr '\\n' ' ' "
        "| "
        "grep -oE 'keeps it for [0-9]+ years|line is within [0-9]+ ft'; done; }; said; "
        "$m area list J-1926 | grep -c ' 18 '; $m limit add --limit retention-years --value 5 $l; "
        "$m limit add --limit property-line --value 20 $l; said");
    says("keeps it for 3 years\n");
    says("keeps it for 5 years\nline is within 20 ft\n");
    says_not("line is within 10 ft");
    run("export MISTFOLD_BOOK=s.book; m=$MISTFOLD; $m limit add --limit floor-sheet --value 8 "
        "--place J-1926 --status verified --citation x; $m containment list J-1926 --quiet");
    says("every side, farther if dust could fall there. Measure it.\n    Here, by a stricter "
         "limit: 8 ft\n");
    says_not("stricter limit: 10 ft");
}

/* The topics of a training are parted by ';', as --set is; a text has up to 4000 bytes; a
 * line of the list ends at a letter. Constructed. */
static void any_text_can_be_corrected(void **state)
{
    (void)state;
    run("cp b.book t.book; export MISTFOLD_BOOK=t.book; m=$MISTFOLD; t=$($m entry list J-1926 | "
        "awk "
        "'$4 == \"training\" { print $1; exit }'); $m entry correct $t --set 'topics=signs\\; "
        "waste; "
        "day=2026-09-13' --reason x && sqlite3 t.book \"SELECT topics, day FROM training WHERE "
        "entry = "
        "'$t'\"; n=$(python3 -c \"print('\303\261' * 1900)\"); $m entry correct $($m entry list "
        "J-2000 | awk "
        "'$4 == \"house\" { print $1 }') --set \"note=$n\" --reason x && sqlite3 t.book 'SELECT "
        "length(note) FROM house WHERE note IS NOT NULL AND id = '\"'J-2000'\"; $m entry list "
        "J-2000 | iconv "
        "-f UTF-8 -t UTF-8 >/dev/null; echo $?");
    says("signs; waste|2026-09-13\n");
    says("\n1900\n0\n");
}

/* A topic that no task goes by is told at once, and kept. */
static void a_mistyped_topic_is_told(void **state)
{
    (void)state;
    run("cp b.book t.book; $MISTFOLD --book t.book crew train J-1926 --worker teo --trainer rosa "
        "--topics 'Signs; containmnt; limpieza' --on 2026-09-14");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.err,
                           "note: \"containmnt\" is not a topic that a task of the rule goes by: "
                           "these are signs; containment; practices; waste; cleaning."));
    run("cp b.book t.book; $MISTFOLD --book t.book crew train J-1926 --worker teo --trainer rosa "
        "--topics 'Signs; Letreros; limpieza' --on 2026-09-14");
    assert_null(strstr(r.err, "is not a topic"));
}

/* ---- ids, next step ------------------------------------------------------------------------- */

static void ids_may_be_short(void **state)
{
    (void)state;
    run("$MISTFOLD job show J-19 --quiet");
    assert_int_equal(r.status, 0);
    assert_string_equal(r.err, "note: job J-19 is J-1926\n");
    run("$MISTFOLD job show J-");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "write more of it: J-1926, J-2000"));
    run("$MISTFOLD job show J-1962");
    assert_non_null(strstr(r.err, "did you mean J-1926?"));
    run("$MISTFOLD containment tick J-1926 --area A1 --step egres --state done --person tea "
        "--on 2026-09-14");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "did you mean teo?"));
}

static void the_next_step(void **state)
{
    static const char *const cases[][2] = {
        {"job show J-2000", "next: mistfold party add J-2000 --id owner"},
        {"job show J-1926", "next: mistfold job bundle J-1926 --record record.pdf --out ..."},
        {"gate J-1926 inspection",
         "next: mistfold job bundle J-1926 --record record.pdf --out ..."},
        {"due --progress", "next: mistfold job list"},
        {"gate J-2000 demo", "next: mistfold party add J-2000"},
        {"person list", "next: mistfold job show J-2000"},
        {"book check", "next: mistfold due"},
    };
    char line[200];
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(line, sizeof line, "$MISTFOLD %s | tail -1", cases[i][0]);
        run(line);
        says(cases[i][1]);
        snprintf(line, sizeof line, "$MISTFOLD --quiet %s", cases[i][0]);
        run(line);
        says_not("next: mistfold");
    }
    run("$MISTFOLD --book new.book book new --no-key --device x");
    says("next: mistfold firm add");
}

/* Five signs without vowels: the name stands before every entry. */
static void drawn_names_are_short(void **state)
{
    (void)state;
    run("for i in 1 2 3 4; do $MISTFOLD --book d$i.book book new --no-key >/dev/null; $MISTFOLD "
        "--book d$i.book person add --id rosa --name R -q; done | grep -cE '^logged person "
        "[bcdfghjkmnpqrstvwxz][bcdfghjkmnpqrstvwxz2-9]{4}/[0-9]$'");
    answers(0, "4\n");
}

/* ---- settings ---------------------------------------------------------------
 */

static void settings_say_where_from(void **state)
{
    (void)state;
    run("mkdir -p c/mistfold; printf '# ours\\nbook = b.book\\nlang = es\\n' > c/mistfold/settings;"
        "XDG_CONFIG_HOME=$PWD/c MISTFOLD_BOOK= $MISTFOLD --by z settings show");
    says("book      b.book                            settings file");
    says("by        z                                 option");
    says("lang      es                                settings file");
    says("page      letter                            default");
    run("XDG_CONFIG_HOME=$PWD/c MISTFOLD_LANG=en $MISTFOLD --book x.book settings show");
    says("book      x.book                            option");
    says("lang      en                                MISTFOLD_LANG");
    run("printf '\\357\\273\\277lang = es\\n' > c/mistfold/settings; export "
        "XDG_CONFIG_HOME=$PWD/c; $MISTFOLD settings set page letter > /dev/null; $MISTFOLD "
        "settings "
        "set lang es; $MISTFOLD settings show; cat c/mistfold/settings");
    says("lang      es                                settings file");
    says("lang = es\npage = letter\n");
    run("printf 'page = a5\\n' > c/mistfold/settings; XDG_CONFIG_HOME=$PWD/c $MISTFOLD due");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "c/mistfold/settings:1: a5 is not a paper size"));
    run("printf 'color = red\\n' > c/mistfold/settings; XDG_CONFIG_HOME=$PWD/c $MISTFOLD due");
    assert_non_null(strstr(r.err, "color is not a setting"));
    run("mkdir -p d/mistfold/settings; XDG_CONFIG_HOME=$PWD/d $MISTFOLD due");
    assert_int_equal(r.status, 3); /* no other book is taken for it */
    assert_non_null(strstr(r.err, "d/mistfold/settings"));
    run("XDG_CONFIG_HOME=$PWD/d $MISTFOLD --version");
    assert_int_equal(r.status, 0);
}

/* One line is written and nothing else of the file is touched. */
static void settings_are_set(void **state)
{
    static const struct {
        const char *words, *says;
    } refused[] = {
        {"color red", "NAME: color is not a setting; they are book, by"},
        {"page a5", "VALUE: a5 is not a paper size"},
        {"lang fr", "VALUE: the language fr is not known"},
        {"quiet 1", "VALUE: 1 is neither yes nor no"},
        {"tsa-wait 0", "VALUE: 0 is not a time to wait"},
        {"place 'a b'", "VALUE: "},
        {"tsa 'not a url'", "VALUE: not a url is not the address of an authority"},
        {"tsa https://", "VALUE: https:// is not the address of an authority"},
        {"by nobody", "VALUE: there is no person nobody"},
        {"by ''", "VALUE: a value is one line of words"},
        {"tsa \"$(printf 'https://tsa.example/\\t')\"", "VALUE: a value is one line of words"},
    };
    (void)state;
    run("export XDG_CONFIG_HOME=$PWD/s/t; unset MISTFOLD_BY; $MISTFOLD settings set by rosa && "
        "$MISTFOLD settings set page a4 && stat -c %a s s/t/mistfold s/t/mistfold/settings && "
        "$MISTFOLD settings show");
    says("by rosa\n");
    says("700\n700\n600\n");
    says("by        rosa                              settings file");
    says("page      a4                                settings file");
    run("f=s/t/mistfold/settings; printf '# ours\\n\\n lang=es\\npage = a4\\nlang = en\\n#lang = "
        "x' > $f; export XDG_CONFIG_HOME=$PWD/s/t; $MISTFOLD settings set lang es -q; $MISTFOLD "
        "settings set book b.book -q; cat $f; $MISTFOLD settings unset lang -q; $MISTFOLD settings "
        "unset lang -q; cat $f");
    says("# ours\n\nlang = es\npage = a4\n#lang = x\nbook = /");
    says("/b.book\nlang: taken out of the file\nlang: was not in the file\n# ours\n\npage = "
         "a4\n#lang = x\nbook = /");
    run("export XDG_CONFIG_HOME=$PWD/s/t; MISTFOLD_LANG=en $MISTFOLD settings set lang es -q");
    notes("lang is set by MISTFOLD_LANG, which wins over the file");
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        char line[200];
        snprintf(line, sizeof line, "XDG_CONFIG_HOME=$PWD/s/new $MISTFOLD settings set %s",
                 refused[i].words);
        run(line);
        refuses(3, refused[i].says);
    }
    run("XDG_CONFIG_HOME=$PWD/s/new $MISTFOLD settings unset page -q; ls s");
    says("page: was not in the file\nt\n"); /* nothing was made */
    run("XDG_CONFIG_HOME=$PWD/s/new $MISTFOLD --book none.book settings set by anybody -q");
    answers(0, "by anybody"); /* as long as there is no book */
    /* a place, and a program, that a row of the book names is one */
    run("set -e; export XDG_CONFIG_HOME=$PWD/s/new MISTFOLD_BOOK=p.book; $MISTFOLD book new "
        "--no-key "
        "--device p -q; $MISTFOLD firm add --name F --address A -q; $MISTFOLD limit add --limit "
        "minor-interior --value 1 --place Tribe --citation c --status verified -q; $MISTFOLD "
        "settings set place US-IA,Tribe-North -q; $MISTFOLD certificate add --holder firm "
        "--discipline firm --number F --issuer X --issued 2024-01-05 --expires 2029-01-05 "
        "--programs us,Tribe -q");
    answers(0, "place US-IA,Tribe-North\n");
}

/* The file of the firm's own steps: an argument wins over the environment, that over the
 * settings file; without any of them it must be named. */
static void own_steps_from_the_file_of_the_settings(void **state)
{
    (void)state;
    run("for n in one two three; do printf 'id,phase,side,text,from\n%s,clean,both,Do it,"
        "2026-01-01\n' $n > $n.csv; done; printf 'steps = ~/one.csv\n' > c/mistfold/settings; "
        "export HOME=$PWD XDG_CONFIG_HOME=$PWD/c MISTFOLD_BOOK=steps.book MISTFOLD_BY=rosa; "
        "$MISTFOLD book new --no-key >/dev/null; $MISTFOLD step import; MISTFOLD_STEPS=two.csv "
        "$MISTFOLD "
        "step import; MISTFOLD_STEPS=two.csv $MISTFOLD step import three.csv; "
        "sqlite3 steps.book 'SELECT id FROM own_step ORDER BY rowid'; $MISTFOLD settings show");
    says("\none\ntwo\nthree\n");
    says("/one.csv");
    says("settings file");
    assert_non_null(strstr(r.err, "the file is two.csv, from MISTFOLD_STEPS"));
    run("XDG_CONFIG_HOME=/nonexistent $MISTFOLD --book steps.book --by rosa step import");
    assert_int_equal(r.status, 2);
    assert_non_null(strstr(r.err, "steps = FILE in the settings"));
}

/* The place of the settings is logged with a new job, unless another one is said. */
static void a_new_job_is_at_the_place_of_the_settings(void **state)
{
    (void)state;
    run("printf 'place = US-IA\\n' > c/mistfold/settings; for o in '' '--place US-MD'; do "
        "XDG_CONFIG_HOME=$PWD/c $MISTFOLD --book p.book book new --no-key >/dev/null; "
        "id=P${o#--place }; "
        "XDG_CONFIG_HOME=$PWD/c $MISTFOLD --book p.book job open --id $id --address A --building "
        "dwelling --owner-occupied yes --work repair --description d --start 2026-09-14 $o; done; "
        "sqlite3 p.book 'SELECT id, place FROM house ORDER BY id'");
    says("P|US-IA");
    says("PUS-MD|US-MD");
    assert_non_null(strstr(r.err, "place US-IA, from settings file"));
}

/* A state is the same place however it is written, and is kept in one form; a row of the book
 * may name a place that is no state. */
static void a_state_is_kept_in_one_form(void **state)
{
    (void)state;
    run("$MISTFOLD --book q.book book new --no-key >/dev/null; export MISTFOLD_BOOK=q.book; "
        "$MISTFOLD limit add --limit minor-interior --value 1 --place us-ia --citation c --status "
        "verified; $MISTFOLD limit add --limit minor-interior --value 2 --place Tribe-1 --citation "
        "c --status verified; for o in us-ia us-ia,tribe-1,us-ny-nyc; do $MISTFOLD job open --id "
        "J${#o} --address A --building dwelling --owner-occupied yes --work repair --description d "
        "--start 2026-09-14 --place $o; done; sqlite3 q.book 'SELECT place FROM house ORDER BY id; "
        "SELECT place FROM local_limit'; $MISTFOLD limit list --job J5 --on 2026-09-14");
    says("US-IA,tribe-1,US-NY-NYC\nUS-IA\nUS-IA\nTribe-1\n");
    says("US-IA, c [verified]");
}

/* 24 CFR 35.1350(d): 2 sq ft inside, where 40 CFR 745.83 has 6. A no of the rule is not the end of
 * it, and what frees of part 35 is told as well. */
static void a_no_of_the_rule_and_part_35(void **state)
{
    (void)state;
    run("$MISTFOLD --book h.book book new --no-key >/dev/null; export MISTFOLD_BOOK=h.book; "
        "for z in no yes; do $MISTFOLD --quiet job open --id J-$z --address A$z --year-built 1950 "
        "--building dwelling --owner-occupied yes --work repair --description d --start 2026-09-14 "
        "--assisted yes --zero-bedroom $z --elder-or-disabled no --child-under-6 yes >/dev/null; "
        "$MISTFOLD --quiet component add J-$z --id w.wall --type wall --side interior --room k "
        "--substrate plaster --disturbed 3 --removed no >/dev/null; $MISTFOLD gate J-$z rule | tr "
        "'\n' ' '; "
        "done");
    says("NO");
    says("24 CFR part 35 applies beside this rule");
    says("24 CFR part 35 does not reach it (35.115(a)(1)-(3))");
}

/* More findings than fit into a first guess (512): every answer still rests on all of them. */
static void many_areas_are_answered_whole(void **state)
{
    (void)state;
    run("set -e; cp b.book many.book; m=\"$MISTFOLD --quiet --book many.book\"; i=1;"
        "by='--state done --person rosa --renovator rosa --on 2026-09-14 --time 07:30';"
        "while [ $i -le 60 ]; do"
        "  $m area add J-1926 --id R$i --side interior --place \"room $i\" --length 10 --width 10 "
        "    --objects no --ducts no --doors-used no --carpet no;"
        "  $m containment tick J-1926 --area R$i $by "
        "    --step signs,signs-language,isolate,egress,windows-closed,doors-closed;"
        "  [ $i -eq 60 ] || $m containment tick J-1926 --area R$i $by --step floor-sheet "
        "    --measured 6; i=$((i + 1)); done > many.log");
    assert_int_equal(r.status, 0);
    run("$MISTFOLD --quiet --book many.book containment tick J-1926 --area R60 --state done "
        "--person rosa --renovator rosa --on 2026-09-14 --time 07:25 --step signs,no-step");
    assert_int_equal(r.status, 3);
    assert_string_equal(r.out, ""); /* all or none: nothing is said to be logged */
    run("$MISTFOLD --quiet --book many.book gate J-1926 demo --on 2026-09-14");
    assert_int_equal(r.status, 1);
    run("$MISTFOLD --book many.book job bundle J-1926 --record out/job-record.pdf --out many;"
        "sed -n '/May demo start/,/signs come down/p' many/summary.txt");
    says("May demo start?  NO\n    lacking: The floor is sheeted far enough");
    run("$MISTFOLD --quiet --book many.book containment tick J-1926 --area R60 --state done "
        "--person rosa --renovator rosa --on 2026-09-14 --time 07:30 --step floor-sheet "
        "--measured 6 > many.log; $MISTFOLD --book many.book gate J-1926 demo --on 2026-09-14");
    says("May demo start?  YES");
    run("$MISTFOLD --book many.book gate J-1926 demo --json | grep -c '\"verdict\"'");
    if (strtol(r.out, NULL, 10) <= 512)
        fail_msg("only %s findings", r.out);
}

/* The unit stands in the head of a column, the number alone below it. */
static void sizes_are_numbers(void **state)
{
    (void)state;
    run("$MISTFOLD area list J-1926 | awk 'NR > 1 && $1 == \"A1\"'");
    says("  26      14  ");
    says_not("sq");
    run("$MISTFOLD surface list J-1926");
    says_not("sq");
}

/* The comments of the schema are what is left to read when the program is gone: they say in
 * which unit a column is, not only in which one people give it. */
static void the_schema_says_its_units(void **state)
{
    (void)state;
    run("cp b.book units.book; sqlite3 -readonly units.book '.schema reading' '.schema surface' "
        "'.schema dust_sample'");
    says("AS \"loading_ug_cm2\" -- lead loading in mg/cm2; negative readings are kept; here in "
         "micrograms per cm2\n");
    says("AS \"size_sqft_100\" -- size in the work area in sq ft; here in hundredths\n");
    says("lead loading in ug/sq ft, as reported; beside mass and area the higher counts; here in "
         "nanograms per sq ft\n");
}

/* Every word of the page, also its labels. */
static void a_job_in_spanish(void **state)
{
    (void)state;
    run("$MISTFOLD --lang es job show J-1926");
    says("construida  1926\n");
    says("aberturas   14, con 138 componentes\n");
    says("pintura     84 con plomo, 0 se presume, 54 sin plomo (147 lecturas)\n");
    says("guardar     2029-09-16\n");
    run("$MISTFOLD --lang es test list J-1926");
    says("componente            pintura     peor");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(due_names_day_and_who),
        cmocka_unit_test(jobs_by_state_and_words),
        cmocka_unit_test(any_text_can_be_corrected),
        cmocka_unit_test(a_mistyped_topic_is_told),
        cmocka_unit_test(stricter_limits_everywhere),
        cmocka_unit_test(papers_name_the_stricter_number),
        cmocka_unit_test(ids_may_be_short),
        cmocka_unit_test(the_next_step),
        cmocka_unit_test(drawn_names_are_short),
        cmocka_unit_test(settings_say_where_from),
        cmocka_unit_test(settings_are_set),
        cmocka_unit_test(own_steps_from_the_file_of_the_settings),
        cmocka_unit_test(a_new_job_is_at_the_place_of_the_settings),
        cmocka_unit_test(a_state_is_kept_in_one_form),
        cmocka_unit_test(a_no_of_the_rule_and_part_35),
        cmocka_unit_test(many_areas_are_answered_whole),
        cmocka_unit_test(sizes_are_numbers),
        cmocka_unit_test(the_schema_says_its_units),
        cmocka_unit_test(a_job_in_spanish),
    };
    return cmocka_run_group_tests(tests, shell_office, shell_stop);
}
