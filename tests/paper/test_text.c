/* Text before it is drawn. Outside sources: Unicode Standard Annex 15 (NFC) for
 * the composed forms, the character tables of Unicode for what is what. All
 * names are constructed. */
#include "support/cmocka_all.h"

#include "paper/text.h"

#include <string.h>

typedef struct world {
    mf_haru *haru;
    mf_arena arena;
} world;

static int open_world(void **state)
{
    static world w;
    mf_err err = {0};
    w = (world){NULL, {NULL}};
    if (mf_haru_open(&w.haru, NULL, "test", &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    *state = &w;
    return 0;
}

static int close_world(void **state)
{
    world *w = *state;
    mf_haru_close(w->haru);
    mf_arena_free(&w->arena);
    return 0;
}

static void composes(void **state)
{
    static const struct {
        const char *given, *drawn;
    } rows[] = {
        {"plain", "plain"},
        {"N\xCC\x83", "\xC3\x91"},             /* N + U+0303 -> U+00D1 */
        {"a\xCC\x82\xCC\x81", "\xE1\xBA\xA5"}, /* a + U+0302 + U+0301 -> U+1EA5 */
        {"\xC3\xBC\xCC\x81", "\xC7\x98"},      /* U+00FC + U+0301 -> U+01D8 */
        {"e\xCC\x84\xCC\x81", "\xE1\xB8\x97"}, /* e + U+0304 + U+0301 -> U+1E17 */
        {"two\nlines", "two\nlines"},
        {"", ""},
    };
    world *w = *state;
    bool spelled = false;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(
            mf_text_ready(w->haru, &w->arena, MF_FACE_REGULAR, rows[i].given, "here", &spelled),
            rows[i].drawn);
    assert_false(spelled);
    assert_false(mf_haru_failed(w->haru));
}

/* What cannot be drawn rightly, or would not be seen, stands there as its number; one bracket
 * has one meaning. */
static void spells_out(void **state)
{
    static const struct {
        const char *text, *drawn;
    } rows[] = {
        {"\xE7\xAA\x93 W01", "[U+7A93] W01"},        /* a CJK letter */
        {"\xE2\x98\x91 done", "[U+2611] done"},      /* ballot box with check */
        {"good \xF0\x9F\x91\x8D", "good [U+1F44D]"}, /* above U+FFFF */
        {"\xD7\xA9\xD7\x9C", "[U+05E9][U+05DC]"},    /* Hebrew: in the font, but right to left */
        {"a\xE2\x80\xAE", "a[U+202E]"},              /* right-to-left override */
        {"a\xE2\x80\x8B"
         "b",
         "a[U+200B]b"}, /* zero width space */
        {"a\xC2\xAD"
         "b",
         "a[U+00AD]b"}, /* soft hyphen */
        {"\xEF\xBB\xBF"
         "a",
         "[U+FEFF]a"},                  /* byte order mark */
        {"a\xEF\xB8\x8F", "a[U+FE0F]"}, /* variation selector: a mark, unseen */
        {"a\xCD\x8F"
         "b",
         "a[U+034F]b"}, /* grapheme joiner: the same */
        {"a\xE2\x80\xA8"
         "b",
         "a[U+2028]b"},                               /* line separator */
        {"\xE7\xAA\x93\xCC\x81", "[U+7A93][U+0301]"}, /* a mark on what is spelled out */
        {"a\tb", "a[U+0009]b"},
        {"a\x7F", "a[U+007F]"},
        {"[U+1F44D]", "[U+005B]U+1F44D]"}, /* typed so */
        {"[\xF0\x9F\x91\x8D]", "[[U+1F44D]]"},
    };
    world *w = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bool spelled = false;
        assert_string_equal(
            mf_text_ready(w->haru, &w->arena, MF_FACE_REGULAR, rows[i].text, "here", &spelled),
            rows[i].drawn);
        assert_true(spelled);
    }
    bool spelled = false;
    assert_string_equal(
        mf_text_ready(w->haru, &w->arena, MF_FACE_REGULAR, "[1] U+ [u]", "here", &spelled),
        "[1] U+ [u]");
    assert_false(spelled);
    assert_false(mf_haru_failed(w->haru));
}

/* What is no text is refused, and where it stands is named. */
static void refuses(void **state)
{
    static const struct {
        const char *text, *named;
    } rows[] = {
        {"C3 28: \xC3\x28", "not UTF-8"}, /* a lead byte without its second */
        {"cut \xE1\xBA", "not UTF-8"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        void *fresh = NULL;
        mf_err err = {0};
        mf_bytes out = {NULL, 0};
        bool spelled = false;
        open_world(&fresh);
        world *w = fresh;
        mf_haru_add_page(w->haru);
        assert_string_equal(mf_text_ready(w->haru, &w->arena, MF_FACE_REGULAR, rows[i].text,
                                          "person rosa", &spelled),
                            "");
        assert_int_equal(mf_haru_save(w->haru, &out, &err), MF_INPUT);
        assert_null(out.data);
        assert_string_equal(err.where, "person rosa");
        assert_non_null(strstr(err.what, rows[i].named));
        assert_true(err.mend[0] != '\0');
        close_world(&fresh);
    }
}

/* Version 1 of the fonts holds one composite of composites, U+0400, which the PDF
 * library would draw without its accent. Counted from the font file. */
static void refuses_nested_glyph(void **state)
{
    (void)state;
    mf_haru *haru = NULL;
    mf_err err = {0};
    assert_int_equal(mf_haru_open(&haru, "/usr/share/fonts/truetype/liberation", "test", &err),
                     MF_OK);
    assert_false(mf_haru_has(haru, MF_FACE_REGULAR, 0x0400));
    assert_true(mf_haru_has(haru, MF_FACE_REGULAR, 0x0401));
    mf_haru_close(haru);
    assert_int_equal(mf_haru_open(&haru, NULL, "test", &err), MF_OK);
    assert_true(mf_haru_has(haru, MF_FACE_REGULAR, 0x0400));
    mf_haru_close(haru);
}

static void check_wrap(world *w, const char *text, float width, const char *const *want)
{
    mf_line lines[16];
    mf_font font = {MF_FACE_REGULAR, 10};
    size_t n = mf_text_wrap(w->haru, font, text, width, lines, 16);
    size_t i = 0;
    for (; want[i] != NULL; i++) {
        assert_true(i < n);
        assert_int_equal(lines[i].len, strlen(want[i]));
        assert_memory_equal(lines[i].text, want[i], lines[i].len);
        assert_true(mf_haru_width(w->haru, font, lines[i].text, lines[i].len) <= width);
    }
    assert_int_equal(i, n);
}

/* Widths of the face in thousandths: i 222, M 833, blank 278 (its hmtx table). At
 * ten points "iiii" is 8.88 wide, "MM" 16.66. */
static void wraps(void **state)
{
    world *w = *state;
    check_wrap(w, "iiii iiii", 20.6F, (const char *const[]){"iiii iiii", NULL});
    check_wrap(w, "iiii iiii", 20.4F, (const char *const[]){"iiii", "iiii", NULL});
    check_wrap(w, "MMMMM", 17, (const char *const[]){"MM", "MM", "M", NULL});
    check_wrap(w, "i MMMMM i", 17, (const char *const[]){"i", "MM", "MM", "M i", NULL});
    check_wrap(w, "i\n\ni", 17, (const char *const[]){"i", "", "i", NULL});
    check_wrap(w, "  i  ", 17, (const char *const[]){"i", NULL});
    check_wrap(w, "", 17, (const char *const[]){NULL});
    check_wrap(w, "   ", 17, (const char *const[]){NULL});
    /* A letter and a mark that has no composed form stay together: Q + U+0301. */
    check_wrap(w, "MQ\xCC\x81", 9, (const char *const[]){"M", "Q\xCC\x81", NULL});
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(composes, open_world, close_world),
        cmocka_unit_test_setup_teardown(spells_out, open_world, close_world),
        cmocka_unit_test(refuses),
        cmocka_unit_test(refuses_nested_glyph),
        cmocka_unit_test_setup_teardown(wraps, open_world, close_world),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
