/* correct.c - what was logged at the house is corrected or withdrawn, with a reason. */
#include "base/fail.h"
#include "field/log.h"

#include <string.h>

static mf_status free_of_refs(void *data, const mf_kind *kind, const char *job, const char *key,
                              const char *entry, mf_err *err)
{
    char found[MF_ENTRY_ID];
    const mf_kind *by = NULL;
    const mf_job_fold *fold = NULL;
    const mf_folds folds = mf_field_folds(data);
    mf_status status = folds.of(&fold, data, job, err);
    if (status == MF_OK)
        mf_named_in(fold, kind, key, entry, &by, found);
    return status != MF_OK || by == NULL ? status : mf_named_refuse(kind, key, by, found, err);
}

/* A correction of a tick is judged as a tick; one of a cloth stands in the midst of others,
 * and the replay of them all tells what could not have been. */
static mf_status check_after(const mf_field_page *page, const mf_kind *kind, const json_t *body,
                             mf_err *err)
{
    const json_t *after = json_object_get(body, "body");
    return after != NULL && strcmp(kind->name, "tick") == 0
               ? mf_field_check_judged(page, kind, after, err)
               : MF_OK;
}

static mf_status amend(mf_field_page *page, mf_amend *ask, json_t *out, mf_err *err)
{
    json_t *body = NULL;
    mf_draft *draft = NULL;
    const mf_kind *kind = mf_kind_named(ask->line->kind);
    mf_status status = json_is_object(json_object_get(page->ask, "fields"))
                           ? mf_field_draft(page, kind, &draft, err)
                           : MF_OK;
    ask->draft = draft;
    if (status == MF_OK)
        status = mf_amend_body(ask, &body, err);
    if (status == MF_OK)
        status = check_after(page, kind, body, err);
    if (status == MF_OK)
        status = mf_field_append(page, MF_KIND_CORRECTION, body, out, err);
    json_decref(body);
    mf_draft_free(draft);
    return status;
}

mf_status mf_field_correct(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *id = mf_field_text(page, "entry"), *reason = mf_field_text(page, "reason");
    const mf_folds folds = mf_field_folds(page);
    const mf_field_line *held = mf_field_held(page, id);
    const mf_job_fold *fold = NULL;
    const mf_now now = mf_field_now(page);
    mf_amend ask = {.folds = &folds,
                    .target = id,
                    .line = held == NULL ? NULL : &held->line,
                    .reason = reason,
                    .device = page->device,
                    .now = &now,
                    .free_of_refs = free_of_refs,
                    .data = page};
    mf_status status = mf_amend_reason(id, reason, err);
    if (status == MF_OK)
        status = mf_amend_target(&ask, err);
    if (status == MF_OK && held != NULL && !mf_field_is_logged_here(held->line.kind))
        status = mf_field_not_here(held->line.kind, err);
    if (status == MF_OK)
        status = folds.of(&fold, page, page->job, err);
    if (status != MF_OK)
        return status;
    ask.fold = fold;
    return amend(page, &ask, out, err);
}
