/* Attacks on a sealed paper by updates behind the seal: unsealed ones, and ones that
 * the attacker seals by a key of their own, so that every byte is under a good seal.
 * Each paper is constructed; the kinds of attack are those known for PDF signatures
 * (incremental saving, signature wrapping, content hidden, replaced or both). */
#include "seal/pdfxref.h"
#include "seal/two_keys.h"

#define OTHER "<</Length 9>>stream\n1 1 m 9 w\nendstream"

/* An update that gives object num this text; frees the paper given. */
static mf_bytes update(mf_bytes pdf, int num, const char *object, const char *trailer)
{
    char line[200];
    mf_pdf in;
    assert_int_equal(mf_pdf_open(&in, pdf.data, pdf.len, NULL), MF_OK);
    size_t prev = in.startxref, at = pdf.len;
    long long size = in.next_num > num ? in.next_num : num + 1;
    mf_pdf_close(&in);
    snprintf(line, sizeof line, "%d 0 obj\n", num);
    pdf = kit_append(kit_append(kit_append(pdf, line), object), "\nendobj\n");
    size_t table = pdf.len;
    snprintf(line, sizeof line,
             "xref\n%d 1\n%010zu 00000 n \ntrailer\n<</Size %lld/Root 1 0 R/Prev %zu%s>>\n"
             "startxref\n%zu\n%%%%EOF\n",
             num, at, size, prev, trailer, table);
    return kit_append(pdf, line);
}

/* Found without a further seal as bytes that nobody sealed, and with one as a change. */
static void is_found(mf_bytes pdf)
{
    mf_seal_check check;
    mf_err err = {0};
    assert_int_equal(mf_seal_verify(&check, pdf.data, pdf.len, &err), MF_NO);
    assert_int_equal(check.seal[0].state, MF_SEAL_GOOD);
    assert_true(check.unsealed_tail > 0);
    pdf = kit_seal(pdf, theirs);
    assert_int_equal(mf_seal_verify(&check, pdf.data, pdf.len, &err), MF_NO);
    assert_int_equal(check.n, 2);
    assert_int_equal(check.seal[1].state, MF_SEAL_GOOD);
    assert_true(check.seal[1].covers_whole);
    assert_true(check.seal[1].changed);
    assert_false(check.seal[0].changed);
    assert_string_equal(err.where, "seal 2 of 2");
    assert_string_equal(err.what, "the paper was changed before this seal was added");
    mf_bytes_free(&pdf);
}

/* The frame of the tests below: two seals of two keys and nothing else. */
static void seals_alone_are_no_change(void **state)
{
    (void)state;
    mf_seal_check check;
    mf_bytes pdf = kit_seal(kit_seal(sealed(), theirs), ours);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 3);
    mf_bytes_free(&pdf);
}

static void what_is_shown_is_replaced(void **state)
{
    (void)state;
    is_found(update(sealed(), 4, OTHER, ""));
    is_found(
        update(sealed(), 3, "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]/Contents 4 0 R>>", ""));
    is_found(update(sealed(), 2, "<</Type/Pages/Kids[3 0 R 3 0 R]/Count 2>>", ""));
    is_found(update(sealed(), 4, "null", ""));
}

/* The dictionary is the same, what it holds is not. A stream may call itself a page. */
static void a_stream_is_replaced_under_its_dictionary(void **state)
{
    (void)state;
    is_found(update(sealed_of(PAGE, "<</Type/Page/Length 9>>stream\n0 0 m 9 w\nendstream"), 4,
                    "<</Type/Page/Length 9>>stream\n1 1 m 9 w\nendstream", ""));
}

/* The sealed page refers to an object that is not there yet. */
static void what_dangled_is_filled_in(void **state)
{
    (void)state;
    is_found(update(sealed_of("<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents[4 0 R "
                              "99 0 R]>>",
                              CONTENTS),
                    99, OTHER, ""));
    is_found(update(sealed_of("<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents[4 0 R "
                              "99%x\n0 R]>>",
                              CONTENTS),
                    99, OTHER, ""));
}

/* An update with an annotation; the page as it is after one seal. */
static mf_bytes annotated(const char *annotation)
{
    mf_bytes pdf = sealed();
    char page[400];
    size_t at = kit_find(pdf, "/Annots [", 0);
    snprintf(page, sizeof page,
             "<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents 4 0 R/Annots [%.*s %s]>>",
             (int)strcspn((const char *)pdf.data + at + 9, "]"), (const char *)pdf.data + at + 9,
             annotation);
    return update(pdf, 3, page, "");
}

static void words_are_laid_over(void **state)
{
    (void)state;
    is_found(annotated("<</Type/Annot/Subtype/FreeText/Rect[0 0 99 99]/Contents(passed)>>"));
    is_found(annotated("<</Type/Annot/Subtype/Widget/FT/Tx/Rect[0 0 99 99]/V(passed)>>"));
    is_found(annotated("<</Type/Annot/Subtype/Stamp/FT/Sig/Rect[0 0 99 99]>>"));
}

/* What calls itself a signature's field and holds no signature, or holds an earlier one:
 * a picture over the words (constructed; ISO 32000-1, 12.7.4.5). */
static void a_field_without_a_seal_is_laid_over(void **state)
{
    (void)state;
    is_found(annotated("<</Type/Annot/Subtype/Widget/FT/Sig/Rect[0 0 99 99]>>"));
    is_found(annotated("<</Type/Annot/Subtype/Widget/FT/Sig/Rect[0 0 99 99]/V 8 0 R>>"));
    is_found(annotated("6 0 R"));
}

/* The contents of the page are a list of their own, and words are put at its end. */
static void the_list_of_contents_grows(void **state)
{
    (void)state;
    mf_bytes pdf = sealed_of(PAGE, "[5 0 R]");
    pdf = update(pdf, 99, "<</FT/Sig/Length 9>>stream\n1 1 m 9 w\nendstream", "");
    is_found(update(pdf, 4, "[5 0 R 99 0 R]", ""));
}

/* Another catalog: pages of its own, an action, a form with fields that show words. */
static void another_catalog(void **state)
{
    (void)state;
    const char *const catalog[] = {
        CATALOG, "<</Type/Catalog/Pages 7 0 R/AcroForm<</Fields[6 0 R]>>>>",
        "<</Type/Catalog/Pages 2 0 R/OpenAction<</S/JavaScript/JS(x)>>>>"};
    for (size_t i = 0; i < sizeof catalog / sizeof catalog[0]; i++) {
        mf_seal_check check;
        mf_bytes pdf = kit_seal(update(sealed(), 1, catalog[i], ""), theirs);
        assert_int_equal(kit_verify(&check, pdf), MF_NO);
        assert_true(check.seal[check.n - 1].changed);
        mf_bytes_free(&pdf);
    }
}

/* The title is no object that only the title may be: it may be a page's words too. */
static void the_information_is_used_as_words(void **state)
{
    (void)state;
    is_found(update(sealed(), 5, OTHER, ""));
}

/* A table of the compressed kind beside the classic one, which other readers follow. */
static void two_tables_in_one(void **state)
{
    (void)state;
    mf_seal_check check;
    mf_bytes pdf = update(sealed(), 5, "<</Title(x)>>", "/XRefStm 9");
    assert_int_equal(kit_verify(&check, pdf), MF_NO);
    mf_bytes_free(&pdf);
}

/* One section that names an object twice cannot be sealed or followed. */
static void an_object_named_twice(void **state)
{
    (void)state;
    char line[300];
    mf_bytes out = {0}, pdf = kit_append((mf_bytes){0}, "%PDF-1.4\n");
    size_t one = pdf.len;
    pdf = kit_append(pdf, "1 0 obj\n" CATALOG "\nendobj\n");
    size_t two = pdf.len;
    pdf = kit_append(pdf, "2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n");
    size_t three = pdf.len;
    pdf = kit_append(pdf, "3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>\nendobj\n");
    size_t table = pdf.len;
    for (int twice = 0; twice < 2; twice++) {
        mf_bytes with = kit_copy(pdf);
        snprintf(line, sizeof line,
                 "xref\n1 3\n%010zu 00000 n \n%010zu 00000 n \n%010zu 00000 n \n3 %d\n%s"
                 "trailer\n<</Size 4/Root 1 0 R>>\nstartxref\n%zu\n%%%%EOF\n",
                 one, two, three, twice, twice ? "0000000009 00000 n \n" : "", table);
        with = kit_append(with, line);
        mf_seal_ask ask = kit_ask(ours);
        assert_int_equal(mf_seal_sign(&out, with.data, with.len, &ask, NULL),
                         twice ? MF_INPUT : MF_OK);
        mf_bytes_free(&out);
        mf_bytes_free(&with);
    }
    mf_bytes_free(&pdf);
}

/* Wrapping: the signed bytes are there, whole, but the paper around them is another;
 * the signature dictionary is written again with a range that points to them. */
static void wrapped(void **state)
{
    (void)state;
    char range[128];
    mf_seal_check check;
    mf_bytes good = sealed(), evil = kit_paper(1);
    size_t dict = kit_find(good, "/Type /Sig\n", 0) - 3;
    size_t gap = kit_find(good, "/Contents <", dict) + 10, gap_end = kit_find(good, ">", gap) + 1;
    size_t at = evil.len;
    good.data[good.len] = '\0';
    mf_bytes pdf = {malloc(evil.len + 2 * good.len + 256), evil.len};
    assert_non_null(pdf.data);
    memcpy(pdf.data, evil.data, evil.len);
    memcpy(pdf.data + pdf.len, good.data, good.len); /* the signed paper, whole */
    pdf.len += good.len;
    int n = snprintf(range, sizeof range,
                     "9 0 obj\n<</Type/Sig/SubFilter/ETSI.CAdES.detached"
                     "/ByteRange[%zu %zu %zu %zu]/Contents ",
                     at, gap, at + gap_end, good.len - gap_end);
    memcpy(pdf.data + pdf.len, range, (size_t)n);
    pdf.len += (size_t)n;
    memcpy(pdf.data + pdf.len, good.data + gap, gap_end - gap);
    pdf.len += gap_end - gap;
    kit_put(pdf.data + pdf.len, ">>\nendobj\n%%EOF\n", 16);
    pdf.len += 16;
    assert_int_not_equal(kit_verify(&check, pdf), MF_OK);
    for (int i = 0; i < check.n; i++)
        assert_int_not_equal(check.seal[i].state, MF_SEAL_GOOD);
    mf_bytes_free(&pdf);
    mf_bytes_free(&good);
    mf_bytes_free(&evil);
}

/* The signature's own entries taken away or emptied in an update: the old dictionary
 * is still read where it stands. */
static void emptied(void **state)
{
    (void)state;
    const char *const sig[] = {"<</Type/Sig>>", "<</Type/Sig/Contents<>/ByteRange[0 0 0 0]>>",
                               "<</Type/Sig/Contents null/ByteRange null>>", "null"};
    for (size_t i = 0; i < sizeof sig / sizeof sig[0]; i++) {
        mf_seal_check check;
        mf_bytes pdf = update(sealed(), 8, sig[i], "");
        assert_int_equal(kit_verify(&check, pdf), MF_NO);
        mf_bytes_free(&pdf);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seals_alone_are_no_change),
        cmocka_unit_test(what_is_shown_is_replaced),
        cmocka_unit_test(a_stream_is_replaced_under_its_dictionary),
        cmocka_unit_test(what_dangled_is_filled_in),
        cmocka_unit_test(words_are_laid_over),
        cmocka_unit_test(a_field_without_a_seal_is_laid_over),
        cmocka_unit_test(the_list_of_contents_grows),
        cmocka_unit_test(another_catalog),
        cmocka_unit_test(the_information_is_used_as_words),
        cmocka_unit_test(two_tables_in_one),
        cmocka_unit_test(an_object_named_twice),
        cmocka_unit_test(wrapped),
        cmocka_unit_test(emptied),
    };
    return cmocka_run_group_tests(tests, two_keys_setup, two_keys_teardown);
}
