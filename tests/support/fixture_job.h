/* fixture_job.h - one whole constructed job where every question is answered
 * yes, in arrays that a test may change. People, house and numbers are invented.
 *
 *   house   built 1926, rented out; windows W01 (kitchen, inside and outside) and
 *           W02 (bedroom, inside; its outside is not touched), a painted kitchen wall
 *   areas   A1 kitchen inside, verified with cloths; A2 north wall outside, 10 ft
 *           from the property line; A3 bedroom, on clearance samples
 *   days    start 2026-09-14, completed 2026-09-16, invoice and handover 09-20
 *   people  rosa and omar (renovators), lee (worker), ines (inspector)
 */
#ifndef MF_TESTS_FIXTURE_JOB_H
#define MF_TESTS_FIXTURE_JOB_H

#include <mistfold/job.h>

enum { FX_TICKS = 90, FX_FEW = 12 };

typedef struct fixture {
    mf_job job;
    mf_firm firm;
    mf_person person[FX_FEW];
    mf_certificate certificate[FX_FEW];
    mf_instrument instrument;
    mf_house house;
    mf_party party[FX_FEW];
    mf_vacancy vacancy[FX_FEW];
    mf_opening opening[FX_FEW];
    mf_component component[FX_FEW];
    mf_reading reading[FX_FEW];
    mf_kit_test kit_test[FX_FEW];
    mf_chip chip[FX_FEW];
    mf_determination determination[FX_FEW];
    mf_notice notice[FX_FEW];
    mf_scope_change scope_change[FX_FEW];
    mf_assignment assignment[FX_FEW];
    mf_training training[FX_FEW];
    mf_area area[FX_FEW];
    mf_surface surface[FX_FEW];
    mf_tick tick[FX_TICKS];
    mf_practice practice[FX_FEW];
    mf_verification verification[FX_FEW];
    mf_dust_sample dust_sample[FX_FEW];
    mf_completion completion;
    mf_invoice invoice;
    mf_handover handover[FX_FEW];
    mf_certification certification[FX_FEW];
    mf_sealed sealed[FX_FEW];
    mf_correction correction[FX_FEW];
    mf_local_limit local_limit[FX_FEW];
    mf_visit visit[FX_FEW];
    mf_owner_record owner_record[FX_FEW];
    mf_emergency emergency[FX_FEW];
    mf_occupancy occupancy[FX_FEW];
    mf_attachment attachment[FX_FEW];
    mf_earlier earlier[FX_FEW];
} fixture;

/* The day most tests ask on. */
#define FX_TODAY "2026-10-01"

mf_day fx_day(const char *text);

/* A file with the certificate of each renovator: the copy of 745.86(b)(6). */
void fx_copies(fixture *fx);

void fx_good(fixture *fx);

/* The same job in a child-occupied facility, and in common areas of multi-unit
 * housing, everybody told as 745.84(c) and (b) ask. */
void fx_facility(fixture *fx);
void fx_multi_unit(fixture *fx);

/* The same job in assisted housing (24 CFR part 35): every interior area cleared by
 * somebody who did none of the work, occupants relocated. */
void fx_assisted(fixture *fx);

/* A repair in it: two parts in the kitchen, one in the bedroom, one outside, nothing disturbed and
 * none of it shown free. */
void fx_assisted_repair(fixture *fx);

/* A repair of 4 sq ft inside in assisted housing: minor for 40 CFR 745.83, over the
 * 2 sq ft of 24 CFR 35.1350(d). */
void fx_assisted_minor(fixture *fx);

/* The times of the day of work: contained, worked, looked after, cleaned; of tests none is said. */
void fx_times(fixture *fx);

/* A floor 3 ft outside the area as well: 40 CFR 745.227(e)(8)(v)(A), 24 CFR 35.1340(g)(2). */
void fx_sample_outside(fixture *fx, const char *area, const char *place);

/* Adds a local row of place "US-XX", which the job then has; the value as typed. */
mf_local_limit *fx_add_local(fixture *fx, mf_limit_id id, mf_local_cmp comparison,
                             const char *value);
void fx_add_emergency(fixture *fx, mf_cause cause, const char *waived, const char *reason);

/* The tick of a step in an area; never NULL. */
mf_tick *fx_tick(fixture *fx, const char *area, const char *step);
/* The first look at the area. */
mf_verification *fx_look(fixture *fx, const char *area);
mf_party *fx_party(fixture *fx, const char *id);
mf_notice *fx_notice(fixture *fx, const char *party);
void fx_drop_party(fixture *fx, const char *id);
void fx_drop_handover(fixture *fx, const char *party);
void fx_add_verification(fixture *fx, mf_verification event);
void fx_add_sample(fixture *fx, mf_dust_sample sample);

/* Texts that nobody gave are "", as of a job that was loaded: papers draw all of them. */
void fx_texts(fixture *fx);

#endif
