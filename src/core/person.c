/* Certificates valid on a day, of a course or of a refresher. A certificate is relied on
 * from the day it was issued to its last day, both included; one without a day of issue is
 * not relied on at all, as nothing shows that it was held on the day. */
#include <mistfold/person.h>

#include "core/assessor_term.h"
#include "core/course.h"
#include "core/text.h"
#include "core/two_terms.h"
#include <mistfold/place.h>
#include <mistfold/program.h>

static mf_day earlier(mf_day a, mf_day b)
{
    if (a == MF_DAY_NONE)
        return b;
    if (b == MF_DAY_NONE)
        return a;
    return a < b ? a : b;
}

static mf_day term_end(const mf_job *job, mf_day issued, mf_limit_id term)
{
    const mf_limit *row = mf_limit_for(job, term, issued);
    if (issued == MF_DAY_NONE || row == NULL)
        return MF_DAY_NONE;
    return mf_day_add_years(issued, (int)row->value);
}

static bool is_course(const mf_certificate *certificate)
{
    return certificate->discipline == MF_DISC_RENOVATOR ||
           certificate->discipline == MF_DISC_DUST_TECHNICIAN;
}

/* A course of which nobody said that it had a hands-on part is presumed to have had none
 * (745.90(a)(4)), whatever date is printed. */
static bool without_hands_on(const mf_certificate *certificate)
{
    return is_course(certificate) && certificate->hands_on != MF_YES;
}

static mf_limit_id course_term(const mf_certificate *certificate)
{
    return without_hands_on(certificate) ? MF_LIMIT_COURSE_ONLINE_YEARS : MF_LIMIT_COURSE_YEARS;
}

/* 1996-08-29, 61 FR 45778, recalled: before it there was neither 745.226 nor a program authorized
 * under 745.324, so that nobody was certified under one (745.82(a)(1)). */
enum { FIRST_PROGRAMS = 9737 };

/* 745.226(e): as printed, and no longer than its longest term. One without a day of issue counts on
 * no day. */
mf_day mf_assessor_until(const mf_job *job, mf_day issued, mf_day printed)
{
    if (printed == MF_DAY_NONE || (issued != MF_DAY_NONE && issued < FIRST_PROGRAMS))
        return MF_DAY_NONE;
    return earlier(printed, term_end(job, issued, MF_LIMIT_ASSESSOR_YEARS));
}

/* By what its own entry says. */
static mf_day own_last_day(const mf_job *job, const mf_certificate *certificate)
{
    mf_day printed = certificate->expires;
    switch (certificate->discipline) {
    case MF_DISC_FIRM:
        return earlier(printed, term_end(job, certificate->issued, MF_LIMIT_FIRM_YEARS));
    case MF_DISC_RENOVATOR:
    case MF_DISC_DUST_TECHNICIAN:
        return earlier(printed, term_end(job, certificate->issued, course_term(certificate)));
    case MF_DISC_INSPECTOR:
    case MF_DISC_RISK_ASSESSOR:
        return mf_assessor_until(job, certificate->issued, printed);
    }
    return printed;
}

const mf_certificate *mf_certificate_contradicting(const mf_job *job, const mf_certificate *it,
                                                   const mf_certificate *after)
{
    size_t n = job == NULL ? 0 : job->n_certificate;
    for (size_t i = after == NULL ? 0 : (size_t)(after - job->certificate) + 1; i < n; i++) {
        const mf_certificate *other = &job->certificate[i];
        if (mf_one_certificate(it, other) &&
            mf_two_terms(it, own_last_day(job, it), other, own_last_day(job, other)))
            return other;
    }
    return NULL;
}

typedef mf_day day_fn(const mf_job *job, const mf_certificate *certificate);

/* The earliest of the days that the entries of the certificate have each by itself. */
static mf_day earliest(const mf_job *job, const mf_certificate *certificate, day_fn *own)
{
    const mf_certificate *other = NULL;
    mf_day day = own(job, certificate);
    while (day != MF_DAY_NONE &&
           (other = mf_certificate_contradicting(job, certificate, other)) != NULL)
        day = earlier(day, own(job, other));
    return day;
}

mf_day mf_certificate_last_day_for(const mf_job *job, const mf_certificate *certificate)
{
    return earliest(job, certificate, own_last_day);
}

mf_day mf_certificate_if_hands_on(const mf_job *job, const mf_certificate *certificate)
{
    mf_certificate said = *certificate;
    if (certificate->hands_on != MF_UNKNOWN)
        return MF_DAY_NONE;
    said.hands_on = MF_YES;
    mf_day longer = mf_certificate_last_day_for(job, &said);
    return longer > mf_certificate_last_day_for(job, certificate) ? longer : MF_DAY_NONE;
}

/* 745.89(b)(1)(i): a complete application postmarked in time holds the certificate past its
 * last day until the agency has decided. */
static bool renewed_in_time(const mf_job *job, const mf_certificate *it, mf_day last)
{
    bool of_it = it->issued != MF_DAY_NONE && it->renewal_sent >= it->issued;
    if (it->discipline != MF_DISC_FIRM || !of_it || last == MF_DAY_NONE)
        return false;
    return mf_limit_holds(mf_limit_for(job, MF_LIMIT_RENEWAL_DAYS, it->renewal_sent),
                          (int64_t)last - it->renewal_sent);
}

static mf_day own_until(const mf_job *job, const mf_certificate *certificate)
{
    mf_day last = own_last_day(job, certificate);
    if (!renewed_in_time(job, certificate, last))
        return last;
    mf_day decided = certificate->renewal_decided;
    return decided == MF_DAY_NONE ? MF_DAY_OPEN : decided > last ? decided : last;
}

mf_day mf_certificate_until(const mf_job *job, const mf_certificate *certificate)
{
    return earliest(job, certificate, own_until);
}

mf_day mf_certificate_amend_by(const mf_job *job, const mf_certificate *certificate, mf_day day)
{
    mf_day changed = certificate->changed, amended = certificate->amended;
    if (certificate->discipline != MF_DISC_FIRM || changed == MF_DAY_NONE || day < changed)
        return MF_DAY_NONE;
    /* An amendment of before the change is of another one. */
    bool open = amended == MF_DAY_NONE || amended < changed || day < amended;
    const mf_limit *days = mf_limit_for(job, MF_LIMIT_AMEND_DAYS, changed);
    if (!open || days == NULL)
        return MF_DAY_NONE;
    mf_day last = (mf_day)(changed + days->value);
    return mf_limit_holds(days, days->value) ? last : last - 1;
}

bool mf_certificate_unamended(const mf_job *job, const mf_certificate *certificate, mf_day day)
{
    mf_day by = mf_certificate_amend_by(job, certificate, day);
    return by != MF_DAY_NONE && day > by;
}

static bool same_line(const mf_certificate *a, const mf_certificate *b)
{
    return a->discipline == b->discipline && mf_same(a->holder, b->holder);
}

/* A refresher without a hands-on part does not serve straight after another. Of several
 * courses of the day before it one without is enough, in whatever order they were entered. */
const mf_certificate *mf_certificate_twice_online(const mf_job *job,
                                                  const mf_certificate *certificate)
{
    const mf_certificate *before = NULL;
    if (!without_hands_on(certificate))
        return NULL;
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *other = &job->certificate[i];
        if (!same_line(other, certificate) || other->issued >= certificate->issued)
            continue;
        if (before == NULL || other->issued > before->issued ||
            (other->issued == before->issued && without_hands_on(other)))
            before = other;
    }
    return before != NULL && without_hands_on(before) ? before : NULL;
}

bool mf_certificate_after_lapse(const mf_job *job, const mf_certificate *certificate)
{
    const mf_certificate *before = NULL;
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *other = &job->certificate[i];
        if (same_line(other, certificate) && other->issued < certificate->issued &&
            (before == NULL ||
             mf_certificate_until(job, other) > mf_certificate_until(job, before)))
            before = other;
    }
    return before != NULL && mf_certificate_until(job, before) < certificate->issued;
}

bool mf_certificate_refreshed_late(const mf_job *job, const mf_certificate *certificate)
{
    return without_hands_on(certificate) && mf_certificate_after_lapse(job, certificate);
}

bool mf_certificate_alone(const mf_job *job, const mf_certificate *certificate)
{
    if (!without_hands_on(certificate))
        return false;
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *other = &job->certificate[i];
        if (same_line(other, certificate) && other->issued != MF_DAY_NONE &&
            other->issued < certificate->issued)
            return false;
    }
    return true;
}

/* The initial course has a hands-on part: one said to have had none is a refresher, which refreshes
 * nothing where no course before it is logged (745.90(a)(1), (a)(4)). */
static bool refreshes_nothing(const mf_job *job, const mf_certificate *certificate)
{
    return certificate->hands_on == MF_NOT && mf_certificate_alone(job, certificate);
}

bool mf_certificate_serves_not(const mf_job *job, const mf_certificate *certificate)
{
    return refreshes_nothing(job, certificate) ||
           mf_certificate_twice_online(job, certificate) != NULL ||
           mf_certificate_refreshed_late(job, certificate);
}

bool mf_certificate_replaced(const mf_job *job, const mf_certificate *certificate)
{
    mf_day until = mf_certificate_until(job, certificate);
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *other = &job->certificate[i];
        if (same_line(other, certificate) && mf_same(other->programs, certificate->programs) &&
            other->issued != MF_DAY_NONE && mf_certificate_until(job, other) > until &&
            !mf_certificate_serves_not(job, other))
            return true;
    }
    return false;
}

const mf_certificate *mf_certificate_presumed_online(const mf_job *job,
                                                     const mf_certificate *certificate)
{
    const mf_certificate *before = mf_certificate_twice_online(job, certificate);
    if (mf_certificate_serves_not(job, certificate) && certificate->hands_on == MF_UNKNOWN)
        return certificate;
    return before != NULL && before->hands_on == MF_UNKNOWN ? before : NULL;
}

/* The day from which every entry of the certificate has it. */
static mf_day first_day(const mf_job *job, const mf_certificate *certificate)
{
    const mf_certificate *other = NULL;
    mf_day first = certificate->issued;
    while ((other = mf_certificate_contradicting(job, certificate, other)) != NULL)
        first = other->issued > first ? other->issued : first;
    return first;
}

/* Whether it serves by every entry of it. */
static bool serves(const mf_job *job, const mf_certificate *certificate)
{
    const mf_certificate *other = NULL;
    bool all = !mf_certificate_serves_not(job, certificate);
    while (all && (other = mf_certificate_contradicting(job, certificate, other)) != NULL)
        all = !mf_certificate_serves_not(job, other);
    return all;
}

/* Days by which a certificate misses the day; 0 when it does not. */
static int64_t misses_by(const mf_job *job, const mf_certificate *certificate, mf_day day)
{
    mf_day first = first_day(job, certificate);
    mf_day last = mf_certificate_until(job, certificate);
    if (first == MF_DAY_NONE || last == MF_DAY_NONE || day == MF_DAY_NONE)
        return INT64_MAX;
    if (day < first)
        return (int64_t)first - day;
    return day > last ? (int64_t)day - last : 0;
}

/* Of one logged twice the entry that has its number says more. */
static bool serves_better(const mf_job *job, const mf_certificate *a, const mf_certificate *b)
{
    if (b == NULL)
        return true;
    mf_day until = mf_certificate_until(job, a), other = mf_certificate_until(job, b);
    return until > other || (until == other && mf_given(a->number) && !mf_given(b->number));
}

/* The best of those valid on the day, under one program or (NULL) any; *near as in
 * mf_certified. */
static const mf_certificate *best_of(const mf_job *job, const char *holder,
                                     mf_discipline discipline, mf_day day, const char *program,
                                     const mf_certificate **near)
{
    const mf_certificate *best = NULL, *closest = NULL;
    int64_t closest_by = 0;
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        if (it->discipline != discipline || !mf_given(holder) || !mf_same(it->holder, holder) ||
            (program != NULL && !mf_certificate_counts(it, program)))
            continue;
        int64_t by = misses_by(job, it, day);
        if (by == 0 && serves(job, it)) {
            if (serves_better(job, it, best))
                best = it;
        } else if (closest == NULL || by < closest_by) {
            closest = it;
            closest_by = by;
        }
    }
    *near = best == NULL ? closest : NULL;
    return best;
}

const mf_certificate *mf_certified(const mf_job *job, const char *holder, mf_discipline discipline,
                                   mf_day day, const mf_certificate **near)
{
    const mf_certificate *closest = NULL;
    return best_of(job, holder, discipline, day, NULL, near == NULL ? &closest : near);
}

const mf_certificate *mf_certified_under(const mf_job *job, const char *holder,
                                         mf_discipline discipline, mf_day day, const char *program)
{
    const mf_certificate *closest = NULL;
    return best_of(job, holder, discipline, day, program, &closest);
}

const mf_certificate *mf_certified_assessor(const mf_job *job, const char *holder, mf_day day)
{
    const mf_certificate *inspector = mf_certified(job, holder, MF_DISC_INSPECTOR, day, NULL);
    if (inspector != NULL)
        return inspector;
    return mf_certified(job, holder, MF_DISC_RISK_ASSESSOR, day, NULL);
}
