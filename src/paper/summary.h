/* summary.h - the parts of the summary that tell of the work. */
#ifndef MF_PAPER_SUMMARY_H
#define MF_PAPER_SUMMARY_H

#include "paper/record.h"

void mf_summary_found(mf_rec *rec);
void mf_summary_window(mf_rec *rec); /* the parts of a window; called by what was found */
void mf_summary_done(mf_rec *rec);
void mf_summary_checked(mf_rec *rec);

#endif
