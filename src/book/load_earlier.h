/* load_earlier.h - paint that other jobs at the same address disturb. */
#ifndef MF_BOOK_LOAD_EARLIER_H
#define MF_BOOK_LOAD_EARLIER_H

#include "book/room.h"

/* Sets the list earlier of the loaded job; its memory comes from the arena. */
mf_status mf_load_earlier(mf_book *book, mf_job *job, mf_arena *arena, mf_err *err);

#endif
