/* correct.c - replacing what an entry says, without changing it. */
#include "base/fail.h"
#include "base/utf8.h"
#include "book/attach.h"
#include "book/draft.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include "book/refs.h"
#include "book/write.h"
#include <string.h>

/* All that is known of the entry that is to be corrected. */
typedef struct correction {
    mf_book *book;
    mf_arena arena;
    mf_job_fold *fold; /* the corrections of its job */
    const char *target;
    mf_line line; /* the target as the journal has it */
    const mf_kind *kind;
    const char *replaces; /* the entry in force */
    json_t *before;       /* its body */
    json_t *after;        /* NULL = withdraw */
} correction;

static mf_status refuse(const correction *c, const char *what, const char *why, const char *mend,
                        mf_err *err)
{
    char where[160] = "entry ";
    mf_utf8_show(where + strlen(where), 60, c->target);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

static mf_status find_target(correction *c, mf_err *err)
{
    bool found = false;
    mf_status status = mf_journal_entry(&c->line, &c->arena, &c->book->db, c->target, &found, err);
    if (status != MF_OK)
        return status;
    if (!found)
        return refuse(c, "there is no such entry", "an entry is named like office/12",
                      "look it up in the list of entries", err);
    if (strcmp(c->line.kind, MF_KIND_CORRECTION) == 0)
        return refuse(c, "it is itself a correction", "a correction is corrected by another one",
                      "correct the entry that was first made", err);
    c->kind = mf_kind_named(c->line.kind);
    if (c->kind == NULL)
        return refuse(c, "it is of a kind that this version does not know", "",
                      "use a newer version of this program", err);
    return MF_OK;
}

static mf_status find_in_force(correction *c, mf_err *err)
{
    const char *job = c->line.job;
    mf_status status =
        mf_job_fold_of(&c->fold, c->book, job, mf_corrections_alone, MF_WITHOUT_FIRM, err);
    if (status != MF_OK)
        return status;
    const mf_correction *force = mf_job_fold_in_force(c->fold, c->target, job[0] == '\0');
    bool corrected = force != NULL;
    const char *text = corrected ? force->after : c->line.body;
    if (text[0] == '\0')
        return refuse(c, "it was withdrawn", "what is withdrawn is not in force",
                      "log the thing anew", err);
    c->replaces = corrected ? force->src.entry : c->target;
    mf_err why = {0};
    c->before = mf_json_parse(text, strlen(text), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    if (!json_is_object(c->before))
        return refuse(c, "its body is damaged", "", "check the book", err);
    return MF_OK;
}

/* The body in force with the draft's fields over it. */
static mf_status make_after(correction *c, const mf_draft *draft, mf_err *err)
{
    if (draft == NULL)
        return MF_OK;
    json_t *merged = json_object();
    bool good =
        json_object_update(merged, c->before) == 0 && json_object_update(merged, draft->body) == 0;
    c->after = good ? mf_without_nulls(merged) : NULL;
    json_decref(merged);
    if (c->after == NULL)
        return mf_fail_memory(err);
    if (json_equal(c->before, c->after))
        return refuse(c, "the correction changes nothing", "", "give the fields that change", err);
    return MF_OK;
}

static bool keeps_key(const correction *c)
{
    const mf_field *key = mf_kind_key(c->kind);
    if (key == NULL)
        return true;
    const char *was = json_string_value(json_object_get(c->before, key->name));
    const char *is = json_string_value(json_object_get(c->after, key->name));
    return was == NULL || (is != NULL && strcmp(was, is) == 0);
}

/* An id that others name stays, unless another entry makes the same thing: after a merge
 * there may be two. The id of a house is the name of its job. */
static mf_status check_key_stays(const correction *c, mf_err *err)
{
    bool again = false;
    if (keeps_key(c))
        return MF_OK;
    const char *key = mf_kind_key(c->kind)->name;
    if (c->after != NULL && json_object_get(c->after, key) != NULL &&
        strcmp(c->kind->name, "house") == 0)
        return refuse(c, "the id of a job cannot be changed", "every entry of the job is under it",
                      "open another job", err);
    mf_candidate was = {.book = c->book,
                        .kind = c->kind,
                        .body = c->before,
                        .job = c->line.job,
                        .except = c->target};
    mf_status status = mf_candidate_again(&was, &again, err);
    if (status != MF_OK || again)
        return status;
    return mf_free_of_refs(c->book, c->kind, c->line.job,
                           json_string_value(json_object_get(c->before, key)), c->target, err);
}

static mf_status check(const correction *c, mf_err *err)
{
    mf_status status = check_key_stays(c, err);
    if (status != MF_OK || c->after == NULL)
        return status;
    char where[160] = "entry ";
    mf_utf8_show(where + strlen(where), 60, c->target);
    if (strcmp(c->kind->name, MF_KIND_ATTACHMENT) == 0 && !mf_attach_same(c->before, c->after))
        return refuse(c, "what was attached cannot be changed", "its bytes are what they are",
                      "withdraw it and attach the right file", err);
    mf_candidate candidate = {c->book,   c->kind, c->after,    c->line.job,
                              c->target, where,   keeps_key(c)};
    return mf_candidate_check(&candidate, NULL, err);
}

static mf_status put(const correction *c, const char *reason, const mf_now *now,
                     char id[MF_ENTRY_ID], mf_err *err)
{
    json_t *body = json_pack("{s:s, s:s, s:s, s:s}", "target", c->target, "replaces", c->replaces,
                             "kind", c->line.kind, "reason", reason);
    bool good = body != NULL && (c->after == NULL || json_object_set(body, "body", c->after) == 0);
    mf_status status =
        good ? mf_put_entry(c->book, MF_KIND_CORRECTION, c->line.job, body, now, id, err)
             : mf_fail_memory(err);
    json_decref(body);
    return status;
}

static mf_status correct_inside(correction *c, const mf_draft *draft, const char *reason,
                                const mf_now *now, char id[MF_ENTRY_ID], mf_err *err)
{
    mf_status status = find_target(c, err);
    if (status == MF_OK && draft != NULL && draft->kind != c->kind)
        status = mf_failf(err, MF_USAGE, c->target, "", "", "it is of kind %s, not %s",
                          c->line.kind, draft->kind->name);
    if (status == MF_OK)
        status = find_in_force(c, err);
    if (status == MF_OK)
        status = make_after(c, draft, err);
    if (status == MF_OK)
        status = check(c, err);
    return status == MF_OK ? put(c, reason, now, id, err) : status;
}

static mf_status check_reason(const correction *c, const char *reason, mf_err *err)
{
    size_t len = reason == NULL ? 0 : strlen(reason);
    if (len == 0 || strspn(reason, " ") == len)
        return refuse(c, "the reason is missing", "a correction says why", "give the reason", err);
    if (len > 1000 || mf_utf8_check(reason, len, NULL) != MF_UTF8_GOOD)
        return refuse(c, "the reason is no line of text", "it is one line of UTF-8, 1000 bytes",
                      "write it in one short line", err);
    return MF_OK;
}

MF_API mf_status mf_book_correct(mf_book *book, const char *target, const mf_draft *draft,
                                 const char *reason, const mf_now *now, char id[MF_ENTRY_ID],
                                 mf_err *err)
{
    char unwanted[MF_ENTRY_ID];
    correction c = {.book = book, .target = target};
    mf_part part = {0};
    mf_status status = mf_now_check(now, err);
    if (status == MF_OK)
        status = check_reason(&c, reason, err);
    if (status == MF_OK)
        status = mf_part_begin(&part, book, err);
    if (status == MF_OK)
        status = correct_inside(&c, draft, reason, now, id == NULL ? unwanted : id, err);
    status = mf_part_end(&part, book, status, err);
    json_decref(c.before);
    json_decref(c.after);
    mf_job_fold_free(c.fold);
    mf_arena_free(&c.arena);
    return status;
}
