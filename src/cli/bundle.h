/* bundle.h - a set of files being written: a new folder, or one .zip file. */
#ifndef MF_CLI_BUNDLE_H
#define MF_CLI_BUNDLE_H

#include "base/mem.h"
#include "cli/cli.h"

#include <mistfold/stage.h>

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
/* Makes a folder for bundles, for its owner alone; MF_INPUT when its name is taken. */
mf_status mf_pack_folder(const char *path, mf_err *err);

/* zip.c: alone sees the library that writes zip files. */
typedef struct mf_zip mf_zip;
mf_status mf_zip_new(mf_zip **out, const char *path, mf_err *err);
mf_status mf_zip_add(mf_zip *zip, const char *name, const void *bytes, size_t len, bool program,
                     int64_t seconds, mf_err *err);
mf_status mf_zip_finish(mf_zip *zip, mf_err *err);
void mf_zip_free(mf_zip *zip);

/* cmd_bundle.c: the check of the whole book that a bundle tells of; MF_OK also where it was
 * altered, which status (MF_NO) and altered say. */
typedef struct mf_bundle_look {
    mf_status status;
    mf_book_report report;
    mf_err altered;
} mf_bundle_look;
mf_status mf_bundle_look_now(mf_cli *cli, mf_bundle_look *out, mf_err *err);
/* One bundle: of which job, where to, with which sealed record (NULL = none); hide leaves out what
 * names an occupant; look NULL = the book is checked now. */
typedef struct mf_bundle_ask {
    const char *job, *path, *record;
    bool zip, hide;
    const mf_bundle_look *look;
} mf_bundle_ask;
typedef struct mf_bundle_made {
    size_t entries, withheld, attachments;
    bool record;
    bool house_held; /* the entry of the house is left out, and with it what it says */
    mf_err altered;
} mf_bundle_made;
mf_status mf_bundle_make(mf_cli *cli, const mf_bundle_ask *ask, mf_bundle_made *out, mf_err *err);

/* bundle_all.c: a folder of bundles, of all jobs that are picked, with an index. */
mf_status mf_bundle_all(mf_cli *cli, const mf_args *args, mf_err *err);
/* bundle_index.c: the index, as text and as HTML. rows are in the order in which they stand. */
typedef struct mf_index_row {
    char job[48], address[200], folder[60]; /* or the .zip file */
    bool zip;
    mf_day from, to; /* MF_DAY_NONE where no day may be told */
    mf_stage stage;
    /* And where the time alone makes it a no, why. */
    char answer[MF_GATE_COUNT][MF_ANSWER_TEXT + 100];
    bool record;
    size_t entries, attachments;
} mf_index_row;
typedef struct mf_index {
    const mf_cli *cli;
    mf_index_row *row;
    size_t n, cap;
    char head[MF_HASH_HEX];
    char picked[300]; /* which jobs these are, as a sentence */
} mf_index;
void mf_index_text(const mf_index *index, mf_buf *out);
void mf_index_html(const mf_index *index, mf_buf *out);

/* bundle_words.c: what is the same in every bundle; the script is that of a folder of them, too. */
extern const char mf_bundle_readme[];
void mf_bundle_verify(mf_buf *out);

/* bundle_entries.c: the journal of a job. What names an occupant is left out when
 * asked for: such entries are listed by their hash alone. */
typedef struct mf_entries {
    mf_buf lines, hashes, withheld;
    mf_buf names;     /* of occupants, each ended by a NUL */
    mf_buf occupants; /* " id" of each of them, ended by a blank */
    mf_buf held;      /* " id" of entries left out, each ended by a blank */
    bool home;        /* its owner lives there, or may */
    bool failed;
    size_t n, n_withheld;
} mf_entries;
mf_status mf_entries_read(mf_entries *out, mf_cli *cli, const mf_job *job, bool hide, mf_err *err);
/* Whether what an item says was left out: its entry, or the one that corrected it. */
bool mf_entries_hold(const mf_entries *entries, const mf_src *src);
void mf_entries_free(mf_entries *entries);

#endif
