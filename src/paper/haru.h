/* haru.h - the only door to the PDF library.
 *
 * Everything above it speaks in these types: pages, points measured from
 * their top left corner, three faces, a few inks. The first thing that goes
 * wrong is kept; afterwards drawing does nothing and saving reports it, so that
 * a paper is drawn without an if after every line and never saved half done.
 */
#ifndef MF_PAPER_HARU_H
#define MF_PAPER_HARU_H

#include "paper/tags.h"

#include <mistfold/err.h>
#include <stdbool.h>
#include <stdint.h>

/* US Letter, which a paper is unless another size is asked for: 8.5 x 11 inches of 72
 * points; A4 (ISO 216): 210 x 297 mm, 25.4 to the inch. */
#define MF_PAPER_W    612.0F
#define MF_PAPER_H    792.0F
#define MF_PAPER_A4_W (210.0F * 72 / 25.4F)
#define MF_PAPER_A4_H (297.0F * 72 / 25.4F)

typedef struct mf_haru mf_haru;

typedef enum mf_face { MF_FACE_REGULAR, MF_FACE_BOLD, MF_FACE_MONO, MF_FACE_COUNT } mf_face;

typedef enum mf_ink {
    MF_INK_BLACK,
    MF_INK_ACCENT, /* headings and rules only: it carries no meaning */
    MF_INK_RULE,
    MF_INK_BAND, /* of a plot, under no letters: a fax makes dots of any grey */
    MF_INK_WHITE,
    MF_INK_NONE,
    MF_INK_COUNT
} mf_ink;

typedef struct mf_point {
    float x, y;
} mf_point;

typedef struct mf_font {
    mf_face face;
    float size;
} mf_font;

/* Opens an empty document. font_dir: one directory or several with ':' between
 * them, the first that has a face wins; NULL = the built-in ones. Fails MF_SYSTEM
 * when a font is absent or unfit (path named) or memory ran out. */
mf_status mf_haru_open(mf_haru **out, const char *font_dir, const char *title, mf_err *err);
void mf_haru_close(mf_haru *haru);

/* The face's file in the first of the ':'-separated directories that has it. On
 * failure path names the file in the first directory. */
bool mf_haru_face_file(char *path, size_t size, const char *dirs, mf_face face);
/* Says why the face at path cannot be used: no memory (by errno), a damaged file that is
 * there, or none. Returns its status. */
mf_status mf_haru_face_fail(mf_err *err, const char *path, bool there);

/* The size of the pages that are added from now on; Letter without it. All pages of a
 * paper have one size: y is counted from the top of the last one told. */
void mf_haru_paper(mf_haru *haru, mf_point size);
mf_point mf_haru_size(const mf_haru *haru);

/* Adds a page and goes to it; pages are counted from 1. */
int mf_haru_add_page(mf_haru *haru);
void mf_haru_go(mf_haru *haru, int page);

/* Whether the face can draw the code point. */
bool mf_haru_has(const mf_haru *haru, mf_face face, int32_t code);

/* Width in points of len bytes of valid UTF-8. */
float mf_haru_width(const mf_haru *haru, mf_font font, const char *text, size_t len);

/* Draws len bytes on the baseline y. The text has passed mf_text_ready. */
void mf_haru_text(mf_haru *haru, mf_font font, mf_ink ink, mf_point at, const char *text,
                  size_t len);

void mf_haru_line(mf_haru *haru, mf_ink ink, float thick, mf_point from, mf_point to);
/* A rectangle from its top left corner; either ink may be MF_INK_NONE. */
void mf_haru_rect(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, mf_point at, mf_point size);
void mf_haru_disc(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, mf_point center,
                  float radius);
/* A polygon (fill) or an open line through the points (fill MF_INK_NONE). */
void mf_haru_path(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, const mf_point *points,
                  size_t n);

/* Lines after it are dashed: on and off in points; on 0 = whole again. */
void mf_haru_dash(mf_haru *haru, unsigned on, unsigned off);

/* ---- what is drawn, for who has it read aloud ---- */

/* Begins an element inside the one that is open, until mf_haru_end; text (the caller's, until
 * the document is saved) is what a figure shows, or the character a mark stands for. Whatever
 * is inside an element that holds text belongs to it, but for marks. Text without an element
 * becomes a paragraph; lines without a figure or mark are of the sheet. Returns the element. */
int mf_haru_begin(mf_haru *haru, mf_tag tag, const char *text);
enum { MF_UNTAGGED = -2 }; /* no element yet */
/* Goes on with an element, until mf_haru_end. */
void mf_haru_again(mf_haru *haru, int elem);
void mf_haru_end(mf_haru *haru);
/* Over how many columns a head stands. */
void mf_haru_span(mf_haru *haru, int elem, int columns);
/* What follows runs along the edge of every sheet, and is read by nobody; or no more. */
void mf_haru_edge(mf_haru *haru, bool edge);

/* Makes a rectangle of a page lead to a height of another page. */
typedef struct mf_spot {
    int page;
    mf_point at, size;
} mf_spot;
void mf_haru_link(mf_haru *haru, const mf_spot *from, int page, float y);

/* The language a reading aloud takes: "en", "es". */
void mf_haru_language(mf_haru *haru, const char *code);

/* A JPEG that we packed ourselves, drawn into a rectangle. */
void mf_haru_jpeg(mf_haru *haru, const mf_bytes *jpeg, mf_point at, mf_point size);

/* An entry of the reader's outline that leads to the current page. */
void mf_haru_bookmark(mf_haru *haru, const char *title);

/* Remembers the first failure of the caller's own; see mf_haru_save. */
void mf_haru_fail(mf_haru *haru, const mf_err *err);
bool mf_haru_failed(const mf_haru *haru);

/* The document as bytes the caller frees, or the first failure. */
mf_status mf_haru_save(mf_haru *haru, mf_bytes *out, mf_err *err);

#endif
