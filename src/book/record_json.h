/* record_json.h - what writing and reading a record share. */
#ifndef MF_BOOK_RECORD_JSON_H
#define MF_BOOK_RECORD_JSON_H

#include "base/json.h"

#include <mistfold/record.h>

#define MF_RECORD_FORMAT "mistfold-record"
/* 2 adds by what the record is held against the book: chains, hashes, others. */
#define MF_RECORD_VERSION 2

/* The findings of the job on a day; NULL when memory ran out. */
json_t *mf_record_findings(const mf_job *job, mf_day today);

/* {kind: [{"entry", "at", "by", "corrected_by", "body"}]}; NULL when memory ran out. */
json_t *mf_record_entries(const mf_job *job);

/* The words of mf_integrity, in its order, ended by NULL. */
extern const char *const mf_record_integrity[];

#endif
