/* mistfold/heads.h - heads of a book that were noted, and how they stand to it now.
 *
 * The head of a device is its last entry, "office/415", with the hash of it, which covers all
 * entries before. The head of the book (mf_book_head) is one hash over those of every device.
 * Whoever makes a chain anew makes every hash in the book right; a head that was noted
 * elsewhere is what contradicts it.
 */
#ifndef MISTFOLD_HEADS_H
#define MISTFOLD_HEADS_H

#include <mistfold/book.h>

#ifdef __cplusplus
extern "C" {
#endif

/* For mf_head_seen.awaited. */
#define MF_AWAITS_OTHERS "others"

typedef enum mf_head_state {
    MF_HEAD_HELD,       /* its entries are here with their hashes, or the book once had it */
    MF_HEAD_AWAITED,    /* an entry of it is not here, which may come with a merge, or it names no
                         * entries and may be of a book that is ahead */
    MF_HEAD_UNFIT,      /* it is not the head of the entries that it names */
    MF_HEAD_GONE,       /* an entry of it is not here: the chain was cut off */
    MF_HEAD_REWRITTEN,  /* an entry of it has another hash here */
    MF_HEAD_NEVER_HAD,  /* it names no entries, and is no head that the book ever had */
    MF_HEAD_UNREADABLE, /* what it names are no entries, or a device twice */
    MF_HEAD_STATES
} mf_head_state;

/* One head as it was noted, and what was found. */
typedef struct mf_head_seen {
    const char *head;    /* of the book, 64 hex digits; "" = only its entries are named */
    const char *heads;   /* "office/415 HASH, truck/20 HASH"; a hash may lack; "" = not named */
    const char *awaited; /* ids of those that may come yet, with blanks; "*" = any, "" = none;
                          * "others" = any of another device; an entry of the book's own device
                          * never does, unless any may */
    const char *by;      /* who noted it, for the caller's messages */
    int64_t of;          /* the caller's */
    mf_head_state state;
    char entry[MF_ENTRY_ID];                /* the first that makes it so, or "" */
    char was[MF_HASH_HEX], is[MF_HASH_HEX]; /* its hash as noted and as it is, or "" */
    mf_day newest; /* day, by the clocks of their devices, of its newest entry that is here */
    int64_t row;   /* head alone: the row of the journal with which the book had it; 0 = never */
} mf_head_seen;

/* Looks for all of them. Heads that name no entries are looked for among those the book had
 * as its entries came in, which of several devices depends on the order of merges: of such a
 * book MF_HEAD_NEVER_HAD proves nothing. One that is over the heads of devices that follow it in
 * the list stands as these do. MF_OK whatever is found. */
MF_API mf_status mf_book_replay(mf_book *book, mf_head_seen *list, size_t n, mf_err *err);

/* What is wrong with one that is not held, "entry truck/2: its hash ...". */
enum { MF_HEAD_WORDS = 400 };
MF_API void mf_head_words(const mf_head_seen *it, char out[MF_HEAD_WORDS]);

/* What somebody outside the book names: a device, a person, a paper. */
typedef struct mf_witness_ask {
    const char *from;         /* who or what that is */
    const char *head, *heads; /* as in mf_head_seen */
    const char *note;         /* may be "" */
} mf_witness_ask;

/* Notes the head as an entry of kind witness: from then on mf_book_check holds the book against
 * it, and mf_book_merge what comes in. Entries of other devices that are not here yet are named
 * as awaited (*awaited counts them). MF_NO when the book contradicts it already; MF_INPUT when
 * the very head is noted already or names nothing. Nothing is written then. An entry
 * that withdraws it (mf_book_correct) counts on the device that logs it, and on all once the
 * device that noted the head withdraws it, whoever did so before. */
MF_API mf_status mf_book_witness(mf_book *book, const mf_witness_ask *ask, const mf_now *now,
                                 char id[MF_ENTRY_ID], size_t *awaited, mf_err *err);

/* What a text names, as "book head" prints it, a paper has it in its foot, or its code says it:
 *   HASH                                    the head of the book, also in groups of eight
 *   HASH of office/415 truck/20             and the entries that it is of
 *   office 415 HASH                         the head of a device
 *   mistfold job=J paper=record head=HASH   the code of a record
 * one a line; # begins a comment. */
typedef struct mf_head_line {
    char head[MF_HASH_HEX]; /* "" = the line is of one device */
    const char *heads;      /* as in mf_head_seen; lives until the call returns */
} mf_head_line;
/* MF_OK to go on, or what ends the reading, said in err. */
typedef mf_status mf_head_line_fn(const mf_head_line *line, void *data, mf_err *err);

/* Calls fn for every line that names a head. MF_INPUT when one names none. */
MF_API mf_status mf_head_lines(const char *text, mf_head_line_fn *fn, void *data, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
