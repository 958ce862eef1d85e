/* What a worker was taught against what the worker did: each task has its topic; and that nobody
 * did it who may not. 40 CFR 745.89(d)(1), 745.90(b)(2), 745.86(b)(6)(i). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/emergency.h>
#include <mistfold/person.h>

/* The topics, in the order of a job. */
typedef enum topic {
    TOPIC_SIGNS,
    TOPIC_CONTAINMENT,
    TOPIC_PRACTICES,
    TOPIC_WASTE,
    TOPIC_CLEANING,
    TOPIC_COUNT
} topic;

/* In English and Spanish, as the option's help and the blank form have them, in small letters;
 * an accent may be left out. */
enum { SPELLINGS = 11 };
static const char *const topic_words[TOPIC_COUNT][SPELLINGS] = {
    {"signs", "posting signs", "letreros", "carteles", "avisos"},
    {"containment", "contenci\xC3\xB3n", "contencion", "plastic and flap",
     "pl\xC3\xA1stico y cortina", "plastico y cortina", "pl\xC3\xA1stico y solapa",
     "plastico y solapa", "aislamiento", "containing the work area"},
    {"practices", "pr\u00E1cticas", "practicas", "allowed methods", "m\xC3\xA9todos permitidos",
     "metodos permitidos"},
    {"waste", "desechos", "residuos", "basura"},
    {"cleaning", "cleanup", "limpieza"}};
static const char *const untaught_names[TOPIC_COUNT] = {"untaught-signs", "untaught-containment",
                                                        "untaught-practices", "untaught-waste",
                                                        "untaught-cleaning"};

/* Small letters for capitals, of ASCII and of the accented ones of Spanish. */
static char small(const char *text, size_t i)
{
    unsigned char c = (unsigned char)text[i];
    bool accented = i > 0 && (unsigned char)text[i - 1] == 0xC3U && c >= 0x80U && c <= 0x9EU;
    return (char)((c >= 'A' && c <= 'Z') || accented ? c + 0x20U : c);
}

static bool is_topic(const char *at, size_t len, topic what)
{
    for (size_t k = 0; k < SPELLINGS && topic_words[what][k] != NULL; k++) {
        const char *word = topic_words[what][k];
        size_t i = 0;
        while (i < len && word[i] != '\0' && small(at, i) == word[i])
            i++;
        if (len > 0 && i == len && word[i] == '\0')
            return true;
    }
    return false;
}

/* The next topic of the list "signs; waste", spaces beside; *at goes on behind it. NULL = no
 * more. */
static const char *next_topic(const char **at, size_t *len)
{
    *at += strspn(*at, " ;,");
    const char *word = *at;
    *len = strcspn(word, ";,");
    *at += *len;
    while (*len > 0 && word[*len - 1] == ' ')
        (*len)--;
    return *len > 0 ? word : NULL;
}

static bool taught_in(const char *topics, topic what)
{
    size_t len;
    const char *at = mf_or_empty(topics), *it;
    while ((it = next_topic(&at, &len)) != NULL)
        if (is_topic(it, len, what))
            return true;
    return false;
}

static bool is_any_topic(const char *at, size_t len)
{
    bool is = false;
    for (topic what = 0; what < TOPIC_COUNT && !is; what++)
        is = is_topic(at, len, what);
    return is;
}

size_t mf_topic_unknown(const char *topics, const char **at)
{
    size_t len;
    const char *next = mf_or_empty(topics);
    while ((*at = next_topic(&next, &len)) != NULL)
        if (!is_any_topic(*at, len))
            return len;
    *at = next;
    return 0;
}

/* By a certified renovator, and not after the task. */
static bool was_taught(const mf_job *job, const char *worker, topic what, mf_day by)
{
    for (size_t i = 0; i < job->n_training; i++) {
        const mf_training *it = &job->training[i];
        if (mf_same(it->worker, worker) && it->on <= by && taught_in(it->topics, what) &&
            mf_certified(job, it->trainer, MF_DISC_RENOVATOR, it->on, NULL) != NULL)
            return true;
    }
    return false;
}

static topic topic_of(const mf_tick *tick)
{
    const mf_step *step = mf_step_named(tick->step);
    if (step == NULL || step->phase == MF_PHASE_CLEAN)
        return TOPIC_CLEANING;
    if (step->phase == MF_PHASE_WORK)
        return strncmp(step->id, "waste", 5) == 0 ? TOPIC_WASTE : TOPIC_CONTAINMENT;
    return strncmp(step->id, "signs", 5) == 0 ? TOPIC_SIGNS : TOPIC_CONTAINMENT;
}

/* Whether somebody may do a task on a day: certified renovators may do each. */
static bool may_do(const mf_job *job, const char *who, topic what, mf_day on)
{
    return mf_certified(job, who, MF_DISC_RENOVATOR, on, NULL) != NULL ||
           was_taught(job, who, what, on);
}

static bool untaught(const mf_job *job, const char *worker, topic what, mf_day on,
                     const mf_src *src, mf_finding *out)
{
    if (may_do(job, worker, what, on))
        return false;
    mf_say(out, MF_LACKING, untaught_names[what]);
    mf_say_days(out, on, MF_DAY_NONE);
    out->evidence = mf_or_empty(src->entry);
    return true;
}

/* Whether somebody did a step untaught, of cleaning or of the others. What the firm asks beyond the
 * rule needs no training of the rule. */
static bool ticked_untaught(const mf_job *job, const char *who, bool cleaning, mf_finding *out)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->person, who) &&
            (topic_of(it) == TOPIC_CLEANING) == cleaning && !mf_is_own_step(job, it) &&
            untaught(job, who, topic_of(it), it->on, &it->src, out))
            return true;
    }
    return false;
}

/* What a cloth found dirty is cleaned again between the cloths: no step of a list. */
static bool recleaned_untaught(const mf_job *job, const char *who, mf_finding *out)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event == MF_VER_RECLEANED && mf_same(it->person, who) &&
            untaught(job, who, TOPIC_CLEANING, it->on, &it->src, out))
            return true;
    }
    return false;
}

/* Cleaning is told first: an emergency does not excuse it (mf_excuse). */
void mf_show_training_tasks(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const char *who = subject->id;
    if (ticked_untaught(job, who, true, out) || recleaned_untaught(job, who, out) ||
        ticked_untaught(job, who, false, out))
        return;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && mf_same(it->person, who) &&
            untaught(job, who, TOPIC_PRACTICES, it->on, &it->src, out))
            return;
    }
    mf_say(out, MF_MET, "tasks-taught");
}

/* Who was not trained at all, or with no topic said, is told by rows of their own. Who was
 * certified at first is asked of each day all the same: a certificate ends. */
const char *mf_if_trained(const mf_asked *asked, const mf_subject *subject)
{
    const char *not_because = mf_if_worker(asked, subject);
    mf_finding trained = {.verdict = MF_NOT_DUE};
    if (not_because != NULL)
        return mf_same(not_because, "worker-certified") ? NULL : not_because;
    mf_show_trained(asked, subject, &trained);
    if (trained.verdict != MF_MET)
        return "training-asked";
    for (size_t i = 0; i < asked->job->n_training; i++) {
        const mf_training *it = &asked->job->training[i];
        if (mf_same(it->worker, subject->id) && !mf_given(it->topics))
            return "training-asked";
    }
    return NULL;
}

/* ---- whose work stands ------------------------------------------------------------------ */

/* What somebody did, when, and of which step. */
typedef struct deed {
    const char *person, *step;
    topic what;
    mf_day on;
    const mf_src *src;
} deed;

/* Why somebody may not do it: never trained, trained in something else, or nobody wrote down in
 * what. */
static const char *why_not(const mf_job *job, const deed *it, const char *untrained)
{
    const char *why = mf_given(it->person) ? untrained : "done-unnamed";
    for (size_t i = 0; i < job->n_training; i++) {
        const mf_training *given = &job->training[i];
        if (!mf_same(given->worker, it->person) || given->on > it->on ||
            mf_certified(job, given->trainer, MF_DISC_RENOVATOR, given->on, NULL) == NULL)
            continue;
        if (!mf_given(given->topics))
            return "taught-unsaid";
        why = untaught_names[it->what];
    }
    return why;
}

/* Whether it was done by somebody who may not; what is wrong then. */
static bool by_stranger(const mf_job *job, const deed *it, const char *untrained, mf_finding *out)
{
    if (may_do(job, it->person, it->what, it->on))
        return false;
    mf_say(out, MF_LACKING, why_not(job, it, untrained));
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (mf_given(it->person))
        out->subject = it->person;
    out->told = mf_or_empty(it->step);
    out->evidence = mf_or_empty(it->src->entry);
    return true;
}

/* The first standing tick of a phase by somebody who may not do it. What was done again, and
 * ticked again, by others no longer counts. */
static bool ticked_by_stranger(const mf_job *job, const mf_area *area, mf_phase phase,
                               const char *untrained, mf_finding *out)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (size_t i = 0; i < count; i++) {
        const mf_tick *it = mf_standing_tick(job, area, &steps[i], phase);
        if (it == NULL)
            continue;
        const deed of = {it->person, it->step, topic_of(it), it->on, &it->src};
        if (by_stranger(job, &of, untrained, out))
            return true;
    }
    return false;
}

static bool any_ticked(const mf_job *job, const mf_area *area, mf_phase phase)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    for (size_t i = 0; i < count; i++)
        if (mf_standing_tick(job, area, &steps[i], phase) != NULL)
            return true;
    return false;
}

const char *mf_if_contain_ticked(const mf_asked *asked, const mf_subject *subject)
{
    return any_ticked(asked->job, subject->area, MF_PHASE_CONTAIN) ? NULL : "area-not-ticked";
}

void mf_show_contained_by(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    if (!ticked_by_stranger(asked->job, subject->area, MF_PHASE_CONTAIN, "contained-untrained",
                            out))
        mf_say(out, MF_MET, "contained-by-crew");
}

/* ---- who disturbs paint ------------------------------------------------------------------ */

const char *mf_if_disturbed(const mf_asked *asked, const mf_subject *subject)
{
    for (size_t i = 0; i < asked->job->n_practice; i++)
        if (mf_same(asked->job->practice[i].area, subject->id))
            return NULL;
    return "disturbed-nobody";
}

/* Whoever is only planned to do it may be taught until then. */
static mf_day day_of_need(const mf_asked *asked, const mf_practice *it)
{
    return it->planned == MF_YES ? mf_later(it->on, asked->today) : it->on;
}

/* What an emergency excuses of (745.82(b)) is told where nothing else is: it must hide no lack of
 * another day. */
void mf_show_disturbed_by(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_say(out, MF_MET, "disturbed-by-crew");
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        const deed of = {it->person, "", TOPIC_PRACTICES, day_of_need(asked, it), &it->src};
        if (!mf_same(it->area, subject->id))
            continue;
        bool excused = mf_emergency_waives(job, MF_WAIVE_TRAINING, of.on) != NULL;
        if ((excused && out->verdict != MF_MET) ||
            !by_stranger(job, &of, "disturbed-untrained", out))
            continue;
        if (it->planned == MF_YES && mf_given(it->person))
            out->why = "planned-untaught";
        if (!excused)
            return;
    }
}

/* ---- who cleaned, and cleaned again -------------------------------------------------------- */

/* The step by which a surface is cleaned once more. */
static const char *step_for(const mf_job *job, const char *surface)
{
    const mf_surface *it = mf_job_surface(job, surface);
    return it != NULL && it->kind == MF_SURFACE_FLOOR ? "mop" : "surfaces";
}

static bool later(const mf_verification *own, mf_day on, int32_t at)
{
    return mf_surely_before(own->on, own->at_minute, on, at);
}

/* Whether the same place was cleaned once more after it, by somebody who may: between the cloths,
 * or as a step of the list. */
static bool done_again(const mf_job *job, const mf_verification *own)
{
    const char *step = step_for(job, own->surface);
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event == MF_VER_RECLEANED && mf_same(it->area, own->area) &&
            mf_same(it->surface, own->surface) && it->section == own->section &&
            later(own, it->on, it->at_minute) && may_do(job, it->person, TOPIC_CLEANING, it->on))
            return true;
    }
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->area, own->area) && mf_same(it->step, step) &&
            later(own, it->on, it->at_minute) && may_do(job, it->person, TOPIC_CLEANING, it->on))
            return true;
    }
    return false;
}

/* To clean again what a cloth found dirty is cleaning as well: 745.85(b)(1)(ii) has it done, and
 * 745.89(d)(1) by whom. */
static bool recleaned_by_stranger(const mf_job *job, const char *area, mf_finding *out)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        const deed of = {it->person, step_for(job, it->surface), TOPIC_CLEANING, it->on, &it->src};
        if (it->event == MF_VER_RECLEANED && mf_same(it->area, area) && !done_again(job, it) &&
            by_stranger(job, &of, "cleaned-untrained", out))
            return true;
    }
    return false;
}

const char *mf_if_clean_ticked(const mf_asked *asked, const mf_subject *subject)
{
    bool any = any_ticked(asked->job, subject->area, MF_PHASE_CLEAN);
    for (size_t i = 0; i < asked->job->n_verification && !any; i++)
        any = asked->job->verification[i].event == MF_VER_RECLEANED &&
              mf_same(asked->job->verification[i].area, subject->id);
    return any ? NULL : "area-not-ticked";
}

void mf_show_cleaned_by(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    if (!ticked_by_stranger(asked->job, subject->area, MF_PHASE_CLEAN, "cleaned-untrained", out) &&
        !recleaned_by_stranger(asked->job, subject->id, out))
        mf_say(out, MF_MET, "cleaned-by-crew");
}
