/* paper stamp: an authority confirms when a sealed paper existed, at once or in two steps. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/json.h"
#include "cli/record.h"
#include "cli/tsa.h"

#include <string.h>

/* What one run holds. */
typedef struct stamping {
    mf_tsa tsa;
    mf_bytes pdf, stamped, query, reply;
    bool asked; /* the query was made: this is as far as it goes for now */
} stamping;

/* The first step: what would be stamped. Nothing is, so that the paper is not written. */
static mf_status make_query(void *user, const char *sha256, mf_bytes *token, mf_err *err)
{
    stamping *s = user;
    (void)token;
    mf_status status = mf_stamp_query(&s->query, sha256, err);
    s->asked = status == MF_OK;
    return s->asked ? MF_NO : status;
}

/* The second: the same paper gives the same bytes to be stamped. */
static mf_status take_reply(void *user, const char *sha256, mf_bytes *token, mf_err *err)
{
    stamping *s = user;
    char nonce[MF_STAMP_HEX];
    mf_bytes same = {0};
    mf_status status = mf_stamp_query_nonce(nonce, s->query.data, s->query.len, err);
    if (status == MF_OK)
        status = mf_stamp_query_of(&same, sha256, nonce, err);
    if (status == MF_OK &&
        (same.len != s->query.len || memcmp(same.data, s->query.data, same.len) != 0))
        status = mf_fail(err, MF_INPUT, "--request", "this query is of another paper",
                         "or the paper was sealed or stamped since", "write the query anew");
    mf_bytes_free(&same);
    return status == MF_OK ? mf_stamp_reply(token, &s->tsa.said, &s->query, s->reply.data,
                                            s->reply.len, mf_tsa_roots(&s->tsa), err)
                           : status;
}

/* A stamp on an altered paper would confirm that it was altered by then. */
static mf_status read_paper(stamping *s, const char *path, mf_err *err)
{
    mf_seal_check check = {0};
    mf_status status = mf_file_read(&s->pdf, path, MF_PAPER_FILE_MAX, err);
    if (status == MF_OK) {
        status = mf_cli_verify(&check, &s->pdf, err);
        if (status != MF_OK)
            mf_cli_at(err, path);
    }
    return status;
}

static mf_status check_options(const char *request, const char *reply, const char *out, mf_err *err)
{
    if (out != NULL && request != NULL && reply == NULL)
        return mf_fail(err, MF_USAGE, "--out", "no paper is written beside a query",
                       "the query goes to the file of --request, and the paper stays as it is",
                       "leave it out, and give it with --reply");
    if (reply != NULL && request == NULL)
        return mf_fail(err, MF_USAGE, "--reply", "the query that it answers is not given",
                       "the two belong together", "add --request FILE, the query that was sent");
    return MF_OK;
}

static mf_status read_step(stamping *s, const char *request, const char *reply, mf_err *err)
{
    if (reply == NULL)
        return request == NULL ? MF_OK : mf_file_is_free(request, err);
    mf_status status = mf_file_read(&s->query, request, MF_STAMP_REPLY_MAX, err);
    return status == MF_OK ? mf_file_read(&s->reply, reply, MF_STAMP_REPLY_MAX, err) : status;
}

static mf_status stamp_it(stamping *s, const char *request, const char *reply, mf_err *err)
{
    const unsigned char *pdf = s->pdf.data;
    if (request == NULL)
        return mf_seal_stamp(&s->stamped, pdf, s->pdf.len, mf_tsa_stamp_seal, &s->tsa, err);
    if (reply != NULL)
        return mf_seal_stamp(&s->stamped, pdf, s->pdf.len, take_reply, s, err);
    mf_status status = mf_seal_stamp(&s->stamped, pdf, s->pdf.len, make_query, s, err);
    return s->asked ? mf_file_write_new(request, s->query.data, s->query.len, 0600, err) : status;
}

static mf_status say(const mf_cli *cli, const stamping *s, const char *path)
{
    if (s->asked) {
        mf_cli_wrote(cli, path);
        return MF_OK;
    }
    if (cli->json)
        return mf_json_print(mf_tsa_json(&s->tsa.said));
    mf_cli_wrote(cli, path);
    mf_tsa_say_new(cli, "time stamp  ", &s->tsa.said);
    return MF_OK;
}

mf_status mf_cmd_paper_stamp(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    stamping s = {0};
    const char *request = mf_args_value(args, "request"), *reply = mf_args_value(args, "reply");
    const char *out = mf_args_value(args, "out");
    const char *path = out == NULL ? args->word[0] : out;
    (void)cmd;
    mf_status status = check_options(request, reply, out, &err);
    if (status == MF_OK)
        status = mf_tsa_open(&s.tsa, cli, args, request == NULL && reply == NULL, &err);
    if (status == MF_OK)
        status = read_step(&s, request, reply, &err);
    if (status == MF_OK)
        status = read_paper(&s, args->word[0], &err);
    if (status == MF_OK)
        status = stamp_it(&s, request, reply, &err);
    if (status == MF_OK && !s.asked)
        status = mf_cli_put(cli, path, s.stamped.data, s.stamped.len, &err);
    if (status == MF_OK)
        status = say(cli, &s, s.asked ? request : path);
    else
        status = mf_cli_fail(&err);
    mf_tsa_close(&s.tsa);
    mf_bytes_free(&s.pdf);
    mf_bytes_free(&s.stamped);
    mf_bytes_free(&s.query);
    mf_bytes_free(&s.reply);
    return status;
}
