/* paper preview: a page of the record as a picture, to look at before it is printed or sealed */
#include "base/fail.h"
#include "cli/other_programs.h"
#include "cli/record.h"

#include <stdio.h>
#include <string.h>

/* 1 to 4 digits: what the drawing program is told. */
static mf_status page_of(const char **out, const mf_args *args, mf_err *err)
{
    const char *page = mf_args_value(args, "number");
    *out = page == NULL ? "1" : page;
    size_t n = strspn(*out, "0123456789");
    bool good = n >= 1 && n <= 4 && (*out)[n] == '\0' && **out != '0';
    return good ? MF_OK
                : mf_fail(err, MF_INPUT, "--number", "is not the number of a page",
                          "pages count from 1", "write --number 3");
}

static mf_status draw(mf_bytes *out, const mf_bytes *pdf, const char *page, mf_err *err)
{
    const char *const argv[] = {"pdftoppm", "-png", "-r", "100", "-f", page, "-l", page, "-", NULL};
    return mf_other_filter(out, argv, pdf,
                           "install poppler-utils; ask for a page that the record has", err);
}

mf_status mf_cmd_paper_preview(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_bytes pdf = {0}, png = {0};
    mf_day today;
    const char *path = mf_args_value(args, "out"), *page = NULL;
    (void)cmd;
    mf_status status = page_of(&page, args, &err);
    if (status == MF_OK)
        status = mf_cli_day(cli, args, &today, &err);
    if (status == MF_OK)
        status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status == MF_OK)
        status = mf_cli_unaltered(cli, job, &err);
    if (status == MF_OK)
        status = mf_cli_record(&pdf, cli, job, today, &err);
    if (status == MF_OK)
        status = draw(&png, &pdf, page, &err);
    if (status == MF_OK)
        status = mf_cli_put(cli, path, png.data, png.len, &err);
    if (status == MF_OK)
        mf_cli_wrote(cli, path);
    if (status == MF_OK && mf_args_value(args, "open") != NULL)
        status = mf_other_open(path, &err);
    mf_bytes_free(&png);
    mf_bytes_free(&pdf);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
