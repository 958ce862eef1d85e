/* Assisted housing: how much is disturbed, by which methods, and where occupants
 * stay. 24 CFR 35.140, 35.1345(a), 35.1350(d). What is not known is over. */
#include <mistfold/assisted.h>

#include "core/house_says.h"
#include "core/minor.h"
#include "core/opening_parts.h"
#include "core/reach.h"
#include "core/small_part.h"
#include "core/spelling.h"
#include "core/text.h"
#include "core/unlisted_work.h"
#include "core/worked.h"
#include <mistfold/paint.h>
#include <mistfold/place.h>

static mf_day start_of(const mf_job *job)
{
    return job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
}

/* Paint shown free is no lead-based paint, and disturbing it is not counted. */
static bool counted(const mf_job *job, const mf_component *component)
{
    mf_paint_finding paint;
    if (!mf_paint_disturbed(job, component))
        return false;
    mf_paint_judge(job, component, &paint);
    return paint.verdict != MF_PAINT_FREE && paint.verdict != MF_PAINT_UNPAINTED;
}

/* ---- the de minimis areas ---------------------------------------------------------- */

typedef struct tally {
    int64_t disturbed, whole; /* MF_NUM_NONE once one is not known */
} tally;

static void count(int64_t *sum, int64_t area)
{
    if (area < 0 || *sum == MF_NUM_NONE)
        *sum = MF_NUM_NONE;
    else
        *sum = mf_add_area(*sum, area);
}

/* Worse than what was found so far: over beats within, more beats less. */
static void consider(mf_assisted_answer *out, const mf_limit *limit, int64_t n, const char *spot)
{
    bool over = n == MF_NUM_NONE || !mf_limit_holds(limit, n);
    if (out->over || (out->limit != NULL && !over && out->n >= n))
        return;
    out->over = over;
    out->limit = limit;
    out->n = n;
    out->spot = spot;
}

static void consider_room(const mf_job *job, const mf_component *of, mf_assisted_answer *out)
{
    int64_t sum = 0;
    bool inside = of->side == MF_SIDE_INTERIOR;
    const char *room = inside ? mf_room_of(job, of) : "";
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        const char *own = mf_room_of(job, it);
        bool here = it->side == of->side &&
                    (!inside || !mf_given(own) || mf_may_count_as_one_room(own, room));
        if (here && counted(job, it))
            count(&sum, mf_disturbed_area(job, it));
    }
    mf_limit_id id = inside ? MF_LIMIT_ASSISTED_INTERIOR : MF_LIMIT_ASSISTED_EXTERIOR;
    sum = mf_more_disturbed(job, of->side, room, sum);
    consider(out, mf_limit_for(job, id, start_of(job)), sum, room);
}

/* Share in hundredths of a percent, rounded up, so that the comparison is exact. */
static int64_t share_of(const tally *all)
{
    if (all->disturbed == MF_NUM_NONE || all->whole == MF_NUM_NONE || all->whole < 1)
        return MF_NUM_NONE;
    int64_t parts = all->disturbed > INT64_MAX / 10000 ? INT64_MAX / 10000 : all->disturbed;
    return parts * 10000 / all->whole + (parts * 10000 % all->whole != 0);
}

/* The type's whole surface is that of all its components on that side that are
 * listed, disturbed or not. */
static void consider_type(const mf_job *job, const mf_component *of, mf_assisted_answer *out)
{
    tally all = {0, 0};
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (!mf_same_part_type(of, it))
            continue;
        count(&all.whole, it->whole_sqft_100);
        if (counted(job, it))
            count(&all.disturbed, mf_disturbed_area(job, it));
    }
    consider(out, mf_limit_for(job, MF_LIMIT_ASSISTED_PART, start_of(job)), share_of(&all),
             mf_or_empty(of->id));
}

/* 24 CFR 35.115(a)(1)-(3): of a dwelling without a bedroom no child is an exception. */
static bool outside_part_35(const mf_job *job)
{
    const mf_house *house = &job->house[0];
    const mf_limit *year = mf_limit_for(job, MF_LIMIT_YEAR_BUILT, house->start);
    bool later = house->year_built != MF_NUM_NONE && !mf_limit_holds(year, house->year_built);
    bool elder = house->elder_or_disabled == MF_YES && house->child_under_6 == MF_NOT;
    mf_house_says against;
    return later || elder || (house->zero_bedroom == MF_YES && !mf_bedroom_listed(job, &against));
}

bool mf_assisted_holds(const mf_job *job)
{
    return job->n_house > 0 && job->house[0].assisted == MF_YES && !outside_part_35(job);
}

/* Work that touches nothing on its list touches something else. */
static bool listed(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_component_disturbed(&job->component[i]))
            return mf_all_listed(job);
    return false;
}

void mf_assisted_judge(const mf_job *job, mf_assisted_answer *out)
{
    *out = (mf_assisted_answer){.spot = "", .n = MF_NUM_NONE};
    out->holds = mf_assisted_holds(job);
    for (size_t i = 0; out->holds && i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (!counted(job, it))
            continue;
        consider_room(job, it, out);
        if (mf_small_part(it))
            consider_type(job, it, out);
    }
    if (!out->holds || listed(job))
        return;
    const mf_opening *unlisted = mf_opening_unlisted(job);
    consider(out, mf_limit_for(job, MF_LIMIT_ASSISTED_INTERIOR, start_of(job)), MF_NUM_NONE,
             unlisted == NULL ? "" : mf_or_empty(unlisted->room));
}

/* ---- methods --------------------------------------------------------------------------- */

static bool dry(const mf_practice *practice)
{
    return practice->method == MF_METHOD_DRY_SCRAPE || practice->method == MF_METHOD_DRY_SAND;
}

static bool same_place(const mf_job *job, const char *a, const char *b)
{
    const mf_area *of_a = mf_job_area(job, a), *of_b = mf_job_area(job, b);
    if (of_a == NULL || of_b == NULL)
        return mf_same(a, b);
    if (of_a->side != of_b->side)
        return false;
    return of_a->side == MF_SIDE_EXTERIOR ||
           mf_same_room(mf_or_empty(of_a->place), mf_or_empty(of_b->place));
}

/* Spots add up in one room, or outside; what is near an outlet is let alone. */
static bool small_spots(const mf_job *job, const mf_practice *practice)
{
    int64_t sum = 0;
    const mf_area *area = mf_job_area(job, practice->area);
    bool outside = area != NULL && area->side == MF_SIDE_EXTERIOR;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (dry(it) && it->near_outlet != MF_YES && same_place(job, it->area, practice->area))
            count(&sum, it->spot_sqft_100);
    }
    mf_limit_id id = outside ? MF_LIMIT_DRY_SPOT_EXTERIOR : MF_LIMIT_DRY_SPOT_INTERIOR;
    return sum != MF_NUM_NONE && mf_limit_holds(mf_limit_for(job, id, practice->on), sum);
}

/* The exceptions of 35.140(e) are worded for dry scraping; 35.1330(b)(4) reads them for dry
 * sanding as well. */
static mf_assisted_method dry_method(const mf_job *job, const mf_practice *practice)
{
    if (practice->near_outlet != MF_YES && !small_spots(job, practice))
        return MF_ASSISTED_DRY;
    return practice->method == MF_METHOD_DRY_SAND ? MF_ASSISTED_SANDED : MF_ASSISTED_ALLOWED;
}

static bool cool(const mf_job *job, const mf_practice *practice)
{
    const mf_limit *row = mf_limit_for(job, MF_LIMIT_ASSISTED_HEAT_GUN, practice->on);
    return practice->temp_f != MF_NUM_NONE && mf_limit_holds(row, practice->temp_f);
}

mf_assisted_method mf_assisted_method_of(const mf_job *job, const mf_practice *practice)
{
    switch (practice->method) {
    case MF_METHOD_OPEN_FLAME:
        return MF_ASSISTED_FLAME;
    case MF_METHOD_MACHINE:
    case MF_METHOD_BLASTING:
        return practice->shroud_and_hepa == MF_YES ? MF_ASSISTED_ALLOWED : MF_ASSISTED_MACHINE;
    case MF_METHOD_HEAT_GUN:
        return cool(job, practice) ? MF_ASSISTED_ALLOWED : MF_ASSISTED_HEAT;
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
        return dry_method(job, practice);
    case MF_METHOD_STRIPPER:
        return practice->ventilated == MF_YES ? MF_ASSISTED_ALLOWED : MF_ASSISTED_STRIPPER;
    case MF_METHOD_HAND:
        return MF_ASSISTED_UNSAID;
    case MF_METHOD_DEMOLITION:
        break;
    }
    return MF_ASSISTED_ALLOWED;
}

/* ---- occupants --------------------------------------------------------------------------- */

static bool any_counted(const mf_job *job, bool inside_only)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if ((!inside_only || it->side == MF_SIDE_INTERIOR) && counted(job, it))
            return true;
    }
    return false;
}

static bool is_outside(const mf_job *job, const char *id)
{
    const mf_area *area = mf_job_area(job, id);
    return area != NULL && area->side == MF_SIDE_EXTERIOR;
}

/* (ii) lets occupants be in the house while the exterior is treated, as far as it is said. */
static bool excused_outside(const mf_job *job, const mf_occupancy *it, const mf_practice *done)
{
    return is_outside(job, done->area) && it->sealed == MF_YES && it->free_entry == MF_YES;
}

static bool outside_days(const mf_occupancy *it, mf_day on)
{
    bool before = it->from != MF_DAY_NONE && on < it->from;
    bool after = it->until != MF_DAY_NONE && on > it->until;
    return on != MF_DAY_NONE && (before || after);
}

/* The hazard is there until the place is clean: to fold the plastic and to clean belongs to the
 * treatment that "will be completed within" the days. In no area it may have been inside. */
static bool cleaned_on_other_days(const mf_job *job, const mf_occupancy *it)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (mf_is_cleaning(tick) && outside_days(it, tick->on) && !is_outside(job, tick->area))
            return true;
    }
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *event = &job->verification[i];
        if (event->event == MF_VER_RECLEANED && outside_days(it, event->on) &&
            !is_outside(job, event->area))
            return true;
    }
    return false;
}

/* What was planned to take a day or a few does not excuse a stay once it took others, nor
 * while the work is planned to go on for longer. Work of which no area is logged may have been
 * inside. */
static bool on_other_days(const mf_job *job, const mf_occupancy *it)
{
    const mf_house *house = &job->house[0];
    bool over = mf_completed_on(job) != MF_DAY_NONE;
    if (!over && house->end != MF_DAY_NONE && it->until != MF_DAY_NONE && house->end > it->until)
        return true;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *done = &job->practice[i];
        if (done->planned != MF_YES && outside_days(it, done->on) &&
            !excused_outside(job, it, done))
            return true;
    }
    return cleaned_on_other_days(job, it);
}

typedef struct hours {
    int32_t first, last; /* MF_MINUTE_NONE: none is said */
} hours;

/* From the first to the last minute of the work inside that is logged of the day, as far as its
 * times are said. */
static hours worked_inside(const mf_job *job, const mf_occupancy *it)
{
    hours of = {MF_MINUTE_NONE, MF_MINUTE_NONE};
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *done = &job->practice[i];
        int32_t from = mf_work_first_said(done), until = mf_work_last_said(done);
        if (done->planned == MF_YES || is_outside(job, done->area) || done->on != it->from ||
            from == MF_MINUTE_NONE)
            continue;
        of.first = of.first == MF_MINUTE_NONE || from < of.first ? from : of.first;
        of.last = until > of.last ? until : of.last;
    }
    return of;
}

/* "Within one period of 8 daytime hours": no shorter than what was meant. */
static int64_t minutes_of_day(const mf_occupancy *it, const hours *worked)
{
    int64_t logged = worked->first == MF_MINUTE_NONE ? 0 : (int64_t)worked->last - worked->first;
    return logged > it->minutes ? logged : it->minutes;
}

/* Which hours are daytime 24 CFR 35.1345 does not say: common practice, no source. */
enum { DAY_BEGINS = 6 * 60, DAY_ENDS = 21 * 60 };
static bool at_night(const hours *worked)
{
    return worked->first != MF_MINUTE_NONE &&
           (worked->first < DAY_BEGINS || worked->last > DAY_ENDS);
}

static mf_stay_fault one_day(const mf_job *job, const mf_occupancy *it, const mf_limit **limit,
                             int64_t *n)
{
    *limit = mf_limit_for(job, MF_LIMIT_STAY_MINUTES, start_of(job));
    const hours worked = worked_inside(job, it);
    *n = it->minutes == MF_NUM_NONE ? MF_NUM_NONE : minutes_of_day(it, &worked);
    bool one = it->from != MF_DAY_NONE && it->from == it->until;
    if (!one || *n == MF_NUM_NONE || !mf_limit_holds(*limit, *n))
        return MF_STAY_TOO_LONG;
    if (on_other_days(job, it))
        return MF_STAY_OTHER_DAYS;
    if (at_night(&worked))
        return MF_STAY_AT_NIGHT;
    return it->other_hazard == MF_NOT ? MF_STAY_GOOD : MF_STAY_HAZARD;
}

static mf_stay_fault few_days(const mf_job *job, const mf_occupancy *it, const mf_limit **limit,
                              int64_t *n)
{
    bool known = it->from != MF_DAY_NONE && it->until != MF_DAY_NONE && it->until >= it->from;
    *limit = mf_limit_for(job, MF_LIMIT_STAY_DAYS, start_of(job));
    *n = known ? (int64_t)it->until - it->from + 1 : MF_NUM_NONE;
    if (!known || !mf_limit_holds(*limit, *n))
        return MF_STAY_TOO_LONG;
    if (on_other_days(job, it))
        return MF_STAY_OTHER_DAYS;
    const mf_limit *margin = mf_limit_for(job, MF_LIMIT_STAY_MARGIN, start_of(job));
    if (it->margin_ft_100 == MF_NUM_NONE || !mf_limit_holds(margin, it->margin_ft_100)) {
        *limit = margin;
        *n = it->margin_ft_100;
        return MF_STAY_NOT_CLEANED;
    }
    if (it->reachable != MF_YES)
        return MF_STAY_UNREACHABLE;
    return it->other_hazard == MF_NOT ? MF_STAY_GOOD : MF_STAY_HAZARD;
}

mf_stay_fault mf_stay_judge(const mf_job *job, const mf_occupancy *it, const mf_limit **limit,
                            int64_t *n)
{
    const mf_limit *own_limit = NULL;
    int64_t own_n = MF_NUM_NONE;
    limit = limit == NULL ? &own_limit : limit;
    n = n == NULL ? &own_n : n;
    *limit = NULL;
    *n = MF_NUM_NONE;
    switch (it->stay) {
    case MF_STAY_RELOCATED:
        return on_other_days(job, it) ? MF_STAY_OTHER_DAYS : MF_STAY_GOOD;
    case MF_STAY_NO_HAZARD:
        return any_counted(job, false) ? MF_STAY_HAZARD : MF_STAY_GOOD;
    case MF_STAY_EXTERIOR:
        if (any_counted(job, true))
            return MF_STAY_INSIDE;
        return it->sealed == MF_YES && it->free_entry == MF_YES ? MF_STAY_GOOD : MF_STAY_UNSEALED;
    case MF_STAY_ONE_DAY:
        return one_day(job, it, limit, n);
    case MF_STAY_FEW_DAYS:
        break;
    }
    return few_days(job, it, limit, n);
}
