/* A request to a served book: a line for each of its parts, as a caller would choose them. */
#include "base/digest.h"
#include "fuzz/fuzz.h"
#include "serve/answer.h"
#include "serve/judge.h"

#include <string.h>

/* 43 letters; whoever makes up requests does not know them. */
#define SECRET "0123456789abcdefghijklmnopqrstuvwxyzABCDEFG"

/* The next line; "-" = there is no such header. */
static const char *next(char **at)
{
    char *from = *at, *end = from == NULL ? NULL : strchr(from, '\n');
    if (end != NULL)
        *end = '\0';
    *at = end == NULL ? NULL : end + 1;
    return from == NULL || strcmp(from, "-") == 0 ? NULL : from;
}

static bool is(const char *a, const char *b)
{
    return a != NULL && strcmp(a, b) == 0;
}

/* What let it in is there, whatever the rest looks like. */
static void holds(const mf_serve_request *r, const mf_serve_answer *out)
{
    bool data = out->what == MF_SERVE_PAGE || out->what == MF_SERVE_TAKE;
    FUZZ_HOLDS((out->code == 200) == (out->what != MF_SERVE_REFUSE));
    FUZZ_HOLDS(out->code == 200 || (out->code >= 400 && out->code < 430 && out->person == NULL));
    FUZZ_HOLDS(data == (out->person != NULL));
    if (out->code != 200)
        return;
    FUZZ_HOLDS(!r->twice && !r->encoded && is(r->host, "localhost:8745"));
    FUZZ_HOLDS(r->origin == NULL || is(r->origin, "http://localhost:8745"));
    FUZZ_HOLDS(!data || is(r->authorization, "Bearer " SECRET));
    FUZZ_HOLDS(!data || strspn(out->job, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                                         "0123456789._-") == strlen(out->job));
    FUZZ_HOLDS((out->what == MF_SERVE_TAKE) == is(r->method, "POST"));
    FUZZ_HOLDS(out->what != MF_SERVE_TAKE || (is(r->type, MF_SERVE_TYPE) && r->length != NULL));
}

void fuzz_request(const uint8_t *data, size_t len)
{
    static const mf_serve_site site = {"http", {"localhost:8745"}, 1};
    char hash[MF_DIGEST_HEX], job[MF_SERVE_ID];
    mf_serve_answer out;
    mf_buf policy = {0};
    char *text = fuzz_text(data, len), *at = text;
    FUZZ_HOLDS(mf_digest_hex(SECRET, strlen(SECRET), hash));
    const mf_serve_token token = {hash, "rosa", 100};
    mf_serve_request r = {.method = next(&at)};
    r.path = next(&at);
    r.host = next(&at);
    r.origin = next(&at);
    r.site = next(&at);
    r.authorization = next(&at);
    r.type = next(&at);
    r.length = next(&at);
    r.encoded = next(&at) != NULL;
    r.twice = next(&at) != NULL;
    mf_serve_judge(&r, &site, &token, 1, 100, &out);
    holds(&r, &out);
    mf_serve_job(r.path == NULL ? "" : r.path, job);
    FUZZ_HOLDS(strlen(job) < MF_SERVE_ID);
    mf_serve_judge(&r, &site, &token, 1, 101, &out); /* over */
    FUZZ_HOLDS(out.person == NULL);
    FUZZ_HOLDS(mf_serve_page_policy(&policy, (const char *)data, len));
    FUZZ_HOLDS(strpbrk(policy.data, "\r\n\"<>") == NULL);
    mf_buf_free(&policy);
    free(text);
}
