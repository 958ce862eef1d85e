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
/* The index holds what the table zz holds: its columns, then the rowid. */
#define FALSE_INDEX(index, columns, rows)                                                          \
    "CREATE TABLE zz (" columns ", PRIMARY KEY (" columns ")) WITHOUT ROWID; " rows "; " SCHEMA    \
    "UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = 'zz') "  \
    "WHERE name = '" index "'; DELETE FROM sqlite_schema WHERE name = 'zz'; "

static const falsehood all[] = {
    {"the entries of a job without the high reading",
     FALSE_INDEX("entry_job", "a, r",
                 "INSERT INTO zz SELECT job, rowid FROM entry WHERE rowid <> 11"),
     "entry office/11: the index of the journal does not lead to it", "file: the file is damaged"},
    {"all but the first entry of a job",
     FALSE_INDEX("entry_job", "a, r",
                 "INSERT INTO zz SELECT job, rowid FROM entry WHERE rowid < 5"),
     "entry office/5: the index of the journal does not lead to it", "file: the file is damaged"},
    {"a job none of whose entries is led to",
     FALSE_INDEX("entry_job", "a, r", "INSERT INTO zz SELECT job, rowid FROM entry WHERE job = ''"),
     "entry office/4: the index of the journal does not lead to it", "file: the file is damaged"},
    {"another entry in place of the high reading",
     FALSE_INDEX("entry_job", "a, r",
                 "INSERT INTO zz SELECT job, rowid FROM entry WHERE rowid <> 11 UNION ALL"
                 " SELECT 'J-1', 1"),
     "entry office/1: it was altered", "file: the file is damaged"},
    {"the entries of a job without the correction",
     FALSE_INDEX("entry_job", "a, r",
                 "INSERT INTO zz SELECT job, rowid FROM entry WHERE rowid <> 13"),
     "entry office/13: the index of the journal does not lead to it", "file: the file is damaged"},
    {"an index of somebody's own that lacks rows",
     "CREATE INDEX aa ON due (job, entry) WHERE job <> 'J-1'; " SCHEMA
     "UPDATE sqlite_schema SET sql = 'CREATE INDEX aa ON due (job, entry)' WHERE name = 'aa'; ",
     "index aa: it is not one of this program's", "file: the file is damaged"},
    {"an index of somebody's own", "CREATE INDEX aa ON place (address)",
     "index aa: it is not one of this program's", "index aa: it is not one of this program's"},
    {"a place that is not led to",
     FALSE_INDEX("place_key", "a, r", "INSERT INTO zz SELECT 'x', rowid FROM place"), NULL,
     "file: the file is damaged"},
    {"a correction that the views are not led to",
     FALSE_INDEX("corrects_target", "a, b, r",
                 "INSERT INTO zz SELECT job, 'x', rowid FROM corrects"),
     NULL, "file: the file is damaged"},
    {"an index of somebody's own whose type stands in capitals",
     "CREATE INDEX aa ON due (job, entry) WHERE job <> 'J-1'; " SCHEMA
     "UPDATE sqlite_schema SET sql = 'CREATE INDEX aa ON due (job, entry)' WHERE name = 'aa'; "
     "UPDATE sqlite_schema SET type = 'INDEX' WHERE name = 'aa'",
     "INDEX aa: it is not one of this program's", "file: the file is damaged"},
    {"statistics, by which SQLite chooses an index", "ANALYZE",
     "table sqlite_stat1: it is not one of this program's: somebody ran ANALYZE",
     "table sqlite_stat1: it is not one of this program's: somebody ran ANALYZE"},
    {"a number of another kind",
     SCHEMA "UPDATE sqlite_schema SET sql = replace(sql, 'STRICT', '') WHERE name = 'due'; ",
     "table due: it was changed", "table due: it was changed"},
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
