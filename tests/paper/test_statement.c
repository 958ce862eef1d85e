/* Above the renovator's signature stands only what the record shows: 40 CFR 745.86(b)(6) asks
 * the renovator to certify what was done. The job is fixture_job.h, in which all was done. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"
#include "support/paper_kit.h"

#include <stdlib.h>
#include <string.h>

static fixture fx;

/* The section of the statement, from its heading to the seal, blanks as one. */
static char *statement(const paper_world *w, mf_lang lang)
{
    fx_texts(&fx);
    mf_paper_ask ask = paper_ask(&fx.job);
    ask.lang = lang;
    paper_record_to(w->folder, "statement.pdf", &ask);
    paper_shell(w->folder, "pdftotext statement.pdf - | tr -s '\\n\\f ' ' ' > statement.txt");
    return paper_slurp(w->folder, "statement.txt");
}

static void says(const paper_world *w, const char *says, const char *never)
{
    char *text = statement(w, MF_LANG_EN);
    if (strstr(text, says) == NULL || (never != NULL && strstr(text, never) != NULL))
        fail_msg("not \"%s\" without \"%s\" in: %s", says, never == NULL ? "" : never,
                 strstr(text, "I, Rosa") == NULL ? "" : strstr(text, "I, Rosa"));
    free(text);
}

#define NOT "Not stated, as the record does not show it: "

static void all_of_it_is_stated(void **state)
{
    fx_good(&fx);
    says(*state, "Each work area was contained before the work began", NOT);
    says(*state, "none of them is prohibited", NOT);
    says(*state, "Each work area outside was cleaned as ticked.", NOT);
}

/* 745.85(a)(2): a step that was not done. */
static void containment_lacks(void **state)
{
    fx_good(&fx);
    fx_tick(&fx, "A1", "floor-sheet")->state = MF_TICK_UNDONE;
    says(*state, NOT "that each work area was contained", "Each work area was contained");
}

/* 745.85(a)(3)(i). */
static void a_torch(void **state)
{
    fx_good(&fx);
    fx.practice[0].method = MF_METHOD_OPEN_FLAME;
    says(*state, "Prohibited methods were used: open flame burning or torching, A1",
         "none of them is prohibited");
}

/* 24 CFR 35.140(e), which the rule for paid work does not hold. */
static void scraped_dry_in_assisted_housing(void **state)
{
    fx_assisted(&fx);
    fx.practice[0].method = MF_METHOD_DRY_SCRAPE;
    fx.practice[0].spot_sqft_100 = 900;
    says(*state, "Prohibited methods were used: dry scraping", "none of them is prohibited");
    fx.practice[0].spot_sqft_100 = MF_NUM_NONE;
    says(*state, NOT "that this was done in a permitted way: dry scraping",
         "none of them is prohibited");
    fx.practice[0].method = MF_METHOD_STRIPPER;
    fx.practice[0].ventilated = MF_NOT;
    says(*state, "Prohibited methods were used: ", "none of them is prohibited");
    fx.practice[0].ventilated = MF_YES;
    says(*state, "none of them is prohibited", NULL);
    fx_good(&fx);
    fx.practice[0].method = MF_METHOD_DRY_SCRAPE;
    fx.practice[0].spot_sqft_100 = 900;
    says(*state, "none of them is prohibited", NULL);
}

static void nobody_trained(void **state)
{
    fx_good(&fx);
    fx.job.n_training = 0;
    says(*state, "that all who worked were certified or trained",
         "Workers without a certificate were trained");
}

/* Waived in an emergency, and of one whom nobody put on the list: he is still somebody who worked.
 */
static void a_stranger_worked(void **state)
{
    static const char *const waived = "In the emergency stated here, not all workers were trained";
    static const char *const nobody = "Nobody is listed who worked without a certificate";
    fx_good(&fx);
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "training", "water was coming in");
    fx.job.n_training = 0;
    fx.job.n_assignment = 2; /* the renovators */
    for (size_t i = 0; i < fx.job.n_tick; i++)
        fx.tick[i].person = "rosa";
    for (size_t i = 0; i < fx.job.n_practice; i++)
        fx.practice[i].person = "rosa";
    says(*state, nobody, waived);
    fx.practice[0].person = "lee";
    says(*state, waived, nobody);
    fx.practice[0].person = "rosa";
    fx_tick(&fx, "A1", "isolate")->person = "lee";
    says(*state, waived, nobody);
}

/* 745.86(b)(6)(i) is of who worked: the examiner of 24 CFR 35.1340 is none of the crew. */
static void an_examiner_is_no_worker(void **state)
{
    fx_assisted(&fx);
    fx.job.n_training = 0;
    fx.job.n_assignment = 2; /* the renovators */
    for (size_t i = 0; i < fx.job.n_tick; i++)
        fx.tick[i].person = "rosa";
    for (size_t i = 0; i < fx.job.n_practice; i++)
        fx.practice[i].person = "rosa";
    says(*state, "Nobody is listed who worked without a certificate.", "Workers without");
    says(*state, "testing; clearance", NULL);
    fx.job.n_certificate = 0; /* hers too: then she is somebody without one */
    says(*state, "no certificate on file", "Nobody is listed who worked");
}

/* 745.86(d): who was given the dust report, and who was not. */
static void the_dust_report(void **state)
{
    fx_good(&fx);
    fx.handover[0].dust_report = MF_YES;
    says(*state, "with the dust sampling report", "without the dust");
    fx.handover[0].dust_report = MF_NOT;
    says(*state, "without the dust sampling report", NULL);
}

static void signs_late(void **state)
{
    fx_good(&fx);
    fx_tick(&fx, "A1", "signs")->on = fx_day("2026-09-15");
    says(*state, "that warning signs stood", "Warning signs stood at");
}

/* 745.85(b): not verified; and by somebody else who is certified. */
static void verified_by(void **state)
{
    fx_good(&fx);
    says(*state, "I verified the cleaning myself", NULL);
    for (size_t i = 0; i < fx.job.n_verification; i++)
        fx.verification[i].person = "omar";
    says(*state, "results and the numbers of cloths listed: Omar", "myself");
    fx.verification[0].person = "rosa";
    says(*state, "I verified the cleaning together with Omar", "myself");
    fx_good(&fx);
    fx.job.n_verification = 0;
    says(*state, "that each work area was verified clean.", "I verified the cleaning");
}

/* 745.85(b), (c): whoever is no renovator is not named as one, and where no cloth was used none is
 * spoken of. */
static void who_looked_and_with_what(void **state)
{
    fx_good(&fx);
    mf_verification look = fx.verification[0];
    look.person = "lee";
    look.at_minute -= 5;
    fx_add_verification(&fx, look);
    says(*state,
         "These people had no renovator certificate that day and logged inspections or wipes: Lee",
         "together with Lee");
    says(*state, "I verified the cleaning myself", "A certified renovator verified");
    fx_assisted(&fx); /* the examiner looks, too, and samples stand in for the cloths */
    size_t kept = 0;
    for (size_t i = 0; i < fx.job.n_verification; i++)
        if (fx.verification[i].event == MF_VER_LOOK_CLEAN)
            fx.verification[kept++] = fx.verification[i];
    fx.job.n_verification = kept;
    says(*state, "listed as looked at by me, after it was cleaned", "numbers of cloths");
    says(*state, "For the clearance, work areas were looked over as listed by: Ines",
         "no renovator certificate that day");
}

/* 745.85(c): where samples stand for the verification an inspector may look alone; then no
 * renovator states a look. */
static void nobody_but_the_inspector_looked(void **state)
{
    fx_assisted(&fx);
    fx.job.n_area = 1; /* the kitchen, which is sampled */
    size_t kept = 0;
    for (size_t i = 0; i < fx.job.n_verification; i++)
        if (strcmp(fx.verification[i].person, "ines") == 0)
            fx.verification[kept++] = fx.verification[i];
    fx.job.n_verification = kept;
    says(*state, "looked over as listed by: Ines", "I looked over, myself");
    says(*state, "dust samples stand in place", "by a certified renovator was looked over");
}

/* 745.227(e)(8)(v): samples of a part of the places verify nothing. */
static void sampled_in_part(void **state)
{
    fx_good(&fx);
    fx.job.n_dust_sample = 1;
    says(*state, "that each work area was verified clean.", "I verified the cleaning");
}

/* 745.82(b): what an emergency excused is stated as undone. */
static void an_emergency(void **state)
{
    fx_good(&fx);
    fx.house.emergency = MF_YES;
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "containment", "water was coming in");
    fx_tick(&fx, "A1", "floor-sheet")->state = MF_TICK_UNDONE;
    says(*state, "In the emergency stated here, not all of the containment was built.",
         "Each work area was contained");
}

/* 745.86(b)(6): who is no renovator of the job states nothing as one, and hides nobody's word. */
static void certified_by_a_worker_too(void **state)
{
    fx_good(&fx);
    fx.certification[1] = fx.certification[0];
    fx.certification[1].src.entry = "ce/2";
    fx.certification[1].person = "lee";
    fx.job.n_certification = 2;
    says(*state, "Stated in the journal by Rosa", "I, Lee");
    says(*state, "is no certification of this work. Lee", "Stated in the journal by Lee");
    fx.job.certification = &fx.certification[1];
    fx.job.n_certification = 1;
    says(*state, "Not yet stated in the journal.", "I, Lee");
}

/* Two that stand are both printed, each for the steps that name them. */
static void certified_by_two(void **state)
{
    fx_good(&fx);
    fx.certification[1] = fx.certification[0];
    fx.certification[1].src.entry = "ce/2";
    fx.certification[1].person = "omar";
    fx.job.n_certification = 2;
    says(*state, "Stated in the journal by Rosa", "I, Omar"); /* every step names Rosa alone */
    fx_tick(&fx, "A1", "mop")->renovator = "omar";
    fx_tick(&fx, "A1", "mop")->person = "lee";
    says(*state, "Stated in the journal by Rosa", "Not yet stated");
    says(*state, "I, Omar", "I carried out or directed the work as it is recorded here");
    says(*state, "the others were carried out or directed by: Omar", NULL);
}

/* What was logged later is not put into the mouth of who certified before. */
static void certified_before_more_was_logged(void **state)
{
    fx_good(&fx);
    fx.practice[0].src.at = "2026-09-20T08:00:00Z";
    says(*state, "is no certification of this work", "Stated in the journal by Rosa");
    says(*state, "Logged after it: ", "Stated in the journal by Rosa");
}

/* An empty file has nobody who speaks; neither has one whose renovator is certified no more. */
static void nobody_who_may_state(void **state)
{
    fx_good(&fx);
    fx.job.n_assignment = fx.job.n_certification = 0;
    says(*state, "Nobody is assigned who is certified as a renovator today",
         "that what follows is true");
    fx_good(&fx);
    for (size_t i = 0; i < fx.job.n_certificate; i++)
        if (strcmp(fx.certificate[i].holder, "firm") != 0)
            fx.certificate[i].expires = fx_day("2026-09-02");
    says(*state, "Nobody is assigned who is certified as a renovator today",
         "that what follows is true");
}

/* 745.82(a): no statement is asked of a house built later; there is no line to sign for one. */
static void outside_the_rule(void **state)
{
    fx_good(&fx);
    fx.house.year_built = 1990;
    says(*state, "The rule requires no statement by a renovator.", "I, Rosa");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_of_it_is_stated),
        cmocka_unit_test(containment_lacks),
        cmocka_unit_test(a_torch),
        cmocka_unit_test(scraped_dry_in_assisted_housing),
        cmocka_unit_test(nobody_trained),
        cmocka_unit_test(a_stranger_worked),
        cmocka_unit_test(an_examiner_is_no_worker),
        cmocka_unit_test(the_dust_report),
        cmocka_unit_test(signs_late),
        cmocka_unit_test(verified_by),
        cmocka_unit_test(who_looked_and_with_what),
        cmocka_unit_test(nobody_but_the_inspector_looked),
        cmocka_unit_test(sampled_in_part),
        cmocka_unit_test(an_emergency),
        cmocka_unit_test(certified_by_a_worker_too),
        cmocka_unit_test(certified_by_two),
        cmocka_unit_test(certified_before_more_was_logged),
        cmocka_unit_test(nobody_who_may_state),
        cmocka_unit_test(outside_the_rule),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
