/* compare.c - a paper against the book. Genuine data can be attached to a paper with other
 * words on it and sealed by anybody's key, and a book can be made anew with right hashes: so
 * the book must hold what the record holds, and know the key of every seal. */
#include "cli/compare.h"

#include "base/fail.h"

#include <stdio.h>
#include <string.h>

/* ---- the entries --------------------------------------------------------------------------- */

static void note_contrary(mf_compared *c, const mf_record_diff *diff)
{
    if (diff->change == MF_RECORD_MISSING)
        snprintf(c->contrary, sizeof c->contrary, "entry %.40s of the record is MISSING",
                 diff->entry);
    else if (diff->change == MF_RECORD_LEFT_OUT)
        snprintf(c->contrary, sizeof c->contrary,
                 "entry %.40s was in the book when the record was made, and is LEFT OUT of it",
                 diff->entry);
    else if (diff->field[0] != '\0')
        snprintf(c->contrary, sizeof c->contrary,
                 "entry %.40s was ALTERED: %.40s was %.60s and is %.60s", diff->entry, diff->field,
                 diff->was, diff->is);
    else
        snprintf(c->contrary, sizeof c->contrary,
                 "entry %.40s was ALTERED: its hash is another than in the record", diff->entry);
}

static void take(const mf_record_diff *diff, void *data)
{
    mf_compared *c = data;
    bool hash_alone = diff->change == MF_RECORD_ALTERED && diff->field[0] == '\0';
    c->of[diff->change]++;
    if (c->contrary[0] == '\0' &&
        (diff->change == MF_RECORD_ALTERED || diff->change == MF_RECORD_MISSING ||
         diff->change == MF_RECORD_LEFT_OUT))
        note_contrary(c, diff);
    if (c->tell != NULL && (!hash_alone || c->by_hash == 0))
        c->tell(diff, c->data);
    c->by_hash += hash_alone;
}

/* ---- the seals ------------------------------------------------------------------------------- */

/* In whose place the seal is drawn, by the record under it. */
static void place_of(const mf_record *record, const mf_seal_report *seal, char as[16])
{
    as[0] = '\0';
    for (size_t i = 0; seal->look.page > 0 && i < record->n_places; i++) {
        const mf_record_place *it = &record->places[i];
        const mf_seal_place place = {it->page, it->x, it->y, it->w, it->h};
        if (mf_seal_places_meet(&place, &seal->look))
            snprintf(as, 16, "%s", it->as);
    }
}

/* A name can be chosen, a fingerprint cannot: one name on two keys is told. */
static mf_status find_twin(mf_compared *c, mf_cli *cli, int index, mf_err *err)
{
    const mf_seal_report *seal = &c->check->seal[index];
    char *twin = c->seal[index].twin;
    mf_status status =
        mf_book_key_of_name(cli->book, seal->common_name, seal->fingerprint, twin, err);
    for (int i = 0; i < c->check->n && twin[0] == '\0'; i++)
        if (!c->check->seal[i].is_stamp &&
            strcmp(c->check->seal[i].common_name, seal->common_name) == 0 &&
            strcmp(c->check->seal[i].fingerprint, seal->fingerprint) != 0)
            snprintf(twin, MF_FINGERPRINT_HEX, "%s", c->check->seal[i].fingerprint);
    return status;
}

static mf_status find_seal(mf_compared *c, mf_cli *cli, const mf_bytes *pdf, int index, mf_err *err)
{
    mf_seal_found *found = &c->seal[index];
    const mf_seal_report *seal = &c->check->seal[index];
    place_of(c->record, seal, found->as);
    found->logged = mf_cli_seal_logged(c->job, pdf, seal);
    c->seals_logged += found->logged != NULL;
    mf_status status = mf_book_key(cli->book, seal->fingerprint, found->as, &found->key, err);
    found->stands = found->logged != NULL ? MF_SEAL_LOGGED
                    : found->key.fits     ? MF_SEAL_KNOWN
                    : found->key.known    ? MF_SEAL_UNFIT
                                          : MF_SEAL_STRANGE;
    return status == MF_OK ? find_twin(c, cli, index, err) : status;
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

static mf_status compare_seals(mf_compared *c, mf_cli *cli, const mf_bytes *pdf, mf_err *err)
{
    const mf_seal_check *check = c->check;
    mf_status status = mf_cli_record_of(&c->record, pdf, err);
    if (status == MF_OK)
        status = mf_cli_job(cli, c->record->job->id, &c->job, err);
    for (int i = 0; i < check->n && status == MF_OK; i++)
        if (!check->seal[i].is_stamp) {
            c->seals++;
            status = find_seal(c, cli, pdf, i, err);
        }
    return status;
}

mf_status mf_cli_compare(mf_compared *c, mf_cli *cli, const mf_bytes *pdf,
                         const mf_seal_check *check, mf_err *err)
{
    c->check = check;
    mf_status status = compare_seals(c, cli, pdf, err);
    if (status == MF_OK && c->tell_seals != NULL)
        c->tell_seals(c);
    if (status == MF_OK)
        status = mf_record_compare(c->record, cli->book, c->job, take, c, err);
    return status == MF_OK ? mf_record_head(c->record, cli->book, &c->head, err) : status;
}

void mf_cli_compared_free(mf_compared *c)
{
    mf_book_job_free(c->job);
    mf_record_free(c->record);
}

static mf_status refuse_seal(const mf_compared *c, int index, mf_err *err)
{
    char mend[320];
    const mf_seal_found *found = &c->seal[index];
    const char *print = c->check->seal[index].fingerprint;
    const char *as = found->as[0] == '\0' ? "renovator" : found->as;
    snprintf(mend, sizeof mend,
             "when its holder has shown you that fingerprint: mistfold key trust --fingerprint %s "
             "--person ID --as %s",
             print, as);
    if (found->stands == MF_SEAL_UNFIT)
        return mf_failf(err, MF_NO, "the paper", "a key is good for what it is known for", mend,
                        "seal %d is in the place for the %s, and its key is known as %s alone (%s)",
                        index + 1, as, found->key.capacity[0] ? found->key.capacity : "nobody",
                        found->key.entry);
    return mf_failf(err, MF_NO, "the paper", "anybody can make a key in any name", mend,
                    "seal %d is by a key that this book does not know, %.16s...", index + 1, print);
}

static mf_status refuse_seals(const mf_compared *c, mf_err *err)
{
    for (int i = 0; i < c->check->n; i++)
        if (!c->check->seal[i].is_stamp &&
            (c->seal[i].stands == MF_SEAL_UNFIT || c->seal[i].stands == MF_SEAL_STRANGE))
            return refuse_seal(c, i, err);
    if (c->seals_logged == 0 && c->job->n_sealed > 0)
        return mf_failf(
            err, MF_NO, "the paper",
            "its data is the book's, but its printed words may be anybody's",
            "do not rely on it; compare its fingerprint, or merge the book that sealed it",
            "none of its seals is among the %zu that the book logged of this job",
            c->job->n_sealed);
    return MF_OK;
}

mf_status mf_cli_denies(const mf_compared *c, mf_err *err)
{
    if (c->contrary[0] != '\0')
        return mf_fail(err, MF_NO, "the record", c->contrary,
                       "no entry says why: this book was made anew, it is another one, or the "
                       "record does not say all",
                       "keep paper and book as they are; compare with a copy of the book");
    if (c->head == MF_HEAD_NEVER)
        return mf_failf(err, MF_NO, "the record",
                        "a book that only grew has had the head of each of its papers",
                        "keep paper and book as they are; compare with a copy of the book",
                        "its head %.16s... is none that this book ever had", c->record->head);
    return MF_OK;
}

mf_status mf_cli_contradicts(const mf_compared *c, mf_err *err)
{
    mf_status status = mf_cli_denies(c, err);
    return status == MF_OK ? refuse_seals(c, err) : status;
}

const char *mf_cli_uncompared(const mf_compared *c)
{
    if (c->record->links.n_entries == 0 && c->head == MF_HEAD_UNTOLD)
        return "the record is of an older version and holds no hashes: its words were compared, "
               "not the hashes of its entries, and its head cannot be followed in a book of "
               "several devices";
    if (c->record->links.n_entries == 0)
        return "the record is of an older version and holds no hashes: its words and its head "
               "were compared, not the hash of each entry";
    return NULL;
}
