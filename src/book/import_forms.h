/* import_forms.h - how an export writes numbers and dates, when it was said to be another way
 * than ours. What is not of the form that was named stays as it is, and is refused like any
 * other slip. */
#ifndef MF_BOOK_IMPORT_FORMS_H
#define MF_BOOK_IMPORT_FORMS_H

#include "book/import.h"

enum { MF_FORM_TEXT = 40 };
/* The cell of that field as it is typed here: itself, or room. */
const char *mf_import_form(const mf_import *in, const mf_field *field, const char *text,
                           char room[MF_FORM_TEXT]);

/* MF_INPUT when the cell may mean another number than it reads, under a decimal comma: a number
 * that its comma cut in two, a sign that may stand between thousands. */
mf_status mf_import_doubt(const mf_import *in, const mf_field *field, size_t row, size_t column,
                          mf_err *err);

#endif
