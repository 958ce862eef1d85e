/* verification list: where every sill and section stands. */
#include "cli/json.h"

#include "base/fail.h"

#include <inttypes.h>
#include <mistfold/paper.h>
#include <stdio.h>
#include <string.h>

/* Where an area is cleared by samples no cloth is still to come. */
static const char *state_word(const mf_cli *cli, mf_ver_state state, mf_cleared how)
{
    bool open = state != MF_VS_CLEAN;
    return open && how == MF_CLEARED_BY_SAMPLES ? mf_cli_word(cli, "ver.cleared")
                                                : mf_words_ver_state(cli->lang, state);
}

static void print_section(const mf_cli *cli, const mf_surface *surface, int64_t section,
                          int64_t sections, mf_cleared how, const mf_ver_section *state)
{
    char name[80];
    if (sections > 1)
        snprintf(name, sizeof name, "%s %" PRId64 "/%" PRId64, surface->id, section, sections);
    else
        snprintf(name, sizeof name, "%s", surface->id);
    printf("  ");
    mf_cli_pad(name, 24);
    mf_cli_pad(state_word(cli, state->state, how), 34);
    printf("%d %s, %d %s\n", state->wet, mf_cli_word(cli, "ver.wet"), state->dry,
           mf_cli_word(cli, "ver.dry"));
}

static json_t *json_section(const mf_surface *surface, int64_t section, const mf_ver_section *state)
{
    json_t *object = json_object();
    json_object_set_new(object, "area", json_string(surface->area));
    json_object_set_new(object, "surface", json_string(surface->id));
    json_object_set_new(object, "section", json_integer(section));
    json_object_set_new(object, "state", json_string(mf_ver_state_name(state->state)));
    json_object_set_new(object, "wet_cloths", json_integer(state->wet));
    json_object_set_new(object, "dry_cloths", json_integer(state->dry));
    return object;
}

static void list_surface(const mf_cli *cli, const mf_job *job, const mf_area *area,
                         const mf_surface *surface, mf_cleared how, json_t *array)
{
    int64_t sections = mf_sections_of(job, surface);
    for (int64_t i = 1; i <= sections; i++) {
        mf_ver_section state;
        mf_verification_replay(job, area, surface, i, &state);
        if (array != NULL)
            json_array_append_new(array, json_section(surface, i, &state));
        else
            print_section(cli, surface, i, sections, how, &state);
    }
}

/* What verifies nothing is said, or the cloths below it would look like a check. */
static void print_lacking(const mf_cli *cli, const mf_area_check *check)
{
    char why[1024];
    if (check->how != MF_CLEARED_NOT || !check->lacks)
        return;
    mf_words_asked(cli->lang, &check->lacking, why, sizeof why);
    fputs("  ", stdout);
    mf_cli_wrap(why, 2, 2);
}

static void print_area(const mf_cli *cli, const mf_job *job, const mf_area *area,
                       const mf_area_check *check)
{
    mf_ver_area whole;
    mf_verification_area(job, area, &whole);
    mf_cli_show(area->id);
    fputs("  ", stdout);
    mf_cli_show(area->place);
    printf("  %s, %s %s\n", mf_words_cleared(cli->lang, check->how), mf_cli_word(cli, "ver.looked"),
           mf_cli_word(cli, whole.looked_clean ? "word.yes" : "word.no"));
    print_lacking(cli, check);
}

static void list_area(const mf_cli *cli, const mf_job *job, const mf_area *area, json_t *array)
{
    const mf_area_check check = mf_check_area(job, area, cli->today);
    if (array == NULL)
        print_area(cli, job, area, &check);
    for (size_t i = 0; i < job->n_surface; i++)
        if (strcmp(job->surface[i].area, area->id) == 0)
            list_surface(cli, job, area, &job->surface[i], check.how, array);
}

mf_status mf_cmd_verification_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    (void)cmd;
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    json_t *array = cli->json ? json_array() : NULL;
    for (size_t i = 0; i < job->n_area; i++)
        list_area(cli, job, &job->area[i], array);
    mf_book_job_free(job);
    if (!cli->json)
        mf_cli_caution(cli);
    return cli->json ? mf_json_print(array) : MF_OK;
}
