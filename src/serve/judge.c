#include "serve/judge.h"
#include "serve/token.h"

#include <string.h>

enum { TOKEN = MF_TOKEN - 1 };

static const char alphabet[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

static bool is(const char *a, const char *b)
{
    return a != NULL && strcmp(a, b) == 0;
}

/* ---- the path ------------------------------------------------------------------------------- */

/* An id behind the folder and nothing else: no escape, no query, no further folder. */
static bool job_behind(const char *path, const char *folder, char out[MF_SERVE_ID])
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-";
    size_t n = strlen(folder);
    if (strncmp(path, folder, n) != 0)
        return false;
    size_t len = strspn(path + n, letters);
    if (len == 0 || len >= MF_SERVE_ID || path[n + len] != '\0')
        return false;
    memcpy(out, path + n, len + 1);
    return true;
}

static mf_serve_what what_of(const char *path, char job[MF_SERVE_ID])
{
    job[0] = '\0';
    if (is(path, "/boot.js"))
        return MF_SERVE_BOOT;
    if (is(path, "/worker.js"))
        return MF_SERVE_WORKER;
    if (job_behind(path, "/field/", job) || job_behind(path, "/new/", job))
        return MF_SERVE_SHELL;
    if (job_behind(path, "/page/", job))
        return MF_SERVE_PAGE;
    return job_behind(path, "/entries/", job) ? MF_SERVE_TAKE : MF_SERVE_REFUSE;
}

void mf_serve_job(const char *path, char out[MF_SERVE_ID])
{
    mf_serve_what what = what_of(path, out);
    if (what != MF_SERVE_PAGE && what != MF_SERVE_TAKE)
        out[0] = '\0';
}

/* ---- from where ------------------------------------------------------------------------------ */

/* A name that leads here without being ours is how another site's page would call
 * (DNS rebinding). */
static bool is_our_host(const mf_serve_site *site, const char *host)
{
    for (size_t i = 0; i < site->n_hosts; i++)
        if (is(host, site->host[i]))
            return true;
    return false;
}

static bool is_our_origin(const mf_serve_request *r, const mf_serve_site *site)
{
    size_t n = strlen(site->scheme);
    return r->origin == NULL ||
           (strncmp(r->origin, site->scheme, n) == 0 && strncmp(r->origin + n, "://", 3) == 0 &&
            is(r->host, r->origin + n + 3));
}

/* A browser says from where a request comes (Fetch Metadata); a page of ours alone may ask
 * for data, and a person may come from anywhere to the empty page. */
static bool is_our_site(const mf_serve_request *r, mf_serve_what what)
{
    return r->site == NULL || is(r->site, "same-origin") ||
           (what == MF_SERVE_SHELL &&
            (is(r->site, "none") || is(r->site, "cross-site") || is(r->site, "same-site")));
}

/* ---- who ---------------------------------------------------------------------------------------
 */

/* In time that does not tell how much of it is right. */
static bool same_hash(const char *a, const char *b)
{
    unsigned differs = 0;
    if (strlen(b) != MF_DIGEST_HEX - 1)
        return false;
    for (size_t i = 0; i < MF_DIGEST_HEX - 1; i++)
        differs |= (unsigned)(unsigned char)a[i] ^ (unsigned)(unsigned char)b[i];
    return differs == 0;
}

static const char *bearer(const char *authorization)
{
    static const char word[] = "Bearer ";
    if (authorization == NULL || strncmp(authorization, word, sizeof word - 1) != 0)
        return NULL;
    const char *token = authorization + sizeof word - 1;
    return strspn(token, alphabet) == TOKEN && token[TOKEN] == '\0' ? token : NULL;
}

static const mf_serve_token *holder(const char *token, const mf_serve_token *tokens, size_t n,
                                    mf_day today)
{
    char hash[MF_DIGEST_HEX];
    const mf_serve_token *found = NULL;
    if (token == NULL || !mf_digest_hex(token, TOKEN, hash))
        return NULL;
    for (size_t i = 0; i < n; i++)
        if (same_hash(hash, tokens[i].sha256) && tokens[i].until != MF_DAY_NONE &&
            today <= tokens[i].until)
            found = &tokens[i];
    return found;
}

/* ---- the body ----------------------------------------------------------------------------------
 */

/* 0 = the length is one that is taken. */
static int fault_of_length(const char *length)
{
    int64_t n = 0;
    size_t digits = length == NULL ? 0 : strspn(length, "0123456789");
    if (digits == 0 || length[digits] != '\0')
        return 411;
    for (size_t i = 0; i < digits && n <= MF_SERVE_BODY_MAX; i++)
        n = n * 10 + (length[i] - '0');
    return n > MF_SERVE_BODY_MAX ? 413 : 0;
}

static int fault_of_body(const mf_serve_request *r, bool takes)
{
    if (r->encoded)
        return 411;
    if (!takes)
        return r->length == NULL || is(r->length, "0") ? 0 : 413;
    int fault = fault_of_length(r->length);
    return fault != 0 ? fault : is(r->type, MF_SERVE_TYPE) ? 0 : 415;
}

/* ---- the answer -------------------------------------------------------------------------------
 */

static int fault_of(const mf_serve_request *r, const mf_serve_site *site, mf_serve_what what)
{
    bool takes = what == MF_SERVE_TAKE;
    if (r->twice || r->method == NULL || r->path == NULL)
        return 400;
    if (!is_our_host(site, r->host))
        return 421;
    if (!is_our_origin(r, site) || !is_our_site(r, what))
        return 403;
    if (what == MF_SERVE_REFUSE)
        return 404;
    if (takes ? !is(r->method, "POST") : !is(r->method, "GET") && !is(r->method, "HEAD"))
        return 405;
    return 0;
}

/* One answer for a token that is unknown, of another job, over or withdrawn: it tells nothing. */
void mf_serve_judge(const mf_serve_request *r, const mf_serve_site *site,
                    const mf_serve_token *tokens, size_t n, mf_day today, mf_serve_answer *out)
{
    *out = (mf_serve_answer){.what = MF_SERVE_REFUSE};
    mf_serve_what what = r->path == NULL ? MF_SERVE_REFUSE : what_of(r->path, out->job);
    out->code = fault_of(r, site, what);
    if (out->code == 0 && (what == MF_SERVE_PAGE || what == MF_SERVE_TAKE)) {
        const mf_serve_token *token = holder(bearer(r->authorization), tokens, n, today);
        out->person = token == NULL ? NULL : token->person;
        out->bad_token = out->person == NULL && r->authorization != NULL;
        out->code = out->person == NULL ? 401 : 0;
    }
    if (out->code == 0)
        out->code = fault_of_body(r, what == MF_SERVE_TAKE);
    if (out->code != 0) {
        out->person = NULL;
        return;
    }
    out->code = 200;
    out->what = what;
}
