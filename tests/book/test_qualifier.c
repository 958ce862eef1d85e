/* "More than" and "less than" of an entry with two numbers, in whatever order they come, and what a
 * correction of one of them leaves. 40 CFR 745.227(e)(8)(vii): a sample is shown to be below.
 * Constructed. */
#include "book/book_kit.h"

static int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_house(&k);
    kit_log(&k, "area", "J-1", "id", "A1", "side", "interior", "place", "kitchen", "openings",
            "W01", "length", "12", "width", "9");
    *state = &k;
    return 0;
}

static int stop(void **state)
{
    kit_stop(*state);
    return 0;
}

#define SAMPLE                                                                                     \
    "dust_sample", "J-1", "area", "A1", "place", "kitchen", "surface", "floor", "sampler", "ana",  \
        "laboratory", "Invented Laboratory", "nllap", "yes", "required", "yes", "on", "2026-09-14"

static mf_job *job_of(kit *k)
{
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_OK);
    return job;
}

static void sample_is(kit *k, mf_qualifier want, const char *what)
{
    mf_job *job = job_of(k);
    if (job->dust_sample[job->n_dust_sample - 1].qualifier != want)
        print_error("%s\n", what);
    assert_int_equal(job->dust_sample[job->n_dust_sample - 1].qualifier, want);
    mf_book_job_free(job);
}

static void whatever_comes_first(void **state)
{
    kit *k = *state;
    kit_log(k, SAMPLE, "qualifier", "over", "mass", "3", "length", "12", "width", "12");
    sample_is(k, MF_QUAL_OVER, "over, then a mass");
    kit_log(k, SAMPLE, "mass", "3", "length", "12", "width", "12", "qualifier", "under");
    sample_is(k, MF_QUAL_UNDER, "a mass, then under");
    kit_log(k, SAMPLE, "result", ">4", "mass", "3", "length", "12", "width", "12");
    sample_is(k, MF_QUAL_OVER, "> and an exact mass");
    kit_log(k, SAMPLE, "result", "4", "qualifier", "over", "mass", "3");
    sample_is(k, MF_QUAL_OVER, "over between two numbers");
    kit_log(k, SAMPLE, "mass", ">3", "result", "<5");
    sample_is(k, MF_QUAL_OVER, "> beats <");
    kit_log(k, SAMPLE, "result", "<5", "mass", "3");
    sample_is(k, MF_QUAL_UNDER, "< and an exact mass");
    kit_log(k, SAMPLE, "qualifier", "exact", "result", ">4");
    sample_is(k, MF_QUAL_OVER, "the sign of the number itself");
    kit_log(k, SAMPLE, "result", "4", "mass", "3");
    sample_is(k, MF_QUAL_EXACT, "two exact numbers");
    kit_log(k, SAMPLE);
    sample_is(k, MF_QUAL_EXACT, "no number");
}

static void of_a_reading(void **state)
{
    kit *k = *state;
    kit_log(k, "reading", "J-1", "number", "1", "instrument", "X-100", "operator", "rosa",
            "purpose", "paint", "component", "W01.sash", "substrate", "wood", "qualifier", "over",
            "result", "0.4", "on", "2026-09-14", "time", "08:30");
    mf_job *job = job_of(k);
    assert_int_equal(job->reading[0].qualifier, MF_QUAL_OVER);
    mf_book_job_free(job);
}

/* An answer that is given anew is the one that counts. */
static void said_anew(void **state)
{
    kit *k = *state;
    kit_log(k, SAMPLE, "result", ">4", "result", "4");
    sample_is(k, MF_QUAL_EXACT, "> taken back");
    kit_log(k, SAMPLE, "result", ">4", "result", "", "mass", "3");
    sample_is(k, MF_QUAL_EXACT, "> left out");
}

static void correct(kit *k, const char *target, const char *field, const char *text)
{
    char made[MF_ENTRY_ID];
    mf_draft *draft = kit_draft(k, "dust_sample", field, text, NULL);
    assert_int_equal(mf_book_correct(k->book, target, draft, "misread", &k->now, made, &k->err),
                     MF_OK);
    mf_draft_free(draft);
}

static void what_a_correction_leaves(void **state)
{
    kit *k = *state;
    kit_log(k, SAMPLE, "result", ">4");
    char target[MF_ENTRY_ID];
    snprintf(target, sizeof target, "%s", k->id);
    correct(k, target, "mass", "3");
    sample_is(k, MF_QUAL_OVER, "a mass beside > of the result");
    correct(k, target, "result", "4.1");
    sample_is(k, MF_QUAL_OVER, "which of the two it is of nobody says");
    correct(k, target, "qualifier", "exact");
    sample_is(k, MF_QUAL_EXACT, "said by itself");
    correct(k, target, "mass", "<3");
    sample_is(k, MF_QUAL_UNDER, "< of one of them");
    correct(k, target, "mass", "");
    correct(k, target, "result", "3");
    sample_is(k, MF_QUAL_EXACT, "the only number");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(whatever_comes_first, start, stop),
        cmocka_unit_test_setup_teardown(of_a_reading, start, stop),
        cmocka_unit_test_setup_teardown(said_anew, start, stop),
        cmocka_unit_test_setup_teardown(what_a_correction_leaves, start, stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
