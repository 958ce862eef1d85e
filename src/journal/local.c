#include "journal/local.h"

#include "base/fail.h"
#include <mistfold/contain.h>
#include <mistfold/place.h>
#include <stdio.h>
#include <string.h>

static const mf_field *field_at(const mf_candidate *c, const char *name)
{
    return mf_field_named(c->kind, name);
}

static int choice_of(const mf_candidate *c, const char *name)
{
    int at = mf_choice(field_at(c, name)->choices, mf_json_string_of(c->body, name));
    return at < 0 ? 0 : at;
}

static void from_body(const mf_candidate *c, mf_local_limit *out)
{
    const json_t *built = json_object_get(c->body, "built_before");
    *out = (mf_local_limit){
        .row = {.id = (mf_limit_id)choice_of(c, "limit"),
                .from = mf_day_parse(mf_json_string_of(c->body, "from_day"), NULL),
                .until = mf_day_parse(mf_json_string_of(c->body, "until_day"), NULL),
                .place = mf_json_string_of(c->body, "place"),
                .citation = mf_json_string_of(c->body, "citation"),
                .status = (mf_status_of_fact)choice_of(c, "status"),
                .note = mf_json_string_of(c->body, "note")},
        .comparison = (mf_local_cmp)choice_of(c, "comparison"),
        .value = mf_json_string_of(c->body, "value"),
        .built_before = json_is_integer(built) ? json_integer_value(built) : MF_NUM_NONE};
    mf_local_limit_fill(out);
}

/* "the federal rule, 40 CFR ..., from 2026-01-12, says <= 6" is written by the
 * caller's words; a day is added only where there is one. */
static void say_looser(char *out, size_t size, const mf_limit *federal)
{
    char from[MF_DAY_TEXT];
    mf_day_text(federal->from, from);
    snprintf(out, size, "it is looser than the federal %s (%s%s%s)", federal->name,
             federal->citation, from[0] == '\0' ? "" : ", from ", from);
}

static mf_status refuse(const mf_candidate *c, const char *name, const char *what, const char *why,
                        const char *mend, const mf_field **bad, mf_err *err)
{
    char where[MF_WHERE];
    *bad = field_at(c, name);
    mf_candidate_where(where, c, *bad);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

/* Which step a tick means must never be in doubt. */
static mf_status check_own_step(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    if (mf_step_named(mf_json_string_of(c->body, "id")) == NULL)
        return MF_OK;
    return refuse(c, "id", "the rule has a step of this name", "ticks would mean both",
                  "choose another name", bad, err);
}

/* ---- where a house stands ---------------------------------------------------------------- */

/* Whether a row of the book is about the place or a wider one. */
static mf_status row_names(const mf_candidate *c, const char *item, size_t len, bool *named,
                           mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_kind *kind = mf_kind_named(MF_KIND_LOCAL_LIMIT);
    mf_status status = c->folds->of(&fold, c->folds->data, "", err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    *named = false;
    for (size_t i = 0; i < n && !*named; i++) {
        const mf_local_limit *row = mf_job_fold_item(fold, kind, i);
        *named =
            row != NULL && row->row.place != NULL && mf_place_lies_in(item, len, row->row.place);
    }
    return status;
}

/* A place that nobody knows would leave out the stricter limits of the one that was meant. */
static mf_status refuse_place(const mf_candidate *c, const char *item, size_t len,
                              const mf_field **bad, mf_err *err)
{
    char what[200], shown[60], mend[80], place[8];
    snprintf(shown, sizeof shown, "%.*s", (int)(len < 40 ? len : 40), item);
    snprintf(place, sizeof place, "US-%.2s", len == 2 ? item : "IA");
    mf_places_write(place);
    snprintf(what, sizeof what, "\"%s\" is not a place that is known here", shown);
    snprintf(mend, sizeof mend, "write %s%s", len == 2 ? "" : "the state like ", place);
    mf_status status = refuse(c, "place", what,
                              "a state is written as ISO 3166-2 has it; any other place is one "
                              "that a row of \"limit places\" names",
                              mend, bad, err);
    mf_fail_name(err, "place", shown, place, NULL);
    return status;
}

static mf_status check_places(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    mf_status status = MF_OK;
    const char *at = mf_json_string_of(c->body, "place");
    while (status == MF_OK && *at != '\0') {
        size_t len = strcspn(at, ",");
        bool known = mf_place_is_state(at, len);
        if (!known)
            status = row_names(c, at, len, &known, err);
        if (status == MF_OK && !known)
            return refuse_place(c, at, len, bad, err);
        at += len + (at[len] == ',');
    }
    return status;
}

mf_status mf_local_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    mf_local_limit local;
    const mf_limit *federal = NULL;
    char what[200];
    if (strcmp(c->kind->name, "own_step") == 0)
        return check_own_step(c, bad, err);
    if (strcmp(c->kind->name, "house") == 0)
        return check_places(c, bad, err);
    if (strcmp(c->kind->name, MF_KIND_LOCAL_LIMIT) != 0)
        return MF_OK;
    from_body(c, &local);
    switch (mf_local_limit_check(&local, &federal)) {
    case MF_LOCAL_GOOD:
        return MF_OK;
    case MF_LOCAL_NEVER:
        return refuse(c, "limit", "no place sets this limit", "it is a check of our own",
                      "take the line out", bad, err);
    case MF_LOCAL_VALUE:
        return refuse(c, "value", "the value is not a number in the unit of the limit",
                      local.row.says, "write the number alone, in the unit \"limit list\" shows",
                      bad, err);
    case MF_LOCAL_OTHER:
        return refuse(c, "comparison", "it compares to the other side than the federal rule",
                      local.row.says, "leave the comparison out, or turn it", bad, err);
    case MF_LOCAL_DATES:
        return refuse(c, "until_day", "the last day lies before the first", "",
                      "swap the two dates", bad, err);
    case MF_LOCAL_FEDERAL:
        return refuse(c, "place", "US is the place of the federal rule", "",
                      "name the state, tribe, city or job", bad, err);
    case MF_LOCAL_LOOSER:
        break;
    }
    say_looser(what, sizeof what, federal);
    return refuse(c, "value", what, "a place may only be stricter; the stricter rule wins",
                  "take the line out, or limit its days with until", bad, err);
}
