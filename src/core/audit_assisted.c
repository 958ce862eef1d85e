/* Assisted housing beside the rule: 24 CFR part 35. Shown apart, with citations of
 * its own. */
#include "core/audit_rows.h"

#include "core/area_openings.h"
#include "core/dust_rooms.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/assisted.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/paint.h>
#include <mistfold/person.h>

const char *mf_if_assisted(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    if (asked->house->assisted != MF_YES)
        return "not-assisted";
    return asked->assisted.holds ? NULL : "assisted-exempt";
}

const char *mf_if_assisted_over(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted(asked, subject);
    if (why != NULL)
        return why;
    return asked->assisted.over ? NULL : "assisted-de-minimis";
}

const char *mf_if_assisted_inside(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_over(asked, subject);
    if (why != NULL)
        return why;
    return subject->area->side == MF_SIDE_INTERIOR ? NULL : "assisted-outside";
}

void mf_show_assisted_scope(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_assisted_answer *it = &asked->assisted;
    (void)subject;
    out->subject = it->spot;
    mf_say(out, MF_MET,
           it->over            ? "assisted-over"
           : it->limit == NULL ? "assisted-none"
                               : "assisted-de-minimis");
    if (it->limit == NULL)
        return;
    mf_say_limit(out, asked->job, it->limit->id, asked->house->start);
    mf_say_numbers(out, it->limit->unit, it->n, it->limit->value);
    if (it->n == MF_NUM_NONE) {
        mf_say(out, MF_MET, "assisted-not-known");
        if (!mf_given(it->spot))
            out->subject = mf_or_empty(asked->house->id);
    } else if (it->over && !mf_given(it->spot))
        mf_say(out, MF_MET, "assisted-over-outside");
}

/* "Paint testing" of part 35 is an inspector's or risk assessor's (35.110, from memory); a kit or
 * a chip of the firm's own renovator is proof for 40 CFR 745.82(a)(2)-(3). Which of the two the
 * areas of 35.1350(d) go by was not seen in print: it is told. */
const char *mf_if_tested_free(const mf_asked *asked, const mf_subject *subject)
{
    mf_paint_finding paint;
    const char *why = mf_if_assisted(asked, subject);
    if (why != NULL)
        return why;
    if (!mf_paint_disturbed(asked->job, subject->component))
        return "component-not-affected";
    mf_paint_judge(asked->job, subject->component, &paint);
    bool own = paint.basis == MF_BASIS_KIT || paint.basis == MF_BASIS_CHIP;
    return paint.verdict == MF_PAINT_FREE && own ? NULL : "not-free-by-own-test";
}

void mf_show_assisted_tested(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_paint_finding paint;
    mf_paint_judge(asked->job, subject->component, &paint);
    bool assessor = mf_certified_assessor(asked->job, paint.by, paint.on) != NULL;
    mf_say(out, assessor ? MF_MET : MF_WARNING, assessor ? "tested-by-assessor" : "tested-by-firm");
    mf_say_days(out, paint.on, MF_DAY_NONE);
    out->evidence = mf_or_empty(paint.evidence);
}

void mf_show_assisted_method(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const char *const names[] = {
        [MF_ASSISTED_ALLOWED] = "assisted-method-allowed",
        [MF_ASSISTED_FLAME] = "assisted-flame",
        [MF_ASSISTED_MACHINE] = "assisted-machine",
        [MF_ASSISTED_HEAT] = "assisted-heat",
        [MF_ASSISTED_DRY] = "assisted-dry",
        [MF_ASSISTED_STRIPPER] = "assisted-stripper",
        [MF_ASSISTED_SANDED] = "assisted-sanded",
        [MF_ASSISTED_UNSAID] = "assisted-unsaid",
    };
    const mf_practice *practice = subject->practice;
    mf_assisted_method method = mf_assisted_method_of(asked->job, practice);
    bool doubt = method == MF_ASSISTED_UNSAID || method == MF_ASSISTED_SANDED;
    mf_verdict verdict = method == MF_ASSISTED_ALLOWED ? MF_MET : doubt ? MF_WARNING : MF_LACKING;
    mf_say(out, verdict, names[method]);
    mf_say_days(out, practice->on, MF_DAY_NONE);
    if (practice->method != MF_METHOD_HEAT_GUN)
        return;
    mf_say_limit(out, asked->job, MF_LIMIT_ASSISTED_HEAT_GUN, practice->on);
    mf_say_numbers(out, MF_UNIT_DEG_F, practice->temp_f,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
}

/* ---- occupants ------------------------------------------------------------------------- */

static const mf_occupancy *occupancy_of(const mf_asked *asked)
{
    const mf_job *job = asked->job;
    return job->n_occupancy == 0 ? NULL : &job->occupancy[job->n_occupancy - 1];
}

void mf_show_assisted_out(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_occupancy *it = occupancy_of(asked);
    bool kept = it != NULL && it->kept_out == MF_YES;
    (void)subject;
    mf_say(out, kept ? MF_MET : MF_LACKING,
           kept         ? "occupants-out"
           : it == NULL ? "occupants-not-out"
                        : "occupants-not-kept-out");
    out->evidence = it == NULL ? "" : mf_or_empty(it->src.entry);
}

static bool days_said(const mf_occupancy *it)
{
    return it->from != MF_DAY_NONE && it->until != MF_DAY_NONE && it->from <= it->until;
}

/* What is not said, or cannot be, is asked for by itself: a sentence of its days would have none.
 */
static const char *stay_name(const mf_occupancy *it, mf_stay_fault fault, int64_t n)
{
    static const char *const names[] = {
        [MF_STAY_GOOD] = "stay-good",
        [MF_STAY_HAZARD] = "stay-hazard",
        [MF_STAY_INSIDE] = "stay-inside",
        [MF_STAY_UNSEALED] = "stay-unsealed",
        [MF_STAY_TOO_LONG] = "stay-too-long",
        [MF_STAY_NOT_CLEANED] = "stay-not-cleaned",
        [MF_STAY_UNREACHABLE] = "stay-unreachable",
        [MF_STAY_OTHER_DAYS] = "stay-other-days",
        [MF_STAY_AT_NIGHT] = "stay-at-night",
    };
    if (fault == MF_STAY_NOT_CLEANED && n == MF_NUM_NONE)
        return "stay-margin-unsaid";
    if (fault != MF_STAY_TOO_LONG && fault != MF_STAY_OTHER_DAYS)
        return names[fault];
    if (!days_said(it))
        return "stay-days-unsaid";
    if (fault == MF_STAY_OTHER_DAYS)
        return it->stay == MF_STAY_RELOCATED ? "relocated-other-days" : names[fault];
    if (it->stay == MF_STAY_ONE_DAY && it->from != it->until)
        return "stay-not-one-day";
    return n == MF_NUM_NONE ? "stay-minutes-unsaid" : names[fault];
}

void mf_show_assisted_stay(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_occupancy *it = occupancy_of(asked);
    const mf_limit *limit = NULL;
    int64_t n = MF_NUM_NONE;
    (void)subject;
    if (it == NULL) {
        mf_say(out, MF_LACKING, "stay-none");
        return;
    }
    mf_stay_fault fault = mf_stay_judge(asked->job, it, &limit, &n);
    mf_say(out, fault == MF_STAY_GOOD ? MF_MET : MF_LACKING, stay_name(it, fault, n));
    mf_say_days(out, it->from, it->until);
    out->evidence = mf_or_empty(it->src.entry);
    if (limit == NULL)
        return;
    mf_say_limit(out, asked->job, limit->id, asked->house->start);
    mf_say_numbers(out, limit->unit, n, limit->value);
}

const char *mf_if_assisted_today(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_over(asked, subject);
    if (why == NULL)
        why = mf_if_work_today(asked);
    return why == NULL && occupancy_of(asked) == NULL ? "stay-none" : why;
}

/* Until the work is said to be completed it may go on today, also where all is clean. */
void mf_show_assisted_today(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_occupancy *it = occupancy_of(asked);
    bool over = it->until != MF_DAY_NONE && asked->today > it->until;
    bool ahead = it->from != MF_DAY_NONE && asked->today < it->from;
    (void)subject;
    bool both = days_said(it);
    mf_say(out, over || ahead ? MF_LACKING : MF_MET,
           over    ? (both ? "stay-not-today" : "stay-until-before")
           : ahead ? (both ? "stay-not-today" : "stay-from-later")
           : both  ? "stay-today"
                   : "stay-today-unsaid");
    mf_say_days(out, it->from, it->until);
    out->evidence = mf_or_empty(it->src.entry);
}

/* ---- clearance ---------------------------------------------------------------------------- */

/* The nearest floor outside the area of which a sample counts, in hundredths of a foot;
 * MF_NUM_NONE = none was sampled. */
static int64_t nearest_outside(const mf_asked *asked, const mf_area *area)
{
    int64_t nearest = MF_NUM_NONE;
    for (size_t i = 0; i < asked->job->n_dust_sample; i++) {
        const mf_dust_sample *it = &asked->job->dust_sample[i];
        const mf_subject sample = {.sample = it, .id = "", .evidence = ""};
        if (it->surface == MF_DUST_FLOOR && mf_sampled_outside(it) && mf_same(it->area, area->id) &&
            mf_if_in_force(asked, &sample) == NULL &&
            (nearest == MF_NUM_NONE || it->outside_ft_100 < nearest))
            nearest = it->outside_ft_100;
    }
    return nearest;
}

/* Clearance of the worksite alone shows as well that no dust came out of it: (g)(2). */
static void show_outside(const mf_asked *asked, const mf_area *area, mf_day on, mf_finding *out)
{
    int64_t nearest = nearest_outside(asked, area);
    mf_say_limit(out, asked->job, MF_LIMIT_SAMPLE_OUTSIDE, on);
    mf_say_numbers(out, MF_UNIT_FT_100, nearest,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    if (nearest == MF_NUM_NONE)
        mf_say(out, MF_LACKING, "outside-not-sampled");
    else if (!mf_limit_holds(out->limit, nearest))
        mf_say(out, MF_LACKING, "outside-too-far");
}

static bool say_where(const mf_asked *asked, const mf_dust_sample *it, mf_finding *out)
{
    if (!mf_says_where(asked, it, MF_LACKING, out))
        return false;
    out->subject = mf_or_empty(it->place);
    out->evidence = mf_or_empty(it->src.entry);
    mf_say_days(out, it->on, MF_DAY_NONE);
    return true;
}

/* As dust-in-area, which is asked only where EPA's rule covers the work. */
static void tell_where(const mf_asked *asked, const mf_area *area, mf_finding *out)
{
    const mf_job *job = asked->job;
    for (size_t i = 0; asked->cover.cover != MF_COVER_YES && i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        const mf_subject sample = {.sample = it, .id = "", .evidence = ""};
        if (mf_same(it->area, area->id) && mf_if_inside_sampled(asked, &sample) == NULL &&
            say_where(asked, it, out))
            return;
    }
}

/* ---- cleaned again before it was sampled again ------------------------------------------- */

const char *mf_if_assisted_failed(const mf_asked *asked, const mf_subject *subject)
{
    const mf_area *area = mf_job_area(asked->job, subject->sample->area);
    const char *why = mf_if_assisted_over(asked, subject);
    if (why != NULL)
        return why;
    if (area == NULL || area->side != MF_SIDE_INTERIOR)
        return "assisted-outside";
    return mf_if_failed_before(asked, subject);
}

/* Sampling until a result is good is no cleaning here either, whoever required the sample: a row of
 * its own, as the words of 24 CFR 35.1340(e) were not seen. */
void mf_show_assisted_recleaned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_show_recleaned(asked, subject, out);
    if (out->verdict != MF_MET)
        out->verdict = MF_LACKING;
}

/* ---- what the samples show ------------------------------------------------------------------ */

/* Clearance comes after the hazard reduction and the cleaning, 35.1340(b): what is cleaned later
 * was not cleared. Where EPA's rule holds, dust-wait tells it. */
static bool say_not_clean(const mf_asked *asked, const mf_dust_sample *it, mf_finding *out)
{
    mf_day cleaned;
    const char *untimed;
    mf_tri after = mf_sampled_when_clean(asked->job, it, &cleaned, &untimed);
    if (after == MF_YES || asked->cover.cover == MF_COVER_YES)
        return false;
    mf_say(out, MF_LACKING,
           after == MF_NOT ? "clearance-before-cleaning" : "clearance-cleaning-unsaid");
    mf_say_days(out, it->on, cleaned);
    out->evidence = mf_or_empty(it->src.entry);
    if (after == MF_UNKNOWN && it->at_minute != MF_MINUTE_NONE)
        out->evidence = mf_or_empty(untimed);
    return true;
}

/* Every sample of the area that counts passes, and floor, sill and trough were sampled, and a
 * floor outside it: 24 CFR 35.1340(g)(1)-(2). What was sampled before the last work shows nothing
 * of its dust. Part 35 requires them, whatever else does. */
void mf_show_assisted_clearance(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_day last = MF_DAY_NONE;
    mf_say(out, MF_LACKING, "clearance-none");
    out->evidence = "";
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        const mf_subject sample = {.sample = it, .id = "", .evidence = ""};
        if (!mf_same(it->area, subject->area->id))
            continue;
        if (mf_if_in_force(asked, &sample) != NULL)
            continue;
        if (mf_sampled_elsewhere(job, it) != NULL) {
            say_where(asked, it, out);
            return;
        }
        const mf_practice *work = mf_worked_since(job, it->area, it->on, it->at_minute);
        bool passes = work == NULL && mf_dust_judge(job, it, NULL) == MF_DUST_PASS;
        mf_say(out, passes ? MF_MET : MF_LACKING, passes ? "clearance-passed" : "clearance-failed");
        last = mf_later(it->on, last);
        mf_say_days(out, passes ? last : it->on, MF_DAY_NONE);
        out->evidence = mf_or_empty(it->src.entry);
        if (work != NULL)
            mf_say_work(out, &(mf_work_after){work, it->on, it->at_minute, it->src.entry},
                        "clearance-before-work", "clearance-work-unsaid");
        if (!passes || say_not_clean(asked, it, out))
            return;
    }
    const mf_sampling all = {job, subject->area, false, last};
    if (out->verdict == MF_MET && !mf_lacks_samples(&all, out))
        show_outside(asked, subject->area, last, out);
    if (out->verdict == MF_MET)
        tell_where(asked, subject->area, out);
}

/* ---- emergencies -------------------------------------------------------------------------- */

const char *mf_if_assisted_emergency(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted(asked, subject);
    if (why != NULL)
        return why;
    return subject->emergency->cause == MF_CAUSE_BLOOD_LEAD ? "no-sudden-event" : NULL;
}

/* 35.115(a)(9) leaves emergency work outside part 35. Which of the work that was nobody can
 * tell from the file: all of it is judged, and whoever relies on it is told. */
void mf_show_assisted_emergency(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    mf_say(out, MF_WARNING, "assisted-emergency");
    mf_say_days(out, subject->emergency->on, MF_DAY_NONE);
}

/* ---- elevated blood lead ------------------------------------------------------------------ */

const char *mf_if_blood_lead(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted(asked, subject);
    if (why != NULL)
        return why;
    return subject->emergency->cause == MF_CAUSE_BLOOD_LEAD ? NULL : "no-blood-lead";
}

void mf_show_blood_lead(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_emergency *it = subject->emergency;
    mf_say_limit(out, asked->job, MF_LIMIT_BLOOD_LEAD, it->on);
    mf_say_days(out, it->on, MF_DAY_NONE);
    mf_say_numbers(out, MF_UNIT_UG_DL_100, it->blood_lead_100,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    if (it->blood_lead_100 == MF_NUM_NONE)
        mf_say(out, MF_WARNING, "blood-lead-unsaid");
    else if (mf_limit_holds(out->limit, it->blood_lead_100))
        mf_say(out, MF_MET, "blood-lead-elevated");
    else
        mf_say(out, MF_LACKING, "blood-lead-below");
}
