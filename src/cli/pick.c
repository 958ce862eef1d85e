/* pick.c - which jobs a command for the whole firm goes through. */
#include "cli/pick.h"

#include "base/fail.h"

#include <stdio.h>
#include <string.h>

const char *mf_stage_words(mf_lang lang, mf_stage stage)
{
    char id[48];
    snprintf(id, sizeof id, "stage.%s", mf_stage_name(stage));
    const char *words = mf_words(lang, id);
    return words == NULL ? mf_stage_name(stage) : words;
}

static bool is_meant(const char *text, const char *words)
{
    size_t first = strcspn(words, " ,:");
    return strcmp(words, text) == 0 || (strlen(text) == first && strncmp(words, text, first) == 0);
}

mf_status mf_pick_state(const char *text, mf_stage *out, mf_err *err)
{
    *out = mf_stage_named(text);
    for (int stage = 0; *out == MF_STAGE_COUNT && stage < MF_STAGE_COUNT; stage++)
        for (int lang = 0; lang < MF_LANG_COUNT; lang++)
            if (is_meant(text, mf_stage_words((mf_lang)lang, (mf_stage)stage)))
                *out = (mf_stage)stage;
    if (*out != MF_STAGE_COUNT)
        return MF_OK;
    return mf_failf(err, MF_INPUT, "--state", "",
                    "they are outside, called-off, preparing, ready, working, verified, "
                    "unverified, completed, closed, late, altered",
                    "%s is not a state", text);
}

bool mf_pick_asked(const mf_args *args)
{
    return mf_args_value(args, "state") != NULL || mf_args_value(args, "since") != NULL ||
           mf_args_value(args, "until") != NULL;
}

mf_status mf_pick_read(mf_pick *out, const mf_args *args, mf_err *err)
{
    const char *state = mf_args_value(args, "state");
    *out = MF_PICK_ALL;
    mf_status status = state == NULL ? MF_OK : mf_pick_state(state, &out->stage, err);
    if (status == MF_OK)
        status = mf_cli_day_in(args, "since", MF_DAY_NONE, &out->since, err);
    if (status == MF_OK)
        status = mf_cli_day_in(args, "until", MF_DAY_NONE, &out->until, err);
    bool both = status == MF_OK && out->since != MF_DAY_NONE && out->until != MF_DAY_NONE;
    if (both && out->until < out->since)
        return mf_fail(err, MF_INPUT, "--until", "it lies before --since", "",
                       "give the first day with --since, the last with --until");
    return status;
}

mf_status mf_pick_names_file(const char *id, const char *folder, mf_err *err)
{
    mf_parsed parsed;
    if (mf_field_parse(mf_field_named(mf_kind_named("house"), "id"), id, "", MF_DAY_NONE,
                       &parsed) == MF_SLIP_NONE)
        return MF_OK;
    return mf_failf(err, MF_SYSTEM, folder, "no file can be named so", "see \"book check\"",
                    "a job is called \"%.60s\"", id);
}

static void reach(mf_day day, mf_day *from, mf_day *to)
{
    if (day == MF_DAY_NONE)
        return;
    *from = *from == MF_DAY_NONE || day < *from ? day : *from;
    *to = *to == MF_DAY_NONE || day > *to ? day : *to;
}

void mf_work_days(const mf_job *job, mf_day *from, mf_day *to)
{
    *from = *to = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_house; i++) {
        reach(job->house[i].start, from, to);
        reach(job->house[i].end, from, to);
    }
    for (size_t i = 0; i < job->n_practice; i++)
        reach(job->practice[i].on, from, to);
    for (size_t i = 0; i < job->n_completion; i++)
        reach(job->completion[i].on, from, to);
}

typedef struct walk_jobs {
    mf_cli *cli;
    mf_pick *pick;
    mf_pick_fn *fn;
    void *data;
    mf_book_looks *looks; /* NULL = nobody asks whether they were altered */
    mf_status status;
    mf_err *err;
} walk_jobs;

static bool picked(const mf_pick *pick, const mf_job *job, mf_day today)
{
    mf_day from, to;
    if (job->n_house == 0)
        return false;
    mf_work_days(job, &from, &to);
    if (job->n_completion == 0 && to < today)
        to = today; /* it goes on, as nobody said else */
    return (pick->since == MF_DAY_NONE || to >= pick->since) &&
           (pick->until == MF_DAY_NONE || from <= pick->until) &&
           (pick->stage == MF_STAGE_COUNT || mf_stage_of(job, today) == pick->stage);
}

static bool one_job(const char *id, const char *address, mf_day start, void *data)
{
    walk_jobs *w = data;
    mf_job *job = NULL;
    size_t left_out = 0;
    (void)address;
    (void)start;
    w->status = mf_cli_job_of_many(w->cli, id, &job, w->err);
    if (job != NULL)
        w->status = mf_book_job_until(job, w->cli->today, &left_out, w->err);
    w->pick->left_out += left_out;
    if (job != NULL && w->status == MF_OK && w->looks != NULL)
        w->status = mf_book_looks_mark(w->looks, job, w->err);
    if (job != NULL && w->status == MF_OK && picked(w->pick, job, w->cli->today)) {
        w->pick->n++;
        w->status = w->fn(job, w->data, w->err);
    }
    mf_book_job_free(job);
    return w->status == MF_OK;
}

mf_status mf_pick_each(mf_cli *cli, mf_pick *pick, mf_pick_fn *fn, void *data, mf_err *err)
{
    walk_jobs w = {cli, pick, fn, data, NULL, MF_OK, err};
    mf_status status = mf_cli_book(cli, err);
    /* What was altered is in no other state. */
    if (status == MF_OK && (pick->mark || pick->stage != MF_STAGE_COUNT))
        status = mf_book_looks_begin(&w.looks, cli->book, err);
    if (status == MF_OK)
        status = mf_cli_jobs(cli, one_job, &w, err);
    mf_book_looks_end(w.looks);
    return status == MF_OK ? w.status : status;
}
