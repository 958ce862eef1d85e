/* From the JSON of a record back to the job. Nothing in it is trusted: a kind, a
 * field or a word that is not known here, or a member of another type, is refused
 * with its name. */
#include "base/fail.h"
#include "base/hex.h"
#include "book/record_json.h"
#include "book/replay.h"
#include "journal/body.h"
#include "journal/line.h"
#include "journal/list.h"

#include <mistfold/kind.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The record and the memory of all its texts; the record comes first. */
typedef struct held {
    mf_record record;
    mf_job job;
    mf_arena arena;
    json_t *root;
    mf_err *err;
} held;

static mf_status refuse(held *h, const char *where, const char *name)
{
    mf_failf(h->err, MF_INPUT, where, "the record was altered, or a newer version wrote it",
             "take the paper as mistfold wrote it, or use a newer version",
             "\"%.60s\" is not what it should be", name);
    return MF_INPUT;
}

/* ---- members ----------------------------------------------------------------------- */

/* A string member; "" when it is absent. */
static mf_status text_of(held *h, const json_t *object, const char *where, const char *name,
                         const char **out)
{
    const json_t *value = json_object_get(object, name);
    *out = "";
    if (value == NULL)
        return MF_OK;
    if (!json_is_string(value))
        return refuse(h, where, name);
    *out = mf_arena_text(&h->arena, json_string_value(value));
    return *out == NULL ? mf_fail_memory(h->err) : MF_OK;
}

static mf_status number_of(held *h, const json_t *object, const char *where, const char *name,
                           int64_t *out)
{
    const json_t *value = json_object_get(object, name);
    *out = MF_NUM_NONE;
    if (value == NULL)
        return MF_OK;
    if (!json_is_integer(value))
        return refuse(h, where, name);
    *out = json_integer_value(value);
    return MF_OK;
}

static mf_status day_of(held *h, const json_t *object, const char *where, const char *name,
                        mf_day *out)
{
    const char *text;
    mf_status status = text_of(h, object, where, name, &text);
    *out = status == MF_OK ? mf_day_parse(text, NULL) : MF_DAY_NONE;
    return status == MF_OK && *text != '\0' && *out == MF_DAY_NONE ? refuse(h, where, name)
                                                                   : status;
}

/* The choices of a field; index 0 when it is absent, as in the tables. */
static mf_status word_of(held *h, const json_t *object, const char *where, const char *name,
                         const char *const *choices, int *out)
{
    const char *text;
    mf_status status = text_of(h, object, where, name, &text);
    *out = status != MF_OK || *text == '\0' ? 0 : mf_choice(choices, text);
    return *out < 0 ? refuse(h, where, name) : status;
}

/* A record is refused for what a book only reads as not given. */
static mf_status member_of(held *h, const mf_body *body, const mf_kind *kind, const mf_field *field,
                           unsigned char *item)
{
    mf_value value;
    mf_body_slip slip = mf_body_value(body, field, &h->arena, &value);
    mf_item_put(field, item, &value);
    if (slip == MF_BODY_NO_MEMORY)
        return mf_fail_memory(h->err);
    return slip == MF_BODY_GOOD ? MF_OK : refuse(h, kind->name, field->name);
}

static mf_status src_of(held *h, const json_t *entry, const char *where, mf_src *out)
{
    mf_status status = text_of(h, entry, where, "entry", &out->entry);
    if (status == MF_OK)
        status = text_of(h, entry, where, "at", &out->at);
    if (status == MF_OK)
        status = text_of(h, entry, where, "by", &out->by);
    if (status == MF_OK)
        status = text_of(h, entry, where, "corrected_by", &out->correction);
    return status;
}

/* ---- kinds ------------------------------------------------------------------------------ */

/* A field that this version does not know might decide: refused. */
static mf_status all_known(held *h, const mf_kind *kind, json_t *body)
{
    if (!json_is_object(body))
        return refuse(h, kind->name, "body");
    for (void *at = json_object_iter(body); at != NULL; at = json_object_iter_next(body, at)) {
        const mf_field *field = mf_field_named(kind, json_object_iter_key(at));
        if (field == NULL || strcmp(field->name, json_object_iter_key(at)) != 0)
            return refuse(h, kind->name, json_object_iter_key(at));
    }
    return MF_OK;
}

static mf_status item_of(held *h, const mf_kind *kind, const json_t *entry, unsigned char *item)
{
    mf_src src;
    json_t *body = json_object_get(entry, "body");
    mf_status status = all_known(h, kind, body);
    if (status == MF_OK)
        status = src_of(h, entry, kind->name, &src);
    if (status != MF_OK)
        return status;
    memcpy(item, &src, sizeof src);
    const mf_body said = {.tree = body};
    for (size_t i = 0; i < kind->n_fields && status == MF_OK; i++)
        status = member_of(h, &said, kind, &kind->fields[i], item);
    return status;
}

static mf_status list_of(held *h, const mf_kind *kind, const json_t *list)
{
    size_t n = json_array_size(list);
    if (!json_is_array(list))
        return refuse(h, "entries", kind->name);
    unsigned char *items = mf_arena_alloc(&h->arena, (n + 1) * kind->size);
    if (items == NULL)
        return mf_fail_memory(h->err);
    mf_status status = MF_OK;
    for (size_t i = 0; i < n && status == MF_OK; i++)
        status = item_of(h, kind, json_array_get(list, i), items + i * kind->size);
    if (status == MF_OK)
        mf_list_put(&h->job, kind, items, n);
    return status;
}

static mf_status entries_of(held *h)
{
    json_t *all = json_object_get(h->root, "entries");
    mf_status status = json_is_object(all) ? MF_OK : refuse(h, "the record", "entries");
    for (void *at = json_object_iter(all); at != NULL && status == MF_OK;
         at = json_object_iter_next(all, at)) {
        const char *name = json_object_iter_key(at);
        const mf_kind *kind = mf_kind_named(name);
        status = kind == NULL ? refuse(h, "entries", name)
                              : list_of(h, kind, json_object_iter_value(at));
    }
    return status;
}

/* ---- corrections, other jobs, places --------------------------------------------------------- */

/* Room for the items of a list of the record; 0 items when it is absent. */
static mf_status room_for(held *h, const char *name, size_t size, const json_t **list, void **items,
                          size_t *n)
{
    *list = json_object_get(h->root, name);
    *n = json_array_size(*list);
    if (*list != NULL && !json_is_array(*list))
        return refuse(h, "the record", name);
    *items = mf_arena_alloc(&h->arena, (*n + 1) * size);
    return *items == NULL ? mf_fail_memory(h->err) : MF_OK;
}

static mf_status correction_of(held *h, const json_t *from, mf_correction *fix)
{
    static const char where[] = "corrections";
    mf_status status = src_of(h, from, where, &fix->src);
    if (status == MF_OK)
        status = text_of(h, from, where, "target", &fix->target);
    if (status == MF_OK)
        status = text_of(h, from, where, "replaces", &fix->replaces);
    if (status == MF_OK)
        status = text_of(h, from, where, "settles", &fix->settles);
    if (status == MF_OK)
        status = text_of(h, from, where, "kind", &fix->kind);
    if (status == MF_OK)
        status = text_of(h, from, where, "reason", &fix->reason);
    if (status == MF_OK)
        status = text_of(h, from, where, "before", &fix->before);
    if (status == MF_OK)
        status = text_of(h, from, where, "after", &fix->after);
    const mf_kind *kind = status == MF_OK ? mf_kind_named(fix->kind) : NULL;
    if (status == MF_OK)
        status = mf_body_item(&fix->was, kind, fix->before, &h->arena, h->err);
    return status == MF_OK ? mf_body_item(&fix->now, kind, fix->after, &h->arena, h->err) : status;
}

static mf_status corrections_of(held *h)
{
    const json_t *list = NULL;
    void *items = NULL;
    size_t n = 0;
    mf_status status = room_for(h, "corrections", sizeof(mf_correction), &list, &items, &n);
    mf_correction *fixes = items;
    for (size_t i = 0; status == MF_OK && items != NULL && i < n; i++)
        status = correction_of(h, json_array_get(list, i), &fixes[i]);
    if (status == MF_OK) {
        h->job.correction = fixes;
        h->job.n_correction = n;
    }
    return status;
}

static mf_status other_job_of(held *h, const json_t *from, mf_earlier *other)
{
    static const char *const sides[] = {"interior", "exterior", NULL};
    static const char where[] = "earlier";
    int side = 0;
    mf_status status = src_of(h, from, where, &other->src);
    if (status == MF_OK)
        status = text_of(h, from, where, "job", &other->job);
    if (status == MF_OK)
        status = text_of(h, from, where, "room", &other->room);
    if (status == MF_OK)
        status = word_of(h, from, where, "side", sides, &side);
    if (status == MF_OK)
        status = day_of(h, from, where, "day", &other->on);
    if (status == MF_OK)
        status = day_of(h, from, where, "until", &other->until);
    if (status == MF_OK)
        status = number_of(h, from, where, "disturbed_sqft_100", &other->disturbed_sqft_100);
    other->side = (mf_side)side;
    return status;
}

static mf_status earlier_of(held *h)
{
    const json_t *list = NULL;
    void *items = NULL;
    size_t n = 0;
    mf_status status = room_for(h, "earlier", sizeof(mf_earlier), &list, &items, &n);
    mf_earlier *others = items;
    for (size_t i = 0; status == MF_OK && items != NULL && i < n; i++)
        status = other_job_of(h, json_array_get(list, i), &others[i]);
    if (status == MF_OK) {
        h->job.earlier = others;
        h->job.n_earlier = n;
    }
    return status;
}

static mf_status place_of(held *h, const json_t *from, mf_record_place *place)
{
    static const char *const names[] = {"page", "x_10", "y_10", "w_10", "h_10"};
    int64_t number[5];
    mf_status status = text_of(h, from, "seal_places", "as", &place->as);
    for (size_t i = 0; i < 5 && status == MF_OK; i++) {
        status = number_of(h, from, "seal_places", names[i], &number[i]);
        if (status == MF_OK && (number[i] < 0 || number[i] > 200000))
            status = refuse(h, "seal_places", names[i]);
    }
    if (status == MF_OK)
        *place = (mf_record_place){place->as,
                                   (int)number[0],
                                   (float)number[1] / 10,
                                   (float)number[2] / 10,
                                   (float)number[3] / 10,
                                   (float)number[4] / 10};
    return status;
}

static mf_status places_of(held *h)
{
    const json_t *list = NULL;
    void *items = NULL;
    mf_status status =
        room_for(h, "seal_places", sizeof(mf_record_place), &list, &items, &h->record.n_places);
    mf_record_place *places = items;
    for (size_t i = 0; status == MF_OK && items != NULL && i < h->record.n_places; i++)
        status = place_of(h, json_array_get(list, i), &places[i]);
    h->record.places = places;
    return status;
}

/* ---- by what it is held against the book ------------------------------------------------ */

static bool is_link(const char *id, const json_t *hash)
{
    char device[MF_DEVICE_MAX + 1];
    int64_t seq = 0;
    const char *hex = json_string_value(hash);
    return mf_entry_id_split(id, device, &seq) && hex != NULL && mf_hex_is(hex, MF_HASH_HEX - 1);
}

/* The texts are those of root, which lives as long. */
static mf_status pairs_of(held *h, const char *name, const mf_link **out, size_t *n)
{
    json_t *all = json_object_get(h->root, name);
    *n = 0;
    if (all != NULL && !json_is_object(all))
        return refuse(h, "the record", name);
    mf_link *links = mf_arena_alloc(&h->arena, (json_object_size(all) + 1) * sizeof *links);
    if (links == NULL)
        return mf_fail_memory(h->err);
    for (void *at = json_object_iter(all); at != NULL; at = json_object_iter_next(all, at)) {
        const json_t *hash = json_object_iter_value(at);
        if (!is_link(json_object_iter_key(at), hash))
            return refuse(h, name, json_object_iter_key(at));
        links[(*n)++] = (mf_link){json_object_iter_key(at), json_string_value(hash)};
    }
    *out = links;
    return MF_OK;
}

static mf_status links_of(held *h)
{
    mf_links *links = &h->record.links;
    mf_status status = pairs_of(h, "chains", &links->chains, &links->n_chains);
    if (status == MF_OK)
        status = pairs_of(h, "hashes", &links->entries, &links->n_entries);
    if (status == MF_OK)
        status = pairs_of(h, "others", &links->others, &links->n_others);
    snprintf(links->head, sizeof links->head, "%s", h->record.head);
    if (status == MF_OK)
        links->heads = mf_links_text(&h->arena, links->chains, links->n_chains);
    return status == MF_OK && links->heads == NULL ? mf_fail_memory(h->err) : status;
}

/* ---- the whole ------------------------------------------------------------------------------ */

static mf_status head_of(held *h)
{
    static const char where[] = "the record";
    const char *format;
    int64_t version;
    int integrity = 0;
    mf_status status = text_of(h, h->root, where, "format", &format);
    if (status == MF_OK)
        status = number_of(h, h->root, where, "version", &version);
    if (status == MF_OK &&
        (strcmp(format, MF_RECORD_FORMAT) != 0 || version < 1 || version > MF_RECORD_VERSION))
        status = refuse(h, where, "format");
    if (status == MF_OK)
        status = text_of(h, h->root, where, "job", &h->job.id);
    if (status == MF_OK)
        status = word_of(h, h->root, where, "integrity", mf_record_integrity, &integrity);
    if (status == MF_OK)
        status = day_of(h, h->root, where, "today", &h->record.today);
    if (status == MF_OK)
        status = text_of(h, h->root, where, "head", &h->record.head);
    if (status == MF_OK)
        status = text_of(h, h->root, where, "printed_at", &h->record.printed_at);
    if (status == MF_OK)
        status = text_of(h, h->root, where, "clock_at", &h->job.clock.at);
    if (status == MF_OK)
        status = number_of(h, h->root, where, "clock_ahead", &h->job.clock.ahead_min);
    h->job.integrity = (mf_integrity)integrity;
    return status;
}

mf_status mf_record_read(mf_record **out, const char *json, size_t len, mf_err *err)
{
    *out = NULL;
    held *h = calloc(1, sizeof *h);
    if (h == NULL)
        return mf_fail_memory(err);
    h->record.job = &h->job;
    h->err = err;
    mf_err why = {0};
    h->root = mf_json_parse(json, len, &why);
    mf_status status = why.status;
    if (status != MF_OK && err != NULL)
        *err = why;
    if (status == MF_OK)
        status = json_is_object(h->root) ? head_of(h) : refuse(h, "the record", "the text");
    if (status == MF_OK)
        status = entries_of(h);
    if (status == MF_OK)
        status = corrections_of(h);
    if (status == MF_OK)
        status = earlier_of(h);
    if (status == MF_OK)
        status = places_of(h);
    if (status == MF_OK)
        status = links_of(h);
    if (status == MF_OK)
        status = mf_list_order_readings(&h->job, &h->arena, err);
    if (status == MF_OK) {
        h->record.n_findings = json_array_size(json_object_get(h->root, "findings"));
        *out = &h->record;
    } else {
        mf_record_free(&h->record);
    }
    return status;
}

void mf_record_free(mf_record *record)
{
    if (record == NULL)
        return;
    held *h = (held *)record;
    json_decref(h->root);
    mf_arena_free(&h->arena);
    free(h);
}

mf_status mf_record_agrees(const mf_record *record, mf_err *err)
{
    const held *h = (const held *)record;
    const json_t *printed = json_object_get(h->root, "findings");
    json_t *now = mf_record_findings(&h->job, record->today);
    if (now == NULL)
        return mf_fail_memory(err);
    mf_status status = MF_OK;
    size_t n = json_array_size(now);
    if (json_array_size(printed) != n)
        status = mf_failf(err, MF_NO, "the record", "its entries give other findings now", "",
                          "it has %zu findings, its entries give %zu", json_array_size(printed), n);
    for (size_t i = 0; i < n && status == MF_OK; i++)
        if (!json_equal(json_array_get(printed, i), json_array_get(now, i)))
            status =
                mf_failf(err, MF_NO, "the record", "its entries give another finding now", "",
                         "finding %zu, %.60s, differs", i + 1,
                         json_string_value(json_object_get(json_array_get(now, i), "requirement")));
    json_decref(now);
    return status;
}
