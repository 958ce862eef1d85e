#include "journal/local.h"

#include "base/fail.h"
#include "journal/places.h"
#include <mistfold/contain.h>
#include <mistfold/job.h>
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

static bool names_a_step(const char *id)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (size_t i = 0; i < count; i++)
        if (mf_same_room(id, steps[i].id))
            return true;
    return false;
}

/* Which step a tick means must never be in doubt, whatever its capitals. */
static mf_status check_own_step(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    if (!names_a_step(mf_json_string_of(c->body, "id")))
        return MF_OK;
    return refuse(c, "id", "the rule has a step of this name", "ticks would mean both",
                  "choose another name", bad, err);
}

mf_status mf_local_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    mf_local_limit local;
    const mf_limit *federal = NULL;
    char what[200];
    if (strcmp(c->kind->name, "own_step") == 0)
        return check_own_step(c, bad, err);
    if (strcmp(c->kind->name, "house") == 0 || strcmp(c->kind->name, "certificate") == 0)
        return mf_places_check(c, bad, err);
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
