/* The book remembers which paper was sealed, and knows a seal again by its hash. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/record.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

void mf_cli_chains(mf_buf *out, const mf_links *links)
{
    for (size_t i = 0; links != NULL && i < links->n_chains; i++)
        mf_buf_printf(out, "%s%s", i > 0 ? " " : "", links->chains[i].entry);
}

static mf_status log_sealed(mf_cli *cli, const mf_cli_sealed *it, char id[MF_ENTRY_ID], mf_err *err)
{
    char sha[MF_FINGERPRINT_HEX], fingerprint[MF_FINGERPRINT_HEX], day[MF_DAY_TEXT];
    mf_now now;
    mf_draft *draft = NULL;
    mf_buf chains = {0};
    mf_cli_chains(&chains, it->links);
    mf_sha256_hex(it->file->data, it->file->len, sha);
    mf_day_text(cli->today, day);
    mf_key_fingerprint(it->key, fingerprint);
    const char *const pairs[][2] = {
        {"paper", "record"},
        {"sha256", sha},
        {"fingerprint", fingerprint},
        {"head", it->head},
        {"person", cli->who},
        {"day", day},
        {"capacity", it->capacity},
        {"chains", mf_buf_str(&chains)},
        {"signer", mf_key_common_name(it->key)},
    };
    mf_status status = chains.failed ? mf_fail_memory(err) : mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_draft_of(&draft, "sealed", pairs, sizeof pairs / sizeof pairs[0], "",
                             cli->today, err);
    if (status == MF_OK)
        status = mf_book_write(cli->book, draft, it->job, &now, "", id, err);
    mf_draft_free(draft);
    mf_buf_free(&chains);
    return status;
}

/* The entry is written but not committed, the paper put in its place, the entry
 * committed. All that is likely to fail (a full disk, a book in use) fails before the
 * place is touched, and when the commit fails the paper that was there comes back. A power
 * cut just before the commit leaves a sealed paper that the book does not know, as "paper
 * check --compare" says, and the one before it beside it. The other way round the book
 * would name a paper that there is not, and a job would pass for sealed. */
mf_status mf_cli_keep_sealed(mf_cli *cli, const mf_cli_sealed *it, const char *path,
                             char id[MF_ENTRY_ID], mf_err *err)
{
    mf_staged staged;
    bool logs = it->job != NULL;
    mf_status status = mf_cli_may_put(cli, path, it->file->data, it->file->len, err);
    if (status != MF_OK)
        return status;
    status = mf_file_stage(&staged, path, it->file->data, it->file->len, 0600, err);
    if (status == MF_OK && logs)
        status = mf_book_begin(cli->book, err);
    bool open = status == MF_OK && logs;
    if (open)
        status = log_sealed(cli, it, id, err);
    if (status == MF_OK)
        status = mf_file_put(&staged, logs, err);
    if (open && status == MF_OK)
        status = mf_book_commit(cli->book, err);
    else if (open)
        mf_book_rollback(cli->book);
    mf_file_end(&staged, status == MF_OK);
    return status;
}

mf_status mf_cli_job_if_known(mf_cli *cli, const char *id, mf_job **out, mf_err *err)
{
    *out = NULL;
    if (cli->book == NULL && access(cli->book_path, F_OK) != 0)
        return MF_OK;
    mf_status status = mf_cli_job(cli, id, out, err);
    if (status != MF_INPUT)
        return status;
    *err = (mf_err){0}; /* the book is of other jobs */
    return MF_OK;
}

/* ---- known again ---------------------------------------------------------------- */

const mf_sealed *mf_cli_seal_logged(const mf_job *job, const mf_bytes *pdf,
                                    const mf_seal_report *seal)
{
    char sha[MF_FINGERPRINT_HEX];
    if (seal->covered_len > pdf->len)
        return NULL;
    mf_sha256_hex(pdf->data, seal->covered_len, sha);
    for (size_t i = 0; i < job->n_sealed; i++)
        if (strcmp(job->sealed[i].sha256, sha) == 0)
            return &job->sealed[i];
    return NULL;
}

mf_status mf_cli_record_of(mf_record **out, const mf_bytes *pdf, mf_err *err)
{
    mf_bytes json = {0};
    mf_status status = mf_seal_attached(&json, pdf->data, pdf->len, MF_RECORD_FILE, err);
    if (status == MF_OK)
        status = mf_record_read(out, (const char *)json.data, json.len, err);
    mf_bytes_free(&json);
    return status;
}

/* The places come from the data under the seals: of another paper's maker, who could have
 * printed the words as well. */
static mf_status judge_looks(mf_seal_check *check, const mf_bytes *pdf, mf_err *err)
{
    mf_record *record = NULL;
    mf_seal_place place[MF_SEAL_MAX];
    size_t n = 0;
    mf_err none = {0};
    mf_status status = mf_cli_record_of(&record, pdf, &none);
    if (status == MF_SYSTEM) {
        *err = none;
        return status;
    }
    for (; status == MF_OK && n < record->n_places && n < MF_SEAL_MAX; n++) {
        const mf_record_place *it = &record->places[n];
        place[n] = (mf_seal_place){it->page, it->x, it->y, it->w, it->h};
    }
    mf_record_free(record);
    return mf_seal_looks(check, place, n, err);
}

mf_status mf_cli_verify(mf_seal_check *check, const mf_bytes *pdf, mf_err *err)
{
    bool drawn = false;
    mf_status status = mf_seal_verify(check, pdf->data, pdf->len, err);
    for (int i = 1; i < check->n; i++)
        drawn = drawn || check->seal[i].look.page > 0;
    return status == MF_OK && drawn ? judge_looks(check, pdf, err) : status;
}
