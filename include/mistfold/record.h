/* mistfold/record.h - a job record as data: what is attached to the paper, so that
 * a machine can read years later what people read, and judge it again.
 *
 * One JSON object in canonical form (RFC 8785); docs/record.md says what is in it. It
 * holds every entry that the judgement saw with the names of kind.h, the findings
 * of the day, and where seals may be put on the paper. Reading it back gives a job
 * that the audit judges alike: nothing that decides is left out.
 */
#ifndef MISTFOLD_RECORD_H
#define MISTFOLD_RECORD_H

#include <mistfold/audit.h>
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

typedef struct mf_record_ask {
    const mf_job *job;
    mf_day today;           /* the findings are of that day */
    const char *head;       /* journal head, 64 hex digits */
    const char *printed_at; /* UTC */
    const mf_record_place *places;
    size_t n_places;
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
} mf_record;

/* Fails MF_INPUT when the text is no record, names what is not known here, or a
 * member is not of its type. The text is not trusted; what it says is not proved by
 * it: verify the paper's seals first. */
MF_API mf_status mf_record_read(mf_record **out, const char *json, size_t len, mf_err *err);
MF_API void mf_record_free(mf_record *record);

/* Whether the audit of the record's job on its day gives the findings that are in
 * it: MF_OK, or MF_NO with the first difference in err. */
MF_API mf_status mf_record_agrees(const mf_record *record, mf_err *err);

/* How an entry of the record stands to the job as it is now. */
typedef enum mf_record_change {
    MF_RECORD_ADDED,   /* it was logged after the record */
    MF_RECORD_CHANGED, /* it was corrected after the record */
    MF_RECORD_GONE     /* the job does not have it: withdrawn since, or never in this book */
} mf_record_change;

typedef void mf_record_change_fn(mf_record_change change, const char *kind, const char *entry,
                                 void *data);

/* Compares the record's entries with the job's and calls fn for each that differs,
 * kind by kind. Entries of the kind "sealed" are left out: a record cannot know of
 * its own seal. MF_OK however many there are; MF_SYSTEM when memory ran out. */
MF_API mf_status mf_record_compare(const mf_record *record, const mf_job *job,
                                   mf_record_change_fn *fn, void *data, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
