/* Which sample of a place counts: one that failed is made good by cleaning what it stood for and
 * sampling that again. 40 CFR 745.85(c)(3), 745.227(e)(8)(vii). */
#include "core/audit_rows.h"

#include "core/area_rooms.h"
#include "core/dust_rooms.h"
#include "core/minor.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/dust.h>
#include <mistfold/stage.h>

/* A hall is long: outside the area a place is the same as far from its edge only. */
static bool same_distance(const mf_dust_sample *a, const mf_dust_sample *b)
{
    bool outside = mf_sampled_outside(a);
    return outside == mf_sampled_outside(b) && (!outside || a->outside_ft_100 == b->outside_ft_100);
}

static bool same_part(const mf_dust_sample *a, const mf_dust_sample *b)
{
    return b->blank != MF_YES && a->blank != MF_YES && a->surface == b->surface &&
           same_distance(a, b);
}

static bool same_spot(const mf_dust_sample *a, const mf_dust_sample *b)
{
    return same_part(a, b) && mf_same(a->area, b->area) && mf_same_room(a->place, b->place);
}

/* The other area with which may have been sampled again what does not lie in the own one; NULL =
 * there is none. What failed in one part of a room is not made good in another. */
static const mf_area *elsewhere(const mf_job *job, const mf_dust_sample *it,
                                const mf_dust_sample *own, const mf_stood_for *what)
{
    const mf_area *of_own = mf_job_area(job, own->area), *of = mf_job_area(job, it->area);
    bool apart = of_own != NULL && of != NULL && of->side == MF_SIDE_INTERIOR;
    return apart && !mf_sampled_outside(it) && !mf_lies_in(job, of_own, what) ? of : NULL;
}

/* Whether the sample is of that, for which own stands. Where its place is one by its words, the
 * same words say it; so they do of the one room of an area. */
static bool is_of(const mf_job *job, const mf_dust_sample *it, const mf_dust_sample *own,
                  const mf_stood_for *what)
{
    if (what->room == NULL)
        return same_spot(it, own);
    if (mf_names_no_room_of_one(job, own) && same_spot(it, own))
        return true;
    if (what->in != NULL && !mf_same(it->area, what->in->id))
        return false;
    bool here = mf_same(it->area, own->area);
    const mf_area *of = here ? NULL : elsewhere(job, it, own, what);
    return same_part(it, own) && (here || of != NULL) && mf_sample_of(job, it, of, what);
}

/* One after the other what own stood for, all with 0 at first. */
typedef struct again {
    size_t at, area;
    mf_stood_for what;
} again;

/* The next work area inside in which it lies, where it lies in others than its own: a composite may
 * have been of any piece of that room, so each of them is cleaned and sampled again. */
static const mf_area *next_area(const mf_job *job, const mf_dust_sample *own, again *a)
{
    const mf_area *of_own = mf_job_area(job, own->area);
    if (a->what.room == NULL || of_own == NULL || mf_sampled_outside(own) ||
        mf_lies_in(job, of_own, &a->what))
        return NULL;
    while (a->area < job->n_area) {
        const mf_area *it = &job->area[a->area++];
        if (it->side == MF_SIDE_INTERIOR && mf_lies_in(job, it, &a->what))
            return it;
    }
    return NULL;
}

static bool next_again(const mf_job *job, const mf_dust_sample *own, again *a)
{
    if (a->what.in != NULL && (a->what.in = next_area(job, own, a)) != NULL)
        return true;
    if (!mf_next_again(job, own, &a->at, &a->what))
        return false;
    a->area = 0;
    a->what.in = next_area(job, own, a);
    return true;
}

/* Whether it is of any that own stands for. */
static bool is_of_any(const mf_job *job, const mf_dust_sample *it, const mf_dust_sample *own)
{
    again a = {0};
    bool more = next_again(job, own, &a), found = is_of(job, it, own, &a.what);
    while (!found && more && (more = next_again(job, own, &a)))
        found = is_of(job, it, own, &a.what);
    return found;
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
        if (tick->state == MF_TICK_DONE && cleans(tick, own) && mf_same(tick->area, next->area) &&
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

/* One that nothing required does not stand for one that was (745.85(c)(1)). */
static bool replaced_in(const mf_job *job, const mf_dust_sample *own, const mf_stood_for *what)
{
    const mf_dust_sample *end = job->dust_sample + job->n_dust_sample;
    for (const mf_dust_sample *it = job->dust_sample; it < end; it++) {
        bool stands = it->required == MF_YES || own->required != MF_YES;
        if (stands && is_of(job, it, own, what) && replaces(job, it, own))
            return true;
    }
    return false;
}

/* A window that its parts call by an id and no entry tells of has no room: its words alone say that
 * it was sampled again. */
static bool named_again(const mf_job *job, const mf_dust_sample *own, const char *opening)
{
    const mf_dust_sample *end = job->dust_sample + job->n_dust_sample;
    if (!mf_names_unlisted(job, own->place, opening))
        return true;
    for (const mf_dust_sample *it = job->dust_sample; it < end; it++) {
        bool stands = it->required == MF_YES || own->required != MF_YES;
        if (stands && it != own && same_part(it, own) && mf_same(it->area, own->area) &&
            mf_words_hold(mf_or_empty(it->place), opening) && replaces(job, it, own))
            return true;
    }
    return false;
}

static bool unlisted_again(const mf_job *job, const mf_dust_sample *own)
{
    bool all = true;
    for (size_t i = 0; i < job->n_component && all; i++)
        all = named_again(job, own, job->component[i].opening);
    return all;
}

/* A place that was cleaned again is sampled again, with all that the sample stood for: the last
 * sample counts. */
const char *mf_if_in_force(const mf_asked *asked, const mf_subject *subject)
{
    const mf_dust_sample *own = subject->sample;
    if (own->blank == MF_YES)
        return "sample-blank";
    again a = {0};
    bool more = next_again(asked->job, own, &a), named = more;
    bool replaced = replaced_in(asked->job, own, &a.what);
    while (replaced && more && (more = next_again(asked->job, own, &a)))
        replaced = replaced_in(asked->job, own, &a.what);
    replaced = replaced && (!named || unlisted_again(asked->job, own));
    return replaced ? "sample-superseded" : NULL;
}

/* ---- what is cleaned for another ------------------------------------------------------ */

/* Cleaned once more because of a sample elsewhere in the area that failed: what passed is not
 * sampled again, only "the components represented by the failed sample" (745.227(e)(8)(vii)). */
bool mf_cleaned_for_another(const mf_job *job, const mf_tick *tick, const mf_dust_sample *own)
{
    bool other = false;
    if (!mf_surely_before(own->on, own->at_minute, tick->on, tick->at_minute))
        return false; /* it may have come first: its hour is waited for */
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (mf_cleans_again(job, tick, it))
            other = other || !same_spot(it, own);
    }
    return other;
}

/* ---- cleaned again, sampled again (745.85(c)(3)) ------------------------------------- */

/* A later sample of that, before which it was cleaned again, else the next one; NULL = there is
 * none. One cleaning does for all that had failed by then. */
static const mf_dust_sample *sampled_again(const mf_job *job, const mf_dust_sample *own,
                                           const mf_stood_for *what)
{
    const mf_dust_sample *next = NULL, *end = job->dust_sample + job->n_dust_sample;
    for (const mf_dust_sample *it = job->dust_sample; it < end; it++) {
        if (!is_of(job, it, own, what) || !sampled_later(it, own))
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

/* Of what was not sampled again the sample itself tells: it is in force. */
static bool any_again(const mf_job *job, const mf_dust_sample *own)
{
    const mf_dust_sample *end = job->dust_sample + job->n_dust_sample;
    for (const mf_dust_sample *it = job->dust_sample; it < end; it++)
        if (is_of_any(job, it, own) && sampled_later(it, own))
            return true;
    return false;
}

/* Whether the work in the area was called off and all its samples were taken before any work: they
 * tell of dust that the work did not make, in a place that it does not clean. */
static bool sampled_beforehand(const mf_asked *asked, const char *area)
{
    const mf_job *job = asked->job;
    if (!mf_area_off(asked->whole, area, asked->today))
        return false;
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (mf_same(it->area, area) && it->blank != MF_YES &&
            mf_before_work(job, it->on, it->at_minute) != MF_YES)
            return false;
    }
    return true;
}

const char *mf_if_failed_before(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->sample->blank == MF_YES)
        return "sample-blank";
    if (sampled_beforehand(asked, subject->sample->area))
        return "area-called-off";
    if (below_level(asked->job, subject->sample))
        return "sample-did-not-fail";
    return any_again(asked->job, subject->sample) ? NULL : "sample-not-again";
}

/* Of a floor outside it is told how far the cleaning has to reach. */
static void say_not_recleaned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool outside = mf_sampled_outside(subject->sample);
    mf_say(out, mf_dust_fault(asked, subject),
           outside ? "dust-outside-not-recleaned" : "dust-not-recleaned");
    if (outside)
        mf_say_numbers(out, MF_UNIT_FT_100, MF_NUM_NONE, subject->sample->outside_ft_100);
}

/* The first sample that came after it of a part of it with no cleaning between; NULL = none.
 * *tick is a cleaning that came between. */
static const mf_dust_sample *not_recleaned(const mf_job *job, const mf_dust_sample *own,
                                           const mf_tick **tick, mf_day *last)
{
    again a = {0};
    bool named = next_again(job, own, &a);
    for (bool more = true; more;) {
        const mf_dust_sample *next = sampled_again(job, own, &a.what);
        const mf_tick *between = next == NULL ? NULL : cleaned_between(job, own, next);
        if (next != NULL && between == NULL)
            return next;
        if (next != NULL) {
            *tick = between;
            *last = next->on;
        }
        more = named && next_again(job, own, &a);
    }
    return NULL;
}

/* Sampling until a result is good is no cleaning: after a failure the place was cleaned again
 * and sampled after that. Where no sample is asked for it is told. */
void mf_show_recleaned(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *own = subject->sample;
    const mf_tick *tick = NULL;
    mf_day last = MF_DAY_NONE;
    const mf_dust_sample *next = not_recleaned(asked->job, own, &tick, &last);
    mf_say_days(out, own->on, next == NULL ? last : next->on);
    if (next != NULL) {
        say_not_recleaned(asked, subject, out);
        return;
    }
    mf_say(out, MF_MET, "dust-recleaned");
    out->evidence = tick == NULL ? "" : mf_or_empty(tick->src.entry);
}
