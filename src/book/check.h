/* check.h - proving that a book is unaltered: the parts of mf_book_check. */
#ifndef MF_BOOK_CHECK_H
#define MF_BOOK_CHECK_H

#include "book/room.h"

typedef struct mf_checker {
    mf_book *book;
    mf_db fresh; /* in memory: the same schema, filled anew from the journal */
    mf_book_report *out;
    char where[64];      /* of the first fault: an entry or a table */
    bool only_tables;    /* no fault so far is one of the journal */
    bool field_is_named; /* the first fault says which field */
} mf_checker;

/* Counts a fault and keeps the words of the first. */
void mf_fault(mf_checker *c, bool of_journal, const char *where, const char *format, ...)
    MF_PRINTF(4, 5);

/* Adds to the first fault what a derived row still says, if it is about entry. */
void mf_fault_detail(mf_checker *c, const char *entry, const char *format, ...) MF_PRINTF(3, 4);

/* The triggers, tables and views are there and as we made them. */
mf_status mf_check_schema(mf_checker *c, mf_err *err);
/* Every hash, every chain. */
mf_status mf_check_journal(mf_checker *c, mf_err *err);
/* Every derived row against the fresh one, both ways. */
mf_status mf_check_tables(mf_checker *c, mf_err *err);

#endif
