/* export JOB: the job for spreadsheets, scripts and calendars. */
#include "cli/export.h"

#include "base/fail.h"

#include <stdio.h>
#include <string.h>

static const char *const formats[] = {"csv", "jsonl", "xlsx", "ics", NULL};

static mf_status make_csv(const mf_cli *cli, const mf_job *job, const mf_args *args, mf_buf *out,
                          mf_err *err)
{
    const char *kind = mf_args_value(args, "kind");
    const mf_sink sink = mf_export_csv(out);
    if (kind == NULL || strcmp(kind, "findings") == 0)
        return mf_export_findings(cli, job, &sink, err);
    if (mf_kind_named(kind) == NULL)
        return mf_failf(err, MF_INPUT, "--kind", "",
                        "such as findings, component, reading, tick; jsonl and xlsx hold all",
                        "there is no kind %s", kind);
    mf_export_kinds(job, kind, mf_args_value(args, "no-names") != NULL, &sink);
    return MF_OK;
}

static mf_status make(const mf_cli *cli, const mf_job *job, const mf_args *args, int format,
                      mf_buf *out, mf_err *err)
{
    bool no_names = mf_args_value(args, "no-names") != NULL;
    mf_status status = format == 0   ? make_csv(cli, job, args, out, err)
                       : format == 1 ? mf_export_jsonl(job, no_names, out, err)
                       : format == 2 ? mf_export_xlsx(cli, job, no_names, out, err)
                                     : mf_export_ics(cli, job, no_names, out, err);
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

static mf_status deliver(mf_cli *cli, const mf_args *args, const mf_buf *out, mf_err *err)
{
    const char *path = mf_args_value(args, "out");
    if (path == NULL) {
        fwrite(out->data, 1, out->len, stdout);
        cli->quiet = true; /* nothing may follow the bytes */
        return MF_OK;
    }
    mf_status status = mf_cli_put(cli, path, out->data, out->len, err);
    if (status == MF_OK && cli->json)
        printf("{\"written\": true}\n");
    else if (status == MF_OK)
        printf("wrote %s, readable by you alone\n", path);
    return status;
}

mf_status mf_cmd_export(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_buf out = {0};
    (void)cmd;
    int format = mf_choice(formats, mf_args_value(args, "format"));
    mf_status status = MF_OK;
    if (format < 0)
        status = mf_failf(&err, MF_INPUT, "--format", "", "they are csv, jsonl, xlsx, ics",
                          "%s is no format", mf_args_value(args, "format"));
    else if (format == 2 && mf_args_value(args, "out") == NULL)
        status = mf_fail(&err, MF_USAGE, "--out", "a workbook needs a file", "", "add --out FILE");
    if (status == MF_OK)
        status = mf_cli_day(cli, args, &cli->today, &err);
    if (status == MF_OK)
        status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status == MF_OK)
        mf_cli_tell_later(cli, job, cli->today);
    if (status == MF_OK)
        status = make(cli, job, args, format, &out, &err);
    if (status == MF_OK)
        status = deliver(cli, args, &out, &err);
    mf_buf_free(&out);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
