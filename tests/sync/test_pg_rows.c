/* Rows in the binary form of COPY (PostgreSQL's manual, "Binary Format"): what is written is read
 * again, in whatever pieces it arrives, and what a hostile server sends in its place is none. */
#include "support/cmocka_all.h"
#include "sync/pg_rows.h"

#include <stdlib.h>
#include <string.h>

static void two_rows(mf_buf *out)
{
    char number[8];
    mf_pg_int64(number, 7);
    const mf_pg_field first[] = {{number, 8}, {"rosa", 4}}, second[] = {{number, 8}, {"", 0}};
    mf_pg_rows_begin(out);
    mf_pg_row(out, first, 2);
    mf_pg_row(out, second, 2);
    mf_pg_rows_end(out);
    assert_false(out->failed);
}

/* The bytes of the manual, by hand. */
static void the_form(void **state)
{
    static const char wanted[] = "PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0"
                                 "\0\2\0\0\0\10\0\0\0\0\0\0\0\7\0\0\0\4rosa"
                                 "\0\2\0\0\0\10\0\0\0\0\0\0\0\7\0\0\0\0\377\377";
    mf_buf out = {0};
    (void)state;
    two_rows(&out);
    assert_int_equal(out.len, sizeof wanted - 1);
    assert_memory_equal(out.data, wanted, out.len);
    mf_buf_free(&out);
}

/* How many rows there are in bytes that arrive step by step; -1 = they are none. */
static int count(const char *bytes, size_t len, size_t step, bool *ended)
{
    int n = 0;
    mf_pg_rows rows = {.at = 0};
    for (size_t at = 0; at < len && n >= 0; at += step) {
        bool row = true;
        mf_buf_add(&rows.bytes, bytes + at, len - at < step ? len - at : step);
        while (row && n >= 0) {
            mf_pg_field fields[2];
            bool good = mf_pg_rows_next(&rows, fields, 2, &row);
            n = !good ? -1 : n + row;
            if (good && row)
                assert_true(fields[1].len <= len && mf_pg_int64_of(&fields[0]) != 0);
        }
    }
    *ended = rows.ended;
    mf_buf_free(&rows.bytes);
    return n;
}

static void in_any_pieces(void **state)
{
    mf_buf out = {0};
    (void)state;
    two_rows(&out);
    for (size_t step = 1; step <= out.len; step++) {
        bool ended = false;
        assert_int_equal(count(out.data, out.len, step, &ended), 2);
        assert_true(ended);
    }
    mf_buf_free(&out);
}

/* Cut off anywhere, and any byte another: never more than was sent, and nothing read behind it. */
static void cut_and_altered(void **state)
{
    mf_buf out = {0};
    bool ended = false;
    (void)state;
    two_rows(&out);
    for (size_t len = 0; len < out.len; len++) {
        char *cut = malloc(len + 1); /* of just that size: a reader behind it is found */
        assert_non_null(cut);
        memcpy(cut, out.data, len);
        assert_true(count(cut, len, len + 1, &ended) < 3 && !ended);
        free(cut);
    }
    for (size_t i = 0; i < out.len; i++)
        for (int bit = 0; bit < 8; bit++) {
            out.data[i] = (char)(out.data[i] ^ (1 << bit));
            int n = count(out.data, out.len, 5, &ended);
            assert_true(n >= -1 && n <= 2);
            out.data[i] = (char)(out.data[i] ^ (1 << bit));
        }
    mf_buf_free(&out);
}

static void what_is_no_row(void **state)
{
    bool ended = false;
    (void)state;
    assert_int_equal(count("PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\7\0\2", 21, 30, &ended), -1);
    assert_int_equal(count("HTTP/1.1 400 Bad Request", 24, 30, &ended), -1);
    assert_int_equal(count("PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0\0\3", 21, 30, &ended), -1);
    /* A field of four thousand million bytes waits, and nothing is read. */
    assert_int_equal(
        count("PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0\0\2\377\377\377\376x", 26, 30, &ended), 0);
    assert_false(ended);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_form),
        cmocka_unit_test(in_any_pieces),
        cmocka_unit_test(cut_and_altered),
        cmocka_unit_test(what_is_no_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
