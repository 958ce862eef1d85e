/* Papers, signatures, keys and photos that somebody else made.
 *
 * What is sealed by the key of the seeds is known: genuine.sha256 lists those files.
 * A paper or a signature that passes for sealed and is not on that list was changed
 * without anybody seeing it, which is the worst there can be. */
#include "book/attach.h"
#include "fuzz/fuzz.h"
#include "fuzz/later.h"
#include "paper/photo.h"
#include "seal/cms.h"

#include <mistfold/seal.h>
#include <openssl/err.h>
#include <openssl/pkcs12.h>
#include <stdio.h>
#include <string.h>

#define PASSPHRASE "blue ladder, quiet dust"

enum { LIST_MAX = 64 };

static char genuine[LIST_MAX][MF_FINGERPRINT_HEX];
static mf_key *key;

static void read_list(void)
{
    char line[256];
    FILE *file = fopen(MF_TESTS "/fuzz/genuine.sha256", "r");
    FUZZ_HOLDS(file != NULL);
    for (size_t n = 0; n < LIST_MAX && fgets(line, sizeof line, file) != NULL; n++)
        snprintf(genuine[n], sizeof genuine[n], "%.64s", line);
    fclose(file);
}

static bool is_genuine(const uint8_t *data, size_t len)
{
    char hash[MF_FINGERPRINT_HEX];
    if (genuine[0][0] == '\0')
        read_list();
    mf_sha256_hex(data, len, hash);
    for (size_t n = 0; n < LIST_MAX; n++)
        if (strcmp(genuine[n], hash) == 0)
            return true;
    return false;
}

static void drop_key(void)
{
    mf_key_free(key);
}

const mf_key *fuzz_seed_key(void)
{
    static unsigned char bytes[8192];
    if (key != NULL)
        return key;
    FILE *file = fopen(MF_TESTS "/fuzz/seeds/key/ec.p12", "rb");
    FUZZ_HOLDS(file != NULL);
    size_t len = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    FUZZ_HOLDS(mf_key_open(&key, bytes, len, PASSPHRASE, NULL) == MF_OK);
    atexit(drop_key);
    return key;
}

/* ---- a paper to be checked ----------------------------------------------------------- */

static void take_out(const uint8_t *data, size_t len, const char *name)
{
    mf_bytes out = {0};
    if (mf_seal_attached(&out, data, len, name, NULL) == MF_OK)
        FUZZ_HOLDS(out.data[out.len] == '\0');
    mf_bytes_free(&out);
}

void fuzz_pdf(const uint8_t *data, size_t len)
{
    mf_seal_check check;
    mf_err err = {0};
    mf_status status = mf_seal_verify(&check, data, len, &err);
    FUZZ_HOLDS(status != MF_OK || is_genuine(data, len));
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    FUZZ_HOLDS(check.n >= 0 && check.n <= MF_SEAL_MAX);
    for (int i = 0; i < check.n; i++)
        FUZZ_HOLDS(check.seal[i].covered_len <= len && strlen(check.seal[i].common_name) < 128);
    take_out(data, len, "record.json");
}

/* A paper that is to be sealed or to hold a file: nothing of it may change. */
void fuzz_attach(const uint8_t *data, size_t len)
{
    mf_bytes more = {0}, back = {0}, sealed = {0};
    mf_seal_check check;
    mf_embedded file = {"data.json", "application/json", "data", (const uint8_t *)"{}", 2};
    mf_seal_ask ask = {.key = fuzz_seed_key(),
                       .signed_at = 1767225600,
                       .place = {1, 72, 72, 210, 60},
                       .reason = "",
                       .location = "",
                       .draw = len % 2 == 1};
    if (mf_seal_attach(&more, data, len, &file, NULL) == MF_OK) {
        FUZZ_HOLDS(more.len > len && memcmp(more.data, data, len) == 0);
        FUZZ_HOLDS(mf_seal_attached(&back, more.data, more.len, "data.json", NULL) == MF_OK);
        FUZZ_HOLDS(back.len == 2 && memcmp(back.data, "{}", 2) == 0);
    }
    if (mf_seal_sign(&sealed, data, len, &ask, NULL) == MF_OK) {
        FUZZ_HOLDS(sealed.len > len && memcmp(sealed.data, data, len) == 0);
        mf_seal_verify(&check, sealed.data, sealed.len, NULL);
        FUZZ_HOLDS(check.n >= 1 && check.seal[check.n - 1].state == MF_SEAL_GOOD);
    }
    mf_bytes_free(&more);
    mf_bytes_free(&back);
    mf_bytes_free(&sealed);
}

/* ---- the signature alone --------------------------------------------------------------- */

void fuzz_cms(const uint8_t *data, size_t len)
{
    static const unsigned char words[] = "these words were signed";
    mf_cms_spans spans = {words, words + 6, 6, sizeof words - 7};
    for (int cades = 0; cades < 2; cades++) {
        mf_seal_report report = {0};
        mf_cms_verify(&report, data, len, &spans, cades == 1, NULL);
        mf_cms_judge_stamp(&report.stamp, data, len, NULL, NULL);
        FUZZ_HOLDS(report.state != MF_SEAL_GOOD || is_genuine(data, len));
    }
}

/* ---- a key file -------------------------------------------------------------------------- */

/* With a right seal over its contents, so that they are looked at. */
static void with_right_mac(const uint8_t *data, size_t len)
{
    mf_key *opened = NULL;
    const unsigned char *at = data;
    unsigned char *bytes = NULL;
    PKCS12 *p12 = d2i_PKCS12(NULL, &at, (long)len);
    if (p12 != NULL && PKCS12_set_mac(p12, PASSPHRASE, -1, NULL, 0, 1, NULL) == 1) {
        int n = i2d_PKCS12(p12, &bytes);
        if (n > 0)
            mf_key_open(&opened, bytes, (size_t)n, PASSPHRASE, NULL);
        mf_key_free(opened);
        OPENSSL_free(bytes);
    }
    PKCS12_free(p12);
    ERR_clear_error();
}

void fuzz_key(const uint8_t *data, size_t len)
{
    mf_key *opened = NULL;
    mf_err err = {0};
    if (len > 16384)
        return;
    mf_status status = mf_key_open(&opened, data, len, PASSPHRASE, &err);
    FUZZ_HOLDS((status == MF_OK) == (opened != NULL));
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    mf_key_free(opened);
    with_right_mac(data, len);
}

/* ---- a photo -------------------------------------------------------------------------------- */

void fuzz_photo(const uint8_t *data, size_t len)
{
    mf_bytes out = {0};
    mf_err err = {0};
    unsigned w = 0, h = 0;
    bool whole = false;
    mf_paper_photo photo = {data, len, "photo.png", "invented", "", "", ""};
    mf_media_of(data, len, &whole);
    mf_photo_exif_turn(data, len);
    mf_status status = mf_photo_ready(&out, &w, &h, &photo, &err);
    FUZZ_HOLDS(status != MF_OK || (w > 0 && h > 0 && w <= MF_PHOTO_SIDE && h <= MF_PHOTO_SIDE));
    FUZZ_HOLDS(status == MF_OK || err.what[0] != '\0');
    mf_bytes_free(&out);
}
