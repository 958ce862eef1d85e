/* db_words.h - what SQLite's result codes mean to a person. */
#ifndef MF_BOOK_DB_WORDS_H
#define MF_BOOK_DB_WORDS_H

#include <mistfold/err.h>

/* Fills err for an extended result code; number is the system's errno, message
 * SQLite's own words for codes without ours. */
mf_status mf_db_words(mf_err *err, const char *book, int code, int number, const char *message);

#endif
