/* Completion of a command line: groups, actions, options, the words of a choice,
 * and ids from the book. A shell calls "mistfold --complete WORD..." with the words
 * up to the cursor; the last one is to be completed. "--complete-told" adds what each
 * candidate is after a tab, for shells that show it. */
#include "cli/man.h"
#include "cli/settings.h"

#include <stdio.h>
#include <string.h>

/* What was typed of the word, and whether the shell shows what a candidate is. */
typedef struct typed_word {
    const char *begun;
    bool told;
} typed_word;

static void offer_told(const char *candidate, const char *doc, const typed_word *typed)
{
    if (strncmp(candidate, typed->begun, strlen(typed->begun)) != 0)
        return;
    mf_cli_show(candidate);
    if (typed->told && doc[0] != '\0') {
        putchar('\t');
        mf_cli_show(doc);
    }
    putchar('\n');
}

static void offer(const char *candidate, const typed_word *typed)
{
    offer_told(candidate, "", typed);
}

static void offer_option(const char *name, const char *doc, const typed_word *typed)
{
    char option[64];
    snprintf(option, sizeof option, "--%s", name);
    offer_told(option, doc, typed);
}

static void offer_options(const mf_cmd *cmd, const typed_word *typed)
{
    const mf_kind *kind = cmd == NULL || cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    for (size_t i = 0; kind != NULL && i < kind->n_fields; i++)
        if (mf_field_is_typed(&kind->fields[i]))
            offer_option(kind->fields[i].option, kind->fields[i].doc, typed);
    for (const mf_opt *opt = cmd == NULL ? NULL : cmd->opts; opt != NULL && opt->name != NULL;
         opt++)
        offer_option(opt->name, opt->doc, typed);
    for (const mf_opt *opt = mf_args_common(); opt->name != NULL; opt++)
        offer_option(opt->name, opt->doc, typed);
}

/* Groups when group is NULL, else the actions of it. Rows of a group stand together. */
static void offer_words(const char *group, const typed_word *typed)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    for (size_t i = 0; i < count; i++) {
        if (group == NULL && (i == 0 || strcmp(cmds[i].group, cmds[i - 1].group) != 0))
            offer_told(cmds[i].group, cmds[i].action[0] == '\0' ? cmds[i].summary : "", typed);
        else if (group != NULL && strcmp(cmds[i].group, group) == 0 && cmds[i].action[0] != '\0')
            offer_told(cmds[i].action, cmds[i].summary, typed);
    }
}

/* ---- from the book ------------------------------------------------------------------- */

static bool offer_job(const char *job, const char *address, mf_day start, void *data)
{
    (void)start;
    offer_told(job, address, data);
    return true;
}

static void offer_jobs(mf_cli *cli, const typed_word *typed)
{
    typed_word copy = *typed;
    if (mf_cli_book(cli, NULL) == MF_OK)
        mf_cli_jobs(cli, offer_job, &copy, NULL);
}

/* The rule's, and the firm's own of the job; without a job that is in the book the
 * rule's alone. */
static void offer_steps(mf_cli *cli, const mf_cmd *cmd, const char *job_id, const typed_word *typed)
{
    mf_step step;
    mf_job *job = NULL;
    bool cleaning = strcmp(cmd->group, "cleaning") == 0;
    if (mf_cli_job(cli, job_id, &job, NULL) != MF_OK)
        job = NULL;
    for (size_t i = 0; mf_step_at(job, i, &step); i++)
        if ((step.phase == MF_PHASE_CLEAN) == cleaning)
            offer(step.id, typed);
    mf_book_job_free(job);
}

static void offer_ids(mf_cli *cli, const char *job_id, const char *ref, const typed_word *typed)
{
    mf_job *job = NULL;
    const char *id;
    size_t count;
    const mf_kind *kind = mf_kind_named(ref);
    if (kind == NULL || mf_cli_job(cli, kind->of_firm ? "" : job_id, &job, NULL) != MF_OK)
        return;
    const char *items = mf_kind_items(job, kind, &count);
    const mf_field *key = mf_kind_key(kind);
    for (size_t i = 0; key != NULL && i < count; i++) {
        memcpy(&id, items + i * kind->size + key->offset, sizeof id);
        offer(id, typed);
    }
    mf_book_job_free(job);
}

/* ---- what stands where ----------------------------------------------------------------- */

static const mf_opt *named(const mf_opt *opts, const char *name)
{
    for (; opts != NULL && opts->name != NULL; opts++)
        if (strcmp(opts->name, name) == 0)
            return opts;
    return NULL;
}

/* Whether a word such as --area takes the next word as its value. */
static bool takes_value(const mf_cmd *cmd, const char *word)
{
    if (strncmp(word, "--", 2) != 0 || strchr(word, '=') != NULL)
        return false;
    const char *name = word + 2;
    const mf_kind *kind = cmd == NULL || cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    const mf_opt *opt = named(cmd == NULL ? NULL : cmd->opts, name);
    if (opt == NULL)
        opt = named(mf_args_common(), name);
    return opt != NULL ? opt->value != NULL : kind != NULL && mf_field_named(kind, name) != NULL;
}

static void offer_value(mf_cli *cli, const mf_cmd *cmd, const char *job, const char *option,
                        const typed_word *typed)
{
    const mf_kind *kind = cmd == NULL || cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    const mf_field *field = kind == NULL ? NULL : mf_field_named(kind, option);
    if (strcmp(option, "step") == 0 && cmd != NULL) {
        offer_steps(cli, cmd, job, typed);
    } else if (field != NULL && field->choices != NULL) {
        for (size_t i = 0; field->choices[i] != NULL; i++)
            offer(field->choices[i], typed);
    } else if (field != NULL && field->type == MF_F_YESNO) {
        offer("yes", typed);
        offer("no", typed);
    } else if (field != NULL && field->ref != NULL) {
        offer_ids(cli, job, field->ref, typed);
    } else if (strcmp(option, "area") == 0) {
        offer_ids(cli, job, "area", typed);
    } else if (strcmp(option, "by") == 0 || strcmp(option, "who") == 0) {
        offer_ids(cli, "", "person", typed);
    } else if (strcmp(option, "job") == 0) {
        offer_jobs(cli, typed);
    }
}

static void offer_positional(mf_cli *cli, const mf_cmd *cmd, int at, const typed_word *typed)
{
    if (at == 0 && mf_cmd_of_job(cmd))
        offer_jobs(cli, typed);
    else if (at == 1 && strcmp(cmd->group, "gate") == 0)
        for (int gate = 0; gate < MF_GATE_COUNT; gate++)
            offer(mf_gate_name((mf_gate)gate), typed);
    else if (at == 0 && cmd->run == mf_cmd_help)
        offer_words(NULL, typed);
    else if (at == 0 && cmd->run == mf_cmd_paper_blank)
        for (int form = 0; form < MF_FORM_COUNT; form++)
            offer(mf_paper_form_name((mf_paper_form)form), typed);
    else if (at == 0 && strcmp(cmd->group, "settings") == 0 && cmd->args[0] != '\0')
        for (int id = 0; id < MF_SET_COUNT; id++)
            offer_told(mf_setting_row((mf_setting_id)id)->name,
                       mf_setting_row((mf_setting_id)id)->doc, typed);
}

mf_status mf_complete(mf_cli *cli, bool told, int argc, char **argv)
{
    const char *word[4] = {NULL, NULL, NULL, NULL}; /* group, action, positional words */
    const char *option = NULL;
    const mf_cmd *cmd = NULL;
    int n = 0;
    if (argc < 1 || argv == NULL)
        return MF_OK;
    const typed_word typed = {argv[argc - 1], told};
    for (int i = 0; i < argc - 1 && argv[i] != NULL; i++) {
        cmd = mf_cmd_named(word[0], word[1]);
        option = takes_value(cmd, argv[i]) ? argv[i] + 2 : NULL;
        if (option != NULL && i + 1 < argc - 1) {
            if (strcmp(option, "book") == 0)
                cli->book_path = argv[i + 1];
            option = NULL;
            i++;
        } else if (argv[i][0] != '-' && n < 4) {
            word[n++] = argv[i];
        }
    }
    cmd = mf_cmd_named(word[0], word[1]);
    int first = cmd == NULL ? n : cmd->action[0] == '\0' ? 1 : 2;
    if (option != NULL)
        offer_value(cli, cmd, n > first ? word[first] : "", option, &typed);
    else if (typed.begun[0] == '-')
        offer_options(cmd, &typed);
    else if (cmd == NULL)
        offer_words(n == 0 ? NULL : word[0], &typed);
    else
        offer_positional(cli, cmd, n - first, &typed);
    return MF_OK;
}
