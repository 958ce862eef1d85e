/* Times of day that cannot be: later than the moment asked, or than the moment at which they were
 * logged. The clock or the zone of the device was wrong, so nobody knows when it happened, and a
 * wait or an order that rests on it shows nothing: 40 CFR 745.85(b)(1)(ii), 745.86(a). A time that
 * is typed is refused for it; what a merge brings in is history, and is judged. */
#include "core/audit_rows.h"

#include "core/logged.h"
#include "core/text.h"
#include "core/when.h"
#include <string.h>

/* On another day the clock may have been put on or back for the summer. Common practice. */
enum { SUMMER_TIME = 60 };

/* Since when what the item says stands: its last correction was typed, too. */
static const char *said_at(const mf_job *job, const mf_src *src)
{
    for (size_t i = 0; mf_given(src->correction) && i < job->n_correction; i++)
        if (mf_same(job->correction[i].src.entry, src->correction))
            return job->correction[i].src.at;
    return src->at;
}

static int64_t number_of(const mf_kind *kind, const char *name, const void *item)
{
    const mf_field *field = mf_field_named(kind, name);
    return field == NULL ? MF_NUM_NONE : mf_item_value(field, item).number;
}

/* The last time of its day that it says; MF_NUM_NONE = it has no day, or is planned. */
static int64_t latest_said(const mf_kind *kind, const void *item)
{
    const mf_field *on = mf_field_named(kind, "on");
    bool timed = false;
    int64_t minute = 0;
    for (size_t i = 0; i < kind->n_fields; i++) {
        if (kind->fields[i].type != MF_F_TIME)
            continue;
        const mf_value value = mf_item_value(&kind->fields[i], item);
        timed = true;
        if (value.given && value.number > minute)
            minute = value.number;
    }
    if (!timed || on == NULL || number_of(kind, "planned", item) == MF_YES)
        return MF_NUM_NONE;
    const mf_value day = mf_item_value(on, item);
    return day.given ? mf_when((mf_day)day.number, (int32_t)minute) : MF_NUM_NONE;
}

/* Why what the item says cannot be, or NULL. */
static const char *impossible(const mf_job *job, const mf_kind *kind, const void *item)
{
    const mf_src *src = item; /* the first member of every kind */
    int64_t said = latest_said(kind, item), now = mf_logged_minute(job->clock.at);
    if (said == MF_NUM_NONE)
        return NULL;
    said -= job->clock.ahead_min + MF_CLOCKS_APART;
    if (said > now)
        return "time-to-come";
    int64_t logged = mf_logged_minute(said_at(job, src));
    if (logged == MF_NUM_NONE)
        return NULL;
    bool today =
        mf_when_day(logged + job->clock.ahead_min) == mf_when_day(now + job->clock.ahead_min);
    return said > logged + (today ? 0 : SUMMER_TIME) ? "time-after-logged" : NULL;
}

/* No zone lies farther from UTC. */
enum { FARTHEST_ZONE = 14 * 60 };

const char *mf_if_clock(const mf_asked *asked, const mf_subject *subject)
{
    const mf_clock *clock = &asked->job->clock;
    bool zone = clock->ahead_min >= -FARTHEST_ZONE && clock->ahead_min <= FARTHEST_ZONE;
    (void)subject;
    return !zone || mf_logged_minute(clock->at) == MF_NUM_NONE ? "clock-not-told" : NULL;
}

/* The first speaks for all. */
void mf_show_times(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    size_t n_kinds, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    (void)subject;
    mf_say(out, MF_MET, "times-can-be");
    for (size_t k = 0; k < n_kinds; k++) {
        const unsigned char *items = mf_kind_items(asked->whole, &kinds[k], &count);
        for (size_t i = 0; i < count; i++) {
            const char *why = impossible(asked->job, &kinds[k], items + i * kinds[k].size);
            if (why == NULL)
                continue;
            mf_say(out, MF_LACKING, why);
            mf_say_days(out, (mf_day)number_of(&kinds[k], "on", items + i * kinds[k].size),
                        MF_DAY_NONE);
            out->evidence = mf_entry_of(items + i * kinds[k].size);
            return;
        }
    }
}
