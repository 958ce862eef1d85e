/* spelled.h - a name in a text, however it is written there: capitals and accents aside, as those
 * who search a book find words, and whatever stands between its words. */
#ifndef MF_BASE_SPELLED_H
#define MF_BASE_SPELLED_H

#include <stdbool.h>
#include <stddef.h>

/* How many bytes the name takes where it stands at this place of the text, as words of its own;
 * 0 = it does not. at points into text. What is no UTF-8 is no letter of any name. */
size_t mf_spelled_at(const char *name, const char *text, const char *at);

/* Whether it stands anywhere in the text. */
bool mf_spelled_in(const char *name, const char *text);

#endif
