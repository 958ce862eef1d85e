/* job open --from: a whole house from one text file (docs/house-file.md), or nothing of it. */
#include "support/shell_kit.h"

#include <stdio.h>

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "b.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    setenv("MISTFOLD_LANG", "en", 1);
    run("set -e; m=\"$MISTFOLD --quiet\"; $m book new --no-key --device t;"
        "$m firm add --name 'Example Windows' --address '1 Sample St';"
        "$m person add --id rosa --name 'Rosa Muestra';"
        "$m certificate add --holder firm --discipline firm --number F-1 --issuer X "
        "  --issued 2024-01-05 --expires 2029-01-04;"
        "$m certificate add --holder rosa --discipline renovator --number R-1 --issuer X "
        "  --issued 2024-01-05 --expires 2029-01-04 --hands-on yes");
    return r.status;
}

static void book_says(const char *sql, const char *expected)
{
    char line[400];
    snprintf(line, sizeof line, "sqlite3 -readonly b.book \"%s\"", sql);
    run(line);
    assert_string_equal(r.out, expected);
}

/* A small honest job in one command: what is left before demo are the steps of the crew. */
static void a_small_job_is_one_command(void **state)
{
    (void)state;
    run("cp b.book s.book; cp " MF_SAMPLE "/small-house.txt h.txt");
    run("$MISTFOLD --book s.book job open --from h.txt");
    assert_int_equal(r.status, 0);
    says("logged 1 house, 1 party, 2 opening, 18 component, 2 area, 3 surface, "
         "1 assignment, 1 notice\nnext: mistfold test import J-1950 readings.csv\n");
    notes("presumed to be lead-based");
    run("$MISTFOLD --book s.book --json gate J-1950 demo --on 2026-09-14 |"
        " python3 " MF_TESTS "/cli/left_over.py");
    assert_string_equal(r.out, "");
    run("$MISTFOLD --book s.book containment tick J-1950 --area A1 --step signs --state done "
        "--person rosa --renovator rosa --on 2026-09-14 --time 08:00");
    assert_int_equal(r.status, 0);
}

/* Some editors begin a file with a byte order mark: it says nothing. */
static void a_mark_before_it_is_skipped(void **state)
{
    (void)state;
    run("cp b.book m.book; (printf '\\357\\273\\277'; cat " MF_SAMPLE "/small-house.txt) > m.txt; "
        "$MISTFOLD --book m.book job open --from m.txt");
    assert_int_equal(r.status, 0);
    says("logged 1 house, 1 party, 2 opening");
}

/* What was not said stays unknown, and no part is free by being listed. */
static void nothing_becomes_a_yes(void **state)
{
    (void)state;
    run("cp b.book u.book; grep -v 'for-comp\\|child\\|elder\\|zero\\|assisted\\|ducts' " MF_SAMPLE
        "/small-house.txt > u.txt; $MISTFOLD --book u.book job open --from u.txt;"
        "sqlite3 -readonly u.book \"SELECT for_compensation IS NULL, child_under_6 IS NULL, "
        "elder_or_disabled IS NULL, assisted IS NULL FROM house\";"
        "sqlite3 -readonly u.book \"SELECT count(*) FROM component WHERE painted IS NULL AND "
        "affected IS NULL\"; sqlite3 -readonly u.book \"SELECT count(*) FROM area WHERE ducts "
        "IS NULL\"; $MISTFOLD --book u.book --quiet test list J-1950 | grep -c presumed");
    says("1|1|1|1\n18\n2\n18\n");
}

/* Sizes: 12 x 10 is the floor, 2.5 x 0.5 a sill, in exact hundredths; 29.3 in x 6 in is
 * 1.2208 sq ft, which is rounded up (by hand). */
static void sizes_are_worked_out(void **state)
{
    (void)state;
    run("cp b.book z.book; sed 's/^usual-surfaces.*/usual-surfaces = 29.3 in x 6 in/' " MF_SAMPLE
        "/small-house.txt > z.txt; $MISTFOLD --book z.book job open --from z.txt;"
        "sqlite3 -readonly z.book 'SELECT id, kind, size_sqft_100 FROM surface'");
    says("W01-sill|sill|123\nW02-sill|sill|123\nA1-floor|floor|12000\n");
}

/* A window that has no sill inside has none to wipe. */
static void a_sill_that_is_not_there(void **state)
{
    (void)state;
    run("cp b.book y.book; sed 's/^\\[opening W01 W02\\]/[opening W02]\\nabsent = "
        "interior-sill\\nkind = "
        "window\\nroom = kitchen\\nelevation = north\\n[opening W01]/' " MF_SAMPLE
        "/small-house.txt > y.txt; $MISTFOLD --book y.book job open --from y.txt;"
        "sqlite3 -readonly y.book 'SELECT id FROM surface'");
    says("W01-sill\nA1-floor\n");
    says_not("W02-sill");
}

/* An id that stands twice is in no book: the other line is named. */
static void an_id_twice(void **state)
{
    (void)state;
    run("printf '[job J-6]\\naddress = 6 Row\\nbuilding = dwelling\\nowner-occupied = yes\\nwork = "
        "repair\\ndescription = d\\nstart = 2026-09-14\\n[party owner]\\nrole = owner\\nname = "
        "A\\n[party owner]\\nrole = owner\\nname = B\\n' > twice.txt; $MISTFOLD job open --from "
        "twice.txt");
    assert_int_equal(r.status, 3);
    notes("twice.txt:11, id: the id owner stands in line 8 as well");
}

/* All that is wrong at once, by line; what hangs on it is not told again; nothing is kept. */
static void every_fault_by_its_line(void **state)
{
    (void)state;
    run("cat > bad.txt <<'END'\n"
        "[job J-5]\n"
        "address = 5 Sample Road\n"
        "year-built = 19x0\n"
        "building = house\n"
        "owner-occupied = yes\n"
        "work = window-replacement\n"
        "description = d\n"
        "start = 2026-09-31\n"
        "[window W01]\n"
        "kind = window\n"
        "[opening W01]\n"
        "kind = window\n"
        "color = red\n"
        "room = kitchen\n"
        "usual-parts = wood\n"
        "[area A1]\n"
        "side = interior\n"
        "openings = W01, W07\n"
        "place = kitchen\n"
        "size = 12\n"
        "one more line\n"
        "END\n"
        "$MISTFOLD job open --from bad.txt");
    assert_int_equal(r.status, 3);
    assert_string_equal(r.out, "");
    notes("bad.txt:3, year-built: \"19x0\" is not a number");
    notes("bad.txt:4, building: \"house\"");
    notes("bad.txt:8, start: \"2026-09-31\" does not exist");
    notes("bad.txt:9: there is no such section");
    notes("bad.txt:13: there is no color in a section opening");
    notes("bad.txt:11, elevation: it is needed");
    notes("bad.txt:20: the size of a work area");
    notes("bad.txt:21: the line is neither");
    notes("nothing of the file was kept");
    assert_null(strstr(r.err, "W01.sash"));
    book_says("SELECT count(*) FROM house; SELECT count(*) FROM entry WHERE kind = 'opening'",
              "0\n0\n");
}

static void refused(const char *command, const char *part)
{
    run(command);
    assert_true(r.status == 2 || r.status == 3);
    notes(part);
    book_says("SELECT count(*) FROM house", "0\n");
}

static void what_is_no_house_is_refused(void **state)
{
    (void)state;
    refused("printf '# nothing\\n' > e.txt; $MISTFOLD job open --from e.txt",
            "does not begin with one section [job ID]");
    refused("printf 'a\\0b' > e.txt; $MISTFOLD job open --from e.txt", "not UTF-8 text");
    refused("printf '[job J\\n' > e.txt; $MISTFOLD job open --from e.txt", "no ] at its end");
    refused("printf 'a = b\\n[job J]\\n' > e.txt; $MISTFOLD job open --from e.txt",
            "e.txt:1: it stands in no section");
    run("printf '[jop J]\\naddress = A\\n' > e.txt; $MISTFOLD job open --from e.txt");
    notes("e.txt:1: there is no such section");
    assert_null(strstr(r.err, "e.txt:2")); /* whatever that section is, it stands in it */
    refused("cp " MF_SAMPLE "/small-house.txt h.txt; $MISTFOLD job open --from h.txt --id K",
            "the file says all of the house");
    refused("$MISTFOLD job open --dry-run", "the file says all of the house");
    refused("sed 's/^year.*/&\\n&/' h.txt > e.txt; $MISTFOLD job open --from e.txt",
            "said twice in this section");
    refused("sed 's/^usual-parts.*/&\\n&/' h.txt > e.txt; $MISTFOLD job open --from e.txt",
            "said twice in this section");
    refused("sed 's/^side = int.*/side = exterior/' h.txt > e.txt; $MISTFOLD job open --from e.txt",
            "usual-surfaces is for a work area inside");
}

static void a_dry_run_writes_nothing(void **state)
{
    (void)state;
    run("cp " MF_SAMPLE "/small-house.txt h.txt; $MISTFOLD job open --from h.txt --dry-run");
    assert_int_equal(r.status, 0);
    says("nothing written; would log 1 house");
    book_says("SELECT count(*) FROM house", "0\n");
    run("$MISTFOLD --json job open --from h.txt --dry-run");
    assert_string_equal(r.out, "{\"job\": \"J-1950\", \"entries\": 29, \"written\": false}\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_job_is_one_command),
        cmocka_unit_test(nothing_becomes_a_yes),
        cmocka_unit_test(a_mark_before_it_is_skipped),
        cmocka_unit_test(sizes_are_worked_out),
        cmocka_unit_test(a_sill_that_is_not_there),
        cmocka_unit_test(every_fault_by_its_line),
        cmocka_unit_test(an_id_twice),
        cmocka_unit_test(what_is_no_house_is_refused),
        cmocka_unit_test(a_dry_run_writes_nothing),
    };
    return cmocka_run_group_tests(tests, start, shell_stop);
}
