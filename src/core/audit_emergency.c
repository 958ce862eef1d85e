/* What an emergency excuses, what it must not, and what is written down of it.
 * 40 CFR 745.82(b), 745.86(b)(6). */
#include "core/audit_rows.h"

#include "core/spelling.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/emergency.h>

const char *mf_if_emergency(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return mf_emergency_claimed(asked->job) ? NULL : "no-emergency";
}

static const mf_emergency *entry_of(const mf_asked *asked)
{
    const mf_job *job = asked->job;
    return job->n_emergency == 0 ? NULL : &job->emergency[job->n_emergency - 1];
}

static void say_entry(const mf_asked *asked, mf_finding *out)
{
    const mf_emergency *it = entry_of(asked);
    out->evidence = mf_or_empty(it == NULL ? asked->house->src.entry : it->src.entry);
    if (it != NULL)
        mf_say_days(out, it->on, MF_DAY_NONE);
}

/* "If not immediately attended to" (745.82(b)): no number of days is in the rule. Where the work
 * waited for as long as a mailed pamphlet takes (745.84(a)(1)(ii)) people could have been told as
 * of any renovation; that is told, and judged by a person. */
static bool could_wait(const mf_asked *asked, const mf_emergency *it, mf_finding *out)
{
    mf_day began = mf_earlier_of(asked->begins, asked->start);
    const mf_limit *mail = mf_limit_for(asked->job, MF_LIMIT_MAILING_DAYS, began);
    int64_t waited = (int64_t)began - it->on;
    if (it->cause != MF_CAUSE_SUDDEN_EVENT || it->on == MF_DAY_NONE || mail == NULL ||
        !mf_limit_holds(mail, waited))
        return false;
    mf_say(out, MF_WARNING, "emergency-waited");
    mf_say_numbers(out, MF_UNIT_DAYS, waited, mail->value);
    mf_say_days(out, it->on, began);
    return true;
}

/* How far responding required it hangs on the event: a person must judge that. */
void mf_show_emergency(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const char *const names[] = {[MF_EMERGENCY_STANDS] = "emergency-as-needed",
                                        [MF_EMERGENCY_DENIED] = "emergency-denied",
                                        [MF_EMERGENCY_NOT_ELEVATED] = "emergency-not-elevated",
                                        [MF_EMERGENCY_NO_REASON] = "emergency-unreasoned",
                                        [MF_EMERGENCY_LATE] = "emergency-late"};
    const mf_emergency *it = entry_of(asked);
    (void)subject;
    mf_emergency_fault fault = it == NULL ? MF_EMERGENCY_DENIED : mf_emergency_void(asked->job, it);
    mf_say(out, MF_WARNING, it == NULL ? "emergency-by-hand" : names[fault]);
    say_entry(asked, out);
    if (it == NULL || (fault == MF_EMERGENCY_STANDS && could_wait(asked, it, out)))
        return;
    const mf_limit *days = mf_limit_for(asked->job, MF_LIMIT_EMERGENCY_DAYS, it->on);
    mf_say_numbers(out, MF_UNIT_DAYS, days == NULL ? MF_NUM_NONE : days->value, MF_NUM_NONE);
    mf_say_days(out, it->on, asked->start);
}

/* Owed where the firm "was unable to comply with all" (745.86(b)(6)). Without an entry nothing is
 * excused, so what was not followed lacks by itself. */
void mf_show_emergency_notes(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_emergency *it = entry_of(asked);
    (void)subject;
    say_entry(asked, out);
    if (it == NULL || mf_says_nothing(it->nature))
        mf_say(out, it == NULL ? MF_WARNING : MF_LACKING, "emergency-not-noted");
    else if (mf_given(it->waived) && mf_says_nothing(it->reason))
        mf_say(out, MF_LACKING, "emergency-no-reason");
    else
        mf_say(out, MF_MET, "emergency-noted");
}

void mf_show_emergency_limits(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const char *name = "";
    size_t len = 0;
    const mf_emergency *it = subject->emergency;
    (void)asked;
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (!mf_emergency_excess(it, &name, &len)) {
        mf_say(out, MF_MET, mf_given(it->waived) ? "emergency-within" : "emergency-nothing-waived");
        return;
    }
    mf_waiver waiver = mf_waiver_named(name, len);
    bool child = waiver != MF_WAIVER_COUNT; /* lawful, but not for this cause */
    mf_say(out, MF_LACKING, child ? "emergency-pamphlet-only" : "emergency-never");
}

/* ---- which requirement is excused --------------------------------------------------- */

static bool cites(const char *citation, const char *paragraph)
{
    return strncmp(citation, paragraph, strlen(paragraph)) == 0;
}

/* 745.82(b) names the duties and the sections 745.85, .89 and .90, no paragraphs: these are
 * where the duties stand. A citation names first the paragraph that asks for it. Only steps are
 * excused of 745.85: the lists of areas serve cleaning as well, which is not. */
mf_waiver mf_waiver_for(const char *citation, bool step)
{
    static const struct {
        const char *paragraph;
        mf_waiver waiver;
        bool step;
    } rows[] = {
        {"40 CFR 745.85(a)(1)", MF_WAIVE_SIGNS, true},
        {"40 CFR 745.85(a)(2)", MF_WAIVE_CONTAINMENT, true},
        {"40 CFR 745.85(a)(4)", MF_WAIVE_WASTE, true},
        {"40 CFR 745.89(d)(1)", MF_WAIVE_TRAINING, false},
        {"40 CFR 745.90(b)(2)", MF_WAIVE_TRAINING, false},
        {"40 CFR 745.81(a)(2)", MF_WAIVE_CERTIFICATION, false},
        {"40 CFR 745.89(d)(2)", MF_WAIVE_CERTIFICATION, false},
        {"40 CFR 745.90(a)", MF_WAIVE_CERTIFICATION, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].step == step && cites(citation, rows[i].paragraph))
            return rows[i].waiver;
    }
    return MF_WAIVER_COUNT;
}

static mf_waiver waiver_of(const mf_audit_row *row)
{
    bool told = row->each == MF_EACH_PARTY || row->each == MF_EACH_ANY_PARTY ||
                row->each == MF_EACH_UNIT || row->each == MF_EACH_NOTICE ||
                row->each == MF_EACH_SCOPE_CHANGE || row->each == MF_EACH_DUTY ||
                row->each == MF_EACH_AREA; /* which say who is to be told */
    bool step = mf_given(row->step) || row->each == MF_EACH_PRACTICE || /* each day of it */
                row->shown == mf_show_waste_at_end;
    const char *citation = row->requirement.citation;
    return told && cites(citation, "40 CFR 745.84") ? MF_WAIVE_PAMPHLET
                                                    : mf_waiver_for(citation, step);
}

static bool cleaned_since(const mf_job *job, const char *area, mf_day worked)
{
    for (size_t i = 0; worked != MF_DAY_NONE && i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (mf_is_cleaning(it) && it->on >= worked && mf_same(it->area, area))
            return true;
    }
    return false;
}

/* Until when what lacks went on lacking: on its day of work; in an area until the last work there,
 * or until today while there may be more; else until the last work of the job. */
static mf_day lacked_until(const mf_asked *asked, const mf_audit_row *row,
                           const mf_subject *subject, const mf_finding *out)
{
    const mf_job *job = asked->job;
    bool of_area = row->each == MF_EACH_AREA;
    if (row->each == MF_EACH_PRACTICE)
        return subject->practice->on;
    if (row->shown == mf_show_disturbed_by)
        return out->d1; /* paint disturbed untaught on that day */
    if (row->shown == mf_show_waste_at_end)
        return out->d2; /* taken up on that day */
    mf_day worked = mf_worked_last(job, of_area ? subject->id : "");
    if (asked->completed != MF_DAY_NONE || (of_area && cleaned_since(job, subject->id, worked)))
        return worked == MF_DAY_NONE ? asked->start : worked;
    return mf_later(mf_later(asked->today, asked->start), worked);
}

/* Where only the house entry claims an emergency, and nobody wrote down what happened,
 * nothing falls away: 745.86(b)(6) asks for its nature. */
void mf_excuse(const mf_asked *asked, const mf_audit_row *row, const mf_subject *subject,
               mf_finding *out)
{
    mf_waiver waiver = waiver_of(row);
    if (waiver == MF_WAIVER_COUNT || !mf_emergency_claimed(asked->job))
        return;
    if (mf_same(out->why, "untaught-cleaning")) /* cleaned by people trained by 745.90(b)(2) */
        return;
    const mf_emergency *it =
        waiver == MF_WAIVE_PAMPHLET
            ? mf_emergency_waives(asked->job, waiver, MF_DAY_NONE)
            : mf_emergency_waives(asked->job, waiver, lacked_until(asked, row, subject, out));
    if (it == NULL)
        return;
    mf_say(out, MF_NOT_DUE, "emergency");
    out->evidence = mf_or_empty(it->src.entry);
}
