/* mistfold/entries.h - a job's entries on their way out of the book and back: a text file that
 * a phone takes along, and that comes home with what was logged there (docs/json.md has its
 * lines). */
#ifndef MISTFOLD_ENTRIES_H
#define MISTFOLD_ENTRIES_H

#include <mistfold/book.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The entries of a job and of the firm with their attachments, as a file that the caller
 * frees. at (UTC) and the head of the book stand in its first line. Fails MF_INPUT when there
 * is no such job, MF_SYSTEM when an entry is not what was logged. */
MF_API mf_status mf_book_export_entries(mf_book *book, const char *job, const char *at,
                                        mf_bytes *out, mf_err *err);

/* The same for a page that answers away from the book: without the bytes of attachments, and
 * with what other jobs at the address disturb, which 40 CFR 745.83 counts with this one. */
MF_API mf_status mf_book_export_page(mf_book *book, const char *job, const char *at, mf_bytes *out,
                                     mf_err *err);

typedef struct mf_entries_ask {
    const char *name; /* of the file, for messages */
    const void *bytes;
    size_t len;
    const mf_now *now; /* no event may lie after today; who is not looked at */
    const char *job;   /* the only job that something comes in for; NULL = that of the file */
    const char *who;   /* the only person who may have logged it; NULL = any of the book */
    const mf_watch *watch;
    /* Told, once all is written, of each device in the file the last entry that the book has of
     * it: what a phone may forget. May be NULL. */
    mf_head_fn *head;
    void *data;
} mf_entries_ask;

typedef struct mf_entries_report {
    mf_merge_report merge; /* own and adoption stay empty: neither is taken over */
    bool cut;              /* the file was cut off: it was taken up to its last whole line */
    int64_t left; /* entries of a cut file that were left, as bytes of theirs are missing */
    char head[MF_HASH_HEX]; /* of the book after */
} mf_entries_report;

/* Takes over the entries of a file that are not here yet with the bytes of their attachments,
 * all or nothing, by the checks of mf_book_merge. On top of those, what comes in was logged by
 * a person of the book, for a job of the book, and would be accepted were it typed here: known
 * fields, possible values, no event after today, things that exist. What is the firm's, and
 * what the book alone can say (that a paper was sealed), does not come in this way. The same
 * file again: nothing new. MF_INPUT with the line or the entry in err, nothing written. */
MF_API mf_status mf_book_import_entries(mf_book *book, const mf_entries_ask *ask,
                                        mf_entries_report *out, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
