/* Every limit just below, at and above, with values written by hand from the
 * regulation; the citation of each stands in the row. Values are those of 40 CFR
 * part 745 subpart E and its neighbours, as listed in section 11 of the project's
 * digest of the rule. */
#include "core/given.h"

#include <mistfold/kind.h>
#include <mistfold/limit.h>
#include <string.h>

typedef struct limit_case {
    mf_limit_id id;
    const char *name;
    mf_unit unit;
    int64_t values[3]; /* below, at, above */
    bool holds[3];
    const char *cites;
    mf_status_of_fact status;
} limit_case;

#define T true
#define F false

static const limit_case cases[] = {
#include "core/limit_cases.inc"
};

static void below_at_above(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        const limit_case *c = &cases[i];
        const mf_limit *row = mf_limit_on(c->id, MF_DAY_NONE);
        CHECK_ROW(row != NULL, c->name);
        CHECK_ROW(strcmp(row->name, c->name) == 0, c->name);
        CHECK_ROW(row->unit == c->unit, c->name);
        for (size_t v = 0; v < 3; v++)
            CHECK_ROW(mf_limit_holds(row, c->values[v]) == c->holds[v], c->name);
        CHECK_ROW(strstr(row->citation, c->cites) != NULL, c->name);
        CHECK_ROW(row->status == c->status, c->name);
    }
}

static void every_limit_has_a_case(void **state)
{
    (void)state;
    size_t seen[MF_LIMIT_COUNT] = {0};
    for (size_t i = 0; i < COUNT(cases); i++)
        seen[cases[i].id]++;
    for (int id = 0; id < MF_LIMIT_COUNT; id++) {
        if (seen[id] != 1)
            fail_msg("limit %d has %zu cases", id, seen[id]);
    }
}

/* Rows follow the enum, say all they must, and do not overlap in time. */
static void rows_are_whole(void **state)
{
    (void)state;
    size_t count = 0;
    const mf_limit *rows = mf_limit_rows(&count);
    assert_true(count >= MF_LIMIT_COUNT);
    for (size_t i = 0; i < count; i++) {
        const mf_limit *row = &rows[i];
        CHECK_ROW(row->name[0] != '\0' && row->says[0] != '\0', row->name);
        CHECK_ROW(row->citation[0] != '\0' && row->note != NULL, row->name);
        CHECK_ROW(strcmp(row->place, "US") == 0, row->name);
        CHECK_ROW(row->status == MF_VERIFIED || row->note[0] != '\0', row->name);
        if (i == 0 || rows[i - 1].id != row->id) {
            CHECK_ROW((int)row->id == (i == 0 ? 0 : (int)rows[i - 1].id + 1), row->name);
            CHECK_ROW(row->from == MF_DAY_NONE, row->name);
        } else {
            CHECK_ROW(row->from == rows[i - 1].until + 1, row->name);
            CHECK_ROW(strcmp(row->name, rows[i - 1].name) == 0, row->name);
        }
        if (i + 1 == count || rows[i + 1].id != row->id)
            CHECK_ROW(row->until == MF_DAY_NONE, row->name);
    }
    assert_int_equal(rows[count - 1].id, MF_LIMIT_COUNT - 1);
}

/* 66 FR 1206; 86 FR 983, from 2021-03-08; 89 FR 89416, compliance from 2026-01-12
 * and not from 2025-01-13, the day the rule took effect. */
static void dust_by_date(void **state)
{
    (void)state;
    static const struct {
        const char *on;
        int64_t floor, sill, trough;
    } rows[] = {
        {"2010-04-22", 40000, 250000, 400000}, {"2021-03-07", 40000, 250000, 400000},
        {"2021-03-08", 10000, 100000, 400000}, {"2025-01-13", 10000, 100000, 400000},
        {"2026-01-11", 10000, 100000, 400000}, {"2026-01-12", 5000, 40000, 100000},
        {"2026-11-25", 5000, 40000, 100000},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_day on = day(rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_FLOOR, on)->value == rows[i].floor, rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_SILL, on)->value == rows[i].sill, rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_TROUGH, on)->value == rows[i].trough, rows[i].on);
    }
    assert_int_equal(mf_limit_on(MF_LIMIT_DUST_FLOOR, day("2026-01-12"))->from, day("2026-01-12"));
}

/* What held before: 24 CFR 35.110 until 90 FR 5975 (5 ug/dL, equal to or greater than); of
 * zero-bedroom dwellings no child was an exception, not a newborn (40 CFR 745.103 before
 * 89 FR 89416). */
static void earlier_rows(void **state)
{
    (void)state;
    const mf_limit *blood = mf_limit_on(MF_LIMIT_BLOOD_LEAD, day("2025-01-16"));
    assert_false(mf_limit_holds(blood, 499));
    assert_true(mf_limit_holds(blood, 500));
    const mf_limit *child = mf_limit_on(MF_LIMIT_ZERO_BEDROOM_CHILD, day("2025-01-12"));
    assert_int_equal(child->value, 0);
    assert_false(mf_limit_holds(child, 0));
}

static void no_row_holds_nothing(void **state)
{
    (void)state;
    assert_null(mf_limit_on(MF_LIMIT_COUNT, 0));
    assert_false(mf_limit_holds(NULL, 0));
}

/* What is no limit and no comparison, as an import may bring it, is not read for one. */
static void beyond_the_last(void **state)
{
    (void)state;
    assert_string_equal(mf_cmp_text(MF_LT), "<");
    assert_string_equal(mf_cmp_text(MF_GT), ">");
    assert_string_equal(mf_cmp_text((mf_cmp)(MF_GT + 1)), "");
    assert_int_equal(mf_limit_named("no-such-limit"), MF_LIMIT_COUNT);
    assert_int_equal(mf_limit_stricter(mf_limit_named("no-such-limit")), MF_STRICTER_NEVER);
}

/* A row of a place names its limit by the word of the federal one, as its place in the list. */
static void a_place_names_each(void **state)
{
    (void)state;
    const mf_field *field = mf_field_named(mf_kind_named("local_limit"), "limit");
    assert_non_null(field);
    for (size_t id = 0; id < MF_LIMIT_COUNT; id++)
        assert_int_equal(mf_limit_named(field->choices[id]), id);
    assert_null(field->choices[MF_LIMIT_COUNT]);
}

static void statuses_have_words(void **state)
{
    (void)state;
    assert_string_equal(mf_status_of_fact_text(MF_VERIFIED), "verified");
    assert_string_equal(mf_status_of_fact_text(MF_SECONDARY), "secondary");
    assert_string_equal(mf_status_of_fact_text(MF_MEMORY), "from memory");
    assert_string_equal(mf_status_of_fact_text(MF_DERIVED), "derived");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(below_at_above),       cmocka_unit_test(every_limit_has_a_case),
        cmocka_unit_test(rows_are_whole),       cmocka_unit_test(dust_by_date),
        cmocka_unit_test(no_row_holds_nothing), cmocka_unit_test(statuses_have_words),
        cmocka_unit_test(beyond_the_last),      cmocka_unit_test(earlier_rows),
        cmocka_unit_test(a_place_names_each),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
