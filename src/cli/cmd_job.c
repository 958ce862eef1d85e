/* job list, job show */
#include "base/fail.h"
#include "cli/json.h"
#include "cli/stage.h"

#include <stdio.h>
#include <string.h>

/* What a row of the list needs: the state is asked of core, so the job is loaded. */
typedef struct job_lister {
    mf_cli *cli;
    mf_stage only; /* MF_STAGE_COUNT = all */
    json_t *array; /* NULL = text */
    size_t shown;
    mf_status status;
    mf_err *err;
} job_lister;

static void print_row(const job_lister *lister, const char *job, const char *address, mf_day start,
                      mf_stage stage)
{
    char day[MF_DAY_TEXT], id[48];
    mf_day_text(start, day);
    snprintf(id, sizeof id, "stage.%s", mf_stage_name(stage));
    mf_cli_pad(job, 16);
    printf("%s  ", day);
    mf_cli_pad(mf_cli_word(lister->cli, id), 30);
    printf("%s\n", address);
}

static void json_row(const job_lister *lister, const char *job, const char *address, mf_day start,
                     mf_stage stage)
{
    json_t *object = json_object();
    json_object_set_new(object, "job", json_string(job));
    json_object_set_new(object, "address", json_string(address));
    json_object_set_new(object, "start", mf_json_day(start));
    json_object_set_new(object, "state", json_string(mf_stage_name(stage)));
    json_array_append_new(lister->array, object);
}

static bool list_one(const char *id, const char *address, mf_day start, void *data)
{
    job_lister *lister = data;
    mf_job *job = NULL;
    lister->status = mf_book_job(lister->cli->book, id, &job, lister->err);
    if (lister->status != MF_OK)
        return false;
    mf_stage stage = mf_stage_of(job, lister->cli->today);
    mf_book_job_free(job);
    if (lister->only != MF_STAGE_COUNT && stage != lister->only)
        return true;
    lister->shown++;
    if (lister->array != NULL)
        json_row(lister, id, address, start, stage);
    else
        print_row(lister, id, address, start, stage);
    return true;
}

static mf_status list_jobs(job_lister *lister, const mf_args *args)
{
    const char *state = mf_args_value(args, "state"), *find = mf_args_value(args, "find");
    if (state != NULL && (lister->only = mf_stage_named(state)) == MF_STAGE_COUNT)
        return mf_failf(lister->err, MF_USAGE, "--state", "",
                        "they are outside, preparing, working, verified, completed, closed",
                        "%s is no state", state);
    mf_status status = mf_cli_book(lister->cli, lister->err);
    if (status == MF_OK && find != NULL)
        status = mf_book_find(lister->cli->book, find, list_one, lister, lister->err);
    else if (status == MF_OK)
        status = mf_book_jobs(lister->cli->book, list_one, lister, lister->err);
    return status == MF_OK ? lister->status : status;
}

mf_status mf_cmd_job_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    job_lister lister = {
        .cli = cli, .only = MF_STAGE_COUNT, .array = cli->json ? json_array() : NULL, .err = &err};
    mf_status status = list_jobs(&lister, args);
    if (status != MF_OK) {
        json_decref(lister.array);
        return mf_cli_fail(&err);
    }
    if (cli->json)
        return mf_json_print(lister.array);
    if (lister.shown == 0)
        puts(mf_cli_word(cli, args->n_opts > 0 ? "list.none-found" : "list.no-job"));
    return MF_OK;
}

/* ---- one job at a glance -------------------------------------------------------- */

static void print_house(const mf_cli *cli, const mf_house *house)
{
    char day[MF_DAY_TEXT];
    mf_day_text(house->start, day);
    printf("%s  %s%s%s\n", house->id, house->address, house->unit[0] ? ", " : "", house->unit);
    if (house->year_built == MF_NUM_NONE)
        puts("built       year unknown");
    else
        printf("built       %d\n", (int)house->year_built);
    printf("start       %s\nwork        ", day);
    mf_cli_wrap(house->description, 12, 12);
    if (house->note[0] != '\0') {
        printf("note        ");
        mf_cli_wrap(house->note, 12, 12);
    }
    (void)cli;
}

typedef struct paint_count {
    size_t lead, presumed, free_of_it;
} paint_count;

static paint_count count_paint(const mf_job *job)
{
    paint_count n = {0, 0, 0};
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        mf_paint_judge(job, &job->component[i], &finding);
        n.lead += finding.verdict == MF_PAINT_LEAD;
        n.presumed += finding.verdict == MF_PAINT_PRESUMED;
        n.free_of_it += finding.verdict == MF_PAINT_FREE;
    }
    return n;
}

static bool gate_yes(const mf_cli *cli, const mf_job *job, mf_gate gate)
{
    mf_cover_answer cover;
    mf_finding found[512];
    mf_audit_ask question = {job, cli->today, 1u << gate, ""};
    if (gate == MF_GATE_RULE) {
        mf_cover_judge(job, &cover);
        return cover.cover == MF_COVER_YES;
    }
    size_t n = mf_audit(&question, found, 512);
    /* Findings beyond the room here cannot turn a no into a yes unseen. */
    return n <= 512 && mf_audit_yes(found, n < 512 ? n : 512);
}

static json_t *json_gates(const mf_cli *cli, const mf_job *job)
{
    json_t *gates = json_object();
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        json_object_set_new(gates, mf_gate_name((mf_gate)gate),
                            json_string(gate_yes(cli, job, (mf_gate)gate) ? "yes" : "no"));
    return gates;
}

static mf_status show_json(const mf_cli *cli, const mf_job *job)
{
    mf_due due;
    paint_count n = count_paint(job);
    mf_due_dates(job, &due);
    json_t *root = json_object();
    json_object_set_new(root, "house", mf_json_item(mf_kind_named("house"), &job->house[0]));
    json_object_set_new(root, "openings", json_integer((json_int_t)job->n_opening));
    json_object_set_new(root, "components", json_integer((json_int_t)job->n_component));
    json_object_set_new(root, "readings", json_integer((json_int_t)job->n_reading));
    json_object_set_new(root, "lead", json_integer((json_int_t)n.lead));
    json_object_set_new(root, "presumed", json_integer((json_int_t)n.presumed));
    json_object_set_new(root, "free", json_integer((json_int_t)n.free_of_it));
    json_object_set_new(root, "handover_due", mf_json_day(due.handover));
    json_object_set_new(root, "keep_until", mf_json_day(due.keep_until));
    json_object_set_new(root, "gates", json_gates(cli, job));
    return mf_json_print(root);
}

static void show_text(const mf_cli *cli, const mf_job *job)
{
    mf_due due;
    char day[MF_DAY_TEXT], id[48];
    paint_count n = count_paint(job);
    mf_due_dates(job, &due);
    print_house(cli, &job->house[0]);
    printf("openings    %zu, with %zu components\n", job->n_opening, job->n_component);
    printf("paint       %zu with lead, %zu presumed, %zu shown free (%zu readings)\n", n.lead,
           n.presumed, n.free_of_it, job->n_reading);
    printf("work areas  %zu\n", job->n_area);
    mf_day_text(due.handover, day);
    printf("hand over   %s\n", day[0] ? day : "when completed");
    mf_day_text(due.keep_until, day);
    printf("keep until  %s\n\n", day[0] ? day : "when completed");
    for (int gate = 0; gate < MF_GATE_COUNT; gate++) {
        snprintf(id, sizeof id, "gate.%s", mf_gate_name((mf_gate)gate));
        mf_cli_pad(mf_cli_word(cli, id), 48);
        puts(mf_cli_word(cli, gate_yes(cli, job, (mf_gate)gate) ? "word.yes" : "word.no"));
    }
    mf_cli_caution(cli);
}

mf_status mf_cmd_job_show(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    mf_book_report report = {0};
    if (mf_book_check_job(cli->book, job->id, &report, NULL) == MF_OK)
        job->integrity = MF_INTEGRITY_GOOD;
    if (cli->json)
        status = show_json(cli, job);
    else
        show_text(cli, job);
    mf_book_job_free(job);
    return status;
}
