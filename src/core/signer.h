/* signer.h - what stands beside a name where a paper was signed: "Ida Sample, manager". */
#ifndef MF_CORE_SIGNER_H
#define MF_CORE_SIGNER_H

#include <stdbool.h>

/* Whether the words say what somebody is, or that he signed: "owner", "agent for ...", "signed at
 * home". */
bool mf_says_what_signer_is(const char *words);

/* Whether they say that nobody signed, or nobody who may: "refused to sign", "to be signed later",
 * "9-year-old". */
bool mf_says_unsigned(const char *words);

/* Whether they say that somebody rents the place, or is on the side of who lets it. */
bool mf_says_signer_rents(const char *words);
bool mf_says_signer_lets(const char *words);

/* Whether words of a delivery say that there was none, or names of who delivered it that nobody
 * did. */
bool mf_says_undelivered(const char *words);
bool mf_says_nobody(const char *words);

#endif
