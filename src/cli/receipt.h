/* receipt.h - what came of a file of entries, for whoever handed it over. */
#ifndef MF_CLI_RECEIPT_H
#define MF_CLI_RECEIPT_H

#include "cli/json.h"

typedef struct mf_receipt {
    mf_buf lines; /* "device seq hash", of each device in the file */
    json_t *devices;
} mf_receipt;

void mf_receipt_begin(mf_receipt *r);
/* A mf_head_fn over a mf_receipt. */
bool mf_receipt_head(const char *device, int64_t seq, const char *hash, void *data);
/* As JSON, new; NULL when memory ran out. */
json_t *mf_receipt_json(const mf_receipt *r, const mf_entries_report *out);
/* The same as text, the caller's to free. */
char *mf_receipt_text(const mf_receipt *r, const mf_entries_report *out);
void mf_receipt_end(mf_receipt *r);

#endif
