/* form.h - what papers for the clipboard share: a title with its code, lines to
 * write on, empty rows, feet. */
#ifndef MF_PAPER_FORM_H
#define MF_PAPER_FORM_H

#include "paper/rec.h"

/* One line to write on: a label below it, the value on it when it is known. */
typedef struct mf_form_line {
    const char *label; /* paper.<label> */
    const char *value; /* "" = left to the hand */
    float share;       /* of the width */
} mf_form_line;

/* Opens a sheet on the page: its title, paper.<id>; on the right a code with job, work area
 * ("" = none) and the name of the paper when there is a job. */
void mf_form_open(mf_rec *rec, const char *id, const char *paper, const char *area);
/* Below the title of a job's paper: that it was called off, if it was. */
void mf_form_called_off(mf_rec *rec);
/* Lines beside one another. A value too long for its line gets smaller, then more lines:
 * none is left out. */
void mf_form_lines(mf_rec *rec, const mf_form_line *lines, size_t n);
/* Job and address, renovator and date: what every clipboard paper asks. */
void mf_form_head(mf_rec *rec, const mf_area *area);
/* n empty rows. */
void mf_form_rows(mf_table *table, size_t n);
/* Signature of who paper.<words> names, and the date. */
void mf_form_signature(mf_rec *rec, const char *words);
/* A sentence with a dot or a mark before it, in the size of plain papers. */
void mf_form_bullet(mf_rec *rec, mf_mark mark, const char *text);
void mf_form_finish(mf_rec *rec, const char *id);

/* Person id of the job's certified renovator, "" when there is none. */
const char *mf_form_renovator(const mf_rec *rec);

#endif
