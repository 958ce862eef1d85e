#include "paper/form.h"

#include "paper/days.h"
#include "paper/qr.h"

#define CODE 56.0F /* side of the code in the corner */
#define GAP  14.0F

static void title(mf_rec *rec, float top, const char *words)
{
    mf_page *page = &rec->page;
    const float room = rec->job == NULL ? mf_across(page) : mf_across(page) - CODE - GAP;
    page->y = top;
    page->y +=
        mf_page_block(page, MF_ST_TITLE, (mf_point){MF_LEFT, page->y}, room, words, true) + 3;
    mf_haru_line(page->haru, MF_INK_ACCENT, 2.2F, (mf_point){MF_LEFT, page->y},
                 (mf_point){MF_LEFT + room, page->y});
    page->y += 6;
}

static void code(mf_rec *rec, float top, const char *paper, const char *area)
{
    if (rec->job == NULL)
        return;
    const char *text = mf_print(rec, "mistfold job=%s paper=%s", rec->job->id, paper);
    if (*area != '\0')
        text = mf_print(rec, "%s area=%s", text, area);
    mf_qr_draw(rec, text, (mf_point){mf_right(&rec->page) - CODE, top}, CODE);
    if (rec->page.y < top + CODE + 4)
        rec->page.y = top + CODE + 4;
}

void mf_form_open(mf_rec *rec, const char *id, const char *paper, const char *area)
{
    const float top = rec->page.n_pages > 1 ? MF_TOP : 40; /* below the head of a later page */
    title(rec, top, mf_phrase(rec, id));
    code(rec, rec->page.n_pages > 1 ? MF_TOP : 26, paper, area);
}

void mf_form_called_off(mf_rec *rec)
{
    const char *off = mf_off_words(rec);
    if (*off != '\0')
        mf_page_text(&rec->page, MF_ST_BOLD, off);
}

const char *mf_form_renovator(const mf_rec *rec)
{
    const char *id = "";
    if (rec->job == NULL)
        return id;
    for (size_t i = 0; i < rec->job->n_assignment; i++)
        if (rec->job->assignment[i].duty == MF_DUTY_RENOVATOR)
            id = rec->job->assignment[i].person;
    return id;
}

/* The largest style in which the value takes one line; the smallest when none does. */
static mf_style style_for(mf_page *page, const char *value, float width)
{
    static const mf_style styles[] = {MF_ST_BODY, MF_ST_CELL, MF_ST_SMALL};
    for (size_t i = 0; i < 3; i++)
        if (mf_page_block(page, styles[i], (mf_point){0, 0}, width, value, false) <=
            mf_style_of(styles[i])->leading)
            return styles[i];
    return MF_ST_SMALL;
}

/* What a value needs above the line it stands on: one line is there already. */
static float extra_height(mf_page *page, const char *value, float width)
{
    mf_style style = style_for(page, value, width);
    float tall = mf_page_block(page, style, (mf_point){0, 0}, width, value, false);
    return tall > 13 ? tall - 13 : 0;
}

/* A value stands on its line; one of several lines grows upwards from it. */
static void draw_line(mf_rec *rec, const mf_form_line *line, mf_point at, float width)
{
    mf_page *page = &rec->page;
    mf_style style = style_for(page, line->value, width - 2);
    float tall = mf_page_block(page, style, (mf_point){0, 0}, width - 2, line->value, false);
    mf_page_block(page, style, (mf_point){at.x + 1, at.y - tall}, width - 2, line->value, true);
    mf_hand_line(rec, at, width, mf_phrase(rec, line->label));
}

/* Lines of the label below its first one. */
static float label_height(mf_rec *rec, const mf_form_line *line, float width)
{
    float tall = mf_page_block(&rec->page, MF_ST_SMALL, (mf_point){0, 0}, width,
                               mf_phrase(rec, line->label), false);
    float one = mf_style_of(MF_ST_SMALL)->leading;
    return tall > one ? tall - one : 0;
}

void mf_form_lines(mf_rec *rec, const mf_form_line *lines, size_t n)
{
    float sum = 0, extra = 0, below = 0;
    float x = MF_LEFT;
    for (size_t i = 0; i < n; i++)
        sum += lines[i].share;
    const float room = mf_across(&rec->page) - GAP * (float)(n - 1);
    for (size_t i = 0; i < n; i++) {
        float more = extra_height(&rec->page, lines[i].value, room * lines[i].share / sum - 2);
        float label = label_height(rec, &lines[i], room * lines[i].share / sum);
        extra = more > extra ? more : extra;
        below = label > below ? label : below;
    }
    mf_page_need(&rec->page, 38 + extra + below);
    for (size_t i = 0; i < n; i++) {
        float width = room * lines[i].share / sum;
        draw_line(rec, &lines[i], (mf_point){x, rec->page.y + 24 + extra}, width);
        x += width + GAP;
    }
    rec->page.y += 36 + extra + below;
}

void mf_form_head(mf_rec *rec, const mf_area *area)
{
    const char *renovator = mf_form_renovator(rec);
    const char *place = area == NULL ? "" : mf_area_place(rec, area);
    const mf_form_line first[] = {
        {"blank.job", rec->job == NULL ? "" : rec->job->id, 1},
        {"blank.address", mf_join(rec, rec->house.address, ", ", rec->house.unit), 3}};
    const mf_form_line second[] = {
        {"blank.area", place, 2},
        {"blank.openings", area == NULL ? "" : mf_list_words(rec, area->openings), 2}};
    const mf_form_line third[] = {
        {"blank.renovator", *renovator == '\0' ? "" : mf_person_words(rec, renovator), 2},
        {"blank.date", "", 1}};
    mf_form_lines(rec, first, 2);
    mf_form_lines(rec, second, 2);
    mf_form_lines(rec, third, 2);
    rec->page.y += 4;
    if (area != NULL)
        mf_area_off_line(rec, area);
}

void mf_form_rows(mf_table *table, size_t n)
{
    const mf_cell empty[MF_COLS_MAX] = {{.text = ""}};
    for (size_t i = 0; i < n; i++)
        mf_table_row(table, empty);
}

void mf_form_signature(mf_rec *rec, const char *words)
{
    mf_page *page = &rec->page;
    mf_page_need(page, 50);
    page->y += 26;
    mf_hand_line(rec, (mf_point){MF_LEFT, page->y}, 330, mf_phrase(rec, words));
    mf_hand_line(rec, (mf_point){MF_LEFT + 354, page->y}, mf_across(page) - 354,
                 mf_phrase(rec, "date-time"));
    page->y += 22;
}

void mf_form_bullet(mf_rec *rec, mf_mark mark, const char *text)
{
    mf_page *page = &rec->page;
    const float indent = mark == MF_MARK_NONE ? 12 : 17;
    float height =
        mf_page_block(page, MF_ST_PLAIN, (mf_point){0, 0}, mf_across(page) - indent, text, false);
    mf_page_need(page, height + 3);
    if (mark == MF_MARK_NONE)
        mf_haru_disc(page->haru, MF_INK_BLACK, MF_INK_NONE, 0,
                     (mf_point){MF_LEFT + 4, page->y + 6.6F}, 1.5F);
    else
        mf_mark_draw(page->haru, mark, (mf_point){MF_LEFT, page->y + 1.5F}, 10);
    mf_page_block(page, MF_ST_PLAIN, (mf_point){MF_LEFT + indent, page->y},
                  mf_across(page) - indent, text, true);
    page->y += height + 3;
}

void mf_form_finish(mf_rec *rec, const char *id)
{
    const char *job = rec->job == NULL ? mf_phrase(rec, "blank.job-line") : mf_rec_foot(rec);
    const mf_running running = {.head_left = mf_phrase(rec, id),
                                .head_right = rec->house.address,
                                .foot_left = job,
                                .foot_note = mf_phrase(rec, "foot-caution"),
                                .foot_head = mf_rec_head(rec),
                                .foot_signs = mf_phrase(rec, "foot-signs"),
                                .page_of = mf_phrase(rec, "page-of")};
    mf_page_finish(&rec->page, &running);
}
