#include "serve/answer.h"

#include "base/base64.h"
#include "base/digest.h"
#include "base/hex.h"
#include <string.h>

/* What a page may not be: framed, opened by another site's window, sniffed, sent along as a
 * referrer, kept by a proxy. What it may not ask for: a place, a microphone. */
const char *const mf_serve_headers[][2] = {
    {"Cache-Control", "no-store"},
    {"X-Content-Type-Options", "nosniff"},
    {"X-Frame-Options", "DENY"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Cross-Origin-Embedder-Policy", "require-corp"},
    {"Permissions-Policy", "geolocation=(), microphone=(), payment=(), usb=()"},
    {NULL, NULL},
};

#define NOTHING "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; "

const char mf_serve_policy[] =
    NOTHING "script-src 'self'; connect-src 'self'; worker-src 'self'; require-trusted-types-for "
            "'script'; trusted-types worker";

/* ---- a page that has everything in it ------------------------------------------------------ */

/* " 'sha256-..'" of what stands in an element. */
static bool add_hash(mf_buf *out, const char *text, size_t len)
{
    char hex[MF_DIGEST_HEX];
    unsigned char bytes[(MF_DIGEST_HEX - 1) / 2];
    if (!mf_digest_hex(text, len, hex) || !mf_hex_bytes(hex, bytes, sizeof bytes))
        return false;
    mf_buf_text(out, " 'sha256-");
    mf_base64_put(out, bytes, sizeof bytes);
    mf_buf_text(out, "'");
    return true;
}

/* The next text in html up to end; NULL = there is none. */
static const char *find(const char *html, const char *end, const char *text)
{
    size_t n = strlen(text);
    for (; html != NULL && (size_t)(end - html) >= n; html++) {
        html = memchr(html, text[0], (size_t)(end - html) - n + 1);
        if (html == NULL || memcmp(html, text, n) == 0)
            return html;
    }
    return NULL;
}

/* Of every such element; "<script" with a type of its own is data and never run, its hash
 * does no harm. */
static bool add_hashes(mf_buf *out, const char *html, size_t len, const char *open,
                       const char *close)
{
    const char *at = html, *end = html + len;
    while ((at = find(at, end, open)) != NULL) {
        const char *from = memchr(at, '>', (size_t)(end - at));
        const char *to = from == NULL ? NULL : find(from + 1, end, close);
        if (to == NULL)
            return true;
        if (!add_hash(out, from + 1, (size_t)(to - from - 1)))
            return false;
        at = to;
    }
    return true;
}

bool mf_serve_page_policy(mf_buf *out, const char *html, size_t len)
{
    mf_buf_text(out, NOTHING "connect-src 'self'; worker-src 'self' blob:; img-src data: blob:; "
                             "font-src data:; manifest-src data:; script-src 'wasm-unsafe-eval'");
    bool good = add_hashes(out, html, len, "<script", "</script");
    mf_buf_text(out, "; style-src");
    mf_buf_text(out, find(html, html + len, "<style") == NULL ? " 'none'" : "");
    good = good && add_hashes(out, html, len, "<style", "</style");
    return good && !out->failed;
}
