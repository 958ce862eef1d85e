/* Waste of a shift that goes on past midnight, which is written down as two entries: the work day
 * concludes when the shift ends, 40 CFR 745.85(a)(4)(ii). The job is constructed
 * (support/fixture_job.h). */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <string.h>

enum { MAX_FINDINGS = 700 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

static void work(const char *on, int32_t from, int32_t until)
{
    mf_practice *it = &fx.practice[fx.job.n_practice++];
    *it = fx.practice[0];
    it->src.entry = "new/1";
    it->on = fx_day(on);
    it->began_minute = from;
    it->at_minute = until;
}

static void close_away(const char *on, int32_t at)
{
    mf_tick *it = &fx.tick[fx.job.n_tick++];
    *it = fx.tick[0];
    it->src.entry = "new/2";
    it->area = fx.practice[0].area;
    it->step = "waste-daily";
    it->state = MF_TICK_DONE;
    it->on = fx_day(on);
    it->at_minute = at;
}

/* What is said of the waste of a day. */
static const mf_finding *waste_of(const char *on)
{
    const mf_audit_ask question = {&fx.job, fx_day(FX_TODAY), 0, fx.practice[0].area};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    const mf_finding *it = NULL;
    for (size_t i = 0; i < n && it == NULL; i++)
        if (strcmp(found[i].requirement->id, "waste-each-day") == 0 &&
            (found[i].d1 == fx_day(on) || found[i].d1 == fx_day(on) + 1))
            it = &found[i];
    assert_non_null(it);
    return it;
}

static void a_shift_past_midnight(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int32_t until, from, ended; /* minutes of the two days */
        int32_t again;              /* another shift of the second day, an hour, or none */
        int32_t closed;
        const char *why;
    } rows[] = {
        {"when it ended", 1439, 0, 60, MF_MINUTE_NONE, 70, "day-ticked"},
        {"in its last minute", 1439, 0, 60, MF_MINUTE_NONE, 60, "day-ticked"},
        {"while it went on", 1439, 0, 60, MF_MINUTE_NONE, 59, "day-not-ticked"},
        {"at no hour", 1439, 0, 60, MF_MINUTE_NONE, MF_MINUTE_NONE, "day-not-ticked"},
        {"twelve hours", 1439, 0, 600, MF_MINUTE_NONE, 610, "day-ticked"},
        {"more than twelve hours", 1439, 0, 601, MF_MINUTE_NONE, 610, "day-not-ticked"},
        {"no minute of the next day", 1439, 0, 0, MF_MINUTE_NONE, 10, "day-not-ticked"},
        {"not until midnight", 1438, 0, 60, MF_MINUTE_NONE, 70, "day-not-ticked"},
        {"not from midnight on", 1439, 1, 60, MF_MINUTE_NONE, 70, "day-not-ticked"},
        {"its end unsaid", 1439, 0, MF_MINUTE_NONE, MF_MINUTE_NONE, 70, "day-not-ticked"},
        {"before the next shift", 1439, 0, 60, 420, 70, "day-ticked"},
        {"after the next shift", 1439, 0, 60, 420, 490, "day-not-ticked"},
        {"as the next shift began", 1439, 0, 60, 420, 420, "day-ticked"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        fx_good(&fx);
        fx.job.n_practice = 1;
        work("2026-09-17", 1320, rows[i].until);
        work("2026-09-18", rows[i].from, rows[i].ended);
        if (rows[i].again != MF_MINUTE_NONE)
            work("2026-09-18", rows[i].again, rows[i].again + 60);
        close_away("2026-09-18", rows[i].closed);
        CHECK_ROW(strcmp(waste_of("2026-09-17")->why, rows[i].why) == 0, rows[i].name);
    }
}

/* What was concluded in the afternoon is no piece of a shift at night. */
static void another_shift_that_day(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_practice = 1;
    work("2026-09-17", 510, 960);
    work("2026-09-17", 1320, 1439);
    work("2026-09-18", 0, 60);
    close_away("2026-09-18", 70);
    assert_string_equal(waste_of("2026-09-17")->why, "day-not-ticked");
}

/* Of another area, or only planned, it concludes nothing. */
static void what_is_no_shift_of_it(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_practice = 1;
    work("2026-09-17", 1320, 1439);
    work("2026-09-18", 0, 60);
    close_away("2026-09-18", 70);
    assert_string_equal(waste_of("2026-09-17")->why, "day-ticked");
    fx.practice[2].planned = MF_YES;
    assert_string_equal(waste_of("2026-09-17")->why, "day-not-ticked");
    fx.practice[2].planned = MF_NOT;
    fx.practice[2].area = "A2";
    assert_string_equal(waste_of("2026-09-17")->why, "day-not-ticked");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_shift_past_midnight),
        cmocka_unit_test(another_shift_that_day),
        cmocka_unit_test(what_is_no_shift_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
