/* correct.c - replacing what an entry says, without changing it. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/refs.h"
#include "book/write.h"
#include "journal/amend.h"

static mf_status free_of_refs(void *data, const mf_kind *kind, const char *job, const char *key,
                              const char *entry, mf_err *err)
{
    return mf_free_of_refs(data, kind, job, key, entry, err);
}

/* Finds the target and its corrections; the texts are in the arena and the fold. */
static mf_status find(mf_amend *ask, mf_book *book, mf_line *line, mf_arena *arena,
                      mf_job_fold **fold, mf_err *err)
{
    bool found = false;
    mf_status status = mf_journal_entry(line, arena, &book->db, ask->target, &found, err);
    if (status != MF_OK)
        return status;
    ask->line = found ? line : NULL;
    status = mf_amend_target(ask, err);
    if (status == MF_OK)
        status = mf_job_fold_of(fold, book, line->job, mf_corrections_alone, MF_WITHOUT_FIRM, err);
    ask->fold = *fold;
    return status;
}

static mf_status correct_inside(mf_amend *ask, mf_book *book, const mf_now *now,
                                char id[MF_ENTRY_ID], mf_err *err)
{
    mf_line line = {0};
    mf_arena arena = {0};
    mf_job_fold *fold = NULL;
    json_t *body = NULL;
    mf_status status = find(ask, book, &line, &arena, &fold, err);
    if (status == MF_OK)
        status = mf_amend_body(ask, &body, err);
    if (status == MF_OK)
        status = mf_put_entry(book, MF_KIND_CORRECTION, line.job, body, now, id, err);
    json_decref(body);
    mf_job_fold_free(fold);
    mf_arena_free(&arena);
    return status;
}

MF_API mf_status mf_book_correct(mf_book *book, const char *target, const mf_draft *draft,
                                 const char *reason, const mf_now *now, char id[MF_ENTRY_ID],
                                 mf_err *err)
{
    char unwanted[MF_ENTRY_ID];
    const mf_folds folds = mf_book_folds(book);
    mf_amend ask = {.folds = &folds,
                    .target = target,
                    .draft = draft,
                    .reason = reason,
                    .device = book->device,
                    .now = now,
                    .free_of_refs = free_of_refs,
                    .data = book};
    mf_part part = {0};
    mf_status status = mf_now_check(now, err);
    if (status == MF_OK)
        status = mf_amend_reason(target, reason, err);
    if (status == MF_OK)
        status = mf_part_begin(&part, book, err);
    if (status == MF_OK)
        status = correct_inside(&ask, book, now, id == NULL ? unwanted : id, err);
    return mf_part_end(&part, book, status, err);
}
