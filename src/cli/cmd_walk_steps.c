/* containment walk, cleaning walk: one step of the list at a time. */
#include "cli/walk.h"

#include "base/fail.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_MAX = MF_WALK_LINE };

typedef struct step_row {
    mf_step step;
    mf_step_state state;
} step_row;

static mf_step_state judge(const mf_walk *walk, const mf_area *area, const mf_step *step,
                           const mf_tick **tick)
{
    bool working = walk->gate == MF_GATE_DEMO && walk->gate_open;
    return mf_step_judge_today(walk->job, area, step, walk->cli->today, working, tick);
}

/* The steps this area is asked for, in the order a crew does them. */
typedef struct step_list {
    step_row *row;
    int n, at, room;
    bool why;
} step_list;

static bool in_phase(const mf_walk *walk, const mf_step *step)
{
    bool cleaning = strcmp(walk->cmd->group, "cleaning") == 0;
    /* The steps of the days of work come up once demo may start. */
    return step->phase == (cleaning ? MF_PHASE_CLEAN : MF_PHASE_CONTAIN) ||
           (!cleaning && step->phase == MF_PHASE_WORK && walk->gate_open);
}

/* A barrier is nothing a list asks for: it is offered where sheeting falls short. */
static bool offered(const mf_walk *walk, const mf_area *area, const mf_step *step)
{
    unsigned side = area->side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
    if (step->when != MF_WHEN_CHOSEN || (step->sides & side) == 0)
        return false;
    for (size_t i = 0; i < walk->job->n_tick; i++) {
        const mf_tick *tick = &walk->job->tick[i];
        const mf_step *other = mf_step_named(tick->step);
        if (strcmp(tick->area, area->id) == 0 && other != NULL && other->phase == step->phase &&
            other->extent >= 0 && mf_step_judge(walk->job, area, other, NULL) == MF_STEP_SHORT)
            return true;
    }
    return mf_step_judge(walk->job, area, step, NULL) != MF_STEP_OPEN;
}

/* Room for all steps there are: a firm may have many of its own. */
static bool make_room(const mf_walk *walk, step_list *list)
{
    mf_step step;
    int n = 1;
    while (mf_step_at(walk->job, (size_t)n, &step))
        n++;
    if (list->row != NULL && n <= list->room)
        return true;
    step_row *rows = realloc(list->row, (size_t)n * sizeof *list->row);
    if (rows == NULL)
        return false;
    list->row = rows;
    list->room = n;
    return true;
}

static mf_status list_steps(const mf_walk *walk, step_list *list, mf_err *err)
{
    mf_step step;
    const mf_area *area = mf_job_area(walk->job, walk->area);
    list->n = 0;
    if (!make_room(walk, list))
        return mf_fail_memory(err);
    /* The area may have been withdrawn at another keyboard in the meantime. */
    for (size_t i = 0; area != NULL && mf_step_at(walk->job, i, &step); i++) {
        if (!in_phase(walk, &step) ||
            (!mf_step_wanted(walk->job, &step, area) && !offered(walk, area, &step)))
            continue;
        list->row[list->n].step = step;
        list->row[list->n++].state = judge(walk, area, &step, NULL);
    }
    return MF_OK;
}

static int left_of(const step_list *list)
{
    int left = 0;
    for (int i = 0; i < list->n; i++)
        left += !mf_step_settled(list->row[i].state) && list->row[i].step.when != MF_WHEN_CHOSEN;
    return left;
}

/* Steps of a phase that the area is asked for and that are open. */
static int open_in(const mf_walk *walk, mf_phase phase)
{
    mf_step step;
    int n = 0;
    const mf_area *area = mf_job_area(walk->job, walk->area);
    for (size_t i = 0; area != NULL && mf_step_at(walk->job, i, &step); i++)
        n += step.phase == phase && mf_step_wanted(walk->job, &step, area) &&
             !mf_step_settled(judge(walk, area, &step, NULL));
    return n;
}

static const char *const phase_words[] = {[MF_PHASE_CONTAIN] = "walk.before",
                                          [MF_PHASE_WORK] = "walk.during",
                                          [MF_PHASE_CLEAN] = "walk.after"};
static const mf_phase phases[] = {MF_PHASE_CONTAIN, MF_PHASE_WORK, MF_PHASE_CLEAN};
enum { PHASES = sizeof phases / sizeof phases[0] };

static int open_in_all(const mf_walk *walk)
{
    int n = 0;
    for (int i = 0; i < PHASES; i++)
        n += open_in(walk, phases[i]);
    return n;
}

/* What is open before, during and after the work, beside what is on this list. */
static void put_phases(const mf_walk *walk, char *out, size_t size)
{
    size_t len = strlen(out);
    for (int i = 0; i < PHASES && len < size; i++)
        len +=
            (size_t)snprintf(out + len, size - len, "%s%s %d", len > 0 ? " | " : "",
                             mf_walk_word(walk, phase_words[phases[i]]), open_in(walk, phases[i]));
}

/* The next step that is not settled, from at on and around; at when all are. */
static void go_to_open(step_list *list, int from)
{
    for (int i = 0; i < list->n; i++) {
        int at = (from + i) % list->n;
        if (!mf_step_settled(list->row[at].state) && list->row[at].step.when != MF_WHEN_CHOSEN) {
            list->at = at;
            return;
        }
    }
    list->at = list->n; /* the end */
}

/* ---- screens ------------------------------------------------------------------------- */

static void show_tick(const mf_walk *walk, const step_list *list)
{
    char day[MF_DAY_TEXT], time[MF_MINUTE_TEXT] = "", feet[32] = "";
    const mf_tick *tick = NULL;
    const mf_area *area = mf_job_area(walk->job, walk->area);
    mf_step_state state = judge(walk, area, &list->row[list->at].step, &tick);
    mf_term_gap();
    printf("  [%c] ", mf_step_settled(state) ? 'x' : ' ');
    mf_term_bold(mf_words2(walk->cli->lang, "step-state", mf_step_state_name(state)));
    if (tick == NULL) {
        putchar('\n');
        return;
    }
    mf_day_text(tick->on, day);
    if (tick->at_minute != MF_MINUTE_NONE)
        mf_minute_text(tick->at_minute, time);
    if (tick->measured_ft_100 != MF_NUM_NONE)
        mf_words_number(walk->cli->lang, tick->measured_ft_100, MF_UNIT_FT_100, feet, sizeof feet);
    printf("   ");
    mf_cli_show(tick->person);
    printf(" %s %s%s%s\n", day, time, feet[0] ? ", " : "", feet);
    mf_cli_skipped(walk->cli, tick, 6);
    if (tick->state != MF_TICK_NOT_NEEDED && tick->reason[0] != '\0') {
        printf("      ");
        mf_cli_wrap(tick->reason, 6, 6);
    }
}

static void show_by(const mf_walk *walk, const mf_step *step)
{
    char by[300];
    const char *renovator =
        walk->renovator[0] ? walk->renovator : mf_walk_word(walk, "walk.nobody");
    snprintf(by, sizeof by, "%s %s%s%s%s%s", mf_walk_word(walk, "walk.by"), walk->person,
             step->renovator_present ? ", " : "",
             step->renovator_present ? mf_walk_word(walk, "walk.renovator") : "",
             step->renovator_present ? " " : "", step->renovator_present ? renovator : "");
    mf_walk_by(by);
    if (walk->photo[0] != '\0')
        printf("\n  %s %.60s", mf_walk_word(walk, "walk.photo"), walk->photo);
}

static void show_step(mf_walk *walk, const step_list *list)
{
    char left[300];
    const mf_step *step = &list->row[list->at].step;
    snprintf(left, sizeof left, "%s %d/%d, %s: %d", mf_walk_word(walk, "walk.step"), list->at + 1,
             list->n, mf_walk_word(walk, "walk.left"), left_of(list));
    put_phases(walk, left, sizeof left);
    mf_walk_head(walk, left);
    mf_term_gap();
    printf("  ");
    mf_cli_wrap(mf_words_step(walk->cli->lang, walk->job, step->id), 2, 2);
    mf_cli_stricter(walk->cli, walk->job, step, 2);
    show_tick(walk, list);
    if (list->why) {
        mf_term_gap();
        printf("  %s ", mf_walk_word(walk, "walk.why"));
        mf_cli_wrap(mf_words_step_why(walk->cli->lang, walk->job, step->id), 2,
                    mf_walk_why_column(walk));
        printf("  %s  (%s)\n", step->citation, step->id);
    }
    show_by(walk, step);
    mf_walk_foot(walk, mf_step_settled(list->row[list->at].state) ? "walk.keys-settled"
                       : mf_step_may_skip(step)                   ? "walk.keys-step"
                                                                  : "walk.keys-must");
}

/* ---- answers ---------------------------------------------------------------------------- */

/* Asks for a line under the screen; false = nothing was typed. */
static bool ask_line(mf_walk *walk, const char *prompt_id, char out[LINE_MAX])
{
    out[0] = '\0';
    mf_typed typed = mf_term_line(&walk->term, mf_walk_word(walk, prompt_id), out, LINE_MAX);
    if (typed == MF_TYPED_LINE && out[0] != '\0')
        return true;
    snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.nothing"));
    return false;
}

/* What else is said of a tick. */
typedef struct said_too {
    const char *measured, *ground, *reason; /* NULL = nothing */
} said_too;

static mf_status log_tick(mf_walk *walk, const mf_step *step, const char *state, said_too too,
                          mf_err *err)
{
    mf_walk_entry entry;
    mf_walk_entry_begin(walk, &entry);
    mf_args_put(&entry.args, "step", step->id);
    mf_args_put(&entry.args, "state", state);
    mf_args_put(&entry.args, "person", walk->person);
    if (walk->renovator[0] != '\0')
        mf_args_put(&entry.args, "renovator", walk->renovator);
    if (too.measured != NULL)
        mf_args_put(&entry.args, "measured", too.measured);
    if (too.ground != NULL)
        mf_args_put(&entry.args, "ground", too.ground);
    if (too.reason != NULL)
        mf_args_put(&entry.args, "reason", too.reason);
    if (walk->photo[0] != '\0')
        mf_args_put(&entry.args, "photo", walk->photo);
    mf_status status = mf_log_ticks(walk->cli, walk->cmd, &entry.args, err);
    if (status == MF_OK)
        walk->photo[0] = '\0';
    return mf_walk_logged(walk, status, mf_words_step(walk->cli->lang, walk->job, step->id), err);
}

static mf_status answer_done(mf_walk *walk, const mf_step *step, mf_err *err)
{
    char feet[LINE_MAX];
    if (step->extent < 0)
        return log_tick(walk, step, "done", (said_too){0}, err);
    if (!ask_line(walk, "walk.ask-feet", feet))
        return MF_OK;
    return log_tick(walk, step, "done", (said_too){.measured = feet}, err);
}

static mf_status answer_undone(mf_walk *walk, const mf_step *step, mf_err *err)
{
    char reason[LINE_MAX];
    if (!ask_line(walk, "walk.ask-undone", reason))
        return MF_OK;
    return log_tick(walk, step, "undone", (said_too){.reason = reason}, err);
}

static void print_ground(const mf_walk *walk, const char *const *grounds, int i)
{
    puts(mf_words2(walk->cli->lang, "ground", grounds[i]));
}

/* By one key: the grounds of the step, then own words. Where there is no choice nothing is
 * asked. The index in the list, -1 = back, MF_KEY_LEAVE. */
static int ask_ground(mf_walk *walk, const mf_step *step, mf_ground list[MF_STEP_GROUNDS + 1])
{
    const char *names[MF_STEP_GROUNDS + 1];
    char title[600];
    int n = (int)mf_step_grounds(step, list);
    for (int i = 0; i < n; i++)
        names[i] = mf_ground_name(list[i]);
    snprintf(title, sizeof title, "%s %s", mf_words_step(walk->cli->lang, walk->job, step->id),
             mf_walk_word(walk, "walk.ask-ground"));
    bool no_choice = n == 1 && list[0] == MF_GROUND_OWN_WORDS;
    return no_choice ? 0 : mf_walk_menu(walk, title, print_ground, names, n, "walk.ground-back");
}

/* MF_NO = leave. */
static mf_status answer_not_needed(mf_walk *walk, const mf_step *step, mf_err *err)
{
    char reason[LINE_MAX];
    mf_ground list[MF_STEP_GROUNDS + 1];
    int at = ask_ground(walk, step, list);
    if (at < 0)
        return at == MF_KEY_LEAVE ? MF_NO : MF_OK;
    said_too too = {.ground = mf_ground_name(list[at])};
    if (mf_ground_wants_words(list[at])) {
        bool impossible = list[at] == MF_GROUND_IMPOSSIBLE;
        if (!ask_line(walk, impossible ? "walk.ask-impossible" : "walk.ask-not-needed", reason))
            return MF_OK;
        too.reason = reason;
    }
    return log_tick(walk, step, "not-needed", too, err);
}

/* Ticked and kept, but it does not count as done. */
static void say_why_not(mf_walk *walk, mf_step_state state)
{
    const char *id = state == MF_STEP_SHORT          ? "walk.short"
                     : state == MF_STEP_NO_RENOVATOR ? "walk.no-renovator"
                                                     : NULL;
    if (id != NULL)
        snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, id));
}

/* Read at once: somebody at the work area should not hear of it a step later. */
static void ask_photo(mf_walk *walk)
{
    char text[MF_PHOTO_TEXT];
    if (!ask_line(walk, "walk.ask-photo", walk->photo)) {
        walk->photo[0] = '\0';
    } else if (mf_log_photo(walk->photo, text, NULL) != MF_OK) {
        snprintf(walk->said, sizeof walk->said, "%s %s", mf_walk_word(walk, "walk.no-photo"),
                 walk->photo);
        walk->photo[0] = '\0';
    }
}

/* One key at a step. MF_NO = leave. */
static mf_status step_key(mf_walk *walk, step_list *list, int key, mf_err *err)
{
    const mf_step *step = &list->row[list->at].step;
    char id[MF_WALK_ID]; /* the job, and so the step, is loaded anew by an answer */
    int before = walk->logged;
    mf_status status = MF_OK;
    snprintf(id, sizeof id, "%s", step->id);
    if (key == 'd' && !mf_step_settled(list->row[list->at].state))
        status = answer_done(walk, step, err);
    else if (key == 'n' && mf_step_may_skip(step) && !mf_step_settled(list->row[list->at].state))
        status = answer_not_needed(walk, step, err);
    else if (key == 'u' && mf_step_settled(list->row[list->at].state))
        status = answer_undone(walk, step, err);
    else if (key == 'p')
        ask_photo(walk);
    else if (key == 'w')
        list->why = !list->why;
    else if (key == 'i')
        return mf_walk_who(walk, false) ? MF_OK : MF_NO;
    else if (key == 'b')
        list->at -= list->at > 0;
    else if (key == 's' || key == ' ')
        list->at++;
    else
        mf_walk_no_key(walk, key);
    if (status != MF_OK || walk->logged == before)
        return status;
    status = list_steps(walk, list, err); /* it may have brought up a step or taken one away */
    if (status != MF_OK)
        return status;
    list->why = false;
    for (list->at = 0; list->at < list->n - 1 && strcmp(list->row[list->at].step.id, id) != 0;)
        list->at++;
    if (mf_step_settled(list->row[list->at].state) && key != 'u')
        go_to_open(list, list->at + 1);
    else if (key == 'd')
        say_why_not(walk, list->row[list->at].state);
    return MF_OK;
}

/* The end of the list: the answer, and what is lacking beside the steps. */
static mf_status end_key(mf_walk *walk, step_list *list)
{
    char left[300];
    bool none_left = left_of(list) == 0;
    snprintf(left, sizeof left, "%s: %d", mf_walk_word(walk, "walk.left"), left_of(list));
    put_phases(walk, left, sizeof left);
    mf_walk_head(walk, left);
    mf_term_gap();
    printf("  ");
    mf_cli_wrap(mf_walk_word(walk, !none_left              ? "walk.end-open"
                                   : open_in_all(walk) > 0 ? "walk.end-others"
                                                           : "walk.end"),
                2, 2);
    if (!walk->gate_open) {
        mf_term_gap();
        printf("  ");
        mf_cli_wrap(mf_walk_word(walk, "walk.shut"), 2, 2);
        printf("    mistfold gate %s %s --area %s\n", walk->job_id, mf_gate_name(walk->gate),
               walk->area);
    }
    mf_walk_foot(walk, "walk.keys-end");
    int key = mf_term_key(&walk->term, -1);
    if (key == 'q' || key == MF_KEY_LEAVE)
        return MF_NO;
    if (key == 'b' && list->n > 0)
        list->at = list->n - 1;
    else if (key == 's' || key == ' ')
        go_to_open(list, 0);
    else
        mf_walk_no_key(walk, key);
    return MF_OK;
}

/* The steps of the days of work are listed once the gate is open. */
static mf_status list_anew(mf_walk *walk, step_list *list, bool was_open, mf_err *err)
{
    return was_open == walk->gate_open ? MF_OK : list_steps(walk, list, err);
}

static mf_status walk_steps(mf_walk *walk, step_list *list, mf_err *err)
{
    mf_walk_ask(walk);
    mf_status status = list_steps(walk, list, err);
    if (status == MF_OK)
        go_to_open(list, 0);
    while (status == MF_OK) {
        bool was_open = walk->gate_open;
        if (list->at >= list->n) { /* what opens it is most often the last step before demo */
            mf_walk_ask(walk);
            status = list_anew(walk, list, was_open, err);
            was_open = walk->gate_open;
        }
        if (status != MF_OK)
            return status;
        if (list->at >= list->n) {
            status = end_key(walk, list);
        } else {
            show_step(walk, list);
            int key = mf_term_key(&walk->term, 60); /* the clock on the screen goes on */
            if (key == 'q' || key == MF_KEY_LEAVE)
                return MF_NO;
            status = step_key(walk, list, key, err);
        }
        if (status == MF_OK)
            status = list_anew(walk, list, was_open, err);
    }
    return status;
}

mf_status mf_cmd_walk_steps(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_walk walk;
    step_list list = {0};
    bool cleaning = strcmp(cmd->group, "cleaning") == 0;
    mf_status status = mf_walk_open(&walk, cli, cmd, args, cleaning ? MF_GATE_SIGNS : MF_GATE_DEMO,
                                    cleaning ? "use \"mistfold cleaning tick\" instead"
                                             : "use \"mistfold containment tick\" instead",
                                    &err);
    if (status == MF_OK && !mf_walk_who(&walk, false))
        status = MF_NO;
    if (status == MF_OK)
        status = walk_steps(&walk, &list, &err);
    free(list.row);
    return mf_walk_close(&walk, status, &err);
}
