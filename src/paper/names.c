/* Each word stands beside its value, so that a value which is added moves no other. */
#include "paper/names.h"

#include <mistfold/audit.h>
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/notice.h>
#include <mistfold/paint.h>
#include <mistfold/place.h>
#include <stddef.h>

#define LIST(...)                                                                                  \
    (const char *const[])                                                                          \
    {                                                                                              \
        __VA_ARGS__, NULL                                                                          \
    }

static const char *const *const families[MF_FAM_COUNT] = {
    [MF_FAM_BASIS] = LIST([MF_BASIS_NONE] = "paper.basis.none", [MF_BASIS_XRF] = "paper.basis.xrf",
                          [MF_BASIS_DETERMINATION] = "paper.basis.determination",
                          [MF_BASIS_KIT] = "paper.basis.kit", [MF_BASIS_CHIP] = "paper.basis.chip"),
    [MF_FAM_BUILDING] = LIST([MF_BUILDING_DWELLING] = "paper.building.dwelling",
                             [MF_BUILDING_MULTI] = "paper.building.multi",
                             [MF_BUILDING_FACILITY] = "paper.building.facility",
                             [MF_BUILDING_OTHER] = "paper.building.other"),
    [MF_FAM_CLASS] = LIST([MF_CLASS_NEGATIVE] = "paper.class.negative",
                          [MF_CLASS_INCONCLUSIVE] = "paper.class.inconclusive",
                          [MF_CLASS_POSITIVE] = "paper.class.positive"),
    [MF_FAM_CLOTH] = LIST([MF_CLOTH_NONE] = "paper.cloth.none", [MF_CLOTH_NEW] = "paper.cloth.new",
                          [MF_CLOTH_FRESH_FOLD] = "paper.cloth.fold"),
    [MF_FAM_COMPONENT] =
        LIST([MF_COMP_SASH] = "paper.component.sash",
             [MF_COMP_INTERIOR_SILL] = "paper.component.interior-sill",
             [MF_COMP_APRON] = "paper.component.apron",
             [MF_COMP_INTERIOR_CASING] = "paper.component.interior-casing",
             [MF_COMP_STOP] = "paper.component.stop", [MF_COMP_JAMB] = "paper.component.jamb",
             [MF_COMP_TROUGH] = "paper.component.trough",
             [MF_COMP_EXTERIOR_SILL] = "paper.component.exterior-sill",
             [MF_COMP_EXTERIOR_CASING] = "paper.component.exterior-casing",
             [MF_COMP_DOOR_SLAB] = "paper.component.door-slab",
             [MF_COMP_THRESHOLD] = "paper.component.threshold",
             [MF_COMP_BASEBOARD] = "paper.component.baseboard",
             [MF_COMP_WALL] = "paper.component.wall", [MF_COMP_OTHER] = "paper.component.other"),
    [MF_FAM_COVER] = LIST([MF_COVER_BUILT_BEFORE] = "cover.built-before",
                          [MF_COVER_YEAR_UNKNOWN] = "cover.year-unknown",
                          [MF_COVER_BUILT_LATER] = "cover.built-later",
                          [MF_COVER_NOT_FOR_PAY] = "cover.not-for-pay",
                          [MF_COVER_ELDER_HOUSING] = "cover.elder-housing",
                          [MF_COVER_ZERO_BEDROOM] = "cover.zero-bedroom",
                          [MF_COVER_NOTHING_PAINTED] = "cover.nothing-painted",
                          [MF_COVER_ALL_FREE] = "cover.all-free", [MF_COVER_MINOR] = "cover.minor",
                          [MF_COVER_NO_FACILITY] = "cover.no-facility",
                          [MF_COVER_ZERO_BEDROOM_BEFORE] = "cover.zero-bedroom-before"),
    [MF_FAM_DELIVERY] = LIST([MF_DELIVERY_ACKNOWLEDGED] = "paper.delivery.acknowledged",
                             [MF_DELIVERY_MAILED] = "paper.delivery.mailed",
                             [MF_DELIVERY_SELF_CERTIFIED] = "paper.delivery.self-certified",
                             [MF_DELIVERY_POSTED] = "paper.delivery.posted",
                             [MF_DELIVERY_UNIT_NOTICE] = "paper.delivery.unit-notice"),
    [MF_FAM_DISCIPLINE] = LIST([MF_DISC_FIRM] = "paper.discipline.firm",
                               [MF_DISC_RENOVATOR] = "paper.discipline.renovator",
                               [MF_DISC_INSPECTOR] = "paper.discipline.inspector",
                               [MF_DISC_RISK_ASSESSOR] = "paper.discipline.risk-assessor",
                               [MF_DISC_DUST_TECHNICIAN] = "paper.discipline.dust-technician"),
    [MF_FAM_DOUBT] = LIST(
        [MF_DOUBT_NONE] = "paper.nothing", [MF_DOUBT_UNTESTED] = "doubt.untested",
        [MF_DOUBT_INCONCLUSIVE] = "doubt.inconclusive",
        [MF_DOUBT_XRF_BY_RENOVATOR] = "doubt.xrf-by-renovator",
        [MF_DOUBT_CERTIFICATE] = "doubt.certificate",
        [MF_DOUBT_NO_DETERMINATION] = "doubt.no-determination",
        [MF_DOUBT_NO_METHOD] = "doubt.no-method", [MF_DOUBT_NO_COPY] = "doubt.no-copy",
        [MF_DOUBT_CALIBRATION] = "doubt.calibration", [MF_DOUBT_KIT_TESTER] = "doubt.kit-tester",
        [MF_DOUBT_KIT_UNRECOGNIZED] = "doubt.kit-unrecognized",
        [MF_DOUBT_KIT_SUBSTRATE] = "doubt.kit-substrate",
        [MF_DOUBT_KIT_UNSAID] = "doubt.kit-unsaid", [MF_DOUBT_SUBSTRATE] = "doubt.substrate",
        [MF_DOUBT_LOCAL_LEVEL] = "doubt.local-level",
        [MF_DOUBT_CHIP_SAMPLER] = "doubt.chip-sampler", [MF_DOUBT_LABORATORY] = "doubt.laboratory",
        [MF_DOUBT_AFTER_WORK] = "doubt.after-work", [MF_DOUBT_AFTER_START] = "doubt.after-start",
        [MF_DOUBT_SAME_DAY] = "doubt.same-day", [MF_DOUBT_CONTRADICTION] = "doubt.contradiction",
        [MF_DOUBT_UNPAINTED] = "doubt.not-painted"),
    [MF_FAM_DUST_SURFACE] =
        LIST([MF_DUST_FLOOR] = "paper.dust.floor", [MF_DUST_SILL] = "paper.dust.sill",
             [MF_DUST_TROUGH] = "paper.dust.trough"),
    [MF_FAM_DUST_VERDICT] =
        LIST([MF_DUST_PASS] = "paper.dust.pass", [MF_DUST_FAIL] = "paper.dust.fail",
             [MF_DUST_NOT_SHOWN] = "paper.dust.not-shown",
             [MF_DUST_WRONG_SAMPLER] = "paper.dust.wrong-sampler",
             [MF_DUST_WRONG_LAB] = "paper.dust.wrong-lab"),
    [MF_FAM_DUTY] =
        LIST([MF_DUTY_RENOVATOR] = "paper.duty.renovator", [MF_DUTY_WORKER] = "paper.duty.worker"),
    [MF_FAM_EMPLOYER] = LIST([MF_EMPLOYER_UNSAID] = "paper.employer.unsaid",
                             [MF_EMPLOYER_FIRM] = "paper.employer.firm",
                             [MF_EMPLOYER_OWNER] = "paper.employer.owner",
                             [MF_EMPLOYER_INDEPENDENT] = "paper.employer.independent"),
    [MF_FAM_FACT] =
        LIST([MF_VERIFIED] = "paper.fact.verified", [MF_SECONDARY] = "paper.fact.secondary",
             [MF_MEMORY] = "paper.fact.memory", [MF_DERIVED] = "paper.fact.derived"),
    [MF_FAM_GROUND] = LIST(
        [MF_GROUND_OWN_WORDS] = "ground.own-words",
        [MF_GROUND_NONE_PRESENT] = "ground.none-present", [MF_GROUND_NOT_USED] = "ground.not-used",
        [MF_GROUND_ONE_STORY] = "ground.one-story", [MF_GROUND_ALL_CARPET] = "ground.all-carpet",
        [MF_GROUND_IMPOSSIBLE] = "ground.impossible"),
    [MF_FAM_METHOD] = LIST([MF_METHOD_HAND] = "paper.method.hand",
                           [MF_METHOD_OPEN_FLAME] = "paper.method.open-flame",
                           [MF_METHOD_MACHINE] = "paper.method.machine",
                           [MF_METHOD_HEAT_GUN] = "paper.method.heat-gun",
                           [MF_METHOD_DRY_SCRAPE] = "paper.method.dry-scrape",
                           [MF_METHOD_DRY_SAND] = "paper.method.dry-sand",
                           [MF_METHOD_STRIPPER] = "paper.method.stripper",
                           [MF_METHOD_DEMOLITION] = "paper.method.demolition",
                           [MF_METHOD_BLASTING] = "paper.method.blasting"),
    [MF_FAM_NOTICE] = LIST([MF_NOTICE_GOOD] = "paper.notice.good",
                           [MF_NOTICE_TOO_EARLY] = "paper.notice.too-early",
                           [MF_NOTICE_TOO_LATE] = "paper.notice.too-late",
                           [MF_NOTICE_WRONG_METHOD] = "paper.notice.wrong-method",
                           [MF_NOTICE_UNSIGNED] = "paper.notice.unsigned",
                           [MF_NOTICE_SIGNED_FIRST] = "paper.notice.signed-first",
                           [MF_NOTICE_INCOMPLETE] = "paper.notice.incomplete",
                           [MF_NOTICE_NO_STATEMENT] = "paper.notice.no-statement",
                           [MF_NOTICE_NONE] = "paper.notice.none"),
    [MF_FAM_OPENING] = LIST([MF_OPENING_WINDOW] = "paper.opening.window", [MF_OPENING_DOOR] =
                                                                              "paper.opening.door"),
    [MF_FAM_PAINT] = LIST([MF_PAINT_LEAD] = "paint.lead", [MF_PAINT_PRESUMED] = "paint.presumed",
                          [MF_PAINT_FREE] = "paint.free", [MF_PAINT_UNPAINTED] = "paint.unpainted"),
    [MF_FAM_PHASE] =
        LIST([MF_PHASE_CONTAIN] = "paper.phase.contain", [MF_PHASE_WORK] = "paper.phase.work",
             [MF_PHASE_CLEAN] = "paper.phase.clean"),
    [MF_FAM_REFUSAL] = LIST(
        [MF_VR_NONE] = "paper.nothing", [MF_VR_NOT_LOOKED] = "refused.not-looked",
        [MF_VR_ALREADY_CLEAN] = "refused.already-clean",
        [MF_VR_RECLEAN_FIRST] = "refused.reclean-first", [MF_VR_NOT_DARKER] = "refused.not-darker",
        [MF_VR_NO_THIRD_WET] = "refused.no-third-wet",
        [MF_VR_DRY_TOO_SOON] = "refused.dry-too-soon", [MF_VR_NOT_DRY] = "refused.not-dry",
        [MF_VR_DRY_UNWIPED] = "refused.dry-unwiped",
        [MF_VR_NEEDS_NEW_CLOTH] = "refused.needs-new-cloth",
        [MF_VR_CLOTH_UNSAID] = "refused.cloth-unsaid",
        [MF_VR_OUT_OF_ORDER] = "refused.out-of-order", [MF_VR_NO_TIME] = "refused.no-time",
        [MF_VR_NO_SECTION] = "refused.no-section", [MF_VR_EXTERIOR] = "refused.exterior",
        [MF_VR_CLOCKS_APART] = "refused.clocks-apart"),
    [MF_FAM_RESULT] =
        LIST([MF_RES_POSITIVE] = "paper.class.positive", [MF_RES_NEGATIVE] = "paper.class.negative",
             [MF_RES_INCONCLUSIVE] = "paper.class.inconclusive"),
    [MF_FAM_ROLE] =
        LIST([MF_ROLE_OWNER] = "paper.role.owner", [MF_ROLE_OCCUPANT] = "paper.role.occupant",
             [MF_ROLE_FACILITY] = "paper.role.facility", [MF_ROLE_PARENTS] = "paper.role.parents",
             [MF_ROLE_UNITS] = "paper.role.units"),
    [MF_FAM_SIDE] =
        LIST([MF_SIDE_INTERIOR] = "side.interior", [MF_SIDE_EXTERIOR] = "side.exterior"),
    [MF_FAM_STEP] = LIST(
        [MF_STEP_OPEN] = "step-state.open", [MF_STEP_DONE] = "step-state.done",
        [MF_STEP_NOT_NEEDED] = "step-state.not-needed", [MF_STEP_SHORT] = "step-state.short",
        [MF_STEP_UNMEASURED] = "step-state.unmeasured",
        [MF_STEP_NO_RENOVATOR] = "step-state.no-renovator",
        [MF_STEP_NO_REASON] = "step-state.no-reason", [MF_STEP_OWN_WORDS] = "step-state.own-words",
        [MF_STEP_NO_GROUND] = "step-state.no-ground",
        [MF_STEP_CONTRADICTED] = "step-state.contradicted"),
    [MF_FAM_SUBSTRATE] = LIST(
        [MF_SUB_BRICK] = "paper.substrate.brick", [MF_SUB_CONCRETE] = "paper.substrate.concrete",
        [MF_SUB_DRYWALL] = "paper.substrate.drywall", [MF_SUB_METAL] = "paper.substrate.metal",
        [MF_SUB_PLASTER] = "paper.substrate.plaster", [MF_SUB_WOOD] = "paper.substrate.wood"),
    [MF_FAM_SURFACE] =
        LIST([MF_SURFACE_SILL] = "paper.surface.sill", [MF_SURFACE_FLOOR] = "paper.surface.floor",
             [MF_SURFACE_COUNTERTOP] = "paper.surface.countertop"),
    [MF_FAM_VERDICT] =
        LIST([MF_MET] = "paper.verdict.met", [MF_LACKING] = "paper.verdict.lacking",
             [MF_WARNING] = "paper.verdict.warning", [MF_NOT_DUE] = "paper.verdict.not-due",
             [MF_PENDING] = "paper.verdict.pending", [MF_NOT_NOW] = "paper.verdict.not-now"),
    [MF_FAM_WHEN] =
        LIST([MF_WHEN_ALWAYS] = "paper.when.always", [MF_WHEN_OBJECTS] = "paper.when.objects",
             [MF_WHEN_DUCTS] = "paper.when.ducts", [MF_WHEN_DOORS_USED] = "paper.when.doors-used",
             [MF_WHEN_CARPET] = "paper.when.carpet", [MF_WHEN_NEAR_LINE] = "paper.when.near-line",
             [MF_WHEN_STOREYS] = "paper.when.stories", [MF_WHEN_ASSISTED] = "paper.when.assisted",
             [MF_WHEN_CHOSEN] = "paper.when.chosen"),
    [MF_FAM_WIPE] = LIST(
        [MF_VER_LOOK_CLEAN] = "paper.wipe.look-clean",
        [MF_VER_LOOK_DIRTY] = "paper.wipe.look-dirty", [MF_VER_WET_MATCH] = "paper.wipe.wet-match",
        [MF_VER_WET_DARKER] = "paper.wipe.wet-darker", [MF_VER_RECLEANED] = "paper.wipe.recleaned",
        [MF_VER_SEEN_DRY] = "paper.wipe.seen-dry", [MF_VER_DRY_WIPE] = "paper.wipe.dry"),
    [MF_FAM_WORK] = LIST(
        [MF_WORK_WINDOW_REPLACEMENT] = "paper.work.windows",
        [MF_WORK_DOOR_REPLACEMENT] = "paper.work.doors", [MF_WORK_REPAIR] = "paper.work.repair",
        [MF_WORK_DEMOLITION] = "paper.work.demolition", [MF_WORK_OTHER] = "paper.work.other"),
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
