/* Books changed by force, as a forger with sqlite3(1) would: each change is found
 * and named. All are constructed. */
#include "book_kit.h"

typedef struct forgery {
    const char *name, *sql, *first;
    int64_t faults;
} forgery;

static const forgery forgeries[] = {
    {"body changed", "UPDATE entry SET body = replace(body, ':1400', ':400') WHERE seq = 11",
     "entry office/11: it was altered: its text does not give its hash (column loading_ug_cm2 of "
     "table reading says 1400, the journal 400)",
     2},
    {"body and its row changed",
     "UPDATE entry SET body = replace(body, ':1400', ':400') WHERE seq = 11;"
     "UPDATE reading SET loading_ug_cm2 = 400 WHERE entry = 'office/11'",
     "entry office/11: it was altered: its text does not give its hash", 1},
    {"time changed", "UPDATE entry SET logged_at = '2026-09-14T14:00:00Z' WHERE seq = 3",
     "entry office/3: it was altered: its text does not give its hash (column logged_at of table "
     "instrument says 2026-09-15T14:00:00Z, the journal 2026-09-14T14:00:00Z)",
     2},
    {"author changed", "UPDATE entry SET who = 'ana' WHERE seq = 11",
     "entry office/11: it was altered: its text does not give its hash (column who of table "
     "reading says rosa, the journal ana)",
     2},
    {"moved to another job", "UPDATE entry SET job = 'J-2' WHERE seq = 11",
     "entry office/11: it was altered: its text does not give its hash (column job of table "
     "reading says J-1, the journal J-2)",
     2},
    {"kind changed", "UPDATE entry SET kind = 'chip' WHERE seq = 11",
     "entry office/11: it was altered: its text does not give its hash", 3},
    {"hash changed", "UPDATE entry SET hash = prev WHERE seq = 14",
     "entry office/14: it was altered: its text does not give its hash", 1},
    {"reason of a correction changed",
     "UPDATE entry SET body = replace(body, 'misread', 'misheard') WHERE seq = 13",
     "entry office/13: it was altered: its text does not give its hash (column reason of table "
     "correction says misread, the journal misheard)",
     2},
    {"an entry taken out", "DELETE FROM entry WHERE seq = 11",
     "entry office/12: entry office/11 before it is missing", 2},
    {"entries taken out", "DELETE FROM entry WHERE seq BETWEEN 3 AND 5",
     "entry office/6: entries office/3 to 5 before it are missing", 4},
    {"the first taken out", "DELETE FROM entry WHERE seq = 1",
     "entry office/2: entry office/1 before it is missing", 2},
    {"the last taken out", "DELETE FROM entry WHERE seq = 14",
     "entry office/14: table reading has a row for it that the journal does not give", 1},
    {"the last taken out with its row",
     "DELETE FROM entry WHERE seq = 14; DELETE FROM reading WHERE entry = 'office/14'",
     "entry office/14: it was there at the last check, and is missing", 1},
    {"two exchanged",
     "UPDATE entry SET seq = 99 WHERE seq = 11; UPDATE entry SET seq = 11 WHERE seq = 12;"
     "UPDATE entry SET seq = 12 WHERE seq = 99",
     "entry office/11: it was altered: its text does not give its hash (column number of table "
     "reading says 1, the journal 2)",
     7},
    {"a row changed", "UPDATE reading SET loading_ug_cm2 = 400 WHERE entry = 'office/11'",
     "entry office/11: column loading_ug_cm2 of table reading says 400, the journal 1400", 1},
    {"a row emptied", "UPDATE reading SET component = NULL WHERE entry = 'office/11'",
     "entry office/11: column component of table reading says nothing, the journal W01.sash", 1},
    {"a row taken out", "DELETE FROM reading WHERE entry = 'office/11'",
     "entry office/11: its row in table reading is missing", 1},
    {"an address under a name that goes on behind a NUL",
     "UPDATE place SET job = job || char(0) || 'x'",
     "job J-1: table place does not say of it what the journal gives", 1},
    {"an address of no job", "INSERT INTO place VALUES ('', 'x')",
     "job of the firm: table place does not say of it what the journal gives", 1},
    {"a day more under such a name",
     "INSERT INTO due SELECT 'J-7' || char(0), what, day, who, entry FROM due WHERE job <> ''",
     "job J-7: table due does not say of it what the journal gives", 1},
    {"a row under another number", "UPDATE reading SET seq = 99 WHERE entry = 'office/11'",
     "entry office/11: its row in table reading is missing", 2},
    {"a row put in",
     "INSERT INTO person (entry, seq, job, logged_at, who) VALUES ('office/99', 99, '', '', '')",
     "entry office/99: table person has a row for it that the journal does not give", 1},
    {"a correction's row changed", "UPDATE correction SET reason = 'x'",
     "entry office/13: column reason of table correction says x, the journal misread", 1},
    {"a correction undone in its row",
     "UPDATE reading SET correction = '', loading_ug_cm2 = 300 WHERE entry = 'office/12'",
     "entry office/12: column correction of table reading says , the journal office/13", 1},
    {"a body that is no JSON", "UPDATE entry SET body = 'x' WHERE seq = 1",
     "entry office/1: it was altered: its text does not give its hash (column id of table person "
     "says rosa, the journal nothing)",
     3},
};

static void check_forgery(void **state)
{
    const forgery *f = *state;
    static kit fresh;
    kit *k = &fresh;
    mf_book_report report;
    mf_err err = {0};
    kit_start(k);
    kit_chain(k);
    assert_int_equal(mf_book_check(k->book, &report, &err), MF_OK);
    assert_int_equal(report.entries, 14);
    kit_force(k, f->sql);
    assert_int_equal(mf_book_check(k->book, &report, &err), MF_NO);
    assert_string_equal(report.first, f->first);
    assert_int_equal(report.faults, f->faults);
    assert_string_equal(err.what, f->first);
    assert_true(err.mend[0] != '\0');
    kit_stop(k);
}

static const forgery schema_forgeries[] = {
    {"a guard taken away", "DROP TRIGGER entry_no_update",
     "trigger entry_no_update: it was taken away", 1},
    {"a guard made blind",
     "DROP TRIGGER entry_no_delete; CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN "
     "SELECT 1; END",
     "trigger entry_no_delete: it was changed", 1},
    {"a trigger of somebody's own",
     "CREATE TRIGGER mine AFTER INSERT ON entry BEGIN DELETE FROM meta; END",
     "trigger mine: it is none of this program's", 1},
    {"a guard of a table taken away", "DROP TRIGGER reading_guard_UPDATE",
     "trigger reading_guard_UPDATE: it was taken away", 1},
    {"the view changed",
     "DROP VIEW entry_line; CREATE VIEW entry_line AS SELECT 1 AS entry, 2 AS line, 3 AS hash",
     "view entry_line: it was changed", 1},
};

static void check_schema_forgery(void **state)
{
    const forgery *f = *state;
    mf_book_report report;
    static kit fresh;
    kit *k = &fresh;
    kit_start(k);
    kit_chain(k);
    kit_sqlite_says(k, f->sql, "");
    assert_int_equal(mf_book_check(k->book, &report, NULL), MF_NO);
    assert_string_equal(report.first, f->first);
    assert_int_equal(report.faults, f->faults);
    kit_stop(k);
}

#define N_ROWS   (sizeof forgeries / sizeof forgeries[0])
#define N_SCHEMA (sizeof schema_forgeries / sizeof schema_forgeries[0])

static void add(struct CMUnitTest *test, CMUnitTestFunction run, const forgery *row)
{
    test->name = row->name;
    test->test_func = run;
    test->initial_state = (void *)(uintptr_t)row;
}

int main(void)
{
    struct CMUnitTest rows[N_ROWS + N_SCHEMA];
    memset(rows, 0, sizeof rows);
    for (size_t i = 0; i < N_ROWS; i++)
        add(&rows[i], check_forgery, &forgeries[i]);
    for (size_t i = 0; i < N_SCHEMA; i++)
        add(&rows[N_ROWS + i], check_schema_forgery, &schema_forgeries[i]);
    return cmocka_run_group_tests(rows, NULL, NULL);
}
