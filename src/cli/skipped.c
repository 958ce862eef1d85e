/* A step that is left out: shown with its ground, and refused while it is logged where it
 * has no such ground or the book says otherwise. */
#include "base/fail.h"
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

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

/* "one-story, none-present". */
static void list_grounds(const mf_step *step, char *out, size_t size)
{
    size_t len = 0;
    for (size_t i = 0; i < MF_STEP_GROUNDS && step->ground[i].citation != NULL; i++) {
        int n = snprintf(out + len, size - len, "%s%s", i == 0 ? "" : ", ",
                         mf_ground_name(step->ground[i].ground));
        len += n < 0 ? 0 : (size_t)n;
    }
}

static mf_status refuse_ground(const mf_step *step, const mf_tick *tick, mf_err *err)
{
    char grounds[80] = "";
    list_grounds(step, grounds, sizeof grounds);
    if (!mf_step_may_skip(step))
        return mf_failf(err, MF_INPUT, "--state", step->citation, "do it and tick it done",
                        "the step %s is never left out", step->id);
    return mf_failf(err, MF_INPUT, "--ground", step->ground[0].citation,
                    "do it and tick it done, or say in --reason alone why it is not needed",
                    "the step %s is left out for: %s; not for %s", step->id, grounds,
                    mf_ground_name(tick->ground));
}

/* A sentence as a part of a line. */
static void go_on(char *text)
{
    size_t len = strlen(text);
    if (text[0] >= 'A' && text[0] <= 'Z')
        text[0] = (char)(text[0] - 'A' + 'a');
    if (len > 0 && text[len - 1] == '.')
        text[len - 1] = '\0';
}

/* In the words of the finding that would follow, and how to mend it. */
static mf_status refuse_contradicted(const mf_cli *cli, const mf_job *job, const mf_area *area,
                                     const mf_step *step, const mf_tick *tick, mf_err *err)
{
    char what[sizeof err->what], mend[sizeof err->mend];
    mf_against against = {"", "", "", MF_NUM_NONE};
    mf_step_contradicted(job, area, step, tick->ground, &against);
    const mf_finding finding = {.why = against.why,
                                .subject = area->id,
                                .told = against.what,
                                .d1 = tick->on,
                                .n1 = against.n,
                                .unit = MF_UNIT_COUNT};
    const char *next = mf_words2(cli->lang, "next", step->id);
    mf_words_why(cli->lang, &finding, what, sizeof what);
    snprintf(mend, sizeof mend, "%s", next == NULL ? "" : next);
    go_on(what);
    go_on(mend);
    return mf_fail(err, MF_INPUT, step->id, what, step->citation, mend);
}

mf_status mf_cli_check_skipped(const mf_cli *cli, const mf_job *job, const mf_area *area,
                               const mf_step *step, const mf_args *args, mf_err *err)
{
    mf_tick tick;
    mf_status status = mf_cli_fill(mf_kind_named("tick"), args, cli->today, &tick, err);
    if (status != MF_OK || tick.state != MF_TICK_NOT_NEEDED)
        return status;
    if (tick.reason[strspn(tick.reason, " ")] == '\0') /* as the book keeps it */
        tick.reason = "";
    mf_step_state state = mf_step_judge_skipped(job, area, step, &tick);
    if (state == MF_STEP_NO_GROUND)
        return refuse_ground(step, &tick, err);
    if (state == MF_STEP_CONTRADICTED)
        return refuse_contradicted(cli, job, area, step, &tick, err);
    if (state == MF_STEP_NO_REASON)
        return mf_failf(err, MF_INPUT, "--reason", "", "write why, in words an inspector can check",
                        "the step %s is left out for %s, and no word says why", step->id,
                        mf_ground_name(tick.ground));
    if (state == MF_STEP_OWN_WORDS && !cli->walking)
        mf_cli_note(cli, "%s: %s", step->id, mf_cli_word(cli, "note.own-words"));
    return MF_OK;
}
