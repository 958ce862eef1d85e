/* Two devices may correct one entry without knowing of each other. That is a contradiction
 * until both lines end in the same words, or somebody who saw both says what is true. */
#include "core/contradict.h"

#include "core/named.h"
#include "core/text.h"
#include <mistfold/kind.h>

/* ---- what stands ------------------------------------------------------------------------- */

static bool goes_on_from(const mf_correction *it, const mf_correction *earlier)
{
    return it != earlier && mf_same(it->target, earlier->target) &&
           (mf_same(it->replaces, earlier->src.entry) ||
            mf_id_in_list(it->settles, earlier->src.entry));
}

bool mf_correction_replaced(const mf_job *job, const mf_correction *it)
{
    for (size_t i = 0; i < job->n_correction; i++)
        if (goes_on_from(&job->correction[i], it))
            return true;
    return false;
}

bool mf_correction_contradicted(const mf_job *job, const mf_correction *it)
{
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *other = &job->correction[i];
        if (other != it && mf_same(other->target, it->target) &&
            !mf_same(other->after, it->after) && !mf_correction_replaced(job, other))
            return true;
    }
    return false;
}

/* ---- whom it concerns --------------------------------------------------------------------- */

/* How long the sign at a place of a text is: a backslash takes the next one with it. */
static size_t sign(const char *at)
{
    return at[0] == '\\' && at[1] != '\0' ? 2 : 1;
}

/* A quote inside a string has a backslash before it, so the name in quotes and a colon stand
 * nowhere else. */
const char *mf_member_of(const char *json, const char *quoted_name, size_t *len)
{
    const char *at = mf_given(json) ? strstr(json, quoted_name) : NULL;
    *len = 0;
    if (at == NULL)
        return "";
    at += strlen(quoted_name);
    bool text = at[0] == '"';
    for (size_t i = text; at[i] != '\0'; i += sign(&at[i]), *len = i)
        if (text ? at[i] == '"' : at[i] == ',' || at[i] == '}')
            break;
    return at;
}

/* Of the firm's entries those that decide something, and the field that says about whom: a job
 * rests on one when it names that. NULL = every job does. How a person's name is spelled decides
 * nothing, only whether there is one of that id; nor do a column map, a key, a stamp and a step
 * of the firm's own. */
typedef struct about {
    const char *kind, *quoted_name, *ref;
    bool alone; /* nothing else of it decides */
} about;

static const about abouts[] = {
    {"firm", NULL, NULL, false},
    {"local_limit", NULL, NULL, false},
    {"person", "\"id\":", "person", true},
    {"certificate", "\"holder\":", "person", false},
    {"instrument", "\"serial\":", "instrument", false},
    {"profile_row", "\"instrument\":", "instrument", false},
};

/* Whether the job names what a body is about. One that does not say it, or in signs that no id
 * has, may be about anything. */
static bool names_it(const mf_job *job, const about *of, const char *body)
{
    size_t len;
    const char *id = mf_member_of(body, of->quoted_name, &len);
    if (len < 2 || id[0] != '"' || memchr(id, '\\', len) != NULL)
        return true;
    return (len == 5 && strncmp(id, "\"firm", len) == 0) ||
           mf_job_names(job, of->ref, id + 1, len - 1);
}

/* A correction may have changed whom the entry is about: each of them counts. */
static bool names_any(const mf_job *job, const about *of, const char *target)
{
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *it = &job->correction[i];
        if (mf_same(it->target, target) &&
            ((mf_given(it->before) && names_it(job, of, it->before)) ||
             (mf_given(it->after) && names_it(job, of, it->after))))
            return true;
    }
    return false;
}

/* Whether another correction that stands says another id, or withdraws it. */
static bool differs_in_it(const mf_job *job, const about *of, const mf_correction *it)
{
    size_t len, n;
    const char *id = mf_member_of(it->after, of->quoted_name, &len);
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *other = &job->correction[i];
        const char *is = mf_member_of(other->after, of->quoted_name, &n);
        if (mf_same(other->target, it->target) && !mf_correction_replaced(job, other) &&
            (n != len || memcmp(is, id, len) != 0))
            return true;
    }
    return false;
}

static bool rests_on(const mf_job *job, const about *of, const mf_correction *it)
{
    return of->ref == NULL ||
           (names_any(job, of, it->target) && (!of->alone || differs_in_it(job, of, it)));
}

bool mf_correction_concerns(const mf_job *job, const mf_correction *it)
{
    const mf_kind *kind = mf_kind_named(mf_or_empty(it->kind));
    if (kind == NULL || !kind->of_firm)
        return true;
    for (size_t i = 0; i < sizeof abouts / sizeof abouts[0]; i++)
        if (mf_same(abouts[i].kind, kind->name))
            return rests_on(job, &abouts[i], it);
    return false;
}

bool mf_corrections_contradict(const mf_job *job)
{
    for (size_t i = 0; i < job->n_correction; i++) {
        const mf_correction *it = &job->correction[i];
        if (!mf_correction_replaced(job, it) && mf_correction_contradicted(job, it) &&
            mf_correction_concerns(job, it))
            return true;
    }
    return false;
}
