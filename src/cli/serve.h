/* serve.h - a book that is served: what the commands tell the server, and what it asks of
 * them. */
#ifndef MF_CLI_SERVE_H
#define MF_CLI_SERVE_H

#include "cli/cli.h"
#include "serve/judge.h"

enum { MF_SERVE_HOST = 256 };
typedef struct mf_serve {
    mf_cli *cli;
    mf_serve_site site;
    char hosts[MF_SERVE_HOSTS][MF_SERVE_HOST]; /* its names */
    const char *name;                          /* in the certificate, NULL without one */
    const char *address;                       /* a numeric one */
    uint16_t port;                             /* 0 = any; then the one that was taken */
    mf_bytes certificate, key;                 /* PEM; none = without TLS */
    mf_rate rate;
    size_t held; /* bytes of bodies that are in memory */
} mf_serve;

/* What one request is answered with. Texts are constants; bytes are the caller's to free. */
typedef struct mf_serve_reply {
    int code;
    const char *type;
    mf_bytes body;
    mf_buf policy;
    char log[80]; /* what is written down of it: nobody's name, no address, no token */
} mf_serve_reply;

/* serve_http.c, which alone sees the server's library: serves until a signal ends it, and says
 * on standard output where. */
mf_status mf_serve_run(mf_serve *serve, mf_err *err);
/* cmd_serve.c: the port is known now; fills in the names and says where it is served. */
void mf_serve_started(mf_serve *serve);

/* serve_reply.c: judges the head of a request by the book as it is now. The person of the answer
 * lives as long as job, which the caller frees (mf_book_job_free). */
void mf_serve_head(mf_serve *serve, const mf_serve_request *request, const char *caller,
                   mf_serve_answer *out, mf_job **job);
/* Does what was answered with 200; body is that of a request which takes. */
void mf_serve_do(mf_serve *serve, const mf_serve_answer *answer, const mf_bytes *body,
                 mf_serve_reply *out);
void mf_serve_refuse(int code, mf_serve_reply *out);

#endif
