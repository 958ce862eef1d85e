/* fold.h - from entries to the job as one plain value.
 *
 * What comes of them depends on the set of entries alone, not on the order in which they
 * came in: of the corrections of an entry those that another one goes on from or settles are
 * out, and of the rest the last by (at, device, seq) is in force. A correction of another job
 * corrects nothing. Whoever holds the same entries holds the same job. */
#ifndef MF_JOURNAL_FOLD_H
#define MF_JOURNAL_FOLD_H

#include "journal/body.h"
#include "journal/line.h"

enum { MF_KINDS_MAX = 64 };

/* The items of a kind as they were added; the one of a withdrawn entry stays, dead. */
typedef struct mf_fold_list {
    unsigned char *items;
    size_t n, cap;
    bool *dead;
    size_t cap_dead;
} mf_fold_list;

/* An entry that was added, and where its item is. */
typedef struct mf_fold_seen {
    const char *id, *body;
    int kind; /* index of its list; -1 = of a kind that has no items here */
    bool firm, unread;
    size_t item;
} mf_fold_seen;

typedef struct mf_fold_correction {
    mf_correction said;
    bool firm;
} mf_fold_correction;

/* That a correction goes on from another entry, or settles it. */
typedef struct mf_fold_named {
    const char *target, *named, *by;
    bool firm;
} mf_fold_named;

/* The job comes first: a pointer to it is a pointer to this. */
typedef struct mf_job_fold {
    mf_job job;
    mf_arena arena;
    bool (*wanted)(const mf_kind *kind); /* NULL = every kind */
    mf_fold_list list[MF_KINDS_MAX];
    mf_fold_seen *seen;
    size_t n_seen, cap_seen;
    mf_fold_correction *corrections;
    size_t n_corrections, cap_corrections;
    mf_fold_named *named;
    size_t n_named, cap_named;
    mf_correction *corrected; /* the list of the job */
    const char *at, *who;     /* of the entry added last */
    const mf_kind *last;      /* the kind that was asked for last */
} mf_job_fold;

/* Begins with no entry; NULL when memory ran out. job "" is the firm alone. */
mf_job_fold *mf_job_fold_new(const char *job, bool (*wanted)(const mf_kind *kind));
void mf_job_fold_free(mf_job_fold *fold);

/* Whether it takes an entry in: one of the job or of the firm, of a kind that is wanted. */
bool mf_job_fold_wants(mf_job_fold *fold, const mf_line *line);
/* Adds it, or leaves it out. */
mf_status mf_job_fold_add(mf_job_fold *fold, const mf_line *line, mf_err *err);

/* Brings the items up to date with the corrections so far; more entries may follow. */
mf_status mf_job_fold_correct(mf_job_fold *fold, mf_err *err);
/* The item at a place of its list, NULL = it was withdrawn. After mf_job_fold_correct. */
const void *mf_job_fold_item(const mf_job_fold *fold, const mf_kind *kind, size_t at);
size_t mf_job_fold_count(const mf_job_fold *fold, const mf_kind *kind);

/* The entry of that name, NULL = it was not added. After mf_job_fold_correct, of a fold that has
 * a correction: only then are they in order. */
mf_fold_seen *mf_job_fold_seen(const mf_job_fold *fold, const char *id);

/* Makes the lists of the job, in the order in which the items were made, withdrawn ones left
 * out. After that nothing is added. MF_SYSTEM, named MF_ERR_UNREAD, when what is in force
 * says a word that is not known here: the lists stand all the same, without that word. */
mf_status mf_job_fold_finish(mf_job_fold *fold, mf_err *err);
/* The same for whoever needs none of those words: MF_OK also where one is not known. */
mf_status mf_job_fold_finish_known(mf_job_fold *fold, mf_err *err);

/* After that: takes out what counts only from a later day (mf_book_job_until in book.h). */
mf_status mf_job_fold_until(mf_job_fold *fold, mf_day day, size_t *left_out, mf_err *err);

/* What is in force for an entry: the correction that says it, NULL = the entry itself. After
 * mf_job_fold_correct, as all that follows. */
const mf_correction *mf_job_fold_in_force(const mf_job_fold *fold, const char *entry, bool firm);

/* The corrections of an entry that no other one goes on from or settles, by their names; NULL
 * behind the last. Where there is more than one, devices did not know of each other. */
const mf_correction *mf_job_fold_standing(const mf_job_fold *fold, const char *entry, bool firm,
                                          size_t nth);

/* Where the *n corrections of an entry begin of which several stand and end in different words;
 * two = of those that stand the ones whose names come first and last. from = where to look on,
 * fold->n_corrections = there is no such entry. */
size_t mf_job_fold_contradiction(const mf_job_fold *fold, size_t from, size_t *n,
                                 const mf_correction *two[2]);

/* Whether the entry of that name is a correction of the same entry as another one. */
bool mf_job_fold_beside(const mf_job_fold *fold, const mf_fold_correction *it, const char *named);
/* Whether nothing that a correction goes on from or settles goes back to another one of these,
 * or to itself: then it can have seen them side by side. */
mf_status mf_job_fold_side_by_side(const mf_job_fold *fold, const mf_fold_correction *it, bool *is,
                                   mf_err *err);

/* ---- of fold.c and in_force.c alone ---- */

/* Puts the corrections in the order of what they correct, and of their names. */
void mf_fold_sort(mf_job_fold *fold);
/* How many corrections of one entry begin at a place. */
size_t mf_fold_group(const mf_job_fold *fold, size_t from);
/* Which of these is in force; NULL = none. */
const mf_correction *mf_fold_force(const mf_job_fold *fold, size_t from, size_t n);
#endif
