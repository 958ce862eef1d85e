/* Of the summary: what the crew did. A sentence is said when the findings behind it show it;
 * what is not shown, or what the record says against it, is said in a sentence of its own.
 * 40 CFR 745.86(b)(6), (c). */
#include "paper/claims.h"
#include "paper/days.h"
#include "paper/form.h"
#include "paper/steps.h"
#include "paper/summary.h"

#include <mistfold/assisted.h>
#include <mistfold/audit.h>
#include <mistfold/emergency.h>
#include <mistfold/house.h>

/* ---- sentences -------------------------------------------------------------------- */

static const char *words_of(mf_rec *rec, const mf_claim *said, const char *tail, const char *with)
{
    return mf_fill(rec, mf_print(rec, "summary.%s%s", said->id, tail), with, NULL, NULL);
}

static void waived(mf_rec *rec, const mf_claim *said)
{
    const mf_emergency *it = mf_emergency_waives(rec->job, said->waiver, MF_DAY_NONE);
    mf_form_bullet(rec, MF_MARK_WARN,
                   words_of(rec, said, "-waived", mf_stated(rec, it == NULL ? "" : it->reason)));
}

static void sheets_left_out(mf_rec *rec, const mf_claim *said)
{
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (!mf_claim_of(rec, said, finding))
            continue;
        const mf_tick *tick = mf_claim_sheet_left_out(rec, finding);
        const mf_area *area = mf_job_area(rec->job, finding->subject);
        if (tick == NULL || area == NULL)
            continue;
        const char *id = area->side == MF_SIDE_INTERIOR ? "summary.no-sheet" : "summary.no-ground";
        mf_form_bullet(
            rec, MF_MARK_WARN,
            mf_fill(rec, id, mf_area_place(rec, area), mf_stated(rec, tick->reason), NULL));
    }
}

static void sentence(mf_rec *rec, const mf_claim *said)
{
    mf_claim_tally sum = mf_claim_count(rec, said);
    if (sum.waived > 0)
        waived(rec, said);
    if (sum.left_out > 0)
        sheets_left_out(rec, said);
    if (sum.lacking > 0 || sum.shown + sum.waived + sum.left_out == 0)
        mf_form_bullet(rec, MF_MARK_OPEN, words_of(rec, said, "-not", NULL));
    else if (sum.waived + sum.left_out == 0)
        mf_form_bullet(rec, MF_MARK_TICK, words_of(rec, said, "", NULL));
}

/* ---- ways of work that are not allowed --------------------------------------------- */

static void ways_of_work(mf_rec *rec)
{
    const char *used = mf_claim_refused(rec, true), *unsaid = mf_claim_refused(rec, false);
    if (*used != '\0')
        mf_form_bullet(rec, MF_MARK_CROSS, words_of(rec, &mf_claim_methods, "-refused", used));
    if (*unsaid != '\0')
        mf_form_bullet(rec, MF_MARK_OPEN, words_of(rec, &mf_claim_methods, "-unsaid", unsaid));
    if (*used == '\0' && *unsaid == '\0')
        sentence(rec, &mf_claim_methods);
}

static bool any_on(const mf_rec *rec, unsigned side)
{
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (mf_claim_side(&rec->job->area[i]) == side && !mf_area_is_off(rec, &rec->job->area[i]))
            return true;
    return false;
}

/* 24 CFR 35.1340, 35.1345: from smaller amounts on, occupants are kept out until clearance. */
static void assisted(mf_rec *rec)
{
    mf_assisted_answer answer;
    const mf_audit_ask ask = {
        .job = rec->job, .today = rec->ask->today, .gates = 1U << MF_GATE_SIGNS, .area = ""};
    mf_assisted_judge(rec->job, &answer);
    if (!answer.over)
        return;
    bool clear = mf_gate_open(&ask, NULL);
    mf_form_bullet(rec, clear ? MF_MARK_TICK : MF_MARK_OPEN,
                   mf_phrase(rec, clear ? "summary.assisted-clear" : "summary.assisted-open"));
}

void mf_summary_done(mf_rec *rec)
{
    mf_cover_answer cover;
    mf_cover_judge(rec->job, &cover);
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.done"));
    const char *off = mf_off_words(rec);
    if (*off != '\0') {
        mf_form_bullet(rec, MF_MARK_DASH, off);
        return;
    }
    if (cover.cover != MF_COVER_YES) { /* nothing of it was asked for */
        mf_form_bullet(rec, MF_MARK_DASH, mf_enum(rec, MF_FAM_COVER, (int)cover.why));
        assisted(rec);
        return;
    }
    sentence(rec, &mf_claim_trained);
    sentence(rec, &mf_claim_signs);
    sentence(rec, &mf_claim_contained);
    ways_of_work(rec);
    sentence(rec, &mf_claim_waste);
    if (any_on(rec, MF_ON_INTERIOR) || rec->job->n_area == 0)
        sentence(rec, &mf_claim_cleaned);
    if (any_on(rec, MF_ON_EXTERIOR))
        sentence(rec, &mf_claim_cleaned_outside);
}
