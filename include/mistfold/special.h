/* mistfold/special.h - what makes one job particular: stricter limits of its places,
 * children's visits, the owner's records, an emergency, occupants of assisted
 * housing, other jobs of the same rooms. The lists of them are in job.h.
 */
#ifndef MISTFOLD_SPECIAL_H
#define MISTFOLD_SPECIAL_H

#include <mistfold/fact.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How a local limit compares; MF_AS_FEDERAL = like the federal row. */
typedef enum mf_local_cmp { MF_AS_FEDERAL, MF_BELOW, MF_UP_TO, MF_AT_LEAST, MF_ABOVE } mf_local_cmp;

/* A stricter number of a state, tribe, city or contract (docs/places.md). */
typedef struct mf_local_limit {
    mf_src src;
    mf_limit row; /* id, from, until, place, citation, status, note as given; the rest by
                     mf_local_limit_fill */
    mf_local_cmp comparison;
    const char *value;    /* as written, in the unit of the limit */
    int64_t built_before; /* only houses built before that year; MF_NUM_NONE = any */
} mf_local_limit;

typedef enum mf_phase {
    MF_PHASE_CONTAIN, /* before demo */
    MF_PHASE_WORK,    /* while the work goes on */
    MF_PHASE_CLEAN    /* before verification */
} mf_phase;

typedef enum mf_own_side { MF_OWN_INTERIOR, MF_OWN_EXTERIOR, MF_OWN_BOTH } mf_own_side;

/* A key whose seals the firm stands by, as somebody said who had seen its fingerprint. */
typedef struct mf_known_key {
    mf_src src;
    const char *fingerprint; /* SHA-256 of its certificate, 64 hex digits */
    const char *person;      /* whose it is */
    const char *capacity;    /* as whom it may seal: "renovator,firm,owner" or some of them */
    const char *note;
} mf_known_key;

/* The key by which a device signs its chain from this entry on (device.h). */
typedef struct mf_device_key {
    mf_src src;
    const char *device;
    const char *key;    /* public, 64 hex digits */
    const char *reason; /* "" of the first */
} mf_device_key;

/* A person's signature for the key of a device. */
typedef struct mf_vouched {
    mf_src src;
    const char *device, *key;
    const char *fingerprint; /* of the person's certificate */
    const char *signature;   /* CMS, base64 */
} mf_vouched;

/* A head of the book that somebody or something outside it names (heads.h). */
typedef struct mf_witness {
    mf_src src;
    const char *from;    /* a device, a person, a paper */
    const char *head;    /* 64 hex digits; "" = only devices were named */
    const char *heads;   /* "office/415 HASH, truck/20 HASH"; "" = only the head of the book */
    const char *awaited; /* ids of those that were not here then, with blanks */
    const char *note;
} mf_witness;

/* Entries that a merge took over though it would refuse them: under this book's own name, with
 * another key, or against a head that was noted. */
typedef struct mf_adoption {
    mf_src src;
    const char *reason;
    const char *head;         /* of this book before, 64 hex digits */
    const char *first, *last; /* of the entries that came in */
} mf_adoption;

/* Who may hand over entries of this job to a book that is served (field serve). The token
 * itself is nowhere: who has it proves it by its hash. Withdrawn like any entry. */
typedef struct mf_invitation {
    mf_src src;
    const char *person;
    const char *token_sha256; /* 64 hex digits */
    mf_day until;             /* last day on which it holds */
} mf_invitation;

/* A step that the firm asks of its crews beyond the rule (docs/own-steps.md). It is on
 * the lists and in the record; no gate asks for it. */
typedef struct mf_own_step {
    mf_src src;
    const char *id;
    mf_phase phase;
    mf_own_side side;
    const char *text, *text_es; /* text_es "" = as text */
    const char *why;
    mf_day from, until; /* by the day the job starts; until MF_DAY_NONE = still */
} mf_own_step;

/* A head of the book that was sent to a time-stamping authority (stamp.h): the query can be
 * made anew from it, and only a reply to it is taken. */
typedef struct mf_stamp_request {
    mf_src src;
    const char *head;
    const char *heads; /* what the head is the SHA-256 of: "device/seq hash, device/seq hash" */
    const char *nonce; /* hex */
} mf_stamp_request;

/* An authority's word that a head of the book existed before a time. */
typedef struct mf_stamp {
    mf_src src;
    const char *head, *heads; /* as of a request */
    const char *told;         /* UTC, "2026-11-29T14:02:07Z": the head existed before */
    const char *authority, *policy, *serial;
    const char *token; /* the token itself, base64; the others are read from it */
} mf_stamp;

/* One visit of a child, or one of every week through weekly_until (745.83,
 * child-occupied facility). */
typedef struct mf_visit {
    mf_src src;
    const char *child; /* an id, no name */
    mf_day born;       /* MF_DAY_NONE = not said, counts as under 6 */
    mf_day on;
    int64_t minutes;
    mf_day weekly_until; /* MF_DAY_NONE = this one visit */
} mf_visit;

/* The owner's record of an inspection before this job that found paint free: a
 * determination of a person who need not be in this book (745.82(a)(1)). */
typedef struct mf_owner_record {
    mf_src src;
    const char *report;
    const char *assessor, *number, *issuer; /* name and certificate as the report says */
    mf_discipline discipline;               /* inspector or risk assessor */
    mf_day on;                              /* signed */
    mf_day expires;                         /* of the certificate, as printed */
    const char *components;                 /* ids separated by ','; "" = all of them */
    mf_tri firm_has_copy;
} mf_owner_record;

typedef enum mf_cause {
    MF_CAUSE_SUDDEN_EVENT,
    MF_CAUSE_BLOOD_LEAD /* interim controls for a resident child with elevated blood lead */
} mf_cause;

/* What must be written down of an emergency (745.82(b), 745.86(b)(6)). */
typedef struct mf_emergency {
    mf_src src;
    const char *nature;
    mf_day on;
    mf_cause cause;
    const char *waived; /* ids of mf_waiver names separated by ',' */
    const char *reason; /* why responding required it */
    mf_day until;       /* the last day on which responding required it; MF_DAY_NONE = not said */
    int64_t blood_lead_100; /* hundredths of ug/dL; MF_NUM_NONE = not said */
} mf_emergency;

/* How occupants of assisted housing are kept safe (24 CFR 35.1345(a)(2)). */
typedef enum mf_stay {
    MF_STAY_RELOCATED,
    MF_STAY_NO_HAZARD, /* (i) no lead-based paint, dust or soil hazard is disturbed */
    MF_STAY_EXTERIOR,  /* (ii) only the exterior is treated */
    MF_STAY_ONE_DAY,   /* (iii) interior, within one period of daytime hours */
    MF_STAY_FEW_DAYS   /* (iv) interior, within some calendar days */
} mf_stay;

typedef struct mf_occupancy {
    mf_src src;
    mf_stay stay;
    mf_tri kept_out;       /* of the worksite until work and clearance are done */
    mf_day from, until;    /* of the interior work */
    int64_t minutes;       /* one day: from start to end */
    int64_t margin_ft_100; /* few days: cleaned each evening this far beyond containment */
    mf_tri reachable;      /* few days: bedrooms, bath and kitchen safely reachable */
    mf_tri sealed;         /* exterior: openings near by sealed, and cleaned afterwards */
    mf_tri free_entry;     /* exterior: an entry free of lead hazards is kept */
    mf_tri other_hazard;   /* one or few days: another safety or health hazard is created */
} mf_occupancy;

/* Paint that another job at the same address and unit disturbs, for the 30 days
 * of 745.83: before or after this one. Not an entry of this job. What is never minor there, or
 * not listed, has no size. */
typedef struct mf_earlier {
    mf_src src;
    const char *job, *room;
    mf_side side;
    mf_day on;    /* start of that job */
    mf_day until; /* its completion, or else its planned last day; MF_DAY_NONE = it may go on */
    int64_t disturbed_sqft_100; /* MF_NUM_NONE = nobody said */
} mf_earlier;

#ifdef __cplusplus
}
#endif
#endif
