/* Bad input gets one line that says what, where, why and the mend, exit 3 (4 when
 * the book or the machine failed), and nothing is written. */
#include "support/cmocka_all.h"
#include "support/folder_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Entries in the book: bad input must not add to them. */
static int entries(void)
{
    run_result r;
    int n = -1;
    run_shell(&r, folder, "sqlite3 -readonly b.book 'SELECT count(*) FROM entry'");
    assert_int_equal(r.status, 0);
    n = 0;
    for (const char *p = r.out; *p >= '0' && *p <= '9'; p++)
        n = n * 10 + (*p - '0');
    return n;
}

static int make_book(void **state)
{
    run_result r;
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    run_shell(&r, folder,
              "set -e; m=$MISTFOLD; $m book new --no-key --device t;"
              "$m person add --id rosa --name 'Rosa Muestra';"
              "$m person add --id ines --name 'Inés Ejemplar';"
              "$m certificate add --holder rosa --discipline renovator --number R-1 --issuer X "
              "  --issued 2015-01-05 --expires 2020-01-05 --hands-on yes;"
              "$m instrument add --serial X-100 --film 1.02 --cal-low 0.8 --cal-high 1.2;"
              "$m job open --id J --address A --building dwelling --owner-occupied yes "
              "  --work window-replacement --description d --start 2026-09-14;"
              "$m opening add J --id W01 --kind window --room kitchen --elevation north;"
              "$m component add J --id W01.sash --opening W01 --type sash --side interior "
              "  --substrate wood;"
              "$m area add J --id A1 --side interior --place kitchen --openings W01 --length 10 "
              "  --width 10;"
              "$m surface add J --id W01-sill --area A1 --kind sill --place kitchen --size 1");
    if (r.status != 0)
        fprintf(stderr, "%s%s", r.out, r.err);
    return r.status;
}

typedef struct bad {
    const char *name, *command; /* run in the folder of the book */
    int status;
    const char *says[3]; /* each must stand in the one line on standard error */
} bad;

#define HEAD      "Number,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate,Result,Unit"
#define ROW       "1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,0.4,mg/cm2"
#define CSV(text) "printf '" text "' > x.csv; $MISTFOLD test import J x.csv"

static const bad cases[] = {
    {"unknown column", CSV(HEAD ",Mood\\n" ROW ",good\\n"), 3, {"x.csv:1", "Mood"}},
    {"missing column",
     CSV("Number,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate\\n"
         "1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood\\n"),
     3,
     {"x.csv:1", "esult"}},
    {"not a number",
     CSV(HEAD "\\n1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,abc,mg/cm2\\n"),
     3,
     {"x.csv:2", "abc"}},
    {"ug typed as mg",
     CSV(HEAD "\\n1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,1000,mg/cm2\\n"),
     3,
     {"x.csv:2", "1000"}},
    {"grams",
     CSV(HEAD "\\n1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,0.001,g/cm2\\n"),
     3,
     {"x.csv:2", "g/cm"}},
    {"over 100 mg/cm2",
     CSV(HEAD "\\n1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,100.1,mg/cm2\\n"),
     3,
     {"x.csv:2"}},
    {"decimal comma",
     "printf '" HEAD
     "\\n1,X-100,ines,2026-08-12,08:05,W01,sash,interior,wood,\"1,0\",mg/cm2\\n' > x.csv;"
     "$MISTFOLD test import J x.csv",
     3,
     {"x.csv:2", "1,0"}},
    {"no such date",
     CSV(HEAD "\\n1,X-100,ines,2026-02-30,08:05,W01,sash,interior,wood,0.4,mg/cm2\\n"),
     3,
     {"x.csv:2", "2026-02-30"}},
    {"future date",
     CSV(HEAD "\\n1,X-100,ines,2999-01-01,08:05,W01,sash,interior,wood,0.4,mg/cm2\\n"),
     3,
     {"x.csv:2", "2999-01-01"}},
    {"unknown opening",
     CSV(HEAD "\\n1,X-100,ines,2026-08-12,08:05,W99,sash,interior,wood,0.4,mg/cm2\\n"),
     3,
     {"x.csv:2", "W99"}},
    {"second row bad, first not kept",
     CSV(HEAD "\\n" ROW "\\n2,X-100,ines,2026-08-12,08:06,W01,sash,interior,wood,x,mg/cm2\\n"),
     3,
     {"x.csv:3"}},
    {"same number twice", CSV(HEAD "\\n" ROW "\\n" ROW "\\n"), 3, {"x.csv:3"}},
    {"unknown operator",
     CSV(HEAD "\\n1,X-100,nobody,2026-08-12,08:05,W01,sash,interior,wood,0.4,mg/cm2\\n"),
     3,
     {"x.csv:2", "nobody"}},
    {"no such file", "$MISTFOLD test import J nowhere.csv", 3, {"nowhere.csv"}},
    {"unknown job", "$MISTFOLD job show K", 3, {"K"}},
    {"unknown step",
     "$MISTFOLD containment tick J --area A1 --step plastic --state done --person "
     "rosa --on 2026-09-14",
     3,
     {"plastic", "containment list"}},
    {"step of the other side",
     "$MISTFOLD containment tick J --area A1 --step ground-sheet --state "
     "done --person rosa --on 2026-09-14",
     3,
     {"ground-sheet"}},
    {"unknown area", "$MISTFOLD gate J demo --area A9", 3, {"A9"}},
    {"id taken",
     "$MISTFOLD opening add J --id W01 --kind window --room x --elevation north",
     3,
     {"W01"}},
    {"a date that is needed", "$MISTFOLD job complete J", 3, {"on"}},
    {"a choice",
     "$MISTFOLD opening add J --id W02 --kind hatch --room x --elevation north",
     3,
     {"hatch", "window"}},
    {"a certificate of the next millennium",
     "$MISTFOLD certificate add --holder rosa --discipline inspector --number R --issuer X "
     "--issued 2024-01-05 --expires 3027-01-05",
     3,
     {"--expires: \"3027-01-05\" lies too far off", "check the year"}},
    {"a kit for a substrate that there is not",
     "$MISTFOLD test kit J --component W01.sash --tester rosa --maker M --model X --recognized yes "
     "--result negative --on 2026-09-02 --substrates wod,plaster",
     3,
     {"--substrates: \"wod,plaster\" is not one of the words known here",
      "drywall, metal, plaster, wood"}},
    {"a line break in a name",
     "$MISTFOLD person add --id x --name \"$(printf 'a\\nb')\"",
     3,
     {"--name"}},
    {"not UTF-8", "$MISTFOLD person add --id x --name \"$(printf '\\303\\050')\"", 3, {"--name"}},
    {"wet wipe before looking",
     "$MISTFOLD verification log J --area A1 --surface W01-sill --event wet-match --cloth new "
     "--person rosa --on 2026-09-16 --time 10:00",
     3,
     {"visual inspection", "745.85(b)"}},
    {"no book", "$MISTFOLD --book none.book job list", 3, {"none.book", "make a new book"}},
    {"no book but a text file",
     "echo hello > text.book; $MISTFOLD --book text.book job list",
     3,
     {"text.book"}},
    {"another SQLite file",
     "sqlite3 other.book 'CREATE TABLE t(x)'; $MISTFOLD --book other.book job list",
     3,
     {"other.book"}},
    {"a folder", "mkdir -p dir.book; $MISTFOLD --book dir.book job list", 3, {"dir.book"}},
    {"a newer schema",
     "cp b.book new.book; sqlite3 new.book 'PRAGMA user_version=99';"
     "$MISTFOLD --book new.book job list",
     3,
     {"new.book", "newer"}},
    {"a book that exists", "$MISTFOLD book new --no-key", 3, {"b.book"}},
    {"nobody writes", "MISTFOLD_BY= $MISTFOLD person add --id x --name X", 2, {"--by"}},
    {"full disk for a paper", "$MISTFOLD paper record J --out /dev/full", 4, {"/dev/full"}},
    {"an empty job", "$MISTFOLD job show ''", 3, {"JOB: no job is named"}},
    {"an empty option", "$MISTFOLD job walk --job ''", 3, {"--job: no job is named"}},
    {"a folder for an export", "$MISTFOLD test import J .", 3, {".: ", "folder"}},
    {"a folder piped in", "$MISTFOLD test import J - < .", 3, {"-: ", "folder"}},
    {"a tick of no step",
     "$MISTFOLD containment tick J --area A1 --step '' --state done "
     "--person rosa --on 2026-09-14",
     2,
     {"--step", "needed"}},
    {"no folder for a paper", "$MISTFOLD paper record J --out nowhere/x.pdf", 3, {"nowhere"}},
    {"a key that is overwritten",
     "touch k.p12; echo secret | $MISTFOLD key new k.p12 --name N "
     "--passphrase-fd 0",
     3,
     {"k.p12", "there is a file of this name already"}},
    {"wrong passphrase",
     "rm -f w.p12; echo a right passphrase | $MISTFOLD key new w.p12 --name N --passphrase-fd 0 "
     ">/dev/null;"
     "echo wrong | $MISTFOLD key show w.p12 --passphrase-fd 0",
     3,
     {"w.p12", "passphrase"}},
    {"no key at all",
     "echo x > n.p12; echo x | $MISTFOLD key show n.p12 --passphrase-fd 0",
     3,
     {"n.p12"}},
    {"no paper", "echo hello > t.pdf; $MISTFOLD paper check t.pdf", 3, {"t.pdf", "PDF"}},
    {"a job that ends before it starts",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair "
     "--description d --start 2026-10-02 --end 2026-10-01",
     3,
     {"--end", "2026-10-01 lies before 2026-10-02", "swap the two days"}},
    {"a state by its letters alone",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair --description d --start 2026-10-02 --place US-NY,IA",
     3,
     {"--place: \"IA\" is not a place", "did you mean US-IA?"}},
    {"a state that there is not",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair --description d --start 2026-10-02 --place US-NY,us-io",
     3,
     {"--place: \"us-io\" is not a state or territory",
      "did you mean US-IA, US-ID, US-IL, US-IN?"}},
    {"a state and a dash behind which nothing comes",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair --description d --start 2026-10-02 --place US-IA-",
     3,
     {"--place: \"US-IA-\" is not a state or territory", "did you mean US-IA?"}},
    {"letters that are like no state's",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair --description d --start 2026-10-02 --place US-QQ",
     3,
     {"--place: \"US-QQ\" is not a state or territory", "write the state like US-IA"}},
    {"the country for a place",
     "$MISTFOLD job open --id JX --address A --building dwelling --owner-occupied yes --work "
     "repair --description d --start 2026-10-02 --place US",
     3,
     {"--place: \"US\" is not a place", "write the state like US-IA"}},
    {"limits of a state that there is not",
     "$MISTFOLD limit add --limit minor-interior --value 1 --place US-IO --citation c --status "
     "verified",
     3,
     {"--place: \"US-IO\" is not a state or territory", "did you mean US-IA"}},
    {"a certificate under a program that there is not",
     "$MISTFOLD certificate add --holder rosa --discipline renovator --number R --issuer X "
     "--issued 2024-01-05 --expires 2029-01-05 --programs US,US-WX",
     3,
     {"--programs: \"US-WX\" is not a state or territory", "did you mean US-WA, US-WI, US-WV"}},
    {"a setting of a state that there is not",
     "MISTFOLD_SETTINGS=$PWD/s $MISTFOLD settings set place US-ZZ",
     3,
     {"\"US-ZZ\" is not a state or territory", "did you mean US-AZ?"}},
    {"a state by its name, in a correction",
     "e=$($MISTFOLD entry list J | awk '/house/ { print $1; exit }');"
     "$MISTFOLD entry correct $e --set place=iowa --reason r",
     3,
     {"place", "\"iowa\" is not a place", "write the state like US-IA"}},
    {"an end corrected to before the start",
     "e=$($MISTFOLD entry list J | awk '/house/ { print $1; exit }');"
     "$MISTFOLD entry correct $e --set end=2026-09-13 --reason r",
     3,
     {"--end", "2026-09-13 lies before 2026-09-14", "correct both in one entry"}},
    {"work past midnight in one entry",
     "$MISTFOLD practice add J --area A1 --method hand --person rosa --on 2026-09-14 --began 22:00 "
     "--time 01:00",
     3,
     {"--time", "01:00 lies before 22:00, when it began",
      "log work past midnight as two entries, one for each day"}},
    {"a field said twice in a correction, by either of its names",
     "e=$($MISTFOLD entry list J | awk '/house/ { print $1; exit }');"
     "$MISTFOLD entry correct $e --set 'year-built=1931; year_built=1941' --reason r",
     3,
     {"--set: year-built is said twice; give it once"}},
    {"a tick moved to a step that its work area has not, in a correction",
     "export MISTFOLD_BOOK=c.book; rm -f c.book; cp b.book c.book;"
     "$MISTFOLD containment tick J --area A1 --step signs --state done --person rosa "
     "--renovator rosa --on 2026-09-14 --time 08:00 > /dev/null || exit 9;"
     "e=$($MISTFOLD entry list J | awk '/ tick / { print $1; exit }');"
     "$MISTFOLD entry correct $e --set step=ground-sheet --reason r",
     3,
     {"--step: the step ground-sheet is not for a work area on this side of the house"}},
    {"a certificate that expired before it was issued",
     "$MISTFOLD certificate add --holder rosa --discipline renovator --number R --issuer X "
     "--issued 2024-01-05 --expires 2019-01-05",
     3,
     {"--expires", "2019-01-05 lies before 2024-01-05"}},
    {"a program by its name",
     "$MISTFOLD certificate add --holder firm --discipline firm --number F --issuer X --issued "
     "2024-01-05 --expires 2029-01-05 --programs US,Wisconsin",
     3,
     {"--programs: \"Wisconsin\" is not a place", "write the state like US-IA"}},
    {"a setting of a place that no row names",
     "MISTFOLD_SETTINGS=$PWD/s $MISTFOLD settings set place US-IA,Nowhere",
     3,
     {"\"Nowhere\" is not a place", "write the state like US-IA"}},
    {"a decision on what was not sent yet",
     "$MISTFOLD certificate add --holder firm --discipline firm --number F --issuer X --issued "
     "2024-01-05 --expires 2029-01-05 --renewal-sent 2026-03-02 --renewal-decided 2026-03-01",
     3,
     {"--renewal-decided", "2026-03-01 lies before 2026-03-02"}},
    {"a change before there was a certificate",
     "$MISTFOLD certificate add --holder firm --discipline firm --number F --issuer X --issued "
     "2024-01-05 --expires 2029-01-05 --changed 2024-01-04",
     3,
     {"--changed", "2024-01-04 lies before 2024-01-05"}},
    {"an amendment before the change",
     "$MISTFOLD certificate add --holder firm --discipline firm --number F --issuer X --issued "
     "2024-01-05 --expires 2029-01-05 --changed 2026-01-04 --amended 2026-01-03",
     3,
     {"--amended", "2026-01-03 lies before 2026-01-04"}},
    {"a language there is none of",
     "$MISTFOLD --lang fr due",
     3,
     {"--lang: the language fr is not known", "they are en, English, and es, Spanish"}},
    {"the same behind the command, on a paper",
     "$MISTFOLD paper blank sign --out sign.pdf --lang fr",
     3,
     {"--lang: the language fr is not known"}},
    {"the same in the environment",
     "MISTFOLD_LANG=fr $MISTFOLD due",
     3,
     {"MISTFOLD_LANG: the language fr is not known"}},
    {"a step that stopped before it began",
     "$MISTFOLD step add --id s --phase clean --side both --text t --from 2026-10-02 --until "
     "2026-10-01",
     3,
     {"--until", "2026-10-01 lies before 2026-10-02"}},
    {"a question to a book that was altered: no answer, docs/threats.md",
     "sqlite3 b.book \"VACUUM INTO 'alt.book'\"; sqlite3 alt.book \"DROP TRIGGER "
     "entry_no_update; UPDATE entry SET who = 'x' WHERE kind = 'area'\"; $MISTFOLD --book "
     "alt.book gate J demo",
     4,
     {"alt.book: ", "altered outside", "entry_no_update"}},
};

static void bad_input(void **state)
{
    const bad *c = *state;
    run_result r;
    int before = entries();
    run_shell(&r, folder, c->command);
    if (r.status != c->status)
        fail_msg("exit %d, not %d: %s%s", r.status, c->status, r.out, r.err);
    for (size_t i = 0; i < 3 && c->says[i] != NULL; i++)
        if (strstr(r.err, c->says[i]) == NULL)
            fail_msg("\"%s\" is not in: %s", c->says[i], r.err);
    assert_string_equal(r.out, "");
    if (strchr(r.err, '\n') != r.err + strlen(r.err) - 1)
        fail_msg("more than one line: %s", r.err);
    assert_true(strncmp(r.err, "mistfold: ", 10) == 0);
    assert_int_equal(entries(), before);
}

/* Another process holds the write lock until the program has ended, however slow the
 * machine is: said after the busy timeout, exit 4. */
static void locked_book(void **state)
{
    run_result r;
    (void)state;
    int before = entries();
    run_shell(&r, folder,
              "mkfifo hold; ( printf 'BEGIN IMMEDIATE;\\n.shell touch locked\\n'; cat hold ) |"
              "sqlite3 b.book & for i in $(seq 300); do test -e locked && break; sleep 0.1; done;"
              "$MISTFOLD person add --id y --name Y; s=$?; echo > hold; wait; exit $s");
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "in use by another program"));
    assert_int_equal(entries(), before);
}

/* An expired certificate is accepted, proves nothing, and that is said. */
static void expired_certificate(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder,
              "$MISTFOLD test kit J --component W01.sash --tester rosa --maker m --model k "
              "--recognized yes --result negative --on 2026-08-12");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.err, "certificate was not valid on the day"));
    assert_non_null(strstr(r.out, "logged kit_test"));
    run_shell(&r, folder, "$MISTFOLD test list J | grep W01.sash");
    assert_non_null(strstr(r.out, "presumed"));
}

/* Ctrl-C at the question for a passphrase: the terminal shows again what is typed (stty(1)). */
static void ctrl_c_at_the_passphrase(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder,
              "python3 " MF_TESTS "/cli/drive.py '<ctrl-c>' sh -c 'trap : INT; $MISTFOLD key new "
              "p.p12 --name N; echo left $?; stty -a'");
    assert_non_null(strstr(r.out, "left 130"));
    assert_non_null(strstr(r.out, " echo "));
}

int main(void)
{
    enum { N = sizeof cases / sizeof cases[0] };
    struct CMUnitTest tests[N + 3];
    EACH_ROW(tests, cases, bad_input);
    tests[N] = (struct CMUnitTest)cmocka_unit_test(locked_book);
    tests[N + 1] = (struct CMUnitTest)cmocka_unit_test(expired_certificate);
    tests[N + 2] = (struct CMUnitTest)cmocka_unit_test(ctrl_c_at_the_passphrase);
    return cmocka_run_group_tests(tests, make_book, remove_folder);
}
