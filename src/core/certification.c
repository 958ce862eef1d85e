/* Whether a certification of the record is one of the work that the entries hold, and whose work
 * it was. 40 CFR 745.86(b)(6): by the certified renovator assigned to the project, who performed
 * or directed the tasks of 745.85(a). */
#include "core/audit_rows.h"

#include "core/contradict.h"
#include "core/corrected.h"
#include "core/seen.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/person.h>
#include <stdlib.h>

/* ---- whose work ------------------------------------------------------------------------- */

static bool assigned_by(const mf_job *job, const char *person, mf_day day)
{
    const mf_assignment *it = mf_given(person) ? mf_assigned_renovator(job, person) : NULL;
    return it != NULL && it->on <= day;
}

bool mf_is_task(const mf_job *job, const mf_tick *tick)
{
    return tick->state == MF_TICK_DONE && !mf_is_own_step(job, tick);
}

bool mf_task_directed_by(const mf_job *job, const mf_tick *tick, const char *person)
{
    bool named = mf_same(tick->renovator, person) || mf_same(tick->person, person);
    return mf_is_task(job, tick) && named && assigned_by(job, person, tick->on);
}

bool mf_directed_any(const mf_job *job, const char *person)
{
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_task_directed_by(job, &job->tick[i], person))
            return true;
    return false;
}

/* Who directed a task and could certify on the day, where the person did and directed none; NULL =
 * the person did, nobody is named, or whoever did is no renovator any more: then who took over
 * certifies. */
static const char *directed_by_another(const mf_job *job, const char *person, mf_day day)
{
    if (mf_directed_any(job, person))
        return NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        const char *by = mf_task_directed_by(job, it, it->renovator) ? it->renovator : it->person;
        if (mf_task_directed_by(job, it, by) &&
            mf_certified(job, by, MF_DISC_RENOVATOR, day, NULL) != NULL)
            return by;
    }
    return NULL;
}

/* ---- what came after it ------------------------------------------------------------------- */

/* What of a job is certified: training, signs, containment, waste, cleaning, verification, kits
 * and chips (745.86(b)(6)(i)-(viii)), who was assigned, by which methods (745.85(a)(3)), what an
 * emergency excused, and the windows, doors and parts of which all of it is said: what they are,
 * where, of what and how much decides which work areas, surfaces and tests there have to be. */
static const char *const certified_kinds[] = {
    "assignment", "training",     "area",        "surface",  "tick", "practice",  "opening",
    "emergency",  "verification", "dust_sample", "kit_test", "chip", "component",
};

static bool is_certified_kind(const char *kind)
{
    for (size_t i = 0; i < sizeof certified_kinds / sizeof certified_kinds[0]; i++)
        if (mf_same(certified_kinds[i], kind))
            return true;
    return false;
}

static bool of_one_device(const mf_src *it, const mf_src *other)
{
    const char *a = mf_or_empty(it->entry), *b = mf_or_empty(other->entry);
    size_t len = strcspn(a, "/");
    return a[len] == '/' && strncmp(a, b, len + 1) == 0;
}

/* Whether an entry was made after another: by their numbers on one device, by the clocks of two. */
static bool logged_after(const mf_src *it, const mf_src *other)
{
    if (of_one_device(it, other))
        return strtoll(strchr(it->entry, '/') + 1, NULL, 10) >
               strtoll(strchr(other->entry, '/') + 1, NULL, 10);
    return strcmp(mf_or_empty(it->at), mf_or_empty(other->at)) > 0;
}

/* Whether it was not on file yet where it was certified, though no clock tells so. One of an older
 * version does not say what was on file. */
static bool unseen(const mf_src *it, const mf_certification *by)
{
    return mf_given(by->seen) && !logged_after(it, &by->src) && !of_one_device(it, &by->src) &&
           !mf_seen_has(by->seen, it->entry);
}

/* A part that is said not to be worked on: nothing was done of it that is certified. */
static bool let_alone(const void *component)
{
    return component != NULL && ((const mf_component *)component)->affected == MF_NOT;
}

/* What takes down the containment of an area that was shown to be clean, what was only planned, a
 * part that is let alone, and what the firm asks beyond the rule, is none of it. */
static bool is_certified(const mf_job *job, const mf_kind *kind, const void *item)
{
    if (mf_same(kind->name, "component"))
        return !let_alone(item);
    if (mf_same(kind->name, "practice"))
        return ((const mf_practice *)item)->planned != MF_YES;
    if (!mf_same(kind->name, "tick"))
        return true;
    const mf_tick *tick = item;
    const mf_area *area = mf_job_area(job, tick->area);
    const mf_asked asked = {.job = job, .whole = job, .area = "", .last = mf_shown_last(job)};
    return !mf_is_own_step(job, tick) && (area == NULL || !mf_taken_down(&asked, area, tick));
}

/* That the work in an area was called off befalls it later; who certified before certified an area
 * of which the steps were to be shown. */
static bool called_off_since(const mf_job *job, const mf_correction *it)
{
    for (size_t i = 0; mf_same(it->kind, "area") && it->now != NULL && i < job->n_correction; i++) {
        const mf_correction *one = &job->correction[i];
        if (mf_same(one->target, it->target) && one->was != NULL &&
            ((const mf_area *)one->was)->called_off != ((const mf_area *)it->now)->called_off)
            return true;
    }
    return false;
}

/* A correction of what was certified: the last of its entry, where it may change an answer. */
static bool corrects(const mf_job *job, const mf_correction *it)
{
    if (!is_certified_kind(it->kind) || mf_correction_replaced(job, it) ||
        !mf_correction_concerns(job, it))
        return false;
    const void *was = mf_corrected_from(job, it);
    if (mf_same(it->kind, "component") && let_alone(was) && let_alone(it->now))
        return false;
    return was != NULL || mf_corrected_away(it) || called_off_since(job, it);
}

typedef struct after {
    const mf_src **out;
    size_t cap, n;
    const mf_src *unseen; /* the first that no clock tells of; NULL = there is none */
} after;

static bool came_after(const mf_src *it, const mf_certification *by)
{
    return logged_after(it, &by->src) || unseen(it, by);
}

static void note(after *all, const mf_src *src, const mf_certification *by)
{
    if (all->n < all->cap)
        all->out[all->n] = src;
    if (all->unseen == NULL && unseen(src, by))
        all->unseen = src;
    all->n++;
}

static after all_after(const mf_job *job, const mf_certification *it, const mf_src **out,
                       size_t cap)
{
    after all = {out, cap, 0, NULL};
    for (size_t k = 0; k < sizeof certified_kinds / sizeof certified_kinds[0]; k++) {
        size_t count = 0;
        const mf_kind *kind = mf_kind_named(certified_kinds[k]);
        const unsigned char *items = mf_kind_items(job, kind, &count);
        for (size_t i = 0; i < count; i++) {
            const void *item = items + i * kind->size;
            if (came_after(item, it) && is_certified(job, kind, item))
                note(&all, item, it); /* every kind begins with its source */
        }
    }
    for (size_t i = 0; i < job->n_correction; i++)
        if (came_after(&job->correction[i].src, it) && corrects(job, &job->correction[i]))
            note(&all, &job->correction[i].src, it);
    return all;
}

size_t mf_certification_after(const mf_job *job, const mf_certification *it, const mf_src **out,
                              size_t cap)
{
    return all_after(job, it, out, cap).n;
}

/* ---- whether it stands -------------------------------------------------------------------- */

static const char *out_of_place(const mf_job *job, const mf_certification *it)
{
    if (job->n_completion == 0)
        return "completion-none";
    if (it->on < mf_completed_on(job))
        return "certification-early";
    if (it->on < mf_shown_last(job))
        return "certification-before-work";
    if (!assigned_by(job, it->person, it->on))
        return "certification-not-assigned";
    if (mf_certified(job, it->person, MF_DISC_RENOVATOR, it->on, NULL) == NULL)
        return "certification-not-certified";
    return NULL;
}

void mf_certification_judge(const mf_job *job, const mf_certification *it, mf_finding *out)
{
    const mf_src *first = NULL;
    const char *fault = out_of_place(job, it);
    const char *other = fault == NULL ? directed_by_another(job, it->person, it->on) : NULL;
    after late = {.n = 0};
    if (fault == NULL && other == NULL)
        late = all_after(job, it, &first, 1);
    if (other != NULL)
        fault = "certification-other-directed";
    if (late.n > 0)
        fault = late.unseen == NULL ? "certification-outrun" : "certification-unseen";
    mf_say(out, fault == NULL ? MF_MET : MF_LACKING,
           fault == NULL ? "certification-signed" : fault);
    mf_say_days(out, it->on, mf_later(mf_completed_on(job), mf_shown_last(job)));
    if (it->on < mf_completed_on(job))
        out->d2 = mf_completed_on(job);
    mf_say_numbers(out, MF_UNIT_COUNT, late.n == 0 ? MF_NUM_NONE : (int64_t)late.n, MF_NUM_NONE);
    out->subject = mf_or_empty(it->person);
    out->evidence = mf_or_empty(it->src.entry);
    out->told = mf_or_empty(other);
    first = late.unseen != NULL ? late.unseen : first;
    out->other = first == NULL ? "" : mf_or_empty(first->entry);
}

bool mf_certification_stands(const mf_job *job, const mf_certification *it)
{
    mf_finding found = mf_finding_blank();
    mf_certification_judge(job, it, &found);
    return found.verdict == MF_MET;
}

bool mf_job_certified(const mf_job *job)
{
    for (size_t i = 0; i < job->n_certification; i++)
        if (mf_certification_stands(job, &job->certification[i]))
            return true;
    return false;
}
