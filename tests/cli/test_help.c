/* Help and the table of commands as a user meets them. */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>
#include <string.h>

static void program_help(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "$MISTFOLD --help");
    assert_int_equal(r.status, 0);
    assert_string_equal(r.err, "");
    run_contains(r.out, "usage: mistfold");
    run_contains(r.out, "it certifies nothing");
    run_contains(r.out, "Exit status: 0 yes or done, 1 no or not yet,");
}

/* The name alone: a start that fits 24 lines of 80. */
static void the_name_alone(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "$MISTFOLD; $MISTFOLD | wc -l; $MISTFOLD | awk 'length > 80'");
    run_contains(r.out, "mistfold book new ");
    run_contains(r.out, "mistfold job walk ");
    assert_string_equal(r.out + strlen(r.out) - 3, "22\n");
}

/* Each line of the program's help names a command; each has help with an
 * example that begins with "mistfold" and with that command's own words. */
static void every_command_has_help_with_an_example(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "",
              "n=0; group=; $MISTFOLD --help | sed -n 's/^  \\(.\\{13\\}\\) \\(.\\{13\\}\\) "
              ".*/\\1|\\2/p' |"
              "while IFS='|' read -r g a; do g=$(echo $g) a=$(echo $a);"
              "  [ -n \"$g\" ] && group=$g;"
              "  text=$($MISTFOLD $group $a --help) || { echo \"no help: $group $a\"; exit 1; };"
              "  echo \"$text\" | grep -A1 '^example:' | grep -q \"mistfold.* $group $a\\|mistfold "
              "$group $a\" ||"
              "    { echo \"no example: $group $a\"; exit 1; };"
              "  echo \"$text\" | grep -q 'certifies nothing' || { echo \"no caution: $group $a\"; "
              "exit 1; };"
              "  echo ok; done");
    assert_int_equal(r.status, 0);
    assert_string_equal(r.err, "");
    if (strstr(r.out, "no ") != NULL)
        fail_msg("%s", r.out);
    size_t n = 0;
    for (const char *p = r.out; (p = strstr(p, "ok\n")) != NULL; p++)
        n++;
    assert_true(n >= 50);
}

typedef struct wrong_use {
    const char *command, *says;
} wrong_use;

/* Each is refused with that status, by one line on standard error alone. */
static void one_line_each(const wrong_use *cases, size_t n, int status)
{
    run_result r;
    char line[256];
    for (size_t i = 0; i < n; i++) {
        snprintf(line, sizeof line, "$MISTFOLD %s", cases[i].command);
        run_shell(&r, "", line);
        if (r.status != status)
            fail_msg("%s: %d\n%s", cases[i].command, r.status, r.err);
        assert_string_equal(r.out, "");
        run_contains(r.err, cases[i].says);
        assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
    }
}

static void wrong_use_is_one_line_and_exit_2(void **state)
{
    static const wrong_use cases[] = {
        {"gat J demo", "did you mean \"gate\"?"},
        {"settings list", "did you mean \"settings show\"?"},
        {"paper rekord J", "did you mean \"paper record\"?"},
        {"job show", "wants JOB"},
        {"gate J-1 demo extra", "extra: one word too many"},
        {"job -x list", "-x: no such option here"},
        {"job --jsn list", "did you mean --json?"},
        {"limit list --color red", "--color: no such option here; --help shows those"},
        {"gate J demo --arae A1", "did you mean --area?"},
        {"due --jsn", "did you mean --json?"},
        {"due --json=yes", "this option takes no value; write it alone"},
        {"due -j", "-j: no such option here; did you mean --json?"},
        {"gate J demo --a A1", "it may be --area, --all"},
        {"due -x", "-x: no such option here"},
        {"help gat", "did you mean \"gate\"?"},
        {"help job opne", "did you mean \"job open\"?"},
        {"paper record J-1", "--out: is needed here"},
        {"limit list --on", "a value is missing"},
        {"entry withdraw x/1", "--reason: is needed here"},
    };
    (void)state;
    one_line_each(cases, sizeof cases / sizeof cases[0], 2);
}

/* A value that cannot be is bad input, whoever asked for it: the same slip, the same status. */
static void a_wrong_value_is_one_line_and_exit_3(void **state)
{
    static const wrong_use cases[] = {
        {"gate J-1 demolition", "is not a question"},
        {"limit list --on 2026-02-30", "the date 2026-02-30 does not exist"},
        {"limit list --on today", "today is not a date"},
        {"--book new.book job list --state done", "done is not a state"},
        {"--page a5 limit list", "--page: a5 is not a paper size"},
        {"--lang fr limit list", "--lang: the language fr is not known"},
        {"export J-1 --format txt", "txt is no format"},
        {"settings set color red", "color is not a setting"},
    };
    (void)state;
    one_line_each(cases, sizeof cases / sizeof cases[0], 3);
}

/* "(needed)" stands where it is, and says when. */
static void needed_is_said_where_it_is(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "$MISTFOLD area add --help; $MISTFOLD --man mistfold-area-add");
    run_contains(r.out, "(needed)");
    run_contains(r.out, "\n(needed)\n");
    run_shell(&r, "", "$MISTFOLD job open --help | tr -s ' \\n' ' '");
    run_contains(r.out, "address of the renovation (needed without --from)");
    run_shell(&r, "", "$MISTFOLD job walk --help | grep -c needed; $MISTFOLD test log --help");
    run_contains(r.out, "person who held it (needed the first time)");
    run_contains(r.out, "number the instrument gave the reading\n");
    assert_int_equal(r.out[0], '0');
}

/* A group alone is help to a person, an error to a program. */
static void a_group_alone(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "$MISTFOLD job");
    assert_int_equal(r.status, 2);
    run_contains(r.out, "usage: mistfold job ACTION ...");
    run_shell(&r, "", "$MISTFOLD job --json");
    assert_int_equal(r.status, 2);
    assert_string_equal(r.out, "");
    assert_string_equal(r.err, "{\"error\":{\"status\":2,\"where\":\"job\",\"what\":\"wants an "
                               "action\",\"why\":\"\",\"mend\":\"see \\\"mistfold job "
                               "--help\\\"\"}}\n");
}

/* As every program is asked, and by words; before and after the command. */
static void short_options_and_words(void **state)
{
    static const char *const same[][2] = {
        {"--version", "-V"},
        {"--version", "version"},
        {"--version", "job list -V"},
        {"--help", "-h"},
        {"--help", "help"},
        {"job --help", "help job"},
        {"job --help", "job -h"},
        {"gate --help", "help gate"},
        {"gate --help", "gate -h"},
        {"job open --help", "help job open"},
        {"--quiet due", "-q due"},
        {"job --help", "job --json -h"},
        {"--json version", "version --json"},
        {"--json limit list", "limit --json list"},
        {"job list --help", "job -q list --help"},
    };
    run_result a, b;
    char line[160];
    (void)state;
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        snprintf(line, sizeof line, "$MISTFOLD %s", same[i][0]);
        run_shell(&a, "", line);
        snprintf(line, sizeof line, "$MISTFOLD %s", same[i][1]);
        run_shell(&b, "", line);
        assert_string_equal(a.out, b.out);
        assert_string_equal(a.err, b.err);
        assert_int_equal(a.status, b.status);
    }
    run_shell(&a, "", "$MISTFOLD version --json");
    assert_string_equal(a.out, "{\"version\": \"0.2.0\"}\n");
}

/* With --json a script reads what failed, too: wherever --json stands. */
static void errors_are_json_too(void **state)
{
    static const char *const lines[] = {"gat --json", "--json gate J demo",
                                        "gate J demo --arae A1 --json", "--json help > /dev/full"};
    run_result r;
    char line[300], folder[64];
    (void)state;
    run_folder(folder);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        snprintf(line, sizeof line,
                 "$MISTFOLD %s 2>e; s=$?; python3 -c 'import json, sys\n"
                 "e = json.load(open(\"e\"))[\"error\"]\n"
                 "print(sorted(e), e[\"status\"] == int(sys.argv[1]))' $s; rm e",
                 lines[i]);
        run_shell(&r, folder, line);
        assert_string_equal(r.out, "['mend', 'status', 'what', 'where', 'why'] True\n");
    }
    run_remove(folder);
}

/* Who signs is in the book, from whatever the name comes; as long as nobody is, the first
 * person may be added. Nothing is logged by another. */
static void who_signs_is_in_the_book(void **state)
{
    run_result r;
    char folder[64];
    (void)state;
    run_folder(folder);
    run_shell(&r, folder,
              "export MISTFOLD_BOOK=b.book; unset MISTFOLD_BY; M=\"$MISTFOLD --quiet\"; "
              "$M book new --no-key --device t >/dev/null; "
              "$M --by rosa firm add --name F --address A; "
              "$M --by rosa person add --id rosa --name R; "
              "$M --by rosina person add --id teo --name T; echo $?; "
              "MISTFOLD_BY=ros $M job open --id J --address A --building dwelling "
              "--owner-occupied no --work repair --description d --start 2026-09-14; echo $?; "
              "$M --by teo person add --id teo --name T; echo $?; "
              "$M --by rosa person add --id teo --name T; "
              "$M --by teo entry withdraw t/1 --reason test;");
    run_contains(r.out, "logged firm t/1\nlogged person t/2\n3\n3\n3\nlogged person t/3\n"
                        "logged correction t/4");
    run_contains(r.err,
                 "--by: there is no person rosina (an entry is logged by a person of the book); "
                 "it is one of rosa; \"person add\" adds another\n");
    run_contains(r.err, "MISTFOLD_BY: there is no person ros ");
    run_remove(folder);
}

static void a_full_disk_on_standard_output_is_exit_4(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, "", "$MISTFOLD --help > /dev/full");
    assert_int_equal(r.status, 4);
    run_contains(r.err, "disk full");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(program_help),
        cmocka_unit_test(the_name_alone),
        cmocka_unit_test(every_command_has_help_with_an_example),
        cmocka_unit_test(wrong_use_is_one_line_and_exit_2),
        cmocka_unit_test(a_wrong_value_is_one_line_and_exit_3),
        cmocka_unit_test(a_group_alone),
        cmocka_unit_test(needed_is_said_where_it_is),
        cmocka_unit_test(short_options_and_words),
        cmocka_unit_test(errors_are_json_too),
        cmocka_unit_test(who_signs_is_in_the_book),
        cmocka_unit_test(a_full_disk_on_standard_output_is_exit_4),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
