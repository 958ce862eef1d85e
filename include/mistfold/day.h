/* mistfold/day.h - civil dates without a clock.
 *
 * A day is the number of days since 1970-01-01 in the proleptic Gregorian
 * calendar. The judgment is told which day it is; it never asks a clock.
 * Days run from 0001-01-01 to 9999-12-31.
 */
#ifndef MISTFOLD_DAY_H
#define MISTFOLD_DAY_H

#include <mistfold/err.h>
#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef int32_t mf_day;

#define MF_DAY_NONE    INT32_MIN /* no date was given */
#define MF_DAY_TEXT    11        /* "YYYY-MM-DD" and a NUL */
#define MF_MINUTE_NONE (-1)      /* no time of day was given */
#define MF_MINUTE_TEXT 6         /* "HH:MM" and a NUL */

/* The day of an existing date; MF_DAY_NONE when it does not exist. */
MF_API mf_day mf_day_from(int year, int month, int day);

/* The parts of a day; day must not be MF_DAY_NONE. */
MF_API void mf_day_parts(mf_day day, int *year, int *month, int *dom);

/* Reads exactly "YYYY-MM-DD". Returns MF_DAY_NONE when the form is wrong or the
 * date does not exist; *well_formed (may be NULL) tells the two apart. */
MF_API mf_day mf_day_parse(const char *text, bool *well_formed);

/* Writes "YYYY-MM-DD", or "" for MF_DAY_NONE. */
MF_API void mf_day_text(mf_day day, char out[MF_DAY_TEXT]);

/* The same calendar date years later (or earlier). 29 February becomes 1 March
 * in a year without one: a term that runs years is not shortened by it. */
MF_API mf_day mf_day_add_years(mf_day day, int years);

/* Whether day lies between two others, both included; MF_DAY_NONE = always, still. A day
 * that nobody gave lies in what has not ended. */
MF_API bool mf_day_within(mf_day from, mf_day until, mf_day day);

/* 0 = Sunday ... 6 = Saturday. */
MF_API int mf_day_weekday(mf_day day);

/* Reads "HH:MM" (00:00 to 23:59) as minutes after midnight, or MF_MINUTE_NONE. */
MF_API int32_t mf_minute_parse(const char *text);
MF_API void mf_minute_text(int32_t minute, char out[MF_MINUTE_TEXT]);

#ifdef __cplusplus
}
#endif
#endif
