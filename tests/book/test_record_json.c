/* The record as data: written, read back and judged again. The jobs are the
 * constructed ones of the tests of the audit, with everything a job may hold. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"

#include <mistfold/kind.h>
#include <mistfold/record.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static mf_bytes written(const mf_job *job)
{
    mf_bytes out = {0};
    mf_err err = {0};
    const mf_record_place place = {"firm", 3, 48, 100.5F, 210, 48};
    const mf_record_ask ask = {
        job, mf_day_from(2026, 9, 25), "0123abcd", "2026-09-25 10:00 UTC", &place, 1, NULL};
    if (mf_record_write(&out, &ask, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    return out;
}

static mf_record *read_back(mf_bytes json)
{
    mf_record *record = NULL;
    mf_err err = {0};
    if (mf_record_read(&record, (const char *)json.data, json.len, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    return record;
}

static void a_good_job(fixture *fx)
{
    fx_good(fx);
}

static void a_local_limit(fixture *fx)
{
    fx_good(fx);
    fx_add_local(fx, MF_LIMIT_DUST_FLOOR, MF_BELOW, "3");
}

typedef void make_fn(fixture *fx);
static make_fn *const jobs[] = {a_good_job,  fx_facility,       fx_multi_unit,
                                fx_assisted, fx_assisted_minor, a_local_limit};

/* The findings of the job that was read are those of the job that was written, one
 * by one, and those that were printed. */
static void judged_the_same(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        static fixture fx;
        static mf_finding then[2000];
        static mf_finding now[2000];
        mf_err err = {0};
        jobs[i](&fx);
        mf_bytes json = written(&fx.job);
        mf_record *record = read_back(json);
        assert_int_equal(record->today, mf_day_from(2026, 9, 25));
        const mf_audit_ask a = {.job = &fx.job, .today = record->today, .area = ""};
        const mf_audit_ask b = {.job = record->job, .today = record->today, .area = ""};
        size_t n = mf_audit(&a, then, 2000);
        assert_true(n > 20 && n <= 2000);
        assert_int_equal(mf_audit(&b, now, 2000), n);
        assert_int_equal(record->n_findings, n);
        for (size_t k = 0; k < n; k++) {
            assert_ptr_equal(then[k].requirement, now[k].requirement);
            assert_int_equal(then[k].verdict, now[k].verdict);
            assert_string_equal(then[k].why, now[k].why);
            assert_string_equal(then[k].subject, now[k].subject);
            assert_string_equal(then[k].evidence, now[k].evidence);
        }
        if (mf_record_agrees(record, &err) != MF_OK)
            fail_msg("job %zu: %s", i, err.what);
        mf_record_free(record);
        mf_bytes_free(&json);
    }
}

/* Written again from what was read it is the same, byte for byte. */
static void the_same_bytes_again(void **state)
{
    (void)state;
    static fixture fx;
    fx_good(&fx);
    mf_bytes json = written(&fx.job);
    mf_record *record = read_back(json);
    mf_bytes again = written(record->job);
    assert_int_equal(again.len, json.len);
    assert_memory_equal(again.data, json.data, json.len);
    assert_int_equal(record->n_places, 1);
    assert_string_equal(record->places[0].as, "firm");
    assert_int_equal(record->places[0].page, 3);
    assert_true(record->places[0].y > 100.4F && record->places[0].y < 100.6F);
    assert_string_equal(record->head, "0123abcd");
    mf_bytes_free(&again);
    mf_record_free(record);
    mf_bytes_free(&json);
}

/* The text with the first `old` after `from` replaced; aborts when it is not there. */
static char *changed(mf_bytes json, const char *from, const char *old, const char *now)
{
    const char *text = (const char *)json.data;
    const char *at = strstr(text, from);
    assert_non_null(at);
    at = strstr(at, old);
    assert_non_null(at);
    size_t before = (size_t)(at - text);
    size_t size = json.len + strlen(now) + 1;
    char *out = malloc(size);
    assert_non_null(out);
    snprintf(out, size, "%.*s%s%s", (int)before, text, now, at + strlen(old));
    return out;
}

typedef struct wrong_case {
    const char *from, *old, *now;
    mf_status status;
} wrong_case;

static const wrong_case wrong[] = {
    {"\"format\"", "mistfold-record", "other", MF_INPUT},
    {"\"version\"", "\"version\":2", "\"version\":3", MF_INPUT},
    {"\"entries\"", "\"area\":", "\"no_such_kind\":", MF_INPUT},
    {"\"tick\":[", "\"step\":", "\"no_such_field\":", MF_INPUT},
    {"\"tick\":[", "\"state\":\"done\"", "\"state\":\"perhaps\"", MF_INPUT},
    {"\"tick\":[", "\"state\":\"done\"", "\"state\":7", MF_INPUT},
    {"\"house\":[", "\"year_built\":1926", "\"year_built\":\"1926\"", MF_INPUT},
    {"\"house\":[", "\"start\":\"2026-09-14\"", "\"start\":\"2026-09-31\"", MF_INPUT},
    {"\"seal_places\"", "\"page\":3", "\"page\":-3", MF_INPUT},
    {"\"entries\"", "{", "[", MF_INPUT},
    /* each sort of member, of another type or beyond its values */
    {"\"tick\":[", "\"time\":\"08:00\"", "\"time\":\"24:00\"", MF_INPUT},
    {"\"tick\":[", "\"time\":\"08:00\"", "\"time\":8", MF_INPUT},
    {"\"tick\":[", "\"day\":\"2026-09-14\"", "\"day\":20260914", MF_INPUT},
    {"\"area\":[", "\"carpet\":false", "\"carpet\":\"no\"", MF_INPUT},
    {"\"house\":[", "\"address\":\"2 Test Street\"", "\"address\":{}", MF_INPUT},
    {"\"house\":[", "\"body\":{", "\"body\":7,\"was\":{", MF_INPUT},
    {"\"firm\":[", "\"entry\":\"f/1\"", "\"entry\":1", MF_INPUT},
    {"\"firm\":[", "\"by\":\"rosa\"", "\"by\":true", MF_INPUT},
    {"\"entries\"", "\"tick\":[", "\"tick\":7,\"was\":[", MF_INPUT},
    {"\"corrections\"", "\"target\":\"s/2\"", "\"target\":2", MF_INPUT},
    {"\"corrections\"", "\"reason\":\"measured again\"", "\"reason\":[]", MF_INPUT},
    {"\"corrections\"", "\"at\":\"2026", "\"at\":7,\"was\":\"2026", MF_INPUT},
    {"\"corrections\"", "\"corrections\":[", "\"corrections\":7,\"was\":[", MF_INPUT},
    {"\"earlier\"", "\"side\":\"exterior\"", "\"side\":\"above\"", MF_INPUT},
    {"\"earlier\"", "\"day\":\"2026-09-01\"", "\"day\":\"2026-02-30\"", MF_INPUT},
    {"\"earlier\"", "\"disturbed_sqft_100\":600", "\"disturbed_sqft_100\":6.5", MF_INPUT},
    {"\"earlier\"", "\"room\":\"porch\"", "\"room\":null", MF_INPUT},
    {"\"earlier\"", "\"earlier\":[", "\"earlier\":{},\"was\":[", MF_INPUT},
    {"\"seal_places\"", "\"page\":3", "\"page\":200001", MF_INPUT},
    {"\"seal_places\"", "\"as\":\"firm\"", "\"as\":7", MF_INPUT},
    {"\"seal_places\"", "\"x_10\":480", "\"x_10\":48.5", MF_INPUT},
    {"\"seal_places\"", "\"seal_places\":[", "\"seal_places\":7,\"was\":[", MF_INPUT},
    /* the head */
    {"\"integrity\"", "\"good\"", "\"perfect\"", MF_INPUT},
    {"\"integrity\"", "\"job\":\"J-1926\"", "\"job\":1926", MF_INPUT},
    {"\"head\"", "\"0123abcd\"", "7", MF_INPUT},
    {"\"printed_at\"", "\"printed_at\":", "\"printed_at\":7,\"was\":", MF_INPUT},
    {"\"today\"", "2026-09-25", "2026-13-25", MF_INPUT},
    {"\"version\"", "\"version\":2", "\"version\":\"1\"", MF_INPUT},
};

static void refuses_what_it_does_not_know(void **state)
{
    (void)state;
    static fixture fx;
    fx_good(&fx);
    fx.earlier[0] = (mf_earlier){.src = {"h/9", "2026-09-01T12:00:00Z", "rosa", ""},
                                 .job = "J-0",
                                 .room = "porch",
                                 .side = MF_SIDE_EXTERIOR,
                                 .on = mf_day_from(2026, 9, 1),
                                 .disturbed_sqft_100 = 600};
    fx.job.n_earlier = 1;
    mf_bytes json = written(&fx.job);
    mf_record_free(read_back(json));
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        mf_record *record = NULL;
        mf_err err = {0};
        char *text = changed(json, wrong[i].from, wrong[i].old, wrong[i].now);
        if (mf_record_read(&record, text, strlen(text), &err) != wrong[i].status)
            fail_msg("row %zu (%s) was read", i, wrong[i].now);
        assert_true(err.what[0] != '\0');
        assert_null(record);
        free(text);
    }
    mf_bytes_free(&json);
}

/* Nor a text that is no object. */
static void refuses_what_is_no_record(void **state)
{
    static const char *const texts[] = {"",  "{",  "[]",
                                        "7", "{}", "{\"format\":\"mistfold-record\"}"};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        mf_record *record = NULL;
        mf_err err = {0};
        assert_int_equal(mf_record_read(&record, texts[i], strlen(texts[i]), &err), MF_INPUT);
        assert_true(err.what[0] != '\0');
        assert_int_equal(mf_record_read(&record, texts[i], strlen(texts[i]), NULL), MF_INPUT);
        assert_null(record);
    }
}

/* A verdict that was changed in the data no longer follows from the entries; nor do
 * the verdicts when an entry was changed. */
static void a_changed_verdict_is_told(void **state)
{
    (void)state;
    static fixture fx;
    fx_good(&fx);
    mf_bytes json = written(&fx.job);
    static const char *const pairs[][3] = {
        {"\"findings\"", "\"verdict\":\"met\"", "\"verdict\":\"lacking\""},
        {"\"house\":[", "\"year_built\":1926", "\"year_built\":1990"}};
    for (size_t i = 0; i < 2; i++) {
        char *text = changed(json, pairs[i][0], pairs[i][1], pairs[i][2]);
        mf_record *record = read_back((mf_bytes){(unsigned char *)text, strlen(text)});
        assert_int_equal(mf_record_agrees(record, NULL), MF_NO);
        mf_record_free(record);
        free(text);
    }
    mf_bytes_free(&json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(judged_the_same),
        cmocka_unit_test(the_same_bytes_again),
        cmocka_unit_test(refuses_what_it_does_not_know),
        cmocka_unit_test(refuses_what_is_no_record),
        cmocka_unit_test(a_changed_verdict_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
