/* book new, check, rebuild, head */
#include "base/file.h"
#include "cli/term.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { HEADS_MAX = 1024 * 1024 };

mf_status mf_cmd_book_new(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    if (mf_book_new(&cli->book, cli->book_path, mf_args_value(args, "device"), &err) != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        printf("{\"book\": true}\n");
    else
        printf("%s %s, %s\n", mf_cli_word(cli, "book.made"), cli->book_path,
               mf_cli_word(cli, "book.private"));
    if (!cli->json && mf_term_check("", NULL) == MF_OK && mf_first_hour(cli, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (!cli->json && cli->from[MF_SET_BOOK] != NULL &&
        strcmp(cli->from[MF_SET_BOOK], "option") == 0)
        printf("%s\n    export MISTFOLD_BOOK=%s\n", mf_cli_word(cli, "book.export"),
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
        puts("Every hash is right, and every table made from the journal says what the journal "
             "says.");
}

mf_status mf_cmd_book_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_book_report report = {0};
    mf_bytes heads = {0};
    mf_watch watch = mf_cli_watch(cli, args);
    const char *against = mf_args_value(args, "against");
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK && against != NULL)
        status = mf_file_read(&heads, against, HEADS_MAX, &err);
    if (status == MF_OK)
        status = mf_book_check_against(cli->book, against == NULL ? NULL : (char *)heads.data,
                                       &watch, &report, &err);
    mf_cli_watched(cli);
    if (status == MF_OK || status == MF_NO)
        print_report(cli, &report);
    if (status == MF_OK && against != NULL && !cli->json)
        puts("It holds every head that was noted.");
    if (status != MF_OK)
        cli->quiet = true; /* what comes next the line of the fault says */
    mf_bytes_free(&heads);
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
    puts(cli->json ? "{\"rebuilt\": true}"
                   : "the views and the tables made from the journal were built anew");
    return MF_OK;
}

static bool print_head(const char *device, int64_t seq, const char *hash, void *data)
{
    const mf_cli *cli = data;
    printf(cli->json ? "{\"device\": \"%s\", \"seq\": %" PRId64 ", \"hash\": \"%s\"}\n"
                     : "%s %" PRId64 " %s\n",
           device, seq, hash);
    return true;
}

mf_status mf_cmd_book_head(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char head[MF_HASH_HEX];
    bool all = mf_args_value(args, "all") != NULL;
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK && all)
        status = mf_book_heads(cli->book, print_head, cli, &err);
    else if (status == MF_OK)
        status = mf_book_head(cli->book, head, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (!all)
        printf("%s%s%s\n", cli->json ? "{\"head\": \"" : "", head, cli->json ? "\"}" : "");
    return MF_OK;
}
