/* Is this house and this work under the rule? 40 CFR 745.82, 745.83, 745.103.
 * The answer is one finding; facts that nobody stated are warnings, as they were
 * read to the side of safety. */
#include "core/audit_rows.h"

#include "core/facility.h"
#include "core/house_says.h"
#include "core/opening_parts.h"
#include "core/text.h"
#include "core/unlisted_work.h"

static const char *const cover_names[] = {
    [MF_COVER_BUILT_BEFORE] = "cover-built-before",
    [MF_COVER_YEAR_UNKNOWN] = "cover-year-unknown",
    [MF_COVER_BUILT_LATER] = "cover-built-later",
    [MF_COVER_NOT_FOR_PAY] = "cover-not-for-pay",
    [MF_COVER_ELDER_HOUSING] = "cover-elder-housing",
    [MF_COVER_ZERO_BEDROOM] = "cover-zero-bedroom",
    [MF_COVER_NOTHING_PAINTED] = "cover-nothing-painted",
    [MF_COVER_ALL_FREE] = "cover-all-free",
    [MF_COVER_MINOR] = "cover-minor",
    [MF_COVER_NO_FACILITY] = "cover-no-facility",
    [MF_COVER_ZERO_BEDROOM_BEFORE] = "cover-zero-bedroom-before",
};

static bool by_year(mf_cover_why why)
{
    return why == MF_COVER_BUILT_BEFORE || why == MF_COVER_BUILT_LATER;
}

void mf_show_covered(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_cover_answer *cover = &asked->cover;
    (void)subject;
    mf_say(out, MF_MET, cover_names[cover->why]);
    out->evidence = mf_or_empty(asked->house->src.entry);
    if (by_year(cover->why)) {
        mf_say_limit(out, asked->job, MF_LIMIT_YEAR_BUILT, asked->house->start);
        mf_say_numbers(out, MF_UNIT_CALENDAR_YEAR, asked->house->year_built,
                       out->limit == NULL ? MF_NUM_NONE : out->limit->value);
        return;
    }
    if (cover->why == MF_COVER_ZERO_BEDROOM || cover->why == MF_COVER_ZERO_BEDROOM_BEFORE) {
        mf_say_limit(out, asked->job, MF_LIMIT_ZERO_BEDROOM_CHILD, asked->house->start);
        return;
    }
    mf_say_numbers(out, MF_UNIT_COUNT, (int64_t)cover->n_free, (int64_t)cover->n_affected);
    if (cover->why == MF_COVER_MINOR)
        mf_say_limit(out, asked->job, cover->minor_limit->id, asked->house->start);
}

/* ---- facts of the house ------------------------------------------------------------ */

static void say_fact(const mf_asked *asked, bool known, mf_finding *out)
{
    mf_say(out, known ? MF_MET : MF_WARNING, known ? "fact-stated" : "fact-unknown");
    out->evidence = mf_or_empty(asked->house->src.entry);
}

void mf_show_year(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->year_built != MF_NUM_NONE, out);
}

void mf_show_pay(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->for_compensation != MF_UNKNOWN, out);
    mf_house_says paid;
    if (asked->house->for_compensation != MF_NOT)
        return;
    if (asked->house->owner_occupied != MF_YES) {
        mf_say(out, MF_WARNING, "rent-is-pay");
    } else if (mf_pay_presumed(asked->job, &paid)) {
        mf_say(out, MF_WARNING, paid.why);
        out->evidence = paid.evidence;
    }
}

void mf_show_owner_lives(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    mf_house_says other;
    say_fact(asked, asked->house->owner_occupied != MF_UNKNOWN, out);
    if (!mf_owner_doubted(asked->job, &other))
        return;
    mf_say(out, MF_WARNING, other.why);
    out->evidence = other.evidence;
}

void mf_show_elder(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->elder_or_disabled != MF_UNKNOWN, out);
}

void mf_show_zero_bedroom(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->zero_bedroom != MF_UNKNOWN, out);
}

/* Whether a child lives there decides only where the housing might be exempt. */
const char *mf_if_child_matters(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    bool matters =
        asked->house->elder_or_disabled == MF_YES || asked->house->zero_bedroom == MF_YES;
    return matters ? NULL : "fact-not-asked";
}

void mf_show_child(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    const mf_limit *age = mf_limit_for(asked->job, MF_LIMIT_CHILD_AGE, asked->start);
    const mf_limit *federal = mf_limit_on(MF_LIMIT_CHILD_AGE, asked->start);
    say_fact(asked, asked->house->child_under_6 != MF_UNKNOWN, out);
    /* That none is under six says nothing of those whom a place or contract counts as well. */
    if (asked->house->child_under_6 == MF_NOT && age != NULL && federal != NULL &&
        age->value > federal->value) {
        mf_say(out, MF_WARNING, "child-older-unsaid");
        mf_say_limit(out, asked->job, MF_LIMIT_CHILD_AGE, asked->start);
        mf_say_numbers(out, MF_UNIT_YEARS, federal->value, age->value);
    }
}

/* What another entry says of who lives or comes there is believed, where a word of the house entry
 * would exempt it. */
const char *mf_if_house_doubted(const mf_asked *asked, const mf_subject *subject)
{
    const mf_house *it = asked->house;
    bool alone = it->children_visit == MF_NOT || asked->job->n_visit > 0;
    bool kind = it->elder_or_disabled == MF_YES || it->zero_bedroom == MF_YES;
    (void)subject;
    return (it->building == MF_BUILDING_OTHER ? alone : kind) ? NULL : "fact-not-asked";
}

void mf_show_house_agrees(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_house_says against;
    (void)subject;
    mf_say(out, MF_MET, "house-agrees");
    out->evidence = mf_or_empty(asked->house->src.entry);
    bool housing = asked->house->building != MF_BUILDING_OTHER;
    if (!mf_house_contradicted(asked->job, &against) &&
        !(housing && asked->house->zero_bedroom == MF_YES &&
          mf_bedroom_listed(asked->job, &against)))
        return;
    mf_say(out, MF_WARNING, against.why);
    out->evidence = against.evidence;
}

/* ---- who visits ------------------------------------------------------------------------ */

const char *mf_if_visits(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    if (asked->job->n_visit > 0)
        return NULL;
    return asked->house->building == MF_BUILDING_OTHER ? NULL : "no-visits";
}

/* The number that is not reached, the first of them as 745.83 names them. */
static void say_below(const mf_asked *asked, mf_finding *out)
{
    const mf_facility_answer *it = &asked->visits;
    const struct {
        mf_limit_id id;
        int64_t found;
        mf_unit unit;
        const char *why;
    } rows[] = {
        {MF_LIMIT_VISIT_DAYS, it->days, MF_UNIT_DAYS, "visits-few-days"},
        {MF_LIMIT_VISIT_WEEK, it->week_minutes, MF_UNIT_MINUTES, "visits-short-week"},
        {MF_LIMIT_VISIT_YEAR, it->year_minutes, MF_UNIT_MINUTES, "visits-short-year"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const mf_limit *limit = mf_limit_for(asked->job, rows[i].id, asked->house->start);
        if (limit == NULL || mf_limit_holds(limit, rows[i].found))
            continue;
        mf_say(out, MF_MET, rows[i].why);
        mf_say_limit(out, asked->job, rows[i].id, asked->house->start);
        mf_say_numbers(out, rows[i].unit, rows[i].found, limit->value);
        return;
    }
}

/* Of some visits it is not known whether they are all: a building that is no housing, or that
 * children are said to visit regularly, is presumed a facility. */
static void say_some(const mf_asked *asked, mf_finding *out)
{
    bool presumed = asked->house->building == MF_BUILDING_OTHER || asked->visits.facility;
    mf_say(out, MF_WARNING, presumed ? "visits-not-all" : "visits-maybe-more");
}

/* Visits make a facility; that they do not is no proof that it is none where it
 * is said to be one. */
void mf_show_facility(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_facility_answer *it = &asked->visits;
    (void)subject;
    mf_say_limit(out, asked->job, MF_LIMIT_VISIT_WEEK, asked->house->start);
    out->subject = it->child;
    mf_say_days(out, it->week, MF_DAY_NONE);
    mf_say_numbers(out, MF_UNIT_MINUTES, it->week_minutes, it->year_minutes);
    bool known = mf_visits_known(asked->job);
    if (it->reached)
        mf_say(out, MF_MET, "visits-facility");
    else if (asked->job->n_visit == 0)
        mf_say(out, known ? MF_MET : MF_WARNING, known ? "visits-denied" : "visits-unknown");
    else if (known || asked->house->building == MF_BUILDING_FACILITY)
        say_below(asked, out);
    else
        say_some(asked, out);
}

/* ---- how much is disturbed ---------------------------------------------------------------- */

const char *mf_if_minor(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    bool unsaid = asked->cover.minor_unsaid != NULL && asked->cover.cover == MF_COVER_YES;
    if (asked->cover.minor_limit != NULL || unsaid)
        return NULL;
    return mf_window_by_name(asked->job) ? "minor-never-named" : "minor-never";
}

/* Of a room that nobody said there is no name to print. */
static const char *in_room(const mf_asked *asked, const char *named, const char *unsaid)
{
    return mf_given(asked->cover.minor_room) ? named : unsaid;
}

/* A limit of the place that begins after the planned start holds a job of no said end. */
static const char *over_minor(const mf_asked *asked, const mf_limit *limit)
{
    bool inside = limit->id == MF_LIMIT_MINOR_INTERIOR;
    if (asked->house->end == MF_DAY_NONE && limit->from > asked->house->start)
        return inside ? in_room(asked, "minor-over-later", "minor-over-later-no-room")
                      : "minor-over-later-outside";
    return inside ? in_room(asked, "minor-over", "minor-over-no-room") : "minor-over-outside";
}

void mf_show_minor(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_cover_answer *cover = &asked->cover;
    const mf_limit *limit = cover->minor_limit;
    (void)subject;
    if (cover->minor_unsaid != NULL && cover->cover == MF_COVER_YES) {
        mf_say(out, MF_WARNING, "minor-removal-unsaid");
        out->subject = mf_or_empty(cover->minor_unsaid->id);
        out->evidence = mf_or_empty(cover->minor_unsaid->src.entry);
        return;
    }
    mf_say_limit(out, asked->job, limit->id, asked->house->start);
    mf_say_numbers(out, MF_UNIT_SQFT_100, cover->minor_sqft_100, limit->value);
    out->subject = cover->minor_room;
    bool inside = limit->id == MF_LIMIT_MINOR_INTERIOR;
    if (cover->minor_sqft_100 == MF_NUM_NONE)
        mf_say(out, MF_MET,
               inside ? in_room(asked, "minor-unknown", "minor-unknown-no-room")
                      : "minor-unknown-outside");
    else if (mf_limit_holds(limit, cover->minor_sqft_100))
        mf_say(out, MF_MET,
               inside ? in_room(asked, "minor-within", "minor-within-no-room")
                      : "minor-within-outside");
    else
        mf_say(out, MF_MET, over_minor(asked, limit));
    if (limit->from > asked->house->start)
        mf_say_days(out, limit->from, MF_DAY_NONE);
}

void mf_show_work_listed(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_unlisted_work beside;
    (void)subject;
    mf_say(out, MF_MET, "work-listed");
    if (!mf_work_unlisted(asked->job, &beside))
        return;
    mf_say(out, MF_WARNING, beside.why);
    out->subject = beside.what;
    out->evidence = beside.evidence;
}

/* ---- stricter rules of the place --------------------------------------------------------------
 */

const char *mf_if_place(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    if (mf_given(asked->house->place))
        return NULL;
    for (size_t i = 0; i < asked->job->n_local_limit; i++) {
        if (mf_local_limit_holds(asked->job, &asked->job->local_limit[i]))
            return NULL; /* a contract */
    }
    return "place-not-said";
}

void mf_show_place(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    int64_t n = 0;
    (void)subject;
    for (size_t i = 0; i < asked->job->n_local_limit; i++) {
        const mf_local_limit *it = &asked->job->local_limit[i];
        if (!mf_local_limit_holds(asked->job, it))
            continue;
        n++;
        out->evidence = mf_or_empty(it->src.entry);
    }
    out->subject = mf_or_empty(asked->house->place);
    mf_say(out, n > 0 ? MF_MET : MF_WARNING, n > 0 ? "place-rows" : "place-no-rows");
    if (mf_place_unread(asked->job))
        mf_say(out, MF_WARNING, "place-unread");
    mf_say_numbers(out, MF_UNIT_COUNT, n, MF_NUM_NONE);
}
