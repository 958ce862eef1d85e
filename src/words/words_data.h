/* words_data.h - the wording table made from forms/ at build time. */
#ifndef MF_WORDS_DATA_H
#define MF_WORDS_DATA_H

#include <mistfold/words.h>

typedef struct mf_words_row {
    const char *id;
    const char *text[MF_LANG_COUNT]; /* "" = not translated yet */
} mf_words_row;

/* Sorted by id. */
extern const mf_words_row mf_words_rows[];
extern const size_t mf_words_count;

#endif
