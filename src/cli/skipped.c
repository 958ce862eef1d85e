/* A step that is left out: shown with its ground, and noted where it is somebody's own words. */
#include "cli/cli.h"
#include "words/refused.h"

#include <stdio.h>

void mf_cli_skipped(const mf_cli *cli, const mf_tick *tick, int indent)
{
    if (tick == NULL || tick->state != MF_TICK_NOT_NEEDED)
        return;
    if (tick->ground != MF_GROUND_OWN_WORDS)
        printf("%*s%s\n", indent, "", mf_words2(cli->lang, "ground", mf_ground_name(tick->ground)));
    if (tick->reason[0] != '\0') {
        printf("%*s", indent, "");
        mf_cli_wrap(tick->reason, indent, indent);
    }
}

mf_status mf_cli_check_skipped(const mf_cli *cli, const mf_job *job, const mf_area *area,
                               const mf_step *step, const mf_args *args, mf_err *err)
{
    mf_tick tick;
    mf_status status = mf_cli_fill(mf_kind_named("tick"), args, cli->today, &tick, err);
    if (status == MF_OK)
        status = mf_tick_check(cli->lang, job, area, step, &tick, err);
    if (status == MF_OK && tick.state == MF_TICK_NOT_NEEDED && !cli->walking &&
        mf_step_judge_skipped(job, area, step, &tick) == MF_STEP_OWN_WORDS)
        mf_cli_note(cli, "%s: %s", step->id, mf_cli_word(cli, "note.own-words"));
    return status;
}
