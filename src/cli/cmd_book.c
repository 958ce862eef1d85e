/* book new, check, rebuild, key */
#include "base/fail.h"
#include "cli/noted.h"
#include "cli/term.h"
#include "cli/tsa.h"
#include "cli/vouched.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

mf_now mf_cli_now_of_device(const mf_cli *cli)
{
    bool known = cli->who != NULL && *cli->who != '\0';
    return (mf_now){cli->today, cli->at, known ? cli->who : NULL, cli->time};
}

static mf_status make_key(mf_cli *cli, const mf_args *args, mf_err *err)
{
    char id[MF_ENTRY_ID];
    const mf_now now = mf_cli_now_of_device(cli);
    return mf_args_value(args, "no-key") != NULL ? MF_OK
                                                 : mf_book_key_make(cli->book, "", &now, id, err);
}

mf_status mf_cmd_book_key(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char id[MF_ENTRY_ID] = "";
    mf_now now;
    const char *reason = mf_args_value(args, "reason");
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_cli_now(cli, &now, &err);
    if (status == MF_OK)
        status = mf_book_key_make(cli->book, reason == NULL ? "" : reason, &now, id, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    printf(cli->json ? "{\"entry\": \"%s\"}\n" : "logged device_key %s\n", id);
    return MF_OK;
}

mf_status mf_cmd_book_new(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    if (mf_book_new(&cli->book, cli->book_path, mf_args_value(args, "device"), &err) != MF_OK ||
        make_key(cli, args, &err) != MF_OK)
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

/* What one check goes by: what was noted or handed over earlier, and stamps. */
typedef struct checking {
    mf_noted against;
    mf_tsa tsa;
    json_t *chains; /* as a list, when JSON is wanted */
    mf_stamped *stamped;
    mf_status judged; /* of the stamps; what the check itself finds comes first */
    mf_err why;
    mf_book_report report;
} checking;

static mf_status read_stamps(checking *c, const mf_cli *cli, const mf_args *args, mf_err *err)
{
    const char *elsewhere = mf_args_value(args, "stamp");
    mf_status status = mf_tsa_open(&c->tsa, cli, args, false, err);
    if (status == MF_OK)
        c->judged = mf_stamped_read(&c->stamped, cli, &c->tsa, &c->why);
    return status == MF_OK && elsewhere != NULL && (c->judged == MF_OK || c->judged == MF_NO)
               ? mf_stamped_elsewhere(c->stamped, elsewhere, &c->tsa, &c->against.heads, err)
               : status;
}

/* The chains of the book, each with who vouches for its key. */
typedef struct chains {
    mf_cli *cli;
    mf_job *firm;
    json_t *json; /* NULL = they are printed */
    mf_status status;
    mf_err *err;
} chains;

static void say_chain(const mf_cli *cli, const char *device, const char *entry, const char *key,
                      const mf_voucher *by)
{
    if (*key == '\0') {
        printf("chain     %s, %s\n", device, mf_cli_word(cli, "chain.unsigned"));
        return;
    }
    printf("chain     %s, %s %.16s..., %s; %s", device, mf_cli_word(cli, "chain.signed"), key,
           entry, mf_cli_word(cli, by->name[0] == '\0' ? "chain.unvouched" : "chain.vouched"));
    if (by->name[0] != '\0') {
        putchar(' ');
        mf_cli_show(by->name);
        printf(", %.16s...", by->fingerprint);
    }
    putchar('\n');
}

static bool take_chain(const char *device, const char *entry, const char *key, void *data)
{
    chains *c = data;
    mf_voucher by;
    c->status = mf_vouched_by(&by, c->cli, c->firm, device, key, c->err);
    if (c->status != MF_OK)
        return false;
    if (c->json == NULL)
        say_chain(c->cli, device, entry, key, &by);
    else
        json_array_append_new(c->json, json_pack("{s:s, s:s, s:s, s:s}", "device", device, "entry",
                                                 entry, "key", key, "vouched_by", by.fingerprint));
    return true;
}

/* MF_NO when somebody's signature for a key is not right. */
static mf_status tell_chains(mf_cli *cli, json_t *json, mf_err *err)
{
    chains c = {.cli = cli, .json = json, .err = err};
    mf_status status = mf_cli_job(cli, "", &c.firm, err);
    if (status == MF_OK)
        status = mf_book_devices(cli->book, take_chain, &c, err);
    mf_book_job_free(c.firm);
    return status == MF_OK ? c.status : status;
}

static mf_status json_report(const checking *c, mf_err *err)
{
    const mf_book_report *report = &c->report;
    json_t *root = json_pack(
        "{s:O, s:I, s:I, s:I, s:s, s:I, s:I, s:I, s:I, s:I, s:I, s:O, s:O, s:o}", "chains",
        c->chains, "entries", (json_int_t)report->entries, "devices", (json_int_t)report->devices,
        "faults", (json_int_t)report->faults, "head", report->head, "seals",
        (json_int_t)report->seals, "heads_untold", (json_int_t)report->heads_untold, "witnesses",
        (json_int_t)report->witnesses, "awaited", (json_int_t)report->awaited, "withdrawn",
        (json_int_t)report->withdrawn, "adopted", (json_int_t)report->adopted, "noted",
        c->against.json_lists, "papers", c->against.json, "stamps", mf_stamped_json(c->stamped));
    mf_status status = mf_json_put(root, err);
    json_decref(root);
    return status;
}

static void print_report(const mf_book_report *report)
{
    printf("entries   %" PRId64 " from %" PRId64 " device%s\n", report->entries, report->devices,
           report->devices == 1 ? "" : "s");
    printf("faults    %" PRId64 "\n", report->faults);
    printf("head      %s\n", report->head);
    if (report->faults > 0)
        return;
    printf("seals     %" PRId64 " logged", report->seals);
    if (report->heads_untold > 0)
        printf("; of %" PRId64 " the head cannot be followed in this book", report->heads_untold);
    if (report->witnesses + report->withdrawn > 0)
        printf("\nwitnesses %" PRId64 " noted, %" PRId64 " held", report->witnesses,
               report->witnesses - report->awaited - report->adopted);
    if (report->awaited > 0)
        printf("; of %" PRId64 " an entry is not here yet, or this book knows no such head",
               report->awaited);
    if (report->withdrawn > 0)
        printf("; %" PRId64 " more withdrawn", report->withdrawn);
    if (report->adopted > 0)
        printf("; %" PRId64 " contradicted by what was taken over with a reason", report->adopted);
    puts("\nEvery hash is right, and every table made from the journal says what the journal "
         "says.");
}

/* Papers that were handed over, then the stamps. */
static mf_status hold(mf_cli *cli, checking *c, mf_err *err)
{
    mf_err unsaid = {0};
    mf_status held = mf_noted_papers(&c->against, cli, err);
    if (cli->json && held != MF_SYSTEM && json_report(c, &unsaid) != MF_OK) {
        *err = unsaid;
        return MF_SYSTEM;
    }
    if (held != MF_OK || c->judged == MF_OK)
        return held;
    *err = c->why;
    return c->judged;
}

/* Somebody answers for it; which of the two is right is still to be said. */
static mf_status refuse_adopted(const mf_cli *cli, const mf_book_report *report, mf_err *err)
{
    return mf_failf(err, MF_NO, cli->book_path,
                    "a head that was noted and this book contradict each other",
                    "find out which is right; when the book is: mistfold entry withdraw WITNESS "
                    "--reason \"...\"",
                    "%s", report->adopted_first);
}

static mf_status check_book(mf_cli *cli, const mf_args *args, checking *c, mf_err *err)
{
    mf_err found = {0};
    const mf_noted *against = &c->against;
    mf_watch watch = mf_cli_watch(cli, args);
    mf_status status = mf_book_check_against(
        cli->book, against->heads.len > 0 ? mf_buf_str(&against->heads) : NULL, &watch, &c->report,
        err);
    mf_cli_watched(cli);
    if (status == MF_OK && c->report.adopted > 0)
        status = refuse_adopted(cli, &c->report, err);
    if (status != MF_OK && status != MF_NO)
        return status;
    if (!cli->json)
        print_report(&c->report);
    mf_status vouched = c->report.faults == 0 ? tell_chains(cli, c->chains, &found) : MF_OK;
    if (vouched != MF_OK && vouched != MF_NO) {
        *err = found;
        return vouched;
    }
    if (vouched == MF_NO && c->judged == MF_OK) {
        c->judged = vouched;
        c->why = found;
    }
    found = (mf_err){0};
    if (!cli->json)
        mf_stamped_say(c->stamped, cli);
    mf_status held = mf_noted_lists(against, cli, &found);
    if (held == MF_OK)
        held = hold(cli, c, &found);
    if (held == MF_OK || (held != MF_SYSTEM && status == MF_NO))
        return status;
    *err = found;
    return held;
}

mf_status mf_cmd_book_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    checking c = {.against.json = cli->json ? json_array() : NULL,
                  .against.json_lists = cli->json ? json_array() : NULL,
                  .chains = cli->json ? json_array() : NULL};
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_noted_read(&c.against, args, &err);
    if (status == MF_OK)
        status = read_stamps(&c, cli, args, &err);
    if (status == MF_OK)
        status = check_book(cli, args, &c, &err);
    if (status != MF_OK)
        cli->quiet = true; /* what comes next the line of the fault says */
    json_decref(c.chains);
    mf_stamped_free(c.stamped);
    mf_tsa_close(&c.tsa);
    mf_noted_free(&c.against);
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
