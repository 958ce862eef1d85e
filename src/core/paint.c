/* Weighing the evidence on one component. Each piece of evidence is proposed
 * with the doubt that stands in its way; the piece nearest to being lawful is
 * kept, so that the person is told what is missing and not merely "no". */
#include <mistfold/house.h>
#include <mistfold/paint.h>

#include "core/kind_rows.h"
#include "core/paint_test.h"
#include "core/reading_index.h"
#include "core/text.h"
#include "core/worked.h"
#include <mistfold/person.h>
#include <mistfold/place.h>

/* ---- the best evidence so far ---------------------------------------------------- */

/* How near a doubt is to lawful evidence; what can still be mended ranks above
 * what cannot. */
static int nearness(mf_paint_doubt doubt)
{
    static const mf_paint_doubt farthest_first[] = {
        MF_DOUBT_UNTESTED,         MF_DOUBT_INCONCLUSIVE, MF_DOUBT_XRF_BY_RENOVATOR,
        MF_DOUBT_KIT_TESTER,       MF_DOUBT_CHIP_SAMPLER, MF_DOUBT_AFTER_WORK,
        MF_DOUBT_CERTIFICATE,      MF_DOUBT_LABORATORY,   MF_DOUBT_KIT_UNRECOGNIZED,
        MF_DOUBT_KIT_SUBSTRATE,    MF_DOUBT_KIT_UNSAID,   MF_DOUBT_LOCAL_LEVEL,
        MF_DOUBT_CALIBRATION,      MF_DOUBT_SUBSTRATE,    MF_DOUBT_NO_METHOD,
        MF_DOUBT_NO_DETERMINATION, MF_DOUBT_NO_COPY,      MF_DOUBT_SAME_DAY,
        MF_DOUBT_AFTER_START,      MF_DOUBT_NONE,
    };
    int n = (int)(sizeof farthest_first / sizeof farthest_first[0]);
    for (int i = 0; i < n; i++) {
        if (farthest_first[i] == doubt)
            return i;
    }
    return -1;
}

/* Paint is shown to be free before the renovation: 745.82(a) exempts one for which the
 * determination or the test of each affected component has been made. What is dated after its first
 * day of work, in whatever area, or after completion, came too late for it; what is of that day
 * itself comes first only where the times say so. Work that is completed and of which no day is
 * logged began when it was to begin; before that nobody says that it had not begun. */
static mf_paint_doubt lateness(const mf_job *job, mf_day on, int32_t at)
{
    mf_day completed = mf_completed_on(job);
    bool planned = mf_worked_first(job, "") == MF_DAY_NONE && job->n_house > 0;
    bool after_start = planned && on > job->house[0].start;
    mf_tri before = mf_before_work(job, on, at);
    if (before == MF_NOT || (completed != MF_DAY_NONE && (on > completed || after_start)))
        return MF_DOUBT_AFTER_WORK;
    if (before == MF_UNKNOWN || (completed != MF_DAY_NONE && planned && on == job->house[0].start))
        return MF_DOUBT_SAME_DAY;
    return after_start ? MF_DOUBT_AFTER_START : MF_DOUBT_NONE;
}

/* A piece of evidence: who made it and when. */
typedef struct piece {
    mf_paint_basis basis;
    const mf_src *src;
    const char *by;
    mf_day on;
    int32_t at;
} piece;

static void propose(const mf_job *job, mf_paint_finding *best, const piece *it,
                    mf_paint_doubt doubt)
{
    if (nearness(doubt) > nearness(best->doubt) && doubt == MF_DOUBT_NONE)
        doubt = lateness(job, it->on, it->at);
    if (nearness(doubt) <= nearness(best->doubt))
        return;
    best->basis = it->basis;
    best->doubt = doubt;
    best->evidence = mf_or_empty(it->src->entry);
    best->by = mf_or_empty(it->by);
    best->on = it->on;
}

/* ---- who may prove what ----------------------------------------------------------- */

static bool held_once(const mf_job *job, const char *person, mf_discipline discipline, mf_day day)
{
    const mf_certificate *near;
    return mf_certified(job, person, discipline, day, &near) == NULL && near != NULL;
}

static bool assessor_once(const mf_job *job, const char *person, mf_day day)
{
    return held_once(job, person, MF_DISC_INSPECTOR, day) ||
           held_once(job, person, MF_DISC_RISK_ASSESSOR, day);
}

static bool renovator_on(const mf_job *job, const char *person, mf_day day)
{
    return mf_certified(job, person, MF_DISC_RENOVATOR, day, NULL) != NULL;
}

/* What a determination lacks by itself. */
static mf_paint_doubt determination_doubt(const mf_job *job, const mf_determination *it)
{
    if (mf_certified_assessor(job, it->assessor, it->on) == NULL)
        return MF_DOUBT_CERTIFICATE;
    return it->firm_has_copy == MF_YES ? MF_DOUBT_NONE : MF_DOUBT_NO_COPY;
}

/* Whether this assessor has determined, on the day of the test or later, that
 * the component, or all that he or she read as negative, is free. */
static mf_paint_doubt determined(const mf_job *job, const char *assessor, const char *component,
                                 mf_day tested)
{
    mf_paint_doubt best = MF_DOUBT_NO_DETERMINATION;
    for (size_t i = 0; i < job->n_determination; i++) {
        const mf_determination *it = &job->determination[i];
        bool covers = mf_determined_by_readings(it) || mf_determined(it, component);
        if (!covers || !mf_same(it->assessor, assessor) || it->on < tested)
            continue;
        mf_paint_doubt doubt = determination_doubt(job, it);
        if (doubt == MF_DOUBT_NONE)
            doubt = lateness(job, it->on, it->at_minute);
        if (nearness(doubt) > nearness(best))
            best = doubt;
    }
    return best;
}

static mf_paint_doubt chip_doubt(const mf_job *job, const mf_chip *chip)
{
    if (!renovator_on(job, chip->sampler, chip->on)) {
        if (mf_certified_assessor(job, chip->sampler, chip->on) != NULL) {
            mf_paint_doubt doubt = determined(job, chip->sampler, chip->component, chip->on);
            if (doubt != MF_DOUBT_NONE)
                return doubt;
        } else {
            bool once = held_once(job, chip->sampler, MF_DISC_RENOVATOR, chip->on) ||
                        assessor_once(job, chip->sampler, chip->on);
            return once ? MF_DOUBT_CERTIFICATE : MF_DOUBT_CHIP_SAMPLER;
        }
    }
    return chip->nllap == MF_YES ? MF_DOUBT_NONE : MF_DOUBT_LABORATORY;
}

mf_tri mf_kit_fits(const mf_job *job, const mf_kit_test *kit)
{
    const mf_component *tested = mf_job_component(job, kit->component);
    if (tested == NULL || !mf_given(kit->substrates))
        return MF_UNKNOWN;
    return mf_id_in_list(kit->substrates, mf_choices_substrate[tested->substrate]) ? MF_YES
                                                                                   : MF_NOT;
}

static bool lower_here(const mf_job *job, mf_limit_id id, mf_day on)
{
    const mf_limit *here = mf_limit_for(job, id, on), *federal = mf_limit_on(id, on);
    return here != NULL && federal != NULL && here->value < federal->value;
}

/* What is under the paint is not known where two entries disagree about it. */
static bool disputed(const mf_job *job, const char *component)
{
    const mf_component *it = mf_job_component(job, component);
    return it != NULL && mf_substrate_against(job, it) != NULL;
}

/* A kit, and what the owner holds, tell of 1.0 mg/cm2 and 0.5 % and of no lower number. */
static bool level_lower_here(const mf_job *job, mf_day on)
{
    return lower_here(job, MF_LIMIT_PAINT_LOADING, on) ||
           lower_here(job, MF_LIMIT_PAINT_WEIGHT, on);
}

/* What a kit could not tell of the component, or of what the other kit tested, no other kit tells,
 * before it or after: a laboratory or an assessor does. */
static bool kit_could_not_tell(const mf_job *job, const mf_kit_test *kit,
                               const mf_component *component)
{
    for (size_t i = 0; i < job->n_kit_test; i++)
        if (job->kit_test[i].result == MF_RES_INCONCLUSIVE &&
            (mf_same(job->kit_test[i].component, kit->component) ||
             mf_speaks_for(job->kit_test[i].component, component)))
            return true;
    return false;
}

static mf_paint_doubt kit_doubt(const mf_job *job, const mf_kit_test *kit,
                                const mf_component *component)
{
    if (kit_could_not_tell(job, kit, component))
        return MF_DOUBT_INCONCLUSIVE;
    if (!renovator_on(job, kit->tester, kit->on))
        return held_once(job, kit->tester, MF_DISC_RENOVATOR, kit->on) ? MF_DOUBT_CERTIFICATE
                                                                       : MF_DOUBT_KIT_TESTER;
    if (kit->epa_recognized != MF_YES)
        return MF_DOUBT_KIT_UNRECOGNIZED;
    mf_tri fits = mf_kit_fits(job, kit);
    if (fits != MF_YES)
        return fits == MF_NOT ? MF_DOUBT_KIT_SUBSTRATE : MF_DOUBT_KIT_UNSAID;
    if (disputed(job, kit->component))
        return MF_DOUBT_SUBSTRATE;
    return level_lower_here(job, kit->on) ? MF_DOUBT_LOCAL_LEVEL : MF_DOUBT_NONE;
}

/* two: entries disagree about what is under the paint of its component. */
static mf_paint_doubt reading_doubt(const mf_job *job, const mf_reading *reading, bool two)
{
    if (mf_certified_assessor(job, reading->operator_id, reading->on) == NULL)
        return assessor_once(job, reading->operator_id, reading->on) ? MF_DOUBT_CERTIFICATE
                                                                     : MF_DOUBT_XRF_BY_RENOVATOR;
    if (!mf_reading_enclosed(job, reading))
        return MF_DOUBT_CALIBRATION;
    if (two)
        return MF_DOUBT_SUBSTRATE;
    return determined(job, reading->operator_id, reading->component, reading->on);
}

/* ---- the ways to show that paint is free -------------------------------------------- */

static void weigh_chips(const mf_job *job, const mf_component *component, mf_paint_finding *best)
{
    for (size_t i = 0; i < job->n_chip; i++) {
        const mf_chip *chip = &job->chip[i];
        mf_paint_class class = mf_chip_class_for(job, chip);
        if (class == MF_CLASS_POSITIVE || !mf_frees(job, chip->component, component))
            continue;
        mf_paint_doubt doubt =
            class == MF_CLASS_NEGATIVE ? chip_doubt(job, chip) : MF_DOUBT_INCONCLUSIVE;
        propose(job, best,
                &(piece){MF_BASIS_CHIP, &chip->src, chip->sampler, chip->on, chip->at_minute},
                doubt);
    }
}

static void weigh_kits(const mf_job *job, const mf_component *component, mf_paint_finding *best)
{
    for (size_t i = 0; i < job->n_kit_test; i++) {
        const mf_kit_test *kit = &job->kit_test[i];
        if (kit->result == MF_RES_POSITIVE || !mf_frees(job, kit->component, component))
            continue;
        mf_paint_doubt doubt =
            kit->result == MF_RES_NEGATIVE ? kit_doubt(job, kit, component) : MF_DOUBT_INCONCLUSIVE;
        propose(job, best, &(piece){MF_BASIS_KIT, &kit->src, kit->tester, kit->on, kit->at_minute},
                doubt);
    }
}

static void weigh_readings(const mf_job *job, const mf_component *component, mf_paint_finding *best)
{
    const char *id = component->id;
    bool two = disputed(job, id); /* asked once: it looks through all of its readings */
    for (size_t i = mf_reading_first(job, id); i != SIZE_MAX; i = mf_reading_next(job, id, i)) {
        const mf_reading *reading = &job->reading[i];
        if (!mf_of_paint(reading) || mf_class_kept(job, reading) != MF_CLASS_NEGATIVE)
            continue;
        propose(job, best,
                &(piece){MF_BASIS_XRF, &reading->src, reading->operator_id, reading->on,
                         reading->at_minute},
                reading_doubt(job, reading, two));
    }
}

/* A determination that names the component stands by itself when it says by
 * which documented method (an assessor may sample, a renovator may not). */
static void weigh_determinations(const mf_job *job, const mf_component *component,
                                 mf_paint_finding *best)
{
    for (size_t i = 0; i < job->n_determination; i++) {
        const mf_determination *it = &job->determination[i];
        if (!mf_determined(it, component->id))
            continue;
        mf_paint_doubt doubt = determination_doubt(job, it);
        if (!mf_given(it->method) && doubt != MF_DOUBT_CERTIFICATE)
            doubt = MF_DOUBT_NO_METHOD;
        if (doubt == MF_DOUBT_NONE && mf_substrate_against(job, component) != NULL)
            doubt = MF_DOUBT_SUBSTRATE;
        propose(job, best,
                &(piece){MF_BASIS_DETERMINATION, &it->src, it->assessor, it->on, it->at_minute},
                doubt);
    }
}

/* ---- positives ------------------------------------------------------------------------ */

static void found_lead(mf_paint_finding *out, mf_paint_basis basis, const mf_src *src,
                       const char *by, mf_day on)
{
    out->verdict = MF_PAINT_LEAD;
    out->basis = basis;
    out->evidence = mf_or_empty(src->entry);
    out->by = mf_or_empty(by);
    out->on = on;
}

static const mf_kit_test *positive_kit(const mf_job *job, const mf_component *component)
{
    for (size_t i = 0; i < job->n_kit_test; i++) {
        const mf_kit_test *kit = &job->kit_test[i];
        if (mf_speaks_for(kit->component, component) && kit->result == MF_RES_POSITIVE)
            return kit;
    }
    return NULL;
}

static const mf_chip *positive_chip(const mf_job *job, const mf_component *component)
{
    for (size_t i = 0; i < job->n_chip; i++) {
        const mf_chip *chip = &job->chip[i];
        if (mf_speaks_for(chip->component, component) &&
            mf_chip_class_for(job, chip) == MF_CLASS_POSITIVE)
            return chip;
    }
    return NULL;
}

/* A positive counts from anyone, on any day, by any instrument. */
static bool find_lead(const mf_job *job, mf_paint_finding *out)
{
    const mf_reading *reading = out->worst;
    const mf_kit_test *kit = positive_kit(job, out->component);
    const mf_chip *chip = positive_chip(job, out->component);
    if (reading != NULL && mf_class_kept(job, reading) == MF_CLASS_POSITIVE)
        found_lead(out, MF_BASIS_XRF, &reading->src, reading->operator_id, reading->on);
    else if (kit != NULL)
        found_lead(out, MF_BASIS_KIT, &kit->src, kit->tester, kit->on);
    else if (chip != NULL)
        found_lead(out, MF_BASIS_CHIP, &chip->src, chip->sampler, chip->on);
    return out->verdict == MF_PAINT_LEAD;
}

/* ---- the finding -------------------------------------------------------------------------- */

static bool worse(const mf_job *job, const mf_reading *a, const mf_reading *b)
{
    mf_paint_class of_a = mf_class_kept(job, a), of_b = mf_class_kept(job, b);
    if (of_a != of_b)
        return of_a > of_b;
    if (a->loading_ug_cm2 != b->loading_ug_cm2)
        return a->loading_ug_cm2 > b->loading_ug_cm2;
    return a->qualifier == MF_QUAL_OVER && b->qualifier != MF_QUAL_OVER;
}

/* The highest reading of the worst class. */
static const mf_reading *worst_reading(const mf_job *job, const mf_component *component)
{
    const mf_reading *worst = NULL;
    const char *id = component->id;
    for (size_t i = mf_reading_first(job, id); i != SIZE_MAX; i = mf_reading_next(job, id, i)) {
        const mf_reading *reading = &job->reading[i];
        if (mf_of_paint(reading) && (worst == NULL || worse(job, reading, worst)))
            worst = reading;
    }
    return worst;
}

/* An inconclusive reading is settled by a laboratory chip and by nothing else. */
static bool unsettled(const mf_job *job, const mf_paint_finding *best)
{
    bool by_chip = best->doubt == MF_DOUBT_NONE && best->basis == MF_BASIS_CHIP;
    return !by_chip && best->worst != NULL &&
           mf_class_kept(job, best->worst) == MF_CLASS_INCONCLUSIVE;
}

static void call_inconclusive(mf_paint_finding *out)
{
    const mf_reading *reading = out->worst;
    out->basis = MF_BASIS_XRF;
    out->doubt = MF_DOUBT_INCONCLUSIVE;
    out->evidence = mf_or_empty(reading->src.entry);
    out->by = mf_or_empty(reading->operator_id);
    out->on = reading->on;
}

/* What the owner had determined before serves where this job found nothing. */
static void by_owner_record(const mf_job *job, mf_paint_finding *out)
{
    const mf_owner_record *it = mf_owner_record_of(job, out->component->id);
    if (it == NULL || mf_substrate_against(job, out->component) != NULL)
        return;
    bool lower = level_lower_here(job, job->n_house > 0 ? job->house[0].start : it->on);
    if (lower || lateness(job, it->on, MF_MINUTE_NONE) != MF_DOUBT_NONE) {
        const piece record = {MF_BASIS_DETERMINATION, &it->src, it->assessor, it->on,
                              MF_MINUTE_NONE};
        propose(job, out, &record, lower ? MF_DOUBT_LOCAL_LEVEL : MF_DOUBT_NONE);
        return;
    }
    out->verdict = MF_PAINT_FREE;
    out->basis = MF_BASIS_DETERMINATION;
    out->doubt = MF_DOUBT_NONE;
    out->evidence = mf_or_empty(it->src.entry);
    out->by = mf_or_empty(it->assessor);
    out->on = it->on;
}

/* Whoever tests a component for lead has seen paint on it, or logged the wrong one. */
static void judge_unpainted(const mf_job *job, mf_paint_finding *out)
{
    bool lead = find_lead(job, out);
    out->doubt = lead ? MF_DOUBT_UNPAINTED : MF_DOUBT_NONE;
    if (!lead)
        out->verdict = MF_PAINT_UNPAINTED;
}

static void judge(const mf_job *job, const mf_component *component, mf_paint_finding *out)
{
    *out = (mf_paint_finding){.component = component,
                              .verdict = MF_PAINT_PRESUMED,
                              .basis = MF_BASIS_NONE,
                              .doubt = MF_DOUBT_UNTESTED,
                              .worst = worst_reading(job, component),
                              .evidence = "",
                              .by = "",
                              .on = MF_DAY_NONE};
    if (component->painted == MF_NOT) {
        judge_unpainted(job, out);
        return;
    }
    weigh_chips(job, component, out); /* first, as only a chip settles a reading */
    weigh_kits(job, component, out);
    weigh_readings(job, component, out);
    weigh_determinations(job, component, out);
    bool lawful = out->doubt == MF_DOUBT_NONE;
    if (find_lead(job, out)) {
        bool both = lawful || mf_called_free(job, component);
        out->doubt = both ? MF_DOUBT_CONTRADICTION : MF_DOUBT_NONE;
        return;
    }
    if (unsettled(job, out))
        call_inconclusive(out);
    else if (lawful)
        out->verdict = MF_PAINT_FREE;
    else
        by_owner_record(job, out);
}

/* Several requirements ask the same of a component: within one question it is
 * worked out once. */
void mf_paint_judge(const mf_job *job, const mf_component *component, mf_paint_finding *out)
{
    mf_reading_index *index = mf_index_of(job);
    bool known = false;
    mf_paint_finding *kept = index == NULL ? NULL : mf_index_finding(index, component, &known);
    if (kept == NULL) {
        judge(job, component, out);
        return;
    }
    if (!known)
        judge(job, component, kept);
    *out = *kept;
}

/* ---- parts that are not listed --------------------------------------------------------- */

static bool unlisted(const mf_job *job, const char *component, const mf_src *src, mf_day on,
                     mf_unlisted_lead *out)
{
    *out = (mf_unlisted_lead){mf_or_empty(component), mf_or_empty(src->entry), on};
    return mf_given(component) && mf_job_component(job, component) == NULL;
}

bool mf_paint_unlisted(const mf_job *job, mf_unlisted_lead *out)
{
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *it = &job->reading[i];
        if (mf_of_paint(it) && mf_class_kept(job, it) == MF_CLASS_POSITIVE &&
            unlisted(job, it->component, &it->src, it->on, out))
            return true;
    }
    for (size_t i = 0; i < job->n_kit_test; i++) {
        const mf_kit_test *it = &job->kit_test[i];
        if (it->result == MF_RES_POSITIVE && unlisted(job, it->component, &it->src, it->on, out))
            return true;
    }
    for (size_t i = 0; i < job->n_chip; i++) {
        const mf_chip *it = &job->chip[i];
        if (unlisted(job, it->component, &it->src, it->on, out) &&
            mf_chip_class_for(job, it) == MF_CLASS_POSITIVE)
            return true;
    }
    return false;
}
