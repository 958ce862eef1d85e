/* The usual parts of an opening that is replaced: each must be listed or said to be absent
 * before a job can be free of the rule, as 40 CFR 745.82(a)(1)-(3) speak of all components
 * that are affected. */
#include "core/opening_parts.h"

#include "core/kind_rows.h"
#include "core/text.h"
#include "core/unlisted_work.h"
#include <mistfold/paint.h>

/* Common practice, no source. A part of no side counts whichever side it was listed on. */
typedef struct usual_part {
    mf_component_type type;
    const char *side; /* "interior", "exterior", or "" */
} usual_part;

static const usual_part of_window[] = {
    {MF_COMP_SASH, ""},
    {MF_COMP_STOP, ""},
    {MF_COMP_JAMB, ""},
    {MF_COMP_TROUGH, ""},
    {MF_COMP_INTERIOR_SILL, "interior"},
    {MF_COMP_APRON, "interior"},
    {MF_COMP_INTERIOR_CASING, "interior"},
    {MF_COMP_EXTERIOR_SILL, "exterior"},
    {MF_COMP_EXTERIOR_CASING, "exterior"},
};
static const usual_part of_door[] = {
    {MF_COMP_DOOR_SLAB, ""},
    {MF_COMP_STOP, ""},
    {MF_COMP_JAMB, ""},
    {MF_COMP_THRESHOLD, ""},
    {MF_COMP_INTERIOR_CASING, "interior"},
    {MF_COMP_EXTERIOR_CASING, "exterior"},
};

static bool listed(const mf_job *job, const mf_opening *opening, mf_component_type type)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (job->component[i].type == type && mf_same(job->component[i].opening, opening->id))
            return true;
    return false;
}

static bool absent(const mf_opening *opening, const usual_part *part)
{
    return mf_id_in_list(opening->absent, mf_choices_component[part->type]) ||
           (mf_given(part->side) && mf_id_in_list(opening->absent, part->side));
}

static bool unlisted(const mf_job *job, const mf_opening *opening, const usual_part *part)
{
    return !listed(job, opening, part->type) && !absent(opening, part);
}

/* Of it, or by the kinds of work. That a part of it comes off replaces no sash. */
static bool said_replaced(const mf_job *job, const mf_opening *opening)
{
    bool window = opening->kind == MF_OPENING_WINDOW;
    if (opening->replaced != MF_UNKNOWN || job->n_house == 0)
        return opening->replaced == MF_YES;
    return mf_house_does(&job->house[0],
                         window ? MF_WORK_WINDOW_REPLACEMENT : MF_WORK_DOOR_REPLACEMENT);
}

/* A sash or a slab that is said to stay as it is, or not to be there, of an opening that is
 * replaced: nobody can mean that. */
static bool kept(const mf_job *job, const mf_opening *opening, mf_component_type type)
{
    bool one = mf_id_in_list(opening->absent, mf_choices_component[type]);
    if ((type != MF_COMP_SASH && type != MF_COMP_DOOR_SLAB) || !said_replaced(job, opening))
        return false;
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (it->type != type || !mf_same(it->opening, opening->id))
            continue;
        if (mf_component_disturbed(it))
            return false;
        one = true;
    }
    return one;
}

static const usual_part *parts_of(const mf_opening *opening, size_t *n)
{
    bool window = opening->kind == MF_OPENING_WINDOW;
    *n = window ? sizeof of_window / sizeof of_window[0] : sizeof of_door / sizeof of_door[0];
    return window ? of_window : of_door;
}

MF_API bool mf_usual_part_at(mf_opening_kind kind, size_t at, mf_usual_part *out)
{
    const mf_opening opening = {.kind = kind};
    size_t n;
    const usual_part *parts = parts_of(&opening, &n);
    if (at >= n)
        return false;
    bool outside = mf_same(parts[at].side, "exterior");
    *out = (mf_usual_part){parts[at].type, outside ? MF_SIDE_EXTERIOR : MF_SIDE_INTERIOR};
    return true;
}

MF_API bool mf_usual_part_absent(mf_opening_kind kind, size_t at, const char *absent_words)
{
    const mf_opening opening = {.kind = kind, .absent = absent_words};
    size_t n;
    const usual_part *parts = parts_of(&opening, &n);
    return at < n && absent(&opening, &parts[at]);
}

static void count_unlisted(const mf_job *job, const mf_opening *opening, mf_unlisted_parts *out)
{
    size_t n;
    const usual_part *parts = parts_of(opening, &n);
    for (size_t i = 0; i < n; i++) {
        bool stays = kept(job, opening, parts[i].type);
        if (!unlisted(job, opening, &parts[i]) && !stays)
            continue;
        out->kept = out->n == 0 ? stays : out->kept;
        out->part = out->n == 0 ? mf_choices_component[parts[i].type] : out->part;
        out->n++;
    }
}

bool mf_side_unlisted(const mf_job *job, const mf_opening *opening, mf_side side)
{
    size_t n;
    const usual_part *parts = parts_of(opening, &n);
    if (!mf_opening_replaced(job, opening))
        return false;
    for (size_t i = 0; i < n; i++) {
        bool outside = mf_same(parts[i].side, "exterior");
        if (outside == (side == MF_SIDE_EXTERIOR) && unlisted(job, opening, &parts[i]))
            return true;
    }
    return false;
}

/* The work is to replace openings of a kind, and none that is replaced is on the schedule. */
static bool kind_unlisted(const mf_job *job, mf_work_kind work, mf_opening_kind kind)
{
    if (job->n_house == 0 || !mf_house_does(&job->house[0], work))
        return false;
    for (size_t i = 0; i < job->n_opening; i++)
        if (job->opening[i].kind == kind && mf_opening_replaced(job, &job->opening[i]))
            return false;
    return true;
}

bool mf_parts_unlisted(const mf_job *job, mf_unlisted_parts *out)
{
    *out = (mf_unlisted_parts){mf_opening_unlisted(job), "", 0, false};
    bool no_window = kind_unlisted(job, MF_WORK_WINDOW_REPLACEMENT, MF_OPENING_WINDOW);
    if (no_window || kind_unlisted(job, MF_WORK_DOOR_REPLACEMENT, MF_OPENING_DOOR)) {
        *out = (mf_unlisted_parts){NULL, no_window ? "window" : "door", 1, false};
        return true;
    }
    for (size_t i = 0; i < job->n_opening && out->opening == NULL; i++) {
        const mf_opening *it = &job->opening[i];
        if (!mf_opening_replaced(job, it))
            continue;
        count_unlisted(job, it, out);
        out->opening = out->n > 0 ? it : NULL;
    }
    return out->opening != NULL;
}

/* ---- what is replaced --------------------------------------------------------------- */

static bool part_removed(const mf_job *job, const char *opening)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (job->component[i].removed == MF_YES && mf_same(job->component[i].opening, opening))
            return true;
    return false;
}

bool mf_opening_replaced(const mf_job *job, const mf_opening *opening)
{
    return said_replaced(job, opening) || part_removed(job, opening->id);
}

bool mf_only_window_has(mf_component_type type)
{
    return type == MF_COMP_SASH || type == MF_COMP_TROUGH || type == MF_COMP_INTERIOR_SILL ||
           type == MF_COMP_EXTERIOR_SILL;
}

bool mf_only_door_has(mf_component_type type)
{
    return type == MF_COMP_DOOR_SLAB || type == MF_COMP_THRESHOLD;
}

bool mf_of_window(const mf_job *job, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(job, component->opening);
    return opening == NULL ? mf_only_window_has(component->type) || mf_named_window(component)
                           : opening->kind == MF_OPENING_WINDOW;
}

/* A part of a window by what it is, of an opening that is on no list. */
static bool of_a_window(const mf_job *job, const mf_component *component)
{
    return mf_job_opening(job, component->opening) == NULL && mf_of_window(job, component);
}

bool mf_window_replaced(const mf_job *job)
{
    if (job->n_house > 0 && mf_house_does(&job->house[0], MF_WORK_WINDOW_REPLACEMENT))
        return true;
    for (size_t i = 0; i < job->n_opening; i++)
        if (job->opening[i].kind == MF_OPENING_WINDOW && mf_opening_replaced(job, &job->opening[i]))
            return true;
    for (size_t i = 0; i < job->n_component; i++)
        if (job->component[i].removed == MF_YES && of_a_window(job, &job->component[i]))
            return true;
    return false;
}

bool mf_all_listed(const mf_job *job)
{
    mf_unlisted_lead lead;
    mf_unlisted_parts parts;
    mf_unlisted_work beside;
    return !mf_parts_unlisted(job, &parts) && !mf_paint_unlisted(job, &lead) &&
           !mf_work_unlisted(job, &beside);
}
