/* The first round of "job walk": the house and the work. What frees a house of the rule, or
 * puts it under another, is asked where it bears; nothing of it is taken for said. */
#include "cli/walk_job.h"

#include <mistfold/address.h>
#include <mistfold/segment.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One no says that none of them is so; the rest asks each. Where that question was left open,
 * pay alone is asked, as it bears on every house. */
#define HOUSING  "?building dwelling,multi-unit"
#define EACH(no) "!?rare no:" no " yes:?"
#define OLD      "<;"

static const mf_ask ask_house[] = {
    {"address", NULL, NULL, NULL},
    {"year-built", NULL, NULL, NULL},
    {"building", NULL, NULL, NULL},
    {"unit", NULL, "?building multi-unit", NULL},
    {"owner-occupied", NULL, NULL, NULL},
    {MF_ASK_RARE, NULL, OLD HOUSING, NULL},
    {"for-compensation", NULL, OLD EACH("yes") " :?", NULL},
    {"elder-or-disabled", NULL, OLD HOUSING ";" EACH("no"), NULL},
    {"zero-bedroom", NULL, OLD HOUSING ";" EACH("no"), NULL},
    {"child-under-6", NULL, OLD HOUSING ";|elder-or-disabled,zero-bedroom", NULL},
    {"children-visit", NULL, "?building other", NULL},
    {"assisted", NULL, OLD HOUSING ";" EACH("no"), NULL},
    {"place", NULL, NULL, NULL},
    {"work", NULL, NULL, NULL},
    {"description", NULL, "?work repair,demolition,other", NULL},
    {"start", NULL, NULL, NULL},
    {"end", NULL, "?building multi-unit", NULL},
    {"emergency", NULL, ">", NULL},
    {"language", NULL, NULL, NULL},
    {"id", NULL, NULL, NULL},
    {MF_ASK_OTHER, NULL, "!", NULL},
    {NULL, NULL, NULL, NULL}};
enum { HOUSE_ASKS = sizeof ask_house / sizeof ask_house[0] };
_Static_assert((int)HOUSE_ASKS <= (int)MF_ASK_MAX, "more questions than answers are kept");

/* Jobs that are opened at one device, J-DEVICE-N: two devices never give one id to two houses. */
typedef struct numbering {
    char start[24]; /* "J-office-" */
    long highest;   /* N so far */
} numbering;

static bool note_number(const char *job, const char *address, mf_day start, void *data)
{
    char *end;
    numbering *own = data;
    size_t len = strlen(own->start);
    (void)address;
    (void)start;
    if (strncmp(job, own->start, len) != 0)
        return true;
    long n = strtol(job + len, &end, 10);
    if (n > own->highest && n < 1000000 && *end == '\0')
        own->highest = n;
    return true;
}

/* Questions whose answer was given on the command line, or stands in the settings, are not
 * asked; the id only when the first free one does not do. */
static mf_status prepare(mf_walk *walk, const mf_args *given, mf_ask asks[MF_ASK_MAX],
                         mf_asked *asked, mf_err *err)
{
    numbering own = {.highest = 0};
    snprintf(own.start, sizeof own.start, "J-%s-", mf_book_device(walk->cli->book));
    mf_status status = mf_book_jobs(walk->cli->book, note_number, &own, err);
    for (int i = 0; i < HOUSE_ASKS; i++) {
        asks[i] = ask_house[i];
        if (asks[i].option == NULL)
            break;
        const char *answer = mf_args_value(given, asks[i].option);
        if (answer != NULL)
            snprintf(asked->text[i], MF_ASK_TEXT, "%s", answer);
        else if (strcmp(asks[i].option, "id") == 0)
            snprintf(asked->text[i], MF_ASK_TEXT, "%s%ld", own.start, own.highest + 1);
        bool set = strcmp(asks[i].option, "place") == 0 && walk->cli->setting[MF_SET_PLACE][0];
        if (answer != NULL || set || strcmp(asks[i].option, "id") == 0)
            asks[i].rule = "=";
    }
    return status;
}

/* What the kinds of work say in plain words, where that is all there is to say. */
static void describe(const mf_walk *walk, const mf_ask *asks, mf_asked *asked)
{
    const char *words = mf_ask_choice(walk->cli->lang, mf_ask_answer(asks, asked, "work"));
    if (mf_args_value(&asked->args, "description") == NULL && words != NULL)
        mf_args_put(&asked->args, "description", words);
}

/* ---- left before it was enough ---------------------------------------------------------- */

/* As a shell takes it. */
static void put_quoted(mf_buf *out, const char *text)
{
    bool plain = text[0] != '\0' && strspn(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUV"
                                                 "WXYZ0123456789-_.,:/") == strlen(text);
    if (plain) {
        mf_buf_text(out, text);
        return;
    }
    mf_buf_text(out, "'");
    for (; *text != '\0'; text++)
        mf_buf_printf(out, *text == '\'' ? "'\\%c'" : "%c", *text);
    mf_buf_text(out, "'");
}

/* Cut off at a whole option, if it were longer than there is room for. */
void mf_walk_unfinish(char to[MF_WALK_COMMAND], const char *command, const mf_kind *kind,
                      const mf_args *args)
{
    mf_buf out = {0};
    size_t whole = 0;
    mf_buf_printf(&out, "mistfold %s", command);
    for (size_t i = 0; i < kind->n_fields; i++) {
        const char *value = mf_args_value(args, kind->fields[i].option);
        whole = out.len < MF_WALK_COMMAND ? out.len : whole;
        if (value == NULL)
            continue;
        mf_buf_printf(&out, " --%s ", kind->fields[i].option);
        put_quoted(&out, value);
    }
    whole = out.len < MF_WALK_COMMAND ? out.len : whole;
    snprintf(to, MF_WALK_COMMAND, "%.*s", args->n_opts == 0 ? 0 : (int)whole, mf_buf_str(&out));
    mf_buf_free(&out);
}

/* ---- a job that is open there ------------------------------------------------------------- */

typedef struct beside {
    mf_walk *walk;
    const char *address, *unit;
    char job[48]; /* the last that is open there; "" = none */
} beside;

/* What cannot be read is no reason to stop here: whoever asks about it is told. */
static bool see_beside(const char *id, const char *address, mf_day start, void *data)
{
    beside *b = data;
    mf_job *job = NULL;
    mf_err err = {0};
    (void)start;
    if (!mf_may_be_one_place(b->address, "", address, ""))
        return true;
    if (mf_book_job(b->walk->cli->book, id, &job, &err) == MF_OK && job->n_completion == 0 &&
        job->n_house > 0 &&
        mf_may_be_one_place(b->address, b->unit, job->house[0].address, job->house[0].unit))
        snprintf(b->job, sizeof b->job, "%s", id);
    mf_book_job_free(job);
    return true;
}

/* The job that is open at what may be the place; "" = none. */
static mf_status open_there(mf_walk *walk, const mf_ask *asks, const mf_asked *asked, char job[48],
                            mf_err *err)
{
    beside b = {.walk = walk,
                .address = mf_ask_answer(asks, asked, "address"),
                .unit = mf_ask_answer(asks, asked, "unit")};
    mf_status status = mf_book_jobs(walk->cli->book, see_beside, &b, err);
    snprintf(job, 48, "%s", b.job);
    return status;
}

/* It is named, and asked whether this is another one. */
static void ask_other(const mf_walk *walk, mf_ask *asks, mf_asked *asked, const char *job)
{
    int at = 0;
    while (strcmp(asks[at].option, MF_ASK_OTHER) != 0)
        at++;
    asks[at].rule = NULL;
    asked->from = at;
    snprintf(asked->wrong, sizeof asked->wrong, "%s %s", job,
             mf_walk_word(walk, "jobwalk.open-there"));
}

/* ---- the round ------------------------------------------------------------------------------ */

/* The id is no answer of a person: a command that goes on finds the next free one itself. */
static void unfinished(char to[MF_WALK_COMMAND], const mf_args *given, const mf_args *args)
{
    mf_args said = {0};
    for (int i = 0; i < args->n_opts; i++)
        if (strcmp(args->opt[i], "id") != 0 || mf_args_value(given, "id") != NULL)
            mf_args_put(&said, args->opt[i], args->value[i]);
    mf_walk_unfinish(to, "job walk", mf_kind_named("house"), &said);
}

/* What was typed of the house is not logged into the job that is open: it stands in the command
 * that opens another one all the same. */
static void stay(mf_walk *walk, const mf_args *given, const mf_args *args)
{
    unfinished(walk->not_opened, given, args);
    snprintf(walk->said, sizeof walk->said, "%s %s", mf_walk_word(walk, "jobwalk.stays"),
             walk->job_id);
}

/* One time through the questions, until there is an entry, a job of that place to go on with, or
 * nothing: *again = ask once more. */
static mf_status once(mf_walk *walk, const mf_args *given, mf_ask *asks, mf_asked *asked,
                      bool *left, bool *again, mf_err *err)
{
    const mf_kind *kind = mf_kind_named("house");
    char there[48], known[48];
    *again = false;
    snprintf(known, sizeof known, "%s", walk->job_id);
    *left = !mf_ask_fields(walk->cli, &walk->term, kind, mf_walk_word(walk, "jobwalk.house"), asks,
                           asked);
    describe(walk, asks, asked);
    mf_status status = open_there(walk, asks, asked, there, err);
    bool asked_of = strcmp(there, known) == 0;
    if (status != MF_OK)
        return status;
    const char *other = mf_ask_answer(asks, asked, MF_ASK_OTHER);
    bool unsaid = there[0] != '\0' && other[0] == '\0'; /* which job it is of */
    if (*left &&
        (!asked->broken_off || !mf_ask_enough(kind, &asked->args) || !asked_of || unsaid)) {
        walk->job_id[0] = '\0';
        unfinished(walk->unfinished, given, &asked->args);
        return MF_NO;
    }
    snprintf(walk->job_id, sizeof walk->job_id, "%s", there);
    *again = !asked_of && there[0] != '\0';
    if (*again) {
        ask_other(walk, asks, asked, there);
        return MF_OK;
    }
    if (there[0] != '\0' && strcmp(other, "yes") != 0) {
        stay(walk, given, &asked->args);
        return MF_OK;
    }
    status = mf_log_one(walk->cli, kind, &asked->args, err);
    *again = !*left && mf_ask_again(walk->cli, asks, asked, status, err);
    if (status != MF_OK)
        return *again ? MF_OK : status;
    walk->logged++;
    snprintf(walk->job_id, sizeof walk->job_id, "%s", mf_args_value(&asked->args, "id"));
    return MF_OK;
}

mf_status mf_round_house(mf_walk *walk, const mf_args *given, mf_err *err)
{
    mf_asked asked = {0};
    mf_ask asks[MF_ASK_MAX];
    bool left = false, again = true;
    mf_status status = prepare(walk, given, asks, &asked, err);
    while (status == MF_OK && again)
        status = once(walk, given, asks, &asked, &left, &again, err);
    if (status != MF_OK)
        return status;
    status = mf_walk_reload(walk, err);
    return status == MF_OK && left ? MF_NO : status;
}
