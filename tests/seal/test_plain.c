/* Further seals whose update is written so that some readers see more in it than others.
 * Every byte lies under a good seal. Each paper is constructed; what the readers make of
 * such bytes was seen with programs that are not ours, named beside each case. */
#include "seal/cms.h"
#include "seal/two_keys.h"
#include "seal/update.h"

#define OTHER_PAGE "<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>\nendobj\n"

/* What is odd about an update; NULL and 0: nothing. */
typedef struct odd {
    const char *object;  /* more bytes behind the objects */
    const char *table;   /* more lines of the table, with the place of these bytes */
    const char *trailer; /* more entries */
    const char *end;     /* the last lines, with the place of the table */
    const char *line;    /* what ends a line of the table */
    int size;
} odd;

/* The update of a further seal, up to its table. */
static mf_update draft(mf_bytes pdf, mf_pdf *in)
{
    mf_update up;
    mf_seal_ask ask = kit_ask(theirs);
    ask.place = (mf_seal_place){0};
    assert_int_equal(mf_pdf_open(in, pdf.data, pdf.len, NULL), MF_OK);
    assert_int_equal(mf_update_build(&up, in, &ask, 1, NULL), MF_OK);
    return up;
}

/* The lines of the draft's table again, each ended as asked for. */
static void put_table(mf_buf *out, const char *table, const odd *it, size_t object_at)
{
    for (; strncmp(table, "trailer", 7) != 0; table++) {
        if (*table == '\r' && it->line != NULL)
            mf_buf_text(out, it->line), table++;
        else
            mf_buf_add(out, table, 1);
    }
    if (it->table != NULL) {
        mf_buf_text(out, "60 1\n");
        mf_buf_printf(out, it->table[0] == '@' ? "%010zu" : "9999999999", object_at);
        mf_buf_text(out, it->table + 1);
    }
}

static void sign(mf_update *up)
{
    char numbers[64];
    mf_bytes cms = {0};
    const unsigned char *file = (const unsigned char *)up->file.data;
    size_t at = kit_find((mf_bytes){(unsigned char *)up->file.data, up->file.len}, "/ByteRange [0 ",
                         up->range.gap_at - 100);
    up->range.end = up->file.len;
    snprintf(numbers, sizeof numbers, "%-10zu %-10zu %-10zu", up->range.gap_at, up->range.gap_end,
             up->range.end - up->range.gap_end);
    kit_put(up->file.data + at + 14, numbers, 32);
    mf_cms_spans spans = {file, file + up->range.gap_end, up->range.gap_at,
                          up->range.end - up->range.gap_end};
    assert_int_equal(mf_cms_sign(&cms, theirs, &spans, NULL), MF_OK);
    assert_int_equal(mf_update_fill(up, &cms, NULL), MF_OK);
    mf_bytes_free(&cms);
}

static mf_status judged(const odd *it, mf_seal_check *check)
{
    mf_pdf in;
    char line[128];
    mf_bytes pdf = sealed();
    mf_update up = draft(pdf, &in);
    size_t old =
        kit_find((mf_bytes){(unsigned char *)up.file.data, up.file.len}, "\nxref\n", pdf.len) + 1;
    char *table = strdup(up.file.data + old);
    assert_non_null(table);
    up.file.len = old;
    mf_buf_text(&up.file, it->object == NULL ? "" : it->object);
    size_t at = up.file.len;
    put_table(&up.file, table, it, old);
    mf_buf_printf(&up.file, "trailer\n<</Size %d/Root 1 0 R/Prev %zu%s%s>>\n",
                  it->size == 0 ? 99 : it->size, in.startxref,
                  it->trailer == NULL ? "/Info 5 0 R" : "", it->trailer == NULL ? "" : it->trailer);
    snprintf(line, sizeof line, it->end == NULL ? "startxref\n%zu\n%%%%EOF\n" : it->end, at);
    mf_buf_text(&up.file, line);
    sign(&up);
    mf_status status =
        mf_seal_verify(check, (const unsigned char *)up.file.data, up.file.len, NULL);
    free(table);
    mf_pdf_close(&in);
    mf_buf_free(&up.file);
    mf_bytes_free(&pdf);
    return status;
}

static void is_plain(const odd *it)
{
    mf_seal_check check;
    assert_int_equal(judged(it, &check), MF_OK);
    assert_int_equal(check.n, 2);
}

static void is_changed(const odd *it)
{
    mf_seal_check check;
    assert_int_equal(judged(it, &check), MF_NO);
    assert_int_equal(check.n, 2);
    assert_int_equal(check.seal[1].state, MF_SEAL_GOOD);
    assert_true(check.seal[1].changed);
    assert_false(check.seal[0].changed);
}

/* The frame of the tests below: nothing is odd, or nothing that another reader minds. */
static void plain(void **state)
{
    (void)state;
    is_plain(&(odd){.size = 0});
    is_plain(&(odd){.line = " \n"});
    is_plain(&(odd){.object = "60 0 obj\n(no objections to the trailer)\nendobj\n",
                    .table = "@ 00000 n\r\n"});
}

/* startxref written oddly: poppler 22.12, mupdf 1.21, Ghostscript 10.00 and pdf.js 3.11
 * then look through the bytes and show the page that no table names. */
static void no_table_names_it(void **state)
{
    (void)state;
    is_changed(&(odd){.object = "3 0 obj\n" OTHER_PAGE, .end = "startxref\n%%9\n%zu\n%%%%EOF\n"});
    is_changed(&(odd){.object = "3 0 obj\n" OTHER_PAGE});
    is_changed(&(odd){.object = "3 0 %x\nobj\n" OTHER_PAGE});
    is_changed(&(odd){.object = "60 0 obj\n(\n3 0 obj\n" OTHER_PAGE ")\nendobj\n",
                      .table = "@ 00000 n\r\n"});
    is_changed(&(odd){.object = "(trailer<</Size 9/Root 60 0 R>>)\n"});
}

/* ISO 32000-1, 7.5.5: the three last lines. PDFium takes the word before, as
 * "xstartxref" is none; mupdf looks into the last 1024 bytes. */
static void the_end_is_odd(void **state)
{
    (void)state;
    is_changed(&(odd){.end = "startxref\n9\n%%%%EOF\n%%xstartxref\n%zu\n%%%%EOF\n"});
    is_changed(&(odd){.end = "startxref\n+%zu\n%%%%EOF\n"});
    is_changed(&(odd){.end = "startxref\n%zu\n%%comment\n%%%%EOF\n"});
    is_changed(&(odd){.end = "startxref %zu\n%%%%EOF\n"});
}

/* ISO 32000-1, 7.5.4: twenty bytes. And an object that is not where the table says, or is
 * another one: mupdf 1.21 then looks through the bytes. */
static void the_table_is_odd(void **state)
{
    (void)state;
    is_changed(&(odd){.line = "\n"});
    is_changed(&(odd){.line = " %\r\n"});
    is_changed(&(odd){.table = "! 00000 n\r\n"});
    is_changed(&(odd){.object = "3 0 obj\n" OTHER_PAGE, .table = "@ 00000 n\r\n"});
    is_changed(&(odd){.object = "60 0 obj\n<</Type/ObjStm/N 1/First 4/Length 9>>stream\n"
                                "3 0 null \nendstream\nendobj\n",
                      .table = "@ 00000 n\r\n"});
}

/* ISO 32000-1, 7.6.1: encryption is of all strings and streams. 7.5.5: an object from
 * /Size on is missing. 14.3.3: the title is what /Info names. */
static void the_trailer_is_odd(void **state)
{
    (void)state;
    is_changed(&(odd){.trailer = "/Info 5 0 R/Encrypt<</Filter/Standard/V 1/R 2/P -4>>"});
    is_changed(&(odd){.trailer = "/Info 5 0 R", .size = 4});
    is_changed(&(odd){.trailer = "/Info 4 0 R"});
    is_changed(&(odd){.trailer = " "});
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain),
        cmocka_unit_test(no_table_names_it),
        cmocka_unit_test(the_end_is_odd),
        cmocka_unit_test(the_table_is_odd),
        cmocka_unit_test(the_trailer_is_odd),
    };
    return cmocka_run_group_tests(tests, two_keys_setup, two_keys_teardown);
}
