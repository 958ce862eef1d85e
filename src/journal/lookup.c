#include "journal/lookup.h"

#include "base/fail.h"
#include "base/letters.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SHOWN 8 /* ids listed in a mend */
#define NEAR  2 /* letters apart that still look like a slip of the finger */

/* ---- looking up ---------------------------------------------------------------------- */

const char *mf_known_text(const void *item, const mf_field *field)
{
    const char *text;
    memcpy(&text, (const unsigned char *)item + field->offset, sizeof text);
    return text;
}

bool mf_same_keys(const mf_kind *kind, const void *a, const void *b)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_kind one = {.fields = &kind->fields[i], .n_fields = 1};
        if ((kind->fields[i].flags & MF_F_KEY) != 0 && mf_item_differs(&one, a, b) != NULL)
            return false;
    }
    return true;
}

static mf_status fold_of(const mf_job_fold **out, const mf_folds *folds, const mf_kind *kind,
                         const char *job, mf_err *err)
{
    return folds->of(out, folds->data, kind->of_firm ? "" : job, err);
}

mf_status mf_known(const mf_folds *folds, const mf_kind *kind, const char *job, const char *id,
                   bool *known, mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_field *key = mf_kind_key(kind);
    *known = false;
    mf_status status = fold_of(&fold, folds, kind, job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    for (size_t i = 0; i < n && !*known; i++) {
        const void *item = mf_job_fold_item(fold, kind, i);
        *known = item != NULL && strcmp(mf_known_text(item, key), id) == 0;
    }
    return status;
}

/* ---- which one was meant ---------------------------------------------------------------- */

static void consider(mf_known_ids *ids, const char *id, const char *wanted)
{
    int apart = mf_letters_apart(id, wanted);
    if (apart < ids->apart) {
        ids->apart = apart;
        snprintf(ids->nearest, sizeof ids->nearest, "%s", id);
    }
    if (ids->count < SHOWN)
        mf_buf_printf(&ids->list, "%s%s", ids->count == 0 ? "" : ", ", id);
    else if (ids->count == SHOWN)
        mf_buf_text(&ids->list, " ...");
    ids->count++;
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static mf_status consider_all(mf_known_ids *out, const mf_job_fold *fold, const mf_kind *kind,
                              const char *id, mf_err *err)
{
    size_t n = mf_job_fold_count(fold, kind), living = 0;
    const char **ids = calloc(n + 1, sizeof *ids);
    if (ids == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < n; i++) {
        const void *item = mf_job_fold_item(fold, kind, i);
        if (item != NULL)
            ids[living++] = mf_known_text(item, mf_kind_key(kind));
    }
    qsort(ids, living, sizeof *ids, by_text);
    for (size_t i = 0; i < living; i++)
        consider(out, ids[i], id);
    free(ids);
    return MF_OK;
}

mf_status mf_known_ids_of(mf_known_ids *out, const mf_folds *folds, const mf_kind *kind,
                          const char *job, const char *id, mf_err *err)
{
    const mf_job_fold *fold = NULL;
    *out = (mf_known_ids){.apart = MF_FAR_APART};
    mf_status status = fold_of(&fold, folds, kind, job, err);
    if (status == MF_OK)
        status = consider_all(out, fold, kind, id, err);
    if (out->apart > NEAR || (size_t)out->apart >= strlen(id))
        out->nearest[0] = '\0';
    return status == MF_OK && out->list.failed ? mf_fail_memory(err) : status;
}

void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind)
{
    if (ids->count == 0)
        mf_buf_printf(out, "log the %s first", kind->name);
    else if (ids->nearest[0] != '\0')
        mf_buf_printf(out, "did you mean %s? There are: %s", ids->nearest, mf_buf_str(&ids->list));
    else
        mf_buf_printf(out, "there are: %s", mf_buf_str(&ids->list));
}

mf_status mf_known_mend(mf_buf *out, const mf_folds *folds, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err)
{
    mf_known_ids ids;
    mf_status status = mf_known_ids_of(&ids, folds, kind, job, id, err);
    mf_known_ids_mend(out, &ids, kind);
    if (status == MF_OK && out->failed)
        status = mf_fail_memory(err);
    mf_buf_free(&ids.list);
    return status;
}

/* ---- who names it ------------------------------------------------------------------------ */

/* The thing that is to go, and who names it. */
typedef struct search {
    const mf_kind *kind;
    const char *key, *entry; /* of the thing */
    const mf_kind *by;       /* NULL = nobody so far */
    char *found;             /* MF_ENTRY_ID */
} search;

static bool names(const search *s, const mf_kind *other, const void *item)
{
    for (size_t i = 0; i < other->n_fields; i++) {
        const mf_field *field = &other->fields[i];
        if (field->ref != NULL && strcmp(field->ref, s->kind->name) == 0 &&
            mf_id_in_list(mf_known_text(item, field), s->key))
            return true;
    }
    return false;
}

static bool hangs_on(const mf_kind *kind, const mf_kind *other)
{
    return strcmp(kind->name, "house") == 0 && !other->of_firm && other != kind;
}

static void look_in(search *s, const mf_job_fold *fold, const mf_kind *other)
{
    size_t n = mf_job_fold_count(fold, other);
    for (size_t i = 0; i < n && s->by == NULL; i++) {
        mf_src src;
        const void *item = mf_job_fold_item(fold, other, i);
        if (item == NULL || (!hangs_on(s->kind, other) && !names(s, other, item)))
            continue;
        memcpy(&src, item, sizeof src);
        if (strcmp(src.entry, s->entry) == 0)
            continue;
        s->by = other;
        snprintf(s->found, MF_ENTRY_ID, "%s", src.entry);
    }
}

void mf_named_in(const mf_job_fold *fold, const mf_kind *kind, const char *key, const char *but,
                 const mf_kind **by, char entry[MF_ENTRY_ID])
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    search s = {.kind = kind, .key = key, .entry = but, .found = entry};
    for (size_t i = 0; i < count && s.by == NULL; i++)
        look_in(&s, fold, &kinds[i]);
    *by = s.by;
}

mf_status mf_named_refuse(const mf_kind *kind, const char *key, const mf_kind *by,
                          const char *entry, mf_err *err)
{
    char where[160], mend[160];
    snprintf(where, sizeof where, "%.40s %.60s", kind->name, key);
    snprintf(mend, sizeof mend, "correct or withdraw entry %s first", entry);
    return mf_failf(err, MF_INPUT, where, "what others name cannot change its id or go away", mend,
                    "entry %s (%s) names it", entry, by->name);
}
