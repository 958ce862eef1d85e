/* file_kind.h - what a file is, by what is in it: a name proves nothing. */
#ifndef MF_BASE_FILE_KIND_H
#define MF_BASE_FILE_KIND_H

#include <mistfold/err.h>
#include <stdbool.h>
#include <stddef.h>

typedef enum mf_file_kind {
    MF_FILE_EMPTY,
    MF_FILE_BOOK, /* a book, or an SQLite file that may be one */
    MF_FILE_LOG,  /* what SQLite keeps beside a book: -wal, -shm, -journal */
    MF_FILE_KEY,  /* PKCS #12, PEM, DER: a key or a certificate */
    MF_FILE_PDF,
    MF_FILE_WORKBOOK,
    MF_FILE_PICTURE,
    MF_FILE_TEXT,
    MF_FILE_OTHER,
    MF_FILE_KINDS
} mf_file_kind;

/* "SQLite format 3" with this number as its application is a book ("mfld"). */
#define MF_APPLICATION_ID 0x6d666c64

/* Of the len bytes of a whole file. */
mf_file_kind mf_file_kind_of(const unsigned char *bytes, size_t len);

/* MF_INPUT for a name that SQLite uses for the log of a book beside it (X.book-wal of
 * X.book), also when nothing stands there yet: SQLite would read it into the book. */
mf_status mf_file_no_log(const char *path, mf_err *err);
/* MF_INPUT when such a log lies beside a place where no book is yet: SQLite would read that
 * of an earlier one into the new one. */
mf_status mf_file_no_log_beside(const char *path, mf_err *err);

#endif
