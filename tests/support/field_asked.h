/* field_asked.h - a job put to the door of the field page as it is built into this program,
 * every question of it asked. What was asked and answered is written down, for the same door in
 * a browser's machine to be held against (tests/field/same.mjs). */
#ifndef MF_TESTS_FIELD_ASKED_H
#define MF_TESTS_FIELD_ASKED_H

#include "base/mem.h"
#include "field/field.h"
#include <mistfold/job.h>

/* A request of a day at 14:00; more are further members such as ",\"area\":\"A1\"". It and the
 * reply are added to asked (may be NULL), a line each. */
const char *field_asked(mf_field_page *page, const char *what, const char *day, const char *more,
                        mf_buf *asked);

/* Writes FOLDER/NAME.entries and FOLDER/NAME.asked; false when that failed. */
bool field_asked_all(const char *folder, const char *name, const mf_job *job);

/* What was asked of a file of entries, into the two files that same.mjs reads. */
bool field_asked_write(const char *folder, const char *name, const mf_buf *entries,
                       const mf_buf *asked);

#endif
