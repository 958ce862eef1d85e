/* Pieces of chains by the library alone: what mf_sync builds on. Constructed. */
#include "book/merge_kit.h"

#include <mistfold/segment.h>
#include <stdlib.h>
#include <string.h>

static mf_bytes segment(kit *k, const char *device, int64_t from)
{
    mf_bytes out = {0};
    assert_int_equal(mf_book_segment(k->book, device, from, "2026-09-20T12:00:00Z", &out, &k->err),
                     MF_OK);
    return out;
}

static mf_status take(kit *k, const mf_bytes *bytes, size_t n, mf_merge_report *out)
{
    mf_segment_text texts[2];
    for (size_t i = 0; i < n; i++)
        texts[i] = (mf_segment_text){i == 0 ? "one" : "two", bytes[i].data, bytes[i].len};
    const mf_segments_ask ask = {.at = texts, .n = n, .content = kit_no_content};
    k->err = (mf_err){0};
    return mf_book_merge_segments(k->book, &ask, out, &k->err);
}

static void it_says_what_is_in_it(void **state)
{
    kit *k = *state;
    mf_segment s;
    mf_bytes bytes = segment(k, "office", 3);
    assert_int_equal(mf_segment_read("x", bytes.data, bytes.len, &s, &k->err), MF_OK);
    assert_string_equal(s.device, "office");
    assert_int_equal(s.from, 3);
    assert_int_equal(s.to, 10);
    assert_int_equal(s.n_needs, 0);
    assert_string_equal(s.writer, "");
    mf_segment_free(&s);
    mf_bytes_free(&bytes);
    assert_int_equal(
        mf_book_segment(k->book, "office", 11, "2026-09-20T12:00:00Z", &bytes, &k->err), MF_INPUT);
    assert_non_null(strstr(k->err.what, "there is no entry office/11"));
}

static void a_part_comes_in_behind_ours(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck");
    kit_reading(&truck, "2", "0.2");
    mf_bytes first = segment(&truck, "truck", 1);
    kit_reading(&truck, "3", "0.3");
    mf_bytes second = segment(&truck, "truck", 2);
    assert_int_equal(take(k, &second, 1, &report), MF_INPUT);
    assert_int_equal(take(k, &first, 1, &report), MF_OK);
    assert_int_equal(report.added, 1);
    assert_int_equal(take(k, &second, 1, &report), MF_OK);
    assert_int_equal(take(k, &second, 1, &report), MF_OK);
    assert_int_equal(report.added, 0);
    check_good(k, 12);
    mf_bytes_free(&first);
    mf_bytes_free(&second);
    mf_book_close(truck.book);
}

/* Two at once may overlap, and not contradict each other. */
static void two_beside_each_other(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck"), other = copied(k, "other");
    kit_reading(&truck, "4", "0.2");
    kit_reading(&other, "5", "0.3");
    mf_bytes both[2] = {segment(&truck, "truck", 1), segment(&truck, "truck", 1)};
    assert_int_equal(take(k, both, 2, &report), MF_OK);
    assert_int_equal(report.added, 1);
    mf_bytes_free(&both[1]);
    both[1] = segment(&other, "other", 1);
    for (char *at = (char *)both[1].data; (at = strstr(at, "other")) != NULL; at++)
        for (int i = 0; i < 5; i++)
            at[i] = "truck"[i]; /* the hash does not fit any more */
    assert_int_equal(take(k, &both[1], 1, &report), MF_INPUT);
    assert_non_null(strstr(k->err.what, "its text does not give its hash"));
    mf_bytes_free(&both[0]);
    mf_bytes_free(&both[1]);
    mf_book_close(truck.book);
    mf_book_close(other.book);
}

/* Whatever byte of it is another: it is no segment, or what it says of the chain is the same. */
static void every_byte_counts(void **state)
{
    kit *k = *state;
    mf_segment whole, s;
    mf_bytes bytes = segment(k, "office", 8);
    assert_int_equal(mf_segment_read("x", bytes.data, bytes.len, &whole, &k->err), MF_OK);
    for (size_t i = 0; i < bytes.len; i++) {
        bytes.data[i] ^= 1;
        if (mf_segment_read("x", bytes.data, bytes.len, &s, &k->err) == MF_OK) {
            assert_string_equal(s.hash, whole.hash);
            assert_string_equal(s.prev, whole.prev);
            assert_true(s.from == whole.from && s.to == whole.to);
        }
        mf_segment_free(&s);
        bytes.data[i] ^= 1;
    }
    for (size_t len = 0; len < bytes.len; len++) {
        assert_int_equal(mf_segment_read("x", bytes.data, len, &s, &k->err), MF_INPUT);
        mf_segment_free(&s);
    }
    mf_segment_free(&whole);
    mf_bytes_free(&bytes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(it_says_what_is_in_it, start, kit_done),
        cmocka_unit_test_setup_teardown(a_part_comes_in_behind_ours, start, kit_done),
        cmocka_unit_test_setup_teardown(two_beside_each_other, start, kit_done),
        cmocka_unit_test_setup_teardown(every_byte_counts, start, kit_done),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
