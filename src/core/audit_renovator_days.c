/* Was whoever acted as a certified renovator certified on each of those days? 40 CFR 745.90(a). */
#include "core/audit_rows.h"

#include "core/text.h"
#include <mistfold/person.h>

/* The first day on which a renovator acted as one without being certified. */
typedef struct lapse {
    mf_day on;
    const char *entry;
} lapse;

static void look_at(const mf_job *job, const char *who, mf_day on, const char *entry, lapse *first)
{
    if (on == MF_DAY_NONE || (first->on != MF_DAY_NONE && first->on <= on))
        return;
    if (mf_certified(job, who, MF_DISC_RENOVATOR, on, NULL) == NULL)
        *first = (lapse){on, mf_or_empty(entry)};
}

/* Training, directing, being present: what only a certified renovator may do.
 * Verifying and certifying are asked for by rows of their own. */
void mf_show_renovator_days(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const char *who = subject->id;
    lapse first = {MF_DAY_NONE, ""};
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (tick->state == MF_TICK_DONE && mf_same(tick->renovator, who))
            look_at(job, who, tick->on, tick->src.entry, &first);
    }
    for (size_t i = 0; i < job->n_training; i++)
        if (mf_same(job->training[i].trainer, who))
            look_at(job, who, job->training[i].on, job->training[i].src.entry, &first);
    bool lapsed = first.on != MF_DAY_NONE;
    mf_say(out, lapsed ? MF_LACKING : MF_MET, lapsed ? "acted-not-certified" : "acted-certified");
    if (lapsed)
        out->evidence = first.entry;
    mf_say_days(out, first.on, MF_DAY_NONE);
}
