/* A job as it stood on a day: mf_book_job_until. */
#include "record_kit.h"

static int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_house(&k);
    kit_log(&k, "area", "J-1", "id", "A1", "side", "interior", "place", "kitchen", "length", "12",
            "width", "9");
    *state = &k;
    return 0;
}

/* 745.89(b)(1)(i), (c): what befell a certificate later does not take it from the days before, on
 * which nothing is known of it. Constructed. */
static void a_certificate_as_it_stood(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    size_t left_out = 0;
    kit_log(k, "certificate", "", "holder", "firm", "discipline", "firm", "number", "F-1", "issuer",
            "A", "issued", "2023-01-31", "expires", "2028-01-31", "changed", "2026-09-10",
            "renewal-sent", "2026-09-12");
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    size_t n = job->n_certificate;
    assert_int_equal(mf_book_job_until(job, mf_day_from(2026, 9, 11), &left_out, NULL), MF_OK);
    assert_int_equal(left_out, 1);
    assert_int_equal(job->n_certificate, n);
    const mf_certificate *firm = &job->certificate[n - 1];
    assert_int_equal(firm->issued, mf_day_from(2023, 1, 31));
    assert_int_equal(firm->changed, mf_day_from(2026, 9, 10));
    assert_int_equal(firm->renewal_sent, MF_DAY_NONE);
    mf_book_job_free(job);
}

/* As it stood on a day: by the day of what was done, not by when it was logged, and
 * whatever lies between. Constructed. */
static void as_it_stood(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    size_t left_out = 9;
    static const char *const days[] = {"2026-09-05", "2026-09-02", "2026-09-04", "2026-09-03"};
    for (int i = 0; i < 4; i++)
        kit_log(k, "tick", "J-1", "area", "A1", "step", "walls", "state", "done", "person", "rosa",
                "on", days[i]);
    kit_reading(k, "1", "0.1"); /* of 2026-09-14 */
    kit_log(k, "assignment", "J-1", "person", "rosa", "duty", "renovator", "on", "2026-09-21");
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(mf_book_job_until(job, mf_day_from(2026, 9, 14), &left_out, NULL), MF_OK);
    assert_int_equal(left_out, 0);
    assert_int_equal(job->n_reading, 1);
    assert_int_equal(mf_book_job_until(job, mf_day_from(2026, 9, 3), &left_out, NULL), MF_OK);
    assert_int_equal(left_out, 3);
    assert_int_equal(job->n_tick, 2);
    assert_int_equal(job->tick[0].on, mf_day_from(2026, 9, 2));
    assert_int_equal(job->tick[1].on, mf_day_from(2026, 9, 3));
    assert_int_equal(job->n_reading, 0);
    assert_int_equal(job->n_assignment, 1); /* planned: its day is judged by who asks */
    assert_int_equal(job->n_house, 1);
    assert_int_equal(job->n_component, 4);
    mf_book_job_free(job);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(as_it_stood),
        TEST(a_certificate_as_it_stood),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
