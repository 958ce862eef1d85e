/* photos.h - from what an entry says to the photo that shows it. */
#ifndef MF_PAPER_PHOTOS_H
#define MF_PAPER_PHOTOS_H

#include "paper/rec.h"

/* The cell with the numbers of the photos about that entry below it, and leading to
 * the first of them. */
mf_cell mf_with_photos(mf_rec *rec, mf_cell cell, const char *entry);

/* The same for the photo that a tick names by its hash: when the book does not hold
 * the file, its name and hash are told. */
mf_cell mf_with_named_photo(mf_rec *rec, mf_cell cell, const mf_tick *tick);

#endif
