/* The one place that listens to a network, by libmicrohttpd. One thread does everything, one
 * request after another, as a book is for one thread. */
#include "base/fail.h"
#include "cli/serve.h"
#include "serve/answer.h"

#include <arpa/inet.h>
#include <errno.h>
#include <microhttpd.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>

enum {
    CONNECTIONS = 64,
    CONNECTIONS_OF_ONE = 32,
    SILENT_SECONDS = 30,
    HEAD_MAX = 32 * 1024,
    HELD_MAX = 2 * MF_SERVE_BODY_MAX, /* bodies in memory at once */
    LOOK_UP_MS = 500                  /* how late a signal may be seen */
};

/* A request that is under way. */
typedef struct exchange {
    char *path;
    bool judged;
    mf_serve_answer answer;
    mf_job *job; /* holds the words of answer */
    mf_buf body;
    size_t length, held;
} exchange;

static volatile sig_atomic_t ended;

static void end(int number)
{
    (void)number;
    ended = 1;
}

/* ---- the head of a request --------------------------------------------------------------- */

static void *begin_exchange(void *cls, const char *uri, struct MHD_Connection *connection)
{
    exchange *x = calloc(1, sizeof *x);
    size_t len = strlen(uri);
    (void)cls;
    (void)connection;
    if (x == NULL)
        return NULL;
    x->path = malloc(len + 1);
    if (x->path != NULL)
        memcpy(x->path, uri, len + 1);
    return x;
}

static enum MHD_Result note_header(void *cls, enum MHD_ValueKind kind, const char *key,
                                   const char *value)
{
    mf_serve_request *r = cls;
    const struct {
        const char *name, **at;
    } rows[] = {{"Host", &r->host},           {"Origin", &r->origin},
                {"Sec-Fetch-Site", &r->site}, {"Authorization", &r->authorization},
                {"Content-Type", &r->type},   {"Content-Length", &r->length}};
    (void)kind;
    if (strcasecmp(key, "Transfer-Encoding") == 0 || strcasecmp(key, "Content-Encoding") == 0)
        r->encoded = true;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (strcasecmp(key, rows[i].name) != 0)
            continue;
        r->twice = r->twice || *rows[i].at != NULL;
        *rows[i].at = value == NULL ? "" : value;
    }
    return MHD_YES;
}

/* Who calls, for the rate: an address, of IPv6 the network it is in (RFC 6177). */
static void caller_of(struct MHD_Connection *connection, char out[INET6_ADDRSTRLEN])
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    const struct sockaddr *address = info == NULL ? NULL : info->client_addr;
    out[0] = '\0';
    if (address != NULL && address->sa_family == AF_INET) {
        struct sockaddr_in in;
        memcpy(&in, address, sizeof in);
        inet_ntop(AF_INET, &in.sin_addr, out, INET6_ADDRSTRLEN);
    } else if (address != NULL && address->sa_family == AF_INET6) {
        struct sockaddr_in6 in6;
        memcpy(&in6, address, sizeof in6);
        memset(in6.sin6_addr.s6_addr + 8, 0, 8);
        inet_ntop(AF_INET6, &in6.sin6_addr, out, INET6_ADDRSTRLEN);
    }
}

static void judge(mf_serve *serve, exchange *x, struct MHD_Connection *connection,
                  const char *method)
{
    char caller[INET6_ADDRSTRLEN];
    mf_serve_request r = {.method = method, .path = x->path};
    MHD_get_connection_values(connection, MHD_HEADER_KIND, note_header, &r);
    caller_of(connection, caller);
    mf_serve_head(serve, &r, caller, &x->answer, &x->job);
    x->judged = true;
    if (x->answer.what != MF_SERVE_TAKE)
        return;
    x->length = (size_t)strtoul(r.length, NULL, 10); /* judged to be one that is taken */
    if (serve->held + x->length > HELD_MAX) {
        x->answer = (mf_serve_answer){.code = 503};
        return;
    }
    x->held = x->length;
    serve->held += x->held;
}

/* ---- the answer ------------------------------------------------------------------------------ */

static void add_headers(const mf_serve *serve, struct MHD_Response *response,
                        const mf_serve_reply *reply)
{
    for (size_t i = 0; mf_serve_headers[i][0] != NULL; i++)
        MHD_add_response_header(response, mf_serve_headers[i][0], mf_serve_headers[i][1]);
    MHD_add_response_header(response, "Content-Type", reply->type);
    MHD_add_response_header(response, "Content-Security-Policy", mf_buf_str(&reply->policy));
    if (serve->key.data != NULL)
        MHD_add_response_header(response, "Strict-Transport-Security", "max-age=31536000");
    if (reply->code == 401)
        MHD_add_response_header(response, "WWW-Authenticate", "Bearer");
    if (reply->code == 429 || reply->code == 503)
        MHD_add_response_header(response, "Retry-After", "60");
}

static void write_down(const mf_serve *serve, const mf_serve_reply *reply)
{
    if (serve->cli->json)
        printf("{\"at\": \"%s\", \"code\": %d, \"what\": \"%s\"}\n", serve->cli->at, reply->code,
               reply->log);
    else
        printf("%s  %d  %s\n", serve->cli->at, reply->code, reply->log);
    fflush(stdout);
}

/* The reply's bytes go to the library, which frees them. */
static enum MHD_Result send_reply(const mf_serve *serve, struct MHD_Connection *connection,
                                  mf_serve_reply *reply)
{
    struct MHD_Response *response = NULL;
    if (!reply->policy.failed && reply->body.data != NULL)
        response = MHD_create_response_from_buffer(reply->body.len, reply->body.data,
                                                   MHD_RESPMEM_MUST_FREE);
    enum MHD_Result sent = MHD_NO;
    if (response != NULL) {
        reply->body = (mf_bytes){0};
        add_headers(serve, response, reply);
        sent = MHD_queue_response(connection, (unsigned)reply->code, response);
        MHD_destroy_response(response);
        write_down(serve, reply);
    }
    mf_bytes_free(&reply->body);
    mf_buf_free(&reply->policy);
    return sent;
}

static enum MHD_Result refuse(const mf_serve *serve, struct MHD_Connection *connection, int code)
{
    mf_serve_reply reply;
    mf_serve_refuse(code, &reply);
    return send_reply(serve, connection, &reply);
}

static enum MHD_Result finish(mf_serve *serve, struct MHD_Connection *connection, exchange *x)
{
    mf_serve_reply reply;
    mf_bytes body = {0};
    if (x->body.failed || x->body.len != x->length)
        return refuse(serve, connection, x->body.failed ? 503 : 400);
    mf_buf_take(&x->body, &body);
    mf_serve_do(serve, &x->answer, &body, &reply);
    mf_bytes_free(&body);
    return send_reply(serve, connection, &reply);
}

/* Called with the head, then with each piece of the body, then at its end. */
static enum MHD_Result handle(void *cls, struct MHD_Connection *connection, const char *url,
                              const char *method, const char *version, const char *data,
                              size_t *len, void **state)
{
    mf_serve *serve = cls;
    exchange *x = *state;
    (void)url;
    (void)version;
    if (x == NULL || x->path == NULL)
        return MHD_NO;
    if (!x->judged) {
        judge(serve, x, connection, method);
        return x->answer.code == 200 ? MHD_YES : refuse(serve, connection, x->answer.code);
    }
    if (*len == 0)
        return finish(serve, connection, x);
    if (x->body.len + *len > x->length)
        return MHD_NO;
    mf_buf_add(&x->body, data, *len);
    *len = 0;
    return MHD_YES;
}

static void end_exchange(void *cls, struct MHD_Connection *connection, void **state,
                         enum MHD_RequestTerminationCode why)
{
    mf_serve *serve = cls;
    exchange *x = *state;
    (void)connection;
    (void)why;
    if (x == NULL)
        return;
    serve->held -= x->held;
    mf_book_job_free(x->job);
    mf_buf_free(&x->body);
    free(x->path);
    free(x);
    *state = NULL;
}

/* The path is judged as it stands there. */
static size_t undecoded(void *cls, struct MHD_Connection *connection, char *text)
{
    (void)cls;
    (void)connection;
    return strlen(text);
}

/* ---- listening ------------------------------------------------------------------------------- */

typedef union where {
    struct sockaddr any;
    struct sockaddr_in in;
    struct sockaddr_in6 in6;
} where;

static bool where_of(const mf_serve *serve, where *out)
{
    memset(out, 0, sizeof *out);
    if (inet_pton(AF_INET, serve->address, &out->in.sin_addr) == 1) {
        out->in.sin_family = AF_INET;
        out->in.sin_port = htons(serve->port);
        return true;
    }
    out->in6.sin6_family = AF_INET6;
    out->in6.sin6_port = htons(serve->port);
    return inet_pton(AF_INET6, serve->address, &out->in6.sin6_addr) == 1;
}

static struct MHD_Daemon *listen_at(mf_serve *serve, const where *at)
{
    bool tls = serve->key.data != NULL;
    unsigned flags = (tls ? MHD_USE_TLS : 0U) | (at->any.sa_family == AF_INET6 ? MHD_USE_IPv6 : 0U);
    struct MHD_OptionItem secret[] = {
        {MHD_OPTION_HTTPS_MEM_CERT, 0, serve->certificate.data},
        {MHD_OPTION_HTTPS_MEM_KEY, 0, serve->key.data},
        {MHD_OPTION_HTTPS_PRIORITIES, 0,
         "SECURE128:%SERVER_PRECEDENCE:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2"},
        {MHD_OPTION_END, 0, NULL}};
    struct MHD_OptionItem none[] = {{MHD_OPTION_END, 0, NULL}};
    return MHD_start_daemon(
        flags, serve->port, NULL, NULL, handle, serve, MHD_OPTION_SOCK_ADDR, &at->any,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS, MHD_OPTION_PER_IP_CONNECTION_LIMIT,
        (unsigned)CONNECTIONS_OF_ONE, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SILENT_SECONDS,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)HEAD_MAX, MHD_OPTION_STRICT_FOR_CLIENT, 1,
        MHD_OPTION_UNESCAPE_CALLBACK, undecoded, NULL, MHD_OPTION_URI_LOG_CALLBACK, begin_exchange,
        NULL, MHD_OPTION_NOTIFY_COMPLETED, end_exchange, serve, MHD_OPTION_ARRAY,
        tls ? secret : none, MHD_OPTION_END);
}

static mf_status cannot_listen(const mf_serve *serve, int number, mf_err *err)
{
    if (number == EADDRINUSE)
        return mf_failf(err, MF_SYSTEM, "--port", "another program listens there",
                        "choose another port", "port %u is taken", serve->port);
    if (number == EACCES || number == EADDRNOTAVAIL)
        return mf_failf(err, MF_SYSTEM, "--address", "",
                        "give an address of this computer, and a port above 1023",
                        "nobody may listen at %.60s, port %u: %s", serve->address, serve->port,
                        strerror(number));
    return mf_fail(err, MF_INPUT, "--certificate", "the server cannot be started with them",
                   "a certificate and its key, both PEM, that belong together",
                   "check the two files");
}

static void catch_signals(void)
{
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = end;
    sigaction(SIGINT, &action, NULL);
    sigaction(SIGTERM, &action, NULL);
    action.sa_handler = SIG_IGN;
    sigaction(SIGPIPE, &action, NULL);
}

mf_status mf_serve_run(mf_serve *serve, mf_err *err)
{
    where at;
    if (!where_of(serve, &at))
        return mf_failf(err, MF_INPUT, "--address", "it is written in numbers",
                        "write it like 127.0.0.1 or ::1", "%.60s is not an address",
                        serve->address);
    catch_signals();
    errno = 0;
    struct MHD_Daemon *daemon = listen_at(serve, &at);
    if (daemon == NULL)
        return cannot_listen(serve, errno, err);
    const union MHD_DaemonInfo *info = MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_BIND_PORT);
    serve->port = info == NULL ? serve->port : info->port;
    mf_serve_started(serve);
    while (!ended && MHD_run_wait(daemon, LOOK_UP_MS) == MHD_YES)
        continue;
    MHD_stop_daemon(daemon);
    return MF_OK;
}
