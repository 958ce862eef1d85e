/* mistfold/kind.h - what can be logged: the kinds of entry and their fields.
 *
 * One table drives everything that touches an entry: the options of the
 * command that logs it, what is accepted, the JSON body in the journal, the
 * column of the view, the member of the job value and the page of the
 * documentation. To let people log one thing more, add a row.
 *
 * How a field looks in each place:
 *   type          typed by a person     JSON body    SQL      member of the struct
 *   TEXT          any line              string       TEXT     const char *
 *   ID            [A-Za-z0-9._-]{1,40}  string       TEXT     const char *
 *   IDS           ids with commas       string       TEXT     const char *
 *   DATE          2026-09-14            string       TEXT     mf_day
 *   TIME          08:30                 string       TEXT     int32_t minutes
 *   INT           17                    integer      INTEGER  int64_t
 *   HUNDREDTHS    6.25                  integer 625  INTEGER  int64_t
 *   LOADING       0.4, -0.1, >9.9       integer 400  INTEGER  int64_t ug/cm2
 *   DUST          4.9 (ug/ft2)          integer 4900 INTEGER  int64_t ng/ft2
 *   PPM           5000 or 0.5%          integer      INTEGER  int64_t
 *   INCHES        11 5/8, 11.62         integer      INTEGER  int64_t 1/1600 in
 *   CHOICE        one of the words      string       TEXT     an enum (int)
 *   YESNO         yes, no               true, false  INTEGER  mf_tri
 * A field that was not given is left out of the body and NULL in the table.
 */
#ifndef MISTFOLD_KIND_H
#define MISTFOLD_KIND_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_field_type {
    MF_F_TEXT,
    MF_F_ID,
    MF_F_IDS,
    MF_F_DATE,
    MF_F_TIME,
    MF_F_INT,
    MF_F_HUNDREDTHS,
    MF_F_LOADING,
    MF_F_DUST,
    MF_F_PPM,
    MF_F_INCHES,
    MF_F_CHOICE,
    MF_F_YESNO
} mf_field_type;

enum {
    MF_F_NEEDED = 1,    /* must be given */
    MF_F_KEY = 2,       /* the id of the thing: unique within the job (or the firm) */
    MF_F_PAST = 4,      /* a date that cannot lie in the future */
    MF_F_QUALIFIED = 8, /* LOADING, DUST: ">" and "<" are kept in the field named qualifier */
    MF_F_LONG = 16,     /* TEXT of a machine: up to 64 KiB instead of 4000 bytes */
    MF_F_PLACE = 32,    /* ID(S) of places: kept as mf_places_write has them */
    MF_F_WHO = 64,      /* TEXT that names an owner or occupant, or where notices reach them */
    MF_F_HOME = 128,    /* TEXT that says where the work is: where its owner lives, their home */
    MF_F_LATER =
        256,        /* a date of what befell the thing later on; before it nothing is said of it */
    MF_F_BOOK = 512 /* TEXT that the book writes by itself: no option, and nobody types it */
};

typedef struct mf_field {
    const char *name;   /* in the JSON body and the table, "loading_ug_cm2" */
    const char *option; /* on the command line and in CSV heads, "result" */
    mf_field_type type;
    unsigned flags;
    const char *const *choices; /* CHOICE: words by enum value, ended by NULL */
    const char *ref;  /* ID(S): the kind it names, or NULL; "certificate" holders may be "firm" */
    int64_t min, max; /* of the stored number; both 0 = any */
    size_t offset;    /* of the member in the kind's struct */
    const char *doc;  /* one line for help and documentation */
    mf_unit unit;     /* HUNDREDTHS: of what; mf_field_unit knows it of the others */
} mf_field;

typedef struct mf_kind {
    const char *name; /* "reading"; also the view */
    bool of_firm;     /* belongs to the firm, not to one job */
    bool once;        /* at most one in force per job (or firm): a second is refused */
    const mf_field *fields;
    size_t n_fields;
    size_t size;        /* of the struct */
    size_t list_offset; /* of the pointer in mf_job; the count follows it */
    const char *doc;
} mf_kind;

/* All kinds in the order they are documented; *count is set. */
MF_API const mf_kind *mf_kinds(size_t *count);
/* NULL when there is no such kind. */
MF_API const mf_kind *mf_kind_named(const char *name);
/* By name or option; NULL when there is none. */
MF_API const mf_field *mf_field_named(const mf_kind *kind, const char *name);
/* The field by which others name a thing of this kind; NULL when they cannot. */
MF_API const mf_field *mf_kind_key(const mf_kind *kind);
/* Whether people say it, by an option or in a column: all but MF_F_BOOK. */
MF_API bool mf_field_is_typed(const mf_field *field);
/* True of the types that are kept as a number with a unit of its own: not YESNO. */
MF_API bool mf_field_is_number(mf_field_type type);
/* The unit of the number that is kept; MF_UNIT_COUNT = a plain number, or none. */
MF_API mf_unit mf_field_unit(const mf_field *field);

/* What a field holds, whatever its type. */
typedef struct mf_value {
    bool given;
    /* As mf_parsed has it; MF_NUM_NONE, MF_DAY_NONE, MF_MINUTE_NONE or 0 when not given. */
    int64_t number;
    const char *text; /* TEXT, ID, IDS as kept; CHOICE the word; else "". Belongs to the item. */
} mf_value;

enum { MF_VALUE_WORD = 16 }; /* a day, a time, yes or no, with the NUL */

MF_API mf_value mf_item_value(const mf_field *field, const void *item);
/* Puts a value, or that it is not given, into the item; a text is kept as the pointer it is. */
MF_API void mf_item_put(const mf_field *field, void *item, const mf_value *value);
/* The value as it is typed and stands in a body; "" when it is not given, or a number. */
MF_API const char *mf_value_word(const mf_field *field, const mf_value *value,
                                 char room[MF_VALUE_WORD]);
/* The items of a kind in a job, kind->size bytes each and *count of them; they belong
 * to the job. */
MF_API const void *mf_kind_items(const mf_job *job, const mf_kind *kind, size_t *count);
/* The day from which an item counts: the latest of its dates that cannot lie in the future
 * (MF_F_PAST), as what such a date tells was done by then; but for what befell it later on
 * (MF_F_LATER), which is not said of it on a day before. MF_DAY_NONE = it tells of no day
 * (a component, a work area), or of days to come alone (an assignment, a planned start). */
MF_API mf_day mf_item_day(const mf_kind *kind, const void *item);
/* The first field in which two items of a kind say something else, whoever logged them; NULL =
 * they say the same. */
MF_API const mf_field *mf_item_differs(const mf_kind *kind, const void *a, const void *b);
/* Whether a correction from one item to the other changed what an answer may rest on: anything but
 * names, numbers of papers and remarks. What befell the thing later on (MF_F_LATER) is no
 * correction where it is said for the first time. */
MF_API bool mf_field_corrected(const mf_kind *kind, const mf_field *field, const void *was,
                               const void *now);
/* Of the last correction of an entry what the entry said before, in any of its versions, where it
 * says otherwise now in something that decides: the oldest such version, an item of its kind. NULL
 * = there is none. */
MF_API const void *mf_corrected_from(const mf_job *job, const mf_correction *last);
/* How many items of a job, and of its firm, count only from a day after this one. */
MF_API size_t mf_job_after(const mf_job *job, mf_day day);
/* Index of word among choices, or -1. */
MF_API int mf_choice(const char *const *choices, const char *word);

/* Why typed text is no value of a field. The words are in forms/errors.words
 * as "error.slip.<name>". */
typedef enum mf_slip {
    MF_SLIP_NONE,
    MF_SLIP_EMPTY,         /* nothing where something is needed */
    MF_SLIP_ID,            /* not an id */
    MF_SLIP_DATE_FORM,     /* not YYYY-MM-DD */
    MF_SLIP_DATE_MISSING,  /* that date does not exist */
    MF_SLIP_DATE_FUTURE,   /* lies in the future */
    MF_SLIP_TIME,          /* not HH:MM */
    MF_SLIP_NUMBER,        /* no number */
    MF_SLIP_DECIMAL_COMMA, /* "1,0" */
    MF_SLIP_DECIMALS,      /* more decimals than are kept */
    MF_SLIP_RANGE,         /* outside min..max */
    MF_SLIP_CHOICE,        /* none of the words */
    MF_SLIP_YESNO,
    MF_SLIP_UNIT_G,       /* looks like g/cm2 */
    MF_SLIP_UNIT_UG,      /* looks like ug/cm2 */
    MF_SLIP_UNIT_UNKNOWN, /* a unit that is not known */
    MF_SLIP_PERCENT,      /* over 100 %, looks like ppm */
    MF_SLIP_PPM,          /* below 10 ppm, looks like % */
    MF_SLIP_QUALIFIER,    /* ">" or "<" where only an exact number is kept */
    MF_SLIP_CONTROL,      /* a control character or a line break */
    MF_SLIP_UTF8,         /* not UTF-8 */
    MF_SLIP_PLACE,        /* "US-" and no state or territory of ISO 3166-2 */
    MF_SLIP_DATE_FAR,     /* before 1900 or after 2200: a slip in the year */
    MF_SLIP_TIME_FUTURE,  /* a time of today that is still to come */
    MF_SLIP_COUNT
} mf_slip;

/* "date-future" and so on. */
MF_API const char *mf_slip_name(mf_slip slip);

/* A parsed number, in the units that mistfold/job.h names. */
typedef struct mf_parsed {
    int64_t number; /* DATE: the mf_day; TIME: minutes; CHOICE: index; YESNO: mf_tri */
    mf_qualifier qualifier;
} mf_parsed;

/* Reads what a person typed for a field (UTF-8 is checked by the caller for
 * TEXT). today is needed for MF_F_PAST. unit is the unit that goes with a
 * LOADING ("mg/cm2" when NULL or "": known are mg/cm2, ug/cm2 and, refused as
 * a slip, g/cm2). Exact: decimal text to integer, no floating point. */
MF_API mf_slip mf_field_parse(const mf_field *field, const char *text, const char *unit,
                              mf_day today, mf_parsed *out);

#ifdef __cplusplus
}
#endif
#endif
