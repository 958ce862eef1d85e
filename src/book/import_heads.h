/* import_heads.h - which column of an export is which: by our own names, by a map
 * that a person gave, or by the map kept for the instrument. */
#ifndef MF_BOOK_IMPORT_HEADS_H
#define MF_BOOK_IMPORT_HEADS_H

#include "book/import.h"

/* The columns of an export. */
enum {
    MF_COL_NUMBER,
    MF_COL_INSTRUMENT,
    MF_COL_OPERATOR,
    MF_COL_DATE,
    MF_COL_TIME,
    MF_COL_OPENING,
    MF_COL_COMPONENT,
    MF_COL_SIDE,
    MF_COL_SUBSTRATE,
    MF_COL_COLOR,
    MF_COL_RESULT,
    MF_COL_UNIT,
    MF_COL_PURPOSE,
    MF_COL_FILM,
    MF_COL_MODE,
    MF_COL_COUNT
};

#define MF_NO_MEMBER SIZE_MAX

/* A member of mf_reading takes the cell as it is; the others are looked at. */
typedef struct mf_column {
    const char *head;
    size_t member;
    bool needed;
} mf_column;
extern const mf_column mf_columns[MF_COL_COUNT];

typedef struct mf_heads {
    size_t at[MF_COL_COUNT]; /* column of the file, MF_NO_COLUMN = none */
    char unit[24];           /* of the result, from its head, or "" */
} mf_heads;

/* Reads the heads of in->csv; in->out->map_of tells whose saved map was used. */
mf_status mf_heads_read(mf_import *in, mf_heads *out, mf_err *err);

/* Keeps the map that was given as entries, for the instrument serial; what is kept of it
 * already is not logged again. */
mf_status mf_heads_keep(mf_import *in, const char *serial, mf_err *err);

#endif
