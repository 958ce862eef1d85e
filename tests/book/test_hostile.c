/* Books that somebody built to do harm: they are opened or merged and refused in one
 * clear line, our own book stays as it was, and nothing runs for long. Each is a sound
 * book changed by sqlite3(1) or dd(1). All are constructed. */
#include "book_kit.h"

typedef struct hostile {
    const char *name, *how;   /* a shell script that changes other.book */
    const char *open, *merge; /* what is said; NULL = it may be opened, merged */
} hostile;

#define SQL(sql) "sqlite3 other.book \"" sql "\""
/* The guards would keep a forger from the rows. */
#define FREED "DROP TRIGGER entry_no_update; DROP TRIGGER entry_no_delete; "

static const hostile all[] = {
    {"a view in the place of a table",
     SQL("ALTER TABLE entry RENAME TO e; CREATE VIEW entry AS "
         "SELECT * FROM e"),
     "index entry_job is missing", "index entry_job is missing"},
    {"a view without end",
     SQL("ALTER TABLE content RENAME TO c; CREATE VIEW content AS WITH RECURSIVE n(x) AS (SELECT 1 "
         "UNION ALL SELECT x + 1 FROM n) SELECT x AS sha256, x AS bytes FROM n"),
     "content", "content"},
    {"a generated column",
     SQL("DROP TABLE content; CREATE TABLE content (sha256 TEXT, bytes AS (zeroblob(900000000)))"),
     "is not as in a book", "is not as in a book"},
    {"a table without its types", SQL("DROP TABLE content; CREATE TABLE content (sha256, bytes)"),
     "is not as in a book", "is not as in a book"},
    {"a table that is missing", SQL("DROP TABLE content"), "table content is missing",
     "table content is missing"},
    {"a table that its version has not", SQL("PRAGMA user_version = 1"),
     "does not belong in a book", "does not belong in a book"},
    {"an index of somebody's own on the journal", SQL("CREATE INDEX odd ON entry (abs(seq))"),
     "index odd does not belong in a book", "index odd does not belong in a book"},
    {"a virtual table", SQL("CREATE VIRTUAL TABLE odd USING fts5(x)"), "is a virtual one",
     "is a virtual one"},
    {"the schema's text broken",
     SQL("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = 'CREATE TABLE entry(x' "
         "WHERE name = 'entry'"),
     "the book is damaged", "the book is damaged"},
    {"no schema number", SQL("PRAGMA user_version = 0"), "this file is not a book",
     "this file is not a book"},
    {"a derived table that is a view",
     SQL("DROP TABLE place; CREATE VIEW place AS SELECT * FROM entry"), NULL, NULL},
    {"a trigger that deletes",
     SQL("CREATE TRIGGER odd AFTER INSERT ON entry BEGIN DELETE FROM content; DELETE FROM meta; "
         "END"),
     NULL, NULL},
    {"pages of zeros", "dd if=/dev/zero of=other.book bs=4096 seek=10 count=40 conv=notrunc", NULL,
     "damaged"},
    {"cut short", "truncate -s 200000 other.book", NULL, "damaged"},
    {"a huge value",
     SQL("DROP TRIGGER content_no_replace; INSERT INTO content VALUES (printf('%064d', 1), "
         "zeroblob(40000000))"),
     NULL, "a value is too long for a book"},
    {"a body that is no JSON", SQL(FREED "UPDATE entry SET body = 'x' WHERE seq = 2"), NULL,
     "the other book"},
    {"a kind that is no kind", SQL(FREED "UPDATE entry SET kind = char(10) WHERE seq = 2"), NULL,
     "entry office/2"},
};

static const char setup[] = "set -e\n"
                            "rm -f other.book*\n"
                            "sqlite3 firm.book 'PRAGMA wal_checkpoint(TRUNCATE)' > checkpoint\n"
                            "cp firm.book other.book\n";

static bool one_clear_line(const char *text)
{
    const char *end = strchr(text, '\n');
    return strncmp(text, "mistfold: other.book: ", 22) == 0 && end != NULL && end[1] == '\0' &&
           strstr(text, "; ") != NULL;
}

static void says(kit *k, const char *what, const char *command)
{
    run_result result;
    run_shell(&result, k->folder, command);
    if (what == NULL)
        return; /* that it came back is what is asked of it */
    if (result.status < 3 || result.status > 4 || !one_clear_line(result.err) ||
        strstr(result.err, what) == NULL)
        fail_msg("%s: exit %d, %s", command, result.status, result.err);
}

static void refused(void **state)
{
    static kit k;
    const hostile *h = *state;
    run_result result;
    char script[1200];
    kit_start(&k);
    kit_chain(&k);
    snprintf(script, sizeof script, "%s%s", setup, h->how);
    run_shell(&result, k.folder, script);
    if (result.status != 0)
        fail_msg("%s", result.err);
    says(&k, h->merge, "ulimit -t 60; $MISTFOLD --book firm.book --by rosa book merge other.book");
    says(&k, h->open,
         "ulimit -t 60; $MISTFOLD --book other.book --by rosa person add --id n --name N");
    mf_book_report report;
    assert_int_equal(mf_book_check(k.book, &report, NULL), MF_OK);
    assert_int_equal(report.entries, 14);
    kit_stop(&k);
}

/* A trigger of somebody else's does not run when we write. */
static void no_trigger_runs(void **state)
{
    static kit k;
    run_result result;
    (void)state;
    kit_start(&k);
    kit_chain(&k);
    kit_sqlite_says(&k,
                    "CREATE TABLE seen (x); CREATE TRIGGER odd AFTER INSERT ON entry BEGIN "
                    "INSERT INTO seen VALUES (1); END",
                    "");
    run_shell(&result, k.folder, "$MISTFOLD --book firm.book --by rosa person add --id n --name N");
    assert_int_equal(result.status, 0);
    kit_sqlite_says(&k, "SELECT count(*) FROM seen", "0\n");
    run_shell(&result, k.folder, "$MISTFOLD --book firm.book book check");
    assert_int_equal(result.status, 1); /* and the check tells of it */
    assert_non_null(strstr(result.err, "trigger odd: it is not one of this program's"));
    kit_stop(&k);
}

#define N (sizeof all / sizeof all[0])

int main(void)
{
    struct CMUnitTest tests[N + 1];
    memset(tests, 0, sizeof tests);
    EACH_ROW(tests, all, refused);
    tests[N] = (struct CMUnitTest)cmocka_unit_test(no_trigger_runs);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
