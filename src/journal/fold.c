#include "journal/fold.h"

#include "base/fail.h"
#include "journal/list.h"
#include <assert.h>
#include <stdlib.h>
#include <string.h>

static_assert(offsetof(mf_reading, src) == 0, "mf_src comes first in every struct");

mf_job_fold *mf_job_fold_new(const char *job, bool (*wanted)(const mf_kind *kind))
{
    mf_job_fold *fold = calloc(1, sizeof *fold);
    if (fold == NULL)
        return NULL;
    fold->wanted = wanted;
    fold->at = fold->who = "";
    fold->job.id = mf_arena_text(&fold->arena, job);
    if (fold->job.id != NULL)
        return fold;
    mf_job_fold_free(fold);
    return NULL;
}

void mf_job_fold_free(mf_job_fold *fold)
{
    if (fold == NULL)
        return;
    for (size_t i = 0; i < MF_KINDS_MAX; i++) {
        free(fold->list[i].items);
        free(fold->list[i].dead);
    }
    free(fold->seen);
    free(fold->corrections);
    free(fold->corrected);
    mf_arena_free(&fold->arena);
    free(fold);
}

/* ---- adding: an item ------------------------------------------------------------------- */

static size_t list_of(const mf_kind *kind)
{
    size_t count = 0;
    return (size_t)(kind - mf_kinds(&count));
}

/* Most entries are of the same hand and moment as the one before. */
static const char *again(mf_job_fold *fold, const char **last, const char *text)
{
    if (strcmp(*last, text) == 0)
        return *last;
    const char *copy = mf_arena_text(&fold->arena, text);
    return copy == NULL ? NULL : (*last = copy);
}

static mf_fold_seen *add_seen(mf_job_fold *fold, const mf_line *line)
{
    char id[MF_ENTRY_ID];
    mf_fold_seen *grown = mf_grown(fold->seen, fold->n_seen, &fold->cap_seen, sizeof *grown);
    if (grown == NULL)
        return NULL;
    fold->seen = grown;
    mf_line_id(line, id);
    grown += fold->n_seen;
    *grown = (mf_fold_seen){.id = mf_arena_text(&fold->arena, id),
                            .body = mf_arena_text(&fold->arena, line->body),
                            .kind = -1,
                            .firm = line->job[0] == '\0'};
    if (grown->id == NULL || grown->body == NULL)
        return NULL;
    fold->n_seen++;
    return grown;
}

/* Room for one item more at the end of the list. */
static unsigned char *add_item(mf_fold_list *list, const mf_kind *kind)
{
    unsigned char *items = mf_grown(list->items, list->n, &list->cap, kind->size);
    bool *dead = mf_grown(list->dead, list->n, &list->cap_dead, sizeof *dead);
    list->items = items == NULL ? list->items : items;
    list->dead = dead == NULL ? list->dead : dead;
    if (items == NULL || dead == NULL)
        return NULL;
    dead[list->n] = false;
    items += list->n++ * kind->size;
    memset(items, 0, kind->size);
    return items;
}

/* Sets the fields of an item from a body, and what corrected it. A word that is not known
 * here is no fault yet: a correction may take it back. */
static mf_status put_item(mf_job_fold *fold, mf_fold_seen *seen, const char *body,
                          const char *correction, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kind = &mf_kinds(&count)[seen->kind];
    unsigned char *item = fold->list[seen->kind].items + seen->item * kind->size;
    mf_body said = {.tree = NULL};
    mf_err why = {0};
    mf_src src;
    memcpy(&src, item, sizeof src);
    src.correction = correction;
    memcpy(item, &src, sizeof src);
    mf_status status = mf_body_read(&said, body, &why);
    if (status == MF_OK)
        status = mf_body_put_all(item, kind, &said, seen->id, &fold->arena, &why);
    mf_body_free(&said);
    seen->unread = status != MF_OK && strcmp(why.name, MF_ERR_UNREAD) == 0;
    if (status != MF_OK && err != NULL)
        *err = why;
    return seen->unread ? MF_OK : status;
}

static mf_status add_typed(mf_job_fold *fold, const mf_line *line, const mf_kind *kind, mf_err *err)
{
    mf_src src = {NULL, again(fold, &fold->at, line->at), again(fold, &fold->who, line->who), ""};
    mf_fold_seen *seen = add_seen(fold, line);
    if (seen == NULL || src.at == NULL || src.by == NULL)
        return mf_fail_memory(err);
    if (kind == NULL || kind->of_firm != seen->firm)
        return MF_OK;
    size_t at = list_of(kind);
    unsigned char *item = add_item(&fold->list[at], kind);
    if (item == NULL)
        return mf_fail_memory(err);
    src.entry = seen->id;
    memcpy(item, &src, sizeof src);
    seen->kind = (int)at;
    seen->item = fold->list[at].n - 1;
    return put_item(fold, seen, seen->body, "", err);
}

/* ---- adding: a correction -------------------------------------------------------------- */

/* The canonical body that a correction puts in force; "" when it withdraws. */
static const char *after_of(mf_job_fold *fold, const json_t *correction)
{
    mf_buf text = {0};
    const json_t *body = json_object_get(correction, "body");
    if (body != NULL)
        mf_json_canonical(&text, body);
    const char *copy = text.failed ? NULL : mf_arena_text(&fold->arena, mf_buf_str(&text));
    mf_buf_free(&text);
    return copy;
}

static mf_status fill_correction(mf_job_fold *fold, mf_correction *out, const mf_line *line,
                                 const json_t *tree, mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_arena *arena = &fold->arena;
    mf_line_id(line, id);
    *out = (mf_correction){{mf_arena_text(arena, id), again(fold, &fold->at, line->at),
                            again(fold, &fold->who, line->who), ""},
                           mf_arena_text(arena, mf_json_string_of(tree, "target")),
                           mf_arena_text(arena, mf_json_string_of(tree, "replaces")),
                           mf_arena_text(arena, mf_json_string_of(tree, "kind")),
                           mf_arena_text(arena, mf_json_string_of(tree, "reason")),
                           "",
                           after_of(fold, tree)};
    bool whole = out->src.entry != NULL && out->src.at != NULL && out->src.by != NULL &&
                 out->target != NULL && out->replaces != NULL && out->kind != NULL &&
                 out->reason != NULL && out->after != NULL;
    return whole ? MF_OK : mf_fail_memory(err);
}

static mf_status add_correction(mf_job_fold *fold, const mf_line *line, mf_err *err)
{
    mf_body body = {.text = line->body};
    mf_fold_correction *grown =
        mf_grown(fold->corrections, fold->n_corrections, &fold->cap_corrections, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    fold->corrections = grown;
    grown += fold->n_corrections;
    grown->firm = line->job[0] == '\0';
    mf_status status = mf_body_tree(&body, err);
    if (status == MF_OK)
        status = fill_correction(fold, &grown->said, line, body.tree, err);
    mf_body_free(&body);
    fold->n_corrections += status == MF_OK;
    return status;
}

bool mf_job_fold_wants(mf_job_fold *fold, const mf_line *line)
{
    if (line->job[0] != '\0' && strcmp(line->job, fold->job.id) != 0)
        return false;
    if (strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        return true;
    if (fold->last == NULL || strcmp(fold->last->name, line->kind) != 0)
        fold->last = mf_kind_named(line->kind);
    return fold->wanted == NULL || (fold->last != NULL && fold->wanted(fold->last));
}

mf_status mf_job_fold_add(mf_job_fold *fold, const mf_line *line, mf_err *err)
{
    if (!mf_job_fold_wants(fold, line))
        return MF_OK;
    if (strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        return add_correction(fold, line, err);
    return add_typed(fold, line, fold->last, err);
}

/* ---- what is in force ------------------------------------------------------------------ */

static int by_id(const void *a, const void *b)
{
    return strcmp(((const mf_fold_seen *)a)->id, ((const mf_fold_seen *)b)->id);
}

/* By what they correct, and of that by what they replace. */
static int by_target(const void *left, const void *right)
{
    const mf_fold_correction *a = left, *b = right;
    int order = (int)a->firm - (int)b->firm;
    if (order == 0)
        order = strcmp(a->said.target, b->said.target);
    return order == 0 ? strcmp(a->said.replaces, b->said.replaces) : order;
}

static bool one_target(const mf_fold_correction *a, const mf_fold_correction *b)
{
    return a->firm == b->firm && strcmp(a->said.target, b->said.target) == 0;
}

/* Whether another of the n corrections of one entry, sorted by what they replace, replaces
 * this one. */
static bool is_replaced(const mf_fold_correction *of, size_t n, const mf_fold_correction *it)
{
    size_t low = 0, high = n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(of[middle].said.replaces, it->said.src.entry) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    low += low < n && &of[low] == it; /* one that says it replaces itself */
    return low < n && strcmp(of[low].said.replaces, it->said.src.entry) == 0;
}

static const mf_correction *in_force_of(const mf_fold_correction *of, size_t n)
{
    const mf_correction *last = NULL;
    for (size_t i = 0; i < n; i++) {
        const mf_correction *it = &of[i].said;
        if (!is_replaced(of, n, &of[i]) &&
            (last == NULL ||
             mf_made_after(it->src.at, it->src.entry, last->src.at, last->src.entry)))
            last = it;
    }
    return last;
}

/* How many corrections of one entry begin here. */
static size_t group_at(const mf_job_fold *fold, size_t from)
{
    size_t n = 1;
    while (from + n < fold->n_corrections &&
           one_target(&fold->corrections[from], &fold->corrections[from + n]))
        n++;
    return n;
}

static mf_fold_seen *seen_of(const mf_job_fold *fold, const char *id)
{
    const mf_fold_seen key = {.id = id};
    return fold->n_seen == 0 ? NULL
                             : bsearch(&key, fold->seen, fold->n_seen, sizeof *fold->seen, by_id);
}

static mf_status correct_one(mf_job_fold *fold, mf_fold_seen *seen, const mf_correction *force,
                             mf_err *err)
{
    bool withdrawn = force != NULL && force->after[0] == '\0';
    fold->list[seen->kind].dead[seen->item] = withdrawn;
    if (withdrawn) {
        seen->unread = false;
        return MF_OK;
    }
    return put_item(fold, seen, force == NULL ? seen->body : force->after,
                    force == NULL ? "" : force->src.entry, err);
}

mf_status mf_job_fold_correct(mf_job_fold *fold, mf_err *err)
{
    mf_status status = MF_OK;
    if (fold->n_corrections == 0)
        return MF_OK;
    qsort(fold->corrections, fold->n_corrections, sizeof *fold->corrections, by_target);
    if (fold->n_seen > 0)
        qsort(fold->seen, fold->n_seen, sizeof *fold->seen, by_id);
    for (size_t i = 0, n = 0; status == MF_OK && i < fold->n_corrections; i += n) {
        n = group_at(fold, i);
        mf_fold_seen *seen = seen_of(fold, fold->corrections[i].said.target);
        if (seen != NULL && seen->kind >= 0 && seen->firm == fold->corrections[i].firm)
            status = correct_one(fold, seen, in_force_of(&fold->corrections[i], n), err);
    }
    return status;
}

const mf_correction *mf_job_fold_in_force(const mf_job_fold *fold, const char *entry, bool firm)
{
    const mf_fold_correction wanted = {.said = {.target = entry}, .firm = firm};
    for (size_t i = 0, n = 0; i < fold->n_corrections; i += n) {
        n = group_at(fold, i);
        if (one_target(&fold->corrections[i], &wanted))
            return in_force_of(&fold->corrections[i], n);
    }
    return NULL;
}

/* Of the n corrections of one entry, the two that no other replaces whose names come first
 * and last; false when they end in the same words. */
static bool contradict(const mf_fold_correction *of, size_t n, const mf_correction *two[2])
{
    bool differ = false;
    two[0] = two[1] = NULL;
    for (size_t i = 0; i < n; i++) {
        const mf_correction *it = &of[i].said;
        if (is_replaced(of, n, &of[i]))
            continue;
        differ = differ || (two[0] != NULL && strcmp(two[0]->after, it->after) != 0);
        if (two[0] == NULL || strcmp(it->src.entry, two[0]->src.entry) < 0)
            two[0] = it;
        if (two[1] == NULL || strcmp(it->src.entry, two[1]->src.entry) > 0)
            two[1] = it;
    }
    return differ;
}

size_t mf_job_fold_contradiction(const mf_job_fold *fold, size_t from, size_t *n,
                                 const mf_correction *two[2])
{
    for (size_t at = from; at < fold->n_corrections; at += *n) {
        *n = group_at(fold, at);
        if (contradict(&fold->corrections[at], *n, two))
            return at;
    }
    return fold->n_corrections;
}

const void *mf_job_fold_item(const mf_job_fold *fold, const mf_kind *kind, size_t at)
{
    const mf_fold_list *list = &fold->list[list_of(kind)];
    return list->dead[at] ? NULL : list->items + at * kind->size;
}

size_t mf_job_fold_count(const mf_job_fold *fold, const mf_kind *kind)
{
    return fold->list[list_of(kind)].n;
}

/* ---- the job --------------------------------------------------------------------------- */

/* What is in force and cannot be read is told once more, as the reason to fail. */
static mf_status all_read(mf_job_fold *fold, mf_err *err)
{
    mf_err why = {0};
    for (size_t i = 0; i < fold->n_seen; i++) {
        mf_fold_seen *seen = &fold->seen[i];
        if (!seen->unread)
            continue;
        const mf_correction *force = mf_job_fold_in_force(fold, seen->id, seen->firm);
        mf_status status =
            put_item(fold, seen, force == NULL ? seen->body : force->after, "", &why);
        if (err != NULL)
            *err = why;
        return status == MF_OK ? MF_SYSTEM : status;
    }
    return MF_OK;
}

static int by_made(const void *a, const void *b)
{
    mf_src one, other;
    memcpy(&one, a, sizeof one);
    memcpy(&other, b, sizeof other);
    return mf_made_after(one.at, one.entry, other.at, other.entry)   ? 1
           : mf_made_after(other.at, other.entry, one.at, one.entry) ? -1
                                                                     : 0;
}

/* In the order in which they were made, in which they mostly come. An mf_src comes first
 * in each. */
static void put_in_order(void *items, size_t n, size_t size)
{
    unsigned char *at = items;
    for (size_t i = 1; i < n; i++)
        if (by_made(at + (i - 1) * size, at + i * size) > 0) {
            qsort(items, n, size, by_made);
            return;
        }
}

static void list_living(mf_job_fold *fold, const mf_kind *kind, mf_fold_list *list)
{
    size_t kept = 0;
    for (size_t i = 0; i < list->n; i++) {
        if (list->dead[i])
            continue;
        if (kept < i)
            memcpy(list->items + kept * kind->size, list->items + i * kind->size, kind->size);
        kept++;
    }
    put_in_order(list->items, kept, kind->size);
    mf_list_put(&fold->job, kind, list->items, kept);
}

static int by_entry(const void *a, const void *b)
{
    return strcmp(((const mf_correction *)a)->src.entry, ((const mf_correction *)b)->src.entry);
}

/* What the entry said that a correction replaces, itself one or not. */
static const char *before_of(const mf_job_fold *fold, const char *replaces)
{
    const mf_correction key = {.src = {.entry = replaces}};
    const mf_correction *one =
        bsearch(&key, fold->corrected, fold->n_corrections, sizeof key, by_entry);
    const mf_fold_seen *seen = one != NULL ? NULL : seen_of(fold, replaces);
    return one != NULL ? one->after : seen != NULL ? seen->body : "";
}

static mf_status list_corrections(mf_job_fold *fold, mf_err *err)
{
    size_t n = fold->n_corrections;
    if (n == 0)
        return MF_OK;
    fold->corrected = malloc(n * sizeof *fold->corrected);
    if (fold->corrected == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < n; i++)
        fold->corrected[i] = fold->corrections[i].said;
    qsort(fold->corrected, n, sizeof *fold->corrected, by_entry);
    for (size_t i = 0; i < n; i++)
        fold->corrected[i].before = before_of(fold, fold->corrected[i].replaces);
    put_in_order(fold->corrected, n, sizeof *fold->corrected);
    mf_list_set(&fold->job, offsetof(mf_job, correction), fold->corrected, n);
    return MF_OK;
}

mf_status mf_job_fold_finish(mf_job_fold *fold, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = mf_job_fold_correct(fold, err);
    if (status != MF_OK)
        return status;
    mf_status unread = all_read(fold, err);
    status = list_corrections(fold, err);
    for (size_t i = 0; status == MF_OK && i < count && i < MF_KINDS_MAX; i++)
        if (fold->list[i].n > 0)
            list_living(fold, &kinds[i], &fold->list[i]);
    if (status == MF_OK)
        status = mf_list_order_readings(&fold->job, &fold->arena, err);
    return status == MF_OK ? unread : status;
}
