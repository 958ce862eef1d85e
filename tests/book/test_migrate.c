/* Books as earlier versions wrote them (tests/books) open, check and go on. Each
 * is the book of the invented sample job. */
#include "book_kit.h"
#include "tables_kit.h"

typedef struct kept {
    const char *name;
    int64_t entries;
    const char *head; /* as the version that wrote it printed it */
} kept;

static const kept books[] = {
    {"schema-1", 395, "d21385b038b98f77387f909f375cb67dbb1d610393f9dc54c42c13d0afb3d001"},
    {"schema-2", 415, "1b2f43be8a0588723d5dd19bf6c92a671640e07cddf84459e3869a6a52a6c803"},
};

static void unpack(kit *k, const char *name)
{
    run_result result;
    char command[300];
    *k = (kit){.now = kit_time()};
    run_folder(k->folder);
    snprintf(k->path, sizeof k->path, "%s/firm.book", k->folder);
    snprintf(command, sizeof command,
             "gunzip -c '%s/books/%s.book.gz' > firm.book && chmod 600 firm.book", MF_TESTS, name);
    run_shell(&result, k->folder, command);
    assert_int_equal(result.status, 0);
}

static void check_book(const kept *b)
{
    static kit k;
    mf_book_report report;
    char is[MF_DIGEST_HEX], rebuilt[MF_DIGEST_HEX], want[32];
    unpack(&k, b->name);
    mf_status status = mf_book_open(&k.book, k.path, &k.err);
    if (status != MF_OK)
        print_error("%s\n", k.err.what);
    assert_int_equal(status, MF_OK);
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    assert_int_equal(report.entries, b->entries);
    assert_string_equal(report.head, b->head);
    kit_tables_hash(k.book, is);
    assert_int_equal(mf_book_rebuild(k.book, &k.err), MF_OK);
    kit_tables_hash(k.book, rebuilt);
    assert_string_equal(is, rebuilt);
    kit_log(&k, "person", "", "id", "later", "name", "Later Invented");
    snprintf(want, sizeof want, "office/%lld", (long long)b->entries + 1);
    assert_string_equal(k.id, want);
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    kit_sqlite_says(&k, "PRAGMA integrity_check", "ok\n");
    kit_stop(&k);
}

static void earlier_books_go_on(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof books / sizeof books[0]; i++)
        check_book(&books[i]);
}

/* A book of an earlier version can be merged as it is, and is not changed by it. */
static void earlier_books_are_merged(void **state)
{
    static kit k;
    (void)state;
    for (size_t i = 0; i < sizeof books / sizeof books[0]; i++) {
        char path[128], head[MF_HASH_HEX];
        mf_book *book = NULL;
        mf_merge_report report;
        unpack(&k, books[i].name);
        snprintf(path, sizeof path, "%s/new.book", k.folder);
        assert_int_equal(mf_book_new(&book, path, "fresh", &k.err), MF_OK);
        assert_int_equal(mf_book_merge(book, k.path, NULL, NULL, &report, &k.err), MF_OK);
        assert_int_equal(report.added, books[i].entries);
        assert_int_equal(mf_book_head(book, head, NULL), MF_OK);
        assert_string_equal(head, books[i].head);
        mf_book_close(book);
        snprintf(path, sizeof path, "%s\n", books[i].name + strlen("schema-"));
        kit_sqlite_says(&k, "PRAGMA user_version", path);
        kit_stop(&k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(earlier_books_go_on),
        cmocka_unit_test(earlier_books_are_merged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
