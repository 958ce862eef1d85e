/* A certification of the record by a device that did not have all of the work: 40 CFR 745.86(b)(6)
 * has it of the work that was done, and nobody can have certified what was not on file. Real books
 * of two devices that come together. All constructed. */
#include "entries_kit.h"
#include "journal/fold.h"
#include <mistfold/audit.h>

/* office/10 to office/15: rosa is assigned, the work is done and completed. */
static int worked(void **state)
{
    static kit k;
    kit_start(&k);
    kit_house(&k);
    kit_log(&k, "certificate", "", "holder", "rosa", "discipline", "renovator", "number", "R-1",
            "issuer", "Invented", "issued", "2024-03-06", "expires", "2029-03-06", "hands-on",
            "yes");
    kit_log(&k, "assignment", "J-1", "person", "rosa", "duty", "renovator", "on", "2026-09-01");
    kit_log(&k, "area", "J-1", "id", "A1", "side", "interior", "place", "kitchen", "openings",
            "W01", "length", "12", "width", "10");
    kit_log(&k, "practice", "J-1", "area", "A1", "method", "hand", "person", "rosa", "on",
            "2026-09-14");
    kit_log(&k, "practice", "J-1", "area", "A1", "method", "hand", "person", "ana", "on",
            "2026-09-14");
    kit_log(&k, "completion", "J-1", "on", "2026-09-14");
    *state = &k;
    return 0;
}

static int done(void **state)
{
    kit_stop(*state);
    return 0;
}

static void certify(kit *k)
{
    kit_log(k, "certification", "J-1", "person", "rosa", "on", "2026-09-15");
}

static void a_machine(kit *k)
{
    kit_log(k, "practice", "J-1", "area", "A1", "method", "machine", "hepa", "yes", "person",
            "rosa", "on", "2026-09-14");
}

/* What the book of k says of the certification that was made last, and of the first entry that is
 * against it; seen NULL = whatever it had seen. */
static void says(kit *k, const char *why, const char *other, const char *seen)
{
    mf_job *job = NULL;
    mf_finding found = {0};
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_OK);
    assert_true(job->n_certification > 0);
    const mf_certification *it = &job->certification[job->n_certification - 1];
    mf_certification_judge(job, it, &found);
    assert_string_equal(found.why, why);
    assert_string_equal(found.other, other);
    if (seen != NULL)
        assert_string_equal(it->seen, seen);
    mf_book_job_free(job);
}

/* The office logs, and the truck, which never had that entry, certifies later by the clock. */
static void the_truck_had_not_seen_it(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck");
    a_machine(k); /* office/16 */
    truck.now.at = "2026-09-15T14:00:01Z";
    certify(&truck);
    says(&truck, "certification-signed", "", "office/15");
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    says(k, "certification-unseen", "office/16", "office/15");
    assert_int_equal(merge(&truck, k->path, &report), MF_OK);
    says(&truck, "certification-unseen", "office/16", "office/15");
    truck.now.at = "2026-09-15T15:00:00Z";
    certify(&truck); /* read, and certified anew */
    says(&truck, "certification-signed", "", "office/16 truck/1");
    mf_book_close(truck.book);
}

static void the_truck_had_seen_all(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck");
    a_machine(&truck); /* truck/1 */
    a_machine(k);
    assert_int_equal(merge(&truck, k->path, &report), MF_OK);
    truck.now.at = "2026-09-15T14:00:01Z";
    certify(&truck);
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    says(k, "certification-signed", "", "office/16 truck/1");
    kit_reading(k, "1", "1.4"); /* what is none of the work is none of it, seen or not */
    says(k, "certification-signed", "", "office/16 truck/1");
    mf_book_close(truck.book);
}

/* The office withdraws or corrects what the truck certifies as it was. */
static void a_correction_it_had_not_seen(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck");
    mf_draft *draft = kit_draft(k, "practice", "method", "machine", "hepa", "no", NULL);
    assert_int_equal(
        mf_book_correct(k->book, "office/14", draft, "a sander", &k->now, k->id, &k->err), MF_OK);
    mf_draft_free(draft);
    truck.now.at = "2026-09-15T14:00:01Z";
    certify(&truck);
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    says(k, "certification-unseen", "office/16", "office/15");
    k->now.at = "2026-09-15T15:00:00Z";
    certify(k);
    says(k, "certification-signed", "", "office/16 truck/1");
    k->now.at = truck.now.at = "2026-09-15T16:00:00Z";
    assert_int_equal(
        mf_book_correct(truck.book, "office/13", NULL, "not done", &truck.now, truck.id, &k->err),
        MF_OK);
    k->now.at = "2026-09-15T16:00:01Z";
    certify(k);
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    says(k, "certification-unseen", "truck/2", "office/17 truck/1");
    mf_book_close(truck.book);
}

/* A phone's file of entries keeps what the phone's book wrote. */
static void by_a_phone(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    kit phone = copied(k, "phone");
    a_machine(k); /* office/16 */
    phone.now.at = "2026-09-15T14:00:01Z";
    certify(&phone);
    mf_bytes file = handed(&phone);
    assert_int_equal(take(k, file.data, file.len, &report), MF_OK);
    says(k, "certification-unseen", "office/16", "office/15");
    mf_bytes_free(&file);
    mf_book_close(phone.book);
}

/* The other way round: certified in the office, and the crew's phone is fetched at night. */
static void before_the_phone_came_home(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    kit phone = copied(k, "phone");
    a_machine(&phone); /* phone/1 */
    k->now.at = "2026-09-15T17:00:00Z";
    certify(k);
    mf_bytes file = handed(&phone);
    assert_int_equal(take(k, file.data, file.len, &report), MF_OK);
    says(k, "certification-unseen", "phone/1", "office/15");
    certify(k);
    says(k, "certification-signed", "", "office/16 phone/1");
    mf_bytes_free(&file);
    mf_book_close(phone.book);
}

/* A file whose correction says that more had been seen, or nothing, is refused. */
static void a_forged_correction(void **state)
{
    static const char *const seen[] = {",\"seen\":\"office/99\"", ""};
    kit *k = *state;
    mf_entries_report report;
    certify(k); /* office/16 */
    for (size_t i = 0; i < 2; i++) {
        char body[300];
        forged f = forge("J-1");
        snprintf(body, sizeof body,
                 "{\"body\":{\"day\":\"2026-09-14\",\"person\":\"rosa\"%s},\"kind\":"
                 "\"certification\",\"reason\":\"r\",\"replaces\":\"office/16\",\"target\":"
                 "\"office/16\"}",
                 seen[i]);
        forge_add(&f, "correction", body);
        forge_end(&f);
        assert_int_equal(take(k, f.text.data, f.text.len, &report), MF_INPUT);
        assert_non_null(strstr(k->err.what, "it changes what cannot be changed"));
        forge_free(&f);
    }
}

/* An older version wrote nothing of what it had: the clocks decide. */
static void one_of_an_older_version(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    mf_finding found = {0};
    mf_merge_report report;
    kit truck = copied(k, "truck");
    a_machine(k);
    truck.now.at = "2026-09-15T14:00:01Z";
    certify(&truck);
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_OK);
    mf_certification old = job->certification[0];
    old.seen = "";
    mf_certification_judge(job, &old, &found);
    assert_string_equal(found.why, "certification-signed");
    old.src.at = "2026-09-15T13:59:59Z";
    mf_certification_judge(job, &old, &found);
    assert_string_equal(found.why, "certification-outrun");
    mf_book_job_free(job);
    mf_book_close(truck.book);
}

/* An older version's certification, corrected there, comes in as it is. */
static void a_correction_of_an_older_version(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    forged f = forge("J-1");
    forge_add(&f, "certification", "{\"day\":\"2026-09-14\",\"person\":\"rosa\"}");
    forge_add(&f, "correction",
              "{\"body\":{\"day\":\"2026-09-15\",\"person\":\"rosa\"},\"kind\":"
              "\"certification\",\"reason\":\"r\",\"replaces\":\"phone/1\",\"target\":"
              "\"phone/1\"}");
    forge_end(&f);
    assert_int_equal(take(k, f.text.data, f.text.len, &report), MF_OK);
    forge_free(&f);
}

/* Nobody types what the book writes, and a correction leaves it as it was. */
static void nobody_types_it(void **state)
{
    kit *k = *state;
    mf_draft *draft = NULL;
    certify(k);
    assert_int_equal(mf_draft_new(&draft, mf_kind_named("certification"), &k->err), MF_OK);
    assert_int_equal(mf_draft_set(draft, "seen", "office/99", "", "", k->now.today, &k->err),
                     MF_USAGE);
    assert_null(strstr(k->err.mend, "seen"));
    assert_int_equal(mf_draft_set(draft, "on", "2026-09-14", "", "", k->now.today, &k->err), MF_OK);
    a_machine(k); /* office/17 */
    assert_int_equal(mf_book_correct(k->book, "office/16", draft, "slip", &k->now, k->id, &k->err),
                     MF_OK);
    mf_draft_free(draft);
    says(k, "certification-outrun", "office/17", "office/15");
}

/* A correction that somebody made by hand, without what the book had written or with more. */
static void a_correction_made_by_hand(void **state)
{
    static const char *const bodies[] = {
        "{\"day\":\"2026-09-15\",\"person\":\"rosa\"}",
        "{\"day\":\"2026-09-15\",\"person\":\"rosa\",\"seen\":\"office/99\"}"};
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        char body[300];
        mf_job_fold *fold = mf_job_fold_new("J-1", NULL);
        mf_line line = {.device = "truck",
                        .seq = 1,
                        .at = "2026-09-15T14:00:00Z",
                        .who = "rosa",
                        .kind = "certification",
                        .job = "J-1",
                        .body = "{\"day\":\"2026-09-14\",\"person\":\"rosa\","
                                "\"seen\":\"office/15\"}"};
        assert_int_equal(mf_job_fold_add(fold, &line, NULL), MF_OK);
        snprintf(
            body, sizeof body,
            "{\"body\":%s,\"kind\":\"certification\",\"reason\":\"r\",\"replaces\":\"truck/1\","
            "\"target\":\"truck/1\"}",
            bodies[i]);
        line.seq = 2;
        line.kind = "correction";
        line.body = body;
        assert_int_equal(mf_job_fold_add(fold, &line, NULL), MF_OK);
        assert_int_equal(mf_job_fold_finish(fold, NULL), MF_OK);
        assert_int_equal(fold->job.certification[0].on, mf_day_from(2026, 9, 15));
        assert_string_equal(fold->job.certification[0].seen, "office/15");
        mf_job_fold_free(fold);
    }
}

#define TEST(fn) cmocka_unit_test_setup_teardown(fn, worked, done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_truck_had_not_seen_it),
        TEST(the_truck_had_seen_all),
        TEST(a_correction_it_had_not_seen),
        TEST(one_of_an_older_version),
        TEST(a_correction_of_an_older_version),
        TEST(nobody_types_it),
        TEST(by_a_phone),
        TEST(before_the_phone_came_home),
        TEST(a_forged_correction),
        cmocka_unit_test(a_correction_made_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
