/* Queries and replies of time stamps without an authority; with one: tests/cli/test_stamps.c.
 * Sources: RFC 3161, 2.4.1 and 2.4.2, and openssl, which reads the query. */
#include "seal/seal_kit.h"

#include <mistfold/stamp.h>

#define SHA "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08" /* of "test" */

static void a_query_is_read_by_openssl(void **state)
{
    char dir[] = "/tmp/stampXXXXXX", out[4096], nonce[MF_STAMP_HEX];
    mf_bytes query = {0}, again = {0}, other = {0};
    (void)state;
    assert_non_null(mkdtemp(dir));
    assert_int_equal(mf_stamp_query(&query, SHA, NULL), MF_OK);
    kit_write(dir, "q.tsq", query.data, query.len);
    assert_int_equal(kit_run(dir, "openssl ts -query -in q.tsq -text", out, sizeof out), 0);
    assert_non_null(strstr(out, "Version: 1\nHash Algorithm: sha256\n"));
    assert_non_null(strstr(out, "0000 - 9f 86 d0 81 88 4c 7d 65-9a 2f ea a0 c5 5a d0 15"));
    assert_non_null(strstr(out, "Certificate required: yes"));
    assert_null(strstr(out, "Nonce: unspecified"));
    /* What is kept of it makes the same bytes again; a second query is another one. */
    assert_int_equal(mf_stamp_query_nonce(nonce, query.data, query.len, NULL), MF_OK);
    assert_int_equal(strlen(nonce), 16);
    assert_int_equal(mf_stamp_query_of(&again, SHA, nonce, NULL), MF_OK);
    assert_int_equal(again.len, query.len);
    assert_memory_equal(again.data, query.data, query.len);
    assert_int_equal(mf_stamp_query(&other, SHA, NULL), MF_OK);
    assert_memory_not_equal(other.data, query.data, query.len);
    mf_bytes_free(&query);
    mf_bytes_free(&again);
    mf_bytes_free(&other);
    kit_run(dir, "rm q.tsq", out, sizeof out);
    assert_int_equal(rmdir(dir), 0);
}

static void what_is_no_sha256(void **state)
{
    static const char *const bad[] = {
        "", "9f86", "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a0800",
        "9F86D081884C7D659A2FEAA0C55AD015A3BF4F1B2B0B822CD15D6C15B0F00A08",
        "zz86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"};
    mf_bytes query;
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(mf_stamp_query(&query, bad[i], NULL), MF_USAGE);
        assert_null(query.data);
    }
}

/* PKIStatus rejection (2) with a text (constructed from RFC 3161, 2.4.2). */
static void what_is_no_reply(void **state)
{
    static const unsigned char no[] = {0x30, 0x0d, 0x30, 0x0b, 0x02, 0x01, 0x02, 0x30,
                                       0x06, 0x0c, 0x04, 'b',  'u',  's',  'y'};
    static unsigned char zeros[MF_STAMP_REPLY_MAX + 1];
    char sha256[MF_STAMP_HEX], nonce[MF_STAMP_HEX];
    mf_stamp_report report;
    mf_bytes query = {0}, token;
    mf_err err = {0};
    (void)state;
    assert_int_equal(mf_stamp_query(&query, SHA, NULL), MF_OK);
    assert_int_equal(mf_stamp_reply(&token, &report, &query, no, sizeof no, NULL, &err), MF_INPUT);
    assert_string_equal(err.what, "the authority gave no stamp: busy");
    assert_null(token.data);
    assert_int_equal(mf_stamp_reply_peek(sha256, nonce, no, sizeof no, &err), MF_INPUT);
    assert_int_equal(mf_stamp_reply(&token, &report, &query, zeros, sizeof zeros, NULL, &err),
                     MF_INPUT);
    assert_string_equal(err.what, "it is too long for a time stamp");
    for (size_t len = 0; len < sizeof no; len++)
        assert_int_equal(mf_stamp_reply(&token, &report, &query, no, len, NULL, NULL), MF_INPUT);
    assert_int_equal(mf_stamp_judge(&report, no, sizeof no, SHA, NULL, NULL), MF_OK);
    assert_int_equal(report.state, MF_STAMP_UNREADABLE);
    assert_int_equal(mf_stamp_judge(&report, (const unsigned char *)"", 0, SHA, NULL, NULL), MF_OK);
    assert_int_equal(report.state, MF_STAMP_UNREADABLE);
    assert_int_equal(mf_stamp_query_nonce(nonce, no, sizeof no, NULL), MF_SYSTEM);
    mf_bytes_free(&query);
}

static void roots_that_are_none(void **state)
{
    mf_seal_check check = {0};
    (void)state;
    assert_int_equal(mf_seal_stamps(&check, NULL, 0, "", NULL), MF_INPUT);
    assert_int_equal(mf_seal_stamps(&check, NULL, 0, "-----BEGIN CERTIFICATE-----\nAAAA\n", NULL),
                     MF_INPUT);
}

static void states_have_names(void **state)
{
    (void)state;
    assert_string_equal(mf_stamp_state_name(MF_STAMP_PROVED), "proved");
    assert_string_equal(mf_stamp_state_name(MF_STAMP_UNREADABLE), "unreadable");
    assert_string_equal(mf_stamp_state_name(MF_STAMP_STATES), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_query_is_read_by_openssl), cmocka_unit_test(what_is_no_sha256),
        cmocka_unit_test(what_is_no_reply),           cmocka_unit_test(roots_that_are_none),
        cmocka_unit_test(states_have_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
