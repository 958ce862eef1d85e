/* What the record says first of a question, and of an area that samples cleared. The job is
 * the small one of paper_job.h, started on 2026-09-14 and completed on 2026-09-18. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

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
    mf_job job = w->made.job;
    mf_dust_sample sample = job.dust_sample[0];
    job.dust_sample = &sample;
    job.n_verification = 1; /* it was looked over, and no cloth was wiped */
    sample.required = MF_YES;
    char *text = record(w, &job, "2026-09-30", MF_LANG_EN);
    assert_non_null(strstr(text, "Cleared by dust samples of 2026-09-17"));
    free(text);
    text = record(w, &job, "2026-09-30", MF_LANG_ES);
    assert_non_null(strstr(text, "Aprobada por muestras de polvo del 2026-09-17"));
    free(text);
    sample.loading_ng_ft2 = 5000;
    text = record(w, &job, "2026-09-30", MF_LANG_EN);
    assert_null(strstr(text, "Cleared by dust samples"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_for_the_time_alone),
        cmocka_unit_test(headings_of_time_ask),
        cmocka_unit_test(an_area_cleared_by_samples),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
