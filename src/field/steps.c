/* steps.c - the lists of a work area: before, during and after. */
#include "base/fail.h"
#include "field/page.h"
#include <mistfold/contain.h>

#include <stdio.h>

static const char *const phases[] = {
    [MF_PHASE_CONTAIN] = "contain", [MF_PHASE_WORK] = "work", [MF_PHASE_CLEAN] = "clean"};
enum { PHASES = sizeof phases / sizeof phases[0] };

mf_status mf_field_area(const mf_field_page *page, const mf_job *job, const mf_area **out,
                        mf_err *err)
{
    const char *id = mf_field_text(page, "area");
    *out = mf_job_area(job, id);
    return *out != NULL
               ? MF_OK
               : mf_failf(err, MF_INPUT, "area", "", "", "there is no work area %.40s", id);
}

static json_t *grounds_of(const mf_field_page *page, const mf_step *step)
{
    mf_ground list[MF_STEP_GROUNDS + 1];
    json_t *all = json_array();
    size_t n = mf_step_grounds(step, list);
    for (size_t i = 0; i < n; i++) {
        json_t *one = json_object();
        const char *name = mf_ground_name(list[i]);
        mf_field_put(one, "word", name);
        mf_field_put(one, "says", mf_field_words2(page, "ground", name));
        mf_field_put_is(one, "reason", mf_ground_wants_words(list[i]));
        json_array_append_new(all, one);
    }
    return all;
}

static void put_tick(json_t *out, const mf_tick *tick)
{
    char day[MF_DAY_TEXT] = "", time[MF_MINUTE_TEXT] = "", feet[48] = "";
    mf_day_text(tick->on, day);
    if (tick->at_minute != MF_MINUTE_NONE)
        mf_minute_text(tick->at_minute, time);
    if (tick->measured_ft_100 != MF_NUM_NONE)
        mf_words_number(MF_LANG_EN, tick->measured_ft_100, MF_UNIT_FT_100, feet, sizeof feet);
    json_t *one = json_object();
    mf_field_put(one, "entry", tick->src.entry);
    mf_field_put(one, "person", tick->person);
    mf_field_put(one, "renovator", tick->renovator);
    mf_field_put(one, "on", day);
    mf_field_put(one, "time", time);
    mf_field_put(one, "measured", feet);
    mf_field_put(one, "reason", tick->reason);
    json_object_set_new(out, "tick", one);
}

/* The number of the list where the job's places are stricter than the words. */
static void put_stricter(const mf_field_page *page, const mf_job *job, const mf_step *step,
                         json_t *out)
{
    char number[48], text[200];
    mf_day start = job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    const mf_limit *ours = mf_step_stricter(job, step, start);
    if (ours == NULL)
        return;
    mf_words_number(page->lang, ours->value, ours->unit, number, sizeof number);
    snprintf(text, sizeof text, "%s %s", mf_field_words(page, "walk.stricter"), number);
    mf_field_put(out, "stricter", text);
}

/* What is asked: the lists of a work area, and whether work goes on in it today. */
typedef struct lists {
    const mf_field_page *page;
    const mf_job *job;
    const mf_area *area;
    bool working;
} lists;

static mf_step_state judge(const lists *l, const mf_step *step, const mf_tick **tick)
{
    return mf_step_judge_today(l->job, l->area, step, l->page->today, l->working, tick);
}

static json_t *step_of(const lists *l, const mf_step *step)
{
    const mf_field_page *page = l->page;
    const mf_job *job = l->job;
    const mf_tick *tick = NULL;
    mf_step_state state = judge(l, step, &tick);
    json_t *one = json_object();
    mf_field_put(one, "step", step->id);
    mf_field_put(one, "says", mf_words_step(page->lang, job, step->id));
    mf_field_put(one, "why", mf_words_step_why(page->lang, job, step->id));
    mf_field_put(one, "citation", step->citation);
    mf_field_put(one, "state", mf_step_state_name(state));
    mf_field_put(one, "state_says", mf_field_words2(page, "step-state", mf_step_state_name(state)));
    mf_field_put_is(one, "settled", mf_step_settled(state));
    mf_field_put_is(one, "measured", step->extent >= 0);
    put_stricter(page, job, step, one);
    json_object_set_new(one, "grounds", grounds_of(page, step));
    if (tick != NULL)
        put_tick(one, tick);
    return one;
}

static json_t *phase_of(const lists *l, size_t phase)
{
    mf_step step;
    json_t *group = json_object(), *steps = json_array();
    int64_t open = 0;
    for (size_t i = 0; mf_step_at(l->job, i, &step); i++) {
        if ((size_t)step.phase != phase || !mf_step_wanted(l->job, &step, l->area))
            continue;
        open += !mf_step_settled(judge(l, &step, NULL));
        json_array_append_new(steps, step_of(l, &step));
    }
    mf_field_put(group, "phase", phases[phase]);
    mf_field_put(group, "says", mf_field_words2(l->page, "field.phase", phases[phase]));
    mf_field_put_number(group, "open", open);
    json_object_set_new(group, "steps", steps);
    return group;
}

/* Work goes on where demo may: what is done each day is asked for again then. */
static bool goes_on(const lists *l)
{
    const mf_audit_ask ask = {l->job, l->page->today, 1U << MF_GATE_DEMO, l->area->id};
    return mf_gate_open(&ask, NULL);
}

mf_status mf_field_steps(mf_field_page *page, json_t *out, mf_err *err)
{
    mf_job_fold *fold = NULL;
    lists l = {.page = page};
    mf_status status = mf_field_job(page, page->today, &fold, NULL, err);
    if (status == MF_OK) {
        l.job = &fold->job;
        status = mf_field_area(page, l.job, &l.area, err);
    }
    if (status == MF_OK)
        l.working = goes_on(&l);
    json_t *groups = json_array();
    for (size_t i = 0; status == MF_OK && i < PHASES; i++)
        json_array_append_new(groups, phase_of(&l, i));
    json_object_set_new(out, "groups", groups);
    mf_job_fold_free(fold);
    return status;
}
