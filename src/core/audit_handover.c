/* Has everybody got the information about the work, in time from the final invoice or the
 * completion? 40 CFR 745.86(c). */
#include "core/audit_rows.h"

#include "core/occupied_units.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

const char *mf_if_handover_due(const mf_asked *asked, const mf_subject *subject)
{
    return mf_not_owed(asked, subject);
}

/* What is not given is pending through the last day, and lacking after it. Without a completion
 * and a final invoice that day is not known yet. */
static bool pending(const mf_asked *asked)
{
    return asked->due.handover == MF_DAY_NONE || asked->today <= asked->due.handover;
}

/* What shows how the work was done cannot be handed over before it was done and shown to be clean;
 * of a job that is not completed not before its final invoice. */
static bool too_soon(const mf_asked *asked, const mf_handover *it)
{
    if (asked->completed == MF_DAY_NONE)
        return it->on < mf_invoiced_on(asked->job);
    return it->on < mf_later(asked->shown, asked->completed);
}

/* The papers of 745.86(c)(1) by name, capitals or not. "No record" and "record of
 * payment" are none of them. */
static bool is_record(const char *what)
{
    static const char *const papers[] = {"record",      "the record",          "summary",
                                         "the summary", "record and summary",  "summary and record",
                                         "expediente",  "el expediente",       "resumen",
                                         "el resumen",  "expediente y resumen"};
    for (size_t i = 0; i < sizeof papers / sizeof papers[0]; i++) {
        if (mf_same_but_case(what, papers[i]))
            return true;
    }
    return false;
}

/* Whether what was given told of the tests and the work, as 745.86(c)(1) asks. The record
 * and the summary do; of a paper in other words somebody must say it. */
static mf_tri informs(const mf_handover *it)
{
    if (it->information != MF_UNKNOWN)
        return it->information;
    return is_record(it->what) ? MF_YES : MF_UNKNOWN;
}

/* Of a unit any adult occupant got it for all (745.86(c)(1)(ii)). */
static bool got_for(const mf_job *job, const mf_subject *subject, const mf_handover *it)
{
    const mf_party *party = mf_job_party(job, it->party);
    return party != NULL && mf_stands_for(job, subject, party);
}

/* With a final invoice that came before the work was done and shown to be clean, what there was
 * could be given; the rest of it, and so the whole, within the days that count from the completion
 * (745.86(c)(1)). Without that first part the last day is the earlier one. */
static mf_day last_day(const mf_asked *asked, const mf_subject *subject)
{
    const mf_job *job = asked->job;
    mf_day invoiced = mf_invoiced_on(job);
    mf_day done = mf_later(asked->shown, asked->completed);
    const mf_limit *days = mf_limit_for(job, MF_LIMIT_HANDOVER_DAYS, asked->completed);
    if (asked->completed == MF_DAY_NONE || invoiced >= done || days == NULL)
        return asked->due.handover;
    for (size_t i = 0; i < job->n_handover; i++) {
        const mf_handover *it = &job->handover[i];
        if (got_for(job, subject, it) && it->on == invoiced && informs(it) == MF_YES)
            return asked->completed + (mf_day)days->value;
    }
    return asked->due.handover;
}

/* How far it serves: what came too soon, or told nothing, least of all. */
static int worth(const mf_asked *asked, const mf_handover *it, mf_day due)
{
    if (too_soon(asked, it))
        return 0;
    mf_tri told = informs(it);
    if (told == MF_NOT)
        return 1;
    return (it->on <= due ? 4 : 2) + (told == MF_YES);
}

/* The first of those that serve best; of those that came too soon the last. */
static const mf_handover *best_to(const mf_asked *asked, const mf_subject *subject)
{
    const mf_job *job = asked->job;
    const mf_handover *best = NULL;
    mf_day due = last_day(asked, subject);
    for (size_t i = 0; i < job->n_handover; i++) {
        const mf_handover *it = &job->handover[i];
        if (!got_for(job, subject, it))
            continue;
        int more = best == NULL ? 1 : worth(asked, it, due) - worth(asked, best, due);
        if (more == 0)
            more = worth(asked, it, due) == 0 ? it->on > best->on : it->on < best->on;
        if (more > 0)
            best = it;
    }
    return best;
}

static void say_days_after(mf_finding *out)
{
    mf_say_numbers(out, MF_UNIT_DAYS, out->limit == NULL ? MF_NUM_NONE : out->limit->value,
                   MF_NUM_NONE);
}

/* There is nobody on the list whom it could have been given to; by a day, or by one that is not
 * known yet. */
static void show_nobody(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const char *const names[][2] = {
        {"handover-not-listed", "handover-not-listed-yet"},
        {"handover-unit-unsaid", "handover-unit-unsaid-yet"},
        {"handover-nobody", "handover-nobody-yet"},
    };
    bool open = asked->due.handover == MF_DAY_NONE;
    size_t which = subject->role != MF_ROLE_OCCUPANT ? 0 : subject->unit == NULL ? 1 : 2;
    mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING, names[which][open]);
    if (open)
        say_days_after(out);
}

static void show_when_completed(mf_finding *out)
{
    mf_say(out, MF_PENDING, "handover-when-completed");
    say_days_after(out);
}

void mf_show_handover(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_handover *it = best_to(asked, subject);
    mf_day due = last_day(asked, subject);
    bool open = asked->completed == MF_DAY_NONE;
    mf_say_limit(out, asked->job, MF_LIMIT_HANDOVER_DAYS, open ? asked->start : asked->completed);
    mf_say_days(out, it == NULL ? MF_DAY_NONE : it->on, due);
    out->evidence = it == NULL ? "" : mf_or_empty(it->src.entry);
    if (it != NULL)
        out->subject = mf_or_empty(it->party);
    if (subject->party == NULL)
        show_nobody(asked, subject, out);
    else if (due == MF_DAY_NONE)
        show_when_completed(out);
    else if (it == NULL)
        mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING,
               pending(asked) ? "handover-due" : "handover-overdue");
    else if (too_soon(asked, it))
        mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING,
               open                 ? "handover-before-invoice"
               : pending(asked)     ? "handover-early"
               : asked->today > due ? "handover-early-overdue"
                                    : "handover-part");
    else if (informs(it) == MF_NOT)
        mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING,
               pending(asked) ? "handover-tells-nothing" : "handover-told-nothing");
    else if (informs(it) == MF_UNKNOWN) /* other words do not say so: 745.86(c)(3) */
        mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING, "handover-unsaid");
    else if (it->on > due)
        mf_say(out, MF_LACKING, "handover-late");
    else if (!open)
        mf_say(out, MF_MET, "handover-given");
    else /* given with the invoice; work may go on, but past the last day nothing is open */
        mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING,
               pending(asked) ? "handover-before-completed" : "handover-never-completed");
}

/* Whether the party got what 745.86(c)(1) asks for, in time. */
static bool served(const mf_asked *asked, const mf_subject *subject)
{
    const mf_handover *it = best_to(asked, subject);
    return subject->party != NULL && it != NULL && asked->due.handover != MF_DAY_NONE &&
           !too_soon(asked, it) && informs(it) == MF_YES && it->on <= last_day(asked, subject);
}

/* ---- the dust sampling report (745.86(d)) ---------------------------------------------- */

static bool sampled(const mf_job *job)
{
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        if (job->dust_sample[i].required == MF_YES)
            return true;
    }
    return false;
}

static mf_day sampled_last(const mf_job *job)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (job->dust_sample[i].required == MF_YES)
            last = mf_later(last, job->dust_sample[i].on);
    return last;
}

/* Who got nothing at all, or too late, is told by the row of the handover. Parents are owed
 * neither: 745.86(c)(2) and (d)(3) speak of common areas alone. */
const char *mf_if_dust_report_due(const mf_asked *asked, const mf_subject *subject)
{
    if (!sampled(asked->job))
        return "sample-none";
    if (subject->role == MF_ROLE_PARENTS)
        return "parents-no-record";
    const char *not_because = mf_if_handover_due(asked, subject);
    if (not_because != NULL)
        return not_because;
    return served(asked, subject) ? NULL : "handover-asked";
}

void mf_show_dust_report(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_say(out, pending(asked) ? MF_PENDING : MF_LACKING,
           pending(asked) ? "dust-report-due" : "dust-report-overdue");
    mf_day due = last_day(asked, subject);
    mf_say_days(out, MF_DAY_NONE, due);
    out->evidence = "";
    for (size_t i = 0; i < job->n_handover && out->verdict != MF_MET; i++) {
        const mf_handover *it = &job->handover[i];
        if (!got_for(job, subject, it) || it->dust_report != MF_YES)
            continue;
        bool late = it->on > due, early = it->on < sampled_last(job);
        mf_say(out,
               late    ? MF_LACKING
               : early ? out->verdict
                       : MF_MET,
               late    ? "dust-report-late"
               : early ? "dust-report-early"
                       : "dust-report-given");
        out->d1 = it->on;
        out->subject = mf_or_empty(it->party);
        out->evidence = mf_or_empty(it->src.entry);
    }
}
