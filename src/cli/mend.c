/* Which command mends a finding: the template of its reason, else of its requirement, with what
 * the finding names filled in. */
#include "cli/mend.h"

#include <stdio.h>
#include <string.h>

/* ---- templates ------------------------------------------------------------------------ */

static bool plain(const char *value)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    size_t n = 0;
    for (; value[n] != '\0'; n++)
        if (strchr(letters, value[n]) == NULL && strchr("0123456789._/-", value[n]) == NULL)
            return false;
    return n > 0 && value[0] != '-';
}

static const mf_slot *slot_of(const char *word, size_t len, const mf_slot *slots, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (strlen(slots[i].word) == len && strncmp(slots[i].word, word, len) == 0)
            return &slots[i];
    return NULL;
}

void mf_command_of(char out[MF_COMMAND_MAX], const char *template, const mf_slot *slots, size_t n)
{
    size_t at = (size_t)snprintf(out, MF_COMMAND_MAX, "mistfold");
    while (*template != '\0') {
        size_t len = strcspn(template, " ");
        const mf_slot *slot = slot_of(template, len, slots, n);
        const char *word = slot == NULL ? template : plain(slot->value) ? slot->value : "...";
        int width = slot == NULL ? (int)len : (int)strlen(word);
        if (at < MF_COMMAND_MAX)
            at += (size_t)snprintf(out + at, MF_COMMAND_MAX - at, " %.*s", width, word);
        template += len;
        template += *template == ' ';
    }
}

/* ---- the table -------------------------------------------------------------------------- */

#define MEND(id, command) {id, command},
#define NO_MEND(id, why)  {id, NULL},
static const struct {
    const char *id, *command;
} rows[] = {
#include "cli/mend.inc"
};
#undef MEND
#undef NO_MEND

static bool template_of(const char *id, const char **out)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].id, id) == 0) {
            *out = rows[i].command;
            return true;
        }
    return false;
}

/* By phase, and whether its extent is to be measured. */
static const char *of_step(const mf_step *step)
{
#define STEP "tick JOB --area AREA --step STEP --state done "
#define WHO  "--person ... --renovator ... --on ... --time ..."
    static const char *const all[2][2] = {
        {"containment " STEP WHO, "containment " STEP "--measured ... " WHO},
        {"cleaning " STEP WHO, "cleaning " STEP "--measured ... " WHO}};
    return all[step->phase == MF_PHASE_CLEAN][step->extent >= 0];
}

/* ---- what a finding names ----------------------------------------------------------------- */

#define AREA_OF_EVIDENCE(list)                                                                     \
    for (size_t i = 0; i < job->n_##list; i++)                                                     \
        if (strcmp(job->list[i].src.entry, finding->evidence) == 0)                                \
    return job->list[i].area

/* The work area a subject is, or lies in; "" = none. */
static const char *area_of(const mf_job *job, const mf_finding *finding)
{
    if (mf_job_area(job, finding->subject) != NULL)
        return finding->subject;
    const mf_surface *surface = mf_job_surface(job, finding->subject);
    if (surface != NULL)
        return surface->area;
    AREA_OF_EVIDENCE(dust_sample);
    AREA_OF_EVIDENCE(tick);
    AREA_OF_EVIDENCE(practice);
    AREA_OF_EVIDENCE(verification);
    for (size_t i = 0; i < job->n_area; i++) /* the subject is a room of it */
        if (strcmp(job->area[i].src.entry, finding->evidence) == 0)
            return job->area[i].id;
    return "";
}

/* A floor outside the area is sampled there again, which the distance alone says. */
static bool sampled_outside(const mf_job *job, const mf_finding *finding)
{
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (strcmp(job->dust_sample[i].src.entry, finding->evidence) == 0)
            return job->dust_sample[i].outside_ft_100 > 0;
    return false;
}

static void outside_again(char out[MF_COMMAND_MAX], const mf_job *job, const mf_finding *finding)
{
    static const char sample[] = "mistfold dust add ";
    size_t at = strlen(out);
    if (strncmp(out, sample, strlen(sample)) == 0 && strstr(out, " --outside ") == NULL &&
        sampled_outside(job, finding))
        snprintf(out + at, MF_COMMAND_MAX - at, " --outside ...");
}

bool mf_past_mending(const mf_finding *finding)
{
    const char *template = NULL;
    return template_of(finding->why, &template) && template == NULL;
}

void mf_mend_of(char out[MF_COMMAND_MAX], const mf_job *job, const mf_finding *finding)
{
    char day[MF_DAY_TEXT];
    const char *id = finding->requirement->id, *template = NULL, *subject = finding->subject;
    const mf_step *step = mf_step_named(id);
    mf_day_text(finding->d1, day);
    const mf_slot slots[] = {
        {"JOB", job->id},
        {"AREA", area_of(job, finding)},
        {"STEP", step != NULL                           ? id
                 : mf_step_named(finding->told) != NULL ? finding->told
                                                        : ""},
        {"ENTRY", finding->evidence},
        {"OTHER", finding->other},
        {"PARTY", mf_job_party(job, subject) == NULL ? "" : subject},
        {"PERSON", mf_job_person(job, subject) == NULL ? "" : subject},
        {"SUBJECT", subject},
        {"HOUSE", job->n_house == 0 ? "" : job->house[0].src.entry},
        {"DAY", day},
    };
    const bool asks = mf_verdict_asks(finding->verdict); /* of what only warns nothing is lacking */
    out[0] = '\0';
    if (!asks && finding->verdict != MF_WARNING)
        return;
    if (!template_of(finding->why, &template) && asks && !template_of(id, &template) &&
        step != NULL)
        template = of_step(step);
    if (template != NULL)
        mf_command_of(out, template, slots, sizeof slots / sizeof slots[0]);
    outside_again(out, job, finding);
}
