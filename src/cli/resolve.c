/* Ids as people type them: the beginning of an id will do when only one thing
 * begins so, and a slip of the fingers is answered with what was meant. */
#include "cli/cli.h"

#include "base/fail.h"
#include "base/letters.h"

#include <stdio.h>
#include <string.h>

/* What one typed id is compared with, and the best found so far. */
typedef struct search {
    const char *typed;
    const char *exact, *begins, *near;
    int n_begins;
    int distance;
    char some[160]; /* the first few that begin so, for the message */
} search;

static void see(search *s, const char *id)
{
    if (strcmp(id, s->typed) == 0)
        s->exact = id;
    if (s->begins != NULL && strcmp(id, s->begins) == 0)
        return; /* corrected entries may bring an id twice */
    if (strncmp(id, s->typed, strlen(s->typed)) == 0) {
        size_t len = strlen(s->some);
        if (s->n_begins < 4)
            snprintf(s->some + len, sizeof s->some - len, "%s%s", len > 0 ? ", " : "", id);
        s->begins = id;
        s->n_begins++;
    }
    int distance = mf_letters_apart(s->typed, id);
    if (distance < s->distance) {
        s->distance = distance;
        s->near = id;
    }
}

static search start(const char *typed)
{
    search s = {.typed = typed};
    s.distance = strlen(typed) < 4 ? 2 : 3; /* at least this far apart is no slip */
    return s;
}

/* The id that is meant, in *out; what was typed when nothing is like it, so that
 * whoever needs it says that there is none. */
static mf_status decide(mf_cli *cli, const search *s, const char *where, const char *kind,
                        const char **out, mf_err *err)
{
    *out = s->typed;
    if (s->exact != NULL || s->typed[0] == '\0')
        return MF_OK;
    if (s->n_begins == 1) {
        *out = mf_arena_text(&cli->ids, s->begins);
        if (*out == NULL)
            return mf_fail_memory(err);
        mf_cli_note(cli, "%s %s is %s", kind, s->typed, *out);
        return MF_OK;
    }
    char mend[320];
    if (s->n_begins > 1) {
        snprintf(mend, sizeof mend, "write more of it: %s%s", s->some,
                 s->n_begins > 4 ? " ..." : "");
        return mf_failf(err, MF_INPUT, where, "", mend, "more than one %s begins with %s", kind,
                        s->typed);
    }
    if (s->near == NULL)
        return MF_OK;
    snprintf(mend, sizeof mend, "did you mean %s?", s->near);
    return mf_failf(err, MF_INPUT, where, "", mend, "there is no %s %s", kind, s->typed);
}

/* ---- jobs ---------------------------------------------------------------------------- */

typedef struct job_search {
    mf_cli *cli;
    search s;
} job_search;

static bool see_job(const char *id, const char *address, mf_day day, void *data)
{
    job_search *js = data;
    (void)address;
    (void)day;
    char *kept = mf_arena_text(&js->cli->ids, id);
    if (kept != NULL)
        see(&js->s, kept);
    return kept != NULL;
}

/* The job is loaded as typed first: the usual case costs nothing more, for the
 * command takes over what was loaded here. */
static mf_status resolve_job(mf_cli *cli, const char *where, const char **id, mf_err *err)
{
    if ((*id)[0] == '\0') /* a variable of the shell that was never set */
        return mf_fail(err, MF_INPUT, where, "no job is named", "the word for it is empty",
                       "name the job; \"mistfold job list\" shows them all");
    if (mf_cli_book(cli, NULL) != MF_OK)
        return MF_OK; /* the command says what is wrong with the book */
    mf_book_job_free(cli->spare);
    cli->spare = NULL;
    if (mf_book_job(cli->book, *id, &cli->spare, NULL) == MF_OK)
        return MF_OK;
    job_search js = {cli, start(*id)};
    mf_status status = mf_book_jobs(cli->book, see_job, &js, err);
    if (status == MF_OK && js.s.exact == NULL && js.s.begins == NULL && js.s.near == NULL)
        return mf_failf(err, MF_INPUT, where, "",
                        "\"job list\" shows them all, \"job walk\" opens one", "there is no job %s",
                        *id);
    return status == MF_OK ? decide(cli, &js.s, where, "job", id, err) : status;
}

/* ---- things in a job or of the firm --------------------------------------------------- */

static void see_items(search *s, const mf_job *job, const mf_kind *kind, const mf_field *key)
{
    const char *id;
    size_t count;
    const char *items = mf_kind_items(job, kind, &count);
    for (size_t i = 0; i < count; i++) {
        memcpy(&id, items + i * kind->size + key->offset, sizeof id);
        see(s, id);
    }
}

static void see_steps(search *s, const mf_cmd *cmd, const mf_job *job)
{
    mf_step step;
    bool cleaning = strcmp(cmd->group, "cleaning") == 0;
    for (size_t i = 0; mf_step_at(job, i, &step); i++)
        if ((step.phase == MF_PHASE_CLEAN) == cleaning || strcmp(step.id, s->typed) == 0)
            see(s, step.id);
}

static mf_status resolve_id(mf_cli *cli, const mf_cmd *cmd, const mf_job *job, const char *ref,
                            const char *option, const char **id, mf_err *err)
{
    char where[64];
    search s = start(*id);
    const mf_kind *kind = mf_kind_named(ref);
    const mf_field *key = kind == NULL ? NULL : mf_kind_key(kind);
    snprintf(where, sizeof where, "--%s", option);
    bool step = strcmp(option, "step") == 0;
    bool who = strcmp(option, "who") == 0;
    bool the_firm = (who || strcmp(option, "holder") == 0) && strcmp(*id, "firm") == 0;
    bool the_office = who && strcmp(*id, "office") == 0;
    if (the_firm || the_office || (!step && key == NULL))
        return MF_OK;
    if (step)
        see_steps(&s, cmd, job);
    else
        see_items(&s, job, kind, key);
    return decide(cli, &s, where, ref, id, err);
}

/* One id, or several with commas. */
static mf_status resolve_list(mf_cli *cli, const mf_cmd *cmd, const mf_job *job, const char *ref,
                              const char *option, const char **value, mf_err *err)
{
    mf_buf whole = {0};
    const char *rest = *value;
    mf_status status = MF_OK;
    if (strchr(rest, ',') == NULL)
        return resolve_id(cli, cmd, job, ref, option, value, err);
    while (status == MF_OK && *rest != '\0') {
        char one[80];
        const char *id = one;
        size_t len = strcspn(rest, ",");
        snprintf(one, sizeof one, "%.*s", (int)(len < 79 ? len : 79), rest);
        status = resolve_id(cli, cmd, job, ref, option, &id, err);
        mf_buf_printf(&whole, "%s%s", whole.len > 0 ? "," : "", id);
        rest += len + (rest[len] == ',');
    }
    if (status == MF_OK && (*value = mf_arena_text(&cli->ids, mf_buf_str(&whole))) == NULL)
        status = mf_fail_memory(err);
    mf_buf_free(&whole);
    return status;
}

/* The kind an option names a thing of, or NULL. */
static const char *ref_of(const mf_cmd *cmd, const char *option)
{
    const mf_kind *kind = cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    const mf_field *field = kind == NULL ? NULL : mf_field_named(kind, option);
    if (strcmp(option, "step") == 0)
        return "step";
    if (field != NULL)
        return field->ref;
    if (strcmp(option, "area") == 0)
        return "area";
    if (strcmp(option, "who") == 0) /* due --who */
        return "person";
    return NULL;
}

static mf_status resolve_options(mf_cli *cli, const mf_cmd *cmd, mf_args *args, const mf_job *job,
                                 mf_err *err)
{
    mf_status status = MF_OK;
    for (int i = 0; i < args->n_opts && status == MF_OK; i++) {
        const char *ref = ref_of(cmd, args->opt[i]);
        if (ref != NULL)
            status = resolve_list(cli, cmd, job, ref, args->opt[i], &args->value[i], err);
    }
    return status;
}

static bool refers(const mf_cmd *cmd, const mf_args *args)
{
    for (int i = 0; i < args->n_opts; i++)
        if (ref_of(cmd, args->opt[i]) != NULL)
            return true;
    return false;
}

mf_status mf_resolve(mf_cli *cli, const mf_cmd *cmd, mf_args *args, mf_err *err)
{
    mf_status status = MF_OK;
    bool of_job = mf_cmd_of_job(cmd) && args->n_words > 0;
    if (of_job)
        status = resolve_job(cli, "JOB", &args->word[0], err);
    for (int i = 0; i < args->n_opts && status == MF_OK; i++)
        if (strcmp(args->opt[i], "job") == 0)
            status = resolve_job(cli, "--job", &args->value[i], err);
    if (status != MF_OK || !refers(cmd, args) || mf_cli_book(cli, NULL) != MF_OK)
        return status;
    if (cli->spare == NULL &&
        mf_book_job(cli->book, of_job ? args->word[0] : "", &cli->spare, NULL) != MF_OK)
        return MF_OK; /* no such job: the command says so */
    return resolve_options(cli, cmd, args, cli->spare, err);
}
