/* What the walks share; see walk.h. */
#include "cli/walk.h"

#include "base/fail.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *mf_walk_word(const mf_walk *walk, const char *id)
{
    return mf_cli_word(walk->cli, id);
}

void mf_walk_no_key(mf_walk *walk, int key)
{
    if (key == MF_KEY_NONE)
        return; /* the screen is drawn anew, no more */
    snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.no-key"));
}

/* ---- the screen ------------------------------------------------------------------ */

size_t mf_walk_ask(mf_walk *walk)
{
    size_t lacking = 0;
    const mf_audit_ask ask = {walk->job, walk->cli->today, 1u << walk->gate, walk->area};
    walk->gate_open = mf_gate_open(&ask, &lacking);
    return lacking;
}

void mf_walk_head(mf_walk *walk, const char *left)
{
    char day[MF_DAY_TEXT], time[MF_MINUTE_TEXT], line[160];
    const mf_area *area = mf_job_area(walk->job, walk->area);
    size_t lacking = mf_walk_ask(walk);
    mf_cli_clock(walk->cli);
    mf_day_text(walk->cli->today, day);
    mf_minute_text(walk->cli->minute, time);
    mf_term_page(&walk->term);
    const char *place = area == NULL ? "" : area->place;
    snprintf(line, sizeof line, "%s  %s  %.*s", walk->job_id, walk->area,
             (int)mf_cli_letters(place, strlen(place), 40), place);
    int wide = mf_cli_columns() - (int)strlen(day) - (int)strlen(time) - 1;
    line[mf_cli_letters(line, strlen(line), wide - 1)] = '\0';
    mf_cli_pad(line, wide);
    printf("%s %s\n", day, time);
    printf("%s  ", mf_gate_question(walk->cli, walk->gate));
    mf_term_bold(mf_walk_word(walk, walk->gate_open ? "word.yes" : "word.no"));
    if (lacking > 0)
        printf("  (%s: %zu)", mf_walk_word(walk, "label.lacking"), lacking);
    putchar('\n');
    mf_cli_wrap(left, 0, 0);
    mf_term_rule();
}

int mf_walk_why_column(const mf_walk *walk)
{
    const char *word = mf_walk_word(walk, "walk.why");
    return 2 + mf_cli_characters(word, strlen(word)) + 1;
}

/* The foot ends the line, but on a low screen, where it leaves none empty. */
void mf_walk_by(const char *text)
{
    mf_term_gap();
    printf("  ");
    if (mf_term_low())
        mf_cli_wrap(text, 2, 2);
    else
        mf_cli_show(text);
}

void mf_walk_foot(mf_walk *walk, const char *keys_id)
{
    mf_term_gap();
    mf_term_rule();
    if (walk->said[0] != '\0')
        mf_cli_wrap(walk->said, 0, 0);
    walk->said[0] = '\0';
    mf_term_keys(mf_walk_word(walk, keys_id), 0);
}

/* ---- menus ------------------------------------------------------------------------- */

enum { MENU_PAGE = 9 };

/* One page of a menu, from the line first on. */
static void show_menu(mf_walk *walk, const char *title, mf_walk_line *line, const char *const *of,
                      int n, int first, const char *none_id)
{
    mf_term_page(&walk->term);
    mf_cli_wrap(title, 0, 0);
    mf_term_rule_of(&walk->term);
    for (int i = 0; i < MENU_PAGE && first + i < n; i++) {
        printf("  %d  ", i + 1);
        line(walk, of, first + i);
    }
    if (none_id != NULL)
        printf("  0  %s\n", mf_walk_word(walk, none_id));
    if (n > MENU_PAGE)
        printf("  +  %s (%d/%d)\n", mf_walk_word(walk, "walk.more"), first / MENU_PAGE + 1,
               (n + MENU_PAGE - 1) / MENU_PAGE);
    putchar('\n');
}

int mf_walk_menu(mf_walk *walk, const char *title, mf_walk_line *line, const char *const *of, int n,
                 const char *none_id)
{
    int first = 0;
    for (bool wrong = false;;) {
        show_menu(walk, title, line, of, n, first, none_id);
        if (wrong)
            puts(mf_walk_word(walk, "walk.no-key"));
        mf_term_keys(mf_walk_word(walk, "walk.keys-menu"), 0);
        int key = mf_term_key(&walk->term, -1);
        int at = first + key - '1';
        wrong = false;
        if (key == 'q' || key == MF_KEY_LEAVE)
            return MF_KEY_LEAVE;
        if (key >= '1' && key < '1' + MENU_PAGE && at < n)
            return at;
        if (key == '0' && none_id != NULL)
            return -1;
        if (key == '+' && n > MENU_PAGE)
            first = first + MENU_PAGE < n ? first + MENU_PAGE : 0;
        else
            wrong = key != MF_KEY_NONE;
    }
}

/* ---- people ---------------------------------------------------------------------- */

static bool certified(const mf_walk *walk, const char *person)
{
    return mf_certified(walk->job, person, MF_DISC_RENOVATOR, walk->cli->today, NULL) != NULL;
}

/* An id and the first letters of what it stands for. */
static void print_named(const char *id, const char *text, int wide)
{
    printf("%s  ", id);
    mf_cli_text(stdout, text, mf_cli_letters(text, strlen(text), wide));
}

static void print_person(const mf_walk *walk, const char *const *ids, int i)
{
    bool is_one = certified(walk, ids[i]);
    print_named(ids[i], mf_job_person(walk->job, ids[i])->name, 50);
    printf("%s%s\n", is_one ? ", " : "", is_one ? mf_walk_word(walk, "walk.is-renovator") : "");
}

/* Each once: there is room for everybody of the book. */
static void add_person(const mf_walk *walk, const char **ids, int *n, const char *id,
                       bool renovators)
{
    const mf_person *person = mf_job_person(walk->job, id);
    if (person == NULL || (renovators && !certified(walk, id)))
        return;
    for (int i = 0; i < *n; i++)
        if (strcmp(ids[i], id) == 0)
            return;
    ids[(*n)++] = person->id;
}

/* Who holds the keyboard first, then who is assigned, then the rest of the firm. */
static int list_people(const mf_walk *walk, const char **ids, bool renovators)
{
    int n = 0;
    add_person(walk, ids, &n, walk->cli->who, renovators);
    for (size_t i = 0; i < walk->job->n_assignment; i++)
        add_person(walk, ids, &n, walk->job->assignment[i].person, renovators);
    for (size_t i = 0; i < walk->job->n_person; i++)
        add_person(walk, ids, &n, walk->job->person[i].id, renovators);
    return n;
}

/* Chooses one into id; "" for none. Left, also without memory, is false. */
static bool choose(mf_walk *walk, bool renovators, const char *title_id, const char *none_id,
                   char id[MF_WALK_ID])
{
    const char **ids = calloc(walk->job->n_person + 1, sizeof *ids);
    if (ids == NULL)
        return false;
    int n = list_people(walk, ids, renovators);
    int i = mf_walk_menu(walk, mf_walk_word(walk, title_id), print_person, ids, n, none_id);
    if (i != MF_KEY_LEAVE)
        snprintf(id, MF_WALK_ID, "%s", i < 0 ? "" : ids[i]);
    free(ids);
    return i != MF_KEY_LEAVE;
}

bool mf_walk_person(mf_walk *walk, const char *title_id, char id[MF_WALK_ID])
{
    return choose(walk, false, title_id, NULL, id);
}

bool mf_walk_who(mf_walk *walk, bool renovator_only)
{
    if (!renovator_only && !mf_walk_person(walk, "walk.ask-person", walk->person))
        return false;
    /* A renovator who does it with his or her own hands is there. */
    bool same = !renovator_only && certified(walk, walk->person);
    if (same)
        snprintf(walk->renovator, sizeof walk->renovator, "%s", walk->person);
    else if (!choose(walk, true, renovator_only ? "walk.ask-verifier" : "walk.ask-renovator",
                     "walk.none-here", walk->renovator))
        return false;
    return true;
}

/* Who is at the keyboard, when nobody said so. MF_NO = left, MF_USAGE when the book knows
 * nobody. The terminal is open. */
static mf_status login(mf_walk *walk, mf_err *err)
{
    char id[MF_WALK_ID];
    mf_now now;
    mf_job *firm = NULL;
    if (walk->cli->who[0] != '\0')
        return MF_OK;
    mf_status status = walk->job != NULL ? MF_OK : mf_cli_job(walk->cli, "", &firm, err);
    if (status != MF_OK)
        return status;
    walk->job = firm != NULL ? firm : walk->job;
    if (walk->job == NULL || walk->job->n_person == 0)
        return mf_cli_now(walk->cli, &now, err);
    if (!mf_walk_person(walk, "walk.ask-login", id))
        return MF_NO;
    char *kept = mf_arena_text(&walk->cli->ids, id);
    if (kept == NULL)
        return mf_fail_memory(err);
    walk->cli->who = kept;
    return MF_OK;
}

/* ---- beginning and end ------------------------------------------------------------- */

mf_status mf_walk_reload(mf_walk *walk, mf_err *err)
{
    mf_job *fresh = NULL;
    mf_status status = mf_cli_job(walk->cli, walk->job_id, &fresh, err);
    if (status != MF_OK)
        return status;
    mf_book_job_free(walk->job);
    walk->job = fresh;
    snprintf(walk->term.of, sizeof walk->term.of, "%s", walk->job_id);
    return MF_OK;
}

static void print_area(const mf_walk *walk, const char *const *of, int i)
{
    (void)of;
    print_named(walk->job->area[i].id, walk->job->area[i].place, 60);
    putchar('\n');
}

/* The area of --area, the only one, or the one chosen. MF_NO = left before it began. */
static mf_status choose_area(mf_walk *walk, const char *wanted, mf_err *err)
{
    int i = 0;
    const mf_job *job = walk->job;
    if (wanted != NULL && mf_job_area(job, wanted) == NULL)
        return mf_failf(err, MF_INPUT, "--area", "", "see \"area list\"",
                        "there is no work area %s", wanted);
    if (job->n_area == 0)
        return mf_fail(err, MF_INPUT, walk->job_id, "the job has no work area yet", "",
                       "add one: mistfold area add");
    if (wanted == NULL && job->n_area > 1)
        i = mf_walk_menu(walk, mf_walk_word(walk, "walk.ask-area"), print_area, NULL,
                         (int)job->n_area, NULL);
    if (i == MF_KEY_LEAVE)
        return MF_NO;
    snprintf(walk->area, sizeof walk->area, "%s", wanted != NULL ? wanted : job->area[i].id);
    return MF_OK;
}

mf_status mf_walk_begin(mf_walk *walk, const char *job_id, const char *instead, mf_err *err)
{
    snprintf(walk->job_id, sizeof walk->job_id, "%s", job_id);
    mf_status status = mf_term_check(instead, err);
    if (status == MF_OK)
        status = mf_cli_book(walk->cli, err);
    if (status == MF_OK && job_id[0] != '\0')
        status = mf_walk_reload(walk, err);
    if (status == MF_OK)
        status = mf_term_open(&walk->term, err);
    snprintf(walk->term.of, sizeof walk->term.of, "%s", walk->job == NULL ? "" : walk->job_id);
    if (status == MF_OK)
        status = login(walk, err);
    walk->cli->walking = true;
    return status;
}

mf_status mf_walk_open(mf_walk *walk, mf_cli *cli, const mf_cmd *cmd, const mf_args *args,
                       mf_gate gate, const char *instead, mf_err *err)
{
    *walk = (mf_walk){.cli = cli, .cmd = cmd, .gate = gate};
    mf_status status = mf_walk_begin(walk, args->word[0], instead, err);
    return status == MF_OK ? choose_area(walk, mf_args_value(args, "area"), err) : status;
}

/* What was typed and is no entry. */
static void say_command(const mf_walk *walk, const char *words_id, const char *command)
{
    if (command[0] == '\0')
        return;
    mf_cli_wrap(mf_walk_word(walk, words_id), 0, 0);
    printf("    ");
    mf_cli_text(stdout, command, strlen(command));
    putchar('\n');
}

/* The same command goes on, but for the one that began by opening the job. */
static void say_how_to_go_on(const mf_walk *walk)
{
    if (walk->cmd->run != mf_cmd_walk_job) {
        mf_cli_wrap(mf_walk_word(walk, "walk.resume"), 0, 0);
    } else if (walk->job != NULL && walk->job_id[0] != '\0') {
        mf_cli_wrap(mf_walk_word(walk, "jobwalk.resume"), 0, 0);
        printf("    mistfold job walk --job %s\n", walk->job_id);
    }
    say_command(walk, "jobwalk.unfinished", walk->unfinished);
    say_command(walk, "jobwalk.not-opened", walk->not_opened);
}

mf_status mf_walk_close(mf_walk *walk, mf_status status, mf_err *err)
{
    bool was_open = walk->term.open;
    mf_term_close(&walk->term);
    walk->cli->walking = false;
    if (status == MF_NO) /* left */
        status = MF_OK;
    if (status == MF_OK && was_open) {
        if (walk->job != NULL && walk->cmd->run == mf_cmd_walk_job) /* its line names no job */
            mf_next_of_job(walk->job, walk->cli->today, walk->cli->next);
        printf("%s: %d\n", mf_walk_word(walk, "walk.logged"), walk->logged);
        say_how_to_go_on(walk);
        if (walk->job != NULL && walk->area[0] != '\0') {
            mf_walk_ask(walk);
            printf("%s: %s  %s\n", walk->area, mf_gate_question(walk->cli, walk->gate),
                   mf_walk_word(walk, walk->gate_open ? "word.yes" : "word.no"));
        }
    }
    mf_book_job_free(walk->job);
    walk->job = NULL;
    return status == MF_OK ? MF_OK : mf_cli_fail(err);
}

/* ---- one entry ----------------------------------------------------------------------- */

void mf_walk_entry_begin(mf_walk *walk, mf_walk_entry *entry)
{
    memset(entry, 0, sizeof *entry);
    mf_cli_clock(walk->cli); /* the time of the answer, not of the start of the walk */
    mf_day_text(walk->cli->today, entry->day);
    mf_minute_text(walk->cli->minute, entry->time);
    entry->args.word[0] = walk->job_id;
    entry->args.n_words = 1;
    mf_args_put(&entry->args, "area", walk->area);
    mf_args_put(&entry->args, "on", entry->day);
    mf_args_put(&entry->args, "time", entry->time);
}

mf_status mf_walk_logged(mf_walk *walk, mf_status status, const char *what, mf_err *err)
{
    if (status == MF_SYSTEM)
        return status;
    if (status != MF_OK) {
        char words[500];
        mf_words_error(walk->cli->lang, err, words, sizeof words);
        snprintf(walk->said, sizeof walk->said, "%s %s", mf_walk_word(walk, "walk.refused"), words);
        memset(err, 0, sizeof *err);
        return MF_OK;
    }
    size_t stop = strlen(what), len = mf_cli_letters(what, stop, 60);
    walk->logged++;
    snprintf(walk->said, sizeof walk->said, "%s %.*s%s", mf_walk_word(walk, "walk.kept"), (int)len,
             what, len < stop ? "…" : "");
    return mf_walk_reload(walk, err);
}

mf_status mf_walk_log_batch(mf_walk *walk, mf_batch *batch, const char *words_id, mf_err *err)
{
    char what[160];
    snprintf(what, sizeof what, "%s %zu", mf_walk_word(walk, words_id), batch->n);
    mf_status status = mf_batch_write(walk->cli, batch, walk->job_id, false, err);
    walk->logged += status == MF_OK ? (int)batch->n - 1 : 0; /* the last one by mf_walk_logged */
    mf_batch_free(batch);
    return mf_walk_logged(walk, status, what, err);
}
