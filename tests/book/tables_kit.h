/* tables_kit.h - all views and tables made from the journal, as one hash. */
#ifndef TESTS_TABLES_KIT_H
#define TESTS_TABLES_KIT_H

#include "base/digest.h"
#include "book/room.h"
#include "book_kit.h"

/* The views are for others: the book's own connection reads none. */
static inline void kit_add_table(mf_buf *out, mf_book *book, const char *table, const char *order)
{
    sqlite3 *other = NULL;
    sqlite3_stmt *stmt = NULL;
    char sql[120];
    int rc;
    snprintf(sql, sizeof sql, "SELECT * FROM \"%s\" ORDER BY %s", table, order);
    assert_int_equal(sqlite3_open(sqlite3_db_filename(book->db.handle, "main"), &other), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(other, sql, -1, &stmt, NULL), SQLITE_OK);
    mf_buf_printf(out, "%s\n", table);
    while ((rc = sqlite3_step(stmt)) == SQLITE_ROW) {
        for (int i = 0; i < sqlite3_column_count(stmt); i++)
            mf_buf_printf(out, "%d=%s|", sqlite3_column_type(stmt, i),
                          (const char *)sqlite3_column_text(stmt, i));
        mf_buf_text(out, "\n");
    }
    assert_int_equal(rc, SQLITE_DONE);
    sqlite3_finalize(stmt);
    sqlite3_close(other);
}

static inline void kit_tables_hash(mf_book *book, char out[MF_DIGEST_HEX])
{
    size_t count = 0;
    mf_buf text = {0};
    const mf_kind *kinds = mf_kinds(&count);
    for (size_t i = 0; i < count; i++)
        kit_add_table(&text, book, kinds[i].name, "entry");
    kit_add_table(&text, book, "correction", "entry");
    kit_add_table(&text, book, "place", "job, nth");
    kit_add_table(&text, book, "corrects", "device, seq");
    kit_add_table(&text, book, "held", "job");
    kit_add_table(&text, book, "due", "job, what, entry");
    assert_false(text.failed);
    assert_true(mf_digest_hex(text.data, text.len, out));
    mf_buf_free(&text);
}

#endif
