/* What changes after people were told, and work on other days than they were told.
 * 40 CFR 745.84(b)(4): units that were told in writing, and the owner, are told anew before
 * the work goes beyond what was described. Signs say what is done while it is done. */
#include "core/audit_rows.h"

#include "core/area_openings.h"
#include "core/begins.h"
#include "core/notice_paper.h"
#include "core/occupied_units.h"
#include "core/text.h"
#include <mistfold/notice.h>

/* ---- in writing or by signs ------------------------------------------------------------ */

static bool of_this_house(const mf_job *job, const mf_notice *notice, const mf_party *party)
{
    const char *asks;
    return mf_same(notice->party, party->id) &&
           mf_paper_elsewhere(job, party, notice, &asks) == NULL;
}

/* A further notice to the owner may also be signed for, as the first one is; nobody need sign. */
static bool in_writing(const mf_job *job, const mf_notice *notice, const mf_party *party)
{
    bool written = notice->method == MF_DELIVERY_UNIT_NOTICE ||
                   notice->method == MF_DELIVERY_MAILED ||
                   (notice->method == MF_DELIVERY_ACKNOWLEDGED && party->role != MF_ROLE_UNITS);
    return written && of_this_house(job, notice, party);
}

static bool serves(const mf_asked *asked, const mf_notice *notice, mf_role role)
{
    return mf_notice_check_for(asked->job, notice, role, mf_begins_for(asked, role, "")) ==
           MF_NOTICE_GOOD;
}

static const mf_notice *written_first(const mf_asked *asked, const mf_party *party, bool of_change)
{
    const mf_notice *first = NULL;
    for (size_t i = 0; i < asked->job->n_notice; i++) {
        const mf_notice *it = &asked->job->notice[i];
        if (in_writing(asked->job, it, party) && (it->of_change == MF_YES) == of_change &&
            serves(asked, it, party->role) && (first == NULL || it->on < first->on))
            first = it;
    }
    return first;
}

/* The "written initial notification" that serves a party (745.84(b)(4)), or NULL: where no other
 * one does, that of a change is the first. */
static const mf_notice *first_written(const mf_asked *asked, const mf_party *party)
{
    const mf_notice *first = written_first(asked, party, false);
    return first == NULL ? written_first(asked, party, true) : first;
}

/* The sign that hangs on a day, of those that serve or were put up anew; or NULL. */
static const mf_notice *sign_on(const mf_asked *asked, const mf_party *party, mf_day day)
{
    const mf_notice *last = NULL;
    for (size_t i = 0; i < asked->job->n_notice; i++) {
        const mf_notice *it = &asked->job->notice[i];
        if (of_this_house(asked->job, it, party) && it->method == MF_DELIVERY_POSTED &&
            it->on <= day && (serves(asked, it, party->role) || it->of_change == MF_YES) &&
            (last == NULL || it->on >= last->on))
            last = it;
    }
    return last;
}

/* Units that read signs are told by the signs; who got a written notice at first, or
 * nothing yet, is owed one of a change. */
static bool owed_change(const mf_asked *asked, const mf_party *party)
{
    return party->role == MF_ROLE_UNITS && (first_written(asked, party) != NULL ||
                                            sign_on(asked, party, asked->begins_common) == NULL);
}

/* ---- changes that were logged ------------------------------------------------------------- */

/* Written notice again is asked for in common areas (745.84(b)(4)). */
const char *mf_if_change_told(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    bool units = false;
    if (!mf_common_worked(asked->job))
        return "party-not-due";
    for (size_t i = 0; i < asked->job->n_party; i++) {
        if (owed_change(asked, &asked->job->party[i]))
            return NULL;
        units = units || asked->job->party[i].role == MF_ROLE_UNITS;
    }
    return units ? "change-on-signs" : NULL;
}

/* Each change needs a notice of its own: one made since the change before it, if there
 * was one (MF_DAY_NONE lies before every day). */
static mf_day told_before(const mf_job *job, const mf_scope_change *change)
{
    mf_day earlier = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_scope_change; i++) {
        mf_day on = job->scope_change[i].on;
        if (on < change->on && on > earlier)
            earlier = on;
    }
    return earlier;
}

/* The notice by which a party was told of a change, or NULL. It must say what is new:
 * the work and its places, or the dates. */
static const mf_notice *told_of(const mf_job *job, const mf_party *party,
                                const mf_scope_change *change)
{
    mf_day since = told_before(job, change);
    for (size_t i = 0; i < job->n_notice; i++) {
        const mf_notice *it = &job->notice[i];
        bool says = it->tells_work == MF_YES || it->tells_dates == MF_YES;
        if (it->of_change == MF_YES && says && in_writing(job, it, party) &&
            it->on != MF_DAY_NONE && it->on < change->on && it->on >= since)
            return it;
    }
    return NULL;
}

/* The first notice to the units, where the change came before each of them and was told with the
 * rest of the work; or NULL. */
static const mf_notice *told_at_first(const mf_asked *asked, const mf_scope_change *change)
{
    const mf_notice *told = NULL;
    for (size_t i = 0; i < asked->job->n_party; i++) {
        const mf_party *party = &asked->job->party[i];
        if (!owed_change(asked, party))
            continue;
        const mf_notice *first = first_written(asked, party);
        if (first == NULL || change->on > first->on)
            return NULL;
        told = first;
    }
    return told;
}

/* Whether all of a role were told: each affected unit is, and each owner. *last is set to the
 * last notice by which they were, unless it is of a later one already. */
static bool all_told(const mf_asked *asked, const mf_scope_change *change, mf_role role,
                     const mf_notice **last)
{
    bool any = false;
    for (size_t i = 0; i < asked->job->n_party; i++) {
        const mf_party *party = &asked->job->party[i];
        bool owed = role == MF_ROLE_UNITS ? owed_change(asked, party) : party->role == role;
        if (!owed)
            continue;
        const mf_notice *told = told_of(asked->job, party, change);
        any = true;
        if (told == NULL)
            return false;
        if (*last == NULL || told->on > (*last)->on)
            *last = told;
    }
    return any;
}

void mf_show_change_told(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_notice *last = NULL;
    const mf_scope_change *change = subject->scope_change;
    bool owner = all_told(asked, change, MF_ROLE_OWNER, &last);
    bool units = all_told(asked, change, MF_ROLE_UNITS, &last);
    const mf_notice *first = told_at_first(asked, change);
    mf_say_days(out, first == NULL ? MF_DAY_NONE : first->on, change->on);
    if (first != NULL) {
        mf_say(out, MF_MET, "change-before-notice");
        out->evidence = mf_or_empty(first->src.entry);
        return;
    }
    mf_verdict untold = asked->today < change->on ? MF_WARNING : MF_LACKING; /* there is time */
    if (!units) {
        mf_say(out, untold, owner ? "change-not-told" : "change-nobody-told");
    } else if (!owner) {
        mf_say(out, untold, "change-owner-not-told");
    } else {
        mf_say(out, MF_MET, "change-told");
        out->d1 = last->on;
        out->evidence = mf_or_empty(last->src.entry);
    }
}

/* ---- the days that were told ----------------------------------------------------------------- */

/* Days that were written down here, of a paper that is said not to tell them, nobody was told. */
static bool says_days(const mf_notice *notice)
{
    return notice->tells_dates != MF_NOT &&
           (notice->work_from != MF_DAY_NONE || notice->work_until != MF_DAY_NONE);
}

/* An end that was not told cannot be held against the work. */
static bool too_soon(const mf_notice *notice, mf_day day)
{
    return notice->work_from != MF_DAY_NONE && day < notice->work_from;
}

static bool holds(const mf_notice *notice, mf_day day)
{
    return !too_soon(notice, day) &&
           (notice->work_until == MF_DAY_NONE || day <= notice->work_until);
}

/* The last notice before a day that tells days: the first one where it serves, or one of a
 * change; to the owner, who is not told the days at first, only of a change. NULL = none. */
static const mf_notice *standing_on(const mf_asked *asked, const mf_party *party, mf_day day)
{
    const mf_notice *last = NULL;
    for (size_t i = 0; i < asked->job->n_notice; i++) {
        const mf_notice *it = &asked->job->notice[i];
        bool first = party->role == MF_ROLE_UNITS && serves(asked, it, party->role);
        if (in_writing(asked->job, it, party) && says_days(it) &&
            (first || it->of_change == MF_YES) && it->on != MF_DAY_NONE && it->on < day &&
            (last == NULL || it->on >= last->on))
            last = it;
    }
    return last;
}

/* Whether the first written notice to any of the units told other days. */
static bool beyond_first(const mf_asked *asked, mf_day day)
{
    for (size_t i = 0; i < asked->job->n_party; i++) {
        const mf_party *party = &asked->job->party[i];
        const mf_notice *first = party->role == MF_ROLE_UNITS ? first_written(asked, party) : NULL;
        if (first != NULL && !holds(first, day))
            return true;
    }
    return false;
}

/* Whether a party may hold work on a day against what it was told. */
static bool outside(const mf_asked *asked, const mf_party *party, mf_day day)
{
    const mf_notice *told = standing_on(asked, party, day);
    if (party->role == MF_ROLE_OWNER)
        return beyond_first(asked, day) && (told == NULL || !holds(told, day));
    return told != NULL && !holds(told, day);
}

/* Of units told in writing, and of the owner beside them. */
const char *mf_if_told_days(const mf_asked *asked, const mf_subject *subject)
{
    const mf_job *job = asked->job;
    if (!mf_common_worked(job))
        return "party-not-due";
    if (subject->role == MF_ROLE_UNITS)
        return first_written(asked, subject->party) == NULL ? "told-not-in-writing" : NULL;
    for (size_t i = 0; subject->role == MF_ROLE_OWNER && i < job->n_party; i++) {
        if (job->party[i].role == MF_ROLE_UNITS && first_written(asked, &job->party[i]) != NULL)
            return NULL;
    }
    return "told-not-in-writing";
}

/* What is found of a day outside: of the owner, before the days told, beyond them. */
typedef struct outside_names {
    const char *owner, *before, *beyond;
} outside_names;

/* That a day lies outside, and what was told last before it. */
static void say_outside(const mf_asked *asked, const mf_party *party, mf_day day,
                        const outside_names *names, mf_finding *out)
{
    const mf_notice *told = standing_on(asked, party, day);
    if (party->role == MF_ROLE_OWNER)
        mf_say(out, MF_LACKING, names->owner);
    else
        mf_say(out, MF_LACKING, too_soon(told, day) ? names->before : names->beyond);
    mf_say_days(out, day, MF_DAY_NONE);
    if (told == NULL)
        return;
    out->d2 = too_soon(told, day) ? told->work_from : told->work_until;
    out->evidence = mf_or_empty(told->src.entry);
}

/* Work that was done, and not inside a unit alone. */
static bool done_in_common(const mf_job *job, const mf_practice *it)
{
    const mf_area *area = mf_job_area(job, it->area);
    return it->planned != MF_YES && it->on != MF_DAY_NONE &&
           (area == NULL || mf_area_in_common(job, area));
}

/* Whether no entry before it is of the same day. */
static bool opens_day(const mf_job *job, size_t i)
{
    for (size_t k = 0; k < i; k++) {
        if (job->practice[k].on == job->practice[i].on && done_in_common(job, &job->practice[k]))
            return false;
    }
    return true;
}

/* The first day of work outside, and how many there are. */
static mf_day first_outside(const mf_asked *asked, const mf_party *party, int64_t *days)
{
    mf_day first = MF_DAY_NONE;
    *days = 0;
    for (size_t i = 0; i < asked->job->n_practice; i++) {
        const mf_practice *it = &asked->job->practice[i];
        if (!done_in_common(asked->job, it) || !outside(asked, party, it->on))
            continue;
        if (first == MF_DAY_NONE || it->on < first)
            first = it->on;
        *days += opens_day(asked->job, i);
    }
    return first;
}

/* No work yet outside: is it planned, and is it known which days were told? */
static void say_plan(const mf_asked *asked, const mf_party *party, mf_finding *out)
{
    const mf_notice *told = standing_on(asked, party, INT32_MAX);
    mf_day end = asked->house->end;
    if (told != NULL)
        out->evidence = mf_or_empty(told->src.entry);
    if (told == NULL || told->work_from == MF_DAY_NONE || told->work_until == MF_DAY_NONE) {
        mf_say(out, MF_WARNING, "told-days-unsaid");
        return;
    }
    mf_say(out, MF_MET, "told-days-hold");
    mf_say_days(out, told->work_from, told->work_until);
    if (asked->completed == MF_DAY_NONE && end > told->work_until) {
        mf_say(out, MF_WARNING, "told-plan-beyond");
        mf_say_days(out, end, told->work_until);
    }
}

void mf_show_told_days(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const outside_names names = {"told-owner-not-anew", "told-before", "told-beyond"};
    int64_t days;
    mf_day first = first_outside(asked, subject->party, &days);
    mf_say(out, MF_MET, "told-owner-days");
    if (first != MF_DAY_NONE) {
        say_outside(asked, subject->party, first, &names, out);
        mf_say_numbers(out, MF_UNIT_DAYS, days, MF_NUM_NONE);
    } else if (subject->role == MF_ROLE_UNITS) {
        say_plan(asked, subject->party, out);
    }
}

/* ---- work on the day that is asked about ---------------------------------------------------- */

const char *mf_if_work_today(const mf_asked *asked)
{
    if (asked->completed != MF_DAY_NONE)
        return "told-work-over";
    return asked->today < asked->start ? "told-work-ahead" : NULL;
}

/* Whether work in the area that is asked for is in common areas: there, or by a window that is
 * torn out into one. */
static bool common_today(const mf_asked *asked)
{
    const mf_job *job = asked->job;
    if (!mf_given(asked->area) || mf_job_area(job, asked->area) == NULL)
        return true;
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_area_in_common(job, &job->area[i]) &&
            (mf_same(job->area[i].id, asked->area) ||
             mf_open_into_each_other(job, job->area[i].id, asked->area)))
            return true;
    return false;
}

const char *mf_if_told_today(const mf_asked *asked, const mf_subject *subject)
{
    if (!common_today(asked))
        return "party-not-due";
    const char *why = mf_if_work_today(asked);
    return why == NULL ? mf_if_told_days(asked, subject) : why;
}

void mf_show_told_today(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const outside_names names = {"told-today-owner", "told-today-before",
                                        "told-today-beyond"};
    mf_say(out, MF_MET, "told-today");
    mf_say_days(out, asked->today, MF_DAY_NONE);
    if (outside(asked, subject->party, asked->today))
        say_outside(asked, subject->party, asked->today, &names, out);
}

/* ---- signs ------------------------------------------------------------------------------ */

/* Of units and parents who are told by signs. */
const char *mf_if_sign_days(const mf_asked *asked, const mf_subject *subject)
{
    if (!mf_role_of_many(subject->role))
        return "party-one";
    const char *not_because = mf_not_owed(asked, subject);
    if (not_because != NULL)
        return not_because;
    bool signs = first_written(asked, subject->party) == NULL &&
                 sign_on(asked, subject->party, mf_begins_for(asked, subject->role, "")) != NULL;
    return signs ? NULL : "told-not-by-signs";
}

/* Whether work on that day goes beyond the end that the sign of the day tells. */
static void say_sign(const mf_asked *asked, const mf_party *party, mf_day day, const char *why,
                     mf_finding *out)
{
    const mf_notice *sign = day == MF_DAY_NONE ? NULL : sign_on(asked, party, day);
    if (sign == NULL || sign->work_until == MF_DAY_NONE || day <= sign->work_until)
        return;
    mf_say(out, MF_WARNING, why);
    mf_say_days(out, day, sign->work_until);
    out->evidence = mf_or_empty(sign->src.entry);
}

/* A sign tells one day, the anticipated end: work beyond it makes it untrue. That it must be
 * put right is derived; the paragraph on changes speaks of written notices. */
void mf_show_sign_days(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_notice *last = sign_on(asked, subject->party, INT32_MAX);
    bool says = last != NULL && last->work_until != MF_DAY_NONE;
    bool goes_on = asked->completed == MF_DAY_NONE;
    mf_say(out, says ? MF_MET : MF_WARNING, says ? "sign-date-holds" : "sign-date-unsaid");
    out->d2 = says ? last->work_until : MF_DAY_NONE;
    if (goes_on)
        say_sign(asked, subject->party, asked->house->end, "sign-plan-beyond", out);
    if (goes_on && asked->today >= asked->start)
        say_sign(asked, subject->party, asked->today, "sign-out-of-date", out);
    for (size_t i = 0; i < job->n_practice; i++) {
        if (done_in_common(job, &job->practice[i]))
            say_sign(asked, subject->party, job->practice[i].on, "sign-out-of-date", out);
    }
}
