/* Do firm and renovators hold certificates under the program that governs where the
 * house stands? 40 CFR 745.81(a), part 745 subpart Q. The list of programs is
 * secondary (program.h), so that by itself it warns and never blocks; what a firm's certificate
 * says of itself does. */
#include "core/audit_rows.h"

#include "core/places.h"
#include "core/text.h"
#include "core/when.h"
#include <mistfold/person.h>
#include <mistfold/program.h>

/* Whether one of the programs that a certificate names is EPA's or of a place of the house. */
static bool may_count_at(const char *places, const mf_certificate *it)
{
    const char *at = it->programs;
    if (!mf_given(at) || mf_id_in_list(at, MF_PROGRAM_EPA))
        return true;
    enum { PLACE = 40 };
    char place[PLACE];
    for (size_t len; *at != '\0'; at += len + (at[len] == ',')) {
        len = strcspn(at, ",");
        if (len >= PLACE)
            continue;
        memcpy(place, at, len);
        place[len] = '\0';
        if (mf_place_among(mf_or_empty(places), place))
            return true;
    }
    return false;
}

/* The firm's certificate that holds on the day, where each of those says itself that it counts
 * under no program that could govern here. */
static const mf_certificate *firm_elsewhere(const mf_asked *asked, mf_day day)
{
    const mf_job *job = asked->job;
    const mf_certificate *held = mf_certified(job, "firm", MF_DISC_FIRM, day, NULL);
    for (size_t i = 0; held != NULL && i < job->n_certificate; i++) {
        const mf_certificate *it = &job->certificate[i];
        if (it->discipline == MF_DISC_FIRM && mf_same(it->holder, "firm") && it->issued <= day &&
            it->issued != MF_DAY_NONE && mf_certificate_until(job, it) >= day &&
            may_count_at(asked->house->place, it))
            return NULL;
    }
    return held;
}

/* On the first and on the last day that count. */
static const mf_certificate *firm_not_here(const mf_asked *asked)
{
    const mf_certificate *it = firm_elsewhere(asked, asked->start);
    return it != NULL ? it : firm_elsewhere(asked, mf_later(asked->start, asked->last));
}

const char *mf_if_place_said(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    bool asks = mf_given(asked->house->place) || firm_not_here(asked) != NULL;
    return asks ? NULL : "place-not-said";
}

/* The certificate that is relied on, where none counts under the program; NULL when
 * one does. That none is valid at all is told by firm-certified and renovator-certified. */
static const mf_certificate *elsewhere_on(const mf_job *job, const char *holder,
                                          mf_discipline discipline, mf_day day, const char *program)
{
    const mf_certificate *any = mf_certified(job, holder, discipline, day, NULL);
    bool counts = mf_certified_under(job, holder, discipline, day, program) != NULL;
    return counts ? NULL : any;
}

/* The same on the first and on the last day that count. */
static const mf_certificate *elsewhere(const mf_asked *asked, const char *holder,
                                       mf_discipline discipline, mf_day from, const char *program)
{
    const mf_certificate *first = elsewhere_on(asked->job, holder, discipline, from, program);
    if (first != NULL)
        return first;
    return elsewhere_on(asked->job, holder, discipline, mf_later(from, asked->last), program);
}

static const mf_certificate *first_elsewhere(const mf_asked *asked, const char *program)
{
    const mf_job *job = asked->job;
    const mf_certificate *it = elsewhere(asked, "firm", MF_DISC_FIRM, asked->start, program);
    for (size_t i = 0; i < job->n_assignment && it == NULL; i++) {
        const mf_assignment *crew = &job->assignment[i];
        if (crew->duty == MF_DUTY_RENOVATOR)
            it = elsewhere(asked, crew->person, MF_DISC_RENOVATOR, mf_later(crew->on, asked->start),
                           program);
    }
    return it;
}

void mf_show_program(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_program *own = mf_program_at(asked->house->place, asked->start);
    const char *place = own == NULL ? MF_PROGRAM_EPA : own->place;
    const mf_certificate *it = first_elsewhere(asked, place);
    const mf_certificate *firm = firm_not_here(asked);
    (void)subject;
    if (firm != NULL)
        it = firm;
    out->subject = it != NULL ? mf_or_empty(it->holder) : place;
    out->evidence = it != NULL ? mf_or_empty(it->src.entry) : "";
    if (firm != NULL)
        mf_say(out, MF_LACKING,
               mf_given(asked->house->place) ? "program-of-elsewhere" : "program-place-unsaid");
    else if (it == NULL)
        mf_say(out, MF_MET, own != NULL ? "program-own" : "program-epa");
    else
        mf_say(out, MF_WARNING, own != NULL ? "program-not-own" : "program-not-epa");
}
