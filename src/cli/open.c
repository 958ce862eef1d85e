/* Opening the book and a job for a command. */
#include "base/fail.h"
#include "cli/cli.h"

#include <mistfold/segment.h>

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* Before anything is logged: of what its device signed the book itself refuses to go on. */
static mf_status tell_named(const mf_cli *cli, mf_err *err)
{
    mf_segment_head it;
    mf_status status = mf_book_ahead(cli->book, &it, err);
    if (status == MF_OK && it.seq > 0 && it.hash[0] == '\0')
        mf_cli_warn(
            "it was noted outside this book that this device went on to entry %s/%lld, by "
            "another device, a head or the name of a file: if this book was put back to an "
            "earlier state, log nothing until that is here: it would be a second history; if it "
            "was not, the next sync that leaves nothing over takes this note away",
            it.device, (long long)it.seq);
    return status;
}

mf_status mf_cli_book(mf_cli *cli, mf_err *err)
{
    if (cli->book != NULL)
        return MF_OK;
    mf_status status = mf_book_open(&cli->book, cli->book_path, err);
    return status == MF_OK ? tell_named(cli, err) : status;
}

void mf_cli_clock_of(const mf_cli *cli, mf_job *job)
{
    job->clock = (mf_clock){cli->at, cli->ahead_min};
}

mf_status mf_cli_job(mf_cli *cli, const char *id, mf_job **out, mf_err *err)
{
    mf_status status = mf_cli_book(cli, err);
    if (status == MF_OK && cli->spare != NULL && strcmp(cli->spare->id, id) == 0) {
        *out = cli->spare; /* read a moment ago, and nothing was written since */
        cli->spare = NULL;
    } else if (status == MF_OK)
        status = mf_book_job(cli->book, id, out, err);
    if (status == MF_OK)
        mf_cli_clock_of(cli, *out);
    return status;
}

mf_status mf_cli_job_until(mf_cli *cli, const char *id, mf_day day, mf_job **out, size_t *left_out,
                           mf_err *err)
{
    char text[MF_DAY_TEXT];
    mf_status status = mf_cli_job(cli, id, out, err);
    if (status == MF_OK)
        status = mf_book_job_until(*out, day, left_out, err);
    if (status != MF_OK || *left_out == 0)
        return status;
    mf_day_text(day, text);
    mf_cli_note(cli, "entries left out, whole or in part, because they are dated after %s: %zu",
                text, *left_out);
    return MF_OK;
}

mf_status mf_cli_none_later(const mf_job *job, mf_day day, mf_err *err)
{
    char text[MF_DAY_TEXT];
    size_t later = mf_job_after(job, day);
    for (size_t i = 0; i < job->n_sealed; i++)
        later -= job->sealed[i].on > day;
    mf_day_text(day, text);
    return later == 0
               ? MF_OK
               : mf_failf(err, MF_INPUT, job->id,
                          "a record prints the whole job, and would answer for that day from what "
                          "came later",
                          "leave --on out, or give a day by which all of it was done; \"gate\" and "
                          "\"audit\" answer as of any day",
                          "entries dated after %.10s: %zu", text, later);
}

void mf_cli_lost(mf_cli *cli, const char *job, const mf_err *why)
{
    mf_err one = *why;
    if (strcmp(job, why->where) != 0)
        snprintf(one.where, sizeof one.where, "%.48s, %.80s", job, why->where);
    mf_cli_watched(cli);
    mf_cli_fail(&one);
    cli->lost = true;
}

typedef struct once {
    mf_job_fn *fn;
    void *data;
    mf_buf last; /* the id of the job before */
} once;

static bool only_once(const char *id, const char *address, mf_day start, void *data)
{
    once *o = data;
    if (o->last.len > 0 && strcmp(id, mf_buf_str(&o->last)) == 0)
        return true;
    mf_buf_clear(&o->last);
    mf_buf_text(&o->last, id);
    return !o->last.failed && o->fn(id, address, start, o->data);
}

mf_status mf_cli_jobs(const mf_cli *cli, mf_job_fn *fn, void *data, mf_err *err)
{
    once o = {fn, data, {0}};
    mf_status status = mf_book_jobs(cli->book, only_once, &o, err);
    if (status == MF_OK && o.last.failed)
        status = mf_fail_memory(err);
    mf_buf_free(&o.last);
    return status;
}

mf_status mf_cli_job_of_many(mf_cli *cli, const char *id, mf_job **out, mf_err *err)
{
    mf_err why = {0};
    if (mf_book_job(cli->book, id, out, &why) == MF_OK) {
        mf_cli_clock_of(cli, *out);
        return MF_OK;
    }
    mf_status status = mf_book_unread(cli->book, &why, err);
    if (status == MF_OK)
        mf_cli_lost(cli, id, &why);
    return status;
}

mf_status mf_cli_firm(mf_cli *cli, mf_job **out, mf_err *err)
{
    *out = NULL;
    return access(cli->book_path, F_OK) == 0 ? mf_cli_job(cli, "", out, err) : MF_OK;
}

mf_status mf_cli_check_who(mf_cli *cli, mf_err *err)
{
    mf_job *firm = NULL;
    mf_buf all = {0};
    char mend[200];
    bool known = false;
    if (cli->vetted == cli->who || mf_book_job(cli->book, "", &firm, NULL) != MF_OK)
        return MF_OK;
    for (size_t i = 0; i < firm->n_person; i++) {
        known = known || strcmp(firm->person[i].id, cli->who) == 0;
        mf_buf_printf(&all, "%s%s", i > 0 ? ", " : "", firm->person[i].id);
    }
    known = known || firm->n_person == 0;
    snprintf(mend, sizeof mend, "it is one of %.100s%s; \"person add\" adds another",
             mf_buf_str(&all), all.len > 100 ? "..." : "");
    mf_buf_free(&all);
    mf_book_job_free(firm);
    if (!known)
        return mf_failf(err, MF_INPUT,
                        strcmp(cli->from[MF_SET_BY], "option") == 0 ? "--by" : cli->from[MF_SET_BY],
                        "an entry is logged by a person of the book", mend,
                        "there is no person %.60s", cli->who);
    cli->vetted = cli->who;
    return MF_OK;
}

mf_status mf_cli_now(mf_cli *cli, mf_now *out, mf_err *err)
{
    if (cli->who[0] == '\0')
        return mf_fail(err, MF_USAGE, "--by", "nobody said who is writing",
                       "every entry names the person who made it",
                       "add --by ID, or set MISTFOLD_BY");
    if (cli->book != NULL && mf_book_is_read_only(cli->book))
        return mf_book_begin(cli->book, err); /* has the words */
    *out = (mf_now){cli->today, cli->at, cli->who, cli->time};
    mf_status status = mf_cli_book(cli, err);
    return status == MF_OK ? mf_cli_check_who(cli, err) : status;
}

mf_status mf_cli_day_in(const mf_args *args, const char *option, mf_day usual, mf_day *out,
                        mf_err *err)
{
    const char *text = mf_args_value(args, option);
    char where[40];
    bool well_formed = false;
    *out = text == NULL ? usual : mf_day_parse(text, &well_formed);
    if (text == NULL || *out != MF_DAY_NONE)
        return MF_OK;
    snprintf(where, sizeof where, "--%s", option);
    return mf_failf(err, MF_INPUT, where, "", "write the date as YYYY-MM-DD",
                    well_formed ? "the date %s does not exist" : "%s is not a date", text);
}

mf_status mf_cli_day(const mf_cli *cli, const mf_args *args, mf_day *out, mf_err *err)
{
    return mf_cli_day_in(args, "on", cli->today, out, err);
}
