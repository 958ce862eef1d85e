/* asked.h - the jobs whose entries and rows an answer about one job rests on. */
#ifndef MF_BOOK_ASKED_H
#define MF_BOOK_ASKED_H

#include "base/mem.h"
#include "book/room.h"

/* The job itself, and those that may be at the same address and unit: 40 CFR 745.83 counts
 * what they disturb (load_earlier.h). */
typedef struct mf_asked {
    mf_arena arena;
    const char **id; /* id[0] is the job */
    size_t n, cap;
    const struct mf_firm_read *firm_read; /* the entries of the firm were read before, and are not
                                             among these; NULL = they are */
} mf_asked;

/* Which entries of the firm were read, in the order of devices and numbers. */
typedef struct mf_firm_read {
    mf_arena arena;
    struct mf_firm_entry {
        const char *device;
        int64_t seq;
    } * at;
    size_t n, cap;
} mf_firm_read;
mf_status mf_firm_read_add(mf_firm_read *read, const char *device, int64_t seq, mf_err *err);
bool mf_firm_was_read(const mf_firm_read *read, const char *device, int64_t seq);
void mf_firm_read_free(mf_firm_read *read);

/* Fills out, which mf_asked_free frees also after a failure. Where a table of it is
 * missing the job stands alone: the check of the schema tells. */
mf_status mf_asked_load(mf_asked *out, mf_book *book, const char *job, mf_err *err);
void mf_asked_free(mf_asked *asked);
bool mf_asked_has(const mf_asked *asked, const char *job);

/* Appends " IN ('', ?1, ?2 ...)", the firm, unless it was read, and these jobs; bind sets the
 * parameters. */
void mf_asked_sql(mf_buf *sql, const mf_asked *asked);
void mf_asked_bind(mf_stmt *stmt, const mf_asked *asked);

#endif
