/* The files the program writes where the user says: over what stood there, unless that
 * is a sealed paper. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/record.h"

#include <string.h>
#include <sys/stat.h>

/* A PDF that cannot be followed counts as sealed: nobody can say that it is not. */
static mf_status is_sealed(const mf_bytes *file, bool *sealed, mf_err *err)
{
    mf_seal_check check = {0};
    bool pdf = file->len >= 5 && memcmp(file->data, "%PDF-", 5) == 0;
    mf_status status = pdf ? mf_seal_verify(&check, file->data, file->len, err) : MF_NO;
    *sealed = check.n > 0 || status == MF_OK || status == MF_INPUT;
    return status == MF_SYSTEM ? status : MF_OK;
}

/* What somebody sealed is evidence, perhaps the only copy, and no second sealing gives
 * the same bytes. A further seal on the paper keeps all of them in front. */
mf_status mf_cli_may_put(const char *path, const void *bytes, size_t len, mf_err *err)
{
    struct stat st;
    mf_bytes there = {0};
    bool sealed = false;
    if (lstat(path, &st) != 0 || !S_ISREG(st.st_mode) || st.st_size > MF_PAPER_FILE_MAX)
        return MF_OK; /* new, or writing it has words of its own */
    mf_status status = mf_file_read(&there, path, MF_PAPER_FILE_MAX, err);
    if (status == MF_OK)
        status = is_sealed(&there, &sealed, err);
    bool kept = sealed && len >= there.len && memcmp(bytes, there.data, there.len) == 0;
    mf_bytes_free(&there);
    if (status != MF_OK || !sealed || kept)
        return status;
    return mf_fail(err, MF_INPUT, path, "a sealed paper stands there",
                   "what was sealed is evidence and is never written over",
                   "choose another name, or move that paper away");
}

mf_status mf_cli_put(const char *path, const void *bytes, size_t len, mf_err *err)
{
    mf_status status = mf_cli_may_put(path, bytes, len, err);
    return status == MF_OK ? mf_file_write(path, bytes, len, 0600, err) : status;
}
