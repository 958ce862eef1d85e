/* The second page: what is where, how to read the marks, and the journal's head as
 * a code. Its page is kept free and drawn last, when all page numbers are known. */
#include "paper/entry.h"
#include "paper/qr.h"
#include "paper/record.h"

#define CODE     92.0F
#define KEY_LINE 12.6F
#define LINE     12.6F

enum {
    SECTIONS_MOST = 20,
    SECTIONS_HALF = SECTIONS_MOST / 2,
    KEYS = 8,
    KEYS_HALF = KEYS / 2
}; /* for which room is kept */

void mf_record_contents_keep(mf_rec *rec)
{
    mf_page_break(&rec->page);
    rec->contents = rec->page.n_pages;
    rec->contents_part = mf_haru_begin(rec->page.haru, MF_TAG_SECT, NULL);
    mf_haru_end(rec->page.haru);
    rec->page.y += 24 + LINE * SECTIONS_HALF + 18 + KEY_LINE * KEYS_HALF + 20;
}

/* A title, dots and the page; the line leads there. */
static void line(mf_rec *rec, const mf_anchor *section, mf_point at, float right)
{
    const float y = at.y;
    mf_page *page = &rec->page;
    const char *number = mf_print(rec, "%d", section->page);
    float from = at.x + mf_page_put(page, MF_ST_CELL, MF_INK_BLACK, at, section->name) + 6;
    float to = right - mf_page_width(page, MF_ST_CELL, number) - 6;
    mf_haru_dash(page->haru, 1, 3);
    if (from < to)
        mf_haru_line(page->haru, MF_INK_RULE, 0.8F, (mf_point){from, y + 10},
                     (mf_point){to, y + 10});
    mf_haru_dash(page->haru, 0, 0);
    mf_page_put_right(page, MF_ST_CELL, (mf_point){right, y}, number);
    const mf_spot spot = {rec->contents, at, {right - at.x, LINE}};
    mf_haru_link(page->haru, &spot, section->page, section->y - 14);
}

static const char *entry_words(mf_rec *rec)
{
    const char *home = mf_home_device(rec);
    return *home == '\0' ? mf_phrase(rec, "key.entries-full")
                         : mf_fill(rec, "key.entries", home, NULL, NULL);
}

static void key(mf_rec *rec, float y)
{
    static const struct {
        mf_mark mark;
        const char *id;
    } rows[KEYS] = {{MF_MARK_TICK, "key.tick"}, {MF_MARK_CROSS, "key.cross"},
                    {MF_MARK_WARN, "key.warn"}, {MF_MARK_DASH, "key.dash"},
                    {MF_MARK_OPEN, "key.open"}, {MF_MARK_FULL, "key.full"},
                    {MF_MARK_HALF, "key.half"}, {MF_MARK_RING, "key.ring"}};
    const float half = mf_across(&rec->page) / 2;
    mf_page_put(&rec->page, MF_ST_LARGE, MF_INK_BLACK, (mf_point){MF_LEFT, y},
                mf_phrase(rec, "key"));
    y += 18;
    for (int i = 0; i < KEYS; i++) {
        const mf_point at = {MF_LEFT + (i < KEYS_HALF ? 0 : half),
                             y + (float)(i % KEYS_HALF) * KEY_LINE};
        mf_mark_draw(rec->page.haru, rows[i].mark, (mf_point){at.x, at.y + 1}, 9);
        mf_page_block(&rec->page, MF_ST_CELL, (mf_point){at.x + 16, at.y}, half - 24,
                      mf_phrase(rec, rows[i].id), true);
    }
    mf_page_block(&rec->page, MF_ST_CELL, (mf_point){MF_LEFT, y + KEY_LINE * KEYS_HALF + 2},
                  mf_across(&rec->page), entry_words(rec), true);
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
    mf_haru_begin(rec->page.haru, MF_TAG_FIGURE, mf_phrase(rec, "contents.code"));
    mf_qr_draw(rec,
               mf_print(rec, "mistfold job=%s paper=record head=%s%s%s", rec->job->id, head,
                        of.len > 0 ? " of=" : "", mf_buf_str(&of)),
               (mf_point){x, MF_TOP + 4}, CODE);
    mf_haru_end(rec->page.haru);
    if (of.failed)
        mf_page_no_memory(&rec->page);
    mf_buf_free(&of);
    mf_page_block(&rec->page, MF_ST_SMALL, (mf_point){x, MF_TOP + CODE + 7}, CODE,
                  mf_phrase(rec, "contents.code"), true);
}

/* In two columns beside the code. */
void mf_record_contents(mf_rec *rec)
{
    mf_page *page = &rec->page;
    const float wide = (mf_across(page) - CODE - 24 - 20) / 2;
    const size_t n = page->sections.n < SECTIONS_MOST ? page->sections.n : SECTIONS_MOST;
    float y = MF_TOP;
    mf_page_need(page, 0);
    mf_haru_go(page->haru, rec->contents);
    mf_haru_again(page->haru, rec->contents_part);
    mf_page_put(page, MF_ST_SECTION, MF_INK_ACCENT, (mf_point){MF_LEFT, y},
                mf_phrase(rec, "contents"));
    y += 24;
    for (size_t i = 0; i < n; i++) {
        bool second = i >= (n + 1) / 2;
        const mf_point at = {MF_LEFT + (second ? wide + 20 : 0),
                             y + LINE * (float)(second ? i - (n + 1) / 2 : i)};
        line(rec, &page->sections.at[i], at, at.x + wide);
    }
    head_code(rec);
    key(rec, y + LINE * SECTIONS_HALF + 2);
    mf_haru_end(page->haru);
    mf_haru_go(page->haru, page->n_pages);
}
