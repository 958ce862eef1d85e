/* A job as the JSON that is attached to its paper, driven by the kind table. */
#include "base/fail.h"
#include "book/record_json.h"
#include "journal/value_json.h"

#include <mistfold/kind.h>
#include <stdlib.h>
#include <string.h>

const char *const mf_record_integrity[] = {"unchecked", "good", "broken", NULL};

/* What is written is whole or not at all: where something cannot be put in, there is no
 * object any more, and none that would hold it (all of these take NULL). */
static void put(json_t **object, const char *name, json_t *value)
{
    if (json_object_set_new(*object, name, value) == 0)
        return;
    json_decref(*object);
    *object = NULL;
}

static void append(json_t **array, json_t *value)
{
    if (json_array_append_new(*array, value) == 0)
        return;
    json_decref(*array);
    *array = NULL;
}

/* "" is left out, as what was not given is everywhere. */
static void put_text(json_t **object, const char *name, const char *text)
{
    if (text != NULL && *text != '\0')
        put(object, name, mf_text_json(text));
}

static void put_number(json_t **object, const char *name, int64_t number)
{
    if (number != MF_NUM_NONE)
        put(object, name, json_integer(number));
}

static void put_day(json_t **object, const char *name, mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    put_text(object, name, text);
}

/* ---- one entry ---------------------------------------------------------------- */

static json_t *entry_of(const mf_src *src)
{
    json_t *entry = json_object();
    put_text(&entry, "entry", src->entry);
    put_text(&entry, "at", src->at);
    put_text(&entry, "by", src->by);
    put_text(&entry, "corrected_by", src->correction);
    return entry;
}

static json_t *list_of(const mf_job *job, const mf_kind *kind)
{
    size_t n;
    const unsigned char *items = mf_kind_items(job, kind, &n);
    json_t *array = json_array();
    for (size_t i = 0; i < n; i++) {
        mf_src src;
        const unsigned char *item = items + i * kind->size;
        memcpy(&src, item, sizeof src);
        json_t *entry = entry_of(&src), *body = json_object();
        for (size_t k = 0; k < kind->n_fields; k++) {
            const mf_value value = mf_item_value(&kind->fields[k], item);
            if (value.given)
                put(&body, kind->fields[k].name, mf_value_json(&kind->fields[k], &value));
        }
        put(&entry, "body", body);
        append(&array, entry);
    }
    return array;
}

json_t *mf_record_entries(const mf_job *job)
{
    size_t n = 0;
    const mf_kind *kinds = mf_kinds(&n);
    json_t *all = json_object();
    for (size_t i = 0; i < n; i++) {
        json_t *list = list_of(job, &kinds[i]);
        if (list == NULL || json_array_size(list) > 0)
            put(&all, kinds[i].name, list);
        else
            json_decref(list);
    }
    return all;
}

static json_t *corrections(const mf_job *job)
{
    json_t *array = json_array();
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *fix = &job->correction[i];
        json_t *entry = entry_of(&fix->src);
        put_text(&entry, "target", fix->target);
        put_text(&entry, "replaces", fix->replaces);
        put_text(&entry, "settles", fix->settles);
        put_text(&entry, "kind", fix->kind);
        put_text(&entry, "reason", fix->reason);
        put_text(&entry, "before", fix->before);
        put_text(&entry, "after", fix->after);
        append(&array, entry);
    }
    return array;
}

/* What other jobs of the same house add to this one (745.83, 30 days). */
static json_t *earlier(const mf_job *job)
{
    json_t *array = json_array();
    for (size_t i = 0; i < job->n_earlier; i++) {
        const mf_earlier *other = &job->earlier[i];
        json_t *entry = entry_of(&other->src);
        put_text(&entry, "job", other->job);
        put_text(&entry, "room", other->room);
        put_text(&entry, "side", other->side == MF_SIDE_EXTERIOR ? "exterior" : "interior");
        put_day(&entry, "day", other->on);
        put_day(&entry, "until", other->until);
        put_number(&entry, "disturbed_sqft_100", other->disturbed_sqft_100);
        append(&array, entry);
    }
    return array;
}

/* ---- findings ------------------------------------------------------------------- */

/* A finding as data: names and numbers only, no wording. NULL when memory ran out. */
static json_t *finding_of(const mf_finding *finding)
{
    json_t *object = json_object();
    put_text(&object, "requirement", finding->requirement->id);
    put_text(&object, "citation", finding->requirement->citation);
    put_text(&object, "verdict", mf_verdict_name(finding->verdict));
    put_text(&object, "reason", finding->why);
    for (size_t i = 0; i < finding->n_also; i++) {
        char name[16];
        snprintf(name, sizeof name, "reason%zu", i + 2);
        put_text(&object, name, finding->also[i]);
    }
    put_text(&object, "subject", finding->subject);
    put_text(&object, "in_unit", finding->in_unit);
    put_text(&object, "evidence", finding->evidence);
    put_text(&object, "other", finding->other);
    put_text(&object, "field", finding->field);
    put_day(&object, "day1", finding->d1);
    put_day(&object, "day2", finding->d2);
    put_number(&object, "number1", finding->n1);
    put_number(&object, "number2", finding->n2);
    if (finding->limit != NULL)
        put_text(&object, "limit", finding->limit->name);
    return object;
}

json_t *mf_record_findings(const mf_job *job, mf_day today)
{
    const mf_audit_ask ask = {.job = job, .today = today, .gates = 0, .area = ""};
    mf_finding *list = NULL;
    size_t n = 0;
    json_t *array = mf_findings(&ask, &list, &n) ? json_array() : NULL;
    for (size_t i = 0; array != NULL && i < n; i++)
        append(&array, finding_of(&list[i]));
    free(list);
    return array;
}

/* ---- the whole ------------------------------------------------------------------- */

/* Tenths of a point: a whole number is the same in every reader. */
static json_t *places(const mf_record_ask *ask)
{
    json_t *array = json_array();
    for (size_t i = 0; i < ask->n_places; i++) {
        const mf_record_place *place = &ask->places[i];
        json_t *object = json_object();
        put_text(&object, "as", place->as);
        put_number(&object, "page", place->page);
        put_number(&object, "x_10", (int64_t)(place->x * 10));
        put_number(&object, "y_10", (int64_t)(place->y * 10));
        put_number(&object, "w_10", (int64_t)(place->w * 10));
        put_number(&object, "h_10", (int64_t)(place->h * 10));
        append(&array, object);
    }
    return array;
}

/* {"office/17": hash}: the tools of anybody find a pair by its text. */
static json_t *pairs(const mf_link *links, size_t n)
{
    json_t *object = json_object();
    for (size_t i = 0; i < n; i++)
        put(&object, links[i].entry, json_string(links[i].hash));
    return object;
}

static void put_links(json_t **root, const mf_links *links)
{
    if (links == NULL)
        return;
    put(root, "chains", pairs(links->chains, links->n_chains));
    put(root, "hashes", pairs(links->entries, links->n_entries));
    put(root, "others", pairs(links->others, links->n_others));
}

static json_t *record_of(const mf_record_ask *ask)
{
    json_t *root = json_object();
    put(&root, "format", json_string(MF_RECORD_FORMAT));
    put(&root, "version", json_integer(MF_RECORD_VERSION));
    put_text(&root, "job", ask->job->id);
    put_text(&root, "integrity", mf_record_integrity[ask->job->integrity]);
    put_day(&root, "today", ask->today);
    put_text(&root, "head", ask->head);
    put_text(&root, "printed_at", ask->printed_at);
    put_text(&root, "clock_at", ask->job->clock.at == NULL ? "" : ask->job->clock.at);
    if (ask->job->clock.at != NULL)
        put_number(&root, "clock_ahead", ask->job->clock.ahead_min);
    put(&root, "entries", mf_record_entries(ask->job));
    put(&root, "corrections", corrections(ask->job));
    put(&root, "earlier", earlier(ask->job));
    put(&root, "findings", mf_record_findings(ask->job, ask->today));
    put(&root, "seal_places", places(ask));
    put_links(&root, ask->links);
    return root;
}

mf_status mf_record_write(mf_bytes *out, const mf_record_ask *ask, mf_err *err)
{
    mf_buf buf = {0};
    *out = (mf_bytes){0};
    json_t *root = record_of(ask);
    bool good = root != NULL && mf_json_canonical(&buf, root);
    json_decref(root);
    if (good)
        mf_buf_take(&buf, out);
    mf_buf_free(&buf);
    return good ? MF_OK : mf_fail_memory(err);
}
