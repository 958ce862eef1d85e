/* What is written from the table of commands: completion as bash, fish and zsh ask for it,
 * and the manual pages (mandoc). */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int start(void **state)
{
    if (shell_demo(state) != 0)
        return r.status;
    run("cp out/demo.book b.book && "
        "$MISTFOLD --book b.book job open --id J-2000 --address '3 Calle Número' --building "
        "dwelling --owner-occupied no --year-built 1950 --work repair --description stairs "
        "--start 2026-11-02");
    setenv("MISTFOLD_BOOK", "b.book", 1);
    return r.status;
}

static void completion(void **state)
{
    static const char *const cases[][2] = {
        {"ga", "gate\n"},
        {"job sh", "show\n"},
        {"job show J-1", "J-1926\n"},
        {"gate J-1926 de", "demo\n"},
        {"containment tick J-1926 --area A", "A1\nA2\n"},
        {"containment tick J-1926 --step sign", "signs\nsigns-language\nsigns-assisted\n"},
        {"containment tick J-1926 --state not", "not-needed\n"},
        {"containment tick J-1926 --person te", "teo\n"},
        {"--book b.book job show J-2", "J-2000\n"},
        {"job show --qui", "--quiet\n"},
        {"paper blank self", "self-certification\n"},
    };
    char line[200];
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(line, sizeof line, "$MISTFOLD --complete %s", cases[i][0]);
        run(line);
        assert_string_equal(r.out, cases[i][1]);
    }
    /* As bash itself calls it. */
    run("ln -sf $MISTFOLD mistfold; PATH=$PWD:$PATH bash -c '. " MF_TESTS
        "/../src/gen/mistfold.bash; COMP_WORDS=(mistfold job show J-2) COMP_CWORD=3; _mistfold; "
        "echo ${COMPREPLY[@]}'");
    assert_string_equal(r.out, "J-2000\n");
}

/* As fish and zsh call it: the same candidates, and what each is. */
static void completion_that_tells(void **state)
{
    (void)state;
    run("$MISTFOLD --complete-told gate J-1926 demo --o");
    assert_string_equal(r.out, "--on\tas of that day instead of today\n");
    run("export HOME=$PWD; ln -sf $MISTFOLD mistfold; PATH=$PWD:$PATH; "
        "fish --no-config -c 'source " MF_TESTS "/../src/gen/mistfold.fish; "
        "complete -C \"mistfold job sh\"; complete -C \"mistfold job show J-2\"'; "
        "for w in 'job sh' 'job show J-2' 'job show no:such'; do "
        "zsh -f -c \"_describe() { print -rl -- \\${(P)3}; }; _files() { print files; }; "
        "words=(mistfold $w); CURRENT=\\$#words; . " MF_TESTS "/../src/gen/mistfold.zsh\"; done");
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, "show\tone job at a glance, with the questions answered\n"
                               "J-2000\t3 Calle Número\n"
                               "show:one job at a glance, with the questions answered\n"
                               "J-2000:3 Calle Número\nfiles\n");
}

static void manual_pages(void **state)
{
    (void)state;
    run("mkdir -p man; for p in $($MISTFOLD --man names); do $MISTFOLD --man $p > man/$p.1; done;"
        "mandoc -T lint -W warning man/*.1; ls man | wc -l; "
        "$MISTFOLD --help | grep -c '^  '");
    assert_string_equal(r.err, "");
    int pages = 0, commands = 0;
    char *end;
    pages = (int)strtol(r.out, &end, 10);
    commands = (int)strtol(end, NULL, 10);
    assert_true(commands > 50);
    assert_int_equal(pages, commands + 1); /* one a command, and the program's own */
    /* Each says what it reads from around it and how it ends. */
    run("for s in ENVIRONMENT FILES 'EXIT STATUS' EXAMPLES CAVEATS; do grep -L \"^.Sh $s\" man/*; "
        "done; grep -c '^.It Ev MISTFOLD_' man/mistfold.1; $MISTFOLD settings show --json | grep "
        "-c "
        "'\"from\"'; grep -o 'getenv(\"[A-Z_]*' -h " MF_TESTS "/../src/*/*.c | cut -d '\"' -f 2 | "
        "grep -v HOME$ | sort -u | while read -r v; do grep -q \"It Ev $v\" man/mistfold.1 || echo "
        "$v; done");
    assert_string_equal(r.out, "10\n10\n");
    run("mandoc -T ascii man/mistfold-containment-tick.1 | sed \"s/.$(printf '\\010')//g\"");
    says("--measured N.NN");
    says("mistfold containment tick J-1926 --area A1");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(completion),
        cmocka_unit_test(completion_that_tells),
        cmocka_unit_test(manual_pages),
    };
    return cmocka_run_group_tests(tests, start, shell_stop);
}
