/* sync: many devices meet at one place. */
#include "base/digest.h"
#include "base/fail.h"
#include "base/file.h"
#include "base/letters.h"
#include "cli/due.h"
#include "cli/json.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SEEN_MAX = 64 * 1024 * 1024 };

/* One call of the command. */
typedef struct meeting {
    mf_cli *cli;
    const mf_args *args;
    mf_store store;
    mf_buf seen_path; /* beside the book, what was seen of this place */
    mf_sync_ask ask;
    mf_sync_report out;
    mf_due_list before, after;
    mf_watch watch;
} meeting;

/* ---- the place ----------------------------------------------------------------------------- */

static bool is_database(const char *place)
{
    return mf_begins(place, "postgresql://") || mf_begins(place, "postgres://");
}

static mf_status open_place(meeting *m, mf_err *err)
{
    static const char folder[] = "folder:";
    const char *place = m->args->word[0];
    if (mf_begins(place, folder))
        return mf_store_folder(&m->store, place + sizeof folder - 1, err);
    if (is_database(place))
        return mf_store_postgresql(&m->store, place, mf_book_device(m->cli->book), err);
    return mf_fail(err, MF_INPUT, "PLACE", "it is not a place where devices can meet",
                   "it begins with what it is",
                   "write folder:DIR, a folder that all can reach, or postgresql://HOST/DATABASE");
}

/* ---- the store itself ------------------------------------------------------------------------ */

typedef struct oddities {
    json_t *list; /* NULL = they are printed */
    int n;
} oddities;

static bool tell_odd(const char *line, bool missing, void *data)
{
    oddities *odd = data;
    odd->n++;
    if (odd->list != NULL)
        return json_array_append_new(odd->list,
                                     json_pack("{s:s, s:s}", "state", missing ? "missing" : "more",
                                               "line", line)) == 0;
    mf_cli_pad(missing ? "missing" : "more", 13);
    mf_cli_show(line);
    putchar('\n');
    return true;
}

/* MF_NO when it is not what the SQL makes. */
static mf_status check_store(const mf_cli *cli, const char *place, mf_err *err)
{
    oddities odd = {cli->json ? json_array() : NULL, 0};
    if (!is_database(place))
        return mf_fail(err, MF_USAGE, "PLACE", "only a database is checked so", "",
                       "write postgresql://HOST/DATABASE; a folder: --status");
    mf_status status = mf_store_postgresql_check(place, tell_odd, &odd, err);
    if (status != MF_OK)
        json_decref(odd.list);
    else if (cli->json)
        status = mf_json_print(json_pack("{s:b, s:o}", "whole", odd.n == 0, "lines", odd.list));
    else if (odd.n == 0)
        puts("the store is just what sync --init makes");
    return status == MF_OK && odd.n > 0 ? MF_NO : status;
}

static mf_status of_store(mf_cli *cli, const mf_args *args)
{
    mf_err err = {0};
    cli->quiet = true; /* what is printed goes to psql, or is the answer */
    if (mf_args_value(args, "init") != NULL) {
        fputs(mf_store_sql(), stdout);
        return MF_OK;
    }
    mf_status status = check_store(cli, args->word[0], &err);
    return status == MF_OK || status == MF_NO ? status : mf_cli_fail(&err);
}

/* ---- what was seen there --------------------------------------------------------------------- */

/* The name of the place, as it was typed, tells one from another. */
static mf_status name_seen(meeting *m, mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    const char *place = m->args->word[0];
    bool good = mf_digest_hex(place, strlen(place), hash);
    mf_buf_printf(&m->seen_path, "%s.%.16s.sync", m->cli->book_path, hash);
    return good && !m->seen_path.failed ? MF_OK : mf_fail_memory(err);
}

/* Without it everything is read anew: it saves time, and is what tells that a file is gone. */
static mf_status read_seen(const meeting *m, mf_bytes *out, mf_err *err)
{
    mf_err why = {0};
    mf_status status = mf_file_read(out, m->seen_path.data, SEEN_MAX, &why);
    if (status != MF_OK && status != MF_INPUT && err != NULL)
        *err = why;
    return status == MF_INPUT ? MF_OK : status;
}

/* ---- what is printed ---------------------------------------------------------------------------
 */

static const char *const state_words[] = {
    [MF_SYNC_HERE] = "here",           [MF_SYNC_CAME] = "came in",
    [MF_SYNC_SENT] = "handed out",     [MF_SYNC_WAITS] = "waits",
    [MF_SYNC_NEW] = "not accepted",    [MF_SYNC_FORKED] = "forked",
    [MF_SYNC_REFUSED] = "refused",     [MF_SYNC_DAMAGED] = "damaged",
    [MF_SYNC_NEEDLESS] = "replaced",   [MF_SYNC_GONE] = "gone",
    [MF_SYNC_STRANGE] = "not of ours", [MF_SYNC_UNFINISHED] = "unfinished"};
static const char *const state_ids[] = {
    [MF_SYNC_HERE] = "here",         [MF_SYNC_CAME] = "came",
    [MF_SYNC_SENT] = "sent",         [MF_SYNC_WAITS] = "waits",
    [MF_SYNC_NEW] = "new",           [MF_SYNC_FORKED] = "forked",
    [MF_SYNC_REFUSED] = "refused",   [MF_SYNC_DAMAGED] = "damaged",
    [MF_SYNC_NEEDLESS] = "needless", [MF_SYNC_GONE] = "gone",
    [MF_SYNC_STRANGE] = "strange",   [MF_SYNC_UNFINISHED] = "unfinished"};

/* What it is of, what is with it, and at the end the file. */
static void say_item(const mf_sync_item *it)
{
    mf_buf line = {0};
    const char *const parts[] = {it->what, it->why, it->mend};
    if (it->from > 0)
        mf_buf_printf(&line, "%s/%" PRId64 " to %" PRId64, it->device, it->from, it->to);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (parts[i][0] != '\0')
            mf_buf_printf(&line, "%s%s", line.len > 0 ? "; " : "", parts[i]);
    if (it->what[0] != '\0')
        mf_buf_printf(&line, " (%s)", it->name);
    else if (it->from == 0)
        mf_buf_text(&line, it->name);
    mf_cli_pad(state_words[it->state], 13);
    mf_cli_show(mf_buf_str(&line));
    putchar('\n');
    mf_buf_free(&line);
}

static void say_chains(const mf_sync_report *out)
{
    printf("%-17s %9s %9s\n", "device", "here", "there");
    for (size_t i = 0; i < out->n_chains; i++)
        printf("%-17s %9" PRId64 " %9" PRId64 "\n", out->chains[i].device, out->chains[i].here,
               out->chains[i].there);
}

/* What was not due before the others' entries came in. */
static bool became_due(const meeting *m, const mf_due_row *row)
{
    return !mf_due_holds(&m->before, row);
}

static void say_due(const meeting *m)
{
    bool first = true;
    for (size_t i = 0; i < m->after.n; i++) {
        if (!became_due(m, &m->after.rows[i]))
            continue;
        if (first)
            puts("became due:");
        first = false;
        mf_due_print(m->cli, &m->after.rows[i]);
    }
    if (!first)
        mf_cli_caution(m->cli);
}

static void say_count(const char *what, int64_t entries, int64_t attachments)
{
    mf_cli_pad(what, 13);
    printf("entries: %" PRId64 ", attachments: %" PRId64 "\n", entries, attachments);
}

static void say_text(const meeting *m)
{
    const mf_merge_report *in = &m->out.merged;
    for (size_t i = 0; i < m->out.n_items; i++)
        say_item(&m->out.items[i]);
    if (m->ask.way == MF_SYNC_STATE)
        say_chains(&m->out);
    say_count("taken over", in->added, in->contents);
    say_count("handed out", m->out.sent, m->out.contents_sent);
    if (m->ask.way != MF_SYNC_DO)
        puts("nothing was written: this is what a sync would do");
    if (in->contradictions + in->doubles > 0)
        printf("to be sorted out by a person: %" PRId64 " contradictions, %" PRId64
               " ids given twice\n",
               in->contradictions, in->doubles);
    mf_cli_say_adopted(m->cli, in, m->ask.adopt, m->ask.way == MF_SYNC_DO);
    say_due(m);
}

static json_t *json_item(const mf_sync_item *it)
{
    return json_pack("{s:s, s:s, s:s, s:I, s:I, s:s, s:s, s:s}", "state", state_ids[it->state],
                     "name", it->name, "device", it->device, "from", (json_int_t)it->from, "to",
                     (json_int_t)it->to, "what", it->what, "why", it->why, "mend", it->mend);
}

static mf_status say_json(const meeting *m)
{
    const mf_sync_report *out = &m->out;
    json_t *files = json_array(), *chains = json_array(), *due = json_array();
    for (size_t i = 0; i < out->n_items; i++)
        json_array_append_new(files, json_item(&out->items[i]));
    for (size_t i = 0; i < out->n_chains; i++)
        json_array_append_new(chains, json_pack("{s:s, s:I, s:I}", "device", out->chains[i].device,
                                                "here", (json_int_t)out->chains[i].here, "there",
                                                (json_int_t)out->chains[i].there));
    for (size_t i = 0; i < m->after.n; i++)
        if (became_due(m, &m->after.rows[i]))
            json_array_append_new(due, mf_due_json(m->cli, &m->after.rows[i]));
    const mf_merge_report *in = &out->merged;
    return mf_json_print(json_pack(
        "{s:I, s:I, s:I, s:I, s:I, s:s, s:I, s:I, s:o, s:o, s:o}", "added", (json_int_t)in->added,
        "attachments", (json_int_t)in->contents, "contradictions", (json_int_t)in->contradictions,
        "doubles", (json_int_t)in->doubles, "own", (json_int_t)in->own, "adoption", in->adoption,
        "sent", (json_int_t)out->sent, "attachments_sent", (json_int_t)out->contents_sent, "files",
        files, "devices", chains, "due", due));
}

/* ---- the whole ------------------------------------------------------------------------------- */

static mf_status meet(meeting *m, mf_err *err)
{
    mf_bytes seen = {0}, now = {0};
    mf_status status = read_seen(m, &seen, err);
    m->ask.seen = seen.data == NULL ? "" : (const char *)seen.data;
    if (status == MF_OK && m->ask.way == MF_SYNC_DO)
        status = mf_due_today(m->cli, &m->watch, true, &m->before, err);
    if (status == MF_OK)
        status = mf_sync(&m->ask, &m->out, &now, err);
    if (status == MF_OK && m->ask.way == MF_SYNC_DO)
        status = mf_file_write(m->seen_path.data, now.data, now.len, 0600, err);
    if (status == MF_OK && m->ask.way == MF_SYNC_DO)
        status = mf_due_today(m->cli, &m->watch, false, &m->after, err);
    mf_bytes_free(&seen);
    mf_bytes_free(&now);
    return status;
}

static mf_status prepare(meeting *m, mf_now *now, mf_adopt *adopt, mf_err *err)
{
    const mf_args *args = m->args;
    bool state = mf_args_value(args, "status") != NULL;
    bool tries = mf_args_value(args, "dry-run") != NULL;
    const char *accept = mf_args_value(args, "accept");
    *adopt = (mf_adopt){.reason = NULL};
    *now = mf_cli_now_of_device(m->cli);
    mf_status status = accept == NULL ? MF_OK : mf_cli_now(m->cli, now, err);
    if (status == MF_OK)
        status = mf_cli_adopt(adopt, m->cli, args, now, err);
    if (status == MF_OK)
        status = mf_cli_book(m->cli, err);
    if (status == MF_OK)
        status = open_place(m, err);
    if (status == MF_OK)
        status = name_seen(m, err);
    m->ask = (mf_sync_ask){.book = m->cli->book,
                           .store = &m->store,
                           .way = state   ? MF_SYNC_STATE
                                  : tries ? MF_SYNC_TRY
                                          : MF_SYNC_DO,
                           .now = now,
                           .accept = accept == NULL ? "" : accept,
                           .refill = mf_args_value(args, "refill") != NULL,
                           .adopt = adopt->reason == NULL ? NULL : adopt,
                           .watch = &m->watch};
    return status;
}

mf_status mf_cmd_sync(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_now now;
    mf_adopt adopt;
    meeting m = {.cli = cli, .args = args, .watch = mf_cli_watch(cli, args)};
    if (mf_args_value(args, "init") != NULL)
        return of_store(cli, args);
    if (args->n_words == 0) {
        mf_fail(&err, MF_USAGE, "PLACE", "is needed here", "", cmd->example);
        return mf_cli_fail(&err);
    }
    if (mf_args_value(args, "check") != NULL)
        return of_store(cli, args);
    mf_status status = prepare(&m, &now, &adopt, &err);
    if (status == MF_OK)
        status = meet(&m, &err);
    mf_cli_watched(cli);
    if (status == MF_OK && cli->json)
        status = say_json(&m);
    else if (status == MF_OK)
        say_text(&m);
    else
        status = mf_cli_fail(&err);
    if (status == MF_OK)
        status = mf_sync_answer(&m.out);
    mf_sync_report_free(&m.out);
    mf_store_close(&m.store);
    mf_buf_free(&m.seen_path);
    free(m.before.rows);
    free(m.after.rows);
    return status;
}
