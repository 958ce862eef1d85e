/* What a requirement is asked of: the lists of a job, one element at a time. */
#include "core/audit_rows.h"

#include "core/occupied_units.h"
#include "core/text.h"

enum { N_ROLES = MF_ROLE_UNITS + 1 };

size_t mf_each_count(const mf_job *job, mf_each each)
{
    switch (each) {
    case MF_EACH_JOB:
        return 1;
    case MF_EACH_DUTY:
        return N_ROLES + mf_units_most(job);
    case MF_EACH_UNIT:
        return mf_units_most(job);
    case MF_EACH_PARTY:
    case MF_EACH_ANY_PARTY:
        return job->n_party;
    case MF_EACH_OWED:
        return job->n_party + 1;
    case MF_EACH_NOTICE:
        return job->n_notice;
    case MF_EACH_COMPONENT:
        return job->n_component;
    case MF_EACH_OPENING:
        return job->n_opening;
    case MF_EACH_INSTRUMENT:
        return job->n_instrument;
    case MF_EACH_DETERMINATION:
        return job->n_determination;
    case MF_EACH_KIT_TEST:
        return job->n_kit_test;
    case MF_EACH_CHIP:
        return job->n_chip;
    case MF_EACH_PERSON:
        return job->n_person;
    case MF_EACH_ASSIGNMENT:
        return job->n_assignment;
    case MF_EACH_TRAINING:
        return job->n_training;
    case MF_EACH_AREA:
        return job->n_area;
    case MF_EACH_SURFACE:
        return job->n_surface;
    case MF_EACH_PRACTICE:
        return job->n_practice;
    case MF_EACH_DUST_SAMPLE:
        return job->n_dust_sample;
    case MF_EACH_SCOPE_CHANGE:
        return job->n_scope_change;
    case MF_EACH_CORRECTION:
        return job->n_correction;
    case MF_EACH_EMERGENCY:
        return job->n_emergency;
    case MF_EACH_OWNER_RECORD:
        return job->n_owner_record;
    case MF_EACH_AGAIN:
        return mf_again_count(job);
    case MF_EACH_VACANCY:
        return job->n_vacancy;
    }
    return 0;
}

/* Sets the typed pointer of one list, the id it goes by and its entry. */
#define TAKE(list, member, text)                                                                   \
    do {                                                                                           \
        out->member = &job->list[i];                                                               \
        out->id = out->member->text;                                                               \
        out->evidence = out->member->src.entry;                                                    \
    } while (0)

/* The tests and what they were of. */
static void take_test(const mf_job *job, mf_each each, size_t i, mf_subject *out)
{
    if (each == MF_EACH_INSTRUMENT)
        TAKE(instrument, instrument, serial);
    else if (each == MF_EACH_DETERMINATION)
        TAKE(determination, determination, report);
    else if (each == MF_EACH_KIT_TEST)
        TAKE(kit_test, kit_test, component);
    else if (each == MF_EACH_CHIP)
        TAKE(chip, chip, component);
    else if (each == MF_EACH_SCOPE_CHANGE)
        TAKE(scope_change, scope_change, what);
    else if (each == MF_EACH_CORRECTION)
        TAKE(correction, correction, target);
    else if (each == MF_EACH_EMERGENCY)
        TAKE(emergency, emergency, waived);
    else if (each == MF_EACH_OWNER_RECORD)
        TAKE(owner_record, owner_record, report);
}

/* People and what they were told. */
static void take_person(const mf_job *job, mf_each each, size_t i, mf_subject *out)
{
    if (each == MF_EACH_PERSON)
        TAKE(person, person, id);
    else if (each == MF_EACH_ASSIGNMENT)
        TAKE(assignment, assignment, person);
    else if (each == MF_EACH_TRAINING)
        TAKE(training, training, worker);
    else if (each == MF_EACH_NOTICE)
        TAKE(notice, notice, party);
    else if (each == MF_EACH_PARTY || each == MF_EACH_ANY_PARTY) {
        TAKE(party, party, id);
        out->role = out->party->role;
        out->unit = out->role == MF_ROLE_OCCUPANT ? mf_unit_of(job, out->party) : "";
    }
}

/* A unit worked in, by the first occupant that is listed, or else by its name. */
static void take_unit(const mf_job *job, size_t i, mf_subject *out)
{
    out->role = MF_ROLE_OCCUPANT;
    out->nothing = !mf_unit_at(job, i, &out->unit);
    if (out->nothing)
        return;
    out->party = mf_first_occupant(job, out->unit);
    out->id = out->party == NULL ? out->unit : out->party->id;
    out->evidence = out->party == NULL ? "" : out->party->src.entry;
}

/* Each party of the role, and after them nobody, unless there was one. */
static void take_owed(const mf_job *job, mf_role role, size_t i, mf_subject *out)
{
    out->role = role;
    if (i < job->n_party) {
        TAKE(party, party, id);
        out->nothing = out->party->role != role;
        return;
    }
    for (size_t k = 0; k < job->n_party; k++)
        out->nothing = out->nothing || job->party[k].role == role;
}

static void take_duty(const mf_job *job, mf_each each, size_t i, mf_subject *out)
{
    if (each == MF_EACH_OWED)
        take_owed(job, out->row->role, i, out);
    else if (each == MF_EACH_UNIT) {
        take_unit(job, i, out);
    } else if (each == MF_EACH_DUTY && i >= N_ROLES) {
        take_unit(job, i - N_ROLES, out);
    } else if (each == MF_EACH_DUTY) {
        out->role = (mf_role)i;
        out->nothing = out->role == MF_ROLE_OCCUPANT; /* the units come after the roles */
    } else if (each == MF_EACH_VACANCY) {
        TAKE(vacancy, vacancy, unit);
        out->unit = mf_vacant_unit(job, out->vacancy);
    }
}

/* The area of a surface; where its entries disagree on the side, one inside, as cleaning
 * verification is asked for there. */
static const mf_area *wiped_area(const mf_job *job, const char *id)
{
    const mf_area *last = mf_job_area(job, id);
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_same(job->area[i].id, id) && job->area[i].side == MF_SIDE_INTERIOR)
            return &job->area[i];
    return last;
}

/* The house, and what lies in a work area. */
static void take_place(const mf_job *job, mf_each each, size_t i, mf_subject *out)
{
    if (each == MF_EACH_OPENING) {
        TAKE(opening, opening, id);
    } else if (each == MF_EACH_COMPONENT) {
        TAKE(component, component, id);
        const mf_area *area = mf_job_area_of(job, out->component);
        out->in_area = area == NULL ? "" : area->id;
    } else if (each == MF_EACH_AREA) {
        TAKE(area, area, id);
        out->in_area = out->id;
    } else if (each == MF_EACH_SURFACE) {
        TAKE(surface, surface, id);
        out->in_area = out->surface->area;
        out->area = wiped_area(job, out->in_area);
    } else if (each == MF_EACH_PRACTICE) {
        TAKE(practice, practice, area);
        out->in_area = out->id;
    } else if (each == MF_EACH_DUST_SAMPLE) {
        TAKE(dust_sample, sample, place);
        out->in_area = out->sample->area;
    }
}

void mf_each_subject(const mf_job *job, const mf_audit_row *row, size_t index, mf_subject *out)
{
    *out = (mf_subject){.row = row, .id = "", .in_area = "", .evidence = "", .unit = ""};
    take_place(job, row->each, index, out);
    take_person(job, row->each, index, out);
    take_test(job, row->each, index, out);
    if (row->each == MF_EACH_AGAIN) {
        out->again = mf_again_at(job, index);
        out->id = mf_again_name(&out->again);
        out->evidence = mf_entry_of(out->again.item);
    }
    take_duty(job, row->each, index, out);
    out->id = mf_or_empty(out->id);
    out->in_area = mf_or_empty(out->in_area);
    out->evidence = mf_or_empty(out->evidence);
}
