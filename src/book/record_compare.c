/* A record against the book: what it says of each entry, against what the journal says in
 * the entry those words came from. Nobody corrects a book without an entry that says so:
 * what differs without one was altered. */
#include "base/fail.h"
#include "book/journal.h"
#include "book/record_json.h"
#include "book/replay.h"
#include "book/tables.h"

#include <mistfold/kind.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What the record says in one entry of the journal: the entry itself, or the correction
 * whose words were in force. */
typedef struct words {
    const char *source; /* the entry that holds these words */
    const char *entry;  /* the one that is told */
    const mf_kind *kind;
    const json_t *body;
    const char *at, *by; /* "" = not compared */
    bool is_correction;
    bool told;
} words;

typedef struct comparison {
    const mf_record *record;
    mf_book *book;
    mf_record_change_fn *fn;
    void *data;
    json_t *then, *now; /* mf_record_entries */
    json_t *before;     /* array: bodies that a correction replaced */
    words *all;
    size_t n, cap;
} comparison;

static const char *text_of(const json_t *entry, const char *name)
{
    return mf_json_string_of(entry, name);
}

static void tell(comparison *c, mf_record_change change, const char *kind, const char *entry)
{
    const mf_record_diff diff = {.change = change, .kind = kind, .entry = entry, .field = ""};
    c->fn(&diff, c->data);
}

/* ---- what the record says, by the entry that says it ------------------------------------- */

static mf_status add_words(comparison *c, const words *it, mf_err *err)
{
    words *grown = mf_grown(c->all, c->n, &c->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    c->all = grown;
    c->all[c->n++] = *it;
    return MF_OK;
}

static mf_status add_entry(comparison *c, const mf_kind *kind, const json_t *entry, mf_err *err)
{
    const char *id = text_of(entry, "entry"), *fix = text_of(entry, "corrected_by");
    bool corrected = *fix != '\0';
    const words it = {.source = corrected ? fix : id,
                      .entry = id,
                      .kind = kind,
                      .body = json_object_get(entry, "body"),
                      .at = corrected ? "" : text_of(entry, "at"),
                      .by = corrected ? "" : text_of(entry, "by"),
                      .is_correction = corrected};
    return add_words(c, &it, err);
}

/* What a correction replaced stood in an entry, too. */
static mf_status add_before(comparison *c, const mf_correction *fix, mf_err *err)
{
    mf_err why = {0};
    json_t *body = mf_json_parse(fix->before, strlen(fix->before), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    const words it = {.source = fix->replaces,
                      .entry = fix->target,
                      .kind = mf_kind_named(fix->kind),
                      .body = body,
                      .at = "",
                      .by = "",
                      .is_correction = strcmp(fix->replaces, fix->target) != 0};
    if (body == NULL || it.kind == NULL) {
        json_decref(body);
        return MF_OK; /* it says nothing that could be compared */
    }
    if (json_array_append_new(c->before, body) != 0)
        return mf_fail_memory(err);
    return add_words(c, &it, err);
}

static int by_source(const void *a, const void *b)
{
    return strcmp(((const words *)a)->source, ((const words *)b)->source);
}

static mf_status index_words(comparison *c, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    const mf_job *job = c->record->job;
    mf_status status = MF_OK;
    for (size_t k = 0; k < count && status == MF_OK; k++) {
        const json_t *list = json_object_get(c->then, kinds[k].name);
        for (size_t i = 0; i < json_array_size(list) && status == MF_OK; i++)
            status = add_entry(c, &kinds[k], json_array_get(list, i), err);
    }
    for (size_t i = 0; i < job->n_correction && status == MF_OK; i++)
        status = add_before(c, &job->correction[i], err);
    if (status == MF_OK && c->n > 0)
        qsort(c->all, c->n, sizeof *c->all, by_source);
    return status;
}

/* ---- the words ------------------------------------------------------------------------------ */

static void dump(char out[80], const json_t *value)
{
    char *text = value == NULL ? NULL : json_dumps(value, JSON_ENCODE_ANY | JSON_COMPACT);
    snprintf(out, 80, "%.79s", text == NULL ? "nothing" : text);
    free(text);
}

static void tell_field(comparison *c, words *it, const char *field, const json_t *was,
                       const json_t *is)
{
    mf_record_diff diff = {
        .change = MF_RECORD_ALTERED, .kind = it->kind->name, .entry = it->entry, .field = field};
    dump(diff.was, was);
    dump(diff.is, is);
    it->told = true;
    c->fn(&diff, c->data);
}

static void tell_text(comparison *c, words *it, const char *field, const char *was, const char *is)
{
    json_t *then = json_string(was), *now = json_string(is);
    tell_field(c, it, field, then, now);
    json_decref(then);
    json_decref(now);
}

/* A record writes the first word of a choice that was not given. */
static bool same_value(const mf_field *field, const json_t *then, const json_t *now)
{
    if (now != NULL || then == NULL)
        return now == then || (then != NULL && json_equal(then, now));
    const char *word = json_string_value(then);
    return field->type == MF_F_CHOICE && word != NULL && strcmp(word, field->choices[0]) == 0;
}

static void compare_bodies(comparison *c, words *it, const json_t *body)
{
    for (size_t i = 0; i < it->kind->n_fields && !it->told; i++) {
        const mf_field *field = &it->kind->fields[i];
        const json_t *then = json_object_get(it->body, field->name);
        const json_t *now = json_object_get(body, field->name);
        if (!same_value(field, then, now))
            tell_field(c, it, field->name, then, now);
    }
}

static void compare_line(comparison *c, words *it, const mf_line *line, const json_t *body)
{
    const char *kind = it->is_correction ? MF_KIND_CORRECTION : it->kind->name;
    const char *job = it->kind->of_firm ? "" : c->record->job->id;
    if (strcmp(line->kind, kind) != 0)
        tell_text(c, it, "kind", kind, line->kind);
    else if (strcmp(line->job, job) != 0)
        tell_text(c, it, "job", job, line->job);
    else if (*it->at != '\0' && strcmp(line->at, it->at) != 0)
        tell_text(c, it, "at", it->at, line->at);
    else if (*it->by != '\0' && strcmp(line->who, it->by) != 0)
        tell_text(c, it, "by", it->by, line->who);
    else
        compare_bodies(c, it, it->is_correction ? json_object_get(body, "body") : body);
}

static mf_status compare_words(comparison *c, words *it, mf_err *err)
{
    bool found = false;
    mf_line line;
    mf_arena arena = {0};
    mf_err why = {0};
    mf_status status = mf_journal_entry(&line, &arena, &c->book->db, it->source, &found, err);
    if (status == MF_OK && !found) {
        it->told = true;
        tell(c, MF_RECORD_MISSING, it->kind->name, it->source);
    } else if (status == MF_OK) {
        json_t *body = mf_json_parse(line.body, strlen(line.body), &why);
        if (why.status == MF_SYSTEM)
            status = mf_fail_memory(err);
        else
            compare_line(c, it, &line, body);
        json_decref(body);
    }
    mf_arena_free(&arena);
    return status;
}

/* ---- the hashes -------------------------------------------------------------------------------
 */

static bool was_told(const comparison *c, const char *id)
{
    const words key = {.source = id};
    const words *at = c->n == 0 ? NULL : bsearch(&key, c->all, c->n, sizeof key, by_source);
    while (at != NULL && at > c->all && by_source(at - 1, &key) == 0)
        at--;
    for (; at != NULL && at < c->all + c->n && by_source(at, &key) == 0; at++)
        if (at->told)
            return true;
    return false;
}

static mf_status compare_links(comparison *c, const mf_link *links, size_t n, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; i < n && status == MF_OK; i++) {
        bool found = false;
        mf_line line;
        mf_arena arena = {0};
        status = mf_journal_entry(&line, &arena, &c->book->db, links[i].entry, &found, err);
        if (status == MF_OK && !was_told(c, links[i].entry)) {
            if (!found)
                tell(c, MF_RECORD_MISSING, "", links[i].entry);
            else if (strcmp(line.hash, links[i].hash) != 0)
                tell(c, MF_RECORD_ALTERED, line.kind, links[i].entry);
        }
        mf_arena_free(&arena);
    }
    return status;
}

/* ---- what the record hides ------------------------------------------------------------------- */

/* Whether the record's head is over that entry: then it was there when it was printed. */
static bool under_head(const comparison *c, const char *id)
{
    char device[MF_DEVICE_MAX + 1], other[MF_DEVICE_MAX + 1];
    int64_t seq = 0, last = 0;
    const mf_links *links = &c->record->links;
    if (!mf_entry_id_split(id, device, &seq))
        return false;
    for (size_t i = 0; i < links->n_chains; i++)
        if (mf_entry_id_split(links->chains[i].entry, other, &last) && strcmp(other, device) == 0)
            return seq <= last;
    return false;
}

/* ---- what was logged since --------------------------------------------------------------------
 */

static int by_entry(const void *a, const void *b)
{
    const json_t *x, *y;
    memcpy(&x, a, sizeof x);
    memcpy(&y, b, sizeof y);
    return strcmp(text_of(x, "entry"), text_of(y, "entry"));
}

typedef struct sorted {
    const json_t **at;
    size_t n;
} sorted;

static mf_status sort(sorted *out, const json_t *list, mf_err *err)
{
    out->n = json_array_size(list);
    out->at = calloc(out->n + 1, sizeof *out->at);
    if (out->at == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < out->n; i++)
        out->at[i] = json_array_get(list, i);
    qsort(out->at, out->n, sizeof *out->at, by_entry);
    return MF_OK;
}

/* The entry that withdrew it; NULL = none. */
static const char *withdrawn_by(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_correction; i++)
        if (strcmp(job->correction[i].target, id) == 0 && *job->correction[i].after == '\0')
            return job->correction[i].src.entry;
    return NULL;
}

/* What was logged since the record, or by then, which it then hides. */
static void tell_later(comparison *c, mf_record_change change, const char *kind, const char *id,
                       const char *by)
{
    if (under_head(c, by))
        tell(c, MF_RECORD_LEFT_OUT, strcmp(id, by) == 0 ? kind : MF_KIND_CORRECTION, by);
    else
        tell(c, change, kind, id);
}

static void compare_force(comparison *c, const mf_job *job, const char *kind, const json_t *then,
                          const json_t *now)
{
    const char *id = text_of(then, "entry"), *fix = text_of(now, "corrected_by");
    const char *gone = now == NULL ? withdrawn_by(job, id) : NULL;
    if (gone != NULL)
        tell_later(c, MF_RECORD_WITHDRAWN, kind, id, gone);
    else if (now == NULL && !was_told(c, id))
        tell(c, MF_RECORD_ALTERED, kind, id);
    else if (now != NULL && strcmp(text_of(then, "corrected_by"), fix) != 0)
        tell_later(c, MF_RECORD_CHANGED, kind, id, fix);
}

/* Both in the order of their ids. */
static mf_status compare_lists(comparison *c, const mf_job *job, const char *kind, mf_err *err)
{
    sorted then = {0}, now = {0};
    size_t i = 0, k = 0;
    mf_status status = sort(&then, json_object_get(c->then, kind), err);
    if (status == MF_OK)
        status = sort(&now, json_object_get(c->now, kind), err);
    while (status == MF_OK && (i < then.n || k < now.n)) {
        int order = i == then.n ? 1 : k == now.n ? -1 : by_entry(&then.at[i], &now.at[k]);
        const char *added = order > 0 ? text_of(now.at[k], "entry") : "";
        if (order > 0 && (strcmp(kind, "sealed") != 0 || under_head(c, added)))
            tell_later(c, MF_RECORD_ADDED, kind, added, added);
        if (order <= 0)
            compare_force(c, job, kind, then.at[i], order == 0 ? now.at[k] : NULL);
        i += order <= 0;
        k += order >= 0;
    }
    free(then.at);
    free(now.at);
    return status;
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

static mf_status compare_all(comparison *c, const mf_job *job, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    const mf_links *links = &c->record->links;
    if (c->then == NULL || c->now == NULL || c->before == NULL)
        return mf_fail_memory(err);
    mf_status status = index_words(c, err);
    for (size_t i = 0; i < c->n && status == MF_OK; i++)
        status = compare_words(c, &c->all[i], err);
    if (status == MF_OK)
        status = compare_links(c, links->entries, links->n_entries, err);
    if (status == MF_OK)
        status = compare_links(c, links->others, links->n_others, err);
    for (size_t i = 0; i < count && status == MF_OK; i++)
        status = compare_lists(c, job, kinds[i].name, err);
    return status;
}

mf_status mf_record_compare(const mf_record *record, mf_book *book, const mf_job *job,
                            mf_record_change_fn *fn, void *data, mf_err *err)
{
    comparison c = {.record = record, .book = book, .fn = fn, .data = data};
    c.then = mf_record_entries(record->job);
    c.now = mf_record_entries(job);
    c.before = json_array();
    mf_status status = compare_all(&c, job, err);
    free(c.all);
    json_decref(c.before);
    json_decref(c.then);
    json_decref(c.now);
    return status;
}

/* ---- the head
 * ------------------------------------------------------------------------------------ */

mf_status mf_record_head(const mf_record *record, mf_book *book, mf_head_found *out, mf_err *err)
{
    int64_t devices = 0;
    mf_head_seen seen = {.head = record->head, .heads = record->links.heads, .awaited = ""};
    mf_status status = mf_book_replay(book, &seen, 1, err);
    if (status == MF_OK)
        status = mf_db_int(&book->db, "SELECT count(DISTINCT device) FROM entry", &devices, err);
    *out = seen.state == MF_HEAD_HELD                       ? MF_HEAD_STANDS
           : seen.state == MF_HEAD_NEVER_HAD && devices > 1 ? MF_HEAD_UNTOLD
                                                            : MF_HEAD_NEVER;
    return status;
}
