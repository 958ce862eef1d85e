/* The summary for owner and occupant: two pages of plain words with what
 * 40 CFR 745.86(c)(3) asks for, the tests of (b)(1) and the work of (b)(6), and
 * with (d) the dust samples. */
#include "paper/summary.h"
#include "paper/days.h"

#include "base/fail.h"
#include "paper/form.h"
#include "paper/renovators.h"

#include <mistfold/assisted.h>
#include <mistfold/house.h>
#include <mistfold/person.h>
#include <mistfold/place.h>
#include <string.h>

static bool covered(const mf_rec *rec)
{
    mf_cover_answer cover;
    mf_cover_judge(rec->job, &cover);
    return cover.cover == MF_COVER_YES;
}

/* The day of the last completion that had come by the day of the paper, or "". */
static const char *completed(mf_rec *rec)
{
    size_t n = rec->job->n_completion;
    mf_day on = n == 0 ? MF_DAY_NONE : rec->job->completion[n - 1].on;
    if (on == MF_DAY_NONE || on > rec->ask->today)
        return "";
    return mf_fill(rec, "summary.completed-on", mf_day_words(rec, on), NULL, NULL);
}

static void facts(mf_rec *rec)
{
    static const char *const labels[] = {"summary.where", "summary.firm", "summary.what",
                                         "summary.led-by", "summary.when"};
    const mf_firm *firm = rec->job->n_firm == 0 ? NULL : &rec->job->firm[rec->job->n_firm - 1];
    const char *led = mf_renovators_words(rec, true);
    const char *values[] = {
        mf_stated(rec, mf_join(rec, rec->house.address, ", ", rec->house.unit)),
        firm == NULL ? mf_phrase(rec, "not-given")
                     : mf_join(rec, mf_stated(rec, firm->name), ", ", firm->phone),
        mf_stated(rec, rec->house.description), *led == '\0' ? mf_person_words(rec, "") : led,
        mf_join(rec, mf_planned_days(rec), "\n", completed(rec))};
    mf_pairs(rec, labels, values, 5);
}

/* ---- what was tested and found ------------------------------------------------- */

/* How many readings of the paint there are, and who took them, by name. */
static size_t paint_readings(mf_rec *rec, const char **who)
{
    size_t n = 0;
    const char *seen = "";
    for (size_t i = 0; i < rec->job->n_reading; i++) {
        const mf_reading *shot = &rec->job->reading[i];
        if (shot->purpose != MF_READ_PAINT)
            continue;
        n++;
        if (mf_id_in_list(seen, shot->operator_id))
            continue;
        seen = mf_join(rec, seen, ",", shot->operator_id);
        *who = mf_join(rec, *who, ", ", mf_person_words(rec, shot->operator_id));
    }
    return n;
}

static void kits(mf_rec *rec)
{
    for (size_t i = 0; i < rec->job->n_kit_test; i++) {
        const mf_kit_test *test = &rec->job->kit_test[i];
        const char *kit = mf_join(rec, test->maker, ", ", test->model);
        const char *said = mf_join(rec, mf_enum(rec, MF_FAM_RESULT, (int)test->result), ", ",
                                   mf_day_words(rec, test->on));
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_fill(rec, "summary.kit-line",
                               mf_join(rec, mf_part_words(rec, test->component), ", ", kit),
                               mf_join(rec, said, ", ", mf_person_words(rec, test->tester)), NULL));
    }
}

static void chips(mf_rec *rec)
{
    for (size_t i = 0; i < rec->job->n_chip; i++) {
        const mf_chip *chip = &rec->job->chip[i];
        const char *said =
            mf_join(rec, mf_enum(rec, MF_FAM_CLASS, (int)mf_chip_class_for(rec->job, chip)), ", ",
                    mf_day_words(rec, chip->on));
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_fill(rec, "summary.chip-line", mf_part_words(rec, chip->component),
                               mf_join(rec, said, ", ", chip->laboratory), NULL));
    }
}

/* 745.82(a)(1): somebody certified said in writing which paint is free. */
static void determinations(mf_rec *rec)
{
    for (size_t i = 0; i < rec->job->n_determination; i++) {
        const mf_determination *it = &rec->job->determination[i];
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_fill(rec,
                               mf_certified_assessor(rec->job, it->assessor, it->on) == NULL
                                   ? "summary.determination-not"
                                   : "summary.determination",
                               mf_person_words(rec, it->assessor), mf_stated(rec, it->report),
                               NULL));
    }
}

static void tested(mf_rec *rec)
{
    const char *who = "";
    size_t n = paint_readings(rec, &who);
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.tested"));
    if (n > 0)
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_fill(rec, n == 1 ? "summary.xrf-once" : "summary.xrf",
                               mf_count_words(rec, n), mf_stated(rec, who), NULL));
    kits(rec);
    chips(rec);
    determinations(rec);
    if (n + rec->job->n_kit_test + rec->job->n_chip + rec->job->n_determination +
            rec->job->n_owner_record ==
        0)
        mf_form_bullet(rec, MF_MARK_NONE, mf_phrase(rec, "summary.no-test"));
}

/* ---- the end -------------------------------------------------------------------------- */

static void bullets(mf_rec *rec, const char *head, const char *const *ids, size_t n)
{
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, head));
    for (size_t i = 0; i < n; i++)
        mf_form_bullet(rec, MF_MARK_NONE, mf_phrase(rec, ids[i]));
}

/* "3 years", or as long as a stricter limit of the job says: what the firm does, not the law. */
static const char *kept_for(mf_rec *rec)
{
    return mf_limit_words(rec, MF_LIMIT_RETENTION_YEARS, mf_rec_end(rec));
}

static void advice(mf_rec *rec)
{
    static const char *const watch[] = {"summary.watch-left", "summary.watch-chips",
                                        "summary.watch-children", "summary.watch-work"};
    static const char *const ask[] = {"summary.ask-line"};
    const mf_firm *firm = rec->job->n_firm == 0 ? NULL : &rec->job->firm[rec->job->n_firm - 1];
    bullets(rec, "summary.watch", watch, 4);
    bullets(rec, "summary.ask", ask, 1);
    if (firm != NULL)
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_fill(rec, covered(rec) ? "summary.ask-firm" : "summary.ask-firm-only",
                               mf_join(rec, firm->name, ", ", firm->phone), kept_for(rec), NULL));
}

/* Whether anything is to be handed over: where tests alone free all paint, what tells of them is
 * (745.86(c)(1)(i)). */
static bool owed(const mf_rec *rec)
{
    for (size_t i = 0; i < rec->n_findings; i++)
        if (strncmp(rec->findings[i].requirement->id, "handover-", 9) == 0 &&
            rec->findings[i].verdict != MF_NOT_DUE)
            return true;
    return covered(rec);
}

/* When the law has it handed over; nothing is owed outside the rule, and no day is known
 * before the work is done or billed. */
static const char *due_words(mf_rec *rec)
{
    mf_due due;
    const char *within = mf_law_words(rec, MF_LIMIT_HANDOVER_DAYS, mf_rec_end(rec));
    mf_due_dates(rec->job, &due);
    if (*mf_off_words(rec) != '\0')
        return mf_phrase(rec, "summary.due-off");
    if (!owed(rec))
        return mf_phrase(rec, mf_assisted_holds(rec->job) ? "summary.due-none-assisted"
                                                          : "summary.due-none");
    if (due.handover == MF_DAY_NONE)
        return mf_fill(rec, "summary.due-open", "", within, NULL);
    return mf_fill(rec, "summary.due", mf_day_words(rec, due.handover), within, NULL);
}

static void handed_over(mf_rec *rec)
{
    mf_page *page = &rec->page;
    mf_page_gap(page, 6);
    mf_page_text(page, MF_ST_BODY, due_words(rec));
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "summary.limits"));
    mf_page_need(page, 46);
    page->y += 26;
    mf_hand_line(rec, (mf_point){MF_LEFT, page->y}, 330, mf_phrase(rec, "summary.received"));
    mf_hand_line(rec, (mf_point){MF_LEFT + 354, page->y}, mf_across(page) - 354,
                 mf_phrase(rec, "date"));
    page->y += 20;
}

mf_status mf_paper_summary(mf_bytes *out, const mf_paper_ask *ask, mf_err *err)
{
    mf_rec rec;
    if (ask->job == NULL)
        return mf_fail(err, MF_USAGE, "paper", "a summary needs a job", "", "name the job");
    mf_status status = mf_rec_open(&rec, ask, "summary", err);
    rec.long_days = true;
    if (status == MF_OK)
        status = mf_rec_audit(&rec, err);
    if (status == MF_OK) {
        mf_form_open(&rec, "summary", "summary", "");
        mf_page_text(&rec.page, MF_ST_PLAIN,
                     mf_phrase(&rec, covered(&rec) ? "summary.lead-in" : "summary.lead-in-only"));
        facts(&rec);
        tested(&rec);
        mf_summary_found(&rec);
        mf_summary_done(&rec);
        mf_summary_checked(&rec);
        advice(&rec);
        handed_over(&rec);
        mf_form_finish(&rec, "summary");
        status = mf_haru_save(rec.page.haru, out, err);
    }
    mf_rec_close(&rec);
    return status;
}
