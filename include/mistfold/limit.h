/* mistfold/limit.h - every number of the rule as a dated and located row.
 *
 * A limit is never an `if` in the code: it is a row that says what is measured,
 * in which unit, how it compares, from when until when, where it holds, which
 * paragraph says so and how sure we are that it does. The judgment asks for
 * the row in force on a day and names it in its finding.
 */
#ifndef MISTFOLD_LIMIT_H
#define MISTFOLD_LIMIT_H

#include <mistfold/day.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How a value must stand to the limit for the test the row names to be true. */
typedef enum mf_cmp { MF_LT, MF_LE, MF_GE, MF_GT } mf_cmp;

/* How sure we are of a fact; printed wherever the fact decides. */
typedef enum mf_status_of_fact {
    MF_VERIFIED,  /* the words of the rule were seen in print */
    MF_SECONDARY, /* seen only in a text that reports the rule */
    MF_MEMORY,    /* recalled, not seen */
    MF_DERIVED    /* follows from other facts by logic or arithmetic */
} mf_status_of_fact;

typedef enum mf_unit {
    MF_UNIT_UG_CM2,   /* lead loading of paint, micrograms per cm2 (1.0 mg/cm2 = 1000) */
    MF_UNIT_PPM,      /* lead by weight, parts per million (0.5 % = 5000) */
    MF_UNIT_SQFT_100, /* hundredths of a square foot */
    MF_UNIT_FT_100,   /* hundredths of a foot */
    MF_UNIT_NG_FT2,   /* dust, nanograms per square foot (5 ug/ft2 = 5000) */
    MF_UNIT_DAYS,
    MF_UNIT_YEARS,
    MF_UNIT_MINUTES,
    MF_UNIT_DEG_F,
    MF_UNIT_CALENDAR_YEAR, /* a year such as 1978 */
    MF_UNIT_COUNT,         /* a plain count: cloths, sections, components */
    MF_UNIT_PERCENT_100,   /* hundredths of one percent */
    MF_UNIT_UG_DL_100,     /* lead in blood, hundredths of ug/dL */
    MF_UNIT_IN_1600,       /* 1/1600 inch: holds 1/64 in and 0.01 in exactly */
    MF_UNIT_NG             /* nanograms on a wipe (4.88 ug = 4880) */
} mf_unit;

/* What the row measures. The order is that of limit_rows.c. */
typedef enum mf_limit_id {
    MF_LIMIT_YEAR_BUILT,          /* covered when built before */
    MF_LIMIT_PAINT_LOADING,       /* lead-based at or above */
    MF_LIMIT_PAINT_WEIGHT,        /* lead-based at or above */
    MF_LIMIT_PLAUSIBLE_LOADING,   /* a higher reading is refused as a slip of unit */
    MF_LIMIT_MINOR_INTERIOR,      /* minor repair: up to, per room */
    MF_LIMIT_MINOR_EXTERIOR,      /* minor repair: up to */
    MF_LIMIT_MINOR_DAYS,          /* jobs in one room this close together are one */
    MF_LIMIT_PAMPHLET_DAYS,       /* pamphlet at most this many days before the start */
    MF_LIMIT_MAILING_DAYS,        /* certificate of mailing at least this many days before */
    MF_LIMIT_FLOOR_SHEET,         /* interior sheeting at least this far beyond the work */
    MF_LIMIT_GROUND_SHEET,        /* exterior sheeting at least this far beyond the work */
    MF_LIMIT_EXTERIOR_OPENINGS,   /* windows and doors closed within */
    MF_LIMIT_PROPERTY_LINE,       /* vertical containment when the line is within */
    MF_LIMIT_CLEAN_MARGIN,        /* clean at least this far around the work area */
    MF_LIMIT_HEAT_GUN,            /* permitted only below */
    MF_LIMIT_SECTION_UNDIVIDED,   /* a floor or countertop up to this is one section */
    MF_LIMIT_SECTION_PART,        /* each part of a divided one is less than this */
    MF_LIMIT_DRY_WAIT,            /* wait at least this long before the dry cloth */
    MF_LIMIT_DUST_FLOOR,          /* passes below */
    MF_LIMIT_DUST_SILL,           /* passes below */
    MF_LIMIT_DUST_TROUGH,         /* passes below */
    MF_LIMIT_SAMPLE_WAIT,         /* dust sample at least this long after the final cleaning */
    MF_LIMIT_COMPOSITE_WIPES,     /* one composite of wipes holds at most so many */
    MF_LIMIT_SAMPLE_ROOMS,        /* clearance of a work area: rooms sampled at least, or all */
    MF_LIMIT_WIPE_FLOOR,          /* a larger area of one floor wipe is asked about */
    MF_LIMIT_WIPE_SILL,           /* the same of a sill or trough */
    MF_LIMIT_HANDOVER_DAYS,       /* information to owner and occupant within, after completion */
    MF_LIMIT_RETENTION_YEARS,     /* records kept this long after completion */
    MF_LIMIT_FIRM_YEARS,          /* firm certificate at most this long */
    MF_LIMIT_RENEWAL_DAYS,        /* firm's renewal postmarked at least this long before expiry */
    MF_LIMIT_AMEND_DAYS,          /* firm's certification amended within, after a change */
    MF_LIMIT_COURSE_YEARS,        /* renovator or technician, hands-on course */
    MF_LIMIT_COURSE_ONLINE_YEARS, /* renovator, refresher without hands-on part */
    MF_LIMIT_CALIBRATION_HOURS,   /* minutes at most between two calibration checks */
    MF_LIMIT_CORRECTION_BELOW,    /* substrate correction only for readings below */
    MF_LIMIT_CHILD_AGE,           /* a child is younger than */
    MF_LIMIT_ZERO_BEDROOM_CHILD,  /* zero bedrooms do not exempt with a child younger than */
    MF_LIMIT_VISIT_DAYS,          /* facility: one child on at least so many days of a week */
    MF_LIMIT_VISIT_MINUTES,       /* facility: each of these days at least */
    MF_LIMIT_VISIT_WEEK,          /* facility: minutes of these days together at least */
    MF_LIMIT_VISIT_YEAR,          /* facility: minutes in a year at least */
    MF_LIMIT_ASSISTED_INTERIOR,   /* assisted housing: de minimis, each room */
    MF_LIMIT_ASSISTED_EXTERIOR,   /* assisted housing: de minimis outside */
    MF_LIMIT_ASSISTED_PART,     /* assisted housing: de minimis, share of a small component type */
    MF_LIMIT_ASSISTED_HEAT_GUN, /* assisted housing: heat gun permitted up to */
    MF_LIMIT_DRY_SPOT_INTERIOR, /* assisted housing: dry scraping in one room up to */
    MF_LIMIT_DRY_SPOT_EXTERIOR, /* assisted housing: dry scraping outside up to */
    MF_LIMIT_STAY_MINUTES,      /* assisted housing: occupants stay, work of one day up to */
    MF_LIMIT_STAY_DAYS,         /* assisted housing: occupants stay, calendar days up to */
    MF_LIMIT_STAY_MARGIN,       /* assisted housing: cleaned each evening at least this far */
    MF_LIMIT_SIGN_DISTANCE,     /* assisted housing: sign outside read easily from at least */
    MF_LIMIT_SAMPLE_OUTSIDE,    /* assisted housing: floor sampled outside the area within */
    MF_LIMIT_BLOOD_LEAD,        /* assisted housing: elevated at or above */
    MF_LIMIT_ASSESSOR_YEARS,    /* inspector, risk assessor: certificate at most this long */
    MF_LIMIT_EMERGENCY_DAYS,    /* emergency of no last day: excuses for at most this long */
    MF_LIMIT_COUNT
} mf_limit_id;

typedef struct mf_limit {
    mf_limit_id id;
    const char *name; /* stable text id, "paint-loading" */
    int64_t value;    /* in unit */
    mf_unit unit;
    mf_cmp cmp;        /* value-under-test cmp value */
    mf_day from;       /* first day in force, MF_DAY_NONE = always */
    mf_day until;      /* last day in force, MF_DAY_NONE = open */
    const char *place; /* "US" = federal */
    const char *citation;
    mf_status_of_fact status;
    const char *says; /* the test in words, "lead-based paint at or above" */
    const char *note; /* what the reader should know, may be "" */
} mf_limit;

/* All rows; *count is set. The rows live for ever. */
MF_API const mf_limit *mf_limit_rows(size_t *count);

/* The federal row in force on day; NULL when there is none. A day of
 * MF_DAY_NONE asks for the newest. */
MF_API const mf_limit *mf_limit_on(mf_limit_id id, mf_day day);

/* Which change of a limit is stricter: one by which its test holds for fewer
 * values (a smaller area is minor), or for more (a lower paint level is lead).
 * Neither where nobody else may set the number. */
typedef enum mf_stricter { MF_STRICTER_NEVER, MF_STRICTER_FEWER, MF_STRICTER_MORE } mf_stricter;
MF_API mf_stricter mf_limit_stricter(mf_limit_id id);

/* Whether a's test is at least as strict as b's: same limit, same side of the
 * comparison. Exact, as values are whole numbers: "less than 100" is "up to 99". */
MF_API bool mf_limit_as_strict(const mf_limit *a, const mf_limit *b);

/* The id of a limit by its name; MF_LIMIT_COUNT when there is none. */
MF_API mf_limit_id mf_limit_named(const char *name);

/* "<", "<=", ">=", ">". */
MF_API const char *mf_cmp_text(mf_cmp cmp);

/* Whether `value cmp row->value` is true. Exact. */
MF_API bool mf_limit_holds(const mf_limit *row, int64_t value);

/* "verified", "secondary", "from memory", "derived". */
MF_API const char *mf_status_of_fact_text(mf_status_of_fact status);

#ifdef __cplusplus
}
#endif
#endif
