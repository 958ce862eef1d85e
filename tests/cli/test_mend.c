/* Two devices correct or withdraw one entry differently: after the merge the answer is no, and
 * the command that it names mends it. On the invented sample job. */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BY", "rosa", 1);
    setenv("MISTFOLD_QUIET", "1", 1);
    run("DEMO_NO_KEY=1 sh " MF_SAMPLE
        "/demo.sh out > log 2>&1 && $MISTFOLD --book out/demo.book person add --id "
        "zed --name 'Zed Sample' && $MISTFOLD --book out/demo.book certificate add --holder zed "
        "--discipline renovator --number Z-1 --issuer X --issued 2024-03-06 --expires 2029-03-06");
    return r.status;
}

/* o and t: the office's book, and the truck's; e NAME SQL: $NAME = an entry; ask: what the
 * inspection gets, and what is said of the corrections; certify: as what was certified was
 * corrected since. */
#define BOOKS                                                                                      \
    "rm -f a.book* t.book*; cp out/demo.book a.book; o() { $MISTFOLD --book a.book \"$@\"; }\n"    \
    "t() { $MISTFOLD --book t.book \"$@\"; }\n"                                                    \
    "e() { eval \"$1=$(sqlite3 out/demo.book \"$2\")\"; }\n"                                       \
    "ask() { o gate J-1926 inspection --on 2026-09-25 --all > said || :; sed -n 1p said;"          \
    " grep -A1 'was corrected in two ways' said || :; }\n"                                         \
    "certify() { o job certify J-1926 --person rosa --on 2026-09-25; }\n"                          \
    "set -e; o book copy --no-key t.book --device truck > log\n"                                   \
    "e notice \"SELECT entry FROM notice WHERE party = 'owner'\"\n"                                \
    "e tick \"SELECT entry FROM tick WHERE area = 'A1' AND step = 'floor-sheet' LIMIT 1\"\n"       \
    "e cert \"SELECT entry FROM certificate WHERE holder = 'rosa'\"\n"                             \
    "e zed \"SELECT entry FROM certificate WHERE holder = 'zed'\"\n"                               \
    "e teo \"SELECT entry FROM person WHERE id = 'teo'\"\n"

/* The command as the answer names it, with values for its dots. */
#define AS_TYPED(verb, set)                                                                        \
    "c=$(tr '\\n' ' ' < said | tr -s ' ' | grep -o 'mistfold entry " verb                          \
    " [a-z]*/[0-9]* [^,:]*--reason \\.\\.\\.' | head -1 |"                                         \
    " sed \"s|--set \\.\\.\\.|--set " set                                                          \
    "|; s|--reason \\.\\.\\.|--reason decided|; s|^mistfold||\")\n"                                \
    "o $c\n"

typedef struct row {
    const char *name, *script, *says[4];
} row;

static const row rows[] = {
    {"corrected, then withdrawn, then corrected",
     "t entry correct $notice --set 'signer=ida sample' --reason typo; sleep 1\n"
     "o entry withdraw $notice --reason never; o book merge t.book || [ $? = 1 ]; ask\n" AS_TYPED(
         "correct",
         "signer=Ida-Sample") "ask; o book check; t book merge a.book || [ $? = 1 ]; t book check",
     {"inspection?  NO", "it goes on from truck/1\nit settles office/@, which withdrew it\n",
      "inspection?  YES\n", "faults    0"}},
    {"withdrawn, then corrected, then withdrawn and logged anew",
     "o entry withdraw $notice --reason never; sleep 1\n"
     "t entry correct $notice --set 'signer=ida sample' --reason typo; o book merge t.book || [ $? "
     "= 1 "
     "]; "
     "ask\n" AS_TYPED(
         "withdraw",
         "") "o notice add J-1926 --party owner --method acknowledged --on 2026-08-20 "
             "--signed-on 2026-08-20 --signer 'Ida Sample' --language en --states-receipt yes "
             "--unit '12 Sample Lane'; ask",
     {"inspection?  NO", "it goes on from truck/1\nit settles office/@, which withdrew it\n",
      "inspection?  YES\n", ""}},
    {"what is in force is true",
     "o entry correct $tick --set measured=6.5 --reason typo\n"
     "t entry correct $tick --set time=08:01 --reason typo; o book merge t.book || [ $? = 1 ]; "
     "ask\n" AS_TYPED("correct", "time=08:01") "ask; certify; ask",
     {"inspection?  NO",
      "it goes on from truck/1\nit settles office/@, which says otherwise of "
      "measured, time\n",
      "inspection?  NO\n", "inspection?  YES\n"}},
    {"a third value",
     "o entry correct $tick --set measured=6.5 --reason typo\n"
     "t entry correct $tick --set time=08:01 --reason typo; o book merge t.book || [ $? = 1 ]; "
     "ask\n" AS_TYPED("correct", "measured=7") "ask; certify; ask; o entry correct $tick --set "
                                               "measured=7 --reason again || :",
     {"inspection?  NO", "it settles office/@, which says otherwise of measured, time\n",
      "inspection?  NO\n", "inspection?  YES\n"}},
    {"a certificate of somebody who has no part in the job",
     "o entry correct $zed --set number=Z-2 --reason typo\n"
     "t entry correct $zed --set number=Z-3 --reason typo; o book merge t.book || [ $? = 1 ]; ask",
     {"1 contradictions", "inspection?  YES\n", "that do not agree; no answer", ""}},
    {"how a name is spelled",
     "o entry correct $teo --set 'name=Teo M' --reason typo\n"
     "t entry correct $teo --set 'name=Teo L' --reason typo; o book merge t.book || [ $? = 1 ]; "
     "ask",
     {"1 contradictions", "inspection?  YES\n", "that do not agree; no answer", ""}},
    {"the renovator's certificate",
     "o entry correct $cert --set number=R-2 --reason typo\n"
     "t entry correct $cert --set number=R-3 --reason typo; o book merge t.book || [ $? = 1 ]; "
     "ask\n" AS_TYPED("correct", "number=R-3") "ask",
     {"1 contradictions", "inspection?  NO",
      "it settles office/@, which says otherwise of number\n", "inspection?  YES\n"}},
};

/* Behind the part that was found before; an @ in it is any number. */
static const char *find(const char *text, const char *part)
{
    const char *at = strchr(part, '@');
    size_t len = at == NULL ? strlen(part) : (size_t)(at - part);
    for (; *text != '\0' || len == 0; text++) {
        if (strncmp(text, part, len) != 0)
            continue;
        const char *behind = text + len;
        if (at == NULL)
            return behind;
        behind += strspn(behind, "0123456789");
        if (strstr(behind, at + 1) == behind)
            return behind + strlen(at + 1);
    }
    return NULL;
}

static void one_command_mends_it(void **state)
{
    char script[6000];
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        snprintf(script, sizeof script, "%s%s", BOOKS, rows[i].script);
        run(script);
        const char *at = r.out;
        for (size_t k = 0; k < 4 && rows[i].says[k][0] != '\0'; k++) {
            const char *behind = find(at, rows[i].says[k]);
            if (behind == NULL)
                fail_msg("%s: \"%s\" is not in:\n%s%s", rows[i].name, rows[i].says[k], r.out,
                         r.err);
            at = behind;
        }
        if (r.status != 0)
            fail_msg("%s: %d\n%s%s", rows[i].name, r.status, r.out, r.err);
    }
}

/* The merge names it as well. */
static void the_merge_names_the_command(void **state)
{
    char script[6000];
    (void)state;
    snprintf(
        script, sizeof script, "%s%s", BOOKS,
        "o entry withdraw $notice --reason never; t entry correct $notice --set 'signer=ida "
        "sample' "
        "--reason typo\no book merge t.book 2> said || [ $? = 1 ]; " AS_TYPED(
            "correct",
            "signer=Ida-Sample") "o entry correct $notice --set signer=IDA-Sample --reason again "
                                 "--json; ask");
    run(script);
    assert_int_equal(r.status, 0);
    says("it settles office/");
    says("\"settles\": \"\"");
    says("inspection?  YES");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(one_command_mends_it),
                                       cmocka_unit_test(the_merge_names_the_command)};
    return cmocka_run_group_tests(tests, start, shell_stop);
}
