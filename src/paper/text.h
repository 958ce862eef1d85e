/* text.h - text before it is drawn: made ready, refused, wrapped. */
#ifndef MF_PAPER_TEXT_H
#define MF_PAPER_TEXT_H

#include "base/mem.h"
#include "paper/haru.h"

/* The text as it will be drawn: valid UTF-8 in composed form (NFC). When a
 * character cannot be drawn rightly (no glyph in the face, right to left, a
 * control character) the haru fails with the character and `where` named, and
 * "" is returned. '\n' is let through as a line break. Lives in the arena. */
const char *mf_text_ready(mf_haru *haru, mf_arena *arena, mf_face face, const char *text,
                          const char *where);

typedef struct mf_line {
    const char *text;
    size_t len;
} mf_line;

/* Breaks ready text into lines no wider than width: at blanks and line breaks,
 * and inside a word that alone is too wide. Writes at most cap lines and returns
 * how many there are; "" gives none. */
size_t mf_text_wrap(const mf_haru *haru, mf_font font, const char *text, float width,
                    mf_line *lines, size_t cap);

#endif
