/* tables_kit.h - all derived tables of a book as one hash. */
#ifndef TESTS_TABLES_KIT_H
#define TESTS_TABLES_KIT_H

#include "base/digest.h"
#include "book/room.h"
#include "book_kit.h"

static inline void kit_add_table(mf_buf *out, mf_book *book, const char *table, const char *order)
{
    mf_stmt stmt;
    char sql[120];
    bool row = true;
    snprintf(sql, sizeof sql, "SELECT * FROM \"%s\" ORDER BY %s", table, order);
    assert_int_equal(mf_stmt_get(&stmt, &book->db, sql, NULL), MF_OK);
    mf_buf_printf(out, "%s\n", table);
    for (;;) {
        assert_int_equal(mf_stmt_step(&stmt, &row, NULL), MF_OK);
        if (!row)
            break;
        for (int i = 0; i < sqlite3_column_count(stmt.handle); i++)
            mf_buf_printf(out, "%d=%s|", sqlite3_column_type(stmt.handle, i),
                          mf_stmt_column(&stmt, i));
        mf_buf_text(out, "\n");
    }
    mf_stmt_done(&stmt);
}

static inline void kit_tables_hash(mf_book *book, char out[MF_DIGEST_HEX])
{
    size_t count = 0;
    mf_buf text = {0};
    const mf_kind *kinds = mf_kinds(&count);
    for (size_t i = 0; i < count; i++)
        kit_add_table(&text, book, kinds[i].name, "entry");
    kit_add_table(&text, book, "correction", "entry");
    kit_add_table(&text, book, "place", "job");
    kit_add_table(&text, book, "due", "job, what, entry");
    assert_false(text.failed);
    assert_true(mf_digest_hex(text.data, text.len, out));
    mf_buf_free(&text);
}

#endif
