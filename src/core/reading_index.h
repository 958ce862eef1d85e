/* reading_index.h - what one question has worked out so far, so that it is worked out
 * once however many requirements ask for it. It lies on the stack of whoever asks; of
 * more readings, or more components, than it holds it keeps nothing. */
#ifndef MF_CORE_READING_INDEX_H
#define MF_CORE_READING_INDEX_H

#include "core/reading_order.h"

enum {
    MF_INDEX_READINGS = 4096,
    MF_INDEX_COMPONENTS = 1024,
    /* Room on the stack for the order of that many. */
    MF_INDEX_ROOM = (MF_INDEX_READINGS * 8 + MF_INDEX_COMPONENTS * 5) * 4
};

typedef struct mf_reading_index {
    const mf_job *job;
    bool keeps_readings, keeps_components;
    uint8_t class_of[MF_INDEX_READINGS];         /* 0 = not yet asked, else class + 1 */
    uint8_t enclosed[MF_INDEX_READINGS];         /* 0 = not yet asked, 1 = no, 2 = yes */
    mf_calibration check[MF_INDEX_READINGS / 8]; /* checks worked out, by their hash */
    uint32_t check_at[MF_INDEX_READINGS / 8];    /* the reading each belongs to */
    uint8_t judged[MF_INDEX_COMPONENTS];
    mf_paint_finding finding[MF_INDEX_COMPONENTS];
} mf_reading_index;

/* An empty one. */
void mf_index_begin(mf_reading_index *index, const mf_job *job);

/* The index of a job that has one for just these readings, else NULL. */
mf_reading_index *mf_index_of(const mf_job *job);

/* Where the finding of a component is kept; NULL when there is no room. *known is
 * whether it has been worked out. */
mf_paint_finding *mf_index_finding(mf_reading_index *index, const mf_component *component,
                                   bool *known);

#endif
