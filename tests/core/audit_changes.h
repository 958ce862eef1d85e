/* audit_changes.h - the one thing taken out of a good job for each requirement,
 * with the paragraph it breaks. */
#ifndef MF_TESTS_CORE_AUDIT_CHANGES_H
#define MF_TESTS_CORE_AUDIT_CHANGES_H

#include "support/fixture_job.h"

#include <mistfold/contain.h>
#include <string.h>

/* 745.86(a): on another device the job is of a house built in 1990 */
static void house_twice(fixture *fx)
{
    static mf_house two[2];
    two[0] = two[1] = fx->house;
    two[0].year_built = 1990;
    fx->job.house = two;
    fx->job.n_house = 2;
}
static void built_1990(fixture *fx) /* 745.103: before 1978 */
{
    fx->house.year_built = 1990;
}
static void no_year(fixture *fx)
{
    fx->house.year_built = MF_NUM_NONE;
}
static void no_pay(fixture *fx)
{
    fx->house.for_compensation = MF_UNKNOWN;
}
static void no_owner_lives(fixture *fx)
{
    fx->house.owner_occupied = MF_UNKNOWN;
}
static void no_elder(fixture *fx)
{
    fx->house.elder_or_disabled = MF_UNKNOWN;
}
static void no_bedroom(fixture *fx)
{
    fx->house.zero_bedroom = MF_UNKNOWN;
}
static void no_child(fixture *fx) /* 745.103: the exemption depends on it */
{
    fx->house.elder_or_disabled = MF_YES;
    fx->house.child_under_6 = MF_UNKNOWN;
}
static void emergency(fixture *fx) /* 745.82(b) */
{
    fx_add_emergency(fx, MF_CAUSE_SUDDEN_EVENT, "pamphlet", "open to the rain");
}
static void emergency_no_note(fixture *fx) /* 745.86(b)(6) */
{
    fx_add_emergency(fx, MF_CAUSE_SUDDEN_EVENT, "waste", "");
}
static void emergency_cleaning(fixture *fx) /* 745.82(b): cleaning is never waived */
{
    fx_add_emergency(fx, MF_CAUSE_SUDDEN_EVENT, "signs,cleaning", "open to the rain");
}
static void shop_without_visits(fixture *fx) /* 745.83, child-occupied facility */
{
    fx->house.building = MF_BUILDING_OTHER;
}
static void shop_where_children_live(fixture *fx) /* 745.103: somebody lives there */
{
    fx->house.building = MF_BUILDING_OTHER;
    fx->house.children_visit = MF_NOT;
}
static void nothing_listed_outside(fixture *fx) /* 745.82(a)(1)-(3): each component */
{
    fx->component[1].affected = MF_NOT;
}
static void moved_out(fixture *fx) /* 24 CFR 35.1345(a): of assisted housing */
{
    fx->occupancy[0] = (mf_occupancy){.src = {"oc/1", "", "", ""},
                                      .stay = MF_STAY_RELOCATED,
                                      .kept_out = MF_YES,
                                      .from = fx_day("2026-09-14"),
                                      .until = fx_day("2026-09-16")};
    fx->job.n_occupancy = 1;
}
static void repair_7_sqft(fixture *fx) /* 745.83: up to 6 sq ft a room */
{
    fx->house.work = "repair";
    for (size_t i = 0; i < fx->job.n_component; i++)
        fx->component[i].disturbed_sqft_100 = 350; /* twice in the kitchen */
}
static void place_without_rows(fixture *fx) /* 745.81(a): a state may run its own */
{
    fx->house.place = "US-OH";
}
static void place_of_own_program(fixture *fx) /* subpart Q: its certificates count there */
{
    fx->house.place = "US-WI";
}
static void owner_record_no_copy(fixture *fx) /* 745.82(a)(1): the firm holds a copy */
{
    fx->owner_record[0] = (mf_owner_record){.src = {"ow/1", "2026-09-14T12:00:00Z", "rosa", ""},
                                            .report = "R-12",
                                            .assessor = "Ari Invented",
                                            .number = "I-5",
                                            .issuer = "invented",
                                            .discipline = MF_DISC_INSPECTOR,
                                            .on = fx_day("2019-05-02"),
                                            .expires = fx_day("2020-05-02"),
                                            .components = "W01.sash",
                                            .firm_has_copy = MF_NOT};
    fx->job.n_owner_record = 1;
}
static void no_components(fixture *fx)
{
    fx->job.n_component = fx->job.n_kit_test = fx->job.n_chip = fx->job.n_determination = 0;
}
static void wrong_laboratory(fixture *fx) /* 745.82(a)(3): NLLAP */
{
    fx->chip[0].nllap = MF_NOT;
}
static void contradicting_kit(fixture *fx)
{
    fx->kit_test[1] = fx->kit_test[0];
    fx->kit_test[1].component = "W02.sash";
    fx->job.n_kit_test = 2;
}
static void no_last_check(fixture *fx)
{
    fx->job.n_reading = 4;
}
static void no_copy(fixture *fx) /* 745.82(a)(1): the firm holds a copy */
{
    fx->determination[0].firm_has_copy = MF_NOT;
}
static void no_model(fixture *fx) /* 745.86(b)(1)(ii) */
{
    fx->kit_test[0].model = "";
}
static void no_lab_address(fixture *fx) /* 745.86(b)(1)(iii) */
{
    fx->chip[0].lab_address = "";
}
static void firm_lapsed(fixture *fx) /* 745.89(a): valid on 09-15, work to 09-16 */
{
    fx->certificate[0].expires = fx_day("2026-09-15");
}
static void assigned_late(fixture *fx) /* 745.89(d)(2) */
{
    fx->house.start = fx_day("2026-09-13"); /* assigned from 09-14 */
}
static void omar_lapsed(fixture *fx) /* 745.90(a)(4) */
{
    fx->certificate[2].expires = fx_day("2026-09-13");
}
static void omar_no_number(fixture *fx) /* 745.86(b)(6) */
{
    fx->certificate[2].number = "";
}
static void stranger(fixture *fx) /* 745.89(d)(1) */
{
    fx->practice[0].person = "ines";
}
/* A guest whom nobody trained; on the list of people he would be told by person-assigned. */
static void stranger_contains(fixture *fx) /* 745.89(d)(1) */
{
    fx_tick(fx, "A1", "isolate")->person = "guest";
}
static void stranger_disturbs(fixture *fx) /* 745.89(d)(1) */
{
    fx->practice[0].person = "guest";
}
static void stranger_cleans(fixture *fx) /* 745.89(d)(1) */
{
    fx_tick(fx, "A1", "surfaces")->person = "guest";
}
static void trained_late(fixture *fx) /* 745.90(b)(2) */
{
    for (size_t i = 0; i < fx->job.n_tick; i++) /* or the cleaning is told as well */
        if (mf_step_named(fx->tick[i].step)->phase == MF_PHASE_CLEAN)
            fx->tick[i].person = "rosa";
    fx->training[0].on = fx_day("2026-09-15");
}
static void no_topics(fixture *fx) /* 745.86(b)(6)(i) */
{
    fx->training[0].topics = "";
}
static void no_tenant(fixture *fx) /* 745.84(a)(2) */
{
    fx_drop_party(fx, "tenant");
}
static void owner_61_days(fixture *fx) /* 745.84(a): 60 days are 07-16 */
{
    fx_notice(fx, "owner")->on = fx_notice(fx, "owner")->signed_on = fx_day("2026-07-15");
}
static void tenant_mailed_6_days(fixture *fx) /* 745.84(a)(2)(ii): 7 days are 09-07 */
{
    fx_notice(fx, "tenant")->method = MF_DELIVERY_MAILED;
    fx_notice(fx, "tenant")->on = fx_day("2026-09-08");
}
static void daycare_no_reason(fixture *fx) /* 745.84(c)(1)(ii)(A) */
{
    fx_notice(fx, "daycare")->method = MF_DELIVERY_SELF_CERTIFIED;
    fx_notice(fx, "daycare")->deliverers = "lee";
    fx_notice(fx, "daycare")->how = "by hand";
}
static void units_acknowledged(fixture *fx) /* 745.84(b)(2): notice or signs */
{
    fx_notice(fx, "units")->method = MF_DELIVERY_ACKNOWLEDGED;
}
static void parents_no_statement(fixture *fx) /* 745.84(c)(3) */
{
    fx_notice(fx, "parents")->has_statement = MF_NOT;
}
static void paper_of_other_road(fixture *fx) /* 745.84(d)(1): address of the unit */
{
    fx_notice(fx, "owner")->unit = "99 Other Road";
}
static void other_language(fixture *fx) /* 745.84(d)(3) */
{
    fx_notice(fx, "tenant")->language = "es";
}
static void no_areas(fixture *fx)
{
    fx->job.n_area = 0;
}
static void loose_opening(fixture *fx) /* 745.85(a)(2) */
{
    fx->area[2].openings = "";
}
static void loose_wall(fixture *fx)
{
    fx->component[3].room = "pantry";
}
static void heat_gun_1100(fixture *fx) /* 745.85(a)(3)(iii): only below */
{
    fx->practice[0].method = MF_METHOD_HEAT_GUN;
    fx->practice[0].temp_f = 1100;
}
static void owner_without(fixture *fx) /* 745.86(c)(1)(i) */
{
    fx_drop_handover(fx, "owner");
}
static void tenant_late(fixture *fx) /* 745.86(c)(1)(ii): invoice 09-20 */
{
    fx->handover[1].on = fx_day("2026-09-21");
}
static void daycare_without(fixture *fx)
{
    fx_drop_handover(fx, "daycare");
}
static void units_without(fixture *fx) /* 745.86(c)(2) */
{
    fx_drop_handover(fx, "units");
}
static void not_completed(fixture *fx)
{
    fx->job.n_completion = 0;
}
static void worker_certified_it(fixture *fx) /* 745.86(b)(6) */
{
    fx->certification[0].person = "lee";
}
static void assessor_no_number(fixture *fx) /* 745.86(b)(1)(i) */
{
    fx->certificate[3].number = "";
}
static void kit_nowhere(fixture *fx) /* 745.86(b)(1)(ii): with locations */
{
    fx->opening[0].elevation = "";
}
static void kit_no_lot(fixture *fx)
{
    fx->kit_test[0].lot = "";
}
/* HUD Guidelines ch. 7 s. III: what a reading comes to depends on the substrate. */
static void sash_of_metal(fixture *fx)
{
    fx->component[0].substrate = MF_SUB_METAL;
}
/* 745.82(a)(2): EPA's notices recognize kits by substrate. */
static void kit_without_substrates(fixture *fx)
{
    fx->kit_test[0].result = MF_RES_NEGATIVE;
    fx->kit_test[0].substrates = "";
}
static void chip_nowhere(fixture *fx) /* 745.86(b)(1)(iii) */
{
    fx->opening[1].room = "";
}
static void trained_before_course(fixture *fx) /* 745.90(b)(2): by a certified renovator */
{
    fx->training[1] = fx->training[0];
    fx->training[1].trainer = "omar";
    fx->training[1].on = fx_day("2024-05-09");
    fx->job.n_training = 2;
}
static void no_waste_topic(fixture *fx) /* 745.90(b)(2): for their tasks */
{
    fx->training[0].topics = "signs; containment; practices; cleaning";
}
static void no_statement_of_receipt(fixture *fx) /* 745.84(d)(1) */
{
    fx_notice(fx, "owner")->states_receipt = MF_UNKNOWN;
}
static void no_mailing_receipt(fixture *fx) /* 745.84(a)(2)(ii) */
{
    fx_notice(fx, "tenant")->method = MF_DELIVERY_MAILED;
    fx_notice(fx, "tenant")->receipt = MF_UNKNOWN;
}
static void units_no_dates(fixture *fx) /* 745.84(b)(2)(i) */
{
    fx_notice(fx, "units")->tells_dates = MF_UNKNOWN;
}
static void changed_untold(fixture *fx) /* 745.84(b)(4): before, not on the day */
{
    fx->scope_change[0].src.entry = "sc/1";
    fx->scope_change[0].what = "the hall as well";
    fx->scope_change[0].on = fx_day("2026-09-15");
    fx->job.n_scope_change = 1;
    fx->notice[2] = *fx_notice(fx, "units");
    fx->notice[2].of_change = MF_YES;
    fx->notice[2].on = fx_day("2026-09-15");
    fx->job.n_notice = 3;
}
static void no_method_outside(fixture *fx)
{
    fx->practice[1] = fx->practice[2];
    fx->job.n_practice = 2;
}
static void undirected(fixture *fx) /* 745.90(b)(1): performs or directs */
{
    fx_tick(fx, "A1", "waste-contained")->renovator = "";
}
static void line_not_given(fixture *fx)
{
    fx->area[1].line_ft_100 = MF_NUM_NONE;
}
static void set_up_after_work(fixture *fx) /* 745.85(a)(1), (a)(2): before beginning */
{
    fx_tick(fx, "A3", "egress")->on = fx_day("2026-09-15");
    fx_tick(fx, "A3", "signs")->on = fx_day("2026-09-15");
}
static void tick_again(fixture *fx, const char *step, const char *on)
{
    fx->tick[fx->job.n_tick] = *fx_tick(fx, "A1", step);
    fx->tick[fx->job.n_tick++].on = fx_day(on);
}
static void second_day(fixture *fx, const char *without)
{
    static const char *const each_day[] = {"barriers-whole", "waste-daily", "leave-clean"};
    fx->practice[3] = fx->practice[0];
    fx->practice[3].on = fx_day("2026-09-15");
    fx->job.n_practice = 4;
    for (size_t i = 0; i < sizeof each_day / sizeof each_day[0]; i++)
        if (strcmp(each_day[i], without) != 0)
            tick_again(fx, each_day[i], "2026-09-15");
    for (size_t i = 0; i < fx->job.n_tick; i++) { /* cleaned after it */
        const mf_step *step = mf_step_named(fx->tick[i].step);
        if (step->phase == MF_PHASE_CLEAN && strcmp(fx->tick[i].area, "A1") == 0)
            fx->tick[i].on = fx_day("2026-09-15");
    }
}
static void second_day_barriers(fixture *fx) /* 745.85(a)(2) */
{
    second_day(fx, "barriers-whole");
}
static void second_day_waste(fixture *fx) /* 745.85(a)(4)(ii): each work day */
{
    second_day(fx, "waste-daily");
    tick_again(fx, "waste-daily", "2026-09-16");
}
static void second_day_left(fixture *fx) /* 745.85(a)(2)(i)(E) */
{
    second_day(fx, "leave-clean");
}
static void folded_next_day(fixture *fx) /* 745.85(a)(4)(ii): at the conclusion of the renovation */
{
    fx_tick(fx, "A2", "sheeting")->on = fx_day("2026-09-15");
}
static void walls_last(fixture *fx) /* 745.85(a)(5)(ii): high to low */
{
    fx_tick(fx, "A1", "walls")->at_minute = 490;
}
static void looked_too_soon(fixture *fx) /* 745.85(b)(1)(i): after cleaning */
{
    fx_tick(fx, "A2", "clean-outside")->on = fx_day("2026-09-16");
    fx_tick(fx, "A2", "clean-outside")->at_minute = 631;
}
static void not_recleaned(fixture *fx) /* 745.85(c)(3) */
{
    mf_dust_sample failed = fx->dust_sample[0];
    failed.on = fx_day("2026-09-15");
    failed.loading_ng_ft2 = 5000;
    fx_add_sample(fx, failed);
}
static void straddling(fixture *fx) /* 745.227(e)(8): 10 until 2026-01-11, 5 from 01-12 */
{
    fx->chip[0].on = fx->determination[0].on = fx_day("2026-01-05");
    fx->house.start = fx_day("2026-01-11");
    fx->completion.on = fx_day("2026-01-12");
    for (size_t i = 0; i < fx->job.n_tick; i++)
        fx->tick[i].on = fx_day("2026-01-11");
    for (size_t i = 0; i < fx->job.n_practice; i++)
        fx->practice[i].on = fx_day("2026-01-11");
    for (size_t i = 0; i < fx->job.n_assignment; i++)
        fx->assignment[i].on = fx_day("2026-01-11");
    for (size_t i = 0; i < fx->job.n_verification; i++)
        fx->verification[i].on = fx_day("2026-01-12");
    for (size_t i = 0; i < fx->job.n_notice; i++)
        fx->notice[i].on = fx->notice[i].signed_on = fx_day("2026-01-02");
    for (size_t i = 0; i < fx->job.n_handover; i++)
        fx->handover[i].on = fx_day("2026-01-20");
    fx->training[0].on = fx_day("2026-01-02");
    for (size_t i = 0; i < fx->job.n_dust_sample; i++)
        fx->dust_sample[i].on = fx_day("2026-01-12");
    fx->certification[0].on = fx_day("2026-01-12");
    fx->invoice.on = fx_day("2026-01-20");
}
static void owner_no_dust_report(fixture *fx) /* 745.86(d) */
{
    fx->handover[0].dust_report = MF_UNKNOWN;
}
static void nothing(fixture *fx)
{
    (void)fx;
}
static void broken(fixture *fx)
{
    fx->job.integrity = MF_INTEGRITY_BROKEN;
}
static void corrected_twice(fixture *fx)
{
    fx->correction[1] = fx->correction[0];
    fx->correction[1].src.entry = "tablet/9";
    fx->correction[1].after = "{\"size\":4100}";
    fx->job.n_correction = 2;
}
static void no_seal(fixture *fx)
{
    fx->job.n_sealed = 0;
}
#endif
