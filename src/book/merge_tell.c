/* merge_tell.c - what two devices said of one thing without knowing of each other.
 * Both stay; a person decides. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/merge.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void note(const mf_merge *m, const char *line)
{
    if (m->watch->note != NULL)
        m->watch->note(line, m->watch->data);
}

mf_status mf_merge_is_new(mf_merge *m, const char *entry, bool *new_here, mf_err *err)
{
    int64_t rowid;
    mf_status status = mf_journal_rowid(m->book, entry, &rowid, err);
    *new_here = status == MF_OK && rowid > m->book->group_from;
    return status;
}

/* ---- corrections that contradict ----------------------------------------------------- */

/* Told when at least one of them came in with this merge. */
static mf_status tell_one(mf_merge *m, const mf_job_fold *fold, size_t at, size_t n,
                          const mf_correction *two[2], mf_err *err)
{
    char line[320];
    bool any = false;
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < n && !any; i++)
        status = mf_merge_is_new(m, fold->corrections[at + i].said.src.entry, &any, err);
    if (status != MF_OK || !any)
        return status;
    m->out->contradictions++;
    snprintf(line, sizeof line,
             "entry %.40s was corrected on two devices in two ways (%.40s, %.40s): both are "
             "kept; say what is true: mistfold entry correct %.40s --set ... --reason ...",
             two[0]->target, two[0]->src.entry, two[1]->src.entry, two[0]->target);
    note(m, line);
    return MF_OK;
}

static mf_status tell_contradictions(mf_merge *m, const mf_job_fold *fold, mf_err *err)
{
    const mf_correction *two[2];
    mf_status status = MF_OK;
    for (size_t at = 0, n = 0; status == MF_OK; at += n) {
        at = mf_job_fold_contradiction(fold, at, &n, two);
        if (at == fold->n_corrections)
            break;
        status = tell_one(m, fold, at, n, two, err);
    }
    return status;
}

/* ---- one id, two things -------------------------------------------------------------- */

typedef struct thing {
    const mf_kind *kind;
    const void *item;
    size_t at; /* in its list */
} thing;

static const char *key_of(const thing *it)
{
    const mf_field *key = mf_kind_key(it->kind);
    return key == NULL || it->kind->once ? "" : mf_known_text(it->item, key);
}

static int by_key(const void *left, const void *right)
{
    const thing *a = left, *b = right;
    int order = strcmp(key_of(a), key_of(b));
    return order == 0 ? (a->at > b->at) - (a->at < b->at) : order;
}

static bool same_thing(const thing *a, const thing *b)
{
    return a->kind->once || mf_same_keys(a->kind, a->item, b->item);
}

static mf_status tell_double(mf_merge *m, const thing *it, const thing *other, mf_err *err)
{
    char line[256];
    bool new_here = false;
    mf_src here, there;
    memcpy(&here, it->item, sizeof here);
    memcpy(&there, other->item, sizeof there);
    mf_status status = mf_merge_is_new(m, here.entry, &new_here, err);
    if (status != MF_OK || !new_here)
        return status;
    m->out->doubles++;
    const mf_field *key = mf_kind_key(it->kind);
    snprintf(line, sizeof line,
             "%.30s %.40s is in two entries (%.40s, %.40s): both are kept; withdraw or correct "
             "one of them",
             it->kind->name, key == NULL ? "" : mf_known_text(it->item, key), there.entry,
             here.entry);
    note(m, line);
    return MF_OK;
}

static mf_status tell_doubles_of(mf_merge *m, thing *all, size_t n, mf_err *err)
{
    mf_status status = MF_OK;
    qsort(all, n, sizeof *all, by_key);
    for (size_t i = 0; status == MF_OK && i < n; i++) {
        if (i > 0 && same_thing(&all[i - 1], &all[i]))
            status = tell_double(m, &all[i], &all[i - 1], err);
        else if (i + 1 < n && same_thing(&all[i], &all[i + 1]))
            status = tell_double(m, &all[i], &all[i + 1], err);
    }
    return status;
}

static mf_status tell_doubles(mf_merge *m, const mf_job_fold *fold, const mf_kind *kind,
                              mf_err *err)
{
    size_t count = mf_job_fold_count(fold, kind), n = 0;
    if (count < 2 || (mf_kind_key(kind) == NULL && !kind->once))
        return MF_OK;
    thing *all = calloc(count, sizeof *all);
    if (all == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < count; i++) {
        const void *item = mf_job_fold_item(fold, kind, i);
        if (item != NULL)
            all[n++] = (thing){kind, item, i};
    }
    mf_status status = tell_doubles_of(m, all, n, err);
    free(all);
    return status;
}

/* ---- all jobs that something came into ------------------------------------------------- */

static bool keyed(const mf_kind *kind)
{
    return mf_kind_key(kind) != NULL || kind->once;
}

static mf_status tell_job(mf_merge *m, const char *job, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, m->book, job, keyed, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        status = tell_contradictions(m, fold, err);
    for (size_t i = 0; status == MF_OK && i < count; i++)
        status = tell_doubles(m, fold, &kinds[i], err);
    mf_job_fold_free(fold);
    return status;
}

static void tell_key(const mf_merge *m, mf_stmt *stmt)
{
    char line[400];
    const char *id = mf_stmt_column(stmt, 0);
    snprintf(line, sizeof line,
             "%s, logged by %.79s: the seal of key %.16s... counts as %.79s from now on; if it is "
             "not to: mistfold entry withdraw %s",
             id, mf_stmt_column(stmt, 1), mf_stmt_column(stmt, 2), mf_stmt_column(stmt, 3), id);
    note(m, line);
}

/* Whom another book trusts, or whose seal it logged, this one knows from now on (keys.c). */
static const char keys_sql[] =
    "SELECT device || '/' || seq, who, body ->> '$.fingerprint' AS print, body ->> '$.capacity' AS"
    " place, min(rowid) FROM entry WHERE rowid > ?1 AND kind IN ('known_key', 'sealed')"
    " GROUP BY print, place HAVING NOT EXISTS (SELECT 1 FROM entry AS b WHERE b.rowid <= ?1 AND"
    "  b.kind IN ('known_key', 'sealed') AND b.body ->> '$.fingerprint' = print AND"
    "  b.body ->> '$.capacity' = place) ORDER BY min(rowid)";

static mf_status tell_keys(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &m->book->db, keys_sql, err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, m->book->group_from);
    while (mf_stmt_next(&stmt, &status, err))
        tell_key(m, &stmt);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status tell_jobs(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, &m->book->db,
        "SELECT DISTINCT job FROM entry NOT INDEXED WHERE rowid > ?1 ORDER BY job", err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, m->book->group_from);
    while (m->out->added > 0 && mf_stmt_next(&stmt, &status, err))
        status = tell_job(m, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_merge_tell(mf_merge *m, mf_err *err)
{
    mf_status status = m->out->added == 0 ? MF_OK : tell_keys(m, err);
    return status == MF_OK ? tell_jobs(m, err) : status;
}
