/* Is the work area verified clean, by whom, and is it written down?
 * 40 CFR 745.85(b), 745.86(b)(6)(viii). */
#include "core/audit_rows.h"

#include "core/area_openings.h"
#include "core/minor.h"
#include "core/reach.h"
#include "core/surfaces.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <assert.h>
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/person.h>

const char *mf_if_inside(const mf_asked *asked, const mf_subject *subject)
{
    (void)asked;
    return subject->area->side == MF_SIDE_INTERIOR ? NULL : "area-outside";
}

const char *mf_if_outside(const mf_asked *asked, const mf_subject *subject)
{
    (void)asked;
    return subject->area->side == MF_SIDE_EXTERIOR ? NULL : "area-inside";
}

/* Inside, unless clearance samples are required in place of wiping. */
const char *mf_if_wiped(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->area == NULL || subject->area->side != MF_SIDE_INTERIOR)
        return "area-outside";
    return mf_on_clearance(asked->job, subject->area->id) ? "clearance" : NULL;
}

const char *mf_if_logged(const mf_asked *asked, const mf_subject *subject)
{
    for (size_t i = 0; i < asked->job->n_verification; i++) {
        if (mf_same(asked->job->verification[i].area, subject->id))
            return NULL;
    }
    return "verification-none";
}

/* ---- looking ------------------------------------------------------------------------ */

static bool seen_dirty(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        if (job->verification[i].event == MF_VER_LOOK_DIRTY &&
            mf_same(job->verification[i].area, area))
            return true;
    }
    return false;
}

/* The last inspection decides. Where clearance samples stand in for verification its lack
 * is only told: the inspection of (b)(1)(i) is the first part of the cleaning verification
 * that (c) lets samples replace, and neither (c)(1)-(3) nor 745.227(e)(8) as 745.90(c)(1)
 * brings it in asks a renovation for another. Dust that was seen is to be cleaned there too. */
void mf_show_visual(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_ver_area found;
    mf_verification_area(asked->job, subject->area, &found);
    bool clearance = mf_on_clearance(asked->job, subject->id);
    bool dirty = !found.worked_since && seen_dirty(asked->job, subject->id);
    out->evidence = mf_or_empty(found.evidence);
    mf_say_days(out, found.verified_on, MF_DAY_NONE);
    if (found.looked_clean)
        mf_say(out, MF_MET, "looked-clean");
    else
        mf_say(out, MF_LACKING, dirty ? "looked-dirty" : "looked-none");
    if (found.work != NULL) {
        const mf_verification *look = found.looked;
        const mf_work_after it = {found.work, look->on, look->at_minute, look->src.entry};
        mf_say_work(out, &it, "looked-before-work", "looked-work-unsaid");
    }
    if (out->verdict == MF_LACKING && clearance && !dirty)
        out->verdict = MF_WARNING;
}

/* ---- what must be wiped ---------------------------------------------------------------- */

/* The first window in the room that the area is, listed for no area: "each windowsill in the work
 * area" (745.85(b)(1)(ii)(A)); *n how many there are. An area that is less than the room says so
 * by its place. */
static const mf_opening *window_beside(const mf_job *job, const mf_area *area, int64_t *n)
{
    const mf_opening *first = NULL;
    *n = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (!mf_window_beside(job, area, it) || mf_opening_without(job, it, MF_COMP_INTERIOR_SILL))
            continue;
        first = first == NULL ? it : first;
        ++*n;
    }
    return first;
}

static bool floor_smaller(const mf_job *job, const mf_area *area)
{
    int64_t sum = 0, length = area->length_ft_100, width = area->width_ft_100;
    for (size_t i = 0; i < job->n_surface; i++)
        if (job->surface[i].kind == MF_SURFACE_FLOOR && mf_same(job->surface[i].area, area->id))
            sum = mf_add_area(sum, job->surface[i].size_sqft_100);
    bool known = length > 0 && width > 0 && length <= INT64_MAX / width;
    return known && area->carpet == MF_NOT && sum < length * width / 100;
}

/* The floor of the area of which somebody said what takes up the rest of the room; as long as that
 * is said of none, the first, of which it can be said. */
static const mf_surface *floor_of_rest(const mf_job *job, const char *area)
{
    const mf_surface *first = NULL;
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *it = &job->surface[i];
        if (it->kind != MF_SURFACE_FLOOR || !mf_same(it->area, area))
            continue;
        if (mf_given(it->note))
            return it;
        first = first == NULL ? it : first;
    }
    return first;
}

/* Every sill of the area, and its floor unless that is carpeted. The work area may be less than
 * the room, and what is fixed stands on the floor: then somebody says so, and it is told. */
void mf_show_surfaces(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    int64_t sills = mf_sills_listed(job, subject->area);
    int64_t wanted = mf_area_sills(job, subject->area);
    mf_say_numbers(out, MF_UNIT_COUNT, sills, wanted);
    int64_t n_beside;
    const mf_opening *beside = window_beside(job, subject->area, &n_beside);
    const char *lacks = mf_surfaces_lack(job, subject->area);
    if (lacks != NULL) {
        mf_say(out, MF_LACKING, lacks);
        if (mf_same(lacks, "countertop-on-list"))
            out->told = mf_or_empty(mf_countertop_part(job, subject->area)->id);
        else if (mf_same(lacks, "floor-of-room-missing"))
            out->told = mf_or_empty(mf_room_without_floor(job, subject->area));
    } else if (beside != NULL && sills < wanted + n_beside) {
        mf_say(out, MF_LACKING, "sill-beside");
        out->told = beside->id;
    } else if (floor_smaller(job, subject->area)) {
        const mf_surface *floor = floor_of_rest(job, subject->id);
        bool said = floor != NULL && mf_given(floor->note);
        mf_say(out, said ? MF_WARNING : MF_LACKING, said ? "floor-smaller" : "floor-rest-unsaid");
        if (floor != NULL)
            out->evidence = mf_or_empty(floor->src.entry);
    } else
        mf_say(out, MF_MET, "surfaces-listed");
}

static const char *const state_names[] = {
    [MF_VS_UNWIPED] = "section-unwiped", [MF_VS_RECLEAN] = "section-reclean",
    [MF_VS_SECOND] = "section-second",   [MF_VS_WAITING] = "section-waiting",
    [MF_VS_CLEAN] = "surface-clean",
};

/* A cleaning on a later day than the last cloth: was it in place of one that did not count? */
static const mf_tick *cleaned_on_a_later_day(const mf_asked *asked, const mf_surface *surface,
                                             const mf_ver_section *at)
{
    const char *step = surface->kind == MF_SURFACE_FLOOR ? "mop" : "surfaces";
    for (size_t i = 0; i < asked->job->n_tick; i++) {
        const mf_tick *it = &asked->job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->area, surface->area) &&
            mf_same(it->step, step) && it->on > mf_when_day(at->last))
            return it;
    }
    return NULL;
}

/* The first section that is not clean speaks for the surface. */
void mf_show_surface(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_surface *surface = subject->surface;
    int64_t n = mf_sections_of(asked->job, surface);
    mf_ver_section at = {.state = MF_VS_UNWIPED, .evidence = ""};
    if (surface->kind != MF_SURFACE_SILL && surface->size_sqft_100 == MF_NUM_NONE) {
        mf_say(out, MF_LACKING, "surface-no-size");
        return;
    }
    mf_say_limit(out, asked->job, MF_LIMIT_SECTION_UNDIVIDED, asked->house->start);
    for (int64_t section = 1; section <= n; section++) {
        mf_verification_replay(asked->job, subject->area, surface, section, &at);
        mf_say_numbers(out, MF_UNIT_COUNT, section, n);
        if (at.state != MF_VS_CLEAN)
            break;
    }
    mf_say(out, at.state == MF_VS_CLEAN ? MF_MET : MF_LACKING, state_names[at.state]);
    out->evidence = mf_or_empty(at.evidence);
    const mf_tick *cleaned =
        at.state == MF_VS_CLEAN ? cleaned_on_a_later_day(asked, surface, &at) : NULL;
    if (cleaned == NULL)
        return;
    mf_say(out, MF_WARNING, "surface-cleaned-since");
    mf_say_days(out, mf_when_day(at.last), cleaned->on);
    out->other = mf_or_empty(cleaned->src.entry);
}

/* ---- in the right order ------------------------------------------------------------------- */

static const char *const refusal_names[] = {
    [MF_VR_NONE] = "order-good",
    [MF_VR_NOT_LOOKED] = "refused-not-looked",
    [MF_VR_ALREADY_CLEAN] = "refused-already-clean",
    [MF_VR_RECLEAN_FIRST] = "refused-reclean-first",
    [MF_VR_NOT_DARKER] = "refused-not-darker",
    [MF_VR_NO_THIRD_WET] = "refused-no-third-wet",
    [MF_VR_DRY_TOO_SOON] = "refused-dry-too-soon",
    [MF_VR_NOT_DRY] = "refused-not-dry",
    [MF_VR_DRY_UNWIPED] = "refused-dry-unwiped",
    [MF_VR_NEEDS_NEW_CLOTH] = "refused-needs-new-cloth",
    [MF_VR_CLOTH_UNSAID] = "refused-cloth-unsaid",
    [MF_VR_OUT_OF_ORDER] = "refused-out-of-order",
    [MF_VR_NO_TIME] = "refused-no-time",
    [MF_VR_NO_SECTION] = "refused-no-section",
    [MF_VR_EXTERIOR] = "refused-exterior",
    [MF_VR_CLOCKS_APART] = "refused-clocks-apart",
};
static_assert(sizeof refusal_names / sizeof refusal_names[0] == MF_VR_CLOCKS_APART + 1,
              "a refusal was added: give it a reason name");

/* Where samples are required the verification "need not be performed" (745.85(c)): what is wrong
 * with the looks and cloths of such an area is only told. */
static mf_verdict verification_fault(const mf_job *job, const char *area)
{
    return mf_on_clearance(job, area) ? MF_WARNING : MF_LACKING;
}

/* The subject is the area until a surface speaks for it. */
static bool say_refused(const mf_asked *asked, mf_finding *out, mf_ver_refusal refusal,
                        const char *surface, const char *entry)
{
    if (refusal == MF_VR_NONE)
        return false;
    mf_say(out, verification_fault(asked->job, out->subject), refusal_names[refusal]);
    if (mf_given(surface))
        out->subject = surface;
    out->evidence = mf_or_empty(entry);
    if (refusal == MF_VR_DRY_TOO_SOON)
        mf_say_limit(out, asked->job, MF_LIMIT_DRY_WAIT, asked->house->start);
    return true;
}

static bool refused_on_surface(const mf_asked *asked, const mf_area *area,
                               const mf_surface *surface, mf_finding *out)
{
    const mf_job *job = asked->job;
    for (int64_t section = 1; section <= mf_sections_of(job, surface); section++) {
        mf_ver_section at;
        mf_verification_replay(job, area, surface, section, &at);
        if (say_refused(asked, out, at.refused, surface->id, at.refused_entry))
            return true;
    }
    return false;
}

/* A replay sees only the sections there are; this finds events of no section. */
static mf_ver_refusal stray(const mf_job *job, const mf_area *area, const mf_verification *event)
{
    if (event->event == MF_VER_LOOK_DIRTY)
        return MF_VR_NONE;
    if (event->event == MF_VER_LOOK_CLEAN)
        return mf_given(event->surface) ? MF_VR_NO_SECTION : MF_VR_NONE;
    if (area->side == MF_SIDE_EXTERIOR)
        return MF_VR_EXTERIOR;
    const mf_surface *surface = mf_job_surface(job, event->surface);
    bool there = surface != NULL && mf_same(surface->area, area->id) && event->section >= 1 &&
                 event->section <= mf_sections_of(job, surface);
    return there ? MF_VR_NONE : MF_VR_NO_SECTION;
}

void mf_show_order(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    out->evidence = "";
    for (size_t i = 0; i < job->n_surface; i++) {
        if (mf_same(job->surface[i].area, subject->id) &&
            refused_on_surface(asked, subject->area, &job->surface[i], out))
            return;
    }
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *event = &job->verification[i];
        if (mf_same(event->area, subject->id) &&
            say_refused(asked, out, stray(job, subject->area, event), event->surface,
                        event->src.entry))
            return;
    }
    mf_say(out, MF_MET, "order-good");
}

/* ---- by the right hands, and written down ---------------------------------------------------- */

/* Whoever clears an area by samples may look at it as well: that is no verification. */
static bool looked_to_clear(const mf_job *job, const mf_verification *it)
{
    return mf_is_look(it) && mf_on_clearance(job, it->area) &&
           mf_may_sample(job, it->person, it->on);
}

/* Who is not named is asked for by verification-record. */
void mf_show_verifier(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    bool renovators = true;
    out->evidence = "";
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (!mf_same(it->area, subject->id) || !mf_given(it->person) ||
            it->event == MF_VER_RECLEANED || /* cleaning is for trained people: 745.90(b)(1) */
            mf_certified(job, it->person, MF_DISC_RENOVATOR, it->on, NULL) != NULL)
            continue;
        renovators = renovators && !looked_to_clear(job, it);
        if (looked_to_clear(job, it) || mf_verification_made_good(job, subject->area, i))
            continue;
        mf_say(out, verification_fault(job, subject->id), "verifier-not-certified");
        mf_say_days(out, it->on, MF_DAY_NONE);
        out->subject = it->person;
        out->evidence = mf_or_empty(it->src.entry);
        return;
    }
    mf_say(out, MF_MET, renovators ? "verifier-certified" : "verifier-none-needed");
}

void mf_show_cloths(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_ver_area found;
    mf_verification_area(job, subject->area, &found);
    mf_say(out, MF_MET, "cloths-counted");
    mf_say_numbers(out, MF_UNIT_COUNT, found.wet, found.dry);
    out->evidence = mf_or_empty(found.evidence);
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (!mf_same(it->area, subject->id) || (mf_given(it->person) && it->on != MF_DAY_NONE))
            continue;
        mf_say(out, verification_fault(job, subject->id), "verification-unsigned");
        out->evidence = mf_or_empty(it->src.entry);
        return;
    }
}
