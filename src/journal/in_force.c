/* in_force.c - of the corrections of an entry those that stand, and the one in force. */
#include "base/fail.h"
#include "journal/fold.h"
#include "journal/settles.h"
#include <stdlib.h>
#include <string.h>

/* ---- in order ---------------------------------------------------------------------------- */

static int of_target(bool firm, const char *target, bool other_firm, const char *other)
{
    return firm == other_firm ? strcmp(target, other) : (int)firm - (int)other_firm;
}

static int by_target(const void *left, const void *right)
{
    const mf_fold_correction *a = left, *b = right;
    int order = of_target(a->firm, a->said.target, b->firm, b->said.target);
    return order == 0 ? strcmp(a->said.src.entry, b->said.src.entry) : order;
}

static int by_named(const void *left, const void *right)
{
    const mf_fold_named *a = left, *b = right;
    int order = of_target(a->firm, a->target, b->firm, b->target);
    if (order == 0)
        order = strcmp(a->named, b->named);
    return order == 0 ? strcmp(a->by, b->by) : order;
}

void mf_fold_sort(mf_job_fold *fold)
{
    qsort(fold->corrections, fold->n_corrections, sizeof *fold->corrections, by_target);
    if (fold->n_named > 0)
        qsort(fold->named, fold->n_named, sizeof *fold->named, by_named);
}

/* The place of the first that does not come before the key. */
static size_t first_at(const void *items, size_t n, size_t size, const void *key,
                       int (*order)(const void *, const void *))
{
    size_t low = 0, high = n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (order((const unsigned char *)items + middle * size, key) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static size_t first_of(const mf_job_fold *fold, const char *target, bool firm, const char *entry)
{
    const mf_fold_correction key = {.said = {.target = target, .src = {.entry = entry}},
                                    .firm = firm};
    return first_at(fold->corrections, fold->n_corrections, sizeof key, &key, by_target);
}

static bool one_target(const mf_fold_correction *a, const mf_fold_correction *b)
{
    return of_target(a->firm, a->said.target, b->firm, b->said.target) == 0;
}

size_t mf_fold_group(const mf_job_fold *fold, size_t from)
{
    size_t n = 1;
    while (from + n < fold->n_corrections &&
           one_target(&fold->corrections[from], &fold->corrections[from + n]))
        n++;
    return n;
}

/* Where the corrections of an entry begin; *n = how many there are. */
static size_t group_of(const mf_job_fold *fold, const char *target, bool firm, size_t *n)
{
    size_t at = first_of(fold, target, firm, "");
    const mf_fold_correction key = {.said = {.target = target}, .firm = firm};
    bool any = at < fold->n_corrections && one_target(&fold->corrections[at], &key);
    *n = any ? mf_fold_group(fold, at) : 0;
    return at;
}

/* ---- what stands ------------------------------------------------------------------------- */

/* Whether no other correction of the same entry goes on from it or settles it: one that says
 * so of itself says nothing. */
static bool stands(const mf_job_fold *fold, const mf_fold_correction *it)
{
    const mf_fold_named key = {it->said.target, it->said.src.entry, "", it->firm};
    size_t at = first_at(fold->named, fold->n_named, sizeof key, &key, by_named);
    for (; at < fold->n_named; at++) {
        const mf_fold_named *named = &fold->named[at];
        if (of_target(named->firm, named->target, key.firm, key.target) != 0 ||
            strcmp(named->named, key.named) != 0)
            break;
        if (strcmp(named->by, key.named) != 0)
            return false;
    }
    return true;
}

const mf_correction *mf_fold_force(const mf_job_fold *fold, size_t from, size_t n)
{
    const mf_correction *last = NULL;
    for (size_t i = from; i < from + n; i++) {
        const mf_correction *it = &fold->corrections[i].said;
        if (stands(fold, &fold->corrections[i]) &&
            (last == NULL ||
             mf_made_after(it->src.at, it->src.entry, last->src.at, last->src.entry)))
            last = it;
    }
    return last;
}

const mf_correction *mf_job_fold_in_force(const mf_job_fold *fold, const char *entry, bool firm)
{
    size_t n, from = group_of(fold, entry, firm, &n);
    return mf_fold_force(fold, from, n);
}

const mf_correction *mf_job_fold_standing(const mf_job_fold *fold, const char *entry, bool firm,
                                          size_t nth)
{
    size_t n, from = group_of(fold, entry, firm, &n);
    for (size_t i = from; i < from + n; i++)
        if (stands(fold, &fold->corrections[i]) && nth-- == 0)
            return &fold->corrections[i].said;
    return NULL;
}

/* Of n corrections of one entry, those that stand whose names come first and last; false when
 * they end in the same words. */
static bool contradict(const mf_job_fold *fold, size_t from, size_t n, const mf_correction *two[2])
{
    bool differ = false;
    two[0] = two[1] = NULL;
    for (size_t i = from; i < from + n; i++) {
        const mf_correction *it = &fold->corrections[i].said;
        if (!stands(fold, &fold->corrections[i]))
            continue;
        differ = differ || (two[0] != NULL && strcmp(two[0]->after, it->after) != 0);
        two[0] = two[0] == NULL ? it : two[0];
        two[1] = it;
    }
    return differ;
}

size_t mf_job_fold_contradiction(const mf_job_fold *fold, size_t from, size_t *n,
                                 const mf_correction *two[2])
{
    for (size_t at = from; at < fold->n_corrections; at += *n) {
        *n = mf_fold_group(fold, at);
        if (contradict(fold, at, *n, two))
            return at;
    }
    return fold->n_corrections;
}

/* ---- what a correction can have seen ------------------------------------------------------ */

static const mf_fold_correction *beside(const mf_job_fold *fold, const mf_fold_correction *it,
                                        const char *named)
{
    size_t at = first_of(fold, it->said.target, it->firm, named);
    const mf_fold_correction *found = &fold->corrections[at];
    bool is = at < fold->n_corrections && one_target(found, it) &&
              strcmp(found->said.src.entry, named) == 0;
    return is ? found : NULL;
}

bool mf_job_fold_beside(const mf_job_fold *fold, const mf_fold_correction *it, const char *named)
{
    return beside(fold, it, named) != NULL;
}

/* The way back from what a correction names. */
typedef struct way {
    const mf_job_fold *fold;
    const mf_fold_correction *from;
    bool *been;                      /* of each correction of the fold */
    const mf_fold_correction **todo; /* whose own names are still to be followed */
    size_t n_todo;
} way;

/* One step back; true when that is the beginning again, or another one that it names. */
static bool step_back(way *w, const char *id, bool first)
{
    const mf_fold_correction *next = beside(w->fold, w->from, id);
    if (next == w->from || (!first && mf_takes_place_of(&w->from->said, id)))
        return true;
    if (next == NULL || w->been[next - w->fold->corrections])
        return false;
    w->been[next - w->fold->corrections] = true;
    w->todo[w->n_todo++] = next;
    return false;
}

static bool go_back(way *w, const mf_fold_correction *it, bool first)
{
    char id[MF_ENTRY_ID];
    const char *list = it->said.settles;
    bool met = step_back(w, it->said.replaces, first);
    while (!met && mf_settles_next(&list, id))
        met = step_back(w, id, first);
    return met;
}

mf_status mf_job_fold_side_by_side(const mf_job_fold *fold, const mf_fold_correction *it, bool *is,
                                   mf_err *err)
{
    way w = {.fold = fold, .from = it};
    w.been = calloc(fold->n_corrections, sizeof *w.been);
    w.todo = calloc(fold->n_corrections, sizeof *w.todo);
    bool room = w.been != NULL && w.todo != NULL;
    *is = room && !go_back(&w, it, true);
    while (*is && w.n_todo > 0)
        *is = !go_back(&w, w.todo[--w.n_todo], false);
    free(w.been);
    free(w.todo);
    return room ? MF_OK : mf_fail_memory(err);
}
