/* spelled.h - a name in a text, however it is written there: capitals and accents aside, as those
 * who search a book find words, and whatever stands between its words. */
#ifndef MF_BASE_SPELLED_H
#define MF_BASE_SPELLED_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* How many bytes the name takes where it stands at this place of the text, as words of its own;
 * 0 = it does not. at points into text. What is no UTF-8 is no letter of any name. */
size_t mf_spelled_at(const char *name, const char *text, const char *at);

/* Numbers of the first letters of a text, of one, of two and so on: where a name stands, the last
 * number of the name is among those of the place. Of a name the letters end with its first word;
 * returns how many there are. For who looks for many names: the others are passed by. */
enum { MF_SPELLED_KEYS = 4 };
size_t mf_spelled_keys(const char *at, bool name, uint32_t keys[MF_SPELLED_KEYS]);

/* Whether it stands anywhere in the text. */
bool mf_spelled_in(const char *name, const char *text);

#endif
