/* job_lines.h - the entries of a job out of the journal. What is handed on was hashed: the
 * very bytes that are folded are those of which the hash was computed. */
#ifndef MF_BOOK_JOB_LINES_H
#define MF_BOOK_JOB_LINES_H

#include "book/room.h"
#include "journal/fold.h"

/* How far the entries of one job were read. */
typedef struct mf_job_read {
    int64_t last;   /* rowid of the last */
    int64_t n;      /* how many */
    int64_t unread; /* how many of those do not give their hash, or were met out of order */
} mf_job_read;

/* What is wrong with the text of an entry, on which a statement of MF_LINE_COLUMNS stands:
 * NULL = it gives its hash. MF_SYSTEM when memory ran out. */
mf_status mf_line_fault(mf_book *book, mf_stmt *stmt, const mf_line *line, const char **fault,
                        mf_err *err);

/* The same for who hands it out: MF_SYSTEM when it does not. */
mf_status mf_line_as_logged(mf_book *book, mf_stmt *stmt, const mf_line *line, mf_err *err);

/* Adds the entries of job behind *read to the fold and moves *read. */
mf_status mf_job_lines(mf_job_fold *fold, mf_book *book, const char *job, mf_job_read *read,
                       mf_err *err);

/* The entries of job, and those of the firm, corrected: the job's integrity is BROKEN when
 * one of them is not what was logged. The caller frees *out. */
bool mf_corrections_alone(const mf_kind *kind); /* a wanted that wants no kind */
enum { MF_WITHOUT_FIRM, MF_WITH_FIRM };
mf_status mf_job_fold_of(mf_job_fold **out, mf_book *book, const char *job,
                         bool (*wanted)(const mf_kind *kind), int firm, mf_err *err);

#endif
