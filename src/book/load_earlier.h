/* load_earlier.h - paint that other jobs at the same address disturb. */
#ifndef MF_BOOK_LOAD_EARLIER_H
#define MF_BOOK_LOAD_EARLIER_H

#include "book/room.h"
#include "journal/fold.h"

/* Sets the list earlier of the loaded job; an altered entry of another job at the place
 * breaks its integrity. */
mf_status mf_load_earlier(mf_book *book, mf_job_fold *fold, mf_err *err);

#endif
