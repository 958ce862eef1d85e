/* Every value of an enumeration that a paper prints has words, in both languages, and none has
 * those of another. All constructed. */
#include "support/cmocka_all.h"

#include "paper/names.h"

#include <mistfold/audit.h>
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <mistfold/notice.h>
#include <mistfold/paint.h>
#include <mistfold/place.h>
#include <string.h>

static const struct {
    mf_family family;
    int last;
    const char *name;
} families[] = {
    {MF_FAM_BASIS, MF_BASIS_CHIP, "mf_paint_basis"},
    {MF_FAM_BUILDING, MF_BUILDING_OTHER, "mf_building"},
    {MF_FAM_CLASS, MF_CLASS_POSITIVE, "mf_paint_class"},
    {MF_FAM_CLOTH, MF_CLOTH_FRESH_FOLD, "mf_cloth"},
    {MF_FAM_COMPONENT, MF_COMP_OTHER, "mf_component_type"},
    {MF_FAM_COVER, MF_COVER_ZERO_BEDROOM_BEFORE, "mf_cover_why"},
    {MF_FAM_DELIVERY, MF_DELIVERY_UNIT_NOTICE, "mf_delivery"},
    {MF_FAM_DISCIPLINE, MF_DISC_DUST_TECHNICIAN, "mf_discipline"},
    {MF_FAM_DOUBT, MF_DOUBT_UNPAINTED, "mf_paint_doubt"},
    {MF_FAM_DUST_SURFACE, MF_DUST_TROUGH, "mf_dust_surface"},
    {MF_FAM_DUST_VERDICT, MF_DUST_WRONG_LAB, "mf_dust_verdict"},
    {MF_FAM_DUTY, MF_DUTY_WORKER, "mf_duty"},
    {MF_FAM_EMPLOYER, MF_EMPLOYER_INDEPENDENT, "mf_employer"},
    {MF_FAM_FACT, MF_DERIVED, "mf_status_of_fact"},
    {MF_FAM_GROUND, MF_GROUND_IMPOSSIBLE, "mf_ground"},
    {MF_FAM_METHOD, MF_METHOD_BLASTING, "mf_method"},
    {MF_FAM_NOTICE, MF_NOTICE_NONE, "mf_notice_fault"},
    {MF_FAM_OPENING, MF_OPENING_DOOR, "mf_opening_kind"},
    {MF_FAM_PAINT, MF_PAINT_UNPAINTED, "mf_paint_verdict"},
    {MF_FAM_PHASE, MF_PHASE_CLEAN, "mf_phase"},
    {MF_FAM_REFUSAL, MF_VR_CLOCKS_APART, "mf_ver_refusal"},
    {MF_FAM_RESULT, MF_RES_INCONCLUSIVE, "mf_result"},
    {MF_FAM_ROLE, MF_ROLE_UNITS, "mf_role"},
    {MF_FAM_SIDE, MF_SIDE_EXTERIOR, "mf_side"},
    {MF_FAM_STEP, MF_STEP_CONTRADICTED, "mf_step_state"},
    {MF_FAM_SUBSTRATE, MF_SUB_WOOD, "mf_substrate"},
    {MF_FAM_SURFACE, MF_SURFACE_COUNTERTOP, "mf_surface_kind"},
    {MF_FAM_VERDICT, MF_NOT_NOW, "mf_verdict"},
    {MF_FAM_WHEN, MF_WHEN_CHOSEN, "mf_step_when"},
    {MF_FAM_WIPE, MF_VER_DRY_WIPE, "mf_wipe_event"},
    {MF_FAM_WORK, MF_WORK_OTHER, "mf_work_kind"},
};

static void each_value_has_words(void **state)
{
    (void)state;
    assert_int_equal(sizeof families / sizeof families[0], MF_FAM_COUNT);
    for (size_t i = 0; i < MF_FAM_COUNT; i++) {
        assert_int_equal(families[i].family, i);
        for (int value = 0; value <= families[i].last; value++) {
            const char *id = mf_name_id(families[i].family, value);
            if (*id == '\0' || mf_words(MF_LANG_EN, id) == NULL || mf_words(MF_LANG_ES, id) == NULL)
                fail_msg("%s %d: no words", families[i].name, value);
            for (int before = 0; before < value; before++)
                if (strcmp(id, mf_name_id(families[i].family, before)) == 0)
                    fail_msg("%s %d: the words of %d", families[i].name, value, before);
        }
        assert_string_equal(mf_name_id(families[i].family, families[i].last + 1), "");
        assert_string_equal(mf_name(MF_LANG_EN, families[i].family, -1), "?");
    }
}

/* Values that were once added in the middle and took the words of the next one. */
static void each_has_its_own(void **state)
{
    (void)state;
    assert_string_equal(mf_name_id(MF_FAM_WHEN, MF_WHEN_ASSISTED), "paper.when.assisted");
    assert_string_equal(mf_name_id(MF_FAM_WHEN, MF_WHEN_CHOSEN), "paper.when.chosen");
    assert_string_equal(mf_name_id(MF_FAM_NOTICE, MF_NOTICE_SIGNED_FIRST),
                        "paper.notice.signed-first");
    assert_string_equal(mf_name_id(MF_FAM_NOTICE, MF_NOTICE_NONE), "paper.notice.none");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_value_has_words),
                                       cmocka_unit_test(each_has_its_own)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
