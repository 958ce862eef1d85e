/* Clearance samples in place of verification. 40 CFR 745.85(c), 745.90(c). */
#include "core/audit_rows.h"

#include "core/text.h"
#include <mistfold/dust.h>
#include <mistfold/person.h>

static bool same_spot(const mf_dust_sample *a, const mf_dust_sample *b)
{
    return mf_same(a->area, b->area) && mf_same(a->place, b->place) && a->surface == b->surface;
}

/* A place that was cleaned again is sampled again: the last sample counts. */
const char *mf_if_in_force(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *own = subject->sample;
    const mf_dust_sample *end = asked->job->dust_sample + asked->job->n_dust_sample;
    for (const mf_dust_sample *it = asked->job->dust_sample; it < end; it++) {
        if (same_spot(it, own) && (it->on > own->on || (it->on == own->on && it > own)))
            return "sample-superseded";
    }
    return NULL;
}

/* What comes from the wrong hands or laboratory is told by rows of their own. */
const char *mf_if_judged(const mf_asked *asked, const mf_subject *subject)
{
    mf_dust_verdict verdict = mf_dust_judge(asked->job, subject->sample, NULL);
    if (verdict == MF_DUST_WRONG_SAMPLER || verdict == MF_DUST_WRONG_LAB)
        return "sample-not-judged";
    return mf_if_in_force(asked, subject);
}

static bool required(const mf_subject *subject)
{
    return subject->sample->required == MF_YES;
}

void mf_show_dust_required(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    mf_say(out, required(subject) ? MF_MET : MF_WARNING,
           required(subject) ? "sample-required" : "sample-voluntary");
    mf_say_days(out, subject->sample->on, MF_DAY_NONE);
}

/* The row beside the one that decided: the federal one where a place is stricter;
 * else, when the job straddles a day on which the level changed, the one of its
 * other end, so that nobody is surprised by it. The day of sampling decides. */
static const mf_limit *level_beside(const mf_asked *asked, const mf_dust_sample *sample,
                                    const mf_limit *level)
{
    if (level == NULL)
        return NULL;
    const mf_limit *federal = mf_limit_on(level->id, sample->on);
    if (federal != level)
        return federal;
    mf_day end = asked->completed == MF_DAY_NONE ? asked->house->end : asked->completed;
    const mf_limit *first = mf_limit_for(asked->job, level->id, asked->start);
    const mf_limit *last = end == MF_DAY_NONE ? level : mf_limit_for(asked->job, level->id, end);
    if (first != level)
        return first;
    return last == level ? NULL : last;
}

/* A sample that nothing asked for decides nothing, but its failing is told. */
void mf_show_dust_level(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_dust_verdict verdict = mf_dust_judge(asked->job, subject->sample, &out->limit);
    out->beside = level_beside(asked, subject->sample, out->limit);
    mf_say_days(out, subject->sample->on, MF_DAY_NONE);
    mf_say_numbers(out, MF_UNIT_NG_FT2, subject->sample->loading_ng_ft2,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    if (verdict == MF_DUST_PASS)
        mf_say(out, MF_MET, "dust-below");
    else
        mf_say(out, required(subject) ? MF_LACKING : MF_WARNING,
               verdict == MF_DUST_FAIL ? "dust-at-or-above" : "dust-not-shown");
}

void mf_show_dust_sampler(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    bool lawful = mf_certified_assessor(asked->job, it->sampler, it->on) != NULL ||
                  mf_certified(asked->job, it->sampler, MF_DISC_DUST_TECHNICIAN, it->on, NULL);
    mf_verdict lacking = required(subject) ? MF_LACKING : MF_WARNING;
    mf_say(out, lawful ? MF_MET : lacking, lawful ? "sampler-lawful" : "sampler-not-lawful");
    mf_say_days(out, it->on, MF_DAY_NONE);
}

void mf_show_dust_laboratory(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool lawful = subject->sample->nllap == MF_YES;
    mf_verdict lacking = required(subject) ? MF_LACKING : MF_WARNING;
    (void)asked;
    mf_say(out, lawful ? MF_MET : lacking, lawful ? "laboratory-lawful" : "laboratory-not-lawful");
    mf_say_days(out, subject->sample->on, MF_DAY_NONE);
}
