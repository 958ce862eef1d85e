#include "book/touched.h"

#include "journal/earlier.h"

#include "base/fail.h"
#include "book/index.h"
#include "book/journal.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- each job once --------------------------------------------------------------------- */

static int by_job(const void *a, const void *b)
{
    return strcmp(((const mf_touched *)a)->job, ((const mf_touched *)b)->job);
}

static void make_unique(mf_book *book)
{
    size_t kept = 0;
    if (book->n_touched == 0)
        return;
    mf_touched *all = book->touched;
    qsort(all, book->n_touched, sizeof *all, by_job);
    for (size_t i = 1; i < book->n_touched; i++) {
        if (strcmp(all[kept].job, all[i].job) != 0) {
            all[++kept] = all[i];
            continue;
        }
        all[kept].corrected = all[kept].corrected || all[i].corrected;
        all[kept].index = all[kept].index || all[i].index;
        all[kept].others = all[kept].others || all[i].others;
        all[kept].done = all[kept].done && all[i].done;
        free(all[i].job);
    }
    book->n_touched = kept + 1;
}

/* ---- noting -------------------------------------------------------------------------- */

static mf_status add(mf_book *book, const char *job, mf_err *err)
{
    bool full = book->n_touched == book->cap_touched;
    if (full)
        make_unique(book);
    full = full && book->n_touched > book->cap_touched / 2;
    mf_touched *grown = mf_grown(book->touched, full ? book->cap_touched : book->n_touched,
                                 &book->cap_touched, sizeof *grown);
    char *copy = strdup(job);
    book->touched = grown == NULL ? book->touched : grown;
    if (grown == NULL || copy == NULL) {
        free(copy);
        return mf_fail_memory(err);
    }
    grown[book->n_touched++] = (mf_touched){.job = copy};
    return MF_OK;
}

/* Most entries come in job by job. */
mf_status mf_touch(mf_book *book, const char *job, const char *kind, bool corrected, mf_err *err)
{
    bool any = strcmp(kind, MF_KIND_CORRECTION) == 0;
    mf_status status = MF_OK;
    if (book->n_touched == 0 || strcmp(book->touched[book->n_touched - 1].job, job) != 0)
        status = add(book, job, err);
    if (status != MF_OK)
        return status;
    mf_touched *last = &book->touched[book->n_touched - 1];
    last->done = false;
    last->corrected = last->corrected || corrected;
    if (strcmp(last->kind, kind) == 0)
        return MF_OK;
    snprintf(last->kind, sizeof last->kind, "%s", kind);
    last->index = last->index || any || mf_index_wants(kind);
    last->others = last->others || any || mf_earlier_bears(kind);
    return MF_OK;
}

void mf_touched_again(mf_book *book)
{
    for (size_t i = 0; i < book->n_touched; i++)
        book->touched[i].done = false;
}

void mf_touched_forget(mf_book *book)
{
    for (size_t i = 0; i < book->n_touched; i++)
        free(book->touched[i].job);
    free(book->touched);
    book->touched = NULL;
    book->n_touched = book->cap_touched = 0;
}

/* ---- bringing up to date ------------------------------------------------------------- */

/* What was judged is forgotten at the address of before and at that of now. */
static mf_status settle_one(mf_book *book, const mf_touched *it, mf_err *err)
{
    mf_status status = mf_settled_forget(&book->db, it->job, it->others, err);
    if (status == MF_OK && it->corrected && !it->index)
        status = mf_index_corrections(book, it->job, err);
    if (status != MF_OK || !it->index)
        return status;
    status = mf_index_refresh(book, it->job, err);
    return status == MF_OK ? mf_settled_forget(&book->db, it->job, it->others, err) : status;
}

mf_status mf_touched_settle(mf_book *book, mf_err *err)
{
    if (!book->in_group || book->n_touched == 0)
        return MF_OK;
    make_unique(book);
    mf_status status = mf_journal_read_back(book, err);
    for (size_t i = 0; status == MF_OK && i < book->n_touched; i++) {
        mf_touched *it = &book->touched[i];
        if (!it->done)
            status = settle_one(book, it, err);
        it->done = status == MF_OK;
    }
    return status;
}
