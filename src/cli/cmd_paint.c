/* test list: what the evidence says of every component. */
#include "cli/json.h"

#include <stdio.h>

/* Names for scripts; people read the words. */
static const char *const verdict_names[] = {"lead", "presumed", "free", "unpainted"};
static const char *const basis_names[] = {"none", "xrf", "determination", "kit", "chip"};

static const char *const class_names[] = {"negative", "inconclusive", "positive"};
static const char *const correction_names[] = {"none", "done", "too-high", "missing"};

/* The worst reading as displayed and as classified, side by side. */
static json_t *json_of_reading(const mf_job *job, const mf_reading *reading)
{
    mf_reading_result result;
    char value[40];
    if (reading == NULL)
        return json_null();
    mf_reading_judge(job, reading, &result);
    json_t *object = json_object();
    json_object_set_new(object, "entry", json_string(reading->src.entry));
    json_object_set_new(object, "raw_ug_cm2", json_integer(reading->loading_ug_cm2));
    json_object_set_new(object, "raw_class", json_string(class_names[result.raw]));
    json_object_set_new(object, "correction", json_string(correction_names[result.correction]));
    if (result.correction == MF_CORRECTION_DONE) {
        mf_words_ratio(result.num, result.den, value, sizeof value);
        json_object_set_new(object, "corrected_mg_cm2", json_string(value));
        json_object_set_new(object, "corrected_num_ug_cm2", json_integer(result.num));
        json_object_set_new(object, "corrected_den", json_integer(result.den));
    }
    json_object_set_new(object, "class", json_string(class_names[result.found]));
    json_object_set_new(object, "rounding_matters", json_boolean(result.rounding_matters));
    json_object_set_new(object, "bounds_unknown", json_boolean(result.bounds_unknown));
    json_object_set_new(object, "mode_unknown", json_boolean(result.mode_unknown));
    return object;
}

static json_t *json_of(const mf_cli *cli, const mf_job *job, const mf_paint_finding *finding)
{
    json_t *object = json_object();
    json_object_set_new(object, "component", json_string(finding->component->id));
    json_object_set_new(object, "verdict", json_string(verdict_names[finding->verdict]));
    json_object_set_new(object, "basis", json_string(basis_names[finding->basis]));
    json_object_set_new(object, "doubt",
                        finding->doubt == MF_DOUBT_NONE
                            ? json_null()
                            : json_string(mf_words_doubt(cli->lang, finding->doubt)));
    json_object_set_new(object, "worst_ug_cm2",
                        finding->worst == NULL ? json_null()
                                               : json_integer(finding->worst->loading_ug_cm2));
    json_object_set_new(object, "reading", json_of_reading(job, finding->worst));
    json_object_set_new(object, "evidence",
                        finding->evidence[0] ? json_string(finding->evidence) : json_null());
    return object;
}

/* What the person should know of the reading that decides: shown, not decided
 * for them. */
static void print_reading_notes(const mf_cli *cli, const mf_reading_result *result)
{
    if (result->correction == MF_CORRECTION_MISSING)
        mf_cli_wrap(mf_cli_word(cli, "testing.correction-missing"), 24, 0);
    if (result->rounding_matters)
        mf_cli_wrap(mf_cli_word(cli, "testing.rounding-matters"), 24, 0);
    if (result->bounds_unknown)
        mf_cli_wrap(mf_cli_word(cli, "testing.bounds-unknown"), 24, 0);
    if (result->mode_unknown)
        mf_cli_wrap(mf_cli_word(cli, "testing.mode-unknown"), 24, 0);
}

static void print_one(const mf_cli *cli, const mf_job *job, const mf_paint_finding *finding)
{
    char worst[40] = "-", corrected[40] = "-";
    mf_reading_result result = {0};
    if (finding->worst != NULL) {
        mf_words_loading(finding->worst->loading_ug_cm2, finding->worst->qualifier, worst,
                         sizeof worst);
        mf_reading_judge(job, finding->worst, &result);
        if (result.correction == MF_CORRECTION_DONE)
            mf_words_ratio(result.num, result.den, corrected, sizeof corrected);
    }
    mf_cli_pad(finding->component->id, 22);
    mf_cli_pad(mf_words_verdict(cli->lang, finding->verdict), 12);
    mf_cli_pad(worst, 8);
    mf_cli_pad(corrected, 10);
    mf_cli_pad(mf_words_basis(cli->lang, finding->basis), 15);
    puts(mf_words_doubt(cli->lang, finding->doubt));
    print_reading_notes(cli, &result);
}

static void print_head(const mf_cli *cli)
{
    mf_cli_pad(mf_cli_word(cli, "paint.head-component"), 22);
    mf_cli_pad(mf_cli_word(cli, "paint.head-paint"), 12);
    mf_cli_pad(mf_cli_word(cli, "paint.head-worst"), 8);
    mf_cli_pad(mf_cli_word(cli, "paint.head-corrected"), 10);
    mf_cli_pad(mf_cli_word(cli, "paint.head-shown-by"), 15);
    puts(mf_cli_word(cli, "paint.head-doubt"));
}

mf_status mf_cmd_paint_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    json_t *array = cli->json ? json_array() : NULL;
    if (!cli->json)
        print_head(cli);
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        mf_paint_judge(job, &job->component[i], &finding);
        if (cli->json)
            json_array_append_new(array, json_of(cli, job, &finding));
        else
            print_one(cli, job, &finding);
    }
    status = cli->json ? mf_json_print(array) : MF_OK;
    if (!cli->json)
        mf_cli_caution(cli);
    mf_book_job_free(job);
    return status;
}
