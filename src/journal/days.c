#include "journal/days.h"

#include "base/fail.h"
#include "journal/draft.h"
#include <string.h>

/* Days, and times of one day. Limits of a place have the same check, with their federal row
 * (local.c). */
static const struct {
    const char *kind, *first, *last;
} pairs[] = {
    {"house", "start", "end"},
    {"certificate", "issued", "expires"},
    {"certificate", "issued", "changed"},
    {"certificate", "changed", "amended"},
    {"certificate", "renewal_sent", "renewal_decided"},
    {"own_step", "from_day", "until_day"},
    {"occupancy", "from_day", "until_day"},
    {"practice", "began", "time"},
};

/* An entry is of one day: what went on past midnight is work of two. */
static mf_status refuse_times(const char *where, const char *times[2], mf_err *err)
{
    mf_failf(err, MF_INPUT, where, "", "log work past midnight as two entries, one for each day",
             "%.5s lies before %.5s, when it began", times[1], times[0]);
    mf_fail_name(err, "times", times[1], times[0], NULL);
    return MF_INPUT;
}

static mf_status refuse(const mf_candidate *c, const mf_field *last, const char *days[2],
                        mf_err *err)
{
    char where[MF_WHERE];
    mf_candidate_where(where, c, last);
    if (last->type == MF_F_TIME)
        return refuse_times(where, days, err);
    mf_failf(err, MF_INPUT, where, "", "swap the two days, or correct both in one entry",
             "%.10s lies before %.10s, the first day", days[1], days[0]);
    mf_fail_name(err, "days", days[1], days[0], NULL);
    return MF_INPUT;
}

mf_status mf_days_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (strcmp(pairs[i].kind, c->kind->name) != 0)
            continue;
        const char *days[2] = {json_string_value(json_object_get(c->body, pairs[i].first)),
                               json_string_value(json_object_get(c->body, pairs[i].last))};
        /* YYYY-MM-DD sorts as text, and so does HH:MM. */
        if (days[0] == NULL || days[1] == NULL || strcmp(days[1], days[0]) >= 0)
            continue;
        *bad = mf_field_named(c->kind, pairs[i].last);
        return refuse(c, *bad, days, err);
    }
    return MF_OK;
}

/* ---- times of today ---------------------------------------------------------------------- */

/* What is planned may begin later. */
static bool has_happened(const mf_candidate *c)
{
    return !json_is_true(json_object_get(c->body, "planned"));
}

static bool is_of_today(const mf_candidate *c)
{
    const mf_field *on = mf_field_named(c->kind, "on");
    const char *day = on == NULL ? NULL : json_string_value(json_object_get(c->body, on->name));
    return day != NULL && mf_day_parse(day, NULL) == c->now->today;
}

mf_status mf_times_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    char where[MF_WHERE];
    int32_t latest = MF_MINUTE_NONE;
    if (c->now != NULL && c->now->time != NULL)
        latest = mf_minute_parse(c->now->time);
    if (latest == MF_MINUTE_NONE || !has_happened(c) || !is_of_today(c))
        return MF_OK;
    for (size_t i = 0; i < c->kind->n_fields; i++) {
        const mf_field *field = &c->kind->fields[i];
        const char *text = json_string_value(json_object_get(c->body, field->name));
        if (field->type != MF_F_TIME || text == NULL ||
            mf_minute_parse(text) <= latest + MF_CLOCKS_APART)
            continue;
        *bad = field;
        mf_candidate_where(where, c, field);
        return mf_slip_fail(err, field, where, text, MF_SLIP_TIME_FUTURE);
    }
    return MF_OK;
}
