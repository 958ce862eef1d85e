/* From entries to the job as a value, without a book. All constructed. */
#include "journal/fold.h"
#include "support/cmocka_all.h"
#include <stdio.h>
#include <string.h>

typedef struct told {
    const char *device;
    int64_t seq;
    const char *at, *kind, *job, *body;
} told;

#define HOUSE "{\"address\":\"12 Invented Street\",\"id\":\"J-1\",\"year_built\":1926}"
#define PLACED                                                                                     \
    "{\"id\":\"W01.sash\",\"painted\":true,\"room\":\"kitchen\",\"side\":\"interior\","            \
    "\"substrate\":\"wood\",\"type\":\"sash\"}"
#define READ(number, ug) "{\"loading_ug_cm2\":" ug ",\"number\":" number "}"
#define CORRECTED(target, replaces, body)                                                          \
    "{\"body\":" body ",\"kind\":\"reading\",\"reason\":\"misread\",\"replaces\":\"" replaces      \
    "\",\"target\":\"" target "\"}"
#define WITHDRAWN(target, replaces)                                                                \
    "{\"kind\":\"reading\",\"reason\":\"not ours\",\"replaces\":\"" replaces                       \
    "\",\"target\":\"" target "\"}"

static void add(mf_job_fold *fold, const told *it)
{
    const mf_line line = {it->device, it->seq,  it->at,       "rosa",      it->kind,
                          it->job,    it->body, mf_zero_hash, mf_zero_hash};
    assert_int_equal(mf_job_fold_add(fold, &line, NULL), MF_OK);
}

static mf_job_fold *fold_of(const told *all, size_t n)
{
    mf_job_fold *fold = mf_job_fold_new("J-1", NULL);
    assert_non_null(fold);
    for (size_t i = 0; i < n; i++)
        add(fold, &all[i]);
    return fold;
}

static const told chain[] = {
    {"office", 1, "2026-09-14T08:00:00Z", "person", "", "{\"id\":\"rosa\",\"name\":\"Rosa\"}"},
    {"office", 2, "2026-09-14T08:01:00Z", "house", "J-1", HOUSE},
    {"office", 3, "2026-09-14T08:02:00Z", "component", "J-1", PLACED},
    {"office", 4, "2026-09-14T08:03:00Z", "reading", "J-1", READ("1", "1400")},
    {"office", 5, "2026-09-14T08:04:00Z", "reading", "J-1", READ("2", "300")},
    {"office", 6, "2026-09-14T08:05:00Z", "correction", "J-1",
     CORRECTED("office/5", "office/5", READ("2", "400"))},
    {"office", 7, "2026-09-14T08:06:00Z", "correction", "J-1",
     CORRECTED("office/5", "office/6", READ("2", "500"))},
    /* The tablet did not know of office/6. It comes later, but its second is replaced. */
    {"tablet", 1, "2026-09-14T08:05:30Z", "correction", "J-1",
     CORRECTED("office/5", "office/5", READ("2", "600"))},
    {"tablet", 2, "2026-09-14T08:02:30Z", "reading", "J-1", READ("3", "-100")},
    {"tablet", 3, "2026-09-14T08:07:00Z", "correction", "J-1", WITHDRAWN("office/4", "office/4")},
    /* Of another job, and by the firm: they correct nothing here. */
    {"tablet", 4, "2026-09-14T08:08:00Z", "correction", "",
     CORRECTED("office/5", "office/7", READ("2", "700"))},
    {"tablet", 5, "2026-09-14T08:09:00Z", "correction", "J-2",
     CORRECTED("office/5", "office/7", READ("2", "800"))},
    {"tablet", 6, "2026-09-14T08:09:30Z", "reading", "J-2", READ("9", "900")},
};
enum { N = sizeof chain / sizeof chain[0] };

static void check_chain(const mf_job *job)
{
    assert_int_equal(job->n_person, 1);
    assert_string_equal(job->person[0].name, "Rosa");
    assert_int_equal(job->n_house, 1);
    assert_int_equal(job->house[0].year_built, 1926);
    assert_int_equal(job->n_component, 1);
    assert_int_equal(job->component[0].painted, MF_YES);
    assert_int_equal(job->component[0].affected, MF_UNKNOWN);
    assert_int_equal(job->component[0].disturbed_sqft_100, MF_NUM_NONE);
    assert_int_equal(job->n_reading, 2);
    assert_string_equal(job->reading[0].src.entry, "tablet/2");
    assert_int_equal(job->reading[0].loading_ug_cm2, -100);
    assert_string_equal(job->reading[1].src.entry, "office/5");
    assert_string_equal(job->reading[1].src.correction, "office/7");
    assert_string_equal(job->reading[1].src.by, "rosa");
    assert_int_equal(job->reading[1].loading_ug_cm2, 500);
    assert_int_equal(job->n_correction, 5);
    assert_string_equal(job->correction[0].before, READ("2", "300"));
    assert_string_equal(job->correction[0].after, READ("2", "400"));
    assert_string_equal(job->correction[2].src.entry, "office/7");
    assert_string_equal(job->correction[2].before, READ("2", "400"));
    assert_string_equal(job->correction[3].after, "");
}

static void an_order_makes_no_difference(void **state)
{
    (void)state;
    told turned[N];
    for (size_t turn = 0; turn < N; turn++) {
        for (size_t i = 0; i < N; i++)
            turned[i] = chain[turn % 2 == 0 ? (i + turn) % N : (N - 1 - i + turn) % N];
        mf_job_fold *fold = fold_of(turned, N);
        assert_int_equal(mf_job_fold_finish(fold, NULL), MF_OK);
        check_chain(&fold->job);
        mf_job_fold_free(fold);
    }
}

/* A draft is checked against the items, entry by entry as they come in. */
static void entries_may_follow(void **state)
{
    (void)state;
    const mf_kind *kind = mf_kind_named("reading");
    mf_job_fold *fold = mf_job_fold_new("J-1", NULL);
    assert_non_null(fold);
    for (size_t i = 0; i < N; i++) {
        add(fold, &chain[i]);
        assert_int_equal(mf_job_fold_correct(fold, NULL), MF_OK);
    }
    assert_int_equal(mf_job_fold_count(fold, kind), 3);
    assert_null(mf_job_fold_item(fold, kind, 0));
    const mf_reading *read = mf_job_fold_item(fold, kind, 1);
    assert_int_equal(read->loading_ug_cm2, 500);
    assert_int_equal(mf_job_fold_finish(fold, NULL), MF_OK);
    check_chain(&fold->job);
    mf_job_fold_free(fold);
}

static bool only_houses(const mf_kind *kind)
{
    return strcmp(kind->name, "house") == 0;
}

static void only_what_is_wanted(void **state)
{
    (void)state;
    mf_job_fold *fold = mf_job_fold_new("J-1", only_houses);
    assert_non_null(fold);
    for (size_t i = 0; i < N; i++)
        add(fold, &chain[i]);
    assert_int_equal(mf_job_fold_finish(fold, NULL), MF_OK);
    assert_int_equal(fold->job.n_house, 1);
    assert_int_equal(fold->job.n_reading, 0);
    assert_int_equal(fold->n_seen, 1);
    mf_job_fold_free(fold);
}

/* A word of a newer version: who reads on without it would judge something else. */
static void a_word_that_is_not_known(void **state)
{
    (void)state;
    mf_err err = {0};
    told odd[] = {
        {"office", 1, "2026-09-14T08:00:00Z", "opening", "J-1",
         "{\"id\":\"W01\",\"kind\":\"portal\"}"},
        {"office", 2, "2026-09-14T08:01:00Z", "correction", "J-1",
         CORRECTED("office/1", "office/1", "{\"id\":\"W01\",\"kind\":\"window\"}")},
    };
    mf_job_fold *fold = fold_of(odd, 1);
    assert_int_equal(mf_job_fold_finish(fold, &err), MF_SYSTEM);
    assert_string_equal(err.name, MF_ERR_UNREAD);
    assert_string_equal(err.where, "entry office/1");
    assert_string_equal(err.what, "kind is \"portal\", which is not known here");
    mf_job_fold_free(fold);
    fold = fold_of(odd, 2); /* a correction takes it back */
    assert_int_equal(mf_job_fold_finish(fold, &err), MF_OK);
    assert_int_equal(fold->job.opening[0].kind, MF_OPENING_WINDOW);
    mf_job_fold_free(fold);
}

/* What no program of ours writes reads as not given. */
static void bodies_of_another_hand(void **state)
{
    (void)state;
    static const told odd[] = {
        {"office", 1, "2026-09-14T08:00:00Z", "reading", "J-1", "no JSON"},
        {"office", 2, "2026-09-14T08:00:01Z", "reading", "J-1", "[1]"},
        {"office", 3, "2026-09-14T08:00:02Z", "reading", "J-1",
         "{\"day\":7,\"loading_ug_cm2\":\"x\",\"number\":1.5,\"time\":\"later than any\"}"},
        {"office", 4, "2026-09-14T08:00:03Z", "correction", "J-1", "no JSON"},
        {"office", 5, "2026-09-14T08:00:04Z", "correction", "J-1",
         CORRECTED("office/3", "office/5", READ("3", "1"))}, /* replaces itself */
        {"office", 6, "2026-09-14T08:00:05Z", "later-kind", "J-1", "{\"a\":{}}"},
    };
    mf_job_fold *fold = fold_of(odd, sizeof odd / sizeof odd[0]);
    assert_int_equal(mf_job_fold_finish(fold, NULL), MF_OK);
    assert_int_equal(fold->job.n_reading, 3);
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(fold->job.reading[i].number, MF_NUM_NONE);
        assert_int_equal(fold->job.reading[i].loading_ug_cm2, MF_NUM_NONE);
        assert_string_equal(fold->job.reading[i].component, "");
    }
    assert_int_equal(fold->job.reading[2].loading_ug_cm2, 1);
    assert_string_equal(fold->job.reading[2].src.correction, "office/5");
    mf_job_fold_free(fold);
}

static void there_is_room_for_every_kind(void **state)
{
    (void)state;
    size_t count = 0;
    mf_kinds(&count);
    assert_in_range(count, 1, MF_KINDS_MAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_order_makes_no_difference),
        cmocka_unit_test(entries_may_follow),
        cmocka_unit_test(only_what_is_wanted),
        cmocka_unit_test(a_word_that_is_not_known),
        cmocka_unit_test(bodies_of_another_hand),
        cmocka_unit_test(there_is_room_for_every_kind),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
