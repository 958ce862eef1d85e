/* reading_order.h - the readings of one job put in order once: by instrument and time,
 * and by component. Everything in it is a number of a reading or component, and it is
 * not changed once it is made. It lies in memory of the caller (mf_readings_order), or
 * for a job without one on the stack of an audit, when it fits there. Without it a job
 * is judged more slowly, with the same answers: every reading is then compared with
 * every other one to find the calibration checks around it, and with every component. */
#ifndef MF_CORE_READING_ORDER_H
#define MF_CORE_READING_ORDER_H

#include <mistfold/paint.h>

#define MF_ORDER_NONE UINT32_MAX

typedef struct mf_reading_order {
    const mf_reading *reading;
    const mf_component *component;
    size_t n_reading, n_component;
    uint32_t *sorted;                 /* by instrument and time */
    uint32_t *rank;                   /* where a reading stands in sorted */
    uint32_t *before;                 /* nearest timed calibration of its instrument */
    uint32_t *after;                  /* the same later */
    uint32_t *own_before, *own_after; /* the same by the same operator */
    uint32_t *next_of;                /* the next reading of the same component */
    uint32_t *special;                /* those on bare substrate and those read again, as entered */
    uint32_t *first_of;               /* of a component: its first reading */
    uint32_t *slot;                   /* a table of ids: the last component of each */
    uint32_t first_other; /* of those whose component is none of the job's, in one chain */
    size_t n_special, n_slots;
} mf_reading_order;

/* Makes out in room, which is as long as mf_readings_room says. */
void mf_order_make(mf_reading_order *out, const mf_job *job, void *room);

/* The order of a job that has one of just these readings, else NULL. */
const mf_reading_order *mf_order_of(const mf_job *job);

/* The neighbor of the same instrument in a direction (-1, 1); SIZE_MAX = none. */
size_t mf_order_beside(const mf_reading_order *order, size_t at, int direction);
/* The nearest calibration reading whose time is known, by anybody or by the operator. */
size_t mf_order_calibration(const mf_reading_order *order, size_t at, int direction, bool own);
/* The last component of this id; SIZE_MAX = none. */
size_t mf_order_component(const mf_reading_order *order, const char *id);

/* The place of a reading in the job; SIZE_MAX when it is none of its readings. */
size_t mf_reading_place(const mf_job *job, const mf_reading *reading);

/* The readings of a component, of whatever purpose, in the order of entry, with the
 * order or without it; SIZE_MAX ends them. */
size_t mf_reading_first(const mf_job *job, const char *component);
size_t mf_reading_next(const mf_job *job, const char *component, size_t at);

/* Readings on bare substrate and those read again, in the order of entry, and without
 * the order others between them: from begins with 0, NULL ends them. */
const mf_reading *mf_reading_special(const mf_job *job, size_t *from);

/* calibration.c: the order in which readings were taken (negative, 0, positive). */
int mf_reading_taken(const mf_reading *a, size_t ia, const mf_reading *b, size_t ib);
/* Also there: a calibration reading whose time is known. */
bool mf_reading_timed_calibration(const mf_reading *reading);

#endif
