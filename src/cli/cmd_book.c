/* book new, check, rebuild, head */
#include "cli/term.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

mf_status mf_cmd_book_new(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    if (mf_book_new(&cli->book, cli->book_path, mf_args_value(args, "device"), &err) != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        printf("{\"book\": true}\n");
    else
        printf("made the book %s, readable by you alone\n", cli->book_path);
    if (!cli->json && mf_term_check("", NULL) == MF_OK && mf_first_hour(cli, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (!cli->json && cli->from[MF_SET_BOOK] != NULL &&
        strcmp(cli->from[MF_SET_BOOK], "option") == 0)
        printf("to use it without --book, in this terminal:\n    export MISTFOLD_BOOK=%s\n",
               cli->book_path);
    return MF_OK;
}

static void print_report(const mf_cli *cli, const mf_book_report *report)
{
    if (cli->json) {
        printf("{\"entries\": %" PRId64 ", \"devices\": %" PRId64 ", \"faults\": %" PRId64
               ", \"head\": \"%s\"}\n",
               report->entries, report->devices, report->faults, report->head);
        return;
    }
    printf("entries   %" PRId64 " from %" PRId64 " device%s\n", report->entries, report->devices,
           report->devices == 1 ? "" : "s");
    printf("faults    %" PRId64 "\n", report->faults);
    printf("head      %s\n", report->head);
    if (report->faults == 0)
        puts("Every hash and every derived row is what the journal says it must be.");
}

mf_status mf_cmd_book_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_book_report report = {0};
    (void)cmd;
    (void)args;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_check(cli->book, &report, &err);
    if (status == MF_OK || status == MF_NO)
        print_report(cli, &report);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

mf_status mf_cmd_book_rebuild(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    (void)args;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_rebuild(cli->book, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (!cli->json)
        puts("the derived tables were built anew from the journal");
    return MF_OK;
}

mf_status mf_cmd_book_head(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char head[MF_HASH_HEX];
    (void)cmd;
    (void)args;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_head(cli->book, head, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    printf("%s%s%s\n", cli->json ? "{\"head\": \"" : "", head, cli->json ? "\"}" : "");
    return MF_OK;
}
