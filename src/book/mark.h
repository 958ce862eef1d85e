/* mark.h - how far each device's chain was checked (table verified). */
#ifndef MF_BOOK_MARK_H
#define MF_BOOK_MARK_H

#include "book/room.h"

typedef struct mf_mark {
    char device[64];
    int64_t seq; /* 0 = nothing checked yet */
    char hash[MF_HASH_HEX];
    bool moved;
} mf_mark;

typedef struct mf_marks {
    mf_mark *at;
    size_t n, cap;
} mf_marks;

/* One mark for every device of the journal, and for every one that had a mark. */
mf_status mf_marks_load(mf_marks *out, mf_db *db, mf_err *err);
/* Writes those that moved. Saves time only: a failure is no failure. */
void mf_marks_save(const mf_marks *marks, mf_book *book);
void mf_marks_free(mf_marks *marks);

/* A run of entries of one device that was written and read back, the first after
 * the entry with hash prev: the mark moves along if it stood right there. Inside
 * the open group. */
typedef struct mf_run {
    char device[64];
    int64_t first, last;
    char prev[MF_HASH_HEX], hash[MF_HASH_HEX];
} mf_run;
mf_status mf_mark_written(mf_db *db, const mf_run *run, mf_err *err);

#endif
