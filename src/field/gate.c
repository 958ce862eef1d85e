/* gate.c - a question asked of the job, and every finding behind its answer. */
#include "base/fail.h"
#include "field/page.h"

#include <stdlib.h>

static void put_fact(const mf_field_page *page, const mf_requirement *req, json_t *out)
{
    mf_field_put(out, "citation", req->citation);
    mf_field_put(out, "fact",
                 req->status == MF_VERIFIED ? "" : mf_words_fact(page->lang, req->status));
}

static json_t *finding_of(const mf_field_page *page, const mf_finding *it)
{
    char why[MF_FIELD_SENTENCE] = "", next[MF_FIELD_SENTENCE] = "";
    json_t *one = json_object();
    mf_words_why(page->lang, it, why, sizeof why);
    if (mf_verdict_asks(it->verdict))
        mf_words_next(page->lang, it, next, sizeof next);
    mf_field_put(one, "requirement", it->requirement->id);
    mf_field_put(one, "words", mf_field_words2(page, "req", it->requirement->id));
    mf_field_put(one, "verdict", mf_verdict_name(it->verdict));
    mf_field_put(one, "mark", mf_field_words2(page, "field.verdict", mf_verdict_name(it->verdict)));
    mf_field_put(one, "why", why);
    mf_field_put(one, "next", next);
    mf_field_put(one, "subject", it->subject);
    mf_field_put(one, "evidence", it->evidence);
    put_fact(page, it->requirement, one);
    return one;
}

/* What blocks first, then what is owed, then what should be known. */
static json_t *findings_of(const mf_field_page *page, const mf_finding *all, size_t n)
{
    static const mf_verdict order[] = {MF_LACKING, MF_NOT_NOW, MF_PENDING, MF_WARNING};
    json_t *out = json_array();
    for (size_t k = 0; k < sizeof order / sizeof order[0]; k++)
        for (size_t i = 0; i < n; i++)
            if (all[i].verdict == order[k])
                json_array_append_new(out, finding_of(page, &all[i]));
    return out;
}

static const char *answer_word(const mf_field_page *page, mf_answer answer)
{
    return mf_field_words(page, answer == MF_ANSWER_YES       ? "word.yes"
                                : answer == MF_ANSWER_NOT_YET ? "word.not-yet"
                                                              : "word.no");
}

static mf_status tell(const mf_field_page *page, const mf_audit_ask *ask, json_t *out, mf_err *err)
{
    mf_finding *all = NULL;
    size_t n = 0, met = 0;
    if (!mf_findings(ask, &all, &n))
        return mf_fail_memory(err);
    for (size_t i = 0; i < n; i++)
        met += all[i].verdict == MF_MET;
    mf_answer answer = mf_audit_answer(all, n, ask->gates);
    mf_field_put(out, "answer", mf_answer_name(answer));
    mf_field_put(out, "says", answer_word(page, answer));
    mf_field_put_number(out, "met", (int64_t)met);
    json_object_set_new(out, "findings", findings_of(page, all, n));
    free(all);
    return MF_OK;
}

mf_status mf_field_gate(mf_field_page *page, json_t *out, mf_err *err)
{
    size_t left_out = 0;
    mf_job_fold *fold = NULL;
    const char *area = mf_field_text(page, "area");
    mf_gate gate = mf_gate_named(mf_field_text(page, "gate"));
    if (gate == MF_GATE_COUNT)
        return mf_fail(err, MF_USAGE, "gate", "there is no such question", "", "");
    mf_status status = mf_field_job(page, page->today, &fold, &left_out, err);
    const mf_area *only = NULL;
    if (status == MF_OK && area[0] != '\0')
        status = mf_field_area(page, &fold->job, &only, err);
    if (status == MF_OK) {
        const mf_audit_ask ask = {&fold->job, page->today, 1U << gate, area};
        mf_field_put(out, "asks", mf_field_words2(page, "gate", mf_gate_name(gate)));
        mf_field_put(out, "caution", mf_field_words(page, "caution.short"));
        mf_field_put_number(out, "left_out", (int64_t)left_out);
        status = tell(page, &ask, out, err);
    }
    mf_job_fold_free(fold);
    return status;
}
