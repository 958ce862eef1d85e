#include "book/pair.h"

#include <string.h>

enum { KEYS = 2, SQL = 2 }; /* how many columns name a row; which one is compared */

mf_status mf_pair_begin(mf_pair *out, mf_db *left, mf_db *right, const char *sql, mf_err *err)
{
    *out = (mf_pair){.has_left = true, .has_right = true};
    out->more_left = out->more_right = true;
    mf_status status = mf_stmt_get(&out->left, left, sql, err);
    return status == MF_OK ? mf_stmt_get(&out->right, right, sql, err) : status;
}

void mf_pair_end(mf_pair *pair)
{
    mf_stmt_done(&pair->left);
    mf_stmt_done(&pair->right);
}

static int compare(mf_pair *pair)
{
    if (!pair->more_left || !pair->more_right)
        return pair->more_left ? -1 : 1;
    int order = 0;
    for (int i = 0; order == 0 && i < KEYS; i++)
        order = strcmp(mf_stmt_column(&pair->left, i), mf_stmt_column(&pair->right, i));
    return order;
}

mf_status mf_pair_next(mf_pair *pair, bool *row, mf_err *err)
{
    mf_status status = MF_OK;
    if (pair->has_left && pair->more_left)
        status = mf_stmt_step(&pair->left, &pair->more_left, err);
    if (status == MF_OK && pair->has_right && pair->more_right)
        status = mf_stmt_step(&pair->right, &pair->more_right, err);
    *row = status == MF_OK && (pair->more_left || pair->more_right);
    if (!*row)
        return status;
    int order = compare(pair);
    pair->has_left = order <= 0;
    pair->has_right = order >= 0;
    return MF_OK;
}

bool mf_pair_same(mf_pair *pair)
{
    sqlite3_stmt *l = pair->left.handle, *r = pair->right.handle;
    int type = sqlite3_column_type(l, SQL);
    if (type != sqlite3_column_type(r, SQL))
        return false;
    if (type == SQLITE_NULL)
        return true;
    if (type == SQLITE_INTEGER)
        return sqlite3_column_int64(l, SQL) == sqlite3_column_int64(r, SQL);
    const void *a = sqlite3_column_blob(l, SQL), *b = sqlite3_column_blob(r, SQL);
    int n = sqlite3_column_bytes(l, SQL);
    return n == sqlite3_column_bytes(r, SQL) && (n == 0 || memcmp(a, b, (size_t)n) == 0);
}
