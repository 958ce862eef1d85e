/* Taking back what was logged of a job: a withdrawal with its reason, last first. Parts that
 * were listed together go together. */
#include "base/fail.h"
#include "base/json.h"
#include "cli/walk_job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct line {
    char id[MF_ENTRY_ID], kind[32], at[24], text[120];
} line;

typedef struct list {
    line *row;
    size_t n, room;
    const char *only; /* of this kind; NULL = of any that a job is opened with */
    bool failed;
} list;

/* Entries of the job that a walk makes and that can be taken back. */
static bool can_go(const list *all, const char *kind)
{
    static const char *const kinds[] = {"party",   "vacancy",    "opening", "component", "area",
                                        "surface", "assignment", "notice",  NULL};
    if (all->only != NULL)
        return strcmp(all->only, kind) == 0;
    for (size_t i = 0; kinds[i] != NULL; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

/* What the body says first: its key and the next texts. */
static void describe(const mf_entry *entry, char out[120])
{
    const mf_kind *kind = mf_kind_named(entry->kind);
    json_t *body = json_loads(entry->body, 0, NULL);
    size_t len = 0;
    out[0] = '\0';
    for (size_t i = 0; kind != NULL && i < kind->n_fields && len < 60; i++) {
        const char *text = mf_json_string_of(body, kind->fields[i].name);
        if (text[0] != '\0')
            len += (size_t)snprintf(out + len, 120 - len, "%s%.40s", len > 0 ? ", " : "", text);
    }
    json_decref(body);
}

static void drop(list *all, const char *id)
{
    for (size_t i = 0; i < all->n; i++)
        if (strcmp(all->row[i].id, id) == 0) {
            memmove(&all->row[i], &all->row[i + 1], (all->n - i - 1) * sizeof *all->row);
            all->n--;
            return;
        }
}

/* A correction without a body has withdrawn its entry. */
static void drop_withdrawn(list *all, const char *body)
{
    json_t *made = json_loads(body, 0, NULL);
    if (json_object_get(made, "body") == NULL)
        drop(all, mf_json_string_of(made, "target"));
    json_decref(made);
}

static bool collect(const mf_entry *entry, void *data)
{
    list *all = data;
    if (strcmp(entry->kind, "correction") == 0)
        drop_withdrawn(all, entry->body);
    if (!can_go(all, entry->kind))
        return true;
    line *rows = mf_grown(all->row, all->n, &all->room, sizeof *rows);
    all->failed = rows == NULL;
    if (all->failed)
        return false;
    all->row = rows;
    line *it = &rows[all->n++];
    snprintf(it->id, sizeof it->id, "%s", entry->id);
    snprintf(it->kind, sizeof it->kind, "%s", entry->kind);
    snprintf(it->at, sizeof it->at, "%s", entry->at);
    describe(entry, it->text);
    return true;
}

static mf_status load(mf_walk *walk, list *all, mf_err *err)
{
    mf_status status = mf_book_entries(walk->cli->book, walk->job_id, collect, all, err);
    return status == MF_OK && all->failed ? mf_fail_memory(err) : status;
}

/* ---- which one ------------------------------------------------------------------------- */

static void print_line(const mf_walk *walk, const char *const *of, int i)
{
    (void)walk;
    int wide = mf_cli_columns() - 6;
    size_t len = mf_cli_letters(of[i], strlen(of[i]), wide);
    mf_cli_text(stdout, of[i], len);
    putchar('\n');
}

/* Index in the list, or < 0. */
static int choose(mf_walk *walk, const list *all)
{
    const char **words = calloc(all->n, sizeof *words);
    if (words == NULL)
        return MF_KEY_LEAVE;
    for (size_t i = 0; i < all->n; i++)
        words[i] = all->row[all->n - 1 - i].text;
    int at = mf_walk_menu(walk, mf_walk_word(walk, "back.title"), print_line, words, (int)all->n,
                          "back.none");
    free(words);
    return at < 0 ? at : (int)all->n - 1 - at;
}

/* ---- taking back ----------------------------------------------------------------------- */

/* Logged in one go: the same kind at the same moment. A reading is one for itself. */
static bool together(const line *a, const line *b)
{
    if (strcmp(b->kind, "reading") == 0)
        return a == b;
    return strcmp(a->kind, b->kind) == 0 && strcmp(a->at, b->at) == 0;
}

/* All that were logged together with the row, the last first; all or none. */
static mf_status withdraw_all(mf_walk *walk, const list *all, const line *it, const char *reason,
                              mf_err *err)
{
    mf_now now;
    mf_status status = mf_cli_now(walk->cli, &now, err);
    if (status == MF_OK)
        status = mf_book_begin(walk->cli->book, err);
    if (status != MF_OK)
        return status;
    for (size_t i = all->n; i > 0 && status == MF_OK; i--)
        if (together(&all->row[i - 1], it))
            status =
                mf_book_correct(walk->cli->book, all->row[i - 1].id, NULL, reason, &now, NULL, err);
    if (status == MF_OK)
        return mf_book_commit(walk->cli->book, err);
    mf_book_rollback(walk->cli->book);
    return status;
}

static mf_status ask_and_withdraw(mf_walk *walk, const list *all, const line *it, mf_err *err)
{
    char reason[MF_WALK_LINE] = "", title[200], what[200];
    size_t n = 0;
    for (size_t i = 0; i < all->n; i++)
        n += together(&all->row[i], it);
    snprintf(title, sizeof title, "%s %.100s%s", mf_walk_word(walk, "back.this"), it->text,
             n > 1 ? " ..." : "");
    walk->said[0] = '\0';
    mf_walk_head(walk, title);
    printf("\n  ");
    mf_cli_wrap(mf_walk_word(walk, "back.reason"), 2, 2);
    if (mf_term_line(&walk->term, "  >", reason, sizeof reason) != MF_TYPED_LINE) {
        snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "walk.nothing"));
        return MF_OK;
    }
    if (reason[0] == '\0')
        snprintf(reason, sizeof reason, "%s", mf_walk_word(walk, "back.slip"));
    mf_status status = withdraw_all(walk, all, it, reason, err);
    walk->logged += status == MF_OK ? (int)n - 1 : 0;
    snprintf(what, sizeof what, "%s %.120s", mf_walk_word(walk, "back.done"), it->text);
    return mf_walk_logged(walk, status, what, err);
}

mf_status mf_walk_back(mf_walk *walk, bool last, const char *kind, mf_err *err)
{
    list all = {.only = kind};
    mf_status status = load(walk, &all, err);
    int at = (int)all.n - 1;
    if (status == MF_OK && all.n == 0)
        snprintf(walk->said, sizeof walk->said, "%s", mf_walk_word(walk, "back.nothing"));
    if (status == MF_OK && all.n > 0 && !last)
        at = choose(walk, &all);
    if (status == MF_OK && at >= 0)
        status = ask_and_withdraw(walk, &all, &all.row[at], err);
    free(all.row);
    return status;
}
