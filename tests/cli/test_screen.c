/* Answers at a terminal: as wide as it is, the YES or NO in sight, colors that carry nothing
 * alone; and none of it where output goes to a file. The sample job, at 50 columns of 20 lines. */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* At a terminal of that size. */
static void at(const char *size, const char *command)
{
    char line[400];
    snprintf(line, sizeof line,
             "SIZE=%s python3 " MF_TESTS "/cli/drive.py '' $MISTFOLD %s | grep -v -e '^TOO BIG' -e "
             "'^=*$' -e '^keys 0'",
             size, command);
    run(line);
}

/* No line is wider, but what is copied whole: commands and hashes. */
static void answers_fit(void **state)
{
    static const char *const commands[] = {
        "gate J-1926 demo",
        "gate J-1926 inspection --all",
        "audit J-1926 --lang es",
        "job show J-1926",
        "job list",
        "due --on 2028-05-01",
        "test list J-1926",
        "area list J-1926",
        "containment list J-1926",
        "limit list",
        "certificate check",
        "settings show --lang es",
        "--help",
        "job --help",
        "containment tick --help",
        "opening schedule J-1926",
        "certificate list",
        "",
    };
    (void)state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        char line[400];
        snprintf(line, sizeof line,
                 "SIZE=50x20 python3 " MF_TESTS
                 "/cli/drive.py '' $MISTFOLD %s | grep -v -e 'TOO BIG' -e '^note: ' "
                 "-e '^=*$' | grep -v -E '^ *([a-z]+: *)?mistfold ' | grep ' ' | grep -E '.{51}'",
                 commands[i]);
        run(line);
        if (r.out[0] != '\0')
            fail_msg("%s:\n%s", commands[i], r.out);
    }
}

/* First and last where it would scroll away; once where it does not, or nobody looks. */
static void the_answer_stays_in_sight(void **state)
{
    static const char gate[] = "gate J-1926 demo --on 2026-09-13";
    char line[200];
    (void)state;
    at("50x20", gate);
    says("\nMay demo start?  NO\nJ-1926, 2026-09-13\n");
    says("\nstricter rule wins.\nMay demo start?  NO\nnext: mistfold ");
    at("80x200", gate);
    if (strstr(strstr(r.out, "May demo start?") + 1, "May demo start?") != NULL)
        fail_msg("twice:\n%s", r.out);
    snprintf(line, sizeof line, "$MISTFOLD %s | grep -c 'May demo start'", gate);
    run(line);
    assert_string_equal(r.out, "1\n");
    at("50x20", "gate J-1926 demo --on 2026-09-13 --lang es");
    says("\n¿Se puede empezar la demolición?  NO\nsigue: mistfold ");
}

/* The first hour on a small screen: where to begin stands last. */
static void the_start_is_seen(void **state)
{
    (void)state;
    run("SIZE=50x20 python3 " MF_TESTS "/cli/drive.py '' $MISTFOLD | grep -v '^=*$' | tail -5");
    says("The first hour:\n  mistfold book new\n  mistfold job walk\nexit 0\n");
}

/* A command to be copied stays one line. */
static void commands_are_not_broken(void **state)
{
    (void)state;
    at("50x20", "gate J-1926 demo --on 2026-09-13");
    says("    do: mistfold containment tick J-1926 --area A1 --step ");
    run("SIZE=50x20 python3 " MF_TESTS
        "/cli/drive.py '' $MISTFOLD gate J-1926 demo --on 2026-09-13 "
        "| grep -c -E '^    do: mistfold .{60}'");
    assert_int_not_equal(strtol(r.out, NULL, 10), 0);
}

/* Without a terminal, with NO_COLOR or a dumb one there is none; the words are the same. */
static void colors_carry_nothing_alone(void **state)
{
    (void)state;
    run("g() { script -qec \"$MISTFOLD gate J-1926 demo --on 2026-09-13\" /dev/null | tr -d '\\r'; "
        "}; "
        "esc=$(printf '\\033'); export TERM=xterm; unset NO_COLOR; g > c; grep -c "
        "\"$esc\\[1;31mNO\" c; "
        "NO_COLOR=1 g > n; TERM=dumb g > d; grep -c \"$esc\" n d; sed \"s/$esc\\[[0-9;]*m//g\" c | "
        "cmp - "
        "n && cmp n d; $MISTFOLD gate J-1926 demo --on 2026-09-13 | grep -c \"$esc\"");
    assert_int_not_equal(strtol(r.out, NULL, 10), 0);
    says("\nn:0\nd:0\n0\n");
}

/* Data is what it is, also on a screen. */
static void data_is_left_alone(void **state)
{
    (void)state;
    run("script -qec \"$MISTFOLD export J-1926 --format csv --kind party\" /dev/null | tr -d '\\r' "
        "> a; "
        "$MISTFOLD export J-1926 --format csv --kind party | tr -d '\\r' > b; cmp a b; script -qec "
        "\"$MISTFOLD gate J-1926 demo --json\" /dev/null | python3 -c 'import json, sys; "
        "json.load(sys.stdin)'");
    answers(0, "");
    assert_string_equal(r.err, "");
    run("SIZE=50x20 python3 " MF_TESTS "/cli/drive.py '' $MISTFOLD gate J-1926 demo --json | grep "
        "-v -E '^(TOO BIG|=*$|exit|keys)' | python3 -m json.tool > /dev/null");
    answers(0, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_fit),
        cmocka_unit_test(the_answer_stays_in_sight),
        cmocka_unit_test(the_start_is_seen),
        cmocka_unit_test(commands_are_not_broken),
        cmocka_unit_test(colors_carry_nothing_alone),
        cmocka_unit_test(data_is_left_alone),
    };
    return cmocka_run_group_tests(tests, shell_demo, shell_stop);
}
