/* file.h - whole files: read with a limit, written durably or not at all. */
#ifndef MF_BASE_FILE_H
#define MF_BASE_FILE_H

#include "base/mem.h"
#include <sys/types.h>

/* The name without its folders: where a file lies on one machine says nothing on another. */
const char *mf_file_name(const char *path);

/* Reads a whole file; out is the caller's to free and ends in a NUL not counted.
 * "-" is standard input. Fails MF_INPUT when there is no such file, it is a
 * folder or longer than limit, MF_SYSTEM when it cannot be read. */
mf_status mf_file_read(mf_bytes *out, const char *path, size_t limit, mf_err *err);

/* The same of its first bytes alone, however long it is. */
mf_status mf_file_read_head(mf_bytes *out, const char *path, size_t most, mf_err *err);

/* Writes a file whole: to a new file beside it, synced, then renamed over path,
 * so that a crash leaves the old or the new one. The new file has mode (as the
 * umask lets it). A device or pipe is written to directly. Fails MF_INPUT for a
 * folder that is not there, a path that is a folder, a symbolic link or a disk, and the
 * name of a book's log (file_kind.h), MF_SYSTEM for a full disk and the like; path is then as it
 * was, but for a disk that fails at the very last, when the folder is synced. */
mf_status mf_file_write(const char *path, const void *bytes, size_t len, mode_t mode, mf_err *err);

/* The same for a file that must never take the place of another: MF_INPUT when anything
 * stands under path, also when it came there a moment ago. */
mf_status mf_file_write_new(const char *path, const void *bytes, size_t len, mode_t mode,
                            mf_err *err);

/* Its parts, for what writes its file itself. A new empty file in the folder of path, whose
 * name goes to temp; its descriptor, or -1 and errno. */
int mf_file_beside(mf_buf *temp, const char *path, mode_t mode);
/* Takes away what such files a program left in the folder of path that was ended in their
 * midst, and what SQLite put beside them; how many. One that somebody works at stays. */
int mf_file_sweep(const char *path);
/* MF_INPUT when something stands under path, or it is the name of a book's log. */
mf_status mf_file_is_free(const char *path, mf_err *err);
/* Gives a whole file its name, over nothing (MF_INPUT), and makes the name last. temp is
 * gone after, unless it failed. */
mf_status mf_file_settle(const char *temp, const char *path, mf_err *err);

/* The same in two steps, for a file that belongs to something else which may fail: stage
 * writes it beside path, put gives it its name and keeps what stood there under
 * path.before, end with good takes that away, without it puts everything back as it was.
 * path and bytes must live until end, which accepts one whose stage failed. What goes to a
 * device or pipe is written by put and cannot be taken back. */
typedef struct mf_staged {
    const char *path;
    const void *bytes;
    size_t len;
    mf_buf temp, before;
    bool direct, over, put; /* over: something stood under path */
} mf_staged;
mf_status mf_file_stage(mf_staged *out, const char *path, const void *bytes, size_t len,
                        mode_t mode, mf_err *err);
mf_status mf_file_put(mf_staged *s, bool keep, mf_err *err);
void mf_file_end(mf_staged *s, bool good);

/* Syncs the folder that holds path, so that a new name in it lasts. */
mf_status mf_file_sync_folder(const char *path, mf_err *err);

/* Fills err for errno number; action as in "cannot <action> it". */
mf_status mf_file_fail(mf_err *err, const char *path, const char *action, int number);

#endif
