/* Exports of one job and of the firm, read by independent readers (readers.py). */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void exports_are_read_by_others(void **state)
{
    (void)state;
    run("$MISTFOLD export J-1926 --format csv --kind reading > r.csv && python3 " MF_TESTS
        "/cli/readers.py csv r.csv");
    says("147 rows entry,corrected_by,number");
    run("$MISTFOLD export J-1926 --format csv --on 2026-09-25 > f.csv && python3 " MF_TESTS
        "/cli/readers.py csv f.csv");
    says("requirement,verdict,subject,says");
    run("$MISTFOLD export J-1926 --format jsonl --out j.jsonl && python3 " MF_TESTS
        "/cli/readers.py jsonl j.jsonl");
    says("component:138 ");
    says("reading:147 ");
    run("$MISTFOLD export J-1926 --format xlsx --out x.xlsx && stat -c %a x.xlsx && "
        "python3 " MF_TESTS "/cli/readers.py xlsx x.xlsx");
    says("600\n");
    says("reading 147 rows 294 numbers"); /* number and result of each */
    run("$MISTFOLD export J-1926 --format ics > c.ics && python3 " MF_TESTS
        "/cli/readers.py ics c.ics");
    says("20260914 20260917 J-1926.work@mistfold.invalid");
    /* completed 2026-09-16, kept three years (40 CFR 745.86(a)) */
    says("20290916 20290917 J-1926.keep-until@mistfold.invalid");
    run("$MISTFOLD export J-2000 --format ics --on 2026-11-01 > c.ics && python3 " MF_TESTS
        "/cli/readers.py ics c.ics");
    says("20261102 20261103 J-2000.due.office@mistfold.invalid");
}

/* The whole firm: J-1926 was at work from 2026-09-14 to 16, J-2000 starts on 2026-11-02 and is
 * not completed. */
static void the_firm_by_days_and_states(void **state)
{
    static const struct {
        const char *options, *ids;
    } cases[] = {
        {"", "job J-1926 J-2000"},
        {"--state closed", "job J-1926"},
        {"--state preparando", "job J-2000"},
        {"--until 2026-09-13", "job"},
        {"--until 2026-09-14", "job J-1926"},
        {"--since 2026-09-16 --until 2026-11-01", "job J-1926"},
        {"--since 2026-09-17", "job J-2000"},
        {"--since 2026-11-02 --until 2026-11-02", "job J-2000"},
        {"--since 2026-11-20", "job J-2000"}, /* it goes on, as nobody said else */
        {"--since 2026-12-02", "job"},        /* not beyond the day asked about */
        {"--since 2026-09-01 --state verified", "job"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char line[300];
        snprintf(line, sizeof line,
                 "$MISTFOLD export --format csv --on 2026-12-01 %s | cut -d, -f1 | paste -sd ' '",
                 cases[i].options);
        run(line);
        if (strncmp(r.out, cases[i].ids, strlen(cases[i].ids)) != 0 ||
            r.out[strlen(cases[i].ids)] != '\n')
            fail_msg("%s: %s%s", cases[i].options, r.out, r.err);
    }
    run("$MISTFOLD export --format csv --on 2026-12-01 > f.csv; python3 " MF_TESTS
        "/cli/readers.py csv f.csv; cat f.csv");
    says("2 rows job,address,unit,start,end,completed,state,rule,demo,signs,handover,inspection");
    says(
        "J-1926,\"12 Sample Lane, Exampleton\",,2026-09-14,2026-09-16,2026-09-16,closed,yes,no,yes,"
        "yes,yes,2026-09-25,2029-09-16");
    run("$MISTFOLD export --format csv --kind due --on 2026-11-03");
    says("J-2000,2026-11-02,yes,office,office,before demo starts: papers and people,");
    run("$MISTFOLD export --format csv --kind person > p.csv; cat p.csv");
    says("job,entry,corrected_by,id,name\r\n,office/2,,rosa,Rosa Muestra"); /* once, of no job */
    run("$MISTFOLD export --format ics --on 2026-12-01 > f.ics && python3 " MF_TESTS
        "/cli/readers.py ics f.ics");
    says("J-1926.work@mistfold.invalid");
    says("J-2000.work@mistfold.invalid");
    says("20270520 20270521 ines.certificate.office/8@mistfold.invalid");
    run("$MISTFOLD export --format xlsx --out f.xlsx && python3 " MF_TESTS
        "/cli/readers.py xlsx f.xlsx; $MISTFOLD export --format jsonl --out f.jsonl && "
        "python3 " MF_TESTS "/cli/readers.py jsonl f.jsonl");
    says("jobs 2 rows");
    says("house 2 rows");
    says("person 4 rows");
    says("house:2 ");
    says("person:4 ");
    run("$MISTFOLD export --format csv --state verified >/dev/null");
    notes("No job is like that.");
    run("$MISTFOLD export J-1926 --format csv --state closed");
    refuses(2, "they pick among all jobs, and one is named");
    run("$MISTFOLD export --format csv --since 2026-09-02 --until 2026-09-01");
    refuses(3, "--until: it lies before --since");
    run("$MISTFOLD export --format jsonl | head -1 >/dev/null");
    assert_string_equal(r.err, ""); /* a reader that has seen enough */
}

static void names_are_left_out(void **state)
{
    (void)state;
    run("for f in csv jsonl xlsx ics; do $MISTFOLD export J-1926 --format $f --no-names --out "
        "n.$f >/dev/null; done; $MISTFOLD export J-1926 --format csv --kind party --no-names > "
        "p.csv; "
        "unzip -p n.xlsx > n.txt || python3 -c \"import zipfile; z = zipfile.ZipFile('n.xlsx'); "
        "open('n.txt', 'wb').write(b''.join(z.read(n) for n in z.namelist()))\"; "
        "grep -l -e 'Ida Sample' -e 'Uk.*zka' -e 'Sample Hill' n.csv n.jsonl n.txt n.ics p.csv");
    assert_string_equal(r.out, "");
    run("$MISTFOLD export J-1926 --format csv --kind party --quiet");
    says("Ida Sample"); /* the same search finds her otherwise */
    /* Where the owner lives the address of the work is theirs; nobody of J-2000 does. */
    run("cp b.book o.book; export MISTFOLD_BOOK=o.book MISTFOLD_QUIET=1; $MISTFOLD job open --id "
        "J-9 "
        "--address '5 Own St' --unit 'Flat Q' --building dwelling --owner-occupied yes --work "
        "repair "
        "--description d --start 2026-11-02 >/dev/null; e() { $MISTFOLD export $1 --format $2 "
        "--out "
        "$1.$2 $3 >/dev/null; [ $2 != xlsx ] || unzip -p $1.$2 > $1.txt; grep -c -m 1 -e '5 Own "
        "St' -e "
        "'Flat Q' -e '3 Calle' $1.${2%xlsx}$([ $2 != xlsx ] || echo txt); }; "
        "for f in jsonl ics xlsx; do e J-9 $f; e J-9 $f --no-names; e J-2000 $f --no-names; done; "
        "$MISTFOLD export J-9 --format csv --kind house --no-names | grep -c -e 'Own St' -e 'Flat "
        "Q'");
    assert_string_equal(r.out, "1\n0\n1\n1\n0\n1\n1\n0\n1\n0\n");
}

/* A field keeps 4000 bytes of text (draft.c); constructed. */
static void long_texts_are_whole(void **state)
{
    (void)state;
    run("n=$(python3 -c \"print('\303\261' * 1990)\"); cp b.book l.book; export "
        "MISTFOLD_BOOK=l.book; $MISTFOLD job open --id J-3 --address \"$(echo \"$n\" | cut "
        "-c1-800)\" "
        "--building dwelling --owner-occupied no --work repair --description d --start 2026-11-02 "
        "--note \"$n\" >/dev/null && for f in csv xlsx ics jsonl; do $MISTFOLD export J-3 --format "
        "$f "
        "$([ $f = csv ] && echo --kind house) --out l.$f >/dev/null && python3 " MF_TESTS
        "/cli/readers.py $f l.$f; done; grep -c \"$n\" l.csv l.jsonl; "
        "unzip -p l.xlsx xl/sharedStrings.xml | grep -c \"$n\"");
    assert_int_equal(r.status, 0);
    says("1 rows entry");
    says("house 1 rows");
    says("20261102 20261103 J-3.work@mistfold.invalid");
    says("l.csv:1\nl.jsonl:1\n1\n");
}

/* Ids of 131 openings, 654 bytes; constructed. */
static void long_lists_are_whole(void **state)
{
    (void)state;
    run("cp b.book l.book; export MISTFOLD_BOOK=l.book; (echo id,kind,room,elevation; seq -f "
        "'W%g,window,hall,north' 100 230) > o.csv; $MISTFOLD opening import J-2000 o.csv "
        ">/dev/null && "
        "ids=$(seq -s, -f 'W%g' 100 230) && $MISTFOLD area add J-2000 --id A1 --side interior "
        "--place "
        "hall --openings $ids --length 10 --width 10 >/dev/null && $MISTFOLD area list J-2000 "
        "--json "
        "| grep -c \"\\\"$ids\\\"\"; $MISTFOLD export J-2000 --format jsonl | grep -c "
        "\"\\\"$ids\\\"\"; "
        "$MISTFOLD area list J-2000 --quiet");
    says("1\n1\n");
    says(",W138,W…  10"); /* a line of a table stays one */
}

/* A cell that a spreadsheet would run as a formula is made text. */
static void no_formula_from_a_name(void **state)
{
    (void)state;
    run("cp b.book e.book; $MISTFOLD --book e.book party add J-2000 --id o --role owner --name "
        "'=1+1, \"x\"' >/dev/null; $MISTFOLD --book e.book export J-2000 --format csv --kind "
        "party");
    says("\"'=1+1, \"\"x\"\"\"");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exports_are_read_by_others), cmocka_unit_test(the_firm_by_days_and_states),
        cmocka_unit_test(names_are_left_out),         cmocka_unit_test(long_texts_are_whole),
        cmocka_unit_test(long_lists_are_whole),       cmocka_unit_test(no_formula_from_a_name),
    };
    return cmocka_run_group_tests(tests, shell_office, shell_stop);
}
