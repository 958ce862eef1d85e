/* The command that each finding names (src/cli/mend.inc): every requirement has one or says why
 * none can mend it, every command and option stands in the program's own help, and every field
 * that is corrected exists. What `gate` prints is run. */
#include "support/shell_kit.h"

#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/kind.h>
#include <mistfold/words.h>
#include <stdio.h>
#include <stdlib.h>

#define MEND(id, command) {id, command, NULL},
#define NO_MEND(id, why)  {id, NULL, why},
static const struct {
    const char *id, *command, *why;
} rows[] = {
#include "cli/mend.inc"
};
enum { N_ROWS = sizeof rows / sizeof rows[0] };

static bool has_row(const char *id)
{
    size_t n = 0;
    for (size_t i = 0; i < N_ROWS; i++)
        n += strcmp(rows[i].id, id) == 0;
    if (n > 1)
        fail_msg("%s has two rows", id);
    return n == 1;
}

static void every_requirement(void **state)
{
    size_t n;
    const mf_requirement *const *all = mf_requirements(&n);
    (void)state;
    for (size_t i = 0; i < n; i++) {
        bool step = mf_step_named(all[i]->id) != NULL;
        if (has_row(all[i]->id) == step)
            fail_msg("%s %s", all[i]->id, step ? "is a step and has a row" : "has no row");
    }
    for (size_t i = 0; i < N_ROWS; i++)
        if (mf_words2(MF_LANG_EN, "req", rows[i].id) == NULL &&
            mf_words2(MF_LANG_EN, "why", rows[i].id) == NULL)
            fail_msg("%s is no requirement and no reason", rows[i].id);
    for (size_t i = 0; i < N_ROWS; i++)
        if (rows[i].command == NULL && strlen(rows[i].why) < 10)
            fail_msg("%s: why can no command mend it?", rows[i].id);
}

/* "year-built=..." of "--set year-built=...": the option of some kind of entry. */
static void field_exists(const char *id, const char *word, size_t len)
{
    size_t n;
    const mf_kind *kinds = mf_kinds(&n);
    for (size_t k = 0; k < n; k++)
        for (size_t f = 0; f < kinds[k].n_fields; f++)
            if (strlen(kinds[k].fields[f].option) == len &&
                strncmp(kinds[k].fields[f].option, word, len) == 0)
                return;
    fail_msg("%s corrects no field: %.*s", id, (int)len, word);
}

static void check_command(const char *id, const char *command)
{
    char line[300], option[60], group[32], action[32];
    assert_int_equal(sscanf(command, "%31s %31s", group, action), 2);
    snprintf(line, sizeof line, "$MISTFOLD %s %s --help", group, action);
    run(line);
    if (r.status != 0)
        fail_msg("%s: there is no command %s %s", id, group, action);
    for (const char *at = strstr(command, " --"); at != NULL; at = strstr(at + 1, " --")) {
        size_t len = strcspn(at + 3, " ");
        snprintf(option, sizeof option, "  --%.*s ", (int)len, at + 3);
        if (strstr(r.out, option) == NULL)
            fail_msg("%s: %s %s has no option%s", id, group, action, option);
    }
    const char *set = strstr(command, "--set ");
    const char *at = set == NULL ? "" : set + strlen("--set ");
    at += at[0] == '"'; /* several, parted by ';' */
    for (const char *equals; (equals = strchr(at, '=')) != NULL; at = strchr(equals, ';') + 1) {
        field_exists(id, at, (size_t)(equals - at));
        if (strchr(equals, ';') == NULL)
            break;
    }
}

static void every_command_exists(void **state)
{
    (void)state;
    for (size_t i = 0; i < N_ROWS; i++)
        if (rows[i].command != NULL)
            check_command(rows[i].id, rows[i].command);
}

/* What is known is filled in, what only its author knows is not, in words and in JSON. */
static void gate_names_it(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; e=$($MISTFOLD --book c.book export J-1926 --format csv --kind "
        "notice | grep ',\\?owner,' | cut -d, -f1); $MISTFOLD --book c.book entry withdraw $e "
        "--reason 'none' > /dev/null; $MISTFOLD --book c.book gate J-1926 demo");
    says("    do: mistfold notice add J-1926 --party owner --method acknowledged --on ... "
         "--signed-on ... --signer ...");
    run("$MISTFOLD --book c.book --lang es gate J-1926 demo");
    says("    orden: mistfold notice add J-1926 --party owner");
    run("$MISTFOLD --book c.book gate J-1926 demo --json");
    says("\"command\": \"mistfold notice add J-1926 --party owner --method acknowledged");
    says("\"command\": null");
    run("cp out/demo.book c.book; $MISTFOLD --book c.book practice add J-1926 --area A1 --method "
        "hand --person teo --on 2026-09-17 > /dev/null; $MISTFOLD --book c.book gate J-1926 signs");
    says("    do: mistfold containment tick J-1926 --area A1 --step barriers-whole --state ... "
         "--person ... --renovator ... --on 2026-09-17 --time ...");
    says("    do: mistfold cleaning walk J-1926 --area A1\n");
    says("    do: mistfold verification walk J-1926 --area A1\n");
}

/* A room that is finished holds up demo of the whole job, and the text says how to ask for the
 * next one. */
static void a_finished_area_is_not_asked_for(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; $MISTFOLD --quiet --book c.book entry withdraw $($MISTFOLD "
        "--quiet "
        "--book c.book export J-1926 --format csv --kind completion | tail -1 | cut -d, -f1) "
        "--reason 'A2 goes on'; $MISTFOLD --book c.book gate J-1926 demo | tr -s ' \\n' ' '");
    says("Where no work is left in A1, ask for the work area that is next alone: mistfold gate JOB "
         "demo --area AREA");
    run("$MISTFOLD --book c.book --lang es gate J-1926 demo | tr -s ' \\n' ' '");
    says("Si en A1 ya no queda obra, pregunte solo por el área que sigue: mistfold gate JOB demo "
         "--area AREA");
}

/* A step of each list, by the one template. */
static void steps_by_one_template(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; for s in mop ducts; do for e in $($MISTFOLD --book c.book export "
        "J-1926 --format csv --kind tick | grep \"A1,$s,\" | cut -d, -f1); do $MISTFOLD --book "
        "c.book entry withdraw $e --reason 'not so' > /dev/null; done; done; $MISTFOLD --book "
        "c.book audit J-1926");
    says("    do: mistfold cleaning tick J-1926 --area A1 --step mop --state done --person ... "
         "--renovator ... --on ...");
    says("    do: mistfold containment tick J-1926 --area A1 --step ducts --state done");
}

/* The line that an answer names, run with something for each "...". */
static void run_line(const char *ask, const char *line, const char *put_in)
{
    char all[600];
    snprintf(all, sizeof all,
             "%s | grep 'do: %s' > line; cat line; sed -E 's/^ *do: mistfold/$MISTFOLD --book "
             "c.book/; %s' line > run.sh; test -s line && sh -e run.sh && %s | grep -c 'do: %s'",
             ask, line, put_in, ask, line);
    run(all);
}

/* What a line says, done: the same answer does not name it again. */
static void what_it_names_does_it(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; cp out/job-record.pdf copy.pdf");
    run_line("$MISTFOLD --book c.book audit J-1926", "mistfold attach add J-1926",
             "s/[.]{3}/copy.pdf/");
    says("    do: mistfold attach add J-1926 ... --about office/7\n");
    says("\n0\n");
    run("e=$($MISTFOLD --book c.book export J-1926 --format csv --kind area | grep ',A1,' | cut "
        "-d, -f1); $MISTFOLD --book c.book entry correct $e --set carpet=no --reason looked");
    run_line("$MISTFOLD --book c.book gate J-1926 signs",
             "mistfold entry correct .* --set note=", "s/=[.]{3}/=cabinets/; s/[.]{3}/looked/");
    says(" --set note=... --reason ...\n"); /* of the floor */
    says("\n0\n");
}

/* 745.85(b)(1)(ii)(B): measured anew, a floor has fewer sections than were wiped. */
static void a_section_too_many_is_withdrawn(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; e=$($MISTFOLD --book c.book export J-1926 --format csv --kind "
        "surface | grep ',floor,' | head -1 | cut -d, -f1); $MISTFOLD --book c.book entry correct "
        "$e --set 'size=79;note=a stove stands there' --reason 'measured again'");
    run_line("$MISTFOLD --book c.book gate J-1926 signs", "mistfold entry withdraw office/",
             "s/[.]{3}/none/");
    says("    do: mistfold entry withdraw office/");
    says("\n0\n");
    says_not("verification walk");
}

/* Where the occupants stay is said once: what is wrong with it is corrected, and not logged anew.
 */
static void a_stay_is_corrected(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; e=$($MISTFOLD --book c.book export J-1926 --format csv --kind "
        "house | grep ',J-1926,\\|1926' | tail -1 | cut -d, -f1); $MISTFOLD --book c.book entry "
        "correct $e --set assisted=yes --reason looked; $MISTFOLD --book c.book gate J-1926 "
        "inspection | grep 'do: .* occupancy'");
    says("    do: mistfold occupancy add J-1926 --stay ... --kept-out ...");
    run("$MISTFOLD --book c.book occupancy add J-1926 --stay few-days --margin 10 --reachable yes "
        "--other-hazard no");
    run_line("$MISTFOLD --book c.book gate J-1926 inspection",
             "mistfold entry correct .* --set kept-out=", "s/=[.]{3}/=yes/; s/[.]{3}/looked/");
    says(" --set kept-out=... --reason ...\n");
    says("\n0\n");
    run("for l in en es; do $MISTFOLD --book c.book --lang $l gate J-1926 inspection; done | tr -s "
        "' \\n' ' '");
    says("The first or the last day for which occupants stay, or are away, is not said");
    says_not("from to");
    says_not("del al");
    says_not("do: mistfold occupancy add");
    run_line("$MISTFOLD --book c.book gate J-1926 inspection",
             "mistfold entry correct .* --set .from=",
             "s/=[.]{3}/=2026-09-14/; s/=[.]{3}/=2026-09-18/; s/[.]{3}/looked/");
    says(" --set \"from=...;until=...\" --reason ...\n");
    says("\n0\n");
}

/* 745.84(c): who is missing of a child-occupied facility is no occupant of a unit, and no unit of
 * it stands vacant. */
static void a_facility_has_its_own_people(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; $MISTFOLD --book c.book job open --id F --address 'Sample Row 3' "
        "--year-built 1940 --building facility --owner-occupied no --work repair --description d "
        "--start 2026-09-14 > /dev/null; $MISTFOLD --book c.book gate F demo | tr '\n' ' ' | tr -s "
        "' '");
    says("next: Add an adult who represents the child-occupied facility, such as its director. "
         "Where the owner of the building runs it, say so in the house entry: owner-occupied yes. "
         "do: mistfold party add F --id ... --role facility --name ...");
    says("next: Add the parents and guardians of the children under 6 who come there, all of them "
         "in one entry. They may be told by signs or by mail. "
         "do: mistfold party add F --id ... --role parents --name ...");
    says("next: Add the owner of the building, or of the unit. "
         "do: mistfold party add F --id ... --role owner --name ...");
    says_not("vacan");
    run("$MISTFOLD --book c.book gate F demo --lang es | tr '\n' ' ' | tr -s ' '");
    says("Agregue a un adulto que represente el lugar ocupado por niños, como quien lo dirige.");
    says("Agregue a los padres y tutores de los niños menores de 6 años que van ahí, a todos en");
    says_not("desocupada");
}

/* What the area and its plan say counts more than a ground: each refusal names the entry that says
 * it, and how to correct or withdraw it where it is not so. */
static void what_speaks_against_a_ground_is_named(void **state)
{
    static const struct {
        const char *area, *plan, *correct;
    } both[] = {
        {"air vents, as the work area says", "air vent is drawn on the plan of A1", "ducts=no"},
        {"a door is used there, as the work area says", "a flap for a door in use is drawn",
         "doors-used=no"}};
    char command[1000];
    (void)state;
    run("cp out/demo.book c.book; cat > left.sh <<'X'\n"
        "m=\"$MISTFOLD --quiet --book c.book\"\n"
        "$m export J-1926 --format csv --kind area | grep ',A1,' | cut -d, -f1 > area\n"
        "left() { $m containment tick J-1926 --area A1 --step $1 --state not-needed --ground $2 "
        "--person teo --on 2026-09-14 2>&1 | sed \"s#$(cat area)#THIS#\"; }\n"
        "$m entry correct $(cat area) --set $1=yes --reason x\n"
        "left $1 $2; $m entry correct $(cat area) --set $1=no --reason 'none there'; left $1 $2\n"
        "X");
    for (size_t i = 0; i < 2; i++) {
        run(i == 0 ? "sh left.sh ducts none-present" : "sh left.sh doors-used not-used");
        says(both[i].area);
        snprintf(command, sizeof command, "mistfold entry correct THIS --set %s --reason ...\n",
                 both[i].correct);
        says(command);
        says(both[i].plan);
        says("mistfold entry withdraw office/");
    }
}

/* A correction is no entry that could be corrected: what settles two of them names the entry first
 * made. */
static void corrections_name_the_entry_first_made(void **state)
{
    (void)state;
    run("cp out/demo.book c.book; m=\"$MISTFOLD --quiet --book\"; e=$($m c.book export J-1926 "
        "--format csv --kind area | grep ',A1,' | cut -d, -f1); "
        "$m c.book book copy t.book --no-key --device truck; "
        "$m c.book entry correct $e --set length=12 --reason tape; "
        "$m t.book entry correct $e --set length=13 --reason tape; "
        "$m c.book book merge t.book > /dev/null; "
        "$MISTFOLD --book c.book gate J-1926 inspection | sed \"s#do: mistfold entry correct $e "
        "#THIS #\"; $m c.book entry correct $e --set length=13 --reason measured; "
        "$MISTFOLD --book c.book gate J-1926 inspection | grep -c \"entry correct $e \"");
    says("    THIS --set ... --reason ...\n");
    says("\n0\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_requirement),
        cmocka_unit_test(every_command_exists),
        cmocka_unit_test(gate_names_it),
        cmocka_unit_test(steps_by_one_template),
        cmocka_unit_test(what_it_names_does_it),
        cmocka_unit_test(a_section_too_many_is_withdrawn),
        cmocka_unit_test(corrections_name_the_entry_first_made),
        cmocka_unit_test(a_facility_has_its_own_people),
        cmocka_unit_test(a_stay_is_corrected),
        cmocka_unit_test(a_finished_area_is_not_asked_for),
        cmocka_unit_test(what_speaks_against_a_ground_is_named),
    };
    return cmocka_run_group_tests(tests, shell_demo, shell_stop);
}
