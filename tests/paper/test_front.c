/* What the record says first of a question, and of an area that samples cleared. The job is
 * the small one of paper_job.h, started on 2026-09-14 and completed on 2026-09-18,
 * or a whole one of fixture_job.h. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

static fixture fx;

static char *record(const paper_world *w, const mf_job *job, const char *today, mf_lang lang)
{
    mf_paper_ask ask = paper_ask(job);
    ask.today = mf_day_parse(today, NULL);
    ask.lang = lang;
    paper_record_to(w->folder, "front.pdf", &ask);
    paper_shell(w->folder, "pdftotext -raw front.pdf front.txt");
    return paper_slurp(w->folder, "front.txt");
}

static void says(const char *text, const char *question, const char *reason)
{
    const char *at = strstr(text, question);
    if (at == NULL || strstr(at, reason) != at + strlen(question))
        fail_msg("not \"%s%s\" in: %.1500s", question, reason, text);
}

/* 745.85(a)(2) contains the work area before the work begins: of a job that is over, or whose
 * day has not come, it is no for the time alone, and the page says so beside the NO. */
static void no_for_the_time_alone(void **state)
{
    const paper_world *w = *state;
    mf_job job = w->made.job;
    char *text = record(w, &job, "2026-09-30", MF_LANG_EN);
    says(text, "2 May demo start?\nNO\n", "The job was completed on 2026-09-18");
    free(text);
    text = record(w, &job, "2026-09-30", MF_LANG_ES);
    says(text, "2 ¿Se puede empezar la demolición?\nNO\n", "El trabajo terminó el 2026-09-18");
    free(text);
    job.n_completion = 0;
    text = record(w, &job, "2026-09-10", MF_LANG_EN);
    says(text, "2 May demo start?\nNO\n", "The planned start is 2026-09-14");
    free(text);
    text = record(w, &job, "2026-09-10", MF_LANG_ES);
    says(text, "2 ¿Se puede empezar la demolición?\nNO\n", "El inicio previsto es el 2026-09-14");
    free(text);
}

/* The heading of a question of time is not the answer to it. */
static void headings_of_time_ask(void **state)
{
    static const char *const ids[] = {"job-open", "start-reached"};
    (void)state;
    for (size_t i = 0; i < 2; i++)
        for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
            const char *words = mf_words2((mf_lang)lang, "req", ids[i]);
            assert_non_null(words);
            assert_int_equal(words[strlen(words) - 1], '?');
        }
}

/* 745.85(c): clearance samples in place of cleaning verification; one at the floor's level of
 * 745.227(e)(8)(viii), 5 ug/sq ft, clears nothing. */
static void an_area_cleared_by_samples(void **state)
{
    const paper_world *w = *state;
    fx_good(&fx); /* A3: a floor, a sill, a trough, a floor outside: 745.227(e)(8)(v)(A) */
    fx_texts(&fx);
    char *text = record(w, &fx.job, "2026-09-30", MF_LANG_EN);
    assert_non_null(strstr(text, "Cleared by dust samples of 2026-09-16"));
    free(text);
    text = record(w, &fx.job, "2026-09-30", MF_LANG_ES);
    assert_non_null(strstr(text, "Aprobada por muestras de polvo del 2026-09-16"));
    free(text);
    fx.dust_sample[0].loading_ng_ft2 = 5000;
    text = record(w, &fx.job, "2026-09-30", MF_LANG_EN);
    assert_null(strstr(text, "Cleared by dust samples"));
    free(text);
}

/* Every tally names as many findings as it says: "12 findings: 9 shown, 1 lacking, ...". */
static void tallies_add_up(void **state)
{
    const paper_world *w = *state;
    char *text = record(w, &w->made.job, "2026-09-30", MF_LANG_EN);
    size_t tallies = 0;
    for (char *at = strstr(text, " findings: "); at != NULL; at = strstr(at + 1, " findings: ")) {
        char *from = at;
        while (from > text && from[-1] >= '0' && from[-1] <= '9')
            from--;
        long all = strtol(from, NULL, 10), sum = 0;
        char *stop = strchr(at, '.');
        for (char *n = at + 11; n < stop;) {
            sum += strtol(n, NULL, 10);
            n = strchr(n, ',');
            n = n == NULL || n > stop ? stop : n + 1;
        }
        if (sum != all)
            fail_msg("%ld findings, and parts of %ld: %.120s", all, sum, from);
        tallies++;
    }
    assert_int_equal(tallies, 5); /* the four questions, and all together */
    free(text);
}

/* 745.85(a)(3) before 745.84: a prohibited method is told before a pamphlet. */
static void the_most_serious_first(void **state)
{
    const paper_world *w = *state;
    mf_job job = w->made.job;
    mf_practice used = job.practice[0];
    used.method = MF_METHOD_OPEN_FLAME;
    job.practice = &used;
    job.n_practice = 1;
    job.n_notice = 0;
    char *text = record(w, &job, "2026-09-30", MF_LANG_EN);
    const char *list = strstr(text, "things are lacking, the most serious first");
    assert_non_null(list);
    const char *first = strstr(list, "(40 CFR");
    assert_non_null(first);
    assert_int_equal(strncmp(first, "(40 CFR 745.85(a)(3))", 21), 0);
    free(text);
}

/* Who leads, and what else holds, stand among the facts of the first page. */
static void who_leads_and_what_holds(void **state)
{
    const paper_world *w = *state;
    mf_job job = w->made.job;
    mf_house house = job.house[0];
    job.house = &house;
    house.assisted = MF_YES;
    house.emergency = MF_YES;
    char *text = record(w, &job, "2026-09-30", MF_LANG_EN);
    const char *end = strstr(text, "The four questions");
    const char *lead = strstr(text, "Certified renovator");
    const char *assisted = strstr(text, "Federally assisted housing: 24 CFR part 35");
    const char *emergency = strstr(text, "An emergency is claimed.");
    assert_true(lead != NULL && lead < end);
    assert_true(assisted != NULL && assisted < end);
    assert_true(emergency != NULL && emergency < end);
    free(text);
    house.emergency = MF_NOT;
    house.zero_bedroom = MF_YES; /* 24 CFR 35.115(a)(2) */
    text = record(w, &job, "2026-09-30", MF_LANG_EN);
    assert_non_null(strstr(text, "Federally assisted housing is stated;"));
    assert_null(strstr(text, "No assisted housing"));
    free(text);
    house.zero_bedroom = MF_NOT;
    house.assisted = MF_NOT;
    text = record(w, &job, "2026-09-30", MF_LANG_EN);
    assert_non_null(strstr(text, "No assisted housing and no emergency"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_for_the_time_alone),      cmocka_unit_test(headings_of_time_ask),
        cmocka_unit_test(an_area_cleared_by_samples), cmocka_unit_test(tallies_add_up),
        cmocka_unit_test(the_most_serious_first),     cmocka_unit_test(who_leads_and_what_holds),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
