/* test walk: XRF readings one after the other. The next part that was not read is offered; a
 * number and Enter is a reading; day, instrument, operator and substrate stay. */
#include "base/fail.h"
#include "cli/reading.h"
#include "cli/walk_job.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SOON = 30 }; /* minutes before a calibration check is due, when it is called to mind */

typedef struct testing {
    mf_walk walk;
    char instrument[MF_WALK_ID], person[MF_WALK_ID], mode[MF_WALK_ID];
    char component[MF_WALK_ID]; /* offered now; "" = none is left */
    bool film;                  /* the next readings are on the reference film */
    int substrate;              /* under the film; < 0 = not said yet */
    int64_t number;             /* typed; < 0 = the next one */
    bool spoiled;               /* a key that means nothing may have begun a number */
} testing;

/* ---- which part ------------------------------------------------------------------------ */

static bool is_read(const mf_job *job, const mf_component *it)
{
    for (size_t i = 0; i < job->n_reading; i++)
        if (job->reading[i].purpose == MF_READ_PAINT &&
            strcmp(job->reading[i].component, it->id) == 0)
            return true;
    return false;
}

static bool wanted(const mf_job *job, const mf_component *it)
{
    return mf_component_disturbed(it) && it->painted != MF_NOT && !is_read(job, it);
}

static size_t count_wanted(const mf_job *job)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_component; i++)
        n += wanted(job, &job->component[i]);
    return n;
}

/* The next one that was not read, from behind the one offered now (or before it, by -1), round
 * once. */
static void go_on(testing *t, int by)
{
    const mf_job *job = t->walk.job;
    size_t n = job->n_component, at = 0;
    while (at < n && strcmp(job->component[at].id, t->component) != 0)
        at++;
    at = at == n && by > 0 ? n - 1 : at == n ? 0 : at;
    for (size_t i = 1; i <= n; i++) {
        size_t next = by > 0 ? (at + i) % n : (at + n - i % n) % n;
        if (!wanted(job, &job->component[next]))
            continue;
        snprintf(t->component, sizeof t->component, "%s", job->component[next].id);
        return;
    }
    t->component[0] = '\0';
}

/* ---- what stays -------------------------------------------------------------------------- */

static const mf_reading *last_reading(const mf_job *job)
{
    const mf_reading *last = NULL;
    for (size_t i = 0; i < job->n_reading; i++)
        if (last == NULL || job->reading[i].on >= last->on)
            last = &job->reading[i];
    return last;
}

static void print_instrument(const mf_walk *walk, const char *const *of, int i)
{
    (void)of;
    mf_cli_show(walk->job->instrument[i].serial);
    putchar('\n');
}

static bool choose_instrument(testing *t)
{
    const mf_job *job = t->walk.job;
    int at = job->n_instrument == 1
                 ? 0
                 : mf_walk_menu(&t->walk, mf_walk_word(&t->walk, "testwalk.ask-instrument"),
                                print_instrument, NULL, (int)job->n_instrument, NULL);
    if (at >= 0)
        snprintf(t->instrument, sizeof t->instrument, "%s", job->instrument[at].serial);
    return at >= 0;
}

static bool choose_person(testing *t)
{
    return mf_walk_person(&t->walk, "testwalk.ask-operator", t->person);
}

/* Whoever goes on where they themselves stopped today held the instrument before; of anybody
 * else, and on another day, it is asked: by whom it was read decides whether it counts. */
static bool holds_it_still(const testing *t, const mf_reading *last)
{
    const mf_cli *cli = t->walk.cli;
    return last->on == cli->today && cli->who != NULL && strcmp(last->operator_id, cli->who) == 0;
}

/* As at the last reading of the job, else asked. MF_NO = left. */
static mf_status settle(testing *t, mf_err *err)
{
    const mf_job *job = t->walk.job;
    const mf_reading *last = last_reading(job);
    if (job->n_instrument == 0)
        return mf_fail(err, MF_INPUT, "test walk", "the book knows no instrument", "",
                       "add it: mistfold instrument add");
    t->substrate = -1;
    t->number = -1;
    if (last == NULL)
        return choose_instrument(t) && choose_person(t) ? MF_OK : MF_NO;
    snprintf(t->instrument, sizeof t->instrument, "%s", last->instrument);
    snprintf(t->person, sizeof t->person, "%s", last->operator_id);
    snprintf(t->mode, sizeof t->mode, "%s", last->mode);
    return holds_it_still(t, last) || choose_person(t) ? MF_OK : MF_NO;
}

/* ---- the screen ----------------------------------------------------------------------------- */

static int64_t number_of(const testing *t)
{
    return t->number >= 0 ? t->number : mf_reading_free_number(t->walk.job, t->instrument);
}

static void show_component(const testing *t)
{
    const mf_walk *walk = &t->walk;
    const mf_component *it = mf_job_component(walk->job, t->component);
    char line[400];
    if (t->film || it == NULL) {
        mf_cli_wrap(mf_walk_word(walk, t->film ? "testwalk.film" : "testwalk.all"), 2, 2);
        return;
    }
    mf_term_bold(it->id);
    snprintf(
        line, sizeof line, "  %s, %.120s, %s, %s",
        mf_words2(walk->cli->lang, "paper.component",
                  mf_cli_choice("component", "type", (int)it->type)),
        mf_place_of(walk->job, it),
        mf_words2(walk->cli->lang, "choice", mf_cli_choice("component", "side", (int)it->side)),
        mf_words2(walk->cli->lang, "paper.substrate",
                  mf_cli_choice("component", "substrate", (int)it->substrate)));
    mf_cli_wrap(line, 2, 2 + (int)strlen(it->id));
}

/* Minutes since the last good check of this instrument by this person today; < 0 = none. */
static int64_t since_check(const testing *t)
{
    const mf_walk *walk = &t->walk;
    int64_t ago = -1;
    size_t n = mf_calibrations(walk->job, NULL, 0);
    mf_calibration *all = calloc(n + 1, sizeof *all);
    n = all == NULL ? 0 : mf_calibrations(walk->job, all, n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(all[i].instrument, t->instrument) == 0 && all[i].on == walk->cli->today &&
            strcmp(all[i].operator_id, t->person) == 0 && all[i].good)
            ago = walk->cli->minute - all[i].last_minute;
    free(all);
    return ago;
}

/* How long ago the last check was, or that there is none. What is said is a reminder: the gate
 * judges. */
static void show_calibration(const testing *t)
{
    const mf_walk *walk = &t->walk;
    const mf_limit *limit = mf_limit_for(walk->job, MF_LIMIT_CALIBRATION_HOURS, walk->cli->today);
    int64_t ago = since_check(t);
    if (ago >= 0 && (limit == NULL || mf_limit_holds(limit, ago + SOON)))
        return;
    mf_term_gap();
    printf("  ");
    if (ago < 0) {
        mf_cli_wrap(mf_walk_word(walk, "testwalk.no-check"), 2, 2);
        return;
    }
    char words[300];
    bool over = limit != NULL && !mf_limit_holds(limit, ago);
    snprintf(words, sizeof words, "%s (%" PRId64 ":%02" PRId64 " h)",
             mf_walk_word(walk, over ? "testwalk.check-over" : "testwalk.check-soon"), ago / 60,
             ago % 60);
    mf_cli_wrap(words, 2, 2);
}

static void show(testing *t)
{
    char left[200];
    mf_walk *walk = &t->walk;
    snprintf(left, sizeof left, "%s %zu | %s %" PRId64 " | %s | %s",
             mf_walk_word(walk, "testwalk.left"), count_wanted(walk->job),
             mf_walk_word(walk, "testwalk.number"), number_of(t), t->instrument, t->person);
    mf_walk_head(walk, left);
    mf_term_gap();
    printf("  ");
    show_component(t);
    show_calibration(t);
    mf_walk_foot(walk, t->film ? "testwalk.keys-film" : "testwalk.keys");
}

/* ---- logging one ------------------------------------------------------------------------------
 */

/* The number stands in the job with something else: is it another shot? False = no. */
static bool ask_twice(testing *t, const mf_reading *before)
{
    char words[400], result[40];
    mf_walk *walk = &t->walk;
    mf_words_loading(before->loading_ug_cm2, before->qualifier, result, sizeof result);
    snprintf(words, sizeof words, "%s %" PRId64 ": %.48s %s. %s",
             mf_walk_word(walk, "testwalk.twice"), before->number,
             before->component[0] != '\0' ? before->component
                                          : mf_walk_word(walk, "testwalk.on-film"),
             result, mf_walk_word(walk, "testwalk.twice-ask"));
    int key = MF_KEY_NONE;
    while (key == MF_KEY_NONE) {
        mf_term_page(&walk->term);
        mf_term_rule_of(&walk->term);
        printf("  ");
        mf_cli_wrap(words, 2, 2);
        key = mf_term_key(&walk->term, -1);
    }
    return mf_ask_yes(key, walk->cli->lang);
}

static void put_reading(const testing *t, mf_walk_entry *entry, const char *number,
                        const char *result)
{
    const mf_component *it = mf_job_component(t->walk.job, t->component);
    int substrate = t->film || it == NULL ? t->substrate : (int)it->substrate;
    mf_args *args = &entry->args;
    mf_args_put(args, "number", number);
    mf_args_put(args, "instrument", t->instrument);
    mf_args_put(args, "operator", t->person);
    mf_args_put(args, "purpose", t->film ? "calibration" : "paint");
    if (!t->film)
        mf_args_put(args, "component", t->component);
    mf_args_put(args, "substrate", mf_cli_choice("reading", "substrate", substrate));
    if (t->mode[0] != '\0')
        mf_args_put(args, "mode", t->mode);
    mf_args_put(args, "result", result);
}

static mf_status log_reading(testing *t, const char *result, mf_err *err)
{
    char number[24], what[160], on[MF_WALK_ID];
    mf_walk *walk = &t->walk;
    mf_walk_entry entry;
    mf_walk_entry_begin(walk, &entry);
    snprintf(number, sizeof number, "%" PRId64, number_of(t));
    put_reading(t, &entry, number, result);
    const mf_reading *before =
        mf_reading_clash(walk->job, t->instrument, number_of(t), walk->cli->today);
    if (before != NULL && !ask_twice(t, before)) {
        snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.nothing"));
        return MF_OK;
    }
    snprintf(on, sizeof on, "%s", t->film ? mf_walk_word(walk, "testwalk.on-film") : t->component);
    snprintf(what, sizeof what, "%s: %s %.20s", number, on, result);
    int logged = walk->logged;
    mf_status status = mf_walk_logged(
        walk, mf_log_one(walk->cli, mf_kind_named("reading"), &entry.args, err), what, err);
    if (status == MF_OK && walk->logged > logged) {
        t->number = -1;
        if (!t->film)
            go_on(t, 1);
    }
    return status;
}

/* A digit or a sign begins a reading; the line goes on from there. */
static mf_status type_reading(testing *t, int key, mf_err *err)
{
    char line[40] = {(char)key, '\0'};
    if (!t->film && t->component[0] == '\0') {
        mf_walk_no_key(&t->walk, key);
        return MF_OK;
    }
    if (mf_term_line_on(&t->walk.term, "  >", line, sizeof line) != MF_TYPED_LINE ||
        line[0] == '\0')
        return MF_OK;
    return log_reading(t, line, err);
}

/* ---- keys
 * ---------------------------------------------------------------------------------------- */

static void print_substrate(const mf_walk *walk, const char *const *of, int i)
{
    puts(mf_words2(walk->cli->lang, "paper.substrate", of[i]));
}

/* What lies under the film is said once. */
static void turn_film(testing *t)
{
    const char *const *words = mf_field_named(mf_kind_named("reading"), "substrate")->choices;
    int n = 0;
    while (words[n] != NULL)
        n++;
    if (!t->film && t->substrate < 0) {
        int at = mf_walk_menu(&t->walk, mf_walk_word(&t->walk, "testwalk.ask-under"),
                              print_substrate, words, n, NULL);
        if (at < 0)
            return;
        t->substrate = at;
    }
    t->film = !t->film;
}

static void ask_number(testing *t)
{
    char line[24] = "", *end;
    mf_typed typed = mf_term_line(&t->walk.term, mf_walk_word(&t->walk, "testwalk.ask-number"),
                                  line, sizeof line);
    int64_t number = strtoll(line, &end, 10);
    if (typed == MF_TYPED_LINE && line[0] != '\0' && *end == '\0' && number >= 0)
        t->number = number;
    else
        snprintf(t->walk.said, sizeof t->walk.said, "%s", mf_walk_word(&t->walk, "walk.nothing"));
}

/* The part whose reading was taken back is offered again. */
static mf_status take_back(testing *t, mf_err *err)
{
    int logged = t->walk.logged;
    mf_status status = mf_walk_back(&t->walk, true, "reading", err);
    if (status == MF_OK && t->walk.logged > logged)
        go_on(t, -1);
    return status;
}

/* An l for a 1 in "1.4" means nothing, and ".4" behind it is not what was read: until Enter
 * nothing of a number is taken. */
static bool is_spoiled(testing *t, int key)
{
    bool of_number = key > 0 && strchr("0123456789.-<>", key) != NULL;
    bool spoiled = t->spoiled && (of_number || key == '\r' || key == '\n');
    if (key != MF_KEY_NONE)
        t->spoiled = spoiled && of_number;
    if (spoiled)
        snprintf(t->walk.said, sizeof t->walk.said, "%s",
                 mf_walk_word(&t->walk, "testwalk.spoiled"));
    return spoiled;
}

static mf_status test_key(testing *t, int key, mf_err *err)
{
    if (is_spoiled(t, key))
        return MF_OK;
    if (key > 0 && strchr("0123456789.-<>", key) != NULL)
        return type_reading(t, key, err);
    if (key == 's' || key == ' ')
        go_on(t, 1);
    else if (key == 'b')
        go_on(t, -1);
    else if (key == 'c')
        turn_film(t);
    else if (key == 'n')
        ask_number(t);
    else if (key == 'u')
        return take_back(t, err);
    else if (key == 'i')
        return choose_instrument(t) && choose_person(t) ? MF_OK : MF_NO;
    else if (key != MF_KEY_NONE) {
        mf_walk_no_key(&t->walk, key);
        t->spoiled = true;
    }
    return MF_OK;
}

static mf_status walk_parts(testing *t, mf_err *err)
{
    mf_status status = MF_OK;
    snprintf(t->walk.said, sizeof t->walk.said, "%s", mf_walk_word(&t->walk, "testing.radiation"));
    go_on(t, 1);
    while (status == MF_OK) {
        show(t);
        int key = mf_term_key(&t->walk.term, 60); /* the clock on the screen goes on */
        if (key == 'q' || key == MF_KEY_LEAVE)
            return MF_NO;
        status = test_key(t, key, err);
    }
    return status;
}

mf_status mf_cmd_walk_test(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    testing t = {.walk = {.cli = cli, .cmd = cmd, .gate = MF_GATE_DEMO}};
    mf_status status =
        mf_walk_begin(&t.walk, args->word[0], "use \"mistfold test log\" instead", &err);
    if (status == MF_OK)
        status = settle(&t, &err);
    if (status == MF_OK)
        status = walk_parts(&t, &err);
    return mf_walk_close(&t.walk, status, &err);
}
