/* spelling.h - names of rooms in the words of people, however these spell them: "BAÑO", "Bano" and
 * "baño" are one name, and so are "bath 2" and "bath-2". */
#ifndef MF_CORE_SPELLING_H
#define MF_CORE_SPELLING_H

#include <stdbool.h>
#include <stddef.h>

/* How many bytes of the words the name takes where they go on with it and it ends there; 0 = they
 * do not, or it has no letters. */
size_t mf_goes_on(const char *words, const char *name);

/* Whether a word may begin there: at is in words. */
bool mf_word_begins(const char *words, size_t at);

#endif
