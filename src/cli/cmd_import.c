/* Reading files of entries: the export of an XRF instrument, lists of a kind. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/cli.h"

#include <inttypes.h>
#include <stdio.h>

enum { IMPORT_MAX = 256 * 1024 * 1024 };

static void say_imported(const mf_cli *cli, const char *what, const mf_import_report *report,
                         bool dry_run)
{
    if (cli->json)
        printf("{\"rows\": %" PRId64 ", \"readings\": %" PRId64 ", \"calibrations\": %" PRId64
               ", \"sha256\": \"%s\", \"written\": %s}\n",
               report->rows, report->readings, report->calibrations, report->sha256,
               dry_run ? "false" : "true");
    else
        printf("%s %" PRId64 " %s (file SHA-256 %.16s...)\n",
               dry_run ? "nothing written; would log" : "logged", report->rows, what,
               report->sha256);
}

mf_status mf_cmd_import_kind(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes file = {0};
    mf_now now;
    mf_import_report report = {0};
    const mf_kind *kind = mf_kind_named(cmd->of);
    const char *path = args->word[kind->of_firm ? 0 : 1];
    bool dry_run = mf_args_value(args, "dry-run") != NULL;
    mf_status status = mf_cli_now(cli, &now, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_file_read(&file, path, IMPORT_MAX, &err);
    if (status == MF_OK)
        status = mf_import_kind(cli->book, kind->of_firm ? "" : args->word[0], kind, path,
                                (const char *)file.data, file.len, &now, dry_run, &report, &err);
    mf_bytes_free(&file);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    say_imported(cli, kind->name, &report, dry_run);
    return MF_OK;
}

/* XRF releases a component only in the hands of a certified assessor: whoever
 * imports readings by somebody else is told so at once. */
static void note_operators(mf_cli *cli, const char *job_id)
{
    mf_job *job = NULL;
    size_t loose = 0;
    const mf_reading *first = NULL;
    char day[MF_DAY_TEXT];
    if (mf_book_job(cli->book, job_id, &job, NULL) != MF_OK)
        return;
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *reading = &job->reading[i];
        if (mf_certified_assessor(job, reading->operator_id, reading->on) != NULL)
            continue;
        first = first == NULL ? reading : first;
        loose++;
    }
    if (first != NULL) {
        mf_day_text(first->on, day);
        mf_cli_note(cli, "%zu readings (from number %" PRId64 ", %s, %s): %s", loose, first->number,
                    first->operator_id, day, mf_cli_word(cli, "note.operator"));
    }
    mf_book_job_free(job);
}

mf_status mf_cmd_import_readings(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes file = {0};
    mf_now now;
    mf_import_report report = {0};
    bool dry_run = mf_args_value(args, "dry-run") != NULL;
    (void)cmd;
    mf_status status = mf_cli_now(cli, &now, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_file_read(&file, args->word[1], IMPORT_MAX, &err);
    if (status == MF_OK)
        status =
            mf_import_readings(cli->book, args->word[0], args->word[1], (const char *)file.data,
                               file.len, &now, dry_run, &report, &err);
    mf_bytes_free(&file);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    say_imported(cli, "readings", &report, dry_run);
    note_operators(cli, args->word[0]);
    return MF_OK;
}
