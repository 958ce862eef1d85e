/* paper summary, paper blank */
#include "base/fail.h"
#include "cli/record.h"

#include <stdio.h>
#include <string.h>

static mf_status write_paper(const mf_cli *cli, const mf_args *args, const mf_bytes *pdf,
                             mf_err *err)
{
    const char *path = mf_args_value(args, "out");
    mf_status status = mf_cli_put(cli, path, pdf->data, pdf->len, err);
    if (status == MF_OK)
        mf_cli_wrote(cli, path);
    return status;
}

static mf_paper_ask ask_of(const mf_cli *cli, const mf_job *job)
{
    return (mf_paper_ask){.job = job, .today = cli->today, .lang = cli->lang};
}

mf_status mf_cmd_paper_summary(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_bytes pdf = {0};
    mf_cli_origin origin = {.head = ""};
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    mf_paper_ask ask = ask_of(cli, job);
    if (status == MF_OK)
        status = mf_cli_print_origin(&origin, cli, &ask, &err);
    if (status == MF_OK)
        status = mf_cli_unaltered(cli, job, &err);
    if (status == MF_OK)
        status = mf_cli_sheet(cli, &ask.size, &err);
    if (status == MF_OK)
        status = mf_paper_summary(&pdf, &ask, &err);
    if (status == MF_OK)
        status = write_paper(cli, args, &pdf, &err);
    mf_cli_origin_end(&origin);
    mf_bytes_free(&pdf);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
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
    return mf_fail(err, MF_USAGE, name, "there is no such paper", list, "name one of these");
}

mf_status mf_cmd_paper_blank(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL, *firm = NULL;
    mf_bytes pdf = {0};
    mf_cli_origin origin = {.head = ""};
    mf_paper_form form = MF_FORM_COUNT;
    const char *id = mf_args_value(args, "job"), *area = mf_args_value(args, "area");
    (void)cmd;
    mf_status status = form_of(&form, args->word[0], &err);
    if (status == MF_OK && id != NULL)
        status = mf_cli_job(cli, id, &job, &err);
    if (status == MF_OK && id == NULL && form == MF_FORM_CONTAINMENT)
        status = mf_cli_firm(cli, &firm, &err);
    mf_paper_ask ask = ask_of(cli, job);
    ask.firm = firm;
    if (status == MF_OK)
        status = mf_cli_print_origin(&origin, cli, &ask, &err);
    if (status == MF_OK)
        status = mf_cli_unaltered(cli, job, &err);
    if (status == MF_OK)
        status = mf_cli_sheet(cli, &ask.size, &err);
    if (status == MF_OK)
        status = mf_paper_blank(&pdf, form, area == NULL ? "" : area, &ask, &err);
    if (status == MF_OK)
        status = write_paper(cli, args, &pdf, &err);
    mf_cli_origin_end(&origin);
    mf_bytes_free(&pdf);
    mf_book_job_free(firm);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
