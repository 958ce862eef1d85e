/* value.h - one value as a person types and reads it. */
#ifndef MF_WORDS_VALUE_H
#define MF_WORDS_VALUE_H

#include <mistfold/kind.h>

/* From a member of a kind's struct: a text is that of the item, whole; whatever else is
 * written to room. "" = not given. */
enum { MF_VALUE_TEXT = 80 };
const char *mf_words_value(const mf_field *field, const void *item, char room[MF_VALUE_TEXT]);

#endif
