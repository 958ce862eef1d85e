/* Looking things up in the table of kinds. The rows are in kind_rows.c. */
#include "core/kind_rows.h"

#include "core/text.h"

const mf_kind *mf_kinds(size_t *count)
{
    *count = mf_kind_count;
    return mf_kind_rows;
}

const mf_kind *mf_kind_named(const char *name)
{
    for (size_t i = 0; i < mf_kind_count; i++) {
        if (mf_same(mf_kind_rows[i].name, name))
            return &mf_kind_rows[i];
    }
    return NULL;
}

bool mf_field_is_typed(const mf_field *field)
{
    return (field->flags & MF_F_BOOK) == 0;
}

const mf_field *mf_field_named(const mf_kind *kind, const char *name)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        if (mf_same(kind->fields[i].name, name))
            return &kind->fields[i];
    }
    for (size_t i = 0; i < kind->n_fields; i++) {
        if (mf_same(kind->fields[i].option, name))
            return &kind->fields[i];
    }
    return NULL;
}

const mf_field *mf_kind_key(const mf_kind *kind)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        if ((kind->fields[i].flags & MF_F_KEY) != 0)
            return &kind->fields[i];
    }
    return NULL;
}

const void *mf_kind_items(const mf_job *job, const mf_kind *kind, size_t *count)
{
    const void *items;
    const unsigned char *list = (const unsigned char *)job + kind->list_offset;
    memcpy(&items, list, sizeof items);
    memcpy(count, list + sizeof items, sizeof *count);
    return items;
}

/* The latest of its dates of what was done by then. */
static mf_day last_day(const mf_kind *kind, const void *item, bool later)
{
    mf_day last = MF_DAY_NONE; /* lies before every day */
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_field *field = &kind->fields[i];
        mf_day day;
        if (field->type != MF_F_DATE || (field->flags & MF_F_PAST) == 0 ||
            (!later && (field->flags & MF_F_LATER) != 0))
            continue;
        memcpy(&day, (const unsigned char *)item + field->offset, sizeof day);
        last = day > last ? day : last;
    }
    return last;
}

mf_day mf_item_day(const mf_kind *kind, const void *item)
{
    return last_day(kind, item, false);
}

static bool same_value(const mf_field *field, const void *a, const void *b)
{
    const mf_value of_a = mf_item_value(field, a), of_b = mf_item_value(field, b);
    return of_a.number == of_b.number && mf_same(of_a.text, of_b.text);
}

const mf_field *mf_item_differs(const mf_kind *kind, const void *a, const void *b)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (!same_value(&kind->fields[i], a, b))
            return &kind->fields[i];
    return NULL;
}

size_t mf_job_after(const mf_job *job, mf_day day)
{
    size_t after = 0, count;
    for (size_t k = 0; k < mf_kind_count; k++) {
        const mf_kind *kind = &mf_kind_rows[k];
        const unsigned char *items = mf_kind_items(job, kind, &count);
        for (size_t i = 0; i < count; i++)
            after += last_day(kind, items + i * kind->size, true) > day;
    }
    return after;
}

int mf_choice(const char *const *choices, const char *word)
{
    for (int i = 0; choices != NULL && choices[i] != NULL; i++) {
        if (mf_same(choices[i], word))
            return i;
    }
    return -1;
}

const char *mf_slip_name(mf_slip slip)
{
    static const char *const names[] = {
        "none",         "empty",   "id",       "date-form",     "date-missing",
        "date-future",  "time",    "number",   "decimal-comma", "decimals",
        "range",        "choice",  "yesno",    "unit-g",        "unit-ug",
        "unit-unknown", "percent", "ppm",      "qualifier",     "control",
        "utf8",         "place",   "date-far", "time-future",
    };
    _Static_assert(sizeof names / sizeof names[0] == MF_SLIP_COUNT, "one name a slip");
    return (unsigned)slip < MF_SLIP_COUNT ? names[slip] : "";
}
