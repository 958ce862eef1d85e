/* Makes the seeds that are no text: a key, papers sealed by it, a signature alone.
 * All names are invented. Run once, by hand, when what a sealed paper looks like has
 * changed; then list what is sealed in genuine.sha256 (DEVELOPERS.md).
 *   make build/release/tests/fuzz/make_seeds && build/release/tests/fuzz/make_seeds FOLDER */
#include "seal/cms.h"
#include "seal/seal_kit.h"

#include <sys/stat.h>

static const char *folder;

static void keep(const char *in, const char *name, mf_bytes bytes)
{
    char path[200];
    snprintf(path, sizeof path, "%s/%s", folder, in);
    mkdir(path, 0777);
    kit_write(path, name, bytes.data, bytes.len);
}

static mf_key *make_key(void)
{
    mf_bytes p12 = {0};
    mf_key *key = NULL;
    mf_key_holder holder = {"Ottoline Fernbrake", "Fernbrake Invented Renovation",
                            "certified renovator", 4000};
    assert_int_equal(mf_key_make_rounds(&p12, &holder, KIT_PASSPHRASE, 2, NULL), MF_OK);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, KIT_PASSPHRASE, NULL), MF_OK);
    keep("key", "ec.p12", p12);
    mf_bytes_free(&p12);
    return key;
}

static mf_bytes with_file(mf_bytes pdf)
{
    mf_bytes out = {0};
    mf_embedded file = {"record.json", "application/json", "the record",
                        (const unsigned char *)"{\"invented\":true}", 17};
    assert_int_equal(mf_seal_attach(&out, pdf.data, pdf.len, &file, NULL), MF_OK);
    mf_bytes_free(&pdf);
    return out;
}

static void make_papers(const mf_key *key)
{
    mf_bytes plain = kit_paper(2);
    keep("attach", "plain.pdf", plain);
    plain = with_file(plain);
    keep("attach", "with-file.pdf", plain);
    keep("pdf", "with-file.pdf", plain);
    plain = kit_seal(plain, key);
    keep("pdf", "sealed.pdf", plain);
    keep("attach", "sealed.pdf", plain);
    plain = kit_seal(plain, key);
    keep("pdf", "sealed-twice.pdf", plain);
    mf_bytes_free(&plain);
}

static void make_signature(const mf_key *key)
{
    static const unsigned char words[] = "these words were signed"; /* as in fuzz_paper.c */
    mf_cms_spans spans = {words, words + 6, 6, sizeof words - 7};
    mf_bytes der = {0};
    assert_int_equal(mf_cms_sign(&der, key, &spans, NULL), MF_OK);
    keep("cms", "good.der", der);
    mf_bytes_free(&der);
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fputs("make_seeds FOLDER\n", stderr);
        return 2;
    }
    folder = argv[1];
    mf_key *key = make_key();
    make_papers(key);
    make_signature(key);
    mf_key_free(key);
    return 0;
}
