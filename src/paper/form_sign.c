/* The warning sign: one page, letters as large as the page holds. Common practice
 * is an inch of letter for 10 ft; the lines that matter are larger than half of it.
 * Assisted housing has a sign of its own, with more words; it says no size of letters,
 * only that it is easily read from 20 ft. */
#include "paper/days.h"
#include "paper/forms.h"

#include <mistfold/assisted.h>
#include <mistfold/words.h>

#include <string.h>

typedef struct sign_line {
    const char *id;
    float most; /* points: no larger than that */
    bool white; /* white on black */
} sign_line;

/* 745.85(a)(1) sets no words: these are our own. */
static const sign_line sign_lines[] = {
    {"form.sign-warning", 118, true},  {"form.sign-lead", 80, false},
    {"form.sign-keep-out", 80, false}, {"form.sign-no-eating", 46, false},
    {"form.sign-harm", 34, false},
};

/* 24 CFR 35.1345(b)(2): worded as 29 CFR 1926.62(m) has it, in English whatever the paper. */
static const sign_line danger_lines[] = {
    {"form.danger", 100, true},        {"form.danger-area", 60, false},
    {"form.danger-unborn", 42, false}, {"form.danger-nerves", 42, false},
    {"form.danger-eating", 42, false},
};
enum { TRANSLATED = 25, GAP = 9, DANGER_GAP = 7, AREA = 24, FOOT = 86 }; /* points */

/* The size at which a text is as wide as the sign, at most `most`. */
static float size_for(mf_rec *rec, const char *text, float most)
{
    const float width = mf_across(&rec->page) - 24;
    float one = mf_haru_width(rec->page.haru, (mf_font){MF_FACE_BOLD, 100}, text, strlen(text));
    float size = one <= 0 ? most : width / one * 100;
    return size > most ? most : size;
}

/* One drawn line, in the middle; returns its height. */
static float draw_line(mf_rec *rec, const char *text, float size, float y, bool white)
{
    mf_haru *haru = rec->page.haru;
    const mf_font font = {MF_FACE_BOLD, size};
    float width = mf_haru_width(haru, font, text, strlen(text));
    if (white)
        mf_haru_rect(haru, MF_INK_BLACK, MF_INK_NONE, 0, (mf_point){MF_LEFT, y},
                     (mf_point){mf_across(&rec->page), size * 1.1F});
    mf_haru_text(haru, font, white ? MF_INK_WHITE : MF_INK_BLACK,
                 (mf_point){MF_LEFT + (mf_across(&rec->page) - width) / 2, y + size * 0.9F}, text,
                 strlen(text));
    return size * 1.14F;
}

/* A wording's '|' parts it into lines of one size. */
static float draw_words(mf_rec *rec, const char *wording, const sign_line *line, float y)
{
    const char *words = mf_page_ready(&rec->page, MF_ST_TITLE, wording);
    float size = line->most;
    float top = y;
    for (const char *at = words; *at != '\0';) {
        size_t len = strcspn(at, "|");
        float fits = size_for(rec, mf_print(rec, "%.*s", (int)len, at), line->most);
        size = fits < size ? fits : size;
        at += len + (at[len] == '|');
    }
    for (const char *at = words; *at != '\0';) {
        size_t len = strcspn(at, "|");
        y += draw_line(rec, mf_print(rec, "%.*s", (int)len, at), size, y, line->white);
        at += len + (at[len] == '|');
    }
    return y - top;
}

static void draw_own(mf_rec *rec, float y)
{
    for (size_t i = 0; i < sizeof sign_lines / sizeof sign_lines[0]; i++)
        y += draw_words(rec, mf_phrase(rec, sign_lines[i].id), &sign_lines[i], y) + GAP;
}

/* No official Spanish of it is known: ours stands below, and says that it is ours. */
static void draw_danger(mf_rec *rec, float y)
{
    const size_t n = sizeof danger_lines / sizeof danger_lines[0];
    const sign_line small = {"", TRANSLATED, false}, note = {"", 10, false};
    for (size_t i = 0; i < n; i++)
        y += draw_words(rec, mf_words2(MF_LANG_EN, "paper", danger_lines[i].id), &danger_lines[i],
                        y) +
             DANGER_GAP;
    for (size_t i = 1; i < n; i++) /* the second names the danger as well */
        y += draw_words(rec, mf_words2(MF_LANG_ES, "paper", danger_lines[i].id), &small, y);
    draw_words(rec, mf_phrase(rec, "form.danger-ours"), &note, y + 2);
}

/* Where the work area is, which the sign is to define: its place, or a line to write it on. */
static void draw_area(mf_rec *rec, const mf_area *area)
{
    const sign_line line = {"", AREA, false};
    const float y = mf_high(&rec->page) - FOOT;
    const char *place = area == NULL ? "" : *area->place == '\0' ? area->id : area->place;
    const char *words = mf_fill(rec, "form.sign-area", place, NULL, NULL);
    if (*place != '\0') {
        draw_words(rec, words, &line, y);
        return;
    }
    float used =
        mf_page_put(&rec->page, MF_ST_LARGE, MF_INK_BLACK, (mf_point){MF_LEFT + 8, y + 6}, words);
    mf_haru_line(rec->page.haru, MF_INK_BLACK, 1, (mf_point){MF_LEFT + 12 + used, y + 22},
                 (mf_point){mf_right(&rec->page) - 8, y + 22});
}

/* Why no sign is due: the job was called off, or the work in the area; "" = one is. */
static const char *off_words(mf_rec *rec, const mf_area *area)
{
    const char *off = mf_off_words(rec);
    return *off == '\0' && area != NULL ? mf_area_off_words(rec, area) : off;
}

/* Nobody is to be kept out of where nothing is disturbed: that is said in place of the sign. */
static void draw_off(mf_rec *rec, const char *off, float y)
{
    const char *words = mf_join(rec, off, "\n\n", mf_phrase(rec, "form.sign-off"));
    mf_page_block(&rec->page, MF_ST_TITLE, (mf_point){MF_LEFT + 12, y + 24},
                  mf_across(&rec->page) - 24, words, true);
}

void mf_form_sign(mf_rec *rec, const mf_area *area)
{
    bool assisted = rec->job != NULL && mf_assisted_holds(rec->job);
    const char *off = off_words(rec, area);
    const float top = 44;
    mf_haru_rect(rec->page.haru, MF_INK_NONE, MF_INK_BLACK, 6.0F, (mf_point){36, 30},
                 (mf_point){mf_haru_size(rec->page.haru).x - 72, mf_high(&rec->page) - 60});
    if (*off != '\0')
        draw_off(rec, off, top);
    else if (assisted)
        draw_danger(rec, top);
    else
        draw_own(rec, top);
    if (*off != '\0' || !assisted) /* whose words are set, and fill the sheet */
        draw_area(rec, area);
    const char *small = mf_phrase(rec, *off != '\0' ? "form.sign-off-citation"
                                       : assisted   ? "form.danger-citation"
                                                    : "form.sign-citation");
    if (rec->job != NULL)
        small = mf_join(rec, rec->job->id, area == NULL ? "   " : ", ",
                        mf_join(rec, area == NULL ? "" : area->id, "   ", small));
    mf_page_put(&rec->page, MF_ST_SMALL, MF_INK_BLACK,
                (mf_point){MF_LEFT, mf_high(&rec->page) - 50}, small);
    rec->page.y = mf_bottom(&rec->page);
}
