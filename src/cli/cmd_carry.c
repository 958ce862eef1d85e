/* entry export, entry import: a job's entries out to a phone and back. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/receipt.h"

#include <inttypes.h>
#include <stdio.h>

enum { CARRY_MAX = 256 * 1024 * 1024 };

mf_status mf_cmd_entry_export(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes file = {0};
    const char *path = mf_args_value(args, "out");
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_export_entries(cli->book, args->word[0], cli->at, &file, &err);
    if (status == MF_OK)
        status = mf_cli_put(cli, path, file.data, file.len, &err);
    mf_bytes_free(&file);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        printf("{\"exported\": true}\n");
    else
        printf("wrote %s, readable by you alone\n"
               "bring back what was logged with \"mistfold entry import FILE\"\n",
               path);
    return MF_OK;
}

/* ---- the receipt ------------------------------------------------------------------------ */

static void say_text(const mf_entries_report *out, const mf_receipt *r)
{
    const mf_merge_report *m = &out->merge;
    printf("%" PRId64 " entries read, %" PRId64 " new, %" PRId64 " attachments new\n", m->read,
           m->added, m->contents);
    if (m->contradictions + m->doubles > 0)
        printf("to be sorted out by a person: %" PRId64 " contradictions, %" PRId64
               " ids given twice\n",
               m->contradictions, m->doubles);
    printf("receipt, for the phone:\nhead %s\n%s", out->head, mf_buf_str(&r->lines));
}

/* What is not whole is no success that may be overlooked. */
static void say_cut(const mf_entries_report *out, const char *path)
{
    if (!out->cut)
        return;
    mf_cli_warn("%s was cut off: it was taken up to its last whole line%s; take it from the phone "
                "once more",
                path, out->left > 0 ? ", and entries whose attachments are missing were left" : "");
}

mf_status mf_cmd_entry_import(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes file = {0};
    mf_entries_report out = {0};
    mf_receipt r;
    mf_watch watch = mf_cli_watch(cli, args);
    const mf_now now = {cli->today, cli->at, "", cli->time};
    (void)cmd;
    mf_receipt_begin(&r);
    mf_status status = mf_file_read(&file, args->word[0], CARRY_MAX, &err);
    const mf_entries_ask ask = {.name = args->word[0],
                                .bytes = file.data,
                                .len = file.len,
                                .now = &now,
                                .watch = &watch,
                                .head = mf_receipt_head,
                                .data = &r};
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_import_entries(cli->book, &ask, &out, &err);
    mf_cli_watched(cli);
    mf_bytes_free(&file);
    if (status == MF_OK && cli->json)
        status = mf_json_print(mf_receipt_json(&r, &out));
    else if (status == MF_OK)
        say_text(&out, &r);
    else
        status = mf_cli_fail(&err);
    if (status == MF_OK)
        say_cut(&out, args->word[0]);
    mf_receipt_end(&r);
    bool at_one = out.merge.contradictions + out.merge.doubles == 0;
    return status == MF_OK && !at_one ? MF_NO : status; /* taken in, not at one */
}
