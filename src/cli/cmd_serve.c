/* field invite, field serve: who may hand over entries, and the door they come through. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/json.h"
#include "cli/serve.h"
#include "serve/token.h"

#include <arpa/inet.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define PORT     8745
#define BASE_URL "http://localhost:8745"
enum { INVITED_DAYS = 14, PEM_MAX = 256 * 1024 };

/* ---- inviting ---------------------------------------------------------------------------- */

/* A scheme, a host and perhaps a port: what the path is put behind. */
static mf_status check_url(const char *url, mf_err *err)
{
    size_t scheme = strncmp(url, "https://", 8) == 0 ? 8 : strncmp(url, "http://", 7) == 0 ? 7 : 0;
    size_t len = strlen(url);
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.-:[]";
    if (scheme == 0 || len == scheme || len > 200 || strspn(url + scheme, letters) != len - scheme)
        return mf_failf(err, MF_INPUT, "--url", "it is where phones reach this computer",
                        "write it like https://field.example:8745, without a path",
                        "%.60s is not the address of a server", url);
    if (scheme == 7 && strncmp(url + 7, "localhost", 9) != 0 && strncmp(url + 7, "127.", 4) != 0 &&
        strncmp(url + 7, "[::1]", 5) != 0)
        return mf_fail(err, MF_INPUT, "--url", "a phone would send its token for all to read",
                       "another address than this computer's own is called by https",
                       "write https://");
    return MF_OK;
}

static mf_status log_invitation(mf_cli *cli, const mf_args *args, const char *sha256, mf_day until,
                                char id[MF_ENTRY_ID], mf_err *err)
{
    char day[MF_DAY_TEXT];
    mf_now now;
    mf_draft *draft = NULL;
    const char *person = mf_args_value(args, "person");
    mf_day_text(until, day);
    const char *const pairs[][2] = {{"person", person}, {"token_sha256", sha256}, {"until", day}};
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_draft_of(&draft, "invitation", pairs, 3, "--person", cli->today, err);
    if (status == MF_OK)
        status = mf_book_write(cli->book, draft, args->word[0], &now, "", id, err);
    mf_draft_free(draft);
    return status;
}

static mf_status until_of(const mf_cli *cli, const mf_args *args, mf_day *out, mf_err *err)
{
    mf_status status = mf_cli_day_in(args, "until", cli->today + INVITED_DAYS, out, err);
    if (status == MF_OK && *out < cli->today)
        return mf_failf(err, MF_INPUT, "--until", "an invitation that is over lets nobody in",
                        "give a day that is still to come", "%.40s is over",
                        mf_args_value(args, "until"));
    return status;
}

static mf_status say_invited(const mf_cli *cli, const char *id, const char *url, mf_day until)
{
    char day[MF_DAY_TEXT];
    mf_err err = {0};
    mf_bytes code = {0};
    mf_day_text(until, day);
    if (cli->json)
        return mf_json_print(json_pack("{s:s, s:s, s:s}", "entry", id, "url", url, "until", day));
    printf("logged invitation %s, through %s\n", id, day);
    if (isatty(STDOUT_FILENO) && mf_qr_text(url, &code, &err) == MF_OK)
        fwrite(code.data, 1, code.len, stdout);
    mf_bytes_free(&code);
    printf("%s\nwho has this address may hand over entries; it is shown this once. To take it "
           "back:\n    mistfold entry withdraw %s --reason ...\n",
           url, id);
    return MF_OK;
}

static mf_status put_code(const mf_cli *cli, const char *path, const char *url, mf_err *err)
{
    mf_bytes png = {0};
    mf_status status = path == NULL ? MF_OK : mf_qr_png(url, &png, err);
    if (status == MF_OK && path != NULL)
        status = mf_cli_put(cli, path, png.data, png.len, err);
    mf_bytes_free(&png);
    return status;
}

/* The picture is written first: an invitation that nobody can see is no use. */
static mf_status invite(mf_cli *cli, const mf_args *args, char id[MF_ENTRY_ID], mf_buf *url,
                        mf_day *until, mf_err *err)
{
    char token[MF_TOKEN], sha256[MF_DIGEST_HEX];
    const char *base = mf_args_value(args, "url");
    mf_status status = check_url(base == NULL ? BASE_URL : base, err);
    if (status == MF_OK)
        status = until_of(cli, args, until, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_token_new(token, sha256, err);
    if (status != MF_OK)
        return status;
    mf_buf_printf(url, "%s/new/%s#%s", base == NULL ? BASE_URL : base, args->word[0], token);
    status = mf_book_begin(cli->book, err);
    if (status != MF_OK)
        return status;
    status = log_invitation(cli, args, sha256, *until, id, err);
    if (status == MF_OK && url->failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = put_code(cli, mf_args_value(args, "qr"), mf_buf_str(url), err);
    if (status == MF_OK)
        return mf_book_commit(cli->book, err);
    mf_book_rollback(cli->book);
    return status;
}

mf_status mf_cmd_field_invite(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char id[MF_ENTRY_ID];
    mf_buf url = {0};
    mf_day until = MF_DAY_NONE;
    (void)cmd;
    mf_status status = invite(cli, args, id, &url, &until, &err);
    status = status == MF_OK ? say_invited(cli, id, mf_buf_str(&url), until) : mf_cli_fail(&err);
    mf_buf_free(&url);
    return status;
}

/* ---- serving ------------------------------------------------------------------------------- */

static bool is_loopback(const char *address)
{
    struct in_addr in;
    return strcmp(address, "::1") == 0 ||
           (inet_pton(AF_INET, address, &in) == 1 && ntohl(in.s_addr) >> 24 == 127);
}

static mf_status read_pem(const mf_args *args, mf_serve *serve, mf_err *err)
{
    const char *certificate = mf_args_value(args, "certificate"), *key = mf_args_value(args, "key");
    if ((certificate == NULL) != (key == NULL))
        return mf_fail(err, MF_USAGE, "--certificate", "one of certificate and key is missing",
                       "a server proves its name by both", "give --certificate and --key");
    if (certificate == NULL)
        return MF_OK;
    mf_pass_no_core();
    mf_status status = mf_file_read(&serve->certificate, certificate, PEM_MAX, err);
    if (status == MF_OK)
        status = mf_file_read(&serve->key, key, PEM_MAX, err);
    if (status == MF_OK)
        mf_cli_warn_mode(key);
    return status;
}

static mf_status read_port(const mf_args *args, uint16_t *out, mf_err *err)
{
    const char *text = mf_args_value(args, "port");
    size_t len = text == NULL ? 0 : strlen(text);
    long port = text == NULL ? PORT : strtol(text, NULL, 10);
    if (text != NULL && (len == 0 || len > 5 || strspn(text, "0123456789") != len || port > 65535))
        return mf_failf(err, MF_INPUT, "--port", "", "give a number from 0 to 65535, 0 = any free",
                        "%.40s is not a port", text);
    *out = (uint16_t)port;
    return MF_OK;
}

static mf_status read_options(const mf_args *args, mf_serve *serve, mf_err *err)
{
    const char *address = mf_args_value(args, "address");
    serve->address = address == NULL ? "127.0.0.1" : address;
    mf_status status = read_port(args, &serve->port, err);
    if (status == MF_OK)
        status = read_pem(args, serve, err);
    if (status == MF_OK && serve->key.data == NULL && !is_loopback(serve->address))
        return mf_fail(err, MF_USAGE, "--address",
                       "others reach this address, and would read what is sent to it",
                       "only this computer itself is served without a certificate",
                       "give --certificate FILE and --key FILE, or leave out --address");
    if (status == MF_OK && serve->key.data != NULL && mf_args_value(args, "name") == NULL)
        return mf_fail(err, MF_USAGE, "--name", "the name in the certificate is missing",
                       "a request by any other name is refused",
                       "give the name by which phones call, --name field.example");
    serve->name = mf_args_value(args, "name");
    return status;
}

static void add_host(mf_serve *serve, const char *name, bool port)
{
    char *at = serve->hosts[serve->site.n_hosts];
    if (port)
        snprintf(at, MF_SERVE_HOST, "%.240s:%u", name, serve->port);
    else
        snprintf(at, MF_SERVE_HOST, "%.240s", name);
    serve->site.host[serve->site.n_hosts++] = at;
}

/* The names by which it is called. A browser leaves out the usual port. */
void mf_serve_started(mf_serve *serve)
{
    bool tls = serve->key.data != NULL;
    serve->site = (mf_serve_site){.scheme = tls ? "https" : "http"};
    if (tls) {
        add_host(serve, serve->name, true);
        if (serve->port == 443)
            add_host(serve, serve->name, false);
    } else {
        add_host(serve, "localhost", true);
        add_host(serve, "127.0.0.1", true);
        add_host(serve, "[::1]", true);
    }
    if (serve->cli->json)
        printf("{\"serving\": \"%s://%s\"}\n", serve->site.scheme, serve->site.host[0]);
    else
        printf("serving %s://%s; Ctrl-C ends it\n", serve->site.scheme, serve->site.host[0]);
    fflush(stdout);
}

mf_status mf_cmd_field_serve(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_serve *serve = calloc(1, sizeof *serve);
    (void)cmd;
    if (serve == NULL) {
        mf_fail_memory(&err);
        return mf_cli_fail(&err);
    }
    serve->cli = cli;
    mf_status status = read_options(args, serve, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_serve_run(serve, &err);
    mf_bytes_free(&serve->certificate);
    mf_bytes_free(&serve->key);
    free(serve);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
