#include "words/refused.h"

#include "base/fail.h"
#include <stdio.h>
#include <string.h>

/* ---- a step ------------------------------------------------------------------------------ */

mf_status mf_step_on_list(const mf_job *job, const mf_area *area, const char *id, mf_step *out,
                          mf_err *err)
{
    bool found = false;
    for (size_t i = 0; !found && mf_step_at(job, i, out); i++)
        found = strcmp(out->id, id) == 0;
    if (!found)
        return mf_failf(err, MF_INPUT, "--step", "",
                        "see the steps with \"containment list\" and \"cleaning list\"",
                        "there is no step %s", id);
    unsigned side = area->side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
    if ((out->sides & side) == 0)
        return mf_failf(err, MF_INPUT, "--step", "", "see the list of this work area",
                        "the step %s is not for a work area on this side of the house", id);
    return MF_OK;
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

static mf_status refuse_ground(mf_lang lang, const mf_step *step, const mf_tick *tick, mf_err *err)
{
    char grounds[80] = "";
    list_grounds(step, grounds, sizeof grounds);
    bool never = !mf_step_may_skip(step);
    if (never)
        mf_failf(err, MF_INPUT, "--state", step->citation, "do it and tick it done",
                 "the step %s is never left out", step->id);
    else
        mf_failf(err, MF_INPUT, "--ground", step->ground[0].citation,
                 "do it and tick it done, or say in --reason alone why it is not needed",
                 "the step %s is left out for: %s; not for %s", step->id, grounds,
                 mf_ground_name(tick->ground));
    mf_fail_name(err, never ? "ground.never" : "ground.others",
                 mf_words2(lang, "ground", mf_ground_name(tick->ground)), NULL, NULL);
    return MF_INPUT;
}

/* A sentence as a part of a line. */
static void go_on(char *text)
{
    size_t len = strlen(text);
    if (text[0] >= 'A' && text[0] <= 'Z')
        text[0] = (char)(text[0] - 'A' + 'a');
    if (len > 1 && text[len - 1] == '.' && text[len - 2] != '.') /* "..." is the user's part */
        text[len - 1] = '\0';
}

/* In the words of the finding that would follow, and how to mend it. */
static mf_status refuse_contradicted(mf_lang lang, const mf_job *job, const mf_area *area,
                                     const mf_step *step, const mf_tick *tick, mf_err *err)
{
    char what[sizeof err->what], mend[sizeof err->mend];
    mf_against against = {"", "", "", MF_NUM_NONE};
    mf_step_contradicted(job, area, step, tick->ground, &against);
    const mf_requirement asks = {.id = step->id};
    const mf_finding finding = {.requirement = &asks,
                                .why = against.why,
                                .subject = area->id,
                                .told = against.what,
                                .evidence = against.entry,
                                .d1 = tick->on,
                                .n1 = against.n,
                                .unit = MF_UNIT_COUNT};
    mf_words_why(lang, &finding, what, sizeof what);
    mf_words_next(lang, &finding, mend, sizeof mend);
    go_on(what);
    go_on(mend);
    return mf_fail(err, MF_INPUT, step->id, what, step->citation, mend);
}

static bool is_blank(const char *text)
{
    return text[strspn(text, " ")] == '\0';
}

/* What was undone is held against the work: an inspector asks what happened. */
static mf_status check_undone(const mf_step *step, const mf_tick *tick, mf_err *err)
{
    if (!is_blank(tick->reason))
        return MF_OK;
    mf_failf(err, MF_INPUT, "--reason", "", "say why: --reason \"the tape came loose\"",
             "the step %s is undone, and no word says why", step->id);
    mf_fail_name(err, "undone.no-words", NULL, NULL, NULL);
    return MF_INPUT;
}

mf_status mf_tick_check(mf_lang lang, const mf_job *job, const mf_area *area, const mf_step *step,
                        const mf_tick *said, mf_err *err)
{
    mf_tick tick = *said;
    if (tick.state == MF_TICK_UNDONE)
        return check_undone(step, &tick, err);
    if (tick.state != MF_TICK_NOT_NEEDED)
        return MF_OK;
    if (is_blank(tick.reason)) /* as it is kept */
        tick.reason = "";
    mf_step_state state = mf_step_judge_skipped(job, area, step, &tick);
    if (state == MF_STEP_NO_GROUND)
        return refuse_ground(lang, step, &tick, err);
    if (state == MF_STEP_CONTRADICTED)
        return refuse_contradicted(lang, job, area, step, &tick, err);
    if (state != MF_STEP_NO_REASON)
        return MF_OK;
    mf_failf(err, MF_INPUT, "--reason", "", "write why, in words an inspector can check",
             "the step %s is left out for %s, and no word says why", step->id,
             mf_ground_name(tick.ground));
    mf_fail_name(err, "ground.no-words", mf_words2(lang, "ground", mf_ground_name(tick.ground)),
                 NULL, NULL);
    return MF_INPUT;
}

/* ---- a cloth ----------------------------------------------------------------------------- */

mf_status mf_verification_check(mf_lang lang, const mf_job *job, const mf_verification *event,
                                mf_err *err)
{
    mf_ver_refusal refusal = mf_verification_may(job, event);
    if (refusal == MF_VR_NONE)
        return MF_OK;
    const char *words = mf_words_refusal(lang, refusal);
    mf_fail(err, MF_INPUT, event->surface[0] ? event->surface : event->area, words,
            "40 CFR 745.85(b)", "log what was done in the order it was done");
    mf_fail_name(err, "order", words, NULL, NULL);
    return MF_INPUT;
}
