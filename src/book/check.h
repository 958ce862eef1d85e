/* check.h - proving that a book is unaltered: the parts of mf_book_check.
 *
 * One pass over the journal in the order of the chains, so that memory stays flat however
 * long it is, and one over the jobs for the tables that are made from it. */
#ifndef MF_BOOK_CHECK_H
#define MF_BOOK_CHECK_H

#include "base/digest.h"
#include "book/asked.h"
#include "book/journal.h"
#include "book/mark.h"
#include "journal/fold.h"
#include <mistfold/heads.h>
#include <pthread.h>

/* The entry before on the same device. */
typedef struct mf_chain {
    char device[64];
    int64_t seq, rowid;
    char hash[MF_HASH_HEX];
} mf_chain;

enum { MF_CONTRARY = 100 };

typedef struct mf_checker {
    mf_book *book;
    mf_db noted; /* in memory: which bytes entries name (check_content.c) */
    mf_book_report *out;
    const mf_watch *watch;
    int64_t total;
    int64_t attached; /* entries of kind attachment */
    bool only_tables; /* no fault so far is one of the journal */
    /* Whether somebody takes over what contradicts a head that was noted, of this entry: a merge
     * that goes on asks; NULL = nobody does. */
    bool (*adopts)(void *data, const char *device, int64_t seq);
    void *data;       /* for it */
    int64_t own_gone; /* an entry of our own that a witness names and that is not here; 0 = none */
    char contrary[MF_CONTRARY];    /* devices whose entries witnesses contradict, with commas */
    bool contrary_unsaid;          /* one of them does not say whose, or there was no room for it */
    char contrary_by[MF_ENTRY_ID]; /* the first of those witnesses; "" = none */
} mf_checker;

/* Of an entry e of the firm: whether another one withdraws it, of the device that logged it or of
 * this one. Else a chain that was made anew would bring along the end of what contradicts it. A
 * correction does not count, as what was logged first is what was said. */
#define MF_IS_WITHDRAWN                                                                            \
    MF_WITHDRAWN_BY " AND n.device IN (e.device, (SELECT value FROM meta WHERE key = 'device')))"
/* The same by whichever device. */
#define MF_IS_WITHDRAWN_ANYWHERE MF_WITHDRAWN_BY ")"
#define MF_WITHDRAWN_BY                                                                            \
    "EXISTS (SELECT 1 FROM entry AS n WHERE n.job = '' AND n.kind = 'correction'"                  \
    " AND n.body ->> '$.target' = e.device || '/' || e.seq AND n.body ->> '$.body' IS NULL"

/* SQLite's check of the file, beside the rest. */
typedef struct mf_file_check {
    mf_db db;
    pthread_t thread;
    bool apart; /* it runs in thread */
    mf_status status;
    char words[201]; /* what it says */
} mf_file_check;

/* Counts a fault and keeps the words of the first. */
void mf_fault(mf_checker *c, bool of_journal, const char *where, const char *format, ...)
    MF_PRINTF(4, 5);

/* SQLite's check tells in its words also what it could not read: then nothing is known
 * about the file, and *code says why. */
bool mf_could_not_read(const char *words, int *code);

/* Begin and end; end accepts one that was never begun. */
void mf_checker_begin(mf_checker *c);
void mf_checker_end(mf_checker *c);
/* MF_OK, or MF_NO with the first fault in err. */
mf_status mf_checker_verdict(const mf_checker *c, mf_err *err);

/* Begins the check of the file; end waits for it and tells what it found. status is
 * that of the rest: when it is not MF_OK the check of the file is given up. */
void mf_file_check_begin(mf_file_check *f, const mf_checker *c);
mf_status mf_file_check_end(mf_file_check *f, mf_checker *c, mf_status status, mf_err *err);

/* The triggers, tables and views are there and as we made them. */
mf_status mf_check_schema(mf_checker *c, mf_err *err);
/* Every hash and every chain. */
mf_status mf_check_journal(mf_checker *c, mf_err *err);
/* Attachments: every bytes, and each named by an entry. */
mf_status mf_check_contents(mf_checker *c, mf_err *err);
/* The bytes of one attachment of entry where. */
mf_status mf_check_content(mf_checker *c, const char *where, const char *sha256, mf_err *err);
/* The entry to which each chain was checked before is still there, as it was. */
mf_status mf_check_marks(mf_checker *c, mf_err *err);
/* The heads that seals name which were logged behind that row of the journal; after it. */
mf_status mf_check_seals(mf_checker *c, int64_t behind, mf_err *err);
/* Counts the fault of a head that does not stand; it->by begins the message. */
void mf_head_fault(mf_checker *c, const mf_head_seen *it);
/* The heads that witnesses name (kind witness), but for those that were withdrawn. What
 * contradicts one and was adopted is counted apart, not as a fault. */
mf_status mf_check_witnesses(mf_checker *c, mf_err *err);
/* The corrections of a job: what each settles stood beside what it goes on from. */
mf_status mf_check_settles(mf_checker *c, const mf_job_fold *fold, mf_err *err);
/* What is wrong with what one of them settles, in what: "" = nothing. */
enum { MF_SETTLES_WHAT = 160 };
mf_status mf_settles_fault(char what[MF_SETTLES_WHAT], mf_book *book, const mf_job_fold *fold,
                           const mf_fold_correction *it, mf_err *err);
/* What was noted at an earlier time. */
mf_status mf_check_against(mf_checker *c, const char *against, mf_err *err);

/* check_job.c: of each of many jobs what mf_book_check_job says of one; what is the same for all of
 * them is looked at once. Inside a snapshot; end it in any case. */
typedef struct mf_jobs_check {
    mf_checker c;
    mf_book_report shared, one;
    mf_marks marks;
    mf_firm_read firm;
} mf_jobs_check;
mf_status mf_jobs_check_begin(mf_jobs_check *out, mf_book *book, mf_err *err);
mf_status mf_jobs_check_one(mf_jobs_check *check, const char *job, bool *good, mf_err *err);
/* whole: nothing failed, and the snapshot is over. */
void mf_jobs_check_end(mf_jobs_check *check, bool whole);

/* "entry device/seq", which every part of the check of an entry is told; the id
 * alone stands behind the first blank. */
#define MF_ENTRY_WHERE    64
#define MF_ENTRY_WHERE_ID (sizeof "entry " - 1)
void mf_line_where(const mf_line *line, char out[MF_ENTRY_WHERE]);

/* The parts of one entry, on which a statement of MF_LINE_SELECT stands: hash and form
 * (*body is read, and freed by the caller), its place in the chain. */
/* odd.c: what is wrong with an entry whose hash is right, in words; NULL = nothing. */
const char *mf_line_oddity(const mf_line *line, const mf_body *body);
mf_status mf_check_line(mf_checker *c, mf_stmt *stmt, const mf_line *line, const char *where,
                        mf_body *body, mf_err *err);
void mf_check_link(mf_checker *c, mf_chain *before, const mf_line *line, int64_t rowid,
                   const char *where);
#endif
