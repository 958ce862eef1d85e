/* Files kept in the book: what they are by their content, once each, as they came
 * in. The signatures are those of the formats: JPEG ISO/IEC 10918-1 B.1 (FFD8,
 * FFD9), PNG 3rd ed. 5.2 and 11.2.5, PDF ISO 32000-1 7.5.2 and 7.5.5. */
#include "book_kit.h"
#include <unistd.h>

#define PNG                                                                                        \
    "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\b\0\0\0\0invented\0\0\0\0IEND\xAE\x42\x60\x82"
#define JPEG "\xFF\xD8\xFF\xE0 invented \xFF\xD9"
#define PDF  "%PDF-1.4\ninvented\n%%EOF\n"

static mf_status attach(kit *k, const char *job, const char *about, const char *name,
                        const void *bytes, size_t len)
{
    mf_attach_ask ask = {job, about, bytes, len, name, "a note"};
    k->err = (mf_err){0};
    return mf_book_attach(k->book, &ask, &k->now, k->id, NULL, &k->err);
}

typedef struct file {
    const char *name, *bytes;
    size_t len;
    const char *what; /* why it is refused; NULL = it is kept */
} file;

#define FILE_ROW(name, bytes, what)                                                                \
    {                                                                                              \
        name, bytes, sizeof(bytes) - 1, what                                                       \
    }
static const file files[] = {
    FILE_ROW("a.png", PNG, NULL),
    FILE_ROW("a.jpg", JPEG, NULL),
    FILE_ROW("a.pdf", PDF, NULL),
    FILE_ROW("photo.png", "GIF89a invented", "by its content it is no JPEG, PNG or PDF"),
    FILE_ROW("photo.jpg", "<html>", "by its content it is no JPEG, PNG or PDF"),
    FILE_ROW("photo.jpg", "", "the file is empty"),
    FILE_ROW("half.jpg", "\xFF\xD8\xFF\xE0 invented", "the file is cut short: its end is missing"),
    FILE_ROW("half.png", "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0",
             "the file is cut short: its end is missing"),
    FILE_ROW("half.pdf", "%PDF-1.4\ninvented", "the file is cut short: its end is missing"),
};

static void type_by_content(void **state)
{
    kit *k = *state;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        mf_status status = attach(k, "J-1", "", files[i].name, files[i].bytes, files[i].len);
        assert_int_equal(status, files[i].what == NULL ? MF_OK : MF_INPUT);
        if (files[i].what != NULL)
            assert_string_equal(k->err.what, files[i].what);
    }
    kit_sqlite_says(k, "SELECT media, size, name FROM attachment ORDER BY entry",
                    "png|49|a.png\njpeg|16|a.jpg\npdf|24|a.pdf\n");
}

static void length_is_limited(void **state)
{
    static const unsigned char jpeg_start[] = {0xFF, 0xD8, 0xFF}, jpeg_end[] = {0xFF, 0xD9};
    kit *k = *state;
    size_t len = MF_ATTACH_MAX + 1;
    char *bytes = calloc(1, len);
    assert_non_null(bytes);
    memcpy(bytes, jpeg_start, sizeof jpeg_start);
    memcpy(bytes + MF_ATTACH_MAX - sizeof jpeg_end, jpeg_end, sizeof jpeg_end);
    assert_int_equal(attach(k, "J-1", "", "big.jpg", bytes, len), MF_INPUT);
    assert_string_equal(k->err.what, "the file is longer than 16 MB");
    assert_int_equal(attach(k, "J-1", "", "big.jpg", bytes, MF_ATTACH_MAX), MF_OK);
    free(bytes);
}

static void same_bytes_are_stored_once(void **state)
{
    kit *k = *state;
    assert_int_equal(attach(k, "J-1", "office/11", "/home/x/a.png", PNG, sizeof(PNG) - 1), MF_OK);
    assert_int_equal(attach(k, "J-1", "office/12", "b.png", PNG, sizeof(PNG) - 1), MF_OK);
    kit_sqlite_says(k, "SELECT count(*) FROM content", "1\n");
    kit_sqlite_says(k, "SELECT name FROM attachment WHERE about = 'office/11'", "a.png\n");
    assert_int_equal(attach(k, "J-1", "office/12", "c.png", PNG, sizeof(PNG) - 1), MF_INPUT);
    assert_string_equal(k->err.what, "this file is attached to it already, entry office/16");
}

static void only_what_is_there(void **state)
{
    kit *k = *state;
    assert_int_equal(attach(k, "J-9", "", "a.png", PNG, sizeof(PNG) - 1), MF_INPUT);
    assert_int_equal(attach(k, "J-1", "office/99", "a.png", PNG, sizeof(PNG) - 1), MF_INPUT);
    assert_string_equal(k->err.what, "there is no entry office/99 in this job");
    kit_sqlite_says(k, "SELECT count(*) FROM content", "0\n");
    assert_int_equal(kit_count(k), 14);
}

static void cannot_be_changed_but_withdrawn(void **state)
{
    kit *k = *state;
    char id[MF_ENTRY_ID];
    mf_book_report report;
    assert_int_equal(attach(k, "J-1", "", "a.png", PNG, sizeof(PNG) - 1), MF_OK);
    snprintf(id, sizeof id, "%s", k->id);
    mf_draft *draft = kit_draft(k, "attachment", "size", "7", NULL);
    assert_int_equal(mf_book_correct(k->book, id, draft, "x", &k->now, k->id, &k->err), MF_INPUT);
    assert_string_equal(k->err.what, "what was attached cannot be changed");
    mf_draft_free(draft);
    draft = kit_draft(k, "attachment", "note", "the sill", NULL);
    assert_int_equal(mf_book_correct(k->book, id, draft, "x", &k->now, k->id, &k->err), MF_OK);
    mf_draft_free(draft);
    assert_int_equal(mf_book_correct(k->book, id, NULL, "wrong house", &k->now, k->id, &k->err),
                     MF_OK);
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    assert_int_equal(report.contents, 1);
}

/* In and out through the program: the bytes are the same, cmp(1). */
static void exported_intact(void **state)
{
    kit *k = *state;
    run_result result;
    run_shell(
        &result, k->folder,
        "set -e; m=\"$MISTFOLD --book firm.book --by rosa\"\n"
        "cp " MF_SAMPLE "/bagged-waste.png in.png\n"
        "{ head -c 900 in.png; tail -c 12 in.png; } > torn.png\n"
        "$m attach add J-1 torn.png 2> torn || [ $? -eq 3 ]; grep -q 'torn.png: the PNG file is "
        "damaged' torn\n"
        "$m attach add J-1 in.png --about office/11 --note 'the sill'\n"
        "$m attach export J-1 office/15 --out out.png; cmp in.png out.png\n"
        "sum=$(sha256sum < in.png | cut -c1-64)\n"
        "$m attach export J-1 $(echo $sum | cut -c1-12) --out again.png; cmp in.png again.png\n"
        "[ $(sqlite3 firm.book 'SELECT sha256 FROM content') = $sum ]\n"
        "sqlite3 firm.book \"SELECT writefile('w.png', bytes) FROM content\" > /dev/null\n"
        "cmp in.png w.png; stat -c %a out.png\n"
        "$m attach export J-1 office/99 --out no.png || [ $? -eq 3 ]\n"
        "head -c 17000000 /dev/zero > big; $m attach add J-1 big || [ $? -eq 3 ]\n");
    if (result.status != 0)
        print_error("%s%s", result.out, result.err);
    assert_int_equal(result.status, 0);
    assert_non_null(strstr(result.out, "600\n"));
}

typedef struct forgery {
    const char *sql, *first;
} forgery;

static void changed_bytes_are_found(void **state)
{
    static const forgery cases[] = {
        {"UPDATE content SET bytes = CAST(bytes || 'x' AS BLOB)", "its bytes were altered"},
        {"DELETE FROM content", "entry office/15: the bytes of its attachment are missing"},
        {"INSERT INTO content VALUES "
         "('2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4"
         "881', CAST('x' AS BLOB))",
         "no entry of the journal names it"}, /* printf x | sha256sum */
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        static kit k;
        mf_book_report report;
        kit_start(&k);
        kit_chain(&k);
        assert_int_equal(attach(&k, "J-1", "", "a.png", PNG, sizeof(PNG) - 1), MF_OK);
        kit_force(&k, cases[i].sql);
        assert_int_equal(mf_book_check(k.book, &report, NULL), MF_NO);
        assert_non_null(strstr(report.first, cases[i].first));
        if (i < 2) /* also where only the job is looked at */
            assert_int_equal(mf_book_check_job(k.book, "J-1", &report, NULL), MF_NO);
        kit_stop(&k);
    }
}

static void comes_along_in_a_merge(void **state)
{
    kit *k = *state;
    char path[128];
    mf_merge_report report;
    mf_book_report checked;
    kit truck = {.now = k->now};
    snprintf(path, sizeof path, "%s/truck.book", k->folder);
    assert_int_equal(mf_book_copy(k->book, path, "truck", NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&truck.book, path, &k->err), MF_OK);
    assert_int_equal(attach(&truck, "J-1", "", "a.png", PNG, sizeof(PNG) - 1), MF_OK);
    assert_int_equal(attach(k, "J-1", "", "a.png", PNG, sizeof(PNG) - 1), MF_OK);
    assert_int_equal(attach(&truck, "J-1", "", "b.pdf", PDF, sizeof(PDF) - 1), MF_OK);
    assert_int_equal(mf_book_merge(k->book, path, NULL, NULL, &report, &k->err), MF_OK);
    assert_int_equal(report.added, 2);
    assert_int_equal(report.contents, 1);
    assert_int_equal(mf_book_check(k->book, &checked, &k->err), MF_OK);
    assert_int_equal(checked.contents, 2);
    mf_book_close(truck.book);
}

/* Else the book that takes them over would no more pass its own check. */
static void bytes_and_entries_belong_together(void **state)
{
    static const forgery cases[] = {
        {"DROP TRIGGER content_no_delete; DELETE FROM content WHERE sha256 NOT IN"
         " (SELECT body ->> '$.sha256' FROM entry WHERE device = 'office' AND kind = 'attachment')",
         "entry truck/1: the bytes of its attachment are missing"},
        {"DROP TRIGGER entry_no_delete; DELETE FROM entry WHERE device = 'truck'",
         "no entry of the journal names it"},
    };
    kit *k = *state;
    assert_int_equal(attach(k, "J-1", "", "a.png", PNG, sizeof(PNG) - 1), MF_OK);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char path[128], command[500];
        run_result result;
        mf_merge_report report;
        mf_book_report checked;
        kit truck = {.now = k->now};
        kit_in_folder(k, "truck.book", path);
        assert_int_equal(mf_book_copy(k->book, path, "truck", NULL, &k->err), MF_OK);
        assert_int_equal(mf_book_open(&truck.book, path, &k->err), MF_OK);
        assert_int_equal(attach(&truck, "J-1", "", "b.pdf", PDF, sizeof(PDF) - 1), MF_OK);
        mf_book_close(truck.book);
        snprintf(command, sizeof command, "sqlite3 truck.book \"%s\"", cases[i].sql);
        run_shell(&result, k->folder, command);
        assert_int_equal(result.status, 0);
        assert_int_equal(mf_book_merge(k->book, path, NULL, NULL, &report, &k->err), MF_INPUT);
        assert_non_null(strstr(k->err.what, cases[i].first));
        assert_int_equal(mf_book_check(k->book, &checked, &k->err), MF_OK);
        assert_int_equal(checked.contents, 1);
        run_shell(&result, k->folder, "rm truck.book*");
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_chain, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(type_by_content),
        TEST(length_is_limited),
        TEST(same_bytes_are_stored_once),
        TEST(only_what_is_there),
        TEST(cannot_be_changed_but_withdrawn),
        TEST(exported_intact),
        cmocka_unit_test(changed_bytes_are_found),
        TEST(comes_along_in_a_merge),
        TEST(bytes_and_entries_belong_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
