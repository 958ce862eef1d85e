/* What is known of the paint, and whether the evidence is on file as 40 CFR
 * 745.86(b)(1) wants it. */
#include "core/assessor_term.h"
#include "core/audit_rows.h"
#include "core/class.h"
#include "core/paint_test.h"
#include "core/text.h"
#include <assert.h>
#include <mistfold/paint.h>
#include <mistfold/person.h>

void mf_show_components(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    int64_t n = (int64_t)asked->cover.n_affected;
    mf_say(out, n > 0 ? MF_MET : MF_LACKING, n > 0 ? "components-listed" : "no-component");
    mf_say_numbers(out, MF_UNIT_COUNT, n, MF_NUM_NONE);
    mf_unlisted_lead lead;
    if (n == 0)
        return;
    if (mf_paint_unlisted(asked->job, &lead)) {
        mf_say(out, MF_LACKING, "test-no-component");
        mf_say_days(out, lead.on, MF_DAY_NONE);
        out->subject = lead.component;
        out->evidence = lead.evidence;
        return;
    }
    mf_unlisted_parts parts;
    if (!mf_parts_unlisted(asked->job, &parts))
        return;
    out->told = parts.part;
    if (parts.opening == NULL) {
        mf_say(out, MF_LACKING, "work-no-opening");
        return;
    }
    mf_say(out, MF_WARNING,
           !mf_given(parts.part) ? "opening-no-component"
           : parts.kept          ? "opening-part-kept"
                                 : "opening-part-unlisted");
    mf_say_numbers(out, MF_UNIT_COUNT, parts.n, MF_NUM_NONE);
    out->subject = parts.opening->id;
    out->evidence = mf_or_empty(parts.opening->src.entry);
}

const char *mf_if_affected(const mf_asked *asked, const mf_subject *subject)
{
    return mf_paint_disturbed(asked->job, subject->component) ? NULL : "component-not-affected";
}

static const char *const doubt_names[] = {
    [MF_DOUBT_NONE] = "paint-untested",
    [MF_DOUBT_UNTESTED] = "paint-untested",
    [MF_DOUBT_INCONCLUSIVE] = "paint-inconclusive",
    [MF_DOUBT_XRF_BY_RENOVATOR] = "paint-xrf-by-renovator",
    [MF_DOUBT_CERTIFICATE] = "paint-tester-lapsed",
    [MF_DOUBT_NO_DETERMINATION] = "paint-no-determination",
    [MF_DOUBT_NO_METHOD] = "paint-no-method",
    [MF_DOUBT_NO_COPY] = "paint-no-copy",
    [MF_DOUBT_CALIBRATION] = "paint-not-calibrated",
    [MF_DOUBT_KIT_TESTER] = "paint-kit-tester",
    [MF_DOUBT_KIT_UNRECOGNIZED] = "paint-kit-unrecognized",
    [MF_DOUBT_KIT_SUBSTRATE] = "paint-kit-substrate",
    [MF_DOUBT_SUBSTRATE] = "paint-substrate-differs",
    [MF_DOUBT_KIT_UNSAID] = "paint-kit-unsaid",
    [MF_DOUBT_LOCAL_LEVEL] = "paint-local-level",
    [MF_DOUBT_CHIP_SAMPLER] = "paint-chip-sampler",
    [MF_DOUBT_LABORATORY] = "paint-laboratory",
    [MF_DOUBT_AFTER_WORK] = "paint-after-work",
    [MF_DOUBT_AFTER_START] = "paint-after-start",
    [MF_DOUBT_SAME_DAY] = "paint-same-day",
    [MF_DOUBT_CONTRADICTION] = "paint-untested",
    [MF_DOUBT_UNPAINTED] = "paint-untested",
};
static_assert(sizeof doubt_names / sizeof doubt_names[0] == MF_DOUBT_UNPAINTED + 1,
              "a doubt was added: give it a reason name");

/* Presumed paint is lawful: the work is then done as if it were lead. */
void mf_show_paint(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_paint_finding paint;
    mf_paint_judge(asked->job, subject->component, &paint);
    out->evidence = paint.evidence;
    mf_say_days(out, paint.on, paint.doubt == MF_DOUBT_AFTER_START ? asked->start : MF_DAY_NONE);
    if (paint.verdict == MF_PAINT_PRESUMED) {
        mf_say(out, MF_WARNING, doubt_names[paint.doubt]);
        const mf_reading *against = mf_substrate_against(asked->job, subject->component);
        if (paint.doubt == MF_DOUBT_SUBSTRATE && against != NULL)
            out->evidence = mf_or_empty(against->src.entry);
        return;
    }
    mf_say(out, MF_MET, paint.verdict == MF_PAINT_FREE ? "paint-free" : "paint-lead");
    if (paint.basis == MF_BASIS_XRF && paint.worst != NULL) {
        mf_say_limit(out, asked->job, MF_LIMIT_PAINT_LOADING, paint.on);
        if (paint.verdict == MF_PAINT_LEAD)
            mf_say(out, MF_MET, "paint-lead-read");
        mf_say_numbers(out, MF_UNIT_UG_CM2, paint.worst->loading_ug_cm2,
                       out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    }
}

void mf_show_paint_agrees(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_paint_finding paint;
    mf_paint_judge(asked->job, subject->component, &paint);
    out->evidence = paint.evidence;
    mf_say(out, MF_MET, "paint-agrees");
    if (paint.doubt == MF_DOUBT_CONTRADICTION)
        mf_say(out, MF_LACKING, "paint-contradiction");
    else if (paint.doubt == MF_DOUBT_UNPAINTED)
        mf_say(out, MF_LACKING, "paint-not-painted");
}

/* ---- readings --------------------------------------------------------------------------- */

static bool read_with(const mf_reading *reading, const mf_instrument *instrument)
{
    return reading->purpose == MF_READ_PAINT && mf_same(reading->instrument, instrument->serial);
}

const char *mf_if_read_with(const mf_asked *asked, const mf_subject *subject)
{
    for (size_t i = 0; i < asked->job->n_reading; i++) {
        if (read_with(&asked->job->reading[i], subject->instrument))
            return NULL;
    }
    return "instrument-not-used";
}

void mf_show_calibration(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_reading *low = NULL;
    int64_t all = 0, loose = 0;
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *reading = &job->reading[i];
        if (!read_with(reading, subject->instrument))
            continue;
        all++;
        if (low == NULL && mf_reading_too_low(reading))
            low = reading;
        if (mf_reading_enclosed(job, reading))
            continue;
        if (loose++ == 0) {
            out->evidence = mf_or_empty(reading->src.entry);
            mf_say_days(out, reading->on, MF_DAY_NONE);
        }
    }
    mf_say_limit(out, job, MF_LIMIT_CALIBRATION_HOURS, out->d1);
    mf_say(out, loose == 0 ? MF_MET : MF_WARNING,
           loose == 0 ? "readings-enclosed" : "readings-not-enclosed");
    mf_say_numbers(out, MF_UNIT_COUNT, loose == 0 ? all : loose, all);
    if (!mf_tolerance_holds_film(subject->instrument)) {
        mf_say(out, MF_WARNING, "tolerance-without-film");
        out->evidence = mf_or_empty(subject->instrument->src.entry);
    } else if (low != NULL) {
        mf_say(out, MF_WARNING, "reading-too-low");
        out->evidence = mf_or_empty(low->src.entry);
        mf_say_days(out, low->on, MF_DAY_NONE);
    }
}

/* ---- what must be on file ------------------------------------------------------------------ */

void mf_show_determination(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_determination *it = subject->determination;
    (void)asked;
    mf_say_days(out, it->on, MF_DAY_NONE);
    mf_say(out, MF_MET, "determination-on-file");
    mf_say_lack(out, !mf_given(it->report), "determination-no-report");
    mf_say_lack(out, it->firm_has_copy != MF_YES, "determination-no-copy");
}

void mf_show_owner_record(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_owner_record *it = subject->owner_record;
    bool whole = mf_owner_record_whole(asked->job, it);
    mf_say_days(out, it->on, it->expires);
    if (it->firm_has_copy != MF_YES)
        mf_say(out, MF_LACKING, "owner-record-no-copy");
    else if (!mf_given(it->components))
        mf_say(out, MF_LACKING, "owner-record-of-nothing");
    else if (mf_owner_record_impossible(asked->job, it))
        mf_say(out, MF_LACKING, "owner-record-impossible");
    else
        mf_say(out, whole ? MF_MET : MF_LACKING,
               whole ? "owner-record-on-file" : "owner-record-incomplete");
}

void mf_show_kit(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_kit_test *it = subject->kit_test;
    mf_say_days(out, it->on, MF_DAY_NONE);
    bool recognized = it->epa_recognized == MF_YES;
    mf_say(out, recognized ? MF_MET : MF_WARNING,
           recognized ? "kit-on-file" : "kit-not-recognized");
    mf_say_lack(out, !mf_given(it->maker) || !mf_given(it->model), "kit-no-maker");
    mf_say_lack(out, mf_job_component(asked->job, it->component) == NULL, "test-no-component");
}

void mf_show_chip(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_chip *it = subject->chip;
    mf_say_days(out, it->on, MF_DAY_NONE);
    mf_say(out, MF_MET, "chip-on-file");
    mf_say_lack(out, !mf_given(it->laboratory) || !mf_given(it->lab_address), "chip-no-laboratory");
    mf_say_lack(out, it->weight_ppm == MF_NUM_NONE && it->loading_ug_cm2 == MF_NUM_NONE,
                "chip-no-result");
    mf_say_lack(out, mf_job_component(asked->job, it->component) == NULL, "test-no-component");
    const mf_attachment *report = mf_report_attached(asked->job, it->src.entry, it->report);
    if (out->verdict != MF_MET || report == NULL)
        return;
    mf_say(out, MF_MET, "chip-and-report");
    out->evidence = mf_or_empty(report->src.entry);
}

/* Whose word it is: certified on the day of the signature, with a number that can
 * be looked up. A determination from anybody else frees nothing, which is told. */
void mf_show_determination_assessor(const mf_asked *asked, const mf_subject *subject,
                                    mf_finding *out)
{
    const mf_determination *it = subject->determination;
    const mf_certificate *held = mf_certified_assessor(asked->job, it->assessor, it->on);
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (held == NULL) {
        mf_say(out, MF_WARNING, "determination-not-certified");
        return;
    }
    bool numbered = mf_given(held->number);
    mf_say(out, numbered ? MF_MET : MF_LACKING,
           numbered ? "determination-assessor" : "determination-no-number");
}

/* Where a tested component is: its own room, or that of its opening. */
static bool located(const mf_job *job, const char *id)
{
    const mf_component *it = mf_job_component(job, id);
    if (it == NULL)
        return false;
    const mf_opening *opening = mf_job_opening(job, it->opening);
    bool inside = it->side == MF_SIDE_INTERIOR;
    return mf_given(it->room) ||
           (opening != NULL && mf_given(inside ? opening->room : opening->elevation));
}

static void say_place(const mf_asked *asked, const char *component, mf_day on, mf_finding *out)
{
    bool there = located(asked->job, component);
    mf_say(out, there ? MF_MET : MF_LACKING, there ? "test-located" : "test-no-place");
    mf_say_days(out, on, MF_DAY_NONE);
}

void mf_show_kit_place(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_place(asked, subject->kit_test->component, subject->kit_test->on, out);
}

void mf_show_chip_place(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_place(asked, subject->chip->component, subject->chip->on, out);
}

/* No paragraph asks for the lot; it ties a result to a recall. */
void mf_show_kit_lot(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool given = mf_given(subject->kit_test->lot);
    (void)asked;
    mf_say(out, given ? MF_MET : MF_WARNING, given ? "kit-lot" : "kit-no-lot");
    mf_say_days(out, subject->kit_test->on, MF_DAY_NONE);
}

const char *mf_if_substrate_differs(const mf_asked *asked, const mf_subject *subject)
{
    const mf_reading *against = mf_substrate_against(asked->job, subject->component);
    return against == NULL ? "substrate-agrees" : NULL;
}

/* Which of the two is right nobody knows: both entries are named. */
void mf_show_xrf_substrate(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_reading *against = mf_substrate_against(asked->job, subject->component);
    mf_say(out, MF_WARNING, "substrate-differs");
    mf_say_days(out, against->on, MF_DAY_NONE);
    out->evidence = mf_or_empty(against->src.entry);
    out->other = mf_or_empty(subject->component->src.entry);
    out->field = "substrate";
}

/* A positive counts on whatever it was found. */
const char *mf_if_kit_negative(const mf_asked *asked, const mf_subject *subject)
{
    (void)asked;
    return subject->kit_test->result == MF_RES_NEGATIVE ? NULL : "kit-not-negative";
}

/* EPA recognizes a kit for some substrates. On another one its negative frees nothing, nor while
 * nobody said for which: the paint finding says both. */
void mf_show_kit_substrate(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_tri fits = mf_kit_fits(asked->job, subject->kit_test);
    mf_say(out, fits == MF_YES ? MF_MET : MF_WARNING,
           fits == MF_YES   ? "kit-substrate"
           : fits == MF_NOT ? "kit-substrate-other"
                            : "kit-substrate-unsaid");
    mf_say_days(out, subject->kit_test->on, MF_DAY_NONE);
}
