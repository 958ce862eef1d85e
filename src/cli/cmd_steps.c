/* containment list, cleaning list: the steps a work area needs and their state. */
#include "base/fail.h"
#include "cli/json.h"

#include <mistfold/stage.h>

#include <stdio.h>
#include <string.h>

static bool in_list(const mf_cmd *cmd, const mf_step *step)
{
    return (step->phase == MF_PHASE_CLEAN) == (strcmp(cmd->group, "cleaning") == 0);
}

static json_t *text_if(bool given, const char *text)
{
    return given ? json_string(text) : json_null();
}

static json_t *json_of(const mf_cli *cli, const mf_job *job, const mf_area *area,
                       const mf_step *step)
{
    const mf_tick *tick;
    mf_step_state state = mf_step_judge(job, area, step, &tick);
    bool skipped = tick != NULL && tick->state == MF_TICK_NOT_NEEDED;
    json_t *object = json_object();
    json_object_set_new(object, "area", json_string(area->id));
    json_object_set_new(object, "step", json_string(step->id));
    json_object_set_new(object, "state", json_string(mf_step_state_name(state)));
    json_object_set_new(object, "says", json_string(mf_words_step(cli->lang, job, step->id)));
    json_object_set_new(object, "citation", json_string(step->citation));
    json_object_set_new(object, "ground",
                        text_if(skipped, skipped ? mf_ground_name(tick->ground) : ""));
    json_object_set_new(object, "reason",
                        text_if(skipped && tick->reason[0] != '\0', skipped ? tick->reason : ""));
    return object;
}

void mf_cli_stricter(const mf_cli *cli, const mf_job *job, const mf_step *step, int indent)
{
    char number[48];
    mf_day start = job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    const mf_limit *ours = mf_step_stricter(job, step, start);
    if (ours == NULL)
        return;
    mf_words_number(cli->lang, ours->value, ours->unit, number, sizeof number);
    printf("%*s%s %s\n", indent, "", mf_cli_word(cli, "walk.stricter"), number);
}

static void print_one(const mf_cli *cli, const mf_job *job, const mf_area *area,
                      const mf_step *step)
{
    const mf_tick *tick;
    mf_step_state state = mf_step_judge(job, area, step, &tick);
    const char *mark = state == MF_STEP_OPEN         ? "[ ]"
                       : state == MF_STEP_DONE       ? "[x]"
                       : state == MF_STEP_NOT_NEEDED ? "[-]"
                                                     : "[!]";
    printf("%s ", mark);
    mf_cli_pad(step->id, 22);
    printf("%s  %s\n    ", mf_words2(cli->lang, "step-state", mf_step_state_name(state)),
           step->citation);
    mf_cli_wrap(mf_words_step(cli->lang, job, step->id), 4, 4);
    mf_cli_stricter(cli, job, step, 4);
    mf_cli_skipped(cli, tick, 4);
}

static void list_area(const mf_cli *cli, const mf_cmd *cmd, const mf_job *job, const mf_area *area,
                      json_t *array)
{
    mf_step step;
    const bool off = mf_area_off(job, area->id, cli->today);
    if (array == NULL) {
        printf(
            "%s  %s, ", area->id,
            mf_cli_word(cli, area->side == MF_SIDE_INTERIOR ? "side.interior" : "side.exterior"));
        mf_cli_show(area->place);
        fputs("\n\n", stdout);
    }
    if (array == NULL && off)
        mf_cli_wrap(mf_cli_word(cli, "steps.area-off"), 0, 0);
    for (size_t i = 0; mf_step_at(job, i, &step); i++) {
        if (!in_list(cmd, &step) || !mf_step_listed(job, area, &step, off))
            continue;
        if (array != NULL)
            json_array_append_new(array, json_of(cli, job, area, &step));
        else
            print_one(cli, job, area, &step);
    }
    if (array == NULL)
        putchar('\n');
}

mf_status mf_cmd_steps_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    const char *only = mf_args_value(args, "area");
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status == MF_OK && only != NULL && mf_job_area(job, only) == NULL)
        status = mf_failf(&err, MF_INPUT, "--area", "", "see \"area list\"",
                          "there is no work area %s", only);
    json_t *array = cli->json ? json_array() : NULL;
    for (size_t i = 0; status == MF_OK && i < job->n_area; i++)
        if (only == NULL ? !mf_area_off(job, job->area[i].id, cli->today)
                         : strcmp(job->area[i].id, only) == 0)
            list_area(cli, cmd, job, &job->area[i], array);
    if (status == MF_OK && !cli->json)
        mf_cli_caution(cli);
    mf_book_job_free(job);
    if (status != MF_OK) {
        json_decref(array);
        return mf_cli_fail(&err);
    }
    return cli->json ? mf_json_print(array) : MF_OK;
}
