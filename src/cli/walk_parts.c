/* The usual parts of an opening: all are shown, a key takes one out or puts it back, the
 * substrate ends it. What is taken out is logged as absent; what stays is listed and not
 * tested, and its paint presumed to be lead-based. */
#include "base/fail.h"
#include "cli/usual.h"
#include "cli/walk_job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PARTS_MAX = 9 }; /* one digit each */

typedef struct parts {
    mf_opening_kind kind;
    char room[160], elevation[160], absent[MF_WALK_LINE];
    mf_usual_part part[PARTS_MAX];
    bool out[PARTS_MAX];
    int n, substrate; /* substrate < 0 = none yet */
} parts;

/* What was said of the parts of one stands: of another it says nothing. */
static bool alike(const mf_walk *walk, const parts *p, const mf_opening *it)
{
    return it->kind == p->kind && mf_same_room(it->room, p->room) &&
           mf_same_room(it->elevation, p->elevation) &&
           (it->absent[0] == '\0' || strcmp(it->absent, p->absent) == 0) &&
           !mf_opening_listed(walk->job, it->id);
}

static size_t count_alike(const mf_walk *walk, const parts *p)
{
    size_t n = 0;
    for (size_t i = 0; i < walk->job->n_opening; i++)
        n += alike(walk, p, &walk->job->opening[i]);
    return n;
}

static void begin(const mf_walk *walk, const mf_opening *first, parts *p)
{
    const mf_job *job = walk->job;
    *p = (parts){.kind = first->kind, .substrate = -1};
    snprintf(p->room, sizeof p->room, "%s", first->room);
    snprintf(p->elevation, sizeof p->elevation, "%s", first->elevation);
    snprintf(p->absent, sizeof p->absent, "%s", first->absent);
    while (p->n < PARTS_MAX && mf_usual_part_at(p->kind, (size_t)p->n, &p->part[p->n])) {
        p->out[p->n] = mf_usual_part_absent(p->kind, (size_t)p->n, first->absent);
        p->n++;
    }
    if (job->n_component > 0)
        p->substrate = (int)job->component[job->n_component - 1].substrate;
}

/* ---- how many ------------------------------------------------------------------------- */

static mf_status log_more(mf_walk *walk, const parts *p, size_t n, mf_err *err)
{
    mf_batch batch = {0};
    size_t number = walk->job->n_opening;
    for (size_t i = 0; i < n; i++) {
        char id[MF_WALK_ID];
        mf_batch_row *row = mf_batch_add(&batch, "opening", 0);
        if (row == NULL)
            break;
        do
            snprintf(id, sizeof id, "%c%02zu", p->kind == MF_OPENING_WINDOW ? 'W' : 'D', ++number);
        while (mf_job_opening(walk->job, id) != NULL);
        mf_batch_put(&batch, row, "id", id, 0);
        mf_batch_put(&batch, row, "kind", mf_cli_choice("opening", "kind", (int)p->kind), 0);
        mf_batch_put(&batch, row, "room", p->room, 0);
        mf_batch_put(&batch, row, "elevation", p->elevation, 0);
    }
    return mf_walk_log_batch(walk, &batch, "offer.openings-kept", err);
}

/* MF_NO = left. */
static mf_status ask_alike(mf_walk *walk, const parts *p, mf_err *err)
{
    char number[24], title[MF_WALK_LINE];
    size_t n = count_alike(walk, p), wanted = 0;
    mf_asked asked = {0};
    snprintf(number, sizeof number, "%zu", n);
    snprintf(title, sizeof title, "%s: %.120s, %.120s",
             mf_words2(walk->cli->lang, "choice", mf_cli_choice("opening", "kind", (int)p->kind)),
             p->room, p->elevation);
    const mf_ask asks[] = {{MF_ASK_ALIKE, number, NULL, "offer.alike"}, {NULL, NULL, NULL, NULL}};
    if (!mf_ask_fields(walk->cli, &walk->term, mf_kind_named("opening"), title, asks, &asked))
        return MF_NO;
    wanted = (size_t)strtoul(asked.text[0], NULL, 10); /* 1 to 40, as it was checked */
    return wanted > n ? log_more(walk, p, wanted - n, err) : MF_OK;
}

/* ---- which ------------------------------------------------------------------------------ */

static const char *const *substrates(void)
{
    return mf_field_named(mf_kind_named("component"), "substrate")->choices;
}

static void show_substrates(const mf_walk *walk, const parts *p)
{
    char line[400];
    size_t len = 0;
    for (int i = 0; substrates()[i] != NULL && len < sizeof line; i++)
        len +=
            (size_t)snprintf(line + len, sizeof line - len, "%s%c %s", i == 0 ? "" : " | ", 'a' + i,
                             mf_words2(walk->cli->lang, "paper.substrate", substrates()[i]));
    if (p->substrate >= 0 && len < sizeof line)
        snprintf(line + len, sizeof line - len, " | %s: %s", mf_walk_word(walk, "ask.keys-enter"),
                 mf_words2(walk->cli->lang, "paper.substrate", substrates()[p->substrate]));
    mf_term_keys(line, 2);
}

static void show(mf_walk *walk, const parts *p)
{
    mf_term_page(&walk->term);
    mf_term_title(mf_walk_word(walk, "offer.parts-title"));
    mf_term_rule_of(&walk->term);
    for (int i = 0; i < p->n; i++) {
        const mf_usual_part *it = &p->part[i];
        const char *side = mf_cli_choice("component", "side", (int)it->side);
        printf("  %d [%c] %s (%s)\n", i + 1, p->out[i] ? ' ' : 'x',
               mf_words2(walk->cli->lang, "paper.component",
                         mf_cli_choice("component", "type", (int)it->type)),
               mf_words2(walk->cli->lang, "choice", side));
    }
    printf("  ");
    mf_cli_wrap(mf_walk_word(walk, "offer.parts-presumed"), 2, 2);
    show_substrates(walk, p);
    mf_walk_foot(walk, "offer.keys-parts");
}

static bool any_left(const parts *p)
{
    for (int i = 0; i < p->n; i++)
        if (!p->out[i])
            return true;
    return false;
}

/* The substrate, or MF_KEY_LEAVE. */
static int ask_parts(mf_walk *walk, parts *p)
{
    int n = 0;
    while (substrates()[n] != NULL)
        n++;
    for (;;) {
        show(walk, p);
        int key = mf_term_key(&walk->term, -1);
        bool enter = (key == '\r' || key == '\n') && p->substrate >= 0;
        if (key == 'q' || key == MF_KEY_LEAVE || key == 27)
            return MF_KEY_LEAVE;
        if (key >= '1' && key < '1' + p->n)
            p->out[key - '1'] = !p->out[key - '1'];
        else if ((enter || (key >= 'a' && key < 'a' + n)) && any_left(p))
            return enter ? p->substrate : key - 'a';
        else
            mf_walk_no_key(walk, key);
    }
}

/* ---- logging it --------------------------------------------------------------------------- */

static void list_absent(const parts *p, char out[MF_WALK_LINE])
{
    size_t len = 0;
    out[0] = '\0';
    for (int i = 0; i < p->n; i++)
        if (p->out[i])
            len += (size_t)snprintf(out + len, MF_WALK_LINE - len, "%s%s", len > 0 ? "," : "",
                                    mf_cli_choice("component", "type", (int)p->part[i].type));
}

/* Whether what the screen shows is not what was said of the opening. */
static bool says_else(const parts *p, const mf_opening *it)
{
    for (int i = 0; i < p->n; i++)
        if (p->out[i] != mf_usual_part_absent(p->kind, (size_t)i, it->absent))
            return true;
    return false;
}

static mf_status say_absent(mf_walk *walk, const mf_opening *it, const char *absent, mf_err *err)
{
    mf_now now;
    mf_draft *draft = NULL;
    mf_status status = mf_cli_now(walk->cli, &now, err);
    if (status == MF_OK)
        status = mf_draft_new(&draft, mf_kind_named("opening"), err);
    if (status == MF_OK)
        status = mf_draft_set(draft, "absent", absent, "", "", walk->cli->today, err);
    if (status == MF_OK)
        status = mf_book_correct(walk->cli->book, it->src.entry, draft,
                                 mf_walk_word(walk, "offer.absent-reason"), &now, NULL, err);
    mf_draft_free(draft);
    walk->logged += status == MF_OK;
    return status;
}

static mf_status log_parts(mf_walk *walk, const parts *p, int substrate, mf_err *err)
{
    char absent[MF_WALK_LINE];
    mf_batch batch = {0};
    mf_status status = MF_OK;
    list_absent(p, absent);
    for (size_t i = 0; i < walk->job->n_opening && status == MF_OK; i++) {
        const mf_opening *it = &walk->job->opening[i];
        if (!alike(walk, p, it))
            continue;
        if (absent[0] != '\0' && says_else(p, it))
            status = say_absent(walk, it, absent, err);
        mf_usual_parts(&batch, it->id, p->kind, absent, substrates()[substrate], 0);
    }
    if (status == MF_OK)
        return mf_walk_log_batch(walk, &batch, "offer.parts-kept", err);
    mf_batch_free(&batch);
    return mf_walk_logged(walk, status, "", err);
}

mf_status mf_walk_parts(mf_walk *walk, const mf_opening *first, mf_err *err)
{
    parts p;
    begin(walk, first, &p);
    mf_status status = ask_alike(walk, &p, err);
    if (status != MF_OK)
        return status;
    int substrate = ask_parts(walk, &p);
    if (substrate == MF_KEY_LEAVE)
        return MF_NO;
    walk->more = true;
    return log_parts(walk, &p, substrate, err);
}
