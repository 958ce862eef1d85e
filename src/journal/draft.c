#include "journal/draft.h"

#include "base/fail.h"
#include "base/utf8.h"
#include "journal/value_json.h"
#include <mistfold/place.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

MF_API mf_status mf_draft_new(mf_draft **out, const mf_kind *kind, mf_err *err)
{
    *out = NULL;
    if (kind == NULL)
        return mf_fail(err, MF_USAGE, "", "there is no such kind of entry", "", "");
    mf_draft *draft = calloc(1, sizeof *draft);
    if (draft != NULL) {
        draft->kind = kind;
        draft->body = json_object();
        draft->said = json_object();
    }
    if (draft == NULL || draft->body == NULL || draft->said == NULL) {
        mf_draft_free(draft);
        return mf_fail_memory(err);
    }
    *out = draft;
    return MF_OK;
}

MF_API const char *mf_draft_text(const mf_draft *draft, const char *name)
{
    return mf_json_string_of(draft->body, name);
}

MF_API void mf_draft_free(mf_draft *draft)
{
    if (draft == NULL)
        return;
    json_decref(draft->body);
    json_decref(draft->said);
    free(draft);
}

/* ---- from text to a JSON value --------------------------------------------------------- */

static bool is_trimmed(const char *text, bool list)
{
    size_t len = strlen(text);
    bool blank_at_end = len > 0 && (text[0] == ' ' || text[len - 1] == ' ');
    return !blank_at_end && (!list || strchr(text, ' ') == NULL);
}

/* Blanks at both ends say nothing; around the commas of a list neither. */
static void add_trimmed(mf_buf *out, const char *text, bool list)
{
    size_t len = strlen(text);
    while (len > 0 && text[len - 1] == ' ')
        len--;
    size_t start = strspn(text, " ");
    for (size_t i = start; i < len; i++) {
        bool blank = list && text[i] == ' ';
        if (blank) {
            size_t stop = i + strspn(text + i, " ");
            bool inside = out->len > 0 && out->data[out->len - 1] != ',' && text[stop] != ',';
            if (!inside) {
                i = stop - 1;
                continue;
            }
        }
        mf_buf_add(out, &text[i], 1);
    }
}

static json_t *value_of(const mf_field *field, const char *text, const mf_parsed *parsed)
{
    const char *words = field->type == MF_F_CHOICE ? field->choices[parsed->number] : text;
    const mf_value value = {true, parsed->number, words};
    return mf_value_json(field, &value);
}

static mf_slip check_text(const char *text)
{
    switch (mf_utf8_check(text, strlen(text), NULL)) {
    case MF_UTF8_INVALID:
        return MF_SLIP_UTF8;
    case MF_UTF8_CONTROL:
        return MF_SLIP_CONTROL;
    case MF_UTF8_GOOD:
        break;
    }
    return MF_SLIP_NONE;
}

/* ---- more than, less than ---------------------------------------------------------------- */

/* Where ">" and "<" of the kind's numbers go; NULL = it has none. */
static const mf_field *qualifier_of(const mf_draft *draft)
{
    return mf_field_named(draft->kind, "qualifier");
}

/* One stands for all numbers of an entry: "more than" is never below anything, and what is exact
 * takes back neither that nor "less than". Any of the words may be NULL. */
static const char *stricter(const mf_field *own, const char *a, const char *b)
{
    static const mf_qualifier order[] = {MF_QUAL_OVER, MF_QUAL_UNDER, MF_QUAL_EXACT};
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        const char *word = own->choices[order[i]];
        if ((a != NULL && strcmp(a, word) == 0) || (b != NULL && strcmp(b, word) == 0))
            return word;
    }
    return NULL;
}

static bool is_told_by(const mf_field *own, const mf_field *field)
{
    return own != NULL && (field == own || (field->flags & MF_F_QUALIFIED) != 0);
}

/* An exact number says so too, so that a correction can take a ">" back. */
static bool set_qualifier(mf_draft *draft, const mf_field *field, const mf_parsed *parsed)
{
    const mf_field *own = qualifier_of(draft);
    if (!is_told_by(own, field))
        return true;
    int64_t said = field == own ? parsed->number : (int64_t)parsed->qualifier;
    return json_object_set_new(draft->said, field->name, json_string(own->choices[said])) == 0;
}

/* Whatever came first, the strictest of what was said goes into the body. */
static bool settle_qualifier(mf_draft *draft, const mf_field *field)
{
    const mf_field *own = qualifier_of(draft);
    const char *name, *word = NULL;
    json_t *value;
    if (!is_told_by(own, field))
        return true;
    json_object_foreach(draft->said, name, value)
    {
        word = stricter(own, word, json_string_value(value));
    }
    return json_object_set_new(draft->body, own->name,
                               word == NULL ? json_null() : json_string(word)) == 0;
}

/* A field left out says nothing any more. */
static bool leave_out(mf_draft *draft, const mf_field *field)
{
    return json_object_set_new(draft->body, field->name, json_null()) == 0 &&
           (!is_told_by(qualifier_of(draft), field) ||
            json_object_set_new(draft->said, field->name, json_null()) == 0) &&
           settle_qualifier(draft, field);
}

/* Whether a number stays that the draft says nothing of. */
static bool another_stays(const mf_draft *draft, const json_t *before)
{
    for (size_t i = 0; i < draft->kind->n_fields; i++) {
        const mf_field *field = &draft->kind->fields[i];
        if ((field->flags & MF_F_QUALIFIED) != 0 &&
            json_is_integer(json_object_get(before, field->name)) &&
            json_object_get(draft->body, field->name) == NULL)
            return true;
    }
    return false;
}

/* A number that is corrected takes back no ">" that may be of another: the field itself does. */
static bool keep_qualifier(const mf_draft *draft, const json_t *before, json_t *merged)
{
    const mf_field *own = qualifier_of(draft);
    if (own == NULL || json_object_get(draft->said, own->name) != NULL)
        return true;
    const char *was = json_string_value(json_object_get(before, own->name));
    const char *now = json_string_value(json_object_get(draft->body, own->name));
    const char *word = now == NULL                    ? was
                       : another_stays(draft, before) ? stricter(own, was, now)
                                                      : now;
    return word == NULL || json_object_set_new(merged, own->name, json_string(word)) == 0;
}

json_t *mf_draft_over(const mf_draft *draft, const json_t *before)
{
    json_t *merged = json_object();
    bool good = merged != NULL &&
                json_object_update(merged, (json_t *)(uintptr_t)before) == 0 && /* takes no const */
                json_object_update(merged, draft->body) == 0 &&
                keep_qualifier(draft, before, merged);
    if (good)
        return merged;
    json_decref(merged);
    return NULL;
}

static mf_status set_trimmed(mf_draft *draft, const mf_field *field, const char *text,
                             const char *unit, const char *where, mf_day today, mf_err *err)
{
    mf_parsed parsed = {0};
    mf_slip slip = check_text(text);
    if (text[0] == '\0' && (field->flags & MF_F_NEEDED) == 0)
        return leave_out(draft, field) ? MF_OK : mf_fail_memory(err);
    if (slip == MF_SLIP_NONE)
        slip = mf_field_parse(field, text, unit, today, &parsed);
    if (slip == MF_SLIP_NONE && field->type == MF_F_INT &&
        (parsed.number > MF_JSON_MAX_INT || parsed.number < -MF_JSON_MAX_INT))
        slip = MF_SLIP_RANGE;
    if (slip != MF_SLIP_NONE)
        return mf_slip_fail(err, field, where, text, slip);
    if (json_object_set_new_nocheck(draft->body, field->name, value_of(field, text, &parsed)) !=
            0 ||
        !set_qualifier(draft, field, &parsed) || !settle_qualifier(draft, field))
        return mf_fail_memory(err);
    return MF_OK;
}

size_t mf_draft_most(const mf_field *field)
{
    return (field->flags & MF_F_LONG) != 0 ? MF_DRAFT_LONG : MF_DRAFT_TEXT;
}

mf_status mf_draft_too_long(const mf_field *field, const char *where, const char *mend, mf_err *err)
{
    char most[24], kept[60];
    snprintf(most, sizeof most, "%zu", mf_draft_most(field));
    snprintf(kept, sizeof kept, "%s bytes are kept", most);
    mf_fail(err, MF_INPUT, where, "the text is too long", kept, mend);
    mf_fail_name(err, "too-long", most, NULL, NULL);
    return MF_INPUT;
}

static mf_status no_such_field(const mf_kind *kind, const char *name, const char *where,
                               mf_err *err)
{
    char mend[300];
    size_t len = (size_t)snprintf(mend, sizeof mend, "its fields are");
    for (size_t i = 0; i < kind->n_fields && len < sizeof mend; i++)
        if (mf_field_is_typed(&kind->fields[i]))
            len += (size_t)snprintf(mend + len, sizeof mend - len, "%s %s", i == 0 ? "" : ",",
                                    kind->fields[i].option);
    return mf_failf(err, MF_USAGE, where, "", mend, "an entry of kind %s has no field %.60s",
                    kind->name, name);
}

MF_API mf_status mf_draft_set(mf_draft *draft, const char *name, const char *text, const char *unit,
                              const char *where, mf_day today, mf_err *err)
{
    const mf_field *field = mf_field_named(draft->kind, name);
    return field != NULL && mf_field_is_typed(field)
               ? mf_draft_put(draft, field, text, unit, where, today, err)
               : no_such_field(draft->kind, name, where, err);
}

MF_API mf_status mf_draft_of(mf_draft **out, const char *kind, const char *const (*fields)[2],
                             size_t n, const char *where, mf_day today, mf_err *err)
{
    mf_status status = mf_draft_new(out, mf_kind_named(kind), err);
    if (*out == NULL)
        return status;
    for (size_t i = 0; i < n && status == MF_OK; i++)
        status = mf_draft_set(*out, fields[i][0], fields[i][1], "", where, today, err);
    return status;
}

mf_status mf_draft_put(mf_draft *draft, const mf_field *field, const char *text, const char *unit,
                       const char *where, mf_day today, mf_err *err)
{
    if (strlen(text) > mf_draft_most(field))
        return mf_draft_too_long(field, where, "write less, or attach a file", err);
    mf_buf kept = {0};
    bool place = (field->flags & MF_F_PLACE) != 0;
    if (is_trimmed(text, field->type == MF_F_IDS) && !place)
        return set_trimmed(draft, field, text, unit, where, today, err);
    add_trimmed(&kept, text, field->type == MF_F_IDS);
    if (place && kept.len > 0)
        mf_places_write(kept.data);
    mf_status status = kept.failed
                           ? mf_fail_memory(err)
                           : set_trimmed(draft, field, mf_buf_str(&kept), unit, where, today, err);
    mf_buf_free(&kept);
    return status;
}

/* ---- the clock and the hand -------------------------------------------------- */

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

static bool is_blank(const char *reason)
{
    return reason == NULL || reason[strspn(reason, " ")] == '\0';
}

bool mf_reason_fits(const char *reason)
{
    size_t len = is_blank(reason) ? 0 : strlen(reason);
    return len > 0 && len <= MF_REASON_MAX && mf_utf8_check(reason, len, NULL) == MF_UTF8_GOOD;
}

mf_status mf_reason_check(const char *reason, const char *where, const char *why, const char *mend,
                          mf_err *err)
{
    if (is_blank(reason))
        return mf_fail(err, MF_INPUT, where, "the reason is missing", why, mend);
    if (!mf_reason_fits(reason))
        return mf_fail(err, MF_INPUT, where, "the reason is not a line of text",
                       "it is one line of UTF-8, 1000 bytes", "write it in one short line");
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
