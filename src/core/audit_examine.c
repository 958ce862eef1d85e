/* Who clears a worksite in assisted housing, and that it was looked at as well: 24 CFR
 * 35.1340(b)(1), (b)(2)(ii), (f). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/person.h>
#include <mistfold/stage.h>

/* ---- who did the work ------------------------------------------------------------------ */

#define NAMED(list, counts)                                                                        \
    do {                                                                                           \
        for (size_t i = 0; i < job->n_##list; i++)                                                 \
            if (counts)                                                                            \
                return true;                                                                       \
    } while (0)

/* Whoever is named for anything but looking had part in it. */
static bool worked(const mf_job *job, const char *person)
{
    NAMED(assignment, mf_same(job->assignment[i].person, person));
    NAMED(tick, mf_same(job->tick[i].person, person));
    NAMED(tick, mf_same(job->tick[i].renovator, person));
    NAMED(practice, mf_same(job->practice[i].person, person));
    NAMED(verification,
          !mf_is_look(&job->verification[i]) && mf_same(job->verification[i].person, person));
    return false;
}

/* ---- whoever took the sample ------------------------------------------------------------ */

const char *mf_if_examined(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_over(asked, subject);
    if (why == NULL && mf_area_off(asked->whole, subject->sample->area, asked->today))
        return "area-called-off"; /* there is nothing to clear */
    return why != NULL ? why : mf_if_in_force(asked, subject);
}

/* Nobody clears his or her own work, nor that of his or her employer; the exception is the
 * qualified staff of the designated party, which owns the housing or holds the grant. */
void mf_show_assisted_examiner(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const struct {
        mf_verdict verdict;
        const char *why;
    } by_employer[] = {
        [MF_EMPLOYER_UNSAID] = {MF_LACKING, "examiner-employer-unsaid"},
        [MF_EMPLOYER_FIRM] = {MF_LACKING, "examiner-of-firm"},
        [MF_EMPLOYER_OWNER] = {MF_MET, "examiner-of-owner"},
        [MF_EMPLOYER_INDEPENDENT] = {MF_MET, "examiner-apart"},
    };
    const mf_dust_sample *it = subject->sample;
    out->subject = mf_or_empty(it->sampler);
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (worked(asked->job, it->sampler))
        mf_say(out, MF_LACKING, "examiner-worked");
    else
        mf_say(out, by_employer[it->employer].verdict, by_employer[it->employer].why);
}

/* ---- whoever signs a technician's work -------------------------------------------------- */

/* An inspector or risk assessor needs nobody to approve. */
const char *mf_if_examined_by_technician(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *it = subject->sample;
    const char *why = mf_if_examined(asked, subject);
    if (why != NULL)
        return why;
    return mf_certified_assessor(asked->job, it->sampler, it->on) != NULL ? "examiner-assessor"
                                                                          : NULL;
}

/* (b)(1)(iii). That a technician licensed for it may clear single-family housing or single
 * units alone, (iv), is not represented: no such license is among the disciplines. */
void mf_show_assisted_approved(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_dust_sample *it = subject->sample;
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (!mf_given(it->approved_by)) {
        mf_say(out, MF_LACKING, "approval-none");
        return;
    }
    out->subject = it->approved_by;
    if (mf_certified_assessor(job, it->approved_by, it->on) == NULL)
        mf_say(out, MF_LACKING, "approval-not-certified");
    else if (worked(job, it->approved_by))
        mf_say(out, MF_LACKING, "approval-worked");
    else
        mf_say(out, MF_MET, "approval-given");
}

/* ---- the visual assessment --------------------------------------------------------------- */

/* Why nobody who may look examined the area; the last reason is told. */
static const char *may_not_look(const mf_job *job, const mf_verification *look)
{
    if (!mf_given(look->person) || worked(job, look->person))
        return "assessed-by-crew";
    return mf_may_sample(job, look->person, look->on) ? NULL : "assessed-not-certified";
}

/* What was last seen of the area by somebody who may clear it and did none of the work, or
 * NULL; *why is then whose look it is that does not count. */
static const mf_verification *last_seen(const mf_job *job, const char *area, const char **why)
{
    const mf_verification *last = NULL;
    *why = "assessed-none";
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        bool one_surface = it->event == MF_VER_LOOK_CLEAN && mf_given(it->surface);
        if (!mf_is_look(it) || !mf_same(it->area, area) || one_surface)
            continue;
        const char *fault = may_not_look(job, it);
        if (fault != NULL)
            *why = fault;
        else if (last == NULL ||
                 mf_when(it->on, it->at_minute) >= mf_when(last->on, last->at_minute))
            last = it;
    }
    return last;
}

/* Whether the area was cleaned after that look: on a later day, or later on the same one. */
static bool cleaned_after(const mf_job *job, const mf_verification *seen)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (mf_is_cleaning(it) && mf_same(it->area, seen->area) &&
            mf_surely_before(seen->on, seen->at_minute, it->on, it->at_minute))
            return true;
    }
    return false;
}

/* Clearance is no laboratory result alone: whoever clears looks at the place as well, and
 * is as independent of the work for that. */
void mf_show_assisted_visual(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const char *why;
    const mf_verification *seen = last_seen(job, subject->area->id, &why);
    if (seen == NULL) {
        mf_say(out, MF_LACKING, why);
        return;
    }
    const mf_practice *work = mf_worked_since(job, subject->area->id, seen->on, seen->at_minute);
    out->evidence = mf_or_empty(seen->src.entry);
    mf_say_days(out, seen->on, MF_DAY_NONE);
    if (seen->event != MF_VER_LOOK_CLEAN)
        mf_say(out, MF_LACKING, "assessed-dirty");
    else if (cleaned_after(job, seen))
        mf_say(out, MF_LACKING, "assessed-before");
    else if (work != NULL)
        mf_say_work(out, &(mf_work_after){work, seen->on, seen->at_minute, seen->src.entry},
                    "assessed-before", "assessed-work-unsaid");
    else
        mf_say(out, MF_MET, "assessed-clean");
}
