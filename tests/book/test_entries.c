/* Entries that leave as a file and come back. What is expected follows from the design: what
 * came in is what was logged, all of it or nothing, once. All constructed. */
#include "entries_kit.h"

/* A phone that logged a reading, a correction and a photo. */
static kit phone_with_photo(kit *k)
{
    kit phone = copied(k, "phone");
    const mf_attach_ask ask = {"J-1", "phone/1", PNG, sizeof(PNG) - 1, "sill.png", "the sill"};
    kit_reading(&phone, "2", "0.3");
    assert_int_equal(mf_book_attach(phone.book, &ask, &k->now, phone.id, NULL, &k->err), MF_OK);
    correct(&phone, "phone/1", "0.4");
    return phone;
}

/* Such a phone and what it hands over. */
typedef struct visit {
    kit phone;
    mf_bytes file;
} visit;

static visit phone_comes(kit *k)
{
    visit v = {.phone = phone_with_photo(k)};
    v.file = handed(&v.phone);
    return v;
}

static void phone_goes(visit *v)
{
    mf_bytes_free(&v->file);
    mf_book_close(v->phone.book);
}

typedef struct seen {
    char device[20], hash[MF_HASH_HEX];
    int64_t seq;
    int n;
} seen;

static bool see(const char *device, int64_t seq, const char *hash, void *data)
{
    seen *s = data;
    s->n++;
    if (strcmp(device, "phone") != 0)
        return true;
    snprintf(s->device, sizeof s->device, "%s", device);
    snprintf(s->hash, sizeof s->hash, "%s", hash);
    s->seq = seq;
    return true;
}

static void comes_back(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    char ours[MF_HASH_HEX], theirs[MF_HASH_HEX];
    visit v = phone_comes(k);
    mf_bytes photo = {0};
    assert_int_equal(take(k, v.file.data, v.file.len, &report), MF_OK);
    assert_int_equal(report.merge.read, 13);
    assert_int_equal(report.merge.added, 3);
    assert_int_equal(report.merge.contents, 1);
    assert_false(report.cut);
    assert_int_equal(mf_book_head(k->book, ours, NULL), MF_OK);
    assert_int_equal(mf_book_head(v.phone.book, theirs, NULL), MF_OK);
    assert_string_equal(ours, theirs);
    assert_string_equal(ours, report.head);
    check_good(k, 13);
    assert_int_equal(take(k, v.file.data, v.file.len, &report), MF_OK);
    assert_int_equal(report.merge.added, 0);
    assert_int_equal(report.merge.contents, 0);
    check_good(k, 13);
    char sha256[MF_HASH_HEX];
    assert_true(mf_digest_hex(PNG, sizeof(PNG) - 1, sha256));
    assert_int_equal(mf_book_attached(k->book, sha256, &photo, &k->err), MF_OK);
    assert_int_equal(photo.len, sizeof(PNG) - 1);
    mf_bytes_free(&photo);
    phone_goes(&v);
}

/* What goes out of a book is what the same book hands out again, but for the time. */
static void the_same_lines(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    visit v = phone_comes(k);
    assert_int_equal(take(k, v.file.data, v.file.len, &report), MF_OK);
    mf_bytes here = handed(k);
    assert_int_equal(here.len, v.file.len);
    assert_memory_equal(here.data, v.file.data, here.len);
    mf_bytes_free(&here);
    phone_goes(&v);
}

static void a_receipt(void **state)
{
    kit *k = *state;
    seen s = {0};
    mf_entries_report report;
    visit v = phone_comes(k);
    const mf_entries_ask ask = {.name = "a.entries",
                                .bytes = v.file.data,
                                .len = v.file.len,
                                .now = &k->now,
                                .head = see,
                                .data = &s};
    assert_int_equal(mf_book_import_entries(k->book, &ask, &report, &k->err), MF_OK);
    assert_int_equal(s.n, 2);
    assert_string_equal(s.device, "phone");
    assert_int_equal(s.seq, 3);
    assert_int_equal(strlen(s.hash), 64);
    phone_goes(&v);
}

/* Only what the one invited logged, and for the one job. */
static void one_job_and_person(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    visit v = phone_comes(k);
    mf_entries_ask ask = {
        .name = "a.entries", .bytes = v.file.data, .len = v.file.len, .now = &k->now, .who = "ana"};
    assert_int_equal(mf_book_import_entries(k->book, &ask, &report, &k->err), MF_INPUT);
    assert_string_equal(k->err.what, "it was made by rosa, who was not the one invited");
    ask.who = "rosa";
    ask.job = "J-2";
    assert_int_equal(mf_book_import_entries(k->book, &ask, &report, &k->err), MF_INPUT);
    assert_string_equal(k->err.what, "it is of the job J-1, not of J-2");
    ask.job = "J-1";
    assert_int_equal(mf_book_import_entries(k->book, &ask, &report, &k->err), MF_OK);
    phone_goes(&v);
}

/* ---- cut off ----------------------------------------------------------------------------- */

/* At each byte: up to the last whole line, or refused with nothing written, and the whole
 * file afterwards brings the rest. The phone's entries are the last ones of the file. */
static void cut_anywhere(void **state)
{
    kit *k = *state;
    visit v = phone_comes(k);
    const char *text = (const char *)v.file.data, *first = strstr(text, "\"device\":\"phone\"");
    assert_non_null(first);
    int64_t added = 0;
    for (size_t len = 0; len < v.file.len; len += len + 40 < (size_t)(first - text) ? 37 : 1) {
        mf_entries_report report;
        mf_status status = take(k, text, len, &report);
        bool head = memchr(text, '\n', len) != NULL;
        assert_int_equal(status, head ? MF_OK : MF_INPUT);
        assert_true(!head || report.cut);
        added += report.merge.added;
        assert_true(added <= 3);
    }
    mf_entries_report report;
    assert_int_equal(added, 3); /* each came in as soon as its line was whole */
    assert_int_equal(take(k, text, v.file.len, &report), MF_OK);
    assert_int_equal(report.merge.added, 0);
    assert_false(report.cut);
    check_good(k, 13);
    phone_goes(&v);
}

/* A file whose bytes stand behind its entries: without them the device's entries end in
 * front of the attachment. */
static void cut_before_the_bytes(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    visit v = phone_comes(k);
    mf_buf turned = {0};
    char *text = (char *)v.file.data, *bytes = strstr(text, "{\"attachment\":");
    char *behind = strchr(bytes, '\n') + 1, *last = strstr(behind, "{\"heads\":");
    mf_buf_add(&turned, text, (size_t)(bytes - text));
    mf_buf_add(&turned, behind, (size_t)(last - behind));
    size_t cut = turned.len;
    mf_buf_add(&turned, bytes, (size_t)(behind - bytes));
    mf_buf_text(&turned, last);
    assert_int_equal(take(k, turned.data, cut, &report), MF_OK);
    assert_true(report.cut);
    assert_int_equal(report.merge.added, 1);
    assert_int_equal(report.left, 2);
    assert_int_equal(take(k, turned.data, turned.len, &report), MF_OK);
    assert_int_equal(report.merge.added, 2);
    assert_int_equal(report.merge.contents, 1);
    check_good(k, 13);
    mf_buf_free(&turned);
    phone_goes(&v);
}

/* ---- beside what the book has by now ----------------------------------------------------- */

static void both_are_kept_and_told(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    kit phone = copied(k, "phone");
    kit_log(&phone, "opening", "J-1", "id", "W02", "kind", "window", "room", "hall", "elevation",
            "east");
    correct(&phone, "office/10", "0.4");
    kit_log(k, "opening", "J-1", "id", "W02", "kind", "window", "room", "bath", "elevation",
            "east");
    correct(k, "office/10", "0.5");
    mf_bytes file = handed(&phone);
    assert_int_equal(take(k, file.data, file.len, &report), MF_OK);
    assert_int_equal(report.merge.doubles, 1);
    assert_int_equal(report.merge.contradictions, 1);
    check_good(k, 14);
    mf_bytes_free(&file);
    mf_book_close(phone.book);
}

/* An entry of another job stands between two of the file: the book has it, so nothing is
 * missing. */
static void a_part_of_a_chain(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    kit_log(k, "house", "J-2", "id", "J-2", "address", "14 Invented Street", "year-built", "1926",
            "building", "dwelling", "owner-occupied", "yes", "work", "repair", "description",
            "a sill", "start", "2026-09-21");
    kit_reading(k, "2", "0.3");
    mf_bytes file = handed(k);
    assert_null(strstr((const char *)file.data, "J-2"));
    assert_int_equal(take(k, file.data, file.len, &report), MF_OK);
    assert_int_equal(report.merge.read, 11);
    assert_int_equal(report.merge.added, 0);
    mf_bytes_free(&file);
}

static void no_such_job_goes_out(void **state)
{
    kit *k = *state;
    mf_bytes file = {0};
    assert_int_equal(mf_book_export_entries(k->book, "J-9", k->now.at, &file, &k->err), MF_INPUT);
    assert_string_equal(k->err.what, "there is no job J-9");
    assert_int_equal(mf_book_export_entries(k->book, "", k->now.at, &file, &k->err), MF_INPUT);
    assert_null(file.data);
}

#define T(name) cmocka_unit_test_setup_teardown(name, start, kit_done)
int main(void)
{
    const struct CMUnitTest tests[] = {
        T(comes_back),
        T(the_same_lines),
        T(a_receipt),
        T(one_job_and_person),
        T(cut_anywhere),
        T(cut_before_the_bytes),
        T(both_are_kept_and_told),
        T(a_part_of_a_chain),
        T(no_such_job_goes_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
