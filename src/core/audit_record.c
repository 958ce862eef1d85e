/* The file itself: closed, certified, kept, unaltered. 40 CFR 745.86. */
#include "core/audit_rows.h"
#include "core/contradict.h"

#include "core/text.h"
#include <mistfold/person.h>
#include <string.h>

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
    mf_say(out,
           early     ? MF_LACKING
           : unbegun ? MF_WARNING
                     : MF_MET,
           early     ? "completion-before-work"
           : unbegun ? "completion-before-start"
                     : "completion-logged");
    mf_say_days(out, asked->completed,
                early     ? asked->shown
                : unbegun ? asked->house->start
                          : MF_DAY_NONE);
    out->evidence = mf_or_empty(job->completion[job->n_completion - 1].src.entry);
}

/* ---- the renovator's certification ------------------------------------------------------ */

static const char *certification_fault(const mf_asked *asked, const mf_certification *it)
{
    if (it->on < asked->completed)
        return "certification-early";
    if (it->on < asked->shown)
        return "certification-before-work";
    if (mf_assigned_renovator(asked->job, it->person) == NULL)
        return "certification-not-assigned";
    if (mf_certified(asked->job, it->person, MF_DISC_RENOVATOR, it->on, NULL) == NULL)
        return "certification-not-certified";
    return NULL;
}

void mf_show_certification(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    (void)subject;
    mf_say(out, MF_LACKING, "certification-none");
    mf_say_days(out, MF_DAY_NONE, asked->completed);
    for (size_t i = 0; i < job->n_certification && out->verdict != MF_MET; i++) {
        const mf_certification *it = &job->certification[i];
        const char *fault = certification_fault(asked, it);
        mf_say(out, fault == NULL ? MF_MET : MF_LACKING,
               fault == NULL ? "certification-signed" : fault);
        out->subject = mf_or_empty(it->person);
        out->evidence = mf_or_empty(it->src.entry);
        out->d1 = it->on;
        if (it->on >= asked->completed && it->on < asked->shown)
            out->d2 = asked->shown;
    }
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

/* What was found or seen, and how paint was disturbed. */
static bool is_test(const mf_correction *it)
{
    static const char *const tests[] = {"reading",     "kit_test", "chip",        "determination",
                                        "dust_sample", "practice", "verification"};
    for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++)
        if (mf_same(it->kind, tests[i]))
            return true;
    return false;
}

/* Whether a correction changed what a test found, or of which part. */
static bool result_changed(const mf_correction *it)
{
    static const char *const decisive[] = {
        "\"component\":",  "\"result\":",  "\"loading_ug_cm2\":", "\"qualifier\":",
        "\"weight_ppm\":", "\"purpose\":", "\"loading_ng_ft2\":", "\"mass_ng\":",
        "\"blank\":",      "\"method\":",  "\"event\":",          "\"surface\":"};
    for (size_t i = 0; i < sizeof decisive / sizeof decisive[0]; i++) {
        size_t n_before, n_after;
        const char *before = mf_member_of(it->before, decisive[i], &n_before);
        const char *after = mf_member_of(it->after, decisive[i], &n_after);
        if (n_before != n_after || memcmp(before, after, n_before) != 0)
            return true;
    }
    return false;
}

/* Which of two corrections is true nobody knows, so no answer is yes: of those jobs that rest
 * on the entry. */
void mf_show_corrections(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_correction *it = subject->correction;
    bool withdrawn = !mf_given(it->after);
    if (mf_correction_contradicted(asked->job, it)) {
        bool ours = mf_correction_concerns(asked->job, it);
        mf_say(out, ours ? MF_LACKING : MF_MET,
               ours ? "correction-contradicted" : "correction-elsewhere");
    } else if (is_test(it) && (withdrawn || result_changed(it))) { /* what remains may be kinder */
        mf_say(out, MF_WARNING, withdrawn ? "correction-of-test" : "correction-of-result");
        out->told = mf_or_empty(it->reason);
    } else {
        mf_say(out, MF_MET, "correction-alone");
    }
}
