/* make.h - what making a book and copying one share. */
#ifndef MF_BOOK_MAKE_H
#define MF_BOOK_MAKE_H

#include "book/room.h"

/* The name of a device, checked; NULL draws one. */
mf_status mf_make_device(char out[MF_DEVICE_MAX + 1], const char *device, mf_err *err);
/* Opens path as a file, whatever its name means to SQLite; messages call it called. */
mf_status mf_make_open(mf_db *db, const char *path, const char *called, mf_err *err);
/* The same by one of SQLite's ways to read only, "immutable=1"; and a copy in memory of a
 * book that cannot be written. */
mf_status mf_make_open_uri(mf_db *db, const char *path, const char *way, bool alone, mf_err *err);
mf_status mf_make_open_aside(mf_db *db, const char *path, mf_err *err);
/* Whichever of them fits. */
mf_status mf_make_open_to_read(mf_db *db, const char *path, mf_err *err);
/* Every page of one into the other; watch may be NULL. */
mf_status mf_make_copy_pages(mf_db *from, mf_db *to, const mf_watch *watch, mf_err *err);
/* Takes away what was half made. */
void mf_make_undo(const char *path);
/* Whether an open file is a book this version can read; *version is its schema. */
mf_status mf_make_identity(mf_db *db, int64_t *version, mf_err *err);
/* Fails MF_SYSTEM: nothing can be logged in this book. */
mf_status mf_make_read_only(const mf_book *book, mf_err *err);
/* Whether there is an ordinary file at path. */
mf_status mf_make_exists(const char *path, mf_err *err);

#endif
