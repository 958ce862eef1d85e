/* Changing a sealed paper: every change must be noticed. */
#include "seal/seal_kit.h"

#include "seal/pdfxref.h"

typedef struct sealed {
    mf_key *key;
    mf_bytes pdf;
    size_t gap, gap_end; /* the angle brackets of /Contents */
    size_t cms_end;      /* where the zeros begin */
} sealed;

static int setup(void **state)
{
    sealed *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->key = kit_key();
    s->pdf = kit_seal(kit_paper(2), s->key);
    s->gap = kit_find(s->pdf, "/Contents <3082", 0) + 10;
    s->gap_end = kit_find(s->pdf, ">", s->gap) + 1;
    s->cms_end = kit_find(s->pdf, "0000000000000000000000000000000000000000", s->gap);
    *state = s;
    return 0;
}

static int teardown(void **state)
{
    sealed *s = *state;
    mf_bytes_free(&s->pdf);
    mf_key_free(s->key);
    free(s);
    return 0;
}

static void flip_is_noticed(mf_bytes pdf, size_t at, unsigned char bits)
{
    mf_seal_check check;
    pdf.data[at] ^= bits;
    mf_status status = kit_verify(&check, pdf);
    if (status != MF_NO && status != MF_INPUT)
        fail_msg("not noticed: byte %zu changed by %02x, status %d", at, bits, status);
    pdf.data[at] ^= bits;
}

/* One bit of every seventh byte outside the gap: page, objects, table, trailer. */
static void flips_in_the_paper(void **state)
{
    sealed *s = *state;
    int n = 0;
    for (size_t at = 0; at < s->pdf.len; at += at >= s->gap && at < s->gap_end ? 1 : 7) {
        if (at >= s->gap && at < s->gap_end)
            at = s->gap_end;
        flip_is_noticed(s->pdf, at, (unsigned char)(1 << n % 8));
        n++;
    }
    assert_true(n >= 300);
}

/* One bit of every byte of the signature itself, and its brackets. */
static void flips_in_the_signature(void **state)
{
    sealed *s = *state;
    for (size_t at = s->gap; at < s->cms_end; at++)
        flip_is_noticed(s->pdf, at, (unsigned char)(1 << at % 8));
    flip_is_noticed(s->pdf, s->gap_end - 1, 2);
}

/* The zeros behind the signature are under no signature and must stay zeros. */
static void flips_in_the_zeros(void **state)
{
    sealed *s = *state;
    int n = 0;
    for (size_t at = s->cms_end; at < s->gap_end - 1; at += 211, n++)
        flip_is_noticed(s->pdf, at, (unsigned char)(1 << n % 8));
    assert_true(n >= 100);
    mf_seal_check check;
    s->pdf.data[s->gap_end - 2] = '1';
    assert_int_equal(kit_verify(&check, s->pdf), MF_NO);
    assert_int_equal(check.seal[0].state, MF_SEAL_BAD_RANGE);
    s->pdf.data[s->gap_end - 2] = '0';
    assert_int_equal(kit_verify(&check, s->pdf), MF_OK);
}

/* Writes hex over the nth occurrence of it inside the signature and expects that
 * the change is noticed. OpenSSL alone notices neither of the two below. */
static void swap_is_noticed(sealed *s, const char *hex, int nth, size_t skip, const char *with)
{
    mf_seal_check check;
    size_t at = s->gap;
    for (int i = 0; i <= nth; i++)
        at = kit_find(s->pdf, hex, at + 1);
    assert_true(at < s->cms_end);
    char kept[2] = {(char)s->pdf.data[at + skip], (char)s->pdf.data[at + skip + 1]};
    memcpy(s->pdf.data + at + skip, with, 2);
    assert_int_equal(kit_verify(&check, s->pdf), MF_NO);
    assert_int_equal(check.seal[0].state, MF_SEAL_UNREADABLE);
    memcpy(s->pdf.data + at + skip, kept, 2);
    assert_int_equal(kit_verify(&check, s->pdf), MF_OK);
}

/* "Ottoline": in the certificate as issuer and as subject, then in the signer's
 * naming of the certificate. O becomes o. */
static void issuer_in_other_case(void **state)
{
    swap_is_noticed(*state, "4f74746f6c696e65", 2, 0, "6f");
}

/* The SET around the contentType attribute's value, marked as not constructed. */
static void set_marked_primitive(void **state)
{
    swap_is_noticed(*state, "310b06092a864886f70d010701", 0, 0, "11");
}

static void tail_is_noticed(mf_bytes whole, const char *tail)
{
    mf_seal_check check;
    mf_err err = {0};
    mf_bytes pdf = kit_append(kit_copy(whole), tail);
    assert_int_equal(mf_seal_verify(&check, pdf.data, pdf.len, &err), MF_NO);
    assert_int_equal(check.n, 1);
    assert_int_equal(check.seal[0].state, MF_SEAL_GOOD);
    assert_false(check.seal[0].covers_whole);
    assert_int_equal(check.unsealed_tail, strlen(tail));
    assert_non_null(strstr(err.what, "bytes at the end are under no seal"));
    mf_bytes_free(&pdf);
}

static void something_behind_it(void **state)
{
    sealed *s = *state;
    tail_is_noticed(s->pdf, "\n");
    tail_is_noticed(s->pdf, " ");
    tail_is_noticed(s->pdf, "%%EOF\n");
    tail_is_noticed(s->pdf, "9 0 obj\n<< >>\nendobj\nxref\n9 1\n0000000000 00000 n \n");
}

/* An update without a seal that puts another catalog in place. */
static mf_bytes with_catalog(mf_bytes pdf, const char *catalog)
{
    mf_pdf in;
    char text[512];
    assert_int_equal(mf_pdf_open(&in, pdf.data, pdf.len, NULL), MF_OK);
    size_t at = pdf.len;
    int root = (int)in.root.number, size = (int)in.next_num;
    int n = snprintf(text, sizeof text, "%d 0 obj\n%s\nendobj\n", root, catalog);
    pdf = kit_append(pdf, text);
    snprintf(text, sizeof text,
             "xref\n%d 1\n%010zu 00000 n \ntrailer\n<</Size %d/Root %d 0 R/Prev %zu>>\n"
             "startxref\n%zu\n%%%%EOF\n",
             root, at, size, root, in.startxref, at + (size_t)n);
    mf_pdf_close(&in);
    return kit_append(pdf, text);
}

#define BARE_CATALOG "<</Type/Catalog/Pages 2 0 R>>"

/* Taking the seal out of the form fields does not hide it. */
static void seal_taken_off(void **state)
{
    sealed *s = *state;
    mf_seal_check check;
    mf_err err = {0};
    mf_bytes pdf = with_catalog(kit_copy(s->pdf), BARE_CATALOG);
    assert_int_equal(mf_seal_verify(&check, pdf.data, pdf.len, &err), MF_NO);
    assert_int_equal(check.n, 1);
    assert_true(check.seal[0].taken_off);
    assert_true(check.unsealed_tail > 0);
    /* and neither does a new seal over that */
    pdf = kit_seal(pdf, s->key);
    assert_int_equal(mf_seal_verify(&check, pdf.data, pdf.len, &err), MF_NO);
    assert_int_equal(check.n, 2);
    assert_true(check.seal[0].taken_off);
    assert_false(check.seal[1].taken_off);
    assert_int_equal(check.seal[1].state, MF_SEAL_GOOD);
    assert_int_equal(check.unsealed_tail, 0);
    assert_non_null(strstr(err.what, "taken off"));
    assert_string_equal(err.where, "seal 1 of 2");
    mf_bytes_free(&pdf);
}

/* A sealed paper that lies inside another one is not one of that paper's seals. */
static void attached_paper(void **state)
{
    sealed *s = *state;
    mf_seal_check check;
    mf_bytes inner = kit_append(kit_copy(s->pdf), ""), pdf = kit_paper(1);
    size_t len = pdf.len;
    pdf.data = realloc(pdf.data, len + inner.len + 128);
    assert_non_null(pdf.data);
    int n = snprintf((char *)pdf.data + len, 64, "90 0 obj\n<</Length %zu>>\nstream\n", inner.len);
    memcpy(pdf.data + len + n, inner.data, inner.len);
    pdf.len = len + (size_t)n + inner.len;
    pdf = kit_append(pdf, "\nendstream\nendobj\n");
    /* the table of the outer paper again, since the inner one's is now the last */
    mf_bytes outer = kit_paper(1);
    mf_pdf in;
    char text[64];
    assert_int_equal(mf_pdf_open(&in, outer.data, outer.len, NULL), MF_OK);
    snprintf(text, sizeof text, "startxref\n%zu\n%%%%EOF\n", in.startxref);
    mf_pdf_close(&in);
    pdf = kit_seal(kit_append(pdf, text), s->key);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 1);
    mf_bytes_free(&outer);
    mf_bytes_free(&inner);
    mf_bytes_free(&pdf);
}

static void cut_short(void **state)
{
    sealed *s = *state;
    mf_seal_check check;
    mf_bytes out = {0};
    mf_seal_ask ask = kit_ask(s->key);
    for (size_t len = 0; len < s->pdf.len; len += len + 200 < s->pdf.len ? 173 : 1) {
        mf_bytes cut = kit_copy((mf_bytes){s->pdf.data, len}); /* so that ASan sees its end */
        cut.data = realloc(cut.data, len == 0 ? 1 : len);
        mf_status status = mf_seal_verify(&check, cut.data, len, NULL);
        assert_true(status == MF_NO || status == MF_INPUT);
        if (mf_seal_sign(&out, cut.data, len, &ask, NULL) == MF_OK)
            mf_bytes_free(&out);
        mf_bytes_free(&cut);
    }
    assert_int_equal(mf_seal_verify(&check, s->pdf.data, s->pdf.len - 10, NULL), MF_NO);
    assert_int_equal(check.n, 1);
    assert_int_equal(check.seal[0].state, MF_SEAL_BAD_RANGE);
}

/* Many bytes changed at once, the same ones every time: never good, no crash. */
static void scrambled(void **state)
{
    sealed *s = *state;
    mf_seal_check check;
    mf_bytes out = {0};
    mf_seal_ask ask = kit_ask(s->key);
    uint32_t seed = 20260101;
    for (int turn = 0; turn < 1500; turn++) {
        mf_bytes pdf = kit_copy(s->pdf);
        for (int i = 0; i < 1 + turn % 40; i++) {
            seed = seed * 1664525U + 1013904223U; /* Numerical Recipes, 7.1 */
            size_t at = seed % (pdf.len - s->gap_end + s->gap);
            at = at < s->gap ? at : at + s->gap_end - s->gap;
            pdf.data[at] = (unsigned char)("0123456789 <>[]()/R%\n"[(seed >> 8) % 21]);
        }
        if (memcmp(pdf.data, s->pdf.data, pdf.len) != 0)
            assert_int_not_equal(kit_verify(&check, pdf), MF_OK);
        if (turn % 8 == 0 && mf_seal_sign(&out, pdf.data, pdf.len, &ask, NULL) == MF_OK)
            mf_bytes_free(&out);
        mf_bytes_free(&pdf);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flips_in_the_paper),
        cmocka_unit_test(flips_in_the_signature),
        cmocka_unit_test(flips_in_the_zeros),
        cmocka_unit_test(issuer_in_other_case),
        cmocka_unit_test(set_marked_primitive),
        cmocka_unit_test(something_behind_it),
        cmocka_unit_test(seal_taken_off),
        cmocka_unit_test(attached_paper),
        cmocka_unit_test(cut_short),
        cmocka_unit_test(scrambled),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
