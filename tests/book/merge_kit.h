/* merge_kit.h - books of several devices that began as copies of one. */
#ifndef MF_TESTS_MERGE_KIT_H
#define MF_TESTS_MERGE_KIT_H

#include "tables_kit.h"

static inline int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_house(&k);
    kit_reading(&k, "1", "1.4"); /* office/10 */
    *state = &k;
    return 0;
}

/* Another device's book as a kit of its own in the same folder. */
static inline kit copied(kit *k, const char *device)
{
    char name[40], path[128];
    kit other = {.now = k->now};
    snprintf(name, sizeof name, "%s.book", device);
    kit_in_folder(k, name, path);
    assert_int_equal(mf_book_copy(k->book, path, device, NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&other.book, path, &k->err), MF_OK);
    snprintf(other.folder, sizeof other.folder, "%s", k->folder);
    snprintf(other.path, sizeof other.path, "%.95s", path);
    return other;
}

static inline mf_status merge(kit *k, const char *path, mf_merge_report *report)
{
    k->err = (mf_err){0};
    return mf_book_merge(k->book, path, NULL, NULL, report, &k->err);
}

static inline void correct(kit *k, const char *entry, const char *result)
{
    mf_draft *draft = kit_draft(k, "reading", "result", result, NULL);
    assert_int_equal(mf_book_correct(k->book, entry, draft, "misread", &k->now, k->id, &k->err),
                     MF_OK);
    mf_draft_free(draft);
}

static inline void check_good(kit *k, int64_t entries)
{
    mf_book_report report;
    mf_status status = mf_book_check(k->book, &report, &k->err);
    if (status != MF_OK)
        print_error("%s\n", k->err.what);
    assert_int_equal(status, MF_OK);
    assert_int_equal(report.entries, entries);
}

#endif
