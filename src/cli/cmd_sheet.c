/* paper summary, paper blank: sheets with what a job says, or with nothing */
#include "base/fail.h"
#include "cli/record.h"

#include <stdio.h>

/* A sheet in the making. */
typedef struct sheet {
    mf_job *job, *firm; /* NULL: of none */
    mf_cli_origin origin;
    mf_paper_ask ask;
    mf_bytes pdf;
} sheet;

/* Of the job that is named; where none is, with what is known of the firm, or without. */
static mf_status open_sheet(sheet *s, mf_cli *cli, const char *job, bool firm, mf_err *err)
{
    mf_status status = MF_OK;
    if (job != NULL)
        status = mf_cli_job(cli, job, &s->job, err);
    else if (firm)
        status = mf_cli_firm(cli, &s->firm, err);
    s->ask = (mf_paper_ask){.job = s->job, .firm = s->firm, .today = cli->today, .lang = cli->lang};
    if (status == MF_OK)
        status = mf_cli_print_origin(&s->origin, cli, &s->ask, err);
    if (status == MF_OK)
        status = mf_cli_unaltered(cli, s->job, err);
    return status == MF_OK ? mf_cli_sheet(cli, &s->ask.size, err) : status;
}

/* Writes it, if all went well, and ends the command. */
static mf_status end_sheet(sheet *s, const mf_cli *cli, const mf_args *args, mf_status status,
                           mf_err *err)
{
    const char *path = mf_args_value(args, "out");
    if (status == MF_OK)
        status = mf_cli_put(cli, path, s->pdf.data, s->pdf.len, err);
    if (status == MF_OK)
        mf_cli_wrote(cli, path);
    mf_cli_origin_end(&s->origin);
    mf_bytes_free(&s->pdf);
    mf_book_job_free(s->firm);
    mf_book_job_free(s->job);
    return status == MF_OK ? MF_OK : mf_cli_fail(err);
}

mf_status mf_cmd_paper_summary(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    sheet s = {.job = NULL};
    (void)cmd;
    mf_status status = open_sheet(&s, cli, args->word[0], false, &err);
    if (status == MF_OK)
        status = mf_paper_summary(&s.pdf, &s.ask, &err);
    return end_sheet(&s, cli, args, status, &err);
}

static mf_status form_of(mf_paper_form *out, const char *name, mf_err *err)
{
    char list[256] = "";
    size_t len = 0;
    *out = mf_paper_form_named(name);
    if (*out != MF_FORM_COUNT)
        return MF_OK;
    for (int i = 0; i < MF_FORM_COUNT && len < sizeof list; i++) {
        int n = snprintf(list + len, sizeof list - len, "%s%s", i > 0 ? ", " : "",
                         mf_paper_form_name((mf_paper_form)i));
        len += n > 0 ? (size_t)n : 0;
    }
    return mf_fail(err, MF_INPUT, name, "there is no such paper", list, "name one of these");
}

mf_status mf_cmd_paper_blank(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    sheet s = {.job = NULL};
    mf_paper_form form = MF_FORM_COUNT;
    const char *area = mf_args_value(args, "area");
    (void)cmd;
    mf_status status = form_of(&form, args->word[0], &err);
    if (status == MF_OK)
        status = open_sheet(&s, cli, mf_args_value(args, "job"), form == MF_FORM_CONTAINMENT, &err);
    if (status == MF_OK)
        status = mf_paper_blank(&s.pdf, form, area == NULL ? "" : area, &s.ask, &err);
    return end_sheet(&s, cli, args, status, &err);
}
