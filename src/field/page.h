/* page.h - what the parts of the door share. */
#ifndef MF_FIELD_PAGE_H
#define MF_FIELD_PAGE_H

#include "field/field.h"
#include "journal/entries_file.h"
#include "journal/lookup.h"
#include <mistfold/words.h>

enum { MF_FIELD_SENTENCE = 1200 }; /* room for what is said of one thing */

/* An entry that is held; its texts are in the arena. */
typedef struct mf_field_line {
    mf_line line;
    bool own;       /* added here */
    const char *id; /* "device/seq" */
} mf_field_line;

/* The bytes that an entry names. */
typedef struct mf_field_content {
    char sha256[MF_HASH_HEX];
    mf_bytes bytes;
} mf_field_content;

struct mf_field_page {
    mf_arena arena;
    const char *job, *made, *from; /* of the file it was made from; job NULL = none is loaded */
    bool cut;                      /* the file was cut off */
    char device[MF_DEVICE_MAX + 1];
    mf_field_line *at;
    size_t n, cap;
    mf_field_content *content;
    size_t n_content, cap_content;
    int64_t sent; /* the last own number that is known to have arrived */
    /* Of the request. */
    mf_lang lang;
    mf_day today;
    int32_t minute;
    const json_t *ask;
    const void *bytes;
    size_t len;
    mf_job_fold *known[2]; /* of the firm, of the job: for drafts */
    mf_buf text, file;
};

/* A text of the request; "" when it is not there. */
const char *mf_field_text(const mf_field_page *page, const char *name);
/* The wording of an id; the id where there is none. */
const char *mf_field_words(const mf_field_page *page, const char *id);
const char *mf_field_words2(const mf_field_page *page, const char *prefix, const char *id);
void mf_field_put(json_t *object, const char *name, const char *text);
void mf_field_put_number(json_t *object, const char *name, int64_t number);
void mf_field_put_is(json_t *object, const char *name, bool is);

/* ---- what is held (hold.c) ------------------------------------------------------------- */

mf_status mf_field_hold(mf_field_page *page, const mf_line *line, bool own, mf_err *err);
/* NULL = there is none of that id. */
const mf_field_line *mf_field_held(const mf_field_page *page, const char *id);
/* The last own entry; NULL = none. */
const mf_field_line *mf_field_last(const mf_field_page *page);
size_t mf_field_count_own(const mf_field_page *page);
mf_status mf_field_keep(mf_field_page *page, const char sha256[MF_HASH_HEX], const void *bytes,
                        size_t len, mf_err *err);
void mf_field_drop(mf_field_page *page);
/* One value that changes with any entry, as mf_book_head of a book that has these alone. */
mf_status mf_field_head(const mf_field_page *page, char out[MF_HASH_HEX], mf_err *err);

/* The job as it is held, or as it stood on a day; the caller frees *out. */
mf_status mf_field_job(const mf_field_page *page, mf_day until, mf_job_fold **out, size_t *left_out,
                       mf_err *err);
/* For the checks of a draft. */
mf_folds mf_field_folds(mf_field_page *page);
void mf_field_forget(mf_field_page *page);

/* ---- requests: each adds members to out -------------------------------------------------- */

typedef mf_status mf_field_fn(mf_field_page *page, json_t *out, mf_err *err);
mf_field_fn mf_field_load, mf_field_device, mf_field_again, mf_field_show_job, mf_field_gate,
    mf_field_steps, mf_field_verify, mf_field_form, mf_field_add, mf_field_attach, mf_field_correct,
    mf_field_entries, mf_field_send, mf_field_receipt, mf_field_all_words;

/* The work area that is asked for; MF_INPUT when there is none. */
mf_status mf_field_area(const mf_field_page *page, const mf_job *job, const mf_area **out,
                        mf_err *err);

#endif
