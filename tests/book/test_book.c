/* Making and opening a book, and each way in which that can fail. */
#include "book/room.h"
#include "book_kit.h"
#include <sys/stat.h>
#include <unistd.h>

/* Opening path must fail so. */
static void check_open(const char *path, mf_status status, const char *what)
{
    mf_book *book = NULL;
    mf_err err = {0};
    assert_int_equal(mf_book_open(&book, path, &err), status);
    assert_null(book);
    assert_int_equal(err.status, status);
    assert_string_equal(err.where, path);
    assert_string_equal(err.what, what);
    assert_true(err.mend[0] != '\0');
}

/* ---- a new one ------------------------------------------------------------------------- */

static void new_book_is_private(void **state)
{
    kit *k = *state;
    struct stat st;
    assert_int_equal(stat(k->path, &st), 0);
    assert_int_equal(st.st_mode & 07777, 0600);
    kit_house(k);
    char wal[128];
    snprintf(wal, sizeof wal, "%s-wal", k->path);
    assert_int_equal(stat(wal, &st), 0);
    assert_int_equal(st.st_mode & 07777, 0600);
}

/* The settings that make an acknowledged entry last: sqlite.org/wal.html,
 * sqlite.org/pragma.html. */
static void new_book_is_durable(void **state)
{
    kit *k = *state;
    int64_t number = 0;
    kit_sqlite_says(k, "PRAGMA journal_mode", "wal\n");
    kit_sqlite_says(k, "PRAGMA application_id", "1835428964\n"); /* "mfld" = 0x6d666c64 */
    kit_sqlite_says(k, "PRAGMA user_version", "3\n");
    assert_int_equal(mf_db_int(&k->book->db, "PRAGMA synchronous", &number, NULL), MF_OK);
    assert_int_equal(number, 2); /* FULL */
    assert_int_equal(mf_db_int(&k->book->db, "PRAGMA foreign_keys", &number, NULL), MF_OK);
    assert_int_equal(number, 1);
    assert_int_equal(mf_db_int(&k->book->db, "PRAGMA trusted_schema", &number, NULL), MF_OK);
    assert_int_equal(number, 0);
}

static void new_book_refuses_existing(void **state)
{
    kit *k = *state;
    mf_book *book = NULL;
    mf_err err = {0};
    char link[128];
    assert_int_equal(mf_book_new(&book, k->path, "x", &err), MF_INPUT);
    assert_string_equal(err.what, "there is a file of this name already");
    kit_in_folder(k, "link", link);
    assert_int_equal(symlink("nowhere", link), 0);
    assert_int_equal(mf_book_new(&book, link, "x", &err), MF_INPUT);
    kit_in_folder(k, "none/b", link);
    assert_int_equal(mf_book_new(&book, link, "x", &err), MF_INPUT);
    assert_string_equal(err.why, "there is no such file or folder");
    assert_null(book);
}

static void device_names(void **state)
{
    kit *k = *state;
    static const struct {
        const char *device;
        mf_status status;
    } rows[] = {{"a", MF_OK},
                {"tablet-2", MF_OK},
                {"abcdefgh-1234567", MF_OK}, /* 16 */
                {"abcdefgh-12345678", MF_INPUT},
                {"", MF_INPUT},
                {"Tablet", MF_INPUT},
                {"a/b", MF_INPUT},
                {"a b", MF_INPUT}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char path[128], name[16];
        mf_book *book = NULL;
        snprintf(name, sizeof name, "b%zu", i);
        kit_in_folder(k, name, path);
        assert_int_equal(mf_book_new(&book, path, rows[i].device, NULL), rows[i].status);
        assert_int_equal(access(path, F_OK), rows[i].status == MF_OK ? 0 : -1);
        mf_book_close(book);
    }
}

static void drawn_device(void **state)
{
    kit *k = *state;
    char path[128];
    mf_book *book = NULL;
    kit_in_folder(k, "drawn", path);
    assert_int_equal(mf_book_new(&book, path, NULL, NULL), MF_OK);
    assert_int_equal(strlen(book->device), 5);
    assert_int_equal(strspn(book->device, "bcdfghjkmnpqrstvwxz23456789"), 5);
    mf_book_close(book);
}

static void relative_and_odd_names(void **state)
{
    kit *k = *state;
    char here[256];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(k->folder), 0);
    static const char *const names[] = {"plain.book", ":memory:", "file:x?mode=ro",
                                        "Casa n\xC2\xBA 3"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        mf_book *book = NULL;
        assert_int_equal(mf_book_new(&book, names[i], "x", NULL), MF_OK);
        mf_book_close(book);
        assert_int_equal(access(names[i], F_OK), 0);
        assert_int_equal(mf_book_open(&book, names[i], NULL), MF_OK);
        mf_book_close(book);
    }
    assert_int_equal(chdir(here), 0);
}

/* ---- opening -------------------------------------------------------------------------------- */

static void open_again(void **state)
{
    kit *k = *state;
    char before[MF_HASH_HEX], after[MF_HASH_HEX];
    kit_house(k);
    assert_int_equal(mf_book_head(k->book, before, NULL), MF_OK);
    mf_book_close(k->book);
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
    assert_int_equal(mf_book_head(k->book, after, NULL), MF_OK);
    assert_string_equal(before, after);
    kit_reading(k, "1", "1.2");
    assert_string_equal(k->id, "office/10");
}

/* A book that was only opened is not changed: cmp(1). */
static void opening_changes_nothing(void **state)
{
    kit *k = *state;
    kit_house(k);
    mf_book_close(k->book);
    kit_shell(k, "cp firm.book copy.book");
    assert_int_equal(mf_book_open(&k->book, k->path, NULL), MF_OK);
    mf_book_close(k->book);
    k->book = NULL;
    kit_shell(k, "cmp firm.book copy.book");
}

static void no_file(void **state)
{
    char path[128];
    kit_in_folder(*state, "none.book", path);
    check_open(path, MF_INPUT, "there is no book here");
    kit_in_folder(*state, "firm.book/x", path);
    check_open(path, MF_INPUT, "there is no book here");
}

static void a_folder(void **state)
{
    kit *k = *state;
    check_open(k->folder, MF_INPUT, "this is a folder, no book");
}

static void no_ordinary_file(void **state)
{
    (void)state;
    check_open("/dev/null", MF_INPUT, "this is not a book");
}

static void empty_file(void **state)
{
    char path[128];
    kit_in_folder(*state, "empty", path);
    kit_shell(*state, ": > empty");
    check_open(path, MF_INPUT, "this file is empty, it is not a book");
}

static void not_sqlite(void **state)
{
    char path[128];
    kit_in_folder(*state, "text", path);
    kit_shell(*state, "yes 'this is a text' | head -c 9000 > text");
    check_open(path, MF_INPUT, "this file is not a book");
}

static void other_sqlite(void **state)
{
    char path[128];
    mf_err err = {0};
    mf_book *book = NULL;
    kit_in_folder(*state, "other.db", path);
    kit_shell(*state, "sqlite3 other.db 'CREATE TABLE t (a)'");
    check_open(path, MF_INPUT, "this file is not a book");
    assert_int_equal(mf_book_open(&book, path, &err), MF_INPUT);
    assert_string_equal(err.why, "it is an SQLite file of another program");
}

static void newer_schema(void **state)
{
    kit *k = *state;
    kit_shell(k, "sqlite3 firm.book 'PRAGMA user_version=4'");
    check_open(k->path, MF_INPUT,
               "the book was written by a newer version (schema 4, this one knows 3)");
}

static void damaged(void **state)
{
    kit *k = *state;
    kit_house(k);
    mf_book_close(k->book);
    k->book = NULL;
    /* Page 1 holds the schema; its cells are overwritten, the header stays. */
    kit_shell(k, "dd if=/dev/zero of=firm.book bs=1 seek=100 count=3900 conv=notrunc 2>/dev/null");
    check_open(k->path, MF_SYSTEM, "the book is damaged");
}

static void locked(void **state)
{
    kit *k = *state;
    mf_book *other = NULL;
    mf_err err = {0};
    assert_int_equal(mf_book_open(&other, k->path, NULL), MF_OK);
    sqlite3_busy_timeout(other->db.handle, 50); /* the test need not wait five seconds */
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    assert_int_equal(mf_book_begin(other, &err), MF_SYSTEM);
    assert_string_equal(err.what, "the book is in use by another program");
    assert_true(err.mend[0] != '\0');
    mf_book_rollback(k->book);
    assert_int_equal(mf_book_begin(other, &err), MF_OK);
    mf_book_close(other);
}

/* A reader is not kept out by a writer, and sees what was there before. */
static void reading_while_another_writes(void **state)
{
    kit *k = *state;
    mf_book *other = NULL;
    mf_job *job = NULL;
    kit_house(k);
    assert_int_equal(mf_book_open(&other, k->path, NULL), MF_OK);
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    kit_reading(k, "1", "0.5");
    assert_int_equal(mf_book_job(other, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 0);
    mf_book_job_free(job);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    assert_int_equal(mf_book_job(other, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 1);
    mf_book_job_free(job);
    mf_book_close(other);
}

/* ---- when and who --------------------------------------------------------------------- */

/* RFC 3339 5.6 with seconds and Z; a second 60 is a leap second (5.7). */
static void an_entry_has_its_time_and_its_hand(void **state)
{
    static const struct {
        const char *at, *who;
        mf_status status;
    } of[] = {
        {"2026-09-15T14:00:00Z", "rosa", MF_OK},
        {"2026-12-31T23:59:60Z", "rosa", MF_OK},
        {"2026-09-15T14:00:59Z", "jos\xC3\xA9", MF_OK},
        {NULL, "rosa", MF_USAGE},
        {"", "rosa", MF_USAGE},
        {"2026-09-15T14:00Z", "rosa", MF_USAGE},
        {"2026-09-15 14:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00.00Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:00z", "rosa", MF_USAGE},
        {"2026-09-31T14:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T24:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:61Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:70Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:/9Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:0/Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:0:Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:00Z", NULL, MF_INPUT},
        {"2026-09-15T14:00:00Z", "", MF_INPUT},
        {"2026-09-15T14:00:00Z", "ro\nsa", MF_INPUT},
        {"2026-09-15T14:00:00Z", "ro\xFFsa", MF_INPUT},
        {"2026-09-15T14:00:00Z",
         "0123456789012345678901234567890123456789012345678901234567890123456789012345678901234567"
         "8901234567890",
         MF_INPUT}, /* 101 bytes */
    };
    kit *k = *state;
    int64_t before = kit_count(k), written = 0;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        char id[16];
        snprintf(id, sizeof id, "p%zu", i);
        mf_draft *draft = kit_draft(k, "person", "id", id, "name", "Somebody Invented", NULL);
        const mf_now now = {k->now.today, of[i].at, of[i].who, NULL};
        mf_status status = mf_book_write(k->book, draft, "", &now, "", NULL, &k->err);
        mf_draft_free(draft);
        if (status != of[i].status)
            fail_msg("row %zu: status %d", i, status);
        written += status == MF_OK;
    }
    assert_int_equal(kit_count(k), before + written);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_book, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(new_book_is_private),
        TEST(new_book_is_durable),
        TEST(new_book_refuses_existing),
        TEST(device_names),
        TEST(drawn_device),
        TEST(relative_and_odd_names),
        TEST(open_again),
        TEST(opening_changes_nothing),
        TEST(no_file),
        TEST(a_folder),
        TEST(no_ordinary_file),
        TEST(empty_file),
        TEST(not_sqlite),
        TEST(other_sqlite),
        TEST(newer_schema),
        TEST(damaged),
        TEST(locked),
        TEST(reading_while_another_writes),
        TEST(an_entry_has_its_time_and_its_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
