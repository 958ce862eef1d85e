/* What a request to a served book gets. The rules are those of the design; each row is a try
 * that a list of attacks on web servers suggests. All constructed. */
#include "serve/judge.h"
#include "serve/token.h"
#include "support/cmocka_all.h"

#include <stdio.h>
#include <string.h>

#define TODAY 20710
static char token[MF_TOKEN], hash[MF_DIGEST_HEX], auth[80], other[MF_TOKEN],
    other_hash[MF_DIGEST_HEX];
static const mf_serve_site site = {"http", {"127.0.0.1:8745", "localhost:8745", "[::1]:8745"}, 3};

static int start(void **state)
{
    (void)state;
    assert_int_equal(mf_token_new(token, hash, NULL), MF_OK);
    assert_int_equal(mf_token_new(other, other_hash, NULL), MF_OK);
    snprintf(auth, sizeof auth, "Bearer %s", token);
    return 0;
}

/* A good request, of which a test changes one thing. */
static mf_serve_request good_page(void)
{
    return (mf_serve_request){.method = "GET",
                              .path = "/page/J-1",
                              .host = "localhost:8745",
                              .site = "same-origin",
                              .authorization = auth};
}

static mf_serve_request good_post(void)
{
    return (mf_serve_request){.method = "POST",
                              .path = "/entries/J-1",
                              .host = "localhost:8745",
                              .origin = "http://localhost:8745",
                              .site = "same-origin",
                              .authorization = auth,
                              .type = MF_SERVE_TYPE,
                              .length = "1000"};
}

static int answered(const mf_serve_request *r, mf_serve_answer *out)
{
    static const mf_serve_token tokens[] = {{other_hash, "ana", TODAY}, {hash, "rosa", TODAY}};
    mf_serve_judge(r, &site, tokens, 2, TODAY, out);
    assert_true((out->code == 200) == (out->what != MF_SERVE_REFUSE));
    assert_true(out->code == 200 || out->person == NULL);
    return out->code;
}

static int code(mf_serve_request r)
{
    mf_serve_answer out;
    return answered(&r, &out);
}

static void the_good_ones(void **state)
{
    mf_serve_answer out;
    mf_serve_request r = good_page();
    (void)state;
    assert_int_equal(answered(&r, &out), 200);
    assert_int_equal(out.what, MF_SERVE_PAGE);
    assert_string_equal(out.job, "J-1");
    assert_string_equal(out.person, "rosa");
    r = good_post();
    assert_int_equal(answered(&r, &out), 200);
    assert_int_equal(out.what, MF_SERVE_TAKE);
    assert_string_equal(out.person, "rosa");
    r.origin = r.site = NULL; /* a program, not a browser: the token is what lets it in */
    assert_int_equal(answered(&r, &out), 200);
}

/* Without a token there is nothing to be read in them. */
static void what_anybody_may_have(void **state)
{
    static const struct {
        const char *path;
        mf_serve_what what;
    } rows[] = {{"/field/J-1", MF_SERVE_SHELL},
                {"/new/J-1", MF_SERVE_SHELL},
                {"/boot.js", MF_SERVE_BOOT},
                {"/worker.js", MF_SERVE_WORKER}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        mf_serve_answer out;
        mf_serve_request r = {.method = "GET", .path = rows[i].path, .host = "127.0.0.1:8745"};
        assert_int_equal(answered(&r, &out), 200);
        assert_int_equal(out.what, rows[i].what);
        assert_null(out.person);
        r.method = "HEAD";
        assert_int_equal(answered(&r, &out), 200);
    }
}

/* ---- the path ------------------------------------------------------------------------------- */

static void paths_that_lead_nowhere(void **state)
{
    static const char *const paths[] = {"",
                                        "/",
                                        "*",
                                        "/index.html",
                                        "/page",
                                        "/page/",
                                        "/page/J-1/",
                                        "/page/J-1/x",
                                        "//page/J-1",
                                        "/page//J-1",
                                        "/page/../page/J-1",
                                        "/page/%4a-1",
                                        "/page/J-1%00",
                                        "/page/J-1?x=1",
                                        "/page/J-1#x",
                                        "/page/J-1;x",
                                        "/page/J 1",
                                        "/page/J-1\n",
                                        "/PAGE/J-1",
                                        "/page/\xC3\xA9",
                                        "/page/abcdefghijklmnopqrstuvwxyzabcdefghijklmno",
                                        "http://localhost:8745/page/J-1",
                                        "/boot.js/",
                                        "/boot.js?x",
                                        "/worker.js\\",
                                        "/../firm.book",
                                        "/field/..%2ffirm.book",
                                        "/.git/config",
                                        "/entries",
                                        "/server-status"};
    (void)state;
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        mf_serve_request r = good_page();
        r.path = paths[i];
        if (code(r) != 404)
            print_error("%s: %d\n", paths[i], code(r));
        assert_int_equal(code(r), 404);
    }
}

static void a_folder_as_job_is_an_id_that_no_job_has(void **state)
{
    char job[MF_SERVE_ID];
    (void)state;
    mf_serve_job("/page/..", job); /* no file is looked up by it */
    assert_string_equal(job, "..");
    mf_serve_job("/field/J-1", job);
    assert_string_equal(job, "");
    mf_serve_job("/entries/J-1", job);
    assert_string_equal(job, "J-1");
}

static void methods(void **state)
{
    static const char *const others[] = {"POST",  "PUT",     "DELETE", "OPTIONS", "TRACE",
                                         "PATCH", "CONNECT", "get",    ""};
    (void)state;
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        mf_serve_request page = good_page(), post = good_post();
        page.method = others[i];
        assert_int_equal(code(page), 405);
        post.method = i == 0 ? "GET" : others[i];
        assert_int_equal(code(post), 405);
    }
}

/* ---- from where ------------------------------------------------------------------------------ */

static void other_hosts(void **state)
{
    static const char *const hosts[] = {NULL,
                                        "",
                                        "localhost",
                                        "localhost:80",
                                        "LOCALHOST:8745",
                                        "localhost:8745.evil.example",
                                        "evil.example:8745",
                                        "127.0.0.1:8745@evil.example",
                                        " localhost:8745",
                                        "0.0.0.0:8745"};
    (void)state;
    for (size_t i = 0; i < sizeof hosts / sizeof hosts[0]; i++) {
        mf_serve_request r = good_page();
        r.host = hosts[i];
        assert_int_equal(code(r), 421);
    }
}

static void other_origins(void **state)
{
    static const char *const origins[] = {"null",
                                          "",
                                          "http://evil.example",
                                          "https://localhost:8745",
                                          "http://localhost",
                                          "http://127.0.0.1:8745", /* ours, but not this one */
                                          "http://localhost:8745/",
                                          "http://localhost:8745.evil.example",
                                          "localhost:8745"};
    (void)state;
    for (size_t i = 0; i < sizeof origins / sizeof origins[0]; i++) {
        mf_serve_request r = good_post();
        r.origin = origins[i];
        assert_int_equal(code(r), 403);
    }
}

static void other_sites(void **state)
{
    static const char *const sites[] = {"cross-site", "same-site", "none", "", "Same-Origin"};
    (void)state;
    for (size_t i = 0; i < sizeof sites / sizeof sites[0]; i++) {
        mf_serve_request page = good_page(), post = good_post();
        page.site = post.site = sites[i];
        assert_int_equal(code(page), 403);
        assert_int_equal(code(post), 403);
        mf_serve_request shell = {
            .method = "GET", .path = "/new/J-1", .host = "localhost:8745", .site = sites[i]};
        assert_int_equal(code(shell), i < 3 ? 200 : 403); /* a link in a message */
    }
}

/* ---- who ----------------------------------------------------------------------------------------
 */

static void other_tokens(void **state)
{
    char rows[12][120];
    size_t n = 0;
    (void)state;
    snprintf(rows[n++], sizeof rows[0], "%s", "");
    snprintf(rows[n++], sizeof rows[0], "%s", "Bearer ");
    snprintf(rows[n++], sizeof rows[0], "bearer %s", token);
    snprintf(rows[n++], sizeof rows[0], "Basic %s", token);
    snprintf(rows[n++], sizeof rows[0], "%s", token);
    snprintf(rows[n++], sizeof rows[0], "Bearer  %s", token);
    snprintf(rows[n++], sizeof rows[0], "Bearer %s ", token);
    snprintf(rows[n++], sizeof rows[0], "Bearer %sA", token);
    snprintf(rows[n++], sizeof rows[0], "Bearer %.42s", token);
    snprintf(rows[n++], sizeof rows[0], "Bearer %.42s%c", token, token[42] == 'A' ? 'B' : 'A');
    snprintf(rows[n++], sizeof rows[0], "Bearer %s", hash); /* what the book holds opens nothing */
    snprintf(rows[n++], sizeof rows[0], "Bearer %.43s", hash);
    for (size_t i = 0; i < n; i++) {
        mf_serve_answer out;
        mf_serve_request r = good_page();
        r.authorization = rows[i];
        assert_int_equal(answered(&r, &out), 401);
        assert_true(out.bad_token);
    }
    mf_serve_answer out;
    mf_serve_request r = good_page();
    r.authorization = NULL;
    assert_int_equal(answered(&r, &out), 401);
    assert_false(out.bad_token); /* nobody guessed */
}

static void over_withdrawn_and_of_nobody(void **state)
{
    mf_serve_answer out;
    mf_serve_request r = good_page();
    mf_serve_token one = {hash, "rosa", TODAY};
    (void)state;
    mf_serve_judge(&r, &site, &one, 1, TODAY + 1, &out);
    assert_int_equal(out.code, 401);
    mf_serve_judge(&r, &site, NULL, 0, TODAY, &out); /* withdrawn, or of another job */
    assert_int_equal(out.code, 401);
    one.until = MF_DAY_NONE;
    mf_serve_judge(&r, &site, &one, 1, TODAY, &out);
    assert_int_equal(out.code, 401);
    one = (mf_serve_token){"", "rosa", TODAY};
    mf_serve_judge(&r, &site, &one, 1, TODAY, &out);
    assert_int_equal(out.code, 401);
}

/* ---- the body
 * ------------------------------------------------------------------------------------- */

static void bodies(void **state)
{
    static const struct {
        const char *length;
        int code;
    } rows[] = {{"0", 200},   {"67108864", 200}, {"67108865", 413},
                {NULL, 411},  {"", 411},         {"-1", 411},
                {"+5", 411},  {"5 ", 411},       {"0x10", 411},
                {"1e3", 411}, {"5,5", 411},      {"99999999999999999999999999999999", 413}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        mf_serve_request r = good_post();
        r.length = rows[i].length;
        assert_int_equal(code(r), rows[i].code);
    }
    mf_serve_request r = good_post();
    r.encoded = true;
    assert_int_equal(code(r), 411);
    r = good_page();
    r.length = "10";
    assert_int_equal(code(r), 413);
}

/* What another site's page may send without being asked first is none of them
 * (Fetch, CORS-safelisted request headers). */
static void types(void **state)
{
    static const char with_more[] = MF_SERVE_TYPE "; charset=utf-8";
    static const char *const rows[] = {NULL,
                                       "",
                                       "text/plain",
                                       "multipart/form-data",
                                       "application/x-www-form-urlencoded",
                                       "application/json",
                                       with_more};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        mf_serve_request r = good_post();
        r.type = rows[i];
        assert_int_equal(code(r), 415);
    }
}

static void headers_twice_and_missing(void **state)
{
    mf_serve_request r = good_post();
    (void)state;
    r.twice = true;
    assert_int_equal(code(r), 400);
    r = good_post();
    r.method = NULL;
    assert_int_equal(code(r), 400);
    r = good_post();
    r.path = NULL;
    assert_int_equal(code(r), 400);
    assert_int_equal(code((mf_serve_request){.method = NULL}), 400);
}

/* ---- how often
 * ------------------------------------------------------------------------------------ */

static void guesses_are_few(void **state)
{
    static mf_rate rate;
    (void)state;
    for (int i = 0; i < MF_RATE_BAD; i++) {
        assert_true(mf_rate_may(&rate, "10.0.0.1", 1000));
        mf_rate_bad(&rate, "10.0.0.1", 1000);
    }
    assert_false(mf_rate_may(&rate, "10.0.0.1", 1059));
    assert_true(mf_rate_may(&rate, "10.0.0.2", 1059));
    assert_true(mf_rate_may(&rate, "10.0.0.1", 1060));
    assert_true(mf_rate_may(&rate, "10.0.0.1", 500)); /* a clock that was put back */
}

static void requests_are_counted(void **state)
{
    static mf_rate rate;
    int n = 0;
    (void)state;
    while (n < 10 * MF_RATE_REQUESTS && mf_rate_may(&rate, "10.0.0.1", 7))
        n++;
    assert_int_equal(n, MF_RATE_REQUESTS);
}

/* Whoever comes under many addresses is counted as one when the table is full. */
static void many_addresses(void **state)
{
    static mf_rate rate;
    int n = 0;
    (void)state;
    for (int i = 0; i < 5000; i++) {
        char name[48];
        snprintf(name, sizeof name, "10.0.%d.%d", i / 250, i % 250);
        if (mf_rate_may(&rate, name, 7))
            n++;
    }
    assert_int_equal(n, MF_RATE_CALLERS + MF_RATE_REQUESTS);
    assert_false(mf_rate_may(&rate, "10.9.9.9", 8));
    assert_true(mf_rate_may(&rate, "10.0.0.5", 8));
}

static void tokens_are_new_each_time(void **state)
{
    char made[MF_TOKEN], sha[MF_DIGEST_HEX];
    (void)state;
    for (int i = 0; i < 200; i++) {
        assert_int_equal(mf_token_new(made, sha, NULL), MF_OK);
        assert_int_equal(strlen(made), 43);
        assert_int_equal(strspn(made, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                                      "0123456789-_"),
                         43);
        assert_string_not_equal(made, token);
    }
}

#define T(name) cmocka_unit_test_setup(name, start)
int main(void)
{
    const struct CMUnitTest tests[] = {
        T(the_good_ones),
        T(what_anybody_may_have),
        T(paths_that_lead_nowhere),
        T(a_folder_as_job_is_an_id_that_no_job_has),
        T(methods),
        T(other_hosts),
        T(other_origins),
        T(other_sites),
        T(other_tokens),
        T(over_withdrawn_and_of_nobody),
        T(bodies),
        T(types),
        T(headers_twice_and_missing),
        T(guesses_are_few),
        T(requests_are_counted),
        T(many_addresses),
        T(tokens_are_new_each_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
