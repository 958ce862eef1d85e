/* audit_rows.h - what the walker (audit.c), the table of requirements
 * (audit_rows.c) and the predicates (audit_<subject>.c) tell each other. */
#ifndef MF_CORE_AUDIT_ROWS_H
#define MF_CORE_AUDIT_ROWS_H

#include <mistfold/assisted.h>
#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/emergency.h>
#include <mistfold/house.h>
#include <mistfold/kind.h>
#include <mistfold/place.h>

/* Work that was not surely over when something else was done (worked.h). */
typedef struct mf_work_after {
    const mf_practice *work; /* not NULL */
    mf_day on;               /* of the other, and its time and entry */
    int32_t at_minute;
    const char *entry;
} mf_work_after;

/* The question with all that every predicate would otherwise work out again. */
typedef struct mf_asked {
    const mf_job *job;     /* one version of it: versions.h */
    const mf_job *whole;   /* with every entry, also those that contradict each other */
    bool too_many;         /* more versions than are judged */
    bool off;              /* called off before any work; containment may stand: called_off.c */
    const mf_house *house; /* never NULL */
    const char *area;      /* only this work area, or "" */
    mf_day today;
    mf_day start;         /* of the work; today when it is not said */
    mf_day begins;        /* when paint is first disturbed, as far as it is known: for notices */
    mf_day begins_common; /* the same in common areas: begins.h */
    mf_day last;          /* today, or the day of completion once that is past */
    mf_day completed;     /* MF_DAY_NONE = not completed */
    mf_day shown; /* the last day of work, verification or sampling; MF_DAY_NONE = none yet */
    mf_facility_answer visits; /* whether those of children make a facility of it */
    mf_due due;
    mf_cover_answer cover;
    mf_assisted_answer assisted;
} mf_asked;

/* What a requirement is asked of, one after the other. */
typedef enum mf_each {
    MF_EACH_JOB,
    MF_EACH_DUTY, /* the roles that parties can have; of occupants each unit worked in */
    MF_EACH_UNIT, /* the units worked in, those of a dwelling one */
    MF_EACH_PARTY,
    MF_EACH_OWED,      /* of one role, or nobody where none of it is listed */
    MF_EACH_ANY_PARTY, /* of whatever role */
    MF_EACH_NOTICE,
    MF_EACH_COMPONENT,
    MF_EACH_OPENING,
    MF_EACH_INSTRUMENT,
    MF_EACH_DETERMINATION,
    MF_EACH_KIT_TEST,
    MF_EACH_CHIP,
    MF_EACH_PERSON,
    MF_EACH_ASSIGNMENT,
    MF_EACH_TRAINING,
    MF_EACH_AREA,
    MF_EACH_SURFACE,
    MF_EACH_PRACTICE,
    MF_EACH_DUST_SAMPLE,
    MF_EACH_CORRECTION,
    MF_EACH_EMERGENCY,
    MF_EACH_OWNER_RECORD,
    MF_EACH_SCOPE_CHANGE,
    MF_EACH_VACANCY,
    MF_EACH_AGAIN /* what is said once more in a later entry; of the whole job */
} mf_each;

/* Where the rule does not cover the job, some requirements hold all the same. */
typedef enum mf_holds {
    MF_HOLDS_COVERED, /* only where it does */
    MF_HOLDS_FREE,    /* also where all paint was shown free: the tests are kept and handed over */
    MF_HOLDS_ALWAYS,
    MF_HOLDS_FILE /* the same, and in a job that was called off before any work */
} mf_holds;

typedef struct mf_audit_row mf_audit_row;

/* An entry, and the last one of the same thing. */
typedef struct mf_again {
    const mf_kind *kind;
    const void *item, *last;
} mf_again;

/* One of them: the pointer that belongs to the row's mf_each is set. */
typedef struct mf_subject {
    const mf_audit_row *row;
    const char *id;        /* what the finding names */
    const char *in_area;   /* work area it lies in, "" = none or many */
    const char *evidence;  /* the entry that says it */
    bool nothing;          /* DUTY, UNIT, OWED: there is none under this number */
    mf_role role;          /* DUTY, UNIT, PARTY */
    const mf_party *party; /* of a unit the first occupant, or NULL */
    const char *unit;      /* of a unit or an occupant; NULL = not known which */
    const mf_notice *notice;
    const mf_component *component;
    const mf_opening *opening;
    const mf_instrument *instrument;
    const mf_determination *determination;
    const mf_kit_test *kit_test;
    const mf_chip *chip;
    const mf_person *person;
    const mf_assignment *assignment;
    const mf_training *training;
    const mf_area *area;
    const mf_surface *surface;
    const mf_practice *practice;
    const mf_dust_sample *sample;
    const mf_correction *correction;
    const mf_scope_change *scope_change;
    const mf_emergency *emergency;
    const mf_owner_record *owner_record;
    mf_again again;
    const mf_vacancy *vacancy;
} mf_subject;

/* NULL when the requirement applies to the subject, else the reason name. */
typedef const char *mf_if_fn(const mf_asked *asked, const mf_subject *subject);
/* Sets verdict, why and what else the finding says. Evidence and subject are
 * preset from the subject. */
typedef void mf_show_fn(const mf_asked *asked, const mf_subject *subject, mf_finding *out);

struct mf_audit_row {
    mf_requirement requirement;
    mf_each each;
    mf_holds holds;
    const char *step; /* of a step's row, else "" */
    mf_role role;     /* of a row about parties */
    mf_if_fn *applies;
    mf_show_fn *shown;
};

const mf_audit_row *mf_audit_rows(size_t *count);

/* audit.c: shows each finding, in the order of mf_audit; no room is needed for them. */
typedef void mf_seen_fn(const mf_finding *finding, void *data);
void mf_audit_each(const mf_audit_ask *ask, mf_seen_fn *seen, void *data);

/* audit_each.c */
size_t mf_each_count(const mf_job *job, mf_each each);
void mf_each_subject(const mf_job *job, const mf_audit_row *row, size_t index, mf_subject *out);

/* audit_say.c: filling findings, and facts that several predicates ask for. */
void mf_say(mf_finding *out, mf_verdict verdict, const char *why);
/* One of several things that may be missing at once: all of them are told. */
void mf_say_lack(mf_finding *out, bool lacks, const char *why);
void mf_say_days(mf_finding *out, mf_day d1, mf_day d2);
void mf_say_numbers(mf_finding *out, mf_unit unit, int64_t n1, int64_t n2);
/* The row that decides for the job on the day, and the federal one beside it when
 * a stricter local one does. */
void mf_say_limit(mf_finding *out, const mf_job *job, mf_limit_id id, mf_day day);
/* audit.c: whether anybody is owed anything: the rule covers the work, or tests of the firm's own
 * show that it does not, which are kept and handed over. */
bool mf_records_owed(const mf_asked *asked);
/* Why nothing is owed to the subject's party or unit under 745.84; NULL = it is owed. */
const char *mf_not_owed(const mf_asked *asked, const mf_subject *subject);
/* Whether what a party got is got for the subject: any occupant of a unit speaks for it. */
bool mf_stands_for(const mf_job *job, const mf_subject *subject, const mf_party *party);
bool mf_on_clearance(const mf_job *job, const char *area);
/* audit_sampled.c: where an interior area was sampled, by all samples or by those alone that
 * contract or law requires; by the limits of a day. */
typedef struct mf_sampling {
    const mf_job *job;
    const mf_area *area;
    bool required;
    mf_day on;
} mf_sampling;
/* Says what of floor, sill and trough, and of its rooms, they do not show; false = nothing. */
bool mf_lacks_samples(const mf_sampling *of, mf_finding *out);
/* Says that its place names a room of another area, or in an area of one room none of it; false =
 * neither. */
bool mf_says_where(const mf_asked *asked, const mf_dust_sample *it, mf_verdict lacking,
                   mf_finding *out);
/* Whether the sample is of a place outside its work area. */
bool mf_sampled_outside(const mf_dust_sample *sample);
/* audit_resampled.c: whether a tick cleans once more what a sample stands for that had failed
 * before it, and nothing else: 745.227(e)(8)(vii). */
bool mf_cleans_again(const mf_job *job, const mf_tick *tick, const mf_dust_sample *failed);
/* Whether it does so for samples of other places than own, which is not sampled again for it. */
bool mf_cleaned_for_another(const mf_job *job, const mf_tick *tick, const mf_dust_sample *own);
/* audit_dust.c: what a fault of the sample is: it blocks, or is only told where nothing asked for
 * it. */
mf_verdict mf_dust_fault(const mf_asked *asked, const mf_subject *subject);
/* Whether the sample came after the last cleaning of its area, of day *on; unknown where the times
 * of one day do not tell, of which *untimed ("" = of none) is the entry of a cleaning without one.
 */
mf_tri mf_sampled_when_clean(const mf_job *job, const mf_dust_sample *it, mf_day *on,
                             const char **untimed);
/* Whether clearance samples of before that time show the area to be clean. */
bool mf_samples_clear(const mf_asked *asked, const mf_area *area, mf_day on, int32_t at_minute);
/* audit_step.c: steps of signs, 745.85(a)(1), which stay until the area is verified, and those of
 * what contains, (a)(2), which comes down when it is cleaned. */
enum {
    MF_OF_SIGNS = 1,
    MF_OF_CONTAINMENT = 2,
    MF_OF_PART_35 =
        4 /* what 24 CFR 35.1345(b) has of both, whatever an emergency excuses of this */
};
bool mf_step_of(const mf_step *step, unsigned which);
/* audit_standing.c: the first such step that was not done anew by the day of work, though the
 * containment had ended before the work did (*ended_on); or NULL. */
const mf_step *mf_not_contained_anew(const mf_job *job, const mf_area *area,
                                     const mf_practice *work, unsigned which, mf_day *ended_on);
const mf_assignment *mf_assigned(const mf_job *job, const char *person);
const mf_assignment *mf_assigned_renovator(const mf_job *job, const char *person);

/* certification.c: whether a tick says that a task of 745.85(a) was done. */
bool mf_is_task(const mf_job *job, const mf_tick *tick);

/* audit_said.c: entries after which another one names the same thing. */
size_t mf_again_count(const mf_job *job);
mf_again mf_again_at(const mf_job *job, size_t index);
/* What names the thing: its id, its number, or its kind where a job has but one. */
const char *mf_again_name(const mf_again *again);
const char *mf_entry_of(const void *item);
/* Says so of a certificate that does not hold, where another entry has another term of it. */
void mf_say_two_terms(const mf_job *job, const mf_certificate *it, mf_finding *out);

/* audit_area.c: the first part that is disturbed and lies in no work area, or NULL. */
const mf_component *mf_loose_component(const mf_job *job);

/* audit_order.c: says of something of a day that work came after it, later, or that the times do
 * not tell, unsaid. The evidence is then the entry that lacks its time: of the work, if it does. */
void mf_say_work(mf_finding *out, const mf_work_after *it, const char *later, const char *unsaid);

/* audit_order.c: the tick by which a step of a phase counts as done in an area, or NULL. */
const mf_tick *mf_standing_tick(const mf_job *job, const mf_area *area, const mf_step *step,
                                mf_phase phase);

/* audit_step.c: whether the tick takes down what has done its duty: after the area was shown to be
 * clean, and no work came since. */
bool mf_taken_down(const mf_asked *asked, const mf_area *area, const mf_tick *tick);
/* As mf_step_judge_by, but a sheet that ended at a barrier still reaches as far as it must when
 * that was taken down as it should be; audit_barrier.c. */
mf_step_state mf_step_stood(const mf_asked *asked, const mf_area *area, const mf_step *step,
                            mf_day by, const mf_tick **tick);
/* Whether the barrier that came down with a tick was one that a sheet ended at, and did its duty.
 */
bool mf_barrier_served(const mf_asked *asked, const mf_area *area, const mf_tick *sheet,
                       const mf_tick *down);

/* audit_hours.c: says of a step that it was down, or too short, while paint was disturbed, and
 * stood again by the end of that day, a sign by any day; or that the times do not tell. */
bool mf_down_in_hours(const mf_asked *asked, const mf_area *area, const mf_step *step,
                      const mf_practice *work, mf_finding *out);

/* audit_past_midnight.c: the waste closed away at the end of a shift that goes on past the midnight
 * of a day of work, or NULL: there is no such shift, or it was not. */
const mf_tick *mf_closed_past_midnight(const mf_job *job, const mf_practice *day);

/* audit_workday.c: the first tick of a step in an area that settles it, or NULL. */
const mf_tick *mf_first_settled(const mf_job *job, const mf_area *area, const char *step);

/* audit_emergency.c: turns what an emergency lawfully excuses into NOT_DUE. */
void mf_excuse(const mf_asked *asked, const mf_audit_row *row, const mf_subject *subject,
               mf_finding *out);
/* What excuses of a step, or of another duty, by its citation; MF_WAIVER_COUNT = nothing. */
mf_waiver mf_waiver_for(const char *citation, bool step);

/* The predicates, by the file that holds them. */
mf_if_fn mf_if_limits_change;                            /* audit_limit_days.c */
mf_if_fn mf_if_always, mf_if_completed;                  /* audit_say.c */
mf_if_fn mf_if_child_matters, mf_if_visits, mf_if_minor; /* audit_cover.c */
mf_if_fn mf_if_place, mf_if_house_doubted;               /* audit_cover.c */
mf_if_fn mf_if_emergency;                                /* audit_emergency.c */
mf_if_fn mf_if_assisted, mf_if_assisted_over, mf_if_assisted_inside, mf_if_assisted_failed,
    mf_if_assisted_today, mf_if_blood_lead; /* audit_assisted.c */
mf_if_fn mf_if_assisted_first, mf_if_assisted_alone, mf_if_assisted_crew,
    mf_if_assisted_cleaners; /* audit_assisted_site.c */
mf_if_fn mf_if_trigger;      /* audit_osha.c */
mf_if_fn mf_if_affected, mf_if_read_with, mf_if_kit_negative,
    mf_if_substrate_differs;                         /* audit_evidence.c */
mf_if_fn mf_if_acted, mf_if_renovator, mf_if_worker; /* audit_people.c */
mf_if_fn mf_if_place_said;                           /* audit_program.c */
mf_if_fn mf_if_notice_due, mf_if_language_set;       /* audit_notice.c */
mf_if_fn mf_if_acknowledged, mf_if_mailed, mf_if_told_many, mf_if_paper;
/* The delivery that serves for whom the row is asked of, or NULL; and why it is none by one of
 * these methods (bits 1u << mf_delivery), or NULL. */
const mf_notice *mf_serving_notice(const mf_asked *asked, const mf_subject *subject);
const char *mf_if_served_by(const mf_asked *asked, const mf_subject *subject, unsigned methods);
mf_if_fn mf_if_change_told, mf_if_told_days, mf_if_told_today, mf_if_sign_days; /* audit_change.c */
/* audit_change.c: why no work is to be expected on the day asked about; NULL = it may be. */
const char *mf_if_work_today(const mf_asked *asked);
mf_if_fn mf_if_multi_unit, mf_if_area_in_units;                   /* audit_unit.c */
mf_if_fn mf_if_day_worked, mf_if_day_inside, mf_if_area_worked;   /* audit_workday.c */
mf_if_fn mf_if_waste_at_end;                                      /* audit_waste.c */
mf_if_fn mf_if_trained, mf_if_contain_ticked, mf_if_clean_ticked; /* audit_training.c */
mf_if_fn mf_if_disturbed;
mf_if_fn mf_if_cleaned;                              /* audit_order.c */
mf_if_fn mf_if_demo_asked, mf_if_may_have_ended;     /* audit_standing.c */
mf_if_fn mf_if_failed_before, mf_if_in_force;        /* audit_resampled.c */
mf_if_fn mf_if_straddles;                            /* audit_dust.c */
mf_if_fn mf_if_cleared_inside, mf_if_inside_sampled; /* audit_sampled.c */
mf_if_fn mf_if_dust_report_due;                      /* audit_handover.c */
mf_if_fn mf_if_opening_affected, mf_if_no_opening, mf_if_method_matters,
    mf_if_all_areas;                                             /* audit_area.c */
mf_if_fn mf_if_step;                                             /* audit_step.c */
mf_if_fn mf_if_inside, mf_if_outside, mf_if_wiped, mf_if_logged; /* audit_clean.c */
mf_if_fn mf_if_judged, mf_if_sampled_after, mf_if_area_wiped;    /* audit_dust.c */
mf_if_fn mf_if_assisted_emergency;                               /* audit_assisted.c */
mf_if_fn mf_if_assisted_doubted;                                 /* audit_assisted_said.c */
mf_if_fn mf_if_examined, mf_if_examined_by_technician;           /* audit_examine.c */
mf_if_fn mf_if_handover_due;                                     /* audit_handover.c */
mf_if_fn mf_if_leaf;                                             /* audit_record.c */
mf_if_fn mf_if_called_off, mf_if_stopped;                        /* audit_called_off.c */
mf_if_fn mf_if_area_off;                                         /* audit_area_off.c */

mf_show_fn mf_show_covered, mf_show_year, mf_show_pay, mf_show_owner_lives, mf_show_elder,
    mf_show_zero_bedroom, mf_show_child, mf_show_facility, mf_show_minor, mf_show_place;
mf_show_fn mf_show_house_agrees, mf_show_work_listed; /* audit_cover.c */
mf_show_fn mf_show_emergency, mf_show_emergency_notes, mf_show_emergency_limits;
mf_show_fn mf_show_owner_record;
mf_show_fn mf_show_assisted_scope, mf_show_assisted_method, mf_show_assisted_prepared,
    mf_show_assisted_site, mf_show_assisted_out, mf_show_assisted_stay, mf_show_assisted_today,
    mf_show_assisted_clearance, mf_show_assisted_recleaned, mf_show_assisted_examiner,
    mf_show_blood_lead;
mf_show_fn mf_show_assisted_said; /* audit_assisted_said.c */
mf_show_fn mf_show_assisted_emergency, mf_show_assisted_approved, mf_show_assisted_visual;
mf_show_fn mf_show_trigger;
mf_show_fn mf_show_components, mf_show_paint, mf_show_paint_agrees, mf_show_calibration,
    mf_show_determination, mf_show_kit, mf_show_chip, mf_show_kit_substrate, mf_show_xrf_substrate;
mf_show_fn mf_show_said_twice, mf_show_said_stricter; /* audit_said.c */
mf_if_fn mf_if_tested_free;                           /* audit_assisted.c */
mf_show_fn mf_show_assisted_tested;
mf_if_fn mf_if_clock; /* audit_clock.c */
mf_show_fn mf_show_times;
mf_show_fn mf_show_program; /* audit_program.c */
mf_show_fn mf_show_firm, mf_show_renovator_assigned, mf_show_renovator_certified,
    mf_show_renovator_number, mf_show_person_assigned, mf_show_trained, mf_show_topics;
mf_show_fn mf_show_party_named, mf_show_notice, mf_show_language;
mf_show_fn mf_show_areas, mf_show_areas_hold_all, mf_show_line_measured, mf_show_opening_in_area,
    mf_show_component_in_area, mf_show_method;
mf_show_fn mf_show_step;
mf_show_fn mf_show_visual, mf_show_surfaces, mf_show_surface, mf_show_order, mf_show_verifier,
    mf_show_cloths;
mf_show_fn mf_show_dust_required, mf_show_dust_level, mf_show_dust_sampler, mf_show_dust_laboratory;
mf_show_fn mf_show_determination_assessor, mf_show_kit_place, mf_show_kit_lot, mf_show_chip_place;
mf_show_fn mf_show_paper_names, mf_show_contents, mf_show_told_many, mf_show_change_told;
mf_show_fn mf_show_told_days, mf_show_told_today, mf_show_sign_days;
mf_show_fn mf_show_area_unit, mf_show_occupant_unit, mf_show_vacancy;
mf_show_fn mf_show_renovator_days, mf_show_training_tasks, mf_show_contained_by,
    mf_show_disturbed_by, mf_show_cleaned_by;
mf_show_fn mf_show_waste_at_end, mf_show_leave_each_day;
mf_show_fn mf_show_waste_each_day, mf_show_barriers_each_day, mf_show_methods_logged,
    mf_show_work_logged, mf_show_directed, mf_show_signs_first, mf_show_contained_first,
    mf_show_contained_all_along, mf_show_assisted_first, mf_show_assisted_all_along,
    mf_show_assisted_crew;
mf_show_fn mf_show_limits_change; /* audit_limit_days.c */
mf_show_fn mf_show_cleaning_order, mf_show_looked_after;
mf_show_fn mf_show_job_open, mf_show_start_reached, mf_show_contained_still; /* audit_standing.c */
mf_show_fn mf_show_recleaned, mf_show_straddle, mf_show_dust_report, mf_show_dust_places,
    mf_show_dust_in_area, mf_show_dust_wiped_area;
mf_show_fn mf_show_handover;
mf_show_fn mf_show_called_off, mf_show_called_off_agrees, mf_show_stopped;  /* audit_called_off.c */
mf_show_fn mf_show_area_off, mf_show_area_off_demo, mf_show_area_off_signs; /* audit_area_off.c */
mf_show_fn mf_show_dust_wait;
mf_show_fn mf_show_completion, mf_show_certification, mf_show_retention, mf_show_unaltered,
    mf_show_corrections, mf_show_sealed;

#endif
