/* mistfold/paint.h - what the evidence says of a component's paint.
 *
 * A component is free of lead-based paint only if evidence of one of three
 * kinds says so (40 CFR 745.82(a)(1)-(3)): a certified inspector's or risk
 * assessor's written determination of which the firm holds a copy (this is
 * where XRF readings belong), a certified renovator's EPA-recognized test kit,
 * or a certified renovator's paint chip analyzed by a laboratory recognized
 * under TSCA 405(b); and the person's certificate was valid on that day. A
 * positive from anyone counts. Everything else is presumed lead-based.
 *
 * Exact: loadings are whole micrograms per cm2, 1.0 mg/cm2 is 1000.
 */
#ifndef MISTFOLD_PAINT_H
#define MISTFOLD_PAINT_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_paint_class {
    MF_CLASS_NEGATIVE,
    MF_CLASS_INCONCLUSIVE,
    MF_CLASS_POSITIVE
} mf_paint_class;

/* One reading against the action level in force on its day, and the instrument's
 * inconclusive range (instrument may be NULL: threshold only). An OVER reading
 * is positive. An UNDER reading counts by its upper bound: negative when all
 * below the bound is negative, else inconclusive. By the strictest limits of the job's
 * places; job NULL = by the federal ones alone. */
MF_API mf_paint_class mf_reading_class_for(const mf_job *job, const mf_reading *reading,
                                           const mf_instrument *instrument);

/* Substrate correction of one reading (HUD Guidelines ch. 7 s. IV.E). */
typedef enum mf_correction_state {
    MF_CORRECTION_NONE,     /* the profile asks for none here */
    MF_CORRECTION_DONE,     /* value = reading - (mean of the bare readings - film) */
    MF_CORRECTION_TOO_HIGH, /* 4.0 mg/cm2 or more, or saturated: positive as it stands */
    MF_CORRECTION_MISSING   /* asked for, but there are not six usable bare readings */
} mf_correction_state;

/* One reading judged by all that the job knows of its instrument. Values are
 * exact: value is num / den micrograms per cm2. */
typedef struct mf_reading_result {
    mf_paint_class found;      /* after correction, by the strictest line that may apply */
    mf_paint_class raw;        /* as the display stood */
    const mf_profile_row *row; /* the line that decided; NULL = the instrument's own fields */
    mf_correction_state correction;
    int n_bare;            /* bare readings of the same instrument and substrate */
    int64_t num, den;      /* the value that was classified; den 0 = none */
    bool rounding_matters; /* rounded to one decimal it would be of another class */
    bool bounds_unknown;   /* it lies on a bound, and whether that is inside is not said */
    bool mode_unknown;     /* several lines of the profile may apply: the strictest did */
} mf_reading_result;

/* Judges a reading by the lines of its instrument's profile for its substrate
 * and mode or, without one, by the instrument's own fields. A correction that is
 * due but cannot be made leaves no negative: inconclusive. */
MF_API void mf_reading_judge(const mf_job *job, const mf_reading *reading, mf_reading_result *out);
/* The same, the class alone. */
MF_API mf_paint_class mf_reading_class_in(const mf_job *job, const mf_reading *reading);

/* A chip: either measure at or above its limit is positive. Inconclusive when
 * neither was reported, or when one chip of a composite could be positive. By the
 * strictest limits of the job's places; job NULL = by the federal ones alone. */
MF_API mf_paint_class mf_chip_class_for(const mf_job *job, const mf_chip *chip);

/* The attachment that is the laboratory's report of a chip or wipe: the one that its
 * report names, by file name, by entry or by the first 8 or more digits of its
 * SHA-256; else a PDF attached about its entry. NULL when none is. */
MF_API const mf_attachment *mf_report_attached(const mf_job *job, const char *entry,
                                               const char *report);

typedef enum mf_paint_verdict {
    MF_PAINT_LEAD,     /* lead-based paint was found */
    MF_PAINT_PRESUMED, /* nothing lawful says it is free */
    MF_PAINT_FREE,     /* shown free in one of the three lawful ways */
    MF_PAINT_UNPAINTED /* nothing painted, and no test of it found lead */
} mf_paint_verdict;

typedef enum mf_paint_basis {
    MF_BASIS_NONE,
    MF_BASIS_XRF,           /* reading(s), with the determination when FREE */
    MF_BASIS_DETERMINATION, /* a determination that names the component itself */
    MF_BASIS_KIT,
    MF_BASIS_CHIP
} mf_paint_basis;

/* Why a component is presumed (or, FREE and LEAD, MF_DOUBT_NONE). */
typedef enum mf_paint_doubt {
    MF_DOUBT_NONE,
    MF_DOUBT_UNTESTED,
    MF_DOUBT_INCONCLUSIVE,
    MF_DOUBT_XRF_BY_RENOVATOR, /* negative readings, but not by a certified assessor */
    MF_DOUBT_CERTIFICATE,      /* the certificate was not valid on the day */
    MF_DOUBT_NO_DETERMINATION, /* assessor's negative readings without a written determination */
    MF_DOUBT_NO_METHOD,   /* a determination that names it, with neither readings nor a method */
    MF_DOUBT_NO_COPY,     /* the firm holds no copy of the determination */
    MF_DOUBT_CALIBRATION, /* readings not enclosed by two good calibration checks */
    MF_DOUBT_KIT_TESTER,  /* kit test not by a certified renovator */
    MF_DOUBT_KIT_UNRECOGNIZED,
    MF_DOUBT_KIT_SUBSTRATE, /* kit recognized, but not for what is under this paint */
    MF_DOUBT_KIT_UNSAID,    /* kit recognized, and nobody said for which substrates */
    MF_DOUBT_SUBSTRATE,     /* a reading says another substrate than the component's own entry */
    MF_DOUBT_LOCAL_LEVEL,   /* it tells EPA's level, and the place has a stricter one */
    MF_DOUBT_CHIP_SAMPLER,  /* chip not by a certified renovator or assessor */
    MF_DOUBT_LABORATORY,    /* laboratory not recognized */
    MF_DOUBT_AFTER_WORK,    /* lawful, but dated after the paint was disturbed */
    MF_DOUBT_AFTER_START,   /* lawful, but dated after the planned start, and no work is logged */
    MF_DOUBT_SAME_DAY,      /* lawful, but of the day on which work began, and no times say that it
                             * came first */
    MF_DOUBT_CONTRADICTION, /* LEAD, though other evidence says free: positive wins */
    MF_DOUBT_UNPAINTED      /* LEAD, though it is logged as not painted: positive wins */
} mf_paint_doubt;

typedef struct mf_paint_finding {
    const mf_component *component;
    mf_paint_verdict verdict;
    mf_paint_basis basis;
    mf_paint_doubt doubt;
    const mf_reading *worst; /* highest reading, NULL when none */
    const char *evidence;    /* entry id of what decided, "" when nothing did */
    const char *by;          /* person who tested, "" when nobody did */
    mf_day on;               /* day of the deciding test */
} mf_paint_finding;

/* Whether a kit is recognized for the substrate of the component it was used on (EPA's
 * recognition notices go by substrate): MF_UNKNOWN when its substrates, or the component, were not
 * logged. */
MF_API mf_tri mf_kit_fits(const mf_job *job, const mf_kit_test *kit);

MF_API void mf_paint_judge(const mf_job *job, const mf_component *component, mf_paint_finding *out);

/* Whether the work disturbs the component: what is not said counts as yes, and what is
 * removed is disturbed. */
MF_API bool mf_component_disturbed(const mf_component *component);

/* The same of its paint. A component on which a test found lead has some, though it is
 * logged as not painted. */
MF_API bool mf_paint_disturbed(const mf_job *job, const mf_component *component);

/* Surface that counts as disturbed, hundredths of a square foot: all of it where it comes
 * off (40 CFR 745.83, minor repair), as a part does of an opening that is replaced unless it is
 * said to stay. MF_NUM_NONE = not known. */
MF_API int64_t mf_disturbed_area(const mf_job *job, const mf_component *component);

/* Whether a part of the opening is listed; and the first opening of the job that has none,
 * NULL = each has one. Nobody has said what the work disturbs there: the paint of such an
 * opening is taken to be disturbed, and is presumed to be lead-based. */
MF_API bool mf_opening_listed(const mf_job *job, const char *opening);
MF_API const mf_opening *mf_opening_unlisted(const mf_job *job);

/* Whether an opening is replaced: said of it, or a part of it comes off, or the work is
 * replacing windows or doors and nobody said otherwise. */
MF_API bool mf_opening_replaced(const mf_job *job, const mf_opening *opening);

/* Of an opening that is replaced, the usual parts (common practice, no source) that are
 * neither listed nor said to be absent: how many, and the first one's word. Nobody has said
 * of them whether they are painted, so they free no job. */
typedef struct mf_unlisted_parts {
    const mf_opening *opening; /* the first with such parts; NULL = there is none, or none is
                                  listed of the kind that the work replaces */
    const char *part;          /* word of mf_component_type; "" = no part at all is listed; without
                                  an opening: "window" or "door" */
    int64_t n;
    bool kept; /* the first one is a sash or a slab that is said to stay, or not to be there */
} mf_unlisted_parts;
MF_API bool mf_parts_unlisted(const mf_job *job, mf_unlisted_parts *out);

/* The usual part of an opening of that kind at a place from 0, by common practice (no source),
 * and the side it is listed on: inside what has both. False past the last. */
typedef struct mf_usual_part {
    mf_component_type type;
    mf_side side;
} mf_usual_part;
MF_API bool mf_usual_part_at(mf_opening_kind kind, size_t at, mf_usual_part *out);
/* Whether words of what an opening does not have (its member absent) say that of the part at
 * that place: by its type, or by its whole side where it belongs to one. False past the last. */
MF_API bool mf_usual_part_absent(mf_opening_kind kind, size_t at, const char *absent);

/* Whether usual parts of that side of an opening that is replaced are neither listed nor said
 * to be absent; what belongs to no side (sash, stop, jamb ...) is looked for inside. */
MF_API bool mf_side_unlisted(const mf_job *job, const mf_opening *opening, mf_side side);

/* Whether a window is replaced, by what is done and not by what the job is called: never
 * minor (40 CFR 745.83). */
MF_API bool mf_window_replaced(const mf_job *job);

/* The first test that found lead on a part which the job does not list: withdrawn on one
 * device while it was tested on another. False when there is none. */
typedef struct mf_unlisted_lead {
    const char *component, *evidence; /* as the test names it; the test's entry */
    mf_day on;
} mf_unlisted_lead;
MF_API bool mf_paint_unlisted(const mf_job *job, mf_unlisted_lead *out);

/* Puts the readings of a job in order, by time and by component, in memory of the caller:
 * room, aligned as malloc aligns, of as many bytes as mf_readings_room says. It must
 * live as long as the job, whose readings and components must stay what they are; it may
 * be read by several threads. What a job from the book answers is the same without it, but
 * then every reading is compared with every other one. Jobs of mf_book_job have it. */
MF_API size_t mf_readings_room(const mf_job *job);
MF_API void mf_readings_order(mf_job *job, void *room);

/* One calibration check: the consecutive calibration readings of one instrument
 * on one day that follow each other within ten minutes. */
typedef struct mf_calibration {
    const char *instrument, *operator_id;
    mf_day on;
    int32_t first_minute, last_minute;
    int n;                /* readings */
    int64_t sum_ug_cm2;   /* of the readings: the mean is sum / n, never rounded */
    bool good;            /* three or more readings, mean inside both tolerances */
    const char *evidence; /* entry id of its first reading */
} mf_calibration;

/* Fills at most cap checks in order of time and returns how many there are. */
MF_API size_t mf_calibrations(const mf_job *job, mf_calibration *out, size_t cap);

/* Whether a reading lies between two good checks of its instrument by its operator,
 * no more than the limit (4 hours, secondary) apart from each other, and the nearest
 * checks by anybody are so as well. Unknown times count as not enclosed. */
MF_API bool mf_reading_enclosed(const mf_job *job, const mf_reading *reading);

#ifdef __cplusplus
}
#endif
#endif
