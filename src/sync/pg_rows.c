/* pg_rows.c - rows in the binary form of COPY (PostgreSQL's manual, COPY, "Binary Format"):
 * nothing in them is quoted, and lengths are told. */
#include "sync/pg.h"

#include <string.h>

enum { HEAD = 19 }; /* the signature, and two numbers that are 0 */

static const char signature[12] = "PGCOPY\n\377\r\n";

/* Network byte order, size bytes. */
static void put_number(char *out, uint64_t number, int size)
{
    for (int i = size - 1; i >= 0; i--, number >>= 8)
        out[i] = (char)(unsigned char)(number & 0xff);
}

static uint64_t number_of(const char *bytes, int size)
{
    uint64_t number = 0;
    for (int i = 0; i < size; i++)
        number = number << 8 | (unsigned char)bytes[i];
    return number;
}

void mf_pg_int64(char out[8], int64_t number)
{
    put_number(out, (uint64_t)number, 8);
}

int64_t mf_pg_int64_of(const mf_pg_field *field)
{
    return field->len == 8 ? (int64_t)number_of(field->data, 8) : -1;
}

/* ---- writing -------------------------------------------------------------------------------- */

void mf_pg_rows_begin(mf_buf *out)
{
    static const char zeros[8] = {0};
    mf_buf_add(out, signature, HEAD - sizeof zeros);
    mf_buf_add(out, zeros, sizeof zeros);
}

void mf_pg_row(mf_buf *out, const mf_pg_field *fields, int n)
{
    char number[4];
    put_number(number, (uint64_t)n, 2);
    mf_buf_add(out, number, 2);
    for (int i = 0; i < n; i++) {
        put_number(number, fields[i].len, 4);
        mf_buf_add(out, number, 4);
        if (fields[i].len > 0)
            mf_buf_add(out, fields[i].data, fields[i].len);
    }
}

void mf_pg_rows_end(mf_buf *out)
{
    mf_buf_add(out, "\377\377", 2);
}

/* ---- reading -------------------------------------------------------------------------------- */

static size_t left(const mf_pg_rows *rows)
{
    return rows->bytes.len - rows->at;
}

static bool begin(mf_pg_rows *rows)
{
    const char *bytes = mf_buf_str(&rows->bytes);
    if (memcmp(bytes, signature, HEAD - 8) != 0)
        return false;
    size_t more = (size_t)number_of(bytes + HEAD - 4, 4);
    if (more > 0) /* an extension that this program does not know */
        return false;
    rows->at = HEAD;
    rows->begun = true;
    return true;
}

static bool take_fields(const mf_pg_rows *rows, size_t at, mf_pg_field *fields, int n, size_t *end)
{
    for (int i = 0; i < n; i++) {
        if (rows->bytes.len - at < 4)
            return false;
        uint64_t len = number_of(rows->bytes.data + at, 4);
        at += 4;
        bool none = len == 0xffffffff;
        if (!none && rows->bytes.len - at < len)
            return false;
        fields[i].data = none ? NULL : rows->bytes.data + at;
        fields[i].len = none ? 0 : (size_t)len;
        at += fields[i].len;
    }
    *end = at;
    return true;
}

bool mf_pg_rows_next(mf_pg_rows *rows, mf_pg_field *fields, int n, bool *row)
{
    *row = false;
    if (!rows->begun && left(rows) < HEAD)
        return true;
    if (!rows->begun && !begin(rows))
        return false;
    if (rows->ended || left(rows) < 2)
        return true;
    uint64_t count = number_of(rows->bytes.data + rows->at, 2);
    rows->ended = count == 0xffff;
    if (rows->ended)
        return true;
    if (count != (uint64_t)n)
        return false;
    *row = take_fields(rows, rows->at + 2, fields, n, &rows->at);
    return true;
}
