/* job list, job show */
#include "base/fail.h"
#include "cli/due.h"
#include "cli/json.h"
#include "cli/pick.h"
#include "cli/screen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A job that was judged just now, because the book did not know it as settled. */
typedef struct open_job {
    const char *id, *address;
    mf_day start;
    mf_stage stage;
} open_job;

typedef struct job_lister {
    mf_cli *cli;
    mf_stage only; /* MF_STAGE_COUNT = all */
    json_t *array; /* NULL = text */
    size_t shown;
    open_job *open; /* in the order of ids, up to next shown already */
    size_t n, cap, next;
    mf_arena arena;
    mf_status status;
    mf_err *err;
    const mf_watch *watch;
} job_lister;

static void print_row(const job_lister *lister, const char *job, const char *address, mf_day start,
                      mf_stage stage)
{
    char day[MF_DAY_TEXT];
    mf_day_text(start, day);
    mf_cli_pad(job, 16);
    printf("%s  ", day);
    if (mf_cli_columns() < 78)
        printf("%s\n    ", mf_stage_words(lister->cli->lang, stage));
    else
        mf_cli_pad(mf_stage_words(lister->cli->lang, stage), 30);
    mf_cli_show(address);
    putchar('\n');
}

static void json_row(const job_lister *lister, const char *job, const char *address, mf_day start,
                     mf_stage stage)
{
    json_t *object = json_object();
    json_object_set_new(object, "job", json_string(job));
    json_object_set_new(object, "address", json_string(address));
    json_object_set_new(object, "start", mf_json_day(start));
    json_object_set_new(object, "state", json_string(mf_stage_name(stage)));
    json_array_append_new(lister->array, object);
}

static void list_row(job_lister *lister, const char *id, const char *address, mf_day start,
                     mf_stage stage)
{
    if (lister->only != MF_STAGE_COUNT && stage != lister->only)
        return;
    lister->cli->next[0] = '\0';
    if (lister->shown++ == 0) /* the only one is what to look at next */
        snprintf(lister->cli->next, MF_COMMAND_MAX, "mistfold job show %s", id);
    if (lister->array != NULL)
        json_row(lister, id, address, start, stage);
    else
        print_row(lister, id, address, start, stage);
}

static open_job *open_room(job_lister *lister)
{
    open_job *grown = mf_grown(lister->open, lister->n, &lister->cap, sizeof *grown);
    lister->open = grown == NULL ? lister->open : grown;
    return grown == NULL ? NULL : &grown[lister->n++];
}

/* ---- jobs found by words: each of them is judged */

static bool list_hit(const char *id, const char *address, mf_day start, void *data)
{
    job_lister *lister = data;
    open_job *it = open_room(lister);
    if (it != NULL)
        *it = (open_job){mf_arena_text(&lister->arena, id), mf_arena_text(&lister->arena, address),
                         start, MF_STAGE_COUNT};
    if (it == NULL || it->id == NULL || it->address == NULL)
        lister->status = mf_fail_memory(lister->err);
    return lister->status == MF_OK;
}

static mf_status judge_hit(job_lister *lister, mf_book_looks *looks, const open_job *it)
{
    mf_job *job = NULL;
    mf_status status = mf_cli_job_of_many(lister->cli, it->id, &job, lister->err);
    if (job != NULL)
        status = mf_book_looks_mark(looks, job, lister->err);
    if (job != NULL && status == MF_OK)
        list_row(lister, it->id, it->address, it->start, mf_stage_of(job, lister->cli->today));
    mf_book_job_free(job);
    return status;
}

static mf_status list_found(job_lister *lister, const char *find)
{
    mf_book_looks *looks = NULL;
    mf_status status = mf_book_find(lister->cli->book, find, list_hit, lister, lister->err);
    if (status == MF_OK)
        status = lister->status;
    if (status == MF_OK && lister->n > 0)
        status = mf_book_looks_begin(&looks, lister->cli->book, lister->err);
    for (size_t i = 0; status == MF_OK && i < lister->n; i++)
        status = judge_hit(lister, looks, &lister->open[i]);
    mf_book_looks_end(looks);
    return status;
}

/* ---- all jobs: those that are not settled are judged, the others the book knows */

static const char *judge(const mf_job *job, void *data)
{
    job_lister *lister = data;
    mf_stage stage = mf_stage_of(job, lister->cli->today);
    open_job *it = open_room(lister);
    if (it == NULL)
        return NULL;
    *it = (open_job){mf_arena_text(&lister->arena, job->id),
                     mf_arena_text(&lister->arena, job->house[0].address), job->house[0].start,
                     stage};
    return it->id == NULL || it->address == NULL ? NULL
                                                 : mf_stage_settled(job, stage, lister->cli->today);
}

static void list_lost(const char *job, const mf_err *why, void *data)
{
    job_lister *lister = data;
    mf_cli_lost(lister->cli, job, why);
}

/* The judged ones before this id; NULL = all that are left. */
static void list_open(job_lister *lister, const char *id)
{
    while (lister->next < lister->n &&
           (id == NULL || strcmp(lister->open[lister->next].id, id) < 0)) {
        const open_job *it = &lister->open[lister->next++];
        list_row(lister, it->id, it->address, it->start, it->stage);
    }
}

static bool list_settled(const char *id, const char *address, mf_day start, const char *stage,
                         void *data)
{
    job_lister *lister = data;
    list_open(lister, id);
    bool judged = lister->next < lister->n && strcmp(lister->open[lister->next].id, id) == 0;
    if (!judged)
        list_row(lister, id, address, start, mf_stage_named(stage));
    return true;
}

static mf_status list_all(job_lister *lister)
{
    bool none_settled = lister->only != MF_STAGE_COUNT && lister->only != MF_STAGE_OUTSIDE &&
                        lister->only != MF_STAGE_CALLED_OFF && lister->only != MF_STAGE_CLOSED &&
                        lister->only != MF_STAGE_LATE;
    mf_status status =
        mf_book_unsettled(lister->cli->book, judge, list_lost, lister, lister->watch, lister->err);
    if (status == MF_OK && !none_settled)
        status = mf_book_settled(
            lister->cli->book, lister->only == MF_STAGE_COUNT ? NULL : mf_stage_name(lister->only),
            list_settled, lister, lister->err);
    if (status == MF_OK)
        list_open(lister, NULL);
    return status;
}

static mf_status list_jobs(job_lister *lister, const mf_args *args)
{
    const char *state = mf_args_value(args, "state"), *find = mf_args_value(args, "find");
    mf_status status = MF_OK;
    if (state != NULL)
        status = mf_pick_state(state, &lister->only, lister->err);
    if (status == MF_OK)
        status = mf_cli_book(lister->cli, lister->err);
    if (status == MF_OK && find != NULL)
        status = list_found(lister, find);
    else if (status == MF_OK)
        status = list_all(lister);
    return status == MF_OK ? lister->status : status;
}

mf_status mf_cmd_job_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    job_lister lister = {
        .cli = cli, .only = MF_STAGE_COUNT, .array = cli->json ? json_array() : NULL, .err = &err};
    const mf_watch watch = mf_cli_watch(cli, args);
    lister.watch = &watch;
    mf_status status = list_jobs(&lister, args);
    mf_cli_watched(cli);
    free(lister.open);
    mf_arena_free(&lister.arena);
    if (status != MF_OK) {
        json_decref(lister.array);
        return mf_cli_fail(&err);
    }
    if (cli->json)
        return mf_json_print(lister.array);
    if (lister.shown > 0 || cli->lost)
        return MF_OK;
    bool all = mf_args_value(args, "state") == NULL && mf_args_value(args, "find") == NULL;
    puts(mf_cli_word(cli, !all ? "list.none-found" : "list.no-job"));
    if (!all)
        snprintf(cli->next, sizeof cli->next, "mistfold job list");
    return MF_OK;
}

/* ---- one job at a glance -------------------------------------------------------- */

/* "built       " and so on. */
static void print_label(const mf_cli *cli, const char *id)
{
    mf_cli_pad(mf_cli_word(cli, id), 12);
}

static void print_day(const mf_cli *cli, const char *label_id, mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    print_label(cli, label_id);
    puts(text[0] != '\0' ? text : mf_cli_word(cli, "word.when-completed"));
}

static void print_house(const mf_cli *cli, const mf_house *house)
{
    char day[MF_DAY_TEXT];
    mf_day_text(house->start, day);
    mf_cli_show(house->id);
    fputs("  ", stdout);
    mf_cli_show(house->address);
    fputs(house->unit[0] ? ", " : "", stdout);
    mf_cli_show(house->unit);
    putchar('\n');
    print_label(cli, "show.built");
    if (house->year_built == MF_NUM_NONE)
        puts(mf_cli_word(cli, "show.year-unknown"));
    else
        printf("%d\n", (int)house->year_built);
    print_label(cli, "show.start");
    puts(day);
    print_label(cli, "show.work");
    mf_cli_wrap(house->description, 12, 12);
    if (house->note[0] != '\0') {
        print_label(cli, "show.note");
        mf_cli_wrap(house->note, 12, 12);
    }
}

typedef struct paint_count {
    size_t lead, presumed, free_of_it;
} paint_count;

static paint_count count_paint(const mf_job *job)
{
    paint_count n = {0, 0, 0};
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        mf_paint_judge(job, &job->component[i], &finding);
        n.lead += finding.verdict == MF_PAINT_LEAD;
        n.presumed += finding.verdict == MF_PAINT_PRESUMED;
        n.free_of_it += finding.verdict == MF_PAINT_FREE;
    }
    return n;
}

static const char *gate_word(const mf_cli *cli, const mf_job *job, mf_gate gate)
{
    mf_gate_found answer;
    mf_gate_answer(cli, job, gate, &answer); /* without memory it is no */
    free(answer.found);
    return mf_gate_code(&answer);
}

static json_t *json_gates(const mf_cli *cli, const mf_job *job)
{
    json_t *gates = json_object();
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        json_object_set_new(gates, mf_gate_name((mf_gate)gate),
                            json_string(gate_word(cli, job, (mf_gate)gate)));
    return gates;
}

static mf_status show_json(const mf_cli *cli, const mf_job *job, int64_t unknown)
{
    mf_due due;
    paint_count n = count_paint(job);
    mf_due_dates(job, &due);
    json_t *root = json_object();
    json_object_set_new(root, "house", mf_json_item(mf_kind_named("house"), &job->house[0]));
    json_object_set_new(root, "state", json_string(mf_stage_name(mf_stage_of(job, cli->today))));
    json_object_set_new(root, "openings", json_integer((json_int_t)job->n_opening));
    json_object_set_new(root, "components", json_integer((json_int_t)job->n_component));
    json_object_set_new(root, "readings", json_integer((json_int_t)job->n_reading));
    json_object_set_new(root, "lead", json_integer((json_int_t)n.lead));
    json_object_set_new(root, "presumed", json_integer((json_int_t)n.presumed));
    json_object_set_new(root, "free", json_integer((json_int_t)n.free_of_it));
    json_object_set_new(root, "handover_due", mf_json_day(due.handover));
    json_object_set_new(root, "keep_until", mf_json_day(due.keep_until));
    json_object_set_new(root, "gates", json_gates(cli, job));
    json_object_set_new(root, "unknown_entries", json_integer(unknown));
    return mf_json_print(root);
}

static void print_counts(const mf_cli *cli, const mf_job *job)
{
    paint_count n = count_paint(job);
    print_label(cli, "show.openings");
    printf("%zu, %s %zu %s\n", job->n_opening, mf_cli_word(cli, "show.with"), job->n_component,
           mf_cli_word(cli, "show.components"));
    print_label(cli, "show.paint");
    printf("%zu %s, %zu %s, %zu %s (%zu %s)\n", n.lead, mf_cli_word(cli, "show.lead"), n.presumed,
           mf_cli_word(cli, "show.presumed"), n.free_of_it, mf_cli_word(cli, "show.free"),
           job->n_reading, mf_cli_word(cli, "show.readings"));
    print_label(cli, "show.areas");
    printf("%zu\n", job->n_area);
}

static void print_gate(const mf_cli *cli, const mf_job *job, mf_gate gate)
{
    char word[MF_ANSWER_TEXT];
    mf_gate_found found;
    mf_gate_answer(cli, job, gate, &found); /* without memory it is no */
    mf_gate_say(cli, &found, word);
    mf_screen_shade(word, mf_screen_shade_of(found.answer));
    putchar('\n');
    free(found.found);
}

/* What two entries say differently: what is shown above may be one of them. */
static void print_disputes(const mf_cli *cli, const mf_job *job)
{
    char why[1024];
    mf_finding *found;
    size_t n;
    mf_audit_ask question = {job, cli->today, 1u << MF_GATE_RULE, ""};
    if (!mf_findings(&question, &found, &n))
        return;
    for (size_t i = 0; i < n; i++) {
        bool twice = strcmp(found[i].requirement->id, "said-twice-stricter") == 0;
        if (!twice || (found[i].verdict != MF_WARNING && found[i].verdict != MF_LACKING))
            continue;
        mf_words_why(cli->lang, &found[i], why, sizeof why);
        fputs("!   ", stdout);
        mf_cli_wrap(why, 4, 4);
    }
    free(found);
}

static void show_text(const mf_cli *cli, const mf_job *job)
{
    mf_due due;
    mf_due_dates(job, &due);
    print_house(cli, &job->house[0]);
    print_counts(cli, job);
    print_label(cli, "show.state");
    mf_stage stage = mf_stage_of(job, cli->today);
    puts(mf_stage_words(cli->lang, stage));
    if (stage != MF_STAGE_CALLED_OFF) { /* which is never completed, and owes nothing */
        print_day(cli, "show.handover", due.handover);
        print_day(cli, "show.keep", due.keep_until);
    }
    print_disputes(cli, job);
    putchar('\n');
    for (int gate = 0; gate < MF_GATE_COUNT; gate++) {
        mf_cli_pad(mf_gate_question(cli, (mf_gate)gate), 48);
        print_gate(cli, job, (mf_gate)gate);
    }
    mf_cli_caution(cli);
}

mf_status mf_cmd_job_show(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    mf_book_report report = {0};
    status = mf_cli_look(cli, job, false, &report, &err);
    if (status == MF_NO) /* what was logged is shown; nothing is answered from it */
        err.status = MF_SYSTEM;
    mf_status printed = MF_OK;
    if (status != MF_SYSTEM && cli->json)
        printed = show_json(cli, job, report.unknown);
    else if (status != MF_SYSTEM)
        show_text(cli, job);
    mf_cli_unknown(cli, &report);
    mf_book_job_free(job);
    if (printed != MF_OK)
        return printed; /* it has said why */
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
