/* mistfold/book.h - one SQLite file, a firm's records that cannot be quietly
 * changed.
 *
 * Truth is the journal: one row an entry, each holding the SHA-256 of its own
 * canonical line, which names the hash of the entry before it on the same
 * device. Triggers refuse UPDATE and DELETE. A view a kind shows
 * people what is in force; the tables by which jobs are found can be dropped and made anew
 * from the journal with the same result.
 *
 * The canonical line is the RFC 8785 form of
 *   {"at":..,"body":{..},"device":..,"job":..,"kind":..,"prev":..,"seq":..,"who":..}
 * and hash is the SHA-256 of its UTF-8 bytes in lower-case hex. prev is the hash
 * of the device's entry before, 64 zeros for its first.
 *
 * An entry is written whole or not at all; an acknowledged entry survives
 * kill -9 and power loss (WAL, synchronous=FULL). A book may be used by several
 * processes; an mf_book only by one thread.
 */
#ifndef MISTFOLD_BOOK_H
#define MISTFOLD_BOOK_H

#include <mistfold/job.h>
#include <mistfold/kind.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct mf_book mf_book;

/* Told now and then by what takes long; what is an id such as "entries". */
typedef void mf_progress_fn(const char *what, int64_t done, int64_t total, void *data);
/* Who watches; all zero = nobody. note is told lines worth reading. */
typedef struct mf_watch {
    mf_progress_fn *progress;
    void (*note)(const char *line, void *data);
    void *data;
} mf_watch;

/* The clock and the hand: told by the caller, so that the room reads no clock. */
typedef struct mf_now {
    mf_day today;    /* local day: no event may lie after it */
    const char *at;  /* UTC, "YYYY-MM-DDTHH:MM:SSZ" */
    const char *who; /* who is writing, an id */
    /* Local time of day, "HH:MM": what is logged of today is not later. NULL = not known. */
    const char *time;
} mf_now;

/* Makes a new book, readable by its owner only (mode 0600). device is 1 to 16
 * of [a-z0-9-]; NULL draws 8 hex digits at random. Fails MF_INPUT when the file
 * exists. */
MF_API mf_status mf_book_new(mf_book **out, const char *path, const char *device, mf_err *err);

/* Opens a book. Fails MF_INPUT when there is none or it is no book or of a newer
 * schema, MF_SYSTEM when it is locked, unreadable or damaged. A book that was
 * only opened is not changed, except that one of an older schema is brought to this one and
 * views and tables that another version made from the journal are made anew. One that cannot
 * be written is opened, too (mf_book_is_read_only); MF_SYSTEM when it changes while it is read. */
MF_API mf_status mf_book_open(mf_book **out, const char *path, mf_err *err);
MF_API void mf_book_close(mf_book *book);

/* Whether the book was opened though its file, its folder or its disk cannot be written: it
 * is read whole into memory then, answers as any other, and what would write fails MF_SYSTEM. */
MF_API bool mf_book_is_read_only(const mf_book *book);

/* ---- writing --------------------------------------------------------------- */

/* One entry being put together. */
typedef struct mf_draft mf_draft;

MF_API mf_status mf_draft_new(mf_draft **out, const mf_kind *kind, mf_err *err);
MF_API void mf_draft_free(mf_draft *draft);

/* Sets a field (by name or option) from typed text. where ("--on",
 * "readings.csv:17, column Date") goes into the message. unit as in
 * mf_field_parse, may be "". Blanks at both ends are dropped. An empty text
 * leaves out a field that is not needed; in a correction it clears it. Fails MF_INPUT and leaves
 * the draft as it was. */
MF_API mf_status mf_draft_set(mf_draft *draft, const char *field, const char *text,
                              const char *unit, const char *where, mf_day today, mf_err *err);
/* What the draft says of a text field, by its name: as long as it stands; "" = nothing. */
MF_API const char *mf_draft_text(const mf_draft *draft, const char *name);
/* A draft of that kind with n fields set, {name, text}; where as above. The caller frees *out,
 * also when it fails. */
MF_API mf_status mf_draft_of(mf_draft **out, const char *kind, const char *const (*fields)[2],
                             size_t n, const char *where, mf_day today, mf_err *err);

/* Begins a group of entries that is written whole or not at all. */
MF_API mf_status mf_book_begin(mf_book *book, mf_err *err);
MF_API mf_status mf_book_commit(mf_book *book, mf_err *err);
MF_API void mf_book_rollback(mf_book *book);

/* Writes the draft as an entry of job ("" for the firm's kinds), inside the open
 * group or, without one, in a group of its own. Refuses (MF_INPUT) a missing
 * needed field, an id that is taken, a reference to what does not exist, a
 * second entry of a kind that is `once`, an unknown job. The entry's id is
 * written to id ("device/seq") when id is not NULL. where goes into messages. */
#define MF_ENTRY_ID 40
MF_API mf_status mf_book_write(mf_book *book, const mf_draft *draft, const char *job,
                               const mf_now *now, const char *where, char id[MF_ENTRY_ID],
                               mf_err *err);

/* Whether the places that a draft of a house or certificate names are known to the book: what
 * mf_book_write would refuse of them (MF_INPUT), whatever else the draft still lacks. Writes
 * nothing; where goes into the message. */
MF_API mf_status mf_book_places(mf_book *book, const mf_draft *draft, const char *where,
                                mf_err *err);

/* Writes a correction of the entry target: the draft holds only the fields that
 * change, the others stay; draft NULL withdraws the entry. The reason is one line of text,
 * up to 1000 bytes, and not blank. The corrected body is checked like a new one. */
MF_API mf_status mf_book_correct(mf_book *book, const char *target, const mf_draft *draft,
                                 const char *reason, const mf_now *now, char id[MF_ENTRY_ID],
                                 mf_err *err);

/* ---- reading ------------------------------------------------------------------ */

/* The name (mf_err) of this failure: an entry holds a word that this version does not
 * know. Unless it is one of the firm the other jobs can be read. */
#define MF_ERR_UNREAD "book.unread"

/* The whole job as a value, with its corrections. Fails MF_INPUT when there is
 * no such job, MF_SYSTEM by the name MF_ERR_UNREAD as above. job "" gives the firm's
 * entries alone. Each entry is
 * hashed as it is read: integrity is BROKEN when one is not what was logged, else
 * UNCHECKED. */
MF_API mf_status mf_book_job(mf_book *book, const char *job, mf_job **out, mf_err *err);
MF_API void mf_book_job_free(mf_job *job);

/* After mf_book_job failed, for who goes through many jobs: MF_OK when it was for an entry
 * of that job alone and the others can be read, else the failure that ends it. */
MF_API mf_status mf_book_unread(mf_book *book, const mf_err *why, mf_err *err);

/* The job as it stood on a day: takes out what counts only from a later day (mf_item_day),
 * whenever it was logged, and says how many that were. Before a question about a past day:
 * the audit takes all of a job for done. */
MF_API mf_status mf_book_job_until(mf_job *job, mf_day day, size_t *left_out, mf_err *err);

/* One entry of the journal as it stands there. Text lives until the callback returns. */
typedef struct mf_entry {
    const char *id, *at, *who, *kind, *job, *body, *prev, *hash;
} mf_entry;
/* Its canonical line, of which hash is the SHA-256; NUL-ended, the caller frees it. False when
 * memory ran out or id names no entry: *out is empty then. */
MF_API bool mf_entry_line(const mf_entry *entry, mf_bytes *out);
/* Return false to stop. */
typedef bool mf_entry_fn(const mf_entry *entry, void *data);

/* Calls fn for the entries of job (NULL = all) in the order they were written. */
MF_API mf_status mf_book_entries(mf_book *book, const char *job, mf_entry_fn *fn, void *data,
                                 mf_err *err);
/* Calls fn for one entry; MF_INPUT when there is none. */
MF_API mf_status mf_book_entry(mf_book *book, const char *id, mf_entry_fn *fn, void *data,
                               mf_err *err);

/* Ids of all jobs in order, for each a call of fn; of one that was opened twice (on two devices) a
 * call for each opening, one behind the other. */
typedef bool mf_job_fn(const char *job, const char *address, mf_day start, void *data);
MF_API mf_status mf_book_jobs(mf_book *book, mf_job_fn *fn, void *data, mf_err *err);

/* The same for the jobs in which every word of text begins a word of the id, the
 * address, the work, the note, or of a person told or assigned; capitals and
 * accents aside. MF_INPUT when text has no word. */
MF_API mf_status mf_book_find(mf_book *book, const char *text, mf_job_fn *fn, void *data,
                              mf_err *err);

/* The SHA-256 over the last hash of every device ("device hash\n" sorted), in
 * hex: one value that changes with any entry. */
#define MF_HASH_HEX 65
MF_API mf_status mf_book_head(mf_book *book, char out[MF_HASH_HEX], mf_err *err);

/* Many jobs, each checked as mf_book_check_job does before it is used; what is the same for all of
 * them, the shape of the book and the entries of the firm, is looked at once, by begin. All are
 * seen as they stood then, and nothing is written before end, which takes NULL, too, and must
 * follow begin also when that failed. mark makes the integrity of one that was altered BROKEN:
 * MF_OK, too. */
typedef struct mf_book_looks mf_book_looks;
MF_API mf_status mf_book_looks_begin(mf_book_looks **out, mf_book *book, mf_err *err);
MF_API mf_status mf_book_looks_mark(mf_book_looks *looks, mf_job *job, mf_err *err);
MF_API void mf_book_looks_end(mf_book_looks *looks);

/* ---- what is due, without going through all jobs ------------------------------------- */

typedef struct mf_due_item {
    const char *job;  /* "" for the firm */
    const char *what; /* "start", "handover", "keep" or "certificate" */
    mf_day day;
    const char *who;   /* holder of the certificate, else "" */
    const char *entry; /* that sets the day */
} mf_due_item;
/* Return false to stop. */
typedef bool mf_due_fn(const mf_due_item *item, void *data);

/* Calls fn in the order of days for what falls on until or before (MF_DAY_NONE =
 * any day): of one sort, or with what NULL of all but "keep". A job that is not
 * completed has a start; a completed one has a handover until the first one is
 * logged (others may still be lacking: that the audit knows), and a day through
 * which its records are kept. So these are the jobs with something left to do. */
MF_API mf_status mf_book_due(mf_book *book, const char *what, mf_day until, mf_due_fn *fn,
                             void *data, mf_err *err);

/* ---- jobs with something left to do ------------------------------------------------------ */

/* Judges a job: the state in which it is settled, such as "closed", or "" when it
 * may have something left to do. */
typedef const char *mf_judge_fn(const mf_job *job, void *data);
/* Told of a job that cannot be judged, as an entry of it cannot be read (MF_ERR_UNREAD). */
typedef void mf_lost_fn(const char *job, const mf_err *why, void *data);

/* Calls judge for every job, in the order of ids, that is not known to be settled.
 * The verdict must not depend on the day, and judge writes nothing. It is kept until an entry
 * comes in that may bear on it, of the job, of the firm or of another job at the address, until
 * another version of the program asks or mf_book_check goes through the book: so what is asked
 * every day costs what the open jobs cost. The first time is long, so watch (NULL = nobody) is
 * told of "jobs". A job that cannot be read is told to lost and the others are judged all the
 * same; lost NULL = it ends the call. An unread entry of the firm always does. */
MF_API mf_status mf_book_unsettled(mf_book *book, mf_judge_fn *judge, mf_lost_fn *lost, void *data,
                                   const mf_watch *watch, mf_err *err);

/* Calls fn for the jobs known to be settled (stage NULL = in any state), by id.
 * Ask mf_book_unsettled before. */
typedef bool mf_settled_fn(const char *job, const char *address, mf_day start, const char *stage,
                           void *data);
MF_API mf_status mf_book_settled(mf_book *book, const char *stage, mf_settled_fn *fn, void *data,
                                 mf_err *err);

/* ---- attachments ---------------------------------------------------------------------- */

#define MF_ATTACH_MAX ((size_t)16 * 1024 * 1024) /* bytes of one attachment */

typedef struct mf_attach_ask {
    const char *job;   /* "" = the firm is not a job: attachments belong to one */
    const char *about; /* the entry it belongs to; "" = the job as a whole */
    const void *bytes;
    size_t len;
    const char *name; /* of the file; folders before it are left out */
    const char *note; /* may be "" */
} mf_attach_ask;

/* Keeps a file in the book under its SHA-256 and logs an entry that names it. The
 * same bytes are stored once. Refuses (MF_INPUT) what is empty, longer than
 * MF_ATTACH_MAX, by its content no whole JPEG, PNG or PDF, or attached to this
 * already. sha256 (may be NULL) takes the name. */
MF_API mf_status mf_book_attach(mf_book *book, const mf_attach_ask *ask, const mf_now *now,
                                char id[MF_ENTRY_ID], char sha256[MF_HASH_HEX], mf_err *err);

/* The bytes of an attachment, which the caller frees, as they came in: MF_SYSTEM
 * when they do not give their SHA-256 any more, MF_INPUT when there are none. */
MF_API mf_status mf_book_attached(mf_book *book, const char *sha256, mf_bytes *out, mf_err *err);

/* ---- whose seals the book stands by ------------------------------------------------------ */

/* What a book knows of a key: an entry of kind known_key or sealed that names it. */
typedef struct mf_key_known {
    bool known, fits; /* fits: also in the capacity that was asked for */
    char entry[MF_ENTRY_ID], person[64];
    char capacity[64]; /* in which it is known */
} mf_key_known;

/* By the fingerprint of its certificate. capacity is renovator, firm or owner; "" = any. */
MF_API mf_status mf_book_key(mf_book *book, const char *fingerprint, const char *capacity,
                             mf_key_known *out, mf_err *err);
/* The fingerprint of another known key, not but, of a person of that name; "" = none. */
MF_API mf_status mf_book_key_of_name(mf_book *book, const char *name, const char *but,
                                     char out[MF_HASH_HEX], mf_err *err);

/* ---- proving --------------------------------------------------------------------- */

typedef struct mf_book_report {
    int64_t entries, devices; /* checked now */
    int64_t
        faults; /* entries, or rows of the tables over all jobs, that are not what they should be */
    char first[320]; /* the first fault in words: entry, field, what */
    char head[MF_HASH_HEX];
    int64_t unknown;      /* entries of kinds this version does not know: kept, in no view */
    int64_t contents;     /* attachments whose bytes were hashed */
    int64_t seals;        /* mf_book_check: logged seals whose heads were looked for */
    int64_t heads_untold; /* of them: over entries that are not here, or that are not said and
                           * there are several devices */
    int64_t witnesses;    /* mf_book_check: heads that were named from outside, held against */
    int64_t awaited;      /* of them: of entries that are not here yet, or that cannot be told */
    int64_t unheld;       /* heads of against that name what is not here: of another device, which
                           * may be ahead, or was cut off here */
    int64_t withdrawn;    /* witnesses that somebody withdrew: not held against */
    int64_t adopted;      /* witnesses that a merge contradicts which somebody made all the same,
                           * with a reason: no faults */
    char adopted_first[480]; /* the first of them in words, with who said why */
    int64_t earlier; /* mf_book_check_job: entries not read now, checked at an earlier time */
} mf_book_report;

/* Recomputes every hash and chain, compares the tables over all jobs with what the
 * journal gives, hashes every attachment, and looks for the head of every paper that was
 * sealed among those the book had before. MF_OK = unaltered (but see adopted), MF_NO = faults
 * (out and err say which), MF_SYSTEM = could not be read. */
MF_API mf_status mf_book_check(mf_book *book, mf_book_report *out, mf_err *err);

/* As mf_book_check, watched, and compared with what was noted at an earlier time:
 * against is a text with one head (mf_book_head) a line, or lines "device seq
 * hash" (mf_book_heads), # begins a comment; NULL = nothing. A chain that was
 * rebuilt with right hashes is found by this alone. A head is looked for among
 * those the book had as its entries came in. MF_NO without a fault when a head names what is not
 * here (out->unheld): that is no yes, and no contradiction. MF_INPUT when against is no such text.
 */
MF_API mf_status mf_book_check_against(mf_book *book, const char *against, const mf_watch *watch,
                                       mf_book_report *out, mf_err *err);

/* The check before an answer about one job, whose cost does not grow with the
 * book: the schema, all entries of the job, of other jobs that may be at the same place
 * (40 CFR 745.83 counts what they disturb) and of the firm with their neighbors in
 * the chain, how many there are, what the tables over all jobs say of these, attachments of the job
 * and the firm, and all entries that no earlier check has seen. Entries of jobs elsewhere that were
 * checked before are not read again (out->earlier): only mf_book_check does that. Remembers how far
 * it came. */
MF_API mf_status mf_book_check_job(mf_book *book, const char *job, mf_book_report *out,
                                   mf_err *err);

/* The last entry of every device, for mf_book_check_against. */
typedef bool mf_head_fn(const char *device, int64_t seq, const char *hash, void *data);
MF_API mf_status mf_book_heads(mf_book *book, mf_head_fn *fn, void *data, mf_err *err);

/* The last hash of every device at one time, by the names of the devices. Zero-initialize to
 * start. */
typedef struct mf_ends {
    char (*device)[64];
    char (*hash)[MF_HASH_HEX];
    size_t n, cap;
    bool failed; /* memory ran out: they are not all in it */
} mf_ends;
/* Sets the last hash of a device. False when memory ran out. */
MF_API bool mf_ends_put(mf_ends *ends, const char *device, const char *hash);
/* The head over them, of which mf_book_head is that of now: the SHA-256 of a line "device
 * hash" each. False when memory ran out, here or before. */
MF_API bool mf_ends_head(const mf_ends *ends, char out[MF_HASH_HEX]);
MF_API void mf_ends_free(mf_ends *ends);

/* Drops the views and the tables made from the journal and makes them anew. */
MF_API mf_status mf_book_rebuild(mf_book *book, mf_err *err);

/* ---- copies of the book -------------------------------------------------------------- */

/* Writes a whole copy to path (which must not exist; mode 0600) while the book may
 * be in use. The copy is the same book: it must not be gone on with beside it. */
MF_API mf_status mf_book_backup(mf_book *book, const char *path, const mf_watch *watch,
                                mf_err *err);

/* A copy to be taken along on another device, which continues a chain of its own:
 * device as for mf_book_new, and no device of this book. */
MF_API mf_status mf_book_copy(mf_book *book, const char *path, const char *device,
                              const mf_watch *watch, mf_err *err);

typedef struct mf_merge_report {
    int64_t read;               /* entries of the other book */
    int64_t added;              /* of them not here before */
    int64_t contents;           /* attachments added */
    int64_t contradictions;     /* entries with corrections that contradict each other */
    int64_t doubles;            /* added entries whose id another entry has too */
    int64_t own;                /* added entries under the name of this very device */
    char adoption[MF_ENTRY_ID]; /* the entry that says why something was adopted; "" = nothing was;
                                 * of several the one of this device, or the last */
} mf_merge_report;

/* Who takes over what a merge would refuse, why, and whose entries: those under this device's
 * own name, those with which a device names another key, those that contradict a head which was
 * noted. What a device that signs did not sign is never taken over. */
typedef struct mf_adopt {
    const char *reason;
    const mf_now *now;
    const char *of; /* names of devices, parted by commas; NULL or "" = this very device alone */
} mf_adopt;

/* Takes over every entry and attachment of the book at path that is not here
 * yet, all or nothing. Which tables come of it depends on the set of entries
 * alone, not on the order of merges. The other book is not changed. Refuses
 * (MF_INPUT) another book that was altered, or that says something else in an
 * entry which is here: nothing that was logged is rewritten. Entries of this device's
 * own that are not here were made by a copy that was gone on with, or forged, or this book
 * was put back to an earlier state: refused (MF_INPUT) unless adopt says why they are taken
 * over, which is logged with the head from before; and refused all the same when a device
 * signs and did not sign them. watch->note is told every contradiction
 * and double. adopt and watch may be NULL. */
MF_API mf_status mf_book_merge(mf_book *book, const char *path, const mf_adopt *adopt,
                               const mf_watch *watch, mf_merge_report *out, mf_err *err);

/* ---- intake of an XRF export --------------------------------------------------------- */

typedef struct mf_import_report {
    int64_t rows, readings, calibrations; /* logged; readings counts calibrations too */
    int64_t skipped;                      /* rows that were in the job already, word for word */
    int64_t faults;                       /* rows that were refused */
    bool already;             /* the very file was read into this job before: nothing done */
    char before[MF_ENTRY_ID]; /* the entry of that earlier intake */
    char map_of[64];          /* serial whose saved column map was used, or "" */
    char columns[600];        /* which head was taken for which column: "PbC = result, ..." */
    char sha256[MF_HASH_HEX]; /* of the file */
} mf_import_report;

/* Where the bytes of a file come from, piece by piece. It is read twice. */
typedef struct mf_import_source {
    /* At most cap bytes; *got 0 = the end. */
    mf_status (*read)(void *data, char *to, size_t cap, size_t *got, mf_err *err);
    mf_status (*rewind)(void *data, mf_err *err);
    void *data;
    int64_t size; /* for progress; 0 = not known */
} mf_import_source;

/* One row as it was read; text lives until the callback returns. */
typedef struct mf_import_row {
    const char *number, *instrument, *operator_id, *opening, *component, *result;
    mf_day on;
} mf_import_row;

typedef struct mf_import_ask {
    const char *job, *name; /* name of the file, for messages */
    const mf_import_source *source;
    const mf_now *now;
    bool dry_run;
    const char *map;         /* "Head=column,Head=column", "-" as column = leave out; "" = saved */
    const char *instrument;  /* of all rows when the file has no such column, or "" */
    const char *operator_id; /* the same */
    bool decimal_comma;      /* results are written 0,4 */
    bool day_first;          /* dates are written 12/08/2026, 12.08.2026 or 12-08-2026 */
    /* Each row that is refused, in order; NULL = stop at the first. */
    void (*fault)(void *data, const mf_err *fault);
    /* Each reading that was logged, or on dry_run would be; may be NULL. */
    void (*logged)(void *data, const mf_import_row *row);
    void (*progress)(void *data, int64_t bytes); /* may be NULL */
    void *data;
} mf_import_ask;

/* As mf_import_readings_from, for a library that has the bytes in hand: reads a CSV export
 * (docs/intake.md) and writes one reading entry a row, all
 * or nothing. Columns, in any order, heads case-insensitive: number, instrument,
 * operator, date, time, opening, component, side, substrate, color, result,
 * unit (unit and color may be absent). Calibration rows have "calibration" in
 * component and no opening. Refuses what is wrong with file, line and column;
 * dry_run checks everything and writes nothing. */
MF_API mf_status mf_import_readings(mf_book *book, const char *job, const char *name,
                                    const char *csv, size_t len, const mf_now *now, bool dry_run,
                                    mf_import_report *out, mf_err *err);

/* The same from a source, in memory that does not grow with the file. Heads of the
 * instrument's own are named by a map, which is kept (entries of
 * kind column_map); the unit of the result may stand in its head, "PbC (mg/cm2)".
 * The same file again is recognized by its hash (kind intake): nothing is written,
 * MF_OK. A row whose instrument and number are in the job already is skipped when
 * it says the same and refused when it differs. With faults: MF_INPUT, nothing
 * written. */
MF_API mf_status mf_import_readings_from(mf_book *book, const mf_import_ask *ask,
                                         mf_import_report *out, mf_err *err);

/* Reads a CSV whose heads are options of kind and writes one entry a row, all or
 * nothing: openings, components, surfaces ... */
MF_API mf_status mf_import_kind(mf_book *book, const char *job, const mf_kind *kind,
                                const char *name, const char *csv, size_t len, const mf_now *now,
                                bool dry_run, mf_import_report *out, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
