/* test log: one reading by hand, with gloves on. What is not typed is repeated
 * from the last reading of the job, names of components are completed when only
 * one can be meant, and what was filled in is said. */
#include "base/fail.h"
#include "base/letters.h"
#include "cli/reading.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

typedef struct quick {
    mf_cli *cli;
    const mf_job *job;
    const mf_reading *last;      /* NULL = the first of the job */
    const mf_component *where;   /* component of the last reading on one */
    const mf_component *matched; /* what the typed name means */
    mf_args args;
    char number[24], day[MF_DAY_TEXT];
} quick;

static const char *given(const quick *q, const char *option)
{
    return mf_args_value(&q->args, option);
}

static void fill(quick *q, const char *option, const char *value)
{
    mf_args *args = &q->args;
    if (value == NULL || value[0] == '\0' || given(q, option) != NULL ||
        args->n_opts == MF_ARGS_OPTS)
        return;
    args->opt[args->n_opts] = option;
    args->value[args->n_opts++] = value;
}

/* Replaces what was typed. */
static void replace(quick *q, const char *option, const char *value)
{
    for (int i = 0; i < q->args.n_opts; i++)
        if (strcmp(q->args.opt[i], option) == 0)
            q->args.value[i] = value;
}

/* ---- which component ------------------------------------------------------------------ */

/* How well a typed name fits: 3 = its id, 2 = its type or the end of its id, 1 = the
 * beginning of one of them, 0 = not at all. */
static int fit(const mf_component *it, const char *typed)
{
    const char *type = mf_cli_choice("component", "type", (int)it->type);
    const char *dot = strchr(it->id, '.');
    const char *end = dot == NULL ? it->id : dot + 1;
    if (strcmp(it->id, typed) == 0)
        return 3;
    if (strcmp(type, typed) == 0 || strcmp(end, typed) == 0)
        return 2;
    return mf_begins(it->id, typed) || mf_begins(type, typed) || mf_begins(end, typed) ? 1 : 0;
}

/* Where the reading is: the opening, room and side that were said, or those of the
 * last reading. */
static bool in_place(const quick *q, const mf_component *it, bool same_side)
{
    const char *opening = given(q, "opening"), *room = given(q, "room"), *side = given(q, "side");
    const char *const *sides = mf_field_named(mf_kind_named("component"), "side")->choices;
    if (side != NULL && strcmp(sides[it->side], side) != 0)
        return false;
    if (side == NULL && same_side && q->where != NULL && it->side != q->where->side)
        return false;
    if (opening != NULL)
        return strcmp(it->opening, opening) == 0;
    if (room != NULL)
        return mf_same_room(mf_place_of(q->job, it), room);
    if (q->where == NULL)
        return true;
    if (q->where->opening[0] != '\0')
        return strcmp(it->opening, q->where->opening) == 0;
    return mf_same_room(mf_place_of(q->job, it), mf_place_of(q->job, q->where));
}

typedef struct search {
    const mf_component *found;
    int best, count;
    char list[240];
} search;

static void consider(search *s, const mf_component *it, int how)
{
    if (how == 0 || how < s->best)
        return;
    if (how > s->best) {
        *s = (search){.best = how};
    }
    size_t used = strlen(s->list);
    if (used < sizeof s->list - 48)
        snprintf(s->list + used, sizeof s->list - used, "%s%.40s", used == 0 ? "" : ", ", it->id);
    s->found = it;
    s->count++;
}

static search look(const quick *q, const char *typed, bool here, bool same_side)
{
    search s = {.best = 0};
    for (size_t i = 0; i < q->job->n_component; i++) {
        const mf_component *it = &q->job->component[i];
        if (!here || in_place(q, it, same_side))
            consider(&s, it, fit(it, typed));
    }
    return s;
}

/* An id counts anywhere; a name here first, on the same side first. */
static mf_status find_component(quick *q, mf_err *err)
{
    const char *typed = given(q, "component");
    bool placed = given(q, "opening") != NULL || given(q, "room") != NULL;
    if (typed == NULL)
        return MF_OK;
    q->matched = mf_job_component(q->job, typed);
    if (q->matched != NULL)
        return MF_OK;
    search s = look(q, typed, true, true);
    if (s.count == 0)
        s = look(q, typed, true, false);
    if (s.count == 0 && !placed)
        s = look(q, typed, false, false);
    if (s.count == 0)
        return MF_OK; /* the book says that there is none, and what was meant */
    if (s.count > 1)
        return mf_failf(err, MF_INPUT, "--component", "a reading belongs to one component",
                        "write more of it, or say --opening, --room or --side",
                        "\"%.40s\" may be %s", typed, s.list);
    q->matched = s.found;
    replace(q, "component", s.found->id);
    return MF_OK;
}

/* ---- what is repeated ------------------------------------------------------------------- */

static bool is_later(const mf_reading *a, const mf_reading *b)
{
    return b == NULL || a->on > b->on || (a->on == b->on && a->number >= b->number);
}

static void find_last(quick *q)
{
    for (size_t i = 0; i < q->job->n_reading; i++) {
        const mf_reading *it = &q->job->reading[i];
        if (!is_later(it, q->last))
            continue;
        q->last = it;
        const mf_component *component = mf_job_component(q->job, it->component);
        if (component != NULL)
            q->where = component;
    }
}

int64_t mf_reading_free_number(const mf_job *job, const char *instrument)
{
    int64_t highest = 0;
    for (size_t i = 0; i < job->n_reading; i++)
        if (strcmp(job->reading[i].instrument, instrument) == 0 && job->reading[i].number > highest)
            highest = job->reading[i].number;
    return highest + 1;
}

const mf_reading *mf_reading_clash(const mf_job *job, const char *instrument, int64_t number,
                                   mf_day on)
{
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *it = &job->reading[i];
        if (it->number == number && it->on == on && strcmp(it->instrument, instrument) == 0)
            return it;
    }
    return NULL;
}

static void next_number(quick *q)
{
    const char *serial = given(q, "instrument");
    snprintf(q->number, sizeof q->number, "%" PRId64,
             mf_reading_free_number(q->job, serial == NULL ? "" : serial));
    fill(q, "number", q->number);
}

static void fill_purpose(quick *q)
{
    mf_purpose purpose = MF_READ_PAINT;
    if (given(q, "component") == NULL && q->last != NULL && q->last->component[0] == '\0')
        purpose = q->last->purpose; /* the next one on the film */
    fill(q, "purpose", mf_cli_choice("reading", "purpose", (int)purpose));
}

static void fill_rest(quick *q)
{
    if (q->last != NULL) {
        fill(q, "instrument", q->last->instrument);
        fill(q, "operator", q->last->operator_id);
        fill(q, "mode", q->last->mode);
    } else if (q->job->n_instrument == 1) {
        fill(q, "instrument", q->job->instrument[0].serial);
    }
    fill_purpose(q);
    if (q->matched != NULL)
        fill(q, "substrate", mf_cli_choice("reading", "substrate", (int)q->matched->substrate));
    else if (q->last != NULL)
        fill(q, "substrate", mf_cli_choice("reading", "substrate", (int)q->last->substrate));
    next_number(q);
    mf_day_text(q->last == NULL ? q->cli->today : q->last->on, q->day);
    fill(q, "on", q->day);
}

/* A number that stands there already with something else is more likely a slip than a second
 * reading: the person says which. */
static mf_status check_number(const quick *q, mf_err *err)
{
    mf_reading it;
    char result[40];
    if (mf_cli_fill(mf_kind_named("reading"), &q->args, q->cli->today, &it, NULL) != MF_OK ||
        given(q, "again") != NULL)
        return MF_OK; /* the book says what is wrong */
    const mf_reading *before = mf_reading_clash(q->job, it.instrument, it.number, it.on);
    if (before == NULL)
        return MF_OK;
    mf_words_loading(before->loading_ug_cm2, before->qualifier, result, sizeof result);
    return mf_failf(err, MF_INPUT, "--number", "",
                    "give the number it has, correct that entry (entry correct), or say --again",
                    "number %.20s of %.40s is logged that day: %.48s %s, entry %.40s",
                    given(q, "number"), it.instrument, before->component, result,
                    before->src.entry);
}

/* Says what was filled in, so that a person sees it while it can be corrected. */
static void say_filled(const quick *q, const mf_args *typed)
{
    char line[400] = "";
    for (int i = 0; i < q->args.n_opts; i++) {
        const char *before = mf_args_value(typed, q->args.opt[i]);
        size_t used = strlen(line);
        if (before != NULL && strcmp(before, q->args.value[i]) == 0)
            continue;
        if (used < sizeof line - 80)
            snprintf(line + used, sizeof line - used, "%s%s %.50s", used == 0 ? "" : ", ",
                     q->args.opt[i], q->args.value[i]);
    }
    if (line[0] != '\0')
        mf_cli_note(q->cli, "%s: %s", mf_cli_word(q->cli, "testing.filled-in"), line);
}

mf_status mf_cmd_reading(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    quick q = {.cli = cli, .args = *args};
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    q.job = job;
    if (status == MF_OK) {
        find_last(&q);
        status = find_component(&q, &err);
    }
    if (status == MF_OK) {
        fill_rest(&q);
        status = check_number(&q, &err);
    }
    if (status != MF_OK) {
        mf_cli_fail(&err);
    } else if ((status = mf_cmd_log(cli, cmd, &q.args)) == MF_OK) {
        say_filled(&q, args);
        mf_cli_note(cli, "%s", mf_cli_word(cli, "testing.radiation"));
    }
    mf_book_job_free(job);
    return status;
}
