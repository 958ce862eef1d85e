/* The words of what the judgment says by number. */
#include <mistfold/words.h>

#include <mistfold/contain.h>

#include <assert.h>
#include <stdio.h>

#define ROWS(names, last)                                                                          \
    static_assert(sizeof names / sizeof names[0] == (size_t)(last) + 1, "a word for each value")

static const char *const covers[] = {
    "cover.built-before",  "cover.year-unknown", "cover.built-later",        "cover.not-for-pay",
    "cover.elder-housing", "cover.zero-bedroom", "cover.nothing-painted",    "cover.all-free",
    "cover.minor",         "cover.no-facility",  "cover.zero-bedroom-before"};
ROWS(covers, MF_COVER_ZERO_BEDROOM_BEFORE);

static const char *const doubts[] = {"",
                                     "doubt.untested",
                                     "doubt.inconclusive",
                                     "doubt.xrf-by-renovator",
                                     "doubt.certificate",
                                     "doubt.no-determination",
                                     "doubt.no-method",
                                     "doubt.no-copy",
                                     "doubt.calibration",
                                     "doubt.kit-tester",
                                     "doubt.kit-unrecognized",
                                     "doubt.kit-substrate",
                                     "doubt.kit-unsaid",
                                     "doubt.substrate",
                                     "doubt.local-level",
                                     "doubt.chip-sampler",
                                     "doubt.laboratory",
                                     "doubt.after-work",
                                     "doubt.after-start",
                                     "doubt.same-day",
                                     "doubt.contradiction",
                                     "doubt.not-painted"};
ROWS(doubts, MF_DOUBT_UNPAINTED);

static const char *const refusals[] = {"",
                                       "refused.not-looked",
                                       "refused.already-clean",
                                       "refused.reclean-first",
                                       "refused.not-darker",
                                       "refused.no-third-wet",
                                       "refused.dry-too-soon",
                                       "refused.not-dry",
                                       "refused.dry-unwiped",
                                       "refused.needs-new-cloth",
                                       "refused.cloth-unsaid",
                                       "refused.out-of-order",
                                       "refused.no-time",
                                       "refused.no-section",
                                       "refused.exterior",
                                       "refused.clocks-apart"};
ROWS(refusals, MF_VR_CLOCKS_APART);

static const char *const verdicts[] = {"paint.lead", "paint.presumed", "paint.free",
                                       "paint.unpainted"};
ROWS(verdicts, MF_PAINT_UNPAINTED);

static const char *const bases[] = {"basis.none", "basis.xrf", "basis.determination", "basis.kit",
                                    "basis.chip"};
ROWS(bases, MF_BASIS_CHIP);

static const char *const clearings[] = {
    [MF_CLEARED_NOT] = "ver.area-open",
    [MF_CLEARED_BY_CLOTHS] = "ver.area-clean",
    [MF_CLEARED_BY_LOOKING] = "ver.area-clean",
    [MF_CLEARED_BY_SAMPLES] = "ver.area-cleared",
};
ROWS(clearings, MF_CLEARED_BY_SAMPLES);

static const char *say(mf_lang lang, const char *id)
{
    const char *words = id[0] == '\0' ? "" : mf_words(lang, id);
    return words == NULL ? id : words;
}

const char *mf_words_cover(mf_lang lang, mf_cover_why why)
{
    return say(lang, covers[why]);
}

const char *mf_words_doubt(mf_lang lang, mf_paint_doubt doubt)
{
    return say(lang, doubts[doubt]);
}

const char *mf_words_refusal(mf_lang lang, mf_ver_refusal refusal)
{
    return say(lang, refusals[refusal]);
}

const char *mf_words_ver_state(mf_lang lang, mf_ver_state state)
{
    const char *words = mf_words2(lang, "ver", mf_ver_state_name(state));
    return words == NULL ? "" : words;
}

const char *mf_words_cleared(mf_lang lang, mf_cleared how)
{
    return say(lang, clearings[how]);
}

const char *mf_words_verdict(mf_lang lang, mf_paint_verdict verdict)
{
    return say(lang, verdicts[verdict]);
}

const char *mf_words_basis(mf_lang lang, mf_paint_basis basis)
{
    return say(lang, bases[basis]);
}

const char *mf_words_step(mf_lang lang, const mf_job *job, const char *id)
{
    const char *words = mf_words2(lang, "step", id);
    const mf_own_step *own = words == NULL ? mf_own_step_named(job, id) : NULL;
    if (own == NULL)
        return words == NULL ? id : words;
    return lang == MF_LANG_ES && own->text_es[0] != '\0' ? own->text_es : own->text;
}

const char *mf_words_step_why(mf_lang lang, const mf_job *job, const char *id)
{
    char why[80];
    const mf_own_step *own = mf_step_named(id) == NULL ? mf_own_step_named(job, id) : NULL;
    snprintf(why, sizeof why, "step.%.60s.why", id);
    const char *words = own == NULL ? mf_words(lang, why) : own->why;
    return words == NULL ? "" : words;
}

const char *mf_words_fact(mf_lang lang, mf_status_of_fact status)
{
    static const char *const ids[] = {[MF_VERIFIED] = "word.fact.verified",
                                      [MF_SECONDARY] = "word.fact.secondary",
                                      [MF_MEMORY] = "word.fact.memory",
                                      [MF_DERIVED] = "word.fact.derived"};
    return mf_words(lang, ids[status]);
}
