#include "book/write.h"

#include "base/fail.h"
#include "base/utf8.h"
#include "book/attach.h"
#include "book/draft.h"
#include "book/journal.h"
#include "book/refs.h"
#include <stdio.h>
#include <string.h>

/* "YYYY-MM-DDTHH:MM:SSZ" */
static bool is_utc(const char *at)
{
    char day[MF_DAY_TEXT], minute[MF_MINUTE_TEXT];
    if (at == NULL || strlen(at) != 20 || at[10] != 'T' || at[16] != ':' || at[19] != 'Z')
        return false;
    snprintf(day, sizeof day, "%.10s", at);
    snprintf(minute, sizeof minute, "%.5s", at + 11);
    bool second = (at[17] >= '0' && at[17] <= '5' && at[18] >= '0' && at[18] <= '9') ||
                  (at[17] == '6' && at[18] == '0'); /* a leap second */
    return mf_day_parse(day, NULL) != MF_DAY_NONE && mf_minute_parse(minute) != MF_MINUTE_NONE &&
           second;
}

mf_status mf_now_check(const mf_now *now, mf_err *err)
{
    if (!is_utc(now->at))
        return mf_fail(err, MF_USAGE, "", "the time of the entry is no UTC time",
                       "YYYY-MM-DDTHH:MM:SSZ", "");
    size_t len = now->who == NULL ? 0 : strlen(now->who);
    if (len == 0 || len > 100 || mf_utf8_check(now->who, len, NULL) != MF_UTF8_GOOD)
        return mf_fail(err, MF_INPUT, "", "it is not said who is writing",
                       "every entry names who made it", "give your id");
    return MF_OK;
}

static bool has_null(const json_t *body)
{
    json_t *from = (json_t *)(uintptr_t)body, *value; /* jansson's loops are not const */
    const char *key;
    json_object_foreach(from, key, value)
    {
        if (json_is_null(value))
            return true;
    }
    return false;
}

/* Not by json_copy(), which leaves members out when memory runs out and does not say so. */
json_t *mf_without_nulls(const json_t *body)
{
    json_t *from = (json_t *)(uintptr_t)body; /* jansson takes no const here */
    if (!has_null(body))
        return json_incref(from);
    json_t *copy = json_object(), *value;
    bool whole = copy != NULL;
    const char *key;
    json_object_foreach(from, key, value)
    {
        if (!json_is_null(value))
            whole = whole && json_object_set(copy, key, value) == 0;
    }
    if (whole)
        return copy;
    json_decref(copy);
    return NULL;
}

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
    mf_candidate candidate = {book, draft->kind, body, job, "", where, false};
    status = mf_candidate_check(&candidate, bad, err);
    if (status == MF_OK && strcmp(draft->kind->name, MF_KIND_ATTACHMENT) == 0)
        status = mf_attach_check(book, body, where, err);
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
