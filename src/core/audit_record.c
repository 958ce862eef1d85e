/* The file itself: closed, certified, unaltered, and its years of retention. 40 CFR 745.86. */
#include "core/audit_rows.h"
#include "core/contradict.h"
#include "core/corrected.h"

#include "core/text.h"
#include <mistfold/kind.h>

/* The days of 745.86(c)(1) run from the end of the renovation: where nothing is logged for longer
 * than they are before the day that is said, or a record came too late by the last thing that is,
 * somebody should say what was done until then. */
static bool long_after(const mf_asked *asked)
{
    const mf_limit *days = mf_limit_for(asked->job, MF_LIMIT_HANDOVER_DAYS, asked->completed);
    if (asked->shown == MF_DAY_NONE || days == NULL || asked->completed <= asked->shown)
        return false;
    if ((int64_t)asked->completed - asked->shown > days->value)
        return true;
    for (size_t i = 0; i < asked->job->n_handover; i++)
        if ((int64_t)asked->job->handover[i].on - asked->shown > days->value)
            return true;
    return false;
}

void mf_show_completion(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    (void)subject;
    if (asked->completed == MF_DAY_NONE) {
        mf_say(out, MF_LACKING, "completion-none");
        return;
    }
    bool early = asked->completed < asked->shown;
    bool unbegun = asked->completed < asked->house->start;
    bool late = long_after(asked);
    mf_say(out,
           early             ? MF_LACKING
           : unbegun || late ? MF_WARNING
                             : MF_MET,
           early     ? "completion-before-work"
           : unbegun ? "completion-before-start"
           : late    ? "completion-long-after"
                     : "completion-logged");
    mf_say_days(out, asked->completed,
                early || (late && !unbegun) ? asked->shown
                : unbegun                   ? asked->house->start
                                            : MF_DAY_NONE);
    out->evidence = mf_or_empty(job->completion[job->n_completion - 1].src.entry);
}

/* ---- the renovator's certification ------------------------------------------------------ */

/* One that stands is enough; else the last says what is wrong with it. */
void mf_show_certification(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    (void)subject;
    mf_say(out, MF_LACKING, "certification-none");
    mf_say_days(out, MF_DAY_NONE, asked->completed);
    for (size_t i = 0; i < job->n_certification && out->verdict != MF_MET; i++)
        mf_certification_judge(job, &job->certification[i], out);
}

/* ---- keeping ------------------------------------------------------------------------------ */

void mf_show_retention(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool over = asked->today > asked->due.keep_until;
    (void)subject;
    mf_say(out, over ? MF_WARNING : MF_MET, over ? "retention-over" : "retention-runs");
    mf_say_days(out, asked->due.keep_until, asked->completed);
    mf_say_limit(out, asked->job, MF_LIMIT_RETENTION_YEARS, asked->completed);
}

void mf_show_unaltered(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    switch (asked->job->integrity) {
    case MF_INTEGRITY_GOOD:
        mf_say(out, MF_MET, "integrity-good");
        return;
    case MF_INTEGRITY_BROKEN:
        mf_say(out, MF_LACKING, "integrity-broken");
        return;
    case MF_INTEGRITY_UNCHECKED:
        break;
    }
    mf_say(out, MF_LACKING, "integrity-unchecked");
}

/* ---- corrections ---------------------------------------------------------------------------- */

/* Only what no later correction replaces says anything about the entry today. */
const char *mf_if_leaf(const mf_asked *asked, const mf_subject *subject)
{
    bool replaced = mf_correction_replaced(asked->job, subject->correction);
    return replaced ? "correction-replaced" : NULL;
}

/* Whether a correction changed, or a withdrawal took away, what an answer may rest on. */
static bool told(const mf_asked *asked, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_correction *it = out->fix;
    if (!mf_correction_concerns(job, it))
        return false;
    out->was = mf_corrected_from(job, it);
    return out->was != NULL || mf_corrected_away(it);
}

/* Which of two corrections is true nobody knows, so no answer is yes: of those jobs that rest
 * on the entry. */
void mf_show_corrections(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_correction *it = subject->correction;
    out->fix = it;
    if (mf_correction_contradicted(asked->job, it)) {
        bool ours = mf_correction_concerns(asked->job, it);
        mf_say(out, ours ? MF_LACKING : MF_MET,
               ours ? "correction-contradicted" : "correction-elsewhere");
    } else if (told(asked, out)) { /* what is in force now may be kinder */
        mf_say(out, MF_WARNING,
               mf_given(it->after) ? "correction-of-result" : "correction-of-test");
        out->told = mf_or_empty(it->reason);
    } else {
        mf_say(out, MF_MET, "correction-alone");
    }
}
