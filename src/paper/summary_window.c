/* A window with its parts numbered, and what each is called: on the left as it is seen from
 * the room, on the right cut through at its foot. */
#include "paper/form.h"
#include "paper/summary.h"

#define HIGH  118.0F
#define WORDS 214.0F /* where the list of names begins, from the left margin */

typedef struct part_box {
    float x, y, w, h;
} part_box;

static void box(mf_rec *rec, mf_ink fill, float width, part_box at)
{
    mf_haru_rect(rec->page.haru, fill, MF_INK_BLACK, width, (mf_point){at.x, at.y},
                 (mf_point){at.w, at.h});
}

/* A number in a ring, with a line to the part. */
static void number(mf_rec *rec, int n, mf_point at, mf_point part)
{
    mf_page *page = &rec->page;
    const char *words = mf_print(rec, "%d", n);
    float width = mf_page_width(page, MF_ST_SMALL_BOLD, words);
    mf_haru_line(page->haru, MF_INK_BLACK, 0.5F, at, part);
    mf_haru_disc(page->haru, MF_INK_BLACK, MF_INK_NONE, 0, part, 1.1F);
    mf_haru_disc(page->haru, MF_INK_WHITE, MF_INK_BLACK, 0.6F, at, 5.6F);
    mf_page_put(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){at.x - width / 2, at.y - 4.9F},
                words);
}

/* From the room: casing around, the jamb, two sashes with stops beside them, sill, apron. */
static void from_the_room(mf_rec *rec, mf_point o)
{
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 18, o.y, 64, 84});
    box(rec, MF_INK_WHITE, 0.6F, (part_box){o.x + 25, o.y + 7, 50, 77});
    box(rec, MF_INK_WHITE, 0.5F, (part_box){o.x + 28, o.y + 10, 44, 74});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 31, o.y + 12, 38, 35});
    box(rec, MF_INK_WHITE, 0.5F, (part_box){o.x + 35, o.y + 16, 30, 28});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 31, o.y + 47, 38, 37});
    box(rec, MF_INK_WHITE, 0.5F, (part_box){o.x + 35, o.y + 50, 30, 29});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 12, o.y + 84, 76, 6});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 20, o.y + 90, 60, 11});
    number(rec, 1, (mf_point){o.x + 6, o.y + 30}, (mf_point){o.x + 33, o.y + 30});
    number(rec, 2, (mf_point){o.x + 6, o.y + 76}, (mf_point){o.x + 18, o.y + 87});
    number(rec, 3, (mf_point){o.x + 6, o.y + 104}, (mf_point){o.x + 26, o.y + 96});
    number(rec, 4, (mf_point){o.x + 6, o.y + 8}, (mf_point){o.x + 21, o.y + 12});
    number(rec, 5, (mf_point){o.x + 95, o.y + 30}, (mf_point){o.x + 70.5F, o.y + 30});
    number(rec, 6, (mf_point){o.x + 95, o.y + 8}, (mf_point){o.x + 73.5F, o.y + 14});
}

/* Cut at the foot, the room on the left, the yard on the right. */
static void cut_through(mf_rec *rec, mf_point o)
{
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 30, o.y, 9, 52});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 6, o.y + 52, 28, 6});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 34, o.y + 58, 16, 5});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 50, o.y + 60, 26, 7});
    box(rec, MF_INK_WHITE, 0.9F, (part_box){o.x + 54, o.y, 11, 60});
    box(rec, MF_INK_BAND, 0.5F, (part_box){o.x + 16, o.y + 58, 18, 42});
    box(rec, MF_INK_BAND, 0.5F, (part_box){o.x + 34, o.y + 67, 22, 33});
    number(rec, 7, (mf_point){o.x + 46, o.y + 86}, (mf_point){o.x + 44, o.y + 60});
    number(rec, 8, (mf_point){o.x + 84, o.y + 84}, (mf_point){o.x + 70, o.y + 64});
    number(rec, 9, (mf_point){o.x + 84, o.y + 16}, (mf_point){o.x + 60, o.y + 16});
    number(rec, 1, (mf_point){o.x + 12, o.y + 14}, (mf_point){o.x + 34, o.y + 14});
    number(rec, 2, (mf_point){o.x + 6, o.y + 76}, (mf_point){o.x + 12, o.y + 55});
}

/* The names in the order of the numbers. */
static float names(mf_rec *rec, mf_point at, bool draw)
{
    static const mf_component_type parts[] = {
        MF_COMP_SASH,           MF_COMP_INTERIOR_SILL, MF_COMP_APRON,  MF_COMP_INTERIOR_CASING,
        MF_COMP_STOP,           MF_COMP_JAMB,          MF_COMP_TROUGH, MF_COMP_EXTERIOR_SILL,
        MF_COMP_EXTERIOR_CASING};
    const float top = at.y, width = mf_across(&rec->page) - WORDS;
    for (int i = 0; i < (int)(sizeof parts / sizeof parts[0]); i++) {
        const char *words =
            mf_print(rec, "%d  %s: %s", i + 1, mf_enum(rec, MF_FAM_COMPONENT, (int)parts[i]),
                     mf_phrase(rec, mf_print(rec, "summary.part-%d", i + 1)));
        at.y += mf_page_block(&rec->page, MF_ST_CELL, at, width, words, draw);
    }
    return at.y - top;
}

void mf_summary_window(mf_rec *rec)
{
    mf_page *page = &rec->page;
    float height = names(rec, (mf_point){0, 0}, false);
    height = height > HIGH ? height : HIGH;
    mf_page_heading(page, MF_ST_HEAD, mf_phrase(rec, "summary.parts"));
    mf_page_need(page, height + 6);
    const float y = page->y + 4;
    mf_haru_begin(page->haru, MF_TAG_FIGURE, mf_phrase(rec, "alt.window"));
    from_the_room(rec, (mf_point){MF_LEFT, y});
    cut_through(rec, (mf_point){MF_LEFT + 112, y + 4});
    mf_haru_end(page->haru);
    names(rec, (mf_point){MF_LEFT + WORDS, y - 2}, true);
    page->y += height + 6;
}
