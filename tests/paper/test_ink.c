/* What a person sees. Extracted text is no proof of it, so pixels are compared
 * with those of programs that share no code with ours: hb-view (HarfBuzz and
 * cairo) for letters, a PDF written by hand for the marks. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"
#include "support/run.h"

#include "paper/mark.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FONT "/usr/share/fonts/truetype/liberation2/LiberationSans-Regular.ttf"

enum { DPI = 144, ROWS = 40 };

static int make_folder(void **state)
{
    static char folder[64];
    run_folder(folder);
    *state = folder;
    return 0;
}

static int remove_folder(void **state)
{
    run_remove(*state);
    return 0;
}

static mf_haru *open_page(void)
{
    mf_haru *haru = NULL;
    mf_err err = {0};
    if (mf_haru_open(&haru, NULL, "test", &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    mf_haru_add_page(haru);
    return haru;
}

static void save_page(mf_haru *haru, const char *folder, const char *name)
{
    mf_bytes out = {NULL, 0};
    mf_err err = {0};
    if (mf_haru_save(haru, &out, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    paper_write(folder, name, &out);
    mf_bytes_free(&out);
    mf_haru_close(haru);
}

/* The ink of a picture: its box, and how much of it lies in each of ROWS slices
 * from top to bottom, in thousandths of all. */
typedef struct ink {
    paper_box box;
    int share[ROWS];
} ink;

static ink ink_of(const char *folder, const char *pdf)
{
    paper_picture picture;
    paper_picture_of(&picture, folder, pdf, 1, DPI);
    ink seen = {.box = paper_ink(&picture)};
    long total = 0;
    long slice[ROWS] = {0};
    for (int y = 0; y < seen.box.h; y++)
        for (int x = 0; x < seen.box.w; x++) {
            long dark = 255 - picture.at[(seen.box.y + y) * picture.w + seen.box.x + x];
            slice[y * ROWS / seen.box.h] += dark;
            total += dark;
        }
    for (int i = 0; i < ROWS && total > 0; i++)
        seen.share[i] = (int)(slice[i] * 1000 / total);
    paper_picture_free(&picture);
    return seen;
}

/* Same size within two pixels, and the same ink at each height. */
static bool alike(const ink *a, const ink *b)
{
    if (a->box.w == 0 || abs(a->box.w - b->box.w) > 2 || abs(a->box.h - b->box.h) > 2)
        return false;
    int differ = 0;
    for (int i = 0; i < ROWS; i++)
        differ += abs(a->share[i] - b->share[i]);
    return differ < 120; /* of 2000 when nothing agrees */
}

static ink drawn_by_us(const char *folder, const char *letter)
{
    mf_haru *haru = open_page();
    mf_haru_text(haru, (mf_font){MF_FACE_REGULAR, 100}, MF_INK_BLACK, (mf_point){100, 300}, letter,
                 strlen(letter));
    save_page(haru, folder, "ours.pdf");
    return ink_of(folder, "ours.pdf");
}

static ink drawn_by_another(const char *folder, const char *letter)
{
    char command[256];
    snprintf(command, sizeof command,
             "LC_ALL=C.UTF-8 hb-view --font-file=%s --font-size=100 --margin=40 -O pdf -o "
             "other.pdf '%s'",
             FONT, letter);
    paper_shell(folder, command);
    return ink_of(folder, "other.pdf");
}

static const char *const letters[] = {"ấ", "ẫ", "ǘ", "ḗ", "Ñ", "ø", "Ẩ", "ữ", "ž", "Ж", "a"};

static void letters_keep_their_marks(void **state)
{
    const char *folder = *state;
    for (size_t i = 0; i < sizeof letters / sizeof letters[0]; i++) {
        ink ours = drawn_by_us(folder, letters[i]);
        ink other = drawn_by_another(folder, letters[i]);
        if (!alike(&ours, &other))
            fail_msg("%s is not drawn as another program draws it", letters[i]);
    }
}

/* The comparison must be able to fail: a letter against itself without marks. */
static void comparison_sees_a_lost_mark(void **state)
{
    static const struct {
        const char *marked, *bare;
    } rows[] = {{"ấ", "a"}, {"ấ", "â"}, {"ǘ", "ü"}, {"ḗ", "ē"}, {"Ñ", "N"}, {"ø", "o"}};
    const char *folder = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ink marked = drawn_by_us(folder, rows[i].marked);
        ink bare = drawn_by_another(folder, rows[i].bare);
        assert_false(alike(&marked, &bare));
    }
}

/* ---- marks ------------------------------------------------------------------- */

/* A PDF by hand: one content stream in the operators of ISO 32000-1, 8.5. The
 * mark lies in a square of 100 points at (100, 500), its paths as they should be. */
static void by_hand(const char *folder, const char *stream)
{
    char pdf[4096];
    int n = snprintf(pdf, sizeof pdf,
                     "%%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n"
                     "2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n"
                     "3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Contents 4 0 R>>"
                     "endobj\n4 0 obj<</Length %zu>>stream\n%s\nendstream endobj\n"
                     "trailer<</Root 1 0 R/Size 5>>\n%%%%EOF\n",
                     strlen(stream) + 1, stream);
    assert_true(n > 0 && (size_t)n < sizeof pdf);
    mf_bytes bytes = {(unsigned char *)pdf, (size_t)n};
    paper_write(folder, "hand.pdf", &bytes);
}

typedef struct mark_row {
    mf_mark mark;
    const char *name;
    const char *stream; /* written by hand from the description in mark.h */
} mark_row;

static const mark_row marks[] = {
    {MF_MARK_OPEN, "open box", "8 w 100 500 100 100 re S"},
    {MF_MARK_TICK, "tick", "8 w 100 500 100 100 re S 15 w 120 548 m 143 524 l 184 580 l S"},
    {MF_MARK_CROSS, "cross",
     "8 w 100 500 100 100 re B 1 G 16 w 122 578 m 178 522 l S 122 522 m 178 578 l S"},
    {MF_MARK_DASH, "dash", "8 w 100 500 100 100 re S 14 w 122 550 m 178 550 l S"},
    {MF_MARK_WARN, "triangle",
     "10 w 150 600 m 200 504 l 100 504 l s 12 w 150 566 m 150 536 l S "
     "1 J 13 w 150 521 m 150 521 l S"},
    {MF_MARK_FULL, "full disc", "1 J 100 w 150 550 m 150 550 l S"},
    {MF_MARK_RING, "ring", "1 J 100 w 150 550 m 150 550 l S 1 G 80 w 150 550 m 150 550 l S"},
    {MF_MARK_HALF, "half disc",
     "1 J 100 w 150 550 m 150 550 l S 1 g 1 G 80 w 150 550 m 150 550 l S "
     "q 100 500 50 100 re W n 0 G 90 w 150 550 m 150 550 l S Q"},
    {MF_MARK_BAR, "bar", "14 w 110 550 m 190 550 l S"},
};

static ink mark_by_us(const char *folder, mf_mark mark)
{
    mf_haru *haru = open_page();
    mf_mark_draw(haru, mark, (mf_point){100, 192}, 100); /* 792 - 600 */
    save_page(haru, folder, "mark.pdf");
    return ink_of(folder, "mark.pdf");
}

static void marks_are_drawn(void **state)
{
    const char *folder = *state;
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        ink ours = mark_by_us(folder, marks[i].mark);
        by_hand(folder, marks[i].stream);
        ink hand = ink_of(folder, "hand.pdf");
        if (!alike(&ours, &hand))
            fail_msg("the %s is not drawn as by hand: %d x %d against %d x %d", marks[i].name,
                     ours.box.w, ours.box.h, hand.box.w, hand.box.h);
        assert_in_range(ours.box.x - hand.box.x + 2, 0, 4);
        assert_in_range(ours.box.y - hand.box.y + 2, 0, 4);
    }
}

/* No mark may be taken for another. */
static void marks_differ(void **state)
{
    const char *folder = *state;
    enum { N = sizeof marks / sizeof marks[0] };
    ink seen[N];
    for (size_t i = 0; i < N; i++)
        seen[i] = mark_by_us(folder, marks[i].mark);
    for (size_t i = 0; i < N; i++)
        for (size_t k = i + 1; k < N; k++)
            if (alike(&seen[i], &seen[k]))
                fail_msg("the %s looks like the %s", marks[i].name, marks[k].name);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(letters_keep_their_marks),
        cmocka_unit_test(comparison_sees_a_lost_mark),
        cmocka_unit_test(marks_are_drawn),
        cmocka_unit_test(marks_differ),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
