/* limit list: every number of the rule in force on a day, the stricter ones of
 * places beside it, and for one job which of them decides. */
#include "cli/json.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static void print_one(const mf_cli *cli, const mf_limit *row, bool decides)
{
    char number[80], from[MF_DAY_TEXT];
    mf_words_number(cli->lang, row->value, row->unit, number, sizeof number);
    mf_day_text(row->from, from);
    mf_cli_pad(row->name, 24);
    printf("%-3s", mf_cmp_text(row->cmp));
    mf_cli_pad(number, 18);
    mf_cli_show(row->place);
    fputs(row->place[0] == '\0' ? "" : ", ", stdout);
    mf_cli_show(row->citation);
    printf(" [%s]%s%s\n    ", mf_status_of_fact_text(row->status), from[0] ? " from " : "", from);
    mf_cli_wrap(row->says, 4, 4);
    if (row->note[0] != '\0') {
        printf("    ");
        mf_cli_wrap(row->note, 4, 4);
    }
    if (decides)
        printf("    %s\n", mf_cli_word(cli, "label.stricter"));
}

static void add_json(json_t *array, const mf_limit *row, bool decides)
{
    json_t *object = mf_json_limit(row);
    json_object_set_new(object, "decides", json_boolean(decides));
    json_array_append_new(array, object);
}

/* One row, in JSON or in words. one_job: the places of that job alone. */
typedef struct listing {
    const mf_cli *cli;
    const mf_job *job;
    bool one_job;
    mf_day day;
    json_t *array;
} listing;

static void show(const listing *to, const mf_limit *row)
{
    bool decides = to->one_job && mf_limit_for(to->job, row->id, to->day) == row;
    if (to->array != NULL)
        add_json(to->array, row, decides);
    else
        print_one(to->cli, row, decides && strcmp(row->place, "US") != 0);
}

/* The local rows of one limit, behind the federal one. */
static void show_local(const listing *to, mf_limit_id id)
{
    for (size_t i = 0; to->job != NULL && i < to->job->n_local_limit; i++) {
        const mf_local_limit *it = &to->job->local_limit[i];
        if (it->row.id == id && mf_day_within(it->row.from, it->row.until, to->day) &&
            (!to->one_job || mf_local_limit_holds(to->job, it)))
            show(to, &it->row);
    }
}

static void list_all(const listing *to)
{
    size_t count;
    const mf_limit *rows = mf_limit_rows(&count);
    for (size_t i = 0; i < count; i++) {
        if (!mf_day_within(rows[i].from, rows[i].until, to->day))
            continue;
        show(to, &rows[i]);
        show_local(to, rows[i].id);
    }
}

/* The federal numbers are told without a book, too. */
static mf_status open_job(mf_cli *cli, const char *id, mf_job **job, mf_err *err)
{
    if (id == NULL && access(cli->book_path, F_OK) != 0)
        return MF_OK;
    return mf_cli_job(cli, id == NULL ? "" : id, job, err);
}

mf_status mf_cmd_limit_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    const char *id = mf_args_value(args, "job");
    listing to = {.cli = cli, .one_job = id != NULL};
    (void)cmd;
    mf_status status = mf_cli_day(cli, args, &to.day, &err);
    if (status == MF_OK)
        status = open_job(cli, id, &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    to.job = job;
    to.array = cli->json ? json_array() : NULL;
    list_all(&to);
    if (cli->json)
        status = mf_json_print(to.array);
    else
        mf_cli_caution(cli);
    mf_book_job_free(job);
    return status;
}
