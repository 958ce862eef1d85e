/* test list: what the evidence says of every component. */
#include "cli/json.h"

#include <stdio.h>

/* Names for scripts; people read the words. */
static const char *const verdict_names[] = {"lead", "presumed", "free", "unpainted"};
static const char *const basis_names[] = {"none", "xrf", "determination", "kit", "chip"};

static json_t *json_of(const mf_cli *cli, const mf_paint_finding *finding)
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
    json_object_set_new(object, "evidence",
                        finding->evidence[0] ? json_string(finding->evidence) : json_null());
    return object;
}

static void print_one(const mf_cli *cli, const mf_paint_finding *finding)
{
    char worst[40] = "-";
    if (finding->worst != NULL)
        mf_words_loading(finding->worst->loading_ug_cm2, finding->worst->qualifier, worst,
                         sizeof worst);
    mf_cli_pad(finding->component->id, 22);
    mf_cli_pad(mf_words_verdict(cli->lang, finding->verdict), 12);
    mf_cli_pad(worst, 8);
    mf_cli_pad(mf_words_basis(cli->lang, finding->basis), 15);
    puts(mf_words_doubt(cli->lang, finding->doubt));
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
        printf("%-22s%-12s%-8s%-15s%s\n", "component", "paint", "worst", "shown by", "in doubt");
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        mf_paint_judge(job, &job->component[i], &finding);
        if (cli->json)
            json_array_append_new(array, json_of(cli, &finding));
        else
            print_one(cli, &finding);
    }
    status = cli->json ? mf_json_print(array) : MF_OK;
    if (!cli->json)
        mf_cli_caution(cli);
    mf_book_job_free(job);
    return status;
}
