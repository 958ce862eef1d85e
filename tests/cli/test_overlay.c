/* A picture over the words of a sealed record, under a good seal of somebody else's key;
 * and each place for a seal taken once; whose certificate a seal names. The job is the invented
 * sample; poppler draws what a reader of the paper sees. */
#include "base/file.h"
#include "seal/seal_kit.h"
#include "support/shell_kit.h"

#include <stdio.h>

#define M    "\"$MISTFOLD\" --book demo.book --by rosa "
#define PASS " --passphrase-fd 3 3<" MF_SAMPLE "/passphrase.txt"

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("DEMO_NO_KEY=1 sh " MF_SAMPLE
        "/demo.sh out > log 2>&1 && cp out/demo.book out/job-record.pdf "
        "out/rosa.p12 .");
    return r.status;
}

/* Seals the record by a key that nobody knows, drawn at this place. */
static void seal_over(const char *name, mf_seal_place place)
{
    char path[128];
    mf_bytes pdf = {0}, sealed = {0};
    mf_key *key = kit_key();
    mf_seal_ask ask = kit_ask(key);
    ask.place = place;
    ask.draw = true;
    snprintf(path, sizeof path, "%s/job-record.pdf", folder);
    assert_int_equal(mf_file_read(&pdf, path, (size_t)1 << 26, NULL), MF_OK);
    assert_int_equal(mf_seal_sign(&sealed, pdf.data, pdf.len, &ask, NULL), MF_OK);
    kit_write(folder, name, sealed.data, sealed.len);
    mf_bytes_free(&sealed);
    mf_bytes_free(&pdf);
    mf_key_free(key);
}

/* Every byte is under a good seal, and another page shows than was sealed first. */
static void words_are_covered(void **state)
{
    (void)state;
    seal_over("covered.pdf", (mf_seal_place){2, 72, 400, 300, 120});
    run("pdfsig covered.pdf | grep -c 'Signature is Valid'; for f in covered job-record; do "
        "pdftoppm -r 20 -f 2 -l 2 $f.pdf $f; done; cmp -s covered-*.ppm job-record-*.ppm || "
        "echo differs");
    assert_string_equal(r.out, "2\ndiffers\n");
    for (int compare = 0; compare < 2; compare++) {
        run(compare ? M "paper check covered.pdf --compare" : M "paper check covered.pdf");
        assert_int_equal(r.status, 1);
        says("drawn on     page 2: MAY COVER WORDS");
        notes("covered.pdf: seal 2 is drawn on page 2, where it may cover words");
    }
    run(M
        "paper check covered.pdf --json | python3 -c 'import json, sys; d = json.load(sys.stdin); "
        "print(d[\"good\"], [(s[\"drawn_on\"] > 0, s[\"may_cover\"]) for s in d[\"seal\"]])'");
    assert_string_equal(r.out, "False [(True, False), (True, True)]\n");
    run("MISTFOLD_LANG=es " M "paper check covered.pdf");
    says(": PUEDE TAPAR PALABRAS");
    run(M "paper check covered.pdf --under 1 --out first.pdf; cmp first.pdf job-record.pdf");
    assert_int_equal(r.status, 0);
    run(M "paper seal covered.pdf --key rosa.p12" PASS); /* nobody vouches for it unseen */
    assert_int_equal(r.status, 1);
    notes("it may cover words");
}

static void unseen_covers_nothing(void **state)
{
    (void)state;
    seal_over("unseen.pdf", (mf_seal_place){0});
    run(M "paper check unseen.pdf");
    assert_int_equal(r.status, 0);
    says_not("drawn on");
}

/* The renovator's place has the first seal, the firm's gets one and takes no second. */
static void a_place_takes_one_seal(void **state)
{
    (void)state;
    run("cp job-record.pdf two.pdf; " M "paper seal two.pdf --key rosa.p12 --as firm" PASS);
    assert_int_equal(r.status, 0);
    run(M "paper check two.pdf");
    assert_int_equal(r.status, 0);
    says("drawn on     page ");
    run("cp two.pdf kept.pdf; " M "paper seal two.pdf --key rosa.p12 --as firm" PASS);
    assert_int_equal(r.status, 1);
    notes("--as: seal 2 is in the place for the firm");
    run(M "paper seal two.pdf --key rosa.p12 --as renovator" PASS);
    assert_int_equal(r.status, 1);
    notes("--as: seal 1 is in the place for the renovator");
    run("cmp two.pdf kept.pdf");
    assert_int_equal(r.status, 0);
    run(M "paper seal two.pdf --key rosa.p12" PASS "; " M "paper check two.pdf");
    assert_int_equal(r.status, 0);
    says("seal 3");
}

/* The number is that of the person whom the key names, whoever prints and whatever the key says of
 * its holder; of anybody else it is said that none is on file (constructed). */
static void the_number_is_the_keys(void **state)
{
    static const struct {
        const char *holder, *says;
    } keys[] = {
        {"--name 'Rosa Muestra' --capacity 'certified renovator'", "certificate R-0417\n"},
        {"--name 'Rosa Muestra' --capacity 'Renovadora certificada'", "certificate R-0417\n"},
        {"--name 'Rosa Muestra'", "certificate R-0417\n"},
        {"--name 'Teo Modelo' --capacity 'certified renovator'", "No renovator certificate\n"},
        {"--name 'Ida Sample' --capacity 'certified renovator'", "No renovator certificate\n"},
        {"--name 'Ida Sample' --capacity owner", "No renovator certificate\n"},
    };
    char line[900];
    (void)state;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        snprintf(
            line, sizeof line,
            "cp demo.book n.book; rm -f n.p12 n.pdf; (m() { \"$MISTFOLD\" --book n.book --by "
            "teo \"$@\" --passphrase-fd 3 3<" MF_SAMPLE "/passphrase.txt; }; m key new n.p12 "
            "%s; m paper record J-1926 --key n.p12 --out n.pdf) > log; pdftotext n.pdf - | sed "
            "-n '/^SEALED/,/fingerprint/p' | grep -o 'No renovator certificate\\|certificate "
            "R.*'; test -f n.pdf",
            keys[i].holder);
        run(line);
        assert_int_equal(r.status, 0);
        assert_string_equal(r.out, keys[i].says);
    }
}

/* A later record names the key that sealed, not who typed the command; and of two seals that one
 * person had put on, by two keys of two names, neither is told to bear the other's (constructed).
 */
static void a_seal_is_of_its_key(void **state)
{
    (void)state;
    run("cp demo.book n.book; rm -f n.p12 o.p12 n.pdf o.pdf; (m() { \"$MISTFOLD\" --book n.book "
        "--by teo \"$@\" --passphrase-fd 3 3<" MF_SAMPLE "/passphrase.txt; }; m key new n.p12 "
        "--name 'Example Windows'; m paper record J-1926 --key n.p12 --out n.pdf; m key new o.p12 "
        "--name 'Teo Modelo'; m paper record J-1926 --key o.p12 --out o.pdf) > log; pdftotext "
        "-layout o.pdf - | grep -A1 'Example Windows  *2'");
    assert_int_equal(r.status, 0);
    says("logged by Teo Modelo");
    run("\"$MISTFOLD\" --book n.book --by teo paper check o.pdf --compare");
    says_not("on another key");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_are_covered),      cmocka_unit_test(unseen_covers_nothing),
        cmocka_unit_test(a_place_takes_one_seal), cmocka_unit_test(the_number_is_the_keys),
        cmocka_unit_test(a_seal_is_of_its_key),
    };
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
