/* Looking up the limit in force on a day. The numbers are in limit_rows.c. */
#include "core/limit_rows.h"

#include "core/text.h"

const mf_limit *mf_limit_rows(size_t *count)
{
    *count = mf_limit_table_count;
    return mf_limit_table;
}

const mf_limit *mf_limit_on(mf_limit_id id, mf_day day)
{
    for (size_t i = 0; i < mf_limit_table_count; i++) {
        const mf_limit *row = &mf_limit_table[i];
        if (row->id == id && mf_same(row->place, "US") && mf_day_within(row->from, row->until, day))
            return row;
    }
    return NULL;
}

bool mf_limit_holds(const mf_limit *row, int64_t value)
{
    if (row == NULL)
        return false;
    switch (row->cmp) {
    case MF_LT:
        return value < row->value;
    case MF_LE:
        return value <= row->value;
    case MF_GE:
        return value >= row->value;
    case MF_GT:
        return value > row->value;
    }
    return false;
}

mf_limit_id mf_limit_named(const char *name)
{
    for (size_t i = 0; i < mf_limit_table_count; i++) {
        if (mf_same(mf_limit_table[i].name, name))
            return mf_limit_table[i].id;
    }
    return MF_LIMIT_COUNT;
}

const char *mf_cmp_text(mf_cmp cmp)
{
    static const char *const texts[] = {"<", "<=", ">=", ">"};
    return (unsigned)cmp < sizeof texts / sizeof texts[0] ? texts[cmp] : "";
}

const char *mf_status_of_fact_text(mf_status_of_fact status)
{
    switch (status) {
    case MF_VERIFIED:
        return "verified";
    case MF_SECONDARY:
        return "secondary";
    case MF_MEMORY:
        return "from memory";
    case MF_DERIVED:
        return "derived";
    }
    return "";
}
