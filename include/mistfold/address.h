/* mistfold/address.h - whether two addresses or units may be the same place.
 *
 * Letters and digits are compared word by word without regard to case and to the accents
 * of Latin letters ("PEÑA" is "Pena"); what stands between them is left out. Abbreviations
 * of USPS Publication 28, appendices B, C1 and C2, mean their words ("Ln" is Lane, "N" is
 * North), and "No.", "#", "Apt" and "Unit" say nothing. Where two ways of writing might
 * mean two places they are taken for one: what is counted together can only be more.
 */
#ifndef MISTFOLD_ADDRESS_H
#define MISTFOLD_ADDRESS_H

#include <mistfold/err.h>
#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Whether two units are the same: "2B", "2b" and "Apt. 2-B" are. One that is not said
 * ("") is the same as another that is not said only. */
MF_API bool mf_same_unit(const char *a, const char *b);

/* Whether two jobs may be at one place. What was not said is not known and may be the
 * same: the town behind the street, the unit of one of them. */
MF_API bool mf_may_be_one_place(const char *address, const char *unit, const char *other_address,
                                const char *other_unit);

/* Whether two jobs may be at one building, whatever units they name. */
MF_API bool mf_may_be_one_building(const char *address, const char *other);

/* Writes what all addresses that may be the same have in common: the leading number and
 * the first letter behind it. */
enum { MF_ADDRESS_KEY = 24 };
MF_API void mf_address_key(const char *address, char out[MF_ADDRESS_KEY]);

#ifdef __cplusplus
}
#endif
#endif
