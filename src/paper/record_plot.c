/* The readings against the action level: a lane for each component type, one
 * shape for each reading, on one linear axis. The shapes alone tell the classes
 * apart, so that a fax says the same. */
#include "paper/record.h"

#include <mistfold/place.h>

#include <mistfold/limit.h>
#include <mistfold/paint.h>
#include <string.h>

#define LABELS 104.0F
#define DOT    4.6F

enum { TYPES = MF_COMP_OTHER + 1 };

typedef struct axis {
    int64_t low, high, step; /* ug/cm2 */
    float left, width;
    float top, bottom;
} axis;

typedef struct lanes {
    mf_component_type type[TYPES];
    size_t readings[TYPES];
    size_t n;
    float height; /* of each: room for many readings side by side */
} lanes;

static bool plotted(const mf_rec *rec, const mf_reading *reading, mf_component_type *type)
{
    const mf_component *component = mf_job_component(rec->job, reading->component);
    if (reading->purpose != MF_READ_PAINT || reading->loading_ug_cm2 == MF_NUM_NONE)
        return false;
    *type = component == NULL ? MF_COMP_OTHER : component->type;
    return true;
}

static lanes find_lanes(const mf_rec *rec)
{
    size_t of[TYPES] = {0};
    lanes found = {.n = 0};
    mf_component_type type;
    for (size_t i = 0; i < rec->job->n_reading; i++)
        if (plotted(rec, &rec->job->reading[i], &type))
            of[type]++;
    for (int at = 0; at < TYPES; at++)
        if (of[at] > 0) {
            found.type[found.n] = (mf_component_type)at;
            found.readings[found.n++] = of[at];
        }
    size_t most = 0;
    for (size_t i = 0; i < found.n; i++)
        most = found.readings[i] > most ? found.readings[i] : most;
    found.height = most > 40 ? 34 : 16;
    return found;
}

/* A step of 1, 2 or 5 that gives at most a dozen ticks. */
static int64_t step_for(int64_t range)
{
    static const int64_t factor[] = {1, 2, 5};
    int64_t scale = 100;
    for (;;) {
        for (size_t i = 0; i < 3; i++)
            if (range / (scale * factor[i]) <= 11)
                return scale * factor[i];
        if (scale > INT64_MAX / 100)
            return scale;
        scale *= 10;
    }
}

static axis make_axis(const mf_rec *rec, int64_t level)
{
    axis made = {.low = 0, .high = level + level / 2, .left = MF_LEFT + LABELS};
    mf_component_type type;
    for (size_t i = 0; i < rec->job->n_reading; i++) {
        const mf_reading *reading = &rec->job->reading[i];
        if (!plotted(rec, reading, &type))
            continue;
        if (reading->loading_ug_cm2 < made.low)
            made.low = reading->loading_ug_cm2;
        if (reading->loading_ug_cm2 > made.high)
            made.high = reading->loading_ug_cm2;
    }
    made.step = step_for(made.high - made.low);
    made.low = made.low >= 0 ? 0 : -((-made.low + made.step - 1) / made.step) * made.step;
    made.high = (made.high + made.step - 1) / made.step * made.step;
    made.width = mf_right(&rec->page) - 14 - made.left;
    return made;
}

static float at_x(const axis *scale, int64_t value)
{
    double part = (double)(value - scale->low) / (double)(scale->high - scale->low);
    return scale->left + (float)part * scale->width;
}

static void draw_band(mf_rec *rec, const axis *scale, int64_t low, int64_t high)
{
    if (low == MF_NUM_NONE || high == MF_NUM_NONE || high < low)
        return;
    float from = at_x(scale, low), to = at_x(scale, high);
    mf_haru_rect(rec->page.haru, MF_INK_BAND, MF_INK_RULE, 0.4F, (mf_point){from, scale->top},
                 (mf_point){to - from < 1 ? 1 : to - from, scale->bottom - scale->top});
}

/* The inconclusive ranges of the instruments and of their profiles. */
static void draw_bands(mf_rec *rec, const axis *scale)
{
    for (size_t i = 0; i < rec->job->n_instrument; i++)
        draw_band(rec, scale, rec->job->instrument[i].inconclusive_low_ug_cm2,
                  rec->job->instrument[i].inconclusive_high_ug_cm2);
    for (size_t i = 0; i < rec->job->n_profile_row; i++)
        draw_band(rec, scale, rec->job->profile_row[i].low_ug_cm2,
                  rec->job->profile_row[i].high_ug_cm2);
}

static void draw_ticks(mf_rec *rec, const axis *scale)
{
    mf_page *page = &rec->page;
    for (int64_t at = scale->low; at <= scale->high; at += scale->step) {
        float x = at_x(scale, at);
        mf_haru_line(page->haru, MF_INK_RULE, at == 0 ? 0.7F : 0.25F, (mf_point){x, scale->top},
                     (mf_point){x, scale->bottom + 3});
        const char *words = mf_loading_words(rec, at, MF_QUAL_EXACT);
        mf_font font = mf_style_of(MF_ST_SMALL)->font;
        float wide = mf_haru_width(page->haru, font, words, strlen(words));
        mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x - wide / 2, scale->bottom + 3},
                    words);
    }
}

static void draw_level(mf_rec *rec, const axis *scale, const mf_limit *level)
{
    float x = at_x(scale, level->value);
    mf_haru_line(rec->page.haru, MF_INK_BLACK, 1.2F, (mf_point){x, scale->top - 4},
                 (mf_point){x, scale->bottom + 2});
    const char *words =
        mf_fill(rec, "plot-level", mf_number_words(rec, level->value, level->unit), NULL, NULL);
    mf_page_put(&rec->page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){x + 3, scale->top - 11},
                words);
}

/* A saturated display is a lower bound: an arrow that goes on to the right. One
 * below what the instrument shows is an upper bound. */
static void draw_bound(mf_haru *haru, mf_point at, bool over)
{
    float way = over ? 1.0F : -1.0F;
    const mf_point head[] = {{at.x + way * 7.0F, at.y},
                             {at.x + way * 1.5F, at.y - 2.8F},
                             {at.x + way * 1.5F, at.y + 2.8F}};
    mf_haru_line(haru, MF_INK_BLACK, 1.2F, (mf_point){at.x - way * 2.5F, at.y},
                 (mf_point){at.x + way * 2.0F, at.y});
    mf_haru_path(haru, over ? MF_INK_BLACK : MF_INK_WHITE, MF_INK_BLACK, 0.7F, head, 3);
}

static void draw_reading(mf_rec *rec, const axis *scale, const mf_reading *reading, float y)
{
    float x = at_x(scale, reading->loading_ug_cm2);
    if (reading->qualifier != MF_QUAL_EXACT) {
        draw_bound(rec->page.haru, (mf_point){x, y}, reading->qualifier == MF_QUAL_OVER);
        return;
    }
    mf_paint_class found = mf_reading_class_in(rec->job, reading);
    mf_mark_draw(rec->page.haru, mf_class_mark(found), (mf_point){x - DOT / 2, y - DOT / 2}, DOT);
}

/* Neighbors in a lane are set on seven heights in turn, so that equal readings
 * do not hide one another. A share of the lane, from its middle. */
static float spread(size_t k)
{
    static const float height[] = {0, -0.26F, 0.26F, -0.13F, 0.13F, -0.36F, 0.36F};
    return height[k % 7];
}

static void draw_lane(mf_rec *rec, const axis *scale, const lanes *all, size_t lane)
{
    mf_page *page = &rec->page;
    float top = scale->top + (float)lane * all->height;
    const char *words = mf_print(
        rec, "%s (%zu)", mf_brief_words(rec, mf_enum(rec, MF_FAM_COMPONENT, (int)all->type[lane])),
        all->readings[lane]);
    mf_page_block(page, MF_ST_SMALL, (mf_point){MF_LEFT, top + all->height / 2 - 5}, LABELS, words,
                  true);
    mf_haru_line(page->haru, MF_INK_RULE, 0.25F, (mf_point){MF_LEFT, top + all->height},
                 (mf_point){scale->left + scale->width, top + all->height});
    size_t k = 0;
    mf_component_type type;
    for (size_t i = 0; i < rec->job->n_reading; i++) {
        const mf_reading *reading = &rec->job->reading[i];
        if (plotted(rec, reading, &type) && type == all->type[lane])
            draw_reading(rec, scale, reading, top + all->height * (0.5F + spread(k++)));
    }
}

static void plot_legend(mf_rec *rec)
{
    static const mf_paint_class order[] = {MF_CLASS_NEGATIVE, MF_CLASS_INCONCLUSIVE,
                                           MF_CLASS_POSITIVE};
    mf_page *page = &rec->page;
    float x = MF_LEFT;
    for (size_t i = 0; i < 3; i++) {
        mf_mark_draw(page->haru, mf_class_mark(order[i]), (mf_point){x, page->y + 2}, DOT);
        x += 9;
        x += mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x, page->y},
                         mf_enum(rec, MF_FAM_CLASS, (int)order[i])) +
             14;
    }
    draw_bound(page->haru, (mf_point){x + 3, page->y + 5}, true);
    x += 14;
    x += mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x, page->y},
                     mf_phrase(rec, "plot-over")) +
         16;
    draw_bound(page->haru, (mf_point){x + 6, page->y + 5}, false);
    mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x + 13, page->y},
                mf_phrase(rec, "plot-under"));
    page->y += 11;
    mf_page_text(page, MF_ST_SMALL, mf_phrase(rec, "plot-note"));
}

static size_t plotted_readings(const lanes *all)
{
    size_t n = 0;
    for (size_t i = 0; i < all->n; i++)
        n += all->readings[i];
    return n;
}

void mf_record_plot(mf_rec *rec)
{
    mf_page *page = &rec->page;
    lanes all = find_lanes(rec);
    const mf_limit *level = mf_limit_for(rec->job, MF_LIMIT_PAINT_LOADING, rec->house.start);
    mf_section(rec, "plot");
    if (all.n == 0 || level == NULL) {
        mf_none(rec, "no-readings");
        mf_record_checks(rec);
        return;
    }
    mf_page_need(page, (float)all.n * all.height + 84);
    plot_legend(rec);
    axis scale = make_axis(rec, level->value);
    scale.top = page->y + 16;
    scale.bottom = scale.top + (float)all.n * all.height;
    mf_haru_begin(
        page->haru, MF_TAG_FIGURE,
        mf_fill(rec, "alt.plot", mf_count_words(rec, plotted_readings(&all)), NULL, NULL));
    draw_bands(rec, &scale);
    mf_haru_line(page->haru, MF_INK_RULE, 0.25F, (mf_point){MF_LEFT, scale.top},
                 (mf_point){scale.left + scale.width, scale.top});
    draw_level(rec, &scale, level);
    for (size_t lane = 0; lane < all.n; lane++)
        draw_lane(rec, &scale, &all, lane);
    draw_ticks(rec, &scale);
    mf_haru_end(page->haru);
    page->y = scale.bottom + 14;
    mf_page_put_right(page, MF_ST_SMALL, (mf_point){mf_right(page), page->y},
                      mf_phrase(rec, "plot-axis"));
    page->y += 14;
}
