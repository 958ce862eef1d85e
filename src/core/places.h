/* places.h - the places of a house, as ids with commas. */
#ifndef MF_CORE_PLACES_H
#define MF_CORE_PLACES_H

#include <stdbool.h>
#include <stddef.h>

/* Whether one of the places is `wide` or lies in it: "US-NY" covers "US-NY" and
 * "us-ny-nyc", not "US-NYX". Neither is NULL. */
bool mf_place_among(const char *places, const char *wide);

/* Whether the item, len bytes, is written like a state, "US-" and more, whether there is such a
 * state or not. */
bool mf_place_names_state(const char *item, size_t len);

#endif
