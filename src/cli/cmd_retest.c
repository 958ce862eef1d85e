/* test retest: the retest check, every step printed. test combinations: testing
 * combinations, and what the tested walls say of the others. */
#include "base/fail.h"
#include "cli/json.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const verdict_names[] = {"incomplete", "not-computable", "pass", "repeat",
                                            "deficient"};
static const char *const verdict_words[] = {"testing.retest-incomplete", "testing.retest-not",
                                            "testing.retest-pass", "testing.retest-repeat",
                                            "testing.retest-deficient"};

/* ---- one round ------------------------------------------------------------------------ */

static void print_pairs(const mf_retest *r)
{
    for (int i = 0; i < r->n; i++) {
        char first[40] = "?", again[40];
        if (r->first[i] != NULL)
            mf_words_loading(r->first[i]->loading_ug_cm2, r->first[i]->qualifier, first,
                             sizeof first);
        mf_words_loading(r->again[i]->loading_ug_cm2, r->again[i]->qualifier, again, sizeof again);
        printf("  %2d  ", i + 1);
        mf_cli_pad(r->again[i]->component, 22);
        printf("%8s %8s\n", first, again);
    }
}

/* One step: its name and formula, and its value to six places. */
static void print_step(const char *formula, int64_t nano)
{
    char value[40];
    mf_words_nano(nano, 6, value, sizeof value);
    printf("  %s = %s\n", formula, value);
}

static void print_steps(const mf_retest *r)
{
    char formula[80], number[40];
    print_step("C = sum of ((first + retest) / 2)^2", r->c);
    mf_words_nano(r->k.factor_millionths * 1000, 6, number, sizeof number);
    snprintf(formula, sizeof formula, "D = %s x C", number);
    print_step(formula, r->d);
    mf_words_nano(r->k.base_thousandths * 1000000, 3, number, sizeof number);
    snprintf(formula, sizeof formula, "E = D + %s", number);
    print_step(formula, r->e);
    print_step("F = square root of E", r->f);
    mf_words_nano(r->k.z_thousandths * 1000000, 3, number, sizeof number);
    snprintf(formula, sizeof formula, "limit = %s x F", number);
    print_step(formula, r->limit);
    print_step("mean of the first readings", r->mean_first);
    print_step("mean of the retests", r->mean_again);
    print_step("d, difference of the means", r->difference);
}

static void print_round(const mf_cli *cli, const mf_retest *r)
{
    printf("%s, %s %d\n", r->instrument, mf_cli_word(cli, "testing.round"), r->round);
    print_pairs(r);
    if (r->verdict >= MF_RETEST_PASS)
        print_steps(r);
    mf_cli_wrap(mf_cli_word(cli, verdict_words[r->verdict]), 2, 0);
    if (!r->k.from_profile)
        mf_cli_wrap(mf_cli_word(cli, "testing.retest-recalled"), 2, 0);
}

static json_t *json_round(const mf_retest *r)
{
    json_t *object = json_object(), *pairs = json_array();
    for (int i = 0; i < r->n; i++) {
        json_t *pair = json_object();
        json_object_set_new(pair, "component", json_string(r->again[i]->component));
        json_object_set_new(pair, "first_ug_cm2",
                            r->first[i] == NULL ? json_null()
                                                : json_integer(r->first[i]->loading_ug_cm2));
        json_object_set_new(pair, "retest_ug_cm2", json_integer(r->again[i]->loading_ug_cm2));
        json_array_append_new(pairs, pair);
    }
    json_object_set_new(object, "instrument", json_string(r->instrument));
    json_object_set_new(object, "round", json_integer(r->round));
    json_object_set_new(object, "pairs", pairs);
    json_object_set_new(object, "verdict", json_string(verdict_names[r->verdict]));
    json_object_set_new(object, "constants_from_profile", json_boolean(r->k.from_profile));
    if (r->verdict < MF_RETEST_PASS)
        return object;
    json_object_set_new(object, "C_nano", json_integer(r->c));
    json_object_set_new(object, "D_nano", json_integer(r->d));
    json_object_set_new(object, "E_nano", json_integer(r->e));
    json_object_set_new(object, "F_nano", json_integer(r->f));
    json_object_set_new(object, "limit_nano", json_integer(r->limit));
    json_object_set_new(object, "difference_nano", json_integer(r->difference));
    return object;
}

/* ---- which ten to read again ------------------------------------------------------------ */

static bool was_read(const mf_job *job, const mf_component *component)
{
    for (size_t i = 0; i < job->n_reading; i++)
        if (job->reading[i].purpose == MF_READ_PAINT &&
            job->reading[i].qualifier == MF_QUAL_EXACT &&
            strcmp(job->reading[i].component, component->id) == 0)
            return true;
    return false;
}

static mf_status print_drawn(uint64_t seed, json_t *components)
{
    json_t *object = json_object();
    json_object_set_new(object, "seed", json_integer((json_int_t)seed));
    json_object_set_new(object, "components", components);
    return mf_json_print(object);
}

/* Draws ten of the components with a reading that is a number. */
static mf_status suggest(const mf_cli *cli, const mf_job *job, uint64_t seed, mf_err *err)
{
    size_t n = 0;
    const mf_component **read_ones = calloc(job->n_component + 1, sizeof(*read_ones));
    int64_t *drawn = calloc(job->n_component + 1, sizeof *drawn);
    if (read_ones == NULL || drawn == NULL) {
        free(read_ones);
        free(drawn);
        return mf_fail_memory(err);
    }
    for (size_t i = 0; i < job->n_component; i++)
        if (was_read(job, &job->component[i]))
            read_ones[n++] = &job->component[i];
    mf_draw_units(seed, (int64_t)n, MF_RETEST_PAIRS, drawn);
    json_t *array = cli->json ? json_array() : NULL;
    if (!cli->json)
        printf("%s %" PRIu64 " (SplitMix64, Fisher-Yates):\n",
               mf_cli_word(cli, "testing.retest-draw"), seed);
    for (size_t i = 0; i < n && i < MF_RETEST_PAIRS; i++) {
        const char *id = read_ones[drawn[i] - 1]->id;
        if (cli->json)
            json_array_append_new(array, json_string(id));
        else
            mf_cli_line(" ", id);
    }
    free(read_ones);
    free(drawn);
    mf_cli_note(cli, "%s", mf_cli_word(cli, "testing.radiation"));
    return cli->json ? print_drawn(seed, array) : MF_OK;
}

static mf_status say_rounds(const mf_cli *cli, const mf_job *job, mf_err *err)
{
    size_t n = mf_retests(job, NULL, 0);
    mf_retest *rounds = calloc(n + 1, sizeof *rounds);
    json_t *array = cli->json ? json_array() : NULL;
    if (rounds == NULL)
        return mf_fail_memory(err);
    mf_retests(job, rounds, n);
    for (size_t i = 0; i < n; i++) {
        if (cli->json)
            json_array_append_new(array, json_round(&rounds[i]));
        else
            print_round(cli, &rounds[i]);
    }
    free(rounds);
    if (n == 0 && !cli->json)
        mf_cli_wrap(mf_cli_word(cli, "testing.retest-none"), 0, 0);
    return cli->json ? mf_json_print(array) : MF_OK;
}

mf_status mf_cmd_retest(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    const char *seed = mf_args_value(args, "seed");
    (void)cmd;
    if (seed != NULL &&
        (seed[0] == '\0' || strlen(seed) > 18 || strspn(seed, "0123456789") != strlen(seed))) {
        mf_fail(&err, MF_INPUT, "--seed", "is not a whole number", "",
                "write a number; the same one draws the same components");
        return mf_cli_fail(&err);
    }
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status == MF_OK && seed != NULL)
        status = suggest(cli, job, strtoull(seed, NULL, 10), &err);
    else if (status == MF_OK)
        status = say_rounds(cli, job, &err);
    mf_book_job_free(job);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* ---- combinations --------------------------------------------------------------------------- */

static void print_walls(const mf_cli *cli, const mf_combination *c)
{
    char mean[40];
    static const char *const words[] = {"testing.walls-negative", "testing.walls-inconclusive",
                                        "testing.walls-positive"};
    if (!c->walls)
        return;
    if (!c->agree) {
        mf_cli_wrap(mf_cli_word(cli, "testing.walls-apart"), 4, 0);
        return;
    }
    if (c->mean_ug_cm2 == MF_NUM_NONE)
        return;
    mf_words_loading(c->mean_ug_cm2, MF_QUAL_EXACT, mean, sizeof mean);
    printf("    %s %s: ", mf_cli_word(cli, "testing.walls-mean"), mean);
    mf_cli_wrap(mf_cli_word(cli, words[c->untested]), 4, 40);
}

static json_t *json_combination(const mf_combination *c, const char *type, const char *substrate)
{
    json_t *object = json_object();
    json_object_set_new(object, "room", json_string(c->room));
    json_object_set_new(object, "type", json_string(type));
    json_object_set_new(object, "substrate", json_string(substrate));
    json_object_set_new(object, "components", json_integer(c->components));
    json_object_set_new(object, "tested", json_integer(c->tested));
    json_object_set_new(object, "readings", json_integer(c->readings));
    json_object_set_new(object, "positive", json_integer(c->positive));
    json_object_set_new(object, "negative", json_integer(c->negative));
    json_object_set_new(object, "inconclusive", json_integer(c->inconclusive));
    json_object_set_new(object, "wall_mean_ug_cm2",
                        c->mean_ug_cm2 == MF_NUM_NONE ? json_null() : json_integer(c->mean_ug_cm2));
    return object;
}

mf_status mf_cmd_combinations(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    const mf_kind *kind = mf_kind_named("component");
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    size_t n = status == MF_OK ? mf_combinations(job, NULL, 0) : 0;
    mf_combination *all = calloc(n + 1, sizeof *all);
    if (status == MF_OK && all == NULL)
        status = mf_fail_memory(&err);
    if (status != MF_OK || all == NULL) {
        free(all);
        mf_book_job_free(job);
        return mf_cli_fail(&err);
    }
    mf_combinations(job, all, n);
    json_t *array = cli->json ? json_array() : NULL;
    if (!cli->json)
        printf("%-20s%-18s%-10s%6s%9s%9s%9s%9s\n", "room or elevation", "type", "substrate",
               "parts", "readings", "positive", "negative", "inconcl.");
    for (size_t i = 0; i < n; i++) {
        const char *type = mf_field_named(kind, "type")->choices[all[i].first->type];
        const char *substrate = mf_field_named(kind, "substrate")->choices[all[i].first->substrate];
        if (cli->json) {
            json_array_append_new(array, json_combination(&all[i], type, substrate));
            continue;
        }
        mf_cli_pad(all[i].room, 20);
        printf("%-18s%-10s%6d%9d%9d%9d%9d\n", type, substrate, all[i].components, all[i].readings,
               all[i].positive, all[i].negative, all[i].inconclusive);
        print_walls(cli, &all[i]);
    }
    free(all);
    mf_book_job_free(job);
    return cli->json ? mf_json_print(array) : MF_OK;
}
