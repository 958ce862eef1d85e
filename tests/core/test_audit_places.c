/* What is said of work areas that were changed and of windows that are not described
 * whole. The days and jobs are constructed (support/fixture_job.h). */
#include "core/finding.h"

#include <mistfold/contain.h>
#include <mistfold/paint.h>

static const mf_finding *told(const char *why)
{
    size_t n = find_on(FX_TODAY, "");
    for (size_t i = 0; i < n; i++)
        if (strcmp(found[i].why, why) == 0)
            return &found[i];
    return NULL;
}

/* 745.85(a)(2): the containment that was ticked is that of the area as it was then. */
static void an_area_that_was_changed(void **state)
{
    static const struct {
        const char *changed, *ticked;
        bool told;
    } of[] = {
        {"2026-09-14T12:00:01Z", "2026-09-14T12:00:00Z", true},
        {"2026-09-14T12:00:00Z", "2026-09-14T12:00:00Z", false},
        {"2026-09-14T11:59:59Z", "2026-09-14T12:00:00Z", false},
        {NULL, "2026-09-14T12:00:00Z", false},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.job.n_completion = fx.job.n_verification = fx.job.n_dust_sample = 0;
        for (size_t k = 0; k < fx.job.n_tick; k++) {
            fx.tick[k].src.at = of[i].ticked;
            if (strcmp(fx.tick[k].step, "sheeting") == 0 || strcmp(fx.tick[k].step, "divider") == 0)
                fx.tick[k].state = MF_TICK_UNDONE;
        }
        fx.correction[0] = (mf_correction){.src = {"c/9", of[i].changed, "rosa", ""},
                                           .target = fx.area[0].src.entry};
        fx.job.n_correction = 1;
        fx.area[0].src.correction = of[i].changed == NULL ? "" : "c/9";
        const mf_finding *it = told("area-changed");
        CHECK_ROW((it != NULL) == of[i].told, of[i].changed);
        CHECK_ROW(it == NULL || (it->verdict == MF_WARNING && strcmp(it->subject, "A1") == 0 &&
                                 it->d1 == day("2026-09-14")),
                  of[i].changed);
    }
}

/* It was folded and laid again, and changed after that. */
static void an_area_contained_anew_and_changed(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_completion = 0;
    for (size_t k = 0; k < fx.job.n_tick; k++)
        if (mf_step_named(fx.tick[k].step)->phase == MF_PHASE_CONTAIN)
            fx.tick[k].on = day("2026-09-20");
    assert_string_equal(finding("contained-still", "A1")->why, "contained-anew");
    fx.correction[0] = (mf_correction){.src = {"c/9", "2026-09-20T12:00:00Z", "rosa", ""}};
    fx.job.n_correction = 1;
    fx.area[0].src.correction = "c/9";
    assert_string_equal(finding("contained-still", "A1")->why, "area-changed");
    fx.area[0].src.correction = "c/8"; /* not of this job */
    assert_string_equal(finding("contained-still", "A1")->why, "contained-anew");
}

/* The usual parts of what is replaced: common practice, no source. */
static void a_part_unlisted(void **state)
{
    static const struct {
        const char *work;
        mf_opening_kind kind;
        size_t taken; /* the part of W02 that is another window's */
        const char *why;
    } of[] = {
        {"window-replacement", MF_OPENING_WINDOW, 4, "opening-part-unlisted"},
        {"window-replacement", MF_OPENING_WINDOW, 2, "opening-part-unlisted"},
        {"window-replacement", MF_OPENING_WINDOW, 5, NULL},
        {"window-replacement", MF_OPENING_DOOR, 4, NULL},
        {"door-replacement", MF_OPENING_DOOR, 4, "opening-part-unlisted"},
        {"repair,door-replacement", MF_OPENING_DOOR, 5, "opening-part-unlisted"},
        {"repair", MF_OPENING_WINDOW, 4, NULL},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.house.work = of[i].work;
        fx.opening[1].kind = of[i].kind;
        fx.component[of[i].taken].opening = "W01";
        fx.component[4].type = MF_COMP_EXTERIOR_SILL;
        fx.opening[1].absent =
            "apron,interior-sill,interior-casing,stop,jamb,trough,exterior-casing";
        const mf_finding *it = finding("components-listed", NULL);
        CHECK_ROW(it->verdict == (of[i].why == NULL ? MF_MET : MF_WARNING), of[i].why);
        CHECK_ROW(of[i].why == NULL ||
                      (strcmp(it->why, of[i].why) == 0 && strcmp(it->subject, "W02") == 0),
                  of[i].why);
    }
}

/* A side that is not there takes its own parts along, not those of no side: sash, stop, jamb. */
static void a_side_takes_its_own_parts(void **state)
{
    mf_usual_part part;
    (void)state;
    for (size_t i = 0; mf_usual_part_at(MF_OPENING_WINDOW, i, &part); i++) {
        bool inside = part.type == MF_COMP_INTERIOR_SILL || part.type == MF_COMP_APRON ||
                      part.type == MF_COMP_INTERIOR_CASING;
        assert_int_equal(mf_usual_part_absent(MF_OPENING_WINDOW, i, "interior"), inside);
        assert_int_equal(mf_usual_part_absent(MF_OPENING_WINDOW, i, "trough,stop"),
                         part.type == MF_COMP_TROUGH || part.type == MF_COMP_STOP);
        assert_false(mf_usual_part_absent(MF_OPENING_WINDOW, i, ""));
    }
    assert_false(mf_usual_part_absent(MF_OPENING_WINDOW, 99, "interior"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_area_that_was_changed),
        cmocka_unit_test(an_area_contained_anew_and_changed),
        cmocka_unit_test(a_part_unlisted),
        cmocka_unit_test(a_side_takes_its_own_parts),
    };
    return cmocka_run_group_tests_name("audit_places", tests, NULL, NULL);
}
