#include "book/memo.h"

#include "base/fail.h"
#include "book/draft.h"
#include "book/known.h"
#include <stdlib.h>
#include <string.h>

enum {
    SLOTS = 2048, /* of each field: a power of two; a day has 1440 minutes */
    LONGEST = 96,
    LONGEST_JSON = 104,
    LONGEST_WORD = 16,
    DIGITS = 15 /* of a number that JSON keeps exactly */
};

typedef struct slot {
    uint32_t turn; /* of the memo when it was filled; 0 = never */
    uint8_t text_len, word_len;
    char text[LONGEST];
    char json[LONGEST_JSON], word[LONGEST_WORD]; /* of the field, of qualifier */
    mf_value value;
} slot;

struct mf_memo {
    mf_book *book;
    const mf_kind *kind;
    const char *job;
    mf_day today;
    char unit[24];
    bool unit_fits;
    uint32_t turn; /* a new unit begins a new one */
    size_t qualifier;
    slot *slots;
    slot *last[MF_BULK_FIELDS]; /* of each field: most cells say what the row before said */
};

mf_memo *mf_memo_new(mf_book *book, const mf_kind *kind, const char *job, mf_day today)
{
    mf_memo *memo = calloc(1, sizeof *memo);
    if (memo == NULL)
        return NULL;
    *memo = (mf_memo){.book = book, .kind = kind, .job = job, .today = today, .turn = 1};
    memo->unit_fits = true;
    memo->slots = calloc(kind->n_fields * SLOTS, sizeof *memo->slots);
    const mf_field *qualifier = mf_field_named(kind, "qualifier");
    memo->qualifier = qualifier == NULL ? SIZE_MAX : (size_t)(qualifier - kind->fields);
    if (memo->slots == NULL) {
        mf_memo_free(memo);
        return NULL;
    }
    return memo;
}

void mf_memo_free(mf_memo *memo)
{
    if (memo == NULL)
        return;
    free(memo->slots);
    free(memo);
}

void mf_memo_unit(mf_memo *memo, const char *unit)
{
    size_t len = strlen(unit);
    if (memo->unit_fits && strcmp(unit, memo->unit) == 0)
        return;
    memo->turn++;
    memo->unit_fits = len < sizeof memo->unit;
    if (memo->unit_fits)
        memcpy(memo->unit, unit, len + 1);
}

/* ---- a text that is new ------------------------------------------------------------------ */

/* Canonical JSON of value into a place of the slot; 0 when it does not fit or has an
 * escape in it. */
static size_t keep_json(char *to, size_t size, const json_t *value, mf_status *status, mf_err *err)
{
    mf_buf text = {0};
    size_t len = 0;
    if (!mf_json_canonical(&text, value))
        *status = mf_fail_memory(err);
    else if (text.len <= size && memchr(text.data, '\\', text.len) == NULL)
        memcpy(to, text.data, len = text.len);
    mf_buf_free(&text);
    return len;
}

/* A thing that is named must be there. */
static mf_status check_ref(const mf_memo *memo, const mf_field *field, const json_t *value,
                           bool *good, mf_err *err)
{
    const mf_kind *kind = field->ref == NULL ? NULL : mf_kind_named(field->ref);
    const char *id = json_string_value(value);
    if (field->ref == NULL || id == NULL)
        return MF_OK;
    *good = kind != NULL && field->type == MF_F_ID;
    return *good ? mf_known(memo->book, kind, memo->job, id, good, err) : MF_OK;
}

static mf_status keep_value(slot *s, const json_t *value, bool *good, mf_err *err)
{
    mf_status status = MF_OK;
    s->value = (mf_value){.json = NULL};
    if (value == NULL || json_is_null(value))
        return MF_OK;
    s->value.is_number = !json_is_string(value);
    s->value.number = json_is_boolean(value) ? json_is_true(value) : json_integer_value(value);
    s->value.json = s->json;
    s->value.len = keep_json(s->json, sizeof s->json, value, &status, err);
    *good = s->value.len > 0;
    return status;
}

static mf_status keep_word(slot *s, const json_t *word, bool *good, mf_err *err)
{
    mf_status status = MF_OK;
    s->word_len = 0;
    if (word == NULL)
        return MF_OK;
    s->word_len = (uint8_t)keep_json(s->word, sizeof s->word, word, &status, err);
    *good = s->word_len > 0;
    return status;
}

static mf_status take_from(const mf_memo *memo, slot *s, const mf_field *field,
                           const mf_draft *draft, bool *good, mf_err *err)
{
    const json_t *value = json_object_get(draft->body, field->name);
    mf_status status = keep_value(s, value, good, err);
    if (status == MF_OK && *good)
        status = check_ref(memo, field, value, good, err);
    if (status == MF_OK && *good && (field->flags & MF_F_QUALIFIED) != 0)
        status = keep_word(s, json_object_get(draft->body, "qualifier"), good, err);
    return status;
}

static mf_status fill(const mf_memo *memo, slot *s, size_t field, const char *text, bool *good,
                      mf_err *err)
{
    mf_draft *draft = NULL;
    mf_err unwanted = {0};
    const mf_field *of = &memo->kind->fields[field];
    s->turn = 0;
    s->word_len = 0;
    mf_status status = mf_draft_new(&draft, memo->kind, err);
    if (status != MF_OK)
        return status;
    status = mf_draft_set(draft, of->name, text, memo->unit, "", memo->today, &unwanted);
    *good = status == MF_OK;
    if (status == MF_INPUT)
        status = MF_OK;
    else if (status != MF_OK && err != NULL)
        *err = unwanted;
    if (status == MF_OK && *good)
        status = take_from(memo, s, of, draft, good, err);
    mf_draft_free(draft);
    return status;
}

/* ---- looking up ------------------------------------------------------------------------------ */

/* Numbers that count up are new in every row. Digits without a leading zero stand in
 * JSON as they were typed. */
static bool plain_number(const mf_memo *memo, size_t field, const char *text, size_t len,
                         mf_value *out)
{
    mf_parsed parsed;
    const mf_field *of = &memo->kind->fields[field];
    if (of->type != MF_F_INT || len == 0 || len > DIGITS || text[0] == '0' ||
        strspn(text, "0123456789") != len ||
        mf_field_parse(of, text, memo->unit, memo->today, &parsed) != MF_SLIP_NONE)
        return false;
    *out = (mf_value){text, len, parsed.number, true};
    return true;
}

static bool holds(const mf_memo *memo, const slot *s, const char *text, size_t len)
{
    return s->turn == memo->turn && s->text_len == len && memcmp(s->text, text, len) == 0;
}

/* The slot that holds text, or that it goes into. Every text has two to choose from, so
 * that two texts of one place do not push each other out row by row. */
static slot *slot_of(const mf_memo *memo, size_t field, const char *text, size_t len)
{
    uint32_t hash = 2166136261u; /* FNV-1a */
    for (size_t i = 0; i < len; i++)
        hash = (hash ^ (unsigned char)text[i]) * 16777619u;
    size_t at = (hash ^ hash >> 16) & (SLOTS - 1);
    slot *one = &memo->slots[field * SLOTS + at], *other = &memo->slots[field * SLOTS + (at ^ 1)];
    if (holds(memo, other, text, len))
        return other;
    return holds(memo, one, text, len) || one->turn != memo->turn ? one : other;
}

mf_status mf_memo_set(mf_memo *memo, size_t field, const char *text, mf_value *values, bool *good,
                      mf_err *err)
{
    size_t len = strlen(text);
    *good = len <= LONGEST && memo->unit_fits;
    if (!*good || plain_number(memo, field, text, len, &values[field]))
        return MF_OK;
    slot *s = memo->last[field];
    if (s == NULL || !holds(memo, s, text, len))
        s = memo->last[field] = slot_of(memo, field, text, len);
    if (!holds(memo, s, text, len)) {
        mf_status status = fill(memo, s, field, text, good, err);
        if (status != MF_OK || !*good)
            return status;
        s->turn = memo->turn;
        s->text_len = (uint8_t)len;
        memcpy(s->text, text, len);
    }
    values[field] = s->value;
    if (s->word_len > 0 && memo->qualifier != SIZE_MAX)
        values[memo->qualifier] = (mf_value){s->word, s->word_len, 0, false};
    return MF_OK;
}
