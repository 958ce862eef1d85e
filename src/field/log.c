/* log.c - what is added here: checked as in the book, chained, and handed back as the line
 * that must be kept. */
#include "field/log.h"

#include "base/fail.h"
#include "field/sha256.h"
#include "words/refused.h"

#include <string.h>

/* What is logged at the house; the rest is the office's. */
static const char *const kinds[] = {"tick",     "practice", "verification", "reading",
                                    "kit_test", "training", "visit",        MF_KIND_ATTACHMENT};

bool mf_field_is_logged_here(const char *kind)
{
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

mf_status mf_field_not_here(const char *kind, mf_err *err)
{
    mf_failf(err, MF_INPUT, "kind", "", "have it logged or corrected in the office",
             "an entry of kind %.40s is not made here", kind);
    mf_fail_name(err, "phone.not-here", kind, NULL, NULL);
    return MF_INPUT;
}

mf_now mf_field_now(const mf_field_page *page)
{
    return (mf_now){page->today, mf_field_text(page, "at"), mf_field_text(page, "who"),
                    mf_field_text(page, "time")};
}

/* ---- the entry ------------------------------------------------------------------------- */

/* The next entry of this install; text is room for its body. */
static mf_status next_line(const mf_field_page *page, const char *kind, const json_t *body,
                           mf_buf *text, mf_line *out, char hash[MF_HASH_HEX], mf_err *err)
{
    mf_buf canonical = {0};
    const mf_now now = mf_field_now(page);
    const mf_field_line *last = mf_field_last(page);
    if (!mf_json_canonical(text, body))
        return text->failed ? mf_fail_memory(err)
                            : mf_fail(err, MF_INPUT, "", "the entry cannot be written as JSON",
                                      "a number in it is too large", "check the numbers");
    *out = (mf_line){.device = page->device,
                     .seq = last == NULL ? 1 : last->line.seq + 1,
                     .at = now.at,
                     .who = now.who,
                     .kind = kind,
                     .job = page->job,
                     .body = mf_buf_str(text),
                     .prev = last == NULL ? mf_zero_hash : last->line.hash,
                     .hash = hash};
    mf_status status = mf_line_hash(out, &mf_field_hash, &canonical, hash, err);
    mf_buf_free(&canonical);
    return status;
}

/* A clock that was set back would make an entry older than the one it follows. */
static mf_status check_clock(const mf_field_page *page, mf_err *err)
{
    const mf_now now = mf_field_now(page);
    const mf_field_line *last = mf_field_last(page);
    mf_status status = mf_now_check(&now, err);
    if (status != MF_OK || last == NULL || strcmp(last->line.at, now.at) <= 0)
        return status;
    mf_failf(err, MF_INPUT, "at", "an entry cannot be older than the one before it",
             "set the clock of this phone right",
             "the clock of this phone is behind its last entry, of %s", last->line.at);
    mf_fail_name(err, "phone.clock", last->line.at, NULL, NULL);
    return MF_INPUT;
}

static mf_status hold(mf_field_page *page, const mf_line *line, json_t *out, mf_err *err)
{
    mf_buf text = {0};
    mf_status status = mf_field_hold(page, line, true, err);
    if (status == MF_OK) {
        mf_entries_put_line(&text, line);
        mf_field_put(out, "entry", mf_field_last(page)->id);
        mf_field_put(out, "line", mf_buf_str(&text));
        mf_field_put_number(out, "seq", line->seq);
    }
    if (text.failed)
        status = mf_fail_memory(err);
    mf_buf_free(&text);
    return status;
}

mf_status mf_field_append(mf_field_page *page, const char *kind, const json_t *body, json_t *out,
                          mf_err *err)
{
    char hash[MF_HASH_HEX];
    mf_line line = {0};
    mf_buf text = {0};
    bool dry = json_is_true(json_object_get(page->ask, "dry"));
    mf_status status = check_clock(page, err);
    if (status == MF_OK && page->device[0] == '\0')
        status = mf_fail(err, MF_USAGE, "device", "this install has no name yet", "", "");
    if (status == MF_OK)
        status = next_line(page, kind, body, &text, &line, hash, err);
    if (status == MF_OK && !dry)
        status = hold(page, &line, out, err);
    mf_buf_free(&text);
    return status;
}

/* ---- the draft ---------------------------------------------------------------------------- */

mf_status mf_field_draft(const mf_field_page *page, const mf_kind *kind, mf_draft **out,
                         mf_err *err)
{
    json_t *fields = json_object_get(page->ask, "fields"), *value;
    const char *name;
    mf_status status = mf_draft_new(out, kind, err);
    if (status != MF_OK)
        return status;
    json_object_foreach(fields, name, value)
    {
        const char *text = json_string_value(value);
        if (status == MF_OK && text != NULL)
            status = mf_draft_set(*out, name, text, "", name, page->today, err);
    }
    return status;
}

/* A surface in one piece has one section; an entry without it would count for none. */
static mf_status complete(const mf_field_page *page, mf_draft *draft, mf_err *err)
{
    if (strcmp(draft->kind->name, "verification") != 0 ||
        json_is_integer(json_object_get(draft->body, "section")) ||
        mf_json_string_of(draft->body, "surface")[0] == '\0')
        return MF_OK;
    return mf_draft_set(draft, "section", "1", "", "section", page->today, err);
}

/* The body as the item it would become, in memory of the arena. */
static mf_status item_of(const mf_kind *kind, const json_t *body, mf_arena *arena, void *item,
                         mf_err *err)
{
    const mf_src nowhere = {"", "", "", ""};
    const mf_body said = {.tree = (json_t *)(uintptr_t)body}; /* jansson takes no const */
    memset(item, 0, kind->size);
    memcpy(item, &nowhere, sizeof nowhere);
    return mf_body_put_all(item, kind, &said, "", arena, err);
}

static mf_status check_tick(const mf_field_page *page, const mf_job *job, const mf_tick *tick,
                            mf_err *err)
{
    mf_step step;
    const mf_area *area = mf_job_area(job, tick->area);
    if (area == NULL)
        return mf_fail(err, MF_INPUT, "area", "there is no such work area", "", "");
    mf_status status = mf_step_on_list(job, area, tick->step, &step, err);
    return status == MF_OK ? mf_tick_check(page->lang, job, area, &step, tick, err) : status;
}

mf_status mf_field_check_judged(const mf_field_page *page, const mf_kind *kind, const json_t *body,
                                mf_err *err)
{
    union {
        mf_tick tick;
        mf_verification event;
    } item;
    mf_arena arena = {0};
    mf_job_fold *fold = NULL;
    bool tick = strcmp(kind->name, "tick") == 0;
    if (!tick && strcmp(kind->name, "verification") != 0)
        return MF_OK;
    mf_status status = item_of(kind, body, &arena, &item, err);
    if (status == MF_OK)
        status = mf_field_job(page, MF_DAY_NONE, &fold, NULL, err);
    if (status == MF_OK)
        status = tick ? check_tick(page, &fold->job, &item.tick, err)
                      : mf_verification_check(page->lang, &fold->job, &item.event, err);
    mf_job_fold_free(fold);
    mf_arena_free(&arena);
    return status;
}

mf_status mf_field_add_draft(mf_field_page *page, mf_draft *draft, json_t *out, mf_err *err)
{
    const mf_now now = mf_field_now(page);
    const mf_folds folds = mf_field_folds(page);
    mf_status status = complete(page, draft, err);
    json_t *body = status == MF_OK ? mf_without_nulls(draft->body) : NULL;
    if (status == MF_OK && body == NULL)
        return mf_fail_memory(err);
    const mf_candidate candidate = {&folds, draft->kind, body, page->job, "", "", false, &now};
    if (status == MF_OK)
        status = mf_candidate_check(&candidate, NULL, err);
    if (status == MF_OK)
        status = mf_field_check_judged(page, draft->kind, body, err);
    if (status == MF_OK)
        status = mf_field_append(page, draft->kind->name, body, out, err);
    json_decref(body);
    return status;
}

mf_status mf_field_add(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *name = mf_field_text(page, "kind");
    mf_draft *draft = NULL;
    if (!mf_field_is_logged_here(name) || strcmp(name, MF_KIND_ATTACHMENT) == 0)
        return mf_field_not_here(name, err);
    mf_status status = mf_field_draft(page, mf_kind_named(name), &draft, err);
    if (status == MF_OK)
        status = mf_field_add_draft(page, draft, out, err);
    mf_draft_free(draft);
    return status;
}
