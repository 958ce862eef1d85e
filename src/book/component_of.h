/* component_of.h - which component of a job a row of an export means. */
#ifndef MF_BOOK_COMPONENT_OF_H
#define MF_BOOK_COMPONENT_OF_H

#include "book/room.h"

typedef struct mf_component_query {
    mf_book *book;
    const char *job;
    const char *opening;   /* opening id; "" = component is a component id */
    const char *component; /* a word for its type ("sash"), or its id */
    const char *side;      /* "interior", "exterior"; may be "" with an id */
} mf_component_query;

typedef enum mf_component_part {
    MF_PART_COMPONENT,
    MF_PART_OPENING,
    MF_PART_SIDE
} mf_component_part;

/* The id, or what is wrong with which part of the query. */
typedef struct mf_component_answer {
    char id[48];
    mf_component_part part;
    char what[200]; /* "" = found */
    const char *why;
    char mend[300];
} mf_component_answer;

/* Fails only when the book cannot be read. */
mf_status mf_component_of(const mf_component_query *query, mf_component_answer *out, mf_err *err);

#endif
