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

/* The findings of the audit as a table, and every kind of which something was
 * logged. kind NULL = all kinds. no_names leaves out who lives there. */
mf_status mf_export_findings(const mf_cli *cli, const mf_job *job, const mf_sink *sink,
                             mf_err *err);
void mf_export_kinds(const mf_job *job, const char *kind, bool no_names, const mf_sink *sink);

/* RFC 4180. Text that a spreadsheet would take for a formula gets a ' before it. */
/* Appends text of a cell: a control, or what is no UTF-8, becomes '?'. Nobody can log
 * either, but a book from elsewhere may hold them. */
void mf_export_text(mf_buf *out, const char *text);
mf_sink mf_export_csv(mf_buf *out);
/* One JSON object a line, the members of docs/json.md and "kind". */
mf_status mf_export_jsonl(const mf_job *job, bool no_names, mf_buf *out, mf_err *err);
/* A workbook, a sheet a table. */
mf_status mf_export_xlsx(const mf_cli *cli, const mf_job *job, bool no_names, mf_buf *out,
                         mf_err *err);
/* RFC 5545: the work, and what is due. */
mf_status mf_export_ics(const mf_cli *cli, const mf_job *job, bool no_names, mf_buf *out,
                        mf_err *err);

#endif
