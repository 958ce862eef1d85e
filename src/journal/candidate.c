#include "journal/candidate.h"

#include "base/fail.h"
#include "base/utf8.h"
#include "journal/band.h"
#include "journal/days.h"
#include "journal/local.h"
#include <stdio.h>
#include <string.h>

/* The firm holds certificates like a person does, under this name. */
#define THE_FIRM "firm"

void mf_candidate_where(char out[MF_WHERE], const mf_candidate *c, const mf_field *field)
{
    const char *in = c->where == NULL ? "" : c->where;
    if (field == NULL)
        snprintf(out, MF_WHERE, "%s", in);
    else
        snprintf(out, MF_WHERE, "%.90s%s--%.60s", in, in[0] == '\0' ? "" : ", ", field->option);
}

static mf_status refuse(const mf_candidate *c, const mf_field *field, const char *why,
                        const char *mend, const char *what, mf_err *err)
{
    char where[MF_WHERE];
    mf_candidate_where(where, c, field);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

/* ---- needed ------------------------------------------------------------------------------ */

static bool given(const json_t *body, const mf_field *field)
{
    const json_t *value = json_object_get(body, field->name);
    return value != NULL && !json_is_null(value);
}

/* Only readings on a film go without a component. */
static bool needed_here(const mf_candidate *c, const mf_field *field)
{
    if ((field->flags & MF_F_NEEDED) != 0)
        return true;
    if (strcmp(c->kind->name, "reading") != 0 || field->offset != offsetof(mf_reading, component))
        return false;
    const mf_field *purpose = mf_field_at(c->kind, offsetof(mf_reading, purpose));
    const char *word = json_string_value(json_object_get(c->body, purpose->name));
    int said = word == NULL ? -1 : mf_choice(purpose->choices, word);
    return said == MF_READ_PAINT || said == MF_READ_RETEST;
}

static mf_status check_needed(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    for (size_t i = 0; i < c->kind->n_fields; i++) {
        const mf_field *field = &c->kind->fields[i];
        if (given(c->body, field) || !needed_here(c, field))
            continue;
        *bad = field;
        mf_status status =
            refuse(c, field, field->doc, "give it", "it is needed and was not given", err);
        mf_fail_name(err, "needed", field->option, NULL, NULL);
        return status;
    }
    return MF_OK;
}

/* ---- taken ---------------------------------------------------------------------------------- */

/* The body as an item, as far as its keys go. */
static mf_status keys_of(void *item, const mf_candidate *c, mf_arena *arena, mf_err *err)
{
    json_t *shared = (json_t *)(uintptr_t)c->body; /* jansson takes no const here */
    const mf_body body = {.tree = shared};
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < c->kind->n_fields; i++)
        if ((c->kind->fields[i].flags & MF_F_KEY) != 0)
            status = mf_body_put(item, &c->kind->fields[i], &body, "", arena, err);
    return status;
}

/* Another item of the kind; like NULL = any, as a kind that is once is taken by any. */
static mf_status find_item(const mf_candidate *c, const void *like, char out[MF_ENTRY_ID],
                           mf_err *err)
{
    const mf_job_fold *fold = NULL;
    mf_status status = c->folds->of(&fold, c->folds->data, c->job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, c->kind) : 0;
    out[0] = '\0';
    for (size_t i = 0; i < n && out[0] == '\0'; i++) {
        mf_src src;
        const void *item = mf_job_fold_item(fold, c->kind, i);
        if (item == NULL || (like != NULL && !mf_same_keys(c->kind, item, like)))
            continue;
        memcpy(&src, item, sizeof src);
        if (strcmp(src.entry, c->except) != 0)
            snprintf(out, MF_ENTRY_ID, "%s", src.entry);
    }
    return status;
}

/* Another item of the same keys. */
static mf_status find_same(const mf_candidate *c, char out[MF_ENTRY_ID], mf_err *err)
{
    mf_arena arena = {0};
    void *like = mf_arena_alloc(&arena, c->kind->size);
    out[0] = '\0';
    mf_status status = like == NULL ? mf_fail_memory(err) : keys_of(like, c, &arena, err);
    if (status == MF_OK)
        status = find_item(c, like, out, err);
    mf_arena_free(&arena);
    return status;
}

static mf_status check_key(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    char entry[MF_ENTRY_ID], what[200];
    const mf_field *key = mf_kind_key(c->kind);
    if (key == NULL || c->keeps_name)
        return MF_OK;
    mf_status status = find_same(c, entry, err);
    if (status != MF_OK || entry[0] == '\0')
        return status;
    *bad = key;
    const char *id = json_string_value(json_object_get(c->body, key->name));
    snprintf(what, sizeof what, "the id %.60s is taken by entry %s (%s)", id == NULL ? "" : id,
             entry, c->kind->name);
    status = refuse(c, key, "an id names one thing", "choose another id, or correct that entry",
                    what, err);
    mf_fail_name(err, "taken", id, entry, NULL);
    return status;
}

mf_status mf_candidate_again(const mf_candidate *c, bool *again, mf_err *err)
{
    char entry[MF_ENTRY_ID];
    mf_status status = find_same(c, entry, err);
    *again = entry[0] != '\0';
    return status;
}

static mf_status check_once(const mf_candidate *c, mf_err *err)
{
    char entry[MF_ENTRY_ID], what[200];
    if (!c->kind->once || c->keeps_name)
        return MF_OK;
    mf_status status = find_item(c, NULL, entry, err);
    if (status != MF_OK || entry[0] == '\0')
        return status;
    snprintf(what, sizeof what, "%s is logged already: entry %s", c->kind->doc, entry);
    status = refuse(c, NULL, "there can be only one", "correct that entry instead", what, err);
    mf_fail_name(err, "once", entry, NULL, NULL);
    return status;
}

/* ---- references --------------------------------------------------------------------------------
 */

static mf_status unknown(const mf_candidate *c, const mf_field *field, const mf_kind *kind,
                         const char *id, mf_err *err)
{
    char what[200], shown[60];
    mf_buf mend = {0};
    mf_known_ids ids;
    mf_utf8_show(shown, sizeof shown, id);
    mf_status status = mf_known_ids_of(&ids, c->folds, kind, c->job, id, err);
    mf_known_ids_mend(&mend, &ids, kind);
    snprintf(what, sizeof what, "there is no %s %s %s", kind->name, shown,
             kind->of_firm ? "in the book" : "in this job");
    if (status == MF_OK) {
        status = refuse(c, field, "", mf_buf_str(&mend), what, err);
        mf_fail_name(err,
                     ids.count == 0           ? "unknown.none"
                     : ids.nearest[0] == '\0' ? "unknown"
                                              : "unknown.near",
                     shown, mf_buf_str(&ids.list), ids.nearest);
    }
    mf_buf_free(&mend);
    mf_buf_free(&ids.list);
    return status;
}

static bool is_the_firm(const mf_candidate *c, const char *id)
{
    return strcmp(c->kind->name, "certificate") == 0 && strcmp(id, THE_FIRM) == 0;
}

static mf_status check_one_ref(const mf_candidate *c, const mf_field *field, const mf_kind *kind,
                               const char *id, mf_err *err)
{
    bool known = false;
    if (is_the_firm(c, id))
        return MF_OK;
    mf_status status = mf_known(c->folds, kind, c->job, id, &known, err);
    return status != MF_OK || known ? status : unknown(c, field, kind, id, err);
}

static mf_status check_ref(const mf_candidate *c, const mf_field *field, mf_err *err)
{
    const mf_kind *kind = mf_kind_named(field->ref);
    const char *ids = json_string_value(json_object_get(c->body, field->name));
    if (kind == NULL || mf_kind_key(kind) == NULL || ids == NULL)
        return MF_OK;
    mf_status status = MF_OK;
    while (status == MF_OK && *ids != '\0') {
        char id[64];
        size_t len = field->type == MF_F_IDS ? strcspn(ids, ",") : strlen(ids);
        snprintf(id, sizeof id, "%.*s", (int)(len < sizeof id ? len : sizeof id - 1), ids);
        status = check_one_ref(c, field, kind, id, err);
        ids += ids[len] == ',' ? len + 1 : len;
    }
    return status;
}

static mf_status check_refs(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < c->kind->n_fields; i++) {
        const mf_field *field = &c->kind->fields[i];
        if (field->ref == NULL)
            continue;
        status = check_ref(c, field, err);
        if (status == MF_INPUT)
            *bad = field;
    }
    return status;
}

mf_status mf_candidate_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    const mf_field *field = NULL;
    mf_status status = check_needed(c, &field, err);
    if (status == MF_OK)
        status = check_refs(c, &field, err);
    if (status == MF_OK)
        status = check_key(c, &field, err);
    if (status == MF_OK)
        status = mf_days_check(c, &field, err);
    if (status == MF_OK)
        status = mf_times_check(c, &field, err);
    if (status == MF_OK)
        status = mf_band_check(c, &field, err);
    if (status == MF_OK)
        status = mf_local_check(c, &field, err);
    if (status == MF_OK)
        status = check_once(c, err);
    if (bad != NULL)
        *bad = field;
    return status;
}
