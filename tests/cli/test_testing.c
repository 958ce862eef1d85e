/* The commands of paint testing as a person types them. Constructed data; expected
 * numbers from the sources named in tests/core/test_units.c and test_measure.c. */
#include "support/cmocka_all.h"
#include "support/folder_kit.h"

#include <stdio.h>
#include <string.h>

static const char set_up[] =
    "export MISTFOLD_BY=ines; m=$MISTFOLD; $m book new --no-key && "
    "$m person add --id ines --name 'Inés Ejemplar' && "
    "$m certificate add --holder ines --discipline inspector --number I-1 --issuer X --issued "
    "2025-01-01 --expires 2030-01-01 && "
    "$m instrument add --serial X-100 --film 1.02 --cal-low 0.8 --cal-high 1.2 && "
    "$m job open --id J --address A --building dwelling --owner-occupied no --work "
    "window-replacement --description d --start 2026-09-14 && "
    "$m opening add J --id W01 --kind window --room kitchen --elevation north --absent exterior && "
    "$m opening add J --id W02 --kind window --room kitchen --elevation north --absent exterior && "
    "for w in W01 W02; do for t in sash stop apron; do "
    "$m component add J --id $w.$t --opening $w --type $t --side interior --substrate wood; done; "
    "done";

static int begin(void **state)
{
    run_result r;
    (void)state;
    run_folder(folder);
    run_shell(&r, folder, set_up);
    return r.status;
}

static void shell(run_result *r, const char *command)
{
    char line[1200];
    snprintf(line, sizeof line, "export MISTFOLD_BY=ines; m=$MISTFOLD; %s", command);
    run_shell(r, folder, line);
}

static void has(const char *text, const char *part)
{
    if (strstr(text, part) == NULL)
        fail_msg("\"%s\" is not in:\n%.1500s", part, text);
}

/* The place, the substrate and the instrument go on; names are completed. */
static void quick_entry(void **state)
{
    run_result r;
    (void)state;
    shell(&r, "$m test log J --component W02.sash --instrument X-100 --operator ines --result "
              "'>9.9' --on 2026-08-12 --time 09:00 && "
              "$m test log J --component st --result 0.4 --on 2026-08-12 --time 09:01 && "
              "$m test log J --component apron --opening W01 --result '<0.3' --on 2026-08-12 && "
              "$m --json test readings J");
    assert_int_equal(r.status, 0);
    has(r.out, "\"component\": \"W02.stop\"");
    has(r.out, "\"component\": \"W01.apron\"");
    has(r.out, "\"number\": 3");
    has(r.out, "\"qualifier\": \"under\"");
    shell(&r, "$m test log J --component s --result 0.2 --on 2026-08-12");
    assert_int_equal(r.status, 3);
    has(r.err, "may be W01.sash, W01.stop");
    shell(&r, "$m test log J --component apron --result 1,0 --on 2026-08-12");
    assert_int_equal(r.status, 3);
    has(r.err, "decimal comma");
}

static void schedule(void **state)
{
    run_result r;
    (void)state;
    shell(&r, "$m opening schedule J --removal within-frame && $m --json opening schedule J");
    assert_int_equal(r.status, 0);
    has(r.out, "interior containment");
    has(r.out, "nothing painted is disturbed");
    has(r.out, "common practice, no source");
    has(r.out, "\"removal\": \"as-logged\"");
    has(r.out, "\"verdict\": \"lead\"");
    shell(&r, "$m opening schedule J --removal all");
    assert_int_equal(r.status, 3);
    shell(&r, "$m opening add J --id W09 --kind window --room attic --elevation north && "
              "$m opening schedule J");
    has(r.out, "interior containment: no part of it is listed");
    has(r.out, "exterior containment: no part of it is listed");
}

/* The list is the schedule, and then the openings as they were logged; as JSON it is the
 * list of its kind, like every other list. */
static void opening_list(void **state)
{
    run_result r, schedule;
    (void)state;
    shell(&schedule, "$m opening schedule J");
    shell(&r, "$m opening list J");
    assert_int_equal(r.status, 0);
    const char *end = strstr(schedule.out, "\nLead dust"); /* the caution comes last */
    assert_non_null(end);
    size_t len = (size_t)(end - schedule.out);
    assert_memory_equal(r.out, schedule.out, len);
    has(r.out + len, "elevation");
    has(r.out, "W01 kitchen");
    shell(&r, "$m --json opening list J");
    assert_int_equal(r.status, 0);
    assert_true(r.out[0] == '[');
    has(r.out, "\"elevation\"");
    shell(&r, "$m opening list J --removal all");
    assert_int_equal(r.status, 3);
}

static void units(void **state)
{
    run_result r, again;
    (void)state;
    shell(&r, "$m --json plan units --count 200 --built 1962 --seed 17");
    assert_int_equal(r.status, 0);
    has(r.out, "\"to_test\": 27");
    has(r.out, "\"seed\": 17");
    shell(&again, "$m --json plan units --count 200 --built 1962 --seed 17");
    assert_string_equal(r.out, again.out);
    shell(&r, "$m plan units --count 705 --built unknown --seed 1");
    has(r.out, "table and computation differ");
    shell(&r, "$m plan units --count 20 --built 1978");
    assert_int_equal(r.status, 3);
    shell(&r, "$m plan report --jobs J");
    has(r.out, "100.00 %");
    shell(&r, "$m job open --id K --address B --building dwelling --owner-occupied no --work "
              "window-replacement --description d --start 2026-09-14 && n=0 && "
              "for x in 0.2 0.3 1.9; do n=$((n+1)) && $m component add K --id w$n --type wall "
              "--side interior --room r$n --substrate wood && $m test log K --number $n "
              "--instrument X-100 --operator ines --component w$n --result $x --on 2026-08-12; "
              "done && $m plan report --jobs K");
    has(r.out, "33.33 %");
    has(r.out, "66.67 %"); /* two of three: 66.666... */
    has(r.out, "the verdict is the inspector's");
}

static void conversions(void **state)
{
    run_result r;
    (void)state;
    shell(&r, "$m convert area '11 5/8 x 12 1/8'");
    has(r.out, "0.979 sq ft");
    has(r.out, "3007/3072");
    shell(&r, "$m convert chip --lead-ug 2500 --area '5 x 5 cm' --mass-mg 500");
    has(r.out, "0.1000 mg/cm2");
    has(r.out, "0.5000 % by weight");
    has(r.out, "lead-based");
    shell(&r, "$m convert area 12");
    assert_int_equal(r.status, 3);
}

static void intake(void **state)
{
    run_result r;
    (void)state;
    shell(&r, "printf 'No|Day|Hour|Part|Mat|\"PbC (ug/cm2)\"\\r\\n"
              "51|2026-08-12|10:00|W01.sash|wood|430\\r\\n' > a.csv; "
              "$m test import J a.csv --instrument X-100 --operator ines --map "
              "'No=number,Day=date,Hour=time,Part=component,Mat=substrate,PbC=result' && "
              "$m test import J a.csv && sed s/51/52/ a.csv | "
              "$m test import J - --instrument X-100 --operator ines");
    assert_int_equal(r.status, 0);
    has(r.out, "logged 1 readings");
    has(r.out, "nothing to do: this very file");
    has(r.err, "heads read by the map kept for instrument X-100");
    has(r.err, "never point it at a person");
    shell(&r, "for i in $(seq 30); do echo \"$i|2026-08-12|10:00|W09.sash|wood|x\"; done > rows; "
              "(head -1 a.csv; cat rows) > b.csv; "
              "$m test import J b.csv --instrument X-100 --operator ines 2>&1 | grep -c ^mistfold");
    assert_string_equal(r.out, "2\n"); /* thirty of one sort, and the count */
    shell(&r, "iconv -f UTF-8 -t UTF-16 a.csv > c.csv; $m test import J c.csv");
    assert_int_equal(r.status, 3);
    has(r.err, "UTF-16");
    has(r.err, "iconv");
}

static void profile_and_retest(void **state)
{
    run_result r;
    (void)state;
    shell(&r, "$m instrument profile " MF_SAMPLE "/profile.csv && $m test retest J && "
              "$m test retest J --seed 5 && $m test list J");
    assert_int_equal(r.status, 0);
    has(r.out, "logged 6 profile_row");
    has(r.out, "no retest was logged");
    has(r.out, "drawn with seed 5");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quick_entry),        cmocka_unit_test(schedule),
        cmocka_unit_test(opening_list),       cmocka_unit_test(units),
        cmocka_unit_test(conversions),        cmocka_unit_test(intake),
        cmocka_unit_test(profile_and_retest),
    };
    return cmocka_run_group_tests(tests, begin, remove_folder);
}
