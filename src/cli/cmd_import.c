/* Reading in lists of one kind of entry. The export of an instrument is in
 * cmd_intake.c. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/cli.h"

#include <inttypes.h>
#include <stdio.h>

enum { IMPORT_MAX = 256 * 1024 * 1024 };

static mf_status import_kind(mf_cli *cli, const mf_cmd *cmd, const mf_args *args, const char *path)
{
    mf_err err = {0};
    mf_bytes file = {0};
    mf_now now;
    mf_import_report report = {0};
    const mf_kind *kind = mf_kind_named(cmd->of);
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
    if (cli->json)
        printf("{\"rows\": %" PRId64 ", \"sha256\": \"%s\", \"written\": %s}\n", report.rows,
               report.sha256, dry_run ? "false" : "true");
    else
        printf("%s %" PRId64 " %s (file SHA-256 %.16s...)\n",
               dry_run ? "nothing written; would log" : "logged", report.rows, kind->name,
               report.sha256);
    return MF_OK;
}

mf_status mf_cmd_import_kind(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    return import_kind(cli, cmd, args, args->word[mf_kind_named(cmd->of)->of_firm ? 0 : 1]);
}

/* Without a file it is that of the settings, which holds what the firm asks everywhere. */
mf_status mf_cmd_import_steps(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    const char *path = args->n_words > 0 ? args->word[0] : cli->setting[MF_SET_STEPS];
    if (path[0] == '\0') {
        mf_fail(&err, MF_USAGE, "step import", "no file was named, and the settings name none", "",
                "mistfold step import own-steps.csv, or steps = FILE in the settings");
        return mf_cli_fail(&err);
    }
    if (args->n_words == 0)
        mf_cli_note(cli, "the file is %s, from %s", path, cli->from[MF_SET_STEPS]);
    return import_kind(cli, cmd, args, path);
}
