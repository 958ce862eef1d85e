/* The rounds of "job walk": which questions an entry is asked for by, and what Enter stands
 * for at each. Each round is an entry at once. */
#include "cli/walk_job.h"

#include <stdio.h>
#include <string.h>

#define PLAIN(option)                                                                              \
    {                                                                                              \
        option, NULL, NULL, NULL                                                                   \
    }
#define ENTER(option, with)                                                                        \
    {                                                                                              \
        option, with, NULL, NULL                                                                   \
    }
#define IF(option, rule)                                                                           \
    {                                                                                              \
        option, NULL, rule, NULL                                                                   \
    }
#define LAST                                                                                       \
    {                                                                                              \
        NULL, NULL, NULL, NULL                                                                     \
    }

static const mf_ask ask_party[] = {PLAIN("role"),    PLAIN("id"),
                                   PLAIN("name"),    IF("unit", "?role occupant"),
                                   PLAIN("address"), LAST};
static const mf_ask ask_opening[] = {PLAIN("id"),        PLAIN("kind"),       PLAIN("room"),
                                     PLAIN("elevation"), ENTER("story", "1"), LAST};
#define INSIDE  "?side interior"
#define OUTSIDE "?side exterior"
static const mf_ask ask_area[] = {PLAIN("id"),
                                  PLAIN("side"),
                                  PLAIN("place"),
                                  PLAIN("common"),
                                  IF("unit", "?common no"),
                                  PLAIN("openings"),
                                  PLAIN("length"),
                                  PLAIN("width"),
                                  IF("objects", INSIDE),
                                  IF("ducts", INSIDE),
                                  IF("doors-used", INSIDE),
                                  IF("carpet", INSIDE),
                                  IF("countertops", INSIDE),
                                  IF("stories", OUTSIDE),
                                  IF("line", OUTSIDE),
                                  LAST};
static const mf_ask ask_surface[] = {PLAIN("area"),  PLAIN("kind"), PLAIN("id"),
                                     PLAIN("place"), PLAIN("size"), LAST};
static const mf_ask ask_component[] = {PLAIN("id"),        PLAIN("opening"),
                                       PLAIN("type"),      PLAIN("side"),
                                       PLAIN("room"),      PLAIN("substrate"),
                                       PLAIN("removed"),   IF("whole", "?removed yes"),
                                       PLAIN("disturbed"), LAST};
/* A signed acknowledgment is asked for by the date beside the signature: the pamphlet was there
 * by then. One answer says that the paper is whole, else each thing of it is asked. */
#define SIGNED   "?method acknowledged,self-certified"
#define UNSIGNED "?method mailed,self-certified,posted,unit-notice"
#define NOT_SAID "!?paper yes: no:? :?"
static const mf_ask ask_notice[] = {PLAIN("party"),
                                    PLAIN("method"),
                                    IF("on", UNSIGNED),
                                    IF("signed-on", SIGNED),
                                    IF("signer", SIGNED),
                                    IF(MF_ASK_PAPER, "?method acknowledged"),
                                    IF("states-receipt", "?method acknowledged;" NOT_SAID),
                                    IF("reason", "?method self-certified"),
                                    IF("deliverers", "?method self-certified"),
                                    IF("how", "?method self-certified"),
                                    IF("receipt", "?method mailed"),
                                    IF("work-from", "?method mailed,unit-notice"),
                                    IF("work-until", "?method mailed,unit-notice,posted"),
                                    IF("unit", NOT_SAID),
                                    IF("language", NOT_SAID),
                                    LAST};
static const mf_ask ask_crew[] = {PLAIN("person"), PLAIN("duty"), PLAIN("on"), LAST};

static const mf_round rounds[MF_ROUNDS] = {
    {"party", "jobwalk.party", ask_party},    {"opening", "jobwalk.opening", ask_opening},
    {"area", "jobwalk.area", ask_area},       {"surface", "jobwalk.surface", ask_surface},
    {"assignment", "jobwalk.crew", ask_crew}, {"component", "jobwalk.component", ask_component},
    {"notice", "jobwalk.notice", ask_notice},
};

const mf_round *mf_round_at(int i)
{
    return &rounds[i];
}

const mf_round *mf_round_named(const char *kind)
{
    int i = 0;
    while (i < MF_ROUNDS - 1 && strcmp(rounds[i].kind, kind) != 0)
        i++;
    return &rounds[i];
}

size_t mf_round_count(const mf_job *job, int i)
{
    const size_t n[MF_ROUNDS] = {job->n_party,      job->n_opening,   job->n_area,  job->n_surface,
                                 job->n_assignment, job->n_component, job->n_notice};
    return n[i];
}

/* ---- what Enter stands for -------------------------------------------------------------- */

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

static void suggest_told(const mf_job *job, char out[SUGGESTED])
{
    const mf_party *party = mf_offer_untold(job);
    if (party != NULL)
        snprintf(out, SUGGESTED, "%s", party->id);
}

/* That of the unit, as a paper gives it. */
static void address_of(const mf_job *job, char out[SUGGESTED])
{
    const mf_house *house = &job->house[0];
    snprintf(out, SUGGESTED, "%.150s%s%.60s", house->address, house->unit[0] == '\0' ? "" : ", ",
             house->unit);
}

/* A day that cannot lie in the future is not offered as one: the start may. */
static bool is_of_the_past(const char *kind, const char *option)
{
    return (mf_field_named(mf_kind_named(kind), option)->flags & MF_F_PAST) != 0;
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
    else if (strcmp(option, "on") == 0 || strcmp(option, "signed-on") == 0)
        mf_day_text(is_of_the_past(kind, option) ? walk->cli->today : job->house[0].start, out);
    else if (strcmp(kind, "notice") == 0 && strcmp(option, "language") == 0)
        snprintf(out, SUGGESTED, "%s", job->house[0].language);
    else if (strcmp(kind, "notice") == 0 && strcmp(option, "unit") == 0)
        address_of(job, out);
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

/* The questions of one round with what Enter stands for. */
typedef struct questions {
    mf_ask ask[MF_ASK_MAX];
    char text[MF_ASK_MAX][SUGGESTED];
    char rule[MF_ASK_MAX][SUGGESTED];
} questions;

static void apply_presets(questions *q, int i, const mf_preset *presets, size_t n)
{
    for (size_t p = 0; p < n; p++) {
        if (strcmp(presets[p].option, q->ask[i].option) != 0)
            continue;
        if (presets[p].asked) {
            q->ask[i].otherwise = presets[p].answer;
            continue;
        }
        snprintf(q->rule[i], sizeof q->rule[i], "!%s", presets[p].answer);
        q->ask[i].rule = q->rule[i];
    }
}

static void prepare(const mf_walk *walk, const mf_round *round, const mf_preset *presets, size_t n,
                    questions *q)
{
    int i = 0;
    for (const mf_ask *ask = round->asks; ask->option != NULL; ask++) {
        if (!asked_here(walk, round->kind, ask->option))
            continue;
        q->ask[i] = *ask;
        q->ask[i + 1] = (mf_ask)LAST;
        q->text[i][0] = '\0';
        suggest_one(walk, round->kind, ask->option, q->text[i]);
        if (q->text[i][0] != '\0')
            q->ask[i].otherwise = q->text[i];
        apply_presets(q, i, presets, n);
        i++;
    }
}

/* ---- one round ----------------------------------------------------------------------------- */

static void put_missing(mf_args *args, const char *option, const char *answer)
{
    if (answer != NULL && answer[0] != '\0' && mf_args_value(args, option) == NULL)
        mf_args_put(args, option, answer);
}

/* A signed acknowledgment: delivered by the date beside the signature, and with all on it that
 * was said in one answer. */
static void take_paper(const mf_walk *walk, const mf_ask *asks, mf_asked *asked,
                       char address[SUGGESTED])
{
    put_missing(&asked->args, "on", mf_args_value(&asked->args, "signed-on"));
    if (strcmp(mf_ask_answer(asks, asked, MF_ASK_PAPER), "yes") != 0)
        return;
    address_of(walk->job, address);
    put_missing(&asked->args, "states-receipt", "yes");
    put_missing(&asked->args, "unit", address);
    put_missing(&asked->args, "language", walk->job->house[0].language);
}

/* The command that logs one of the kind, by its row. */
static const mf_cmd *command_of(const char *kind)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    for (size_t i = 0; i < count; i++)
        if (cmds[i].run == mf_cmd_log && cmds[i].kind != NULL && strcmp(cmds[i].kind, kind) == 0)
            return &cmds[i];
    return NULL;
}

/* Left with too little for an entry: what was answered is not thrown away. */
static void keep_unfinished(mf_walk *walk, const mf_round *round, const mf_asked *asked)
{
    char command[120];
    const mf_cmd *cmd = command_of(round->kind);
    if (cmd != NULL && asked->broken_off) {
        snprintf(command, sizeof command, "%s %s %s", cmd->group, cmd->action, walk->job_id);
        mf_walk_unfinish(walk->unfinished, command, mf_kind_named(round->kind), &asked->args);
    }
    snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.nothing"));
}

mf_status mf_round_run(mf_walk *walk, const mf_round *round, const char *title,
                       const mf_preset *presets, size_t n, mf_err *err)
{
    mf_asked asked = {0};
    questions q;
    char what[160], address[SUGGESTED];
    mf_status status;
    bool left = false;
    const mf_kind *kind = mf_kind_named(round->kind);
    title = title == NULL ? mf_walk_word(walk, round->title_id) : title;
    prepare(walk, round, presets, n, &q);
    do {
        left = !mf_ask_fields(walk->cli, &walk->term, kind, title, q.ask, &asked);
        take_paper(walk, q.ask, &asked, address);
        if (left && (!asked.broken_off || !mf_ask_enough(kind, &asked.args))) {
            keep_unfinished(walk, round, &asked);
            return MF_NO;
        }
        asked.args.word[0] = walk->job_id;
        asked.args.n_words = 1;
        status = mf_log_one(walk->cli, kind, &asked.args, err);
    } while (!left && mf_ask_again(walk->cli, q.ask, &asked, status, err));
    const char *id = mf_args_value(&asked.args, "id");
    snprintf(what, sizeof what, "%.48s%s%s", id == NULL ? "" : id, id == NULL ? "" : ": ",
             mf_walk_word(walk, round->title_id));
    if (status == MF_OK)
        walk->unfinished[0] = '\0';
    status = mf_walk_logged(walk, status, what, err);
    return status == MF_OK && left ? MF_NO : status;
}
