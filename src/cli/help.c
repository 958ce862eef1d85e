/* Help at every level, written from the same tables that are parsed. */
#include "base/fail.h"
#include "base/letters.h"
#include "cli/settings.h"

#include <stdio.h>
#include <string.h>

static void caution_line(void)
{
    putchar('\n');
    mf_cli_wrap(
        "mistfold records and checks; it certifies nothing. Certified practice, the authorized "
        "state or tribal program and local codes govern, and the stricter rule wins.",
        0, 0);
}

/* The commands of the first hour, and those of every day. */
static const char *const first_hour[][2] = {
    {"book new", "make the firm's book; it asks who the firm is"},
    {"job walk", "open a job by answering questions"},
};
static const char *const every_day[][2] = {
    {"due", "what is late, what is next, who must act"},
    {"job show JOB", "one job at a glance"},
    {"containment walk JOB", "the list before demo, step by step"},
    {"gate JOB demo", "may demo start?"},
    {"cleaning walk JOB", "the list at the end"},
    {"verification walk JOB", "cleaning verification, with its clock"},
    {"gate JOB signs", "may the signs come down?"},
    {"paper record JOB ...", "the record, sealed"},
};

static void put_commands(const char *const (*rows)[2], size_t n, bool told)
{
    for (size_t i = 0; i < n; i++)
        if (told)
            printf("  mistfold %-23s %s\n", rows[i][0], rows[i][1]);
        else
            printf("  mistfold %s\n", rows[i][0]);
}

/* Where there is no room the commands speak for themselves, and the first stand last, in sight. */
static void start_small(void)
{
    caution_line();
    puts("\nEvery day:");
    put_commands(every_day, sizeof every_day / sizeof every_day[0], false);
    puts("\"mistfold --help\" lists all commands.\nThe first hour:");
    put_commands(first_hour, sizeof first_hour / sizeof first_hour[0], false);
}

/* What somebody sees who types the name alone: it fits a screen. */
void mf_help_start(void)
{
    if (mf_cli_columns() < 70) {
        start_small();
        return;
    }
    puts("mistfold keeps a lead-safe renovation job compliant with 40 CFR part 745\n"
         "subpart E and proves it. The first hour:\n");
    put_commands(first_hour, sizeof first_hour / sizeof first_hour[0], true);
    puts("\nEvery day:\n");
    put_commands(every_day, sizeof every_day / sizeof every_day[0], true);
    puts("\n\"mistfold --help\" lists all commands, \"mistfold GROUP --help\" those of a group.");
    caution_line();
}

void mf_help_program(void)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    puts("usage: mistfold [--book FILE] [--by ID] [--json] GROUP ACTION ...\n\n"
         "Keeps a lead-safe renovation job compliant with 40 CFR part 745 subpart E and\n"
         "proves it: what was tested, contained, cleaned, verified and handed over.\n");
    for (size_t i = 0; i < count; i++) {
        bool first = i == 0 || strcmp(cmds[i].group, cmds[i - 1].group) != 0;
        printf("  %-13s %-13s %s\n", first ? cmds[i].group : "", cmds[i].action, cmds[i].summary);
    }
    puts("\n\"mistfold GROUP ACTION --help\" shows the options and an example.\n"
         "Exit status: 0 yes or done, 1 no or not yet, 2 wrong use, 3 bad input,\n"
         "4 the book or the system failed.");
    caution_line();
}

void mf_help_group(const char *group)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    printf("usage: mistfold %s ACTION ...\n\n", group);
    for (size_t i = 0; i < count; i++)
        if (strcmp(cmds[i].group, group) == 0)
            printf("  %-13s %s\n      %s\n", cmds[i].action, cmds[i].summary, cmds[i].example);
    caution_line();
}

const char *mf_help_form(mf_field_type type)
{
    static const char *const forms[] = {
        [MF_F_TEXT] = "TEXT",       [MF_F_ID] = "ID",          [MF_F_IDS] = "ID,ID..",
        [MF_F_DATE] = "YYYY-MM-DD", [MF_F_TIME] = "HH:MM",     [MF_F_INT] = "NUMBER",
        [MF_F_HUNDREDTHS] = "N.NN", [MF_F_LOADING] = "MG/CM2", [MF_F_DUST] = "UG/FT2",
        [MF_F_PPM] = "PPM|%",       [MF_F_INCHES] = "INCHES",  [MF_F_CHOICE] = "WORD",
        [MF_F_YESNO] = "yes|no"};
    return forms[type];
}

/* Where what an option means begins. */
enum { BELOW = 6, BESIDE = 30 };
static int doc_column(void)
{
    return mf_cli_columns() < 60 ? BELOW : BESIDE;
}

/* needed: "" or in which case, "(needed)". */
static void help_option(const char *name, const char *form, const char *doc, const char *needed)
{
    char left[64], right[300];
    snprintf(left, sizeof left, "--%s %s", name, form);
    snprintf(right, sizeof right, "%s%s%s", doc, needed[0] == '\0' ? "" : " ", needed);
    int n = printf("  %-27s ", left);
    if (doc_column() == BELOW)
        n = printf("\n%*s", BELOW, "") - 1;
    mf_cli_wrap(right, doc_column(), n);
}

const char *mf_help_needed(const mf_cmd *cmd, const mf_field *field)
{
    if ((field->flags & MF_F_NEEDED) == 0 || cmd->run == mf_cmd_walk_job)
        return "";
    if (cmd->run == mf_cmd_reading && strcmp(field->option, "result") != 0)
        return strcmp(field->option, "number") == 0 ? "" : "(needed the first time)";
    return cmd->run == mf_cmd_job_open ? "(needed without --from)" : "(needed)";
}

static void help_field(const mf_cmd *cmd, const mf_field *field)
{
    help_option(field->option, mf_help_form(field->type), field->doc, mf_help_needed(cmd, field));
    if (field->choices == NULL)
        return;
    mf_buf words = {0};
    for (size_t i = 0; field->choices[i] != NULL; i++)
        mf_buf_printf(&words, "%s%s", i == 0 ? "" : ", ", field->choices[i]);
    printf("%*s", doc_column(), "");
    mf_cli_wrap(mf_buf_str(&words), doc_column(), doc_column());
    mf_buf_free(&words);
}

/* One of the names: "NAME is book, by or lang". */
static void add_name(mf_buf *out, const char *name, int i, int n)
{
    mf_buf_printf(out, "%s%s", i == 0 ? "NAME is " : i == n - 1 ? " or " : ", ", name);
}

void mf_help_names(const mf_cmd *cmd, mf_buf *out)
{
    for (int form = 0; cmd->run == mf_cmd_paper_blank && form < MF_FORM_COUNT; form++)
        add_name(out, mf_paper_form_name((mf_paper_form)form), form, MF_FORM_COUNT);
    if (cmd->run == mf_cmd_settings_set || cmd->run == mf_cmd_settings_unset)
        for (int id = 0; id < MF_SET_COUNT; id++)
            add_name(out, mf_setting_row((mf_setting_id)id)->name, id, MF_SET_COUNT);
}

/* --force is understood everywhere, and told where a file is written over. */
static void help_force(const mf_cmd *cmd)
{
    bool writes = cmd->run == mf_cmd_paper_records;
    for (const mf_opt *opt = cmd->opts; opt != NULL && opt->name != NULL; opt++)
        writes = writes || strcmp(opt->name, "out") == 0;
    for (const mf_opt *opt = mf_args_common(); opt->name != NULL; opt++)
        if (writes && cmd->run != mf_cmd_bundle && cmd->run != mf_cmd_book_stamp &&
            strcmp(opt->name, "force") == 0)
            help_option(opt->name, "", opt->doc, "");
}

void mf_help_command(const mf_cmd *cmd)
{
    mf_buf names = {0};
    const mf_kind *kind = cmd->kind == NULL ? NULL : mf_kind_named(cmd->kind);
    printf("usage: mistfold %s%s%s%s%s%s\n\n%s\n\n", cmd->group, cmd->action[0] ? " " : "",
           cmd->action, cmd->args[0] ? " " : "", cmd->args,
           kind != NULL || cmd->opts != NULL ? " [options]" : "", cmd->summary);
    mf_help_names(cmd, &names);
    if (names.len > 0) {
        mf_cli_wrap(mf_buf_str(&names), 0, 0);
        putchar('\n');
    }
    mf_buf_free(&names);
    for (size_t i = 0; kind != NULL && i < kind->n_fields; i++)
        if (mf_field_is_typed(&kind->fields[i]))
            help_field(cmd, &kind->fields[i]);
    for (const mf_opt *opt = cmd->opts; opt != NULL && opt->name != NULL; opt++)
        help_option(opt->name, opt->value == NULL ? "" : opt->value, opt->doc,
                    opt->needed ? "(needed)" : "");
    help_force(cmd);
    printf("\nexample:\n  %s\n", cmd->example);
    caution_line();
}

/* More changes than these would make it any word. */
int mf_help_far(size_t len)
{
    return len < 4 ? 2 : len < 9 ? 3 : 4;
}

/* A word that was meant, among the groups or a group's actions; NULL = none near. */
static const char *nearest(const char *group, const char *word)
{
    size_t count;
    int best = mf_help_far(strlen(word));
    const char *near = NULL;
    const mf_cmd *cmds = mf_cmds(&count);
    for (size_t i = 0; i < count; i++) {
        if (group != NULL && strcmp(cmds[i].group, group) != 0)
            continue;
        const char *candidate = group == NULL ? cmds[i].group : cmds[i].action;
        int d = mf_letters_apart(word, candidate);
        if (d < best) {
            best = d;
            near = candidate;
        }
    }
    bool a_list = near == NULL && group != NULL && strcmp(word, "list") == 0;
    if (a_list && mf_cmd_named(group, "show") != NULL)
        return "show"; /* a group without a list shows what it has */
    return near;
}

/* As if it had been typed for a command: the words, and what is near. */
mf_status mf_help_unknown(const mf_cli *cli, const char *group, const char *action)
{
    mf_err err = {0};
    char where[100], mend[240] = "";
    bool known = mf_cmd_group(group);
    if (known && action == NULL && !cli->json) {
        mf_help_group(group);
        return MF_USAGE;
    }
    if (known && action == NULL) {
        snprintf(mend, sizeof mend, "see \"mistfold %s --help\"", group);
        mf_fail(&err, MF_USAGE, group, "wants an action", "", mend);
        return mf_cli_fail(&err);
    }
    const char *word = known ? action : group;
    const char *near = nearest(known ? group : NULL, word);
    const char *before = known ? group : "", *blank = known ? " " : "";
    snprintf(where, sizeof where, "%s%s%s", before, blank, word);
    if (near != NULL)
        snprintf(mend, sizeof mend, "did you mean \"%s%s%s\"? see \"mistfold %s%s--help\"", before,
                 blank, near, before, blank);
    else
        snprintf(mend, sizeof mend, "see \"mistfold %s%s--help\"", before, blank);
    mf_fail(&err, MF_USAGE, where, "no such command", "", mend);
    return mf_cli_fail(&err);
}

mf_status mf_cmd_help(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    (void)cmd;
    const char *group = args->n_words > 0 ? args->word[0] : NULL;
    const char *action = args->n_words > 1 ? args->word[1] : NULL;
    const mf_cmd *asked = mf_cmd_named(group, action);
    if (group == NULL)
        mf_help_program();
    else if (asked != NULL && (action == NULL || asked->action[0] != '\0'))
        mf_help_command(asked);
    else if (mf_cmd_group(group) && action == NULL)
        mf_help_group(group);
    else
        return mf_help_unknown(cli, group, action);
    return MF_OK;
}

void mf_help_version(const mf_cli *cli)
{
    puts(cli->json ? "{\"version\": \"" MISTFOLD_VERSION "\"}" : "mistfold " MISTFOLD_VERSION);
}

mf_status mf_cmd_version(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    (void)cmd;
    (void)args;
    mf_help_version(cli);
    return MF_OK;
}
