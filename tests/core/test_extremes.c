/* Numbers that nobody can have logged, as a book or a record from elsewhere may hold them:
 * each number of each entry of the base jobs, and of all entries of a kind at once, is in
 * turn the least, the largest and some between, each day and time of day the first and the
 * last. What is counted must not turn round,
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

/* Each of the items from first to last. */
static void put(const mf_kind *kind, const mf_field *field, size_t first, size_t last,
                int64_t number)
{
    for (size_t i = first; i <= last; i++)
        case_set_number(field, case_item(&made, kind, i), number);
}

static void try_field(const mf_kind *kind, const mf_field *field, size_t first, size_t last)
{
    static const int64_t numbers[] = {INT64_MIN + 1,   INT64_MIN / 100, -1, 0,
                                      INT64_MAX / 100, INT64_MAX};
    const int64_t days[] = {day("0001-01-01"), day("9999-12-31")}, minutes[] = {0, 1439};
    unsigned char kept[CASE_LIST][sizeof(int64_t)];
    char what[80];
    size_t width = case_width(field);
    snprintf(what, sizeof what, "%s.%s", kind->name, field->name);
    for (size_t i = first; i <= last; i++)
        memcpy(kept[i], case_item(&made, kind, i) + field->offset, width);
    const int64_t *value = field->type == MF_F_DATE   ? days
                           : field->type == MF_F_TIME ? minutes
                                                      : numbers;
    for (size_t i = 0; i < (value == numbers ? COUNT(numbers) : 2); i++) {
        put(kind, field, first, last, value[i]);
        ask_all(what);
    }
    for (size_t i = first; i <= last; i++)
        memcpy(case_item(&made, kind, i) + field->offset, kept[i], width);
}

static bool is_number(const mf_field *field)
{
    return mf_field_is_number(field->type) || field->type == MF_F_DATE || field->type == MF_F_TIME;
}

static void try_kind(const mf_kind *kind)
{
    size_t n = case_count(&made, kind);
    for (size_t f = 0; n > 0 && f < kind->n_fields; f++) {
        if (!is_number(&kind->fields[f]))
            continue;
        for (size_t i = 0; i < n; i++)
            try_field(kind, &kind->fields[f], i, i);
        try_field(kind, &kind->fields[f], 0, n - 1);
    }
}

/* What the base jobs have none, or too few of. */
static const char *const more[] = {
    "add profile_row --instrument SN-TEST --substrate wood --threshold 1.0 --low 0.9 --high 1.1"
    " --cal-low 0.9 --cal-high 1.2",
    "add fixture --area A1 --what opening --opening W01 --wall north --at 2",
    "add fixture --area A1 --what barrier --wall north --at 0 --from-wall 4 --length 20",
    "add fixture --area A2 --what sign --wall west --at 3 --length 2",
    "add visit --child kim --born 2022-01-01 --on 2026-01-05 --minutes 200 --weekly-until"
    " 2026-12-01",
    "add visit --child kim --born 2022-01-01 --on 2026-01-05 --minutes 200 --weekly-until"
    " 2026-12-01",
    "add component --id wall1 --type wall --side interior --room hall --substrate plaster",
    "add component --id wall2 --type wall --side interior --room hall --substrate plaster",
    "add component --id wall3 --type wall --side interior --room hall --substrate plaster",
    "add component --id wall4 --type wall --side interior --room hall --substrate plaster",
    "add reading --component wall1 --instrument SN-TEST --operator ines --number 91 --result 0.1"
    " --on 2026-08-14 --time 10:00 --substrate plaster --purpose paint",
    "add reading --component wall2 --instrument SN-TEST --operator ines --number 92 --result 0.1"
    " --on 2026-08-14 --time 10:01 --substrate plaster --purpose paint",
    "add reading --component wall3 --instrument SN-TEST --operator ines --number 93 --result 0.1"
    " --on 2026-08-14 --time 10:02 --substrate plaster --purpose paint",
    "add reading --component wall4 --instrument SN-TEST --operator ines --number 94 --result 0.1"
    " --on 2026-08-14 --time 10:03 --substrate plaster --purpose paint",
    "add dust_sample --area A3 --surface floor --sampler ines --laboratory L --nllap yes"
    " --mass 0.4 --length 12 --width 12 --wipes 2 --on 2026-09-17"};

static void add_more(void)
{
    for (size_t i = 0; i < COUNT(more); i++) {
        char words[300];
        case_line line;
        snprintf(words, sizeof words, "%s", more[i]);
        case_split(&line, words);
        if (!case_apply(&made, &line))
            fail_msg("%s: %s", more[i], made.problem);
    }
}

static void try_base(const char *base)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    assert_true(case_base(&made, base));
    if (strcmp(base, "dwelling") == 0)
        add_more();
    for (size_t k = 0; k < n_kinds; k++)
        try_kind(&kinds[k]);
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
