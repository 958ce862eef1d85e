/* mistfold/fact.h - what every fact of a job is made of (job.h). */
#ifndef MISTFOLD_FACT_H
#define MISTFOLD_FACT_H

#include <mistfold/day.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#define MF_NUM_NONE INT64_MIN

typedef enum mf_tri { MF_UNKNOWN, MF_NOT, MF_YES } mf_tri;

/* Where a value comes from: the entry that says it. */
typedef struct mf_src {
    const char *entry;      /* "device/seq", the entry first made */
    const char *at;         /* when it was logged, "YYYY-MM-DDTHH:MM:SSZ" */
    const char *by;         /* who logged it */
    const char *correction; /* the entry that corrected it last, or "" */
} mf_src;

typedef enum mf_discipline {
    MF_DISC_FIRM,
    MF_DISC_RENOVATOR,
    MF_DISC_INSPECTOR,
    MF_DISC_RISK_ASSESSOR,
    MF_DISC_DUST_TECHNICIAN /* dust sampling technician */
} mf_discipline;

typedef enum mf_side { MF_SIDE_INTERIOR, MF_SIDE_EXTERIOR } mf_side;

#ifdef __cplusplus
}
#endif
#endif
