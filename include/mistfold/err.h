/* mistfold/err.h - how a call says that it failed.
 *
 * Every call that can fail returns an mf_status and takes, last, an mf_err that
 * it fills when it fails. The mf_err may be NULL when the caller does not want
 * the words. On success it is left alone. A message has four parts, so that one
 * line can say all a person needs:
 *
 *   where   the file and line, the option or the entry ("readings.csv:17")
 *   what    what is wrong there ("the date 2026-02-30 does not exist")
 *   why     the rule behind it, may be empty ("dates are YYYY-MM-DD")
 *   mend    what to do ("write 2026-02-28 or 2026-03-01")
 *
 * The judgment room (core) never writes words: it returns codes.
 */
#ifndef MISTFOLD_ERR_H
#define MISTFOLD_ERR_H

#include <stddef.h>

#if defined(__GNUC__)
#define MF_API               __attribute__((visibility("default")))
#define MF_PRINTF(fmt, args) __attribute__((format(printf, fmt, args)))
#else
#define MF_API
#define MF_PRINTF(fmt, args)
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* The numbers are the exit statuses of the program. */
typedef enum mf_status {
    MF_OK = 0,    /* yes, done */
    MF_NO = 1,    /* a question was asked and the answer is no */
    MF_USAGE = 2, /* the call or the command line is wrong */
    MF_INPUT = 3, /* what was given cannot be accepted; nothing was written */
    MF_SYSTEM = 4 /* the book, a file, memory or the machine failed */
} mf_status;

enum { MF_ERR_PARTS = 3, MF_ERR_NAME = 32, MF_ERR_PART = 160 };

/* The texts are English. What a person may meet at the work area has a name too,
 * such as "slip.date-form", with the parts its sentence speaks of (what was typed,
 * what there is): mf_words_error says it in another language. */
typedef struct mf_err {
    mf_status status;
    char where[160];
    char what[320];
    char why[320];
    char mend[320];
    char name[MF_ERR_NAME]; /* "" = English only */
    char part[MF_ERR_PARTS][MF_ERR_PART];
} mf_err;

/* Bytes that the callee allocated and the caller owns. */
typedef struct mf_bytes {
    unsigned char *data;
    size_t len;
} mf_bytes;

/* Frees data and empties the struct. Accepts NULL and an empty one. */
MF_API void mf_bytes_free(mf_bytes *bytes);

#ifdef __cplusplus
}
#endif
#endif
