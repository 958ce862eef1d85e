/* The one place that uses a network. An authority's reply vouches for itself by its
 * signature; what is guarded here is that a wrong address, a portal page or a slow server
 * ends in one clear line. */
#include "cli/tsa.h"

#include "base/fail.h"

#include <curl/curl.h>

typedef struct answer {
    mf_buf bytes;
    bool too_long;
} answer;

static size_t take(char *data, size_t size, size_t n, void *user)
{
    answer *a = user;
    size_t len = size * n;
    a->too_long = a->bytes.len + len > MF_STAMP_REPLY_MAX;
    if (a->too_long)
        return 0;
    mf_buf_add(&a->bytes, data, len);
    return a->bytes.failed ? 0 : len;
}

static mf_status say_failed(const char *url, long seconds, CURLcode code, const answer *a,
                            mf_err *err)
{
    const char *mend = "check the address and the network; nothing was written";
    if (a->bytes.failed)
        return mf_fail_memory(err);
    if (a->too_long)
        return mf_fail(err, MF_INPUT, url, "its answer is too long for a time stamp",
                       "32 KiB are read", "is it the address of an authority?");
    if (code == CURLE_OPERATION_TIMEDOUT)
        return mf_failf(err, MF_SYSTEM, url, "", mend, "no answer within %ld seconds", seconds);
    return mf_failf(err, MF_SYSTEM, url, "", mend, "the authority cannot be asked: %s",
                    curl_easy_strerror(code));
}

static mf_status check_code(const char *url, long code, mf_err *err)
{
    if (code == 200)
        return MF_OK;
    if (code >= 300 && code < 400)
        return mf_failf(err, MF_INPUT, url, "a redirect is not followed",
                        "give the address that the authority publishes",
                        "it answers with a redirect (HTTP %ld)", code);
    return mf_failf(err, MF_INPUT, url, "", "is it the address of an authority? ask it later",
                    "it answers with an error (HTTP %ld)", code);
}

static void set_up(CURL *curl, const char *url, long seconds, const mf_bytes *query, answer *a)
{
    curl_easy_setopt(curl, CURLOPT_URL, url);
    curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "http,https");
    curl_easy_setopt(curl, CURLOPT_FOLLOWLOCATION, 0L);
    curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(curl, CURLOPT_TIMEOUT, seconds);
    curl_easy_setopt(curl, CURLOPT_USERAGENT, "mistfold/" MISTFOLD_VERSION);
    curl_easy_setopt(curl, CURLOPT_POSTFIELDSIZE, (long)query->len);
    curl_easy_setopt(curl, CURLOPT_POSTFIELDS, (const char *)query->data);
    curl_easy_setopt(curl, CURLOPT_WRITEFUNCTION, take);
    curl_easy_setopt(curl, CURLOPT_WRITEDATA, a);
}

static mf_status post(CURL *curl, struct curl_slist *heads, const char *url, long seconds,
                      answer *a, mf_err *err)
{
    long code = 0;
    curl_easy_setopt(curl, CURLOPT_HTTPHEADER, heads);
    CURLcode done = curl_easy_perform(curl);
    curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, &code);
    if (code != 0 && code != 200 && !a->bytes.failed) /* whatever stands below it */
        return check_code(url, code, err);
    return done == CURLE_OK ? check_code(url, code, err) : say_failed(url, seconds, done, a, err);
}

mf_status mf_tsa_ask(const char *url, long seconds, const mf_bytes *query, mf_bytes *reply,
                     mf_err *err)
{
    answer a = {0};
    *reply = (mf_bytes){0};
    if (curl_global_init(CURL_GLOBAL_DEFAULT) != CURLE_OK)
        return mf_fail_memory(err);
    CURL *curl = curl_easy_init();
    struct curl_slist *heads = curl_slist_append(NULL, "Content-Type: application/timestamp-query");
    mf_status status = curl == NULL || heads == NULL ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK) {
        set_up(curl, url, seconds, query, &a);
        status = post(curl, heads, url, seconds, &a, err);
    }
    if (status == MF_OK)
        mf_buf_take(&a.bytes, reply);
    mf_buf_free(&a.bytes);
    curl_slist_free_all(heads);
    curl_easy_cleanup(curl);
    curl_global_cleanup();
    return status;
}
