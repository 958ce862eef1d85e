/* Clearance samples in place of verification: who may take them, the hour they wait after
 * the cleaning, what they may hold. 40 CFR 745.85(c), 745.90(c), 745.227(e)(8). */
#include "core/audit_rows.h"

#include "core/dust_rooms.h"
#include "core/logged.h"
#include "core/reach.h"
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
mf_verdict mf_dust_fault(const mf_asked *asked, const mf_subject *subject)
{
    bool counts = required(subject) || mf_on_clearance(asked->job, subject->sample->area);
    return counts ? MF_LACKING : MF_WARNING;
}

/* Clearance is sampled at the conclusion of the renovation: a sample that did not surely come after
 * the work shows nothing of its dust. */
void mf_show_dust_required(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    const mf_practice *work = mf_worked_since(asked->job, it->area, it->on, it->at_minute);
    mf_say(out, required(subject) ? MF_MET : MF_WARNING,
           required(subject) ? "sample-required" : "sample-voluntary");
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (!required(subject) || work == NULL)
        return;
    const mf_work_after after = {work, it->on, it->at_minute, it->src.entry};
    mf_say_work(out, &after, "sample-before-work", "sample-work-unsaid");
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
static void say_loading(const mf_job *job, const mf_dust_sample *sample, mf_finding *out)
{
    mf_say_numbers(out, MF_UNIT_NG_FT2, mf_dust_loading(sample),
                   mf_dust_level(job, sample, out->limit));
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
    say_loading(asked->job, subject->sample, out);
    if (verdict == MF_DUST_PASS)
        mf_say(out, MF_MET, "dust-below");
    else
        mf_say(out, mf_dust_fault(asked, subject),
               verdict == MF_DUST_FAIL ? failed_why(subject->sample) : "dust-not-shown");
    if (out->verdict != MF_LACKING)
        return;
    /* each number must be below, and each room and opening sampled again */
    mf_say_lack(out, mf_dust_two_numbers(asked->job, subject->sample), "dust-two-numbers");
    mf_say_lack(out, mf_of_several(asked->job, subject->sample), "dust-several-rooms");
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
    mf_say(out, lawful ? MF_MET : mf_dust_fault(asked, subject),
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
    mf_say(out, lawful ? MF_MET : mf_dust_fault(asked, subject),
           lawful ? "laboratory-lawful" : "laboratory-not-lawful");
    mf_say_days(out, it->on, MF_DAY_NONE);
    const mf_attachment *report = mf_report_attached(asked->job, it->src.entry, it->report);
    if (!lawful || report == NULL)
        return;
    mf_say(out, MF_MET, "laboratory-and-report");
    out->evidence = mf_or_empty(report->src.entry);
}

/* ---- how much was wiped (745.227(e)(8)) ----------------------------------------------- */

/* Where only the laboratory's loading is logged nobody turned an area into it here. */
const char *mf_if_area_wiped(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *it = subject->sample;
    if (it->length_in_1600 <= 0 || it->width_in_1600 <= 0)
        return "area-not-measured";
    return mf_if_in_force(asked, subject);
}

/* Of one wipe, in hundredths of a square foot, rounded up. */
static int64_t wiped_sqft_100(const mf_dust_sample *it)
{
    const int64_t sq_ft = (int64_t)144 * 1600 * 1600, part = sq_ft / 100;
    int64_t area = mf_reach(it->length_in_1600) * mf_reach(it->width_in_1600);
    return area / part + (area % part != 0);
}

/* Centimeters typed as inches make the loading six times lower than it is. */
void mf_show_dust_wiped_area(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    bool floor = it->surface == MF_DUST_FLOOR;
    int64_t wiped = wiped_sqft_100(it);
    mf_say_days(out, it->on, MF_DAY_NONE);
    mf_say_limit(out, asked->job, floor ? MF_LIMIT_WIPE_FLOOR : MF_LIMIT_WIPE_SILL, it->on);
    bool large = mf_limit_holds(out->limit, wiped);
    mf_say_numbers(out, MF_UNIT_SQFT_100, wiped,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    mf_say(out, large ? MF_WARNING : MF_MET, large ? "wiped-area-large" : "wiped-area-usual");
}

/* ---- how long after the cleaning (745.227(e)(8)(iv)) -------------------------------- */

/* When an area was last cleaned, as far as the ticks of that day say. */
typedef struct cleaned {
    mf_day on;
    int32_t at_minute;     /* the latest of those that have a time */
    const mf_src *untimed; /* the entry of one that has none, or NULL */
    const mf_src *src;     /* the entry of that time */
} cleaned;

static cleaned cleaned_last(const mf_job *job, const mf_dust_sample *own)
{
    cleaned last = {MF_DAY_NONE, MF_MINUTE_NONE, NULL, NULL};
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (!mf_is_cleaning(it) || !mf_same(it->area, own->area) || it->on < last.on ||
            mf_cleaned_for_another(job, it, own))
            continue;
        if (it->on > last.on)
            last = (cleaned){it->on, MF_MINUTE_NONE, NULL, NULL};
        if (it->at_minute == MF_MINUTE_NONE)
            last.untimed = &it->src;
        if (it->at_minute > last.at_minute) { /* none is less than any */
            last.at_minute = it->at_minute;
            last.src = &it->src;
        }
    }
    return last;
}

/* A sample that did not surely come after the last work is told by dust-required. */
const char *mf_if_sampled_after(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *it = subject->sample;
    const char *why = mf_if_in_force(asked, subject);
    if (why != NULL)
        return why;
    if (mf_worked_since(asked->job, it->area, it->on, it->at_minute) != NULL)
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

static mf_tri sampled_after(const mf_dust_sample *it, const cleaned *last)
{
    int64_t waited = minutes_waited(it, last);
    if (it->on < last->on || (waited != MF_NUM_NONE && waited < 0))
        return MF_NOT;
    bool unsaid = it->on == last->on && (waited == MF_NUM_NONE || last->untimed != NULL);
    return unsaid ? MF_UNKNOWN : MF_YES;
}

mf_tri mf_sampled_when_clean(const mf_job *job, const mf_dust_sample *it, mf_day *on,
                             const char **untimed)
{
    const cleaned last = cleaned_last(job, it);
    *on = last.on;
    *untimed = last.untimed == NULL ? "" : mf_or_empty(last.untimed->entry);
    return sampled_after(it, &last);
}

/* Whether the wait holds by the clocks of two devices alone: the cleaning was logged too shortly
 * before the sample, or after it. It may have been logged late, so it is only told. */
static bool by_two_clocks(const mf_dust_sample *it, const cleaned *last, const mf_limit *wait)
{
    int64_t apart = it->on != last->on || last->src == NULL
                        ? MF_NUM_NONE
                        : mf_logged_apart(last->src, mf_when(last->on, last->at_minute), &it->src,
                                          mf_when(it->on, it->at_minute));
    return apart != MF_NUM_NONE && !mf_limit_holds(wait, apart + MF_CLOCKS_APART);
}

/* Of another day than the cleaning a sample waited, unless the times say otherwise. */
void mf_show_dust_wait(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    cleaned last = cleaned_last(asked->job, it);
    int64_t waited = minutes_waited(it, &last);
    mf_verdict lacking = mf_dust_fault(asked, subject);
    mf_tri after = sampled_after(it, &last);
    mf_say_days(out, it->on, last.on);
    mf_say_limit(out, asked->job, MF_LIMIT_SAMPLE_WAIT, it->on);
    mf_say_numbers(out, MF_UNIT_MINUTES, waited,
                   out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    if (after == MF_NOT)
        mf_say(out, lacking, "sample-before-cleaning");
    else if (waited != MF_NUM_NONE && !mf_limit_holds(out->limit, waited))
        mf_say(out, lacking, "sample-too-soon");
    else if (after == MF_UNKNOWN)
        mf_say(out, lacking, "sample-time-unsaid");
    else if (by_two_clocks(it, &last, out->limit)) {
        mf_say(out, MF_WARNING, "sample-clocks-apart");
        out->other = mf_or_empty(last.src->entry);
    } else
        mf_say(out, MF_MET, "sample-waited");
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
