/* An entry of the firm that the index of the journal does not lead to: a stricter limit of the
 * contract. Everybody who asks about the job beside whose entries it stands is told, a gate,
 * a list, what is due and an export. Constructed: the index is that of a table made for it,
 * and the count of the entries is made to fit. */
#include "support/shell_kit.h"

#include <stdio.h>

static int hidden(void **state)
{
    if (shell_office(state) != 0)
        return r.status;
    run("set -e\n"
        "$MISTFOLD job open --id K-1 --address '1 Elm' --year-built 1940 --building dwelling "
        "--owner-occupied yes --work repair --description d --start 2026-11-02 >/dev/null\n"
        "$MISTFOLD limit add --limit pamphlet-days --value 30 --place K-1 --status verified "
        "--citation N-9 >/dev/null\n"
        "$MISTFOLD party add K-1 --id owner --role owner --name Ida >/dev/null\n"
        "test $(sqlite3 b.book \"SELECT count(*) FROM entry WHERE json_valid(body) AND body ->> "
        "'$.citation' = 'N-9'\") = 1\n"
        "cat > t.sql <<'SQL'\n"
        ".dbconfig enable_trigger off\n"
        "CREATE TABLE zz (a, r, PRIMARY KEY (a, r)) WITHOUT ROWID;\n"
        "INSERT INTO zz SELECT job, rowid FROM entry WHERE NOT coalesce(body ->> '$.citation' = "
        "'N-9', 0);\n"
        "PRAGMA writable_schema = ON;\n"
        "UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = "
        "'zz') WHERE name = 'entry_job';\n"
        "DELETE FROM sqlite_schema WHERE name = 'zz';\n"
        "UPDATE held SET entries = entries - 1 WHERE job = '';\n"
        "SQL\n"
        "sqlite3 -bail b.book < t.sql");
    return r.status;
}

static void is_told_to_whoever_asks(void **state)
{
    (void)state;
    run("$MISTFOLD gate K-1 demo --on 2026-11-01 >/dev/null; echo $?; $MISTFOLD job list | grep "
        "^K-1 | cut -c29-36; $MISTFOLD job list --find K-1 | grep ^K-1 | cut -c29-36; $MISTFOLD "
        "job list --state altered | grep ^K-1 | cut -c29-36; $MISTFOLD export --format csv --on "
        "2026-11-01 2>/dev/null | grep ^K-1 | cut -d, -f7,8");
    assert_string_equal(r.out, "4\naltered:\naltered:\naltered:\naltered,altered\n");
    notes("the index of the journal does not lead to it");
}

static void is_told_by_what_is_due(void **state)
{
    (void)state;
    static const char *const days[] = {"", " --on 2026-11-01"};
    for (size_t i = 0; i < 2; i++) {
        char command[80];
        snprintf(command, sizeof command, "$MISTFOLD due%s", days[i]);
        run(command);
        assert_int_equal(r.status, 4);
        says_not("K-1");
        notes("K-1, b.book: it was altered outside this program");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_told_to_whoever_asks),
        cmocka_unit_test(is_told_by_what_is_due),
    };
    return cmocka_run_group_tests(tests, hidden, shell_stop);
}
