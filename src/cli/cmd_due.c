/* due: what is late, what is next, who must act. */
#include "cli/due.h"

#include "base/fail.h"
#include "cli/json.h"
#include "cli/pick.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The rows of the jobs that have something left to do: the others the book knows. */
typedef struct gather {
    mf_cli *cli;
    mf_due_list list;
    const mf_watch *watch;
    const char *who; /* only what this person or the office must do; NULL = all */
    bool silent;     /* what cannot be read is not told */
    size_t later;    /* what of the firm is dated after the day and was left out */
    mf_err *err;
} gather;

static void gather_lost(const char *job, const mf_err *why, void *data)
{
    gather *g = data;
    if (!g->silent)
        mf_cli_lost(g->cli, job, why);
}

/* What is due of it nobody can tell, which is told. */
static void tell_altered(const mf_job *job, gather *g)
{
    mf_err why = {0};
    mf_fail(&why, MF_SYSTEM, g->cli->book_path, "it was altered outside this program",
            "nothing is judged by it", "see what is altered: mistfold book check");
    gather_lost(job->id, &why, g);
}

static const char *gather_job(const mf_job *job, void *data)
{
    gather *g = data;
    mf_stage stage = mf_stage_of(job, g->cli->today);
    if (stage == MF_STAGE_ALTERED)
        tell_altered(job, g);
    mf_due_of_job(job, stage, g->cli->today, &g->list);
    return mf_stage_settled(job, stage, g->cli->today);
}

static mf_status gather_past(mf_job *job, void *data, mf_err *err)
{
    (void)err;
    gather_job(job, data);
    return MF_OK;
}

/* On a past day a job that is settled by now was none: each is judged as it stood then. */
static mf_status gather_past_all(gather *g)
{
    mf_pick all = MF_PICK_ALL;
    all.mark = true;
    mf_status status = mf_pick_each(g->cli, &all, gather_past, g, g->err);
    if (g->later + all.left_out > 0)
        mf_cli_note(g->cli, "what is dated later counts for nothing here");
    return status;
}

static mf_status gather_all(gather *g, bool past)
{
    mf_job *firm = NULL;
    mf_status status = mf_cli_job(g->cli, "", &firm, g->err);
    if (status == MF_OK)
        status = mf_book_job_until(firm, g->cli->today, &g->later, g->err);
    if (status == MF_OK)
        mf_due_of_firm(firm, g->cli->today, MF_DUE_CERTIFICATE_DAYS, &g->list);
    mf_book_job_free(firm);
    if (status == MF_OK)
        status =
            past ? gather_past_all(g)
                 : mf_book_unsettled(g->cli->book, gather_job, gather_lost, g, g->watch, g->err);
    return status == MF_OK && g->list.failed ? mf_fail_memory(g->err) : status;
}

/* By day; rows are equal when they say the same. */
static int row_order(const void *one, const void *other)
{
    const mf_due_row *a = one, *b = other;
    int order = (a->day > b->day) - (a->day < b->day);
    if (order == 0)
        order = strcmp(a->job, b->job);
    if (order == 0)
        order = (int)a->what - (int)b->what;
    if (order == 0)
        order = (a->n > b->n) - (a->n < b->n);
    if (order == 0)
        order = strcmp(a->who, b->who);
    return order == 0 ? strcmp(a->subject, b->subject) : order;
}

static void sort(mf_due_list *list)
{
    if (list->n > 0)
        qsort(list->rows, list->n, sizeof *list->rows, row_order);
}

bool mf_due_holds(const mf_due_list *list, const mf_due_row *row)
{
    return list->n > 0 && bsearch(row, list->rows, list->n, sizeof *row, row_order) != NULL;
}

mf_status mf_due_today(mf_cli *cli, const mf_watch *watch, bool silent, mf_due_list *out,
                       mf_err *err)
{
    gather g = {
        .cli = cli, .list = {.lang = cli->lang}, .watch = watch, .silent = silent, .err = err};
    mf_status status = gather_all(&g, false);
    *out = g.list;
    sort(out);
    return status;
}

static bool wanted(const gather *g, const mf_due_row *row)
{
    return g->who == NULL || strcmp(g->who, row->who) == 0;
}

void mf_due_print(const mf_cli *cli, const mf_due_row *row)
{
    char day[MF_DAY_TEXT], line[900];
    mf_day_text(row->day, day);
    mf_cli_pad(mf_cli_word(cli, row->day < cli->today    ? "due.late"
                                : row->day == cli->today ? "due.today"
                                                         : "due.next"),
               7);
    printf("%s  ", day);
    mf_cli_pad(row->job[0] ? row->job : "-", 14);
    mf_cli_pad(row->who, 10);
    if (row->n > 1)
        snprintf(line, sizeof line, "%s (%zu)%s%s", mf_cli_word(cli, mf_due_words_id(row->what)),
                 row->n, row->then[0] == '\0' ? "" : ". ", row->then);
    else if (row->what == MF_DUE_CERTIFICATE || row->what == MF_DUE_AMEND)
        snprintf(line, sizeof line, "%s %s%s%s", mf_cli_word(cli, mf_due_words_id(row->what)),
                 row->subject, row->then[0] == '\0' ? "" : "; ", row->then);
    else if (row->then[0] != '\0')
        snprintf(line, sizeof line, "%s. %s", mf_cli_word(cli, mf_due_words_id(row->what)),
                 row->then);
    else
        snprintf(line, sizeof line, "%s", mf_cli_word(cli, mf_due_words_id(row->what)));
    if (mf_cli_columns() < 78) { /* what there is to do on a line of its own */
        fputs("\n    ", stdout);
        mf_cli_wrap(line, 4, 4);
    } else {
        mf_cli_wrap(line, 43, 43);
    }
}

json_t *mf_due_json(const mf_cli *cli, const mf_due_row *row)
{
    json_t *object = json_object();
    json_object_set_new(object, "day", mf_json_day(row->day));
    json_object_set_new(object, "late", json_boolean(row->day < cli->today));
    json_object_set_new(object, "job", row->job[0] ? json_string(row->job) : json_null());
    json_object_set_new(object, "who", json_string(row->who));
    json_object_set_new(object, "what", json_string(mf_due_words_id(row->what) + 4));
    json_object_set_new(object, "says", json_string(mf_cli_word(cli, mf_due_words_id(row->what))));
    json_object_set_new(object, "lacking", json_integer((json_int_t)row->n));
    json_object_set_new(object, "subject",
                        row->subject[0] ? json_string(row->subject) : json_null());
    json_object_set_new(object, "then", row->then[0] ? json_string(row->then) : json_null());
    return object;
}

static mf_status print_all(const gather *g)
{
    const mf_cli *cli = g->cli;
    size_t shown = 0;
    json_t *array = cli->json ? json_array() : NULL;
    for (size_t i = 0; i < g->list.n; i++) {
        if (!wanted(g, &g->list.rows[i]))
            continue;
        shown++;
        if (cli->json)
            json_array_append_new(array, mf_due_json(cli, &g->list.rows[i]));
        else
            mf_due_print(cli, &g->list.rows[i]);
    }
    if (cli->json)
        return mf_json_print(array);
    if (shown == 0 && !cli->lost)
        puts(mf_cli_word(cli, "due.nothing"));
    mf_cli_caution(cli);
    return MF_OK;
}

/* "office" and "firm" act, too; whoever else is meant is a person of the book, or nothing would be
 * due of a name that is only mistyped. */
static mf_status check_who(mf_cli *cli, const char *who, mf_err *err)
{
    mf_job *firm = NULL;
    bool known = who == NULL || strcmp(who, "office") == 0 || strcmp(who, "firm") == 0;
    mf_status status = known ? MF_OK : mf_cli_job(cli, "", &firm, err);
    if (known || status != MF_OK)
        return status;
    for (size_t i = 0; i < firm->n_person; i++)
        known = known || strcmp(firm->person[i].id, who) == 0;
    mf_book_job_free(firm);
    return known ? MF_OK
                 : mf_failf(err, MF_INPUT, "--who", "",
                            "\"person list\" shows everybody; office and firm act, too",
                            "there is no person %.60s", who);
}

mf_status mf_cmd_due(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    const mf_watch watch = mf_cli_watch(cli, args);
    gather g = {.cli = cli,
                .list = {.lang = cli->lang},
                .watch = &watch,
                .who = mf_args_value(args, "who"),
                .err = &err};
    const mf_day now = cli->today;
    mf_status status = mf_cli_day(cli, args, &cli->today, &err);
    if (status == MF_OK)
        status = check_who(cli, g.who, &err);
    if (status == MF_OK)
        status = gather_all(&g, cli->today < now);
    mf_cli_watched(cli);
    sort(&g.list);
    if (status == MF_OK)
        status = print_all(&g);
    else
        mf_cli_fail(&err);
    free(g.list.rows);
    return status;
}
