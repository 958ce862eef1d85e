/* The warning sign: one page, letters as large as the page holds. Common practice
 * is an inch of letter for 10 ft; the lines that matter are larger than half of it. */
#include "paper/forms.h"

#include <string.h>

typedef struct sign_line {
    const char *id;
    float most; /* points: no larger than that */
    bool white; /* white on black */
} sign_line;

static const sign_line sign_lines[] = {
    {"form.sign-warning", 118, true},  {"form.sign-lead", 80, false},
    {"form.sign-keep-out", 80, false}, {"form.sign-no-eating", 46, false},
    {"form.sign-harm", 34, false},
};

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
static float draw_words(mf_rec *rec, const sign_line *line, float y)
{
    const char *words = mf_page_ready(&rec->page, MF_ST_TITLE, mf_phrase(rec, line->id));
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
    return y - top + 16;
}

void mf_form_sign(mf_rec *rec, const mf_area *area)
{
    float y = 44;
    mf_haru_rect(rec->page.haru, MF_INK_NONE, MF_INK_BLACK, 6.0F, (mf_point){36, 30},
                 (mf_point){mf_haru_size(rec->page.haru).x - 72, mf_high(&rec->page) - 60});
    for (size_t i = 0; i < sizeof sign_lines / sizeof sign_lines[0]; i++)
        y += draw_words(rec, &sign_lines[i], y);
    const char *small = mf_phrase(rec, "form.sign-citation");
    if (rec->job != NULL)
        small = mf_join(rec, rec->job->id, area == NULL ? "" : ", ",
                        mf_join(rec, area == NULL ? "" : area->id, "   ", small));
    mf_page_put(&rec->page, MF_ST_SMALL, MF_INK_BLACK,
                (mf_point){MF_LEFT, mf_high(&rec->page) - 50}, small);
    rec->page.y = mf_bottom(&rec->page);
}
