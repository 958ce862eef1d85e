/* Files made to trip the reader. Nothing may crash, hang or be believed. */
#include "base/file.h"
#include "seal/pdfpage.h"
#include "seal/seal_kit.h"

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

/* Neither sealed nor believed, and soon; frees the PDF. */
static void refused(const mf_key *key, mf_bytes pdf)
{
    mf_bytes out = {0};
    mf_seal_check check;
    mf_err err = {0};
    mf_seal_ask ask = kit_ask(key);
    mf_status status = mf_seal_sign(&out, pdf.data, pdf.len, &ask, &err);
    if (status != MF_INPUT)
        fail_msg("signed or failed oddly (%d) for: %.60s", status, (const char *)pdf.data + 9);
    assert_null(out.data);
    assert_true(err.what[0] != '\0' && err.why[0] != '\0');
    status = kit_verify(&check, pdf);
    assert_true(status == MF_NO || status == MF_INPUT);
    mf_bytes_free(&pdf);
}

#define CATALOG "<</Type/Catalog/Pages 2 0 R>>"
#define PAGES   "<</Type/Pages/Kids[3 0 R]/Count 1>>"
#define PAGE    "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>"
#define TRAILER "/Size 4/Root 1 0 R"

static mf_bytes three(const char *catalog, const char *pages, const char *page, const char *trailer)
{
    const char *const object[] = {catalog, pages, page};
    return kit_objects(object, 3, trailer);
}

/* The frame of the tests below is sound: only what each adds is not. */
static void plain_frame(void **state)
{
    mf_seal_check check;
    mf_bytes pdf = kit_seal(three(CATALOG, PAGES, PAGE, TRAILER), *state);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    mf_bytes_free(&pdf);
}

static void not_a_pdf(void **state)
{
    mf_key *key = *state;
    mf_seal_check check;
    mf_err err = {0};
    const char *const text[] = {"",
                                "%PDF-",
                                "%PDF-1.4",
                                "hello, this is a letter",
                                "%PDF-1.4\n%%EOF",
                                "%PDF-1.4\nstartxref",
                                "%PDF-1.4\nstartxref\n0\n%%EOF",
                                "%PDF-1.4\nstartxref\n9\n%%EOF\nxref"};
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++)
        refused(key, kit_append((mf_bytes){0}, text[i]));
    assert_int_equal(mf_seal_verify(&check, NULL, 0, &err), MF_INPUT);
    assert_string_equal(err.what, "this is not a PDF");
    assert_int_equal(mf_seal_verify(&check, (const unsigned char *)"\x89PNG\r\n\x1a\n", 8, NULL),
                     MF_INPUT);
}

static void trailers(void **state)
{
    const char *const trailer[] = {
        "",
        "/Size 4",
        "/Root 1 0 R",
        "/Size 4/Root 9 0 R",
        "/Size 4/Root 1 1 R",
        "/Size 4/Root<</Pages 2 0 R>>",
        "/Size 0/Root 1 0 R",
        "/Size -4/Root 1 0 R",
        "/Size 999999999999/Root 1 0 R",
        "/Size 99999999999999999999999999/Root 1 0 R",
        "/Size 4/Root 1 0 R/Root 1 0 R",
        "/Size 4/Root 1 0 R/Prev @", /* a chain that bites its tail */
        "/Size 4/Root 1 0 R/Prev -1",
        "/Size 4/Root 1 0 R/Prev 0",
        "/Size 4/Root 1 0 R/Prev 99999999999999",
        "/Size 4/Root 1 0 R/Prev 1 0 R",
        "/Size 4/Root 1 0 R/Prev(9)",
        "/Size 4/Root 1 0 R/Encrypt<</Filter/Standard>>",
        "/Size 4/Root 1 0 R/X[[[",
        "/Size 4/Root 1 0 R/X(",
        "/Size 4/Root 1 0 R 7 8 9",
    };
    for (size_t i = 0; i < sizeof trailer / sizeof trailer[0]; i++)
        refused(*state, three(CATALOG, PAGES, PAGE, trailer[i]));
}

static void catalogs_and_pages(void **state)
{
    const char *const triple[][3] = {
        {"1 0 R", PAGES, PAGE},
        {"null", PAGES, PAGE},
        {"<</Type/Catalog>>", PAGES, PAGE},
        {"<</Type/Catalog/Pages<<>>>>", PAGES, PAGE},
        {CATALOG, "[]", PAGE},
        {CATALOG, "<</Kids 3>>", PAGE},
        {CATALOG, "<</Kids[]>>", PAGE},
        {CATALOG, "<</Kids[2 0 R]>>", PAGE},
        {CATALOG, "<</Kids[2 0 R 2 0 R 2 0 R 2 0 R 2 0 R 2 0 R]>>", PAGE},
        {CATALOG, "<</Kids[<</Type/Page>>]>>", PAGE},
        {CATALOG, PAGES, "<</Annots 7>>"},
        {CATALOG, PAGES, "<</Annots[>>"},
        {CATALOG, PAGES, "<</Annots 3 0 R>>"},
        {CATALOG, PAGES, "<</Annots[]/Annots[]>>"},
        {CATALOG, PAGES, "<</A/B/C>>"},
        {CATALOG, PAGES, "<</A<</B]>>>>"},
        {"<</Pages 2 0 R/AcroForm 5>>", PAGES, PAGE},
        {"<</Pages 2 0 R/AcroForm 9 0 R>>", PAGES, PAGE},
        {"<</Pages 2 0 R/AcroForm<</Fields 5>>>>", PAGES, PAGE},
        {"<</Pages 2 0 R/AcroForm<</Fields[5]>>>>", PAGES, PAGE},
        {"<</Pages 2 0 R/AcroForm<</Fields[1 0 R]>>/Kids[1 0 R 1 0 R]>>", PAGES, PAGE},
    };
    for (size_t i = 0; i < sizeof triple / sizeof triple[0]; i++)
        refused(*state, three(triple[i][0], triple[i][1], triple[i][2], TRAILER));
}

/* The table is replaced by this text. */
static mf_bytes with_table(const char *table)
{
    char line[64];
    mf_bytes pdf = three(CATALOG, PAGES, PAGE, TRAILER);
    pdf.len = kit_find(pdf, "xref\n", 0);
    size_t at = pdf.len;
    pdf = kit_append(pdf, table);
    snprintf(line, sizeof line, "\nstartxref\n%zu\n%%%%EOF\n", at);
    return kit_append(pdf, line);
}

static void tables(void **state)
{
    const char *const table[] = {
        "xref\n0 99999999\n0000000000 65535 f \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n0 8388607\ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n-5 3\ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n0 -1\ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n1 1\n9999999999 00000 n \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n1 1\n-000000009 00000 n \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n1 1\n0000000009 99999 n \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n1 1\n0000000009 00000 x \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n1 1\n0000000010 00000 n \ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n2 1\n0000000009 00000 n \ntrailer<</Size 4/Root 2 0 R>>",
        "xref\ntrailer<</Size 4/Root 1 0 R>>",
        "xref\n0 1",
        "xref",
        "xre",
        "8 0 obj<</Type/XRef/Size 4/Root 1 0 R>>stream\nendstream endobj",
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        refused(*state, with_table(table[i]));
}

static char *repeated(const char *unit, size_t times, const char *before, const char *after)
{
    size_t unit_len = strlen(unit), n = strlen(before);
    char *text = malloc(n + times * unit_len + strlen(after) + 1);
    assert_non_null(text);
    kit_put(text, before, n);
    for (size_t i = 0; i < times; i++, n += unit_len)
        kit_put(text + n, unit, unit_len);
    kit_put(text + n, after, strlen(after) + 1);
    return text;
}

static void deep_catalog(const mf_key *key, const char *unit, size_t times, const char *after)
{
    char *catalog = repeated(unit, times, "<</Pages 2 0 R/X ", after);
    refused(key, three(catalog, PAGES, PAGE, TRAILER));
    free(catalog);
}

static void deep_nesting(void **state)
{
    deep_catalog(*state, "[", 100000, ">>");
    deep_catalog(*state, "<</A", 100000, ">>");
    deep_catalog(*state, "[<</A", 50000, ">>");
    deep_catalog(*state, "(", 100000, ">>");
    deep_catalog(*state, "<", 100000, ">>");
    deep_catalog(*state, "\\(", 100000, ">>");
    deep_catalog(*state, "%", 100000, ">>");
}

/* Objects that refer to one another without end, each of them long. */
static void tangled(void **state)
{
    char *pages = repeated("2 0 R ", 20000, "<</Kids[", "]>>");
    refused(*state, three(CATALOG, pages, PAGE, TRAILER));
    free(pages);
    char *form = repeated("3 0 R ", 20000, "<</Pages 2 0 R/AcroForm<</Fields[", "]>>>>");
    char *kids = repeated("3 0 R ", 20000, "<</Kids[", "]>>");
    refused(*state, three(form, "<</Kids[1 0 R]>>", kids, TRAILER));
    free(form);
    free(kids);
}

/* A great many places that look like signatures. Looking from each over all the others would
 * take hours here; how long one try may take is watched by "make fuzz". */
static void many_byte_ranges(void **state)
{
    const char *const unit[] = {"/ByteRange ", "/ByteRange[0 1 2 3]",
                                "5 0 obj<</ByteRange[0 1 2 3]",
                                "5 0 obj<</ByteRange[0 1 2 3]/Contents<00>>>", "1 obj /ByteRange "};
    for (size_t i = 0; i < sizeof unit / sizeof unit[0]; i++) {
        char *text = repeated(unit[i], 20000, "<</X(", ")>>");
        mf_bytes pdf = three(CATALOG, PAGES, text, TRAILER), broken = kit_copy(pdf);
        mf_seal_check check;
        assert_int_not_equal(kit_verify(&check, pdf), MF_OK);
        broken.len -= 12;
        assert_int_not_equal(kit_verify(&check, broken), MF_OK);
        mf_bytes_free(&broken);
        mf_bytes_free(&pdf);
        free(text);
    }
    (void)state;
}

/* The page is long to compare, the paper long, so that much may be read. */
static mf_bytes long_page(void)
{
    char *pad = repeated("0 0 m\n", 300000, "<</Length 1800000>>stream\n", "endstream");
    mf_bytes page = kit_append((mf_bytes){0}, "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]");
    for (int i = 0; i < 1000; i++) {
        char key[32];
        snprintf(key, sizeof key, "/K%d %d", i, i);
        page = kit_append(page, key);
    }
    page = kit_append(page, ">>");
    page.data[page.len] = '\0';
    const char *const object[] = {CATALOG, PAGES, (const char *)page.data, pad};
    mf_bytes pdf = kit_objects(object, 4, "/Size 5/Root 1 0 R");
    mf_bytes_free(&page);
    free(pad);
    return pdf;
}

/* Each further seal is compared with the one before; all together have one bound, the fuel
 * of pdftok.h. Where that is spent what comes behind is not believed: were the bound one of
 * each comparison, all of these seals would be. */
static void many_long_comparisons(void **state)
{
    mf_seal_check check;
    mf_bytes pdf = kit_seal(kit_seal(long_page(), *state), *state);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    for (int i = 2; i < MF_SEAL_MAX; i++)
        pdf = kit_seal(pdf, *state);
    assert_int_equal(kit_verify(&check, pdf), MF_NO);
    assert_int_equal(check.n, MF_SEAL_MAX);
    assert_false(check.seal[1].changed);
    assert_true(check.seal[MF_SEAL_MAX - 1].changed);
    mf_bytes_free(&pdf);
}

/* Found by fuzzing: places that look like signatures, in a damaged paper that could be
 * sealed, and the seal then not be found among them. */
static void not_handed_out_unchecked(void **state)
{
    mf_bytes pdf = {0}, out = {0};
    mf_err err = {0};
    mf_seal_ask ask = kit_ask(*state);
    assert_int_equal(
        mf_file_read(&pdf, MF_TESTS "/fuzz/seeds/attach/too-tangled.pdf", 100000, &err), MF_OK);
    assert_int_equal(mf_seal_sign(&out, pdf.data, pdf.len, &ask, &err), MF_INPUT);
    assert_null(out.data);
    assert_string_equal(err.what, "its new seal could not be checked afterwards");
    mf_bytes_free(&pdf);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_frame),
        cmocka_unit_test(not_a_pdf),
        cmocka_unit_test(trailers),
        cmocka_unit_test(catalogs_and_pages),
        cmocka_unit_test(tables),
        cmocka_unit_test(deep_nesting),
        cmocka_unit_test(tangled),
        cmocka_unit_test(many_byte_ranges),
        cmocka_unit_test(many_long_comparisons),
        cmocka_unit_test(not_handed_out_unchecked),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
