/* mistfold/reading.h - XRF readings, the profile they are judged by, and how they
 * came in: parts of a job (job.h), with the same rules for what was not given.
 */
#ifndef MISTFOLD_READING_H
#define MISTFOLD_READING_H

#include <mistfold/fact.h>

#ifdef __cplusplus
extern "C" {
#endif

/* HUD Guidelines ch. 7: the six substrates. */
typedef enum mf_substrate {
    MF_SUB_BRICK,
    MF_SUB_CONCRETE,
    MF_SUB_DRYWALL,
    MF_SUB_METAL,
    MF_SUB_PLASTER,
    MF_SUB_WOOD
} mf_substrate;

/* What the performance sheet of an instrument says of one substrate. It goes
 * before the instrument's own range and narrows its tolerance. */
typedef struct mf_profile_row {
    mf_src src;
    const char *instrument; /* serial */
    mf_substrate substrate;
    const char *mode;         /* depth, time or mode it holds for; "" = any */
    const char *edition;      /* of the sheet */
    int64_t threshold_ug_cm2; /* at or above is positive, below negative; MF_NUM_NONE = a range */
    int64_t low_ug_cm2, high_ug_cm2; /* inconclusive range; MF_NUM_NONE = threshold */
    mf_tri bounds_inside;            /* whether the bounds are inconclusive; unknown = yes */
    mf_tri correct;                  /* readings need substrate correction; unknown = no */
    int64_t cal_low_ug_cm2, cal_high_ug_cm2; /* both inside; MF_NUM_NONE = the instrument's */
    /* Retest check (retest.h); MF_NUM_NONE = not on the sheet. */
    int64_t retest_factor_millionths; /* 0.0072 = 7200 */
    int64_t retest_base_thousandths;  /* 0.032 = 32 */
    int64_t retest_z_thousandths;     /* 1.645 = 1645 */
    const char *note;
} mf_profile_row;

typedef enum mf_purpose {
    MF_READ_PAINT,       /* a reading of a component */
    MF_READ_CALIBRATION, /* a reading on the reference film */
    MF_READ_SUBSTRATE,   /* on the film over a bared substrate: substrate correction */
    MF_READ_RETEST       /* a component read again for the retest check */
} mf_purpose;

typedef enum mf_qualifier {
    MF_QUAL_EXACT,
    MF_QUAL_OVER, /* display saturated: a lower bound, positive */
    MF_QUAL_UNDER /* below what the instrument shows: an upper bound */
} mf_qualifier;

typedef struct mf_reading {
    mf_src src;
    int64_t number;          /* as the instrument counted it */
    const char *instrument;  /* serial */
    const char *operator_id; /* person who held it */
    mf_purpose purpose;
    const char *component; /* component id; "" for calibration */
    mf_substrate substrate;
    const char *colour;
    mf_qualifier qualifier;
    int64_t loading_ug_cm2; /* exact; negative readings are legitimate */
    int64_t film_ug_cm2;    /* certified value of the film; MF_NUM_NONE = the instrument's */
    const char *mode;       /* depth, time or mode of the instrument; "" = not said */
    mf_day on;
    int32_t at_minute;
} mf_reading;

/* One export that was read in. */
typedef struct mf_intake {
    mf_src src;
    const char *sha256, *file;
    int64_t readings, calibrations, skipped;
} mf_intake;

/* What one head of an instrument's exports means. The last one said holds. */
typedef struct mf_column_map {
    mf_src src;
    const char *instrument, *head, *column;
} mf_column_map;

#ifdef __cplusplus
}
#endif
#endif
