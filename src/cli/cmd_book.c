/* book new, check, rebuild, head */
#include "base/file.h"
#include "cli/term.h"
#include "cli/tsa.h"

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
               ", \"head\": \"%s\"",
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

/* What one check goes by: heads that were noted, and stamps. */
typedef struct checking {
    mf_buf heads;
    mf_tsa tsa;
    mf_stamped *stamped;
    mf_status judged; /* of the stamps; what the check itself finds comes first */
    mf_err why;
} checking;

static mf_status read_heads(checking *c, const char *against, mf_err *err)
{
    mf_bytes file = {0};
    if (against == NULL)
        return MF_OK;
    mf_status status = mf_file_read(&file, against, HEADS_MAX, err);
    if (status == MF_OK)
        mf_buf_text(&c->heads, (char *)file.data);
    mf_bytes_free(&file);
    return status;
}

static mf_status read_stamps(checking *c, const mf_cli *cli, const mf_args *args, mf_err *err)
{
    const char *elsewhere = mf_args_value(args, "stamp");
    mf_status status = mf_tsa_open(&c->tsa, cli, args, false, err);
    if (status == MF_OK)
        c->judged = mf_stamped_read(&c->stamped, cli, &c->tsa, &c->why);
    return status == MF_OK && elsewhere != NULL && (c->judged == MF_OK || c->judged == MF_NO)
               ? mf_stamped_elsewhere(c->stamped, elsewhere, &c->tsa, &c->heads, err)
               : status;
}

static mf_status print_check(const mf_cli *cli, const checking *c, const mf_book_report *report,
                             mf_err *err)
{
    mf_status status = MF_OK;
    print_report(cli, report);
    if (cli->json) {
        status = mf_stamped_json(c->stamped, err);
        puts("}");
    } else {
        mf_stamped_say(c->stamped, cli);
    }
    return status;
}

mf_status mf_cmd_book_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0}, unsaid = {0};
    mf_book_report report = {0};
    checking c = {0};
    mf_watch watch = mf_cli_watch(cli, args);
    const char *against = mf_args_value(args, "against");
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = read_heads(&c, against, &err);
    if (status == MF_OK)
        status = read_stamps(&c, cli, args, &err);
    if (status == MF_OK)
        status = mf_book_check_against(cli->book, c.heads.len == 0 ? NULL : mf_buf_str(&c.heads),
                                       &watch, &report, &err);
    mf_cli_watched(cli);
    if ((status == MF_OK || status == MF_NO) && print_check(cli, &c, &report, &unsaid) != MF_OK) {
        err = unsaid;
        status = MF_SYSTEM;
    }
    if (status == MF_OK && against != NULL && !cli->json)
        puts("It holds every head that was noted.");
    if (status == MF_OK && c.judged != MF_OK) {
        err = c.why;
        status = c.judged;
    }
    if (status != MF_OK)
        cli->quiet = true; /* what comes next the line of the fault says */
    mf_stamped_free(c.stamped);
    mf_tsa_close(&c.tsa);
    mf_buf_free(&c.heads);
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
    puts(cli->json ? "{\"rebuilt\": true}" : "the derived tables were built anew from the journal");
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
