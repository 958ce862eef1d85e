#include "book/import_fast.h"

#include "base/fail.h"
#include "base/letters.h"
#include "book/component_of.h"
#include "book/memo.h"
#include "book/row.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    INSTRUMENTS = 16, /* whose highest number is kept */
    PLACES = 256,     /* of components: a power of two */
    LONGEST_PLACE = 128,
    LONGEST_ID = 64,
    RECENT = 64 /* rows that may wait to be written (bulk.c) */
};

typedef struct instrument {
    char serial[LONGEST_ID];
    int64_t highest; /* number of its readings in the job */
} instrument;

/* Opening, component and side as written, and the component they mean. */
typedef struct place {
    char key[LONGEST_PLACE], id[LONGEST_ID];
} place;

struct mf_fast {
    const mf_import *in;
    mf_bulk *bulk;
    mf_memo *memo;
    size_t field[MF_COL_COUNT]; /* of the kind, MF_BULK_FIELDS = none */
    size_t number, instrument, component, purpose;
    instrument instruments[INSTRUMENTS];
    size_t n_instruments;
    struct {
        int64_t number;
        size_t instrument;
    } recent[RECENT];
    size_t n_recent;
    place *places;
};

/* ---- opening ---------------------------------------------------------------------------- */

static size_t index_of(const mf_kind *kind, size_t member)
{
    const mf_field *field = member == MF_NO_MEMBER ? NULL : mf_field_at(kind, member);
    return field == NULL ? MF_BULK_FIELDS : (size_t)(field - kind->fields);
}

static mf_status make(mf_fast **out, const mf_import *in, mf_err *err)
{
    mf_fast *fast = calloc(1, sizeof *fast);
    *out = fast;
    if (fast == NULL)
        return mf_fail_memory(err);
    fast->in = in;
    fast->places = calloc(PLACES, sizeof *fast->places);
    fast->memo = mf_memo_new(in->book, in->kind, in->job, in->now->today);
    if (fast->places == NULL || fast->memo == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < MF_COL_COUNT; i++)
        fast->field[i] =
            i == MF_COL_COMPONENT ? MF_BULK_FIELDS : index_of(in->kind, mf_columns[i].member);
    fast->number = index_of(in->kind, offsetof(mf_reading, number));
    fast->instrument = index_of(in->kind, offsetof(mf_reading, instrument));
    fast->component = index_of(in->kind, offsetof(mf_reading, component));
    fast->purpose = index_of(in->kind, offsetof(mf_reading, purpose));
    return mf_bulk_open(&fast->bulk, in->book, in->kind, in->job, in->now, err);
}

mf_status mf_fast_open(mf_fast **out, const mf_import *in, mf_err *err)
{
    mf_status status = make(out, in, err);
    if (status == MF_OK && *out != NULL && (*out)->bulk != NULL)
        return MF_OK;
    mf_fast_free(*out);
    *out = NULL;
    return status;
}

void mf_fast_free(mf_fast *fast)
{
    if (fast == NULL)
        return;
    mf_bulk_free(fast->bulk);
    mf_memo_free(fast->memo);
    free(fast->places);
    free(fast);
}

/* ---- what a row says --------------------------------------------------------------------------
 */

static mf_status set_cells(mf_fast *fast, const char *const cells[MF_COL_COUNT], mf_value *values,
                           bool *good, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && *good && i < MF_COL_COUNT; i++)
        if (fast->field[i] != MF_BULK_FIELDS && cells[i][0] != '\0')
            status = mf_memo_set(fast->memo, fast->field[i], cells[i], values, good, err);
    return status;
}

static mf_status set_purpose(mf_fast *fast, const char *const cells[MF_COL_COUNT], mf_value *values,
                             mf_purpose *purpose, bool *good, mf_err *err)
{
    const char *const *words = fast->in->kind->fields[fast->purpose].choices;
    const char *word = cells[MF_COL_PURPOSE], *component = cells[MF_COL_COMPONENT];
    int said = MF_READ_PAINT;
    if (word[0] != '\0')
        said = mf_choice(words, word);
    else if (mf_same_but_case(component, words[MF_READ_CALIBRATION]))
        said = MF_READ_CALIBRATION;
    else if (mf_same_but_case(component, words[MF_READ_SUBSTRATE]))
        said = MF_READ_SUBSTRATE;
    *good = said >= 0;
    if (!*good)
        return MF_OK;
    *purpose = (mf_purpose)said;
    return mf_memo_set(fast->memo, fast->purpose, words[said], values, good, err);
}

/* The place in the table for opening, component and side; NULL when they are too
 * long. key is what it must hold. */
static place *place_of(const mf_fast *fast, const char *const cells[MF_COL_COUNT],
                       char key[LONGEST_PLACE])
{
    static const int parts[] = {MF_COL_OPENING, MF_COL_COMPONENT, MF_COL_SIDE};
    size_t used = 0;
    uint32_t hash = 2166136261u; /* FNV-1a */
    for (size_t i = 0; i < 3; i++) {
        size_t len = strlen(cells[parts[i]]);
        if (used + len + 2 > LONGEST_PLACE)
            return NULL;
        memcpy(key + used, cells[parts[i]], len);
        used += len;
        key[used++] = '\x1f'; /* in no id */
    }
    key[used] = '\0';
    for (size_t i = 0; i < used; i++)
        hash = (hash ^ (unsigned char)key[i]) * 16777619u;
    return &fast->places[(hash ^ hash >> 16) & (PLACES - 1)];
}

static mf_status find_component(const mf_fast *fast, const char *const cells[MF_COL_COUNT],
                                place *at, const char *key, bool *good, mf_err *err)
{
    const mf_import *in = fast->in;
    mf_component_query query = {in->book, in->job, cells[MF_COL_OPENING], cells[MF_COL_COMPONENT],
                                cells[MF_COL_SIDE]};
    mf_component_answer answer = {0};
    mf_status status = mf_component_of(&query, &answer, err);
    *good = status == MF_OK && answer.what[0] == '\0' && strlen(answer.id) < LONGEST_ID;
    if (*good) {
        snprintf(at->key, sizeof at->key, "%s", key);
        snprintf(at->id, sizeof at->id, "%s", answer.id);
    }
    return status;
}

static mf_status set_component(mf_fast *fast, const char *const cells[MF_COL_COUNT],
                               mf_value *values, mf_purpose purpose, bool *good, mf_err *err)
{
    char key[LONGEST_PLACE];
    mf_status status = MF_OK;
    if (purpose == MF_READ_CALIBRATION || purpose == MF_READ_SUBSTRATE) {
        *good = cells[MF_COL_OPENING][0] == '\0';
        return MF_OK;
    }
    place *at = place_of(fast, cells, key);
    *good = at != NULL;
    if (at != NULL && strcmp(at->key, key) != 0)
        status = find_component(fast, cells, at, key, good, err);
    if (status != MF_OK || !*good)
        return status;
    return mf_memo_set(fast->memo, fast->component, at->id, values, good, err);
}

static bool all_needed(const mf_kind *kind, const mf_value *values)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if ((kind->fields[i].flags & MF_F_NEEDED) != 0 && values[i].json == NULL)
            return false;
    return true;
}

/* ---- whether it is new
 * ----------------------------------------------------------------------------- */

static mf_status find_highest(const mf_fast *fast, instrument *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &fast->in->book->db,
                                   "SELECT ifnull(max(number), -1) FROM reading"
                                   " WHERE job = ?1 AND instrument = ?2",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, fast->in->job);
    mf_stmt_text(&stmt, 2, out->serial);
    status = mf_stmt_step(&stmt, &row, err);
    out->highest = row ? mf_stmt_number(&stmt, 0) : -1;
    mf_stmt_done(&stmt);
    return status;
}

/* NULL when there are too many of them. */
static mf_status instrument_of(mf_fast *fast, const char *serial, size_t len, instrument **out,
                               mf_err *err)
{
    *out = NULL;
    for (size_t i = 0; i < fast->n_instruments; i++)
        if (strncmp(fast->instruments[i].serial, serial, len) == 0 &&
            fast->instruments[i].serial[len] == '\0')
            *out = &fast->instruments[i];
    if (*out != NULL || fast->n_instruments == INSTRUMENTS || len >= LONGEST_ID)
        return MF_OK;
    /* It may be among what the slow way logged, but not among what waits. */
    instrument *fresh = &fast->instruments[fast->n_instruments];
    memcpy(fresh->serial, serial, len);
    fresh->serial[len] = '\0';
    mf_status status = find_highest(fast, fresh, err);
    if (status == MF_OK) {
        fast->n_instruments++;
        *out = fresh;
    }
    return status;
}

static mf_status in_book(const mf_fast *fast, const instrument *of, int64_t number, bool *found,
                         mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &fast->in->book->db,
                                   "SELECT 1 FROM reading"
                                   " WHERE job = ?1 AND number = ?2 AND instrument = ?3",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, fast->in->job);
    mf_stmt_int(&stmt, 2, number);
    mf_stmt_text(&stmt, 3, of->serial);
    status = mf_stmt_step(&stmt, found, err);
    mf_stmt_done(&stmt);
    return status;
}

/* Exports count up: a number over the highest is new without a look. */
static mf_status is_new(mf_fast *fast, const mf_value *values, bool *good, mf_err *err)
{
    instrument *of = NULL;
    int64_t number = values[fast->number].number;
    const mf_value *serial = &values[fast->instrument];
    bool found = false;
    mf_status status = instrument_of(fast, serial->json + 1, serial->len - 2, &of, err);
    *good = of != NULL;
    if (status != MF_OK || !*good)
        return status;
    size_t at = (size_t)(of - fast->instruments);
    for (size_t i = 0; number <= of->highest && i < fast->n_recent; i++)
        found = found || (fast->recent[i].number == number && fast->recent[i].instrument == at);
    if (number <= of->highest && !found)
        status = in_book(fast, of, number, &found, err);
    *good = !found;
    if (status != MF_OK || found)
        return status;
    of->highest = number > of->highest ? number : of->highest;
    fast->recent[fast->n_recent].number = number;
    fast->recent[fast->n_recent++].instrument = at;
    return MF_OK;
}

/* ---- the way
 * ------------------------------------------------------------------------------------------ */

mf_status mf_fast_finish(mf_fast *fast, mf_err *err)
{
    fast->n_recent = 0;
    return mf_bulk_flush(fast->bulk, err);
}

static mf_status judge(mf_fast *fast, const char *const cells[MF_COL_COUNT], mf_value *values,
                       mf_purpose *purpose, bool *good, mf_err *err)
{
    *good = true;
    mf_status status = set_cells(fast, cells, values, good, err);
    if (status == MF_OK && *good)
        status = set_purpose(fast, cells, values, purpose, good, err);
    if (status == MF_OK && *good)
        status = set_component(fast, cells, values, *purpose, good, err);
    if (status != MF_OK || !*good)
        return status;
    *good = all_needed(fast->in->kind, values);
    return *good ? is_new(fast, values, good, err) : MF_OK;
}

mf_status mf_fast_row(mf_fast *fast, const char *const cells[MF_COL_COUNT], const char *unit,
                      bool *taken, mf_purpose *purpose, int64_t *seq, mf_err *err)
{
    mf_value values[MF_BULK_FIELDS] = {{.json = NULL}};
    mf_status status = MF_OK;
    *taken = false;
    if (fast->n_recent == RECENT)
        status = mf_fast_finish(fast, err);
    mf_memo_unit(fast->memo, unit);
    if (status == MF_OK)
        status = judge(fast, cells, values, purpose, taken, err);
    if (status == MF_OK && *taken)
        status = mf_bulk_add(fast->bulk, values, seq, taken, err);
    if (status == MF_OK && !*taken)
        status = mf_fast_finish(fast, err);
    return status;
}

void mf_fast_note(mf_fast *fast, const mf_draft *draft)
{
    const char *serial = json_string_value(json_object_get(draft->body, "instrument"));
    int64_t number = json_integer_value(json_object_get(draft->body, "number"));
    mf_bulk_moved(fast->bulk);
    for (size_t i = 0; serial != NULL && i < fast->n_instruments; i++) {
        instrument *of = &fast->instruments[i];
        if (strcmp(of->serial, serial) == 0 && number > of->highest)
            of->highest = number;
    }
}
