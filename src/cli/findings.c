/* findings.c - the answer of a gate, and how it is said. */
#include "cli/cli.h"

#include <stdio.h>

static bool covered(const mf_job *job)
{
    mf_cover_answer cover;
    mf_cover_judge(job, &cover);
    return cover.cover == MF_COVER_YES;
}

bool mf_gate_speaks(const mf_job *job, mf_gate gate)
{
    return job->integrity != MF_INTEGRITY_BROKEN || gate == MF_GATE_INSPECTION;
}

bool mf_gate_answer(const mf_cli *cli, const mf_job *job, mf_gate gate, mf_gate_found *out)
{
    mf_audit_ask question = {job, cli->today, 1u << gate, ""};
    *out = (mf_gate_found){.answer = MF_ANSWER_NO};
    out->altered = !mf_gate_speaks(job, gate);
    if (out->altered)
        return true;
    if (gate == MF_GATE_RULE) { /* answered by what covers the job, not by what is lacking */
        out->answer = covered(job) ? MF_ANSWER_YES : MF_ANSWER_NO;
        return true;
    }
    if (!mf_findings(&question, &out->found, &out->n))
        return false;
    out->answer = mf_audit_answer(out->found, out->n, question.gates);
    return true;
}

void mf_cli_answer(const mf_cli *cli, mf_answer answer, mf_day due, char out[MF_ANSWER_TEXT])
{
    char id[32], day[MF_DAY_TEXT];
    snprintf(id, sizeof id, "word.%s", mf_answer_name(answer));
    mf_day_text(due, day);
    bool dated = answer == MF_ANSWER_NOT_YET && due != MF_DAY_NONE;
    snprintf(out, MF_ANSWER_TEXT, dated ? "%s, %s %s" : "%s", mf_cli_word(cli, id),
             mf_cli_word(cli, "label.due"), day);
}

void mf_gate_say(const mf_cli *cli, const mf_gate_found *it, char out[MF_ANSWER_TEXT])
{
    if (it->altered)
        snprintf(out, MF_ANSWER_TEXT, "%s", mf_cli_word(cli, "word.altered"));
    else
        mf_cli_answer(cli, it->answer, mf_audit_due(it->found, it->n), out);
}

const char *mf_gate_code(const mf_gate_found *it)
{
    return it->altered ? "altered" : mf_answer_name(it->answer);
}

const char *mf_gate_question(const mf_cli *cli, mf_gate gate)
{
    char id[48];
    snprintf(id, sizeof id, "gate.%s", mf_gate_name(gate));
    const char *words = mf_words(cli->lang, id);
    return words == NULL ? mf_gate_name(gate) : words;
}
