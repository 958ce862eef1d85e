/* Time stamps that somebody else made: a reply or a token.
 *
 * The seeds are by an authority whose root is stamp-root.pem and whose key is gone: what is
 * proved by it tells just what good.tsr tells. */
#include "fuzz/fuzz.h"

#include <mistfold/stamp.h>
#include <stdio.h>
#include <string.h>

enum { FILE_MAX = 8192 };

#define STAMPED "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"

static size_t read_file(const char *path, unsigned char out[FILE_MAX])
{
    FILE *file = fopen(path, "rb");
    FUZZ_HOLDS(file != NULL);
    size_t len = fread(out, 1, FILE_MAX - 1, file);
    out[len] = '\0';
    fclose(file);
    return len;
}

static const mf_stamp_report *good(const char *roots)
{
    static mf_stamp_report report;
    static unsigned char reply[FILE_MAX];
    if (report.state != MF_STAMP_NONE)
        return &report;
    size_t len = read_file(MF_TESTS "/fuzz/seeds/stamp/good.tsr", reply);
    FUZZ_HOLDS(mf_stamp_judge(&report, reply, len, STAMPED, roots, NULL) == MF_OK);
    FUZZ_HOLDS(report.state == MF_STAMP_PROVED);
    return &report;
}

static const char *seed_roots(void)
{
    static unsigned char roots[FILE_MAX];
    if (roots[0] == '\0')
        read_file(MF_TESTS "/fuzz/stamp-root.pem", roots);
    return (const char *)roots;
}

static bool told_the_same(const mf_stamp_report *a, const mf_stamp_report *b)
{
    return a->state == b->state && a->at == b->at && a->before == b->before &&
           strcmp(a->authority, b->authority) == 0 && strcmp(a->fingerprint, b->fingerprint) == 0 &&
           strcmp(a->policy, b->policy) == 0 && strcmp(a->serial, b->serial) == 0 &&
           strcmp(a->imprint, b->imprint) == 0;
}

void fuzz_stamp(const uint8_t *data, size_t len)
{
    char sha256[MF_STAMP_HEX], nonce[MF_STAMP_HEX];
    mf_stamp_report report;
    mf_bytes query = {0}, token = {0};
    FUZZ_HOLDS(mf_stamp_judge(&report, data, len, NULL, seed_roots(), NULL) == MF_OK);
    FUZZ_HOLDS(report.state != MF_STAMP_PROVED || told_the_same(&report, good(seed_roots())));
    mf_stamp_reply_peek(sha256, nonce, data, len, NULL);
    /* No reply answers a query that was made just now. */
    FUZZ_HOLDS(mf_stamp_query(&query, STAMPED, NULL) == MF_OK);
    FUZZ_HOLDS(mf_stamp_reply(&token, &report, &query, data, len, NULL, NULL) == MF_INPUT);
    FUZZ_HOLDS(token.data == NULL);
    mf_bytes_free(&query);
}
