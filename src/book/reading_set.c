#include "book/reading_set.h"

#include "base/fail.h"
#include "book/job_lines.h"
#include "book/journal.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The mark of number and instrument, and the rowid of an entry that says or said them;
 * rowid 0 = free. */
typedef struct slot {
    uint32_t mark, rowid;
} slot;

struct mf_reading_set {
    mf_book *book;
    mf_job_fold *corrections; /* of the job */
    slot *slots;
    size_t n, cap; /* cap is a power of two */
};

typedef struct name {
    int64_t number;
    const char *instrument;
    size_t len;
} name;

static bool name_of(name *out, const mf_body *body)
{
    out->instrument = mf_body_text(body, "instrument", &out->len);
    return mf_body_int(body, "number", &out->number) && out->instrument != NULL;
}

static bool same_name(const name *a, const name *b)
{
    return a->number == b->number && a->len == b->len &&
           memcmp(a->instrument, b->instrument, a->len) == 0;
}

/* FNV-1a, and the finalizer of SplitMix64, as the low bits choose the place. */
static uint64_t mark_of(const name *it)
{
    uint64_t mark = 14695981039346656037U ^ (uint64_t)it->number;
    for (size_t i = 0; i < it->len; i++)
        mark = (mark ^ (unsigned char)it->instrument[i]) * 1099511628211U;
    mark = (mark ^ (mark >> 30)) * 0xBF58476D1CE4E5B9U;
    mark = (mark ^ (mark >> 27)) * 0x94D049BB133111EBU;
    return mark ^ (mark >> 31);
}

/* ---- adding -------------------------------------------------------------------------- */

static void put(slot *slots, size_t cap, slot it)
{
    size_t at = it.mark & (cap - 1);
    while (slots[at].rowid != 0)
        at = (at + 1) & (cap - 1);
    slots[at] = it;
}

static mf_status grow(mf_reading_set *set, mf_err *err)
{
    size_t cap = set->cap == 0 ? 1024 : set->cap * 2;
    slot *wider = calloc(cap, sizeof *wider);
    if (wider == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < set->cap; i++)
        if (set->slots[i].rowid != 0)
            put(wider, cap, set->slots[i]);
    free(set->slots);
    set->slots = wider;
    set->cap = cap;
    return MF_OK;
}

static mf_status add(mf_reading_set *set, const name *it, int64_t rowid, mf_err *err)
{
    if (rowid > UINT32_MAX)
        return mf_fail(err, MF_INPUT, set->book->db.name, "the book has too many entries", "",
                       "begin a new book");
    mf_status status = (set->n + 1) * 4 > set->cap * 3 ? grow(set, err) : MF_OK;
    if (status == MF_OK)
        put(set->slots, set->cap, (slot){(uint32_t)mark_of(it), (uint32_t)rowid});
    set->n += status == MF_OK;
    return status;
}

mf_status mf_reading_set_add(mf_reading_set *set, const json_t *body, mf_err *err)
{
    json_t *shared = (json_t *)(uintptr_t)body; /* jansson takes no const here */
    const mf_body said = {.tree = shared};
    name it;
    return name_of(&it, &said) ? add(set, &it, sqlite3_last_insert_rowid(set->book->db.handle), err)
                               : MF_OK;
}

/* ---- those that are there ------------------------------------------------------------ */

static mf_status add_said(mf_reading_set *set, const char *text, int64_t rowid, mf_err *err)
{
    mf_body body = {.tree = NULL};
    name it;
    mf_status status = mf_body_read(&body, text, err);
    if (status == MF_OK && name_of(&it, &body))
        status = add(set, &it, rowid, err);
    mf_body_free(&body);
    return status;
}

static mf_status add_readings(mf_reading_set *set, const char *job, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &set->book->db,
                    "SELECT body, rowid FROM entry WHERE job = ?1 AND kind = 'reading'", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    while (mf_stmt_next(&stmt, &status, err))
        status = add_said(set, mf_stmt_column(&stmt, 0), mf_stmt_number(&stmt, 1), err);
    mf_stmt_done(&stmt);
    return status;
}

/* A reading may have got its number by a correction. */
static mf_status add_corrected(mf_reading_set *set, mf_err *err)
{
    mf_status status = MF_OK;
    const mf_job_fold *fold = set->corrections;
    for (size_t i = 0; status == MF_OK && i < fold->n_corrections; i++) {
        const mf_correction *it = &fold->corrections[i].said;
        int64_t rowid = 0;
        if (strcmp(it->kind, "reading") == 0)
            status = mf_journal_rowid(set->book, it->target, &rowid, err);
        if (status == MF_OK && rowid > 0)
            status = add_said(set, it->after, rowid, err);
    }
    return status;
}

mf_status mf_reading_set_new(mf_reading_set **out, mf_book *book, const char *job, mf_err *err)
{
    mf_reading_set *set = calloc(1, sizeof *set);
    if (set == NULL)
        return mf_fail_memory(err);
    set->book = book;
    mf_status status =
        mf_job_fold_of(&set->corrections, book, job, mf_corrections_alone, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        status = grow(set, err);
    if (status == MF_OK)
        status = add_readings(set, job, err);
    if (status == MF_OK)
        status = add_corrected(set, err);
    if (status == MF_OK)
        *out = set;
    else
        mf_reading_set_free(set);
    return status;
}

void mf_reading_set_free(mf_reading_set *set)
{
    if (set == NULL)
        return;
    mf_job_fold_free(set->corrections);
    free(set->slots);
    free(set);
}

/* ---- finding ------------------------------------------------------------------------- */

/* Whether what is in force for the entry has the name. */
static mf_status has_name(const mf_reading_set *set, const mf_line *line, const name *wanted,
                          bool *has, mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_body body = {.tree = NULL};
    name is;
    mf_line_id(line, id);
    const mf_correction *force = mf_job_fold_in_force(set->corrections, id, false);
    mf_status status = mf_body_read(&body, force == NULL ? line->body : force->after, err);
    *has = status == MF_OK && name_of(&is, &body) && same_name(&is, wanted);
    mf_body_free(&body);
    return status;
}

static mf_status look_at(const mf_reading_set *set, uint32_t rowid, const name *wanted,
                         char found[MF_ENTRY_ID], mf_err *err)
{
    mf_stmt stmt;
    bool row = false, has = false;
    mf_status status = mf_stmt_get(&stmt, &set->book->db, MF_LINE_SELECT " WHERE rowid = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, (int64_t)rowid);
    status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK && row) {
        mf_line line = mf_line_of_row(&stmt);
        status = has_name(set, &line, wanted, &has, err);
        if (has)
            mf_line_id(&line, found);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_reading_set_find(mf_reading_set *set, const json_t *body, char found[MF_ENTRY_ID],
                              mf_err *err)
{
    json_t *shared = (json_t *)(uintptr_t)body; /* jansson takes no const here */
    const mf_body said = {.tree = shared};
    name wanted;
    mf_status status = MF_OK;
    found[0] = '\0';
    if (!name_of(&wanted, &said))
        return MF_OK;
    uint32_t mark = (uint32_t)mark_of(&wanted);
    for (size_t at = mark & (set->cap - 1); set->slots[at].rowid != 0;
         at = (at + 1) & (set->cap - 1)) {
        if (set->slots[at].mark != mark)
            continue;
        status = look_at(set, set->slots[at].rowid, &wanted, found, err);
        if (status != MF_OK || found[0] != '\0')
            break;
    }
    return status;
}
