/* Letters as outlines against the same letters set by the PDF library with the font
 * embedded: poppler renders both, the pictures must be the same. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"
#include "support/run.h"

#include "base/mem.h"
#include "paper/haru.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Accents of one and two levels, descenders, a letter of several contours, digits. */
static const char *const texts[] = {"Nguyễn Văn Mẫu", "ấẫǘḗŽőŁ", "Firm & Co. 8%@gQ",
                                    "Ærø Çelik ñ ¿ß"};

enum { SIZE = 40, BASE = 400, NEAR = 2 };

static void set_by_library(const char *folder, const char *text, mf_face face)
{
    mf_haru *haru = NULL;
    mf_err err = {0};
    mf_bytes pdf = {0};
    assert_int_equal(mf_haru_open(&haru, NULL, "set", &err), MF_OK);
    mf_haru_add_page(haru);
    mf_haru_text(haru, (mf_font){face, SIZE}, MF_INK_BLACK, (mf_point){40, MF_PAPER_H - BASE}, text,
                 strlen(text));
    assert_int_equal(mf_haru_save(haru, &pdf, &err), MF_OK);
    paper_write(folder, "set.pdf", &pdf);
    mf_bytes_free(&pdf);
    mf_haru_close(haru);
}

/* A PDF without a cross-reference table: poppler finds its objects. */
static void draw_outline(const char *folder, const mf_bytes *ops)
{
    mf_buf pdf = {0};
    mf_bytes bytes = {0};
    mf_buf_text(&pdf, "%PDF-1.4\n1 0 obj <</Type /Catalog /Pages 2 0 R>> endobj\n"
                      "2 0 obj <</Type /Pages /Kids [3 0 R] /Count 1>> endobj\n"
                      "3 0 obj <</Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R "
                      ">> endobj\n");
    mf_buf_printf(&pdf, "4 0 obj <</Length %zu>> stream\n%d 0 0 %d 40 %d cm\n",
                  ops->len + strlen("40 0 0 40 40 400 cm\n"), SIZE, SIZE, BASE);
    mf_buf_add(&pdf, ops->data, ops->len);
    mf_buf_text(&pdf, "\nendstream endobj\ntrailer <</Root 1 0 R /Size 5>>\n%%EOF\n");
    assert_false(pdf.failed);
    mf_buf_take(&pdf, &bytes);
    paper_write(folder, "drawn.pdf", &bytes);
    mf_bytes_free(&bytes);
}

static bool ink_near(const paper_picture *in, int x, int y)
{
    for (int dy = -NEAR; dy <= NEAR; dy++)
        for (int dx = -NEAR; dx <= NEAR; dx++)
            if (x + dx >= 0 && x + dx < in->w && y + dy >= 0 && y + dy < in->h &&
                in->at[(y + dy) * in->w + x + dx] < 170)
                return true;
    return false;
}

/* Dark pixels of one picture that have no ink of the other near them. */
static int alone(const paper_picture *in, const paper_picture *other, int *ink)
{
    int n = 0;
    *ink = 0;
    for (int y = 0; y < in->h; y++)
        for (int x = 0; x < in->w; x++)
            if (in->at[y * in->w + x] < 110) {
                ++*ink;
                n += !ink_near(other, x, y);
            }
    return n;
}

/* But for a pixel or two: the library rounds each letter's width to a thousandth. */
static void same_pictures(const char *folder, const char *text)
{
    paper_picture set, drawn;
    int ink = 0, other = 0;
    paper_picture_of(&set, folder, "set.pdf", 1, 100);
    paper_picture_of(&drawn, folder, "drawn.pdf", 1, 100);
    assert_int_equal(set.w, drawn.w);
    int n = alone(&set, &drawn, &ink) + alone(&drawn, &set, &other);
    if (ink < 500 || other < 500 || n > 0)
        fail_msg("\"%s\": %d pixels of %d stand alone", text, n, ink);
    paper_picture_free(&set);
    paper_picture_free(&drawn);
}

static void same_as_the_font(void **state)
{
    char folder[64];
    mf_err err = {0};
    mf_paper_outlines *letters = NULL;
    (void)state;
    run_folder(folder);
    assert_int_equal(mf_paper_outlines_open(&letters, NULL, &err), MF_OK);
    for (size_t i = 0; i < 2 * sizeof texts / sizeof texts[0]; i++) {
        const char *text = texts[i / 2];
        mf_bytes ops = {0};
        float width = 0;
        assert_true(mf_paper_outline(letters, i % 2 == 1, text, &ops, &width));
        set_by_library(folder, text, i % 2 == 1 ? MF_FACE_BOLD : MF_FACE_REGULAR);
        draw_outline(folder, &ops);
        same_pictures(folder, text);
        mf_bytes_free(&ops);
    }
    mf_paper_outlines_free(letters);
    run_remove(folder);
}

/* Widths of Liberation Sans, which has those of the base fonts of PDF (Adobe's metrics
 * for Helvetica): A 667, i 222, bold W 944 thousandths. */
static void as_wide_as_the_metrics_say(void **state)
{
    mf_err err = {0};
    mf_paper_outlines *letters = NULL;
    mf_bytes ops = {0};
    float width = 0;
    (void)state;
    assert_int_equal(mf_paper_outlines_open(&letters, NULL, &err), MF_OK);
    assert_true(mf_paper_outline(letters, false, "Ai", &ops, &width));
    assert_float_equal(width, 0.889F, 0.001F);
    mf_bytes_free(&ops);
    assert_true(mf_paper_outline(letters, true, "W", &ops, &width));
    assert_float_equal(width, 0.944F, 0.001F);
    mf_bytes_free(&ops);
    /* A letter that is not there is a question mark; what is no UTF-8 is nothing. */
    float other = 0;
    assert_true(mf_paper_outline(letters, false, "\xE6\xBC\xA2", &ops, &width));
    mf_bytes_free(&ops);
    assert_true(mf_paper_outline(letters, false, "?", &ops, &other));
    mf_bytes_free(&ops);
    assert_float_equal(width, other, 0.0001F);
    assert_false(mf_paper_outline(letters, false, "\xC3(", &ops, &width));
    assert_null(ops.data);
    mf_paper_outlines_free(letters);
}

static void absent_fonts_are_named(void **state)
{
    mf_err err = {0};
    mf_paper_outlines *letters = NULL;
    (void)state;
    assert_int_equal(mf_paper_outlines_open(&letters, "/nowhere", &err), MF_SYSTEM);
    assert_string_equal(err.where, "/nowhere");
    assert_null(letters);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(same_as_the_font),
        cmocka_unit_test(as_wide_as_the_metrics_say),
        cmocka_unit_test(absent_fonts_are_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
