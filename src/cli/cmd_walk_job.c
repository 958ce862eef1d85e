/* job walk: opens a job by asking, then adds people, openings, work areas and
 * surfaces as long as somebody wants to. Each round is an entry at once. */
#include "cli/ask.h"
#include "cli/walk.h"

#include <stdio.h>
#include <string.h>

static const mf_ask ask_house[] = {{"id", NULL},
                                   {"address", NULL},
                                   {"unit", NULL},
                                   {"year-built", NULL},
                                   {"building", NULL},
                                   {"owner-occupied", NULL},
                                   {"child-under-6", "?building dwelling,multi-unit"},
                                   {"children-visit", "?building other"},
                                   {"work", NULL},
                                   {"emergency", NULL},
                                   {"assisted", NULL},
                                   {"description", NULL},
                                   {"start", NULL},
                                   {"end", NULL},
                                   {"language", "en"},
                                   {NULL, NULL}};
static const mf_ask ask_party[] = {{"role", NULL},    {"id", NULL},
                                   {"name", NULL},    {"unit", "?role occupant"},
                                   {"address", NULL}, {NULL, NULL}};
static const mf_ask ask_opening[] = {{"id", NULL},        {"kind", NULL},  {"room", NULL},
                                     {"elevation", NULL}, {"storey", "1"}, {NULL, NULL}};
static const mf_ask ask_area[] = {{"id", NULL},
                                  {"side", NULL},
                                  {"place", NULL},
                                  {"common", NULL},
                                  {"unit", "?common no"},
                                  {"openings", NULL},
                                  {"length", NULL},
                                  {"width", NULL},
                                  {"objects", NULL},
                                  {"ducts", NULL},
                                  {"doors-used", NULL},
                                  {"carpet", NULL},
                                  {"storeys", "?side exterior"},
                                  {"line", "?side exterior"},
                                  {NULL, NULL}};
static const mf_ask ask_surface[] = {{"area", NULL},  {"kind", NULL}, {"id", NULL},
                                     {"place", NULL}, {"size", NULL}, {NULL, NULL}};
static const mf_ask ask_component[] = {{"id", NULL},        {"opening", NULL}, {"type", NULL},
                                       {"side", NULL},      {"room", NULL},    {"substrate", NULL},
                                       {"disturbed", NULL}, {NULL, NULL}};
#define SIGNED "?method acknowledged,self-certified"
static const mf_ask ask_notice[] = {{"party", NULL},
                                    {"method", NULL},
                                    {"on", NULL},
                                    {"signed-on", SIGNED},
                                    {"signer", SIGNED},
                                    {"states-receipt", "?method acknowledged"},
                                    {"reason", "?method self-certified"},
                                    {"deliverers", "?method self-certified"},
                                    {"how", "?method self-certified"},
                                    {"receipt", "?method mailed"},
                                    {"work-from", "?method mailed,unit-notice"},
                                    {"work-until", "?method mailed,unit-notice,posted"},
                                    {"unit", NULL},
                                    {"language", "en"},
                                    {NULL, NULL}};
static const mf_ask ask_crew[] = {{"person", NULL}, {"duty", NULL}, {"on", NULL}, {NULL, NULL}};

/* What can be added; the key is its number. */
typedef struct round_kind {
    const char *kind, *title_id;
    const mf_ask *asks;
} round_kind;

static const round_kind rounds[] = {
    {"party", "jobwalk.party", ask_party},    {"opening", "jobwalk.opening", ask_opening},
    {"area", "jobwalk.area", ask_area},       {"surface", "jobwalk.surface", ask_surface},
    {"assignment", "jobwalk.crew", ask_crew}, {"component", "jobwalk.component", ask_component},
    {"notice", "jobwalk.notice", ask_notice},
};
enum { ROUNDS = sizeof rounds / sizeof rounds[0] };

static size_t count_of(const mf_job *job, int i)
{
    const size_t n[ROUNDS] = {job->n_party,      job->n_opening,   job->n_area,  job->n_surface,
                              job->n_assignment, job->n_component, job->n_notice};
    return n[i];
}

enum { SUGGESTED = 240 };

/* What a party is called by its role, and a number where that is taken. */
static void suggest_party(const mf_job *job, char out[SUGGESTED])
{
    static const char *const names[][2] = {{"owner", "owner"},
                                           {"occupant", "tenant"},
                                           {"facility", "facility"},
                                           {"parents", "parents"},
                                           {"units", "units"}};
    size_t len = (size_t)snprintf(out, SUGGESTED, "=role");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char id[MF_WALK_ID];
        snprintf(id, sizeof id, "%s", names[i][1]);
        for (size_t n = 2; mf_job_party(job, id) != NULL; n++)
            snprintf(id, sizeof id, "%s-%zu", names[i][1], n);
        len += (size_t)snprintf(out + len, SUGGESTED - len, " %s:%s", names[i][0], id);
    }
}

/* The first party that no notice is of. */
static void suggest_told(const mf_job *job, char out[SUGGESTED])
{
    for (size_t p = 0; p < job->n_party; p++) {
        bool told = false;
        for (size_t i = 0; i < job->n_notice; i++)
            told = told || strcmp(job->notice[i].party, job->party[p].id) == 0;
        if (!told) {
            snprintf(out, SUGGESTED, "%s", job->party[p].id);
            return;
        }
    }
}

/* What the book already knows of one question: the next free number, whom it is about. */
static void suggest_one(const mf_walk *walk, const char *kind, const char *option,
                        char out[SUGGESTED])
{
    const mf_job *job = walk->job;
    if (strcmp(kind, "opening") == 0 && strcmp(option, "id") == 0)
        snprintf(out, SUGGESTED, "W%02zu", job->n_opening + 1);
    else if (strcmp(kind, "area") == 0 && strcmp(option, "id") == 0)
        snprintf(out, SUGGESTED, "A%zu", job->n_area + 1);
    else if (strcmp(kind, "party") == 0 && strcmp(option, "id") == 0)
        suggest_party(job, out);
    else if (strcmp(kind, "notice") == 0 && strcmp(option, "party") == 0)
        suggest_told(job, out);
    else if (strcmp(option, "person") == 0 && job->n_assignment == 0)
        snprintf(out, SUGGESTED, "%s", walk->cli->who);
    else if (strcmp(option, "on") == 0)
        mf_day_text(strcmp(kind, "notice") == 0 ? walk->cli->today : job->house[0].start, out);
    else if (strcmp(kind, "notice") == 0 && strcmp(option, "language") == 0)
        snprintf(out, SUGGESTED, "%s", job->house[0].language);
    else if (strcmp(option, "area") == 0 && job->n_area > 0)
        snprintf(out, SUGGESTED, "%s", job->area[job->n_area - 1].id);
}

/* Units and the days they are told are asked for only where there are several. */
static bool asked_here(const mf_walk *walk, const char *kind, const char *option)
{
    static const char *const of_many[][2] = {{"party", "unit"},
                                             {"area", "unit"},
                                             {"area", "common"},
                                             {"notice", "work-from"},
                                             {"notice", "work-until"}};
    if (walk->job->house[0].building == MF_BUILDING_MULTI)
        return true;
    for (size_t i = 0; i < sizeof of_many / sizeof of_many[0]; i++)
        if (strcmp(of_many[i][0], kind) == 0 && strcmp(of_many[i][1], option) == 0)
            return false;
    return true;
}

/* What Enter stands for, question by question. */
static void suggest(const mf_walk *walk, const round_kind *round, mf_ask asks[MF_ASK_MAX],
                    char text[MF_ASK_MAX][SUGGESTED])
{
    int i = 0;
    for (const mf_ask *ask = round->asks; ask->option != NULL; ask++) {
        if (!asked_here(walk, round->kind, ask->option))
            continue;
        asks[i] = *ask;
        asks[i + 1] = (mf_ask){NULL, NULL};
        text[i][0] = '\0';
        suggest_one(walk, round->kind, asks[i].option, text[i]);
        if (text[i][0] != '\0')
            asks[i].otherwise = text[i];
        i++;
    }
}

static mf_status add_one(mf_walk *walk, const round_kind *round, mf_err *err)
{
    mf_asked asked = {0};
    mf_ask asks[MF_ASK_MAX];
    char text[MF_ASK_MAX][SUGGESTED], what[160];
    mf_status status;
    const mf_kind *kind = mf_kind_named(round->kind);
    const char *title = mf_walk_word(walk, round->title_id);
    suggest(walk, round, asks, text);
    do {
        if (!mf_ask_fields(walk->cli, &walk->term, kind, title, asks, &asked)) {
            snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.nothing"));
            return MF_OK;
        }
        asked.args.word[0] = walk->job_id;
        asked.args.n_words = 1;
        status = mf_log_one(walk->cli, kind, &asked.args, err);
    } while (mf_ask_again(walk->cli, asks, &asked, status, err));
    const char *id = mf_args_value(&asked.args, "id");
    snprintf(what, sizeof what, "%.48s%s%s", id == NULL ? "" : id, id == NULL ? "" : ": ", title);
    return mf_walk_logged(walk, status, what, err);
}

/* Asks for the house until the book takes it. MF_NO = left. */
static mf_status open_job(mf_walk *walk, mf_err *err)
{
    mf_asked asked = {0};
    mf_status status;
    const mf_kind *kind = mf_kind_named("house");
    const char *title = mf_walk_word(walk, "jobwalk.house");
    do {
        if (!mf_ask_fields(walk->cli, &walk->term, kind, title, ask_house, &asked))
            return MF_NO;
        status = mf_log_one(walk->cli, kind, &asked.args, err);
    } while (mf_ask_again(walk->cli, ask_house, &asked, status, err));
    if (status != MF_OK)
        return status;
    walk->logged++;
    snprintf(walk->job_id, sizeof walk->job_id, "%s", mf_args_value(&asked.args, "id"));
    return mf_walk_reload(walk, err);
}

static void show_menu(mf_walk *walk)
{
    char left[120];
    mf_cover_answer cover;
    mf_cover_judge(walk->job, &cover);
    snprintf(left, sizeof left, "%.60s", walk->job->house[0].address);
    mf_walk_head(walk, left);
    printf("\n  ");
    mf_cli_wrap(mf_words_cover(walk->cli->lang, cover.why), 2, 2);
    putchar('\n');
    for (int i = 0; i < ROUNDS; i++) {
        printf("  %d  ", i + 1);
        mf_cli_pad(mf_walk_word(walk, rounds[i].title_id), 52);
        printf("%zu\n", count_of(walk->job, i));
    }
    mf_walk_foot(walk, "jobwalk.keys");
}

static mf_status go_on(mf_walk *walk, mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK) {
        show_menu(walk);
        int key = mf_term_key(&walk->term, -1);
        if (key == 'q' || key == MF_KEY_LEAVE)
            return MF_NO;
        if (key >= '1' && key < '1' + ROUNDS)
            status = add_one(walk, &rounds[key - '1'], err);
        else
            mf_walk_no_key(walk);
    }
    return status;
}

mf_status mf_cmd_walk_job(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_walk walk = {.cli = cli, .cmd = cmd, .gate = MF_GATE_DEMO};
    const char *id = mf_args_value(args, "job");
    mf_status status = mf_term_check("use \"mistfold job open\" instead", &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK && id != NULL) {
        snprintf(walk.job_id, sizeof walk.job_id, "%s", id);
        status = mf_walk_reload(&walk, &err);
    }
    if (status == MF_OK)
        status = mf_term_open(&walk.term, &err);
    if (status == MF_OK)
        status = mf_walk_login(&walk, &err);
    cli->walking = true;
    if (status == MF_OK && id == NULL)
        status = open_job(&walk, &err);
    if (status == MF_OK)
        status = go_on(&walk, &err);
    return mf_walk_close(&walk, status, &err);
}
