/* keys.c - whose seals a book stands by: keys that somebody said are known, and keys whose
 * seals it has logged itself. Both are read from the journal: of altered entries no key is
 * known. */
#include "base/fail.h"
#include "book/job_lines.h"
#include "book/touched.h"

#include <stdio.h>
#include <string.h>

/* A key as an entry of kind known_key or sealed names it. */
typedef struct named {
    const char *entry, *person, *capacity, *fingerprint;
    const char *signer; /* as its certificate says; NULL = the name of the person */
} named;

/* Says false when no more are wanted. */
typedef bool named_fn(const named *key, void *data);

/* ---- the entries that name keys ------------------------------------------------------------ */

static bool is_of_keys(const mf_kind *kind)
{
    return strcmp(kind->name, "known_key") == 0 || strcmp(kind->name, "sealed") == 0 ||
           strcmp(kind->name, "person") == 0;
}

/* A word that is not known here is in no field of theirs. */
static mf_status entries_of(mf_job_fold **out, mf_book *book, const char *job, mf_err *err)
{
    mf_status status = mf_job_fold_of(out, book, job, is_of_keys, MF_WITHOUT_FIRM, err);
    return status == MF_OK ? mf_job_fold_finish_known(*out, err) : status;
}

static bool each_of_firm(const mf_job *firm, named_fn *fn, void *data)
{
    bool more = true;
    for (size_t i = 0; more && firm->integrity != MF_INTEGRITY_BROKEN && i < firm->n_known_key;
         i++) {
        const mf_known_key *it = &firm->known_key[i];
        const named key = {it->src.entry, it->person, it->capacity, it->fingerprint, NULL};
        more = fn(&key, data);
    }
    return more;
}

static mf_status each_of_job(mf_book *book, const char *id, named_fn *fn, void *data, bool *more,
                             mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status = entries_of(&fold, book, id, err);
    const mf_job *job = status == MF_OK ? &fold->job : NULL;
    bool whole = job != NULL && job->integrity != MF_INTEGRITY_BROKEN;
    for (size_t i = 0; *more && whole && i < job->n_sealed; i++) {
        const mf_sealed *it = &job->sealed[i];
        const named key = {it->src.entry, it->person, it->capacity, it->fingerprint,
                           it->signer == NULL ? "" : it->signer};
        *more = fn(&key, data);
    }
    mf_job_fold_free(fold);
    return status;
}

/* Seals of the jobs in which an entry of a seal, or a correction, holds that text. */
static mf_status each_sealed(mf_book *book, const char *text, named_fn *fn, void *data, bool more,
                             mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT DISTINCT job FROM entry WHERE kind IN ('sealed', 'correction')"
                    " AND job <> '' AND instr(body, ?1) > 0 ORDER BY job",
                    err);
    if (status == MF_OK)
        mf_stmt_text(&stmt, 1, text);
    while (more && mf_stmt_next(&stmt, &status, err))
        status = each_of_job(book, mf_stmt_column(&stmt, 0), fn, data, &more, err);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- by its fingerprint -------------------------------------------------------------------- */

typedef struct asked_key {
    const char *fingerprint, *capacity;
    mf_key_known *out;
} asked_key;

static bool take_key(const named *key, void *data)
{
    const asked_key *asked = data;
    mf_key_known *out = asked->out;
    bool fits = *asked->capacity == '\0' || mf_id_in_list(key->capacity, asked->capacity);
    if (strcmp(key->fingerprint, asked->fingerprint) != 0 || (out->known && !fits))
        return true;
    out->known = true;
    out->fits = fits;
    snprintf(out->entry, sizeof out->entry, "%s", key->entry);
    snprintf(out->person, sizeof out->person, "%s", key->person);
    snprintf(out->capacity, sizeof out->capacity, "%s", key->capacity);
    return !fits;
}

static mf_status find_key(mf_book *book, asked_key *asked, mf_err *err)
{
    mf_job_fold *firm = NULL;
    mf_status status = entries_of(&firm, book, "", err);
    bool more = status == MF_OK && each_of_firm(&firm->job, take_key, asked);
    mf_job_fold_free(firm);
    return status == MF_OK ? each_sealed(book, asked->fingerprint, take_key, asked, more, err)
                           : status;
}

mf_status mf_book_key(mf_book *book, const char *fingerprint, const char *capacity,
                      mf_key_known *out, mf_err *err)
{
    bool own = false;
    asked_key asked = {fingerprint, capacity, out};
    *out = (mf_key_known){.known = false};
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = find_key(book, &asked, err);
    mf_snapshot_end(own, book);
    return status;
}

/* ---- by the name of its holder ------------------------------------------------------------- */

typedef struct asked_name {
    const char *name, *but;
    const mf_job *firm; /* the people */
    char *out;
} asked_name;

static const char *name_of(const mf_job *firm, const named *key)
{
    const mf_person *person = key->signer == NULL ? mf_job_person(firm, key->person) : NULL;
    return key->signer != NULL ? key->signer : person == NULL ? "" : person->name;
}

static bool take_name(const named *key, void *data)
{
    const asked_name *asked = data;
    if (sqlite3_stricmp(name_of(asked->firm, key), asked->name) != 0 ||
        strcmp(key->fingerprint, asked->but) == 0)
        return true;
    snprintf(asked->out, MF_HASH_HEX, "%s", key->fingerprint);
    return false;
}

static mf_status find_name(mf_book *book, asked_name *asked, mf_err *err)
{
    mf_job_fold *firm = NULL;
    mf_status status = entries_of(&firm, book, "", err);
    if (status == MF_OK) {
        asked->firm = &firm->job;
        bool more = each_of_firm(&firm->job, take_name, asked);
        status = each_sealed(book, asked->name, take_name, asked, more, err);
    }
    mf_job_fold_free(firm);
    return status;
}

mf_status mf_book_key_of_name(mf_book *book, const char *name, const char *but,
                              char out[MF_HASH_HEX], mf_err *err)
{
    bool own = false;
    asked_name asked = {.name = name, .but = but, .out = out};
    out[0] = '\0';
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = find_name(book, &asked, err);
    mf_snapshot_end(own, book);
    return status;
}
