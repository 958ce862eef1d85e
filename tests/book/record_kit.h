/* record_kit.h - a record of a job of the book, read back and held against the book. */
#ifndef TESTS_RECORD_KIT_H
#define TESTS_RECORD_KIT_H

#include "book_kit.h"
#include <mistfold/record.h>

/* As an older version wrote it when bare: without the hashes. */
static inline mf_record *kit_record(kit *k, const char *id, bool bare)
{
    mf_job *job = NULL;
    mf_links *links = NULL;
    mf_bytes json = {0};
    mf_record *record = NULL;
    assert_int_equal(mf_book_links(k->book, id, &job, &links, &k->err), MF_OK);
    const mf_record_ask ask = {.job = job,
                               .today = k->now.today,
                               .head = links->head,
                               .printed_at = "2026-09-25 10:00 UTC",
                               .links = bare ? NULL : links};
    assert_int_equal(mf_record_write(&json, &ask, &k->err), MF_OK);
    mf_status status = mf_record_read(&record, (const char *)json.data, json.len, &k->err);
    if (status != MF_OK)
        print_error("%s: %s\n", k->err.where, k->err.what);
    assert_int_equal(status, MF_OK);
    mf_bytes_free(&json);
    mf_book_links_free(links);
    mf_book_job_free(job);
    return record;
}

/* What was told: a line each, "2 reading office/12 result 1 2". */
static inline void kit_add_diff(const mf_record_diff *diff, void *data)
{
    char *out = data;
    size_t len = strlen(out);
    snprintf(out + len, 2000 - len, "%d %s %s%s%s%s%s%s%s\n", diff->change, diff->kind, diff->entry,
             diff->field[0] ? " " : "", diff->field, diff->field[0] ? " " : "", diff->was,
             diff->field[0] ? " " : "", diff->is);
}

/* All that is told of the record, and how its head stands. */
static inline void kit_differs(kit *k, const mf_record *record, mf_head_found head,
                               const char *want)
{
    mf_job *job = NULL;
    char told[2000] = "";
    mf_head_found found = MF_HEAD_UNTOLD;
    assert_int_equal(mf_book_job(k->book, record->job->id, &job, &k->err), MF_OK);
    assert_int_equal(mf_record_compare(record, k->book, job, kit_add_diff, told, &k->err), MF_OK);
    assert_string_equal(told, want);
    assert_int_equal(mf_record_head(record, k->book, &found, &k->err), MF_OK);
    assert_int_equal(found, head);
    mf_book_job_free(job);
}

#endif
