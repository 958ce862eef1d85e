/* cleared.c - how an area was found clean, as papers and lists say it. */
#include <mistfold/paper.h>

#include <stdlib.h>

MF_API bool mf_paper_cleared(const mf_job *job, const mf_area *area, mf_day today,
                             mf_area_check *out)
{
    const mf_audit_ask ask = {job, today, 1U << MF_GATE_SIGNS, area->id};
    size_t n = mf_audit(&ask, NULL, 0);
    mf_finding *findings = calloc(n + 1, sizeof *findings);
    *out = (mf_area_check){.how = MF_CLEARED_NOT, .on = MF_DAY_NONE};
    if (findings == NULL)
        return false;
    n = mf_audit(&ask, findings, n);
    out->how = mf_area_cleared(job, area, findings, n, &out->on);
    const mf_finding *lacking = mf_not_cleared_by(findings, n);
    out->lacks = lacking != NULL;
    if (out->lacks)
        out->lacking = *lacking;
    free(findings);
    return true;
}
