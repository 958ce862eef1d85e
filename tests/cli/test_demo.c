/* The main job end to end: the demo is run as a person would run it, then its
 * results are read with independent tools: pdftotext, pdffonts, pdfsig and
 * pdftoppm of poppler, qpdf, sqlite3, sha256sum. */
#include "support/cmocka_all.h"
#include "support/folder_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int run_demo(void **state)
{
    run_result r;
    (void)state;
    run_folder(folder);
    run_shell(&r, folder, "sh " MF_SAMPLE "/demo.sh out > demo.log 2> demo.err");
    if (r.status != 0) {
        run_shell(&r, folder, "tail -5 demo.log; cat demo.err");
        fprintf(stderr, "the demo failed: %s\n", r.out);
        return 1;
    }
    return 0;
}

/* First no, then yes: each question in the order it was asked. */
static void questions(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder, "grep -E '^[A-Z].*[?]  (YES|NO)$' demo.log");
    assert_string_equal(r.out, "Is this house and this work under the rule?  YES\n"
                               "May demo start?  NO\n"
                               "May demo start?  NO\n"
                               "May demo start?  YES\n"
                               "May the signs come down?  NO\n"
                               "May the signs come down?  YES\n"
                               "Has everybody been given what is due to them?  YES\n"
                               "Would this file stand up to an inspection?  YES\n");
}

/* What changes from run to run: hashes, fingerprints and the time of printing. */
#define NORMAL                                                                                     \
    "sed -E -e 's/[0-9a-f]{64}/HASH64/g' -e 's/[0-9a-f]{16}/HASH16/g'"                             \
    " -e 's/([0-9a-f]{4} ){3,}[0-9a-f]{0,4}/FINGERPRINT/g'"                                        \
    " -e 's/20[0-9]{2}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2} UTC/PRINTED/g'"

/* The text of the record against an expectation that was read by a person. After
 * a change on purpose: look at every page, then
 *   MISTFOLD_ACCEPT=1 build/release/tests/cli/test_demo */
static void record_text(void **state)
{
    run_result r;
    (void)state;
    const char *expected = MF_TESTS "/cli/expected/job-record.txt";
    char command[512];
    snprintf(command, sizeof command,
             "pdftotext -raw out/job-record.pdf - | " NORMAL " > text.txt; "
             "[ -z \"$MISTFOLD_ACCEPT\" ] || cp text.txt %s; diff %s text.txt",
             expected, expected);
    run_shell(&r, folder, command);
    if (r.status != 0)
        fail_msg("the record reads differently:\n%.3000s", r.out);
}

static void pdf_is_sound(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder,
              "qpdf --check out/job-record.pdf && qpdf --check out/containment-interior.pdf");
    assert_int_equal(r.status, 0);
    /* pdffonts: the column "emb" of every font */
    run_shell(&r, folder,
              "for f in out/*.pdf; do pdffonts $f | tail -n +3 | "
              "awk '{print $(NF-4)}'; done | sort -u");
    assert_string_equal(r.out, "yes\n");
}

static void seal_is_valid(void **state)
{
    run_result r;
    (void)state;
    run_shell(&r, folder, "pdfsig out/job-record.pdf");
    run_contains(r.out, "Signature is Valid.");
    run_contains(r.out, "Total document signed");
    run_contains(r.out, "ETSI.CAdES.detached");
    run_contains(r.out, "Certificate issuer is unknown"); /* self-made: said, not hidden */
    run_shell(&r, folder, "$MISTFOLD paper check out/job-record.pdf");
    assert_int_equal(r.status, 0);
}

/* One byte of a page changed: pdfsig and our own check both say so. */
static void one_byte_changed_is_found(void **state)
{
    run_result r;
    (void)state;
    run_shell(
        &r, folder,
        "cp out/job-record.pdf bad.pdf; printf 'X' | dd of=bad.pdf bs=1 seek=5000 conv=notrunc "
        "2>/dev/null; cmp -s bad.pdf out/job-record.pdf && exit 9; pdfsig bad.pdf");
    assert_true(r.status != 9);
    assert_null(strstr(r.out, "Signature is Valid."));
    run_shell(&r, folder, "$MISTFOLD paper check bad.pdf");
    assert_int_equal(r.status, 1);
    run_contains(r.out, "ALTERED");
}

/* The journal's triggers taken away, a lead result lowered, the triggers put back:
 * the hash of the entry tells, and says which one. */
static void a_changed_book_is_found(void **state)
{
    run_result r;
    (void)state;
    run_shell(
        &r, folder,
        "set -e; cp out/demo.book cut.book; of='FROM sqlite_master WHERE type=\"trigger\" AND "
        "tbl_name=\"entry\"'; sqlite3 cut.book \"SELECT sql || ';' $of\" > put-back.sql; "
        "sqlite3 cut.book \"SELECT 'DROP TRIGGER ' || name || ';' $of\" > drop.sql; "
        "sqlite3 cut.book < drop.sql; sqlite3 cut.book \"UPDATE entry SET body = replace(body, "
        "'\\\"loading_ug_cm2\\\":1000,', '\\\"loading_ug_cm2\\\":900,') WHERE device='office' AND "
        "seq=173; SELECT changes()\"; sqlite3 cut.book < put-back.sql");
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, "1\n");
    run_shell(&r, folder, "$MISTFOLD --book cut.book book check");
    assert_int_equal(r.status, 1);
    run_contains(r.err, "office/173");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(questions),
        cmocka_unit_test(record_text),
        cmocka_unit_test(pdf_is_sound),
        cmocka_unit_test(seal_is_valid),
        cmocka_unit_test(one_byte_changed_is_found),
        cmocka_unit_test(a_changed_book_is_found),
    };
    return cmocka_run_group_tests(tests, run_demo, remove_folder);
}
