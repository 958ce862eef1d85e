/* What the documents say is what the program does: the guides are run again
 * (guide.py), the JSON is checked against docs/json.md (check_json.py), the messages
 * against their catalogue (messages.py, catalogue.py). */
#include "support/cmocka_all.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void guide(const char *name)
{
    run_result r;
    char line[800];
    unsetenv("MISTFOLD_LANG");
    snprintf(line, sizeof line,
             "python3 " MF_TESTS "/cli/guide.py " MF_TESTS "/../docs/%s.md " MF_SAMPLE, name);
    run_shell(&r, "", line);
    if (r.status != 0)
        fail_msg("%s%s\nafter a change on purpose: guide.py ... --write, then read it", r.out,
                 r.err);
}

static void office(void **state)
{
    (void)state;
    guide("office");
}

static void server(void **state)
{
    (void)state;
    guide("server");
}

static void crew(void **state)
{
    (void)state;
    guide("crew");
}

static void renovator(void **state)
{
    (void)state;
    guide("renovator");
}

static void json(void **state)
{
    run_result r;
    char folder[64], line[800];
    (void)state;
    run_folder(folder);
    snprintf(line, sizeof line,
             "sh " MF_SAMPLE "/demo.sh out >demo.log 2>&1 && cp " MF_SAMPLE
             "/xrf-export.csv " MF_SAMPLE "/small-house.txt out && printf "
             "'id,kind,room,elevation\\nW99,window,attic,north\\n' > out/more.csv && "
             "MISTFOLD_BOOK=out/demo.book "
             "MISTFOLD_BY=rosa python3 " MF_TESTS "/cli/check_json.py " MF_TESTS
             "/../docs/json.md $MISTFOLD && python3 " MF_TESTS "/cli/readme.py " MF_TESTS
             "/../README.md demo.log");
    run_shell(&r, folder, line);
    run_remove(folder);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
    assert_true(strtol(r.out, NULL, 10) >= 38);
}

/* Every message has a case that brings it up, or says why no command can. */
static void messages(void **state)
{
    run_result r;
    char folder[64];
    (void)state;
    run_shell(&r, "",
              "python3 " MF_TESTS "/cli/messages.py " MF_TESTS "/../src " MF_TESTS
              "/cli/catalogue");
    if (r.status != 0)
        fail_msg("tests/cli/catalogue: %s", r.out);
    run_folder(folder);
    run_shell(&r, folder,
              "python3 " MF_TESTS "/cli/catalogue.py " MF_TESTS "/cli/catalogue $MISTFOLD");
    run_remove(folder);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(office),    cmocka_unit_test(server), cmocka_unit_test(crew),
        cmocka_unit_test(renovator), cmocka_unit_test(json),   cmocka_unit_test(messages),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
