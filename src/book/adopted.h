/* adopted.h - what a merge took over though something contradicts it: whose entries they are,
 * who said why, and as which entry that was logged. */
#ifndef MF_BOOK_ADOPTED_H
#define MF_BOOK_ADOPTED_H

#include "base/mem.h"
#include "book/room.h"

typedef struct mf_adopted {
    char entry[MF_ENTRY_ID];        /* of kind adoption */
    char by[MF_DEVICE_MAX + 1];     /* the device that logged it */
    char device[MF_DEVICE_MAX + 1]; /* whose entries they are */
    int64_t from, to;
    const char *who, *day, *reason;
} mf_adopted;

/* Zero-initialize to start. */
typedef struct mf_adopted_list {
    mf_adopted *at;
    size_t n, cap;
    mf_arena arena; /* of its texts */
} mf_adopted_list;

/* All of the book, but for those that were withdrawn. Free it in any case. */
mf_status mf_adopted_read(mf_adopted_list *out, mf_book *book, mf_err *err);
/* The first that is of this entry, and that one of two devices logged; NULL = none is. */
const mf_adopted *mf_adopted_of(const mf_adopted_list *list, const char *const by[2],
                                const char *device, int64_t seq);
void mf_adopted_free(mf_adopted_list *list);

#endif
