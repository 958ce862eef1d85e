/* The second page: what is where, how to read the marks, and the journal's head as
 * a code. Its page is kept free and drawn last, when all page numbers are known. */
#include "paper/qr.h"
#include "paper/record.h"

#include <string.h>

#define CODE 92.0F
#define LINE 17.0F

void mf_record_contents_keep(mf_rec *rec)
{
    mf_page_break(&rec->page);
    rec->contents = rec->page.n_pages;
    rec->page.y = mf_bottom(&rec->page); /* what follows goes to a new page */
}

/* A title, dots and the page; the line leads there. */
static void line(mf_rec *rec, const mf_anchor *section, float y)
{
    mf_page *page = &rec->page;
    const char *number = mf_print(rec, "%d", section->page);
    float right = mf_right(page) - CODE - 24;
    float from =
        MF_LEFT +
        mf_page_put(page, MF_ST_PLAIN, MF_INK_BLACK, (mf_point){MF_LEFT, y}, section->name) + 6;
    float to = right - mf_page_width(page, MF_ST_PLAIN, number) - 6;
    mf_haru_dash(page->haru, 1, 3);
    if (from < to)
        mf_haru_line(page->haru, MF_INK_RULE, 0.8F, (mf_point){from, y + 10},
                     (mf_point){to, y + 10});
    mf_haru_dash(page->haru, 0, 0);
    mf_page_put_right(page, MF_ST_PLAIN, MF_INK_BLACK, (mf_point){right, y}, number);
    const mf_spot spot = {rec->contents, {MF_LEFT, y}, {right - MF_LEFT, LINE}};
    mf_haru_link(page->haru, &spot, section->page, section->y - 14);
}

static float key_line(mf_rec *rec, mf_mark mark, const char *words, float y)
{
    mf_mark_draw(rec->page.haru, mark, (mf_point){MF_LEFT, y + 2}, 9);
    return y +
           mf_page_block(&rec->page, MF_ST_BODY, (mf_point){MF_LEFT + 18, y},
                         mf_across(&rec->page) - 18, words, true) +
           3;
}

static void key(mf_rec *rec, float y)
{
    static const struct {
        mf_mark mark;
        const char *id;
    } rows[] = {{MF_MARK_TICK, "key.tick"}, {MF_MARK_CROSS, "key.cross"},
                {MF_MARK_WARN, "key.warn"}, {MF_MARK_DASH, "key.dash"},
                {MF_MARK_OPEN, "key.open"}, {MF_MARK_FULL, "key.full"},
                {MF_MARK_HALF, "key.half"}, {MF_MARK_RING, "key.ring"}};
    mf_page_put(&rec->page, MF_ST_LARGE, MF_INK_BLACK, (mf_point){MF_LEFT, y},
                mf_phrase(rec, "key"));
    y += 20;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        y = key_line(rec, rows[i].mark, mf_phrase(rec, rows[i].id), y);
    mf_page_block(&rec->page, MF_ST_BODY, (mf_point){MF_LEFT, y + 6}, mf_across(&rec->page),
                  mf_phrase(rec, "key.entries"), true);
}

static void head_code(mf_rec *rec)
{
    const char *head = rec->ask->head;
    const float x = mf_right(&rec->page) - CODE;
    if (head == NULL || *head == '\0')
        return;
    mf_buf of = {0}; /* "office/413,truck/20" */
    for (const char *at = rec->ask->chains == NULL ? "" : rec->ask->chains; *at != '\0'; at++)
        mf_buf_add(&of, *at == ' ' ? "," : at, 1);
    mf_qr_draw(rec,
               mf_print(rec, "mistfold job=%s paper=record head=%s%s%s", rec->job->id, head,
                        of.len > 0 ? " of=" : "", mf_buf_str(&of)),
               (mf_point){x, 84}, CODE);
    if (of.failed)
        mf_page_no_memory(&rec->page);
    mf_buf_free(&of);
    mf_page_block(&rec->page, MF_ST_SMALL, (mf_point){x, 84 + CODE + 3}, CODE,
                  mf_phrase(rec, "contents.code"), true);
}

void mf_record_contents(mf_rec *rec)
{
    mf_page *page = &rec->page;
    float y = 64;
    mf_page_need(page, 0);
    mf_haru_go(page->haru, rec->contents);
    mf_page_put(page, MF_ST_SECTION, MF_INK_ACCENT, (mf_point){MF_LEFT, y},
                mf_phrase(rec, "contents"));
    y += 26;
    for (size_t i = 0; i < page->sections.n && y < mf_bottom(page) - 220; i++) {
        line(rec, &page->sections.at[i], y);
        y += LINE;
    }
    head_code(rec);
    key(rec, y + 18);
    mf_haru_go(page->haru, page->n_pages);
}
