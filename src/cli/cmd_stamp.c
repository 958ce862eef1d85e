/* book stamp: an authority confirms the book's head, at once or in two steps. */
#include "base/base64.h"
#include "base/fail.h"
#include "base/file.h"
#include "cli/json.h"
#include "cli/tsa.h"

#include <stdlib.h>
#include <string.h>

/* What one run holds. */
typedef struct stamping {
    mf_tsa tsa;
    mf_buf heads;
    char head[MF_HASH_HEX], nonce[MF_STAMP_HEX], entry[MF_ENTRY_ID];
    mf_bytes query, token, reply;
    const char *out; /* where the query or the reply goes; NULL = nowhere */
} stamping;

static void free_stamping(stamping *s)
{
    mf_tsa_close(&s->tsa);
    mf_buf_free(&s->heads);
    mf_bytes_free(&s->query);
    mf_bytes_free(&s->token);
    mf_bytes_free(&s->reply);
}

/* ---- logging ------------------------------------------------------------------------------ */

/* The entry and the file: both or neither. */
static mf_status keep(mf_cli *cli, stamping *s, const mf_draft *draft, const mf_bytes *file,
                      mf_err *err)
{
    mf_now now;
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_book_begin(cli->book, err);
    if (status != MF_OK)
        return status;
    status = mf_book_write(cli->book, draft, "", &now, "", s->entry, err);
    if (status == MF_OK && s->out != NULL)
        status = mf_file_write_new(s->out, file->data, file->len, 0600, err);
    if (status == MF_OK)
        return mf_book_commit(cli->book, err);
    mf_book_rollback(cli->book);
    return status;
}

static mf_status log_request(mf_cli *cli, stamping *s, mf_err *err)
{
    mf_draft *draft = NULL;
    const char *const pairs[][2] = {
        {"head", s->head}, {"heads", mf_buf_str(&s->heads)}, {"nonce", s->nonce}};
    mf_status status = mf_draft_of(&draft, "stamp_request", pairs, 3, "", cli->today, err);
    if (status == MF_OK)
        status = keep(cli, s, draft, &s->query, err);
    mf_draft_free(draft);
    return status;
}

static mf_status log_stamp(mf_cli *cli, stamping *s, mf_err *err)
{
    char told[MF_TSA_TOLD];
    mf_buf token = {0};
    mf_draft *draft = NULL;
    mf_base64_put(&token, s->token.data, s->token.len);
    mf_tsa_told(&s->tsa.said, told);
    const char *const pairs[][2] = {{"head", s->head},
                                    {"heads", mf_buf_str(&s->heads)},
                                    {"told", told},
                                    {"authority", s->tsa.said.authority},
                                    {"policy", s->tsa.said.policy},
                                    {"serial", s->tsa.said.serial},
                                    {"token", mf_buf_str(&token)}};
    mf_status status = token.failed ? mf_fail_memory(err)
                                    : mf_draft_of(&draft, "stamp", pairs, 7, "", cli->today, err);
    if (status == MF_OK)
        status = keep(cli, s, draft, &s->reply, err);
    mf_draft_free(draft);
    mf_buf_free(&token);
    return status;
}

/* ---- the three ways ------------------------------------------------------------------------ */

/* A head of an altered book is not what anybody wants confirmed. */
static mf_status take_head(mf_cli *cli, stamping *s, mf_err *err)
{
    mf_book_report report = {0};
    mf_now now;
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_book_check(cli->book, &report, err);
    mf_cli_adopted(&report);
    if (status == MF_OK && report.entries == 0)
        status = mf_fail(err, MF_INPUT, cli->book_path, "there is nothing in the book to stamp", "",
                         "log something first");
    return status == MF_OK ? mf_stamped_heads(&s->heads, s->head, cli->book, err) : status;
}

static mf_status ask_now(mf_cli *cli, stamping *s, mf_err *err)
{
    mf_status status = take_head(cli, s, err);
    if (status == MF_OK && s->out != NULL)
        status = mf_file_is_free(s->out, err);
    if (status == MF_OK)
        status = mf_tsa_stamp(&s->tsa, s->head, &s->token, &s->reply, err);
    return status == MF_OK ? log_stamp(cli, s, err) : status;
}

static mf_status write_request(mf_cli *cli, stamping *s, mf_err *err)
{
    mf_status status = take_head(cli, s, err);
    if (status == MF_OK)
        status = mf_stamp_query(&s->query, s->head, err);
    if (status == MF_OK)
        status = mf_stamp_query_nonce(s->nonce, s->query.data, s->query.len, err);
    return status == MF_OK ? log_request(cli, s, err) : status;
}

/* The request that the reply is to; by its head and its nonce. */
static mf_status find_request(const mf_job *firm, stamping *s, const char *path, mf_err *err)
{
    char sha256[MF_STAMP_HEX], nonce[MF_STAMP_HEX];
    const mf_stamp_request *found = NULL;
    bool head = false;
    mf_status status = mf_stamp_reply_peek(sha256, nonce, s->reply.data, s->reply.len, err);
    if (status != MF_OK)
        return mf_cli_at(err, path);
    for (size_t i = 0; i < firm->n_stamp_request; i++) {
        const mf_stamp_request *it = &firm->stamp_request[i];
        head = head || strcmp(it->head, sha256) == 0;
        if (strcmp(it->head, sha256) == 0 && strcmp(it->nonce, nonce) == 0)
            found = it;
    }
    if (found == NULL)
        return mf_fail(err, MF_INPUT, path,
                       head ? "it answers another query than those of this book"
                            : "it stamps something else than a head that was asked for",
                       head ? "its random number (nonce) is not one that was sent"
                            : "its SHA-256 is that of no query of this book",
                       "give the reply to a query of: mistfold book stamp --request FILE");
    snprintf(s->head, sizeof s->head, "%s", found->head);
    snprintf(s->nonce, sizeof s->nonce, "%s", found->nonce);
    mf_buf_text(&s->heads, found->heads);
    return s->heads.failed ? mf_fail_memory(err) : MF_OK;
}

static mf_status not_taken_before(const mf_job *firm, const stamping *s, const char *path,
                                  mf_err *err)
{
    for (size_t i = 0; i < firm->n_stamp; i++)
        if (strcmp(firm->stamp[i].head, s->head) == 0 &&
            strcmp(firm->stamp[i].serial, s->tsa.said.serial) == 0 &&
            strcmp(firm->stamp[i].policy, s->tsa.said.policy) == 0)
            return mf_failf(err, MF_INPUT, path, "", "nothing needs to be done",
                            "this stamp is in the book already, entry %.40s",
                            firm->stamp[i].src.entry);
    return MF_OK;
}

static mf_status take_reply(mf_cli *cli, stamping *s, const char *path, mf_err *err)
{
    mf_job *firm = NULL;
    mf_status status = mf_file_read(&s->reply, path, MF_STAMP_REPLY_MAX, err);
    if (status == MF_OK)
        status = mf_cli_job(cli, "", &firm, err);
    if (status == MF_OK)
        status = find_request(firm, s, path, err);
    if (status == MF_OK)
        status = mf_stamp_query_of(&s->query, s->head, s->nonce, err);
    if (status == MF_OK) {
        status = mf_stamp_reply(&s->token, &s->tsa.said, &s->query, s->reply.data, s->reply.len,
                                mf_tsa_roots(&s->tsa), err);
        if (status != MF_OK)
            mf_cli_at(err, path);
    }
    if (status == MF_OK)
        status = not_taken_before(firm, s, path, err);
    mf_book_job_free(firm);
    return status == MF_OK ? log_stamp(cli, s, err) : status;
}

/* ---- what is said ---------------------------------------------------------------------------- */

static void say_requested(mf_cli *cli, const stamping *s)
{
    if (cli->json) {
        printf("{\"head\": \"%s\", \"nonce\": \"%s\", \"entry\": \"%s\"}\n", s->head, s->nonce,
               s->entry);
        return;
    }
    printf("head      %s\n", s->head);
    mf_cli_wrote(cli, s->out);
    printf("logged stamp_request %s\n", s->entry);
    snprintf(cli->next, sizeof cli->next, "mistfold book stamp --reply FILE");
}

static mf_status say_stamped(mf_cli *cli, const stamping *s)
{
    if (cli->json) {
        json_t *json = mf_tsa_json(&s->tsa.said);
        json_object_set_new(json, "head", json_string(s->head));
        json_object_set_new(json, "entry", json_string(s->entry));
        return mf_json_print(json);
    }
    printf("head      %s\n", s->head);
    mf_tsa_say_new(cli, "stamp     ", &s->tsa.said);
    printf("logged stamp %s\n", s->entry);
    if (s->out != NULL)
        mf_cli_wrote(cli, s->out);
    return MF_OK;
}

static mf_status check_options(const char *request, const char *reply, const char *out, mf_err *err)
{
    if (request != NULL && reply != NULL)
        return mf_fail(err, MF_USAGE, "--reply", "it stands beside --request",
                       "first the query is written, later the reply is taken", "give one of them");
    if (out != NULL && (request != NULL || reply != NULL))
        return mf_fail(err, MF_USAGE, "--out", "it goes with a stamp that is fetched now",
                       "a query goes to the file of --request, and a reply is a file already",
                       "leave it out");
    return MF_OK;
}

mf_status mf_cmd_book_stamp(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    const char *request = mf_args_value(args, "request"), *reply = mf_args_value(args, "reply");
    stamping s = {.out = mf_args_value(args, "out")};
    (void)cmd;
    mf_status status = check_options(request, reply, s.out, &err);
    if (request != NULL)
        s.out = request;
    if (status == MF_OK)
        status = mf_tsa_open(&s.tsa, cli, args, request == NULL && reply == NULL, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = request != NULL ? write_request(cli, &s, &err)
                 : reply != NULL ? take_reply(cli, &s, reply, &err)
                                 : ask_now(cli, &s, &err);
    if (status == MF_OK && request != NULL)
        say_requested(cli, &s);
    else if (status == MF_OK)
        status = say_stamped(cli, &s);
    else
        status = mf_cli_fail(&err);
    free_stamping(&s);
    return status;
}
