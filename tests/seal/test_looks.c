/* Where a later seal is drawn: over words of the paper it is an attack, by whoever holds
 * any key. The papers are constructed; the rectangle is read as ISO 32000-1, 7.9.5 and
 * 12.5 have it, and poppler draws what a reader would see. */
#include "seal/cms.h"
#include "seal/two_keys.h"
#include "seal/update.h"

static mf_seal_place at(int page, float x, float y, float w, float h)
{
    return (mf_seal_place){page, x, y, w, h};
}

static mf_bytes sealed_at(mf_bytes pdf, const mf_key *key, mf_seal_place place)
{
    mf_bytes out = {0};
    mf_seal_ask ask = kit_ask(key);
    ask.place = place;
    ask.draw = true;
    assert_int_equal(mf_seal_sign(&out, pdf.data, pdf.len, &ask, NULL), MF_OK);
    mf_bytes_free(&pdf);
    return out;
}

static void lies(const mf_seal_place *look, mf_seal_place place)
{
    assert_int_equal(look->page, place.page);
    assert_float_equal(look->x, place.x, 0.01);
    assert_float_equal(look->y, place.y, 0.01);
    assert_float_equal(look->w, place.w, 0.01);
    assert_float_equal(look->h, place.h, 0.01);
}

static void where_it_was_put(void **state)
{
    (void)state;
    const mf_seal_place first = at(1, 72.5F, 72, 200, 40), none = {0},
                        far = at(3, -20.25F, 700, 10, 20.75F);
    mf_seal_check check;
    mf_bytes pdf = sealed_at(kit_paper(3), ours, first);
    pdf = sealed_at(sealed_at(pdf, theirs, none), theirs, far);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    lies(&check.seal[0].look, first);
    lies(&check.seal[1].look, none);
    lies(&check.seal[2].look, far);
    mf_bytes_free(&pdf);
}

/* ---- the judgment ---------------------------------------------------------------------- */

static void in_a_place_or_nowhere(void **state)
{
    static const struct {
        mf_seal_place first, second, third;
        const char *what; /* NULL: nothing is covered */
    } cases[] = {
        {{1, 5, 5, 9, 9}, {0}, {0}, NULL}, /* the first may be anywhere: it covers its own words */
        {{0}, {2, 50, 60, 100, 40}, {2, 50, 160, 100, 40}, NULL},
        {{0}, {2, 49.5F, 59.5F, 101, 41}, {0}, NULL}, /* by rounding */
        {{0}, {2, 60, 70, 10, 10}, {2, 80, 70, 10, 10}, NULL},
        {{0}, {1, 50, 60, 100, 40}, {0}, "seal 2 is drawn on page 1, where it may cover words"},
        {{0}, {2, 48, 60, 100, 40}, {0}, "seal 2 is drawn on page 2, where it may cover words"},
        {{0}, {2, 50, 58, 100, 40}, {0}, "seal 2 is drawn on page 2, where it may cover words"},
        {{0}, {2, 50, 60, 102, 40}, {0}, "seal 2 is drawn on page 2, where it may cover words"},
        {{0}, {2, 50, 60, 100, 42}, {0}, "seal 2 is drawn on page 2, where it may cover words"},
        {{0}, {2, 50, 60, 100, 140}, {0}, "seal 2 is drawn on page 2, where it may cover words"},
        {{0}, {0}, {3, 50, 60, 100, 40}, "seal 3 is drawn on page 3, where it may cover words"},
        {{2, 50, 60, 100, 40}, {2, 50, 60, 100, 40}, {0}, "seal 2 is drawn over seal 1"},
        {{0}, {2, 50, 60, 100, 40}, {2, 140, 90, 10, 10}, "seal 3 is drawn over seal 2"},
        {{2, 50, 60, 9, 9}, {2, 50, 160, 9, 9}, {2, 57, 67, 9, 9}, "seal 3 is drawn over seal 1"},
    };
    static const mf_seal_place kept[] = {{0}, {2, 50, 60, 100, 40}, {2, 50, 160, 100, 40}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        mf_err err = {0};
        mf_seal_check check = {.n = 3};
        check.seal[0].look = cases[i].first;
        check.seal[1].look = cases[i].second;
        check.seal[2].look = cases[i].third;
        mf_status status = mf_seal_looks(&check, kept, 3, &err);
        assert_int_equal(status, cases[i].what == NULL ? MF_OK : MF_NO);
        assert_int_equal(check.seal[1].may_cover || check.seal[2].may_cover, status != MF_OK);
        assert_false(check.seal[0].may_cover);
        if (cases[i].what != NULL)
            assert_string_equal(err.what, cases[i].what);
    }
}

static void without_places(void **state)
{
    (void)state;
    mf_err err = {0};
    mf_seal_check check = {.n = 2};
    check.seal[0].look = at(1, 1, 1, 9, 9);
    assert_int_equal(mf_seal_looks(&check, NULL, 0, &err), MF_OK);
    check.seal[1].look = at(1, 20, 20, 9, 9);
    assert_int_equal(mf_seal_looks(&check, NULL, 0, &err), MF_NO);
    assert_string_equal(err.what, "seal 2 is drawn on page 1, where it may cover words");
}

static void places_that_meet(void **state)
{
    (void)state;
    const mf_seal_place a = at(1, 10, 10, 10, 10), none = {0};
    const mf_seal_place apart[] = {at(2, 10, 10, 10, 10), at(1, 20, 10, 10, 10),
                                   at(1, 0, 10, 10, 10), at(1, 10, 20, 10, 10),
                                   at(1, 10, 0, 10, 10)};
    const mf_seal_place over[] = {at(1, 12, 12, 1, 4), at(1, 18, 18, 10, 10), at(1, 0, 0, 12, 12),
                                  at(1, 0, 0, 50, 50), a};
    for (size_t i = 0; i < 5; i++) {
        assert_false(mf_seal_places_meet(&a, &apart[i]));
        assert_true(mf_seal_places_meet(&a, &over[i]) && mf_seal_places_meet(&over[i], &a));
    }
    assert_false(mf_seal_places_meet(&none, &none));
}

/* ---- widgets written by somebody else -------------------------------------------------------- */

static void exchange(mf_update *up, size_t from, const char *words, const char *other)
{
    mf_bytes file = {(unsigned char *)up->file.data, up->file.len};
    char *at = up->file.data + kit_find(file, words, from);
    size_t len = strlen(words), shorter = strlen(other);
    assert_true(shorter <= len);
    kit_put(at, other, shorter);
    memset(at + shorter, ' ', len - shorter);
}

/* A further seal of which the update says something else, no longer, in one place
 * or in two. */
static void judged_by_two(mf_seal_check *check, const char *words, const char *other,
                          const char *more, const char *instead)
{
    mf_pdf in;
    mf_update up;
    mf_bytes cms = {0}, pdf = sealed();
    mf_seal_ask ask = kit_ask(theirs);
    assert_int_equal(mf_pdf_open(&in, pdf.data, pdf.len, NULL), MF_OK);
    assert_int_equal(mf_update_build(&up, &in, &ask, 1, NULL), MF_OK);
    const unsigned char *file = (const unsigned char *)up.file.data;
    exchange(&up, pdf.len, words, other);
    exchange(&up, pdf.len, more, instead);
    mf_cms_spans spans = {file, file + up.range.gap_end, up.range.gap_at,
                          up.range.end - up.range.gap_end};
    assert_int_equal(mf_cms_sign(&cms, theirs, &spans, NULL), MF_OK);
    assert_int_equal(mf_update_fill(&up, &cms, NULL), MF_OK);
    mf_seal_verify(check, file, up.file.len, NULL);
    assert_int_equal(check->n, 2);
    assert_int_equal(check->seal[1].state, MF_SEAL_GOOD);
    mf_bytes_free(&cms);
    mf_pdf_close(&in);
    mf_buf_free(&up.file);
    mf_bytes_free(&pdf);
}

static void judged(mf_seal_check *check, const char *words, const char *other)
{
    judged_by_two(check, words, other, other, other);
}

#define RECT "/Rect [72.00 72.00 272.00 112.00 ]"

static void read_as_it_is_drawn(void **state)
{
    static const struct {
        const char *rect;
        mf_seal_place look;
    } cases[] = {{RECT, {1, 72, 72, 200, 40}},
                 {"/Rect [272.00 112.00 72.00 72.00 ]", {1, 72, 72, 200, 40}},
                 {"/Rect [+7 -.5 00012.5 99.        ]", {1, 7, -0.5F, 5.5F, 99.5F}},
                 {"/Rect [1 1 1.123456 2.9999999999 ]", {1, 1, 1, 0.123F, 1.999F}},
                 {"/Rect [0 0 0.0 0                 ]", {0}},
                 {"/Rect [9 9 99 9                  ]", {0}}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        mf_seal_check check;
        judged(&check, RECT, cases[i].rect);
        assert_false(check.seal[1].changed);
        lies(&check.seal[1].look, cases[i].look);
    }
}

/* ---- what is drawn ------------------------------------------------------------------------ */

#define BOX   "/BBox [0.00 0.00 200.00 40.00 ]"
#define LOOK  "/Resources << >>\n/Length 0\n>>\nstream\n\nendstream"
#define EMPTY "/Rect [9 9 9 9]"

static void anywhere(const mf_seal_check *check)
{
    mf_err err = {0};
    mf_seal_check judged = *check;
    const mf_seal_place page = at(1, 0, 0, 1000, 1000);
    assert_false(check->seal[1].changed);
    lies(&check->seal[1].look, at(1, -14400, -14400, 28800, 28800));
    judged.seal[0].look = (mf_seal_place){0};
    assert_int_equal(mf_seal_looks(&judged, &page, 1, &err), MF_NO);
    assert_string_equal(err.what, "seal 2 is drawn on page 1, where it may cover words");
}

/* Each of these in the place of the words draws anywhere. */
static void each_anywhere(const char *words, const char *const *others, size_t n)
{
    mf_seal_check check;
    for (size_t i = 0; i < n; i++) {
        judged(&check, words, others[i]);
        anywhere(&check);
    }
}

/* Without a box readers cut nothing off; what they do with one of no size differs. */
static void cut_at_a_box(void **state)
{
    static const char *const boxes[] = {
        "/Bbox [0.00 0.00 200.00 40.00 ]", "/BBox [0.00 0.00 200.00       ]",
        "/BBox [0.00 0.00 200.00 1 1   ]", "/BBox 5 0 R                    ",
        "/BBox [0 0 0 0                ]", "/BBox [0 0 9 0                ]",
        "/BBox [0 0 0 9                ]", "/BBox [0 0 9 (9)              ]"};
    mf_seal_check check;
    (void)state;
    each_anywhere(BOX, boxes, sizeof boxes / sizeof boxes[0]);
    judged(&check, BOX, "/BBox [9 9 0 0                ]");
    lies(&check.seal[1].look, at(1, 72, 72, 200, 40));
}

/* In a rectangle without a size Ghostscript 10 draws over the whole page. */
static void drawn_in_no_rectangle(void **state)
{
    static const char *const looks[] = {
        "/Length 1>>\nstream\n\nendstream",        "/Length 0>>\nstream\ngendstream",
        "/Length 0>>\nstream\n endstream",         "/Length 0>>\nstream\n%\nendstream",
        "/Length 0/F(x)>>\nstream\n\nendstream",   "/Length (0)>>\nstream\n\nendstream",
        "/Length 0/Length 0>>stream\n\nendstream", "/L 0>>stream\n\nendstream"};
    mf_seal_check check;
    (void)state;
    for (size_t i = 0; i < sizeof looks / sizeof looks[0]; i++) {
        judged_by_two(&check, RECT, EMPTY, LOOK, looks[i]);
        anywhere(&check);
    }
    judged_by_two(&check, RECT, EMPTY, LOOK, "/Length 0>>\nstream\r\nendstream");
    lies(&check.seal[1].look, (mf_seal_place){0});
    judged_by_two(&check, RECT, EMPTY, "/AP <<", "/Ap <<"); /* none */
    lies(&check.seal[1].look, (mf_seal_place){0});
}

/* A drawing for each of several states is looked at like one for all. */
static void drawings_by_state(void **state)
{
    static const char words[] = "/P 3 0 R\n/V 11 0 R\n/AP << /N 10 0 R >>\n>>";
    static const char *const no[] = {
        "/P 3 0 R/V 11 0 R/AP<</N<</A<<>>>>>>>>", "/P 3 0 R/V 11 0 R/AP<</N<</A 11 0 R>>>>>>",
        "/P 3 0 R/V 11 0 R/AP<</D 10 0 R/R 1>>>>", "/P 3 0 R/V 11 0 R/AP<</N 9 0 R/R[]>>>>"};
    mf_seal_check check;
    (void)state;
    judged(&check, words, "/P 3 0 R/V 11 0 R/AP<</N<</A 10 0 R>>>>>>");
    lies(&check.seal[1].look, at(1, 72, 72, 200, 40));
    each_anywhere(words, no, sizeof no / sizeof no[0]);
}

/* So many points that no page has them: as far away as can be said. */
static void far_away(void **state)
{
    (void)state;
    mf_seal_check check;
    judged(&check, RECT, "/Rect [0 0 99999999999999999.9 9 ]");
    assert_false(check.seal[1].changed);
    assert_int_equal(check.seal[1].look.page, 1);
    assert_true(check.seal[1].look.w > 1e9F);
}

static void not_told(void **state)
{
    static const char *const rects[] = {
        "/Rect [72.00 72.00 272.00        ]", "/Rect [72.00 72.00 272.00 1 1    ]",
        "/Rect [72.00 72.00 272.00 (1)    ]", "/Rect 5 0 R                       ",
        "/Rect [1 2 9 3 0 R               ]", "/Rect [1 1 9 9]/Rect [1 1 2 2]    ",
        "/Recd [72.00 72.00 272.00 112.00 ]", "/Rect [1 1 9..0 9                ]"};
    static const char *const flags[] = {"/F 140", "/F 148", "/F 388", "/F 4.5", "/F -12", "/F [4]"};
    static const char *const fine[] = {"/F 4  ", "/F 0  ", "/G 12 ", "/F 230"};
    mf_seal_check check;
    (void)state;
    for (size_t i = 0; i < sizeof rects / sizeof rects[0]; i++) {
        judged(&check, RECT, rects[i]);
        assert_true(check.seal[1].changed);
    }
    for (size_t i = 0; i < sizeof flags / sizeof flags[0]; i++) {
        judged(&check, "/F 132", flags[i]);
        assert_true(check.seal[1].changed);
    }
    for (size_t i = 0; i < sizeof fine / sizeof fine[0]; i++) {
        judged(&check, "/F 132", fine[i]);
        assert_false(check.seal[1].changed);
    }
}

/* A page that is there twice: what is drawn on the one is on the other. */
static void on_two_pages(void **state)
{
    (void)state;
    static const char *const object[] = {CATALOG, "<</Type/Pages/Kids[3 0 R 3 0 R]/Count 2>>",
                                         "<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>"};
    mf_seal_check check;
    mf_bytes pdf = kit_seal(kit_objects(object, 3, "/Size 4/Root 1 0 R"), ours);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    pdf = kit_seal(pdf, theirs);
    assert_int_equal(kit_verify(&check, pdf), MF_NO);
    assert_true(check.seal[1].changed);
    mf_bytes_free(&pdf);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(where_it_was_put),    cmocka_unit_test(in_a_place_or_nowhere),
        cmocka_unit_test(without_places),      cmocka_unit_test(places_that_meet),
        cmocka_unit_test(read_as_it_is_drawn), cmocka_unit_test(far_away),
        cmocka_unit_test(cut_at_a_box),        cmocka_unit_test(drawn_in_no_rectangle),
        cmocka_unit_test(drawings_by_state),   cmocka_unit_test(not_told),
        cmocka_unit_test(on_two_pages),
    };
    return cmocka_run_group_tests(tests, two_keys_setup, two_keys_teardown);
}
