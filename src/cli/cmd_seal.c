/* paper seal, paper data, and the comparison of paper check with the book */
#include "base/fail.h"
#include "base/file.h"
#include "cli/key.h"
#include "cli/record.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The record that is attached to the paper; MF_NO when there is none. */
static mf_status read_record(mf_record **out, const mf_bytes *pdf, mf_err *err)
{
    mf_bytes json = {0};
    mf_status status = mf_seal_attached(&json, pdf->data, pdf->len, MF_RECORD_FILE, err);
    if (status == MF_OK)
        status = mf_record_read(out, (const char *)json.data, json.len, err);
    mf_bytes_free(&json);
    return status;
}

/* ---- paper seal ----------------------------------------------------------------- */

static mf_seal_place place_for(const mf_record *record, const char *as)
{
    for (size_t i = 0; record != NULL && as != NULL && i < record->n_places; i++) {
        const mf_record_place *place = &record->places[i];
        if (strcmp(place->as, as) == 0)
            return (mf_seal_place){place->page, place->x, place->y, place->w, place->h};
    }
    return (mf_seal_place){0}; /* invisible, on the first page */
}

static mf_status check_as(const char *as, mf_err *err)
{
    if (as == NULL || strcmp(as, "renovator") == 0 || strcmp(as, "firm") == 0 ||
        strcmp(as, "owner") == 0)
        return MF_OK;
    return mf_fail(err, MF_USAGE, "--as", "is neither renovator, firm nor owner",
                   "the record keeps a place for each", "write --as firm");
}

static const char *reason_of(const char *as)
{
    if (as != NULL && strcmp(as, "owner") == 0)
        return "Witnesses that the record was received by owner or occupant";
    if (as != NULL && strcmp(as, "firm") == 0)
        return "Sealed for the certified firm, 40 CFR 745.86";
    return "Record of a lead-safe renovation, 40 CFR 745.86";
}

/* What is sealed must be whole: a seal over an altered paper would vouch for it. */
static mf_status check_before(const mf_bytes *pdf, mf_err *err)
{
    mf_seal_check check = {0};
    mf_status status = mf_seal_verify(&check, pdf->data, pdf->len, err);
    return status == MF_NO && check.n == 0 ? MF_OK : status;
}

static mf_status seal_it(mf_bytes *out, const mf_cli *cli, const mf_args *args, const mf_bytes *pdf,
                         mf_key *key, mf_err *err)
{
    const char *as = mf_args_value(args, "as");
    mf_record *record = NULL;
    mf_status status = read_record(&record, pdf, err);
    if (status != MF_OK && status != MF_NO)
        return status;
    mf_seal_ask ask = {.key = key,
                       .reason = reason_of(as),
                       .location = "",
                       .signed_at = cli->seconds,
                       .place = place_for(record, as),
                       .draw = true};
    status = mf_seal_sign(out, pdf->data, pdf->len, &ask, err);
    mf_record_free(record);
    return status;
}

mf_status mf_cmd_paper_seal(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes pdf = {0}, sealed = {0};
    mf_key *key = NULL;
    char print[MF_FINGERPRINT_HEX] = "";
    const char *path = args->word[0], *out = mf_args_value(args, "out");
    (void)cmd;
    mf_status status = check_as(mf_args_value(args, "as"), &err);
    if (status == MF_OK)
        status = mf_file_read(&pdf, path, MF_PAPER_FILE_MAX, &err);
    if (status == MF_OK)
        status = check_before(&pdf, &err);
    if (status == MF_OK)
        status = mf_cli_key(args, mf_args_value(args, "key"), &key, &err);
    if (status == MF_OK)
        status = seal_it(&sealed, cli, args, &pdf, key, &err);
    if (status == MF_OK)
        status = mf_file_write(out == NULL ? path : out, sealed.data, sealed.len, 0600, &err);
    if (status == MF_OK) {
        mf_key_fingerprint(key, print);
        if (!cli->json)
            printf("sealed %s by %s\nfingerprint %s\n", out == NULL ? path : out,
                   mf_key_common_name(key), print);
    }
    mf_key_free(key);
    mf_bytes_free(&sealed);
    mf_bytes_free(&pdf);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* ---- paper data ------------------------------------------------------------------ */

mf_status mf_cmd_paper_data(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes pdf = {0}, json = {0};
    (void)cli;
    (void)cmd;
    mf_status status = mf_file_read(&pdf, args->word[0], MF_PAPER_FILE_MAX, &err);
    if (status == MF_OK)
        status = mf_seal_attached(&json, pdf.data, pdf.len, MF_RECORD_FILE, &err);
    if (status == MF_OK)
        printf("%s\n", (const char *)json.data);
    else
        mf_cli_at(&err, args->word[0]);
    mf_bytes_free(&json);
    mf_bytes_free(&pdf);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* ---- paper check --compare ------------------------------------------------------------ */

typedef struct tally {
    const mf_cli *cli;
    size_t of[3];
} tally;

static void count_change(mf_record_change change, const char *kind, const char *entry, void *data)
{
    static const char *const words[] = {"added since  ", "corrected    ", "not in book  "};
    tally *sum = data;
    sum->of[change]++;
    if (!sum->cli->json)
        printf("%s%s, %s\n", words[change], entry, kind);
}

static mf_status say_compared(const mf_cli *cli, const tally *sum, mf_err *err)
{
    if (cli->json)
        printf("{\"added\": %zu, \"corrected\": %zu, \"not_in_book\": %zu}\n",
               sum->of[MF_RECORD_ADDED], sum->of[MF_RECORD_CHANGED], sum->of[MF_RECORD_GONE]);
    else if (sum->of[0] + sum->of[1] + sum->of[2] == 0)
        printf("the book     has just the entries of the record\n");
    if (sum->of[MF_RECORD_GONE] == 0)
        return MF_OK;
    return mf_failf(err, MF_NO, "the record", "they were withdrawn since, or it is another book",
                    "see: mistfold entry list JOB", "the book lacks %zu of its entries",
                    sum->of[MF_RECORD_GONE]);
}

mf_status mf_cli_compare(mf_cli *cli, const mf_bytes *pdf, mf_err *err)
{
    mf_record *record = NULL;
    mf_job *job = NULL;
    tally sum = {.cli = cli};
    mf_status status = read_record(&record, pdf, err);
    if (status == MF_OK)
        status = mf_record_agrees(record, err);
    if (status == MF_OK)
        status = mf_cli_job(cli, record->job->id, &job, err);
    if (status == MF_OK)
        status = mf_record_compare(record, job, count_change, &sum, err);
    if (status == MF_OK)
        status = say_compared(cli, &sum, err);
    mf_book_job_free(job);
    mf_record_free(record);
    return status;
}
