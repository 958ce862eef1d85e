/* Corrections of one entry by devices that did not know of each other, and the one that settles
 * them: which stand, which is in force, what one can have seen. All constructed. */
#include "journal/fold.h"
#include "journal/settles.h"
#include "support/cmocka_all.h"
#include <stdio.h>
#include <string.h>

typedef struct told {
    const char *device;
    int64_t seq;
    const char *at, *replaces, *settles, *number; /* number NULL = withdrawn */
    const char *target;                           /* NULL = office/1 */
} told;

static mf_job_fold *fold_of(const told *all, size_t n, bool turned)
{
    mf_job_fold *fold = mf_job_fold_new("J-1", NULL);
    assert_non_null(fold);
    for (size_t seq = 1; seq <= 2; seq++) {
        const mf_line first = {"office",         (int64_t)seq, "2026-09-14T08:00:00Z",
                               "rosa",           "reading",    "J-1",
                               "{\"number\":1}", mf_zero_hash, mf_zero_hash};
        assert_int_equal(mf_job_fold_add(fold, &first, NULL), MF_OK);
    }
    for (size_t i = 0; i < n; i++) {
        const told *it = &all[turned ? n - 1 - i : i];
        char body[400], after[60] = "", settles[100] = "";
        if (it->number != NULL)
            snprintf(after, sizeof after, "\"body\":{\"number\":%s},", it->number);
        if (it->settles[0] != '\0')
            snprintf(settles, sizeof settles, ",\"settles\":\"%s\"", it->settles);
        snprintf(
            body, sizeof body,
            "{%s\"kind\":\"reading\",\"reason\":\"r\",\"replaces\":\"%s\"%s,\"target\":\"%s\"}",
            after, it->replaces, settles, it->target == NULL ? "office/1" : it->target);
        const mf_line line = {it->device, it->seq, it->at,       "rosa",      "correction",
                              "J-1",      body,    mf_zero_hash, mf_zero_hash};
        assert_int_equal(mf_job_fold_add(fold, &line, NULL), MF_OK);
    }
    assert_int_equal(mf_job_fold_correct(fold, NULL), MF_OK);
    return fold;
}

static const char *in_force(const mf_job_fold *fold)
{
    const mf_correction *it = mf_job_fold_in_force(fold, "office/1", false);
    return it == NULL ? "" : it->src.entry;
}

/* The corrections that stand, a blank between. */
static const char *standing(const mf_job_fold *fold)
{
    static char out[200];
    const mf_correction *it;
    size_t len = 0;
    out[0] = '\0';
    for (size_t n = 0; (it = mf_job_fold_standing(fold, "office/1", false, n)) != NULL; n++)
        len +=
            (size_t)snprintf(out + len, sizeof out - len, "%s%s", n > 0 ? " " : "", it->src.entry);
    return out;
}

static bool contradicts(const mf_job_fold *fold)
{
    size_t n;
    const mf_correction *two[2];
    return mf_job_fold_contradiction(fold, 0, &n, two) < fold->n_corrections;
}

#define EARLY "2026-09-14T09:00:00Z"
#define LATE  "2026-09-14T10:00:00Z"

typedef struct row {
    const char *name;
    told all[5];
    const char *standing, *in_force;
    bool contradiction;
} row;

static const row rows[] = {
    {"two that do not know of each other",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, LATE, "office/1", "", "5", NULL}},
     "office/3 truck/1",
     "truck/1",
     true},
    {"one that saw both, by a clock that runs behind",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, LATE, "office/1", "", "5", NULL},
      {"office", 4, EARLY, "truck/1", "office/3", "5", NULL}},
     "office/4",
     "office/4",
     false},
    {"a withdrawal that is settled by a correction",
     {{"office", 3, LATE, "office/1", "", NULL, NULL},
      {"truck", 1, EARLY, "office/1", "", "5", NULL},
      {"office", 4, EARLY, "truck/1", "office/3", "7", NULL}},
     "office/4",
     "office/4",
     false},
    {"and by a withdrawal",
     {{"office", 3, LATE, "office/1", "", NULL, NULL},
      {"truck", 1, EARLY, "office/1", "", "5", NULL},
      {"office", 4, EARLY, "truck/1", "office/3", NULL, NULL}},
     "office/4",
     "office/4",
     false},
    {"one of three that the office did not know",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, EARLY, "office/1", "", "5", NULL},
      {"van", 1, EARLY, "office/1", "", "6", NULL},
      {"office", 4, LATE, "truck/1", "office/3", "5", NULL}},
     "office/4 van/1",
     "office/4",
     true},
    {"both devices settle, in other words",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, EARLY, "office/1", "", "5", NULL},
      {"office", 4, LATE, "truck/1", "office/3", "5", NULL},
      {"truck", 2, LATE, "truck/1", "office/3", "4", NULL}},
     "office/4 truck/2",
     "truck/2",
     true},
    {"a correction of another entry takes nothing away",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, LATE, "office/1", "", "5", NULL},
      {"truck", 2, LATE, "office/2", "office/3,truck/1", "5", "office/2"}},
     "office/3 truck/1",
     "truck/1",
     true},
    {"nor does one that settles itself",
     {{"office", 3, EARLY, "office/1", "", "4", NULL},
      {"truck", 1, LATE, "office/1", "truck/1", "5", NULL}},
     "office/3 truck/1",
     "truck/1",
     true},
};

static size_t length(const row *r)
{
    size_t n = 0;
    while (n < 5 && r->all[n].device != NULL)
        n++;
    return n;
}

static void what_stands(void **state)
{
    (void)state;
    for (size_t i = 0; i < 2 * sizeof rows / sizeof rows[0]; i++) {
        const row *r = &rows[i / 2];
        mf_job_fold *fold = fold_of(r->all, length(r), i % 2 == 1);
        if (strcmp(standing(fold), r->standing) != 0 || strcmp(in_force(fold), r->in_force) != 0 ||
            contradicts(fold) != r->contradiction)
            fail_msg("%s: %s, %s", r->name, standing(fold), in_force(fold));
        mf_job_fold_free(fold);
    }
}

/* The last of the corrections: whether it can have seen side by side what it names. */
static void what_it_can_have_seen(void **state)
{
    static const struct {
        told all[4];
        bool is;
    } of[] = {
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"truck", 1, EARLY, "office/1", "", "5", NULL},
          {"van", 1, LATE, "truck/1", "office/3", "5", NULL}},
         true},
        /* It goes on from what it says to settle. */
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"office", 4, EARLY, "office/3", "", "5", NULL},
          {"van", 1, LATE, "office/4", "office/3", "5", NULL}},
         false},
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"office", 4, EARLY, "office/3", "", "5", NULL},
          {"office", 5, EARLY, "office/4", "", "6", NULL},
          {"van", 1, LATE, "office/5", "office/3", "5", NULL}},
         false},
        /* What was there before any correction cannot stand beside one. */
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"van", 1, LATE, "office/1", "office/3", "5", NULL}},
         false},
        /* It settles itself, or what goes on from it. */
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"van", 1, LATE, "office/3", "van/1", "5", NULL}},
         false},
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"van", 2, LATE, "van/1", "", "5", NULL},
          {"van", 1, LATE, "office/3", "van/2", "5", NULL}},
         false},
        /* What is not here says nothing. */
        {{{"office", 3, EARLY, "office/1", "", "4", NULL},
          {"van", 1, LATE, "office/3", "truck/1", "5", NULL}},
         true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        size_t n = 0;
        bool is = false;
        while (n < 4 && of[i].all[n].device != NULL)
            n++;
        mf_job_fold *fold = fold_of(of[i].all, n, false);
        const mf_fold_correction *last = &fold->corrections[fold->n_corrections - 1];
        for (size_t c = 0; c < fold->n_corrections; c++)
            if (strcmp(fold->corrections[c].said.src.entry, "van/1") == 0)
                last = &fold->corrections[c];
        assert_int_equal(mf_job_fold_side_by_side(fold, last, &is, NULL), MF_OK);
        if (is != of[i].is)
            fail_msg("row %zu", i);
        mf_job_fold_free(fold);
    }
}

static void lists_of_entries(void **state)
{
    static const char *const good[] = {"office/3", "office/3,truck/1", "office/10,office/9"};
    static const char *const bad[] = {"",
                                      "office",
                                      "office/3,",
                                      ",truck/1",
                                      "truck/1,office/3",
                                      "office/3,office/3",
                                      "office/0",
                                      "office/3, truck/1",
                                      "office/3,,truck/1",
                                      "a-name-that-is-longer-than-any-device-can-have/1"};
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        assert_true(mf_settles_well(good[i], strlen(good[i])));
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        if (mf_settles_well(bad[i], strlen(bad[i])))
            fail_msg("%s", bad[i]);
    assert_false(mf_settles_well("a/1\0b", 5));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_stands),
                                       cmocka_unit_test(what_it_can_have_seen),
                                       cmocka_unit_test(lists_of_entries)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
