/* The order in each row is that of the enumeration in the public header. */
#include "paper/names.h"

#include <stddef.h>

#define LIST(...)                                                                                  \
    (const char *const[])                                                                          \
    {                                                                                              \
        __VA_ARGS__, NULL                                                                          \
    }

static const char *const *const families[MF_FAM_COUNT] = {
    [MF_FAM_BASIS] = LIST("paper.basis.none", "paper.basis.xrf", "paper.basis.determination",
                          "paper.basis.kit", "paper.basis.chip"),
    [MF_FAM_BUILDING] = LIST("paper.building.dwelling", "paper.building.multi",
                             "paper.building.facility", "paper.building.other"),
    [MF_FAM_CLASS] =
        LIST("paper.class.negative", "paper.class.inconclusive", "paper.class.positive"),
    [MF_FAM_CLOTH] = LIST("paper.cloth.none", "paper.cloth.new", "paper.cloth.fold"),
    [MF_FAM_COMPONENT] = LIST(
        "paper.component.sash", "paper.component.interior-sill", "paper.component.apron",
        "paper.component.interior-casing", "paper.component.stop", "paper.component.jamb",
        "paper.component.trough", "paper.component.exterior-sill",
        "paper.component.exterior-casing", "paper.component.door-slab", "paper.component.threshold",
        "paper.component.baseboard", "paper.component.wall", "paper.component.other"),
    [MF_FAM_COVER] =
        LIST("cover.built-before", "cover.year-unknown", "cover.built-later", "cover.not-for-pay",
             "cover.elder-housing", "cover.zero-bedroom", "cover.nothing-painted", "cover.all-free",
             "cover.minor", "cover.no-facility", "cover.zero-bedroom-before"),
    [MF_FAM_DELIVERY] = LIST("paper.delivery.acknowledged", "paper.delivery.mailed",
                             "paper.delivery.self-certified", "paper.delivery.posted",
                             "paper.delivery.unit-notice"),
    [MF_FAM_DISCIPLINE] =
        LIST("paper.discipline.firm", "paper.discipline.renovator", "paper.discipline.inspector",
             "paper.discipline.risk-assessor", "paper.discipline.dust-technician"),
    [MF_FAM_DOUBT] = LIST(
        "paper.nothing", "doubt.untested", "doubt.inconclusive", "doubt.xrf-by-renovator",
        "doubt.certificate", "doubt.no-determination", "doubt.no-copy", "doubt.calibration",
        "doubt.kit-tester", "doubt.kit-unrecognized", "doubt.kit-substrate", "doubt.chip-sampler",
        "doubt.laboratory", "doubt.after-work", "doubt.contradiction", "doubt.not-painted"),
    [MF_FAM_DUST_SURFACE] = LIST("paper.dust.floor", "paper.dust.sill", "paper.dust.trough"),
    [MF_FAM_DUST_VERDICT] = LIST("paper.dust.pass", "paper.dust.fail", "paper.dust.not-shown",
                                 "paper.dust.wrong-sampler", "paper.dust.wrong-lab"),
    [MF_FAM_DUTY] = LIST("paper.duty.renovator", "paper.duty.worker"),
    [MF_FAM_EMPLOYER] = LIST("paper.employer.unsaid", "paper.employer.firm", "paper.employer.owner",
                             "paper.employer.independent"),
    [MF_FAM_FACT] = LIST("paper.fact.verified", "paper.fact.secondary", "paper.fact.memory",
                         "paper.fact.derived"),
    [MF_FAM_GROUND] = LIST("ground.own-words", "ground.none-present", "ground.not-used",
                           "ground.one-story", "ground.all-carpet", "ground.impossible"),
    [MF_FAM_METHOD] =
        LIST("paper.method.hand", "paper.method.open-flame", "paper.method.machine",
             "paper.method.heat-gun", "paper.method.dry-scrape", "paper.method.dry-sand",
             "paper.method.stripper", "paper.method.demolition", "paper.method.blasting"),
    [MF_FAM_NOTICE] =
        LIST("paper.notice.good", "paper.notice.too-early", "paper.notice.too-late",
             "paper.notice.wrong-method", "paper.notice.unsigned", "paper.notice.incomplete",
             "paper.notice.no-statement", "paper.notice.none"),
    [MF_FAM_OPENING] = LIST("paper.opening.window", "paper.opening.door"),
    [MF_FAM_PAINT] = LIST("paint.lead", "paint.presumed", "paint.free", "paint.unpainted"),
    [MF_FAM_PHASE] = LIST("paper.phase.contain", "paper.phase.work", "paper.phase.clean"),
    [MF_FAM_REFUSAL] = LIST(
        "paper.nothing", "refused.not-looked", "refused.already-clean", "refused.reclean-first",
        "refused.not-darker", "refused.no-third-wet", "refused.dry-too-soon", "refused.not-dry",
        "refused.dry-unwiped", "refused.needs-new-cloth", "refused.cloth-unsaid",
        "refused.out-of-order", "refused.no-time", "refused.no-section", "refused.exterior"),
    [MF_FAM_RESULT] =
        LIST("paper.class.positive", "paper.class.negative", "paper.class.inconclusive"),
    [MF_FAM_ROLE] = LIST("paper.role.owner", "paper.role.occupant", "paper.role.facility",
                         "paper.role.parents", "paper.role.units"),
    [MF_FAM_SIDE] = LIST("side.interior", "side.exterior"),
    [MF_FAM_STEP] =
        LIST("step-state.open", "step-state.done", "step-state.not-needed", "step-state.short",
             "step-state.unmeasured", "step-state.no-renovator", "step-state.no-reason",
             "step-state.own-words", "step-state.no-ground", "step-state.contradicted"),
    [MF_FAM_SUBSTRATE] =
        LIST("paper.substrate.brick", "paper.substrate.concrete", "paper.substrate.drywall",
             "paper.substrate.metal", "paper.substrate.plaster", "paper.substrate.wood"),
    [MF_FAM_SURFACE] =
        LIST("paper.surface.sill", "paper.surface.floor", "paper.surface.countertop"),
    [MF_FAM_VERDICT] =
        LIST("paper.verdict.met", "paper.verdict.lacking", "paper.verdict.warning",
             "paper.verdict.not-due", "paper.verdict.pending", "paper.verdict.not-now"),
    [MF_FAM_VERSTATE] =
        LIST("ver.unwiped", "ver.reclean", "ver.second", "ver.waiting", "ver.clean"),
    [MF_FAM_WHEN] = LIST("paper.when.always", "paper.when.objects", "paper.when.ducts",
                         "paper.when.doors-used", "paper.when.carpet", "paper.when.near-line",
                         "paper.when.storeys", "paper.when.chosen"),
    [MF_FAM_WIPE] = LIST("paper.wipe.look-clean", "paper.wipe.look-dirty", "paper.wipe.wet-match",
                         "paper.wipe.wet-darker", "paper.wipe.recleaned", "paper.wipe.seen-dry",
                         "paper.wipe.dry"),
    [MF_FAM_WORK] = LIST("paper.work.windows", "paper.work.doors", "paper.work.repair",
                         "paper.work.demolition", "paper.work.other"),
};

const char *mf_name_id(mf_family family, int value)
{
    const char *const *list = families[family];
    for (int i = 0; list[i] != NULL; i++)
        if (i == value)
            return list[i];
    return "";
}

const char *mf_name(mf_lang lang, mf_family family, int value)
{
    const char *id = mf_name_id(family, value);
    const char *words = *id == '\0' ? NULL : mf_words(lang, id);
    if (words != NULL)
        return words;
    return *id == '\0' ? "?" : id;
}
