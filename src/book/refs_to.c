/* refs_to.c - who names an id: a thing that others name cannot go away. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/refs.h"
#include "journal/lookup.h"

/* The thing that is to go, and who names it. */
typedef struct search {
    const mf_kind *kind;
    const char *key, *entry; /* of the thing */
    const mf_kind *by;       /* NULL = nobody so far */
    char found[MF_ENTRY_ID];
} search;

static mf_status look_in_job(search *s, mf_book *book, const char *job, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, book, job, NULL, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        mf_named_in(fold, s->kind, s->key, s->entry, &s->by, s->found);
    mf_job_fold_free(fold);
    return status;
}

/* Things of the firm may be named in any job; only jobs in which the id stands somewhere are
 * looked at. */
static mf_status look_everywhere(search *s, mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT DISTINCT job FROM entry WHERE instr(body, ?1) > 0 ORDER BY job", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, s->key);
    while (s->by == NULL && mf_stmt_next(&stmt, &status, err))
        status = look_in_job(s, book, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_free_of_refs(mf_book *book, const mf_kind *kind, const char *job, const char *key,
                          const char *entry, mf_err *err)
{
    search s = {.kind = kind, .key = key, .entry = entry};
    mf_status status =
        kind->of_firm ? look_everywhere(&s, book, err) : look_in_job(&s, book, job, err);
    return status != MF_OK || s.by == NULL ? status
                                           : mf_named_refuse(kind, key, s.by, s.found, err);
}
