/* Signatures that are sound as cryptography and lie about what they cover. The
 * forger has a key of their own and may write any bytes. */
#include "seal/cms.h"
#include "seal/seal_kit.h"
#include "seal/update.h"
#include <openssl/bio.h>
#include <openssl/cms.h>

static int setup(void **state)
{
    *state = kit_key();
    return 0;
}

static int teardown(void **state)
{
    mf_key_free(*state);
    return 0;
}

#define NUMBERS 32 /* the width of the three numbers in /ByteRange */

/* A paper with the /Sig dictionary as it will be signed. */
static mf_update draft(const mf_key *key, mf_bytes *plain)
{
    mf_update update;
    mf_pdf in;
    mf_seal_ask ask = kit_ask(key);
    *plain = kit_paper(1);
    assert_int_equal(mf_pdf_open(&in, plain->data, plain->len, NULL), MF_OK);
    assert_int_equal(mf_update_build(&update, &in, &ask, 0, NULL), MF_OK);
    mf_pdf_close(&in);
    return update;
}

/* Signs [0, a) and [b, b + c) of it, whatever they are, and judges the outcome. */
static mf_seal_state judge(mf_update *update, const mf_key *key, size_t a, size_t b, size_t c,
                           mf_status *status)
{
    const unsigned char *file = (const unsigned char *)update->file.data;
    mf_cms_spans spans = {file, file + b, a, c};
    mf_bytes cms = {0};
    mf_seal_check check;
    assert_int_equal(mf_cms_sign(&cms, key, &spans, NULL), MF_OK);
    assert_int_equal(mf_update_fill(update, &cms, NULL), MF_OK);
    mf_bytes_free(&cms);
    *status = kit_verify(&check, (mf_bytes){(unsigned char *)update->file.data, update->file.len});
    assert_int_equal(check.n, 1);
    return check.seal[0].state;
}

static void write_numbers(mf_update *update, const char *numbers)
{
    mf_bytes file = {(unsigned char *)update->file.data, update->file.len};
    char *to = update->file.data + kit_find(file, "/ByteRange [0 ", 0) + 14;
    memset(to, ' ', NUMBERS);
    assert_true(strlen(numbers) <= NUMBERS);
    kit_put(to, numbers, strlen(numbers));
}

/* The range moved by these amounts, signed truly, must be refused for its shape. */
static void moved(const mf_key *key, long da, long db, long dc)
{
    mf_bytes plain;
    mf_update update = draft(key, &plain);
    mf_status status;
    char numbers[64];
    size_t a = (size_t)((long)update.range.gap_at + da);
    size_t b = (size_t)((long)update.range.gap_end + db);
    size_t c = (size_t)((long)(update.range.end - update.range.gap_end) + dc);
    snprintf(numbers, sizeof numbers, "%zu %zu %zu", a, b, c);
    write_numbers(&update, numbers);
    assert_int_equal(judge(&update, key, a, b, c, &status), MF_SEAL_BAD_RANGE);
    assert_int_equal(status, MF_NO);
    mf_buf_free(&update.file);
    mf_bytes_free(&plain);
}

static void range_moved(void **state)
{
    mf_key *key = *state;
    moved(key, 0, 20, -20);     /* a hole after the signature */
    moved(key, -20, 0, 0);      /* a hole before it */
    moved(key, -1, 1, -1);      /* one byte more on both sides */
    moved(key, 1, -1, 1);       /* the angle brackets covered */
    moved(key, 0, -2000, 2000); /* overlapping the digits */
    moved(key, 0, 0, -7);       /* ends in the middle of the revision */
    moved(key, 0, 0, -300);
}

/* Not covering the newline after %%EOF is a sound range with a tail of one byte. */
static void newline_left_out(void **state)
{
    mf_key *key = *state;
    mf_bytes plain;
    mf_update update = draft(key, &plain);
    mf_status status;
    char numbers[64];
    mf_sig_range range = update.range;
    size_t rest = range.end - range.gap_end - 1;
    snprintf(numbers, sizeof numbers, "%zu %zu %zu", range.gap_at, range.gap_end, rest);
    write_numbers(&update, numbers);
    assert_int_equal(judge(&update, key, range.gap_at, range.gap_end, rest, &status), MF_SEAL_GOOD);
    assert_int_equal(status, MF_NO);
    mf_buf_free(&update.file);
    mf_bytes_free(&plain);
}

static void numbers_are(const mf_key *key, const char *numbers)
{
    mf_bytes plain;
    mf_update update = draft(key, &plain);
    mf_status status;
    write_numbers(&update, numbers);
    assert_int_equal(judge(&update, key, update.range.gap_at, update.range.gap_end,
                           update.range.end - update.range.gap_end, &status),
                     MF_SEAL_BAD_RANGE);
    assert_int_equal(status, MF_NO);
    mf_buf_free(&update.file);
    mf_bytes_free(&plain);
}

static void range_malformed(void **state)
{
    const char *const numbers[] = {
        "",          "1",           "1 2",           "1 2 3 4",
        "-1 -2 -3",  "1.5 2 3",     "/A /B /C",      "(1) (2) (3)",
        "1 0 R 2 3", "[1] 2 3",     "null null 1",   "999999999999999 9 9",
        "9 9 9",     "10 5 100000", "2000 99999999", "99999999999999999999 1 1",
    };
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        numbers_are(*state, numbers[i]);
}

/* Overwrites text of the draft by text of the same length before it is signed. */
static mf_seal_state with_text(const mf_key *key, const char *old, const char *new,
                               mf_status *status)
{
    mf_bytes plain;
    mf_update update = draft(key, &plain);
    mf_bytes file = {(unsigned char *)update.file.data, update.file.len};
    assert_int_equal(strlen(old), strlen(new));
    kit_put(update.file.data + kit_find(file, old, plain.len), new, strlen(new));
    mf_seal_state state = judge(&update, key, update.range.gap_at, update.range.gap_end,
                                update.range.end - update.range.gap_end, status);
    mf_buf_free(&update.file);
    mf_bytes_free(&plain);
    return state;
}

static void kind_of_signature(void **state)
{
    mf_status status;
    const char *ours = "/ETSI.CAdES.detached";
    assert_int_equal(with_text(*state, ours, ours, &status), MF_SEAL_GOOD);
    assert_int_equal(status, MF_OK);
    assert_int_equal(with_text(*state, ours, "/adbe.pkcs7.detached", &status), MF_SEAL_GOOD);
    assert_int_equal(with_text(*state, ours, "/ETSI.RFC3161       ", &status), MF_SEAL_UNREADABLE);
    assert_int_equal(with_text(*state, ours, "/adbe.pkcs7.sha1    ", &status), MF_SEAL_UNREADABLE);
    assert_int_equal(with_text(*state, "/SubFilter", "/SubFolder", &status), MF_SEAL_UNREADABLE);
}

/* A CMS signature as the openssl program makes it, which does not sign which certificate is
 * meant: in a paper that says CAdES it must (ETSI EN 319 122-1, 5.2.2), in one that says
 * plain PKCS #7 it need not. Nothing was altered, and an altered one is told as such. */
static mf_seal_check plain_cms(const mf_key *key, const char *kind, bool change, mf_err *err)
{
    mf_bytes plain, cms = {0};
    mf_seal_check check;
    mf_update update = draft(key, &plain);
    mf_bytes file = {(unsigned char *)update.file.data, update.file.len};
    kit_put(file.data + kit_find(file, "/ETSI.CAdES.detached", plain.len), kind, strlen(kind));
    mf_sig_range r = update.range;
    BIO *bio = BIO_new(BIO_s_mem());
    assert_int_equal(BIO_write(bio, file.data, (int)r.gap_at), (int)r.gap_at);
    assert_true(BIO_write(bio, file.data + r.gap_end, (int)(r.end - r.gap_end)) > 0);
    CMS_ContentInfo *made =
        CMS_sign(key->cert, key->pkey, NULL, bio, CMS_DETACHED | CMS_BINARY | CMS_NOSMIMECAP);
    assert_non_null(made);
    int len = i2d_CMS_ContentInfo(made, &cms.data);
    cms.len = (size_t)len;
    assert_true(len > 0 && mf_update_fill(&update, &cms, NULL) == MF_OK);
    if (change)
        file.data[kit_find(file, "%%EOF", 0) + 1] ^= 1;
    mf_seal_verify(&check, file.data, file.len, err);
    OPENSSL_free(cms.data);
    CMS_ContentInfo_free(made);
    BIO_free(bio);
    mf_buf_free(&update.file);
    mf_bytes_free(&plain);
    return check;
}

static void a_cades_seal_names_its_certificate(void **state)
{
    mf_err err = {0};
    mf_seal_check check = plain_cms(*state, "/ETSI.CAdES.detached", false, &err);
    assert_int_equal(check.seal[0].state, MF_SEAL_NOT_ACCEPTED);
    assert_string_equal(check.seal[0].common_name, "Ottoline Fernbrake");
    assert_int_equal(err.status, MF_NO);
    assert_string_equal(err.what, "the seal is not of a kind that this program accepts");
    check = plain_cms(*state, "/ETSI.CAdES.detached", true, &err);
    assert_int_equal(check.seal[0].state, MF_SEAL_ALTERED);
    check = plain_cms(*state, "/adbe.pkcs7.detached", false, &err);
    assert_int_equal(check.seal[0].state, MF_SEAL_GOOD);
}

/* Readers disagree about which of two entries counts, so neither does. */
static void entry_given_twice(void **state)
{
    mf_status status;
    assert_int_equal(with_text(*state, "/Filter /Adobe.PPKLite", "/Contents <00000000  >", &status),
                     MF_SEAL_BAD_RANGE);
    assert_int_equal(with_text(*state, "/Filter /Adobe.PPKLite", "/ByteRange [0 1 2 3]  ", &status),
                     MF_SEAL_BAD_RANGE);
    assert_int_equal(with_text(*state, "/Contents <", "/Contains <", &status), MF_SEAL_BAD_RANGE);
    assert_int_equal(status, MF_NO);
}

/* The name of a key may be spelled with #xx. */
static void spelled_names(void **state)
{
    mf_status status;
    assert_int_equal(with_text(*state, "/ETSI.CAdES.detached\n", "/adbe.pkcs7.detached\n", &status),
                     MF_SEAL_GOOD);
    assert_int_equal(with_text(*state, "/Filter /Adobe.PPKLite", "/#43ontents <00000000>", &status),
                     MF_SEAL_BAD_RANGE);
}

/* A true signature of another paper by the same key. */
static void other_papers_signature(void **state)
{
    mf_key *key = *state;
    mf_seal_check check;
    mf_bytes one = kit_seal(kit_paper(1), key), two = kit_seal(kit_paper(2), key);
    size_t from = kit_find(two, "/Contents <", 0), to = kit_find(one, "/Contents <", 0);
    memcpy(one.data + to, two.data + from, 32768 + 11);
    assert_int_equal(kit_verify(&check, one), MF_NO);
    assert_int_equal(check.seal[0].state, MF_SEAL_ALTERED);
    assert_string_equal(check.seal[0].common_name, "Ottoline Fernbrake");
    mf_bytes_free(&one);
    mf_bytes_free(&two);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(range_moved),
        cmocka_unit_test(newline_left_out),
        cmocka_unit_test(range_malformed),
        cmocka_unit_test(kind_of_signature),
        cmocka_unit_test(a_cades_seal_names_its_certificate),
        cmocka_unit_test(entry_given_twice),
        cmocka_unit_test(spelled_names),
        cmocka_unit_test(other_papers_signature),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
