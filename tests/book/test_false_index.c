/* An index that does not hold what its table holds answers a question falsely although
 * every row is right. With nothing but sqlite3(1) one is made as a partial index whose
 * text in the schema is then made the genuine one; or as a table WITHOUT ROWID, which lies
 * in the file like an index, whose pages the schema then gives to the index. The check of a job,
 * which comes before an answer, tells of those that its questions go through; the whole check of
 * all. All constructed. */
#include "book_kit.h"

typedef struct falsehood {
    const char *name, *sql;
    const char *job, *whole; /* what the two checks say; NULL = nothing is asked of it */
} falsehood;

#define SCHEMA "PRAGMA writable_schema = ON; "
#define SQL_OF(x)                                                                                  \
    "(SELECT replace(sql, ' WHERE loading_ug_cm2 < 1000', '') FROM sqlite_schema "                 \
    "WHERE name = '" x "')"
#define GENUINE(x) SCHEMA "UPDATE sqlite_schema SET sql = " SQL_OF(x) " WHERE name = '" x "'; "

/* The index holds what the table zz holds: its columns, then the rowid. */
#define FALSE_INDEX(index, columns, rows)                                                          \
    "CREATE TABLE zz (" columns ", PRIMARY KEY (" columns ")) WITHOUT ROWID; " rows "; " SCHEMA    \
    "UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = 'zz') "  \
    "WHERE name = '" index "'; DELETE FROM sqlite_schema WHERE name = 'zz'; "

static const falsehood all[] = {
    {"the readings of a job without the high one",
     "DROP INDEX reading_number; CREATE INDEX reading_number ON reading (job, number, instrument) "
     "WHERE loading_ug_cm2 < 1000; " GENUINE("reading_number"),
     "table reading: ", "file: the file is damaged"},
    {"an index of somebody's own that lacks rows",
     "CREATE INDEX aa ON reading (job, entry) WHERE loading_ug_cm2 < 1000; " GENUINE("aa"),
     "index aa: it is none of this program's", "file: the file is damaged"},
    {"an index of somebody's own", "CREATE INDEX aa ON reading (who)",
     "index aa: it is none of this program's", "index aa: it is none of this program's"},
    {"a correction that is not led to",
     "DROP INDEX correction_target; CREATE INDEX correction_target ON correction (target) WHERE "
     "target <> 'office/12'; " SCHEMA "UPDATE sqlite_schema SET sql = 'CREATE INDEX "
     "correction_target ON correction (target)' WHERE name = 'correction_target'; "
     "UPDATE reading SET correction = '', loading_ug_cm2 = 300, substrate = substrate WHERE "
     "entry = 'office/12'",
     "entry office/13: an index of table correction", "file: the file is damaged"},
    {"a reading that is led to twice in place of the high one",
     FALSE_INDEX(
         "reading_number", "a, b, c, n, r",
         "INSERT INTO zz SELECT b.job, b.number, b.instrument, a.rowid, b.rowid FROM reading "
         "AS a JOIN reading AS b ON b.entry = replace(a.entry, 'office/11', 'office/14')"),
     "table reading: its index reading_number leads to other rows", "file: the file is damaged"},
    {"another id than the row has",
     FALSE_INDEX("component_key", "a, b, r",
                 "INSERT INTO zz SELECT job, replace(id, 'W01.sill', 'W09.sill'), rowid FROM "
                 "component"),
     "table component: its index component_key gives", "file: the file is damaged"},
    {"a correction of another entry",
     "UPDATE reading SET correction = 'office/13', number = 2, loading_ug_cm2 = 400 WHERE entry = "
     "'office/11'; " FALSE_INDEX("correction_target", "a, r",
                                 "INSERT INTO zz SELECT target, rowid FROM correction UNION ALL "
                                 "SELECT 'office/11', rowid FROM correction"),
     "entry office/11: column correction of table reading says office/13",
     "file: the file is damaged"},
    {"corrections that others are said to replace",
     "UPDATE reading SET correction = '', loading_ug_cm2 = 300 WHERE entry = 'office/12'; "
     "INSERT INTO correction SELECT 'x/1', job, logged_at, who, target, 'x/0', kind, reason, "
     "before, after FROM correction; " FALSE_INDEX(
         "correction_replaces", "a, r",
         "INSERT INTO zz SELECT replaces, rowid FROM correction UNION ALL SELECT 'office/13', "
         "rowid FROM correction WHERE entry = 'x/1' UNION ALL SELECT 'x/1', rowid FROM correction "
         "WHERE entry = 'office/13'"),
     "entry office/12: column correction of table reading says ", "file: the file is damaged"},
    {"an index of somebody's own whose type stands in capitals",
     "CREATE INDEX aa ON reading (job, entry) WHERE loading_ug_cm2 < 1000; " GENUINE(
         "aa") "UPDATE sqlite_schema SET type = 'INDEX' WHERE name = 'aa'",
     "INDEX aa: it is none of this program's", "file: the file is damaged"},
    {"statistics, by which SQLite chooses an index", "ANALYZE",
     "table sqlite_stat1: it is none of this program's: somebody ran ANALYZE",
     "table sqlite_stat1: it is none of this program's: somebody ran ANALYZE"},
    {"a number of another kind",
     SCHEMA "UPDATE sqlite_schema SET sql = replace(sql, 'STRICT', '') WHERE name = 'reading'; ",
     "table reading: it was changed", "table reading: it was changed"},
};

static void apply(kit *k, const char *sql)
{
    run_result result;
    char command[3000];
    mf_book_close(k->book);
    k->book = NULL;
    FILE *file = NULL;
    snprintf(command, sizeof command, "%s/tamper.sql", k->folder);
    file = fopen(command, "w");
    assert_non_null(file);
    fprintf(file, ".dbconfig enable_trigger off\n%s;\n", sql);
    fclose(file);
    run_shell(&result, k->folder, "sqlite3 -bail firm.book < tamper.sql");
    if (result.status != 0)
        fail_msg("%s: %s", sql, result.err);
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
}

static void says(const char *want, mf_status status, const mf_book_report *report)
{
    if (status != MF_NO || strncmp(report->first, want, strlen(want)) != 0)
        fail_msg("%d: %s", status, report->first);
}

static void is_told(void **state)
{
    static kit k;
    const falsehood *f = *state;
    mf_book_report report;
    kit_start(&k);
    kit_chain(&k);
    apply(&k, f->sql);
    mf_status job = mf_book_check_job(k.book, "J-1", &report, &k.err);
    print_message("job: %d %s\n", job, report.first);
    if (f->job != NULL)
        says(f->job, job, &report);
    mf_status whole = mf_book_check(k.book, &report, &k.err);
    print_message("whole: %d %s\n", whole, report.first);
    says(f->whole, whole, &report);
    /* Where only tables are at fault a rebuild mends it. */
    if (strstr(k.err.mend, "rebuild the tables") != NULL) {
        assert_int_equal(mf_book_rebuild(k.book, &k.err), MF_OK);
        assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    }
    kit_stop(&k);
}

#define N (sizeof all / sizeof all[0])

int main(void)
{
    struct CMUnitTest tests[N];
    memset(tests, 0, sizeof tests);
    EACH_ROW(tests, all, is_told);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
