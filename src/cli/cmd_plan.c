/* plan units: how many units of a building to test, and which. plan report: what
 * the sampled units showed, in counts, without a verdict. */
#include "base/fail.h"
#include "cli/json.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- plan units ---------------------------------------------------------------------- */

typedef struct asked {
    int64_t count, year;
    uint64_t seed;
    mf_built built;
    mf_units_plan plan;
    int64_t *drawn;
} asked;

/* Digits only, up to a limit; -1 = something else. */
static int64_t digits(const char *text, int64_t most)
{
    int64_t value = 0;
    if (text == NULL || text[0] == '\0' || strspn(text, "0123456789") != strlen(text))
        return -1;
    for (; *text != '\0'; text++) {
        value = value * 10 + (*text - '0');
        if (value > most)
            return -1;
    }
    return value;
}

static mf_status read_asked(const mf_cli *cli, const mf_args *args, asked *out, mf_err *err)
{
    const char *year = mf_args_value(args, "built"), *seed = mf_args_value(args, "seed");
    out->count = digits(mf_args_value(args, "count"), MF_UNITS_MAX);
    if (out->count < 1)
        return mf_fail(err, MF_INPUT, "--count", "is not a number of units", "1 to 100000",
                       "count the units that are similar in construction");
    bool unknown = strcmp(year, "unknown") == 0;
    out->year = unknown ? MF_NUM_NONE : digits(year, 9999);
    if (!unknown && out->year < 1600)
        return mf_fail(err, MF_INPUT, "--built", "is not a year", "of the oldest of the units",
                       "write 1962, or unknown");
    if (!mf_built_of(out->year, &out->built))
        return mf_fail(err, MF_INPUT, "--built", "was built in 1978 or later",
                       "the rule covers housing built before 1978", "no unit need be tested");
    int64_t typed = seed == NULL ? cli->seconds : digits(seed, INT64_MAX / 10 - 1);
    if (typed < 0)
        return mf_fail(err, MF_INPUT, "--seed", "is not a whole number", "",
                       "write a number; the same one draws the same units");
    out->seed = (uint64_t)typed;
    return MF_OK;
}

static void print_numbers(const mf_cli *cli, const mf_units_plan *plan)
{
    printf("%s: %" PRId64 "\n", mf_cli_word(cli, "testing.units"), plan->count);
    if (plan->by_percent)
        printf("%s: %" PRId64 "\n", mf_cli_word(cli, "testing.by-percent"), plan->formula);
    else
        printf("%s: %" PRId64 " (K = %" PRId64 ")\n", mf_cli_word(cli, "testing.by-formula"),
               plan->formula, plan->assumed);
    if (plan->printed > 0)
        printf("%s: %" PRId64 "\n", mf_cli_word(cli, "testing.by-table"), plan->printed);
    else
        mf_cli_wrap(mf_cli_word(cli, "testing.table-unseen"), 0, 0);
    if (plan->printed > 0 && plan->printed != plan->formula)
        mf_cli_wrap(mf_cli_word(cli, "testing.table-differs"), 0, 0);
    printf("%s: %" PRId64 "%s%s\n", mf_cli_word(cli, "testing.to-test"), plan->use,
           plan->all ? " = " : "", plan->all ? mf_cli_word(cli, "testing.all-units") : "");
}

static void print_plan(const mf_cli *cli, const asked *a)
{
    print_numbers(cli, &a->plan);
    if (!a->plan.all) {
        printf("%s %" PRIu64 " (SplitMix64, Fisher-Yates):\n", mf_cli_word(cli, "testing.drawn"),
               a->seed);
        for (int64_t i = 0; i < a->plan.use; i++)
            printf("%6" PRId64 "%s", a->drawn[i], i % 10 == 9 || i + 1 == a->plan.use ? "\n" : "");
    }
    mf_cli_wrap(mf_cli_word(cli, "testing.plan-basis"), 0, 0);
}

static mf_status json_plan(const asked *a)
{
    json_t *root = json_object(), *units = json_array();
    for (int64_t i = 0; i < a->plan.use; i++)
        json_array_append_new(units, json_integer(a->drawn[i]));
    json_object_set_new(root, "count", json_integer(a->plan.count));
    json_object_set_new(root, "formula", json_integer(a->plan.formula));
    json_object_set_new(root, "by_percent", json_boolean(a->plan.by_percent));
    json_object_set_new(root, "printed_table",
                        a->plan.printed == 0 ? json_null() : json_integer(a->plan.printed));
    json_object_set_new(root, "to_test", json_integer(a->plan.use));
    json_object_set_new(root, "all", json_boolean(a->plan.all));
    json_object_set_new(root, "seed", json_integer((json_int_t)a->seed));
    json_object_set_new(root, "generator", json_string("SplitMix64, Fisher-Yates"));
    json_object_set_new(root, "units", units);
    return mf_json_print(root);
}

mf_status mf_cmd_plan_units(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    asked a = {0};
    (void)cmd;
    mf_status status = read_asked(cli, args, &a, &err);
    if (status == MF_OK) {
        mf_units_to_test(a.count, a.built, &a.plan);
        a.drawn = malloc((size_t)a.count * sizeof *a.drawn);
        if (a.drawn == NULL)
            status = mf_fail_memory(&err);
    }
    if (status != MF_OK || a.drawn == NULL)
        return mf_cli_fail(&err);
    mf_draw_units(a.seed, a.count, a.plan.use, a.drawn);
    if (cli->json)
        status = json_plan(&a);
    else
        print_plan(cli, &a);
    free(a.drawn);
    return status;
}

/* ---- plan report ------------------------------------------------------------------------ */

enum { TYPES = MF_COMP_OTHER + 1 };

typedef struct tally {
    int64_t combinations, positive, negative, inconclusive;
} tally;

/* A combination counts by its worst reading. */
static mf_status add_job(mf_cli *cli, const char *id, tally of[TYPES], mf_err *err)
{
    mf_job *job = NULL;
    mf_status status = mf_cli_job(cli, id, &job, err);
    if (status != MF_OK)
        return status;
    size_t n = mf_combinations(job, NULL, 0);
    mf_combination *all = calloc(n + 1, sizeof *all);
    if (all == NULL)
        status = mf_fail_memory(err);
    else
        mf_combinations(job, all, n);
    for (size_t i = 0; all != NULL && i < n; i++) {
        tally *t = &of[all[i].first->type];
        if (all[i].readings == 0)
            continue;
        t->combinations++;
        if (all[i].positive > 0)
            t->positive++;
        else if (all[i].inconclusive > 0)
            t->inconclusive++;
        else
            t->negative++;
    }
    free(all);
    mf_book_job_free(job);
    return status;
}

static mf_status add_jobs(mf_cli *cli, const char *list, tally of[TYPES], int64_t *jobs,
                          mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK && *list != '\0') {
        char id[48];
        size_t len = strcspn(list, ",");
        snprintf(id, sizeof id, "%.*s", (int)(len < 47 ? len : 47), list);
        status = add_job(cli, id, of, err);
        (*jobs)++;
        list += len + (list[len] == ',');
    }
    return status;
}

/* Rounded to the nearest hundredth of a percent, halves up; but 100.00 is all of them
 * and 0.00 is none, never nearly so. */
static void share(int64_t part, int64_t all, char out[48])
{
    int64_t x = all == 0 ? 0 : (part * 20000 + all) / (all * 2);
    if (part > 0 && part < all)
        x = x == 0 ? 1 : x == 10000 ? 9999 : x;
    snprintf(out, 48, "%" PRId64 ".%02" PRId64 " %%", x / 100, x % 100);
}

static void print_tally(const char *name, const tally *t)
{
    char percent[3][48];
    share(t->positive, t->combinations, percent[0]);
    share(t->negative, t->combinations, percent[1]);
    share(t->inconclusive, t->combinations, percent[2]);
    printf("%-18s%6" PRId64 "%7" PRId64 " %10s%7" PRId64 " %10s%7" PRId64 " %10s\n", name,
           t->combinations, t->positive, percent[0], t->negative, percent[1], t->inconclusive,
           percent[2]);
}

static mf_status say_report(const mf_cli *cli, const tally of[TYPES], int64_t jobs)
{
    const mf_field *type = mf_field_named(mf_kind_named("component"), "type");
    json_t *root = cli->json ? json_object() : NULL, *rows = cli->json ? json_array() : NULL;
    if (!cli->json)
        printf("%-18s%6s%18s%18s%18s\n", "", "tested", "positive", "negative", "inconclusive");
    for (int i = 0; i < TYPES; i++) {
        if (of[i].combinations == 0)
            continue;
        if (!cli->json) {
            print_tally(type->choices[i], &of[i]);
            continue;
        }
        json_t *object = json_object();
        json_object_set_new(object, "type", json_string(type->choices[i]));
        json_object_set_new(object, "tested", json_integer(of[i].combinations));
        json_object_set_new(object, "positive", json_integer(of[i].positive));
        json_object_set_new(object, "negative", json_integer(of[i].negative));
        json_object_set_new(object, "inconclusive", json_integer(of[i].inconclusive));
        json_array_append_new(rows, object);
    }
    if (!cli->json) {
        mf_cli_wrap(mf_cli_word(cli, "testing.no-verdict"), 0, 0);
        return MF_OK;
    }
    json_object_set_new(root, "units", json_integer(jobs));
    json_object_set_new(root, "verdict", json_null());
    json_object_set_new(root, "types", rows);
    return mf_json_print(root);
}

mf_status mf_cmd_plan_report(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    tally of[TYPES] = {0};
    int64_t jobs = 0;
    (void)cmd;
    mf_status status = add_jobs(cli, mf_args_value(args, "jobs"), of, &jobs, &err);
    return status == MF_OK ? say_report(cli, of, jobs) : mf_cli_fail(&err);
}
