/* page.h - the flow: a cursor that goes down pages.
 *
 * Coordinates are points from the top left corner. Text is drawn in the order
 * it is to be read. Headings wait until what follows them is drawn, so that none
 * is left alone at the foot of a page; running heads and feet are drawn last,
 * when the number of pages is known. */
#ifndef MF_PAPER_PAGE_H
#define MF_PAPER_PAGE_H

#include "base/mem.h"
#include "paper/haru.h"
#include "paper/text.h"

#define MF_LEFT 44.0F
#define MF_TOP  50.0F

typedef enum mf_style {
    MF_ST_TITLE,
    MF_ST_SECTION, /* numbered section heading with a rule under it */
    MF_ST_HEAD,    /* heading inside a section */
    MF_ST_LARGE,
    MF_ST_BODY,
    MF_ST_BOLD,
    MF_ST_CELL,
    MF_ST_CELL_BOLD,
    MF_ST_SMALL,
    MF_ST_SMALL_BOLD,
    MF_ST_MONO,
    MF_ST_PLAIN, /* for readers who are not of the trade */
    MF_ST_TALL,  /* a line for a mark that is ticked by hand */
    MF_ST_COUNT
} mf_style;

typedef struct mf_style_row {
    mf_font font;
    float leading; /* from baseline to baseline */
    float before, after;
    mf_ink ink;
} mf_style_row;

/* What runs along the edge of every page. */
typedef struct mf_running {
    const char *head_left, *head_right; /* not on the first page */
    const char *foot_left, *foot_note;
    const char *foot_head;  /* or NULL */
    const char *foot_signs; /* what a character's number in brackets is */
    const char *page_of;    /* "page {1} of {2}" */
} mf_running;

enum { MF_HELD_BACK = 5 };

/* Something drawn at the cursor, which it moves. */
typedef void mf_draw_fn(void *user);

/* A place somebody may want to go to, by the name of what is there. */
typedef struct mf_anchor {
    const char *name;
    int page;
    float y;
} mf_anchor;

typedef struct mf_anchors {
    mf_anchor *at;
    size_t n, cap;
} mf_anchors;

/* A rectangle that leads to an anchor. */
typedef struct mf_link {
    mf_spot spot;
    const char *to;
} mf_link;

typedef struct mf_links {
    mf_link *at;
    size_t n, cap;
} mf_links;

typedef struct mf_page {
    mf_haru *haru;
    mf_arena *arena;
    float y;           /* top of what comes next */
    int n_pages;       /* the current one is the last */
    const char *where; /* named when a text is refused */
    bool spelled;      /* a character stands there as its number: the feet say what that is */
    struct {
        mf_style style;
        const char *text, *ready; /* NULL: a drawing of that height */
        mf_draw_fn *draw;
        void *user;
        float height;
    } pending[MF_HELD_BACK];
    size_t n_pending;
    mf_anchors anchors, sections; /* in the arena */
    mf_links links;
} mf_page;

/* How high the sheet is; where the right margin begins, the room between the margins
 * and where the foot begins: they go by the size of the sheet. */
float mf_high(const mf_page *page);
float mf_right(const mf_page *page);
float mf_across(const mf_page *page);
float mf_bottom(const mf_page *page);

const mf_style_row *mf_style_of(mf_style style);

/* Starts a new page. */
void mf_page_break(mf_page *page);

/* Makes sure that height fits below the cursor together with the headings that
 * wait, on a new page if need be, and draws these. */
void mf_page_need(mf_page *page, float height);
/* Room left on this page, less the headings that wait. */
float mf_page_left(const mf_page *page);

/* A heading or a line that must stay with what follows. A section heading sets
 * where and makes a bookmark. */
void mf_page_heading(mf_page *page, mf_style style, const char *text);

/* A drawing that must stay with what follows. */
void mf_page_hold(mf_page *page, float height, mf_draw_fn *draw, void *user);

/* Names the place at the cursor of the current page; the first of a name wins. */
void mf_page_anchor(mf_page *page, const char *name);
/* A rectangle of the current page will lead to the place of that name, if there
 * is one in the end. */
void mf_page_link(mf_page *page, mf_point at, mf_point size, const char *to);

/* A paragraph over the full width, going on over pages. */
void mf_page_text(mf_page *page, mf_style style, const char *text);

void mf_page_gap(mf_page *page, float height);

/* One line with its top left corner at a point; returns its width. */
float mf_page_put(mf_page *page, mf_style style, mf_ink ink, mf_point at, const char *text);
/* The same in black, ending at a point. */
void mf_page_put_right(mf_page *page, mf_style style, mf_point at, const char *text);

/* How wide one line is. */
float mf_page_width(mf_page *page, mf_style style, const char *text);

/* Wrapped text at a point; returns its height. Draws nothing when draw is false. */
float mf_page_block(mf_page *page, mf_style style, mf_point at, float width, const char *text,
                    bool draw);

/* Draws the running heads and feet. */
void mf_page_finish(mf_page *page, const mf_running *running);

/* A line on its baseline, with the blank at which it was broken: what is read aloud keeps its
 * words apart. */
void mf_page_line(mf_page *page, mf_font font, mf_ink ink, mf_point at, mf_line line);

/* Text made ready in the style's face. */
const char *mf_page_ready(mf_page *page, mf_style style, const char *text);
/* Wrapped lines in the arena. */
const mf_line *mf_page_lines(mf_page *page, mf_style style, const char *ready, float width,
                             size_t *n);

/* Makes the paper fail for want of memory. */
void mf_page_no_memory(mf_page *page);

/* A template with {1} {2} {3} filled, in the arena; NULL arguments are "". */
const char *mf_template(mf_page *page, const char *text, const char *a, const char *b,
                        const char *c);

#endif
