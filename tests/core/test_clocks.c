/* Times of day that two devices say, whose clocks may differ, and times that cannot be by the clock
 * of the one who asks. Constructed jobs (support/fixture_job.h). */
#include "core/finding.h"

static mf_verification wiped(mf_wipe_event event, const char *at)
{
    mf_verification it = fx.verification[2]; /* the floor of A1 */
    it.event = event;
    it.cloth = event == MF_VER_RECLEANED || event == MF_VER_SEEN_DRY ? MF_CLOTH_NONE : MF_CLOTH_NEW;
    it.at_minute = minute(at);
    return it;
}

/* 745.85(b)(1)(ii)(A)(3): by the times that are said the hour has passed. What one device logged it
 * may have logged late; of two the clock of one may be wrong. */
static void the_wait_of_two_clocks(void **state)
{
    static const struct {
        const char *wet, *dry, *wet_at, *dry_at, *correction, *why;
    } of[] = {
        {"office/1", "office/9", "2026-09-16T15:37:00Z", "2026-09-16T15:37:09Z", "", "order-good"},
        {"office/1", "truck/1", "2026-09-16T15:37:00Z", "2026-09-16T15:37:09Z", "",
         "refused-clocks-apart"},
        {"truck/1", "office/1", "2026-09-16T15:37:00Z", "2026-09-16T16:31:00Z", "",
         "refused-clocks-apart"},
        {"truck/1", "office/1", "2026-09-16T15:37:00Z", "2026-09-16T16:32:00Z", "", "order-good"},
        {"truck/1", "office/1", "2026-09-16T15:37:00Z", "2026-09-16T15:00:00Z", "",
         "refused-clocks-apart"},
        {"truck/1", "truckee/1", "2026-09-16T15:37:00Z", "2026-09-16T15:38:00Z", "",
         "refused-clocks-apart"},
        {"truck/1", "office/1", "2026-09-16T15:37:00Z", "2026-09-16T15:38:00Z", "c/1",
         "order-good"},
        {"truck/1", "office/1", "", "2026-09-16T15:38:00Z", "", "order-good"},
        {"truck/1", "office/1", "2026-09-18T15:37:00Z", "2026-09-18T15:38:00Z", "",
         "order-good"}, /* written up two days later from paper */
        {"truck/1", "office/1", "2026-09-17T09:30:00Z", "2026-09-17T09:38:00Z", "",
         "refused-clocks-apart"}, /* less than a day: it may be another zone */
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.verification[2] = wiped(MF_VER_WET_DARKER, "10:20");
        fx_add_verification(&fx, wiped(MF_VER_RECLEANED, "10:30"));
        mf_verification wet = wiped(MF_VER_WET_DARKER, "10:35");
        wet.src = (mf_src){of[i].wet, of[i].wet_at, "rosa", of[i].correction};
        fx_add_verification(&fx, wet);
        fx_add_verification(&fx, wiped(MF_VER_SEEN_DRY, "11:30"));
        mf_verification dry = wiped(MF_VER_DRY_WIPE, "11:40");
        dry.src = (mf_src){of[i].dry, of[i].dry_at, "rosa", ""};
        fx_add_verification(&fx, dry);
        CHECK_ROW(strcmp(finding("verification-order", NULL)->why, of[i].why) == 0, of[i].why);
    }
}

/* 745.86(a): by the clock and the zone of the one who asks. */
static void the_times_that_can_be(void **state)
{
    static const struct {
        const char *now, *logged, *why;
        int64_t ahead;
    } of[] = {
        /* the look of A1 on 2026-09-16 at 10:00 */
        {"2026-09-16T21:00:00Z", "2026-09-16T14:00:00Z", "times-can-be", -240},
        {"2026-09-16T21:00:00Z", "2026-09-16T13:55:00Z", "times-can-be", -240},
        {"2026-09-16T21:00:00Z", "2026-09-16T13:54:00Z", "time-after-logged", -240},
        {"2026-09-16T21:00:00Z", "2026-09-16T12:00:00Z", "time-after-logged", -240},
        {"2026-09-16T21:00:00Z", "2026-09-16T08:00:00Z", "times-can-be", 120},
        {"2026-12-16T21:00:00Z", "2026-09-16T14:00:00Z", "times-can-be", -300},
        {"2026-12-16T21:00:00Z", "2026-09-16T13:54:00Z", "time-after-logged", -300},
        {"2026-09-16T13:54:00Z", "2026-09-16T13:54:00Z", "time-to-come", -240},
        {"2026-09-16T21:00:00Z", "2026-09-16T12:00:00Z", "clock-not-told", -900},
        {"yesterday", "2026-09-16T12:00:00Z", "clock-not-told", -240},
        {NULL, "2026-09-16T12:00:00Z", "clock-not-told", -240},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.job.n_tick = fx.job.n_practice = fx.job.n_dust_sample = fx.job.n_reading = 0;
        fx.job.n_kit_test = fx.job.n_chip = fx.job.n_determination = 0;
        fx.job.n_verification = 1;
        fx.verification[0].on = day("2026-09-16");
        fx.verification[0].at_minute = minute("10:00");
        fx.verification[0].src.at = of[i].logged;
        fx.job.clock = (mf_clock){of[i].now, of[i].ahead};
        const mf_finding *it = finding("times-can-be", NULL);
        if (strcmp(it->why, of[i].why) != 0)
            fail_msg("row %zu: %s", i, it->why);
    }
}

/* 745.227(e)(8)(iv): a cleaning that another device logged after the sample is told. */
static void the_sample_of_two_clocks(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        fx_good(&fx);
        mf_dust_sample *it = &fx.dust_sample[0];
        mf_tick *mop = fx_tick(&fx, "A3", "carpet");
        for (size_t k = 0; k < fx.job.n_tick; k++)
            if (strcmp(fx.tick[k].area, "A3") == 0)
                fx.tick[k].at_minute = minute("08:00");
        mop->on = it->on;
        mop->at_minute = minute("08:30");
        it->at_minute = minute("11:00");
        mop->src = (mf_src){"office/2", "2026-09-16T16:00:00Z", "rosa", ""};
        it->src = (mf_src){"truck/2", i == 0 ? "2026-09-16T16:54:00Z" : "2026-09-16T16:55:00Z",
                           "rosa", ""};
        assert_string_equal(finding("dust-wait", it->place)->why,
                            i == 0 ? "sample-clocks-apart" : "sample-waited");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_wait_of_two_clocks),
        cmocka_unit_test(the_times_that_can_be),
        cmocka_unit_test(the_sample_of_two_clocks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
