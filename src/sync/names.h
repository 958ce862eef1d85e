/* names.h - the names of texts in a store (mistfold/sync.h), taken apart. */
#ifndef MF_SYNC_NAMES_H
#define MF_SYNC_NAMES_H

#include "journal/line.h"

/* WRITER/DEVICE.FROM-TO.SHA256.entries, or WRITER/SHA256.bytes of an attachment. */
typedef struct mf_sync_named {
    char writer[MF_DEVICE_MAX + 1];
    char device[MF_DEVICE_MAX + 1]; /* whose chain it is a piece of; "" = it is an attachment */
    char sha256[MF_HASH_HEX];       /* of the text */
    int64_t from, to;               /* of a piece of a chain, 1 <= from <= to */
} mf_sync_named;

/* False when it is none of ours; *out says nothing then. */
bool mf_sync_name_split(const char *name, mf_sync_named *out);

#endif
