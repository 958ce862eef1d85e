/* Clearance samples in place of verification. 40 CFR 745.85(c), 745.90(c). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/paint.h>
#include <mistfold/person.h>

bool mf_sampled_outside(const mf_dust_sample *sample)
{
    return sample->outside_ft_100 > 0; /* MF_NUM_NONE is below 0 */
}

/* A hall is long: outside the area a place is the same as far from its edge only. */
static bool same_distance(const mf_dust_sample *a, const mf_dust_sample *b)
{
    bool outside = mf_sampled_outside(a);
    return outside == mf_sampled_outside(b) && (!outside || a->outside_ft_100 == b->outside_ft_100);
}

static bool same_spot(const mf_dust_sample *a, const mf_dust_sample *b)
{
    return b->blank != MF_YES && a->blank != MF_YES && mf_same(a->area, b->area) &&
           mf_same(a->place, b->place) && a->surface == b->surface && same_distance(a, b);
}

/* Whether the step was ticked as done before in its area. */
static bool ticked_before(const mf_job *job, const mf_tick *tick)
{
    for (const mf_tick *it = job->tick; it < tick; it++) {
        if (it->state == MF_TICK_DONE && mf_same(it->area, tick->area) &&
            mf_same(it->step, tick->step))
            return true;
    }
    return false;
}

/* "The components represented by the failed sample shall be recleaned" (745.227(e)(8)(vii)): a
 * floor by mopping or vacuuming it, a sill or trough among the surfaces, a floor outside the
 * area by cleaning that reached as far beyond it. */
static bool cleans(const mf_tick *tick, const mf_dust_sample *sample)
{
    bool floor = mf_same(tick->step, "mop") || mf_same(tick->step, "carpet");
    if (mf_sampled_outside(sample))
        return mf_same(tick->step, "margin") && tick->measured_ft_100 >= sample->outside_ft_100;
    return sample->surface == MF_DUST_FLOOR ? floor : mf_same(tick->step, "surfaces");
}

bool mf_cleans_again(const mf_job *job, const mf_tick *tick, const mf_dust_sample *failed)
{
    return failed->blank != MF_YES && mf_same(failed->area, tick->area) && cleans(tick, failed) &&
           ticked_before(job, tick) &&
           mf_surely_before(failed->on, failed->at_minute, tick->on, tick->at_minute) &&
           mf_dust_judge(job, failed, NULL) == MF_DUST_FAIL;
}

/* The tick by which the place was cleaned again between two samples, or NULL. On the day of the
 * sample that failed the times must say that it came after that. */
static const mf_tick *cleaned_between(const mf_job *job, const mf_dust_sample *own,
                                      const mf_dust_sample *next)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (tick->state == MF_TICK_DONE && cleans(tick, own) && mf_same(tick->area, own->area) &&
            mf_surely_before(own->on, own->at_minute, tick->on, tick->at_minute) &&
            !mf_surely_before(next->on, next->at_minute, tick->on, tick->at_minute))
            return tick;
    }
    return NULL;
}

/* On one day the times say which sample came first; where they do not, the one logged first did. */
static bool sampled_later(const mf_dust_sample *it, const mf_dust_sample *own)
{
    bool timed = it->at_minute != MF_MINUTE_NONE && own->at_minute != MF_MINUTE_NONE &&
                 it->at_minute != own->at_minute;
    if (it->on != own->on)
        return it->on > own->on;
    return timed ? it->at_minute > own->at_minute : it > own;
}

/* Two samples of one day in one place are one and the same clearance, of which both count,
 * unless it was cleaned between them, or the first passed and may have come too soon. */
static bool replaces(const mf_job *job, const mf_dust_sample *it, const mf_dust_sample *own)
{
    bool same_day = it->on == own->on && sampled_later(it, own);
    bool later = own->at_minute != MF_MINUTE_NONE && it->at_minute > own->at_minute;
    bool hides_nothing = later && mf_dust_judge(job, own, NULL) == MF_DUST_PASS;
    return it->on > own->on ||
           (same_day && (hides_nothing || cleaned_between(job, own, it) != NULL));
}

/* A place that was cleaned again is sampled again: the last sample counts, but one that nothing
 * required does not stand for one that was (745.85(c)(1)). */
const char *mf_if_in_force(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *own = subject->sample;
    if (own->blank == MF_YES)
        return "sample-blank";
    const mf_dust_sample *end = asked->job->dust_sample + asked->job->n_dust_sample;
    for (const mf_dust_sample *it = asked->job->dust_sample; it < end; it++) {
        bool stands = it->required == MF_YES || own->required != MF_YES;
        if (stands && same_spot(it, own) && replaces(asked->job, it, own))
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

/* In an area that is cleared by samples each of them counts, also one that nothing asked for:
 * "from each single surface dust sample" (745.227(e)(8)(vii)). */
static mf_verdict fault(const mf_asked *asked, const mf_subject *subject)
{
    bool counts = required(subject) || mf_on_clearance(asked->job, subject->sample->area);
    return counts ? MF_LACKING : MF_WARNING;
}

/* Clearance is sampled at the conclusion of the renovation: a sample of an earlier
 * day shows nothing of the dust of the work. */
void mf_show_dust_required(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    mf_day worked = mf_worked_last(asked->job, it->area);
    mf_say(out, required(subject) ? MF_MET : MF_WARNING,
           required(subject) ? "sample-required" : "sample-voluntary");
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (!required(subject) || it->on >= worked)
        return;
    mf_say(out, MF_LACKING, "sample-before-work");
    mf_say_days(out, it->on, worked);
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

/* A composite is shown beside the level it was held against. */
static void say_loading(const mf_dust_sample *sample, mf_finding *out)
{
    int64_t level = out->limit == NULL ? MF_NUM_NONE : out->limit->value;
    if (level != MF_NUM_NONE && sample->wipes != MF_NUM_NONE && sample->wipes > 1)
        level = level * 2 / sample->wipes;
    mf_say_numbers(out, MF_UNIT_NG_FT2, mf_dust_loading(sample), level);
}

/* Outside the area another step cleans, and the place is told by its distance. */
static const char *failed_why(const mf_dust_sample *sample)
{
    return mf_sampled_outside(sample) ? "dust-outside-at-or-above" : "dust-at-or-above";
}

/* Where no sample is asked for one decides nothing, but its failing is told. */
void mf_show_dust_level(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_dust_verdict verdict = mf_dust_judge(asked->job, subject->sample, &out->limit);
    out->beside = level_beside(asked, subject->sample, out->limit);
    mf_say_days(out, subject->sample->on, MF_DAY_NONE);
    say_loading(subject->sample, out);
    if (verdict == MF_DUST_PASS)
        mf_say(out, MF_MET, "dust-below");
    else
        mf_say(out, fault(asked, subject),
               verdict == MF_DUST_FAIL ? failed_why(subject->sample) : "dust-not-shown");
    if (out->verdict == MF_LACKING) /* each number must be below */
        mf_say_lack(out, mf_dust_two_numbers(asked->job, subject->sample), "dust-two-numbers");
}

/* The course of which nobody said whether it had a hands-on part, where for that the sampler's is
 * presumed not to hold on the day (745.90(a)(4)); NULL = that is not why. */
static const mf_certificate *unsaid_course(const mf_job *job, const mf_dust_sample *it)
{
    const mf_certificate *near = NULL;
    mf_certified(job, it->sampler, MF_DISC_DUST_TECHNICIAN, it->on, &near);
    if (near == NULL || it->on < near->issued)
        return NULL;
    bool alone = it->on <= mf_certificate_if_hands_on(job, near);
    return alone ? near : mf_certificate_presumed_online(job, near);
}

void mf_show_dust_sampler(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    bool lawful = mf_may_sample(asked->job, it->sampler, it->on);
    const mf_certificate *unsaid = lawful ? NULL : unsaid_course(asked->job, it);
    mf_say(out, lawful ? MF_MET : fault(asked, subject),
           lawful           ? "sampler-lawful"
           : unsaid != NULL ? "sampler-hands-on-unsaid"
                            : "sampler-not-lawful");
    out->other = unsaid == NULL ? "" : mf_or_empty(unsaid->src.entry);
    mf_say_days(out, it->on, MF_DAY_NONE);
}

void mf_show_dust_laboratory(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    bool lawful = it->nllap == MF_YES;
    mf_say(out, lawful ? MF_MET : fault(asked, subject),
           lawful ? "laboratory-lawful" : "laboratory-not-lawful");
    mf_say_days(out, it->on, MF_DAY_NONE);
    const mf_attachment *report = mf_report_attached(asked->job, it->src.entry, it->report);
    if (!lawful || report == NULL)
        return;
    mf_say(out, MF_MET, "laboratory-and-report");
    out->evidence = mf_or_empty(report->src.entry);
}

/* ---- how long after the cleaning (745.227(e)(8)(iv)) -------------------------------- */

/* When an area was last cleaned, as far as the ticks of that day say. */
typedef struct cleaned {
    mf_day on;
    int32_t at_minute; /* the latest of those that have a time */
    bool untimed;      /* one of them has none */
} cleaned;

/* Cleaned once more because of a sample elsewhere in the area that failed: what passed is not
 * sampled again, only "the components represented by the failed sample" (745.227(e)(8)(vii)). */
static bool for_another(const mf_job *job, const mf_tick *tick, const mf_dust_sample *own)
{
    bool other = false;
    bool since = mf_surely_before(own->on, own->at_minute, tick->on, tick->at_minute);
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (!mf_cleans_again(job, tick, it))
            continue;
        if (same_spot(it, own) && !since)
            return false; /* for this one as well */
        other = other || !same_spot(it, own);
    }
    return other;
}

static cleaned cleaned_last(const mf_job *job, const mf_dust_sample *own)
{
    cleaned last = {MF_DAY_NONE, MF_MINUTE_NONE, false};
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (!mf_is_cleaning(it) || !mf_same(it->area, own->area) || it->on < last.on ||
            for_another(job, it, own))
            continue;
        if (it->on > last.on)
            last = (cleaned){it->on, MF_MINUTE_NONE, false};
        last.untimed = last.untimed || it->at_minute == MF_MINUTE_NONE;
        if (it->at_minute > last.at_minute) /* none is less than any */
            last.at_minute = it->at_minute;
    }
    return last;
}

/* A sample of a day before the last work is told by dust-required. */
const char *mf_if_sampled_after(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *it = subject->sample;
    const char *why = mf_if_in_force(asked, subject);
    if (why != NULL)
        return why;
    if (it->on < mf_worked_last(asked->job, it->area))
        return "sample-not-after-work";
    return cleaned_last(asked->job, it).on == MF_DAY_NONE ? "cleaning-not-ticked" : NULL;
}

/* Minutes from the end of cleaning to the sample; MF_NUM_NONE when a time is not said. */
static int64_t minutes_waited(const mf_dust_sample *it, const cleaned *last)
{
    if (it->at_minute == MF_MINUTE_NONE || last->at_minute == MF_MINUTE_NONE)
        return MF_NUM_NONE;
    return mf_when(it->on, it->at_minute) - mf_when(last->on, last->at_minute);
}

/* Of another day than the cleaning a sample waited, unless the times say otherwise. */
void mf_show_dust_wait(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    cleaned last = cleaned_last(asked->job, it);
    int64_t waited = minutes_waited(it, &last);
    mf_verdict lacking = fault(asked, subject);
    mf_say_days(out, it->on, last.on);
    mf_say_limit(out, asked->job, MF_LIMIT_SAMPLE_WAIT, it->on);
    mf_say_numbers(out, MF_UNIT_MINUTES, waited,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    if (it->on < last.on || (waited != MF_NUM_NONE && waited < 0))
        mf_say(out, lacking, "sample-before-cleaning");
    else if (waited != MF_NUM_NONE && !mf_limit_holds(out->limit, waited))
        mf_say(out, lacking, "sample-too-soon");
    else if (it->on == last.on && (waited == MF_NUM_NONE || last.untimed))
        mf_say(out, lacking, "sample-time-unsaid");
    else
        mf_say(out, MF_MET, "sample-waited");
}

/* ---- cleaned again, sampled again (745.85(c)(3)) ------------------------------------- */

/* A later sample of the same place before which it was cleaned again, else the next one; NULL =
 * there is none. One cleaning does for all that had failed by then. */
static const mf_dust_sample *sampled_again(const mf_job *job, const mf_dust_sample *own)
{
    const mf_dust_sample *next = NULL, *end = job->dust_sample + job->n_dust_sample;
    for (const mf_dust_sample *it = job->dust_sample; it < end; it++) {
        if (!same_spot(it, own) || !sampled_later(it, own))
            continue;
        if (cleaned_between(job, own, it) != NULL)
            return it;
        if (next == NULL || it->on < next->on)
            next = it;
    }
    return next;
}

static bool below_level(const mf_job *job, const mf_dust_sample *sample)
{
    mf_dust_verdict verdict = mf_dust_judge(job, sample, NULL);
    return verdict != MF_DUST_FAIL && verdict != MF_DUST_NOT_SHOWN;
}

const char *mf_if_failed_before(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->sample->blank == MF_YES)
        return "sample-blank";
    if (below_level(asked->job, subject->sample))
        return "sample-did-not-fail";
    return sampled_again(asked->job, subject->sample) == NULL ? "sample-not-again" : NULL;
}

/* Of a floor outside it is told how far the cleaning has to reach. */
static void say_not_recleaned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool outside = mf_sampled_outside(subject->sample);
    mf_say(out, fault(asked, subject),
           outside ? "dust-outside-not-recleaned" : "dust-not-recleaned");
    if (outside)
        mf_say_numbers(out, MF_UNIT_FT_100, MF_NUM_NONE, subject->sample->outside_ft_100);
}

/* Sampling until a result is good is no cleaning: after a failure the place was cleaned again
 * and sampled after that. Where no sample is asked for it is told. */
void mf_show_recleaned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_dust_sample *own = subject->sample, *next = sampled_again(job, own);
    const mf_tick *tick = cleaned_between(job, own, next);
    mf_say_days(out, own->on, next->on);
    if (tick == NULL) {
        say_not_recleaned(asked, subject, out);
        return;
    }
    mf_say(out, MF_MET, "dust-recleaned");
    out->evidence = mf_or_empty(tick->src.entry);
}

/* ---- a change of levels during the job ------------------------------------------------ */

static const mf_limit *level_change(const mf_asked *asked)
{
    static const mf_limit_id levels[] = {MF_LIMIT_DUST_FLOOR, MF_LIMIT_DUST_SILL,
                                         MF_LIMIT_DUST_TROUGH};
    for (size_t i = 0; i < sizeof levels / sizeof levels[0]; i++) {
        const mf_limit *first = mf_limit_for(asked->job, levels[i], asked->start);
        const mf_limit *last = mf_limit_for(asked->job, levels[i], asked->last);
        if (first != NULL && last != NULL && first->value != last->value)
            return last;
    }
    return NULL;
}

const char *mf_if_straddles(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    if (asked->job->n_dust_sample == 0)
        return "sample-none";
    return level_change(asked) == NULL ? "levels-same" : NULL;
}

/* Each sample is judged by its own day; that two levels were in force is told. */
void mf_show_straddle(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_limit *last = level_change(asked);
    const mf_limit *first = mf_limit_for(asked->job, last->id, asked->start);
    (void)subject;
    mf_say(out, MF_WARNING, "levels-changed");
    mf_say_days(out, last->from, MF_DAY_NONE);
    mf_say_numbers(out, MF_UNIT_NG_FT2, first->value, last->value);
    out->limit = last;
}
