/* What a paper says of itself to programs: PDF 1.7, XMP (ISO 16684-1), an id, an output intent;
 * read by pdfinfo, qpdf and an XML parser, which are not ours. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include "paper/haru.h"
#include "paper/pdf_icc.h"
#include "paper/pdf_meta.h"

#include <stdio.h>
#include <string.h>

static void page_of(const paper_world *w, const char *title, const char *name)
{
    mf_haru *haru = NULL;
    mf_bytes pdf = {0};
    mf_err err = {0};
    assert_int_equal(mf_haru_open(&haru, NULL, title, &err), MF_OK);
    mf_haru_language(haru, "en");
    mf_haru_add_page(haru);
    assert_int_equal(mf_haru_save(haru, &pdf, &err), MF_OK);
    paper_write(w->folder, name, &pdf);
    mf_bytes_free(&pdf);
    mf_haru_close(haru);
}

static const char *id_of(const paper_world *w, const char *name)
{
    char command[128];
    snprintf(command, sizeof command, "qpdf --show-object=trailer %s | grep -o 'ID.*]'", name);
    return paper_shell(w->folder, command);
}

static void says_version_and_metadata(void **state)
{
    const paper_world *w = *state;
    page_of(w, "A title & <more>", "meta.pdf");
    const char *info = paper_shell(w->folder, "pdfinfo meta.pdf");
    assert_non_null(strstr(info, "PDF version:     1.7"));
    assert_non_null(strstr(info, "Metadata Stream: yes"));
    assert_non_null(strstr(paper_shell(w->folder, "qpdf --check meta.pdf 2>&1"),
                           "No syntax or stream encoding errors"));
    assert_string_equal(
        paper_shell(w->folder,
                    "pdfinfo -meta meta.pdf > meta.xml; python3 -c \"import xml.dom.minidom as m; "
                    "d = m.parse('meta.xml'); print([n.firstChild.data for n in "
                    "d.getElementsByTagName('rdf:li')])\""),
        "['A title & <more>', 'en']\n");
}

static void the_same_paper_has_the_same_id(void **state)
{
    const paper_world *w = *state;
    char first[128];
    page_of(w, "one", "one.pdf");
    snprintf(first, sizeof first, "%s", id_of(w, "one.pdf"));
    assert_true(strlen(first) > 64);
    page_of(w, "one", "again.pdf");
    assert_string_equal(id_of(w, "again.pdf"), first);
    page_of(w, "two", "two.pdf");
    assert_string_not_equal(id_of(w, "two.pdf"), first);
}

/* ICC.1:2001-04: the size stands first, "acsp" at byte 36; no tag runs out of the profile. */
static void the_profile_is_whole(void **state)
{
    mf_buf out = {0};
    (void)state;
    mf_pdf_icc(&out);
    const unsigned char *at = (const unsigned char *)out.data;
    assert_int_equal((size_t)at[2] << 8 | at[3], out.len);
    assert_memory_equal(at + 36, "acsp", 4);
    assert_int_equal(at[131], 9);
    for (size_t i = 0; i < 9; i++) {
        const unsigned char *tag = at + 132 + i * 12;
        size_t from = (size_t)tag[6] << 8 | tag[7], len = (size_t)tag[10] << 8 | tag[11];
        assert_int_equal(from % 4, 0);
        assert_true(from >= 240 && from + len <= out.len);
    }
    mf_buf_free(&out);
}

/* Bytes that are no such PDF are refused and stay as they are. */
static void others_are_refused(void **state)
{
    static const char *const texts[] = {
        "", "%PDF-1.3\n",
        "%PDF-1.3\n1 0 obj\n<<\n>>\nendobj\nxref\n0 9\ntrailer\n<<\n/Root 1 0 R\n",
        "%PDF-1.3\n1 0 obj\n<<\n>>\nendobj\nxref\n0 1\n0000000000 65535 f\r\ntrailer\n<<\n/Root 2 "
        "0 R\n/Info 3 0 R\n/Size 1\n>>\n"};
    const mf_tags none = {0};
    const mf_pdf_meta meta = {"t", "en", &none, NULL};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        mf_err err = {0};
        char copy[256];
        snprintf(copy, sizeof copy, "%s", texts[i]);
        mf_bytes pdf = {(unsigned char *)copy, strlen(copy)};
        assert_int_equal(mf_pdf_meta_add(&pdf, &meta, &err), MF_SYSTEM);
        assert_string_equal(copy, texts[i]);
        assert_ptr_equal(pdf.data, copy);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_version_and_metadata),
        cmocka_unit_test(the_same_paper_has_the_same_id),
        cmocka_unit_test(the_profile_is_whole),
        cmocka_unit_test(others_are_refused),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
