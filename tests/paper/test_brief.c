/* What the record tells in short form is told whole: alike parts in one row, a ground once, an
 * entry by its number, names in place of ids; a fax keeps heads and groups legible. The job is
 * the small one of paper_job.h, constructed. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

static char *record(const paper_world *w, const mf_job *job, mf_lang lang)
{
    mf_paper_ask ask = paper_ask(job);
    ask.lang = lang;
    paper_record_to(w->folder, "brief.pdf", &ask);
    paper_shell(w->folder, "pdftotext -raw brief.pdf brief.txt");
    return paper_slurp(w->folder, "brief.txt");
}

static void says(const char *text, const char *words)
{
    if (strstr(text, words) == NULL)
        fail_msg("not \"%s\" in: %.2500s", words, text);
}

enum { UNTESTED = 240 };

static void add_untested(paper_job *made)
{
    for (int i = 0; i < UNTESTED; i++) {
        mf_component *part = paper_job_add(made, "component");
        part->id = paper_job_text(made, "attic.board-%d", i + 1);
        part->type = i % 2 == 0 ? MF_COMP_BASEBOARD : MF_COMP_WALL;
        part->room = "attic";
        part->substrate = MF_SUB_WOOD;
        part->affected = MF_YES;
    }
}

/* 240 parts of two kinds that nobody tested, beside three of the small job: each by its name, a row
 * for each kind, with their number; the ground of the others stands once. */
static void untested_parts_are_told_once(void **state)
{
    const paper_world *w = *state;
    paper_job made;
    paper_job_small(&made);
    add_untested(&made);
    char *text = record(w, &made.job, MF_LANG_EN);
    says(text, "Not tested: presumed to be lead-based paint (243)");
    char *from = strstr(text, "Not tested: presumed to be lead-based paint (243)");
    char *end = strstr(from, "XRF instruments");
    assert_non_null(end);
    *end = '\0';
    says(from, "baseboard, wood");
    says(from, "wall, wood");
    for (int i = 1; i <= UNTESTED; i++) /* a name may be parted where a line ends */
        if (i % 40 == 1)
            says(from, paper_job_text(&made, "attic.board-%d", i));
    assert_true(end - from < 9000);
    free(text);
    paper_job_free(&made);
}

static void a_ground_is_told_once(void **state)
{
    const paper_world *w = *state;
    char *text = record(w, &w->made.job, MF_LANG_EN);
    says(text, "Where no other basis stands below a component, it is this: LEAD, XRF readings");
    free(text);
}

/* Who directed most steps of a work area is said once above them; a step of another renovator's own
 * says so, or the line above it would be untrue. */
static void another_renovator_is_told(void **state)
{
    const paper_world *w = *state;
    paper_job made;
    paper_job_small(&made);
    mf_tick *own = (mf_tick *)(void *)&made.job.tick[0];
    own->person = own->renovator = "soren";
    static const char *const words[][2] = {
        [MF_LANG_EN] = {"Where no other renovator is named, ", ", as the renovator "},
        [MF_LANG_ES] = {"Donde no consta otro renovador, ", ", como renovador "}};
    for (int lang = MF_LANG_EN; lang <= MF_LANG_ES; lang++) {
        char *text = record(w, &made.job, (mf_lang)lang);
        for (char *at = text; (at = strchr(at, '\n')) != NULL;)
            *at = ' '; /* a cell's lines are one */
        says(text, words[lang][0]);
        says(text, words[lang][1]);
        free(text);
    }
    paper_job_free(&made);
}

/* Planned days are called so, and one that is not known is not made up. */
static void planned_days(void **state)
{
    const paper_world *w = *state;
    mf_job job = w->made.job;
    mf_house house = job.house[0];
    job.house = &house;
    char *text = record(w, &job, MF_LANG_EN);
    says(text, "Planned days 2026-09-14 to ");
    free(text);
    house.end = MF_DAY_NONE;
    text = record(w, &job, MF_LANG_EN);
    says(text, "begins 2026-09-14, end not given");
    free(text);
    text = record(w, &job, MF_LANG_ES);
    says(text, "empieza el 2026-09-14, fin no indicado");
    free(text);
}

/* What is planned is not said to be done, nor what is completed on a day to come. */
static void not_completed(void **state)
{
    const paper_world *w = *state;
    mf_job job = w->made.job;
    mf_completion later = {.src = job.house[0].src, .on = 200000};
    job.completion = &later;
    for (job.n_completion = 0; job.n_completion < 2; job.n_completion++) {
        mf_bytes pdf = {0};
        mf_err err = {0};
        mf_paper_ask ask = paper_ask(&job);
        ask.signer = NULL;
        assert_int_equal(mf_paper_summary(&pdf, &ask, &err), MF_OK);
        paper_write(w->folder, "summary.pdf", &pdf);
        mf_bytes_free(&pdf);
        const char *text = paper_shell(w->folder, "pdftotext summary.pdf -");
        says(text, "Planned days");
        assert_null(strstr(text, "Completed on"));
    }
}

/* The sign defines the work area, 40 CFR 745.85(a)(1): its place, or a line to write it on. */
static void the_sign_names_the_area(void **state)
{
    const paper_world *w = *state;
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(&w->made.job);
    ask.signer = NULL;
    assert_int_equal(mf_paper_blank(&pdf, MF_FORM_SIGN, "A1", &ask, &err), MF_OK);
    paper_write(w->folder, "sign.pdf", &pdf);
    mf_bytes_free(&pdf);
    const char *place = w->made.job.area[0].place;
    says(paper_shell(w->folder, "pdftotext -raw sign.pdf -"), "Work area: ");
    says(paper_shell(w->folder, "pdftotext -raw sign.pdf -"), place);
    ask.job = NULL;
    assert_int_equal(mf_paper_blank(&pdf, MF_FORM_SIGN, "", &ask, &err), MF_OK);
    paper_write(w->folder, "sign.pdf", &pdf);
    mf_bytes_free(&pdf);
    says(paper_shell(w->folder, "pdftotext -raw sign.pdf -"), "Work area:");
}

/* A table's heads and its groups stand on no grey ground. At a fax's 200 dots in one bit,
 * tesseract, which is not ours, reads them. */
static void heads_survive_a_fax(void **state)
{
    static const char *const heads[] = {"Component", "What it is", "W01, window"};
    const paper_world *w = *state;
    free(record(w, &w->made.job, MF_LANG_EN));
    paper_shell(w->folder,
                "n=$(for p in 3 4 5 6; do pdftotext -f $p -l $p brief.pdf - | grep -q "
                "'^W01, window' && echo $p; done | head -1); "
                "pdftoppm -r 200 -mono -f $n -l $n brief.pdf fax && mv fax*.pbm fax.pbm && "
                "tesseract fax.pbm read --dpi 200 --psm 6 2> /dev/null");
    char *text = paper_slurp(w->folder, "read.txt");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        says(text, heads[i]);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(untested_parts_are_told_once),
        cmocka_unit_test(a_ground_is_told_once),
        cmocka_unit_test(another_renovator_is_told),
        cmocka_unit_test(planned_days),
        cmocka_unit_test(not_completed),
        cmocka_unit_test(the_sign_names_the_area),
        cmocka_unit_test(heads_survive_a_fax),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
