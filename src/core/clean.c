/* Cleaning verification, cloth by cloth and section by section of a floor: a table of state
 * and event, and its replay over what was logged. 40 CFR 745.85(b)(1)(i)-(iii), (b)(2). */
#include <mistfold/clean.h>

#include <mistfold/person.h>
#include <mistfold/place.h>

#include "core/logged.h"
#include "core/surfaces.h"
#include "core/text.h"
#include "core/wetted.h"
#include "core/when.h"
#include "core/worked.h"
#include <assert.h>

/* ---- the machine --------------------------------------------------------------- */

typedef struct cell {
    mf_ver_state next;
    mf_ver_refusal refusal;
} cell;

enum { N_STATES = MF_VS_CLEAN + 1, FIRST_EVENT = MF_VER_WET_MATCH, N_EVENTS = 5 };
static_assert(N_STATES == 5, "a state was added: add its row");
static_assert(MF_VER_DRY_WIPE - FIRST_EVENT + 1 == N_EVENTS, "an event was added: add its column");

const char *mf_ver_state_name(mf_ver_state state)
{
    static const char *const names[N_STATES] = {"unwiped", "reclean", "second", "waiting", "clean"};
    return (size_t)state < N_STATES ? names[state] : "";
}

#define GO(state)                                                                                  \
    {                                                                                              \
        MF_VS_##state, MF_VR_NONE                                                                  \
    }
#define NO(why)                                                                                    \
    {                                                                                              \
        MF_VS_UNWIPED, MF_VR_##why                                                                 \
    }

/* Cleaning once more than asked does no harm before the second wet cloth; after
 * it the surface must dry. */
static const cell table[N_STATES][N_EVENTS] = {
    /* wet cloth matches, wet cloth darker, cleaned again, seen dry, dry cloth */
    [MF_VS_UNWIPED] = {GO(CLEAN), GO(RECLEAN), NO(NOT_DARKER), NO(NOT_DARKER), NO(DRY_UNWIPED)},
    [MF_VS_RECLEAN] = {NO(RECLEAN_FIRST), NO(RECLEAN_FIRST), GO(SECOND), NO(NOT_DARKER),
                       NO(DRY_UNWIPED)},
    [MF_VS_SECOND] = {GO(CLEAN), GO(WAITING), GO(SECOND), NO(NOT_DARKER), NO(DRY_UNWIPED)},
    [MF_VS_WAITING] = {NO(NO_THIRD_WET), NO(NO_THIRD_WET), NO(NO_THIRD_WET), GO(WAITING),
                       GO(CLEAN)},
    [MF_VS_CLEAN] = {NO(ALREADY_CLEAN), NO(ALREADY_CLEAN), NO(ALREADY_CLEAN), NO(ALREADY_CLEAN),
                     NO(ALREADY_CLEAN)},
};

static bool is_wet(const mf_verification *event)
{
    return event->event == MF_VER_WET_MATCH || event->event == MF_VER_WET_DARKER;
}

static bool is_wipe(const mf_verification *event)
{
    return is_wet(event) || event->event == MF_VER_DRY_WIPE;
}

/* ---- may this event follow? ------------------------------------------------------ */

/* "Either use a new cloth or fold the used cloth": of the second wet wipe of a sill, (A)(2). A fold
 * of the wet cloth is not dry: (A)(4). A darker cloth tells of dust, whatever it was before. */
static mf_ver_refusal cloth_refusal(mf_ver_state state, const mf_surface *surface,
                                    const mf_verification *event)
{
    if (!is_wipe(event) || event->event == MF_VER_WET_DARKER)
        return MF_VR_NONE;
    if (event->cloth == MF_CLOTH_NONE)
        return MF_VR_CLOTH_UNSAID;
    bool fold = surface->kind == MF_SURFACE_SILL && state == MF_VS_SECOND && is_wet(event);
    if (event->cloth == MF_CLOTH_FRESH_FOLD && !fold)
        return MF_VR_NEEDS_NEW_CLOTH;
    return MF_VR_NONE;
}

/* The wait runs from the second darker wet cloth to the dry one, of a floor or countertop from the
 * last water on any of its sections, so the times of those, and of seeing the surface dry between
 * them, must be known. "Until the entire surface within the work area has dried completely",
 * (B)(2): each section that waits is seen dry before the first dry cloth. Of two devices one clock
 * may be wrong: then the wait must have passed between the loggings, too, or nobody knows it. */
static mf_ver_refusal wait_refusal(const mf_job *job, const mf_ver_section *at,
                                   const mf_surface *surface, const mf_verification *event,
                                   int64_t when)
{
    bool starts = at->state == MF_VS_SECOND && event->event == MF_VER_WET_DARKER;
    if (!starts && at->state != MF_VS_WAITING)
        return MF_VR_NONE;
    if (event->at_minute == MF_MINUTE_NONE || (!starts && at->wait_from == MF_NUM_NONE))
        return MF_VR_NO_TIME;
    if (event->event != MF_VER_DRY_WIPE)
        return MF_VR_NONE;
    const mf_limit *wait = mf_limit_for(job, MF_LIMIT_DRY_WAIT, event->on);
    int64_t logged = mf_logged_apart(at->wait_by, at->wait_from, &event->src, when);
    if (!mf_limit_holds(wait, when - at->wait_from))
        return MF_VR_DRY_TOO_SOON;
    if (logged != MF_NUM_NONE && !mf_limit_holds(wait, logged + MF_CLOCKS_APART))
        return MF_VR_CLOCKS_APART;
    bool dry = at->dry_seen != MF_NUM_NONE && !mf_wet_elsewhere(job, surface, event, when);
    return dry ? MF_VR_NONE : MF_VR_NOT_DRY;
}

/* What has passed may be wiped anew once somebody has looked at it anew. */
static mf_ver_state from(const mf_ver_section *at)
{
    return at->state == MF_VS_CLEAN && at->looked_anew ? MF_VS_UNWIPED : at->state;
}

static mf_ver_refusal refusal_of(const mf_job *job, const mf_ver_section *at, const mf_area *area,
                                 const mf_surface *surface, const mf_verification *event,
                                 int64_t when)
{
    if (area->side == MF_SIDE_EXTERIOR)
        return MF_VR_EXTERIOR;
    if (event->section < 1 || event->section > mf_sections_of(job, surface))
        return MF_VR_NO_SECTION;
    if (at->last != MF_NUM_NONE && when < at->last)
        return MF_VR_OUT_OF_ORDER;
    mf_ver_refusal refusal = table[from(at)][event->event - FIRST_EVENT].refusal;
    if (refusal == MF_VR_NONE && !at->looked)
        refusal = MF_VR_NOT_LOOKED;
    if (refusal == MF_VR_NONE)
        refusal = cloth_refusal(from(at), surface, event);
    return refusal == MF_VR_NONE ? wait_refusal(job, at, surface, event, when) : refusal;
}

static void begin(mf_ver_section *out)
{
    *out = (mf_ver_section){.state = MF_VS_UNWIPED,
                            .wait_from = MF_NUM_NONE,
                            .dry_seen = MF_NUM_NONE,
                            .last = MF_NUM_NONE,
                            .since = MF_NUM_NONE,
                            .refused = MF_VR_NONE,
                            .refused_entry = "",
                            .evidence = ""};
}

/* Dust that is seen sends everything back, also what had passed: it was wiped
 * before the area was clean. The cloths stay counted. */
static void look(mf_ver_section *at, const mf_verification *event, int64_t when)
{
    at->looked = event->event == MF_VER_LOOK_CLEAN;
    at->looked_anew = at->looked && at->state == MF_VS_CLEAN;
    if (!at->looked) {
        at->state = MF_VS_UNWIPED;
        at->wait_from = at->dry_seen = MF_NUM_NONE;
    }
    if (at->state == MF_VS_UNWIPED)
        at->evidence = event->src.entry;
    at->last = when;
}

static void wipe(mf_ver_section *at, const mf_verification *event, int64_t when)
{
    if (from(at) == MF_VS_UNWIPED)
        at->since = when;
    at->state = table[from(at)][event->event - FIRST_EVENT].next;
    at->looked_anew = false;
    if (at->state == MF_VS_CLEAN) { /* what could not have been before it is made good */
        at->refused = MF_VR_NONE;
        at->refused_entry = "";
    }
    if (event->event == MF_VER_SEEN_DRY)
        at->dry_seen = when;
    else if (at->state == MF_VS_WAITING) {
        at->wait_from = when;
        at->wait_by = &event->src;
    }
    at->evidence = event->src.entry;
    at->last = when;
}

/* A floor or countertop must be dry as a whole: water in another section takes
 * back that it was seen dry, and the wait begins anew. */
static void elsewhere(mf_ver_section *at, const mf_surface *surface, const mf_verification *event,
                      int64_t when)
{
    if (surface->kind == MF_SURFACE_SILL || !(is_wet(event) || event->event == MF_VER_RECLEANED))
        return;
    at->dry_seen = MF_NUM_NONE;
    if (at->state == MF_VS_WAITING) {
        at->wait_from = event->at_minute == MF_MINUTE_NONE ? MF_NUM_NONE : when;
        at->wait_by = &event->src;
    }
}

static void happen(const mf_job *job, mf_ver_section *at, const mf_area *area,
                   const mf_surface *surface, int64_t section, const mf_verification *event,
                   int64_t when)
{
    if (mf_is_look(event)) {
        look(at, event, when);
        return;
    }
    if (event->section != section) {
        elsewhere(at, surface, event, when);
        return;
    }
    mf_ver_refusal refusal = refusal_of(job, at, area, surface, event, when);
    at->wet += is_wet(event) && event->cloth != MF_CLOTH_FRESH_FOLD; /* folded it is the same */
    at->dry += event->event == MF_VER_DRY_WIPE;
    if (refusal == MF_VR_NO_TIME && event->event == MF_VER_WET_DARKER)
        at->state = MF_VS_WAITING; /* nobody knows since when */
    if (refusal == MF_VR_NONE) {
        wipe(at, event, when);
    } else if (at->refused == MF_VR_NONE) {
        at->refused = refusal;
        at->refused_entry = event->src.entry;
    }
}

static bool by_renovator(const mf_job *job, const mf_verification *event)
{
    return mf_certified(job, event->person, MF_DISC_RENOVATOR, event->on, NULL) != NULL;
}

/* Where a replay stands: the time and index of the event it took last. */
typedef struct cursor {
    const mf_area *area;
    const char *surface; /* NULL: visual inspections only */
    bool own;            /* without the clean looks of those who are no certified renovators */
    int64_t when;
    size_t index;
    bool begun;
} cursor;

static bool touches(const mf_job *job, const cursor *at, const mf_verification *event)
{
    if (!mf_same(event->area, at->area->id))
        return false;
    if (at->own && event->event == MF_VER_LOOK_CLEAN && !by_renovator(job, event))
        return false;
    if (mf_is_look(event)) /* one surface that was looked at is not the work area; dust on it is */
        return event->event == MF_VER_LOOK_DIRTY || !mf_given(event->surface);
    return at->surface != NULL && mf_same(event->surface, at->surface);
}

static bool comes_after(int64_t when, size_t index, int64_t other_when, size_t other_index)
{
    return when > other_when || (when == other_when && index > other_index);
}

/* The next event in order of time, entry order where the times are the same. A
 * search each time instead of a sort: this room allocates nothing. */
static const mf_verification *next_event(const mf_job *job, cursor *at)
{
    bool found = false;
    cursor best = *at;
    for (size_t i = 0; i < job->n_verification; i++) {
        if (!touches(job, at, &job->verification[i]))
            continue;
        int64_t when = mf_event_when(job, i);
        if (at->begun && !comes_after(when, i, at->when, at->index))
            continue;
        if (!found || !comes_after(when, i, best.when, best.index)) {
            best.when = when;
            best.index = i;
            found = true;
        }
    }
    best.begun = true;
    *at = best;
    return found ? &job->verification[at->index] : NULL;
}

/* Work makes dust anew: what passed before it is to be looked at and wiped again. The cloths
 * stay counted. */
static void work_goes_on(mf_ver_section *at)
{
    at->looked = false;
    at->state = MF_VS_UNWIPED;
    at->wait_from = at->dry_seen = MF_NUM_NONE;
}

static void replay(const mf_job *job, cursor at, const mf_surface *surface, int64_t section,
                   mf_ver_section *out)
{
    const mf_area *area = at.area;
    const mf_verification *event, *seen = NULL;
    begin(out);
    while ((event = next_event(job, &at)) != NULL) {
        if (seen != NULL && mf_worked_between(job, seen, event))
            work_goes_on(out);
        happen(job, out, area, surface, section, event, at.when);
        seen = event;
    }
    /* What the times do not tell is told of the look: its cloths may still be logged. */
    if (seen != NULL && mf_worked_after(job, area->id, seen->on, seen->at_minute))
        work_goes_on(out);
}

void mf_verification_replay(const mf_job *job, const mf_area *area, const mf_surface *surface,
                            int64_t section, mf_ver_section *out)
{
    const cursor at = {.area = area, .surface = surface->id};
    replay(job, at, surface, section, out);
}

/* ---- questions ------------------------------------------------------------------------ */

/* The last visual inspection, or NULL. */
static const mf_verification *last_look(const mf_job *job, const mf_area *area, bool own,
                                        int64_t *when)
{
    cursor at = {.area = area, .surface = NULL, .own = own};
    const mf_verification *event, *last = NULL;
    while ((event = next_event(job, &at)) != NULL) {
        last = event;
        *when = at.when;
    }
    return last;
}

/* When the last thing of the area happened, or MF_NUM_NONE. */
static int64_t last_event(const mf_job *job, const mf_area *area)
{
    int64_t last = MF_NUM_NONE;
    for (size_t i = 0; i < job->n_verification; i++) {
        if (mf_same(job->verification[i].area, area->id) && mf_event_when(job, i) > last)
            last = mf_event_when(job, i);
    }
    return last;
}

/* An event without a time follows what was logged on its day. */
static int64_t following(const mf_verification *event, int64_t last)
{
    if (event->at_minute == MF_MINUTE_NONE && last != MF_NUM_NONE && mf_when_day(last) == event->on)
        return last;
    return mf_when(event->on, event->at_minute);
}

mf_ver_refusal mf_verification_may(const mf_job *job, const mf_verification *event)
{
    const mf_area *area = mf_job_area(job, event->area);
    if (area == NULL)
        return MF_VR_NO_SECTION;
    if (event->event == MF_VER_LOOK_CLEAN && mf_given(event->surface))
        return MF_VR_NO_SECTION;
    if (mf_is_look(event)) {
        int64_t last = last_event(job, area);
        return last != MF_NUM_NONE && following(event, last) < last ? MF_VR_OUT_OF_ORDER
                                                                    : MF_VR_NONE;
    }
    if (area->side == MF_SIDE_EXTERIOR)
        return MF_VR_EXTERIOR;
    const mf_surface *surface = mf_job_surface(job, event->surface);
    if (surface == NULL || !mf_same(surface->area, area->id))
        return MF_VR_NO_SECTION;
    mf_ver_section at;
    mf_verification_replay(job, area, surface, event->section, &at);
    return refusal_of(job, &at, area, surface, event, following(event, at.last));
}

static void latest(mf_ver_area *out, int64_t *last, int64_t when, const char *entry)
{
    if (when != MF_NUM_NONE && when >= *last) {
        *last = when;
        out->verified_on = mf_when_day(when);
        out->evidence = entry;
    }
}

static void add_surface(const mf_job *job, const mf_area *area, const mf_surface *surface, bool own,
                        mf_ver_area *out, int64_t *last)
{
    const cursor from_start = {.area = area, .surface = surface->id, .own = own};
    int64_t n = mf_sections_of(job, surface);
    for (int64_t section = 1; section <= n; section++) {
        mf_ver_section at;
        replay(job, from_start, surface, section, &at);
        out->n_sections++;
        out->n_clean += at.state == MF_VS_CLEAN;
        out->wet += at.wet;
        out->dry += at.dry;
        latest(out, last, at.last, at.evidence);
    }
}

static void judge_area(const mf_job *job, const mf_area *area, bool own, mf_ver_area *out)
{
    *out = (mf_ver_area){.looked_on = MF_DAY_NONE, .verified_on = MF_DAY_NONE, .evidence = ""};
    int64_t last = MF_NUM_NONE, looked = MF_NUM_NONE;
    const mf_verification *seen = out->looked = last_look(job, area, own, &looked);
    if (seen != NULL) {
        out->looked_on = seen->on;
        out->work = mf_worked_since(job, area->id, seen->on, seen->at_minute);
        out->worked_since = out->work != NULL;
        out->looked_clean = seen->event == MF_VER_LOOK_CLEAN && !out->worked_since;
        latest(out, &last, looked, seen->src.entry);
    }
    if (area->side == MF_SIDE_EXTERIOR) {
        out->verified = out->looked_clean;
        return;
    }
    for (size_t i = 0; i < job->n_surface; i++) {
        if (mf_same(job->surface[i].area, area->id))
            add_surface(job, area, &job->surface[i], own, out, &last);
    }
    bool listed = out->n_sections > 0 || mf_surfaces_lack(job, area) == NULL;
    out->verified = out->looked_clean && listed && out->n_clean == out->n_sections;
}

void mf_verification_area(const mf_job *job, const mf_area *area, mf_ver_area *out)
{
    judge_area(job, area, false, out);
}

/* ---- done once more by the right hands ----------------------------------------------- */

/* Whether the verification shows the same without the clean looks of those who are no certified
 * renovators: nothing of it rests on them. */
static bool whole_without(const mf_job *job, const mf_area *area)
{
    mf_ver_area all, own;
    judge_area(job, area, false, &all);
    judge_area(job, area, true, &own);
    return own.looked_clean && own.n_clean == all.n_clean;
}

/* The next clean look of the whole area by a certified renovator, or MF_NUM_NONE. */
static int64_t looked_well_after(const mf_job *job, const mf_area *area, int64_t when)
{
    int64_t next = MF_NUM_NONE;
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        int64_t at = mf_event_when(job, i);
        if (it->event == MF_VER_LOOK_CLEAN && !mf_given(it->surface) &&
            mf_same(it->area, area->id) && by_renovator(job, it) && at > when &&
            (next == MF_NUM_NONE || at < next))
            next = at;
    }
    return next;
}

/* Whether the wiping of each section that counts began then or later. */
static bool wiped_since(const mf_job *job, const mf_area *area, const mf_surface *surface,
                        int64_t only, int64_t when)
{
    for (int64_t section = 1; section <= mf_sections_of(job, surface); section++) {
        mf_ver_section at;
        if (only != 0 && section != only)
            continue;
        mf_verification_replay(job, area, surface, section, &at);
        if (at.state != MF_VS_CLEAN || at.since == MF_NUM_NONE || at.since < when)
            return false;
    }
    return true;
}

bool mf_verification_made_good(const mf_job *job, const mf_area *area, size_t index)
{
    const mf_verification *event = &job->verification[index];
    if (event->event == MF_VER_LOOK_CLEAN && whole_without(job, area))
        return true;
    int64_t looked = looked_well_after(job, area, mf_event_when(job, index));
    if (looked == MF_NUM_NONE)
        return false;
    if (area->side == MF_SIDE_EXTERIOR)
        return true;
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *surface = &job->surface[i];
        bool of_it = mf_is_look(event) || mf_same(surface->id, event->surface);
        if (mf_same(surface->area, area->id) && of_it &&
            !wiped_since(job, area, surface, mf_is_look(event) ? 0 : event->section, looked))
            return false;
    }
    return true;
}
