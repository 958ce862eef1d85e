/* refs_to.c - who names an id: a thing that others name cannot go away. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/known.h"
#include "book/refs.h"
#include <stdio.h>
#include <string.h>

/* The thing that is to go, and who names it. */
typedef struct search {
    const mf_kind *kind;
    const char *key, *entry; /* of the thing */
    const mf_kind *by;       /* NULL = nobody so far */
    char found[MF_ENTRY_ID];
} search;

static bool is_among(const char *ids, const char *id)
{
    size_t len = strlen(id);
    for (; *ids != '\0'; ids += strcspn(ids, ","), ids += *ids == ',')
        if (strncmp(ids, id, len) == 0 && (ids[len] == ',' || ids[len] == '\0'))
            return true;
    return false;
}

static bool names(const search *s, const mf_kind *other, const void *item)
{
    for (size_t i = 0; i < other->n_fields; i++) {
        const mf_field *field = &other->fields[i];
        if (field->ref != NULL && strcmp(field->ref, s->kind->name) == 0 &&
            is_among(mf_known_text(item, field), s->key))
            return true;
    }
    return false;
}

/* Every entry of a job hangs on its house. */
static bool hangs_on(const mf_kind *kind, const mf_kind *other)
{
    return strcmp(kind->name, "house") == 0 && !other->of_firm && other != kind;
}

static void look_in(search *s, const mf_job_fold *fold, const mf_kind *other)
{
    size_t n = mf_job_fold_count(fold, other);
    for (size_t i = 0; i < n && s->by == NULL; i++) {
        mf_src src;
        const void *item = mf_job_fold_item(fold, other, i);
        if (item == NULL || (!hangs_on(s->kind, other) && !names(s, other, item)))
            continue;
        memcpy(&src, item, sizeof src);
        if (strcmp(src.entry, s->entry) == 0)
            continue;
        s->by = other;
        snprintf(s->found, sizeof s->found, "%s", src.entry);
    }
}

static mf_status look_in_job(search *s, mf_book *book, const char *job, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, book, job, NULL, MF_WITHOUT_FIRM, err);
    for (size_t i = 0; status == MF_OK && i < count && s->by == NULL; i++)
        look_in(s, fold, &kinds[i]);
    mf_job_fold_free(fold);
    return status;
}

/* Things of the firm may be named in any job; only jobs in which the id stands somewhere are
 * looked at. */
static mf_status look_everywhere(search *s, mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT DISTINCT job FROM entry WHERE instr(body, ?1) > 0 ORDER BY job", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, s->key);
    while (status == MF_OK && row && s->by == NULL) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = look_in_job(s, book, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_free_of_refs(mf_book *book, const mf_kind *kind, const char *job, const char *key,
                          const char *entry, mf_err *err)
{
    char where[160], mend[160];
    search s = {.kind = kind, .key = key, .entry = entry};
    mf_status status =
        kind->of_firm ? look_everywhere(&s, book, err) : look_in_job(&s, book, job, err);
    if (status != MF_OK || s.by == NULL)
        return status;
    snprintf(where, sizeof where, "%.40s %.60s", kind->name, key);
    snprintf(mend, sizeof mend, "correct or withdraw entry %s first", s.found);
    return mf_failf(err, MF_INPUT, where, "what others name cannot change its id or go away", mend,
                    "entry %s (%s) names it", s.found, s.by->name);
}
