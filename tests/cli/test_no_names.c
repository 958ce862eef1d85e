/* Who lives there is told by no export with --no-names, and by no bundle without occupants,
 * wherever it was logged. Constructed: what must not show has the letters QX. */
#include "support/shell_kit.h"

/* N-1: its owner lives in one of the units; of its two openings only one says so. N-2: the owner
 * lives elsewhere, the tenant in 2B. */
/* N-4: its tenants are named in notes in other letters; one was mistyped, one has moved out. */
#define AS_EVER_LOGGED                                                                             \
    "id() { $MISTFOLD entry list N-4 | awk -v n=$1 '$4 == \"party\" && ++i == n {print $1}'; }\n"  \
    "m job open --id N-4 --address '5 Told Street' --owner-occupied no --description d $s --note " \
    "'key at Ona QXspelt; old Wim QXgone; ask URS\xC3\x9A QXS\xC3\x93LE or ursu qxsole'\n"         \
    "m party add N-4 --id a --role occupant --name 'Ona QXspelt'; m party add N-4 --id b --role "  \
    "occupant --name 'Wim QXgone'; m party add N-4 --id c --role occupant --name 'Urs\xC3\xBA "    \
    "QXs\xC3\xB3le'\n"                                                                             \
    "m entry correct $(id 1) --set 'name=Ona QXspelled' --reason 'a slip'; m entry withdraw "      \
    "$(id 2) --reason 'moved out'\n"                                                               \
    "m notice add N-4 --party c --method self-certified --on 2026-11-29 --reason 'away' "          \
    "--deliverers rosa --how 'left at the door' --unit '5 Told Street' --language en --signer "    \
    "'Ana QXsole'; m entry correct $(\"$MISTFOLD\" entry list N-4 | awk '$4 == \"notice\" {print " \
    "$1}') --set 'signer=Ana Xsole' --reason 'a slip'\n"                                           \
    "m area add N-4 --id A1 --side interior --place hall --length 9 --width 9\n"                   \
    "m dust add N-4 --area A1 --place 'bed of ana qxsole' --surface floor --sampler rosa "         \
    "--laboratory L --nllap yes --required yes --result 3 --on 2026-11-29\n"

static int logged(void **state)
{
    if (shell_office(state) != 0)
        return r.status;
    setenv("MISTFOLD_QUIET", "1", 1);
    run("set -e; m() { \"$MISTFOLD\" \"$@\" >/dev/null; }; $MISTFOLD book copy t.book --device "
        "truck "
        "--no-key >/dev/null\n"
        "s='--year-built 1940 --work repair --start 2026-12-01 --building multi-unit'\n"
        "m job open --id N-1 --address '1 QX Lane' --unit QX9 --owner-occupied no --description "
        "'at 1 QX Lane' $s\n"
        "m --book t.book job open --id N-1 --address '1 QX Lane' --unit QX9 --owner-occupied yes "
        "--description d $s; m book merge t.book || [ $? -eq 1 ]\n"
        "m party add N-1 --id owner --role owner --name 'Ida QXsample' --address '2 QX Road'\n"
        "m party vacant N-1 --unit QX9 --on 2026-09-01 --said-by 'Ida QXsample, owner'\n"
        "m area add N-1 --id A1 --side interior --place hall --length 9 --width 9 --unit QX9\n"
        "m notice add N-1 --party owner --method self-certified --on 2026-11-29 --reason 'Ida "
        "QXsample was away' --deliverers rosa --how 'left at 1 QX Lane, the door of Ida QXsample' "
        "--unit '1 QX Lane' --language en --signer 'Ida QXsample'\n"
        "cp out/sign-es.pdf 'Ida QXsample.pdf'; m attach add N-1 'Ida QXsample.pdf' --note 'of Ida "
        "QXsample'\n"
        "m job open --id N-2 --address '3 Told Street' --unit 2B --owner-occupied no --description "
        "d $s\n"
        "m party add N-2 --id owner --role owner --name 'Olaf QXother'\n"
        "m party add N-2 --id tenant --role occupant --name 'Ona QXtenant' --address '3 Told "
        "Street' --unit 2B\n"
        "m area add N-2 --id A1 --side interior --place hall --length 9 --width 9 --unit 2B\n"
        "m job open --id N-3 --address '4 Kept Street' --unit 7K --owner-occupied no "
        "--description 'sash for Uma QXtold' $s; m party add N-3 --id tenant --role occupant "
        "--name 'Uma QXtold' --unit 7K\n" AS_EVER_LOGGED);
    return r.status;
}

static void no_export_tells(void **state)
{
    (void)state;
    run("e() { $MISTFOLD export \"$@\" --on 2026-11-30; }\n"
        "all() { e --format csv $1; e --format csv --kind findings $1; e --format csv --kind due "
        "$1; for k in house party vacancy area notice attachment; do e --format csv --kind $k $1; "
        "done; e --format jsonl $1; e --format ics $1; e N-1 --format jsonl $1; e N-1 --format csv "
        "$1; e --format xlsx --out x.xlsx $1 >/dev/null; unzip -p x.xlsx; rm x.xlsx; }\n"
        "all --no-names > hidden; all > open; tr -d '\\r\\n' < open | sed 's/^ //' | grep -o QX | "
        "wc -l; grep -a -i -o '.\\{0,40\\}QX.*' hidden");
    if (r.out[0] == '0' || strchr(r.out, '\n')[1] != '\0')
        fail_msg("open, and told all the same: %s", r.out);
    run("grep -a -c '3 Told Street' hidden; grep -a 'left at' hidden | head -1");
    says("left at (left out), the door of (left out)"); /* the rest stays */
    assert_true(r.out[0] != '0');                       /* nobody's home who owns it */
    run("$MISTFOLD export --format csv --kind area --no-names | grep ^N-; $MISTFOLD export "
        "--format csv --kind findings --no-names --on 2026-11-30 | grep '^N-.*Unit'");
    says("(left out)");
    says(",2B,");
    says("Unit (left out): ");
    says("Unit 2B: ");
}

static void no_bundle_tells_of_an_owner_who_lives_there(void **state)
{
    (void)state;
    run("$MISTFOLD job bundle --out quiet --without-occupants >/dev/null; sh quiet/verify.sh "
        ">/dev/null && grep -rl 'Ida QXsample' quiet; grep -rl 'Ona QXtenant' quiet; grep -rc "
        "'Olaf QXother' quiet/job-N-2/entries.jsonl; wc -l < quiet/job-N-1/withheld.txt");
    assert_string_equal(r.out, "1\n4\n");
}

/* Also as it was mistyped, in capitals, without accents: in the bundle each entry is left out. */
static void no_name_as_it_was_ever_logged(void **state)
{
    (void)state;
    run("$MISTFOLD export --format csv --kind house --no-names | grep ^N-4; $MISTFOLD export "
        "--format jsonl --no-names | grep -o 'key at[^\"]*\"'; $MISTFOLD export --format csv "
        "--kind "
        "findings --no-names --on 2026-11-30 | grep '^N-4.*dust-lab'");
    says("key at (left out); old (left out); ask (left out) or (left out)\r\n");
    says("key at (left out); old (left out); ask (left out) or (left out)\"\n");
    says("dust-laboratory,met,bed of (left out),");
    run("$MISTFOLD job bundle N-4 --without-occupants --out ever; grep -ril qx ever; wc -l < "
        "ever/withheld.txt");
    says("8\n"); /* house, three parties, a notice, two corrections, the sample */
    /* who is called so gets no bundle */
    run("m() { $MISTFOLD \"$@\" >/dev/null; }; m job open --id N-QX --address '6 Told Street' "
        "--owner-occupied no --description d --year-built 1940 --work repair --start 2026-12-01 "
        "--building dwelling && m party add N-QX --id a --role occupant --name QX; $MISTFOLD job "
        "bundle N-QX --without-occupants --out called");
    answers(3, "");
    notes("job N-QX is called by the name of somebody who lives there");
}

/* What stands in an entry that is left out stands in no other text: of N-3 that of the house. */
static void no_text_of_a_bundle_tells_what_its_entries_do_not(void **state)
{
    (void)state;
    run("$MISTFOLD job bundle --out kept --without-occupants >/dev/null; $MISTFOLD job bundle N-3 "
        "--out kept3 --without-occupants >/dev/null; grep -rl 'QXtold\\|Kept Street\\|7K' kept "
        "kept3; sh kept/verify.sh >/dev/null; echo $?; ls kept | grep N-3; sed -n 3,5p "
        "kept3/summary.txt");
    assert_string_equal(r.out, "0\njob-N-3\njob          N-3\n"
                               "address, year built, work and start\n             withheld: the "
                               "entry names an occupant, or an owner who lives there\n");
    run("grep -A1 ^N-3 kept/index.txt");
    says("N-3  withheld: the entry names an occupant, or an owner who lives there\n    withheld, "
         "preparing\n");
    run("grep -h -A1 ^N-2 kept/index.txt; grep Told kept/job-N-2/summary.txt");
    says("3 Told Street, 2B\n    2026-12-01");
    says("address      3 Told Street, 2B\n"); /* whose entry tells it */
    /* also where it was corrected since: one of the two is left out */
    run("$MISTFOLD entry correct $($MISTFOLD entry list N-3 | awk '$4 == \"house\" {print $1}') "
        "--set 'description=sash of 7K' --reason 'no names here' >/dev/null && $MISTFOLD job "
        "bundle N-3 --out kept4 --without-occupants >/dev/null; grep -r QXtold kept4; sed -n 5p "
        "kept4/summary.txt");
    says("withheld: ");
}

/* Each export leaves out the names of all jobs: of N-2's owner, of its tenant, of N-1's home where
 * an owner lives. A unit alone is no name, and one of the crew keeps hers. */
static void no_job_tells_of_another(void **state)
{
    (void)state;
    run("m() { $MISTFOLD \"$@\" >/dev/null; }; m job open --id N-5 --address '7 Told Street' "
        "--owner-occupied no --description 'as at Olaf QXother, then OLAF-QXOTHER; near 1 QX Lane; "
        "ask \xC3\x93na Qxtenant, 2B' --year-built 1940 --work repair --start 2026-12-01 "
        "--building "
        "dwelling; m party add N-2 --id c --role occupant --name 'Rosa Muestra'\n"
        "for job in '' N-5; do for f in 'jsonl' 'csv --kind house' 'xlsx --out y.xlsx'; do\n"
        "rm -f y.xlsx; $MISTFOLD export $job --format $f --no-names > y\n"
        "[ ! -f y.xlsx ] || unzip -p y.xlsx > y; grep -a -o 'as at [^<\"]*2B' y\n"
        "grep -a -c -i 'qxother\\|qxtenant' y; done; done\n"
        "$MISTFOLD export N-5 --format csv --kind person --no-names | grep -c 'Rosa Muestra'");
#define KEPT "as at (left out), then (left out); near (left out); ask (left out), 2B\n0\n"
    assert_string_equal(r.out, KEPT KEPT KEPT KEPT KEPT KEPT "1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_export_tells),
        cmocka_unit_test(no_bundle_tells_of_an_owner_who_lives_there),
        cmocka_unit_test(no_text_of_a_bundle_tells_what_its_entries_do_not),
        cmocka_unit_test(no_name_as_it_was_ever_logged), /* it opens N-QX */
        cmocka_unit_test(no_job_tells_of_another),       /* and N-5 */
    };
    return cmocka_run_group_tests(tests, logged, shell_stop);
}
