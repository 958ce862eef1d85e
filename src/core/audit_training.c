/* What a worker was taught against what the worker did: each task has its topic; and that
 * nobody else did it. 40 CFR 745.89(d)(1), 745.90(b)(2), 745.86(b)(6)(i). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/worked.h"
#include <mistfold/contain.h>
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
enum { SPELLINGS = 8 };
static const char *const topic_words[TOPIC_COUNT][SPELLINGS] = {
    {"signs", "letreros"},
    {"containment", "contenci\xC3\xB3n", "contencion", "plastic and flap",
     "pl\xC3\xA1stico y cortina", "plastico y cortina", "pl\xC3\xA1stico y solapa",
     "plastico y solapa"},
    {"practices", "pr\u00E1cticas", "practicas", "allowed methods", "m\xC3\xA9todos permitidos",
     "metodos permitidos"},
    {"waste", "desechos", "residuos", "basura"},
    {"cleaning", "limpieza"}};
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
static bool taught(const mf_job *job, const char *worker, topic what, mf_day by)
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

static bool untaught(const mf_job *job, const char *worker, topic what, mf_day on,
                     const mf_src *src, mf_finding *out)
{
    if (taught(job, worker, what, on))
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

/* Cleaning is told first: an emergency does not excuse it (mf_excuse). */
void mf_show_training_tasks(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const char *who = subject->id;
    if (ticked_untaught(job, who, true, out) || ticked_untaught(job, who, false, out))
        return;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && mf_same(it->person, who) &&
            untaught(job, who, TOPIC_PRACTICES, it->on, &it->src, out))
            return;
    }
    mf_say(out, MF_MET, "tasks-taught");
}

/* Who was not trained at all, or with no topic said, is told by rows of their own. */
const char *mf_if_trained(const mf_asked *asked, const mf_subject *subject)
{
    const char *not_because = mf_if_worker(asked, subject);
    mf_finding trained = {.verdict = MF_NOT_DUE};
    if (not_because != NULL)
        return not_because;
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

/* ---- whose ticks stand ------------------------------------------------------------------ */

static bool may_do(const mf_job *job, const mf_tick *tick)
{
    if (mf_certified(job, tick->person, MF_DISC_RENOVATOR, tick->on, NULL) != NULL)
        return true;
    for (size_t i = 0; i < job->n_training; i++) {
        const mf_training *it = &job->training[i];
        if (mf_same(it->worker, tick->person) && it->on <= tick->on &&
            mf_certified(job, it->trainer, MF_DISC_RENOVATOR, it->on, NULL) != NULL)
            return true;
    }
    return false;
}

/* The first standing tick of a phase, and the first by somebody who may not do it. What
 * was done again, and ticked again, by others no longer counts. */
static const mf_tick *find_stranger(const mf_job *job, const mf_area *area, mf_phase phase,
                                    bool *any)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    *any = false;
    for (size_t i = 0; i < count; i++) {
        const mf_tick *tick = mf_standing_tick(job, area, &steps[i], phase);
        if (tick == NULL)
            continue;
        *any = true;
        if (!may_do(job, tick))
            return tick;
    }
    return NULL;
}

static const char *if_ticked(const mf_asked *asked, const mf_subject *subject, mf_phase phase)
{
    bool any;
    find_stranger(asked->job, subject->area, phase, &any);
    return any ? NULL : "area-not-ticked";
}

static void show_crew(const mf_asked *asked, const mf_subject *subject, mf_phase phase,
                      mf_finding *out)
{
    bool any;
    const mf_tick *tick = find_stranger(asked->job, subject->area, phase, &any);
    bool clean = phase == MF_PHASE_CLEAN;
    mf_say(out, MF_MET, clean ? "cleaned-by-crew" : "contained-by-crew");
    if (tick == NULL)
        return;
    mf_say(out, MF_LACKING, clean ? "cleaned-untrained" : "contained-untrained");
    mf_say_days(out, tick->on, MF_DAY_NONE);
    out->subject = mf_or_empty(tick->person);
    out->evidence = mf_or_empty(tick->src.entry);
}

const char *mf_if_contain_ticked(const mf_asked *asked, const mf_subject *subject)
{
    return if_ticked(asked, subject, MF_PHASE_CONTAIN);
}

const char *mf_if_clean_ticked(const mf_asked *asked, const mf_subject *subject)
{
    return if_ticked(asked, subject, MF_PHASE_CLEAN);
}

void mf_show_contained_by(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    show_crew(asked, subject, MF_PHASE_CONTAIN, out);
}

void mf_show_cleaned_by(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    show_crew(asked, subject, MF_PHASE_CLEAN, out);
}
