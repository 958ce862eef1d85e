/* The steps of a work area, in the order a crew does them: warning signs, sheeting, ducts,
 * doors, windows, barriers, waste, cleaning with a HEPA vacuum. The wording is in
 * forms/steps.words; every paragraph was seen in print. */
#include <mistfold/contain.h>

#define IN   MF_ON_INTERIOR
#define OUT  MF_ON_EXTERIOR
#define BOTH (MF_ON_INTERIOR | MF_ON_EXTERIOR)

/* How a step may be closed: a renovator must be there (745.90(b)(3)). */
#define BY_HAND false
#define PRESENT true

/* On which grounds it may be left out, and by which paragraph: none at all, one, either of
 * two. Own words are no ground of the rule's; only a step that it never asks for takes them. */
#define NO_GROUND                                                                                  \
    {                                                                                              \
        MF_GROUND_OWN_WORDS, NULL, MF_VERIFIED                                                     \
    }
#define MUST                                                                                       \
    {                                                                                              \
        NO_GROUND, NO_GROUND                                                                       \
    }
#define ON(ground, citation)                                                                       \
    {                                                                                              \
        {MF_GROUND_##ground, citation, MF_VERIFIED}, NO_GROUND                                     \
    }
#define EITHER(ground, other, citation)                                                            \
    {                                                                                              \
        {MF_GROUND_##ground, citation, MF_VERIFIED},                                               \
        {                                                                                          \
            MF_GROUND_##other, citation, MF_VERIFIED                                               \
        }                                                                                          \
    }
/* What cannot be done on a job is excused, that one thing only; the rest is done. */
#define IF_IMPOSSIBLE ON(IMPOSSIBLE, "EPA FAQ 23002-19908")
/* What no emergency freed of laying, 745.82(b), lies there: ground.c. */
#define IF_NEVER_LAID                                                                              \
    {                                                                                              \
        {MF_GROUND_NONE_PRESENT, "40 CFR 745.82(b); 745.85(a)(5)(i)(B)", MF_DERIVED}, NO_GROUND    \
    }

/* The number of a step: none, one that is measured, one that its words alone give. */
#define NONE            -1, -1
#define MEASURED(limit) limit, limit
#define SAID(limit)     -1, limit

static const mf_step rows[] = {
    /* -- before demo: warn, close off, cover ------------------------------------ */
    {"signs", MF_PHASE_CONTAIN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(1)",
     "745.86(b)(6)(ii)", MF_VERIFIED, PRESENT, MUST},
    {"signs-language", MF_PHASE_CONTAIN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(1)",
     "745.86(b)(6)(ii)", MF_VERIFIED, PRESENT, MUST},
    {"signs-assisted", MF_PHASE_CONTAIN, BOTH, MF_WHEN_ASSISTED, SAID(MF_LIMIT_SIGN_DISTANCE),
     "24 CFR 35.1345(b)(2)", "", MF_VERIFIED, PRESENT, MUST},
    {"isolate", MF_PHASE_CONTAIN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)", "",
     MF_VERIFIED, PRESENT, MUST},
    {"egress", MF_PHASE_CONTAIN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)", "", MF_VERIFIED,
     PRESENT, MUST},
    {"objects", MF_PHASE_CONTAIN, IN, MF_WHEN_OBJECTS, NONE, "40 CFR 745.85(a)(2)(i)(A)",
     "745.86(b)(6)(v)(A)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(i)(A)")},
    {"ducts", MF_PHASE_CONTAIN, IN, MF_WHEN_DUCTS, NONE, "40 CFR 745.85(a)(2)(i)(B)",
     "745.86(b)(6)(v)(B)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(i)(B)")},
    {"windows-closed", MF_PHASE_CONTAIN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)(i)(C)",
     "745.86(b)(6)(v)(C)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(i)(C)")},
    {"doors-closed", MF_PHASE_CONTAIN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)(i)(C)",
     "745.86(b)(6)(v)(D)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(i)(C)")},
    {"doors-used", MF_PHASE_CONTAIN, IN, MF_WHEN_DOORS_USED, NONE, "40 CFR 745.85(a)(2)(i)(C)",
     "745.86(b)(6)(v)(E)", MF_VERIFIED, PRESENT, ON(NOT_USED, "40 CFR 745.85(a)(2)(i)(C)")},
    {"vertical-barrier", MF_PHASE_CONTAIN, BOTH, MF_WHEN_CHOSEN, NONE,
     "40 CFR 745.85(a)(2)(i)(D), (ii)(C)", "", MF_VERIFIED, PRESENT,
     ON(OWN_WORDS, "40 CFR 745.85(a)(2)(i)(D), (ii)(C)")},
    {"floor-sheet", MF_PHASE_CONTAIN, IN, MF_WHEN_ALWAYS, MEASURED(MF_LIMIT_FLOOR_SHEET),
     "40 CFR 745.85(a)(2)(i)(D)", "745.86(b)(6)(v)(F)", MF_VERIFIED, PRESENT, IF_IMPOSSIBLE},
    {"windows-outside", MF_PHASE_CONTAIN, OUT, MF_WHEN_ALWAYS, SAID(MF_LIMIT_EXTERIOR_OPENINGS),
     "40 CFR 745.85(a)(2)(ii)(A)", "745.86(b)(6)(v)(C)", MF_VERIFIED, PRESENT,
     ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(ii)(A)")},
    {"doors-outside", MF_PHASE_CONTAIN, OUT, MF_WHEN_ALWAYS, SAID(MF_LIMIT_EXTERIOR_OPENINGS),
     "40 CFR 745.85(a)(2)(ii)(A)", "745.86(b)(6)(v)(D)", MF_VERIFIED, PRESENT,
     ON(NONE_PRESENT, "40 CFR 745.85(a)(2)(ii)(A)")},
    {"openings-below", MF_PHASE_CONTAIN, OUT, MF_WHEN_STOREYS, SAID(MF_LIMIT_EXTERIOR_OPENINGS),
     "40 CFR 745.85(a)(2)(ii)(A)", "745.86(b)(6)(v)(C)", MF_VERIFIED, PRESENT,
     EITHER(ONE_STORY, NONE_PRESENT, "40 CFR 745.85(a)(2)(ii)(A)")},
    {"doors-used-outside", MF_PHASE_CONTAIN, OUT, MF_WHEN_DOORS_USED, NONE,
     "40 CFR 745.85(a)(2)(ii)(B)", "745.86(b)(6)(v)(E)", MF_VERIFIED, PRESENT,
     ON(NOT_USED, "40 CFR 745.85(a)(2)(ii)(B)")},
    {"ground-sheet", MF_PHASE_CONTAIN, OUT, MF_WHEN_ALWAYS, MEASURED(MF_LIMIT_GROUND_SHEET),
     "40 CFR 745.85(a)(2)(ii)(C)", "745.86(b)(6)(v)(F)", MF_VERIFIED, PRESENT, IF_IMPOSSIBLE},
    {"line-containment", MF_PHASE_CONTAIN, OUT, MF_WHEN_NEAR_LINE, NONE,
     "40 CFR 745.85(a)(2)(ii)(D)", "745.86(b)(6)(v)(G)", MF_VERIFIED, PRESENT, MUST},

    /* -- while the work goes on ------------------------------------------------- */
    {"barriers-whole", MF_PHASE_WORK, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)", "",
     MF_VERIFIED, BY_HAND, MUST},
    {"leave-clean", MF_PHASE_WORK, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(2)(i)(E)", "",
     MF_VERIFIED, BY_HAND, MUST},
    {"waste-contained", MF_PHASE_WORK, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(4)(i)",
     "745.86(b)(6)(vi)", MF_VERIFIED, BY_HAND, MUST},
    {"waste-chute", MF_PHASE_WORK, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(4)(i)",
     "745.86(b)(6)(vi)", MF_VERIFIED, BY_HAND, ON(NOT_USED, "40 CFR 745.85(a)(4)(i)")},
    {"waste-daily", MF_PHASE_WORK, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(4)(ii)",
     "745.86(b)(6)(vi)", MF_VERIFIED, BY_HAND, MUST},
    {"waste-transport", MF_PHASE_WORK, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(4)(iii)",
     "745.86(b)(6)(vi)", MF_VERIFIED, BY_HAND, MUST},

    /* -- the end: collect, fold, clean from the top down ------------------------ */
    {"chips", MF_PHASE_CLEAN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(i)(A)",
     "745.86(b)(6)(vii)(A)", MF_VERIFIED, PRESENT, MUST},
    {"sheeting", MF_PHASE_CLEAN, BOTH, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(i)(B)",
     "745.86(b)(6)(vii)(A)", MF_VERIFIED, PRESENT, IF_NEVER_LAID},
    {"walls", MF_PHASE_CLEAN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(ii)(A)",
     "745.86(b)(6)(vii)(B)", MF_VERIFIED, PRESENT, MUST},
    {"surfaces", MF_PHASE_CLEAN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(ii)(B)-(C)",
     "745.86(b)(6)(vii)(B)", MF_VERIFIED, PRESENT, MUST},
    {"carpet", MF_PHASE_CLEAN, IN, MF_WHEN_CARPET, NONE, "40 CFR 745.85(a)(5)(ii)(B)",
     "745.86(b)(6)(vii)(B)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(5)(ii)(B)")},
    {"mop", MF_PHASE_CLEAN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(ii)(C)",
     "745.86(b)(6)(vii)(B)", MF_VERIFIED, PRESENT, ON(ALL_CARPET, "40 CFR 745.85(a)(5)(ii)(C)")},
    {"margin", MF_PHASE_CLEAN, IN, MF_WHEN_ALWAYS, MEASURED(MF_LIMIT_CLEAN_MARGIN),
     "40 CFR 745.85(a)(5)(ii)", "745.86(b)(6)(vii)(B)", MF_VERIFIED, PRESENT, MUST},
    {"divider", MF_PHASE_CLEAN, IN, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)(i)(B)",
     "745.86(b)(6)(vii)(A)", MF_VERIFIED, PRESENT, ON(NONE_PRESENT, "40 CFR 745.85(a)(5)(i)(B)")},
    {"clean-outside", MF_PHASE_CLEAN, OUT, MF_WHEN_ALWAYS, NONE, "40 CFR 745.85(a)(5)",
     "745.86(b)(6)(vii)(A)", MF_VERIFIED, PRESENT, MUST},
};

const mf_step *mf_steps(size_t *count)
{
    *count = sizeof rows / sizeof rows[0];
    return rows;
}
