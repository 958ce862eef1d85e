/* make map: every file says at its head what it holds, and the paragraph of a rule, or a
 * word of the trade, leads to the file that judges it. */
#include "support/cmocka_all.h"
#include "support/run.h"
#include <stdio.h>
#include <string.h>

#define MAP "sh " MF_TESTS "/../src/gen/map.sh "

static void every_file_says_what_it_holds(void **state)
{
    (void)state;
    run_result r;
    run_shell(&r, ".", MAP "2>&1 >/dev/null");
    assert_int_equal(r.status, 0);
    assert_string_equal(r.out, "");
}

/* Paragraphs of 40 CFR part 745 and words of the trade, and the file that somebody who knows
 * the rule would look for. */
static void a_word_leads_to_its_file(void **state)
{
    (void)state;
    static const char *const rows[][2] = {{"745.84", "src/core/audit_notice.c"},
                                          {"745.85(c)", "src/core/audit_dust.c"},
                                          {"745.85(b)", "src/core/audit_clean.c"},
                                          {"745.82(b)", "src/core/audit_emergency.c"},
                                          {"745.86(c)", "src/core/audit_handover.c"},
                                          {"745.83", "src/core/minor.c"},
                                          {"35.1340", "src/core/audit_examine.c"},
                                          {"refresher", "src/core/person.c"},
                                          {"mailed", "src/core/notice.c"},
                                          {"hour", "src/core/audit_dust.c"},
                                          {"property line", "src/core/audit_area.c"},
                                          {"heat gun", "src/core/audit_area.c"},
                                          {"carpet", "src/core/surfaces.c"},
                                          {"invoice", "src/core/audit_handover.c"},
                                          {"retention", "src/core/audit_record.c"},
                                          {"vacuum", "src/core/contain_rows.c"},
                                          {"fork", "src/book/ahead.c"},
                                          {"certificate number", "src/cli/cmd_paper.c"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char command[400];
        snprintf(command, sizeof command, MAP "'%s'", rows[i][0]);
        run_result r;
        run_shell(&r, ".", command);
        if (r.status != 0 || strstr(r.out, rows[i][1]) == NULL)
            fail_msg("%s does not lead to %s:\n%s", rows[i][0], rows[i][1], r.out);
    }
}

static void no_such_word(void **state)
{
    (void)state;
    run_result r;
    run_shell(&r, ".", MAP "'no file says this'");
    assert_int_equal(r.status, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_file_says_what_it_holds),
        cmocka_unit_test(a_word_leads_to_its_file),
        cmocka_unit_test(no_such_word),
    };
    return cmocka_run_group_tests_name("map", tests, NULL, NULL);
}
