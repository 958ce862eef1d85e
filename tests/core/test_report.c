/* Which attachment is the laboratory's report of a result, and that the audit says
 * so. 40 CFR 745.86(b)(1)(iii), (b)(6)(iv): the results of the analysis are kept. All
 * names and hashes are constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/paint.h>
#include <string.h>

#define HASH_A "aaaaaaaabbbbbbbbccccccccddddddddaaaaaaaabbbbbbbbccccccccdddddddd"
#define HASH_B "1111111122222222333333334444444411111111222222223333333344444444"

static const mf_attachment files[] = {
    {.src = {.entry = "a/1"},
     .about = "ch/1",
     .sha256 = HASH_A,
     .media = MF_MEDIA_JPEG,
     .name = "chip.jpg"},
    {.src = {.entry = "a/2"},
     .about = "",
     .sha256 = HASH_B,
     .media = MF_MEDIA_PDF,
     .name = "lab-88.pdf"},
    {.src = {.entry = "a/3"},
     .about = "ds/1",
     .sha256 = HASH_A,
     .media = MF_MEDIA_PDF,
     .name = "wipes.pdf"},
};

/* entry and report of a result, and the entry of the attachment; "" = none. */
static const struct {
    const char *entry, *report, *found;
} rows[] = {
    {"ch/1", "", ""},              /* a photo about it is no report */
    {"ch/1", "lab-88.pdf", "a/2"}, /* by the name of the file */
    {"ch/1", "a/2", "a/2"},        /* by its entry */
    {"ch/1", HASH_B, "a/2"},       /* by its SHA-256 */
    {"ch/1", "11111111", "a/2"},   /* by the beginning of it */
    {"ch/1", "1111111", ""},       /* too short to name anything */
    {"ch/1", "chip.jpg", "a/1"},   /* a scan, when it is named */
    {"ch/1", "88", ""},            /* the number of a report on paper */
    {"ds/1", "", "a/3"},           /* a PDF about it */
    {"ds/1", "lab-88.pdf", "a/2"}, /* what is named goes first */
    {"", "", ""},                  /* a result that was never written */
};

static void which_report(void **state)
{
    mf_job job = {.attachment = files, .n_attachment = COUNT(files)};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_attachment *it = mf_report_attached(&job, rows[i].entry, rows[i].report);
        assert_string_equal(it == NULL ? "" : it->src.entry, rows[i].found);
    }
}

static const mf_finding *finding_of(const fixture *fx, const char *id, mf_finding *list, size_t cap)
{
    const mf_audit_ask ask = {.job = &fx->job, .today = fx_day("2026-10-01"), .area = ""};
    size_t n = mf_audit(&ask, list, cap);
    for (size_t i = 0; i < n && i < cap; i++)
        if (strcmp(list[i].requirement->id, id) == 0)
            return &list[i];
    fail_msg("no finding of %s", id);
    return NULL;
}

static void the_audit_says_so(void **state)
{
    static fixture fx;
    static mf_finding list[1024];
    (void)state;
    fx_good(&fx);
    const mf_finding *it = finding_of(&fx, "chip-record", list, COUNT(list));
    assert_string_equal(it->why, "chip-on-file");
    it = finding_of(&fx, "dust-laboratory", list, COUNT(list));
    assert_string_equal(it->why, "laboratory-lawful");

    fx.job.attachment = files;
    fx.job.n_attachment = COUNT(files);
    fx.chip[0].report = "lab-88.pdf";
    it = finding_of(&fx, "chip-record", list, COUNT(list));
    assert_string_equal(it->why, "chip-and-report");
    assert_int_equal(it->verdict, MF_MET);
    assert_string_equal(it->evidence, "a/2");
    it = finding_of(&fx, "dust-laboratory", list, COUNT(list));
    assert_string_equal(it->why, "laboratory-and-report");
    assert_string_equal(it->evidence, "a/3");

    fx.chip[0].lab_address = ""; /* a report does not mend what is lacking */
    it = finding_of(&fx, "chip-record", list, COUNT(list));
    assert_string_equal(it->why, "chip-no-laboratory");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(which_report),
                                       cmocka_unit_test(the_audit_says_so)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
