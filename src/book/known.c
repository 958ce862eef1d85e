#include "book/known.h"

#include "base/fail.h"
#include "base/letters.h"
#include "book/job_lines.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SHOWN 8 /* ids listed in a mend */
#define NEAR  2 /* letters apart that still look like a slip of the finger */

/* The firm is at 0, the job at 1. */
enum { FIRM, JOB, BOTH };

struct mf_known {
    mf_job_fold *fold[BOTH];
    mf_job_read read[BOTH];
    bool fresh[BOTH]; /* nobody but the open group can have added an entry since */
};

static bool all_but_readings(const mf_kind *kind)
{
    return strcmp(kind->name, "reading") != 0;
}

/* ---- keeping them -------------------------------------------------------------------- */

void mf_known_stale(mf_book *book)
{
    if (book->known != NULL)
        book->known->fresh[FIRM] = book->known->fresh[JOB] = false;
}

static void forget_one(struct mf_known *known, int at)
{
    mf_job_fold_free(known->fold[at]);
    known->fold[at] = NULL;
    known->read[at] = (mf_job_read){0};
    known->fresh[at] = false;
}

void mf_known_forget(mf_book *book)
{
    if (book->known == NULL)
        return;
    forget_one(book->known, FIRM);
    forget_one(book->known, JOB);
    free(book->known);
    book->known = NULL;
}

static mf_status read_on(mf_book *book, int at, mf_err *err)
{
    struct mf_known *known = book->known;
    const char *job = known->fold[at]->job.id;
    mf_status status = mf_job_lines(known->fold[at], book, job, &known->read[at], err);
    if (status == MF_OK)
        status = mf_job_fold_correct(known->fold[at], err);
    known->fresh[at] = status == MF_OK && book->in_group;
    return status;
}

mf_status mf_known_fold(const mf_job_fold **out, mf_book *book, const char *job, mf_err *err)
{
    int at = job[0] == '\0' ? FIRM : JOB;
    if (book->known == NULL)
        book->known = calloc(1, sizeof *book->known);
    if (book->known == NULL)
        return mf_fail_memory(err);
    struct mf_known *known = book->known;
    if (known->fold[at] != NULL && strcmp(known->fold[at]->job.id, job) != 0)
        forget_one(known, at);
    if (known->fold[at] == NULL)
        known->fold[at] = mf_job_fold_new(job, all_but_readings);
    if (known->fold[at] == NULL)
        return mf_fail_memory(err);
    mf_status status = known->fresh[at] ? MF_OK : read_on(book, at, err);
    *out = known->fold[at];
    if (status != MF_OK)
        forget_one(known, at);
    return status;
}

mf_status mf_known_learn(mf_book *book, const mf_line *line, int64_t rowid, mf_err *err)
{
    int at = line->job[0] == '\0' ? FIRM : JOB;
    struct mf_known *known = book->known;
    if (known == NULL || !known->fresh[at] || strcmp(known->fold[at]->job.id, line->job) != 0)
        return MF_OK;
    mf_status status = mf_job_fold_add(known->fold[at], line, err);
    if (status == MF_OK && strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        status = mf_job_fold_correct(known->fold[at], err);
    known->read[at].last = rowid;
    if (status != MF_OK)
        forget_one(known, at);
    return status;
}

/* ---- looking up ---------------------------------------------------------------------- */

const char *mf_known_text(const void *item, const mf_field *field)
{
    const char *text;
    memcpy(&text, (const unsigned char *)item + field->offset, sizeof text);
    return text;
}

static mf_status fold_of(const mf_job_fold **out, mf_book *book, const mf_kind *kind,
                         const char *job, mf_err *err)
{
    return mf_known_fold(out, book, kind->of_firm ? "" : job, err);
}

mf_status mf_known(mf_book *book, const mf_kind *kind, const char *job, const char *id, bool *known,
                   mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_field *key = mf_kind_key(kind);
    *known = false;
    mf_status status = fold_of(&fold, book, kind, job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    for (size_t i = 0; i < n && !*known; i++) {
        const void *item = mf_job_fold_item(fold, kind, i);
        *known = item != NULL && strcmp(mf_known_text(item, key), id) == 0;
    }
    return status;
}

/* ---- which one was meant ---------------------------------------------------------------- */

static void consider(mf_known_ids *ids, const char *id, const char *wanted)
{
    int apart = mf_letters_apart(id, wanted);
    if (apart < ids->apart) {
        ids->apart = apart;
        snprintf(ids->nearest, sizeof ids->nearest, "%s", id);
    }
    if (ids->count < SHOWN)
        mf_buf_printf(&ids->list, "%s%s", ids->count == 0 ? "" : ", ", id);
    else if (ids->count == SHOWN)
        mf_buf_text(&ids->list, " ...");
    ids->count++;
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static mf_status consider_all(mf_known_ids *out, const mf_job_fold *fold, const mf_kind *kind,
                              const char *id, mf_err *err)
{
    size_t n = mf_job_fold_count(fold, kind), living = 0;
    const char **ids = calloc(n + 1, sizeof *ids);
    if (ids == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < n; i++) {
        const void *item = mf_job_fold_item(fold, kind, i);
        if (item != NULL)
            ids[living++] = mf_known_text(item, mf_kind_key(kind));
    }
    qsort(ids, living, sizeof *ids, by_text);
    for (size_t i = 0; i < living; i++)
        consider(out, ids[i], id);
    free(ids);
    return MF_OK;
}

mf_status mf_known_ids_of(mf_known_ids *out, mf_book *book, const mf_kind *kind, const char *job,
                          const char *id, mf_err *err)
{
    const mf_job_fold *fold = NULL;
    *out = (mf_known_ids){.apart = MF_FAR_APART};
    mf_status status = fold_of(&fold, book, kind, job, err);
    if (status == MF_OK)
        status = consider_all(out, fold, kind, id, err);
    if (out->apart > NEAR || (size_t)out->apart >= strlen(id))
        out->nearest[0] = '\0';
    return status == MF_OK && out->list.failed ? mf_fail_memory(err) : status;
}

void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind)
{
    if (ids->count == 0)
        mf_buf_printf(out, "log the %s first", kind->name);
    else if (ids->nearest[0] != '\0')
        mf_buf_printf(out, "did you mean %s? There are: %s", ids->nearest, mf_buf_str(&ids->list));
    else
        mf_buf_printf(out, "there are: %s", mf_buf_str(&ids->list));
}

mf_status mf_known_mend(mf_buf *out, mf_book *book, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err)
{
    mf_known_ids ids;
    mf_status status = mf_known_ids_of(&ids, book, kind, job, id, err);
    mf_known_ids_mend(out, &ids, kind);
    if (status == MF_OK && out->failed)
        status = mf_fail_memory(err);
    mf_buf_free(&ids.list);
    return status;
}
