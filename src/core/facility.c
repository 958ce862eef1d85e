/* Child-occupied facility by the arithmetic of visits. 40 CFR 745.83. Readings to
 * the side of safety: visits of one day add up to that day's visit, all visits of
 * a child count toward the year, and any span of one year is a year. */
#include <mistfold/house.h>

#include "core/assessor_term.h"
#include "core/facility.h"
#include "core/text.h"
#include "core/when.h"
#include <mistfold/place.h>

enum { WEEK = 7 };

static mf_day last_of(const mf_visit *visit)
{
    bool weekly = visit->weekly_until != MF_DAY_NONE && visit->weekly_until > visit->on;
    return weekly ? visit->weekly_until : visit->on;
}

/* Whether the child is young enough on the day. */
static bool young(const mf_job *job, const mf_visit *visit, mf_day day)
{
    const mf_limit *age = mf_limit_for(job, MF_LIMIT_CHILD_AGE, day);
    return visit->born == MF_DAY_NONE || age == NULL ||
           day < mf_day_add_years(visit->born, (int)age->value);
}

static bool happens(const mf_visit *visit, mf_day day)
{
    return day >= visit->on && day <= last_of(visit) && (day - visit->on) % WEEK == 0;
}

/* A day has no more, whatever a file from elsewhere says. */
static int64_t minutes_of(const mf_visit *visit)
{
    const int64_t day = MF_MINUTES_A_DAY;
    return visit->minutes < 0 ? 0 : visit->minutes > day ? day : visit->minutes;
}

/* Minutes of a child on one day. */
static int64_t minutes_on(const mf_job *job, const char *child, mf_day day)
{
    int64_t sum = 0;
    for (size_t i = 0; i < job->n_visit; i++) {
        const mf_visit *it = &job->visit[i];
        if (mf_same(it->child, child) && happens(it, day) && young(job, it, day))
            sum += minutes_of(it);
    }
    return sum;
}

/* How often it happens from first to last. */
static int64_t times_between(const mf_visit *visit, mf_day first, mf_day last)
{
    mf_day from = visit->on, to = last_of(visit) < last ? last_of(visit) : last;
    if (from < first)
        from += (first - from + WEEK - 1) / WEEK * WEEK;
    return from > to ? 0 : (to - from) / WEEK + 1;
}

/* The last day on which the visitor of the entry is young enough. */
static mf_day young_until(const mf_job *job, const mf_visit *visit, mf_day last)
{
    while (last > visit->on && !young(job, visit, last))
        last = last - visit->on > WEEK ? last - WEEK : visit->on;
    return last;
}

static int64_t minutes_of_year(const mf_job *job, const char *child, mf_day first)
{
    int64_t sum = 0;
    mf_day next = mf_day_add_years(first, 1);
    if (next == MF_DAY_NONE)
        return 0; /* beyond the calendar */
    mf_day last = next - 1;
    for (size_t i = 0; i < job->n_visit; i++) {
        const mf_visit *it = &job->visit[i];
        if (!mf_same(it->child, child) || !young(job, it, it->on))
            continue;
        mf_day end = last_of(it) < last ? last_of(it) : last;
        sum += minutes_of(it) * times_between(it, first, young_until(job, it, end));
    }
    return sum;
}

/* The fullest year begins with a visit, or ends with the last of a series. */
static int64_t fullest_year(const mf_job *job, const char *child)
{
    int64_t most = 0;
    for (size_t i = 0; i < job->n_visit; i++) {
        const mf_visit *it = &job->visit[i];
        if (!mf_same(it->child, child))
            continue;
        int64_t from = minutes_of_year(job, child, it->on);
        int64_t to = minutes_of_year(job, child, mf_day_add_years(last_of(it) + 1, -1));
        most = from > most ? from : most;
        most = to > most ? to : most;
    }
    return most;
}

static void judge_week(const mf_job *job, const char *child, mf_day sunday, mf_facility_answer *out)
{
    const mf_limit *enough = mf_limit_for(job, MF_LIMIT_VISIT_MINUTES, job->house[0].start);
    *out = (mf_facility_answer){.child = child, .week = sunday};
    for (mf_day day = sunday; day < sunday + WEEK; day++) {
        int64_t minutes = minutes_on(job, child, day);
        if (minutes == 0 || !mf_limit_holds(enough, minutes))
            continue;
        out->days++;
        out->week_minutes += minutes;
    }
}

static bool fuller(const mf_facility_answer *a, const mf_facility_answer *b)
{
    if (a->days != b->days)
        return a->days > b->days;
    return a->week_minutes > b->week_minutes;
}

static bool reaches(const mf_job *job, const mf_facility_answer *it)
{
    mf_day day = job->house[0].start;
    return mf_limit_holds(mf_limit_for(job, MF_LIMIT_VISIT_DAYS, day), it->days) &&
           mf_limit_holds(mf_limit_for(job, MF_LIMIT_VISIT_WEEK, day), it->week_minutes) &&
           mf_limit_holds(mf_limit_for(job, MF_LIMIT_VISIT_YEAR, day), it->year_minutes);
}

/* One visit shows nothing of those that nobody logged. */
bool mf_visits_known(const mf_job *job)
{
    if (job->n_house == 0)
        return false;
    const mf_house *house = &job->house[0];
    return job->n_visit == 0 ? house->children_visit == MF_NOT : mf_given(house->visits_all_by);
}

/* More visits run in no week than in one in which a series begins, so only those
 * weeks are looked at. */
void mf_facility_judge(const mf_job *job, mf_facility_answer *out)
{
    *out = (mf_facility_answer){.child = "", .week = MF_DAY_NONE};
    if (job->n_house == 0)
        return;
    for (size_t i = 0; i < job->n_visit && !out->facility; i++) {
        mf_facility_answer it;
        const mf_visit *visit = &job->visit[i];
        judge_week(job, mf_or_empty(visit->child), visit->on - mf_day_weekday(visit->on), &it);
        it.year_minutes = fullest_year(job, it.child);
        it.facility = it.reached = reaches(job, &it);
        if (it.facility || !mf_given(out->child) || fuller(&it, out))
            *out = it;
    }
    /* Said to be visited regularly, it is one until all of the visits say otherwise. */
    out->facility =
        out->facility || (job->house[0].children_visit == MF_YES && !mf_visits_known(job));
}

/* ---- the owner's record of paint found free ------------------------------------------ */

/* Issued on the day of the report at the latest, the certificate ends a term after it at the
 * latest. */
bool mf_owner_record_impossible(const mf_job *job, const mf_owner_record *record)
{
    bool said = record->on != MF_DAY_NONE && record->expires != MF_DAY_NONE;
    return said && mf_assessor_until(job, record->on, record->expires) != record->expires;
}

bool mf_owner_record_whole(const mf_job *job, const mf_owner_record *record)
{
    bool assessor =
        record->discipline == MF_DISC_INSPECTOR || record->discipline == MF_DISC_RISK_ASSESSOR;
    bool valid = record->on != MF_DAY_NONE && record->expires != MF_DAY_NONE &&
                 record->on <= record->expires && !mf_owner_record_impossible(job, record);
    return assessor && valid && mf_given(record->components) && mf_given(record->report) &&
           mf_given(record->assessor) && mf_given(record->number) &&
           record->firm_has_copy == MF_YES;
}

const mf_owner_record *mf_owner_record_of(const mf_job *job, const char *component)
{
    const mf_owner_record *first = NULL;
    for (size_t i = 0; i < job->n_owner_record; i++) {
        const mf_owner_record *it = &job->owner_record[i];
        if (mf_owner_record_whole(job, it) && mf_id_in_list(it->components, component) &&
            (first == NULL || it->on < first->on))
            first = it;
    }
    return first;
}
