/* text.h - text before it is drawn: made ready, wrapped. */
#ifndef MF_PAPER_TEXT_H
#define MF_PAPER_TEXT_H

#include "base/mem.h"
#include "paper/haru.h"

/* The text as it will be drawn: valid UTF-8 in composed form (NFC). A character that cannot
 * be drawn rightly (no glyph in the face, right to left, one that nobody sees) stands there as
 * its number in Unicode, "[U+1F600]", and *spelled becomes true; so does a bracket that was
 * typed before "U+". '\n' is let through as a line break. Given twice, such a bracket would be
 * taken for a typed one: a text is made ready once. Text that is not UTF-8 makes the haru fail
 * with `where` named, and "" is returned. Lives in the arena. */
const char *mf_text_ready(mf_haru *haru, mf_arena *arena, mf_face face, const char *text,
                          const char *where, bool *spelled);

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
