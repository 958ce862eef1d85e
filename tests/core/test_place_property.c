/* Properties over many constructed jobs and rows, drawn from a fixed seed: a local
 * row never makes an answer looser, and dates that all shift by some days shift the
 * due dates by as many. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <mistfold/place.h>
#include <stdio.h>
#include <string.h>

enum { MAX_FINDINGS = 400, JOBS = 3000, ROWS_A_JOB = 4 };

static fixture fx;
static mf_finding plain[MAX_FINDINGS], local[MAX_FINDINGS];

/* xorshift64, seeded anew by each test: the same draws on every machine. */
static uint64_t state_of_draw;

static int64_t draw(int64_t low, int64_t high)
{
    state_of_draw ^= state_of_draw << 13;
    state_of_draw ^= state_of_draw >> 7;
    state_of_draw ^= state_of_draw << 17;
    return low + (int64_t)(state_of_draw % (uint64_t)(high - low + 1));
}

static mf_tri draw_tri(void)
{
    return (mf_tri)draw(MF_UNKNOWN, MF_YES);
}

/* ---- a job ------------------------------------------------------------------------ */

static void draw_house(void)
{
    mf_house *house = &fx.house;
    house->year_built = draw(0, 9) == 0 ? MF_NUM_NONE : draw(1940, 1985);
    static const char *const works[] = {"window-replacement", "door-replacement", "repair",
                                        "demolition", "other"};
    house->work = works[draw(0, 4)];
    house->elder_or_disabled = draw_tri();
    house->zero_bedroom = draw_tri();
    house->child_under_6 = draw_tri();
    house->assisted = draw_tri();
    house->start = (mf_day)draw(day("2020-01-01"), day("2027-12-31"));
    if (draw(0, 3) == 0)
        house->building = MF_BUILDING_OTHER;
}

static void draw_visits(void)
{
    size_t n = (size_t)draw(0, 4);
    for (size_t i = 0; i < n; i++)
        fx.visit[i] =
            (mf_visit){.child = draw(0, 1) == 0 ? "c1" : "c2",
                       .born = MF_DAY_NONE,
                       .on = (mf_day)draw(day("2026-01-01"), day("2026-01-14")),
                       .minutes = draw(100, 260),
                       .weekly_until = (mf_day)draw(day("2026-01-14"), day("2026-06-30"))};
    fx.job.n_visit = n;
}

static void draw_paint(void)
{
    for (size_t i = 0; i < fx.job.n_component; i++) {
        fx.component[i].disturbed_sqft_100 = draw(0, 700);
        fx.component[i].removed = draw_tri();
        fx.component[i].whole_sqft_100 = draw(0, 900);
    }
    fx.job.n_earlier = (size_t)draw(0, 2);
    for (size_t i = 0; i < fx.job.n_earlier; i++)
        fx.earlier[i] = (mf_earlier){.job = "J-2",
                                     .room = draw(0, 1) == 0 ? "kitchen" : "bedroom",
                                     .side = (mf_side)draw(MF_SIDE_INTERIOR, MF_SIDE_EXTERIOR),
                                     .on = fx.house.start + (mf_day)draw(-70, 70),
                                     .disturbed_sqft_100 = draw(0, 500)};
    fx.reading[3].loading_ug_cm2 = draw(0, 1500);
    fx.chip[0].weight_ppm = draw(0, 6000);
}

static void draw_work(void)
{
    for (size_t i = 0; i < fx.job.n_tick; i++) {
        if (fx.tick[i].measured_ft_100 != MF_NUM_NONE)
            fx.tick[i].measured_ft_100 = draw(0, 2500);
        fx.tick[i].on = fx.house.start;
    }
    fx.practice[0].method = (mf_method)draw(MF_METHOD_HAND, MF_METHOD_BLASTING);
    fx.practice[0].temp_f = draw(500, 1300);
    fx.practice[0].spot_sqft_100 = draw(0, 400);
    fx.area[1].line_ft_100 = draw(0, 3000);
    fx.surface[1].size_sqft_100 = draw(1000, 12000);
    fx.dust_sample[0].loading_ng_ft2 = draw(0, 60000);
    fx.dust_sample[0].on = fx.house.start;
}

static void draw_days(void)
{
    for (size_t i = 0; i < fx.job.n_notice; i++)
        fx.notice[i].on = fx.notice[i].signed_on = fx.house.start - (mf_day)draw(0, 70);
    fx.completion.on = fx.house.start + 2;
    fx.invoice.on = fx.completion.on + (mf_day)draw(0, 40);
    for (size_t i = 0; i < fx.job.n_handover; i++)
        fx.handover[i].on = fx.completion.on + (mf_day)draw(0, 40);
    for (size_t i = 0; i < fx.job.n_certificate; i++)
        fx.certificate[i].issued = fx.house.start - (mf_day)draw(0, 2200);
}

static void draw_job(void)
{
    static void (*const bases[])(fixture *) = {fx_good, fx_facility, fx_multi_unit, fx_assisted,
                                               fx_assisted_minor};
    bases[draw(0, COUNT(bases) - 1)](&fx);
    draw_house();
    draw_visits();
    draw_paint();
    draw_work();
    draw_days();
}

/* ---- a row -------------------------------------------------------------------------- */

static char texts[ROWS_A_JOB][24];

/* A number near that of the federal row, as a person types it, to either side. */
static void type_value(const mf_limit *federal, char out[24])
{
    int64_t value = federal->value * draw(10, 200) / 100;
    int64_t whole = value / 100, part = value % 100;
    if (federal->unit == MF_UNIT_SQFT_100 || federal->unit == MF_UNIT_FT_100 ||
        federal->unit == MF_UNIT_PERCENT_100 || federal->unit == MF_UNIT_UG_DL_100)
        snprintf(out, 24, "%d.%02d", (int)whole, (int)part);
    else if (federal->unit == MF_UNIT_UG_CM2 || federal->unit == MF_UNIT_NG_FT2)
        snprintf(out, 24, "%d.%03d", (int)(value / 1000), (int)(value % 1000));
    else
        snprintf(out, 24, "%d", (int)value);
}

static void draw_rows(void)
{
    for (int i = 0; i < ROWS_A_JOB; i++) {
        mf_limit_id id = (mf_limit_id)draw(0, MF_LIMIT_COUNT - 1);
        type_value(mf_limit_on(id, MF_DAY_NONE), texts[i]);
        mf_local_limit *row =
            fx_add_local(&fx, id, (mf_local_cmp)draw(MF_AS_FEDERAL, MF_ABOVE), texts[i]);
        row->row.from = draw(0, 1) == 0 ? MF_DAY_NONE : fx.house.start + (mf_day)draw(-400, 400);
    }
}

/* ---- never looser ----------------------------------------------------------------------- */

static size_t audit(mf_finding *out)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx.house.start + 60, .area = ""};
    size_t n = mf_audit(&question, out, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

/* Its subject is the first area, part or person that lacks it. */
static bool tells_the_first(const mf_finding *finding)
{
    return strcmp(finding->requirement->id, "assisted-prepared") == 0 ||
           strcmp(finding->requirement->id, "verifier-certified") == 0;
}

/* Whether the requirement is lacking for the subject, or, where its subject is the
 * first of several, at all. */
static bool lacks(const mf_finding *all, size_t n, const mf_finding *like)
{
    for (size_t i = 0; i < n; i++)
        if (all[i].requirement == like->requirement && all[i].verdict == MF_LACKING &&
            (strcmp(all[i].subject, like->subject) == 0 || tells_the_first(like)))
            return true;
    return false;
}

/* Where two tests contradict each other, a lower level can make both say lead: that
 * ends the contradiction and is stricter all the same. */
static bool excepted(const mf_finding *finding)
{
    return strcmp(finding->requirement->id, "paint-agrees") == 0;
}

/* Some rows ask only once another one is answered: what a paper holds when it came in
 * time, the topics of a training when there was one, the dust report when anything
 * was handed over. Where that one is lacking instead, the answer is no all the same. */
static bool taken_over(const mf_finding *all, size_t n, const mf_finding *finding)
{
    static const struct {
        const char *id, *by;
    } rows[] = {
        {"training-tasks", "worker-trained"}, {"acknowledgement-contents", "pamphlet-"},
        {"mailing-receipt", "pamphlet-"},     {"notice-contents", "notice-"},
        {"dust-report", "handover-"},
    };
    for (size_t r = 0; r < COUNT(rows); r++) {
        if (strcmp(rows[r].id, finding->requirement->id) != 0)
            continue;
        for (size_t i = 0; i < n; i++)
            if (all[i].verdict == MF_LACKING && strcmp(all[i].subject, finding->subject) == 0 &&
                strncmp(all[i].requirement->id, rows[r].by, strlen(rows[r].by)) == 0)
                return true;
    }
    return false;
}

static void never_looser(void **state)
{
    size_t stricter = 0, lacking = 0;
    (void)state;
    state_of_draw = 20260914;
    for (int i = 0; i < JOBS; i++) {
        mf_cover_answer without, with;
        draw_job();
        size_t n_plain = audit(plain);
        mf_cover_judge(&fx.job, &without);
        draw_rows();
        size_t n_local = audit(local);
        mf_cover_judge(&fx.job, &with);
        if (without.cover == MF_COVER_YES && with.cover == MF_COVER_NO)
            fail_msg("job %d: a local row takes it out of the rule", i);
        for (size_t f = 0; f < n_plain; f++) {
            if (plain[f].verdict != MF_LACKING || excepted(&plain[f]))
                continue;
            lacking++;
            if (!lacks(local, n_local, &plain[f]) && !taken_over(local, n_local, &plain[f]))
                fail_msg("job %d: %s of \"%s\" (%s) is no longer lacking", i,
                         plain[f].requirement->id, plain[f].subject, plain[f].why);
        }
        for (size_t f = 0; f < n_local; f++)
            stricter += local[f].verdict == MF_LACKING && !lacks(plain, n_plain, &local[f]);
    }
    assert_true(lacking > JOBS); /* the draws do ask something */
    assert_true(stricter > JOBS / 10);
}

/* The row that decides is at least as strict as the federal one, on every day. */
static void decides_strictly(void **state)
{
    (void)state;
    state_of_draw = 19780101;
    for (int i = 0; i < JOBS; i++) {
        draw_job();
        draw_rows();
        mf_limit_id id = (mf_limit_id)draw(0, MF_LIMIT_COUNT - 1);
        mf_day on = (mf_day)draw(day("2010-01-01"), day("2030-01-01"));
        const mf_limit *row = mf_limit_for(&fx.job, id, on), *federal = mf_limit_on(id, on);
        if (row != federal)
            assert_true(mf_limit_as_strict(row, federal));
        for (size_t k = 0; k < fx.job.n_local_limit; k++) {
            const mf_local_limit *it = &fx.local_limit[k];
            bool good = mf_local_limit_check(it, NULL) == MF_LOCAL_GOOD;
            bool on_day = it->row.from == MF_DAY_NONE || it->row.from <= on;
            if (good && on_day && it->row.id == id)
                assert_true(mf_limit_as_strict(row, &it->row));
        }
    }
}

/* ---- shifted dates -------------------------------------------------------------------- */

static void due_dates_shift(void **state)
{
    (void)state;
    state_of_draw = 365;
    for (int i = 0; i < JOBS; i++) {
        mf_due before, after;
        draw_job();
        fx.job.n_tick = fx.job.n_practice = fx.job.n_verification = fx.job.n_dust_sample = 0;
        /* Four years of days, so that the calendar years keep their length. */
        mf_day by = (mf_day)draw(-10, 10) * 1461;
        mf_due_dates(&fx.job, &before);
        fx.completion.on += by;
        fx.invoice.on += by;
        mf_due_dates(&fx.job, &after);
        assert_int_equal(after.handover, before.handover + by);
        assert_int_equal(after.keep_until, before.keep_until + by);
        mf_day some = (mf_day)draw(-3000, 3000); /* days alone shift by any number */
        fx.completion.on += some;
        fx.invoice.on += some;
        mf_due_dates(&fx.job, &before);
        assert_int_equal(before.handover, after.handover + some);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(never_looser),
        cmocka_unit_test(decides_strictly),
        cmocka_unit_test(due_dates_shift),
    };
    return cmocka_run_group_tests_name("place_property", tests, NULL, NULL);
}
