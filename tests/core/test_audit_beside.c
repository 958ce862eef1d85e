/* What else a finding points at: the level of the other end of the job, the wait that a
 * dry cloth came before, and of several entries the one that stands for them. The days
 * and levels are the rule's (paragraph beside each test); the jobs are constructed
 * (support/fixture_job.h). */
#include "core/finding.h"

/* 89 FR 89416: 5 ug/ft2 of a floor in place of 10, complied with from 2026-01-12. The
 * day of sampling decides; a job that ends on the other side of it is told of both. Its
 * end is the day it was completed, and until then the day it is to end. */
static void the_level_of_the_other_end(void **state)
{
    static const struct {
        const char *start, *sampled, *planned, *completed;
        int64_t level, beside; /* ng/ft2; 0 = none */
    } of[] = {
        {"2026-01-10", "2026-01-11", "2026-01-13", NULL, 10000, 5000},
        {"2026-01-10", "2026-01-11", "2026-01-11", NULL, 10000, 0},
        {"2026-01-10", "2026-01-11", NULL, NULL, 10000, 0},
        {"2026-01-10", "2026-01-11", "2026-01-13", "2026-01-11", 10000, 0},
        {"2026-01-10", "2026-01-11", "2026-01-11", "2026-01-13", 10000, 5000},
        {"2026-01-10", "2026-01-12", "2026-01-13", "2026-01-12", 5000, 10000},
        {"2026-01-12", "2026-01-12", "2026-01-13", "2026-01-13", 5000, 0},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.house.start = day(of[i].start);
        fx.house.end = of[i].planned == NULL ? MF_DAY_NONE : day(of[i].planned);
        fx.dust_sample[0].on = day(of[i].sampled);
        fx.job.n_completion = of[i].completed != NULL;
        if (of[i].completed != NULL)
            fx.completion.on = day(of[i].completed);
        const mf_finding *it = finding("dust-level", NULL);
        assert_non_null(it->limit);
        CHECK_ROW(it->limit->value == of[i].level, of[i].sampled);
        CHECK_ROW((it->beside == NULL ? 0 : it->beside->value) == of[i].beside, of[i].sampled);
    }
}

static mf_verification wiped(mf_wipe_event event, const char *at)
{
    mf_verification it = fx.verification[2]; /* the floor of A1 */
    it.event = event;
    it.cloth = event == MF_VER_RECLEANED || event == MF_VER_SEEN_DRY ? MF_CLOTH_NONE : MF_CLOTH_NEW;
    it.at_minute = minute(at);
    return it;
}

/* 745.85(b)(1)(i)-(ii): the hour is shown where it was not waited for, and only there. */
static void the_wait_that_was_too_short(void **state)
{
    static const struct {
        const char *dry, *why;
        bool wait;
    } of[] = {
        {"11:34", "refused-dry-too-soon", true},
        {"11:35", "order-good", false},
        {NULL, "refused-needs-new-cloth", false}, /* the wet cloth once more, folded */
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.verification[2] = wiped(MF_VER_WET_DARKER, "10:20");
        fx_add_verification(&fx, wiped(MF_VER_RECLEANED, "10:30"));
        fx_add_verification(&fx, wiped(MF_VER_WET_DARKER, "10:35"));
        fx_add_verification(&fx, wiped(MF_VER_SEEN_DRY, "11:30"));
        fx_add_verification(&fx, wiped(MF_VER_DRY_WIPE, of[i].dry == NULL ? "12:00" : of[i].dry));
        if (of[i].dry == NULL)
            fx.verification[fx.job.n_verification - 1].cloth = MF_CLOTH_FRESH_FOLD;
        const mf_finding *it = finding("verification-order", NULL);
        if (strcmp(it->why, of[i].why) != 0)
            fail_msg("row %zu: %s", i, it->why);
        int shown = it->limit == NULL ? -1 : (int)it->limit->id;
        assert_int_equal(shown, of[i].wait ? MF_LIMIT_DRY_WAIT : -1);
    }
}

/* 745.86(c): what counts is when the owner first had it; of two on one day the one that
 * was logged first is shown. */
static void the_first_handover(void **state)
{
    static const struct {
        const char *on, *evidence;
    } second[] = {{"2026-09-19", "ho/2"}, {"2026-09-20", "ho/1"}, {"2026-09-21", "ho/1"}};
    (void)state;
    for (size_t i = 0; i < COUNT(second); i++) {
        fx_good(&fx);
        mf_handover it = fx.handover[0];
        assert_string_equal(it.party, "owner");
        it.src.entry = "ho/2";
        it.on = day(second[i].on);
        fx.handover[fx.job.n_handover++] = it;
        CHECK_ROW(strcmp(finding("handover-owner", "owner")->evidence, second[i].evidence) == 0,
                  second[i].on);
    }
}

/* Readings outside the checks of the instrument: how many of all, and the first of them. */
static void the_first_reading_outside(void **state)
{
    (void)state;
    fx_good(&fx);
    for (int i = 0; i < 2; i++) {
        mf_reading late = fx.reading[3];
        late.src.entry = i == 0 ? "x/8" : "x/9";
        late.number = 8 + i;
        late.on = day(i == 0 ? "2026-08-21" : "2026-08-22");
        fx.reading[fx.job.n_reading++] = late;
    }
    const mf_finding *it = finding("xrf-calibration", NULL);
    assert_string_equal(it->why, "readings-not-enclosed");
    assert_string_equal(it->evidence, "x/8");
    assert_int_equal(it->d1, day("2026-08-21"));
    assert_int_equal(it->n1, 2);
    assert_int_equal(it->n2, 3);
}

/* 745.84(a): no more than 60 days before the work begins; mailed, at least 7. The limit
 * that decided is shown with the days there were; a start on 2026-09-14. */
static void the_days_of_a_notice(void **state)
{
    static const struct {
        mf_delivery method;
        const char *on, *why;
        int limit; /* -1 = none */
        int64_t n1, n2;
    } of[] = {
        {MF_DELIVERY_MAILED, "2026-09-08", "notice-mailed-late", MF_LIMIT_MAILING_DAYS, 7, 6},
        {MF_DELIVERY_MAILED, "2026-09-07", "notice-good", MF_LIMIT_PAMPHLET_DAYS, 60, 7},
        {MF_DELIVERY_MAILED, "2026-07-15", "notice-early", MF_LIMIT_PAMPHLET_DAYS, 60, 61},
        {MF_DELIVERY_ACKNOWLEDGED, "2026-07-16", "notice-good", MF_LIMIT_PAMPHLET_DAYS, 60, 60},
        {MF_DELIVERY_ACKNOWLEDGED, "2026-07-15", "notice-early", MF_LIMIT_PAMPHLET_DAYS, 60, 61},
        {MF_DELIVERY_ACKNOWLEDGED, "2026-09-14", "notice-late", -1, MF_NUM_NONE, MF_NUM_NONE},
        {MF_DELIVERY_POSTED, "2026-09-01", "notice-method", -1, MF_NUM_NONE, MF_NUM_NONE},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        mf_notice *it = fx_notice(&fx, "tenant");
        it->method = of[i].method;
        it->on = it->signed_on = day(of[i].on);
        const mf_finding *found_it = finding("pamphlet-occupant", "tenant");
        CHECK_ROW(strcmp(found_it->why, of[i].why) == 0, of[i].on);
        CHECK_ROW((found_it->limit == NULL ? -1 : (int)found_it->limit->id) == of[i].limit,
                  of[i].on);
        CHECK_ROW(found_it->n1 == of[i].n1 && found_it->n2 == of[i].n2, of[i].on);
    }
}

/* The start slipped past the 60 days: it can be delivered again until the day before the
 * work, by mail until the seventh day before, and from then on is just too early. */
static void delivered_again_in_time(void **state)
{
    static const struct {
        mf_delivery method;
        const char *today, *why, *last;
    } of[] = {
        {MF_DELIVERY_ACKNOWLEDGED, "2026-09-13", "notice-again", "2026-09-13"},
        {MF_DELIVERY_ACKNOWLEDGED, "2026-09-14", "notice-early", NULL},
        {MF_DELIVERY_MAILED, "2026-09-07", "notice-again", "2026-09-07"},
        {MF_DELIVERY_MAILED, "2026-09-08", "notice-early", NULL},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        mf_notice *it = fx_notice(&fx, "tenant");
        it->method = of[i].method;
        it->on = it->signed_on = day("2026-07-01");
        const mf_finding *told = finding_on(of[i].today, "pamphlet-occupant", "tenant");
        CHECK_ROW(strcmp(told->why, of[i].why) == 0, of[i].today);
        CHECK_ROW(told->d1 == day(of[i].last == NULL ? "2026-07-01" : of[i].last), of[i].today);
        CHECK_ROW(told->d2 == day("2026-09-14"), of[i].today);
    }
}

/* 745.84(d): what the paper of a delivery holds is told with its day and entry. */
static void the_paper_of_a_notice(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_notice(&fx, "tenant")->unit = "";
    const mf_finding *it = finding("acknowledgement-contents", "tenant");
    assert_string_equal(it->why, "notice-no-unit");
    assert_string_equal(it->evidence, "n/1");
    assert_int_equal(it->d1, day("2026-08-31"));
}

/* 745.89(a), 745.90: certified on every day of the work. The last day of the certificate
 * and the last day that is asked about; or the first day without one. */
static void the_days_of_a_certificate(void **state)
{
    static const struct {
        const char *issued, *expires, *why, *d1, *d2;
    } of[] = {
        {"2024-05-10", "2029-05-10", "certificate-valid", "2029-05-10", "2026-09-16"},
        {"2024-05-10", "2026-09-16", "certificate-valid", "2026-09-16", "2026-09-16"},
        {"2024-05-10", "2026-09-14", "certificate-lapsed", "2026-09-14", "2026-09-15"},
        {"2026-09-14", "2029-05-10", "certificate-valid", "2029-05-10", "2026-09-16"},
        {"2026-09-15", "2029-05-10", "certificate-not-yet", "2026-09-15", "2026-09-14"},
        /* written down the wrong way round: it was never in force */
        {"2026-09-14", "2026-09-13", "certificate-lapsed", "2026-09-13", "2026-09-14"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        assert_string_equal(fx.certificate[0].holder, "firm");
        fx.certificate[0].issued = day(of[i].issued);
        fx.certificate[0].expires = day(of[i].expires);
        const mf_finding *it = finding("firm-certified", NULL);
        CHECK_ROW(strcmp(it->why, of[i].why) == 0, of[i].expires);
        CHECK_ROW(it->d1 == day(of[i].d1) && it->d2 == day(of[i].d2), of[i].expires);
    }
}

/* 745.85(b)(2): the last look decides; of two in one minute, the one logged last. */
static void the_last_look(void **state)
{
    (void)state;
    fx_good(&fx);
    mf_verification look = fx.verification[3]; /* A2 */
    assert_string_equal(look.area, "A2");
    look.src.entry = "v/2";
    fx_add_verification(&fx, look);
    fx_tick(&fx, "A2", "chips")->on = day("2026-09-17");
    const mf_finding *it = finding("looked-after-cleaning", "A2");
    assert_string_equal(it->why, "looked-before-cleaning");
    assert_string_equal(it->evidence, "v/2");
}

/* 745.90(b): whose certificate had run out directs nothing. The first such day is told,
 * and of two entries of that day the first. */
static void directed_without_a_certificate(void **state)
{
    static const struct {
        mf_tick_state first, second;
        const char *on, *why, *evidence; /* of the first; the second is of 09-15 */
    } of[] = {
        {MF_TICK_DONE, MF_TICK_DONE, "2026-09-15", "acted-not-certified", "t/8"},
        {MF_TICK_DONE, MF_TICK_DONE, "2026-09-16", "acted-not-certified", "t/9"},
        {MF_TICK_DONE, MF_TICK_DONE, "2026-09-14", "acted-not-certified", "t/9"},
        {MF_TICK_NOT_NEEDED, MF_TICK_DONE, "2026-09-15", "acted-not-certified", "t/9"},
        {MF_TICK_NOT_NEEDED, MF_TICK_NOT_NEEDED, "2026-09-15", "acted-certified", ""},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        assert_string_equal(fx.certificate[2].holder, "omar");
        fx.certificate[2].expires = day("2026-09-14"); /* which is its last day */
        mf_tick *first = &fx.tick[0], *second = &fx.tick[1];
        first->renovator = second->renovator = "omar";
        first->src.entry = "t/8";
        second->src.entry = "t/9";
        first->state = of[i].first;
        second->state = of[i].second;
        first->on = day(of[i].on);
        second->on = day("2026-09-15");
        const mf_finding *it = finding("renovator-days", "omar");
        if (strcmp(it->why, of[i].why) != 0)
            fail_msg("row %zu: %s", i, it->why);
        if (of[i].evidence[0] != '\0')
            CHECK_ROW(strcmp(it->evidence, of[i].evidence) == 0, of[i].on);
    }
}

/* 745.86: sealed or certified on the day of completion or after it. One that serves is
 * enough, whichever was logged first. */
static void closed_on_the_day(void **state)
{
    static const struct {
        const char *first, *second, *certified, *sealed, *evidence; /* completed on 09-16 */
    } of[] = {
        {"2026-09-16", "2026-09-15", "certification-signed", "seal-made", "1"},
        {"2026-09-15", "2026-09-16", "certification-signed", "seal-made", "2"},
        {"2026-09-15", "2026-09-14", "certification-early", "seal-early", "2"},
        {"2026-09-17", "2026-09-18", "certification-signed", "seal-made", "1"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        mf_certification *c = fx.certification;
        mf_sealed *s = fx.sealed;
        c[1] = c[0];
        s[1] = s[0];
        fx.job.n_certification = fx.job.n_sealed = 2;
        c[0].on = s[0].on = day(of[i].first);
        c[1].on = s[1].on = day(of[i].second);
        c[0].src.entry = s[0].src.entry = "1";
        c[1].src.entry = s[1].src.entry = "2";
        const mf_finding *it = finding("certification", NULL);
        CHECK_ROW(strcmp(it->why, of[i].certified) == 0, of[i].first);
        CHECK_ROW(strcmp(it->evidence, of[i].evidence) == 0, of[i].first);
        it = finding("record-sealed", NULL);
        CHECK_ROW(strcmp(it->why, of[i].sealed) == 0, of[i].first);
        CHECK_ROW(strcmp(it->evidence, of[i].evidence) == 0, of[i].first);
    }
}

/* 745.82(a)(1): a determination is of "the components affected"; one of none of them frees none. */
static void an_owner_record_that_names_no_part(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.owner_record[0] = (mf_owner_record){.src = {"ow/1", "2026-09-14T12:00:00Z", "rosa", ""},
                                           .report = "R-12",
                                           .assessor = "Ari Invented",
                                           .number = "I-5",
                                           .issuer = "invented",
                                           .discipline = MF_DISC_INSPECTOR,
                                           .on = day("2019-05-02"),
                                           .expires = day("2020-05-02"),
                                           .components = "W01.sash",
                                           .firm_has_copy = MF_YES};
    fx.job.n_owner_record = 1;
    assert_string_equal(finding("owner-record", NULL)->why, "owner-record-on-file");
    fx.owner_record[0].components = "";
    assert_string_equal(finding("owner-record", NULL)->why, "owner-record-of-nothing");
}

/* 745.86(a): the sealed paper shows what was logged when it was sealed. A correction after that,
 * of whichever device, is not in it; one before is. */
static void corrected_since_it_was_sealed(void **state)
{
    static const struct {
        const char *chains, *correction, *why, *evidence;
    } of[] = {
        {"office/414, truck/20", "office/414", "seal-made", "office/415"},
        {"office/414, truck/20", "office/417", "seal-corrected", "office/417"},
        {"office/414, truck/20", "truck/20", "seal-made", "office/415"},
        {"office/414 ab, truck/20 cd", "truck/21", "seal-corrected", "truck/21"},
        {"office/414, truck/20", "truck/200", "seal-corrected", "truck/200"},
        {"office/414, truck/20", "truck/3", "seal-made", "office/415"},
        {"office/414, truck10/9", "truck1/5", "seal-corrected", "truck1/5"},
        {"office/414", "phone/1", "seal-corrected", "phone/1"},
        {"", "office/417", "seal-made", "office/415"}, /* an old one says nothing of it */
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.job.n_correction = 1;
        fx.correction[0].src.entry = of[i].correction;
        fx.sealed[0].src.entry = "office/415";
        fx.sealed[0].chains = of[i].chains;
        const mf_finding *it = finding("record-sealed", NULL);
        CHECK_ROW(strcmp(it->why, of[i].why) == 0, of[i].correction);
        CHECK_ROW(strcmp(it->evidence, of[i].evidence) == 0, of[i].correction);
    }
}

/* 745.90(b)(2): taught before the task, which may be on its day; each task its topic. */
static void taught_for_the_task(void **state)
{
    static const struct {
        const char *on, *topics, *why; /* lee ticks and works on 09-14 */
    } of[] = {
        {"2026-09-14", "signs; containment; practices; waste; cleaning", "tasks-taught"},
        {"2026-09-12", " signs ;containment,practices;; waste ; cleaning ", "tasks-taught"},
        {"2026-09-12", "signs; containment; waste; cleaning", "untaught-practices"},
        {"2026-09-12", "signs; containment; practices; waste; clean", "untaught-cleaning"},
        {"2026-09-12", "containment; practices; waste; cleaning; ", "untaught-signs"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.training[0].on = day(of[i].on);
        fx.training[0].topics = of[i].topics;
        CHECK_ROW(strcmp(finding("training-tasks", "lee")->why, of[i].why) == 0, of[i].topics);
    }
}

/* The topic of a step is that of its task: a worker who does this one alone need know
 * nothing else. */
static void a_step_has_its_topic(void **state)
{
    static const struct {
        const char *step, *topics, *why;
    } of[] = {
        {"waste-daily", "practices; waste", "tasks-taught"},
        {"waste-daily", "practices; containment", "untaught-waste"},
        {"barriers-whole", "practices; containment", "tasks-taught"},
        {"barriers-whole", "practices; waste", "untaught-containment"},
        {"signs", "practices; signs", "tasks-taught"},
        {"signs", "practices; containment", "untaught-signs"},
        {"floor-sheet", "practices; containment", "tasks-taught"},
        {"floor-sheet", "practices; signs", "untaught-containment"},
        {"mop", "practices; cleaning", "tasks-taught"},
        {"mop", "practices; containment", "untaught-cleaning"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        for (size_t k = 0; k < fx.job.n_tick; k++)
            fx.tick[k].person = "rosa";
        fx_tick(&fx, "A1", of[i].step)->person = "lee";
        fx.training[0].topics = of[i].topics;
        const char *why = finding("training-tasks", "lee")->why;
        if (strcmp(why, of[i].why) != 0)
            fail_msg("row %zu: %s", i, why);
    }
}

/* 745.89(d)(1): assigned twice on a day, the first entry stands for it. */
static void assigned_twice(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.assignment[fx.job.n_assignment] = fx.assignment[2];
    fx.assignment[fx.job.n_assignment++].src.entry = "as/9";
    const mf_finding *it = finding("person-assigned", "lee");
    assert_string_equal(it->why, "person-assigned");
    assert_string_equal(it->evidence, "as/3");
}

/* A place may ask for more than 745.86(c)'s 30 days: its row decides, the federal one
 * stands beside it; alone it has none beside it. */
static void the_federal_limit_beside(void **state)
{
    (void)state;
    fx_good(&fx);
    const mf_finding *it = finding("handover-owner", "owner");
    assert_non_null(it->limit);
    assert_null(it->beside);
    fx_add_local(&fx, MF_LIMIT_HANDOVER_DAYS, MF_AS_FEDERAL, "20");
    it = finding("handover-owner", "owner");
    assert_int_equal(it->limit == NULL ? 0 : it->limit->value, 20);
    assert_int_equal(it->beside == NULL ? 0 : it->beside->value, 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_level_of_the_other_end),
        cmocka_unit_test(the_wait_that_was_too_short),
        cmocka_unit_test(the_first_handover),
        cmocka_unit_test(the_first_reading_outside),
        cmocka_unit_test(the_days_of_a_notice),
        cmocka_unit_test(delivered_again_in_time),
        cmocka_unit_test(the_paper_of_a_notice),
        cmocka_unit_test(the_days_of_a_certificate),
        cmocka_unit_test(the_last_look),
        cmocka_unit_test(directed_without_a_certificate),
        cmocka_unit_test(closed_on_the_day),
        cmocka_unit_test(corrected_since_it_was_sealed),
        cmocka_unit_test(an_owner_record_that_names_no_part),
        cmocka_unit_test(taught_for_the_task),
        cmocka_unit_test(a_step_has_its_topic),
        cmocka_unit_test(assigned_twice),
        cmocka_unit_test(the_federal_limit_beside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
