/* judge.h - what a request to a served book gets, from values alone: no socket, no
 * book, no clock. Nothing is guessed: what is not asked for in just the way the page asks is
 * refused. */
#ifndef MF_SERVE_JUDGE_H
#define MF_SERVE_JUDGE_H

#include "base/digest.h"
#include <mistfold/day.h>
#include <stdbool.h>
#include <stdint.h>

enum { MF_SERVE_BODY_MAX = 64 * 1024 * 1024, MF_SERVE_ID = 41, MF_SERVE_HOSTS = 4 };
#define MF_SERVE_TYPE "application/vnd.mistfold.entries"

/* A request as it came in; NULL = it has no such header. */
typedef struct mf_serve_request {
    const char *method, *path; /* the path as it stands in the request line, undecoded */
    const char *host, *origin, *site, *authorization, *type, *length;
    bool encoded; /* Transfer-Encoding or Content-Encoding */
    bool twice;   /* one of these headers came twice */
} mf_serve_request;

/* Who may come: an invitation in force for the job of the path. */
typedef struct mf_serve_token {
    const char *sha256, *person;
    mf_day until;
} mf_serve_token;

/* By which names the server is called, "127.0.0.1:8745", and how. */
typedef struct mf_serve_site {
    const char *scheme; /* "http" or "https" */
    const char *host[MF_SERVE_HOSTS];
    size_t n_hosts;
} mf_serve_site;

typedef enum mf_serve_what {
    MF_SERVE_REFUSE,
    MF_SERVE_SHELL,  /* the page without data that asks for the other one */
    MF_SERVE_BOOT,   /* its script */
    MF_SERVE_WORKER, /* the service worker */
    MF_SERVE_PAGE,   /* the page of the job */
    MF_SERVE_TAKE    /* entries come in */
} mf_serve_what;

typedef struct mf_serve_answer {
    int code; /* of HTTP; 200 = what is done */
    mf_serve_what what;
    char job[MF_SERVE_ID]; /* of PAGE and TAKE, and of SHELL */
    const char *person;    /* of PAGE and TAKE: whom the token was given, as the table names them */
    bool bad_token;        /* a token was tried that is none: count it */
} mf_serve_answer;

/* The job that the path names, "" = none: whose invitations the table must hold. */
void mf_serve_job(const char *path, char out[MF_SERVE_ID]);

void mf_serve_judge(const mf_serve_request *r, const mf_serve_site *site,
                    const mf_serve_token *tokens, size_t n, mf_day today, mf_serve_answer *out);

/* ---- how often ----------------------------------------------------------------------------- */

/* A rate for each of the last callers: of bad tokens, and of requests. Who finds no place in
 * the table is counted together with all others that found none. */
enum { MF_RATE_CALLERS = 64, MF_RATE_SECONDS = 60, MF_RATE_REQUESTS = 240, MF_RATE_BAD = 10 };
typedef struct mf_rate_caller {
    char name[48];
    int64_t since;
    int requests, bad;
} mf_rate_caller;
typedef struct mf_rate {
    mf_rate_caller caller[MF_RATE_CALLERS + 1];
} mf_rate;

/* Counts a request; false = too many, and it is not looked at. */
bool mf_rate_may(mf_rate *rate, const char *caller, int64_t seconds);
void mf_rate_bad(mf_rate *rate, const char *caller, int64_t seconds);

#endif
