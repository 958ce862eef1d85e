#include "journal/fold.h"

#include "base/fail.h"
#include "journal/list.h"
#include "journal/settles.h"
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
    free(fold->named);
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
    *out = (mf_correction){.src = {mf_arena_text(arena, id), again(fold, &fold->at, line->at),
                                   again(fold, &fold->who, line->who), ""},
                           .target = mf_arena_text(arena, mf_json_string_of(tree, "target")),
                           .replaces = mf_arena_text(arena, mf_json_string_of(tree, "replaces")),
                           .settles = mf_arena_text(arena, mf_json_string_of(tree, "settles")),
                           .kind = mf_arena_text(arena, mf_json_string_of(tree, "kind")),
                           .reason = mf_arena_text(arena, mf_json_string_of(tree, "reason")),
                           .before = "",
                           .after = after_of(fold, tree)};
    bool whole = out->src.entry != NULL && out->src.at != NULL && out->src.by != NULL &&
                 out->target != NULL && out->replaces != NULL && out->settles != NULL &&
                 out->kind != NULL && out->reason != NULL && out->after != NULL;
    return whole ? MF_OK : mf_fail_memory(err);
}

static mf_status add_named(mf_job_fold *fold, const mf_fold_correction *by, const char *named,
                           mf_err *err)
{
    mf_fold_named *grown = mf_grown(fold->named, fold->n_named, &fold->cap_named, sizeof *grown);
    if (grown == NULL || named == NULL)
        return mf_fail_memory(err);
    fold->named = grown;
    grown[fold->n_named++] = (mf_fold_named){by->said.target, named, by->said.src.entry, by->firm};
    return MF_OK;
}

static mf_status add_all_named(mf_job_fold *fold, const mf_fold_correction *by, mf_err *err)
{
    char id[MF_ENTRY_ID];
    const char *list = by->said.settles;
    mf_status status = add_named(fold, by, by->said.replaces, err);
    while (status == MF_OK && mf_settles_next(&list, id))
        status = add_named(fold, by, mf_arena_text(&fold->arena, id), err);
    return status;
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
    if (status == MF_OK)
        status = add_all_named(fold, grown, err);
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

mf_fold_seen *mf_job_fold_seen(const mf_job_fold *fold, const char *id)
{
    const mf_fold_seen key = {.id = id};
    return fold->n_seen == 0 ? NULL
                             : bsearch(&key, fold->seen, fold->n_seen, sizeof *fold->seen, by_id);
}

/* What the book wrote by itself stays as the entry has it, whatever a correction says. */
static mf_status keep_written(mf_job_fold *fold, const mf_fold_seen *seen, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kind = &mf_kinds(&count)[seen->kind];
    unsigned char *item = fold->list[seen->kind].items + seen->item * kind->size;
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < kind->n_fields; i++) {
        mf_body said = {.tree = NULL};
        if (mf_field_is_typed(&kind->fields[i]))
            continue;
        status = mf_body_read(&said, seen->body, err);
        if (status == MF_OK)
            status = mf_body_put(item, &kind->fields[i], &said, seen->id, &fold->arena, err);
        mf_body_free(&said);
    }
    return status;
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
    mf_status status = put_item(fold, seen, force == NULL ? seen->body : force->after,
                                force == NULL ? "" : force->src.entry, err);
    return status == MF_OK ? keep_written(fold, seen, err) : status;
}

mf_status mf_job_fold_correct(mf_job_fold *fold, mf_err *err)
{
    mf_status status = MF_OK;
    if (fold->n_corrections == 0)
        return MF_OK;
    mf_fold_sort(fold);
    if (fold->n_seen > 0)
        qsort(fold->seen, fold->n_seen, sizeof *fold->seen, by_id);
    for (size_t i = 0, n = 0; status == MF_OK && i < fold->n_corrections; i += n) {
        n = mf_fold_group(fold, i);
        mf_fold_seen *seen = mf_job_fold_seen(fold, fold->corrections[i].said.target);
        if (seen != NULL && seen->kind >= 0 && seen->firm == fold->corrections[i].firm)
            status = correct_one(fold, seen, mf_fold_force(fold, i, n), err);
    }
    return status;
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

/* Whatever kind a correction says, it is of that of its entry. */
static const char *kind_of(const mf_job_fold *fold, const mf_correction *it)
{
    size_t count = 0;
    const mf_fold_seen *seen = mf_job_fold_seen(fold, it->target);
    return seen == NULL || seen->kind < 0 ? it->kind : mf_kinds(&count)[seen->kind].name;
}

/* What the entry said that a correction replaces, itself one or not. */
static const char *before_of(const mf_job_fold *fold, const char *replaces)
{
    const mf_correction key = {.src = {.entry = replaces}};
    const mf_correction *one =
        bsearch(&key, fold->corrected, fold->n_corrections, sizeof key, by_entry);
    const mf_fold_seen *seen = one != NULL ? NULL : mf_job_fold_seen(fold, replaces);
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
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < n; i++) {
        mf_correction *it = &fold->corrected[i];
        it->before = before_of(fold, it->replaces);
        it->kind = kind_of(fold, it);
        const mf_kind *kind = mf_kind_named(it->kind);
        status = mf_body_item(&it->was, kind, it->before, &fold->arena, err);
        if (status == MF_OK)
            status = mf_body_item(&it->now, kind, it->after, &fold->arena, err);
    }
    put_in_order(fold->corrected, n, sizeof *fold->corrected);
    mf_list_set(&fold->job, offsetof(mf_job, correction), fold->corrected, n);
    return status;
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

mf_status mf_job_fold_finish_known(mf_job_fold *fold, mf_err *err)
{
    mf_err why = {0};
    mf_status status = mf_job_fold_finish(fold, &why);
    if (status == MF_OK || strcmp(why.name, MF_ERR_UNREAD) == 0)
        return MF_OK;
    if (err != NULL)
        *err = why;
    return status;
}
