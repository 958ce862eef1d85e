/* mistfold/area.h - the work area and what was done in it: its surfaces, the lines of its
 * checklists, methods, cleaning verification, dust samples. Parts of the job value (job.h,
 * whose rules and units hold here too).
 */
#ifndef MISTFOLD_AREA_H
#define MISTFOLD_AREA_H

#include <mistfold/fact.h>
#include <mistfold/reading.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct mf_area {
    mf_src src;
    const char *id; /* "A1" */
    mf_side side;
    const char *place;                   /* room or elevation */
    const char *openings;                /* opening ids separated by ',' */
    int64_t length_ft_100, width_ft_100; /* of the room or the elevation's run */
    mf_tri objects;                      /* furniture and the like stay in the area */
    mf_tri ducts;                        /* duct openings in the area */
    mf_tri doors_used;                   /* a door in the area is used during the work */
    mf_tri carpet;                       /* the area has carpet */
    mf_tri countertops;                  /* countertops in the area */
    int64_t storeys;                     /* exterior: of the building on this side */
    int64_t line_ft_100; /* exterior: distance to the property line; MF_NUM_NONE = near */
    /* In a multi-unit building: the unit it lies in, or whether it is common. */
    const char *unit;
    mf_tri common;
    mf_day called_off; /* given up on this day, before any work in it */
} mf_area;

typedef enum mf_surface_kind {
    MF_SURFACE_SILL,
    MF_SURFACE_FLOOR,
    MF_SURFACE_COUNTERTOP
} mf_surface_kind;

/* A surface that cleaning verification wipes. Uncarpeted floors only. */
typedef struct mf_surface {
    mf_src src;
    const char *id, *area;
    mf_surface_kind kind;
    const char *place;
    int64_t size_sqft_100;
    const char *note;
} mf_surface;

typedef enum mf_tick_state { MF_TICK_DONE, MF_TICK_NOT_NEEDED, MF_TICK_UNDONE } mf_tick_state;

/* Why a step is not needed; which grounds a step takes is in contain.h. */
typedef enum mf_ground {
    MF_GROUND_OWN_WORDS,    /* none of these: the reason alone says it */
    MF_GROUND_NONE_PRESENT, /* nothing of the kind is there */
    MF_GROUND_NOT_USED,     /* it is there, and nobody uses it during the work */
    MF_GROUND_ONE_STORY,    /* no floor below the work */
    MF_GROUND_ALL_CARPET,   /* no bare floor */
    MF_GROUND_IMPOSSIBLE    /* it cannot be done on this job; the reason says why */
} mf_ground;

/* One line of a checklist, ticked by somebody. */
typedef struct mf_tick {
    mf_src src;
    const char *area, *step; /* work area id and step id (contain.h) */
    mf_tick_state state;
    const char *person;      /* who did it */
    const char *renovator;   /* certified renovator present or directing, "" = not said */
    int64_t measured_ft_100; /* when the step has an extent; MF_NUM_NONE otherwise */
    const char *reason;      /* not needed or undone: why */
    mf_day on;
    int32_t at_minute;
    const char *photo; /* file name and SHA-256 of a photo, "" = none */
    mf_ground ground;  /* not needed: on which ground */
} mf_tick;

typedef enum mf_method {
    MF_METHOD_HAND,       /* hand tools, wet or dry scraping */
    MF_METHOD_OPEN_FLAME, /* burning or torching */
    MF_METHOD_MACHINE,    /* high-speed paint removal */
    MF_METHOD_HEAT_GUN,
    MF_METHOD_DRY_SCRAPE, /* dry scraping by hand */
    MF_METHOD_DRY_SAND,   /* dry sanding by hand */
    MF_METHOD_STRIPPER,   /* volatile paint stripper */
    MF_METHOD_DEMOLITION, /* breaking painted surfaces by hand */
    MF_METHOD_BLASTING    /* abrasive blasting */
} mf_method;

typedef struct mf_practice {
    mf_src src;
    const char *area;
    mf_method method;
    mf_tri shroud_and_hepa; /* machine: shroud or containment and HEPA collection */
    int64_t temp_f;         /* heat gun, degrees F */
    int64_t spot_sqft_100;  /* dry scraping or sanding: surface worked dry */
    mf_tri near_outlet;     /* dry scraping: within 1 ft of an electrical outlet */
    mf_tri ventilated;      /* stripper: the place was well ventilated */
    const char *person, *note;
    mf_day on;
    mf_tri planned; /* yes = meant to be used, not used yet; on is the day of the plan */
    /* When that work of the day was over, and when it began; MF_MINUTE_NONE. */
    int32_t at_minute, began_minute;
} mf_practice;

typedef enum mf_wipe_event {
    MF_VER_LOOK_CLEAN, /* visual inspection: no dust, debris or residue */
    MF_VER_LOOK_DIRTY, /* visual inspection: clean again */
    MF_VER_WET_MATCH,  /* wet cloth matches or is lighter than the card */
    MF_VER_WET_DARKER, /* wet cloth is darker than the card */
    MF_VER_RECLEANED,  /* the sill or section was cleaned again */
    MF_VER_SEEN_DRY,   /* the surface was seen to be dry */
    MF_VER_DRY_WIPE    /* the dry cloth; it is not compared */
} mf_wipe_event;

typedef enum mf_cloth { MF_CLOTH_NONE, MF_CLOTH_NEW, MF_CLOTH_FRESH_FOLD } mf_cloth;

/* One event of cleaning verification (745.85(b)). */
typedef struct mf_verification {
    mf_src src;
    const char *area;
    const char *surface; /* surface id; "" for a visual inspection */
    int64_t section;     /* 1-based; 1 for a sill; 0 for a visual inspection */
    mf_wipe_event event;
    mf_cloth cloth;
    const char *person;
    mf_day on;
    int32_t at_minute;
} mf_verification;

typedef enum mf_dust_surface { MF_DUST_FLOOR, MF_DUST_SILL, MF_DUST_TROUGH } mf_dust_surface;

/* Who employs whoever takes a clearance sample (24 CFR 35.1340(f)). */
typedef enum mf_employer {
    MF_EMPLOYER_UNSAID,
    MF_EMPLOYER_FIRM,       /* the renovation firm */
    MF_EMPLOYER_OWNER,      /* the designated party: owner, grantee, housing agency */
    MF_EMPLOYER_INDEPENDENT /* somebody who did none of the work */
} mf_employer;

typedef struct mf_dust_sample {
    mf_src src;
    const char *area, *place;
    mf_dust_surface surface;
    const char *sampler, *laboratory;
    mf_tri nllap;
    mf_tri required; /* contract or law requires clearance sampling instead of verification */
    int64_t loading_ng_ft2; /* as the laboratory reports it, or MF_NUM_NONE */
    mf_qualifier qualifier;
    mf_day on;
    /* Mass on the wipe(s) and the area wiped: judged without rounding. */
    int64_t mass_ng;
    int64_t length_in_1600, width_in_1600; /* of one wiped place, 1/1600 inch */
    int64_t wipes;                         /* in one composite; MF_NUM_NONE = not said */
    mf_tri blank;                          /* a field blank: an unused wipe */
    const char *report;                    /* number or file of the laboratory's report */
    int32_t at_minute;                     /* time of the sample */
    mf_employer employer;                  /* of the sampler */
    const char *approved_by; /* inspector or risk assessor who signed a technician's work */
    int64_t outside_ft_100;  /* above 0: so far outside the edge of the area; else inside it */
} mf_dust_sample;

#ifdef __cplusplus
}
#endif
#endif
