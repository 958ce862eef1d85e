/* Properties that hold whatever the job: shifting every date by N days shifts every
 * due date by N, and more evidence never turns what was shown into what is lacking.
 * Constructed jobs; the seeds are fixed. */
#include "core/given.h"
#include "support/case_job.h"

#include <dirent.h>
#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/notice.h>
#include <stdio.h>
#include <string.h>

enum { MAX_FINDINGS = 700, N_ROUNDS = 300 };

static case_job made, more;
static mf_finding before[MAX_FINDINGS], after[MAX_FINDINGS];

static size_t ask(case_job *job, mf_day today, mf_finding *out)
{
    mf_audit_ask question = {&job->job, today, 0, ""};
    size_t n = mf_audit(&question, out, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

static uint32_t next_random(uint32_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

static void apply(case_job *job, const char *text)
{
    char copy[512];
    case_line line;
    snprintf(copy, sizeof copy, "%s", text);
    case_split(&line, copy);
    if (!case_apply(job, &line))
        fail_msg("%s: %s", text, job->problem);
}

/* ---- shifting ------------------------------------------------------------------------ */

static void shift_item(const mf_kind *kind, unsigned char *item, mf_day by)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_day day_of;
        if (kind->fields[i].type != MF_F_DATE)
            continue;
        memcpy(&day_of, item + kind->fields[i].offset, sizeof day_of);
        if (day_of == MF_DAY_NONE)
            continue;
        day_of += by;
        memcpy(item + kind->fields[i].offset, &day_of, sizeof day_of);
    }
}

static void shift(case_job *job, mf_day by)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++)
        for (size_t i = 0; i < case_count(job, &kinds[k]); i++)
            shift_item(&kinds[k], case_item(job, &kinds[k], i), by);
}

/* 745.86(c)(1): 30 days after completion, or the invoice; 745.84: 60 and 7 days. */
static void test_due_dates_shift(void **state)
{
    (void)state;
    uint32_t seed = 20260914;
    for (int round = 0; round < N_ROUNDS; round++) {
        mf_due due, moved;
        mf_day by = (mf_day)(next_random(&seed) % 2000) - 1000;
        mf_day completed = day("2026-09-16") + (mf_day)(next_random(&seed) % 400);
        assert_true(case_base(&made, "dwelling"));
        ((mf_completion *)(size_t)made.job.completion)->on = completed;
        ((mf_invoice *)(size_t)made.job.invoice)->on =
            completed + (mf_day)(next_random(&seed) % 60);
        mf_due_dates(&made.job, &due);
        shift(&made, by);
        mf_due_dates(&made.job, &moved);
        assert_int_equal(moved.handover, due.handover + by);
        /* Years have 365 or 366 days: the term ends by the calendar. */
        assert_int_equal(moved.keep_until, mf_day_add_years(completed + by, 3));
        case_free(&made);
    }
}

static void test_last_days_shift(void **state)
{
    (void)state;
    mf_day start = day("2026-09-14");
    for (mf_day by = -400; by <= 400; by++) {
        for (int method = 0; method <= MF_DELIVERY_UNIT_NOTICE; method++)
            assert_int_equal(
                mf_notice_last_day(NULL, (mf_delivery)method, MF_ROLE_OWNER, start + by),
                mf_notice_last_day(NULL, (mf_delivery)method, MF_ROLE_OWNER, start) + by);
    }
    assert_int_equal(mf_notice_last_day(NULL, MF_DELIVERY_MAILED, MF_ROLE_OWNER, start),
                     day("2026-09-07"));
    assert_int_equal(mf_notice_last_day(NULL, MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, start),
                     day("2026-09-13"));
    assert_int_equal(mf_notice_last_day(NULL, MF_DELIVERY_POSTED, MF_ROLE_OWNER, start), start);
    assert_int_equal(mf_notice_last_day(NULL, MF_DELIVERY_MAILED, MF_ROLE_PARENTS, start),
                     day("2026-09-13"));
}

/* No limit changes between 2026-02-01 and 2027-12-31, so neither may an answer, and
 * each day that a finding names moves along. */
static void test_answers_shift(void **state)
{
    (void)state;
    static const mf_day by[] = {-200, -31, -7, -1, 1, 7, 30, 365};
    for (size_t i = 0; i < COUNT(by); i++) {
        assert_true(case_base(&made, "dwelling"));
        apply(&made, "change notice owner --on 2026-07-15 --signed-on 2026-07-15");
        apply(&made, "change handover tenant --on 2026-09-21");
        mf_day today = day(FX_TODAY);
        size_t n = ask(&made, today, before);
        shift(&made, by[i]);
        assert_int_equal(ask(&made, today + by[i], after), n);
        for (size_t k = 0; k < n; k++) {
            assert_ptr_equal(after[k].requirement, before[k].requirement);
            assert_int_equal(after[k].verdict, before[k].verdict);
            assert_string_equal(after[k].why, before[k].why);
            bool dated = before[k].d1 != MF_DAY_NONE;
            bool term = strcmp(before[k].requirement->id, "retention") == 0;
            bool from_rule = before[k].limit != NULL && before[k].d1 == before[k].limit->from;
            if (dated && !term && !from_rule)
                assert_int_equal(after[k].d1, before[k].d1 + by[i]);
        }
        case_free(&made);
    }
}

/* ---- more evidence ---------------------------------------------------------------------- */

/* Lines that say more of the same, without contradicting anything. */
static const char *const harmless[] = {
    "add notice --party owner --method acknowledged --on 2026-09-01 --signed-on 2026-09-01 "
    "--signer somebody --unit \"2 Test Street\" --language en --states-receipt yes",
    "add notice --party tenant --method mailed --on 2026-09-02 --unit \"2 Test Street\" "
    "--language en --receipt yes",
    "add kit_test --component W02.sash --tester rosa --maker M --model T --lot 1 --recognized yes "
    "--result negative --on 2026-08-20",
    "add chip --component W02.sash --sampler rosa --laboratory L --lab-address A --nllap yes "
    "--weight 0.01% --on 2026-08-20",
    "add determination --assessor ines --report R-8 --components W02.sash,kitchen.wall --method M "
    "--copy-held yes --on 2026-08-21",
    "add training --worker lee --trainer omar --topics waste --on 2026-09-13",
    "add certificate --holder rosa --discipline renovator --number R-2 --issuer invented --issued "
    "2026-01-10 --expires 2031-01-10 --hands-on yes",
    "add certificate --holder firm --discipline firm --number F-2 --issuer invented --issued "
    "2026-01-10 --expires 2031-01-10",
    "add tick --area A1 --step barriers-whole --state done --person lee --renovator rosa --on "
    "2026-09-15 --time 16:00",
    "add tick --area A1 --step waste-daily --state done --person lee --renovator rosa --on "
    "2026-09-15 --time 16:00",
    "add tick --area A2 --step vertical-barrier --state done --person lee --renovator rosa --on "
    "2026-09-14 --time 08:00",
    "add practice --area A1 --method hand --person lee --on 2026-09-14 --began 07:15 --time 07:40",
    "add verification --area A2 --event look-clean --person rosa --on 2026-09-16 --time 12:00",
    "add dust_sample --area A3 --place \"bedroom floor 2\" --surface floor --sampler ines "
    "--laboratory L --nllap yes --required yes --result 1 --on 2026-09-16",
    "add handover --party owner --what record --how posted --on 2026-09-22 --dust-report yes",
    "add certification --person omar --on 2026-09-18",
};

static bool same_question(const mf_finding *a, const mf_finding *b)
{
    return a->requirement == b->requirement && strcmp(a->subject, b->subject) == 0;
}

/* Whether the question had been answered yes: no lacking finding of it, one met. */
static bool was_shown(const mf_finding *list, size_t n, const mf_finding *question)
{
    bool met = false;
    for (size_t i = 0; i < n; i++) {
        if (!same_question(&list[i], question))
            continue;
        if (list[i].verdict == MF_LACKING)
            return false;
        met = met || list[i].verdict == MF_MET;
    }
    return met;
}

static void spoil(case_job *job, uint32_t choice)
{
    static const char *const spoils[] = {
        "change notice owner --on 2026-07-15",
        "drop handover tenant",
        "change tick A1 floor-sheet --measured 5",
        "drop training lee",
        "drop chip W02.sash",
        "drop certification",
        "change dust_sample A3 --result 7",
        "drop notice tenant",
    };
    if (choice % 3 != 0) /* one round in three starts from the good job */
        apply(job, spoils[choice / 3 % COUNT(spoils)]);
}

static void test_more_evidence_takes_nothing_away(void **state)
{
    (void)state;
    uint32_t seed = 745;
    for (int round = 0; round < N_ROUNDS; round++) {
        uint32_t choice = next_random(&seed);
        assert_true(case_base(&made, "dwelling") && case_base(&more, "dwelling"));
        spoil(&made, choice);
        spoil(&more, choice);
        for (int i = 0; i < 4; i++)
            apply(&more, harmless[next_random(&seed) % COUNT(harmless)]);
        size_t n = ask(&made, day(FX_TODAY), before), m = ask(&more, day(FX_TODAY), after);
        for (size_t k = 0; k < m; k++)
            if (after[k].verdict == MF_LACKING && was_shown(before, n, &after[k]))
                fail_msg("round %d: %s of %s is lacking for more evidence: %s", round,
                         after[k].requirement->id, after[k].subject, after[k].why);
        case_free(&made);
        case_free(&more);
    }
}

/* ---- strangers ---------------------------------------------------------------------------- */

/* People and instruments that no entry of the job names bear on nothing in it: which is
 * why a book need not judge its old jobs anew for them (src/book/basis.c). */
static const char *const strangers[] = {
    "add person --id zoe --name Zoe",
    "add certificate --holder zoe --discipline renovator --number Z-1 --issuer invented --issued "
    "2024-01-10 --expires 2029-01-10 --hands-on yes",
    "add certificate --holder zoe --discipline inspector --number Z-2 --issuer invented --issued "
    "2024-01-10 --expires 2029-01-10",
    "add certificate --holder zoe --discipline risk-assessor --number Z-3 --issuer invented "
    "--issued 2024-01-10 --expires 2029-01-10",
    "add certificate --holder zoe --discipline dust-technician --number Z-4 --issuer invented "
    "--issued 2024-01-10 --expires 2024-02-10 --hands-on no",
    "add instrument --serial Z-9 --film 1.04 --cal-low 0.9 --cal-high 1.2",
    "add profile_row --instrument Z-9 --substrate wood --threshold 0.5",
};

static void test_strangers_change_nothing(void **state)
{
    (void)state;
    uint32_t seed = 226;
    for (int round = 0; round < N_ROUNDS / 3; round++) {
        uint32_t choice = next_random(&seed);
        assert_true(case_base(&made, "dwelling") && case_base(&more, "dwelling"));
        spoil(&made, choice);
        spoil(&more, choice);
        for (size_t i = 0; i < COUNT(strangers); i++)
            apply(&more, strangers[i]);
        size_t n = ask(&made, day(FX_TODAY), before);
        assert_int_equal(ask(&more, day(FX_TODAY), after), n);
        for (size_t k = 0; k < n; k++) {
            assert_ptr_equal(after[k].requirement, before[k].requirement);
            assert_int_equal(after[k].verdict, before[k].verdict);
            assert_string_equal(after[k].why, before[k].why);
            assert_string_equal(after[k].subject, before[k].subject);
        }
        case_free(&made);
        case_free(&more);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_due_dates_shift),
        cmocka_unit_test(test_last_days_shift),
        cmocka_unit_test(test_answers_shift),
        cmocka_unit_test(test_more_evidence_takes_nothing_away),
        cmocka_unit_test(test_strangers_change_nothing),
    };
    return cmocka_run_group_tests_name("properties", tests, NULL, NULL);
}
