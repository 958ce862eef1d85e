/* book backup, book copy, book merge */
#include "base/fail.h"
#include "cli/cli.h"

#include <inttypes.h>
#include <stdio.h>

static void say_copied(const mf_cli *cli, const char *path, const char *next)
{
    if (cli->json)
        printf("{\"copied\": true}\n");
    else
        printf("wrote %s, readable by you alone\n%s\n", path, next);
}

mf_status mf_cmd_book_backup(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_watch watch = mf_cli_watch(cli, args);
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_backup(cli->book, args->word[0], &watch, &err);
    mf_cli_watched(cli);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    say_copied(cli, args->word[0], "keep it as it is; to work on another device use \"book copy\"");
    return MF_OK;
}

mf_status mf_cmd_book_copy(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_watch watch = mf_cli_watch(cli, args);
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status =
            mf_book_copy(cli->book, args->word[0], mf_args_value(args, "device"), &watch, &err);
    const mf_now now = mf_cli_now_of_device(cli);
    if (status == MF_OK && mf_args_value(args, "no-key") == NULL)
        status = mf_book_copy_key(args->word[0], &now, &err);
    mf_cli_watched(cli);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    say_copied(cli, args->word[0], "bring its entries back with \"mistfold book merge FILE\"");
    return MF_OK;
}

mf_status mf_cli_adopt(mf_adopt *out, mf_cli *cli, const mf_args *args, mf_now *now, mf_err *err)
{
    *out = (mf_adopt){mf_args_value(args, "adopt"), now, mf_args_value(args, "of")};
    if (out->of != NULL && out->reason == NULL)
        return mf_fail(err, MF_USAGE, "--of", "it is not said why", "it goes with --adopt",
                       "say why: --adopt \"the reason\" --of DEVICE");
    return out->reason == NULL ? MF_OK : mf_cli_now(cli, now, err);
}

void mf_cli_say_adopted(const mf_cli *cli, const mf_merge_report *r, const mf_adopt *adopt,
                        bool written)
{
    const char *is = written ? "is" : "would be";
    if (adopt != NULL && r->adoption[0] == '\0')
        printf("nothing of %s was there to be adopted, and no reason %s logged\n",
               adopt->of == NULL || adopt->of[0] == '\0' ? mf_book_device(cli->book) : adopt->of,
               is);
    else if (r->own > 0)
        printf("%" PRId64 " of them under the name of this device; why %s logged as %s\n", r->own,
               is, r->adoption);
    else if (r->adoption[0] != '\0')
        printf("taken over all the same; why %s logged as %s\n", is, r->adoption);
}

static void say_merged(const mf_cli *cli, const mf_merge_report *r, const mf_adopt *adopt)
{
    if (cli->json) {
        printf("{\"read\": %" PRId64 ", \"added\": %" PRId64 ", \"attachments\": %" PRId64
               ", \"contradictions\": %" PRId64 ", \"doubles\": %" PRId64 ", \"own\": %" PRId64
               ", \"adoption\": \"%s\"}\n",
               r->read, r->added, r->contents, r->contradictions, r->doubles, r->own, r->adoption);
        return;
    }
    printf("%" PRId64 " entries read, %" PRId64 " new, %" PRId64 " attachments new\n", r->read,
           r->added, r->contents);
    mf_cli_say_adopted(cli, r, adopt, true);
    if (r->contradictions + r->doubles > 0)
        printf("to be sorted out by a person: %" PRId64 " contradictions, %" PRId64
               " ids given twice\n",
               r->contradictions, r->doubles);
}

mf_status mf_cmd_book_merge(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_merge_report report = {0};
    mf_watch watch = mf_cli_watch(cli, args);
    mf_now now;
    mf_adopt adopt;
    (void)cmd;
    mf_status status = mf_cli_adopt(&adopt, cli, args, &now, &err);
    const mf_adopt *asked = adopt.reason != NULL ? &adopt : NULL;
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_merge(cli->book, args->word[0], asked, &watch, &report, &err);
    mf_cli_watched(cli);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    say_merged(cli, &report, asked);
    return report.contradictions + report.doubles > 0 ? MF_NO : MF_OK; /* taken over, not at one */
}
