/* reading_index.h - the readings of one job put in order once, for the length of one
 * question. It lies on the stack of whoever asks, and everything in it is a number
 * of a reading or component: nothing is allocated. A job with more readings than it
 * holds is judged without it, more slowly and with the same answers.
 *
 * Without it every reading would be compared with every other one to find the
 * calibration checks around it, and every component with every reading. */
#ifndef MF_CORE_READING_INDEX_H
#define MF_CORE_READING_INDEX_H

#include <mistfold/paint.h>

enum {
    MF_INDEX_READINGS = 4096,
    MF_INDEX_COMPONENTS = 1024,
    MF_INDEX_SLOTS = 4096, /* of the table of ids: a power of two, well over the components */
    MF_INDEX_NONE = 0xFFFF
};

typedef struct mf_reading_index {
    const mf_job *job;
    uint16_t sorted[MF_INDEX_READINGS]; /* by instrument and time */
    uint16_t rank[MF_INDEX_READINGS];   /* where a reading stands in sorted */
    uint16_t before[MF_INDEX_READINGS]; /* nearest timed calibration of its instrument */
    uint16_t after[MF_INDEX_READINGS];
    uint16_t next_of[MF_INDEX_READINGS]; /* the next reading of the same component */
    uint8_t class_of[MF_INDEX_READINGS]; /* 0 = not yet asked, else class + 1 */
    uint8_t enclosed[MF_INDEX_READINGS]; /* 0 = not yet asked, 1 = no, 2 = yes */
    uint16_t first_of[MF_INDEX_COMPONENTS];
    uint16_t slot[MF_INDEX_SLOTS];
    mf_calibration check[MF_INDEX_READINGS / 8]; /* checks worked out, by their hash */
    uint16_t check_at[MF_INDEX_READINGS / 8];    /* the reading each belongs to */
    uint8_t judged[MF_INDEX_COMPONENTS];
    mf_paint_finding finding[MF_INDEX_COMPONENTS];
} mf_reading_index;

/* False when the job is too large for it. */
bool mf_index_readings(mf_reading_index *index, const mf_job *job);

/* The index of a job that has one for just these readings, else NULL. */
mf_reading_index *mf_index_of(const mf_job *job);

/* The place of a reading in the job; SIZE_MAX when it is none of its readings. */
size_t mf_index_place(const mf_job *job, const mf_reading *reading);

/* The neighbour of the same instrument in a direction (-1, 1); SIZE_MAX = none. */
size_t mf_index_beside(const mf_reading_index *index, size_t at, int direction);
/* The nearest calibration reading whose time is known. */
size_t mf_index_calibration(const mf_reading_index *index, size_t at, int direction);

/* The readings of a component, in the order of entry; SIZE_MAX ends them. */
size_t mf_index_first(mf_reading_index *index, const mf_component *component);
size_t mf_index_next(const mf_reading_index *index, size_t at);

/* Where the finding of a component is kept; NULL when there is no room. *known is
 * whether it has been worked out. */
mf_paint_finding *mf_index_finding(mf_reading_index *index, const mf_component *component,
                                   bool *known);

/* calibration.c: the order in which readings were taken (negative, 0, positive). */
int mf_reading_order(const mf_reading *a, size_t ia, const mf_reading *b, size_t ib);

#endif
