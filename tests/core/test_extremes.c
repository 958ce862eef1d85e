/* Numbers that nobody can have logged, as a book or a record from elsewhere may hold them:
 * each number of each entry of the base jobs is in turn the least, the largest and some
 * between, each day and time of day the first and the last. What is counted must not turn round,
 * which `make sanitize` sees, and what is drawn must lie on the ground that can be drawn.
 * Constructed. */
#include "core/given.h"
#include "support/case_job.h"

#include <mistfold/audit.h>
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/house.h>
#include <mistfold/plan.h>
#include <mistfold/retest.h>
#include <mistfold/schedule.h>
#include <stdio.h>
#include <string.h>

enum { MAX_FINDINGS = 900, MAX_MORE = 64 };
#define FARTHEST INT64_C(10000000000) /* a hundred times the longest side that can be logged */

static case_job made;
static mf_finding findings[MAX_FINDINGS];
static mf_combination combinations[MAX_MORE];
static mf_retest rounds[4];
static mf_plan plan;
static int drawn;

static void near_enough(const mf_box *box, const char *what)
{
    CHECK_ROW(box->x > -FARTHEST && box->x < FARTHEST && box->y > -FARTHEST && box->y < FARTHEST,
              what);
    CHECK_ROW(box->w > -FARTHEST && box->w < FARTHEST && box->h > -FARTHEST && box->h < FARTHEST,
              what);
}

static void draw(const mf_area *area, const char *what)
{
    mf_takeoff load;
    mf_ver_area clean;
    mf_takeoff_of(&made.job, area, &load);
    CHECK_ROW(load.sheet_sqft_100 >= 0 && load.cut_sqft_100 >= 0 && load.tape_ft_100 >= 0 &&
                  load.bags >= 0 && load.signs >= 0 && load.wet_cloths >= 0,
              what);
    mf_verification_area(&made.job, area, &clean);
    if (!mf_plan_of(&made.job, area, &plan))
        return;
    drawn++;
    near_enough(&plan.all, what);
    for (size_t i = 0; i < plan.n; i++)
        near_enough(&plan.item[i].box, what);
    CHECK_ROW(plan.sheet_sqft_100 >= 0, what);
}

static void judge_openings(void)
{
    mf_opening_need need;
    for (size_t i = 0; i < made.job.n_opening; i++)
        mf_opening_needs(&made.job, made.job.opening[i].id, MF_SIDE_INTERIOR, MF_REMOVAL_FULL_FRAME,
                         &need);
    mf_combinations(&made.job, combinations, MAX_MORE);
    mf_retests(&made.job, rounds, COUNT(rounds));
}

static void ask_all(const char *what)
{
    mf_cover_answer cover;
    mf_due due;
    mf_audit_ask question = {&made.job, day(FX_TODAY), 0, ""};
    CHECK_ROW(mf_audit(&question, findings, MAX_FINDINGS) <= MAX_FINDINGS, what);
    mf_cover_judge(&made.job, &cover);
    CHECK_ROW(cover.minor_sqft_100 >= 0 || cover.minor_sqft_100 == MF_NUM_NONE, what);
    mf_due_dates(&made.job, &due);
    judge_openings();
    for (size_t i = 0; i < made.job.n_dust_sample; i++)
        if (made.job.dust_sample[i].loading_ng_ft2 == MF_NUM_NONE) {
            int64_t loading = mf_dust_loading(&made.job.dust_sample[i]);
            CHECK_ROW(loading >= 0 || loading == MF_NUM_NONE, what);
        }
    for (size_t i = 0; i < made.job.n_area; i++)
        draw(&made.job.area[i], what);
}

static void try_field(const mf_kind *kind, unsigned char *item, const mf_field *field)
{
    static const int64_t numbers[] = {INT64_MIN + 1,   INT64_MIN / 100, -1, 0,
                                      INT64_MAX / 100, INT64_MAX};
    const int64_t days[] = {day("0001-01-01"), day("9999-12-31")}, minutes[] = {0, 1439};
    unsigned char kept[sizeof(int64_t)];
    char what[80];
    size_t width = case_width(field);
    snprintf(what, sizeof what, "%s.%s", kind->name, field->name);
    memcpy(kept, item + field->offset, width);
    const int64_t *value = field->type == MF_F_DATE   ? days
                           : field->type == MF_F_TIME ? minutes
                                                      : numbers;
    for (size_t i = 0; i < (value == numbers ? COUNT(numbers) : 2); i++) {
        case_set_number(field, item, value[i]);
        ask_all(what);
    }
    memcpy(item + field->offset, kept, width);
}

static bool is_number(const mf_field *field)
{
    return mf_field_is_number(field->type) || field->type == MF_F_DATE || field->type == MF_F_TIME;
}

static void try_base(const char *base)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    assert_true(case_base(&made, base));
    for (size_t k = 0; k < n_kinds; k++)
        for (size_t i = 0; i < case_count(&made, &kinds[k]); i++)
            for (size_t f = 0; f < kinds[k].n_fields; f++)
                if (is_number(&kinds[k].fields[f]))
                    try_field(&kinds[k], case_item(&made, &kinds[k], i), &kinds[k].fields[f]);
    case_free(&made);
}

static void nothing_turns_round(void **state)
{
    static const char *const bases[] = {"dwelling", "facility", "assisted", "assisted-minor"};
    (void)state;
    for (size_t i = 0; i < COUNT(bases); i++)
        try_base(bases[i]);
    assert_true(drawn > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_turns_round)};
    return cmocka_run_group_tests_name("extremes", tests, NULL, NULL);
}
