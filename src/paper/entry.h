/* entry.h - how papers name an entry of the journal: most of a job's come from one device,
 * whose name is told once, beside the meaning of the marks. */
#ifndef MF_PAPER_ENTRY_H
#define MF_PAPER_ENTRY_H

#include "paper/rec.h"

/* The device the job was opened on; "" = without a house. */
const char *mf_home_device(mf_rec *rec);
/* "17" of the home device's office/17; an entry of another device as it is. */
const char *mf_entry_words(mf_rec *rec, const char *entry);
/* The same as a small cell that leads to the entry's row. */
mf_cell mf_entry_cell(mf_rec *rec, const char *entry);

#endif
