/* serve_reply.c - what a served book does for a request: by the same calls as the commands. */
#include "base/fail.h"
#include "cli/field_page.h"
#include "cli/json.h"
#include "cli/receipt.h"
#include "cli/serve.h"
#include "serve/answer.h"

#include <inttypes.h>
#include <stdlib.h>

/* ---- who may come --------------------------------------------------------------------------- */

/* Those of a job that nobody altered: an invitation that was never logged is none. */
static mf_serve_token *tokens_of(const mf_job *job, size_t *n)
{
    *n = 0;
    if (job == NULL || job->integrity == MF_INTEGRITY_BROKEN)
        return NULL;
    mf_serve_token *all = calloc(job->n_invitation + 1, sizeof *all);
    for (size_t i = 0; all != NULL && i < job->n_invitation; i++) {
        const mf_invitation *it = &job->invitation[i];
        all[(*n)++] = (mf_serve_token){it->token_sha256, it->person, it->until};
    }
    return all;
}

void mf_serve_head(mf_serve *serve, const mf_serve_request *request, const char *caller,
                   mf_serve_answer *out, mf_job **job)
{
    char id[MF_SERVE_ID];
    size_t n = 0;
    mf_serve_token *tokens = NULL;
    mf_cli_clock(serve->cli);
    *job = NULL;
    if (!mf_rate_may(&serve->rate, caller, serve->cli->seconds)) {
        *out = (mf_serve_answer){.code = 429};
        return;
    }
    mf_serve_job(request->path == NULL ? "" : request->path, id);
    if (id[0] != '\0' && request->authorization != NULL &&
        mf_cli_job(serve->cli, id, job, NULL) == MF_OK)
        tokens = tokens_of(*job, &n);
    mf_serve_judge(request, &serve->site, tokens, n, serve->cli->today, out);
    if (out->person != NULL && mf_job_person(*job, out->person) == NULL)
        *out = (mf_serve_answer){.code = 401};
    free(tokens);
    if (out->bad_token)
        mf_rate_bad(&serve->rate, caller, serve->cli->seconds);
}

/* ---- replies ------------------------------------------------------------------------------------
 */

static const char *words_of(int code)
{
    static const struct {
        int code;
        const char *words;
    } rows[] = {{400, "not a request this page makes"},
                {401, "no invitation"},
                {403, "from another site"},
                {404, "nothing here"},
                {405, "not in this way"},
                {411, "without its length"},
                {413, "too long"},
                {415, "no file of entries"},
                {421, "called by another name"},
                {422, "refused"},
                {429, "too often; wait a minute"},
                {503, "busy; try again"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].code == code)
            return rows[i].words;
    return "the book cannot be used";
}

static void put_text(mf_serve_reply *out, int code, const char *type, const char *text)
{
    mf_buf buf = {0};
    mf_buf_text(&buf, text);
    mf_buf_text(&out->policy, mf_serve_policy);
    out->code = code;
    out->type = type;
    if (!buf.failed)
        mf_buf_take(&buf, &out->body);
    mf_buf_free(&buf);
}

void mf_serve_refuse(int code, mf_serve_reply *out)
{
    *out = (mf_serve_reply){.code = code};
    put_text(out, code, "text/plain; charset=utf-8", words_of(code));
    snprintf(out->log, sizeof out->log, "refused");
}

/* What may run is what stands in the page before anybody's data is in it. */
static mf_status page_of(mf_serve *serve, const mf_serve_answer *answer, mf_serve_reply *out,
                         mf_err *err)
{
    mf_cli *cli = serve->cli;
    mf_bytes entries = {0};
    bool good =
        mf_serve_page_policy(&out->policy, (const char *)mf_field_page_html, mf_field_page_len);
    mf_status status = good ? MF_OK : mf_fail_memory(err);
    if (status == MF_OK)
        status = mf_book_export_page(cli->book, answer->job, cli->at, &entries, err);
    if (status == MF_OK)
        status =
            mf_cli_field_page(cli->lang, answer->job, answer->person, &entries, &out->body, err);
    mf_bytes_free(&entries);
    return status;
}

static void page(mf_serve *serve, const mf_serve_answer *answer, mf_serve_reply *out)
{
    mf_err err = {0};
    *out = (mf_serve_reply){.code = 200, .type = "text/html; charset=utf-8"};
    snprintf(out->log, sizeof out->log, "page");
    if (page_of(serve, answer, out, &err) == MF_OK)
        return;
    mf_buf_free(&out->policy);
    mf_serve_refuse(500, out);
}

/* Why a file was refused is told to who handed it over: it is theirs. */
static void refused(mf_serve_reply *out, const mf_err *err)
{
    json_t *said = json_pack("{s:s, s:s, s:s, s:s}", "where", err->where, "what", err->what, "why",
                             err->why, "mend", err->mend);
    char *text = said == NULL ? NULL : json_dumps(said, JSON_COMPACT);
    mf_serve_refuse(err->status == MF_INPUT ? 422 : 500, out);
    if (text != NULL && err->status == MF_INPUT) {
        mf_bytes_free(&out->body);
        mf_buf_free(&out->policy);
        put_text(out, 422, "application/json", text);
    }
    snprintf(out->log, sizeof out->log, "entries refused");
    free(text);
    json_decref(said);
}

static void take(mf_serve *serve, const mf_serve_answer *answer, const mf_bytes *body,
                 mf_serve_reply *out)
{
    mf_err err = {0};
    mf_entries_report report = {0};
    mf_receipt receipt;
    const mf_now now = {serve->cli->today, serve->cli->at, "", serve->cli->time};
    mf_receipt_begin(&receipt);
    const mf_entries_ask ask = {.name = "the file",
                                .bytes = body->data,
                                .len = body->len,
                                .now = &now,
                                .job = answer->job,
                                .who = answer->person,
                                .head = mf_receipt_head,
                                .data = &receipt};
    mf_status status = mf_book_import_entries(serve->cli->book, &ask, &report, &err);
    char *text = status == MF_OK ? mf_receipt_text(&receipt, &report) : NULL;
    if (status != MF_OK)
        refused(out, &err);
    else if (text == NULL)
        mf_serve_refuse(500, out);
    else {
        *out = (mf_serve_reply){.code = 200};
        put_text(out, 200, "application/json", text);
        snprintf(out->log, sizeof out->log, "entries, %" PRId64 " new%s", report.merge.added,
                 report.cut ? ", cut off" : "");
    }
    free(text);
    mf_receipt_end(&receipt);
}

void mf_serve_do(mf_serve *serve, const mf_serve_answer *answer, const mf_bytes *body,
                 mf_serve_reply *out)
{
    static const char script[] = "text/javascript; charset=utf-8";
    *out = (mf_serve_reply){.code = 200};
    switch (answer->what) {
    case MF_SERVE_SHELL:
        put_text(out, 200, "text/html; charset=utf-8", mf_serve_shell);
        break;
    case MF_SERVE_BOOT:
        put_text(out, 200, script, mf_serve_boot);
        break;
    case MF_SERVE_WORKER:
        put_text(out, 200, script, mf_serve_worker);
        break;
    case MF_SERVE_PAGE:
        page(serve, answer, out);
        return;
    case MF_SERVE_TAKE:
        take(serve, answer, body, out);
        return;
    case MF_SERVE_REFUSE:
        mf_serve_refuse(answer->code, out);
        return;
    }
    snprintf(out->log, sizeof out->log, "start");
}
