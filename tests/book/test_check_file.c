/* SQLite's check of the file: beside the rest in a large book, after it in a small one
 * and wherever a thread or a second connection is not to be had. What it finds, what is
 * told first, and that it ends when the rest fails. All constructed. */
#include "book/check.h"
#include "book_kit.h"
#include <sys/resource.h>
#include <unistd.h>

enum { LARGE = 5200, SMALL = 20 };

static void fill(kit *k, int n)
{
    kit_start(k);
    assert_int_equal(mf_book_begin(k->book, &k->err), MF_OK);
    for (int i = 1; i < n; i++) {
        char id[16];
        snprintf(id, sizeof id, "p%d", i);
        kit_log(k, "person", "", "id", id, "name", "P Invented");
    }
    kit_log(k, "certificate", "", "holder", "p1", "discipline", "renovator", "number", "R-1",
            "issuer", "Invented", "issued", "2021-03-06", "expires", "2026-03-06");
    assert_int_equal(mf_book_commit(k->book, &k->err), MF_OK);
}

/* A checker as far as the check of the file needs one. */
static mf_checker checker_of(kit *k, mf_book_report *report)
{
    *report = (mf_book_report){0};
    mf_checker c = {.book = k->book, .out = report, .only_tables = true};
    assert_int_equal(mf_db_int(&k->book->db, "SELECT count(*) FROM entry", &c.total, &k->err),
                     MF_OK);
    return c;
}

/* Whether it ran beside the rest; it must come out well either way. */
static bool runs_apart(kit *k)
{
    mf_file_check file;
    mf_book_report report;
    mf_checker c = checker_of(k, &report);
    mf_file_check_begin(&file, &c);
    bool apart = file.apart;
    assert_int_equal(mf_file_check_end(&file, &c, MF_OK, &k->err), MF_OK);
    assert_string_equal(file.words, "ok");
    assert_int_equal(report.faults, 0);
    return apart;
}

static void where_it_runs(void **state)
{
    static kit k, small;
    (void)state;
    fill(&small, SMALL);
    assert_false(runs_apart(&small));
    kit_stop(&small);

    fill(&k, LARGE);
    assert_true(runs_apart(&k));
    /* What a group has written no other connection sees. */
    assert_int_equal(mf_book_begin(k.book, &k.err), MF_OK);
    assert_false(runs_apart(&k));
    mf_book_rollback(k.book);
    assert_true(runs_apart(&k));
    /* No file may be opened any more. */
    struct rlimit was, none = {0, 0};
    assert_int_equal(getrlimit(RLIMIT_NOFILE, &was), 0);
    none.rlim_max = was.rlim_max;
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &none), 0);
    bool apart = runs_apart(&k);
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &was), 0);
    assert_false(apart);
    kit_stop(&k);
}

/* Another file under its name is not the one that is checked. */
static void a_moved_book(void **state)
{
    static kit k;
    run_result result;
    mf_book_report report;
    (void)state;
    fill(&k, LARGE);
    run_shell(&result, k.folder, "mv firm.book old.book && echo other > firm.book");
    assert_int_equal(result.status, 0);
    assert_false(runs_apart(&k));
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    assert_int_equal(report.entries, LARGE);
    kit_stop(&k);
}

/* An index that lacks a row is found by SQLite alone: nothing of ours reads it. */
static void take_from_index(kit *k)
{
    run_result result;
    mf_book_close(k->book);
    run_shell(
        &result, k->folder,
        "sqlite3 firm.book \"PRAGMA writable_schema = ON; CREATE TABLE keep AS SELECT rowid AS "
        "r, * FROM sqlite_schema WHERE name = 'due_day'; DELETE FROM sqlite_schema WHERE "
        "name = 'due_day'\" && "
        "sqlite3 firm.book \"DROP TRIGGER due_guard_UPDATE; DROP TRIGGER due_guard_DELETE; "
        "UPDATE due SET rowid = rowid + 5\" && "
        "sqlite3 firm.book \"PRAGMA writable_schema = ON; INSERT INTO sqlite_schema SELECT "
        "type, name, tbl_name, rootpage, sql FROM keep; DROP TABLE keep\"");
    if (result.status != 0)
        fail_msg("%s", result.err);
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
}

static void damage_is_told_first(void **state)
{
    static const int sizes[] = {SMALL, LARGE};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        static kit k;
        mf_book_report report;
        fill(&k, sizes[i]);
        take_from_index(&k); /* takes two guards away, too */
        assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_NO);
        if (strstr(report.first, "file: the file is damaged: ") != report.first)
            fail_msg("%s", report.first);
        assert_non_null(strstr(report.first, "due_day"));
        assert_int_equal(report.faults, 3);
        assert_non_null(strstr(k.err.mend, "keep this file as it is"));
        kit_stop(&k);
    }
}

static void the_rest_fails(void **state)
{
    static kit k;
    mf_file_check file;
    mf_book_report report;
    (void)state;
    fill(&k, LARGE);
    mf_checker c = checker_of(&k, &report);
    mf_file_check_begin(&file, &c);
    assert_true(file.apart);
    assert_int_equal(mf_file_check_end(&file, &c, MF_SYSTEM, &k.err), MF_SYSTEM);
    assert_false(file.apart);
    assert_null(file.db.handle);
    assert_int_equal(report.faults, 0);
    assert_true(runs_apart(&k));
    kit_stop(&k);
}

/* One that was interrupted, or had no memory, is done again here. */
static void a_thread_that_failed(void **state)
{
    static kit k;
    mf_file_check file;
    mf_book_report report;
    (void)state;
    fill(&k, LARGE);
    mf_checker c = checker_of(&k, &report);
    mf_file_check_begin(&file, &c);
    assert_true(file.apart);
    sqlite3_interrupt(file.db.handle);
    assert_int_equal(mf_file_check_end(&file, &c, MF_OK, &k.err), MF_OK);
    assert_string_equal(file.words, "ok");
    kit_stop(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(where_it_runs),        cmocka_unit_test(a_moved_book),
        cmocka_unit_test(damage_is_told_first), cmocka_unit_test(the_rest_fails),
        cmocka_unit_test(a_thread_that_failed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
