#include "journal/amend.h"

#include "base/fail.h"
#include "base/utf8.h"
#include <stdio.h>
#include <string.h>

/* The entry between what it says and what it shall say. */
typedef struct change {
    const mf_amend *ask;
    const mf_kind *kind;
    const char *target, *job;
    const mf_correction *from; /* the correction that it goes on from; NULL = the target itself */
    bool contradicted;         /* another one that stands says something else */
    json_t *before;            /* the body that it goes on from */
    json_t *after;             /* NULL = withdraw */
} change;

static void where_of(const char *target, char out[MF_WHERE])
{
    char shown[60];
    mf_utf8_show(shown, sizeof shown, target);
    snprintf(out, MF_WHERE, "entry %s", shown);
}

static mf_status refuse(const char *target, const char *what, const char *why, const char *mend,
                        mf_err *err)
{
    char where[MF_WHERE];
    where_of(target, where);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

mf_status mf_amend_reason(const char *target, const char *reason, mf_err *err)
{
    char where[MF_WHERE];
    where_of(target, where);
    return mf_reason_check(reason, where, "a correction says why", "give the reason", err);
}

mf_status mf_amend_target(const mf_amend *ask, mf_err *err)
{
    if (ask->line == NULL)
        return refuse(ask->target, "there is no such entry", "an entry is named like office/12",
                      "look it up in the list of entries", err);
    if (strcmp(ask->line->kind, MF_KIND_CORRECTION) == 0)
        return refuse(ask->target, "it is itself a correction",
                      "a correction is corrected by another one",
                      "correct the entry that was first made", err);
    const mf_kind *kind = mf_kind_named(ask->line->kind);
    if (kind == NULL)
        return refuse(ask->target, "it is of a kind that this version does not know", "",
                      "use a newer version of this program", err);
    if (ask->draft != NULL && ask->draft->kind != kind)
        return mf_failf(err, MF_USAGE, ask->target, "", "", "it is of kind %s, not %s", kind->name,
                        ask->draft->kind->name);
    return MF_OK;
}

static const mf_correction *standing(const change *c, size_t nth)
{
    return mf_job_fold_standing(c->ask->fold, c->target, c->job[0] == '\0', nth);
}

/* What it goes on from: of the corrections that stand and withdraw nothing the last; false when
 * all of them withdraw. */
static bool choose_from(change *c)
{
    const mf_correction *it, *last = NULL;
    size_t n = 0;
    for (; (it = standing(c, n)) != NULL; n++)
        if (it->after[0] != '\0' && (last == NULL || mf_made_after(it->src.at, it->src.entry,
                                                                   last->src.at, last->src.entry)))
            last = it;
    for (size_t i = 0; last != NULL && i < n; i++)
        c->contradicted = c->contradicted || strcmp(standing(c, i)->after, last->after) != 0;
    c->from = last;
    return n == 0 || last != NULL;
}

static bool is_by(const char *entry, const char *device)
{
    char by[MF_DEVICE_MAX + 1];
    int64_t seq;
    return mf_entry_id_split(entry, by, &seq) && strcmp(by, device) == 0;
}

/* Of a head that was noted, when another device than noted it withdrew it, and none of the two
 * that count: the one which noted it, and this one (MF_IS_WITHDRAWN, book/check.h). */
static bool counts_first(change *c)
{
    char noter[MF_DEVICE_MAX + 1];
    int64_t seq;
    const mf_correction *it;
    if (c->ask->draft != NULL || strcmp(c->kind->name, MF_KIND_WITNESS) != 0 ||
        !mf_entry_id_split(c->target, noter, &seq))
        return false;
    for (size_t n = 0; (it = standing(c, n)) != NULL; n++)
        if (is_by(it->src.entry, noter) || is_by(it->src.entry, c->ask->device))
            return false;
    c->from = standing(c, 0);
    return true;
}

static mf_status read_before(change *c, mf_err *err)
{
    if (!choose_from(c) && !counts_first(c))
        return refuse(c->target, "it was withdrawn", "what is withdrawn is not in force",
                      "log the thing anew", err);
    bool stands = c->from != NULL && c->from->after[0] != '\0';
    const char *text = stands ? c->from->after : c->ask->line->body;
    mf_err why = {0};
    c->before = mf_json_parse(text, strlen(text), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    if (!json_is_object(c->before))
        return refuse(c->target, "its body is damaged", "", "check the book", err);
    return MF_OK;
}

/* That body with the draft's fields over it. Where corrections contradict each other, to say
 * which of them is true changes something. */
static mf_status make_after(change *c, mf_err *err)
{
    const mf_draft *draft = c->ask->draft;
    if (draft == NULL)
        return MF_OK;
    json_t *merged = mf_draft_over(draft, c->before);
    c->after = merged == NULL ? NULL : mf_without_nulls(merged);
    json_decref(merged);
    if (c->after == NULL)
        return mf_fail_memory(err);
    if (!c->contradicted && json_equal(c->before, c->after))
        return refuse(c->target, "the correction changes nothing", "",
                      "give the fields that change", err);
    return MF_OK;
}

static bool keeps_key(const change *c)
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
static mf_status check_key_stays(const change *c, mf_err *err)
{
    bool again = false;
    if (keeps_key(c))
        return MF_OK;
    const char *key = mf_kind_key(c->kind)->name;
    if (c->after != NULL && json_object_get(c->after, key) != NULL &&
        strcmp(c->kind->name, "house") == 0)
        return refuse(c->target, "the id of a job cannot be changed",
                      "every entry of the job is under it", "open another job", err);
    mf_candidate was = {.folds = c->ask->folds,
                        .kind = c->kind,
                        .body = c->before,
                        .job = c->job,
                        .except = c->target};
    mf_status status = mf_candidate_again(&was, &again, err);
    if (status != MF_OK || again)
        return status;
    return c->ask->free_of_refs(c->ask->data, c->kind, c->job,
                                json_string_value(json_object_get(c->before, key)), c->target, err);
}

bool mf_attach_same(const json_t *before, const json_t *after)
{
    static const char *const fixed[] = {"sha256", "size", "media"};
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++)
        if (!json_equal(json_object_get(before, fixed[i]), json_object_get(after, fixed[i])))
            return false;
    return true;
}

static mf_status check(const change *c, mf_err *err)
{
    mf_status status = check_key_stays(c, err);
    if (status != MF_OK || c->after == NULL)
        return status;
    char where[MF_WHERE];
    where_of(c->target, where);
    if (strcmp(c->kind->name, MF_KIND_ATTACHMENT) == 0 && !mf_attach_same(c->before, c->after))
        return refuse(c->target, "what was attached cannot be changed",
                      "its bytes are what they are", "withdraw it and attach the right file", err);
    mf_candidate candidate = {c->ask->folds, c->kind, c->after,     c->job,
                              c->target,     where,   keeps_key(c), c->ask->now};
    return mf_candidate_check(&candidate, NULL, err);
}

/* All other corrections that stand, in the order of their names. */
static bool put_settled(json_t *out, const change *c)
{
    mf_buf names = {0};
    const mf_correction *it;
    for (size_t n = 0; (it = standing(c, n)) != NULL; n++) {
        if (it == c->from)
            continue;
        mf_buf_text(&names, names.len > 0 ? "," : "");
        mf_buf_text(&names, it->src.entry);
    }
    bool good = !names.failed &&
                (names.len == 0 ||
                 json_object_set_new(out, "settles", json_string(mf_buf_str(&names))) == 0);
    mf_buf_free(&names);
    return good;
}

static mf_status make_body(const change *c, json_t **out, mf_err *err)
{
    const char *replaces = c->from == NULL ? c->target : c->from->src.entry;
    *out = json_object();
    bool good = *out != NULL && json_object_set_new(*out, "target", json_string(c->target)) == 0 &&
                json_object_set_new(*out, "replaces", json_string(replaces)) == 0 &&
                put_settled(*out, c) &&
                json_object_set_new(*out, "kind", json_string(c->kind->name)) == 0 &&
                json_object_set_new(*out, "reason", json_string(c->ask->reason)) == 0 &&
                (c->after == NULL || json_object_set(*out, "body", c->after) == 0);
    if (good)
        return MF_OK;
    json_decref(*out);
    *out = NULL;
    return mf_fail_memory(err);
}

mf_status mf_amend_body(const mf_amend *ask, json_t **out, mf_err *err)
{
    change c = {.ask = ask, .target = ask->target};
    *out = NULL;
    mf_status status = mf_amend_target(ask, err);
    if (status != MF_OK)
        return status;
    c.kind = mf_kind_named(ask->line->kind);
    c.job = ask->line->job;
    status = read_before(&c, err);
    if (status == MF_OK)
        status = make_after(&c, err);
    if (status == MF_OK)
        status = check(&c, err);
    if (status == MF_OK)
        status = make_body(&c, out, err);
    json_decref(c.before);
    json_decref(c.after);
    return status;
}
