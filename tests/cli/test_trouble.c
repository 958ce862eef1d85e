/* A book with something wrong in it: what is said of it, and that the rest of it is
 * still told. The changes are a forger's or a newer program's; all are constructed. */
#include "support/shell_kit.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define OPEN                                                                                       \
    "--building dwelling --owner-occupied yes --year-built 1926 --work repair --description d "    \
    "--start 2026-09-14"

static int start(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BOOK", "t.book", 1);
    setenv("MISTFOLD_BY", "rosa", 1);
    run_shell(&r, folder,
              "set -e; m=\"$MISTFOLD --book b.book\"; $m book new --no-key --device t;"
              "$m person add --id rosa --name 'Rosa Muestra';"
              "for j in J-1 J-2 J-3; do $m job open --id $j --address \"$j Lane\" " OPEN "; done;"
              "$m opening add J-2 --id W01 --kind window --room kitchen --elevation north");
    if (r.status != 0)
        fprintf(stderr, "%s%s", r.out, r.err);
    return r.status;
}

/* On a copy of the book that nobody has touched yet. */
static void on_a_copy(const char *command)
{
    char line[2000];
    snprintf(line, sizeof line, "cp b.book t.book; %s", command);
    run_shell(&r, folder, line);
}

/* ---- one job that cannot be read --------------------------------------------------------- */

#define HATCH                                                                                      \
    "sqlite3 t.book \"DROP TRIGGER entry_no_update; UPDATE entry SET body = replace(body, "        \
    "'window', 'hatch') WHERE kind = 'opening'\"; "

static const char said_once[] =
    "mistfold: J-2, entry t/5: kind is \"hatch\", which is not known here (it was written by a "
    "newer version, or altered); use a newer version of this program, or check the book\n";

static const char said_as_json[] =
    "{\"error\":{\"status\":4,\"where\":\"J-2, entry t/5\",\"what\":\"kind is \\\"hatch\\\", which "
    "is "
    "not known here\",\"why\":\"it was written by a newer version, or altered\",\"mend\":\"use a "
    "newer version of this program, or check the book\"}}\n";

/* By what is due and by gates those beside it in the chain are doubted too. */
static void the_other_jobs_are_told(void **state)
{
    static const char *const commands[] = {
        "job list",
        "job list --state altered",
        "job list --find lane",
        "job list --json",
    };
    (void)state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        char line[400];
        snprintf(line, sizeof line, HATCH "$MISTFOLD %s", commands[i]);
        on_a_copy(line);
        assert_int_equal(r.status, 4);
        const char *said = strstr(commands[i], "--json") != NULL ? said_as_json : said_once;
        assert_string_equal(r.err, said);
        says("J-1");
        says("J-3");
        says_not("J-2");
    }
    on_a_copy(HATCH "$MISTFOLD due --on 2026-09-15");
    assert_int_equal(r.status, 4);
    notes(said_once);
    notes("J-1, t.book: it was altered outside this program (nothing is judged by it)");
    notes("J-3, t.book: it was altered outside this program (nothing is judged by it)");
    on_a_copy(HATCH "$MISTFOLD gate J-1 rule");
    assert_int_equal(r.status, 4);
    notes("the book was altered outside this program");
    on_a_copy(HATCH "mkdir -p recs; $MISTFOLD paper records recs; s=$?; ls recs; exit $s");
    assert_int_equal(r.status, 4);
    assert_memory_equal(r.err, said_once, sizeof said_once - 1);
    notes("entry_no_update: it was taken away"); /* of the book, which was read whole */
    says("wrote 2 records");
    says("J-1.pdf\nJ-3.pdf\n");
}

/* Where there is no other, nothing says that there is nothing. */
static void nothing_is_not_said_of_what_was_not_read(void **state)
{
    (void)state;
    on_a_copy(HATCH "$MISTFOLD due --on 2026-09-15 --who firm");
    assert_int_equal(r.status, 4);
    says_not("Nothing is due");
    on_a_copy(HATCH "$MISTFOLD job list --find 'J-2'");
    assert_int_equal(r.status, 4);
    assert_string_equal(r.out, "");
    assert_string_equal(r.err, said_once);
}

/* What the firm has is in every job: one line, not one for each of them. */
static void what_the_firm_has_is_said_once(void **state)
{
    static const char *const commands[] = {"due", "job list", "job list --find lane"};
    (void)state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        char line[600];
        snprintf(line, sizeof line,
                 "$MISTFOLD --quiet certificate add --holder firm --discipline firm --number 1 "
                 "--issuer X --issued 2025-01-05 --expires 2030-01-05 > log; sqlite3 t.book \"DROP "
                 "TRIGGER entry_no_update; UPDATE entry SET body = replace(body, 'discipline' || "
                 "char(34, 58, 34) || 'firm', 'discipline' || char(34, 58, 34) || 'moat') WHERE "
                 "kind = 'certificate'\"; "
                 "$MISTFOLD %s",
                 commands[i]);
        on_a_copy(line);
        assert_int_equal(r.status, 4);
        assert_string_equal(r.out, "");
        assert_non_null(strstr(r.err, "discipline is \"moat\""));
        assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
    }
}

/* ---- an altered book ------------------------------------------------------------------------ */

#define ALTERED                                                                                    \
    "$MISTFOLD --quiet job show J-2 > log; t=$(sqlite3 t.book \"SELECT sql || ';' FROM "           \
    "sqlite_schema WHERE name = 'entry_no_update'\"); sqlite3 t.book \"DROP TRIGGER "              \
    "entry_no_update; UPDATE entry SET who = 'x' WHERE kind = 'opening'; $t\"; "

/* No gate but the inspector's answers from a book that was altered (docs/threats.md), and
 * the job at a glance does not either. */
static void the_gates_of_a_job_at_a_glance(void **state)
{
    (void)state;
    on_a_copy(ALTERED "$MISTFOLD gate J-2 rule");
    assert_int_equal(r.status, 4);
    on_a_copy(ALTERED "$MISTFOLD job show J-2 | grep '?'; $MISTFOLD job show J-2 > log");
    assert_int_equal(r.status, 4);
    says("Is this house and this work under the rule?     not answered: the book was altered\n");
    says("May demo start?                                 not answered: the book was altered\n");
    says("Would this file stand up to an inspection?      NO\n");
    says("Has everybody been given what is due to them?   not answered: the book was altered\n");
    says_not("YES");
    assert_non_null(strstr(r.err, "mistfold: t.book: entry t/5: "));
    says_not("next:");
    on_a_copy(ALTERED "$MISTFOLD --lang es job show J-2");
    says("sin respuesta: el libro fue alterado\n");
    on_a_copy(ALTERED "$MISTFOLD job show J-2 --json");
    assert_int_equal(r.status, 4);
    says("\"rule\": \"altered\"");
    says("\"demo\": \"altered\"");
    says("\"inspection\": \"no\"");
    on_a_copy(ALTERED "$MISTFOLD job bundle J-2 --out bundle > log; cat bundle/summary.txt");
    says("May demo start?  not answered: the book was altered\n");
    on_a_copy("$MISTFOLD job show J-2");
    assert_int_equal(r.status, 0);
    says("Is this house and this work under the rule?     YES\n");
}

/* The record and the bundle say in themselves that the book was altered, and are no success;
 * papers that do not say it are not printed from such a book. */
static void papers_of_an_altered_book(void **state)
{
    static const struct {
        const char *command, *made;
        bool is_made;
    } cases[] = {{"paper record J-2 --out p", "p", true},
                 {"paper records .", "J-2.pdf", true},
                 {"job bundle J-2 --out p", "p/summary.txt", true},
                 {"paper summary J-2 --out p", "p", false},
                 {"paper blank test-log --job J-2 --out p", "p", false},
                 {"paper blank containment --job J-2 --out p", "p", false}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char line[900];
        for (int altered = 0; altered < 2; altered++) {
            snprintf(line, sizeof line,
                     "rm -rf p J-2.pdf; %s $MISTFOLD --quiet %s > log; s=$?; test -e %s && echo "
                     "made; exit $s",
                     altered ? ALTERED : "", cases[i].command, cases[i].made);
            on_a_copy(line);
            assert_int_equal(r.status, altered ? 4 : 0);
            assert_string_equal(r.out, !altered || cases[i].is_made ? "made\n" : "");
            assert_int_equal(strstr(r.err, "altered outside this program") != NULL, altered);
        }
    }
}

static void no_next_step_after_a_fault(void **state)
{
    (void)state;
    on_a_copy(ALTERED "$MISTFOLD book check");
    assert_int_equal(r.status, 1);
    says("faults    1\n");
    says_not("next:");
    on_a_copy("$MISTFOLD book check");
    says("next: mistfold due\n");
}

/* ---- what a terminal would not show ------------------------------------------------------- */

/* Marks of direction and of no width, which join letters in some writings and so may stand
 * in a field: what is printed for people has '?' in their place, what a program reads has
 * them as they are. */
static void what_is_not_seen_is_shown(void **state)
{
    static const char *const commands[] = {
        "job list",       "job show J-9",  "party list J-9",        "due --on 2026-09-15",
        "entry list J-9", "area list J-9", "verification list J-9", "containment list J-9",
        "entry show t/6",
    };
    (void)state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        char line[900];
        snprintf(line, sizeof line,
                 "z=$(printf '12\\342\\200\\217 Lane\\342\\200\\213x'); m=\"$MISTFOLD --quiet\"; { "
                 "$m job open --id J-9 --address \"$z\" " OPEN "; $m party add J-9 --id o --role "
                 "owner --name \"$z\"; $m area add J-9 --id A1 --side interior --place \"$z\" "
                 "--length 10 --width 10; } > log || exit 9; $MISTFOLD %s",
                 commands[i]);
        on_a_copy(line);
        if (r.status != 0)
            fail_msg("%s: %d %s", commands[i], r.status, r.err);
        says_not("\xE2\x80\x8F");
        says_not("\xE2\x80\x8B");
        if (strncmp(commands[i], "due", 3) != 0)
            says("12? Lane?x");
        if (i == 0) {
            snprintf(line + strlen(line), sizeof line - strlen(line), " --json");
            on_a_copy(line);
            says("12\xE2\x80\x8F Lane");
        }
    }
    on_a_copy(
        "z=$(printf 'no\\342\\200\\217such'); $MISTFOLD job show \"$z\"; $MISTFOLD --book \"$z\" "
        "due");
    assert_null(strstr(r.err, "\xE2\x80\x8F"));
    assert_non_null(strstr(r.err, "mistfold: no?such: there is no book here"));
}

/* ---- a newer program ---------------------------------------------------------------------------
 */

/* An entry as a newer version would log it, of a kind that there is not, its hash by
 * Python's SHA-256 (book.h has the line). */
#define NEWER                                                                                      \
    "python3 -c \"\n"                                                                              \
    "import hashlib, sqlite3\n"                                                                    \
    "db = sqlite3.connect('t.book')\n"                                                             \
    "prev, seq = db.execute('SELECT hash, seq FROM entry ORDER BY seq DESC').fetchone()\n"         \
    "line = "                                                                                      \
    "'{\\\"at\\\":\\\"2026-09-14T08:00:00Z\\\",\\\"body\\\":{\\\"moat\\\":1},\\\"device\\\":"      \
    "\\\"t\\\",'"                                                                                  \
    "'\\\"job\\\":\\\"J-2\\\",\\\"kind\\\":\\\"moat\\\",\\\"prev\\\":\\\"%s\\\",\\\"seq\\\":%d,"   \
    "\\\"who\\\":\\\"rosa\\\"}' "                                                                  \
    "% (prev, seq + 1)\n"                                                                          \
    "db.create_function('only_mistfold_may_change_this_table', 0, lambda: 1)\n"                    \
    "db.execute('UPDATE held SET entries = entries + 1 WHERE job = ?', ('J-2',))\n"                \
    "db.execute('INSERT INTO entry VALUES (?,?,?,?,?,?,?,?,?)', ('t', seq + 1, "                   \
    "'2026-09-14T08:00:00Z', 'rosa', 'moat', 'J-2', '{\\\"moat\\\":1}', prev, "                    \
    "hashlib.sha256(line.encode()).hexdigest()))\n"                                                \
    "db.commit()\" && "

static void entries_of_unknown_kinds(void **state)
{
    (void)state;
    on_a_copy(NEWER "$MISTFOLD book check");
    says("faults    0\n");
    on_a_copy(NEWER "$MISTFOLD gate J-2 demo");
    assert_int_equal(r.status, 1);
    assert_non_null(strstr(r.err, "note: 1 entries are of kinds that this version does not know"));
    on_a_copy(NEWER "$MISTFOLD job show J-2");
    assert_non_null(strstr(r.err, "note: 1 entries are of kinds that this version does not know"));
    on_a_copy(NEWER "for c in 'gate J-2 demo' 'audit J-2' 'job show J-2' 'gate J-2 inspection'; do "
                    "$MISTFOLD $c --json | grep -c '\"unknown_entries\": 1'; done");
    assert_string_equal(r.out, "1\n1\n1\n1\n");
    on_a_copy("for c in 'gate J-2 demo' 'job show J-2'; do $MISTFOLD $c --json | grep -c "
              "'\"unknown_entries\": 0'; done");
    assert_string_equal(r.out, "1\n1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_other_jobs_are_told),
        cmocka_unit_test(nothing_is_not_said_of_what_was_not_read),
        cmocka_unit_test(what_the_firm_has_is_said_once),
        cmocka_unit_test(the_gates_of_a_job_at_a_glance),
        cmocka_unit_test(papers_of_an_altered_book),
        cmocka_unit_test(no_next_step_after_a_fault),
        cmocka_unit_test(what_is_not_seen_is_shown),
        cmocka_unit_test(entries_of_unknown_kinds),
    };
    return cmocka_run_group_tests(tests, start, shell_stop);
}
