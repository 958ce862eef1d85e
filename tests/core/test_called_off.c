/* A job that was called off before any work: nothing is torn out in it, 40 CFR 745.85(a)(2), and
 * what was logged of work is believed before the word that there was none, 745.86(a). The job is
 * constructed (support/fixture_job.h), with all that tells of work taken away. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/stage.h>
#include <string.h>

enum { MAX_FINDINGS = 700 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

static int start(void **state)
{
    (void)state;
    fx_good(&fx);
    mf_job *job = &fx.job;
    fx.house.called_off = fx_day("2026-09-10");
    job->n_tick = job->n_practice = job->n_verification = job->n_dust_sample = 0;
    job->n_completion = job->n_invoice = job->n_handover = job->n_certification = 0;
    job->n_sealed = job->n_correction = 0;
    return 0;
}

static const mf_finding *says(const char *id)
{
    const mf_audit_ask question = {&fx.job, fx_day(FX_TODAY), 0, ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    for (size_t i = 0; i < n; i++)
        if (strcmp(found[i].requirement->id, id) == 0)
            return &found[i];
    fail_msg("nothing says %s", id);
    return NULL;
}

static void is(const char *id, mf_verdict verdict, const char *why)
{
    const mf_finding *it = says(id);
    assert_string_equal(it->why, why);
    assert_int_equal(it->verdict, verdict);
}

static mf_stage stage(const char *today)
{
    return mf_stage_of(&fx.job, fx_day(today));
}

static void from_its_day_on(void **state)
{
    (void)state;
    is("called-off", MF_LACKING, "called-off");
    assert_string_equal(says("called-off")->evidence, "h/1");
    is("called-off-agrees", MF_MET, "called-off");
    assert_int_equal(stage("2026-09-09"), MF_STAGE_PREPARING);
    assert_int_equal(stage("2026-09-10"), MF_STAGE_CALLED_OFF);
    assert_false(mf_called_off(&fx.job, fx_day("2026-09-09")));
    assert_true(mf_called_off(&fx.job, fx_day("2026-09-10")));
    fx.house.called_off = MF_DAY_NONE;
    is("called-off", MF_NOT_DUE, "not-called-off");
    assert_int_equal(stage(FX_TODAY), MF_STAGE_PREPARING);
    fx.job.n_house = 0;
    assert_false(mf_called_off(&fx.job, fx_day(FX_TODAY)));
}

/* What a method of (a)(3), the cleaning, the verification, a required sample or the end of the work
 * says, it was begun; a plan, a voluntary sample and a field blank do not. */
static void begun_all_the_same(void **state)
{
    static const mf_practice plan = {.src = {.entry = "pr/1"}, .planned = MF_YES};
    static const mf_dust_sample free_one = {.required = MF_NOT},
                                blank = {.required = MF_YES, .blank = MF_YES};
    (void)state;
    fx.practice[0] = plan;
    fx.dust_sample[0] = free_one;
    fx.dust_sample[1] = blank;
    fx.job.n_practice = 1;
    fx.job.n_dust_sample = 2;
    is("called-off", MF_LACKING, "called-off");
    size_t *const counts[] = {&fx.job.n_verification, &fx.job.n_completion, &fx.job.n_invoice,
                              &fx.job.n_certification};
    for (size_t i = 0; i < COUNT(counts); i++) {
        *counts[i] = 1;
        is("called-off", MF_LACKING, "called-off-begun");
        assert_string_equal(says("called-off")->other, "h/1");
        assert_false(mf_called_off(&fx.job, fx_day(FX_TODAY)));
        *counts[i] = 0;
    }
    fx.dust_sample[1].blank = MF_NOT;
    is("called-off-agrees", MF_LACKING, "called-off-begun");
    fx.job.n_dust_sample = 0;
    fx.practice[0].planned = MF_UNKNOWN;
    is("called-off-agrees", MF_LACKING, "called-off-begun");
    assert_string_equal(says("called-off-agrees")->evidence, "pr/1");
    assert_string_equal(says("called-off-agrees")->other, "h/1");
}

static void tick(const char *step, mf_tick_state how, int32_t at)
{
    fx.tick[fx.job.n_tick++] = (mf_tick){.src = {.entry = "t/1"},
                                         .area = "A1",
                                         .step = step,
                                         .state = how,
                                         .on = fx_day("2026-09-14"),
                                         .at_minute = at,
                                         .measured_ft_100 = MF_NUM_NONE};
}

/* Containment disturbs nothing; until somebody takes it down it is nobody's cue to begin. */
static void contained(void **state)
{
    static const struct {
        const char *step;
        mf_tick_state how;
        int32_t at;
        const char *why;
    } rows[] = {
        {"floor-sheet", MF_TICK_DONE, 480, "called-off-contained"},
        {"floor-sheet", MF_TICK_UNDONE, 470, "called-off-contained"}, /* earlier */
        {"objects", MF_TICK_UNDONE, 490, "called-off-contained"},     /* another step */
        {"floor-sheet", MF_TICK_UNDONE, 480, "called-off"},           /* the later entry */
        {"barriers-whole", MF_TICK_DONE, MF_MINUTE_NONE, "called-off-contained"},
        {"barriers-whole", MF_TICK_UNDONE, 480, "called-off"},
        {"ducts", MF_TICK_NOT_NEEDED, 480, "called-off"},
        {"our-own-step", MF_TICK_DONE, 480, "called-off"}, /* no step of the rule */
        {"waste-contained", MF_TICK_DONE, 480, "called-off-begun"},
        {"waste-contained", MF_TICK_UNDONE, 490, "called-off-begun"}, /* there was waste */
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        tick(rows[i].step, rows[i].how, rows[i].at);
        bool off = strcmp(rows[i].why, "called-off") == 0;
        bool begun = strcmp(rows[i].why, "called-off-begun") == 0;
        is("called-off", MF_LACKING, rows[i].why);
        is("called-off-agrees", begun ? MF_LACKING : MF_MET, rows[i].why);
        is("job-goes-on", begun ? MF_NOT_DUE : MF_NOT_NOW,
           begun ? "called-off-not-so"
           : off ? "called-off-nothing-due"
                 : rows[i].why);
        assert_int_equal(mf_called_off(&fx.job, fx_day(FX_TODAY)), off);
    }
    fx.job.n_tick = 0;
    tick("chips", MF_TICK_DONE, 480); /* cleaning comes after the work */
    is("called-off", MF_LACKING, "called-off-begun");
}

/* Of what nobody is to do nothing is asked but why not, and no question is answered yes or not yet;
 * of a job with work everything is, as of any other. */
static void nothing_else_asked(void **state)
{
    (void)state;
    for (unsigned gate = MF_GATE_DEMO; gate < MF_GATE_COUNT; gate++) {
        const mf_audit_ask question = {&fx.job, fx_day(FX_TODAY), 1U << gate, ""};
        size_t n = mf_audit(&question, found, MAX_FINDINGS), asks = 0;
        for (size_t i = 0; i < n; i++) {
            const char *id = found[i].requirement->id;
            asks += mf_verdict_asks(found[i].verdict);
            if (mf_verdict_asks(found[i].verdict))
                assert_string_equal(id, gate == MF_GATE_DEMO ? "called-off" : "job-goes-on");
        }
        assert_int_equal(asks, 1);
        assert_int_equal(mf_audit_answer(found, n, question.gates),
                         gate == MF_GATE_DEMO ? MF_ANSWER_NO : MF_ANSWER_NOT_NOW);
    }
    is("isolate", MF_NOT_DUE, "job-called-off");
    is("handover-owner", MF_NOT_DUE, "job-called-off");
    is("kit-record", MF_NOT_DUE, "job-called-off");
    is("covered", MF_MET, "cover-built-before");
    fx.job.n_invoice = 1;
    is("isolate", MF_LACKING, "step-open");
    is("job-goes-on", MF_NOT_DUE, "called-off-not-so");
    fx.house.called_off = MF_DAY_NONE;
    is("job-goes-on", MF_NOT_DUE, "not-called-off");
}

/* Of two devices one says so: nothing may be torn out, and all is due. */
static void two_devices(void **state)
{
    mf_house both[2] = {fx.house, fx.house};
    (void)state;
    both[0].called_off = MF_DAY_NONE;
    fx.job.house = both;
    fx.job.n_house = 2;
    is("called-off", MF_LACKING, "called-off");
    assert_int_equal(stage(FX_TODAY), MF_STAGE_PREPARING);
    both[0].called_off = fx_day("2026-09-11");
    assert_int_equal(stage(FX_TODAY), MF_STAGE_CALLED_OFF);
    fx.job.house = &fx.house;
    fx.job.n_house = 1;
    mf_correction at_once[2] = {
        {.src = {.entry = "c/1"}, .target = "h/1", .kind = "house", .after = "{\"a\":1}"},
        {.src = {.entry = "d/1"}, .target = "h/1", .kind = "house", .after = "{\"a\":2}"}};
    fx.job.correction = at_once;
    fx.job.n_correction = 2;
    assert_false(mf_called_off(&fx.job, fx_day(FX_TODAY)));
    fx.job.n_correction = 1;
    assert_true(mf_called_off(&fx.job, fx_day(FX_TODAY)));
}

#define TEST(name) cmocka_unit_test_setup(name, start)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(from_its_day_on),    TEST(begun_all_the_same), TEST(contained),
        TEST(nothing_else_asked), TEST(two_devices),
    };
    return cmocka_run_group_tests_name("called off", tests, NULL, NULL);
}
