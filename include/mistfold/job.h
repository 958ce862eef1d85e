/* mistfold/job.h - one whole job as a plain value: what the judgment reads.
 *
 * Every struct here is what one kind of entry says (kind.h lists the kinds and
 * their fields). Text is UTF-8 and never NULL: "" means not given. A date that
 * was not given is MF_DAY_NONE, a time MF_MINUTE_NONE, a number MF_NUM_NONE, a
 * yes/no MF_UNKNOWN. Arrays are in the order the entries were made. Who made
 * the value owns it (the book room: mf_book_job_free).
 *
 * Units are in the names: *_ug_cm2 micrograms per cm2, *_sqft_100 hundredths of
 * a square foot, *_ft_100 hundredths of a foot, *_ng_ft2 nanograms per sq ft,
 * *_ppm parts per million by weight. No floating point anywhere.
 */
#ifndef MISTFOLD_JOB_H
#define MISTFOLD_JOB_H

#include <mistfold/area.h>
#include <mistfold/fact.h>
#include <mistfold/fixture.h>
#include <mistfold/reading.h>
#include <mistfold/special.h>
#include <mistfold/told.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- firm, people, instruments: known to every job ---------------------- */

typedef struct mf_firm {
    mf_src src;
    const char *name, *address, *phone;
} mf_firm;

typedef struct mf_person {
    mf_src src;
    const char *id;   /* short, "rosa" */
    const char *name; /* as printed on the certificate */
} mf_person;

typedef struct mf_certificate {
    mf_src src;
    const char *holder; /* person id; "firm" for the firm's own */
    mf_discipline discipline;
    const char *number, *issuer;
    mf_day issued;        /* approval, or day of the course */
    mf_day expires;       /* as printed */
    mf_tri hands_on;      /* renovator, technician: the course had a hands-on part */
    const char *programs; /* under whose program it counts (program.h), with commas;
                             "" = EPA's */
    /* Firm: a complete application for renewal was postmarked, and decided on (745.89(b)(1)(i)). */
    mf_day renewal_sent, renewal_decided;
    /* Firm: what the certificate says changed, and it was amended (745.89(c)). */
    mf_day changed, amended;
} mf_certificate;

typedef struct mf_instrument {
    mf_src src;
    const char *serial;
    int64_t film_ug_cm2;                     /* certified value of the reference film */
    int64_t cal_low_ug_cm2, cal_high_ug_cm2; /* both inside the tolerance */
    /* Inconclusive range of the performance sheet; MF_NUM_NONE = threshold only. */
    int64_t inconclusive_low_ug_cm2, inconclusive_high_ug_cm2;
    mf_tri bounds_inside; /* whether the bounds are inconclusive; unknown = yes */
    const char *note;     /* license, mode */
} mf_instrument;

/* ---- the house and the work ---------------------------------------------- */

typedef enum mf_building {
    MF_BUILDING_DWELLING, /* single-family house or one unit */
    MF_BUILDING_MULTI,    /* multi-unit housing, common areas affected */
    MF_BUILDING_FACILITY, /* child-occupied facility */
    MF_BUILDING_OTHER     /* public or commercial: a facility only by the visits of children */
} mf_building;

typedef enum mf_work_kind {
    MF_WORK_WINDOW_REPLACEMENT,
    MF_WORK_DOOR_REPLACEMENT,
    MF_WORK_REPAIR,     /* repair and maintenance */
    MF_WORK_DEMOLITION, /* of painted surfaces */
    MF_WORK_OTHER
} mf_work_kind;

typedef struct mf_house {
    mf_src src;
    const char *id;      /* the job's id, "J-1926" */
    const char *address; /* street, place */
    const char *unit;    /* of a multi-unit building, or "" */
    int64_t year_built;  /* MF_NUM_NONE = unknown, presumed covered */
    mf_building building;
    mf_tri owner_occupied;
    mf_tri for_compensation;  /* unknown = yes */
    mf_tri elder_or_disabled; /* housing for the elderly or persons with disabilities */
    mf_tri zero_bedroom;
    mf_tri child_under_6;      /* resides or is expected to */
    mf_tri children_visit;     /* neither housing nor facility: children under 6 come regularly */
    const char *visits_all_by; /* who says that the visits logged are all; "" = there may be more */
    const char *work;          /* words of mf_work_kind separated by ',' (mf_house_does) */
    mf_tri emergency;
    mf_tri assisted;         /* federally assisted housing: 24 CFR part 35 as well; unknown = no */
    const char *description; /* the work in plain words */
    const char *place;       /* places whose rules hold, separated by ',': "US-IA" */
    mf_day start, end;       /* of the renovation, planned until completed */
    mf_day called_off;       /* it was called off on this day, before any work */
    const char *language;    /* of the contract or lease: "en", "es" */
    const char *note;
} mf_house;

typedef enum mf_role {
    MF_ROLE_OWNER,
    MF_ROLE_OCCUPANT, /* adult occupant */
    MF_ROLE_FACILITY, /* adult representative of a child-occupied facility */
    MF_ROLE_PARENTS,  /* parents and guardians of the children */
    MF_ROLE_UNITS     /* all affected units (common areas) */
} mf_role;

typedef struct mf_party {
    mf_src src;
    const char *id;
    mf_role role;
    const char *name, *address;
    const char *unit; /* of an occupant in a multi-unit building; "" = the job's */
} mf_party;

/* Nobody lives in a unit (or, unit "", in the dwelling) while the work goes on. */
typedef struct mf_vacancy {
    mf_src src;
    const char *unit;
    mf_day on; /* vacant from this day, as seen or told */
    const char *said_by;
} mf_vacancy;

typedef enum mf_opening_kind { MF_OPENING_WINDOW, MF_OPENING_DOOR } mf_opening_kind;

typedef struct mf_opening {
    mf_src src;
    const char *id; /* number on the opening schedule, "W01" */
    mf_opening_kind kind;
    const char *room;            /* room equivalent on the inside */
    const char *elevation;       /* side of the house, "north" */
    int64_t storey;              /* 1 = ground */
    int64_t width_in, height_in; /* inches, MF_NUM_NONE = not measured */
    mf_tri replaced;             /* unknown = as the kinds of work of the job say */
    const char *absent; /* parts it does not have: words of mf_component_type, and interior,
                           exterior for a whole side, separated by ',' */
} mf_opening;

typedef enum mf_component_type {
    MF_COMP_SASH,
    MF_COMP_INTERIOR_SILL, /* stool */
    MF_COMP_APRON,
    MF_COMP_INTERIOR_CASING,
    MF_COMP_STOP,
    MF_COMP_JAMB,
    MF_COMP_TROUGH, /* well */
    MF_COMP_EXTERIOR_SILL,
    MF_COMP_EXTERIOR_CASING, /* brick molding */
    MF_COMP_DOOR_SLAB,
    MF_COMP_THRESHOLD,
    MF_COMP_BASEBOARD,
    MF_COMP_WALL,
    MF_COMP_OTHER
} mf_component_type;

typedef struct mf_component {
    mf_src src;
    const char *id;      /* "W01.sash" */
    const char *opening; /* opening id, or "" for a wall, a baseboard */
    mf_component_type type;
    const char *label; /* free words when the type does not say it all */
    mf_side side;
    const char *room; /* room equivalent or elevation; "" = the opening's */
    mf_substrate substrate;
    mf_tri painted;             /* unknown = yes */
    mf_tri affected;            /* the work disturbs it; unknown = yes */
    int64_t disturbed_sqft_100; /* whole surface when it is removed */
    mf_tri removed;             /* the component, or this part of it, comes off whole */
    int64_t whole_sqft_100;     /* its whole painted surface; MF_NUM_NONE = not said */
    /* The component whose kit test or chip stands for this one: parts of one
     * integrated whole (745.82(a)(2)-(3)), "" = none. */
    const char *part_of;
    mf_tri refinished; /* looks separately repainted or refinished; unknown = yes */
} mf_component;

/* ---- tests ------------------------------------------------------------------ */

typedef enum mf_result { MF_RES_POSITIVE, MF_RES_NEGATIVE, MF_RES_INCONCLUSIVE } mf_result;

typedef struct mf_kit_test {
    mf_src src;
    const char *component, *tester;
    const char *maker, *model, *lot; /* free text as printed on the kit */
    mf_tri epa_recognized;
    mf_result result;
    mf_day on;
    /* Substrates for which EPA recognized it, words of mf_substrate separated by ',';
     * "" = not said. */
    const char *substrates;
    int32_t at_minute;
} mf_kit_test;

typedef struct mf_chip {
    mf_src src;
    const char *component, *sampler;
    const char *laboratory, *lab_address;
    mf_tri nllap;           /* recognized under TSCA 405(b) on the day */
    int64_t weight_ppm;     /* MF_NUM_NONE = not reported */
    int64_t loading_ug_cm2; /* MF_NUM_NONE = not reported */
    mf_day on;              /* sampled */
    int64_t composite;      /* chips analyzed together; below 2 or MF_NUM_NONE = one */
    const char *report;     /* number or file of the laboratory's report */
    mf_tri blanks_clean;    /* the blanks of its batch showed no lead */
    int32_t at_minute;      /* when it was taken */
} mf_chip;

/* A certified inspector's or risk assessor's written determination that
 * components are free of lead-based paint (745.82(a)(1)). */
typedef struct mf_determination {
    mf_src src;
    const char *component; /* one component, or "" = all this person read as negative */
    const char *assessor;  /* person id */
    const char *report;    /* title or number of the report */
    const char *method;    /* documented method, when components were sampled */
    mf_tri firm_has_copy;
    mf_day on;              /* signed */
    const char *components; /* component ids it names, separated by ',' */
    int32_t at_minute;      /* when it was signed */
} mf_determination;

/* ---- notices, people on the job --------------------------------------------- */

typedef enum mf_duty { MF_DUTY_RENOVATOR, MF_DUTY_WORKER } mf_duty;

typedef struct mf_assignment {
    mf_src src;
    const char *person;
    mf_duty duty;
    mf_day on; /* from this day */
} mf_assignment;

typedef struct mf_training {
    mf_src src;
    const char *worker, *trainer;
    const char *topics; /* separated by ';': signs, containment, practices, waste, cleaning ... */
    mf_day on;
} mf_training;

/* ---- the end of the job ----------------------------------------------------------- */

typedef struct mf_completion {
    mf_src src;
    mf_day on;
} mf_completion;

typedef struct mf_invoice {
    mf_src src;
    mf_day on; /* final invoice delivered */
} mf_invoice;

typedef struct mf_handover {
    mf_src src;
    const char *party;
    const char *what; /* "record", "summary" */
    const char *how;
    mf_day on;
    mf_tri dust_report; /* the dust sampling report was among it (745.86(d)) */
    /* It held what 745.86(c)(1) asks for, or to many how to get it; unknown = when what
     * names the record or the summary. */
    mf_tri information;
} mf_handover;

/* The certified renovator's signed statement of 745.86(b)(6). */
typedef struct mf_certification {
    mf_src src;
    const char *person;
    mf_day on;
    const char
        *seen; /* the last entry of the job, readings apart, that the book it was logged in
                * had of each device: "office/87 truck/41"; "" = an older version logged it */
} mf_certification;

/* A paper that was sealed. */
typedef struct mf_sealed {
    mf_src src;
    const char *paper;       /* "record" */
    const char *sha256;      /* of the sealed file */
    const char *fingerprint; /* of the certificate */
    const char *head;        /* journal head printed on it */
    const char *chains;      /* the last entry of every device under that head; "" = not said */
    const char *capacity;    /* "renovator", "firm", "owner": in whose place; "" = not said */
    const char *person;      /* who logged it, by whose key ever it was sealed */
    mf_day on;
    const char *signer; /* the name that the certificate of the key bears; "" = not said */
} mf_sealed;

/* What a file is by its content, not by its name. */
typedef enum mf_media { MF_MEDIA_JPEG, MF_MEDIA_PNG, MF_MEDIA_PDF } mf_media;

/* A photo, a certificate, a laboratory report: kept as it is under its hash. */
typedef struct mf_attachment {
    mf_src src;
    const char *about;  /* the entry it belongs to, "device/seq"; "" = the job */
    const char *sha256; /* of its bytes */
    mf_media media;
    int64_t size;     /* bytes */
    const char *name; /* of the file it came from, without folders */
    const char *note;
} mf_attachment;

/* A correction: an entry that replaces what an earlier entry says. */
typedef struct mf_correction {
    mf_src src;           /* src.entry = the correction itself */
    const char *target;   /* the entry first made */
    const char *replaces; /* the entry it goes on from: the target or an earlier correction */
    const char *settles;  /* corrections that it saw beside that one, with commas; "" = none */
    const char *kind;     /* kind of the target */
    const char *reason;
    const char *before, *after; /* bodies as canonical JSON; after "" = withdrawn */
    const void *was, *now;      /* the same as items of the kind; NULL = it has none */
} mf_correction;

/* What the book found when it checked itself, told to the audit as a value. */
typedef enum mf_integrity {
    MF_INTEGRITY_UNCHECKED,
    MF_INTEGRITY_GOOD,
    MF_INTEGRITY_BROKEN
} mf_integrity;

/* Minutes by which a clock may be behind the watch that a time was read from. Common practice. */
enum { MF_CLOCKS_APART = 5 };

/* The clock of whoever asks, by whose zone the house is taken to live as well: entries say times of
 * the day without one, and the time at which they were logged in UTC. */
typedef struct mf_clock {
    const char *at;    /* now in UTC, as in mf_src; NULL = nobody told it, and no time is judged */
    int64_t ahead_min; /* its zone is so many minutes ahead of UTC now */
} mf_clock;

#define MF_LIST(type, name)                                                                        \
    const type *name;                                                                              \
    size_t n_##name

struct mf_reading_index;
struct mf_reading_order;

typedef struct mf_job {
    const char *id;
    mf_integrity integrity;
    mf_clock clock;
    struct mf_reading_index *index; /* of core, while it answers one question; NULL elsewhere */
    const struct mf_reading_order *order; /* mf_readings_order (paint.h); NULL = none */
    /* Of the whole firm. */
    MF_LIST(mf_firm, firm);
    MF_LIST(mf_person, person);
    MF_LIST(mf_certificate, certificate);
    MF_LIST(mf_instrument, instrument);
    MF_LIST(mf_profile_row, profile_row);
    MF_LIST(mf_column_map, column_map);
    MF_LIST(mf_local_limit, local_limit);
    MF_LIST(mf_own_step, own_step);
    MF_LIST(mf_stamp_request, stamp_request);
    MF_LIST(mf_stamp, stamp);
    MF_LIST(mf_known_key, known_key);
    MF_LIST(mf_adoption, adoption);
    MF_LIST(mf_witness, witness);
    MF_LIST(mf_device_key, device_key);
    MF_LIST(mf_vouched, vouched);
    /* Of this job. house has one element, and more only where two devices logged the same job
     * and nobody has settled which is true. */
    MF_LIST(mf_house, house);
    MF_LIST(mf_party, party);
    MF_LIST(mf_vacancy, vacancy);
    MF_LIST(mf_opening, opening);
    MF_LIST(mf_component, component);
    MF_LIST(mf_visit, visit);
    MF_LIST(mf_owner_record, owner_record);
    MF_LIST(mf_emergency, emergency);
    MF_LIST(mf_occupancy, occupancy);
    MF_LIST(mf_reading, reading);
    MF_LIST(mf_intake, intake);
    MF_LIST(mf_kit_test, kit_test);
    MF_LIST(mf_chip, chip);
    MF_LIST(mf_determination, determination);
    MF_LIST(mf_notice, notice);
    MF_LIST(mf_scope_change, scope_change);
    MF_LIST(mf_assignment, assignment);
    MF_LIST(mf_training, training);
    MF_LIST(mf_area, area);
    MF_LIST(mf_fixture, fixture);
    MF_LIST(mf_surface, surface);
    MF_LIST(mf_tick, tick);
    MF_LIST(mf_practice, practice);
    MF_LIST(mf_verification, verification);
    MF_LIST(mf_dust_sample, dust_sample);
    MF_LIST(mf_completion, completion);
    MF_LIST(mf_invoice, invoice);
    MF_LIST(mf_handover, handover);
    MF_LIST(mf_certification, certification);
    MF_LIST(mf_sealed, sealed);
    MF_LIST(mf_attachment, attachment);
    MF_LIST(mf_invitation, invitation);
    MF_LIST(mf_correction, correction);
    MF_LIST(mf_earlier, earlier);
} mf_job;

/* Whether these are one room, or one place, in the words of people: capitals, accents of Latin
 * letters and what stands between the words aside, so that "BAÑO 2" is "bano-2" and the "bed room"
 * the "bedroom". Either may be NULL, which is "". */
MF_API bool mf_same_room(const char *a, const char *b);

/* Look-ups by id; NULL when there is none. The last entry of an id wins. */
MF_API const mf_person *mf_job_person(const mf_job *job, const char *id);
MF_API const mf_party *mf_job_party(const mf_job *job, const char *id);
MF_API const mf_opening *mf_job_opening(const mf_job *job, const char *id);
MF_API const mf_component *mf_job_component(const mf_job *job, const char *id);
MF_API const mf_area *mf_job_area(const mf_job *job, const char *id);
MF_API const mf_surface *mf_job_surface(const mf_job *job, const char *id);
MF_API const mf_instrument *mf_job_instrument(const mf_job *job, const char *serial);

/* Whether a work area lists an opening: each entry of the area does. */
MF_API bool mf_area_lists(const mf_job *job, const char *area, const char *opening);

/* Whether an entry of a work area by itself could hold a component. */
MF_API bool mf_area_holds(const mf_area *area, const mf_component *component);

/* The work area that holds a component: same side, and its opening is listed, in each entry
 * of the area. */
MF_API const mf_area *mf_job_area_of(const mf_job *job, const mf_component *component);

/* Whether the work is of that kind; a job may be of several. */
MF_API bool mf_house_does(const mf_house *house, mf_work_kind work);

/* Whether a ','-separated list of ids holds id. */
MF_API bool mf_id_in_list(const char *list, const char *id);

#ifdef __cplusplus
}
#endif
#endif
