/* Tables of the firm: a row a job with the answers of its gates, and what is due; and tables of
 * many jobs made one. */
#include "cli/due.h"
#include "cli/export.h"
#include "cli/pick.h"

#include "base/fail.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 36 };

/* ---- a row a job ------------------------------------------------------------------------- */

void mf_export_jobs_table(const mf_sink *sink)
{
    static const char *const heads[] = {
        "job",  "address", "unit",  "start",    "end",        "completed",    "state",
        "rule", "demo",    "signs", "handover", "inspection", "handover_due", "keep_until"};
    sink->table(sink->data, "jobs", heads, sizeof heads / sizeof heads[0]);
}

static mf_status gate_cell(const mf_cli *cli, const mf_job *job, mf_gate gate, const char **out,
                           mf_err *err)
{
    mf_gate_found answer;
    if (!mf_gate_answer(cli, job, gate, &answer))
        return mf_fail_memory(err);
    *out = mf_gate_code(&answer);
    free(answer.found);
    return MF_OK;
}

mf_status mf_export_job(const mf_cli *cli, const mf_job *job, const mf_hide *hide,
                        const mf_sink *sink, mf_err *err)
{
    const mf_house *house = &job->house[0];
    char start[MF_DAY_TEXT], end[MF_DAY_TEXT], completed[MF_DAY_TEXT], due[MF_DAY_TEXT],
        keep[MF_DAY_TEXT];
    const char *answers[MF_GATE_COUNT] = {NULL};
    mf_status status = MF_OK;
    mf_due dates;
    mf_due_dates(job, &dates);
    mf_day_text(house->start, start);
    mf_day_text(house->end, end);
    mf_day_text(job->n_completion == 0 ? MF_DAY_NONE : job->completion[job->n_completion - 1].on,
                completed);
    mf_day_text(dates.handover, due);
    mf_day_text(dates.keep_until, keep);
    for (int gate = 0; status == MF_OK && gate < MF_GATE_COUNT; gate++)
        status = gate_cell(cli, job, (mf_gate)gate, &answers[gate], err);
    if (status != MF_OK)
        return status;
    const mf_cell cells[] = {{job->id, false},
                             {hide->home ? MF_LEFT_OUT : house->address, false},
                             {hide->home && house->unit[0] ? MF_LEFT_OUT : house->unit, false},
                             {start, false},
                             {end, false},
                             {completed, false},
                             {mf_stage_name(mf_stage_of(job, cli->today)), false},
                             {answers[MF_GATE_RULE], false},
                             {answers[MF_GATE_DEMO], false},
                             {answers[MF_GATE_SIGNS], false},
                             {answers[MF_GATE_HANDOVER], false},
                             {answers[MF_GATE_INSPECTION], false},
                             {due, false},
                             {keep, false}};
    sink->row(sink->data, cells, sizeof cells / sizeof cells[0]);
    return MF_OK;
}

/* ---- what is due ------------------------------------------------------------------------- */

void mf_export_due_table(const mf_sink *sink)
{
    static const char *const heads[] = {"job",  "day",  "late",    "who",
                                        "what", "says", "lacking", "subject"};
    sink->table(sink->data, "due", heads, sizeof heads / sizeof heads[0]);
}

static mf_status due_rows(const mf_cli *cli, mf_due_list *list, const mf_sink *sink, mf_err *err)
{
    for (size_t i = 0; !list->failed && i < list->n; i++) {
        const mf_due_row *row = &list->rows[i];
        const char *id = mf_due_words_id(row->what);
        char day[MF_DAY_TEXT], lacking[24];
        mf_day_text(row->day, day);
        snprintf(lacking, sizeof lacking, "%zu", row->n);
        const mf_cell cells[] = {{row->job, false},
                                 {day, false},
                                 {row->day < cli->today ? "yes" : "no", false},
                                 {row->who, false},
                                 {id + strlen("due."), false},
                                 {mf_cli_word(cli, id), false},
                                 {lacking, true},
                                 {row->subject, false}};
        sink->row(sink->data, cells, sizeof cells / sizeof cells[0]);
    }
    free(list->rows);
    return list->failed ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_export_due(const mf_cli *cli, const mf_job *job, const mf_sink *sink, mf_err *err)
{
    mf_due_list list = {.lang = cli->lang};
    mf_due_of_job(job, mf_stage_of(job, cli->today), cli->today, &list);
    return due_rows(cli, &list, sink, err);
}

mf_status mf_export_due_firm(const mf_cli *cli, const mf_job *firm, const mf_sink *sink,
                             mf_err *err)
{
    mf_due_list list = {.lang = cli->lang};
    mf_due_of_firm(firm, cli->today, MF_DUE_CERTIFICATE_DAYS, &list);
    return due_rows(cli, &list, sink, err);
}

/* ---- many jobs --------------------------------------------------------------------------- */

/* These name the job in each row by themselves. */
static bool has_job(const mf_many *many)
{
    return strcmp(many->headed, "jobs") == 0 || strcmp(many->headed, "due") == 0;
}

static void many_table(void *data, const char *name, const char *const *heads, size_t n)
{
    mf_many *many = data;
    const char *whole[COLUMNS] = {"job"};
    if (strcmp(many->headed, name) == 0)
        return; /* rows of the next job */
    snprintf(many->headed, sizeof many->headed, "%s", name);
    for (size_t i = 0; i < n && i + 1 < COLUMNS; i++)
        whole[i + 1] = heads[i];
    if (has_job(many))
        many->into->table(many->into->data, name, heads, n);
    else
        many->into->table(many->into->data, name, whole, n + 1 < COLUMNS ? n + 1 : COLUMNS);
}

static void many_row(void *data, const mf_cell *cells, size_t n)
{
    mf_many *many = data;
    mf_cell whole[COLUMNS] = {{many->job, false}};
    for (size_t i = 0; i < n && i + 1 < COLUMNS; i++)
        whole[i + 1] = cells[i];
    if (has_job(many))
        many->into->row(many->into->data, cells, n);
    else
        many->into->row(many->into->data, whole, n + 1 < COLUMNS ? n + 1 : COLUMNS);
}

mf_sink mf_export_many(mf_many *many)
{
    return (mf_sink){many, many_table, many_row};
}
