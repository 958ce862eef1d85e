/* file.h - whole files: read with a limit, written durably or not at all. */
#ifndef MF_BASE_FILE_H
#define MF_BASE_FILE_H

#include <mistfold/err.h>
#include <sys/types.h>

/* Reads a whole file; out is the caller's to free and ends in a NUL not counted.
 * "-" is standard input. Fails MF_INPUT when there is no such file, it is a
 * folder or longer than limit, MF_SYSTEM when it cannot be read. */
mf_status mf_file_read(mf_bytes *out, const char *path, size_t limit, mf_err *err);

/* Writes a file whole: to a new file beside it, synced, then renamed over path,
 * so that a crash leaves the old or the new one. The new file has mode (as the
 * umask lets it). A device or pipe is written to directly. Fails MF_INPUT for a
 * folder that is not there or a path that is a folder or a symbolic link,
 * MF_SYSTEM for a full disk and the like; path is then as it was. */
mf_status mf_file_write(const char *path, const void *bytes, size_t len, mode_t mode, mf_err *err);

/* Syncs the folder that holds path, so that a new name in it lasts. */
mf_status mf_file_sync_folder(const char *path, mf_err *err);

/* Fills err for errno number; action as in "cannot <action> it". */
mf_status mf_file_fail(mf_err *err, const char *path, const char *action, int number);

#endif
