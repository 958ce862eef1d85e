/* What a correction changed that an answer may rest on. A failed sample whose day, length or room
 * is put right in the file may no longer have failed: whoever relies on the answer is told (40 CFR
 * 745.86(a)). By presumption every field decides, so that a new one is told of, too. */
#include "core/corrected.h"

#include "core/text.h"
#include <mistfold/kind.h>

/* Of these no answer is made; field NULL = of the whole kind. */
static const struct {
    const char *kind, *field;
} decides_nothing[] = {
    {"intake", NULL},        {"sealed", NULL},         {"attachment", NULL}, {"invitation", NULL},
    {"fixture", NULL},       {"firm", NULL},           {"house", "end"},     {"opening", "storey"},
    {"opening", "width_in"}, {"opening", "height_in"},
};

/* A text is a name, the number of a paper or a remark, but for these. The name of who is told is
 * that of who may sign for it, and an owner's address says whether the owner lives there. */
static const char *const deciding_texts[] = {"place", "room",   "elevation",     "address",
                                             "unit",  "signer", "value",         "topics",
                                             "what",  "method", "visits_all_by", "name"};

static bool text_decides(const mf_field *field)
{
    for (size_t i = 0; i < sizeof deciding_texts / sizeof deciding_texts[0]; i++)
        if (mf_same(deciding_texts[i], field->name))
            return true;
    return false;
}

static bool kind_decides(const char *kind, const char *field)
{
    for (size_t i = 0; i < sizeof decides_nothing / sizeof decides_nothing[0]; i++)
        if (mf_same(decides_nothing[i].kind, kind) &&
            (decides_nothing[i].field == NULL || mf_same(decides_nothing[i].field, field)))
            return false;
    return true;
}

static bool decides(const mf_kind *kind, const mf_field *field)
{
    return (field->type != MF_F_TEXT || text_decides(field)) &&
           kind_decides(kind->name, field->name);
}

bool mf_field_corrected(const mf_kind *kind, const mf_field *field, const void *was,
                        const void *now)
{
    const mf_value before = mf_item_value(field, was), after = mf_item_value(field, now);
    bool said_first = !before.given && (field->flags & MF_F_LATER) != 0;
    return decides(kind, field) && !said_first &&
           (before.number != after.number || !mf_same(before.text, after.text));
}

static bool differs(const mf_kind *kind, const void *was, const void *now)
{
    for (size_t i = 0; was != NULL && i < kind->n_fields; i++)
        if (mf_field_corrected(kind, &kind->fields[i], was, now))
            return true;
    return false;
}

const void *mf_corrected_from(const mf_job *job, const mf_correction *last)
{
    const mf_kind *kind = mf_kind_named(mf_or_empty(last->kind));
    for (size_t i = 0; kind != NULL && last->now != NULL && i < job->n_correction; i++) {
        const mf_correction *it = &job->correction[i];
        if (!mf_same(it->target, last->target) || !mf_same(it->kind, last->kind))
            continue;
        if (differs(kind, it->was, last->now))
            return it->was;
        if (differs(kind, it->now, last->now)) /* of two side by side the one that was settled */
            return it->now;
    }
    return NULL;
}

bool mf_corrected_away(const mf_correction *last)
{
    return !mf_given(last->after) && mf_kind_named(mf_or_empty(last->kind)) != NULL &&
           kind_decides(last->kind, NULL);
}
