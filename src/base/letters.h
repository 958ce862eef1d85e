/* letters.h - words as people type and mistype them. */
#ifndef MF_BASE_LETTERS_H
#define MF_BASE_LETTERS_H

#include <stdbool.h>

/* The small one of an ASCII capital; every other byte as it is, whatever the locale. */
char mf_lower(char c);

/* Whether a text begins with another. */
bool mf_begins(const char *text, const char *with);

/* The text without the blanks around it, which are cut off in place. */
char *mf_trim(char *text);

/* Whether two texts are the same but for the case of ASCII letters. */
bool mf_same_but_case(const char *a, const char *b);

/* How many letters must be put in, taken out or changed to make b of a (the distance of
 * Levenshtein), capitals aside; MF_FAR_APART from there on, and when one is longer than 40
 * bytes. */
#define MF_FAR_APART 9
int mf_letters_apart(const char *a, const char *b);

#endif
