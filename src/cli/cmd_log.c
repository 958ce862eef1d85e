/* Every command that logs one entry: the options are the fields of the kind. */
#include "base/digest.h"
#include "base/fail.h"
#include "base/file.h"
#include "cli/cli.h"
#include "words/refused.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The job an entry belongs to: none for the firm's, its own id for a new job. */
static const char *job_of(const mf_kind *kind, const mf_args *args)
{
    if (kind->of_firm)
        return "";
    if (strcmp(kind->name, "house") != 0)
        return args->word[0];
    const char *id = mf_args_value(args, "id");
    return id == NULL ? "" : id;
}

static void say_logged(const mf_cli *cli, const mf_kind *kind, const char *id)
{
    if (cli->walking)
        return;
    if (cli->json)
        printf("{\"entry\": \"%s\", \"kind\": \"%s\"}\n", id, kind->name);
    else
        printf("logged %s %s\n", kind->name, id);
}

/* What was logged may prove less than the person thinks: say so at once. */
static void note_doubt(mf_cli *cli, const char *job_id, const char *component)
{
    mf_job *job = NULL;
    mf_paint_finding finding;
    if (component == NULL || mf_book_job(cli->book, job_id, &job, NULL) != MF_OK)
        return;
    const mf_component *found = mf_job_component(job, component);
    if (found != NULL) {
        mf_paint_judge(job, found, &finding);
        if (finding.doubt != MF_DOUBT_NONE)
            mf_cli_note(cli, "%s: %s", component, mf_words_doubt(cli->lang, finding.doubt));
    }
    mf_book_job_free(job);
}

static mf_status log_draft(mf_cli *cli, const mf_kind *kind, const mf_args *args,
                           const mf_draft *draft, mf_err *err)
{
    mf_now now;
    char id[MF_ENTRY_ID];
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_book_write(cli->book, draft, job_of(kind, args), &now, "", id, err);
    mf_book_job_free(cli->spare); /* read before this was written */
    cli->spare = NULL;
    if (status == MF_OK)
        say_logged(cli, kind, id);
    return status;
}

void mf_log_place(const mf_cli *cli, const mf_kind *kind, mf_args *args)
{
    const char *place = cli->setting[MF_SET_PLACE];
    if (strcmp(kind->name, "house") != 0 || place[0] == '\0' ||
        mf_args_value(args, "place") != NULL)
        return;
    mf_args_put(args, "place", place);
    mf_cli_note(cli, "place %s, from %s", place, cli->from[MF_SET_PLACE]);
}

mf_status mf_log_one(mf_cli *cli, const mf_kind *kind, const mf_args *args, mf_err *err)
{
    mf_draft *draft = NULL;
    mf_args whole = *args;
    mf_log_place(cli, kind, &whole);
    mf_status status = mf_cli_draft(cli, kind, &whole, &draft, err);
    if (status == MF_OK)
        status = log_draft(cli, kind, &whole, draft, err);
    mf_draft_free(draft);
    return status;
}

mf_status mf_cmd_log(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    if (mf_log_one(cli, mf_kind_named(cmd->kind), args, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (strcmp(cmd->group, "test") == 0)
        note_doubt(cli, args->word[0], mf_args_value(args, "component"));
    return MF_OK;
}

/* ---- ticks: several steps at once, each an entry, all or none ---------------- */

static mf_phase phase_of(const mf_cmd *cmd)
{
    return strcmp(cmd->group, "containment") == 0 ? MF_PHASE_CONTAIN : MF_PHASE_CLEAN;
}

static mf_status check_step(const mf_cmd *cmd, const mf_job *job, const mf_area *area,
                            const char *id, mf_step *step, mf_err *err)
{
    mf_status status = mf_step_on_list(job, area, id, step, err);
    if (status != MF_OK)
        return status;
    bool cleaning = step->phase == MF_PHASE_CLEAN;
    if (cleaning != (phase_of(cmd) == MF_PHASE_CLEAN))
        return mf_failf(err, MF_INPUT, "--step", "",
                        cleaning ? "use \"cleaning tick\"" : "use \"containment tick\"",
                        "the step %s belongs to the other list", id);
    return MF_OK;
}

/* The file itself stays where it is: what is kept ties it to the entry. */
mf_status mf_log_photo(const char *path, char out[MF_PHOTO_TEXT], mf_err *err)
{
    mf_bytes photo = {0};
    char hex[MF_HASH_HEX];
    mf_status status = mf_file_read(&photo, path, (size_t)256 << 20, err);
    if (status != MF_OK)
        return status;
    bool done = mf_digest_hex(photo.data, photo.len, hex);
    mf_bytes_free(&photo);
    if (!done)
        return mf_fail_memory(err);
    snprintf(out, MF_PHOTO_TEXT, "%.200s sha256:%s", mf_file_name(path), hex);
    return MF_OK;
}

/* Each step, and the photo by its digest, in place of what was typed. */
static mf_status tick_args(mf_args *one, const char *step, char photo[MF_PHOTO_TEXT], mf_err *err)
{
    for (int i = 0; i < one->n_opts; i++) {
        if (strcmp(one->opt[i], "step") == 0)
            one->value[i] = step;
        if (strcmp(one->opt[i], "photo") != 0)
            continue;
        mf_status status = mf_log_photo(one->value[i], photo, err);
        if (status != MF_OK)
            return status;
        one->value[i] = photo;
    }
    return MF_OK;
}

/* The ticks of one command, which are all logged or none. */
typedef struct ticking {
    mf_cli *cli;
    const mf_cmd *cmd;
    const mf_args *args;
    const mf_job *job;
    mf_now now;
    char (*id)[MF_ENTRY_ID]; /* of the n entries, told when they are in the book */
    size_t n, cap;
} ticking;

static mf_status tick_one(ticking *t, const mf_area *area, const mf_step *step, mf_err *err)
{
    char photo[MF_PHOTO_TEXT];
    mf_args one = *t->args;
    mf_draft *draft = NULL;
    void *more = mf_grown(t->id, t->n, &t->cap, sizeof *t->id);
    if (more == NULL)
        return mf_fail_memory(err);
    t->id = more;
    mf_status status = tick_args(&one, step->id, photo, err);
    if (status == MF_OK)
        status = mf_cli_draft(t->cli, mf_kind_named("tick"), &one, &draft, err);
    if (status == MF_OK)
        status = mf_cli_check_skipped(t->cli, t->job, area, step, &one, err);
    if (status == MF_OK)
        status = mf_book_write(t->cli->book, draft, one.word[0], &t->now, "", t->id[t->n], err);
    t->n += status == MF_OK;
    mf_draft_free(draft);
    return status;
}

/* Calls check_step and tick_one for each step of the comma list. */
static mf_status each_step(ticking *t, const mf_area *area, const char *list, mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK && *list != '\0') {
        char id[48];
        mf_step step;
        size_t len = strcspn(list, ",");
        snprintf(id, sizeof id, "%.*s", (int)(len < 47 ? len : 47), list);
        status = check_step(t->cmd, t->job, area, id, &step, err);
        if (status == MF_OK)
            status = tick_one(t, area, &step, err);
        list += len + (list[len] == ',');
    }
    return status;
}

static mf_status tick_all(ticking *t, mf_err *err)
{
    const char *id = mf_args_value(t->args, "area");
    const mf_area *area = id == NULL ? NULL : mf_job_area(t->job, id);
    if (area == NULL)
        return mf_failf(err, MF_INPUT, "--area", "", "see \"area list\"",
                        "there is no work area %s", id == NULL ? "" : id);
    const char *steps = mf_args_value(t->args, "step");
    if (steps == NULL || steps[0] == '\0') /* or nothing would be logged without a word */
        return mf_fail(err, MF_USAGE, "--step", "is needed here", "", t->cmd->example);
    mf_status status = mf_cli_now(t->cli, &t->now, err);
    if (status == MF_OK)
        status = mf_book_begin(t->cli->book, err);
    if (status != MF_OK)
        return status;
    status = each_step(t, area, steps, err);
    if (status == MF_OK)
        return mf_book_commit(t->cli->book, err);
    mf_book_rollback(t->cli->book);
    return status;
}

mf_status mf_log_ticks(mf_cli *cli, const mf_cmd *cmd, const mf_args *args, mf_err *err)
{
    mf_job *job = NULL;
    mf_status status = mf_cli_job(cli, args->word[0], &job, err);
    ticking t = {.cli = cli, .cmd = cmd, .args = args, .job = job};
    if (status == MF_OK)
        status = tick_all(&t, err);
    for (size_t i = 0; status == MF_OK && i < t.n; i++)
        say_logged(cli, mf_kind_named("tick"), t.id[i]);
    free(t.id);
    mf_book_job_free(job);
    return status;
}

mf_status mf_cmd_log_tick(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    if (mf_log_ticks(cli, cmd, args, &err) != MF_OK)
        return mf_cli_fail(&err);
    return MF_OK;
}

/* ---- events that core can refuse or must warn of ---------------------------- */

mf_status mf_log_verification(mf_cli *cli, const mf_args *args, mf_err *err)
{
    mf_job *job = NULL;
    mf_draft *draft = NULL;
    mf_verification event = {.section = MF_NUM_NONE, .surface = "", .area = ""};
    const mf_kind *kind = mf_kind_named("verification");
    mf_status status = mf_cli_draft(cli, kind, args, &draft, err);
    if (status == MF_OK)
        status = mf_cli_fill(kind, args, cli->today, &event, err);
    if (status == MF_OK)
        status = mf_cli_job(cli, args->word[0], &job, err);
    /* A surface in one piece has one section; an entry without it would count for none. */
    if (status == MF_OK && event.section == MF_NUM_NONE) {
        event.section = event.surface[0] != '\0' ? 1 : 0;
        status = event.section == 0
                     ? MF_OK
                     : mf_draft_set(draft, "section", "1", "", "--section", cli->today, err);
    }
    if (status == MF_OK)
        status = mf_verification_check(cli->lang, job, &event, err);
    if (status == MF_OK)
        status = log_draft(cli, kind, args, draft, err);
    mf_draft_free(draft);
    mf_book_job_free(job);
    return status;
}

mf_status mf_cmd_log_verification(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    if (mf_log_verification(cli, args, &err) != MF_OK)
        return mf_cli_fail(&err);
    return MF_OK;
}

/* The paragraph of 745.85(a)(3) that a method breaks. */
static const char *paragraph_of(mf_method method)
{
    switch (method) {
    case MF_METHOD_OPEN_FLAME:
        return "40 CFR 745.85(a)(3)(i)";
    case MF_METHOD_MACHINE:
    case MF_METHOD_BLASTING:
        return "40 CFR 745.85(a)(3)(ii)";
    case MF_METHOD_HEAT_GUN:
        return "40 CFR 745.85(a)(3)(iii)";
    case MF_METHOD_HAND:
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
    case MF_METHOD_STRIPPER:
    case MF_METHOD_DEMOLITION:
        break;
    }
    return "40 CFR 745.85(a)(3)";
}

/* By the limits of the job's places; by the rule's alone where there is no such job, as
 * logging it will say. */
static bool is_prohibited(mf_cli *cli, const char *id, const mf_practice *practice)
{
    mf_job *job = NULL;
    if (mf_cli_job(cli, id, &job, NULL) != MF_OK)
        job = NULL;
    bool refused = mf_practice_refused(job, practice);
    mf_book_job_free(job);
    return refused;
}

/* What is only planned can still be planned otherwise; what happened is kept. */
mf_status mf_cmd_log_practice(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_practice practice;
    bool filled = mf_cli_fill(mf_kind_named(cmd->kind), args, cli->today, &practice, NULL) == MF_OK;
    bool prohibited = filled && is_prohibited(cli, args->word[0], &practice);
    if (prohibited && practice.planned == MF_YES) {
        mf_fail(&err, MF_INPUT, "--method", mf_cli_word(cli, "refuse.planned"),
                paragraph_of(practice.method), mf_cli_word(cli, "refuse.planned.mend"));
        return mf_cli_fail(&err);
    }
    mf_status status = mf_cmd_log(cli, cmd, args);
    if (status == MF_OK && prohibited)
        mf_cli_note(cli, "%s", mf_cli_word(cli, "note.prohibited"));
    return status;
}

/* A firm may teach more than the tasks of the rule; a word mistyped is told at once, not
 * when an inspector asks. */
mf_status mf_cmd_log_training(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_training training;
    const char *at = "";
    bool filled = mf_cli_fill(mf_kind_named(cmd->kind), args, cli->today, &training, NULL) == MF_OK;
    mf_status status = mf_cmd_log(cli, cmd, args);
    size_t len = filled ? mf_topic_unknown(training.topics, &at) : 0;
    if (status == MF_OK && len > 0)
        mf_cli_note(cli, "\"%.*s\" %s", (int)len, at, mf_cli_word(cli, "note.topic"));
    return status;
}
