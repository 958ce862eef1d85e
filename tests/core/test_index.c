/* The order and the index of readings must change no answer: constructed jobs with readings out of
 * order, of several instruments, without times, judged with it and without it. The
 * seeds are fixed. */
#include "core/given.h"
#include "core/reading_index.h"
#include "support/fixture_job.h"

#include <mistfold/retest.h>
#include <mistfold/schedule.h>
#include <stddef.h>
#include <stdio.h>

enum { N_READINGS = 260, N_COMPONENTS = 30, N_ROUNDS = 40 };

typedef struct world {
    fixture fx;
    mf_reading reading[N_READINGS + 1]; /* the last one, here and below, is none of the job's */
    mf_component component[N_COMPONENTS + 1];
    char id[N_COMPONENTS][16];
    mf_instrument instrument[2];
    mf_profile_row sheet; /* of the first instrument: its readings are corrected */
} world;

static world w;
static mf_reading_index index_of_readings;

/* xorshift32: the same numbers on every machine. */
static uint32_t next_random(uint32_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

static void shoot(mf_reading *it, uint32_t *seed)
{
    *it = w.fx.reading[0];
    bool film = next_random(seed) % 4 == 0;
    it->number = next_random(seed) % 50;
    it->instrument = w.instrument[next_random(seed) % 2].serial;
    it->operator_id = next_random(seed) % 5 == 0 ? "rosa" : "ines";
    bool odd = !film && next_random(seed) % 4 == 0;
    it->purpose = film  ? MF_READ_CALIBRATION
                  : odd ? next_random(seed) % 2 == 0 ? MF_READ_RETEST : MF_READ_SUBSTRATE
                        : MF_READ_PAINT;
    it->component = film ? "" : w.id[next_random(seed) % N_COMPONENTS];
    if (next_random(seed) % 16 == 0)
        it->component = next_random(seed) % 2 == 0 ? NULL : "withdrawn";
    it->loading_ug_cm2 = film ? 700 + next_random(seed) % 600 : next_random(seed) % 1400;
    it->on = fx_day("2026-08-20") + (mf_day)(next_random(seed) % 2);
    it->at_minute =
        next_random(seed) % 20 == 0 ? MF_MINUTE_NONE : (int32_t)(480 + next_random(seed) % 400);
}

static void fill(uint32_t seed)
{
    fx_good(&w.fx);
    w.instrument[0] = w.instrument[1] = w.fx.instrument;
    w.instrument[1].serial = "SN-OTHER";
    for (int i = 0; i < N_COMPONENTS; i++) {
        snprintf(w.id[i], sizeof w.id[i], "part%d", i % (N_COMPONENTS - 2)); /* two ids twice */
        w.component[i] = w.fx.component[0];
        w.component[i].id = w.id[i];
        w.component[i].opening = "";
        w.component[i].room = i % 3 == 0 ? "kitchen" : "hall";
        w.component[i].type = MF_COMP_WALL;
    }
    for (int i = 0; i < N_READINGS; i++)
        shoot(&w.reading[i], &seed);
    w.fx.determination[0].component = "";
    w.sheet = (mf_profile_row){.instrument = w.instrument[0].serial,
                               .substrate = w.fx.reading[0].substrate,
                               .threshold_ug_cm2 = 1000,
                               .low_ug_cm2 = MF_NUM_NONE,
                               .high_ug_cm2 = MF_NUM_NONE,
                               .cal_low_ug_cm2 = MF_NUM_NONE,
                               .cal_high_ug_cm2 = MF_NUM_NONE,
                               .correct = MF_YES};
    mf_job *job = &w.fx.job;
    job->reading = w.reading;
    job->component = w.component;
    job->instrument = w.instrument;
    job->n_reading = N_READINGS;
    job->n_component = N_COMPONENTS;
    job->n_instrument = 2;
    job->profile_row = &w.sheet;
    job->n_profile_row = 1;
}

/* The job with its readings in order. */
static mf_job in_order(const mf_job *job)
{
    static max_align_t room[8192];
    mf_job ordered = *job;
    assert_true(mf_readings_room(job) <= sizeof room);
    mf_readings_order(&ordered, room);
    assert_non_null(mf_order_of(&ordered));
    return ordered;
}

static void same_finding(const mf_paint_finding *a, const mf_paint_finding *b)
{
    assert_ptr_equal(a->component, b->component);
    assert_ptr_equal(a->worst, b->worst);
    assert_int_equal(a->verdict, b->verdict);
    assert_int_equal(a->basis, b->basis);
    assert_int_equal(a->doubt, b->doubt);
    assert_int_equal(a->on, b->on);
    assert_string_equal(a->by, b->by);
    assert_string_equal(a->evidence, b->evidence);
}

static void same_combinations(const mf_job *slow, const mf_job *ordered)
{
    static mf_combination a[N_COMPONENTS], b[N_COMPONENTS];
    size_t n = mf_combinations(slow, a, N_COMPONENTS);
    assert_int_equal(mf_combinations(ordered, b, N_COMPONENTS), n);
    assert_true(n > 1);
    for (size_t i = 0; i < n; i++) {
        assert_ptr_equal(a[i].first, b[i].first);
        assert_int_equal(a[i].readings, b[i].readings);
        assert_int_equal(a[i].positive, b[i].positive);
        assert_int_equal(a[i].tested, b[i].tested);
        assert_int_equal(a[i].mean_ug_cm2, b[i].mean_ug_cm2);
        assert_int_equal(a[i].untested, b[i].untested);
    }
}

static void same_retests(const mf_job *slow, const mf_job *ordered)
{
    static mf_retest a[N_READINGS], b[N_READINGS];
    size_t n = mf_retests(slow, a, N_READINGS);
    assert_int_equal(mf_retests(ordered, b, N_READINGS), n);
    assert_true(n > 0);
    for (size_t i = 0; i < n; i++) {
        assert_int_equal(a[i].n, b[i].n);
        for (int k = 0; k < a[i].n; k++) {
            assert_ptr_equal(a[i].first[k], b[i].first[k]);
            assert_ptr_equal(a[i].again[k], b[i].again[k]);
        }
    }
}

/* How many were corrected. */
static int same_results(const mf_job *slow, const mf_job *ordered)
{
    int corrected = 0;
    for (int i = 0; i < N_READINGS; i++) {
        mf_reading_result a, b;
        mf_reading_judge(slow, &w.reading[i], &a);
        mf_reading_judge(ordered, &w.reading[i], &b);
        assert_int_equal(a.found, b.found);
        assert_int_equal(a.correction, b.correction);
        assert_int_equal(a.n_bare, b.n_bare);
        assert_true(a.num == b.num && a.den == b.den);
        corrected += a.correction == MF_CORRECTION_DONE;
    }
    return corrected;
}

static void test_same_answers(void **state)
{
    (void)state;
    int enclosed = 0, corrected = 0;
    for (uint32_t seed = 1; seed <= N_ROUNDS; seed++) {
        fill(seed * 2654435761U);
        mf_job quick = w.fx.job, ordered = in_order(&quick);
        mf_index_begin(&index_of_readings, &quick);
        quick.order = ordered.order;
        quick.index = &index_of_readings;
        for (int i = 0; i < N_READINGS; i++) {
            bool slow = mf_reading_enclosed(&w.fx.job, &w.reading[i]);
            assert_int_equal(mf_reading_enclosed(&quick, &w.reading[i]), slow);
            assert_int_equal(mf_reading_enclosed(&quick, &w.reading[i]), slow); /* kept */
            assert_int_equal(mf_reading_enclosed(&ordered, &w.reading[i]), slow);
            enclosed += slow;
        }
        for (int i = 0; i < N_COMPONENTS; i++) {
            mf_paint_finding a, b;
            mf_paint_judge(&w.fx.job, &w.component[i], &a);
            mf_paint_judge(&quick, &w.component[i], &b);
            same_finding(&a, &b);
            mf_paint_judge(&ordered, &w.component[i], &b);
            same_finding(&a, &b);
            assert_ptr_equal(mf_job_component(&w.fx.job, w.id[i]),
                             mf_job_component(&ordered, w.id[i]));
        }
        assert_null(mf_job_component(&ordered, "none"));
        corrected += same_results(&w.fx.job, &ordered);
        same_combinations(&w.fx.job, &ordered);
        same_retests(&w.fx.job, &ordered);
    }
    assert_true(enclosed > 0 && corrected > 0); /* some were, or nothing was compared */
}

/* What belongs to another job, or is too large, is judged without it. */
static void test_not_for_others(void **state)
{
    (void)state;
    fill(7);
    mf_job quick = w.fx.job;
    mf_job ordered = in_order(&quick);
    mf_index_begin(&index_of_readings, &quick);
    quick.index = &index_of_readings;
    assert_ptr_equal(mf_index_of(&quick), &index_of_readings);
    mf_job other = quick;
    other.n_reading--;
    assert_null(mf_index_of(&other));
    assert_null(mf_index_of(&w.fx.job));
    other = ordered;
    other.n_component--;
    assert_null(mf_order_of(&other));
    mf_reading copy = w.reading[0];
    assert_true(mf_reading_place(&quick, &copy) == SIZE_MAX);
    assert_false(mf_reading_enclosed(&quick, &copy));
    assert_true(mf_reading_place(&quick, &w.reading[0]) == 0);
    assert_true(mf_reading_place(&quick, &w.reading[N_READINGS - 1]) == N_READINGS - 1);
    assert_true(mf_reading_place(&quick, &w.reading[N_READINGS]) == SIZE_MAX);
    const mf_reading_order *order = mf_order_of(&ordered);
    assert_true(mf_order_beside(order, order->sorted[0], -1) == SIZE_MAX);
    assert_true(mf_order_beside(order, order->sorted[N_READINGS - 1], 1) == SIZE_MAX);
}

/* Each component of the job has a place of its own for its finding; no other one has. */
static void test_findings_kept(void **state)
{
    (void)state;
    bool known = true;
    fill(7);
    mf_index_begin(&index_of_readings, &w.fx.job);
    for (int i = 0; i < N_COMPONENTS; i++) {
        mf_paint_finding *kept = mf_index_finding(&index_of_readings, &w.component[i], &known);
        assert_ptr_equal(kept, &index_of_readings.finding[i]);
        assert_false(known);
        assert_ptr_equal(mf_index_finding(&index_of_readings, &w.component[i], &known), kept);
        assert_true(known);
    }
    assert_null(mf_index_finding(&index_of_readings, &w.component[N_COMPONENTS], &known));
    assert_null(mf_index_finding(&index_of_readings, &w.fx.component[0], &known));
}

/* As many as the index has room for are kept, and their order fits into the room that the
 * audit keeps on its stack; of more nothing is kept, and no order is made. */
static void test_room(void **state)
{
    (void)state;
    static mf_reading many[MF_INDEX_READINGS];
    static const struct {
        size_t readings, components;
        bool keeps_readings, keeps_components;
    } rows[] = {{MF_INDEX_READINGS, MF_INDEX_COMPONENTS, true, true},
                {MF_INDEX_READINGS + 1, 0, false, true},
                {0, MF_INDEX_COMPONENTS + 1, true, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_job job = {.n_reading = rows[i].readings, .n_component = rows[i].components};
        mf_index_begin(&index_of_readings, &job);
        assert_int_equal(index_of_readings.keeps_readings, rows[i].keeps_readings);
        assert_int_equal(index_of_readings.keeps_components, rows[i].keeps_components);
    }
    for (size_t i = 0; i < COUNT(many); i++)
        many[i].purpose = MF_READ_RETEST;
    mf_job job = {.reading = many, .n_reading = COUNT(many), .n_component = MF_INDEX_COMPONENTS};
    assert_true(mf_readings_room(&job) <= sizeof(mf_reading_order) + MF_INDEX_ROOM);
    mf_reading_order none;
    job = (mf_job){.n_reading = MF_ORDER_NONE, .order = &none};
    mf_readings_order(&job, &none);
    assert_null(job.order);
    job = (mf_job){.n_component = MF_ORDER_NONE, .order = &none};
    mf_readings_order(&job, &none);
    assert_null(job.order);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_answers),
        cmocka_unit_test(test_not_for_others),
        cmocka_unit_test(test_findings_kept),
        cmocka_unit_test(test_room),
    };
    return cmocka_run_group_tests_name("index", tests, NULL, NULL);
}
