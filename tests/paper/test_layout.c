/* A constructed job of 60 openings, 400 readings and names of 120 characters:
 * nothing may leave the margins or lie on something else. Positions are those
 * that poppler's pdftotext -bbox reads from the page. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Letter is 612 x 792 points. Margins of 44 points at the sides; heads and feet
 * stay 28 points from the edges. */
enum { LEFT = 44, RIGHT = 568, TOP = 28, BOTTOM = 764, WORDS = 4000 };

/* A4 is 210 x 297 mm (ISO 216), 595.276 x 841.89 points of 1/72 inch. */
enum { A4_RIGHT = 551, A4_BOTTOM = 814 };

typedef struct word {
    double x0, y0, x1, y1;
    char text[40];
} word;

static int set_up(void **state)
{
    static paper_world w;
    run_folder(w.folder);
    paper_job_big(&w.made);
    mf_paper_ask ask = paper_ask(&w.made.job);
    paper_record_to(w.folder, "big.pdf", &ask);
    paper_shell(w.folder, "pdftotext -bbox big.pdf boxes");
    *state = &w;
    return 0;
}

static double number_after(const char *at, const char *name)
{
    const char *found = strstr(at, name);
    assert_non_null(found);
    return strtod(found + strlen(name), NULL);
}

/* One line of the boxes: <word xMin="..." ...>text</word>. */
static void read_word(word *out, const char *line)
{
    out->x0 = number_after(line, "xMin=\"");
    out->y0 = number_after(line, "yMin=\"");
    out->x1 = number_after(line, "xMax=\"");
    out->y1 = number_after(line, "yMax=\"");
    const char *text = strchr(line, '>') + 1;
    snprintf(out->text, sizeof out->text, "%.*s", (int)strcspn(text, "<"), text);
}

static void inside(const word *words, size_t n, int page, int right, int bottom)
{
    for (size_t i = 0; i < n; i++)
        if (words[i].x0 < LEFT - 0.5 || words[i].x1 > right + 0.5 || words[i].y0 < TOP ||
            words[i].y1 > bottom)
            fail_msg("page %d: \"%s\" leaves the margins (%.1f %.1f %.1f %.1f)", page,
                     words[i].text, words[i].x0, words[i].y0, words[i].x1, words[i].y1);
}

static void check_margins(const word *words, size_t n, int page)
{
    inside(words, n, page, RIGHT, BOTTOM);
}

static void check_margins_a4(const word *words, size_t n, int page)
{
    inside(words, n, page, A4_RIGHT, A4_BOTTOM);
}

/* Something stands in the part of A4 that Letter lacks at the foot. */
static void check_uses_a4(const word *words, size_t n, int page)
{
    bool below = false;
    for (size_t i = 0; i < n; i++)
        below = below || words[i].y0 > BOTTOM;
    if (!below)
        fail_msg("page %d ends where a Letter page does", page);
}

/* A font's box is taller than its letters: a tenth of a line may touch. */
static bool overlap(const word *a, const word *b)
{
    double line = (a->y1 - a->y0) * 0.1;
    return a->x0 < b->x1 - 0.5 && b->x0 < a->x1 - 0.5 && a->y0 < b->y1 - line &&
           b->y0 < a->y1 - line;
}

static void check_overlaps(const word *words, size_t n, int page)
{
    for (size_t i = 0; i < n; i++)
        for (size_t k = i + 1; k < n; k++)
            if (overlap(&words[i], &words[k]))
                fail_msg("page %d: \"%s\" lies on \"%s\"", page, words[i].text, words[k].text);
}

/* Calls check with the words of each page; returns the number of pages. */
static int walk(const char *folder, const char *boxes, void (*check)(const word *, size_t, int))
{
    static word words[WORDS];
    size_t n = 0;
    int page = 0;
    char path[128];
    char line[4096];
    snprintf(path, sizeof path, "%s/%s", folder, boxes);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file) != NULL) {
        if (strstr(line, "<page ") != NULL)
            n = 0;
        if (strstr(line, "</page>") != NULL)
            check(words, n, ++page);
        if (strstr(line, "<word ") == NULL)
            continue;
        assert_true(n < WORDS);
        read_word(&words[n++], line);
    }
    fclose(file);
    return page;
}

static void stays_in_the_margins(void **state)
{
    const paper_world *w = *state;
    assert_true(walk(w->folder, "boxes", check_margins) > 50);
}

static void nothing_lies_on_another(void **state)
{
    const paper_world *w = *state;
    assert_true(walk(w->folder, "boxes", check_overlaps) > 50);
}

/* The same record on A4, narrower and higher. */
static void a4_is_laid_out_too(void **state)
{
    paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    ask.size = MF_SIZE_A4;
    paper_record_to(w->folder, "a4.pdf", &ask);
    paper_shell(w->folder, "pdftotext -bbox a4.pdf a4");
    assert_true(walk(w->folder, "a4", check_margins_a4) > 50);
    assert_true(walk(w->folder, "a4", check_overlaps) > 50);
    assert_true(walk(w->folder, "a4", check_uses_a4) > 50);
}

enum { FEET = 740 }; /* below it stand the running feet */

static int pages_seen, pages_short;

/* How far down the words of the body reach: past the middle of the sheet, 396 points. */
static void count_short(const word *words, size_t n, int page)
{
    double low = 0;
    (void)page;
    for (size_t i = 0; i < n; i++)
        if (words[i].y1 < FEET && words[i].y1 > low)
            low = words[i].y1;
    pages_seen++;
    pages_short = low < 396 ? pages_seen : pages_short; /* the last one that is */
}

/* Only the last page may be less than half full: what is long goes on over pages. */
static void pages_are_filled(void **state)
{
    const paper_world *w = *state;
    pages_seen = pages_short = 0;
    walk(w->folder, "boxes", count_short);
    if (pages_short != 0 && pages_short != pages_seen)
        fail_msg("page %d of %d is not half full", pages_short, pages_seen);
}

/* Twelve windows, most of them close to one another on one wall, on two stories. */
static void many_windows(paper_job *made)
{
    paper_job_small(made);
    for (int i = 0; i < 12; i++) {
        mf_opening *opening = paper_job_add(made, "opening");
        opening->id = paper_job_text(made, "N%02d", i + 1);
        opening->kind = MF_OPENING_WINDOW;
        opening->room = i % 2 == 0 ? "parlor" : "pantry";
        opening->elevation = i < 9 ? "north" : "east";
        opening->storey = 1 + i % 2;
        opening->width_in = 18;
        opening->height_in = 40;
    }
    for (size_t i = 0; i < made->job.n_area; i++) {
        mf_area *area = (mf_area *)(size_t)&made->job.area[i];
        area->openings = "N01,N02,N03,N04,N05,N06,N07,N08,N09,N10,N11,N12";
        area->length_ft_100 = 1100;
        area->width_ft_100 = 1800;
    }
}

/* Each number of an opening stands once on the plan inside, by its story, and once on the
 * wall outside; none lies on another, and none is cut. */
static void numbers_of_a_plan(void **state)
{
    const paper_world *w = *state;
    static paper_job made;
    mf_bytes pdf = {0};
    mf_err err = {0};
    many_windows(&made);
    mf_paper_ask ask = paper_ask(&made.job);
    ask.signer = NULL;
    assert_int_equal(mf_paper_blank(&pdf, MF_FORM_CREW_PLAN, "", &ask, &err), MF_OK);
    paper_write(w->folder, "plan.pdf", &pdf);
    mf_bytes_free(&pdf);
    paper_shell(w->folder, "pdftotext -bbox plan.pdf plan");
    assert_true(walk(w->folder, "plan", check_overlaps) >= 2);
    assert_true(walk(w->folder, "plan", check_margins) >= 2);
    for (int i = 1; i <= 12; i++) /* one in the table of openings, two on plans */
        assert_string_equal(
            paper_shell(w->folder, paper_job_text(&made, "grep -cE '>N%02d,?</word>' plan", i)),
            "3\n");
    assert_string_equal(paper_shell(w->folder, "pdftotext plan.pdf - | grep -c '^Story [12]$'"),
                        "2\n");
    assert_string_equal(
        paper_shell(w->folder, "pdftotext plan.pdf - | grep -c '^Schematic: ' || true"),
        "0\n"); /* a story has one of the two rooms each */
    paper_job_free(&made);
}

/* The words of a row stand on one line, whatever their size: of the readings, number, name
 * and value (7.5 and 8.5 points) end at baselines that differ by less than 0.3 points. The box
 * of a word ends 0.212 of its size below the baseline, the descent of the font. */
static void baselines(const word *words, size_t n, int page)
{
    (void)page;
    for (size_t i = 0; i + 2 < n; i++) {
        if (strncmp(words[i + 1].text, "W", 1) != 0 || strchr(words[i + 1].text, '.') == NULL ||
            strchr(words[i].text, ':') == NULL)
            continue; /* not a time before a component */
        double a = words[i].y1 - (words[i].y1 - words[i].y0) * 0.19;
        double b = words[i + 1].y1 - (words[i + 1].y1 - words[i + 1].y0) * 0.19;
        if (a - b > 5 || b - a > 5)
            continue; /* the next row's */
        if (a - b > 0.4 || b - a > 0.4)
            fail_msg("\"%s\" and \"%s\" do not stand on one line", words[i].text,
                     words[i + 1].text);
    }
}

static void rows_have_one_baseline(void **state)
{
    const paper_world *w = *state;
    assert_true(walk(w->folder, "boxes", baselines) > 10);
}

/* The check above must be able to fail. */
static void overlap_is_seen(void **state)
{
    (void)state;
    const word a = {100, 100, 140, 110, "a"};
    const word beside = {141, 100, 150, 110, "b"};
    const word below = {100, 110, 140, 120, "c"};
    const word on = {130, 104, 150, 114, "d"};
    assert_false(overlap(&a, &beside));
    assert_false(overlap(&a, &below));
    assert_true(overlap(&a, &on));
    assert_true(overlap(&on, &a));
}

/* From the page of the first reading to that of the last, each has the heads. */
static void repeats_the_heads(void **state)
{
    paper_world *w = *state;
    paper_shell(w->folder, "pdftotext big.pdf text");
    char *text = paper_slurp(w->folder, "text");
    bool inside = false;
    bool last = false;
    int pages = 0;
    for (char *page = text, *end; !last && (end = strchr(page, '\f')) != NULL; page = end + 1) {
        *end = '\0';
        inside = inside || strstr(page, "XRF readings, in mg/cm²") != NULL;
        last = strstr(page, "No test kit was logged") != NULL;
        if (!inside || last)
            continue;
        assert_non_null(strstr(page, "Substrate,"));
        pages++;
    }
    assert_true(last);
    assert_true(pages > 3);
    free(text);
}

/* The list of an area names it on each page: its heading may stand overleaf. */
static void a_list_names_its_area(void **state)
{
    paper_world *w = *state;
    paper_shell(w->folder, "pdftotext big.pdf text");
    assert_string_equal(paper_shell(w->folder, "grep -c '^Step$' text || true"), "0\n");
    assert_string_equal(
        paper_shell(w->folder, "grep -oE '^A[12]: Step$' text | sort -u | tr '\\n' ' '"),
        "A1: Step A2: Step ");
}

/* All readings are there: each number of the instrument, 1 to 400. */
static void shows_every_reading(void **state)
{
    paper_world *w = *state;
    paper_shell(w->folder, "pdftotext -layout big.pdf text");
    assert_string_equal(
        paper_shell(w->folder, "grep -oE '(^| )[0-9]{1,3} +[0-9]{2}:[0-9]{2} ' text | wc -l"),
        "400\n");
}

/* A row that is taller than a page goes on over pages and loses nothing. */
static void parts_a_row_taller_than_a_page(void **state)
{
    paper_world *w = *state;
    static char topics[12000];
    char topic[16];
    for (int i = 0; i < 1500; i++) {
        snprintf(topic, sizeof topic, "t%05d ", i);
        memcpy(topics + (size_t)i * 7, topic, 7);
    }
    paper_job made;
    paper_job_small(&made);
    ((mf_training *)(size_t)made.job.training)->topics = topics;
    mf_paper_ask ask = paper_ask(&made.job);
    paper_record_to(w->folder, "tall.pdf", &ask);
    paper_job_free(&made);
    assert_string_equal(
        paper_shell(w->folder, "pdftotext tall.pdf - | grep -oE 't[0-9]{5}' | sort -u | wc -l"),
        "1500\n");
    paper_shell(w->folder, "pdftotext -bbox tall.pdf tall");
    assert_true(walk(w->folder, "tall", check_margins) > 5);
    assert_true(walk(w->folder, "tall", check_overlaps) > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stays_in_the_margins),
        cmocka_unit_test(nothing_lies_on_another),
        cmocka_unit_test(pages_are_filled),
        cmocka_unit_test(a4_is_laid_out_too),
        cmocka_unit_test(overlap_is_seen),
        cmocka_unit_test(rows_have_one_baseline),
        cmocka_unit_test(numbers_of_a_plan),
        cmocka_unit_test(repeats_the_heads),
        cmocka_unit_test(a_list_names_its_area),
        cmocka_unit_test(shows_every_reading),
        cmocka_unit_test(parts_a_row_taller_than_a_page),
    };
    return cmocka_run_group_tests(tests, set_up, paper_world_end);
}
