#include "paper/renovators.h"

#include <mistfold/person.h>

static bool anybody_directed(const mf_job *job)
{
    for (size_t i = 0; i < job->n_assignment; i++)
        if (job->assignment[i].duty == MF_DUTY_RENOVATOR &&
            mf_directed_any(job, job->assignment[i].person))
            return true;
    return false;
}

static const char *with_certificate(mf_rec *rec, const mf_assignment *it)
{
    mf_day first = it->on > rec->house.start ? it->on : rec->house.start; /* none is the least */
    const mf_certificate *held = mf_certified(rec->job, it->person, MF_DISC_RENOVATOR, first, NULL);
    return mf_fill(rec, held == NULL ? "renovator-uncertified" : "renovator-number",
                   mf_person_words(rec, it->person), held == NULL ? "" : held->number, NULL);
}

const char *mf_renovators_words(mf_rec *rec, bool who_led)
{
    const mf_job *job = rec->job;
    const bool directing = who_led && anybody_directed(job);
    const char *seen = "", *all = "";
    for (size_t i = 0; i < job->n_assignment; i++) {
        const mf_assignment *it = &job->assignment[i];
        if (it->duty != MF_DUTY_RENOVATOR || mf_id_in_list(seen, it->person) ||
            (directing && !mf_directed_any(job, it->person)))
            continue;
        seen = mf_join(rec, seen, ",", it->person);
        all = mf_join(rec, all, "; ", with_certificate(rec, it));
    }
    return all;
}
