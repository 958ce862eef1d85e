/* The firm and its people: certified, assigned, trained. 40 CFR 745.89, 745.90. */
#include "core/audit_rows.h"

#include "core/course.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/dust.h>
#include <mistfold/person.h>

/* ---- certificates ---------------------------------------------------------------- */

/* Why a course that has not ended serves for nothing all the same, 745.90(a)(4). */
static void serves_not(const mf_job *job, const mf_certificate *it, mf_finding *out)
{
    const mf_certificate *online = mf_certificate_twice_online(job, it);
    const mf_certificate *unsaid = mf_certificate_presumed_online(job, it);
    if (unsaid != NULL) {
        mf_say(out, MF_LACKING, "certificate-presumed-online");
        mf_say_days(out, it->issued, unsaid->issued);
        out->evidence = mf_or_empty(unsaid->src.entry);
    } else if (online != NULL) {
        mf_say(out, MF_LACKING, "certificate-twice-online");
        mf_say_days(out, it->issued, online->issued);
    } else if (mf_certificate_alone(job, it)) {
        mf_say(out, MF_LACKING, "certificate-no-initial");
        mf_say_days(out, it->issued, out->d2);
    } else if (mf_certificate_refreshed_late(job, it)) {
        mf_say(out, MF_LACKING, "certificate-refreshed-late");
    }
}

/* Says whether holder was certified on a day; the certificate when it may be said so. */
static const mf_certificate *certified_on(const mf_job *job, const char *holder,
                                          mf_discipline discipline, mf_day day, mf_finding *out)
{
    const mf_certificate *near = NULL, *valid = mf_certified(job, holder, discipline, day, &near);
    const mf_certificate *it = valid != NULL ? valid : near;
    if (it == NULL) {
        mf_say(out, MF_LACKING, "certificate-none");
        mf_say_days(out, MF_DAY_NONE, day);
        return NULL;
    }
    out->evidence = mf_or_empty(it->src.entry);
    mf_say_days(out, mf_certificate_last_day_for(job, it), day);
    if (valid != NULL) {
        mf_say(out, MF_MET, "certificate-valid");
        return valid;
    }
    bool early = it->issued != MF_DAY_NONE && day < it->issued;
    out->d1 = early ? it->issued : mf_certificate_until(job, it);
    bool in_term = !early && out->d1 != MF_DAY_NONE && day <= out->d1;
    bool unsaid = !early && day <= mf_certificate_if_hands_on(job, it);
    mf_say(out, MF_LACKING,
           early    ? "certificate-not-yet"
           : unsaid ? "certificate-hands-on-unsaid"
                    : "certificate-lapsed");
    if (in_term && it->issued == MF_DAY_NONE)
        mf_say(out, MF_LACKING, "certificate-no-issue");
    if (in_term)
        serves_not(job, it, out);
    mf_say_two_terms(job, it, out);
    return NULL;
}

/* Whether some of the days up to `to` lie past the last day of the certificate, which then
 * holds by its renewal alone. */
static bool rests_on_renewal(const mf_job *job, const mf_certificate *it, mf_day to)
{
    mf_day last = mf_certificate_last_day_for(job, it);
    return mf_certificate_until(job, it) > last && to > last;
}

static void say_renewal(const mf_job *job, const mf_certificate *it, mf_finding *out)
{
    mf_say(out, MF_MET, "certificate-renewing");
    mf_say_limit(out, job, MF_LIMIT_RENEWAL_DAYS, it->renewal_sent);
    out->evidence = mf_or_empty(it->src.entry);
    out->d1 = it->renewal_sent;
}

/* On every day of the time that counts: from the last day of one certificate the
 * next must take over, so that a gap between two of them is found. */
static void certified_through(const mf_job *job, const char *holder, mf_discipline discipline,
                              mf_day from, mf_day to, mf_finding *out)
{
    const mf_certificate *it, *renewing = NULL;
    mf_day day = from, until;
    do {
        it = certified_on(job, holder, discipline, day, out);
        if (it == NULL)
            return;
        if (rests_on_renewal(job, it, mf_later(to, from)))
            renewing = it;
        until = mf_certificate_until(job, it);
        day = until + 1;
    } while (until < to);
    out->d2 = mf_later(to, from);
    if (renewing != NULL)
        say_renewal(job, renewing, out);
}

/* ---- a change that was not amended ------------------------------------------------- */

/* Whether another certificate of the firm that was issued after the change says what is new. */
static bool certified_anew(const mf_job *job, const mf_certificate *changed, mf_day day)
{
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        if (it->discipline == MF_DISC_FIRM && mf_same(it->holder, "firm") &&
            mf_same(it->programs, changed->programs) && it->issued > changed->changed &&
            it->issued <= day)
            return true;
    }
    return false;
}

/* The certificate of the firm that holds on the day under the programs of the one that counts, and
 * of which a change is open: each change has an entry of its own (745.89(c)), so the best of them
 * alone does not say it. The one to be amended first; NULL = nothing is open. */
static const mf_certificate *with_open_change(const mf_job *job, mf_day day)
{
    const mf_certificate *held = mf_certified(job, "firm", MF_DISC_FIRM, day, NULL), *open = NULL;
    mf_day first = MF_DAY_NONE;
    for (size_t i = 0; held != NULL && i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        mf_day by = mf_certificate_amend_by(job, it, day);
        if (by == MF_DAY_NONE || !mf_same(it->holder, "firm") ||
            !mf_same(it->programs, held->programs) || it->issued > day ||
            mf_certificate_until(job, it) < day || certified_anew(job, it, day))
            continue;
        if (open == NULL || by < first) {
            open = it;
            first = by;
        }
    }
    return open;
}

/* Whether the firm's certificate of the day was unamended; what it says then. */
static bool unamended_on(const mf_job *job, mf_day day, mf_finding *out)
{
    const mf_certificate *it = with_open_change(job, day);
    if (it == NULL || !mf_certificate_unamended(job, it, day))
        return false;
    mf_say(out, MF_LACKING, "certificate-not-amended");
    mf_say_limit(out, job, MF_LIMIT_AMEND_DAYS, it->changed);
    mf_say_days(out, it->changed, day);
    out->evidence = mf_or_empty(it->src.entry);
    return true;
}

#define UNAMENDED_DAYS(list, counts)                                                               \
    for (size_t i = 0; i < job->n_##list; i++)                                                     \
        if ((counts) && unamended_on(job, job->list[i].on, out))                                   \
    return true

/* "May not perform renovations or dust sampling": every day on which something was done. */
static bool acted_unamended(const mf_job *job, mf_finding *out)
{
    UNAMENDED_DAYS(practice, job->practice[i].planned != MF_YES);
    UNAMENDED_DAYS(tick, job->tick[i].state == MF_TICK_DONE);
    UNAMENDED_DAYS(verification, true);
    UNAMENDED_DAYS(dust_sample, true);
    return false;
}

/* The last day that certificates without a gap between them cover, from a day that they do. */
static mf_day last_covered(const mf_job *job, const char *holder, mf_discipline discipline,
                           mf_day day)
{
    mf_finding unused = {.verdict = MF_MET};
    const mf_certificate *it;
    while (day < MF_DAY_OPEN && (it = certified_on(job, holder, discipline, day, &unused)) != NULL)
        day = mf_certificate_until(job, it) + 1;
    return day - 1;
}

/* What ends before the work is planned to end is told while there is time to renew it. */
static void warn_of_end(const mf_asked *asked, const char *holder, mf_discipline discipline,
                        mf_finding *out)
{
    mf_day end = asked->house->end;
    if (out->verdict != MF_MET || asked->completed != MF_DAY_NONE || end <= out->d2)
        return;
    mf_day last = last_covered(asked->job, holder, discipline, out->d2);
    if (last >= end)
        return;
    mf_say(out, MF_WARNING, "certificate-ends-first");
    mf_say_days(out, last, end);
}

/* While there is time to amend what changed, the last day of it is told. */
static void warn_of_amendment(const mf_asked *asked, mf_day day, mf_finding *out)
{
    const mf_certificate *it = with_open_change(asked->job, day);
    mf_day by = it == NULL || asked->completed != MF_DAY_NONE
                    ? MF_DAY_NONE
                    : mf_certificate_amend_by(asked->job, it, day);
    if (by == MF_DAY_NONE || out->verdict != MF_MET)
        return;
    mf_say(out, MF_WARNING, "certificate-amend-by");
    mf_say_limit(out, asked->job, MF_LIMIT_AMEND_DAYS, it->changed);
    mf_say_days(out, it->changed, by);
    out->evidence = mf_or_empty(it->src.entry);
}

/* The planned start, or the day on which work really began before it. */
static mf_day started(const mf_asked *asked)
{
    return mf_earlier_of(asked->begins, asked->start);
}

static mf_day first_day(const mf_asked *asked, const mf_assignment *assignment)
{
    return mf_later(assignment->on, started(asked));
}

void mf_show_firm(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    certified_through(asked->job, "firm", MF_DISC_FIRM, started(asked), asked->last, out);
    if (out->verdict != MF_MET || acted_unamended(asked->job, out))
        return;
    mf_day last = asked->completed; /* may work go on, or begin, now? */
    mf_day day = last != MF_DAY_NONE ? last : mf_later(asked->start, asked->last);
    unamended_on(asked->job, day, out);
    warn_of_amendment(asked, day, out);
    warn_of_end(asked, "firm", MF_DISC_FIRM, out);
}

/* The last day on which somebody led, did or verified something in the job. */
static mf_day last_act(const mf_job *job, const char *person)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_same(job->tick[i].person, person) || mf_same(job->tick[i].renovator, person))
            last = mf_later(last, job->tick[i].on);
    for (size_t i = 0; i < job->n_verification; i++)
        if (mf_same(job->verification[i].person, person))
            last = mf_later(last, job->verification[i].on);
    for (size_t i = 0; i < job->n_practice; i++)
        if (mf_same(job->practice[i].person, person))
            last = mf_later(last, job->practice[i].on);
    return last;
}

/* Whether somebody was assigned as this one was, by that day. */
static bool assigned_by(const mf_job *job, const mf_assignment *like, mf_day day)
{
    for (size_t i = 0; i < job->n_assignment; i++) {
        const mf_assignment *it = &job->assignment[i];
        if (it->duty == like->duty && it->on <= day && mf_same(it->person, like->person))
            return true;
    }
    return false;
}

/* Whether somebody was assigned to what was over: "assigned to each renovation" (745.89(d)(2)) is
 * no matter of the days after it. Who had a part in it all the same is asked, unless the part was
 * assigned in time, and so is asked there. */
static bool assigned_when_over(const mf_asked *asked, const mf_assignment *it)
{
    const mf_job *job = asked->job;
    mf_day end = mf_later(asked->completed, asked->shown);
    bool part = last_act(job, it->person) != MF_DAY_NONE;
    for (size_t i = 0; i < job->n_training && !part; i++)
        part = mf_same(job->training[i].trainer, it->person);
    for (size_t i = 0; i < job->n_certification && !part; i++)
        part = mf_same(job->certification[i].person, it->person);
    return asked->completed != MF_DAY_NONE && it->on > end && (!part || assigned_by(job, it, end));
}

const char *mf_if_renovator(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->assignment->on > asked->today)
        return "assigned-later";
    if (subject->assignment->duty != MF_DUTY_RENOVATOR)
        return "not-a-renovator";
    return assigned_when_over(asked, subject->assignment) ? "assigned-when-over" : NULL;
}

/* Whether another renovator, certified throughout, was assigned by the day after one's certificate
 * ended, and that one did nothing any more. */
static bool relieved(const mf_asked *asked, const mf_assignment *own, mf_day last)
{
    const mf_job *job = asked->job;
    for (size_t i = 0; last_act(job, own->person) <= last && i < job->n_assignment; i++) {
        const mf_assignment *it = &job->assignment[i];
        if (it->duty == MF_DUTY_RENOVATOR && !mf_same(it->person, own->person) &&
            it->on <= last + 1 &&
            last_covered(job, it->person, MF_DISC_RENOVATOR, last + 1) >= asked->last)
            return true;
    }
    return false;
}

/* The certificate of the first day may be of a refresher alone, or of one that came when nothing
 * was left to refresh, 745.90(a)(4). */
static void warn_of_initial(const mf_asked *asked, const char *holder, mf_day first,
                            mf_finding *out)
{
    const mf_certificate *it = mf_certified(asked->job, holder, MF_DISC_RENOVATOR, first, NULL);
    if (out->verdict != MF_MET || it == NULL)
        return;
    bool alone = mf_certificate_alone(asked->job, it);
    if (!alone && !mf_certificate_after_lapse(asked->job, it))
        return;
    mf_say(out, MF_WARNING, alone ? "certificate-initial-unsaid" : "certificate-after-lapse");
    mf_say_days(out, it->issued, first);
    out->evidence = mf_or_empty(it->src.entry);
}

void mf_show_renovator_certified(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_assignment *it = subject->assignment;
    mf_day first = first_day(asked, it);
    certified_through(asked->job, it->person, MF_DISC_RENOVATOR, first, asked->last, out);
    mf_day last = last_covered(asked->job, it->person, MF_DISC_RENOVATOR, first);
    if (out->verdict == MF_LACKING && last >= first && relieved(asked, it, last)) {
        mf_say(out, MF_MET, "certificate-until-relieved");
        mf_say_days(out, last, last + 1);
        return;
    }
    warn_of_initial(asked, it->person, first, out);
    warn_of_end(asked, it->person, MF_DISC_RENOVATOR, out);
}

/* A file of whatever kind, a photo of the paper too, that was attached to the entry. */
static bool copy_attached(const mf_job *job, const char *entry)
{
    for (size_t i = 0; i < job->n_attachment; i++)
        if (mf_given(entry) && mf_same(job->attachment[i].about, entry))
            return true;
    return false;
}

/* A course certificate has a number of its own (common practice, no source here): where somebody
 * else's has the same of the same issuer, one of the two is written down wrong. */
static const mf_certificate *of_somebody_else(const mf_job *job, const mf_certificate *own)
{
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        if (it->discipline == own->discipline && mf_same_room(it->number, own->number) &&
            mf_same_room(it->issuer, own->issuer) && !mf_same(it->holder, own->holder))
            return it;
    }
    return NULL;
}

/* Any certificate will do to be copied; whether it is valid is asked above. The record must hold
 * the copy: one that nobody attached may lie in a folder, which is asked and does not block. */
void mf_show_renovator_number(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    bool copy = false;
    mf_say(out, MF_LACKING, "certificate-no-number");
    for (size_t i = 0; i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        if (it->discipline != MF_DISC_RENOVATOR || !mf_same(it->holder, subject->id) ||
            !mf_given(it->number) || copy)
            continue;
        copy = copy_attached(job, it->src.entry);
        mf_say(out, copy ? MF_MET : MF_WARNING,
               copy ? "certificate-copy-attached" : "certificate-on-file");
        out->evidence = mf_or_empty(it->src.entry);
        mf_say_days(out, it->issued, mf_certificate_last_day_for(asked->job, it));
        const mf_certificate *other = of_somebody_else(job, it);
        if (other == NULL)
            continue;
        mf_say(out, MF_WARNING, "certificate-of-two");
        out->other = mf_or_empty(other->src.entry);
    }
}

/* ---- assignments ---------------------------------------------------------------------- */

void mf_show_renovator_assigned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_assignment *first = NULL;
    (void)subject;
    for (size_t i = 0; i < job->n_assignment; i++) {
        const mf_assignment *it = &job->assignment[i];
        if (it->duty == MF_DUTY_RENOVATOR && (first == NULL || it->on < first->on))
            first = it;
    }
    mf_say(out, MF_LACKING, "renovator-none");
    mf_say_days(out, MF_DAY_NONE, asked->start);
    if (first == NULL)
        return;
    out->subject = mf_or_empty(first->person);
    out->evidence = mf_or_empty(first->src.entry);
    out->d1 = first->on;
    out->d2 = started(asked);
    if (first->on <= out->d2)
        mf_say(out, MF_MET, "renovator-assigned");
    else
        mf_say(out, MF_LACKING, "renovator-assigned-late");
}

/* Whoever may clear may look, without a part in the work. */
static bool looked_to_examine(const mf_job *job, const mf_verification *it)
{
    return mf_is_look(it) && mf_may_sample(job, it->person, it->on);
}

/* The first day somebody did something in a work area, or MF_DAY_NONE. */
static mf_day first_act(const mf_job *job, const char *person)
{
    mf_day first = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_tick; i++) {
        if (mf_same(job->tick[i].person, person))
            first = mf_earlier_of(first, job->tick[i].on);
    }
    for (size_t i = 0; i < job->n_practice; i++) {
        if (job->practice[i].planned != MF_YES && mf_same(job->practice[i].person, person))
            first = mf_earlier_of(first, job->practice[i].on);
    }
    for (size_t i = 0; i < job->n_verification; i++) {
        if (mf_same(job->verification[i].person, person) &&
            !looked_to_examine(job, &job->verification[i]))
            first = mf_earlier_of(first, job->verification[i].on);
    }
    return first;
}

const char *mf_if_acted(const mf_asked *asked, const mf_subject *subject)
{
    return first_act(asked->job, subject->id) == MF_DAY_NONE ? "person-not-on-job" : NULL;
}

void mf_show_person_assigned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_assignment *it = mf_assigned(asked->job, subject->id);
    mf_day acted = first_act(asked->job, subject->id);
    out->evidence = it == NULL ? "" : mf_or_empty(it->src.entry);
    mf_say_days(out, it == NULL ? MF_DAY_NONE : it->on, acted);
    if (it == NULL)
        mf_say(out, MF_LACKING, "person-not-assigned");
    else if (it->on > acted)
        mf_say(out, MF_LACKING, "person-assigned-late");
    else
        mf_say(out, MF_MET, "person-assigned");
}

/* ---- training --------------------------------------------------------------------------- */

/* Who is to come later, and has done nothing yet, may be trained later. */
const char *mf_if_worker(const mf_asked *asked, const mf_subject *subject)
{
    const mf_assignment *it = subject->assignment;
    if (it->duty != MF_DUTY_WORKER)
        return "not-a-worker";
    if (it->on > asked->today && first_act(asked->job, it->person) == MF_DAY_NONE)
        return "assigned-later";
    mf_day day = first_day(asked, it);
    return mf_certified(asked->job, it->person, MF_DISC_RENOVATOR, day, NULL) != NULL
               ? "worker-certified"
               : NULL;
}

static void judge_training(const mf_job *job, const mf_training *it, mf_day first, mf_finding *out)
{
    bool by_renovator = mf_certified(job, it->trainer, MF_DISC_RENOVATOR, it->on, NULL) != NULL;
    out->evidence = mf_or_empty(it->src.entry);
    mf_say_days(out, it->on, first);
    if (!by_renovator)
        mf_say(out, MF_LACKING, "trainer-not-certified");
    else if (it->on > first)
        mf_say(out, MF_LACKING, "training-late");
    else
        mf_say(out, MF_MET, "training-given");
}

/* One good training is enough; else the last one says what is wrong. */
void mf_show_trained(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_day first = first_day(asked, subject->assignment);
    mf_say(out, MF_LACKING, "training-none");
    mf_say_days(out, MF_DAY_NONE, first);
    out->evidence = "";
    for (size_t i = 0; i < job->n_training && out->verdict != MF_MET; i++) {
        if (mf_same(job->training[i].worker, subject->id))
            judge_training(job, &job->training[i], first, out);
    }
}

void mf_show_topics(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    bool given = mf_given(subject->training->topics);
    mf_say(out, given ? MF_MET : MF_LACKING, given ? "topics-given" : "topics-none");
    mf_say_days(out, subject->training->on, MF_DAY_NONE);
}
