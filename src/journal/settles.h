/* settles.h - the corrections that a correction settles: a list of entries with commas. */
#ifndef MF_JOURNAL_SETTLES_H
#define MF_JOURNAL_SETTLES_H

#include <mistfold/book.h>
#include <mistfold/job.h>

/* The next of a list, which goes on at *list; false behind the last. What is too long for the
 * name of an entry is passed over. */
bool mf_settles_next(const char **list, char id[MF_ENTRY_ID]);

/* Whether a correction goes on from that entry, or settles it. */
bool mf_takes_place_of(const mf_correction *it, const char *entry);

/* Whether a list names entries, each once and in the order of their names. */
bool mf_settles_well(const char *list, size_t len);

#endif
