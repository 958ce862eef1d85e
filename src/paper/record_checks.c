/* The calibration checks of a day against the tolerance: time runs to the right,
 * a ring for each reading on the film, a mark for each check at its mean. */
#include "paper/record.h"

#include <mistfold/paint.h>
#include <string.h>

#define LABELS 56.0F
#define HEIGHT 62.0F
#define RING   1.7F
#define SIGN   8.0F

typedef struct panel {
    const mf_instrument *gun;
    mf_day on;
    int64_t low, high;   /* ug/cm2 shown */
    int32_t first, last; /* minutes shown */
    float left, width, top;
} panel;

static bool on_film(const mf_reading *it, const char *serial, mf_day on)
{
    return it->purpose == MF_READ_CALIBRATION && it->on == on && it->at_minute != MF_MINUTE_NONE &&
           it->loading_ug_cm2 != MF_NUM_NONE && strcmp(it->instrument, serial) == 0;
}

static void stretch(panel *p, int64_t ug_cm2)
{
    p->low = ug_cm2 < p->low ? ug_cm2 : p->low;
    p->high = ug_cm2 > p->high ? ug_cm2 : p->high;
}

/* What the day spans in time and value; false when nothing was read that day. */
static bool find_span(const mf_rec *rec, panel *p)
{
    bool any = false;
    p->low = p->gun->cal_low_ug_cm2;
    p->high = p->gun->cal_high_ug_cm2;
    for (size_t i = 0; i < rec->job->n_reading; i++) {
        const mf_reading *it = &rec->job->reading[i];
        if (!on_film(it, p->gun->serial, p->on))
            continue;
        stretch(p, it->loading_ug_cm2);
        p->first = !any || it->at_minute < p->first ? it->at_minute : p->first;
        p->last = !any || it->at_minute > p->last ? it->at_minute : p->last;
        any = true;
    }
    stretch(p, p->gun->film_ug_cm2);
    int64_t margin = (p->high - p->low) / 6 + 1;
    p->low -= margin;
    p->high += margin;
    p->first = p->first < 20 ? 0 : p->first - 20;
    p->last += 20;
    return any;
}

static float y_of(const panel *p, int64_t num, int64_t den)
{
    double part = ((double)num / (double)den - (double)p->low) / (double)(p->high - p->low);
    return p->top + HEIGHT * (float)(1.0 - part);
}

static float x_of(const panel *p, double minute)
{
    return p->left + p->width * (float)((minute - p->first) / (double)(p->last - p->first));
}

static void level(mf_rec *rec, const panel *p, int64_t ug_cm2, const char *words, float thick)
{
    float y = y_of(p, ug_cm2, 1);
    mf_haru_line(rec->page.haru, MF_INK_BLACK, thick, (mf_point){p->left, y},
                 (mf_point){p->left + p->width, y});
    mf_page_put_right(&rec->page, MF_ST_SMALL, (mf_point){p->left - 4, y - 5},
                      mf_join(rec, words, " ", mf_loading_words(rec, ug_cm2, MF_QUAL_EXACT)));
}

static void draw_frame(mf_rec *rec, const panel *p)
{
    mf_haru *haru = rec->page.haru;
    float top = y_of(p, p->gun->cal_high_ug_cm2, 1), foot = y_of(p, p->gun->cal_low_ug_cm2, 1);
    mf_haru_rect(haru, MF_INK_BAND, MF_INK_RULE, 0.3F, (mf_point){p->left, top},
                 (mf_point){p->width, foot - top});
    level(rec, p, p->gun->cal_low_ug_cm2, "", 0.6F);
    level(rec, p, p->gun->cal_high_ug_cm2, "", 0.6F);
    level(rec, p, p->gun->film_ug_cm2, mf_phrase(rec, "checks-film"), 0.25F);
    mf_haru_line(haru, MF_INK_RULE, 0.4F, (mf_point){p->left, p->top + HEIGHT},
                 (mf_point){p->left + p->width, p->top + HEIGHT});
}

static void draw_hours(mf_rec *rec, const panel *p)
{
    for (int32_t at = (p->first + 59) / 60 * 60; at <= p->last; at += 60) {
        float x = x_of(p, at);
        const char *words = mf_print(rec, "%d:00", (int)(at / 60));
        mf_haru_line(rec->page.haru, MF_INK_RULE, 0.4F, (mf_point){x, p->top + HEIGHT},
                     (mf_point){x, p->top + HEIGHT + 3});
        float wide =
            mf_haru_width(rec->page.haru, mf_style_of(MF_ST_SMALL)->font, words, strlen(words));
        mf_page_put(&rec->page, MF_ST_SMALL, MF_INK_BLACK,
                    (mf_point){x - wide / 2, p->top + HEIGHT + 3}, words);
    }
}

static void draw_readings(mf_rec *rec, const panel *p)
{
    for (size_t i = 0; i < rec->job->n_reading; i++) {
        const mf_reading *it = &rec->job->reading[i];
        if (on_film(it, p->gun->serial, p->on))
            mf_haru_disc(rec->page.haru, MF_INK_WHITE, MF_INK_BLACK, 0.6F,
                         (mf_point){x_of(p, it->at_minute), y_of(p, it->loading_ug_cm2, 1)}, RING);
    }
}

/* The mean stands right of its readings, so that it hides none of them. */
static void draw_check(mf_rec *rec, const panel *p, const mf_calibration *check)
{
    if (check->n == 0 || check->first_minute == MF_MINUTE_NONE)
        return;
    mf_point at = {x_of(p, check->last_minute) + 5,
                   y_of(p, check->sum_ug_cm2, check->n) - SIGN / 2};
    mf_mark_draw(rec->page.haru, check->good ? MF_MARK_TICK : MF_MARK_CROSS, at, SIGN);
}

static void draw_panel(mf_rec *rec, panel *p, const mf_calibration *checks, size_t n)
{
    mf_page *page = &rec->page;
    mf_page_need(page, HEIGHT + 34);
    mf_page_put(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){MF_LEFT, page->y},
                mf_join(rec, p->gun->serial, ", ", mf_day_words(rec, p->on)));
    p->left = MF_LEFT + LABELS;
    p->width = mf_right(page) - p->left - 6;
    p->top = page->y + 12;
    mf_haru_begin(page->haru, MF_TAG_FIGURE,
                  mf_fill(rec, "alt.checks", p->gun->serial, mf_day_words(rec, p->on), NULL));
    draw_frame(rec, p);
    draw_readings(rec, p);
    for (size_t i = 0; i < n; i++)
        if (checks[i].on == p->on && strcmp(checks[i].instrument, p->gun->serial) == 0)
            draw_check(rec, p, &checks[i]);
    draw_hours(rec, p);
    mf_haru_end(page->haru);
    page->y = p->top + HEIGHT + 20;
}

/* Whether an earlier check is of the same instrument and day. */
static bool day_seen(const mf_calibration *checks, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (checks[i].on == checks[at].on &&
            strcmp(checks[i].instrument, checks[at].instrument) == 0)
            return true;
    return false;
}

void mf_record_checks(mf_rec *rec)
{
    size_t n = mf_calibrations(rec->job, NULL, 0);
    mf_calibration *checks = n == 0 ? NULL : mf_arena_alloc(&rec->arena, n * sizeof *checks);
    if (n == 0)
        return;
    if (checks == NULL) {
        mf_page_no_memory(&rec->page);
        return;
    }
    n = mf_calibrations(rec->job, checks, n);
    mf_subhead(rec, "checks-plot");
    mf_page_need(&rec->page, HEIGHT + 64); /* the words stay with the first panel */
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "checks-note"));
    for (size_t i = 0; i < n; i++) {
        panel p = {.gun = mf_job_instrument(rec->job, checks[i].instrument), .on = checks[i].on};
        if (p.gun != NULL && !day_seen(checks, i) && find_span(rec, &p))
            draw_panel(rec, &p, checks, n);
    }
}
