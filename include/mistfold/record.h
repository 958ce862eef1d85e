/* mistfold/record.h - a job record as data: what is attached to the paper, so that
 * a machine can read years later what people read, and judge it again.
 *
 * One JSON object in canonical form (RFC 8785); docs/record.md says what is in it. It
 * holds every entry that the judgment saw with the names of kind.h, the findings
 * of the day, and where seals may be put on the paper. Reading it back gives a job
 * that the audit judges alike: nothing that decides is left out.
 */
#ifndef MISTFOLD_RECORD_H
#define MISTFOLD_RECORD_H

#include <mistfold/audit.h>
#include <mistfold/book.h>
#include <mistfold/err.h>

#ifdef __cplusplus
extern "C" {
#endif

#define MF_RECORD_FILE "record.json" /* its name as an attachment */
#define MF_RECORD_MIME "application/json"

/* A place on the paper for a seal, PDF points from the page's lower left corner. */
typedef struct mf_record_place {
    const char *as; /* "renovator", "firm", "owner" */
    int page;       /* 1-based */
    float x, y, w, h;
} mf_record_place;

/* An entry of the journal and its hash. */
typedef struct mf_link {
    const char *entry, *hash;
} mf_link;

/* By what a paper can be held against the book later: the head of the book, the last entry
 * of every device that the head is over, every entry of the job and of the firm, and those
 * of other jobs that the job counts (mf_earlier). Each list is in the order of the ids as
 * text. */
typedef struct mf_links {
    char head[MF_HASH_HEX];
    const mf_link *chains, *entries, *others;
    size_t n_chains, n_entries, n_others;
    const char *heads; /* chains as mf_head_seen has them (heads.h); "" = there are none */
} mf_links;

/* Loads the job (as mf_book_job) and reads its links of one and the same state of the book:
 * what the head is over the job has. The caller frees both. */
MF_API mf_status mf_book_links(mf_book *book, const char *id, mf_job **job, mf_links **out,
                               mf_err *err);
MF_API void mf_book_links_free(mf_links *links);

typedef struct mf_record_ask {
    const mf_job *job;
    mf_day today;           /* the findings are of that day */
    const char *head;       /* journal head, 64 hex digits */
    const char *printed_at; /* UTC */
    const mf_record_place *places;
    size_t n_places;
    const mf_links *links; /* NULL: it cannot be held against the book hash by hash */
} mf_record_ask;

/* The caller frees *out. Fails MF_SYSTEM when memory ran out. */
MF_API mf_status mf_record_write(mf_bytes *out, const mf_record_ask *ask, mf_err *err);

/* A record read back; everything in it lives until it is freed. */
typedef struct mf_record {
    mf_job *job;
    mf_day today;
    const char *head, *printed_at;
    size_t n_findings; /* as they were printed */
    const mf_record_place *places;
    size_t n_places;
    mf_links links; /* n 0 = it holds none: an older version wrote it */
} mf_record;

/* Fails MF_INPUT when the text is no record, names what is not known here, or a
 * member is not of its type. The text is not trusted; what it says is not proved by
 * it: verify the paper's seals first. */
MF_API mf_status mf_record_read(mf_record **out, const char *json, size_t len, mf_err *err);
MF_API void mf_record_free(mf_record *record);

/* Whether the audit of the record's job on its day gives the findings that are in
 * it: MF_OK, or MF_NO with the first difference in err. */
MF_API mf_status mf_record_agrees(const mf_record *record, mf_err *err);

/* How an entry of the record stands to the book as it is now. */
typedef enum mf_record_change {
    MF_RECORD_ADDED,     /* it was logged after the record */
    MF_RECORD_CHANGED,   /* it was corrected after the record, by an entry that says so */
    MF_RECORD_WITHDRAWN, /* it was withdrawn, by an entry that says so */
    MF_RECORD_ALTERED,   /* the book has it otherwise and no entry says why */
    MF_RECORD_MISSING,   /* the book does not have it */
    MF_RECORD_LEFT_OUT,  /* the book had it by the time of the record's head, which hides it */
    MF_RECORD_CHANGES
} mf_record_change;

typedef struct mf_record_diff {
    mf_record_change change;
    const char *kind, *entry;
    const char *field;    /* of one that was altered; "" = its hash alone is another */
    char was[80], is[80]; /* what the field says in the record and in the book, as JSON */
} mf_record_diff;

typedef void mf_record_change_fn(const mf_record_diff *diff, void *data);

/* Holds the record against the book, entry by entry, and calls fn for each that differs: its
 * words against what the journal says in the entry it came from and, where the record has the
 * hashes, each of these. job is the record's job as the book has it. Added entries of the kind
 * "sealed" are left out: a record cannot know of its own seal. MF_OK however many there are;
 * MF_SYSTEM when memory ran out or the book cannot be read. */
MF_API mf_status mf_record_compare(const mf_record *record, mf_book *book, const mf_job *job,
                                   mf_record_change_fn *fn, void *data, mf_err *err);

typedef enum mf_head_found {
    MF_HEAD_STANDS, /* it is over entries that stand in the book */
    MF_HEAD_NEVER,  /* the book cannot have had it */
    MF_HEAD_UNTOLD  /* the record does not say over which entries it is, and there are devices */
} mf_head_found;

/* Whether the head of the record is that of an earlier state of the book's chains. */
MF_API mf_status mf_record_head(const mf_record *record, mf_book *book, mf_head_found *out,
                                mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
