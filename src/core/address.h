/* address.h - what an address says beyond another one. */
#ifndef MF_CORE_ADDRESS_H
#define MF_CORE_ADDRESS_H

#include <mistfold/address.h>

/* What follows in text where it begins with the words of start; NULL = it does not, or start
 * has no words. */
const char *mf_after(const char *text, const char *start);

/* Whether the text has words of its own; and whether it has those of part somewhere. */
bool mf_has_words(const char *text);
bool mf_has_part(const char *text, const char *part);

/* Whether the text names a street with a number, and none that may be that of the address. */
bool mf_other_street(const char *text, const char *address);

/* How many units it names: "3C" or "Apt 3" as a part of its own, or behind that street. */
size_t mf_units_named(const char *text, const char *address);

#endif
