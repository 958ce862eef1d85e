/* Sealing and checking papers, against ourselves and against other programs. */
#include "seal/pdfpage.h"
#include "seal/seal_kit.h"

typedef struct room {
    mf_key *key, *other;
    char dir[32];
    char said[65536]; /* what a tool printed */
} room;

static int setup(void **state)
{
    room *r = calloc(1, sizeof *r);
    assert_non_null(r);
    strncpy(r->dir, "/tmp/mf-seal-XXXXXX", sizeof r->dir - 1);
    assert_non_null(mkdtemp(r->dir));
    r->key = kit_key();
    r->other = kit_key();
    *state = r;
    return 0;
}

static int teardown(void **state)
{
    room *r = *state;
    kit_run(r->dir, "rm -f paper.pdf sig.der spans.bin cert.pem", r->said, sizeof r->said);
    rmdir(r->dir);
    mf_key_free(r->key);
    mf_key_free(r->other);
    free(r);
    return 0;
}

/* How often word stands in text. */
static int times(const char *text, const char *word)
{
    int n = 0;
    for (; (text = strstr(text, word)) != NULL; text++)
        n++;
    return n;
}

static void qpdf_is_content(room *r, mf_bytes pdf)
{
    if (!kit_has_tool("qpdf"))
        skip();
    kit_write(r->dir, "paper.pdf", pdf.data, pdf.len);
    assert_int_equal(kit_run(r->dir, "qpdf --check paper.pdf", r->said, sizeof r->said), 0);
    assert_non_null(strstr(r->said, "No syntax or stream encoding errors found"));
    assert_null(strstr(r->said, "WARNING"));
}

static void pdfsig_says(room *r, mf_bytes pdf, int valid, int whole)
{
    if (!kit_has_tool("pdfsig"))
        skip();
    kit_write(r->dir, "paper.pdf", pdf.data, pdf.len);
    kit_run(r->dir, "LC_ALL=C pdfsig paper.pdf", r->said, sizeof r->said);
    assert_int_equal(times(r->said, "Signature is Valid."), valid);
    assert_int_equal(times(r->said, "  - Total document signed"), whole);
}

static void one_seal(void **state)
{
    room *r = *state;
    mf_seal_check check;
    mf_bytes plain = kit_paper(3), pdf = kit_seal(kit_copy(plain), r->key);
    char hex[MF_FINGERPRINT_HEX];
    mf_key_fingerprint(r->key, hex);
    assert_memory_equal(pdf.data, plain.data, plain.len); /* the old bytes stay */
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 1);
    assert_int_equal(check.unsealed_tail, 0);
    assert_int_equal(check.seal[0].state, MF_SEAL_GOOD);
    assert_string_equal(check.seal[0].common_name, "Ottoline Fernbrake");
    assert_string_equal(check.seal[0].capacity, "certified renovator");
    assert_string_equal(check.seal[0].fingerprint, hex);
    assert_int_equal(check.seal[0].signed_at, KIT_TIME);
    assert_true(check.seal[0].self_made && check.seal[0].covers_whole);
    assert_false(check.seal[0].taken_off);
    assert_int_equal(check.seal[0].covered_len, pdf.len);
    qpdf_is_content(r, pdf);
    pdfsig_says(r, pdf, 1, 1);
    assert_non_null(strstr(r->said, "Signature Type: ETSI.CAdES.detached"));
    assert_non_null(strstr(r->said, "Signing Hash Algorithm: SHA-256"));
    assert_non_null(strstr(r->said, "Signing Time: Jan 01 2026 00:00:00"));
    mf_bytes_free(&plain);
    mf_bytes_free(&pdf);
}

static void two_seals(void **state)
{
    room *r = *state;
    mf_seal_check check;
    mf_bytes first = kit_seal(kit_paper(2), r->key);
    size_t first_len = first.len;
    mf_bytes pdf = kit_seal(first, r->other);
    char hex[MF_FINGERPRINT_HEX];
    mf_key_fingerprint(r->other, hex);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 2);
    assert_int_equal(check.seal[0].covered_len, first_len);
    assert_false(check.seal[0].covers_whole);
    assert_true(check.seal[1].covers_whole);
    assert_string_equal(check.seal[1].fingerprint, hex);
    assert_string_not_equal(check.seal[0].fingerprint, hex);
    qpdf_is_content(r, pdf);
    pdfsig_says(r, pdf, 2, 1);
    mf_bytes_free(&pdf);
}

/* The bare CMS, checked by the openssl program over the two runs of bytes. */
static void openssl_agrees(void **state)
{
    room *r = *state;
    mf_bytes pdf = kit_seal(kit_paper(1), r->key);
    size_t gap = kit_find(pdf, "/Contents <30", 0) + 10, end = kit_find(pdf, ">", gap) + 1;
    unsigned char der[16384];
    for (size_t i = 0; i < sizeof der; i++) {
        char two[3] = {(char)pdf.data[gap + 1 + 2 * i], (char)pdf.data[gap + 2 + 2 * i], '\0'};
        der[i] = (unsigned char)strtoul(two, NULL, 16);
    }
    assert_int_equal(end - gap, 2 * sizeof der + 2);
    assert_int_equal(der[1], 0x82);
    kit_write(r->dir, "sig.der", der, (size_t)(der[2] << 8 | der[3]) + 4);
    mf_bytes spans = kit_copy(pdf);
    memmove(spans.data + gap, spans.data + end, pdf.len - end);
    kit_write(r->dir, "spans.bin", spans.data, pdf.len - (end - gap));
    const char *const command =
        "openssl cms -verify -binary -noverify -inform DER -in sig.der -content spans.bin "
        "-certsout cert.pem -out /dev/null && "
        "openssl cms -verify -binary -cades -inform DER -in sig.der -content spans.bin "
        "-CAfile cert.pem -purpose any -no_check_time -out /dev/null";
    assert_int_equal(kit_run(r->dir, command, r->said, sizeof r->said), 0);
    assert_non_null(strstr(r->said, "CAdES Verification successful"));
    kit_run(r->dir, "openssl cms -cmsout -print -inform DER -in sig.der", r->said, sizeof r->said);
    assert_non_null(strstr(r->said, "id-smime-aa-signingCertificateV2"));
    /* PAdES baseline forbids it: ETSI EN 319 142-1, 6.3 */
    assert_null(strstr(r->said, "signingTime"));
    mf_bytes_free(&spans);
    mf_bytes_free(&pdf);
}

/* Another reader notices a change in the page's content as well. */
static void pdfsig_notices(void **state)
{
    room *r = *state;
    mf_seal_check check;
    mf_bytes pdf = kit_seal(kit_paper(2), r->key);
    pdf.data[kit_find(pdf, "stream", 0) + 20] ^= 1;
    assert_int_equal(kit_verify(&check, pdf), MF_NO);
    assert_int_equal(check.seal[0].state, MF_SEAL_ALTERED);
    pdfsig_says(r, pdf, 0, 1);
    assert_non_null(strstr(r->said, "Digest Mismatch"));
    mf_bytes_free(&pdf);
}

/* The widget goes to the page asked for, found through the page tree. */
static void which_page(void **state)
{
    room *r = *state;
    for (int n = 1; n <= 4; n++) {
        mf_bytes plain = kit_paper(4), pdf = {0};
        mf_pdf in;
        char want[64];
        mf_seal_ask ask = kit_ask(r->key);
        ask.place.page = n;
        assert_int_equal(mf_pdf_open(&in, plain.data, plain.len, NULL), MF_OK);
        snprintf(want, sizeof want, "/P %d 0 R\n", (int)mf_pdf_page(&in, n).number);
        assert_int_equal(mf_seal_sign(&pdf, plain.data, plain.len, &ask, NULL), MF_OK);
        kit_find(pdf, want, plain.len);
        kit_find(pdf, "/Rect [72.00 72.00 272.00 112.00 ]", plain.len);
        mf_pdf_close(&in);
        mf_bytes_free(&plain);
        mf_bytes_free(&pdf);
    }
}

static void invisible(void **state)
{
    room *r = *state;
    mf_bytes plain = kit_paper(1), pdf = {0};
    mf_seal_check check;
    mf_seal_ask ask = {.key = r->key, .signed_at = KIT_TIME}; /* no reason, no location */
    assert_int_equal(mf_seal_sign(&pdf, plain.data, plain.len, &ask, NULL), MF_OK);
    kit_find(pdf, "/Rect [0.00 0.00 0.00 0.00 ]", 0);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    qpdf_is_content(r, pdf);
    pdfsig_says(r, pdf, 1, 1);
    mf_bytes_free(&plain);
    mf_bytes_free(&pdf);
}

/* A paper with a form, annotations, an /ID, a comment, strings with brackets, a
 * nested page tree and no newline at its end keeps all of them. */
static void keeps_what_was_there(void **state)
{
    room *r = *state;
    const char *const object[] = {
        "<</Type/Catalog/Pages 2 0 R %comment >>\n/AcroForm 6 0 R/Lang(en\\)>>)>>",
        "<</Type/Pages/Kids[3 0 R]/Count 1>>",
        "<</Type/Pages/Kids[4 0 R]/Count 1/Parent 2 0 R>>",
        "<</Type/Page/Parent 3 0 R/MediaBox[0 0 300 300]/Annots 5 0 R>>",
        "[7 0 R %the only one\n]",
        "<</Fields[7 0 R]/DA(/F 1 Tf)/SigFlags 1>>",
        "<</Type/Annot/Subtype/Widget/FT/Tx/T(Room)/V(Attic)/Rect[1 1 9 9]/P 4 0 R>>",
    };
    mf_bytes pdf = kit_objects(object, 7, "/Size 8/Root 1 0 R/ID[<aa55><aa55>]");
    mf_seal_check check;
    pdf.len--;
    pdf = kit_seal(kit_seal(pdf, r->key), r->other);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 2);
    kit_find(pdf, "/DA (/F 1 Tf)", 0);
    kit_find(pdf, "/Lang (en\\)>>)", 0);
    kit_find(pdf, "/ID [<aa55> <", 0);
    kit_find(pdf, "/Fields [7 0 R\n8 0 R\n11 0 R]", 0);
    kit_find(pdf, "/Annots [7 0 R %the only one\n\n8 0 R\n11 0 R]", 0);
    qpdf_is_content(r, pdf);
    pdfsig_says(r, pdf, 2, 1);
    mf_bytes_free(&pdf);
}

static void sixteen_and_no_more(void **state)
{
    room *r = *state;
    mf_bytes pdf = kit_paper(1), more = {0};
    mf_seal_check check;
    mf_err err = {0};
    mf_seal_ask ask = kit_ask(r->key);
    for (int i = 0; i < MF_SEAL_MAX; i++)
        pdf = kit_seal(pdf, i % 2 == 0 ? r->key : r->other);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, MF_SEAL_MAX);
    for (int i = 1; i < check.n; i++)
        assert_true(check.seal[i].covered_len > check.seal[i - 1].covered_len);
    assert_int_equal(mf_seal_sign(&more, pdf.data, pdf.len, &ask, &err), MF_INPUT);
    assert_string_equal(err.what, "it has 16 seals already");
    assert_null(more.data);
    mf_bytes_free(&pdf);
}

static void refuses(const mf_seal_ask *ask, mf_status want)
{
    mf_bytes plain = kit_paper(2), out = {0};
    mf_err err = {0};
    assert_int_equal(mf_seal_sign(&out, plain.data, plain.len, ask, &err), want);
    assert_null(out.data);
    assert_true(err.what[0] != '\0');
    mf_bytes_free(&plain);
}

static void usage(void **state)
{
    room *r = *state;
    const mf_seal_ask good = kit_ask(r->key);
    mf_seal_ask ask = good;
    refuses(NULL, MF_USAGE);
    ask.key = NULL;
    refuses(&ask, MF_USAGE);
    ask = good;
    ask.place.page = 3;
    refuses(&ask, MF_USAGE);
    ask.place.page = -1;
    refuses(&ask, MF_USAGE);
    ask = good;
    ask.place.w = -5;
    refuses(&ask, MF_USAGE);
    ask.place.w = 1.0F / 0.0F;
    refuses(&ask, MF_USAGE);
    ask = good;
    ask.reason = "\xff";
    refuses(&ask, MF_USAGE);
    ask = good;
    ask.signed_at = -1;
    refuses(&ask, MF_USAGE);
}

static void unsealed_paper(void **state)
{
    (void)state;
    mf_bytes plain = kit_paper(1);
    mf_seal_check check;
    mf_err err = {0};
    assert_int_equal(mf_seal_verify(&check, plain.data, plain.len, &err), MF_NO);
    assert_string_equal(err.what, "the paper has no seal");
    assert_int_equal(check.n, 0);
    assert_int_equal(check.unsealed_tail, plain.len);
    mf_bytes_free(&plain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_seal),
        cmocka_unit_test(two_seals),
        cmocka_unit_test(openssl_agrees),
        cmocka_unit_test(pdfsig_notices),
        cmocka_unit_test(which_page),
        cmocka_unit_test(invisible),
        cmocka_unit_test(keeps_what_was_there),
        cmocka_unit_test(sixteen_and_no_more),
        cmocka_unit_test(usage),
        cmocka_unit_test(unsealed_paper),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
