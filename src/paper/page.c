#include "paper/page.h"

#include "base/fail.h"
#include "paper/place.h"

#include <stdio.h>
#include <string.h>

enum { FEW = 8 }; /* lines that most texts have at most */

static const mf_style_row styles[MF_ST_COUNT] = {
    [MF_ST_TITLE] = {{MF_FACE_BOLD, 20}, 24, 0, 2, MF_INK_ACCENT},
    [MF_ST_SECTION] = {{MF_FACE_BOLD, 13}, 16, 13, 6, MF_INK_ACCENT},
    [MF_ST_HEAD] = {{MF_FACE_BOLD, 10}, 13, 7, 3, MF_INK_BLACK},
    [MF_ST_LARGE] = {{MF_FACE_BOLD, 11}, 14, 0, 2, MF_INK_BLACK},
    [MF_ST_BODY] = {{MF_FACE_REGULAR, 9.2F}, 11.6F, 0, 3, MF_INK_BLACK},
    [MF_ST_BOLD] = {{MF_FACE_BOLD, 9.2F}, 11.6F, 0, 3, MF_INK_BLACK},
    [MF_ST_CELL] = {{MF_FACE_REGULAR, 8.2F}, 10, 0, 0, MF_INK_BLACK},
    [MF_ST_CELL_BOLD] = {{MF_FACE_BOLD, 8.2F}, 10, 0, 0, MF_INK_BLACK},
    [MF_ST_SMALL] = {{MF_FACE_REGULAR, 7.6F}, 9.2F, 0, 2, MF_INK_BLACK},
    [MF_ST_SMALL_BOLD] = {{MF_FACE_BOLD, 7.6F}, 9.2F, 0, 2, MF_INK_BLACK},
    [MF_ST_MONO] = {{MF_FACE_MONO, 7.6F}, 9.8F, 0, 2, MF_INK_BLACK},
    [MF_ST_PLAIN] = {{MF_FACE_REGULAR, 10.4F}, 13.4F, 0, 4, MF_INK_BLACK},
    [MF_ST_TALL] = {{MF_FACE_REGULAR, 9.2F}, 24, 0, 0, MF_INK_BLACK},
};

const mf_style_row *mf_style_of(mf_style style)
{
    return &styles[style];
}

void mf_page_no_memory(mf_page *page)
{
    mf_err err = {0};
    mf_fail_memory(&err);
    if (page->haru != NULL)
        mf_haru_fail(page->haru, &err);
}

const char *mf_page_ready(mf_page *page, mf_style style, const char *text)
{
    return mf_text_ready(page->haru, page->arena, styles[style].font.face, text, page->where,
                         &page->spelled);
}

const mf_line *mf_page_lines(mf_page *page, mf_style style, const char *ready, float width,
                             size_t *n)
{
    mf_font font = styles[style].font;
    mf_line few[FEW];
    *n = mf_text_wrap(page->haru, font, ready, width, few, FEW);
    mf_line *lines = mf_arena_alloc(page->arena, (*n + 1) * sizeof *lines);
    if (lines == NULL) {
        mf_page_no_memory(page);
        *n = 0;
        return NULL;
    }
    if (*n <= FEW)
        memcpy(lines, few, *n * sizeof *lines);
    else
        mf_text_wrap(page->haru, font, ready, width, lines, *n);
    return lines;
}

/* Where the baseline of a line lies below its top. */
static float baseline(const mf_style_row *row)
{
    return (row->leading - row->font.size) / 2 + row->font.size * 0.82F;
}

void mf_page_line(mf_page *page, mf_font font, mf_ink ink, mf_point at, mf_line line)
{
    const char after = line.text[line.len];
    mf_haru_text(page->haru, font, ink, at, line.text, line.len + (after == ' '));
    if (after != '\n')
        return;
    at.x += mf_haru_width(page->haru, font, line.text, line.len);
    mf_haru_text(page->haru, font, ink, at, " ", 1);
}

static void draw_line(mf_page *page, mf_style style, mf_ink ink, mf_point at, mf_line line)
{
    const mf_style_row *row = &styles[style];
    at.y += baseline(row);
    mf_page_line(page, row->font, ink, at, line);
}

/* Which headings are of the paper, of a section, of a part of it. */
static mf_tag tag_of(mf_style style)
{
    switch (style) {
    case MF_ST_TITLE:
        return MF_TAG_H1;
    case MF_ST_SECTION:
        return MF_TAG_H2;
    case MF_ST_HEAD:
        return MF_TAG_H3;
    case MF_ST_LARGE:
    case MF_ST_BODY:
    case MF_ST_BOLD:
    case MF_ST_CELL:
    case MF_ST_CELL_BOLD:
    case MF_ST_SMALL:
    case MF_ST_SMALL_BOLD:
    case MF_ST_MONO:
    case MF_ST_PLAIN:
    case MF_ST_TALL:
    case MF_ST_COUNT:
        break;
    }
    return MF_TAG_P;
}

float mf_page_put(mf_page *page, mf_style style, mf_ink ink, mf_point at, const char *text)
{
    const char *ready = mf_page_ready(page, style, text);
    mf_line line = {ready, strlen(ready)};
    mf_haru_begin(page->haru, tag_of(style), NULL);
    draw_line(page, style, ink, at, line);
    mf_haru_end(page->haru);
    return mf_haru_width(page->haru, styles[style].font, ready, line.len);
}

float mf_page_width(mf_page *page, mf_style style, const char *text)
{
    const char *ready = mf_page_ready(page, style, text);
    return mf_haru_width(page->haru, styles[style].font, ready, strlen(ready));
}

void mf_page_put_right(mf_page *page, mf_style style, mf_point at, const char *text)
{
    const char *ready = mf_page_ready(page, style, text);
    at.x -= mf_haru_width(page->haru, styles[style].font, ready, strlen(ready));
    draw_line(page, style, MF_INK_BLACK, at, (mf_line){ready, strlen(ready)});
}

static float ready_block(mf_page *page, mf_style style, mf_point at, float width, const char *ready,
                         bool draw)
{
    size_t n = 0;
    const mf_line *lines = mf_page_lines(page, style, ready, width, &n);
    float leading = styles[style].leading;
    if (draw)
        mf_haru_begin(page->haru, tag_of(style), NULL);
    for (size_t i = 0; draw && i < n; i++) {
        draw_line(page, style, styles[style].ink, at, lines[i]);
        at.y += leading;
    }
    if (draw)
        mf_haru_end(page->haru);
    return (float)n * leading;
}

float mf_page_block(mf_page *page, mf_style style, mf_point at, float width, const char *text,
                    bool draw)
{
    return ready_block(page, style, at, width, mf_page_ready(page, style, text), draw);
}

/* ---- the sheet ------------------------------------------------------------------- */

enum { MARGIN = 44, FOOT = 56 };

float mf_high(const mf_page *page)
{
    return mf_haru_size(page->haru).y;
}

float mf_right(const mf_page *page)
{
    return mf_haru_size(page->haru).x - MARGIN;
}

float mf_across(const mf_page *page)
{
    return mf_right(page) - MF_LEFT;
}

float mf_bottom(const mf_page *page)
{
    return mf_high(page) - FOOT;
}

/* ---- the flow -------------------------------------------------------------------- */

void mf_page_break(mf_page *page)
{
    page->n_pages = mf_haru_add_page(page->haru);
    page->y = MF_TOP;
}

static float pending_height(const mf_page *page)
{
    float height = 0;
    for (size_t i = 0; i < page->n_pending; i++) {
        const mf_style_row *row = &styles[page->pending[i].style];
        if (page->pending[i].draw != NULL) {
            height += page->pending[i].height;
            continue;
        }
        size_t lines =
            mf_text_wrap(page->haru, row->font, page->pending[i].ready, mf_across(page), NULL, 0);
        height += row->before + (float)lines * row->leading + row->after;
    }
    return height;
}

static void draw_pending(mf_page *page)
{
    size_t n = page->n_pending;
    page->n_pending = 0;
    for (size_t i = 0; i < n; i++) {
        mf_style style = page->pending[i].style;
        const mf_style_row *row = &styles[style];
        if (page->pending[i].draw != NULL) {
            page->pending[i].draw(page->pending[i].user);
            continue;
        }
        if (page->y > MF_TOP)
            page->y += row->before;
        page->y += ready_block(page, style, (mf_point){MF_LEFT, page->y}, mf_across(page),
                               page->pending[i].ready, true);
        if (style == MF_ST_SECTION) {
            mf_place_add(page, &page->sections, page->pending[i].text);
            float y = page->y + 1.5F;
            mf_haru_line(page->haru, MF_INK_ACCENT, 0.8F, (mf_point){MF_LEFT, y},
                         (mf_point){mf_right(page), y});
            mf_haru_bookmark(page->haru, page->pending[i].ready);
        }
        page->y += row->after;
    }
}

float mf_page_left(const mf_page *page)
{
    return mf_bottom(page) - page->y - pending_height(page);
}

void mf_page_need(mf_page *page, float height)
{
    if (mf_page_left(page) < height && page->y > MF_TOP)
        mf_page_break(page);
    draw_pending(page);
}

void mf_page_heading(mf_page *page, mf_style style, const char *text)
{
    if (style == MF_ST_SECTION)
        page->where = text;
    if (page->n_pending == MF_HELD_BACK)
        mf_page_need(page, 0);
    const char *ready = mf_page_ready(page, style, text);
    page->pending[page->n_pending].style = style;
    page->pending[page->n_pending].draw = NULL;
    page->pending[page->n_pending].text = text;
    page->pending[page->n_pending++].ready = ready;
}

void mf_page_hold(mf_page *page, float height, mf_draw_fn *draw, void *user)
{
    if (page->n_pending == MF_HELD_BACK)
        mf_page_need(page, 0);
    page->pending[page->n_pending].text = NULL;
    page->pending[page->n_pending].draw = draw;
    page->pending[page->n_pending].user = user;
    page->pending[page->n_pending++].height = height;
}

void mf_page_text(mf_page *page, mf_style style, const char *text)
{
    size_t n = 0;
    const char *ready = mf_page_ready(page, style, text);
    const mf_line *lines = mf_page_lines(page, style, ready, mf_across(page), &n);
    const mf_style_row *row = &styles[style];
    int elem = MF_UNTAGGED; /* the headings that wait come before it */
    for (size_t i = 0; i < n; i++) {
        /* No single first or last line on a page of its own. */
        float keep = n <= 3 ? (float)(n - i) : i == 0 || i + 2 == n ? 2 : 1;
        mf_page_need(page, keep * row->leading);
        if (elem == MF_UNTAGGED)
            elem = mf_haru_begin(page->haru, tag_of(style), NULL);
        else
            mf_haru_again(page->haru, elem);
        draw_line(page, style, row->ink, (mf_point){MF_LEFT, page->y}, lines[i]);
        mf_haru_end(page->haru);
        page->y += row->leading;
    }
    page->y += row->after;
}

void mf_page_gap(mf_page *page, float height)
{
    if (page->y > MF_TOP)
        page->y += height;
}

/* ---- the edges ---------------------------------------------------------------------- */

const char *mf_template(mf_page *page, const char *text, const char *a, const char *b,
                        const char *c)
{
    const char *const values[3] = {a, b, c};
    mf_buf buf = {0};
    for (const char *at = text; *at != '\0'; at++) {
        if (at[0] == '{' && at[1] >= '1' && at[1] <= '3' && at[2] == '}') {
            const char *value = values[at[1] - '1'];
            mf_buf_text(&buf, value == NULL ? "" : value);
            at += 2;
        } else {
            mf_buf_add(&buf, at, 1);
        }
    }
    const char *filled = buf.failed ? NULL : mf_arena_text(page->arena, mf_buf_str(&buf));
    mf_buf_free(&buf);
    if (filled == NULL)
        mf_page_no_memory(page);
    return filled == NULL ? "" : filled;
}

/* The first line of a text that must not take a second one: cut at a word, and said so. */
static mf_line first_line(mf_page *page, const char *text, float width)
{
    size_t n = 0;
    const char *ready = mf_page_ready(page, MF_ST_SMALL, text);
    const mf_line *lines = mf_page_lines(page, MF_ST_SMALL, ready, width, &n);
    if (n <= 1)
        return n == 0 ? (mf_line){"", 0} : lines[0];
    lines = mf_page_lines(page, MF_ST_SMALL, ready, width - 10, &n);
    mf_buf buf = {0};
    if (n > 0)
        mf_buf_add(&buf, lines[0].text, lines[0].len);
    mf_buf_text(&buf, " …");
    const char *cut = buf.failed ? NULL : mf_arena_text(page->arena, mf_buf_str(&buf));
    mf_buf_free(&buf);
    if (cut == NULL)
        mf_page_no_memory(page);
    return cut == NULL ? (mf_line){"", 0} : (mf_line){cut, strlen(cut)};
}

static void draw_head(mf_page *page, const mf_running *running)
{
    const float y = 30;
    float width = mf_page_put(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){MF_LEFT, y},
                              running->head_left);
    mf_line right = first_line(page, running->head_right, mf_across(page) - width - 24);
    mf_font font = styles[MF_ST_SMALL].font;
    float x = mf_right(page) - mf_haru_width(page->haru, font, right.text, right.len);
    draw_line(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x, y}, right);
    mf_haru_line(page->haru, MF_INK_ACCENT, 0.6F, (mf_point){MF_LEFT, y + 12},
                 (mf_point){mf_right(page), y + 12});
}

static void draw_foot(mf_page *page, const mf_running *running, int number)
{
    char a[16];
    char b[16];
    snprintf(a, sizeof a, "%d", number);
    snprintf(b, sizeof b, "%d", page->n_pages);
    const bool full = page->spelled && running->foot_head != NULL;
    float y = mf_bottom(page) + (full ? 5 : 10); /* so that four lines end well inside the sheet */
    mf_haru_line(page->haru, MF_INK_ACCENT, 0.6F, (mf_point){MF_LEFT, y - 3},
                 (mf_point){mf_right(page), y - 3});
    draw_line(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){MF_LEFT, y},
              first_line(page, running->foot_left, mf_across(page) - 90));
    mf_page_put_right(page, MF_ST_SMALL_BOLD, (mf_point){mf_right(page), y},
                      mf_template(page, running->page_of, a, b, NULL));
    draw_line(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){MF_LEFT, y + 9.2F},
              first_line(page, running->foot_note, mf_across(page)));
    const char *const last[2] = {running->foot_head, page->spelled ? running->foot_signs : NULL};
    y += 9.2F;
    for (int i = 0; i < 2; i++)
        if (last[i] != NULL)
            draw_line(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){MF_LEFT, y += 9.2F},
                      first_line(page, last[i], mf_across(page)));
}

void mf_page_finish(mf_page *page, const mf_running *running)
{
    mf_page_need(page, 0);
    mf_haru_edge(page->haru, true);
    for (int i = 1; i <= page->n_pages; i++) {
        mf_haru_go(page->haru, i);
        if (i > 1)
            draw_head(page, running);
        draw_foot(page, running, i);
    }
    mf_place_links(page);
}
