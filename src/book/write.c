#include "book/write.h"

#include "base/fail.h"
#include "book/attach.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/refs.h"
#include "journal/candidate.h"
#include "journal/draft.h"
#include "journal/places.h"
#include "journal/seen.h"
#include <string.h>

mf_status mf_put_entry(mf_book *book, const char *kind, const char *job, const json_t *body,
                       const mf_now *now, char id[MF_ENTRY_ID], mf_err *err)
{
    mf_buf text = {0};
    int64_t seq = 0;
    mf_status status = MF_OK;
    if (!mf_json_canonical(&text, body))
        status = text.failed ? mf_fail_memory(err)
                             : mf_fail(err, MF_INPUT, "", "the entry cannot be written as JSON",
                                       "a number in it is too large", "check the numbers");
    if (status == MF_OK)
        status = mf_journal_append(book, kind, job, text.data, now, id, &seq, err);
    mf_buf_free(&text);
    return status;
}

/* A house makes the job that is called by its id; all others need their job. */
static mf_status check_job(mf_book *book, const mf_draft *draft, const char *job, const char *where,
                           mf_err *err)
{
    if (draft->kind->of_firm && job[0] != '\0')
        return mf_failf(err, MF_USAGE, where, "", "leave out the job",
                        "an entry of kind %s belongs to the firm, not to a job", draft->kind->name);
    if (draft->kind->of_firm)
        return MF_OK;
    if (strcmp(draft->kind->name, "house") == 0) {
        const mf_field *key = mf_kind_key(draft->kind);
        const char *id = json_string_value(json_object_get(draft->body, key->name));
        if (id != NULL && strcmp(id, job) != 0)
            return mf_fail(err, MF_USAGE, where, "a job is called by the id of its house", "", "");
        return MF_OK;
    }
    if (job[0] == '\0')
        return mf_failf(err, MF_USAGE, where, "", "name the job",
                        "an entry of kind %s belongs to a job", draft->kind->name);
    return mf_job_check(book, job, where, err);
}

static mf_status write_inside(mf_book *book, const mf_draft *draft, const char *job,
                              const mf_now *now, const char *where, char id[MF_ENTRY_ID],
                              const mf_field **bad, mf_err *err)
{
    mf_status status = check_job(book, draft, job, where, err);
    if (status != MF_OK)
        return status;
    json_t *body = mf_without_nulls(draft->body);
    if (body == NULL)
        return mf_fail_memory(err);
    const mf_folds folds = mf_book_folds(book);
    mf_candidate candidate = {&folds, draft->kind, body, job, "", where, false, now};
    status = mf_candidate_check(&candidate, bad, err);
    if (status == MF_OK && strcmp(draft->kind->name, MF_KIND_ATTACHMENT) == 0)
        status = mf_attach_check(book, body, where, err);
    if (status == MF_OK)
        status = mf_seen_put(&body, draft->kind, &folds, job, err);
    if (status == MF_OK)
        status = mf_put_entry(book, draft->kind->name, job, body, now, id, err);
    json_decref(body);
    return status;
}

mf_status mf_write_row(mf_book *book, const mf_draft *draft, const char *job, const mf_now *now,
                       const char *where, char id[MF_ENTRY_ID], const mf_field **bad, mf_err *err)
{
    char unwanted[MF_ENTRY_ID];
    mf_status status = mf_now_check(now, err);
    return status == MF_OK
               ? write_inside(book, draft, job == NULL ? "" : job, now, where == NULL ? "" : where,
                              id == NULL ? unwanted : id, bad, err)
               : status;
}

MF_API mf_status mf_book_places(mf_book *book, const mf_draft *draft, const char *where,
                                mf_err *err)
{
    const mf_field *bad = NULL;
    const mf_folds folds = mf_book_folds(book);
    const mf_candidate candidate = {
        &folds, draft->kind, draft->body, "", "", where == NULL ? "" : where, false, NULL};
    return mf_places_check(&candidate, &bad, err);
}

MF_API mf_status mf_book_write(mf_book *book, const mf_draft *draft, const char *job,
                               const mf_now *now, const char *where, char id[MF_ENTRY_ID],
                               mf_err *err)
{
    mf_part part;
    mf_status status = mf_part_begin(&part, book, err);
    if (status == MF_OK)
        status = mf_write_row(book, draft, job, now, where, id, NULL, err);
    return mf_part_end(&part, book, status, err);
}
