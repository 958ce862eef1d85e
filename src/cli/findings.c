/* The answer of core to one question, as a list. */
#include "cli/cli.h"

#include <stdlib.h>

enum { GUESS = 512 }; /* most jobs have fewer: then core is asked once */

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
    *out = (mf_gate_found){.yes = false};
    out->altered = !mf_gate_speaks(job, gate);
    if (out->altered)
        return true;
    if (gate == MF_GATE_RULE) { /* answered by what covers the job, not by what is lacking */
        out->yes = covered(job);
        return true;
    }
    if (!mf_findings(&question, &out->found, &out->n))
        return false;
    out->yes = mf_audit_yes(out->found, out->n);
    return true;
}

bool mf_findings(const mf_audit_ask *ask, mf_finding **out, size_t *n)
{
    *out = malloc(GUESS * sizeof **out);
    *n = *out == NULL ? 0 : mf_audit(ask, *out, GUESS);
    if (*n <= GUESS)
        return *out != NULL;
    free(*out);
    *out = calloc(*n, sizeof **out);
    if (*out != NULL)
        *n = mf_audit(ask, *out, *n);
    return *out != NULL;
}
