/* A file attached to a paper under its seal, read back by poppler's pdfdetach and by
 * us. Papers and keys are invented. */
#include "seal/seal_kit.h"

static const char data[] = "{\"format\":\"mistfold-record\",\"a\":\"\xc3\xa9\"}";

static mf_embedded file_of(const char *name)
{
    return (mf_embedded){name, "application/json", "The record, with \xc3\xa9",
                         (const unsigned char *)data, sizeof data - 1};
}

static mf_bytes attached(mf_bytes pdf, const char *name)
{
    mf_bytes out = {0};
    mf_err err = {0};
    const mf_embedded file = file_of(name);
    if (mf_seal_attach(&out, pdf.data, pdf.len, &file, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    mf_bytes_free(&pdf);
    return out;
}

static void comes_out_as_it_went_in(void **state)
{
    (void)state;
    mf_bytes out = {0}, pdf = attached(kit_paper(2), "record.json");
    assert_int_equal(mf_seal_attached(&out, pdf.data, pdf.len, "record.json", NULL), MF_OK);
    assert_int_equal(out.len, sizeof data - 1);
    assert_memory_equal(out.data, data, out.len);
    assert_int_equal(out.data[out.len], 0);
    mf_bytes_free(&out);
    assert_int_equal(mf_seal_attached(&out, pdf.data, pdf.len, "other.json", NULL), MF_NO);
    mf_bytes_free(&pdf);
    pdf = kit_paper(1);
    assert_int_equal(mf_seal_attached(&out, pdf.data, pdf.len, "record.json", NULL), MF_NO);
    mf_bytes_free(&pdf);
}

/* poppler and qpdf, which are not ours, and no path of this computer in the file. */
static void others_read_it(void **state)
{
    (void)state;
    char dir[] = "/tmp/mistfold-attach-XXXXXX", out[4096];
    assert_non_null(mkdtemp(dir));
    mf_key *key = kit_key();
    mf_bytes pdf = kit_seal(attached(kit_paper(1), "record.json"), key);
    kit_write(dir, "p.pdf", pdf.data, pdf.len);
    kit_write(dir, "want", data, sizeof data - 1);
    assert_int_equal(
        kit_run(dir, "pdfdetach -save 1 -o got p.pdf && cmp got want", out, sizeof out), 0);
    kit_run(dir, "pdfdetach -list p.pdf", out, sizeof out);
    assert_non_null(strstr(out, "1: record.json"));
    kit_run(dir, "qpdf --check p.pdf", out, sizeof out);
    assert_non_null(strstr(out, "No syntax or stream encoding errors found"));
    kit_run(dir, "pdfsig p.pdf", out, sizeof out);
    assert_non_null(strstr(out, "Signature is Valid"));
    assert_non_null(strstr(out, "Total document signed"));
    assert_int_not_equal(kit_run(dir, "grep -a /tmp p.pdf", out, sizeof out), 0);
    kit_run("/", "true", out, sizeof out);
    char clean[128];
    snprintf(clean, sizeof clean, "rm -r '%s'", dir);
    kit_run("/", clean, out, sizeof out);
    mf_bytes_free(&pdf);
    mf_key_free(key);
}

static void refuses(void **state)
{
    (void)state;
    mf_bytes out = {0};
    mf_key *key = kit_key();
    mf_embedded file = file_of("record.json");
    mf_bytes pdf = kit_seal(kit_paper(1), key);
    assert_int_equal(mf_seal_attach(&out, pdf.data, pdf.len, &file, NULL), MF_INPUT); /* sealed */
    mf_bytes_free(&pdf);
    pdf = attached(kit_paper(1), "record.json");
    assert_int_equal(mf_seal_attach(&out, pdf.data, pdf.len, &file, NULL), MF_INPUT); /* a second */
    static const char *const bad[] = {"", "a(b", "../x", "a b", "a/b", "\xc3\xa9"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        file = file_of(bad[i]);
        assert_int_equal(mf_seal_attach(&out, pdf.data, pdf.len, &file, NULL), MF_USAGE);
    }
    file = file_of("record.json");
    assert_int_equal(mf_seal_attach(&out, (const unsigned char *)"no pdf", 6, &file, NULL),
                     MF_INPUT);
    assert_null(out.data);
    mf_bytes_free(&pdf);
    mf_key_free(key);
}

/* Every byte of the update changed in turn, and every length: read or refused, never
 * a crash, and what is read has the length that it says (run under ASan). */
static void hostile_bytes(void **state)
{
    (void)state;
    mf_bytes pdf = attached(kit_paper(1), "record.json"), out = {0};
    for (size_t i = pdf.len - 900; i < pdf.len; i++) {
        unsigned char was = pdf.data[i];
        for (int turn = 0; turn < 3; turn++) {
            pdf.data[i] = turn == 0 ? (unsigned char)(was ^ 1) : turn == 1 ? '9' : ' ';
            if (mf_seal_attached(&out, pdf.data, pdf.len, "record.json", NULL) == MF_OK)
                assert_int_equal(out.data[out.len], 0);
            mf_bytes_free(&out);
        }
        pdf.data[i] = was;
    }
    for (size_t len = pdf.len - 900; len < pdf.len; len++) {
        mf_seal_attached(&out, pdf.data, len, "record.json", NULL);
        mf_bytes_free(&out);
    }
    mf_bytes_free(&pdf);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(comes_out_as_it_went_in),
        cmocka_unit_test(others_read_it),
        cmocka_unit_test(refuses),
        cmocka_unit_test(hostile_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
