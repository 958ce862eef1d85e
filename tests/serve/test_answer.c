/* What a browser may do with a served page. The hashes are those of openssl and base64(1):
 *   printf %s TEXT | openssl dgst -sha256 -binary | base64 */
#include "serve/answer.h"
#include "support/cmocka_all.h"

#include <string.h>

static void has(const char *text, const char *part)
{
    if (strstr(text, part) == NULL)
        fail_msg("\"%s\" is not in %s", part, text);
}

static void scripts_by_their_hash(void **state)
{
    static const char html[] = "<!doctype html><style>b{}</style><script>one()</script>"
                               "<script type=\"x/y\">two()</script>";
    mf_buf out = {0};
    (void)state;
    assert_true(mf_serve_page_policy(&out, html, strlen(html)));
    has(out.data, "default-src 'none'");
    has(out.data,
        "script-src 'wasm-unsafe-eval' 'sha256-HR7iaask9daLMRRskMI++QeJtjWDOjyPA6lGzYGzKW4='");
    has(out.data, "; style-src 'sha256-");
    assert_null(strstr(out.data, "unsafe-inline"));
    assert_null(strstr(out.data, "'unsafe-eval'"));
    assert_null(strstr(out.data, "http"));
    mf_buf_free(&out);
}

/* Any bytes give a policy that lets no other script in. */
static void odd_pages(void **state)
{
    static const char *const pages[] = {"",
                                        "<script",
                                        "<script>",
                                        "<script>x",
                                        "<script></script",
                                        "<style",
                                        "<<script>>\n</script></script>",
                                        "</script>"};
    (void)state;
    for (size_t i = 0; i < sizeof pages / sizeof pages[0]; i++) {
        mf_buf out = {0};
        assert_true(mf_serve_page_policy(&out, pages[i], strlen(pages[i])));
        has(out.data, "default-src 'none'");
        assert_null(strchr(out.data, '\n'));
        mf_buf_free(&out);
    }
}

/* The page that anybody gets names nobody, and what it runs comes from here. */
static void the_shell_holds_nothing(void **state)
{
    (void)state;
    has(mf_serve_shell, "<script src=\"/boot.js\"></script>");
    assert_null(strstr(mf_serve_shell, "http"));
    assert_null(strstr(mf_serve_boot, "http:"));
    has(mf_serve_policy, "default-src 'none'");
    has(mf_serve_policy, "frame-ancestors 'none'");
    assert_null(strstr(mf_serve_policy, "unsafe"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(scripts_by_their_hash),
        cmocka_unit_test(odd_pages),
        cmocka_unit_test(the_shell_holds_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
