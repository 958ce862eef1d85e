/* claims.h - what was done in a job, one claim at a time, and what the findings say of it.
 * The summary and the renovator's statement say a sentence only as far as its claim is shown.
 * 40 CFR 745.86(b)(6). */
#ifndef MF_PAPER_CLAIMS_H
#define MF_PAPER_CLAIMS_H

#include "paper/rec.h"

#include <mistfold/contain.h>
#include <mistfold/emergency.h>

/* A claim: the wording is <paper>.<id> when it is shown, <id>-not when not, <id>-waived where
 * an emergency is said to have kept the crew from it. */
typedef struct mf_claim {
    const char *id;
    const char *needs; /* ids of the requirements that show it */
    mf_waiver waiver;
    unsigned sides; /* work areas it speaks of */
} mf_claim;

extern const mf_claim mf_claim_assigned, mf_claim_trained, mf_claim_signs, mf_claim_contained,
    mf_claim_methods, mf_claim_waste, mf_claim_cleaned, mf_claim_cleaned_outside, mf_claim_verified;

/* How many findings show it, were waived in an emergency, tell of plastic that was left out,
 * or lack. */
typedef struct mf_claim_tally {
    size_t shown, waived, left_out, lacking;
} mf_claim_tally;

mf_claim_tally mf_claim_count(const mf_rec *rec, const mf_claim *said);

/* Whether the finding is one of the claim's. */
bool mf_claim_of(const mf_rec *rec, const mf_claim *said, const mf_finding *finding);
/* The tick by which the plastic of the floor or ground was left out, or NULL. */
const mf_tick *mf_claim_sheet_left_out(const mf_rec *rec, const mf_finding *finding);

/* Whether a method as described is prohibited, by 745.85(a)(3) or, where it holds, by 24 CFR
 * 35.140. */
bool mf_claim_prohibited(const mf_rec *rec, const mf_practice *used);

/* Ways of work that are refused, as "open flame burning or torching, A1, 2026-09-15; ...", or
 * "": those that are said to have been done so, or those of which only the proof is missing. */
const char *mf_claim_refused(mf_rec *rec, bool said);

/* MF_ON_INTERIOR or MF_ON_EXTERIOR. */
unsigned mf_claim_side(const mf_area *area);

#endif
