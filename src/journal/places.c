#include "journal/places.h"

#include "base/fail.h"
#include "base/letters.h"
#include <mistfold/place.h>
#include <mistfold/program.h>
#include <stdio.h>
#include <string.h>

/* The first letter of a state comes after "US-"; a letter apart is a slip of the finger, of the
 * longer names of rows two are. */
enum { ITEM = 48, FIRST = 3, NEAR = 1, NEAR_ROW = 2 };

/* ---- which one was meant ----------------------------------------------------------------- */

/* How like the state is to what was typed: 3 = the same, 2 = a letter is too much or missing, or
 * it is another than the first, 1 = the first is another, 0 = it is not. */
static int likeness(const char *state, const char *typed)
{
    int apart = mf_letters_apart(state, typed);
    bool as_long = strlen(typed) == strlen(state);
    if (apart == 0 || apart > NEAR)
        return apart == 0 ? 3 : 0;
    return !as_long || mf_lower(state[FIRST]) == mf_lower(typed[FIRST]) ? 2 : 1;
}

static void guess_like(mf_buf *out, const char *typed, int like)
{
    size_t count = 0, n = 0;
    const char *const *states = mf_place_states(&count);
    for (size_t i = 0; i < count; i++)
        if (likeness(states[i], typed) == like)
            mf_buf_printf(out, "%s%s", n++ == 0 ? "" : ", ", states[i]);
}

void mf_place_guess(mf_buf *out, const char *item, size_t len)
{
    char typed[ITEM];
    size_t before = out->len;
    snprintf(typed, sizeof typed, "%s%.*s", len == 2 ? "US-" : "", (int)(len < 40 ? len : 40),
             item);
    if (mf_same_but_case(typed, "US-US")) /* the country: no state is meant */
        return;
    for (int like = 3; like > 0 && out->len == before; like--)
        guess_like(out, typed, like);
}

void mf_place_mend(mf_buf *out, const mf_buf *guess)
{
    if (guess->len > 0)
        mf_buf_printf(out, "did you mean %s?", mf_buf_str(guess));
    else
        mf_buf_text(out, "write the state like US-IA");
}

/* ---- what the rows of the book name ------------------------------------------------------- */

typedef struct of_rows {
    bool named;      /* a row is about the place, or a wider one */
    char near[ITEM]; /* else what the nearest is about, "" = none is like it */
    int apart;
} of_rows;

static void ask_row(of_rows *out, const char *place, const char *item, size_t len)
{
    char typed[ITEM];
    snprintf(typed, sizeof typed, "%.*s", (int)(len < 40 ? len : 40), item);
    int apart = mf_letters_apart(place, typed);
    out->named = out->named || mf_place_lies_in(item, len, place);
    if (apart <= NEAR_ROW && (size_t)apart < len && apart < out->apart) {
        out->apart = apart;
        snprintf(out->near, sizeof out->near, "%.40s", place);
    }
}

static mf_status ask_rows(const mf_candidate *c, const char *item, size_t len, of_rows *out,
                          mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_kind *kind = mf_kind_named(MF_KIND_LOCAL_LIMIT);
    mf_status status = c->folds->of(&fold, c->folds->data, "", err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    *out = (of_rows){.apart = MF_FAR_APART};
    for (size_t i = 0; i < n; i++) {
        const mf_local_limit *row = mf_job_fold_item(fold, kind, i);
        if (row != NULL && row->row.place != NULL)
            ask_row(out, row->row.place, item, len);
    }
    return status;
}

/* ---- the house, a certificate
 * ---------------------------------------------------------------------------- */

/* A place that nobody knows would leave out the stricter limits of the one that was meant. */
static mf_status refuse(const mf_candidate *c, const mf_field *field, const char *item, size_t len,
                        const char *near_row, mf_err *err)
{
    char where[MF_WHERE], shown[60];
    mf_buf near = {0}, mend = {0};
    mf_buf_text(&near, near_row);
    if (near.len == 0)
        mf_place_guess(&near, item, len);
    mf_place_mend(&mend, &near);
    mf_candidate_where(where, c, field);
    snprintf(shown, sizeof shown, "%.*s", (int)(len < 40 ? len : 40), item);
    mf_failf(err, MF_INPUT, where,
             "a state is written as ISO 3166-2 has it; any other place is one that a row of "
             "\"limit places\" names",
             mf_buf_str(&mend), "\"%s\" is not a place that is known here", shown);
    mf_fail_name(err, near.len > 0 ? "place.near" : "place", shown, mf_buf_str(&near), NULL);
    mf_buf_free(&near);
    mf_buf_free(&mend);
    return MF_INPUT;
}

/* US is no place of a house; as a program it is EPA's. */
static bool is_epa(const mf_candidate *c, const char *item, size_t len)
{
    return strcmp(c->kind->name, "certificate") == 0 && len == strlen(MF_PROGRAM_EPA) &&
           strncmp(item, MF_PROGRAM_EPA, len) == 0;
}

static mf_status check_field(const mf_candidate *c, const mf_field *field, mf_err *err)
{
    of_rows rows;
    mf_status status = MF_OK;
    const char *at = mf_json_string_of(c->body, field->name);
    while (status == MF_OK && *at != '\0') {
        size_t len = strcspn(at, ",");
        if (!mf_place_is_state(at, len) && !is_epa(c, at, len)) {
            status = ask_rows(c, at, len, &rows, err);
            if (status == MF_OK && !rows.named)
                return refuse(c, field, at, len, rows.near, err);
        }
        at += len + (at[len] == ',');
    }
    return status;
}

mf_status mf_places_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < c->kind->n_fields; i++) {
        const mf_field *field = &c->kind->fields[i];
        if (field->type != MF_F_IDS || (field->flags & MF_F_PLACE) == 0)
            continue; /* a row of limits is what names a place */
        status = check_field(c, field, err);
        if (status == MF_INPUT)
            *bad = field;
    }
    return status;
}
