/* bundle.h - a set of files being written: a new folder, or one .zip file. */
#ifndef MF_CLI_BUNDLE_H
#define MF_CLI_BUNDLE_H

#include "base/mem.h"
#include "cli/cli.h"

typedef struct mf_pack mf_pack;

/* Begins. path must not exist. seconds is the time that files in a zip are given. */
mf_status mf_pack_new(mf_pack **out, const char *path, bool zip, int64_t seconds, mf_err *err);
/* Adds a file; a '/' in its name is a folder. Notes its SHA-256 in the manifest. */
mf_status mf_pack_add(mf_pack *pack, const char *name, const void *bytes, size_t len, mf_err *err);
/* Adds the text, unless memory ran out while it was made; frees it. */
mf_status mf_pack_take(mf_pack *pack, const char *name, mf_buf *text, mf_err *err);
/* Writes the manifest and ends. On a failure nothing is left behind. */
mf_status mf_pack_finish(mf_pack *pack, mf_err *err);
/* Frees; what was not finished is taken away. Accepts NULL. */
void mf_pack_free(mf_pack *pack);

/* zip.c: alone sees the library that writes zip files. */
typedef struct mf_zip mf_zip;
mf_status mf_zip_new(mf_zip **out, const char *path, mf_err *err);
mf_status mf_zip_add(mf_zip *zip, const char *name, const void *bytes, size_t len, bool program,
                     int64_t seconds, mf_err *err);
mf_status mf_zip_finish(mf_zip *zip, mf_err *err);
void mf_zip_free(mf_zip *zip);

/* bundle_words.c: what is the same in every bundle. */
extern const char mf_bundle_readme[];
/* One script. */
extern const char mf_bundle_verify_1[], mf_bundle_verify_2[], mf_bundle_verify_3[],
    mf_bundle_verify_4[];

/* bundle_entries.c: the journal of a job. What names an occupant is left out when
 * asked for: such entries are listed by their hash alone. */
typedef struct mf_entries {
    mf_buf lines, hashes, withheld;
    mf_buf names; /* of occupants, as JSON writes them, each ended by a line end */
    mf_buf held;  /* " id" of entries left out, each ended by a blank */
    bool failed;
    size_t n, n_withheld;
} mf_entries;
mf_status mf_entries_read(mf_entries *out, mf_cli *cli, const mf_job *job, bool hide, mf_err *err);
bool mf_entries_hold(const mf_entries *entries, const char *id); /* left out? */
void mf_entries_free(mf_entries *entries);

#endif
