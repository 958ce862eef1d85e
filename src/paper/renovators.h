/* renovators.h - the certified renovators of a job, as every paper names them. */
#ifndef MF_PAPER_RENOVATORS_H
#define MF_PAPER_RENOVATORS_H

#include "paper/rec.h"

/* Each who is assigned once, with the number of the certificate that holds from the first day of
 * the duty; "" = none is. Of those who led, who did or directed work: all who are assigned, as long
 * as none of them did. */
const char *mf_renovators_words(mf_rec *rec, bool who_led);

#endif
