/* Books changed by force, as a forger with sqlite3(1) would: each change is found
 * and named. All are constructed. */
#include "book_kit.h"

typedef struct forgery {
    const char *name, *sql, *first;
    int64_t faults;
} forgery;

#define ALTERED(id) "entry " id ": it was altered: its text does not give its hash"

static const forgery forgeries[] = {
    {"body changed", "UPDATE entry SET body = replace(body, ':1400', ':400') WHERE seq = 11",
     ALTERED("office/11"), 1},
    {"time changed", "UPDATE entry SET logged_at = '2026-09-14T14:00:00Z' WHERE seq = 3",
     ALTERED("office/3"), 1},
    {"author changed", "UPDATE entry SET who = 'ana' WHERE seq = 11", ALTERED("office/11"), 1},
    {"moved to another job", "UPDATE entry SET job = 'J-2' WHERE seq = 11", ALTERED("office/11"),
     1},
    {"kind changed", "UPDATE entry SET kind = 'chip' WHERE seq = 11", ALTERED("office/11"), 1},
    {"hash changed", "UPDATE entry SET hash = prev WHERE seq = 14", ALTERED("office/14"), 1},
    {"reason of a correction changed",
     "UPDATE entry SET body = replace(body, 'misread', 'misheard') WHERE seq = 13",
     ALTERED("office/13"), 1},
    {"an entry taken out", "DELETE FROM entry WHERE seq = 11",
     "entry office/12: entry office/11 before it is missing", 1},
    {"entries taken out", "DELETE FROM entry WHERE seq BETWEEN 3 AND 5",
     "entry office/6: entries office/3 to 5 before it are missing", 4},
    {"the first taken out", "DELETE FROM entry WHERE seq = 1",
     "entry office/2: entry office/1 before it is missing", 1},
    {"the last taken out", "DELETE FROM entry WHERE seq = 14",
     "job J-1: the journal gives 9 entries of it, 10 were logged", 1},
    {"the last taken out with its count",
     "DELETE FROM entry WHERE seq = 14; UPDATE held SET entries = 9 WHERE job = 'J-1'",
     "entry office/14: it was there at the last check, and is missing", 1},
    {"two exchanged",
     "UPDATE entry SET seq = 99 WHERE seq = 11; UPDATE entry SET seq = 11 WHERE seq = 12;"
     "UPDATE entry SET seq = 12 WHERE seq = 99",
     ALTERED("office/11"), 5},
    {"an address changed", "UPDATE place SET address = 'x'",
     "job J-1: table place does not say of it what the journal gives", 1},
    {"an address under a name that goes on behind a NUL",
     "UPDATE place SET job = job || char(0) || 'x'",
     "job J-1: table place does not say of it what the journal gives", 2},
    {"an address of no job", "INSERT INTO place VALUES ('J-9', 1, 'x', '', '', '')",
     "job J-9: table place does not say of it what the journal gives", 1},
    {"a day more under such a name",
     "INSERT INTO due SELECT 'J-7' || char(0), what, day, who, entry FROM due WHERE job <> ''",
     "job J-7: table due does not say of it what the journal gives", 1},
    {"a day put off", "UPDATE due SET day = '2099-01-01' WHERE job = 'J-1'",
     "job J-1: table due does not say of it what the journal gives", 1},
    {"a correction hidden from the views", "DELETE FROM corrects",
     "job J-1: table corrects does not say of it what the journal gives", 1},
    {"a correction of no job", "INSERT INTO corrects VALUES ('x', 1, 'J-9', 'office/11', 'x/2')",
     "job J-9: table corrects does not say of it what the journal gives", 1},
    {"a count changed", "UPDATE held SET entries = 5 WHERE job = ''",
     "job of the firm: the journal gives 4 entries of it, 5 were logged", 1},
    {"a body that is no JSON", "UPDATE entry SET body = 'x' WHERE seq = 1", ALTERED("office/1"), 2},
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
     "trigger mine: it is not one of this program's", 1},
    {"a guard of a table taken away", "DROP TRIGGER due_guard_UPDATE",
     "trigger due_guard_UPDATE: it was taken away", 1},
    {"a view that hides a reading",
     "DROP VIEW reading; CREATE VIEW reading AS SELECT 1 AS entry WHERE 0",
     "view reading: it was changed", 1},
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
