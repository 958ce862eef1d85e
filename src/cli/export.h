/* export.h - a job as tables for other programs. Each format is a file of its own. */
#ifndef MF_CLI_EXPORT_H
#define MF_CLI_EXPORT_H

#include "cli/json.h"

/* A cell: text in the text, and whether it is a number as it stands. */
typedef struct mf_cell {
    const char *text;
    bool number;
} mf_cell;

/* Where tables go. The text of a cell lives only until the call returns. */
typedef struct mf_sink {
    void *data;
    /* Begins a table; heads has n columns. */
    void (*table)(void *data, const char *name, const char *const *heads, size_t n);
    void (*row)(void *data, const mf_cell *cells, size_t n);
} mf_sink;

/* export_hide.c: --no-names. Fields tell by their flags (MF_F_WHO, MF_F_HOME) what is left out of a
 * job; a name or an address that was ever logged in them is left out of all other texts as well,
 * of any job, capitals and accents aside. */
#define MF_LEFT_OUT "(left out)"
/* hide_names.c: those of all jobs of the book, as a name of one stands in the texts of another.
 * End it in any case. on false = none. */
typedef struct mf_name mf_name;
typedef struct mf_names {
    mf_buf words;  /* each ended by a NUL */
    mf_name *name; /* n of them, in an order of their letters */
    size_t n;
} mf_names;
mf_status mf_names_begin(mf_names *names, mf_cli *cli, bool on, mf_err *err);
void mf_names_end(mf_names *names);
/* How many bytes the longest one takes that stands at this place of the text; 0 = none does. */
size_t mf_names_at(const mf_names *names, const char *text, const char *at);
/* export_hide.c: appends what is left out by any entry of the book, each ended by a NUL. */
mf_status mf_hide_words(mf_buf *words, const mf_cli *cli, mf_err *err);

typedef struct mf_hide {
    const mf_names *names; /* of all jobs, or NULL */
    bool any;              /* reads what any of them says */
    bool on;
    bool home;            /* the address of the work is left out: it is its owner's, or may be */
    const mf_field *crew; /* the name of one of the crew */
    mf_buf words, units;  /* what is left out, each ended by a NUL */
} mf_hide;
/* Reads the job's entries, which cli->book holds. End it in any case. */
mf_status mf_hide_begin(mf_hide *hide, const mf_cli *cli, const mf_job *job, bool on, mf_err *err);
void mf_hide_end(mf_hide *hide);
bool mf_hide_field(const mf_hide *hide, const mf_field *field);
/* The text of a cell: of a field, or (NULL) of none. What is changed is kept in the arena; without
 * memory nothing is shown. */
const char *mf_hide_cell(const mf_hide *hide, const mf_field *field, const char *text,
                         mf_arena *arena);
/* The same finding, which does not say the unit. */
mf_finding mf_hide_finding(const mf_hide *hide, const mf_finding *finding);
/* Whether the address of the work is that of its owner, or may be: by any opening of the job. */
bool mf_export_at_home(const mf_job *job);

/* The findings of the audit as a table, and every kind of which something was
 * logged. kind NULL = all kinds. */
mf_status mf_export_findings(const mf_cli *cli, const mf_job *job, const mf_hide *hide,
                             const mf_sink *sink, mf_err *err);
/* The heads alone. */
void mf_export_findings_table(const mf_sink *sink);
/* Which kinds: of many jobs those of the firm come once, not in each. */
typedef enum mf_scope { MF_SCOPE_ALL, MF_SCOPE_JOB, MF_SCOPE_FIRM } mf_scope;
void mf_export_kinds(const mf_job *job, const char *kind, mf_scope scope, const mf_hide *hide,
                     const mf_sink *sink);

/* export_jobs.c: a row a job, with the answer to each question as a gate gives it ("altered": not
 * answered), and a row for each thing that is due. Each table is its heads alone. */
void mf_export_jobs_table(const mf_sink *sink);
mf_status mf_export_job(const mf_cli *cli, const mf_job *job, const mf_hide *hide,
                        const mf_sink *sink, mf_err *err);
void mf_export_due_table(const mf_sink *sink);
mf_status mf_export_due(const mf_cli *cli, const mf_job *job, const mf_sink *sink, mf_err *err);
/* What is due of the firm's certificates. */
mf_status mf_export_due_firm(const mf_cli *cli, const mf_job *firm, const mf_sink *sink,
                             mf_err *err);

/* Tables of many jobs: the id of the job comes first in each row, and heads that came before are
 * left out, so that the tables of a kind are one. */
typedef struct mf_many {
    const mf_sink *into;
    const char *job;
    char headed[48]; /* the table that was begun last, for a sink that has one alone */
} mf_many;
mf_sink mf_export_many(mf_many *many);

/* RFC 4180. Text that a spreadsheet would take for a formula gets a ' before it. */
/* Appends text of a cell: a control, or what is no UTF-8, becomes '?'. Nobody can log
 * either, but a book from elsewhere may hold them. */
void mf_export_text(mf_buf *out, const char *text);
mf_sink mf_export_csv(mf_buf *out);
/* One JSON object a line, the members of docs/json.md, "kind" and "job". */
mf_status mf_export_jsonl(const mf_job *job, mf_scope scope, const mf_hide *hide, mf_buf *out,
                          mf_err *err);
/* A workbook being made, a sheet a table; a table of a name that came before goes on. */
typedef struct mf_xlsx mf_xlsx;
mf_status mf_xlsx_new(mf_xlsx **out, mf_err *err);
mf_sink mf_xlsx_sink(mf_xlsx *book);
/* Appends its bytes. */
mf_status mf_xlsx_end(mf_xlsx *book, mf_buf *out, mf_err *err);
void mf_xlsx_free(mf_xlsx *book); /* accepts NULL */

/* RFC 5545: a calendar's head and end; the work of a job and what is due of it; the last day of
 * each of the firm's certificates. */
void mf_ics_begin(mf_buf *out);
void mf_ics_job(const mf_cli *cli, const mf_job *job, const mf_hide *hide, mf_buf *out);
void mf_ics_firm(const mf_cli *cli, const mf_job *firm, mf_buf *out);
void mf_ics_end(mf_buf *out);

#endif
