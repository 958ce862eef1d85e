/* Papers for the clipboard and the summary: what each must hold by 40 CFR 745.84,
 * 745.85(b), 745.86(c)-(d) and 745.90(b), looked at with poppler and zbarimg. Jobs
 * are invented. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"
#include "support/paper_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Draws a form and returns its text, which the caller frees. */
static char *drawn(const paper_world *w, mf_paper_form form, const char *area, const mf_job *job,
                   mf_lang lang)
{
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(job);
    ask.signer = NULL;
    ask.lang = lang;
    ask.size = w->size;
    if (mf_paper_blank(&pdf, form, area, &ask, &err) != MF_OK)
        fail_msg("%s: %s, %s", mf_paper_form_name(form), err.where, err.what);
    paper_write(w->folder, "form.pdf", &pdf);
    mf_bytes_free(&pdf);
    paper_shell(w->folder, "pdftotext -layout form.pdf form.txt");
    return paper_slurp(w->folder, "form.txt");
}

static void names_and_back(void **state)
{
    (void)state;
    for (int i = 0; i < MF_FORM_COUNT; i++)
        assert_int_equal(mf_paper_form_named(mf_paper_form_name((mf_paper_form)i)), i);
    assert_int_equal(mf_paper_form_named("no such"), MF_FORM_COUNT);
    assert_null(mf_paper_form_name(MF_FORM_COUNT));
}

static void sizes_and_back(void **state)
{
    (void)state;
    assert_int_equal(mf_paper_size_named("letter"), MF_SIZE_LETTER);
    assert_int_equal(mf_paper_size_named("a4"), MF_SIZE_A4);
    assert_int_equal(mf_paper_size_named("A4"), MF_SIZE_COUNT);
    assert_string_equal(mf_paper_size_name(MF_SIZE_A4), "a4");
    assert_null(mf_paper_size_name(MF_SIZE_COUNT));
}

/* Every blank one but the containment list fits on one sheet, in both languages,
 * and is a sound PDF in the language it says. */
static void fit_a_sheet(const paper_world *w)
{
    for (int form = MF_FORM_VERIFICATION; form < MF_FORM_COUNT; form++)
        for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
            free(drawn(w, (mf_paper_form)form, "", NULL, (mf_lang)lang));
            const char *pages =
                paper_shell(w->folder, "pdfinfo form.pdf | grep -c 'Pages: *1$'|| true");
            if (strcmp(pages, "1\n") != 0)
                fail_msg("%s takes more than one sheet", mf_paper_form_name((mf_paper_form)form));
            assert_non_null(strstr(paper_shell(w->folder, "qpdf --check form.pdf 2>&1"),
                                   "No syntax or stream encoding errors"));
            assert_string_equal(paper_shell(w->folder, lang == MF_LANG_ES
                                                           ? "grep -ac '/Lang (es)' form.pdf"
                                                           : "grep -ac '/Lang (en)' form.pdf"),
                                "1\n");
        }
}

static void blank_ones_fit_a_sheet(void **state)
{
    paper_world *w = *state;
    for (int size = 0; size < MF_SIZE_COUNT; size++) {
        w->size = (mf_paper_size)size;
        fit_a_sheet(w);
    }
    w->size = MF_SIZE_LETTER;
}

typedef struct holds_case {
    mf_paper_form form;
    const char *parts[6];
} holds_case;

/* 745.84(a)(1)(i) receipt; (a)(2)(ii) self-certification; 745.90(b)(2) training;
 * 745.85(b) cloths, sections of at most 40 sq ft; 745.82(a) who may test. */
static const holds_case holds[] = {
    {MF_FORM_ACKNOWLEDGEMENT,
     {"I have it", "before any work started", "Address of the home", "language of my contract",
      "signature by hand", "Date"}},
    {MF_FORM_SELF_CERTIFICATION,
     {"chose not to sign", "no adult came", "How and where", "Names of those",
      "The pamphlet stayed at the home", "Delivered on"}},
    {MF_FORM_TRAINING, {"Worker", "745.90(b)(2)", "Waste", "Cleaning", "Initials", "who trained"}},
    {MF_FORM_VERIFICATION,
     {"Wet cloth 1", "Wet cloths used in all", "fresh fold", "40 sq ft", "60 minutes", "darker"}},
    {MF_FORM_TEST_LOG,
     {"serial number", "maker, model, lot", "Certificate number", "Component",
      "Reference film before", "745.82(a)"}},
    {MF_FORM_SIGN, {"WARNING", "LEAD", "KEEP OUT", "NO EATING", "745.85(a)(1)", "harms"}},
    {MF_FORM_CREW_PLAN, {"Opening", "LEAD in", "Presumed in", "Sheeted", "Cleaned", "Openings"}},
};

static void hold_what_the_rule_asks(void **state)
{
    const paper_world *w = *state;
    for (size_t i = 0; i < sizeof holds / sizeof holds[0]; i++) {
        char *text = drawn(w, holds[i].form, "", NULL, MF_LANG_EN);
        for (size_t k = 0; k < 6; k++)
            if (strstr(text, holds[i].parts[k]) == NULL)
                fail_msg("%s lacks \"%s\"", mf_paper_form_name(holds[i].form), holds[i].parts[k]);
        free(text);
    }
}

/* The code is read by zbarimg, which is not ours. */
static void filled_in_ones_carry_a_code(void **state)
{
    const paper_world *w = *state;
    char *text = drawn(w, MF_FORM_VERIFICATION, "A1", &w->made.job, MF_LANG_EN);
    assert_non_null(strstr(text, "J-1926"));
    assert_non_null(strstr(text, "A1, dining room"));
    free(text);
    assert_string_equal(
        paper_shell(w->folder,
                    "pdftoppm -r 150 -f 1 -l 1 -png form.pdf code && zbarimg -q code*.png"),
        "QR-Code:mistfold job=J-1926 paper=verification area=A1\n");
}

static void an_unknown_area_is_refused(void **state)
{
    paper_world *w = *state;
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(&w->made.job);
    assert_int_equal(mf_paper_blank(&pdf, MF_FORM_VERIFICATION, "A9", &ask, &err), MF_INPUT);
    assert_non_null(strstr(err.what, "A9"));
    assert_null(pdf.data);
}

/* The heights of letters a person sees, from the picture of the page: at least four
 * rows of text are taller than half an inch (common practice: an inch for 10 ft is
 * comfortable, a half can be read). */
static void the_sign_is_read_from_ten_feet(void **state)
{
    const paper_world *w = *state;
    paper_picture page;
    free(drawn(w, MF_FORM_SIGN, "", NULL, MF_LANG_EN));
    paper_picture_of(&page, w->folder, "form.pdf", 1, 100);
    int rows = 0;
    int run = 0;
    for (int y = 0; y < page.h; y++) {
        int edges = 0;
        for (int x = 80; x < page.w - 80; x++) /* letters make many edges, a frame none */
            edges += (page.at[y * page.w + x] < 128) != (page.at[y * page.w + x - 1] < 128);
        run = edges >= 4 ? run + 1 : 0;
        rows += run == 50; /* half an inch at 100 dpi */
    }
    paper_picture_free(&page);
    assert_in_range(rows, 4, 8);
}

/* 24 CFR 35.1345(b)(2): the words of 29 CFR 1926.62(m)(1) on the sign of an assisted job, in
 * English whatever the paper; the Spanish beside it says that it is ours. */
static void the_sign_of_assisted_housing(void **state)
{
    static const char *const words[] = {"DANGER",
                                        "LEAD WORK AREA",
                                        "MAY DAMAGE FERTILITY",
                                        "OR THE UNBORN CHILD",
                                        "CAUSES DAMAGE TO THE",
                                        "CENTRAL NERVOUS SYSTEM",
                                        "DO NOT EAT, DRINK",
                                        "OR SMOKE IN THIS AREA",
                                        "PUEDE DA",
                                        "35.1345(b)(2)"};
    paper_world *w = *state;
    mf_house house = w->made.job.house[0];
    mf_job job = w->made.job;
    job.house = &house;
    house.assisted = MF_YES;
    house.elder_or_disabled = house.zero_bedroom = MF_NOT;
    for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
        char *text = drawn(w, MF_FORM_SIGN, "", &job, (mf_lang)lang);
        for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
            if (strstr(text, words[i]) == NULL)
                fail_msg("the sign lacks \"%s\": %s", words[i], text);
        assert_non_null(strstr(text, lang == MF_LANG_EN ? "our own" : "nuestra"));
        assert_null(strstr(text, "KEEP OUT"));
        free(text);
    }
    house.assisted = MF_NOT;
    char *text = drawn(w, MF_FORM_SIGN, "", &job, MF_LANG_EN);
    assert_null(strstr(text, "DANGER"));
    free(text);
}

/* Two kitchens of one building are told apart on the clipboard as on the record. */
static void the_head_names_the_unit(void **state)
{
    paper_world *w = *state;
    mf_job job = w->made.job;
    mf_area area[8];
    assert_in_range(job.n_area, 1, 8);
    memcpy(area, job.area, job.n_area * sizeof area[0]);
    area[0].unit = "2B";
    job.area = area;
    char *text = drawn(w, MF_FORM_VERIFICATION, area[0].id, &job, MF_LANG_EN);
    assert_non_null(strstr(text, "unit 2B"));
    free(text);
}

/* 745.86(c)(3): kit data and the work of (b)(6); (d): dust samples. */
static void the_summary_tells_all(void **state)
{
    static const char *const parts[] = {"What was tested",
                                        "A meter read the paint",
                                        "What was found",
                                        "Lead was found in",
                                        "What was done",
                                        "everyone on the crew",
                                        "Signs told people",
                                        "trash was bagged",
                                        "How the cleaning was checked",
                                        "went to a lab",
                                        "What to watch for",
                                        "Where to ask",
                                        "1-800-424-5323",
                                        "745.86(c)",
                                        "Date"};
    paper_world *w = *state;
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(&w->made.job);
    assert_int_equal(mf_paper_summary(&pdf, &ask, &err), MF_OK);
    paper_write(w->folder, "summary.pdf", &pdf);
    mf_bytes_free(&pdf);
    paper_shell(w->folder, "pdftotext summary.pdf summary.txt");
    char *text = paper_slurp(w->folder, "summary.txt");
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strstr(text, parts[i]) == NULL)
            fail_msg("the summary lacks \"%s\"", parts[i]);
    free(text);
    assert_string_equal(paper_shell(w->folder, "pdfinfo summary.pdf | grep -c 'Pages: *2$'"),
                        "1\n");
}

/* An owner who lets it does not live there, and the one paper is for him and the tenant. */
static void a_home_is_nobodys_in_particular(void **state)
{
    const paper_world *w = *state;
    for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
        mf_bytes pdf = {0};
        mf_err err = {0};
        mf_paper_ask ask = paper_ask(&w->made.job);
        ask.lang = (mf_lang)lang;
        assert_int_equal(mf_paper_summary(&pdf, &ask, &err), MF_OK);
        paper_write(w->folder, "summary.pdf", &pdf);
        mf_bytes_free(&pdf);
        const char *text = paper_shell(w->folder, "pdftotext summary.pdf -");
        assert_non_null(strstr(text, lang == MF_LANG_ES ? "Qué se hizo en esta casa"
                                                        : "What was done in this home"));
        assert_null(strstr(text, lang == MF_LANG_ES ? "su casa" : "your home"));
    }
}

/* 745.83: a child-occupied facility is a building, no house. */
static void the_sheets_of_a_facility(void **state)
{
    static const mf_paper_form forms[] = {MF_FORM_CREW_PLAN, MF_FORM_CONTAINMENT,
                                          MF_FORM_VERIFICATION, MF_FORM_TRAINING};
    static fixture fx;
    fx_facility(&fx);
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
        for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
            char *text = drawn(*state, forms[i], "", &fx.job, (mf_lang)lang);
            const bool es = lang == MF_LANG_ES;
            if (strstr(text, es ? "cuarto o lado del edificio" : "side of the building") == NULL ||
                strstr(text, es ? " casa" : " house") != NULL)
                fail_msg("%s: %s", mf_paper_form_name(forms[i]), text);
            free(text);
        }
}

/* ---- reading level ---------------------------------------------------------------- */

static bool vowel(char c)
{
    return c != '\0' && strchr("aeiouyAEIOUY", c) != NULL;
}

/* Groups of vowels, a silent e at the end left out: a guide, as all such counts. */
static int syllables(const char *word, size_t len)
{
    int n = 0;
    for (size_t i = 0; i < len; i++)
        n += vowel(word[i]) && (i == 0 || !vowel(word[i - 1]));
    if (len > 2 && word[len - 1] == 'e' && !vowel(word[len - 2]) && n > 1)
        n--;
    return n == 0 ? 1 : n;
}

/* The Flesch-Kincaid grade of a text: 0.39 words per sentence + 11.8 syllables per
 * word - 15.59 (Kincaid and others, 1975). */
static double grade(const char *text)
{
    double words = 0;
    double sentences = 0;
    double parts = 0;
    for (const char *at = text; *at != '\0';) {
        size_t len = strcspn(at, " ");
        if (strcspn(at, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") < len) {
            size_t bare = len;
            while (bare > 0 && strchr(".,:;()", at[bare - 1]) != NULL)
                bare--;
            words++;
            parts += syllables(at, bare);
            sentences += at[len - 1] == '.' || at[len - 1] == ':';
        }
        at += len + (at[len] == ' ');
    }
    return 0.39 * words / (sentences == 0 ? 1 : sentences) + 11.8 * parts / words - 15.59;
}

/* The sentences of the summary together read at grade school, 8 or lower; a clause
 * of the rule itself does not: the measure can fail. */
static void the_summary_is_plain(void **state)
{
    static const char *const ids[] = {"lead-in",         "xrf",
                                      "no-test",         "found-presumed",
                                      "trained",         "signs",
                                      "contained",       "methods",
                                      "waste",           "cleaned",
                                      "area-open",       "cleaned-outside",
                                      "trained-not",     "signs-not",
                                      "waste-not",       "contained-not",
                                      "methods-not",     "cleaned-not",
                                      "wiped",           "area-cleared",
                                      "wiped-dry",       "wiped-else",
                                      "dust-report",     "cleaned-outside-not",
                                      "trained-waived",  "signs-waived",
                                      "no-sheet",        "contained-waived",
                                      "methods-refused", "methods-unsaid",
                                      "watch-left",      "watch-chips",
                                      "watch-children",  "watch-work",
                                      "limits"};
    static char all[8192];
    (void)state;
    all[0] = '\0';
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++) {
        char id[64];
        size_t used = strlen(all);
        snprintf(id, sizeof id, "summary.%s", ids[i]);
        const char *words = mf_words2(MF_LANG_EN, "paper", id);
        assert_non_null(words);
        snprintf(all + used, sizeof all - used, "%s ", words);
    }
    double own = grade(all);
    if (own > 6.0)
        fail_msg("grade %.1f", own);
    assert_true(grade("Within the containment established pursuant to applicable regulatory "
                      "provisions, residual particulate contamination necessitates additional "
                      "decontamination.") > 12);
}

/* A place that wants openings closed within 30 ft (constructed; 745.85(a)(2)(ii)(A) says
 * 20): the words of the step say 20, so the list and the record say what holds there. */
static void a_stricter_place_stands_beside_the_words(void **state)
{
    const paper_world *w = *state;
    static fixture fx;
    fx_good(&fx);
    char *text = drawn(w, MF_FORM_CONTAINMENT, "A2", &fx.job, MF_LANG_EN);
    assert_null(strstr(text, "stricter"));
    free(text);
    fx_add_local(&fx, MF_LIMIT_EXTERIOR_OPENINGS, MF_AS_FEDERAL, "30");
    text = drawn(w, MF_FORM_CONTAINMENT, "A2", &fx.job, MF_LANG_EN);
    assert_non_null(strstr(text, "Here: 30 ft"));
    free(text);
    text = drawn(w, MF_FORM_CONTAINMENT, "A1", &fx.job, MF_LANG_EN); /* inside none says 20 ft */
    assert_null(strstr(text, "Here:"));
    free(text);
    fx_add_local(&fx, MF_LIMIT_FLOOR_SHEET, MF_AS_FEDERAL, "8");
    text = drawn(w, MF_FORM_CONTAINMENT, "A1", &fx.job, MF_LANG_EN);
    assert_non_null(strstr(text, "Here: 8 ft"));
    assert_non_null(strstr(text, "at least 8 ft"));
    free(text);
}

/* The log to fill in lists the parts whose paint the work disturbs: also what comes off
 * though it was logged as not affected, and what tested as lead though logged as not
 * painted. */
static void the_log_lists_what_is_disturbed(void **state)
{
    static const struct {
        mf_tri affected, removed, painted;
        int64_t reading; /* of the paint of the sash, micrograms per cm2 */
        bool listed;
    } rows[] = {
        {MF_YES, MF_UNKNOWN, MF_YES, 200, true},  {MF_NOT, MF_UNKNOWN, MF_YES, 200, false},
        {MF_NOT, MF_YES, MF_YES, 200, true},      {MF_YES, MF_UNKNOWN, MF_NOT, 200, false},
        {MF_YES, MF_UNKNOWN, MF_NOT, 1400, true}, {MF_NOT, MF_UNKNOWN, MF_NOT, 1400, false},
    };
    const paper_world *w = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        static fixture fx;
        fx_good(&fx);
        fx.component[0].affected = rows[i].affected;
        fx.component[0].removed = rows[i].removed;
        fx.component[0].painted = rows[i].painted;
        for (size_t k = 0; k < fx.job.n_reading; k++)
            if (strcmp(fx.reading[k].component, "W01.sash") == 0)
                fx.reading[k].loading_ug_cm2 = rows[i].reading;
        char *text = drawn(w, MF_FORM_TEST_LOG, "", &fx.job, MF_LANG_EN);
        if ((strstr(text, "W01.sash") != NULL) != rows[i].listed)
            fail_msg("row %zu", i);
        free(text);
    }
}

/* The crew's plan says of an opening without parts that it is presumed. */
static void the_plan_tells_of_openings_without_parts(void **state)
{
    static const char says[] = "no part is listed";
    const paper_world *w = *state;
    static fixture fx;
    fx_good(&fx);
    char *text = drawn(w, MF_FORM_CREW_PLAN, "A1", &fx.job, MF_LANG_EN);
    assert_non_null(strstr(text, "W01"));
    assert_null(strstr(text, says));
    free(text);
    for (size_t i = 0; i < fx.job.n_component; i++)
        if (strcmp(fx.component[i].opening, "W01") == 0)
            fx.component[i].opening = "W02";
    text = drawn(w, MF_FORM_CREW_PLAN, "A1", &fx.job, MF_LANG_EN);
    assert_non_null(strstr(text, says));
    free(text);
}

/* The sheets feed the book: a blank for the time of each event, both answers of a wet cloth,
 * a box a day for the steps of every day, the signature where demo begins, rows numbered. */
static void the_sheets_feed_the_book(void **state)
{
    const paper_world *w = *state;
    static fixture fx;
    fx_good(&fx);
    fx_texts(&fx);
    free(drawn(w, MF_FORM_VERIFICATION, "A1", &fx.job, MF_LANG_EN));
    /* 2 rows of the job and 2 empty ones: five times each; two answers of two wet cloths */
    assert_string_equal(paper_shell(w->folder, "pdftotext form.pdf - | grep -c '^at ___'"),
                        paper_shell(w->folder, "echo $((5 * $(pdftotext form.pdf - | grep -c "
                                               "'^wiped$')))"));
    free(drawn(w, MF_FORM_CONTAINMENT, "A1", &fx.job, MF_LANG_EN));
    assert_string_equal(paper_shell(w->folder, "pdftotext form.pdf - | grep -c '^day [123]: "
                                               "2026-09-1[456]$'"),
                        "6\n"); /* three days of two steps */
    char *text = paper_slurp(w->folder, "form.txt");
    const char *before = strstr(text, "contained as ticked before demo began");
    const char *work = strstr(text, "While the work goes on");
    assert_true(before != NULL && work != NULL && before < work);
    assert_non_null(strstr(text, "floor-sheet"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_and_back),
        cmocka_unit_test(sizes_and_back),
        cmocka_unit_test(blank_ones_fit_a_sheet),
        cmocka_unit_test(the_sheets_feed_the_book),
        cmocka_unit_test(hold_what_the_rule_asks),
        cmocka_unit_test(filled_in_ones_carry_a_code),
        cmocka_unit_test(an_unknown_area_is_refused),
        cmocka_unit_test(the_sign_is_read_from_ten_feet),
        cmocka_unit_test(the_sign_of_assisted_housing),
        cmocka_unit_test(the_head_names_the_unit),
        cmocka_unit_test(a_stricter_place_stands_beside_the_words),
        cmocka_unit_test(the_log_lists_what_is_disturbed),
        cmocka_unit_test(the_plan_tells_of_openings_without_parts),
        cmocka_unit_test(a_home_is_nobodys_in_particular),
        cmocka_unit_test(the_sheets_of_a_facility),
        cmocka_unit_test(the_summary_tells_all),
        cmocka_unit_test(the_summary_is_plain),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
