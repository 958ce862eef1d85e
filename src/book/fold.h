/* fold.h - from the journal to the derived tables.
 *
 * Which row an entry has depends on the set of entries alone, not on the order
 * in which they came in: of the corrections of an entry those that another one
 * replaces are out, and of the rest the last by (logged_at, device, seq) is in
 * force. Two books that hold the same entries hold the same tables. */
#ifndef MF_BOOK_FOLD_H
#define MF_BOOK_FOLD_H

#include "base/mem.h"
#include "book/journal.h"

/* Where entries are read and where rows are written; the same connection except
 * when a book is checked. */
typedef struct mf_fold {
    mf_db *journal, *tables;
    bool index_later;   /* place and due are filled at the end */
    bool targets_later; /* what is corrected is brought up to date by mf_fold_targets: once
                         * for each, not once for each of its corrections, of which every
                         * one looks at all before it */
} mf_fold;

/* What is in force for an entry: the entry that says it and its body. */
typedef struct mf_in_force {
    const char *entry; /* "" = the entry itself, never corrected */
    const char *body;  /* "" = withdrawn */
} mf_in_force;

/* Brings the derived row of one entry (or, for a correction, of its target) up
 * to date. An entry of an unknown kind has no row. */
mf_status mf_fold_entry(const mf_fold *fold, const char *device, int64_t seq, mf_err *err);

/* The same for a line that is at hand. */
mf_status mf_fold_line(const mf_fold *fold, const mf_line *line, mf_err *err);

/* With targets_later, after the last line: what the corrections with a rowid above from
 * correct. */
mf_status mf_fold_targets(const mf_fold *fold, int64_t from, mf_err *err);

/* All entries of the journal into empty tables. */
mf_status mf_fold_all(const mf_fold *fold, mf_err *err);

/* The correction in force for the entry target of job; entry "" when there is none. One
 * of another job corrects nothing: who checks or prints a job reads its own. Texts are
 * in arena. */
mf_status mf_fold_in_force(mf_in_force *out, mf_arena *arena, mf_db *tables, const char *target,
                           const char *job, mf_err *err);

/* Appends what the entry id said: its body or, if it is a correction, the body it
 * put in force. Nothing when it is not there. */
mf_status mf_fold_said(mf_buf *out, mf_arena *arena, const mf_fold *fold, const char *id,
                       mf_err *err);

#endif
