/* attach add, attach export */
#include "base/fail.h"
#include "base/file.h"
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

static const char *or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

/* A picture that cannot be read today cannot be shown in the record later. */
static mf_status check_picture(const mf_attach_ask *ask, mf_err *err)
{
    const mf_paper_photo photo = {
        .data = ask->bytes, .len = ask->len, .name = ask->name, .entry = "", .about = ""};
    bool pdf = ask->len > 5 && memcmp(ask->bytes, "%PDF-", 5) == 0;
    return pdf ? MF_OK : mf_paper_photo_check(&photo, err);
}

static mf_status attach(mf_book *book, const mf_attach_ask *ask, const mf_now *now,
                        char id[MF_ENTRY_ID], char sha256[MF_HASH_HEX], mf_err *err)
{
    mf_status status = mf_book_begin(book, err);
    if (status != MF_OK)
        return status;
    status = mf_book_attach(book, ask, now, id, sha256, err);
    if (status == MF_OK)
        status = check_picture(ask, err);
    if (status == MF_OK)
        return mf_book_commit(book, err);
    mf_book_rollback(book);
    return status;
}

mf_status mf_cmd_attach_add(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_now now;
    mf_bytes file = {0};
    char id[MF_ENTRY_ID], sha256[MF_HASH_HEX];
    (void)cmd;
    mf_status status = mf_cli_now(cli, &now, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_file_read(&file, args->word[1], MF_ATTACH_MAX, &err);
    mf_attach_ask ask = {.job = args->word[0],
                         .about = or_empty(mf_args_value(args, "about")),
                         .bytes = file.data,
                         .len = file.len,
                         .name = args->word[1],
                         .note = or_empty(mf_args_value(args, "note"))};
    if (status == MF_OK)
        status = attach(cli->book, &ask, &now, id, sha256, &err);
    mf_bytes_free(&file);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    if (cli->json)
        printf("{\"entry\": \"%s\", \"sha256\": \"%s\"}\n", id, sha256);
    else
        printf("attached %s\nsha256 %s\n", id, sha256);
    return MF_OK;
}

/* The attachment that an entry or the beginning of a hash names. */
static mf_status find(const mf_job *job, const char *word, const mf_attachment **out, mf_err *err)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_attachment; i++) {
        const mf_attachment *it = &job->attachment[i];
        bool hash = strlen(word) >= 8 && strncmp(it->sha256, word, strlen(word)) == 0;
        if (strcmp(it->src.entry, word) != 0 && !hash)
            continue;
        n += n == 0 || strcmp((*out)->sha256, it->sha256) != 0;
        *out = it;
    }
    if (n == 1)
        return MF_OK;
    return mf_failf(
        err, MF_INPUT, job->id, "it is named by its entry or the beginning of its SHA-256",
        "see \"attach list\"",
        n == 0 ? "there is no attachment %.70s" : "%.70s fits several attachments", word);
}

mf_status mf_cmd_attach_export(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_bytes file = {0};
    const mf_attachment *it = NULL;
    const char *path = mf_args_value(args, "out");
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status == MF_OK)
        status = find(job, args->word[1], &it, &err);
    if (status == MF_OK && it != NULL)
        status = mf_book_attached(cli->book, it->sha256, &file, &err);
    if (status == MF_OK)
        status = mf_cli_put(cli, path, file.data, file.len, &err);
    if (status == MF_OK && it != NULL && cli->json)
        printf("{\"sha256\": \"%s\"}\n", it->sha256);
    else if (status == MF_OK && it != NULL)
        printf("wrote %s, %zu bytes, as they were attached\nsha256 %s\n", path, file.len,
               it->sha256);
    mf_bytes_free(&file);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
