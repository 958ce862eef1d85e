/* A merge brings two corrections of one entry that do not agree; one more, by somebody who sees
 * both, settles them. One that names what it cannot have seen is refused. All constructed. */
#include "book/journal.h"
#include "merge_kit.h"

#define IN_FORCE "SELECT loading_ug_cm2, correction FROM reading WHERE entry = 'office/10'"

static mf_status amend(kit *k, const char *result)
{
    mf_draft *draft = result == NULL ? NULL : kit_draft(k, "reading", "result", result, NULL);
    k->err = (mf_err){0};
    mf_status status =
        mf_book_correct(k->book, "office/10", draft, "decided", &k->now, k->id, &k->err);
    mf_draft_free(draft);
    return status;
}

static int64_t contradictions(kit *k, const char *path)
{
    mf_merge_report report;
    assert_int_equal(merge(k, path, &report), MF_OK);
    return report.contradictions;
}

/* What the office says, what the truck says a second later (NULL = withdrawn), what the office
 * says once it has merged; and what is in force then. */
typedef struct row {
    const char *office, *truck, *then, *in_force;
} row;

static const row rows[] = {
    {"0.4", "0.5", "0.5", "500|office/12\n"}, /* what is in force is true */
    {"0.4", "0.5", "0.4", "400|office/12\n"},
    {"0.4", "0.5", "0.7", "700|office/12\n"},
    {"0.4", "0.5", NULL, ""},
    {NULL, "0.5", "0.7", "700|office/12\n"},
    {"0.4", NULL, "0.7", "700|office/12\n"}, /* the withdrawal is what is in force */
    {"0.4", NULL, "0.4", "400|office/12\n"},
    {"0.4", NULL, NULL, ""},
};

static void settle(kit *k, const row *r)
{
    mf_book_report checked;
    kit truck = copied(k, "truck");
    assert_int_equal(amend(k, r->office), MF_OK);
    truck.now.at = "2026-09-15T15:00:00Z";
    assert_int_equal(amend(&truck, r->truck), MF_OK);
    assert_int_equal(contradictions(k, truck.path), 1);
    assert_int_equal(amend(k, r->then), MF_OK);
    kit_sqlite_says(k, IN_FORCE, r->in_force);
    kit_sqlite_says(k, "SELECT count(*) FROM correction WHERE settles <> ''", "1\n");
    assert_int_equal(contradictions(&truck, k->path), 0);
    kit_sqlite_says(&truck, IN_FORCE, r->in_force);
    assert_int_equal(mf_book_check(truck.book, &checked, &k->err), MF_OK);
    assert_int_equal(mf_book_rebuild(truck.book, &k->err), MF_OK);
    kit_sqlite_says(&truck, IN_FORCE, r->in_force);
    mf_book_close(truck.book);
}

static void begin_anew(void **state)
{
    kit_done(state);
    start(state);
}

static void one_settles_both(void **state)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        settle(*state, &rows[i]);
        begin_anew(state);
    }
}

/* A third device that had seen neither: it stands against the one that settled the two. */
static void what_nobody_saw_is_not_settled(void **state)
{
    kit *k = *state;
    kit truck = copied(k, "truck"), van = copied(k, "van");
    assert_int_equal(amend(k, "0.4"), MF_OK);
    assert_int_equal(amend(&truck, "0.5"), MF_OK);
    assert_int_equal(amend(&van, "0.6"), MF_OK);
    assert_int_equal(contradictions(k, truck.path), 1);
    assert_int_equal(amend(k, "0.5"), MF_OK);
    assert_int_equal(contradictions(k, van.path), 1);
    assert_int_equal(amend(k, "0.5"), MF_OK);
    kit_sqlite_says(k, "SELECT settles FROM correction WHERE entry = 'office/13'", "office/12\n");
    assert_int_equal(contradictions(&van, k->path), 0);
    check_good(k, 15);
    mf_book_close(truck.book);
    mf_book_close(van.book);
}

/* Where nothing is contradicted all is as before. */
static void what_agrees_is_not_asked_again(void **state)
{
    kit *k = *state;
    kit truck = copied(k, "truck");
    assert_int_equal(amend(k, "0.4"), MF_OK);
    assert_int_equal(amend(&truck, "0.4"), MF_OK);
    assert_int_equal(contradictions(k, truck.path), 0);
    assert_int_equal(amend(k, "0.4"), MF_INPUT);
    assert_string_equal(k->err.what, "the correction changes nothing");
    assert_int_equal(amend(k, "0.5"), MF_OK); /* and leaves no contradiction behind */
    assert_int_equal(contradictions(&truck, k->path), 0);
    assert_int_equal(amend(k, NULL), MF_OK);
    assert_int_equal(amend(k, "0.5"), MF_INPUT);
    assert_string_equal(k->err.what, "it was withdrawn");
    mf_book_close(truck.book);
}

/* ---- forged ------------------------------------------------------------------------------- */

/* What a correction of office/10 by the van says, which has office/12 (of office/11) and truck/1;
 * and what is wrong with it, NULL = nothing. */
static const struct {
    const char *replaces, *settles, *what;
} forged[] = {
    {"office/12", "\"truck/1\"", NULL},
    {"truck/1", "\"office/12\"", NULL},
    {"truck/1", "\"office/12,tablet/9\"", NULL}, /* which is in another book, if anywhere */
    {"truck/1", "\"office/9\"", "it settles office/9, which is not a correction of office/10"},
    {"truck/1", "\"office/10\"", "it settles office/10, which is not a correction of office/10"},
    {"truck/1", "\"office/13\"", "it settles office/13, which is not a correction of office/10"},
    {"office/10", "\"truck/1\"", "it settles office/10, which is not a correction of office/10"},
    {"office/12", "\"office/11\"",
     "it settles corrections of office/10 that never stood side by side"},
    {"truck/1", "\"office/11,office/12\"",
     "it settles corrections of office/10 that never stood side by side"},
    {"truck/1", "\"van/1\"", "it settles corrections of office/10 that never stood side by side"},
    {"truck/1", "\"\"", "what it settles is not a list of entries"},
    {"truck/1", "\"office/12,office/12\"", "what it settles is not a list of entries"},
    {"truck/1", "\"office/12 \"", "what it settles is not a list of entries"},
    {"truck/1", "[\"office/12\"]", "what it settles is not a list of entries"},
    {"truck/1", "7", "what it settles is not a list of entries"},
};

/* office/13 corrects another entry. */
static void start_forged(kit *k, kit *van)
{
    kit truck = copied(k, "truck");
    assert_int_equal(amend(k, "0.4"), MF_OK);
    assert_int_equal(amend(k, "0.5"), MF_OK);
    mf_draft *draft = kit_draft(k, "person", "name", "Rosa Other", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/1", draft, "x", &k->now, k->id, &k->err),
                     MF_OK);
    mf_draft_free(draft);
    assert_int_equal(amend(&truck, "0.6"), MF_OK);
    assert_int_equal(contradictions(k, truck.path), 1);
    mf_book_close(truck.book);
    *van = copied(k, "van");
}

static void forge(kit *van, const char *replaces, const char *settles, bool withdraws)
{
    char body[500];
    int64_t seq = 0;
    snprintf(body, sizeof body,
             "{%s\"kind\":\"reading\",\"reason\":\"r\",\"replaces\":\"%s\",\"settles\":%s,"
             "\"target\":\"office/10\"}",
             withdraws ? "" : "\"body\":{\"component\":\"W01.sash\",\"loading_ug_cm2\":900},",
             replaces, settles);
    assert_int_equal(mf_book_begin(van->book, &van->err), MF_OK);
    assert_int_equal(mf_journal_append(van->book, "correction", "J-1", body, &van->now, van->id,
                                       &seq, &van->err),
                     MF_OK);
    assert_int_equal(mf_book_commit(van->book, &van->err), MF_OK);
}

static void try_forged(kit *k, size_t i, bool withdraws)
{
    char told[300];
    kit van;
    mf_merge_report report;
    mf_book_report checked;
    const char *what = forged[i].what;
    start_forged(k, &van);
    forge(&van, forged[i].replaces, forged[i].settles, withdraws);
    snprintf(told, sizeof told, "entry van/1: %s", what == NULL ? "" : what);
    mf_status want = what == NULL ? MF_OK : MF_INPUT;
    assert_int_equal(merge(k, van.path, &report), want);
    assert_string_equal(k->err.what, what == NULL ? "" : told);
    check_good(k, what == NULL ? 15 : 14);
    want = what == NULL ? MF_OK : MF_NO;
    assert_int_equal(mf_book_check(van.book, &checked, &van.err), want);
    assert_string_equal(van.err.what, what == NULL ? "" : told);
    assert_int_equal(mf_book_check_job(van.book, "J-1", &checked, &van.err), want);
    assert_string_equal(van.err.what, what == NULL ? "" : told);
    mf_book_close(van.book);
}

static void what_cannot_have_been_seen(void **state)
{
    for (size_t i = 0; i < 2 * sizeof forged / sizeof forged[0]; i++) {
        try_forged(*state, i / 2, i % 2 == 1);
        begin_anew(state);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(one_settles_both), TEST(what_nobody_saw_is_not_settled),
                                       TEST(what_agrees_is_not_asked_again),
                                       TEST(what_cannot_have_been_seen)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
