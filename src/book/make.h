/* make.h - what making a book and copying one share. */
#ifndef MF_BOOK_MAKE_H
#define MF_BOOK_MAKE_H

#include "book/room.h"

/* The name of a device, checked; NULL draws one. */
mf_status mf_make_device(char out[MF_DEVICE_MAX + 1], const char *device, mf_err *err);
/* A new empty file that its owner alone can read; refuses one that is there. */
mf_status mf_make_file(const char *path, mf_err *err);
/* Opens path as a file, whatever its name means to SQLite; messages call it called. */
mf_status mf_make_open(mf_db *db, const char *path, const char *called, mf_err *err);
/* Takes away what was half made. */
void mf_make_undo(const char *path);
/* Whether an open file is a book this version can read; *version is its schema. */
mf_status mf_make_identity(mf_db *db, int64_t *version, mf_err *err);
/* Whether there is an ordinary file at path. */
mf_status mf_make_exists(const char *path, mf_err *err);

#endif
